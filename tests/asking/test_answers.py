"""What came back: changed or not, taken or not, and the spec with it in."""

from __future__ import annotations

from io import BytesIO

import pytest
from pypdf import PdfReader

from drafting.asking.answers import reply
from drafting.asking.edit import written_in
from drafting.errors import Refused
from drafting.model.load import checked, load
from drafting.reports.replies import replies_text
from tests.asking.filling import by_pypdf
from tests.asking.test_form import FORM, SPEC, C


def faults(text):
    try:
        load(checked(text.encode(), "answered"))
    except Refused as refused:
        return refused.faults
    return ()


def back(values, c=C):
    fields = PdfReader(BytesIO(by_pypdf(FORM, values))).get_fields()
    told = {n: (str(f.get("/V") or ""), str(f.get("/TU") or "")) for n, f in fields.items()}
    return reply(c, told, "a.pdf", faults)


def asks(field):
    """The number of the question that a field answers."""
    fields = PdfReader(BytesIO(FORM)).get_fields()
    return next(n for n, f in fields.items() if str(f.get("/TU", "")).endswith(f"({field})"))


def test_an_untouched_form_changes_nothing():
    r = back({})
    assert (r.changed, r.answered, r.unread, r.quote) == ((), (), (), ())
    assert r.spec == SPEC
    assert "Nothing that meets the machine was changed" in replies_text([r])


@pytest.mark.parametrize("same", ["1 1/4", "31.75 mm", "1-1/4 in", "1.250", " 1.25 "])
def test_the_same_size_in_other_words_is_no_change(same):
    assert back({"rod_mount.pin": same}).changed == ()


def test_a_size_that_meets_the_machine_is_the_first_line():
    r = back({"rod_mount.gap": "1 5/8", "quote.builder": "Tarn Works"})
    (k,) = r.changed
    assert (k.field, k.asked, k.answered, k.meets) == ("rod_mount.gap", "1.5", "1 5/8", True)
    first, second = replies_text([r]).splitlines()[:2]
    assert first.startswith("CHANGED WHERE IT MEETS THE MACHINE")
    assert "1 5/8" in second
    c = load(checked(r.spec.encode(), "answered"))
    assert c.value("rod_mount.gap").value == pytest.approx(41.275)
    assert c.value("rod_mount.gap").origin == "builder"
    assert c.spec.origin("rod_mount.gap").note == "Tarn Works"


def test_bore_and_material_changed_do_not_meet_the_machine():
    r = back({"cylinder.bore": "3 5/8", "cylinder.seals": "NBR"})
    assert [(k.field, k.meets) for k in r.changed] == [
        ("cylinder.bore", False), ("cylinder.seals", False),
    ]  # fmt: skip
    assert replies_text([r]).startswith("Nothing that meets the machine was changed")


def test_tolerances_and_answers_go_into_the_spec_with_their_origin():
    r = back({"rod_mount.pin.tolerance": "+0.002 -0 in", asks("cylinder.fluid"): "ISO VG 46",
              asks("cylinder.working_pressure"): "2,500 psi", asks("quantity"): "3"})  # fmt: skip
    c = load(checked(r.spec.encode(), "answered"))
    assert c.tolerances["rod_mount.pin"].upper == pytest.approx(0.0508)
    assert c.spec.word("cylinder.fluid") == "ISO VG 46"
    assert c.spec.number("cylinder.working_pressure") == pytest.approx(17.2369, abs=1e-3)
    assert c.spec.number("quantity") == 3
    assert {o.kind for o in c.spec.origins} == {"builder"}
    assert r.unread == ()


def test_what_no_spec_takes_is_told_and_the_rest_is_taken():
    r = back({asks("duty.push"): "as hard as it can", asks("cylinder.fluid"): "water glycol",
              "rod_mount.pin": "1 3/8"})  # fmt: skip
    assert {u.field for u in r.unread} == {"duty.push", "rod_mount.pin"}
    assert "does not enter a hole" in next(u.why for u in r.unread if u.field == "rod_mount.pin")
    c = load(checked(r.spec.encode(), "answered"))
    assert c.spec.word("cylinder.fluid") == "water glycol"
    assert c.value("rod_mount.pin").value == pytest.approx(31.75)


@pytest.mark.parametrize(("change", "field"), [
    (('"WW-0417"', '"WW-0418"'), "drawing.number"), (('revision = "B"', 'revision = "C"'),
     "drawing.revision"), (("width = 3.5", "width = 3.6"), "drawing.input_sha256"),
])  # fmt: skip
def test_a_form_of_another_drawing_is_refused(change, field):
    other = load(checked(SPEC.replace(*change).encode(), "other.toml"))
    with pytest.raises(Refused) as caught:
        back({}, other)
    assert field in [f.field for f in caught.value.faults]


def test_builders_stand_beside_each_other():
    one = back({"quote.builder": "Tarn Works", "quote.price": "412 EUR", "rod_mount.gap": "1 5/8"})
    two = back({"quote.builder": "Fell & Sons", "quote.price": "389 EUR", "quote.weeks": "9"})
    lines = replies_text([one, two]).splitlines()
    row = next(line for line in lines if line.startswith("Price each"))
    assert row.index("412") < row.index("389")
    row = next(line for line in lines if "(1.5)" in line)
    assert "1 5/8" in row
    assert "as asked" in row


def test_comments_and_order_stay_and_an_old_origin_is_replaced():
    text = ('# measured in the shed\ntitle = "Ram"\nunits = "in"  # all of it\n\n[cylinder]\n'
            'bore = 2 # worn\n\n[[origin]]\nfield = "cylinder.bore"\nfrom = "measured"\n\n'
            '[[extra_port]]\nend = "base"\n')  # fmt: skip
    values = {"cylinder.bore": "2 1/16", "extra_port[1].clock": "3:00", "duty.lifts_people": "no",
              "rod_mount.bolts.hole": "0.5"}  # fmt: skip
    out = written_in(text, values, "T")
    assert "# measured in the shed" in out
    assert "# worn" in out
    assert out.count('field = "cylinder.bore"') == 1
    assert 'from = "measured"' not in out
    assert "lifts_people = false" in out
    assert 'clock = "3:00"' in out
    assert 'bolts = {hole = "0.5"}' in out

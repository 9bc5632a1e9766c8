"""Sizing: that what it proposes does the duty, by formulas beside it, and closes in the model.

Sources: areas times pressures and continuity by hand; Euler's load of the rod alone as a lower
bound; the series of the standards' tables; the model's own closing of the axial stack.
"""

import json
from dataclasses import replace
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.cli import main
from drafting.errors import Refused
from drafting.model.catalog import mount_types
from drafting.model.load import load, read
from drafting.sizing.candidates import lay_out, pairs
from drafting.sizing.duty import DutyFile, duty_of, read_duty, sized_mounts
from drafting.sizing.size import FRICTION_SPARE, size
from drafting.sizing.take import PIN_NOTE, take
from drafting.spec.read import read_document
from drafting.standards.table import table
from drafting.units import spell

DUTY = DutyFile(
    "flap.toml",
    "Weir flap lift",
    "",
    "mm",
    "both",
    stroke=500.0,
    pressure=18.0,
    body_mount="clevis",
    rod_mount="clevis",
    push=60_000.0,
    pull=30_000.0,
    seconds_out=8.0,
    safety_factor=3.5,
    flow=0.5,
)

TEXT = """title = "Weir flap lift"
units = "mm"
[duty]
push = "60 kN"
pull = "30 kN"
stroke = 500
seconds_out = 8
safety_factor = 3.5
[supply]
pressure = "180 bar"
flow = "30 L/min"
[room]
body_mount = "clevis"
rod_mount = "clevis"
"""


def does_it(duty, bore, rod):
    """Force and time by hand."""
    cap, ring = pi / 4 * bore**2, pi / 4 * (bore**2 - rod**2)
    back = duty.return_pressure
    return (
        duty.pressure * cap - back * ring >= (duty.push or 0.0)
        and duty.pressure * ring - back * cap >= (duty.pull or 0.0)
        and (duty.seconds_out is None or cap * duty.stroke / (duty.flow * 1e6) <= duty.seconds_out)
    )


def test_all_that_are_proposed_do_the_duty_and_no_good_one_is_left_out():
    outcome = size(DUTY)
    taken = {(c.pair.bore, c.pair.rod) for c in outcome.candidates}
    assert len(taken) == len(outcome.candidates) >= 5
    for c in outcome.candidates:
        assert does_it(DUTY, c.pair.bore, c.pair.rod)
        length = c.closed + DUTY.stroke
        assert c.column >= DUTY.push * 3.5
        assert c.pull < c.push
        assert length > DUTY.stroke * 2
    # Whatever even Euler's rod alone carries, and whose stress is low, must be among them.
    for p in pairs("both"):
        reach = 2 * (DUTY.stroke + 1.3 * p.bore + 60.0)
        alone = pi**2 * 206_000 * pi * p.rod**4 / 64 / reach**2
        slender = alone / (pi / 4 * p.rod**2) < 155.0
        if does_it(DUTY, p.bore, p.rod) and slender and alone >= DUTY.push * 3.5:
            assert (p.bore, p.rod) in taken


def test_order_force_to_spare_then_oil_then_weight():
    outcome = size(DUTY)
    keys = [(outcome.margin(c) < FRICTION_SPARE, c.oil_out, c.mass) for c in outcome.candidates]
    assert keys == sorted(keys)


@pytest.mark.parametrize("series", ["inch", "metric", "both"])
def test_pairs_come_from_the_standard_rows(series):
    rows = {
        (r.size("bore"), r.size("rod"))
        for r in table("bore_rod").rows
        if r.word("table").startswith("pair")
    }
    found = pairs(series)
    assert found
    assert {(p.bore, p.rod) for p in found} <= rows
    assert all(p.system == series for p in found) or series == "both"
    assert all(p.rod < p.bore for p in found)


@settings(max_examples=40, deadline=None)
@given(
    body=st.sampled_from(sized_mounts("body")),
    rod=st.sampled_from(sized_mounts("rod")),
    position=st.sampled_from(["base", "middle", "rod end"]),
    units=st.sampled_from(["in", "mm"]),
    stroke=st.floats(100.0, 900.0),
    which=st.integers(0, len(pairs("both")) - 1),
)
def test_the_closed_length_closes_in_the_model(body, rod, position, units, stroke, which):
    pair = pairs("both")[which]
    duty = replace(
        DUTY,
        body_mount=body,
        rod_mount=rod,
        position=position,
        units=units,
        stroke=round(stroke),
        push=12.0 * pair.bore**2,
    )
    best = lay_out(pair, duty)
    text = take(replace(duty, retracted=best.closed + 0.01), best)
    assert loaded(text).lengths.stroke == pytest.approx(duty.stroke)
    with pytest.raises(Refused, match="cannot-close"):
        loaded(take(replace(duty, retracted=best.closed - 0.5), best))


def loaded(text):
    from drafting.model.catalog import mounts_by_end
    from drafting.spec.check import read_spec

    return load(read_spec(text.encode(), mounts=mounts_by_end()))


def test_the_taken_spec_says_what_was_chosen(tmp_path):
    outcome = size(replace(DUTY, retracted=850.0))
    best = outcome.candidates[1]
    file = tmp_path / "flap.toml"
    file.write_text(take(outcome.duty, best), encoding="utf-8")
    c = load(read(str(file)))
    assert (c.stations.bore, c.stations.rod) == (best.pair.bore, best.pair.rod)
    assert c.lengths.retracted == 850.0
    assert c.stations.barrel_outside == pytest.approx(best.wall.outside_mm)
    assert c.spec.number("duty.push") == 60_000.0
    assert PIN_NOTE in file.read_text(encoding="utf-8")
    typed = take(replace(DUTY, pin=40.0), size(replace(DUTY, pin=40.0)).candidates[0])
    assert "pin = 40" in typed
    assert PIN_NOTE not in typed


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"push": 60e6}, "duty.push"),
        ({"retracted": 560.0}, "room.retracted"),
        ({"seconds_out": 0.5}, "duty.seconds_out"),
        ({"largest_outside": 60.0}, "room.largest_outside"),
        ({"safety_factor": 99.0, "largest_outside": 110.0}, "duty.safety_factor"),
    ],
    ids=lambda x: x if isinstance(x, str) else "",
)
def test_the_wish_that_kills_it_is_named_and_relaxing_it_does(change, field):
    duty = replace(DUTY, **change)
    outcome = size(duty)
    assert outcome.candidates == ()
    named = [o for o in outcome.obstacles if field in {w.field for w in o.wishes}]
    assert named
    relaxed = {}
    for wish, needed in zip(named[0].wishes, named[0].needed, strict=True):
        name = wish.field.partition(".")[2]
        slack = 1 - 1e-6 if wish.at_least else 1 + 1e-6
        relaxed[name] = needed * slack
    assert size(replace(duty, **relaxed)).candidates


def test_an_obstacle_is_never_larger_than_it_must_be():
    """Two wishes too many: dropping any single one lets no pair of the series through."""
    duty = replace(DUTY, push=400_000.0, largest_outside=100.0, safety_factor=1.0, seconds_out=None)
    outcome = size(duty)
    count = {len(o.wishes) for o in outcome.obstacles}
    assert count == {1}
    tighter = replace(duty, retracted=560.0)
    outcome = size(tighter)
    assert {len(o.wishes) for o in outcome.obstacles} == {2}
    laid = [lay_out(p, tighter) for p in pairs("both")]
    for wish in outcome.wishes:
        kept = [w for w in outcome.wishes if w is not wish]
        assert not any(all(w.met(c) for w in kept) for c in laid)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("push = ", "pussh = ", "duty.pussh: no field pussh; did you mean push?"),
        ("stroke = 500", "stroke = -4", "duty.stroke"),
        ('pressure = "180 bar"', "pressure = 180", "without a unit"),
        ('rod_mount = "clevis"', "", "room.rod_mount: required"),
        ('push = "60 kN"\npull = "30 kN"\n', "", "write push or pull"),
        ("[supply]", "[suply]", "the table [supply] is missing"),
        ("stroke = 500", "stroke = [", "stroke"),
    ],
)
def test_faults_are_told_with_their_place(tmp_path, old, new, told):
    file = tmp_path / "duty.toml"
    file.write_text(TEXT.replace(old, new), encoding="utf-8")
    with pytest.raises(Refused, match=told.replace("[", r"\[").replace("?", r"\?")) as refused:
        read_duty(str(file))
    assert all(f.line >= 1 and f.file == str(file) for f in refused.value.faults)


def test_the_file_reads_as_meant(tmp_path):
    file = tmp_path / "duty.toml"
    file.write_text(TEXT, encoding="utf-8")
    assert replace(read_duty(str(file)), file=DUTY.file) == DUTY
    assert spell(DUTY.pressure, "pressure", "mm") == "180 bar"


def run(tmp_path, capsys, text, *arguments):
    file = tmp_path / "flap.toml"
    file.write_text(text, encoding="utf-8")
    code = main(["size", str(file), *arguments])
    return code, capsys.readouterr()


def test_the_verb(tmp_path, capsys):
    code, said = run(tmp_path, capsys, TEXT)
    assert code == 0
    assert "standard pairs do it" in said.out
    assert "not a design approval" in said.out
    code, said = run(tmp_path, capsys, TEXT, "--json")
    document = json.loads(said.out)
    assert document["schema"] == 1
    assert document["candidates"][0]["push_n"] >= 60_000
    code, said = run(tmp_path, capsys, TEXT.replace("60 kN", "9000 kN"))
    assert code == 1
    assert "push (duty.push)" in said.out


def test_take_writes_once(tmp_path, capsys):
    target = str(tmp_path / "chosen.toml")
    assert run(tmp_path, capsys, TEXT, "--take", "1", "-o", target)[0] == 0
    before = (tmp_path / "chosen.toml").read_text(encoding="utf-8")
    code, said = run(tmp_path, capsys, TEXT, "--take", "2", "-o", target)
    assert code == 2
    assert "is there already" in said.err
    assert (tmp_path / "chosen.toml").read_text(encoding="utf-8") == before
    assert run(tmp_path, capsys, TEXT, "--take", "2", "-o", target, "--force")[0] == 0
    assert run(tmp_path, capsys, TEXT, "--take", "999", "-o", target)[0] == 2


def test_people_are_not_called_safe(tmp_path, capsys):
    text = TEXT.replace("[supply]", "lifts_people = true\n[supply]")
    code, said = run(tmp_path, capsys, text)
    assert code == 1
    assert "licensed engineer" in said.out.replace("\n", " ")


@pytest.mark.parametrize(("end", "word"), list(mount_types()), ids=lambda v: v)
def test_every_mount_can_be_asked_for_or_says_what_to_ask_instead(end, word):
    kind = mount_types()[end, word]
    text = TEXT.replace(f'{end}_mount = "clevis"', f'{end}_mount = "{word}"')
    document = read_document(text.encode(), "lift.toml")
    if kind.not_sized:
        with pytest.raises(Refused) as refused:
            duty_of(document)
        (fault,) = refused.value.faults
        assert (fault.code, fault.field) == ("not-sized", f"room.{end}_mount")
        assert word in fault.message
        assert kind.not_sized in fault.message
    else:
        assert size(duty_of(document)).candidates

"""What changed between two drawings: in the document, on the sheet, in every format."""

import json
import re
from pathlib import Path

import pytest

from drafting.cli import main
from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.model.catalog import mounts_by_end
from drafting.model.load import checked, load
from drafting.spec.check import read_spec
from drafting.told.changes import compare
from drafting.told.data import data_of

SPECS = Path(__file__).parents[2] / "specs"
SPEC = (SPECS / "weir-gate.toml").read_text(encoding="utf-8")


def cylinder(*swaps):
    text = SPEC
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new)
    return load(read_spec(text.encode(), mounts=mounts_by_end(), file="gate.toml"))


GAP = (('gap   = "1 9/16"', 'gap   = "1 5/8"'), ('revision = "A"', 'revision = "B"'))


def test_nothing_changed_says_so():
    same = compare(cylinder(), cylinder(('revision = "A"', 'revision = "B"')))
    assert same.changes == ()
    assert same.rows(()) == (("", "No changes against HB-0101, revision A."),)


def test_a_size_a_tolerance_a_word_and_what_follows():
    new = cylinder(
        *GAP,
        ("stroke           = 16", 'stroke           = 16\ntolerance = {bore = "H8"}'),
        ('clock    = "1:30"', 'clock    = "3:00"'),
        ('fluid            = "ISO VG 46 mineral oil"', "seals = 'NBR'"),
        ('retracted        = "27 1/4"', "retracted        = 27.5"),
    )
    found = {c.name: (c.was, c.now, c.typed) for c in compare(cylinder(), new).changes}
    assert found["rod_mount.gap"] == ("1 9/16", "1 5/8", True)
    assert found["cylinder.retracted"] == ("27 1/4", "27 1/2", True)
    assert found["cylinder.extended"] == ("43 1/4", "43 1/2", False)
    assert found["cylinder.bore"] == ("3 1/2", "3.5000 H8 (+.0021/-.0000)", True)
    assert found["rod_port.clock"] == ("1:30", "3:00", True)
    assert found["cylinder.fluid"] == ("ISO VG 46 mineral oil", "none", True)
    assert found["cylinder.seals"] == ("none", "NBR", True)
    assert "revision" not in found
    assert "cylinder.stroke" not in found


NOTES = re.search(r"^notes.*$", SPEC, re.MULTILINE).group()


def test_lists_and_clocks_are_said_in_words():
    old = cylinder(('clock    = "1:30"', 'clock    = "1:10"'))
    new = cylinder(
        ('clock    = "1:30"', 'clock    = "40 deg"'),
        (NOTES, NOTES.replace("[", '["Two coats", ')),
    )
    found = {c.name: (c.was, c.now) for c in compare(old, new).changes}
    assert found["rod_port.clock"] == ("1:10", "40 deg")
    assert found["notes"][1].startswith("Two coats; ")
    said = " ".join(w for pair in found.values() for w in pair)
    assert not re.search(r"\['|\d\.\d{4}", said)


def test_the_drawing_flags_what_changed_and_only_that():
    new = cylinder(*GAP)
    job = sheet_job(new, compare(cylinder(), new))
    sheet = compose(job)
    flagged = {d.name for v in sheet.views for d in v.dimensions if "ΔB" in d.texts[0]}
    assert flagged == {"rod_mount.gap"}
    told = [t.text for t in sheet.following[-1].texts]
    assert "CHANGES ΔB" in told
    assert "1 9/16 → 1 5/8" in told
    assert inspect(sheet, job) == ()


@pytest.mark.parametrize("old", ["spec", "svg", "dxf", "pdf", "json"])
def test_an_older_output_stands_for_its_spec(tmp_path, old, capsys):
    first, second = tmp_path / "old.toml", tmp_path / "new.toml"
    first.write_text(SPEC, encoding="utf-8")
    changed = SPEC
    for a, b in GAP:
        changed = changed.replace(a, b)
    second.write_text(changed, encoding="utf-8")
    source = first
    if old != "spec":
        assert main(["draw", str(first), "-o", str(tmp_path / "a"), "--formats", old]) == 0
        source = tmp_path / "a" / f"HB-0101.{old}"
    out = tmp_path / "b"
    wanted = ["--formats", "svg,dxf,pdf,json", "-o", str(out), "--against", str(source)]
    assert main(["draw", str(second), *wanted]) == 0
    capsys.readouterr()
    entry = json.loads((out / "HB-0101.json").read_text(encoding="utf-8"))["cylinders"][0]
    assert [c["name"] for c in entry["changes"]] == ["rod_mount.gap"]
    assert entry["against"] == {"name": "HB-0101", "revision": "A"}
    assert "ΔB" in (out / "HB-0101.svg").read_text(encoding="utf-8")
    assert re.search("1 5/8 REV B", (out / "HB-0101.dxf").read_text(encoding="utf-8"))
    from pypdf import PdfReader

    assert "ΔB" in PdfReader(out / "HB-0101.pdf").pages[0].extract_text()


def test_the_same_letter_twice_needs_a_person(tmp_path, capsys):
    first, second = tmp_path / "old.toml", tmp_path / "new.toml"
    first.write_text(SPEC, encoding="utf-8")
    second.write_text(SPEC.replace(*GAP[0]), encoding="utf-8")
    args = ["draw", str(second), "--formats", "json", "-o", str(tmp_path), "--against", str(first)]
    assert main(args) == 1
    assert "same-revision" in capsys.readouterr().err
    assert main(["draw", str(first), *args[1:]]) == 2
    assert "one-spec" in capsys.readouterr().err


def test_angles_have_their_sign():
    """'Rod tilt 3.62' stood on a customer's paper."""
    text = (SPECS / "orchard-tipper.toml").read_text(encoding="utf-8")
    old, new = (
        load(checked(t.encode()))
        for t in (text, text.replace("ball_width    = 20", "ball_width    = 21"))
    )
    rows = {c.words: (c.was, c.now) for c in compare(old, new).changes}
    was, now = rows["Rod ball tilts each way"]
    assert was != now
    assert all(w.endswith("°") and len(w.partition(".")[2]) <= 2 for w in (was, now))


SECOND = """
[[extra_port]]
end = "rod"
thread = "SAE-6"
clock = "6:00"
position = {}
plugged = true

[drawing]"""


@pytest.mark.parametrize(("port", "gap"), [(20, "1 5/8"), (18, "1 1/2")])
def test_what_changed_is_called_as_on_the_data_sheet_and_marked_there(port, gap):
    """'Extra port[1] position' and 'Rod gap' stood there; no row of the data sheet was marked."""
    old = cylinder(("[drawing]", SECOND.format(19)))
    new = cylinder(("[drawing]", SECOND.format(port)), ('"1 9/16"', f'"{gap}"'), GAP[1])
    compared = compare(old, new)
    rows = dict(sheet_job(new, compared).data.changes)
    sheet = data_of(new, "in", 64, compared)
    marked = {
        f"{row.label}, {end}": said.text
        for row in sheet.held
        for said, end in ((row.base, "base end"), (row.rod, "rod end"))
        if said and "Δ" in said.text
    }
    assert marked.keys() == {"Port 2 from base pin, rod end", "Gap, rod end"}
    for label, words in marked.items():
        assert rows[label].endswith(f"→ {words.removesuffix(' ΔB')}")
    assert not [n for n in rows if "[" in n or "_" in n]

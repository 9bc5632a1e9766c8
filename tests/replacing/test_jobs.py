"""From files to a verdict: specs, readings, a machine; the command line and its exit codes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import drafting
from drafting.cli import main
from drafting.errors import Refused
from drafting.replacing.summary import summary
from tests.replacing.offers import text
from tests.replacing.stock_list import write_csv

READINGS = "specs/readings/orchard-lift.toml"
MACHINE = """title = "Rack of the weir"
units = "in"
[distance]
closest = 36.5
farthest = 59
hard_closest = 35
hard_farthest = 61
[supply]
pressure = "2500 psi"
flow = "11 gal/min"
[pair]
count = 2
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "old.toml").write_text(text({"number": "OLD-1"}), encoding="utf-8")
    (tmp_path / "offer.toml").write_text(
        text({"number": "NEW-1", "cylinder.stroke": "26"}), encoding="utf-8"
    )
    (tmp_path / "machine.toml").write_text(MACHINE, encoding="utf-8")
    return tmp_path


def run(capsys, *argv: str) -> tuple[int, str, str]:
    code = main(list(argv))
    out, err = capsys.readouterr()
    return code, out, err


def test_exit_0_only_where_it_fits(folder, capsys):
    old, offer = str(folder / "old.toml"), str(folder / "offer.toml")
    code, out, err = run(capsys, "compare", old, old)
    assert (code, err.strip()) == (0, "exit 0: it fits")
    code, out, err = run(capsys, "compare", old, offer)
    assert code == 1
    assert err.strip().splitlines()[-1].startswith("exit 1: ")
    assert max(map(len, out.splitlines())) <= 100
    assert out.isascii()


def test_the_json_has_the_keys_of_the_contract(folder, capsys):
    machine = str(folder / "machine.toml")
    old, offer = str(folder / "old.toml"), str(folder / "offer.toml")
    code, out, _ = run(capsys, "compare", old, offer, "--machine", machine, "--json")
    document = json.loads(out)
    assert (code, document["schema"], document["verdict"]) == (1, 1, "fits with work")
    rows = {r["field"]: r for r in document["rows"]}
    opened = rows["cylinder.extended"]
    assert opened["original_mm"] == pytest.approx(60 * 25.4)
    assert opened["difference_mm"] == pytest.approx(2 * 25.4)
    assert opened["verdict"] == "works with"
    assert "spacer 1 in" in opened["do"]
    assert {"why", "source"} <= opened.keys()
    assert "original_n" in rows["push"]
    assert "candidate_s" in rows["time_out"]
    assert "original_l" in rows["oil_out"]
    assert {"pull", "time_in", "oil_in", "column"} <= rows.keys()
    assert any("replace both" in job for job in document["jobs"])
    verdicts = {"same", "works", "works with", "changes", "does not fit", "not known"}
    assert {r["verdict"] for r in document["rows"]} <= verdicts


def test_readings_are_an_original_and_what_lies_within_them_is_the_same(tmp_path, capsys):
    spec = drafting.measure(READINGS).spec
    near = spec.replace("retracted = 27.24", "retracted = 27.26").replace(
        "extended = 43.24", "extended = 43.27"
    )
    assert near != spec
    offer = tmp_path / "offer.toml"
    offer.write_text(near.partition("[[origin]]")[0], encoding="utf-8")
    c = drafting.compare(READINGS, offer)
    closed = next(r for r in c.rows if r.rule.field == "cylinder.retracted")
    assert (closed.verdict, closed.within) == ("same", True)
    assert "within what you could measure" in closed.answer.why
    far = near.replace("retracted = 27.26", "retracted = 27.4")
    offer.write_text(far.partition("[[origin]]")[0].replace("43.27", "43.4"), encoding="utf-8")
    closed = next(r for r in drafting.compare(READINGS, offer).rows
                  if r.rule.field == "cylinder.retracted")  # fmt: skip
    assert (closed.verdict, closed.within) == ("not known", False)


def without_bore(folder: Path) -> Path:
    half = folder / "half.toml"
    whole = Path(READINGS).read_text(encoding="utf-8")
    half.write_text(whole.replace("C  = [3.501", "# C  = [3.501"), encoding="utf-8")
    return half


def test_readings_that_make_no_cylinder_are_compared_as_far_as_they_go(tmp_path):
    """The bore is not read: what meets the machine is judged, and nothing is said to fit."""
    half, offer = without_bore(tmp_path), tmp_path / "offer.toml"
    spec = drafting.measure(READINGS).spec.partition("[[origin]]")[0]
    offer.write_text(spec, encoding="utf-8")
    with pytest.raises(Refused):
        drafting.load(drafting.read(str(half)))
    part, whole = drafting.compare(half, offer), drafting.compare(READINGS, offer)
    rows, others = ({r.rule.field: r for r in c.rows} for c in (part, whole))
    assert rows["cylinder.bore"].verdict == "not known"
    for field in ("cylinder.retracted", "cylinder.extended", "body_mount.pin", "rod_mount.gap"):
        assert rows[field].verdict == others[field].verdict == "same"
    assert rows["cylinder.stroke"].old == pytest.approx(16 * 25.4, abs=0.5)
    assert part.verdict == "not known"
    assert summary(part).startswith("HB-0210 is compared as far as it was read; still open: ")
    assert "(C)" in summary(part)


def test_what_is_no_whole_cylinder_cannot_be_drawn_and_its_first_line_says_so(tmp_path, capsys):
    half = str(without_bore(tmp_path))
    code, out, _ = run(capsys, "compare", half, "specs/weir-gate.toml")
    assert code == 1
    assert "compared as far as it was read" in out.splitlines()[1]
    code, _, err = run(capsys, "compare", half, "specs/weir-gate.toml", "--draw")
    assert (code, "no whole cylinder yet" in err) == (2, True)


def test_a_list_is_ranked_against_readings_in_part_and_nothing_fits(tmp_path):
    stock = tmp_path / "stock.csv"
    write_csv(stock, 60)
    found = drafting.match(without_bore(tmp_path), stock)
    assert found.ranking.counts["fits"] == found.ranking.counts["fits with work"] == 0
    found.ranking.close()


def test_an_output_stands_for_its_spec(folder, capsys):
    old = drafting.load(drafting.read(str(folder / "old.toml")))
    (svg, *_) = drafting.draw(old, ("svg",), folder / "out")
    assert drafting.compare(svg, folder / "old.toml").verdict == "fits"


def test_a_drawing_of_both_is_written_and_named(folder, capsys):
    old, offer = str(folder / "old.toml"), str(folder / "offer.toml")
    out_folder = str(folder / "out")
    _, out, _ = run(capsys, "compare", old, offer, "--draw", "-o", out_folder, "--json")
    files = json.loads(out)["files"]
    assert len(files) == 3
    assert all(Path(f).is_file() for f in files)


def test_match_from_the_command_line(folder, capsys):
    stock, ranked = folder / "stock.csv", folder / "ranked.csv"
    write_csv(stock, 60)
    old = str(folder / "old.toml")
    code, out, err = run(capsys, "match", old, str(stock), "-o", str(ranked))
    assert code == 1
    assert "rows read" in out
    assert max(map(len, out.splitlines())) <= 100
    assert ranked.read_bytes().startswith(b"\xef\xbb\xbfrank,row,name")
    _, out, _ = run(capsys, "match", old, str(stock), "--json")
    document = json.loads(out)
    assert {"row", "name", "rank", "verdict", "deciding"} <= document["rows"][0].keys()
    assert document["unmapped"][0]["heading"] == "Shelf"
    code, _, err = run(capsys, "match", old, str(stock), "-o", str(folder / "ranked.pdf"))
    assert code == 2
    code, _, err = run(capsys, "match", old, str(stock), "-o", str(stock))
    assert (code, "never written over" in err) == (2, True)


def test_match_is_called_from_a_script(folder):
    stock = folder / "stock.csv"
    write_csv(stock, 30)
    found = drafting.match(folder / "old.toml", stock, machine=folder / "machine.toml")
    assert found.ranking.judged > 20
    assert next(found.ranking.best(1)).name
    found.ranking.close()

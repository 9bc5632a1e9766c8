"""Many cylinders in one run: rows to specs, what fails, going on after a stop, what is written."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path
from time import monotonic, sleep

import pytest

from drafting.cli import main
from drafting.errors import OutputFailed
from drafting.jobs import draw
from drafting.jobs.batch import in_time
from drafting.jobs.batch.manifest import Manifest
from drafting.jobs.batch.orders import orders
from drafting.jobs.batch.run import How, run
from drafting.jobs.batch.sweep import BadSweep, several
from drafting.jobs.draw import draw_cylinder
from drafting.model.load import load, read
from drafting.solids import beside
from drafting.spec.edit import edited

BASE = Path("specs/hay-loader.toml")
TABLE = """number,cylinder.stroke,cylinder.retracted,title
K-1,12,26 1/2,
K-2,14..16 step 1,32,
K-3,twelve,26 1/2,
K-4,18,10,
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    base = edited(BASE.read_text(encoding="utf-8"), {"rod_port.position": None})
    (tmp_path / "base.toml").write_text(base, encoding="utf-8")
    (tmp_path / "table.csv").write_text(TABLE, encoding="utf-8")
    return tmp_path


def batch(folder: Path, *more: str) -> int:
    table, base = str(folder / "table.csv"), str(folder / "base.toml")
    return main(["batch", table, "--base", base, "-o", str(folder / "out"), "-f", "csv", *more])


def listed(folder: Path) -> dict[str, dict[str, str]]:
    text = (folder / "out" / "index.csv").read_text(encoding="utf-8-sig")
    return {row["name"]: row for row in csv.DictReader(io.StringIO(text))}


@pytest.mark.parametrize(
    ("cell", "values"),
    [
        ("20", ["20"]),
        ("20; 22 ;24", ["20", "22", "24"]),
        ("20..30 step 5", ["20", "25", "30"]),
        ("2..3 in step 1/4", ["2 in", "2.25 in", "2.5 in", "2.75 in", "3 in"]),
        ("1 1/2..2 step 1/3", ["1.5", "1 5/6"]),
        ("100 mm..130 mm step 15 mm", ["100 mm", "115 mm", "130 mm"]),
        ("3 1/2 in", ["3 1/2 in"]),
        ("[16, 18]", ["16", "18"]),
        ('["1 1/2", "2 in"]', ["1 1/2", "2 in"]),
        ("12..16 2", ["12", "14", "16"]),
        ("20..21 1/2", ["20", "20.5", "21"]),
        ("12 in..16 in 2 in", ["12 in", "14 in", "16 in"]),
    ],
)
def test_a_cell_stands_for_one_or_several(cell, values):
    assert several(cell) == values


def test_brackets_are_one_value_where_the_field_holds_a_list():
    assert several("[150, 140]", whole=True) == ["[150, 140]"]
    assert several("[150, 140]; [160, 150]", whole=True) == ["[150, 140]", "[160, 150]"]


@pytest.mark.parametrize(
    "cell", ["20..30", "30..20 step 1", "1..2 step 0", "1..9999 step 1", "a..b step 1",
             "1 in..2 mm step 1", "1..2 step 1/0"],
)  # fmt: skip
def test_a_range_that_is_none_is_refused(cell):
    with pytest.raises(BadSweep):
        several(cell)


def test_rows_become_cylinders_and_what_fails_is_told_with_row_and_field(folder, capsys):
    code = batch(folder, "--json")
    out, err = capsys.readouterr()
    said = json.loads(out)
    assert (code, said["done"], said["skipped"]) == (1, 4, 0)
    assert {(f["row"], f["field"]) for f in said["failed"]} == {
        (4, "cylinder.stroke"),
        (5, "cylinder.retracted"),
    }
    assert said["files"] == ["index.html", "index.csv"]
    assert err.splitlines()[-1].startswith("exit 1: 2 not drawn")
    written = {p.name for p in (folder / "out").iterdir()}
    drawn = {f"{n}.csv" for n in ("K-1", "K-2-1", "K-2-2", "K-2-3")}
    assert written == drawn | {"index.html", "index.csv", "manifest.jsonl"}


def test_the_table_has_the_sizes_that_the_cylinder_has_by_itself(folder):
    batch(folder)
    rows = listed(folder)
    assert rows["K-2-3"]["cylinder.stroke_mm"] == "406.4"  # 16 in
    alone = folder / "alone.toml"
    changes = {"number": "K-1", "cylinder.stroke": "12", "cylinder.retracted": "26 1/2",
               "cylinder.extended": None}  # fmt: skip
    base = (folder / "base.toml").read_text(encoding="utf-8")
    alone.write_text(edited(base, changes), encoding="utf-8")
    c = load(read(str(alone)))
    assert float(rows["K-1"]["cylinder.extended_mm"]) == pytest.approx(c.lengths.extended)
    for v in c.values:
        if v.unit == "mm" and f"{v.name}_mm" in rows["K-1"] and isinstance(v.value, float):
            assert float(rows["K-1"][f"{v.name}_mm"]) == pytest.approx(v.value, abs=1e-4)
    assert rows["K-3"]["fault"].startswith("cylinder.stroke")


def test_the_same_again_does_nothing_and_a_changed_row_is_drawn_anew(folder, capsys):
    batch(folder)
    capsys.readouterr()
    batch(folder, "--json")
    said = json.loads(capsys.readouterr().out)
    assert (said["done"], said["skipped"], len(said["failed"])) == (0, 4, 2)
    (folder / "table.csv").write_text(TABLE.replace("K-1,12,", "K-1,11,"), encoding="utf-8")
    (folder / "out" / "K-2-2.csv").unlink()
    batch(folder, "--json")
    said = json.loads(capsys.readouterr().out)
    assert (said["done"], said["skipped"]) == (2, 2)
    assert listed(folder)["K-1"]["cylinder.stroke_mm"] == "279.4"


def test_what_failed_is_tried_again_only_when_asked(folder):
    tried: list[str] = []

    def once(again: bool) -> list[str]:
        tried.clear()
        found = orders(folder / "table.csv", folder / "base.toml", "", ("csv",))
        run(found, folder / "out", How(("csv",), again=again), lambda e, _: tried.append(e.name))
        return list(tried)

    assert len(once(False)) == 6
    assert once(False) == []
    assert once(True) == ["K-3", "K-4"]


def test_a_run_that_was_stopped_goes_on_and_a_line_cut_off_is_none(folder):
    def stop(entry, before):
        if entry.name == "K-2-1":
            raise KeyboardInterrupt

    found = orders(folder / "table.csv", folder / "base.toml", "", ("csv",))
    with pytest.raises(KeyboardInterrupt):
        run(found, folder / "out", How(("csv",)), stop)
    manifest = folder / "out" / "manifest.jsonl"
    with manifest.open("a", encoding="utf-8") as lines:
        lines.write('{"row": 3, "name": "K-2-2", "ke')
    ran = run(orders(folder / "table.csv", folder / "base.toml", "", ("csv",)), folder / "out",
              How(("csv",)))  # fmt: skip
    assert (ran.done, ran.skipped, len(ran.failed)) == (2, 2, 2)
    assert set(Manifest(folder / "out").entries) == {
        "k-1", "k-2-1", "k-2-2", "k-2-3", "k-3", "k-4"
    }  # fmt: skip


def test_headings_that_are_no_fields_are_named_with_three_near_ones(folder, capsys):
    (folder / "table.csv").write_text("number,cylinder.strok,colour\nK-1,12,red\n")
    assert batch(folder) == 2
    err = capsys.readouterr().err
    assert 'column B "cylinder.strok" is no field of a spec; nearest: cylinder.stroke' in err
    assert err.count("nearest: ") == 2
    assert len(err.splitlines()[0].rpartition("nearest: ")[2].split(", ")) == 3
    assert not (folder / "out").exists()


def test_one_spec_is_no_table_and_the_words_say_what_is(folder, capsys):
    spec = str(folder / "base.toml")
    assert main(["batch", spec, "-o", str(folder / "out")]) == 2
    assert "drafting batch table.csv --base base.toml" in capsys.readouterr().err
    assert not (folder / "out").exists()


def test_one_name_twice_is_told_and_the_first_is_kept(folder):
    (folder / "table.csv").write_text(TABLE + "K-1,13,30,\n", encoding="utf-8")
    assert batch(folder) == 1
    rows = listed(folder)
    assert rows["K-1"]["cylinder.stroke_mm"] == "304.8"
    assert any("also the name of row 2" in r["fault"] for r in rows.values())


def test_files_of_others_are_not_written_over(folder):
    (folder / "out").mkdir()
    (folder / "out" / "K-1.csv").write_text("mine", encoding="utf-8")
    assert batch(folder) == 1
    assert (folder / "out" / "K-1.csv").read_text(encoding="utf-8") == "mine"
    assert "not of this run" in listed(folder)["K-1"]["fault"]
    batch(folder, "--again", "--force")
    assert (folder / "out" / "K-1.csv").read_text(encoding="utf-8-sig").startswith("name,")


def test_what_a_person_typed_is_text_on_the_page_and_in_the_table(folder):
    (folder / "table.csv").write_text(
        'number,cylinder.stroke,cylinder.retracted,title\nK-1,12,26 1/2,<b>=1+1</b>\n'
        "K-2,12,26 1/2,=1+1\n", encoding="utf-8")  # fmt: skip
    batch(folder)
    page = (folder / "out" / "index.html").read_text(encoding="utf-8")
    assert "<td>&lt;b&gt;=1+1&lt;/b&gt;</td>" in page
    assert listed(folder)["K-2"]["title"] == "'=1+1"
    heads = re.findall(r"<th>", page)
    first = re.search(r"<tr><td>.*?</tr>", page)
    assert first
    assert first[0].count("<td>") == len(heads)


def test_a_folder_and_a_workbook_are_read_as_well(folder, tmp_path):
    from openpyxl import Workbook

    book = Workbook()
    for row in (["number", "cylinder.stroke", "cylinder.retracted"], ["K-7", 12.5, "26 1/2"]):
        book.active.append(row)
    book.save(folder / "table.xlsx")
    found = list(orders(folder / "table.xlsx", folder / "base.toml", "", ("csv",)))
    assert [(o.row, o.name, o.faults) for o in found] == [(2, "K-7", ())]
    assert 'stroke          = "12.5"' in found[0].text or "12.5" in found[0].text
    many = tmp_path / "many"
    many.mkdir()
    for name in ("a", "b"):
        text = edited(BASE.read_text(encoding="utf-8"), {"number": f"M-{name}"})
        (many / f"{name}.toml").write_text(text, encoding="utf-8")
    code = main(["batch", str(many), "-o", str(folder / "out"), "-f", "csv"])
    assert code == 1
    assert set(listed(folder)) == {"M-a", "M-b"}


def test_two_workers_write_what_one_writes(folder):
    batch(folder)
    one = {p.name: p.read_bytes() for p in (folder / "out").glob("K-*.csv")}
    found = orders(folder / "table.csv", folder / "base.toml", "", ("csv",))
    ran = run(found, folder / "two", How(("csv",), workers=2))
    assert {p.name: p.read_bytes() for p in (folder / "two").glob("K-*.csv")} == one
    assert [e.row for e in ran.entries] == [2, 3, 3, 3, 4, 5]


def test_an_engine_that_does_not_answer_is_refused_and_nothing_is_written(folder, monkeypatch):
    import sys

    monkeypatch.setitem(sys.modules, "distributed", None)
    assert batch(folder, "--on", "tcp://127.0.0.1:1") == 2
    assert not (folder / "out").exists()


def test_a_row_that_takes_too_long_is_told_and_the_others_go_on(folder, monkeypatch, capsys):
    def slow(c, how):
        if c.name == "K-1":
            sleep(60.0)
        return draw_cylinder(c, how)

    monkeypatch.setattr(draw, "draw_cylinder", slow)
    monkeypatch.setattr(in_time, "LIMIT", 4.0)
    began = monotonic()
    assert batch(folder) == 1
    assert monotonic() - began < 30.0
    told = capsys.readouterr().err
    assert "row 2, K-1: this took longer than 4 s and was left off" in told
    assert listed(folder)["K-2-1"]["title"] == "Hay loader arm"
    monkeypatch.undo()
    batch(folder, "--again")
    assert (folder / "out" / "K-1.csv").exists()


def test_what_is_done_in_time_hears_no_alarm():
    with in_time.within(0.2):
        pass
    sleep(0.4)
    with pytest.raises(in_time.Late), in_time.within(0.05):
        sleep(5.0)


def test_solids_that_are_left_off_leave_the_next_their_child():
    """The order under way fails, and the next finds a child of its own."""
    c = load(read(str(BASE)))
    first = beside.start(c.name, c.parts, c.lengths, {}, ("glb",))
    beside.leave()
    with pytest.raises(OutputFailed, match="ended with code"):
        first.result()
    assert beside.start(c.name, c.parts, c.lengths, {}, ("glb",)).result()

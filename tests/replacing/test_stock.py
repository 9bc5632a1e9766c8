"""A list with the dirt that lists have: each row read as it is meant, or told with its cell."""

from __future__ import annotations

import csv
import io
import tracemalloc
from pathlib import Path

import pytest

from drafting.errors import Refused
from drafting.jobs.match import harmless, match, table
from drafting.replacing.judge import compare
from drafting.replacing.known import Subject, subject
from drafting.replacing.stock.columns import Map, read_map
from drafting.replacing.stock.listed import Wrong, open_stock
from drafting.replacing.stock.ranked import Judge, Ranking
from drafting.reports.matching import matched_json, matched_text
from tests.replacing.offers import cylinder
from tests.replacing.stock_list import write_csv, write_xlsx

HEAD = "Part no,Bore,Rod,Stroke,Closed,Base pin,Rod pin"
IN = 25.4


def listed(path: Path, text: str, units: str = "in") -> list[object]:
    path.write_text(text, encoding="utf-8")
    return list(open_stock(path, Map({}), units).rows)


def read(path: Path, line: str, units: str = "in") -> dict[str, object]:
    (row,) = listed(path, f"{HEAD}\n{line}\n", units)
    assert not isinstance(row, Wrong), row
    return dict(row.values)  # type: ignore[attr-defined]


def wrong(path: Path, line: str, units: str = "in") -> Wrong:
    (row,) = listed(path, f"{HEAD}\n{line}\n", units)
    assert isinstance(row, Wrong), row
    return row


def test_sizes_are_read_as_people_write_them(tmp_path):
    found = read(tmp_path / "s.csv", 'K-1,3,"1 1/2",24,914.4 mm,1-1/4,"1-1/4"""')
    assert found["cylinder.bore"] == pytest.approx(3 * IN)
    assert found["cylinder.rod"] == pytest.approx(1.5 * IN)
    assert found["cylinder.retracted"] == pytest.approx(36 * IN)
    assert found["cylinder.extended"] == pytest.approx(60 * IN)
    assert found["body_mount.pin"] == found["rod_mount.pin"] == pytest.approx(1.25 * IN)


def test_a_column_without_an_end_stands_for_both_but_where_an_end_has_its_own(tmp_path):
    path = tmp_path / "s.csv"
    path.write_text(
        "Part,Bore,Stroke,Pin dia (mm),Ports,Rod pin,Price\nK-1,3 in,24 in,30,SAE-8,1 in,90\n",
        encoding="utf-8",
    )
    stock = open_stock(path, Map({}))
    assert [c.heading for c in stock.unmapped] == ["Price"]
    told = "; ".join(stock.notes)
    assert 'D "Pin dia (mm)": taken for body_mount.pin' in told
    assert 'E "Ports": taken for base_port.thread and rod_port.thread' in told
    assert "rod_mount.pin" not in told
    (row,) = stock.rows
    assert row.values["body_mount.pin"] == pytest.approx(30.0)
    assert row.values["rod_mount.pin"] == pytest.approx(IN)
    assert row.values["base_port.thread"] == row.values["rod_port.thread"]


def test_blanks_are_not_known_and_a_blank_row_is_none(tmp_path):
    rows = listed(tmp_path / "s.csv", f"{HEAD}\nK-1,3,-,24,36,n/a,\n,,,,,,\n")
    assert len(rows) == 1
    assert "cylinder.rod" not in rows[0].values
    assert "body_mount.pin" not in rows[0].values


@pytest.mark.parametrize(
    ("line", "column", "says"),
    [
        ("K-1,3,1 1/2 / 38,24,36,1,1", 'C "Rod"', "more than one"),
        ('K-1,3,"1,250",24,36,1,1', 'C "Rod"', "thousands or a decimal comma"),
        ("K-1,3,=B2/2,24,36,1,1", 'C "Rod"', "formula"),
        ("K-1,3,#REF!,24,36,1,1", 'C "Rod"', "error"),
        ("K-1,3,2026-01-02,24,36,1,1", 'C "Rod"', "date"),
        ("K-1,80,40,24,36,1,1", 'B "Bore"', "smells of the other unit"),
        ("K-1,3,3 1/2,24,36,1,1", 'C "Rod"', "does not pass"),
        ("K-1,3,1 1/2,60,24,1,1", 'D "Stroke"', "which unit"),
    ],
)
def test_a_cell_that_says_no_size_is_told_with_its_place(tmp_path, line, column, says):
    found = wrong(tmp_path / "s.csv", line)
    assert (found.row, found.column) == (2, column)
    assert says in found.message


def test_a_bare_size_without_any_unit_is_asked_about(tmp_path):
    found = wrong(tmp_path / "s.csv", "K-1,3,1.5,24,514,1,1", units="")
    assert "no unit" in found.message


def test_conflicting_units_make_a_row_unreadable(tmp_path):
    path = tmp_path / "s.csv"
    rows = listed(
        path, f'{HEAD},Units\nK-1,80,"1 3/4"" ",600,900,30,30,mm\nK-2,80,45,600,900,30,30,mm\n'
    )
    assert isinstance(rows[0], Wrong)
    assert rows[0].column == 'C "Rod"'
    assert "wrong" in rows[0].message
    assert rows[1].values["cylinder.bore"] == 80.0


def test_headings_are_found_below_titles_with_groups_units_and_again(tmp_path):
    text = (
        "Yard list of spring,,,,,,,,\n,,,,,Base,,Rod end,\n"
        "Part,Bore,Rod,Stroke,Closed,Pin,Width,Pin,Width\n,mm,mm,mm,mm,mm,mm,mm,mm\n"
        "K-1,80,45,600,900,30,60,25,50\nPart,Bore,Rod,Stroke,Closed,Pin,Width,Pin,Width\n"
        "K-2,80,45,600,900,30,60,25,50\n"
    )
    rows = listed(tmp_path / "s.csv", text, "")
    assert [(r.row, r.name) for r in rows] == [(5, "K-1"), (7, "K-2")]
    assert rows[0].values["rod_mount.pin"] == 25.0
    assert rows[0].values["body_mount.width"] == 60.0


def test_two_columns_of_one_field_are_refused_and_a_map_decides(tmp_path):
    path, told = tmp_path / "s.csv", tmp_path / "map.toml"
    path.write_text("Bore,Rod,Stroke,Closed,Pin,Pin\n3,1.5,24,36,1,1\n", encoding="utf-8")
    stock = open_stock(path, Map({}), "in")
    assert [u.column for u in stock.unmapped] == ["E", "F"]
    told.write_text('units = "in"\nE = "body_mount.pin"\nF = "rod_mount.pin"\n', encoding="utf-8")
    (row,) = open_stock(path, read_map(told)).rows
    assert row.values["rod_mount.pin"] == pytest.approx(IN)
    path.write_text("Bore,Rod,Stroke,Closed,retracted\n3,1.5,24,36,36\n", encoding="utf-8")
    with pytest.raises(Refused, match=r"both mean cylinder\.retracted"):
        open_stock(path, Map({}), "in")


def test_a_heading_nobody_can_map_is_named_with_the_three_nearest(tmp_path):
    path = tmp_path / "s.csv"
    path.write_text(f"{HEAD},Rod ear widht\nK,3,1.5,24,36,1,1,2\n", encoding="utf-8")
    (unknown,) = open_stock(path, Map({}), "in").unmapped
    assert (unknown.column, unknown.heading, len(unknown.near)) == ("H", "Rod ear widht", 3)
    assert "rod_mount.width" in unknown.near
    bad = tmp_path / "map.toml"
    bad.write_text('Shelf = "rod_mount.widht"\n', encoding="utf-8")
    with pytest.raises(Refused, match=r"rod_mount\.width"):
        read_map(bad)
    path.write_text("Colour,Shelf\nred,4\n", encoding="utf-8")
    with pytest.raises(Refused, match="no row of headings"):
        open_stock(path, Map({}), "in")


@pytest.mark.parametrize(
    ("delimiter", "encoding"),
    [(",", "utf-8-sig"), (";", "utf-8"), ("\t", "utf-16"), (",", "utf-16-le"), (";", "cp1252")],
)
def test_every_dress_of_a_csv_says_the_same(tmp_path, delimiter, encoding):
    plain, other = tmp_path / "plain.csv", tmp_path / "other.csv"
    write_csv(plain, 300)
    write_csv(other, 300, delimiter, encoding)
    first, second = (list(open_stock(p, Map({})).rows) for p in (plain, other))
    assert len(first) == len(second) > 290
    for a, b in zip(first, second, strict=True):
        assert (a.row, type(a)) == (b.row, type(b))
        if not isinstance(a, Wrong):
            assert _near(a.values, b.values)


def _near(a: dict[str, object], b: dict[str, object]) -> bool:
    return a.keys() == b.keys() and all(
        abs(a[k] - b[k]) < 0.01 if isinstance(a[k], float) else a[k] == b[k]
        for k in a  # type: ignore[operator]
    )


def test_a_workbook_says_the_same_as_the_csv(tmp_path):
    write_csv(tmp_path / "s.csv", 200)
    write_xlsx(tmp_path / "s.xlsx", 200)
    first, second = (
        list(open_stock(p, Map({})).rows) for p in (tmp_path / "s.csv", tmp_path / "s.xlsx")
    )
    assert [r.row for r in first] == [r.row for r in second]
    for a, b in zip(first, second, strict=True):
        assert isinstance(a, Wrong) == isinstance(b, Wrong)
        assert isinstance(a, Wrong) or _near(a.values, b.values)


def test_formulas_errors_and_merged_headings_of_a_workbook(tmp_path):
    from openpyxl import Workbook

    book = Workbook()
    sheet = book.active
    sheet["F1"], sheet["G1"] = "Base", None
    sheet.merge_cells("F1:G1")
    sheet["H1"] = "Rod end"
    sheet.append(["Part", "Bore", "Rod", "Stroke", "Closed", "Pin", "Width", "Pin"])
    sheet.append(["K-1", 3, "=B3/2", 24, 36, 1, 3, 1])
    sheet.append(["K-2", 3, 1.5, 24, 36, 1, 3, "#REF!"])
    sheet.append(["K-3", 3, 1.5, 24, 36, 1, 3, 1])
    sheet["H4"].data_type = "e"
    book.save(tmp_path / "s.xlsx")
    rows = list(open_stock(tmp_path / "s.xlsx", Map({}), "in").rows)
    assert [(r.row, r.column) for r in rows[:2]] == [(3, 'C "Rod"'), (4, 'H "Rod end Pin"')]
    assert "formula without a value" in rows[0].message
    assert rows[2].values["rod_mount.pin"] == pytest.approx(IN)
    assert rows[2].values["body_mount.width"] == pytest.approx(3 * IN)


def test_the_list_is_judged_by_the_rules_of_compare(tmp_path):
    write_csv(tmp_path / "s.csv", 150)
    old = subject(cylinder())
    stock = open_stock(tmp_path / "s.csv", Map({}))
    judge = Judge(old, {}, tuple(c.name for c in stock.columns))
    judged = 0
    for row in stock.rows:
        if isinstance(row, Wrong):
            continue
        lone = compare(old, Subject(row.name, "", "in", row.values, {}, {}))
        theirs = {r.rule.field: r.answer for r in lone.rows if r.verdict != "same"}
        mine = {r.rule.field: r.answer for r in judge.rows(row.values)}
        left_out = {r.rule.field for r in lone.rows if r.rule.words in judge.to_ask}
        assert mine == {f: a for f, a in theirs.items() if f not in left_out}
        judged += 1
    assert judged > 140


def test_the_best_come_first_and_nothing_is_dropped(tmp_path):
    path = tmp_path / "s.csv"
    write_csv(path, 400)
    with path.open("a", encoding="utf-8", newline="") as out:
        csv.writer(out).writerow(
            ["BEST", "3", "2", "24", "36", "cross tube", "1", "1.016", "3", "2", "cross tube", "1",
             "1.016", "2 1/2", "2", "SAE-8", "SAE-8", "2500", "3 1/2", "A1"]
        )  # fmt: skip
    found = match(subject(cylinder()), path)
    document = matched_json(found)
    assert document["rows"][0]["name"] == "BEST"
    assert document["rows"][0]["verdict"] == "fits"
    counts = document["counts"]
    with path.open(encoding="utf-8", newline="") as lines:
        cells = [r for r in csv.reader(lines) if any(r)]
    headings = sum(r[0] == "Part no." for r in cells)
    assert sum(counts.values()) == len(cells) - headings - 1
    assert [r["rank"] for r in document["rows"]] == list(range(1, len(document["rows"]) + 1))
    said = matched_text(found, "s.csv")
    assert max(map(len, said.splitlines())) <= 100
    assert "BEST" in said
    found.ranking.close()


def test_text_that_a_spreadsheet_would_run_is_written_as_text(tmp_path):
    path = tmp_path / "s.csv"
    text = f'{HEAD}\n"=HYPERLINK(""x"")",3,2,24,36,1,1\n@sum,3,2,24,36,1,1\n-1,3,2,24,36,1,1\n'
    path.write_text(text, encoding="utf-8")
    found = match(subject(cylinder()), path, _map(tmp_path))
    rows = list(csv.reader(io.StringIO(b"".join(table(found, Path("o.csv"))).decode("utf-8-sig"))))
    assert sorted(r[2] for r in rows[1:]) == ["'-1", '\'=HYPERLINK("x")', "'@sum"]
    from openpyxl import load_workbook

    sheet = load_workbook(io.BytesIO(b"".join(table(found, Path("o.xlsx"))))).active
    assert {c.data_type for c in sheet["C"]} == {"s"}
    assert harmless("K-1") == "K-1"
    found.ranking.close()


def _map(folder: Path) -> Path:
    path = folder / "map.toml"
    path.write_text('units = "in"\n', encoding="utf-8")
    return path


def test_memory_does_not_grow_with_the_list(tmp_path):
    def peak(count: int) -> int:
        write_csv(tmp_path / "s.csv", count)
        found = match(subject(cylinder()), tmp_path / "s.csv")  # what is loaded once is loaded
        found.ranking.close()
        tracemalloc.start()
        found = match(subject(cylinder()), tmp_path / "s.csv")
        most = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        found.ranking.close()
        return most

    assert peak(4000) < 2.0 * peak(1000)


def test_a_ranking_puts_fits_before_work_before_unknown_before_none():
    from drafting.replacing.stock.ranked import ORDER, Judged

    ranking = Ranking()
    for k, verdict in enumerate(reversed(ORDER)):
        ranking.add(Judged(k, f"K-{k}", verdict, 0, "", 1.0))
    ranking.add(Judged(9, "K-9", "fits with work", 1, "", 0.5))
    assert [j.verdict for j in ranking.best()] == [ORDER[0], ORDER[1], *ORDER[1:]]
    assert [j.name for j in ranking.best()][1] == "K-9"
    ranking.close()

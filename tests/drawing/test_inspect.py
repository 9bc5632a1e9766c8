"""The inspector finds each fault that is put into a clean sheet, and nothing in the clean one."""

from dataclasses import replace

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.inspect.labels import printed
from drafting.drawing.sheet.sheet import Linear, Mark, Text
from drafting.drawing.sheet.strokes import Line
from drafting.values import Value
from tests.drawing.sample_job import job


@pytest.fixture(scope="module")
def sheet():
    return compose(job())


def codes(sheet, of=None):
    return {f.code for f in inspect(sheet, of or job())}


def _side(sheet, **changes):
    return replace(sheet, views=(replace(sheet.views[0], **changes), *sheet.views[1:]))


def _change(sheet, name, **changes):
    """Change the dimension of that name."""
    views = tuple(
        replace(
            v,
            dimensions=tuple(replace(d, **changes) if d.name == name else d for d in v.dimensions),
        )
        for v in sheet.views
    )
    return replace(sheet, views=views)


def test_a_clean_sheet_is_clean(sheet):
    assert inspect(sheet, job()) == ()


def test_text_on_text(sheet):
    doubled = replace(sheet, texts=(*sheet.texts, replace(sheet.texts[0], text="XX")))
    assert codes(doubled) == {"sheet-text-on-text"}


def test_line_through_text(sheet):
    title = next(t for t in sheet.texts if t.name == "title")
    x, y = title.at
    line = Mark(Line((x, y + 2.0), (x + 20.0, y + 2.0)), "table")
    assert codes(replace(sheet, marks=(*sheet.marks, line))) == {"sheet-line-through-text"}


def test_an_outline_through_a_label(sheet):
    d = next(d for d in sheet.views[0].dimensions if d.name == "cylinder.retracted")
    x, y = d.text_at
    stroke = Mark(Line((x - 9.0, y + 5.0), (x + 9.0, y + 5.0)), "outline")
    assert "sheet-line-through-text" in codes(_side(sheet, marks=(*sheet.views[0].marks, stroke)))


def test_dimension_lines_crossing(sheet):
    d = next(d for d in sheet.views[0].dimensions if d.name == "cylinder.retracted")
    x, y = d.line_at
    upright = Linear(
        "extra", (x + 200.0, y - 40.0), (x + 200.0, y + 40.0), 90.0, (x + 200.0, y),
        (x + 195.0, y + 15.0), ("80",), 80.0,
    )  # fmt: skip
    crossed = _side(sheet, dimensions=(*sheet.views[0].dimensions, upright))
    assert "sheet-dimension-lines-crossing" in codes(crossed)


def test_a_dimension_line_on_another(sheet):
    d = next(d for d in sheet.views[0].dimensions if d.name == "cylinder.retracted")
    twice = _side(sheet, dimensions=(*sheet.views[0].dimensions, replace(d, name="again")))
    assert "sheet-dimension-lines-crossing" in codes(twice)


def test_dimension_lines_close(sheet):
    scale = sheet.views[0].scale
    d = next(d for d in sheet.views[0].dimensions if d.name == "cylinder.retracted")
    (x, y), (u, v) = d.line_at, d.text_at
    for apart, expected in ((5.9, True), (6.0, False)):
        down = apart / scale
        beside = replace(d, name="again", line_at=(x, y - down), text_at=(u, v - down))
        twice = _side(sheet, dimensions=(*sheet.views[0].dimensions, beside))
        assert ("sheet-dimension-lines-close" in codes(twice)) is expected


@pytest.mark.parametrize("role", ["outline", "hidden", "centre"])
def test_a_dimension_line_on_an_edge(sheet, role):
    scale = sheet.views[0].scale
    d = next(d for d in sheet.views[0].dimensions if d.name == "cylinder.retracted")
    x, y = (d.a[0] + d.b[0]) / 2, d.line_at[1]
    for apart, expected in ((0.0, True), (0.9, True), (1.1, False)):
        level = y + apart / scale
        stroke = Mark(Line((x - 2.0 / scale, level), (x + 2.0 / scale, level)), role)
        found = codes(_side(sheet, marks=(*sheet.views[0].marks, stroke)))
        assert ("sheet-dimension-on-line" in found) is (expected and role != "centre")


def test_outside_the_frame(sheet):
    assert "sheet-outside-frame" in codes(_side(sheet, at=(sheet.views[0].at[0] - 200.0, 100.0)))
    beyond = replace(sheet, texts=(*sheet.texts, Text((sheet.width - 2.0, 3.0), "beyond", 3.5)))
    assert "sheet-outside-frame" in codes(beyond)


def test_a_view_on_another(sheet):
    assert "sheet-view-on-view" in codes(_side(sheet, at=sheet.views[1].at))


def test_a_missing_size(sheet):
    view = sheet.views[0]
    fewer = tuple(d for d in view.dimensions if d.name != "cylinder.rod")
    (found,) = inspect(_side(sheet, dimensions=fewer), job())
    assert (found.code, found.field) == ("sheet-missing-size", "cylinder.rod")


def test_three_numbers_must_agree(sheet):
    name = "cylinder.rod"
    printed_wrong = _change(sheet, name, texts=("Ø41",))
    measured_wrong = _change(sheet, name, a=(400.0, -21.0))
    field_wrong = job(values=(Value(name, 39.0, "mm", "39", "given", "line 3"),))
    for found in (
        inspect(printed_wrong, job()),
        inspect(measured_wrong, job()),
        inspect(sheet, field_wrong),
    ):
        assert {(f.code, f.field) for f in found} == {("sheet-label-unlike-size", name)}


@pytest.mark.parametrize(
    ("said", "right"),
    [("40.04", False), ("(40.04)", True), ("(40.06)", False), ("RETRACTED (40.04)", True)],
)
def test_a_reference_may_be_rounded_and_no_other_size(sheet, said, right):
    """In parentheses a tenth of a millimetre is told, elsewhere a hundredth; the rod has 40."""
    found = codes(_change(sheet, "cylinder.rod", texts=(said,)), job())
    assert ("sheet-label-unlike-size" not in found) is right


def test_the_other_unit_is_read_too():
    units = {"units": "in", "dimensions": "in [mm]"}
    sheet = compose(job(**units))
    d = next(d for d in sheet.views[0].dimensions if d.name == "cylinder.rod")
    assert d.texts[1] == "[40]"
    wrong = _change(sheet, "cylinder.rod", texts=(d.texts[0], "[41]"))
    assert codes(wrong, job(**units)) == {"sheet-label-unlike-size"}


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("Ø3 1/2", "in", 88.9),
        ("(.75)", "in", 19.05),
        ("R5/16", "in", 7.9375),
        ("[88.9]", "mm", 88.9),
        ("Ø18, 4 HOLES", "mm", 18.0),
        ("□127", "mm", 127.0),
        ("1 1/4 PIN", "in", 31.75),
    ],
)
def test_labels_are_read_as_a_person_reads_them(text, unit, mm):
    assert printed(text, unit) == pytest.approx(mm)


def test_words_are_no_number():
    assert printed("SEE NOTE", "mm") is None

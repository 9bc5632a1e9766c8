"""A whole sheet from a made-up job: choice of paper and scale, views, furniture.

Projection: ISO 5456-2 and ASME Y14.3 (memory). Fields of the title block: ISO 7200:2004 (W1).
"""

from dataclasses import replace
from pathlib import Path

import pytest

from drafting.drawing.compose import choose, dresser, page
from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.scale import LEAST_BORE, LEAST_NAMED
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.lists.papers import PAPERS
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.on_paper import box, union
from drafting.drawing.sheet.paper import on_paper, paper_box
from drafting.drawing.sheet.sheet import Linear, Note, Round
from drafting.drawing.sheet.style import Style
from drafting.model.load import checked, load, read
from drafting.shape.frame import Frame, about_x, along
from tests.drawing.sample_job import RETRACTED, STROKE, data, job


@pytest.fixture(scope="module")
def sheet():
    return compose(job())


def view(sheet, name):
    return next(v for v in sheet.views if v.name == name)


def words(sheet):
    return [t.text for t in sheet.texts]


def test_every_wish_is_shown_once_and_nothing_touches(sheet):
    names = sorted(d.name for v in sheet.views for d in v.dimensions)
    assert names == sorted(w.name for w in job().wishes)
    assert inspect(sheet, job()) == ()


def test_the_smallest_sheet_on_which_the_bore_is_large_enough(sheet):
    scale = sheet.views[0].scale
    assert scale * job().bore >= LEAST_BORE
    assert sheet.size_name == "A3"
    assert (sheet.width, sheet.height) == (420.0, 297.0)


def test_the_inch_family_and_its_scales():
    found = compose(job(units="in", dimensions="in [mm]"))
    assert found.size_name in {"B", "C"}
    assert 1 / found.views[0].scale in {1, 2, 4, 8}
    assert found.units == "in"
    lengths = [d for v in found.views for d in v.dimensions if isinstance(d, Linear | Round)]
    assert all(len(d.texts) == 2 and d.texts[1].startswith("[") for d in lengths)
    assert "EXTENDED, HALF SECTION" in view(found, "extended").texts[-1].text
    assert inspect(found, job(units="in", dimensions="in [mm]")) == ()


def test_views_are_aligned_and_the_open_one_has_a_scale_of_its_own(sheet):
    side, top, end, opened = (view(sheet, n) for n in ("side", "top", "end", "extended"))
    assert side.at[0] == pytest.approx(top.at[0])
    assert side.at[1] == pytest.approx(end.at[1])
    assert side.scale == top.scale == end.scale >= opened.scale
    assert top.at[1] > side.at[1] > opened.at[1]
    assert end.at[0] > side.at[0]
    assert "EXTENDED, HALF SECTION 1:5" in {t.text for t in opened.texts}
    assert not [t for v in (side, top) for t in v.texts]


def test_the_column_and_the_open_view_share_the_lower_part(sheet):
    """Our rule: 85 high, the column as wide as the block, the views above it."""
    x1, y0 = sheet.width - 10.0, 10.0
    opened = paper_box(on_paper(view(sheet, "extended"), Style()))
    assert opened[2] < x1 - 180.0
    assert opened[3] <= y0 + 85.0
    for name in ("side", "top", "end"):
        assert paper_box(on_paper(view(sheet, name), Style()))[1] >= y0 + 85.0
    said = [t for t in sheet.texts if t.name in ("ports", "notes", "title")]
    assert all(x1 - 180.0 <= t.at[0] and t.at[1] <= y0 + 85.0 for t in said)


@pytest.mark.parametrize(
    ("projection", "side", "right"),
    [("first", "rod", False), ("first", "base", True), ("third", "base", False)],
)
def test_the_end_view_stands_where_the_angle_says(projection, side, right):
    found = compose(job(projection=projection, clock_from=side))
    assert (view(found, "end").at[0] > view(found, "side").at[0]) is right
    assert (view(found, "top").at[1] > view(found, "side").at[1]) is (projection == "third")
    assert f"FROM {side.upper()} END" in {t.text for t in view(found, "end").texts}


def test_the_hours_run_clockwise_round_the_end_view(sheet):
    hours = {t.text: t.at for t in view(sheet, "end").texts if t.name == "clock"}
    assert set(hours) == {"12", "3", "6", "9"}
    assert hours["12"][1] > 62.0  # above the port boss
    assert hours["6"][1] < -50.0
    assert hours["3"][0] > 50.0
    assert hours["9"][0] < -50.0


def test_the_extended_view_is_longer_by_the_stroke_and_has_no_hidden_lines(sheet):
    side, opened = view(sheet, "side"), view(sheet, "extended")

    def right(v):
        return union([box(m.curve) for m in v.marks if m.role == "outline"])[2]

    assert right(opened) - right(side) == pytest.approx(STROKE)
    assert not any(m.role == "hidden" for m in opened.marks)
    assert not any(m.role == "hidden" and m.name == "cylinder.bore" for m in side.marks)
    lengths = {d.name: d.measure_mm for d in opened.dimensions}
    assert lengths == {
        "cylinder.extended": pytest.approx(RETRACTED + STROKE),
        "cylinder.stroke": pytest.approx(STROKE),
        "cylinder.bore": pytest.approx(80.0),
    }


def test_reference_and_derived_sizes_are_marked(sheet):
    by_name = {d.name: d for v in sheet.views for d in v.dimensions if not isinstance(d, Note)}
    assert by_name["cylinder.extended"].reference
    assert by_name["cylinder.extended"].texts == ("EXTENDED (660)",)
    assert by_name["body_mount.width"].flag == "D"
    assert by_name["cylinder.bore"].flag == ""


@pytest.mark.parametrize(
    "label",
    ["LEGAL OWNER", "DRAWING NUMBER", "DATE OF ISSUE", "SHEET", "TITLE", "APPROVED BY",
     "CREATED BY", "DOCUMENT TYPE", "REV", "SCALE", "DIMENSIONS IN", "PROJECTION"],
)  # fmt: skip
def test_the_title_block_has_its_fields(sheet, label):
    assert label in words(sheet)


def test_what_was_not_said_stays_visibly_open(sheet):
    """Owner, customer, creator, approval, revision."""
    assert sum(m.name == "write" for m in sheet.marks) == 5
    named = compose(job(meta=dict(job().meta) | {"company": "Harrow Brook Works", "revision": "A"}))
    assert sum(m.name == "write" for m in named.marks) == 3
    assert "Harrow Brook Works" in words(named)


def test_furniture_says_what_it_must(sheet):
    said = " ".join(words(sheet))
    assert "OUTLINE FOR QUOTATION" in said
    assert "Builder returns own drawing for approval before cutting." in said
    assert "50 mm at 100 %" in said
    assert "HB-0900" in said
    behind = " ".join(words(sheet.following[0]))
    assert "Relieve the pressure" in behind
    assert "0.7 of bore" in behind


@pytest.mark.parametrize("size", ["A4", "A1", "D"])
def test_a_named_sheet_is_taken(size):
    found = compose(job(sheet=size))
    assert found.size_name == size
    frame = next(p.frame for p in PAPERS if p.name == size)
    for v in found.views:
        b = paper_box(on_paper(v, Style()))
        assert frame[0] <= b[0]
        assert frame[1] <= b[1]
        assert b[2] <= frame[2]
        assert b[3] <= frame[3]


def test_a_named_scale_is_taken():
    assert compose(job(scale="1:10")).views[0].scale == pytest.approx(0.1)


def test_pages_are_counted_through_and_the_data_sheet_has_its_own_paper():
    notes = tuple(f"Note {k}: primer only, and a few words more to make it long" for k in range(90))
    found = compose(job(sheet="A3", data=replace(data(), notes=notes)))
    sheets = (found, *found.following)
    assert len(sheets) > 2
    count = [t.text for s in sheets for t in s.texts if t.name == "sheet"]
    assert count == [f"{n} / {len(sheets)}" for n in range(1, len(sheets) + 1)]
    told = " ".join(t.text for s in sheets for t in s.texts if t.name == "notes")
    assert all(f"Note {k}:" in told for k in range(90))
    assert {(s.size_name, s.width, s.height) for s in sheets[1:]} == {("A4", 210.0, 297.0)}
    assert [
        f for f in inspect(found, job()) if f.code.startswith(("sheet-text", "sheet-line"))
    ] == []


def test_the_inspector_reads_the_following_sheets_too():
    found = compose(job(sheet="A3"))
    more = found.following[0]
    twice = replace(more, texts=(*more.texts, more.texts[-1]))
    broken = replace(found, following=(twice, *found.following[1:]))
    assert "sheet-text-on-text" in {f.code for f in inspect(broken)} - {
        f.code for f in inspect(found)
    }


def test_equal_jobs_give_equal_sheets(sheet):
    assert compose(job()) == sheet
    shuffled = replace(job(), wishes=tuple(reversed(job().wishes)))
    places = [{d.name: d for d in v.dimensions} for v in compose(shuffled).views]
    assert places == [{d.name: d for d in v.dimensions} for v in sheet.views]


def test_a_mount_turned_by_no_quarter_gets_a_view_along_its_pin():
    turn = about_x(35.0)
    frame = Frame((RETRACTED, 0.0, 0.0), turn.x, turn.y, turn.z)
    barrel, rod = job().retracted
    turned = replace(
        rod,
        pieces=tuple(
            replace(p, frame=along(turn.y, frame.origin)) if p.name.startswith("rod_mount") else p
            for p in rod.pieces
        ),
    )
    wishes = tuple(
        replace(w, axis=turn.y) if w.name == "rod_mount.hole" else w for w in job().wishes
    )
    one = job(retracted=(barrel, turned), wishes=wishes)
    found = compose(one)
    alone = view(found, "pin")
    assert [d.name for d in alone.dimensions] == ["rod_mount.hole"]
    assert alone.title == "ALONG ROD END PIN"
    outlines = [m for m in alone.marks if m.role == "outline"]
    assert {m.name for m in outlines} == {"rod_mount.tube", "rod_mount.hole"}
    assert inspect(found, one) == ()


ASKEW = """
title = "Chip gate"
number = "CG-7"
units = "mm"
[cylinder]
bore = 50
rod = 28
stroke = 150
retracted = 400
[body_mount]
mount = "cross tube"
pin = 25
[rod_mount]
mount = "{mount}"
pin = 25
turned = 30
[base_port]
thread = "G 3/8"
[rod_port]
thread = "G 3/8"
"""


@pytest.mark.parametrize("mount", ["cross tube", "clevis"])
def test_a_mount_alone_has_nothing_of_what_is_buried_in_the_rod(mount):
    """Its root stood out of the face like a bar that belongs to nothing."""
    one = sheet_job(load(checked(ASKEW.format(mount=mount).encode())))
    alone = view(compose(one), "pin")
    pieces = {m.name for m in alone.marks if m.role == "outline"}
    assert "rod_mount.hole" in pieces
    assert not [p for p in pieces if "root" in p]


@pytest.mark.parametrize("size", ["A4", "A3", "A", "B"])
def test_a_drawing_page_stays_one_page_or_gives_the_extended_view_one(size):
    """On a small sheet legible views go before one page; the data sheet is sheet 2 all the same."""
    found = compose(job(sheet=size))
    assert found.size_name == size
    assert inspect(found, job()) == ()
    assert {"side", "end"} <= {v.name for v in found.views}
    assert all(v.scale * job().bore >= LEAST_NAMED for v in found.views if v.name == "side")
    later = [v.name for s in found.following for v in s.views]
    here = [v.name for v in found.views if v.name == "extended"]
    assert here + later == ["extended"]
    assert not (later and size in ("A3", "B"))
    assert not found.following[0].views


SMALL = """
title = "Hatch lift"
number = "HL-4"
units = "mm"
[cylinder]
bore = {bore}
rod = 30
stroke = 180
retracted = 385
clock_seen_from = "base"
[body_mount]
mount = "clevis"
pin = 20
gap = 22
width = 46
throat = 24
[rod_mount]
mount = "cross tube"
pin = 20
width = 50
bushing = 26
turned = 90
[base_port]
thread = "G 1/4"
clock = "10:30"
[rod_port]
thread = "G 1/4"
clock = "2:00"
[drawing]
sheet = "A4"
"""


@pytest.mark.parametrize(("bore", "here"), [(52, True), (48, False)])
def test_an_extended_view_stands_beside_the_others_rather_than_on_another_page(bore, here):
    """At 1:10 it has room on the left; a bore of 48 is too small to be read there."""
    one = sheet_job(load(checked(SMALL.format(bore=bore).encode())))
    found = compose(one)
    assert view(found, "side").scale == 0.2
    pages = [[v.scale for v in s.views if v.name == "extended"] for s in (found, *found.following)]
    assert pages == ([[0.1], []] if here else [[], [], [0.2]])
    assert inspect(found, one) == ()


def test_what_is_said_never_enters_the_choice(sheet):
    notes = tuple(f"Note {k}: a few words more" for k in range(200))
    long = job(data=replace(data(), notes=notes))
    assert compose(long).views == sheet.views


TALL = Path(__file__).parent / "once_wrong" / "bolts_between_ports.toml"


def test_a_scale_without_room_is_given_up_before_every_view_is_dressed(monkeypatch):
    """The sheet is the same as where all of them are dressed first."""
    dressed = []
    made = dresser.dressed_view

    def counted(*what):
        dressed.append(what)
        return made(*what)

    monkeypatch.setattr(dresser, "dressed_view", counted)
    tall = sheet_job(load(read(str(TALL))))
    soon, some = compose(tall), len(dressed)
    monkeypatch.setattr(page, "_may_fit", lambda *_: True)
    dressed.clear()
    late = compose(tall)
    assert some < len(dressed)
    assert soon == late


def test_where_the_placing_is_not_sure_the_inspector_decides(monkeypatch):
    """A page that it finds clean is taken; one with a fault gives way to a smaller scale."""
    sure = compose(job())
    monkeypatch.setattr(page.Page, "clashes", 1)
    assert compose(job()) == sure
    asked = []

    def as_large(sheet, _):
        asked.append(view(sheet, "side").scale)
        return ("a fault",) if asked[-1] == view(sure, "side").scale else ()

    monkeypatch.setattr(choose, "inspect_page", as_large)
    smaller = compose(job())
    large, small = (view(s, "side").scale for s in (sure, smaller))
    assert asked.count(large) == len(asked) - 1
    assert asked[-1] == small
    assert smaller.size_name == sure.size_name
    assert view(smaller, "side").scale < view(sure, "side").scale

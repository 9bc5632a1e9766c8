"""The extended view in half section. What is cut: ISO 128-3 (memory: shafts, pins, bolts whole).

Sizes are those of the made-up ram in ``sample_job``: bore 80, barrel 100 from x 20 to 380, cap's
oil side at 45, rod 40; extended by 200. The tapped hole is made up too.
"""

from dataclasses import replace

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.explode import explode
from drafting.drawing.sheet.paper import outline_points
from drafting.drawing.sheet.sheet import Text
from drafting.drawing.sheet.strokes import Arc, Line
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import at_crest, hatches_of, look_at, marks_of
from drafting.drawing.write.dxf.file import dxf_bytes
from drafting.model.load import checked, load
from drafting.settle.wishes import Length, Thread
from drafting.shape.frame import Z, along
from drafting.shape.pieces import Part, Piece, cylinder
from tests.drawing import sample_job


def _extended(job):
    return next(p for p in look_at(job).pictures if p.name == "extended")


@pytest.fixture(scope="module")
def picture():
    return _extended(sample_job.job())


def test_the_upper_half_shows_the_bore_and_the_lower_half_the_outside(picture):
    level = {
        s.curve.a[1]
        for s in picture.visible
        if isinstance(s.curve, Line) and s.curve.a[1] == s.curve.b[1] and s.part == "barrel"
    }
    assert 40.0 in level
    assert 50.0 in level
    assert -50.0 in level
    assert -40.0 not in level


def test_nothing_is_dashed_in_it(picture):
    marks = marks_of(picture, sample_job.job(), 0.2, Style())
    assert not [m for m in marks if m.role == "hidden"]


def test_cut_metal_is_hatched_and_the_rod_is_not(picture):
    (hatch,) = hatches_of(picture, 0.2)
    assert hatch.part == "barrel"
    for loop in hatch.loops:
        for x, z in outline_points(loop, 0.01):
            assert z >= -1e-6
            assert x >= 20.0 - 1e-6
            assert z >= 40.0 - 1e-6 or x <= 45.0 + 1e-6  # the cap is full, the tube is a wall
    assert hatch.lines


def test_hatching_is_as_dense_on_paper_at_every_scale(picture):
    pitches = [hatches_of(picture, k)[0].pitch * k for k in (1.0, 0.2, 0.05)]
    assert pitches == pytest.approx([pitches[0]] * 3)
    assert 2.0 <= pitches[0] <= 3.0


def test_the_mounts_stay_whole(picture):
    for x in (0.0, sample_job.RETRACTED + sample_job.STROKE):
        assert ((x, 0.0), 15.0, True) in picture.rings


def test_a_bolt_before_the_plane_goes_and_one_through_it_stays():
    def bolts(*places):
        pieces = [
            Piece("cylinder.bolt", cylinder(3.0, 380.0, 390.0), along((1.0, 0.0, 0.0), (0.0, y, z)))
            for y, z in places
        ]
        return Part("bolts", "body", tuple(pieces), hatched=False)

    job = sample_job.job()
    near, through, low = (-20.0, 40.0), (0.0, 45.0), (-20.0, -40.0)
    bolted = replace(job, extended=(*job.extended, bolts(near, through, low)))
    tops = {
        round(s.curve.a[1], 6)
        for s in _extended(bolted).visible
        if s.part == "bolts" and isinstance(s.curve, Line) and s.curve.a[1] == s.curve.b[1]
    }
    assert tops == {42.0, 48.0, -43.0, -37.0}


def test_a_port_whose_metal_is_cut_away_leaves_no_centre_line():
    job = sample_job.job()
    assert [m for m in marks_of(_extended(job), job, 0.2, Style()) if m.name == "base_port.thread"]
    # At 9 o'clock the boss is nearer than the plane, and wholly above it when the axis rises.
    turned = (0.0, -(0.5**0.5), 0.5**0.5)

    def swung(part):
        return replace(
            part,
            pieces=tuple(
                replace(q, frame=along(turned, (70.0, 0.0, 0.0))) if "port" in q.name else q
                for q in part.pieces
            ),
        )

    gone = replace(job, extended=tuple(swung(p) for p in job.extended))
    marks = marks_of(_extended(gone), gone, 0.2, Style())
    assert not [m for m in marks if "port" in m.name]


TAP = Thread("p.thread", (0.0, 0.0, 50.0), (0.0, 0.0, 30.0), 20.0, 17.0, True)
BLOCK = Part(
    "block",
    "body",
    (
        Piece("cylinder.block", cylinder(50.0, -60.0, 60.0)),
        Piece("p.thread", cylinder(10.0, 30.0, 51.0), along(Z), cut=True),
    ),
)


def test_hatching_runs_through_to_the_crest_of_a_tapped_hole():
    job = sample_job.job(retracted=(BLOCK,), extended=(BLOCK,), wishes=(), symbols=(TAP,))
    (hatch,) = hatches_of(_extended(job), 1.0)
    sides = {abs(x) for loop in hatch.loops for x, z in outline_points(loop, 0.01) if 31 < z < 49.9}
    walls = {
        abs(c.a[0])
        for loop in hatch.loops
        for c in loop
        if isinstance(c, Line) and c.a[0] == c.b[0]
    }
    assert 8.5 in {round(w, 6) for w in walls}
    assert 10.0 not in {round(w, 6) for w in walls}
    assert not sides - {8.5}


def test_in_section_the_root_is_narrow_at_the_major_diameter_and_the_end_is_wide():
    job = sample_job.job(retracted=(BLOCK,), extended=(BLOCK,), wishes=(), symbols=(TAP,))
    marks = marks_of(_extended(job), job, 2.0, Style())
    roots = [m.curve for m in marks if m.role == "thread" and isinstance(m.curve, Line)]
    assert sorted({round(c.a[0], 6) for c in roots}) == [-10.0, 10.0]
    ends = [m.curve for m in marks if m.role == "outline" and m.name == "p.thread"]
    at_end = [c for c in ends if isinstance(c, Line) and c.a[1] == c.b[1] == 30.0]
    assert max(max(c.a[0], c.b[0]) for c in at_end) == pytest.approx(10.0)
    assert not [m for m in marks if m.role == "hatch" or isinstance(m.curve, Arc)]


def test_a_thread_too_small_to_be_read_has_no_root_line():
    job = sample_job.job(retracted=(BLOCK,), extended=(BLOCK,), wishes=(), symbols=(TAP,))
    assert not [m for m in marks_of(_extended(job), job, 0.1, Style()) if m.role == "thread"]


def test_only_tapped_holes_change_to_their_crest():
    rod = Part("rod", "rod", (Piece("r.thread", cylinder(10.0, 0.0, 20.0)),), hatched=False)
    outside = replace(TAP, name="r.thread", internal=False)
    assert at_crest(rod, (outside,)) == rod
    assert at_crest(BLOCK, (TAP,)) != BLOCK


def _bore(sheet):
    views = {v.name: v for v in sheet.views}
    return next(d for d in views["extended"].dimensions if d.name == "cylinder.bore")


def test_the_bore_has_one_arrow_at_the_edge_that_is_seen():
    """ISO 129-1 (memory): in a half section the line ends past the middle, the number is whole."""
    sheet = compose(sample_job.job())
    bore = _bore(sheet)
    assert bore.half
    assert bore.texts == ("Ø80",)
    drawn = explode(bore, (0.0, 0.0), 0.5, Style())
    ((tip, *_),) = drawn.arrows
    assert tip[1] == pytest.approx(40.0 * 0.5)
    ((low, high),) = drawn.lines
    assert -20.0 < low[1] < 0.0
    assert high[1] > 25.0  # beyond the barrel, where the number stands


def test_only_what_nobody_gave_of_the_inside_is_left_out():
    piston = Length(
        "cylinder.piston_length",
        (250.0, 0.0, 40.0),
        (306.0, 0.0, 40.0),
        (1.0, 0.0, 0.0),
        pose="extended",
    )
    wishes = (*sample_job.wishes(), piston)
    job = sample_job.job(wishes=wishes)
    sheet = compose(job)
    assert piston.name not in {d.name for v in sheet.views for d in v.dimensions}
    assert not inspect(sheet, job)
    # The same size, typed, may not be left out.
    typed = sample_job.job(wishes=wishes, values=())
    (found,) = inspect(sheet, typed)
    assert (found.code, found.field) == ("sheet-missing-size", piston.name)
    assert piston.name in {d.name for v in compose(typed).views for d in v.dimensions}


def test_in_dxf_the_half_dimension_has_no_first_arrow():
    import io

    import ezdxf

    data = dxf_bytes(compose(sample_job.job()))
    document = ezdxf.read(io.StringIO(data.decode()))
    halves = [
        d
        for d in document.modelspace().query("DIMENSION")
        if d.get_acad_dstyle(d.override().dimstyle).get("dimsd1")
    ]
    assert [round(d.dxf.actual_measurement, 6) for d in halves] == [80.0]


def test_words_on_hatching_are_told():
    job = sample_job.job()
    sheet = compose(job)
    views = []
    for view in sheet.views:
        if view.name == "extended":
            assert view.hatches
            on = Text((30.0, 20.0), "CAP", 3.5, "middle", name="on the cap")
            view = replace(view, texts=(*view.texts, on))
        views.append(view)
    assert not inspect(sheet, job)
    found = inspect(replace(sheet, views=tuple(views)), job)
    assert any(f.code == "sheet-line-through-text" and "hatch" in f.message for f in found)


def test_a_flange_at_the_base_is_cut_with_the_barrel():
    job = sample_job.job()
    plate = Piece("body_mount.plate", cylinder(90.0, -10.0, 25.0))

    def flanged(part):
        kept = tuple(q for q in part.pieces if not q.name.startswith("body_mount."))
        return replace(part, pieces=(*kept, plate)) if part.name == "barrel" else part

    job = replace(job, extended=tuple(flanged(p) for p in job.extended))
    (hatch,) = hatches_of(_extended(job), 0.2)
    corners = [p for loop in hatch.loops for p in outline_points(loop, 0.01)]
    assert min(corners) == pytest.approx((-10.0, 0.0))
    assert max(z for x, z in corners if x < 20.0) == pytest.approx(90.0)
    assert min(z for _, z in corners) == pytest.approx(0.0)


def _drawn(text):
    return sheet_job(load(checked(text.encode())))


FOOTED = """
title = "Press table"
number = "PT-12"
units = "mm"
[cylinder]
bore = {bore}
rod = 30
stroke = 180
retracted = 430
barrel_outside = {outside}
[body_mount]
mount = "foot"
seat_height = 70
plate = [40, 150]
thickness = 15
bolts = {{ count = 4, hole = 11, pitch = [150, 120] }}
[rod_mount]
mount = "male thread"
thread = "M20x1.5"
[base_port]
thread = "G 3/8"
[rod_port]
thread = "G 3/8"
"""


@pytest.mark.parametrize(("bore", "outside"), [(80, 100), (63, 80)])
def test_no_edge_of_a_foot_lies_on_the_axis(bore, outside):
    """A web up to the axis showed its top there; at 80 in 100 its sides touched the bore too."""
    opened = _extended(_drawn(FOOTED.format(bore=bore, outside=outside)))
    on_axis = [
        s
        for s in opened.visible
        if isinstance(s.curve, Line) and max(abs(s.curve.a[1]), abs(s.curve.b[1])) < 1e-6
    ]
    assert on_axis == []


FLANGED = """
title = "Vat lid"
number = "VL-3"
units = "mm"
[cylinder]
bore = 60
rod = 35
stroke = 200
retracted = 300
[body_mount]
mount = "flange"
position = 120
plate = 160
thickness = 18
seat = "rod side"
bolts = {{ count = {count}, hole = 11, circle = 130, first_hole = "{first}" }}
[rod_mount]
mount = "plain"
[base_port]
thread = "G 1/4"
[rod_port]
thread = "G 1/4"
"""


@pytest.mark.parametrize(
    ("count", "first", "above"), [(5, "on", [65.0]), (6, "astride", []), (4, "astride", [])]
)
def test_only_a_flanges_hole_in_the_plane_has_a_centre_line_above_the_axis(count, first, above):
    """That of a hole beside the plane ran over bore and rod, with nothing of the hole there."""
    job = _drawn(FLANGED.format(count=count, first=first))
    marks = marks_of(_extended(job), job, 0.2, Style())
    levels = [m.curve.a[1] for m in marks if m.role == "centre" and m.name.endswith("bolts.hole")]
    assert sorted(z for z in levels if z > 1.0) == pytest.approx(above)
    assert [z for z in levels if z < -1.0]

"""The DXF file read back and audited.

The measurement of each DIMENSION, as the reader works it out from the points in the file, is held
against the size that the sheet claims; texts, arrow tips and viewports against the sheet. Facts
about units and header variables: the public DXF reference, from memory.
"""

import re
from dataclasses import replace
from io import StringIO
from itertools import pairwise
from math import dist, pi
from pathlib import Path

import ezdxf
import pytest
from ezdxf import bbox
from ezdxf.path import from_hatch_boundary_path

from drafting.drawing.compose.choose import compose
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.explode import explode, in_lines
from drafting.drawing.sheet.sheet import Linear, Mark, Note, Round, Sheet, View
from drafting.drawing.sheet.strokes import Arc, EllipseArc, Line, Poly
from drafting.drawing.sheet.style import Style
from drafting.drawing.write.dxf.curves import loop_vertices
from drafting.drawing.write.dxf.dimensions import level_points
from drafting.drawing.write.dxf.file import dxf_bytes
from drafting.drawing.write.dxf.words import Form, plain, shown
from tests.drawing.sample_sheets import sample
from tests.model.mount_specs import settled

ROOT = Path(__file__).parents[2]

UNITS = {"mm": 1.0, "in": 25.4}


def read(data):
    return ezdxf.read(StringIO(data.decode("utf-8")))


@pytest.fixture(scope="module", params=UNITS)
def case(request):
    """The sample sheet in each unit, with its file read back."""
    page = sample(request.param)
    return page, UNITS[request.param], read(dxf_bytes(page))


def sizes(page):
    """Each measured dimension that the windows of the sheet show, with its view."""
    for view in page.views:
        for d in view.dimensions:
            shown_here = view.window is None or d.name == "detail.wall"
            if isinstance(d, Linear | Round) and shown_here:
                yield view, d


def test_no_errors_and_no_fixes(case):
    auditor = case[2].audit()
    assert not auditor.errors
    assert not auditor.fixes


def test_every_dimension_measures_its_true_size(case):
    page, unit, document = case
    entities = list(document.modelspace().query("DIMENSION"))
    expected = list(sizes(page))
    assert len(entities) == len(expected) == 8
    for entity, (_, d) in zip(entities, expected, strict=True):
        assert entity.get_measurement() == pytest.approx(d.measure_mm / unit, abs=1e-6)
        assert entity.dxf.actual_measurement == pytest.approx(d.measure_mm / unit, abs=1e-6)


def test_the_texts_are_those_of_the_sheet(case):
    page, _, document = case
    for entity, (_, d) in zip(document.modelspace().query("DIMENSION"), sizes(page), strict=True):
        values = entity.override()
        form = Form(values["dimdec"], values["dimzin"])
        number = shown(entity.get_measurement(), form)
        printed = entity.dxf.text.replace("<>", number).split("\\P")
        first, other, rest = in_lines([plain(t) for t in d.texts])
        wanted = [first + (f" {d.flag}" if d.flag else "") + (f" {other}" if other else ""), *rest]
        assert printed == wanted
        picture = [t.dxf.text for t in entity.get_geometry_block().query("TEXT")]
        assert picture == [plain(t) for t in d.texts] + ([d.flag] if d.flag else [])


def test_sizes_are_tied_to_what_is_measured(case):
    tied = [e for e in case[2].modelspace().query("DIMENSION") if "<>" in e.dxf.text]
    linear = [d for _, d in sizes(case[0]) if isinstance(d, Linear)]
    # The detail of the sample prints millimetres on the sheet in inches as well.
    assert len(tied) == len(linear) - (case[1] != 1.0)


def test_the_stored_picture_is_our_own(case):
    page, unit, document = case
    style = Style()
    for entity, (view, d) in zip(
        document.modelspace().query("DIMENSION"), sizes(page), strict=True
    ):
        drawn = explode(d, view.at, view.scale, style)
        solids = list(entity.get_geometry_block().query("SOLID"))
        assert len(solids) == len(drawn.arrows)
        lines = list(entity.get_geometry_block().query("LINE"))
        assert len(lines) == len(drawn.segments)
        for line, (a, b) in zip(lines, drawn.segments, strict=True):
            length = dist(line.dxf.start, line.dxf.end) * unit * view.scale
            assert length == pytest.approx(dist(a, b), abs=1e-6)
        if isinstance(d, Linear):
            span = dist(solids[0].dxf.vtx0, solids[1].dxf.vtx0)
            assert span == pytest.approx(d.measure_mm / unit)


def paper_of(viewport, point):
    """Bring a point of model space to the paper, as a viewport does."""
    k = viewport.dxf.height / viewport.dxf.view_height
    centre, middle = viewport.dxf.center, viewport.dxf.view_center_point
    return tuple(centre[i] + (point[i] - middle[i]) * k for i in (0, 1))


def test_viewports_show_each_view_in_its_place(case):
    page, unit, document = case
    viewports = [v for v in document.layout("Sheet").query("VIEWPORT") if v.dxf.id != 1]
    assert len(viewports) == 2
    for view, viewport in zip(page.views, viewports, strict=True):
        assert viewport.dxf.height / viewport.dxf.view_height == pytest.approx(view.scale)
        assert viewport.dxf.flags & 0x4000  # locked
        assert not document.layers.get(viewport.dxf.layer).dxf.plot
    side, viewport = page.views[0], viewports[0]
    (pin,) = document.modelspace().query("CIRCLE")
    assert pin.dxf.radius == pytest.approx(20 / unit)
    at = paper_of(viewport, pin.dxf.center)
    assert at == pytest.approx((side.at[0] / unit, side.at[1] / unit))
    detail = page.views[1]
    wall = list(document.modelspace().query("DIMENSION"))[-1]
    tip = wall.get_geometry_block().query("SOLID").first.dxf.vtx0
    drawn = explode(detail.dimensions[0], detail.at, detail.scale, Style())
    assert [c * unit for c in paper_of(viewports[1], tip)] == pytest.approx(drawn.arrows[0][0])


def test_model_space_holds_outline_and_dimensions_only(case):
    page, unit, document = case
    model = document.modelspace()
    allowed = {"LINE", "ARC", "CIRCLE", "ELLIPSE", "LWPOLYLINE", "HATCH", "DIMENSION", "LEADER"}
    others = [e for e in model if e.dxftype() not in allowed]
    notes = [plain(t) for d in page.views[0].dimensions if isinstance(d, Note) for t in d.texts]
    assert [e.dxf.text for e in others] == notes
    assert not model.query('*[layer=="FRAME" | layer=="TABLE" | layer=="TEXT"]')
    box = bbox.extents(model)
    assert box.extmin.y > page.height / unit  # clear of the sheet in programs without paper space
    for key, corner in (("$EXTMIN", box.extmin), ("$EXTMAX", box.extmax)):
        assert document.header[key][:2] == pytest.approx(tuple(corner)[:2], abs=0.1 * box.size.x)
    view = document.viewports.get("*Active")[0].dxf
    # Group 12 counts from the target, group 17 (DXF reference, VPORT).
    x, y = view.center.x + view.target.x, view.center.y + view.target.y
    # LibreCAD 2.2 was seen to show 2 x centre - window / 2 in its middle.
    window = (view.height * view.aspect_ratio, view.height)
    seen = (2 * c - w / 2 for c, w in zip(view.center.vec2, window, strict=True))
    assert tuple(seen) == pytest.approx((x, y))
    assert y - view.height / 2 <= box.extmin.y
    assert y + view.height / 2 >= box.extmax.y
    assert x + view.height * view.aspect_ratio / 2 >= box.extmax.x
    assert x - view.height * view.aspect_ratio / 2 <= box.extmin.x


def test_pictures_of_two_scales_lie_apart(case):
    viewports = [v for v in case[2].layout("Sheet").query("VIEWPORT") if v.dxf.id != 1]
    spans = []
    for v in viewports:
        wide = v.dxf.view_height * v.dxf.width / v.dxf.height
        spans.append((v.dxf.view_center_point.x - wide / 2, v.dxf.view_center_point.x + wide / 2))
    assert spans[0][1] < spans[1][0]


def test_units_and_header(case):
    page, unit, document = case
    header = document.header
    metric = page.units == "mm"
    assert header["$INSUNITS"] == (4 if metric else 1)
    assert header["$MEASUREMENT"] == (1 if metric else 0)
    assert (header["$LTSCALE"], header["$PSLTSCALE"]) == (1, 1)
    style = document.dimstyles.get(header["$DIMSTYLE"]).dxf
    assert style.dimlfac == 1
    assert style.dimscale == pytest.approx(1 / page.views[0].scale)
    for name in ("dimscale", "dimtxt", "dimasz", "dimexo", "dimexe", "dimgap", "dimtad", "dimdec"):
        assert header[f"${name.upper()}"] == style.get(name)
    assert style.dimtxt * unit == pytest.approx(3.5)
    layout = document.layout("Sheet").dxf_layout.dxf
    assert (layout.paper_width, layout.paper_height) == pytest.approx((420, 297))


def test_hatch_is_bounded_by_its_loops(case):
    _, unit, document = case
    wall, gland, cut = document.modelspace().query("HATCH")
    assert wall.dxf.pattern_name == "ANSI31"
    (line,) = wall.pattern.lines
    assert line.angle == pytest.approx(45)
    assert dist(line.offset, (0, 0)) == pytest.approx(6 / unit)
    assert wall.dxf.pattern_angle == pytest.approx(0)
    assert gland.dxf.pattern_angle == pytest.approx(90)
    assert [len(p.vertices) for p in wall.paths] == [4]
    outer, hole = (from_hatch_boundary_path(p).flattening(1e-4) for p in gland.paths)
    for points, (wide, high) in ((outer, (17.5, 35)), (hole, (8, 8))):
        box = bbox.BoundingBox(points)
        assert (box.size.x * unit, box.size.y * unit) == pytest.approx((wide, high), abs=0.01)
    assert len(cut.paths) == 1


def test_no_entity_ends_in_a_lone_zero():
    """A reader that skips unknown entities line by line takes such a 0 for the next entity."""
    text = dxf_bytes(sample()).decode().split("\nENTITIES\n")[1].split("\nENDSEC\n")[0]
    lines = [line.strip() for line in text.splitlines()][:-1]
    pairs = list(zip(lines[::2], lines[1::2], strict=True))
    last = [before[1] for before, (code, _) in pairwise(pairs) if code == "0"]
    assert len(last) > 40
    assert "0" not in last


def test_arcs_of_a_loop_bulge_the_right_way():
    top = Arc((0, 0), 10, 0, pi)
    half = loop_vertices((Line((-10, 0), (10, 0)), top), 0.01)
    assert half == [(-10, 0, 0), (pytest.approx(10), 0, pytest.approx(1))]
    other_way = loop_vertices((Line((10, 0), (-10, 0)), top), 0.01)
    assert other_way[1][2] == pytest.approx(-1)
    assert other_way[1][:2] == pytest.approx((-10, 0))


def test_outline_only():
    document = read(dxf_bytes(sample(), outline_only=True))
    assert not document.audit().errors
    assert len(document.layout("Sheet").query("LINE TEXT")) == 0
    model = document.modelspace()
    assert {e.dxf.layer for e in model} == {"OUTLINE", "HIDDEN", "CENTRE", "PHANTOM", "THREAD"}
    (pin,) = model.query("CIRCLE")
    assert tuple(pin.dxf.center) == pytest.approx((0, 0, 0))
    assert bbox.extents(model.query('*[layer=="CENTRE"]')).size.x == pytest.approx(658)


def test_curves_are_exact_and_none_is_empty():
    marks = (
        Line((1, 1), (1, 1)),
        Arc((0, 0), 0, 0, 1),
        Poly(((0, 0), (5, 0), (5, 5), (0, 0))),
        Poly(((0, 0), (5, 0), (5, 0))),
        EllipseArc((3, 4), (5, 0), (0, 20), 0.5, 1.5),
        EllipseArc((3, 4), (5, 0), (0, 1e-9), 0, 6.283185307179586),
        Arc((0, 0), 10, 3, 7),
    )
    view = View("v", "", (50, 50), 1, tuple(Mark(c, "outline") for c in marks))
    document = read(dxf_bytes(Sheet("A3", 420, 297, "mm", (view,)), outline_only=True))
    triangle, line, ellipse, edge, arc = document.modelspace()
    assert triangle.closed
    assert len(triangle) == 3
    assert line.dxftype() == "LINE"
    track = [(x, y) for x, y, *_ in ellipse.get_points()]
    assert track[0] == pytest.approx((3 + 5 * 0.8775825618903728, 4 + 20 * 0.479425538604203))
    assert track[-1] == pytest.approx((3 + 5 * 0.0707372016677029, 4 + 20 * 0.9974949866040544))
    assert all(((x - 3) / 5) ** 2 + ((y - 4) / 20) ** 2 == pytest.approx(1.0) for x, y in track)
    assert (edge.dxf.start.x, edge.dxf.end.x) == pytest.approx((-2, 8))
    assert arc.dxf.start_angle == pytest.approx(171.887338539)
    assert arc.dxf.end_angle == pytest.approx(401.070456592 - 360)


@pytest.mark.parametrize(("t0", "t1"), [(0.3, 0.8), (0.0, pi / 2), (0.0, pi), (0.5, 5.5)])
def test_part_of_an_ellipse_is_a_fine_polyline_that_keeps_its_length(t0, t1):
    """With equal axes the length is known: radius times angle."""
    curve = EllipseArc((0, 0), (30, 0), (0, 30), t0, t1)
    view = View("v", "", (50, 50), 1, (Mark(curve, "outline"),))
    (line,) = read(dxf_bytes(Sheet("A3", 420, 297, "mm", (view,)), outline_only=True)).modelspace()
    track = [(x, y) for x, y, *_ in line.get_points()]
    assert 17 <= len(track) <= 65
    run = sum(dist(a, b) for a, b in pairwise(track))
    assert run == pytest.approx(30 * (t1 - t0), rel=4.1e-4)


def test_a_whole_ellipse_is_an_ellipse():
    curve = EllipseArc((0, 0), (30, 0), (0, 10), 0, 2 * pi)
    view = View("v", "", (50, 50), 1, (Mark(curve, "outline"),))
    (ring,) = read(dxf_bytes(Sheet("A3", 420, 297, "mm", (view,)), outline_only=True)).modelspace()
    assert ring.dxftype() == "ELLIPSE"
    assert ring.dxf.ratio == pytest.approx(1 / 3)


def test_short_dashed_lines_have_a_shorter_line_type():
    """Programs draw a line that is shorter than its pattern without dashes."""
    marks = tuple(Mark(Line((0, y), (x, y)), "centre") for y, x in ((0, 10), (5, 100), (9, 3)))
    view = View("v", "", (50, 50), 1, marks)
    document = read(dxf_bytes(Sheet("A3", 420, 297, "mm", (view,))))
    short, long, dash = document.modelspace()
    assert short.dxf.linetype == "CENTER2"
    pattern = [
        abs(t.value) for t in document.linetypes.get("CENTER2").pattern_tags.tags if t.code == 49
    ]
    assert 2 * sum(pattern) * short.dxf.ltscale + pattern[0] * short.dxf.ltscale == pytest.approx(
        10
    )
    assert long.dxf.get("linetype", "BYLAYER") == "BYLAYER"
    assert dash.dxf.linetype == "Continuous"


def test_measured_points_come_to_one_height_along_geometry_or_extension_line():
    d = Linear("l", (0, 0), (70, -20), 0, (35, -50), (35, -48), ("70",), 70)
    face = Mark(Line((70, -20), (70, 20)), "outline")
    assert level_points(d, [face]) == ((0, 0), (70, 0))
    assert level_points(replace(d, a=d.b, b=d.a), [face]) == ((70, 0), (0, 0))
    assert level_points(d, []) == ((0, -20), (70, -20))
    centre = Mark(Line((0, -25), (0, 25)), "centre")
    assert level_points(d, [face, centre]) == ((0, -20), (70, -20))
    upright = Linear("v", (0, 0), (30, 70), 90, (60, 35), (58, 35), ("70",), 70)
    edge = Mark(Line((0, 0), (40, 0)), "outline")
    assert level_points(upright, [edge]) == ((30, 0), (30, 70))


@pytest.mark.parametrize("shelf", ["", "left"])
def test_a_text_on_a_shelf_is_level_in_programs_that_draw_it_anew(shelf):
    """DIMTIH and DIMTOH: text is level inside and outside; public DXF reference (memory)."""
    d = Linear("v", (0, 0), (0, 40), 90, (60, 0), (30, 58), ("40",), 40, shelf=shelf)
    view = View("v", "", (150, 50), 1, (Mark(Line((0, 0), (0, 40)), "outline"),), (d,))
    (entity,) = (
        read(dxf_bytes(Sheet("A3", 420, 297, "mm", (view,)))).modelspace().query("DIMENSION")
    )
    style = entity.get_acad_dstyle(entity.override().dimstyle)
    level = bool(shelf)
    assert [bool(style.get(k)) for k in ("dimtih", "dimtoh")] == [level, level]
    (text,) = entity.get_geometry_block().query("TEXT")
    assert text.dxf.get("rotation", 0) == (0 if level else 90)


def test_diameters_are_measured_level_like_their_text(case):
    """LibreCAD 2.2 turns the text of a diameter along the measured line."""
    rounds = [d for d in case[2].modelspace().query("DIMENSION") if d.dimtype == 3]
    assert rounds
    for d in rounds:
        assert d.dxf.defpoint.y == pytest.approx(d.dxf.defpoint4.y)


def test_classes_stand_in_order(case):
    """The library collects them from a set, whose order differs between runs of Python."""
    keys = list(case[2].classes.classes)
    assert len(keys) > 3
    assert keys == sorted(keys)


def test_file_is_small_and_has_no_surprises():
    data = dxf_bytes(sample())
    assert len(data) < 150_000
    assert not re.search(rb"\n(?:MULTILEADER|SPLINE|ACAD_PROXY_ENTITY|IMAGE)\r?\n", data)


@pytest.mark.parametrize("printed", UNITS)
@pytest.mark.parametrize("model", UNITS)
def test_model_space_is_in_the_units_of_the_spec_whatever_is_printed(model, printed):
    page = replace(sample(printed), model_units=model)
    document = read(dxf_bytes(page))
    assert document.header["$INSUNITS"] == {"mm": 4, "in": 1}[model]
    sizes = {round(d.measure_mm, 4) for v in page.views for d in v.dimensions
             if isinstance(d, Linear | Round)}  # fmt: skip
    measured = {
        round(e.get_measurement() * UNITS[model], 4)
        for e in document.modelspace().query("DIMENSION")
        if e.dimtype in (0, 1)
    }
    assert measured
    assert measured <= sizes


def test_a_drawing_in_millimetres_of_a_file_in_inches_is_modelled_in_inches():
    text = (ROOT / "specs" / "weir-gate.toml").read_text(encoding="utf-8")
    text = re.sub(r"^dimensions.*$", "", text, flags=re.M)
    spec = text.replace("[drawing]", '[drawing]\ndimensions = "mm [in]"')
    sheet = compose(sheet_job(settled(spec)))
    assert (sheet.units, sheet.model_units) == ("mm", "in")

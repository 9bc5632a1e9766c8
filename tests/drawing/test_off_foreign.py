"""Lines keep off what a size does not belong to; all sizes are made up."""

from dataclasses import replace

import numpy as np
import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.dimension.leader_ways import note_ways
from drafting.drawing.dimension.length_ways import length_ways
from drafting.drawing.dimension.off_foreign import off_foreign
from drafting.drawing.sheet.clash import crossings, segments
from drafting.drawing.sheet.on_paper import box, union
from drafting.settle.wishes import Callout, Length
from drafting.shape.frame import Z
from tests.drawing.test_calm import job_of, view
from tests.drawing.test_ways import PLAIN, _ground

OUTRIGGER = """
title = "Outrigger swing"
units = "in"
[cylinder]
bore = 3
rod = "1 3/4"
stroke = "13 1/8"
retracted = "14 1/4"
clock_seen_from = "rod"
gland = "snap ring"
[body_mount]
mount = "trunnion"
pin = "1 1/2"
shoulders = "4 1/2"
width = "7 1/4"
position = 9
[rod_mount]
mount = "cross tube"
pin = "1 1/4"
hole = 1.266
width = "3 1/8"
left = "1 7/8"
right = "1 1/4"
bushing = "1 1/2"
outside = "2 1/4"
turned = 90
[base_port]
thread = "SAE-8"
clock = "10:00"
facing = "rod"
height = "3/4"
outlet_position = "1 1/4"
[rod_port]
thread = "SAE-8"
clock = "2:30"
[drawing]
fractions = 16
"""


def test_an_extension_line_does_not_run_over_a_port_in_the_end_view():
    """It ran through the middle of a port's tube and read as measured to the port's axis."""
    end = view(compose(job_of(OUTRIGGER)), "end")
    size = next(d for d in end.dimensions if d.name == "body_mount.shoulders")
    tube = [m.curve for m in end.marks if m.name.startswith("base_port") and m.role == "outline"]
    _, low, _, high = union([box(c) for c in tube])
    left = min((size.a, size.b), key=lambda p: p[0])
    ends = sorted((left[1], size.line_at[1]))
    assert ends[1] < low or ends[0] > high


ROOF = """
title = "Roof slide"
units = "mm"
[cylinder]
bore = 50
rod = 32
stroke = {stroke}
retracted = {retracted}
clock_seen_from = "rod"
[body_mount]
mount = "trunnion"
pin = 30
shoulders = {shoulders}
width = 125
position = "middle"
[rod_mount]
mount = "ball swivel"
pin = 25
hole = 25
width = 20
ball_width = 25
outside = 56
thread = "M24x2"
thread_length = 35
turned = 90
[base_port]
thread = "M18x1.5 ISO 6149"
clock = "{clock}"
[rod_port]
thread = "M18x1.5 ISO 6149"
clock = "{clock}"
"""


@pytest.mark.parametrize(
    ("stroke", "retracted", "shoulders", "clock", "above"),
    [(1720, 1210, 75, "8:30", True), (900, 800, 76, "8:30", True), (900, 800, 76, "9:30", False)],
)
def test_no_extension_line_starts_at_the_boss_that_covers_the_end_it_is_for(
    stroke, retracted, shoulders, clock, above
):
    """The lower corner of a shoulder lay under a port's boss: the size began at the boss."""
    text = ROOF.format(stroke=stroke, retracted=retracted, shoulders=shoulders, clock=clock)
    end = view(compose(job_of(text)), "end")
    (size,) = (d for d in end.dimensions if d.name == "body_mount.shoulders")
    assert (size.line_at[1] > 0.0) == above


@pytest.mark.parametrize(("x", "cost"), [(20.0, []), (100.0, [8.0]), (140.0, [13.0])])
def test_an_extension_line_far_along_a_view_is_dearer_with_each_mm(x, cost):
    """A width amid a barrel was led out past the whole of it, beside which it is none of it."""
    ground, wish = _ground(), Length("tube.size", (x, 0.0, -30.0), (x, 0.0, 12.0), Z)
    ways = length_ways(wish, PLAIN, ground)
    (weighed,) = off_foreign([(wish, ways)], ground)
    more = weighed.costs - ways.costs
    assert [*np.unique(more[(more > 1.0) & (more < 100.0)].round())] == cost


def test_a_leader_that_grazes_a_mount_is_as_dear_as_one_across_it():
    """It ran by the corner of a flange, nearer than two lines stand apart."""
    bare, wish = _ground(), Callout("small_port.thread", (618.0, 0.0, 40.0), Z, ("G 1/2",))
    plate = tuple(replace(s, piece="body_mount.plate") for s in bare.picture.strokes)
    ground = replace(bare, picture=replace(bare.picture, strokes=plate))
    ways = note_ways(wish, PLAIN, ground)
    (weighed,) = off_foreign([(wish, ways)], ground)
    x0, y0, x1, y1 = (v * ground.scale for v in ground.picture.box)
    t = np.linspace(0.0, 1.0, 401)[:, None]
    a, b = ways.lines[ways.line_of[:, 0]].transpose(1, 0, 2)
    x, y = (a + (b - a) * t[:, None]).transpose(2, 0, 1)
    off = np.hypot(np.fmax(np.fmax(x0 - x, x - x1), 0), np.fmax(np.fmax(y0 - y, y - y1), 0))
    near = off.min(0)
    assert {*np.digitize(near, (0.1, 0.5))} == {0, 1, 2}  # across it, by it and clear of it
    assert [*(weighed.costs - ways.costs > 20.0)] == [*(near < 0.5)]


def test_a_leader_over_the_keeper_of_a_pin_is_as_dear_as_one_over_a_mount():
    """It ended on a screw of the plate: the hole beside it is within the box round the pin."""
    bare, wish = _ground(), Callout("mount.hole", (618.0, 0.0, 40.0), Z, ("G 1/2",))
    costs = []
    for piece in ("rod_pin.shank", "rod_pin.keeper_screw1"):
        strokes = tuple(replace(s, piece=piece) for s in bare.picture.strokes)
        ground = replace(bare, picture=replace(bare.picture, strokes=strokes))
        (weighed,) = off_foreign([(wish, note_ways(wish, PLAIN, ground))], ground)
        costs.append(weighed.costs)
    more = costs[1] - costs[0]
    assert sorted({*more.round(3).tolist()}) == [0.0, 22.0]


FORGE = """
title = "Clamp with a drain beside its flange"
units = "in"
[cylinder]
bore = 14
rod = 8
stroke = 31
retracted = 66
barrel_outside = 17
gland = "bolted"
gland_outside = "20 1/2"
clock_seen_from = "rod"
[body_mount]
mount = "flange"
position = "base"
plate = 24
thickness = "2 7/8"
seat = "base side"
bolts = {count = 12, hole = "1 5/16", circle = "21 1/2", first_hole = "astride"}
[rod_mount]
mount = "male thread"
thread = "6-4 UN"
thread_length = 7
shoulder = 8
[base_port]
thread = "flange 1 1/2 code 62"
clock = "12:00"
[rod_port]
thread = "flange 1 1/2 code 62"
clock = "12:00"
[[extra_port]]
end = "base"
thread = "SAE-6"
clock = "6:00"
plugged = true
"""


def test_a_leader_passes_by_the_plate_beside_its_port():
    """It ran through the corner of the flange, over the centre lines of its holes."""
    side = view(compose(job_of(FORGE)), "side")
    port = next(d for d in side.dimensions if d.name == "extra_port[1].thread")
    (x0, y0), (x1, y1) = port.tip, port.knee
    t = np.linspace(0.0, 1.0, 201)
    x, y = x0 + (x1 - x0) * t, y0 + (y1 - y0) * t
    thick, high = 2.875 * 25.4, 12 * 25.4
    off = np.hypot(np.fmax(np.fmax(-x, x - thick), 0.0), np.fmax(np.abs(y) - high, 0.0))
    assert off.min() * side.scale > 0.4


CRIMPER = """
title = "Lid crimper"
units = "mm"
[cylinder]
construction = "tie rod"
bore = 32
rod = {rod}
stroke = {stroke}
retracted = {retracted}
square = 45
cushions = "rod"
clock_seen_from = "base"
[body_mount]
mount = "foot"
position = "rod end"
plate = [25, 80]
thickness = 12
seat_height = 28
bolts = {{count = 2, hole = 9, pitch = 62}}
[rod_mount]
mount = "male thread"
thread = "M14x1.5"
thread_length = 18
flats = 15
[base_port]
thread = "G 1/4"
clock = "3:00"
[rod_port]
thread = "G 1/4"
clock = "9:00"
[drawing]
sheet = "A4"
"""


@pytest.mark.parametrize(("stroke", "retracted", "rod"), [(38, 92, 18), (30, 88, 16)])
def test_a_leader_to_a_cap_runs_over_no_tie_rod(stroke, retracted, rod):
    """It ran along the whole barrel: within the box round all tie rods none of them counted."""
    side = view(
        compose(job_of(CRIMPER.format(stroke=stroke, retracted=retracted, rod=rod))), "side"
    )
    port = next(d for d in side.dimensions if d.name == "base_port.thread")
    rods = [m.curve for m in side.marks if m.name == "cylinder.tie_rod" and m.role == "outline"]
    lines = segments([(c.a, c.b) for c in rods])
    assert not len(crossings(segments([(port.tip, port.knee)]), lines)[0])

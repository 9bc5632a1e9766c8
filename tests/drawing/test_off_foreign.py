"""Extension lines keep off what a size does not belong to; all sizes are made up."""

import numpy as np
import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.dimension.length_ways import length_ways
from drafting.drawing.dimension.off_foreign import off_foreign
from drafting.drawing.sheet.on_paper import box, union
from drafting.settle.wishes import Length
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

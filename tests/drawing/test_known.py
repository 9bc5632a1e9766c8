"""To which of like features words are led: to those that are seen best. All sizes are made up."""

from dataclasses import replace

import numpy as np
import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.known import known
from drafting.drawing.dimension.leader_ways import round_ways
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.clash import segments
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at
from drafting.model.load import checked, load
from drafting.settle.wishes import Diameter
from tests.drawing.test_ways import EYE, PLAIN, SCALE, _ground

PRESS = """
title = "Side press"
number = "SP-4"
units = "mm"
[cylinder]
bore = 80
rod = 50
stroke = 200
retracted = 400
barrel_outside = 100
clock_seen_from = "rod"
[body_mount]
mount = "foot"
position = "base"
plate = [60, 160]
seat_height = 70
thickness = 18
bolts = {{ count = 2, hole = 18, pitch = [0, 116] }}
clock = "3:00"
[rod_mount]
mount = "plain"
[base_port]
thread = "G 1/2"
clock = "{clock}"
[rod_port]
thread = "G 1/2"
clock = "9:00"
"""


@pytest.mark.parametrize(("clock", "side"), [("12:00", -1.0), ("6:00", 1.0)])
def test_a_hole_is_pointed_at_that_no_boss_covers(clock, side):
    """Its leader ended on the rim of a boss, with a sickle of the hole beside it."""
    sheet = compose(sheet_job(load(checked(PRESS.format(clock=clock).encode()))))
    (hole,) = (
        d
        for v in sheet.views
        if v.name == "side"
        for d in v.dimensions
        if d.name == "body_mount.bolts.hole"
    )
    assert hole.centre[1] == pytest.approx(side * 58.0)


def test_words_go_to_the_nearest_of_like_holes():
    """They went past a hole beside them to one behind it."""
    ground, lower, upper = _ground(), (300.0, 0.0, -30.0), (300.0, 0.0, 30.0)
    hole = Diameter("mount.bolts.hole", lower, EYE, 12.0)
    alone, among = (
        round_ways(wish, PLAIN, ground) for wish in (hole, replace(hole, others=(upper,)))
    )
    above = np.array([among.make(i).knee[1] > 0.0 for i in range(len(among.costs))])
    more = among.costs - alone.costs
    assert above.any()
    assert not above.all()
    assert (more[above] > 0.1).all()
    assert not more[~above].any()


CAR = """
title = "Coil carriage"
units = "mm"
[cylinder]
construction = "tie rod"
bore = 100
rod = 56
stroke = 310
retracted = 560
square = 125
clock_seen_from = "rod"
[body_mount]
mount = "foot"
position = "rod end"
plate = [40, 210]
thickness = {thickness}
seat_height = 66
bolts = {{count = 2, hole = 17, pitch = 170}}
[rod_mount]
mount = "pin eye"
pin = 40
[base_port]
thread = "G 3/4"
clock = "12:00"
[rod_port]
thread = "G 3/4"
clock = "12:00"
"""


@pytest.mark.parametrize("thickness", [24, 31])
def test_the_thickness_of_a_foot_is_taken_on_the_side_that_it_is_written_on(thickness):
    """Its extension line came from the far foot, across the head and both nuts below."""
    seen = look_at(sheet_job(load(checked(CAR.format(thickness=thickness).encode()))))
    end = next(p for p in seen.pictures if p.name == "end")
    wish = next(c.wish for c in seen.choices if c.wish.name == "body_mount.thickness")
    edge = end.segments.reshape(-1, 2) * SCALE
    ground = Ground(end, SCALE, Style(), segments([]), edge)
    ((ways, _),) = known([(wish, PLAIN)], ground)
    left = [d for i in ways.costs.argsort()[:12] if (d := ways.make(i)).line_at[0] < 0.0]
    right = [d for i in ways.costs.argsort()[:12] if (d := ways.make(i)).line_at[0] > 0.0]
    assert left
    assert right
    assert all(d.a[0] < 0.0 for d in left)
    assert all(d.a[0] > 0.0 for d in right)

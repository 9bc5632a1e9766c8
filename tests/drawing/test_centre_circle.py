"""The circle of a flange's bolt holes: in the view along its axis, crossed at each hole.

Pitch circles are thin and chain-dotted and each hole has two centre lines: ISO 128-2 (memory).
"""

from math import cos, hypot, pi, radians, sin

import pytest

from drafting.drawing.dimension.picture import Picture
from drafting.drawing.project.project import project
from drafting.drawing.sheet.strokes import FROM_ROD, SIDE, Arc, Line
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.symbols import symbol_marks
from tests.model.mount_specs import INCH, at_end

STYLE = Style()
CIRCLE, HOLE = 6.5 * INCH / 2, 0.656 * INCH / 2


def flange(first, count=6, **place):
    bolts = {"count": count, "hole": 0.656, "circle": 6.5, "first_hole": first}
    table = {"position": "base", "plate": 8, "bolts": bolts, **place}
    return at_end("body", "flange", table, cylinder={"clock_seen_from": "rod"})


def marks(c, name, look):
    picture = Picture(name, name, look, "retracted", project(c.parts, look), 0.0)
    drawn = symbol_marks(c.symbols, picture, 0.2, STYLE).marks
    return [m for m in drawn if m.role == "centre" and "bolts" in m.name]


@pytest.mark.parametrize(("first", "start"), [("on", 0.0), ("astride", 30.0)])
def test_circle_and_radial_lines_at_every_hole(first, start):
    found = marks(flange(first), "end", FROM_ROD)
    (ring,) = [m.curve for m in found if isinstance(m.curve, Arc)]
    assert (ring.centre, ring.radius) == ((0.0, 0.0), pytest.approx(CIRCLE))
    assert ring.a1 - ring.a0 == pytest.approx(2 * pi)
    lines = [m.curve for m in found if isinstance(m.curve, Line)]
    assert len(lines) == 6
    over = STYLE.centre_overrun / 0.2
    middles = set()
    for line in lines:
        near, far = (hypot(*p) for p in (line.a, line.b))
        assert (near, far) == pytest.approx((CIRCLE - HOLE - over, CIRCLE + HOLE + over))
        assert line.a[0] * line.b[1] == pytest.approx(line.a[1] * line.b[0])
        middles.add(tuple(round((a + b) / 2, 3) for a, b in zip(line.a, line.b, strict=True)))
    angles = [radians(start + 60.0 * k) for k in range(6)]
    assert middles == {
        (round(CIRCLE * sin(a), 3) + 0.0, round(CIRCLE * cos(a), 3) + 0.0) for a in angles
    }


def test_from_aside_only_the_holes_axes_are_drawn():
    found = marks(flange("on"), "side", SIDE)
    assert found
    assert all(isinstance(m.curve, Line) and m.curve.a[1] == m.curve.b[1] for m in found)


def test_holes_at_a_pitch_lie_on_no_circle():
    bolts = {"count": 4, "hole": 0.656, "pitch": [6, 6]}
    c = at_end("body", "flange", {"position": "base", "plate": [8, 8], "bolts": bolts})
    found = marks(c, "end", FROM_ROD)
    assert len(found) >= 4
    assert all(isinstance(m.curve, Line) for m in found)

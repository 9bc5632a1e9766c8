"""The footprints of all ways at once are those of each way drawn by itself.

Source: ``explode``, which draws every dimension of the sheets and is tested on its own.
"""

import numpy as np
import pytest

from drafting.drawing.dimension.costs import solid, text_quads
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.leader_ways import note_ways, round_ways
from drafting.drawing.dimension.length_ways import length_ways
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.dimension.ways import Label
from drafting.drawing.sheet.clash import quads, segments
from drafting.drawing.sheet.explode import explode
from drafting.drawing.sheet.strokes import SIDE, Arc, Line, Stroke
from drafting.drawing.sheet.style import Style
from drafting.settle.wishes import Callout, Diameter, Length, Radius
from drafting.shape.frame import X, Z

STYLE = Style()
SCALE = 0.4
FLAGGED = Label(("Ø101.6", "[4.00]"), "OPEN", 101.6)
PLAIN = Label(("3 1/2",), "", 88.9)
EYE = (0.0, -1.0, 0.0)


def _ground() -> Ground:
    corners = [(0.0, -50.0), (600.0, -50.0), (600.0, 50.0), (0.0, 50.0)]
    curves = [Line(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]
    curves.append(Arc((80.0, 0.0), 20.0, 0.0, 6.283185307179586))
    strokes = tuple(Stroke(c, True, "barrel", "tube", "rim") for c in curves)
    picture = Picture("side", "SIDE", SIDE, "retracted", strokes)
    return Ground(picture, SCALE, STYLE, segments([]), picture.segments.reshape(-1, 2) * SCALE)


def _length(a, b, direction, form="plain"):
    return Length("tube.size", a, b, direction, form=form)


WAYS = {
    "wide": lambda g, n: length_ways(_length((0, 0, -50), (600, 0, -50), X), n, g),
    "narrow": lambda g, n: length_ways(_length((40, 0, 50), (52, 0, 30), X), n, g),
    "upright": lambda g, n: length_ways(_length((0, 0, -50), (0, 0, 50), Z), n, g),
    "turned": lambda g, n: length_ways(_length((0, 0, -5), (0, 0, 12), Z), n, g),
    "across": lambda g, n: length_ways(_length((300, 0, -50), (300, 0, 50), Z, "round"), n, g),
    "slanted": lambda g, n: length_ways(_length((0, 0, 0), (80, 0, 60), (0.8, 0, 0.6)), n, g),
    "falling": lambda g, n: length_ways(_length((0, 0, 60), (80, 0, 0), (0.8, 0, -0.6)), n, g),
    "diameter": lambda g, n: round_ways(Diameter("hole", (80, 0, 0), EYE, 40.0), n, g),
    "radius": lambda g, n: round_ways(Radius("eye", (80, 0, 0), EYE, (100, 0, 0), 20.0), n, g),
    "words": lambda g, n: note_ways(Callout("port", (80, 0, 0), EYE, n.texts), n, g),
}


@pytest.mark.parametrize("label", [FLAGGED, PLAIN], ids=["flagged", "plain"])
@pytest.mark.parametrize("kind", WAYS)
def test_footprints_are_those_of_drawn_dimensions(kind, label):
    if kind == "words":
        label = Label(label.texts, label.flag, 0.0)
    ground = _ground()
    ways = WAYS[kind](ground, label)
    assert len(ways.costs) >= 16
    for i in range(len(ways.costs)):
        drawn = explode(ways.make(i), (0.0, 0.0), SCALE, STYLE)
        _same(ways.lines[ways.line_of[i]], ways.thin[ways.line_of[i]] == 0, solid(drawn))
        _same(ways.lines[ways.line_of[i]], ways.thin[ways.line_of[i]] != 0, drawn.extensions)
        boxes = ways.texts[ways.text_of[i]]
        assert np.allclose(boxes, quads(text_quads(drawn)), atol=1e-9)


def _same(lines, use, expected):
    """Compare lines as sets of pairs of ends; lines of NaN are none."""
    found = [line for line, wanted in zip(lines, use, strict=True) if wanted]
    found = sorted(_ends(line) for line in found if not np.isnan(line).any())
    assert np.array(found) == pytest.approx(np.array(sorted(map(_ends, expected))), abs=1e-6)


def _ends(line):
    """Give the ends of a line as one row, whatever its direction."""
    a, b = sorted((round(float(x), 7) + 0.0, round(float(y), 7) + 0.0) for x, y in line)
    return (*a, *b)


def _with(*lines) -> Ground:
    """The long box with more lines."""
    bare = _ground()
    more = tuple(Stroke(Line(a, b), True, "barrel", "tube", "rim") for a, b in lines)
    picture = Picture("side", "SIDE", SIDE, "retracted", (*bare.picture.visible, *more))
    return Ground(picture, SCALE, STYLE, segments([]), picture.segments.reshape(-1, 2) * SCALE)


@pytest.mark.parametrize(("below", "behind"), [(12.0, True), (40.0, False)])
def test_an_extension_line_begins_where_its_edge_comes_out_of_what_covers_it(below, behind):
    """It began below a pad that covers the middle of the edge, and ran through the pad."""
    edge = 300.0
    ground = _with(((edge, -50.0), (edge, -8.0)), ((edge, 8.0), (edge, 50.0)))
    wish = _length((40.0, 0.0, -below), (edge, 0.0, -below), X)
    ways = length_ways(wish, PLAIN, ground)
    lines = ways.lines[(ways.thin == 1) & (ways.lines[:, :, 0] == edge * SCALE).all(1)]
    above = lines[lines[:, 1, 1] > 0.0]
    assert len(above)
    assert (above[:, 0, 1] > 50.0 * SCALE).all() == behind


def test_a_size_on_one_side_of_the_axis_is_not_written_beyond_it():
    """The height of a boss stood below the axis and read as a size of the barrel."""
    wish = _length((600.0, 0.0, 20.0), (600.0, 0.0, 50.0), Z)
    ways = length_ways(wish, FLAGGED, _ground())
    level = [ways.make(i) for i in range(len(ways.costs))]
    beyond = np.array([not d.shelf and d.text_at[1] < 0.0 for d in level])
    plain = np.array([not d.shelf and d.text_at[1] > 0.0 for d in level])
    assert ways.costs[beyond].min() > ways.costs[plain].min() + 20.0


def test_a_line_across_is_tried_amid_what_stands_upright():
    """Even steps missed the clear place between the edge of a pin and its centre line."""
    ground = _with(((110.0, -50.0), (110.0, 50.0)), ((140.0, -50.0), (140.0, 50.0)))
    wish = _length((300.0, 0.0, -50.0), (300.0, 0.0, 50.0), Z, "round")
    ways = length_ways(wish, PLAIN, ground)
    assert (abs(ways.lines[ways.thin == 0][:, :, 0] - 125.0 * SCALE) < 1e-6).all(1).any()

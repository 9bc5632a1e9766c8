"""What ways cost among placed dimensions is a sum that knows no order and leaves nothing behind."""

import random

import numpy as np
import pytest

from drafting.drawing.dimension.costs import HARD, Scene, on_paper
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.length_ways import length_ways
from drafting.drawing.sheet.clash import segments
from drafting.drawing.sheet.explode import explode
from drafting.settle.wishes import Length
from drafting.shape.frame import X
from tests.drawing.test_place import _picture as _stepped
from tests.drawing.test_ways import FLAGGED, PLAIN, SCALE, STYLE, _ground

SPANS = [(0.0, 600.0), (0.0, 250.0), (100.0, 400.0), (300.0, 600.0), (40.0, 52.0)]


def _scene():
    ground = _ground()
    ways = [
        length_ways(
            Length(f"tube.{n}", (a, 0, -50), (b, 0, -50), X), (PLAIN, FLAGGED)[n % 2], ground
        )
        for n, (a, b) in enumerate(SPANS)
    ]
    return ways, Scene(ways, on_paper(ways, ground.strokes, ground.centres, ground.hidden))


def _costs(scene):
    return [scene.costs(i).tolist() for i in range(len(SPANS))]


def test_what_stands_costs_the_same_in_whatever_order_it_came():
    ways, scene = _scene()
    empty, rng, found = _costs(scene), random.Random(7), []
    for _ in range(4):
        for i in rng.sample(range(len(ways)), len(ways)):
            for way in (3, 0):  # the second takes the place of the first
                scene.put(i, way, explode(ways[i].make(way), (0.0, 0.0), SCALE, STYLE))
        found.append(_costs(scene))
        for i in rng.sample(range(len(ways)), len(ways)):
            scene.take(i)
        assert _costs(scene) == empty
    assert all(costs == found[0] for costs in found)
    assert found[0] != empty


def test_a_way_on_a_placed_line_touches_it_and_not_itself():
    ways, scene = _scene()
    before = scene.costs(1)
    scene.put(0, 0, explode(ways[0].make(0), (0.0, 0.0), SCALE, STYLE))
    assert (scene.costs(1) - before).max() >= HARD
    assert np.array_equal(scene.costs(0), Scene.costs(_scene()[1], 0))


@pytest.mark.parametrize(("off", "more"), [(0.4, 30.0), (1.0, 0.0), (0.0, 0.0)])
def test_an_extension_line_beside_an_edge_is_dear_and_on_it_or_apart_it_is_not(off, more):
    """Half a millimetre beside the edge of another part it was read as measured to that."""
    picture = _stepped((300.0,))
    ground = Ground(picture, SCALE, STYLE, segments([]), picture.segments.reshape(-1, 2) * SCALE)
    far = least_on(ground, 300.0 + 4.0 / SCALE)
    assert least_on(ground, 300.0 + off / SCALE) - far == pytest.approx(10.0 * more, abs=10.0)


def least_on(ground, x):
    """What the cheapest way of a length, from amid the metal to ``x``, costs among strokes."""
    none = segments([])
    wish = Length("gland.length", (120.0, 0.0, 5.0), (x, 0.0, 5.0), X)
    return on_paper([length_ways(wish, PLAIN, ground)], ground.strokes, none, none)[0].min()

"""Views where the projection angle says (ISO 5456-2 and ASME Y14.3, memory), aligned, apart."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.compose.arrange import arrange, within

SIZE = st.floats(3.0, 150.0)
BOX = st.tuples(SIZE, SIZE, SIZE, SIZE).map(lambda b: (-b[0], -b[1], b[2], b[3]))
NAMES = ("side", "top", "end", "pin")
ANGLES = (st.sampled_from(["third", "first"]), st.sampled_from(["rod", "base"]))


def apart(boxes):
    return all(
        a[2] <= b[0] + 1e-6 or b[2] <= a[0] + 1e-6 or a[3] <= b[1] + 1e-6 or b[3] <= a[1] + 1e-6
        for a, b in combinations(boxes, 2)
    )


@given(st.tuples(*[BOX] * 4), *ANGLES, st.sets(st.sampled_from(["pin", "end"])))
def test_no_two_views_overlap_and_all_are_aligned(boxes, projection, side, left_out):
    given_boxes = {n: b for n, b in zip(NAMES, boxes, strict=True) if n not in left_out}
    found = arrange(given_boxes, projection, side)
    p = found.places
    assert p["side"][0] == pytest.approx(p["top"][0])
    if "pin" in p:
        assert p["pin"][1] == pytest.approx(p["top"][1])
    if "end" in p:
        assert p["side"][1] == pytest.approx(p["end"][1])
    assert apart(found.boxes.values())
    assert found.box[0] == pytest.approx(0)
    assert found.box[3] == pytest.approx(0)


@given(st.tuples(*[BOX] * 4), *ANGLES, st.floats(150.0, 900.0), st.floats(100.0, 700.0))
def test_what_is_left_over_lies_round_and_between(boxes, projection, side, wide, high):
    given_boxes = dict(zip(NAMES, boxes, strict=True))
    field = (20.0, 95.0, 20.0 + wide, 95.0 + high)
    near = arrange(given_boxes, projection, side).box
    found = within(given_boxes, field, projection, side)
    fits = near[2] <= wide and -near[1] <= high
    assert (found is not None) is fits
    if found:
        x0, y0, x1, y1 = found.box
        assert x0 >= field[0] - 1e-6
        assert y1 <= field[3] + 1e-6
        assert x0 - field[0] == pytest.approx(field[2] - x1)
        assert field[3] - y1 == pytest.approx(y0 - field[1])
        assert apart(found.boxes.values())


@pytest.mark.parametrize(
    ("projection", "side", "right", "top_above"),
    [
        ("third", "rod", True, True),
        ("third", "base", False, True),
        ("first", "rod", False, False),
        ("first", "base", True, False),
    ],
)
def test_projection(projection, side, right, top_above):
    boxes = dict.fromkeys(NAMES, (-10.0, -10.0, 60.0, 10.0))
    p = arrange(boxes, projection, side).places
    assert (p["end"][0] > p["side"][0]) is right
    assert (p["top"][1] > p["side"][1]) is top_above

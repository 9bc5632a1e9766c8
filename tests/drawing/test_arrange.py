"""Views where the projection angle says (ISO 5456-2 and ASME Y14.3, memory), aligned, apart."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.compose.arrange import BETWEEN, arrange

SIZE = st.floats(3.0, 150.0)
BOX = st.tuples(SIZE, SIZE, SIZE, SIZE).map(lambda b: (-b[0], -b[1], b[2], b[3]))
NAMES = ("side", "top", "end", "extended", "pin")


@given(
    st.tuples(*[BOX] * 5),
    st.sampled_from(["third", "first"]),
    st.sampled_from(["rod", "base"]),
    st.floats(BETWEEN, 40.0),
    st.sets(st.sampled_from(["pin", "end"])),
)
def test_no_two_views_overlap_and_all_are_aligned(boxes, projection, side, apart, left_out):
    given_boxes = {n: b for n, b in zip(NAMES, boxes, strict=True) if n not in left_out}
    found = arrange(given_boxes, projection, side, apart)
    p = found.places
    assert p["side"][0] == pytest.approx(p["top"][0])
    assert p["side"][0] == pytest.approx(p["extended"][0])
    if "pin" in p:
        assert p["pin"][1] == pytest.approx(p["top"][1])
    if "end" in p:
        assert p["side"][1] == pytest.approx(p["end"][1])
    for a, b in combinations(found.boxes.values(), 2):
        assert (
            a[2] <= b[0] + 1e-6 or b[2] <= a[0] + 1e-6 or a[3] <= b[1] + 1e-6 or b[3] <= a[1] + 1e-6
        )
    assert found.box[0] == pytest.approx(0)
    assert found.box[3] == pytest.approx(0)


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
    p = arrange(boxes, projection, side, 12.0).places
    assert (p["end"][0] > p["side"][0]) is right
    assert (p["top"][1] > p["side"][1]) is top_above
    assert p["extended"][1] < min(p["side"][1], p["top"][1])

"""3 and 9 o'clock from both ends, as far as the sheet and the STEP file.

The spec format's own rule: seen from the rod end 3 o'clock is +Y, seen from the base -Y; ``turned``
runs clockwise from the Y axis as the clocks are read. Everything else is mirrored by hand.
"""

from math import cos, radians, sin

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.on_paper import box
from drafting.told.meta import meta
from tests.model.mount_specs import INCH, settled, spec_text
from tests.solids.as_step import step_pair
from tests.solids.read_step import bounds, read

SIDES = [("rod", 1.0), ("base", -1.0)]
BOTH = pytest.mark.parametrize(("side", "sign"), SIDES)
THREE_HOLES = {"count": 3, "hole": 0.656, "circle": 6.5, "first_hole": "on"}
FLANGE = {"position": "base", "plate": 8, "bolts": THREE_HOLES, "seat": "base side"}
ROW = {"count": 2, "hole": 0.656, "pitch": [1, 5.5]}
FOOT = {"position": "base", "plate": [2, 7], "seat_height": 2.5, "clock": "3:00", "bolts": ROW}
EYE = {"pin": 1.25, "hole": 1.266, "width": 1.5}
PORT = "[base_port]\nthread = 'SAE-8'\nclock = '3:00'\n"


def cylinder(side, body=("none", {}), rod=("plain", {}), more=""):
    return settled(spec_text(body, rod, cylinder={"clock_seen_from": side}, more=more))


def boxes(c, name, tmp_path):
    """Give the boxes of the faces of that piece in both STEP files."""
    for data in step_pair(c.name, c.parts, c.lengths.stroke, meta(c)):
        tree = read(data, tmp_path)
        yield [bounds(f) for f in tree.faces_of(name)]


def middle(box, axis):
    return (box[axis] + box[axis + 3]) / 2


@BOTH
def test_a_port_at_three(side, sign, tmp_path):
    for found in boxes(cylinder(side, more=PORT), "base_port.thread", tmp_path):
        assert found
        assert all(sign * middle(b, 1) > 40.0 and abs(middle(b, 2)) < 1.0 for b in found)


@BOTH
def test_the_seat_of_a_foot_at_three(side, sign, tmp_path):
    """2.5 in from the axis, across the axis of 12 o'clock."""
    c = cylinder(side, body=("foot", FOOT))
    for found in boxes(c, "body_mount.plate", tmp_path):
        far = max(sign * b[k] for b in found for k in (1, 4))
        assert far == pytest.approx(2.5 * INCH)
        assert max(sign * -b[k] for b in found for k in (1, 4)) < 0.0


@BOTH
def test_the_first_of_three_holes_is_on_twelve_from_either_end(side, sign, tmp_path):
    c = cylinder(side, body=("flange", FLANGE))
    for found in boxes(c, "body_mount.bolts.hole1", tmp_path):
        assert found
        assert all(abs(middle(b, 1)) < 0.01 for b in found)
        assert all(middle(b, 2) == pytest.approx(6.5 * INCH / 2, abs=0.01) for b in found)
    # The second one follows clockwise as seen from the rod end, whichever end clocks are read from.
    for found in boxes(c, "body_mount.bolts.hole2", tmp_path):
        assert all(middle(b, 1) > 0.0 > middle(b, 2) for b in found)


@BOTH
@pytest.mark.parametrize("turned", [35, -35])
def test_a_turned_rod_pin(side, sign, turned, tmp_path):
    """Clockwise from 3 o'clock goes down: at 35 degrees the pin's +Y end lies sin 35 below."""
    c = cylinder(side, rod=("cross tube", {**EYE, "width": 3, "left": 2, "turned": turned}))
    tube = next(p for part in c.parts for p in part.pieces if p.name == "rod_mount.tube")
    along = [v * (1 if tube.frame.x[1] > 0 else -1) for v in tube.frame.x]
    a = radians(turned)
    assert along == pytest.approx([0.0, cos(a), -sign * sin(a)])
    # The same in the files: the end faces of the tube, 2 in to the left and 1 in to the right.
    for found in boxes(c, "rod_mount.tube", tmp_path):
        left = max(found, key=lambda b: b[4])
        assert middle(left, 1) == pytest.approx(2 * INCH * cos(a), abs=40.0)
        down = min(b[2] for b in found) if sign * turned > 0 else max(b[5] for b in found)
        assert abs(down) > 2 * INCH * abs(sin(a))
        assert (down < 0.0) is (sign * turned > 0)


@BOTH
def test_the_end_view_is_looked_at_from_where_the_clocks_are_read(side, sign):
    """There 3 o'clock is on the right, whichever end that is; the words give that reading."""
    sheet = compose(sheet_job(cylinder(side, more=PORT)))
    view = next(v for v in sheet.views if v.name == "end")
    boss = [m.curve for m in view.marks if m.name == "base_port.boss"]
    assert boss
    assert all(box(c)[2] > 40.0 and box(c)[0] > -1.0 for c in boss)
    notes = [d.texts for v in sheet.views for d in v.dimensions if d.name == "base_port.thread"]
    words = " ".join(notes[0])
    assert words.endswith(", 3:00")
    other = "base" if side == "rod" else "rod"
    table = [t.text for t in sheet.texts if t.name.startswith("ports")]
    assert "3:00 (9:00)" in table
    assert f"CLOCK FROM {side.upper()} ({other.upper()})" in table

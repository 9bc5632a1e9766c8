"""What gives way where a page lacks a little: words for words that cannot, a view for a bore."""

from types import SimpleNamespace

import pytest

from drafting.drawing.compose import choose
from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.tight import rooms
from drafting.drawing.inspect.inspect import inspect
from tests.drawing.test_calm import LATCH, job_of

KNUCKLE = """
title = "Knuckle boom lift"
units = "in"
[cylinder]
bore = "4 1/2"
rod = "2 3/4"
stroke = "33 1/2"
retracted = "53 5/8"
extended = "87 1/8"
barrel_outside = "5 1/4"
base_thickness = "1 3/4"
gland = "bolted"
gland_outside = "7"
gland_length = "4 1/2"
gland_projection = "1 5/8"
piston_length = "3 1/4"
stop_tube = "1 1/2"
cushions = "both"
working_pressure = "2800 psi"
clock_seen_from = "rod"
tolerance = {retracted = "+1/16 -0", stroke = "±1/32", bore = "H9", rod = "f8"}
[body_mount]
mount = "clevis"
pin = 2
hole = 2.016
gap = "2 1/16"
width = "4 9/16"
throat = "2 7/16"
nose = "2"
outside = "4"
tolerance = {hole = "2.015 to 2.020 in", gap = "+1/16 -0", width = "+0 -1/16"}
[rod_mount]
mount = "ball swivel"
pin = "1 3/4"
hole = "1 3/4"
width = "1 5/16"
ball_width = "1 17/32"
outside = "3 3/4"
thread = "2-12 UN"
thread_length = "2 3/4"
adjustment = "1/4"
jam_nut = true
turned = 90
tolerance = {hole = "+0.0007 -0", ball_width = "+0 -0.005"}
[base_port]
thread = "flange 1 code 61"
clock = "4:15"
position = "6 5/8"
tolerance = {position = "±1/16"}
[rod_port]
thread = "SAE-16"
clock = "1:00"
position = "42 7/8"
facing = "base"
height = "1 1/4"
outlet_position = "10 3/4"
[[extra_port]]
end = "base"
thread = "SAE-4"
clock = "9:30"
position = "6 5/8"
plugged = true
[[extra_port]]
end = "rod"
thread = "SAE-4"
clock = "8:00"
position = "42 7/8"
plugged = true
[drawing]
dimensions = "in [mm]"
fractions = 32
"""


def test_words_that_fill_their_room_are_asked_no_more_and_others_come_nearer():
    """What was too much was taken again from words that had come as near as they can."""
    bare = {"side": (0.0, 0.0, 90.0, 10.0)}
    words = {"side": (-20.0, -36.0, 105.0, 33.0)}
    had = {"side": (-45.0, -30.0, 130.0, 42.0)}

    def around(boxes):
        return boxes["side"]

    found = rooms(bare, words, (300.0, 64.0), around, had)
    assert found["side"][1] == -36.0
    assert found["side"][3] == pytest.approx(28.0, abs=0.2)
    filled = {"side": (-45.0, -30.0, 130.0, 33.0)}
    assert rooms(bare, words, (300.0, 64.0), around, filled) is None


def test_words_come_nearer_for_others_that_cannot_before_a_larger_sheet():
    """C at 1:4 was taken for a millimetre that the words below a top view had left."""
    job = job_of(KNUCKLE)
    sheet = compose(job)
    assert sheet.size_name == "B"
    assert {v.name: v.scale for v in sheet.views if v.name in ("side", "top")} == {
        "side": 1 / 8,
        "top": 1 / 8,
    }
    assert not inspect(sheet, job)


@pytest.mark.parametrize(
    ("bore", "alone"), [("4 5/8", ("top", "pin")), ("5 1/8", ("extended",)), ("6", ("extended",))]
)
def test_on_a_named_sheet_another_view_goes_rather_than_the_bore_gets_too_small(
    bore, alone, monkeypatch
):
    """At 1:16 the extended view alone went, at the named scale 1:8 the top view did."""
    fits = {(1 / 8, ("top", "pin")), (1 / 16, ("extended",))}

    def laid_out(one, rule, main, alone=()):
        found = SimpleNamespace(clashes=0, alone=alone)
        return found if (float(main.scale), alone) in fits else None

    monkeypatch.setattr(choose, "laid_out", laid_out)
    monkeypatch.setattr(choose, "_finished", lambda page, dresser: (page, dresser))
    text = LATCH.format(stroke="33", retracted="52", scale="auto").replace('"A"', '"B"')
    job = job_of(_with_bore(text, bore))
    assert choose._chosen(Dresser(job))[0].alone == alone


def _with_bore(text, bore):
    lines = (f'bore = "{bore}"' if s.startswith("bore =") else s for s in text.splitlines())
    return "\n".join(lines)

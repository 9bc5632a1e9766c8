"""What only the checks read: welds, gland thread, metals, held ends, a guided load.

The arithmetic behind each check is proved in tests/checks and tests/validation; here each typed
value must reach its check.
"""

from math import pi

import pytest

from drafting.checks.of_cylinder import judge
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec

SPEC = """
title = "Stone crusher gate"
units = "mm"
[cylinder]
bore = 80
rod = 45
stroke = 400
retracted = 700
barrel_outside = 95
working_pressure = "160 bar"
gland = "threaded"
{cylinder}
[body_mount]
mount = "cross tube"
pin = 40
hole = 40.2
width = 80
outside = 80
{body}
[rod_mount]
mount = "clevis"
pin = 40
hole = 40.2
gap = 42
width = 90
outside = 80
throat = 45
[duty]
push = "60 kN"
orientation = "inclined"
{duty}
"""


def judged(cylinder="", body="", duty=""):
    text = SPEC.format(cylinder=cylinder, body=body, duty=duty)
    return judge(load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml")))


def codes(j):
    return {c.code for c in j.checks}


def verdicts(j, *found):
    return [next(c.verdict for c in j.checks if c.code == code) for code in found]


def test_gland_thread_and_base_weld_are_judged_only_when_typed():
    assert verdicts(judged(), "gland-thread", "cap-weld") == ["not known", "not known"]
    typed = judged('gland_thread = "M85x2"\ngland_engaged = 30\nbase_weld = 8')
    assert "not known" not in verdicts(typed, "gland-thread", "cap-weld")


def test_the_mounts_weld_is_judged_when_typed():
    assert verdicts(judged(), "body-weld") == ["not known"]
    typed = judged(body="weld_leg = 4\nweld_run = 280")
    assert verdicts(typed, "body-weld") == ["depends"]  # on steel
    assert verdicts(judged('weld_material = "E70"\nmount_material = "S355"',
                           "weld_leg = 11\nweld_run = 300"), "body-weld") == ["holds"]  # fmt: skip


def test_a_held_end_is_fixed_only_when_said():
    def column(j):
        return next(c for c in j.checks if c.code == "column-load-pin")

    free, held = column(judged()), column(judged(body="held = true"))
    assert "pinned-pinned" in free.note
    assert "fixed" in held.note
    assert held.provided > free.provided


@pytest.mark.parametrize(
    ("words", "span"),
    [
        ("", (310.0, 689.0)),
        ("C45E", (340.0, 340.0)),
        ("1045 chrome plated", (517.0, 517.0)),
        ("75 ksi", (517.1, 517.1)),
        ("unobtainium", (310.0, 689.0)),
    ],
)
def test_a_steel_by_name_by_strength_or_as_usual(words, span):
    """1045 hot rolled 310 MPa, hardened chrome bar 100 ksi, chrome bar 75 ksi: trade figures."""
    j = judged(f'rod_material = "{words}"' if words else "")
    rod = next(c for c in j.checks if c.code == "rod-along")
    stress = 16 * pi * 40**2 / (pi / 4 * 45**2)
    assert (rod.factor_from, rod.factor_to) == pytest.approx([s / stress for s in span], rel=1e-3)
    unknown = [f.field for f in j.findings if f.code == "unknown-material"]
    assert unknown == ["cylinder.rod_material"] * (words == "unobtainium")


def test_the_angle_of_the_stroke_reaches_the_weight():
    def weights(angle):
        found = judged(duty=f'mass = "500 kg"\nangle = {angle}').checks
        return [c.provided for c in found if c.code == "weight-along"]

    assert weights(30)
    assert weights(30) != weights(60)

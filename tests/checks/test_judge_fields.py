"""What only the checks read: welds, gland thread, metals, held ends, a guided load.

The arithmetic behind each check is proved in tests/checks and tests/validation; here each typed
value must reach its check.
"""

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


def test_gland_thread_and_base_weld_are_judged_only_when_typed():
    plain = codes(judged())
    typed = judged('gland_thread = "M85x2"\ngland_engaged = 30\nbase_weld = 8')
    new = {c.name: c for c in typed.checks if c.code not in plain}
    assert any("Gland thread" in name for name in new)
    assert any("Weld of the base cap" in name for name in new)


def test_the_mounts_weld_is_judged_when_typed():
    new = codes(judged(body="weld_leg = 10\nweld_run = 300")) - codes(judged())
    assert any("weld" in code for code in new)


def test_a_held_end_is_fixed_only_when_said():
    def column(j):
        return next(c for c in j.checks if c.code == "column-load-pin")

    free, held = column(judged()), column(judged(body="held = true"))
    assert "pinned-pinned" in free.note
    assert "fixed" in held.note
    assert held.provided > free.provided


def test_metals_by_name_and_unknown_ones_said():
    def rod(j):
        return next(c for c in j.checks if c.code == "rod")

    known = judged('rod_material = "C45E"')
    assert rod(known).ok is True
    assert rod(judged()).ok is None
    unknown = judged('rod_material = "unobtainium"')
    assert rod(unknown).ok is None
    assert [f.field for f in unknown.findings if f.code == "unknown-material"] == [
        "cylinder.rod_material"
    ]


def test_the_angle_of_the_stroke_reaches_the_weight():
    def weights(angle):
        found = judged(duty=f'mass = "500 kg"\nangle = {angle}').checks
        return [c.provided for c in found if "weight" in c.name.lower()]

    assert weights(30)
    assert weights(30) != weights(60)

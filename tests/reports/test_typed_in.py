"""The lines to type do what they say: typed into the spec, what was open becomes a verdict.

Values that only the reader knows stay out; what then is still open waits for one of them, or for a
steel that was not yet there to be asked for.
"""

import re
from collections import Counter
from pathlib import Path

import pytest

from drafting.checks.of_cylinder import judge
from drafting.model.load import checked, load
from drafting.reports.to_type import OWN, to_type
from drafting.reports.verdicts import judged

ROOT = Path(__file__).parents[2]
SPECS = sorted((ROOT / "specs").glob("*.toml"))
OPEN = ("depends", "not known")


def typed_in(text, lines):
    """A spec's text with the lines in their tables; a key that is there already is replaced."""
    for t in lines:
        if OWN in t.value or "." in t.key:
            continue
        if f"[{t.table}]" not in text:
            text += f"\n[{t.table}]\n"
        body = rf"(?ms)(^\[{t.table}\]\n(?:(?!^\[).)*?)^{t.key}\s*=[^\n]*\n"
        text = re.sub(body, r"\1", text)
        text = text.replace(f"[{t.table}]\n", f"[{t.table}]\n{t.key} = {t.value}\n", 1)
    return text


def counted(text):
    c = load(checked(text.encode(), "typed.toml"))
    checks = judged(judge(c).checks)
    return c, checks, Counter(k.verdict for k in checks)


@pytest.mark.parametrize("path", SPECS, ids=lambda p: p.stem)
def test_lines_to_type_turn_what_is_open_into_a_verdict(path):
    text = path.read_text(encoding="utf-8")
    c, checks, before = counted(text)
    lines = to_type(c, checks)
    fields = {t.field for t in lines}
    if not checks:
        assert fields == {"cylinder.working_pressure"}
        return
    decided = {d.field for k in checks if k.verdict in OPEN for d in k.depends_on}
    assert decided == fields
    _, again, after = counted(typed_in(text, lines))
    own = {t.field for t in lines if OWN in t.value}
    assert after["holds"] > before["holds"]
    assert after["fails"] == before["fails"]
    left = [k for k in again if k.verdict in OPEN]
    assert len(left) < before["depends"] + before["not known"]
    for k in left:
        waits = {d.field for d in k.depends_on}
        # Tie rods may be asked to be tighter for their joint and looser for themselves; of two
        # steels that are as good as each other one may be found a hair weaker than was named.
        both_ways = "cylinder.tie_rod_preload" in waits
        assert both_ways or waits & own, k


SAME = """
title = "Mill flap"
units = "mm"
[cylinder]
bore = 50
rod = 36
stroke = 100
retracted = 380
barrel_outside = 70
base_thickness = 30
gland = "threaded"
gland_thread = "M60x2"
gland_engaged = 40
base_weld = 8
rod_stick_out = 60
gland_length = 55
piston_length = 50
working_pressure = "70 bar"
relief_pressure = "80 bar"
rod_material = "42CrMo4 +QT"
barrel_material = "E355 +SR"
pin_material = "42CrMo4 +QT"
mount_material = "S355"
clock_seen_from = "rod"
[body_mount]
mount = "pin eye"
pin = 30
hole = 30.1
width = 40
outside = 80
nose = 40
offset = 45
ear = 20
weld_leg = 8
weld_run = 200
[rod_mount]
mount = "pin eye"
pin = 30
hole = 30.1
width = 40
outside = 80
nose = 40
ear = 20
weld_leg = 8
weld_run = 110
[duty]
push = "8 kN"
pull = "4 kN"
safety_factor = 3
orientation = "horizontal"
load_guided = true
rod_side = "open"
lifts_people = false
"""


def test_a_spec_with_everything_typed_asks_for_nothing():
    c, checks, verdicts = counted(SAME)
    assert set(verdicts) == {"holds"}
    assert to_type(c, checks) == ()


CROWDED = """
title = "Log lifter arm, left"
units = "in"
[cylinder]
bore = 4
rod = "2 1/4"
stroke = "22 1/2"
retracted = "36 3/8"
clock_seen_from = "rod"
gland = "threaded"
working_pressure = "2750 psi"
[body_mount]
mount = "clevis"
pin = "1 1/2"
gap = "1 9/16"
width = "3 3/8"
[rod_mount]
mount = "pin eye"
pin = "1 1/2"
width = "1 1/2"
turned = 90
[base_port]
thread = "SAE-10"
clock = "10:30"
[rod_port]
thread = "SAE-10"
clock = "1:30"
"""


def test_sizes_that_cannot_be_built_together_say_in_words_what_has_no_room():
    c, checks, _ = counted(CROWDED)
    reasons = [t.why for t in to_type(c, checks) if t.value == f'"{OWN}"']
    assert any("leaves no room for the rod end offset" in why for why in reasons)
    assert not any("eye-in-face" in why for why in reasons)

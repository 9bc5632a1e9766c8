"""A small sluice-gate cylinder of an invented valley: an 80/45 bore and rod.

No two sizes are equal, so that a check that takes the wrong one is seen.
"""

from dataclasses import replace
from functools import partial

from drafting.checks.numbers import CylinderNumbers, Duty, EndMount, Number, Thread
from drafting.checks.steels import Steel
from drafting.settle.carried import Eye, Fillet, LoosePin, Sum, length

CLEVIS = {"pin": 37.0, "hole": 38.5, "width": 86.0, "gap": 42.0, "nose": 41.0, "outside": 77.0,
          "ear": 39.0, "weld_leg": 11.0, "weld_run": 260.0}  # fmt: skip
PIN_EYE = {"pin": 34.0, "hole": 35.5, "width": 52.0, "nose": 47.0, "outside": 88.0, "ear": 23.0,
           "weld_leg": 9.0, "weld_run": 310.0}  # fmt: skip
CHAIN = {"cylinder.base_thickness": 29.0, "cylinder.rod_stick_out": 33.0,
         "cylinder.base_weld": 12.0, "cylinder.gland_engaged": 31.0}  # fmt: skip


def given(name, value, origin="given"):
    return Number(name, value, origin)


def metal(field, strength, tensile=0.0, welded=0.0):
    pairs = ((x, x) for x in (strength, tensile or strength * 1.3, welded or strength * 0.8))
    a, b, c = pairs
    return Steel(field, a, b, c, True, field, "certificate")


def steels(**changes):
    found = {
        "rod": metal("cylinder.rod_material", 500.0),
        "barrel": metal("cylinder.barrel_material", 450.0, 580.0, 355.0),
        "pin": metal("cylinder.pin_material", 834.0),
        "mount": metal("cylinder.mount_material", 357.0),
        "gland": metal("cylinder.gland_material", 311.0),
        "tie_rod": metal("cylinder.tie_rod_material", 720.0),
        "weld": metal("cylinder.weld_material", 393.0),
    } | changes
    both = {"body_mount": found["mount"], "rod_mount": found["mount"]}
    return {**both, **found}


def clevis_sections(t):
    metal_ = Sum(((1.0, f"{t}.width"), (-1.0, f"{t}.gap")))
    ear = Sum(((0.5, f"{t}.width"), (-0.5, f"{t}.gap")))
    at = partial(_at, t)
    return (
        LoosePin(at("pin"), ear, at("ear"), metal_, at("gap")),
        Eye(at("hole"), at("outside"), at("nose"), metal_),
        Fillet(at("weld_leg"), at("weld_run")),
    )


def eye_sections(t, bushing=False):
    at = partial(_at, t)
    return (
        LoosePin(at("pin"), at("ear"), at("width"), at("width"), bushing=bushing),
        Eye(at("hole"), at("outside"), at("nose"), at("width")),
        Fillet(at("weld_leg"), at("weld_run")),
    )


def _at(t, name):
    return length(f"{t}.{name}")


def numbers(sizes=None, **changes):
    known = {f"body_mount.{k}": v for k, v in CLEVIS.items()}
    known |= {f"rod_mount.{k}": v for k, v in PIN_EYE.items()} | CHAIN
    all_sizes = {k: given(k, v) for k, v in known.items()} | (sizes or {})
    n = CylinderNumbers(
        bore=given("cylinder.bore", 80.0),
        rod=given("cylinder.rod", 45.0),
        stroke=given("cylinder.stroke", 500.0),
        barrel_outside=given("cylinder.barrel_outside", 95.0),
        body_pivot=given("body datum", 0.0),
        gland_face=given("gland face", 700.0),
        rod_pivot=given("cylinder.retracted", 800.0),
        body=EndMount("body", "y", None, clevis_sections("body_mount")),
        rod_end=EndMount("rod", "y", None, eye_sections("rod_mount")),
        steels=steels(),
        sizes={k: v for k, v in all_sizes.items() if v is not None},
        rod_reach=("cylinder.rod_stick_out",),
        working_pressure=given("cylinder.working_pressure", 16.0),
        gland="threaded",
        gland_thread=Thread("cylinder.gland_thread", 85.0, 2.0, True),
        duty=Duty(
            push=given("duty.push", 60_000.0),
            pull=given("duty.pull", 30_000.0),
            flow=given("duty.flow", 0.5),
            safety_factor=given("duty.safety_factor", 3.5),
            orientation="horizontal",
            rod_side="open",
        ),
    )
    return replace(n, **changes)


def duty(n, **changes):
    return replace(n, duty=replace(n.duty, **changes))


def by_code(checks):
    found = {c.code: c for c in checks}
    assert len(found) == len(checks), "codes are unique in a report"
    return found

"""A small sluice-gate cylinder of an invented valley, all numbers given: 80/45 bore and rod."""

from dataclasses import replace

from drafting.checks.numbers import CylinderNumbers, Duty, EndMount, Material, Number


def given(name, value):
    return Number(name, value)


def metal(name, strength, tensile):
    return Material(
        name, Number(f"{name} yield", strength), Number(f"{name} tensile", tensile), "certificate"
    )


def clevis(end, axis="y"):
    return EndMount(
        end,
        "clevis",
        axis,
        pin=given(f"{end}_mount.pin", 40.0),
        hole=given(f"{end}_mount.hole", 40.2),
        width=given(f"{end}_mount.width", 80.0),
        gap=given(f"{end}_mount.gap", 40.0),
        nose=given(f"{end}_mount.nose", 40.0),
        outside=given(f"{end}_mount.outside", 80.0),
    )


def numbers(**changes):
    n = CylinderNumbers(
        bore=given("cylinder.bore", 80.0),
        rod=given("cylinder.rod", 45.0),
        stroke=given("cylinder.stroke", 500.0),
        barrel_outside=given("cylinder.barrel_outside", 95.0),
        body_pivot=given("body_mount.offset", 0.0),
        gland_face=given("gland face", 700.0),
        rod_pivot=given("cylinder.retracted", 800.0),
        body=clevis("body"),
        rod_end=clevis("rod"),
        barrel_material=metal("tube", 450.0, 580.0),
        rod_material=metal("rod", 500.0, 650.0),
        pin_material=metal("pins", 834.0, 951.0),
        mount_material=metal("mounts", 355.0, 490.0),
        working_pressure=given("cylinder.working_pressure", 16.0),
        duty=Duty(
            push=given("duty.push", 60_000.0),
            pull=given("duty.pull", 30_000.0),
            flow=given("duty.flow", 0.5),
            safety_factor=given("duty.safety_factor", 3.5),
            orientation="horizontal",
        ),
    )
    return replace(n, **changes)


def by_code(checks):
    found = {c.code: c for c in checks}
    assert len(found) == len(checks), "codes are unique in a report"
    return found

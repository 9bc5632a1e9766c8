"""Pins and what goes round them: shear, bending, bearing, and the eye, ears, tube and its welds."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.calc import lug, pin, weld
from drafting.calc.bearing import static_factor
from drafting.calc.thread import shear_strength
from drafting.checks.check import Check, told
from drafting.checks.judging import ON_BEARING, ON_WELD, ON_YIELD, factor
from drafting.checks.loads import greatest
from drafting.checks.materials import WELD_ALLOWED, WELD_SOURCE
from drafting.checks.numbers import CylinderNumbers, EndMount, Number

PIN_MOUNTS = ("clevis", "cross tube", "pin eye", "ball swivel")


def mount_checks(n: CylinderNumbers, m: EndMount) -> Iterator[Check]:
    """Give the checks of one mount at the greatest force of the cylinder."""
    force = greatest(n)
    if force is None or m.pin is None:
        return
    if m.mount == "trunnion":
        yield from _trunnion(n, m, force, m.pin)
    elif m.mount in PIN_MOUNTS:
        yield from _pin(n, m, force, m.pin)
        yield from _round_the_pin(n, m, force, m.pin)


def _thickness(m: EndMount) -> tuple[float, tuple[Number, ...]] | None:
    """Give the metal that the pin goes through, mm, with the numbers behind it."""
    if m.width is None:
        return None
    if m.mount == "clevis":
        return (m.width.value - m.gap.value, (m.width, m.gap)) if m.gap is not None else None
    return m.width.value, (m.width,)


def _pin(n: CylinderNumbers, m: EndMount, force: Number, d: Number) -> Iterator[Check]:
    metal = n.pin_material
    said = f"{metal.name}, {metal.source}"
    stress = pin.double_shear(force.value, d.value)
    base = (force, d, metal.strength)
    where = f"{m.end} end"
    yield factor(
        f"{m.end}-pin-shear",
        f"Pin at the {where} in double shear",
        shear_strength(metal.strength.value) / stress,
        ON_YIELD,
        f"F/2A against yield over root three; {said}",
        base,
        note=f"{stress:.0f} MPa",
    )
    through = _thickness(m)
    if through is None:
        return
    thick, sizes = through
    bearing = pin.bearing_pressure(force.value, d.value, thick)
    yield factor(
        f"{m.end}-pin-bearing",
        f"Pressure between pin and hole at the {where}, on yield",
        min(metal.strength.value, n.mount_material.strength.value) / bearing,
        ON_YIELD,
        f"F over projected area; the softer of pin and mount; {said}",
        (*base, *sizes, n.mount_material.strength),
        note=f"{bearing:.0f} MPa; a pin that turns under load, or a bushing, bears far less "
        "(ask the bushing's maker)",
    )
    if m.mount == "clevis" and m.gap is not None:
        moment = pin.bending_moment(force.value, m.gap.value, thick / 2)
        bend = pin.bending_stress(moment, d.value)
        yield factor(
            f"{m.end}-pin-bending",
            f"Pin at the {where} in bending",
            metal.strength.value / bend,
            ON_YIELD,
            f"loose pin, load spread evenly, eye as wide as the gap; {said}",
            (*base, *sizes),
            note=f"{bend:.0f} MPa",
        )
    else:
        yield told(
            f"{m.end}-pin-bending",
            f"Bending moment of the pin at the {where}, ears tight against the mount",
            pin.bending_moment(force.value, thick, thick / 2),
            "N mm",
            "loose pin, ears of the machine half as thick as the mount: an assumption",
            "the machine's ears are not known; not judged",
        )


def _round_the_pin(n: CylinderNumbers, m: EndMount, force: Number, d: Number) -> Iterator[Check]:
    through, hole = _thickness(m), m.hole or d
    metal = n.mount_material
    said = f"{metal.name}, {metal.source}"
    if through is None:
        return
    thick, sizes = through
    base = (force, hole, *sizes, metal.strength)
    if m.mount == "cross tube":
        yield from _cross_tube(m, force)
        return
    if m.outside is not None and m.outside.value > hole.value:
        stress = lug.eye_tension(force.value, m.outside.value, hole.value, thick)
        yield factor(
            f"{m.end}-eye-tension",
            f"{m.mount.capitalize()} at the {m.end} end, tension beside the hole",
            metal.strength.value / stress,
            ON_YIELD,
            f"mean stress; {said}",
            (*base, m.outside),
            note=f"{stress:.0f} MPa mean; two to three times at the hole's edge",
        )
    edge = m.nose or m.outside
    radius = m.nose.value if m.nose is not None else m.outside.value / 2 if m.outside else 0.0
    if edge is not None and radius > hole.value / 2:
        stress = lug.tear_out(force.value, radius, hole.value, thick)
        yield factor(
            f"{m.end}-tear-out",
            f"{m.mount.capitalize()} at the {m.end} end, tearing out past the pin",
            shear_strength(metal.strength.value) / stress,
            ON_YIELD,
            f"two shortest planes; {said}",
            (*base, edge),
            note=f"{stress:.0f} MPa",
        )
    if m.bearing_rating is not None:
        yield factor(
            f"{m.end}-ball",
            f"Ball bearing at the {m.end} end on its static rating",
            static_factor(m.bearing_rating.value, force.value),
            ON_BEARING,
            "static rating over the greatest force",
            (force, m.bearing_rating),
        )


def _cross_tube(m: EndMount, force: Number) -> Iterator[Check]:
    if m.weld_leg is None or m.weld_run is None:
        return
    stress = weld.cross_tube_stress(force.value, m.weld_leg.value, m.weld_run.value)
    yield factor(
        f"{m.end}-cross-tube-weld",
        f"Welds of the cross tube at the {m.end} end, two runs",
        WELD_ALLOWED / stress,
        ON_WELD,
        WELD_SOURCE,
        (force, m.weld_leg, m.weld_run),
        note=f"{stress:.0f} MPa; repeated load is not covered and breaks welds first",
    )


def _trunnion(n: CylinderNumbers, m: EndMount, force: Number, d: Number) -> Iterator[Check]:
    metal = n.mount_material
    said = f"{metal.name}, {metal.source}"
    one = Number(force.name, force.value / 2, force.origin, force.why)
    stress = pin.single_shear(one.value, d.value)
    yield factor(
        "trunnion-shear",
        "Trunnion pin in shear, half the force on each",
        shear_strength(metal.strength.value) / stress,
        ON_YIELD,
        f"F/2 over the pin's section; {said}",
        (one, d, metal.strength),
        note=f"{stress:.0f} MPa",
    )
    if m.width is None or m.shoulders is None:
        return
    length = (m.width.value - m.shoulders.value) / 2
    bend = pin.bending_stress(pin.cantilever_moment(one.value, length), d.value)
    yield factor(
        "trunnion-bending",
        "Trunnion pin in bending at its shoulder",
        metal.strength.value / bend,
        ON_YIELD,
        f"load spread evenly over the pin's length; {said}",
        (one, d, m.width, m.shoulders, metal.strength),
        note=f"{bend:.0f} MPa",
    )

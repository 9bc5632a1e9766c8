"""Whether the parts carry what the cylinder itself can do. Static figures; fatigue is not covered.

Each part is held against the highest pressure in use (working or relief) and the greatest force
that this pressure makes, not only against the duty: a cylinder that meets a stop does its utmost.
"""

from __future__ import annotations

from collections.abc import Iterator

from drafting.calc import thread as threads
from drafting.calc import tierod, tube, weld
from drafting.calc.force import annulus_area, cap_area, rod_area
from drafting.checks.check import Check, told
from drafting.checks.judging import (
    ON_BURST,
    ON_JOINT,
    ON_WELD,
    ON_YIELD,
    ON_YIELD_AT_PROOF,
    factor,
)
from drafting.checks.loads import greatest_pull, push_at
from drafting.checks.materials import WELD_ALLOWED, WELD_SOURCE
from drafting.checks.numbers import CylinderNumbers, Number
from drafting.checks.pins import mount_checks

LAME = "Lamé and von Mises at the bore, closed barrel"


def strength(n: CylinderNumbers) -> tuple[Check, ...]:
    """Give every strength check that the numbers allow."""
    return (
        *_wall(n),
        *_cap(n),
        *_base_weld(n),
        *_gland(n),
        *_tie_rods(n),
        *_rod(n),
        *(check for m in n.mounts for check in mount_checks(n, m)),
    )


def _wall(n: CylinderNumbers) -> Iterator[Check]:
    inside, outside, metal = n.bore, n.barrel_outside, n.barrel_material
    rests_on = (inside, outside, metal.strength)
    source = f"{LAME}; {metal.name}, {metal.source}"
    for pressure, code, words in (
        (n.working_pressure, "working", "working pressure"),
        (n.relief_pressure, "relief", "relief pressure"),
        (n.proof_pressure, "proof", "proof pressure"),
    ):
        if pressure is None:
            continue
        stress = tube.equivalent_stress(inside.value, outside.value, pressure.value)
        thin = tube.thin_wall_stress(
            inside.value, (outside.value - inside.value) / 2, pressure.value
        )
        yield factor(
            f"barrel-yield-{code}",
            f"Barrel wall on yield at {words}",
            metal.strength.value / stress,
            ON_YIELD_AT_PROOF if code == "proof" else ON_YIELD,
            source,
            (*rests_on, pressure),
            note=f"{stress:.0f} MPa at the bore (thin-wall hoop {thin:.0f} MPa) against "
            f"{metal.strength.value:g} MPa",
        )
    highest = n.highest_pressure
    if highest is not None and metal.tensile is not None:
        wall = (outside.value - inside.value) / 2
        burst = tube.barlow_pressure(outside.value, wall, metal.tensile.value)
        yield factor(
            "barrel-burst",
            "Barrel wall on burst at the highest pressure",
            burst / highest.value,
            ON_BURST,
            f"Barlow with the tensile strength; {metal.name}, {metal.source}",
            (inside, outside, metal.tensile, highest),
            note=f"bursts near {burst:.0f} MPa",
        )


def _cap(n: CylinderNumbers) -> Iterator[Check]:
    highest, thickness = n.highest_pressure, n.base_thickness
    if highest is None or thickness is None or n.construction != "welded":
        return
    stress = tube.cap_stress_free(n.bore.value, thickness.value, highest.value)
    held = tube.cap_stress_held(n.bore.value, thickness.value, highest.value)
    metal = n.mount_material
    yield factor(
        "base-cap",
        "Base cap in bending, edge taken as free",
        metal.strength.value / stress,
        ON_YIELD,
        f"theory of plates; {metal.name}, {metal.source}",
        (n.bore, thickness, highest, metal.strength),
        note=f"{stress:.0f} MPa (edge held: {held:.0f} MPa); ports and mounts in it not counted",
    )


def _base_weld(n: CylinderNumbers) -> Iterator[Check]:
    highest, joint = n.highest_pressure, n.base_weld
    if highest is None or n.construction != "welded" or joint is None:
        return
    force = highest.value * cap_area(n.bore.value)
    outside = n.barrel_outside.value
    if joint.kind == "fillet":
        stress = weld.ring_fillet_stress(force, joint.size.value, outside)
    else:
        stress = weld.ring_groove_stress(force, joint.size.value, outside)
    yield factor(
        "base-weld",
        f"Weld of the base cap ({joint.kind})",
        WELD_ALLOWED / stress,
        ON_WELD,
        WELD_SOURCE,
        (n.bore, n.barrel_outside, joint.size, highest),
        note=f"{stress:.0f} MPa; repeated load is not covered and breaks welds first",
    )


def _gland(n: CylinderNumbers) -> Iterator[Check]:
    highest, g = n.highest_pressure, n.gland
    if highest is None or n.piston == "displacement":
        return
    against_stop = push_at(n, highest.value)
    force = threads.gland_thread_force(n.bore.value, n.rod.value, highest.value)
    most = max(force, against_stop)
    yield told(
        "gland-force",
        "Greatest force that drives the gland out",
        most,
        "N",
        "force balance of the gland; fully out against the gland the whole push stands on it",
        f"{most:.0f} N must be held by: {g.held_by or 'nobody said what'}",
    )
    if g.held_by != "threaded" or g.diameter is None or g.pitch is None or g.engaged is None:
        return
    area = threads.male_shear_area(g.diameter.value, g.pitch.value, g.engaged.value)
    metal = n.barrel_material
    stress = threads.shear_stress(most, area)
    yield factor(
        "gland-thread",
        "Gland thread in shear",
        threads.shear_strength(metal.strength.value) / stress,
        ON_YIELD,
        f"thread shear at basic sizes, all turns alike; {metal.name}, {metal.source}",
        (n.bore, n.rod, highest, g.diameter, g.pitch, g.engaged, metal.strength),
        note=f"{stress:.0f} MPa",
    )


def _tie_rods(n: CylinderNumbers) -> Iterator[Check]:
    highest, t = n.highest_pressure, n.tie_rods
    if highest is None or t is None:
        return
    one = (
        threads.stress_area_unified(t.diameter.value, t.pitch.value)
        if t.unified
        else threads.stress_area_metric(t.diameter.value, t.pitch.value)
    )
    area = t.count.value * one
    end_force = highest.value * cap_area(n.bore.value)
    parts = (t.count, t.diameter, t.pitch, n.bore, highest)
    metal = n.mount_material
    if t.preload is None:
        yield factor(
            "tie-rods",
            "Tie rods on yield, preload not known",
            metal.strength.value * area / end_force,
            ON_YIELD,
            f"end force over stress area; {metal.name}, {metal.source}",
            (*parts, metal.strength),
            note="preload adds to it: state the torque",
        )
        return
    preload = t.preload.value * t.count.value
    rods = tierod.bar_stiffness(area, t.length.value)
    wall = annulus_area(n.barrel_outside.value, n.bore.value)
    share = tierod.load_share(rods, tierod.bar_stiffness(wall, t.length.value))
    together = (*parts, t.length, t.preload, n.barrel_outside)
    yield factor(
        "tie-rods",
        "Tie rods on yield with preload",
        metal.strength.value * area / tierod.rod_force(preload, share, end_force),
        ON_YIELD,
        f"bolted joint; {metal.name}, {metal.source}",
        (*together, metal.strength),
        note=f"preload {t.preload.value:.0f} N each",
    )
    yield factor(
        "tie-rod-joint",
        "Barrel stays on its seat",
        tierod.separating_force(preload, share) / end_force,
        ON_JOINT,
        "bolted joint; the barrel's own shortening under pressure not counted",
        together,
        note=f"preload {t.preload.value:.0f} N each",
    )


def _rod(n: CylinderNumbers) -> Iterator[Check]:
    pull = greatest_pull(n)
    highest = n.highest_pressure
    if highest is None:
        return
    metal, load = n.rod_material, max(pull, push_at(n, highest.value))
    stress = tube.bar_stress(load, rod_area(n.rod.value))
    base: tuple[Number, ...] = (n.bore, n.rod, highest, metal.strength)
    yield factor(
        "rod",
        "Rod on yield, greatest force along it",
        metal.strength.value / stress,
        ON_YIELD,
        f"force over section; {metal.name}, {metal.source}",
        base,
        note=f"{stress:.0f} MPa; the column is judged apart",
    )
    end = n.rod_end
    if end.thread is None or pull == 0.0:
        return
    diameter, pitch = end.thread
    area = (
        threads.stress_area_unified(diameter.value, pitch.value)
        if end.unified
        else threads.stress_area_metric(diameter.value, pitch.value)
    )
    stress = tube.bar_stress(pull, area)
    yield factor(
        "rod-thread",
        "Rod thread in tension at the greatest pull",
        metal.strength.value / stress,
        ON_YIELD,
        f"pull over the stress area; {metal.name}, {metal.source}",
        (*base, diameter, pitch),
        note=f"{stress:.0f} MPa; thread roots break first under repeated load",
    )

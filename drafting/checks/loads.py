"""Load cases: every way in which the duty, the weight and the pressures load the cylinder.

Statics: forces along the stroke, no seal friction credited. A push is above zero, a pull below.
"""

from __future__ import annotations

from collections.abc import Iterator

from drafting.calc.force import (
    annulus_area,
    blocked_rod_pressure,
    cap_area,
    pull_force,
    push_force,
    ram_force,
    rod_area,
    weight_along,
)
from drafting.calc.types import MM3_PER_LITRE
from drafting.checks.check import LoadCase, LoadLine
from drafting.checks.numbers import CylinderNumbers

PROOF = "proof"
ROD_SIDE = "duty.rod_side"
AREAS = "areas times pressures, at rest"
BALANCE = "force balance of the piston"


def push_at(n: CylinderNumbers, pressure: float) -> float:
    """Push at a pressure without back pressure, N; zero when it cannot push."""
    if n.action == "pull":
        return 0.0
    if n.piston == "displacement":
        return ram_force(n.rod.value, pressure)
    return push_force(n.bore.value, n.rod.value, pressure)


def pull_at(n: CylinderNumbers, pressure: float) -> float:
    """Pull at a pressure without back pressure, N; zero when it cannot pull."""
    if n.action == "push" or n.piston == "displacement":
        return 0.0
    return pull_force(n.bore.value, n.rod.value, pressure)


def driven_areas(n: CylinderNumbers) -> dict[str, float]:
    """Give the area in mm2 that oil drives, by the way it moves: ``push``, ``pull``."""
    bore, rod = n.bore.value, n.rod.value
    if n.piston == "displacement":
        return {"push": rod_area(rod)}
    both = {"push": cap_area(bore), "pull": annulus_area(bore, rod)}
    return both if n.action == "double" else {n.action: both[n.action]}


def load_cases(n: CylinderNumbers) -> tuple[LoadCase, ...]:
    """Give every load case that the numbers make."""
    return (*_full(n), *_asked(n), *_weight(n), *_proof(n))


def in_use(cases: tuple[LoadCase, ...]) -> tuple[LoadCase, ...]:
    """Give the cases of use, without the proof test."""
    return tuple(c for c in cases if c.code != PROOF)


def _full(n: CylinderNumbers) -> Iterator[LoadCase]:
    """Give what the highest pressure can do, whatever the duty asks."""
    highest = n.highest_pressure
    if highest is None:
        return
    p = highest.value
    at = LoadLine(highest.name, p, "MPa")
    push, pull = push_at(n, p), pull_at(n, p)
    if push:
        yield LoadCase("full-push", "full push", push, p, lines=(at,), source=AREAS)
        if n.piston == "sealed":
            name = "fully out, the piston against the gland"
            yield LoadCase("full-out", name, base=p, gland=push, lines=(at,), source=BALANCE)
    if pull:
        yield LoadCase("full-pull", "full pull", -pull, rod_side=p, lines=(at,), source=AREAS)
    if n.both_sides:
        both = ram_force(n.rod.value, p)
        name = "rod side led to the base side"
        yield LoadCase("regenerative", name, both, p, p, lines=(at,), source=AREAS)
        if n.duty.rod_side != "open":
            yield _shut(n, p, 0.0, "shut-off", "oil shut in on the rod side", (at,))


def _shut(
    n: CylinderNumbers,
    pressure: float,
    pull: float,
    code: str,
    name: str,
    lines: tuple[LoadLine, ...],
    sure: LoadCase | None = None,
) -> LoadCase:
    """Give the case of a rod side that oil cannot leave, the pump behind it and a load pulling."""
    trapped = blocked_rod_pressure(n.bore.value, n.rod.value, pressure, pull)
    decided, avoided = ("", "") if n.duty.rod_side else (ROD_SIDE, "open")
    if sure is not None and sure.decided_by:
        decided, avoided = sure.decided_by, sure.avoided
    return LoadCase(code, name, -pull, pressure, trapped, 0.0, lines, decided, avoided, BALANCE)


def _asked(n: CylinderNumbers) -> Iterator[LoadCase]:
    """Give the forces that were typed."""
    areas, back = driven_areas(n), n.duty.return_pressure
    for way, force, sign in (("push", n.duty.push, 1.0), ("pull", n.duty.pull, -1.0)):
        if force is None:
            continue
        lines = [LoadLine(force.name, force.value, "N")]
        counter = 0.0
        if back is not None and n.both_sides:
            counter = back.value * areas["pull" if way == "push" else "push"]
            lines.append(LoadLine(back.name, back.value, "MPa"))
        pressure = (force.value + counter) / areas[way] if way in areas else 0.0
        base, rod_side = (pressure, 0.0) if way == "push" else (0.0, pressure)
        name, code = f"{way} asked", f"duty-{way}"
        yield LoadCase(code, name, sign * force.value, base, rod_side, 0.0, tuple(lines), "", "",
                       AREAS)  # fmt: skip


def angles(n: CylinderNumbers) -> tuple[tuple[float, ...], str, str]:
    """Give the angles above the horizontal that are possible, and what field and word decide.

    ``vertical`` is rod up; a mass whose direction nobody said may push in or pull out with all of
    its weight.
    """
    d = n.duty
    if d.angle is not None:
        return (d.angle.value,), "", ""
    known = {"horizontal": 0.0, "vertical": 90.0}.get(d.orientation)
    if known is not None:
        return (known,), "", ""
    if d.orientation:
        return (90.0, -90.0), "duty.angle", ""
    return (90.0, -90.0), "duty.orientation", "horizontal"


def _weight(n: CylinderNumbers) -> Iterator[LoadCase]:
    """Give what a mass does: moved, held, and running ahead of the pump."""
    d = n.duty
    if d.mass is None:
        return
    possible, field, word = angles(n)
    drag, inertia = _drag(n, d.mass.value)
    for angle in possible:
        weight = weight_along(d.mass.value, angle)
        down = angle < 0
        tag = ("-down" if down else "-up") if len(possible) > 1 else ""
        where = " (rod down)" if down else " (rod up)" if angle > 0 else ""
        lines = [LoadLine("weight along the stroke", weight, "N")]
        lines += [LoadLine(x, v, "N") for x, v in (("friction", drag), ("inertia", inertia)) if v]
        for sign in (1.0, -1.0):
            force = weight + sign * (drag + inertia)
            if sign * force > 0.0 and (drag + inertia or sign * weight > 0):
                way = "push" if sign > 0 else "pull"
                name = f"mass moved by a {way}{where}"
                yield _moved(n, way, force, f"mass-{way}{tag}", name, tuple(lines), field, word)
        if weight:
            yield from _held(n, weight, tag, where, tuple(lines[:1]), field, word)


def _drag(n: CylinderNumbers, mass: float) -> tuple[float, float]:
    """Give friction and inertia of a mass (kg) in N; friction is a part of its whole weight."""
    d = n.duty
    drag = d.friction.value * weight_along(mass, 90.0) if d.friction else 0.0
    rate = d.acceleration.value if d.acceleration else 0.0
    if d.stopping_distance is not None and d.flow is not None:
        speed = d.flow.value * MM3_PER_LITRE / min(driven_areas(n).values())
        rate = max(rate, speed**2 / (2 * d.stopping_distance.value))
    return drag, mass * rate / 1000.0


def _moved(
    n: CylinderNumbers,
    way: str,
    force: float,
    code: str,
    name: str,
    lines: tuple[LoadLine, ...],
    field: str,
    word: str,
) -> LoadCase:
    area = driven_areas(n).get(way)
    pressure = abs(force) / area if area else 0.0
    base, rod_side = (pressure, 0.0) if way == "push" else (0.0, pressure)
    source = "m g sin(angle), friction, inertia"
    return LoadCase(code, name, force, base, rod_side, 0.0, lines, field, word, source)


def _held(
    n: CylinderNumbers,
    weight: float,
    tag: str,
    where: str,
    lines: tuple[LoadLine, ...],
    field: str,
    word: str,
) -> Iterator[LoadCase]:
    """Give the load that oil holds with the machine off, and one that runs ahead of the pump."""
    way = "push" if weight > 0 else "pull"
    still = _moved(n, way, weight, f"held{tag}", f"load held{where}", lines, field, word)
    if way not in driven_areas(n):
        return
    yield still
    highest = n.highest_pressure
    if weight < 0 and highest is not None and n.both_sides and n.duty.rod_side != "open":
        behind = (*lines, LoadLine(highest.name, highest.value, "MPa"))
        name = "load running ahead, the pump behind it"
        yield _shut(n, highest.value, -weight, f"run-ahead{tag}", name, behind, still)


def _proof(n: CylinderNumbers) -> Iterator[LoadCase]:
    if n.proof_pressure is not None:
        p = n.proof_pressure.value
        at = LoadLine(n.proof_pressure.name, p, "MPa")
        yield LoadCase(PROOF, "proof test", base=p, rod_side=p, lines=(at,), source="typed")

"""Forces, pressures, speeds, times, oil and power, and whether they do what the machine asks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from drafting.calc import flow as flows
from drafting.calc import force as forces
from drafting.calc.types import MM3_PER_LITRE
from drafting.checks.bands import ON_FORCE, ON_RATING
from drafting.checks.check import Check, LoadCase, told
from drafting.checks.judging import judge, outright
from drafting.checks.loads import (
    BALANCE,
    angles,
    driven_areas,
    in_use,
    load_cases,
    pull_at,
    push_at,
)
from drafting.checks.numbers import CylinderNumbers, Number
from drafting.checks.question import At, Question, sized, unknown

GEOMETRY = "geometry"
AREAS = "areas times pressures, at rest, without friction"
CONTINUITY = "flow over area, without leakage"
PRACTICE = "common practice, from memory"


def hydraulics(n: CylinderNumbers) -> tuple[Check, ...]:
    """Give all that follows from areas, pressures and flow."""
    return (
        *_areas(n),
        *_pressures(n),
        *_forces(n),
        *_gravity(n),
        *_holding(n),
        *_motion(n),
        *_oil(n),
    )


def _areas(n: CylinderNumbers) -> Iterator[Check]:
    for way, area in driven_areas(n).items():
        yield told(f"{way}-area", f"Area that makes the {way}", area, "mm2", GEOMETRY)
    if n.both_sides:
        ratio = forces.area_ratio(n.bore.value, n.rod.value)
        yield told("area-ratio", "Area ratio, base side over rod side", ratio, "", GEOMETRY)


def _pressures(n: CylinderNumbers) -> Iterator[Check]:
    d, working = n.duty, n.working_pressure
    if d.pressure is not None and working is not None:
        yield outright(
            "duty-pressure",
            "Working pressure against the pressure of the duty",
            working,
            d.pressure.value,
            "MPa",
            "the duty stays within the working pressure",
        )
    if n.proof_pressure is not None and (highest := n.highest_pressure) is not None:
        yield outright(
            "proof-pressure",
            "Proof pressure against the highest pressure in use",
            n.proof_pressure,
            highest.value,
            "MPa",
            "a proof test goes beyond use (common practice: 1.5 times)",
        )
    highest = n.highest_pressure
    if highest is not None and n.both_sides:
        yield told(
            "blocked-rod-pressure",
            "Pressure on the rod side if its port is blocked",
            forces.blocked_rod_pressure(n.bore.value, n.rod.value, highest.value),
            "MPa",
            "force balance of the piston",
            f"at {highest.value:g} MPa on the base side; a load that pulls adds to it",
        )


def _forces(n: CylinderNumbers) -> Iterator[Check]:
    pressure = n.duty.pressure or n.working_pressure or n.relief_pressure
    cases = in_use(load_cases(n))
    for way in ("push", "pull"):
        yield from _force(n, way, pressure, cases)
    if pressure is not None and n.both_sides:
        both = forces.ram_force(n.rod.value, pressure.value)
        name = "Push with the rod side led to the base side"
        yield told("regenerative-push", name, both, "N", AREAS)


def able_to(n: CylinderNumbers, way: str, pressure: float) -> float:
    """Give the push or pull at a pressure less what the return side takes, N."""
    back, ways = n.duty.return_pressure, driven_areas(n)
    counter = 0.0
    if back is not None and n.both_sides:
        counter = back.value * ways["pull" if way == "push" else "push"]
    return (push_at if way == "push" else pull_at)(n, pressure) - counter


def _force(
    n: CylinderNumbers, way: str, pressure: Number | None, cases: tuple[LoadCase, ...]
) -> Iterator[Check]:
    sign = 1.0 if way == "push" else -1.0
    asking = [c for c in cases if c.code.startswith(("duty-", "mass-")) and sign * c.rod > 0.0]
    ways = driven_areas(n)
    back = n.duty.return_pressure
    note = f"{back.value:g} MPa on the return side counted" if back and n.both_sides else ""
    if asking:
        yield from _able(n, way, pressure, asking, note)
    elif pressure is not None and way in ways:
        able = able_to(n, way, pressure.value)
        yield told(way, f"{way.capitalize()} at {pressure.value:g} MPa", able, "N", AREAS, note)
    sure = [abs(c.rod) for c in asking if not c.decided_by]
    if sure and way in ways:
        counter = -able_to(n, way, 0.0)
        name = f"Pressure that the {way} of the duty needs"
        needed = (max(sure) + counter) / ways[way]
        yield told(f"{way}-needs", name, needed, "MPa", AREAS, note)


def _able(
    n: CylinderNumbers, way: str, pressure: Number | None, asking: list[LoadCase], note: str
) -> Iterator[Check]:
    """Give whether it can: what it can do against the greatest force asked of it, both in N."""
    field = "cylinder.working_pressure"
    sizes = (sized(n.bore), sized(n.rod))
    at_p = sized(pressure, "MPa") if pressure else unknown(field, 10.0, "MPa")
    if way not in driven_areas(n):
        at_p = replace(at_p, sure=True, known=True)

    def factor(at: At, case: LoadCase) -> float:
        return able_to(n, way, at[at_p.field]) / abs(case.rod)

    # Where friction was typed it stands in the forces asked already.
    band = ON_RATING if n.duty.friction is not None else ON_FORCE
    verb = way.capitalize()
    name = f"{verb} at {pressure.value:g} MPa" if pressure else f"{verb}, no pressure typed"
    found = judge(Question(way, name, band, (*sizes, at_p), factor, AREAS), asking, None)
    if found is None:
        return
    worst = next(c for c in asking if c.name == found.case)
    needed = abs(worst.rod)
    able = [None if f is None else f * needed for f in (found.factor_from, found.factor_to)]
    yield replace(
        found,
        factor_from=able[0],
        factor_to=able[1],
        asked=needed,
        unit="N",
        why_asked=f"{worst.name}; {found.why_asked}",
        note=note,
    )


def _holding(n: CylinderNumbers) -> Iterator[Check]:
    """Give the pressures that a load keeps in the cylinder, against the highest in use."""
    highest = n.highest_pressure
    for case in load_cases(n):
        if not case.code.startswith(("held", "run-ahead")):
            continue
        side = "base" if case.base and not case.rod_side else "rod"
        trapped = case.rod_side if side == "rod" else case.base
        code = "holding-" + side + ("-pump" if case.code.startswith("run") else "")
        tag = "-either-way" if case.decided_by in ("duty.orientation", "duty.angle") else ""
        name = f"Highest pressure in use against what is trapped on the {side} side, {case.name}"
        if highest is None:
            told_name = f"Pressure trapped on the {side} side, {case.name}"
            yield told(code + tag, told_name, trapped, "MPa", BALANCE)
            continue
        q = Question(code + tag, name, ON_RATING, (sized(highest, "MPa"),), _rated, BALANCE)
        found = judge(q, [case], None)
        if found is not None:
            yield replace(
                found,
                factor_from=highest.value,
                factor_to=highest.value,
                asked=trapped,
                unit="MPa",
                note="it stays with the machine off; a holding valve must stand on the port",
            )


def _rated(at: At, case: LoadCase) -> float:
    (rating,) = at.values()
    return rating / max(case.base, case.rod_side)


def _gravity(n: CylinderNumbers) -> Iterator[Check]:
    possible, _, _ = angles(n)
    if n.duty.mass is None or len(possible) > 1:
        return
    weight = forces.weight_along(n.duty.mass.value, possible[0])
    where = f"stroke {possible[0]:g} degrees above the horizontal"
    name = "Weight of the moved mass along the stroke"
    yield told("weight-along", name, weight, "N", "m g sin(angle)", where)


def _motion(n: CylinderNumbers) -> Iterator[Check]:
    flow = n.duty.flow
    if flow is None:
        return
    q = flow.value * MM3_PER_LITRE
    note = f"at {flow.value * 60:.3g} l/min"
    for way, area in driven_areas(n).items():
        out = "out" if way == "push" else "in"
        v = flows.speed(q, area)
        yield told(f"speed-{out}", f"Speed {out}", v, "mm/s", CONTINUITY, note)
        seconds = flows.stroke_time(n.stroke.value, v)
        yield told(f"time-{out}", f"Time of a stroke {out}", seconds, "s", CONTINUITY, note)
        longest = n.duty.seconds_out if way == "push" else n.duty.seconds_in
        if longest is not None:
            least = area * n.stroke.value / MM3_PER_LITRE / longest.value
            name = f"Flow against what {longest.value:g} s {out} needs"
            yield outright(f"flow-{out}", name, flow, least, "l/s", CONTINUITY)
    if n.both_sides:
        fast = flows.regenerative_speed(n.rod.value, q)
        yield told("speed-regenerative", "Speed out, regenerative", fast, "mm/s", CONTINUITY, note)
    most = q
    if n.both_sides:
        most = flows.return_flow(n.bore.value, n.rod.value, q)
        yield told(
            "return-flow",
            "Flow that leaves the base while it retracts",
            most / MM3_PER_LITRE,
            "l/s",
            CONTINUITY,
            "valve, filter and hose must pass it",
        )
    for end, bore in n.port_bores.items():
        through = most if end == "base" else q
        yield told(
            f"port-speed-{end}",
            f"Oil speed in the {end} port",
            flows.line_speed(through, bore.value),
            "mm/s",
            f"flow over the passage as drawn; 6 m/s in pressure lines, {PRACTICE}",
        )
    pressure = n.duty.pressure or n.working_pressure
    if pressure is not None:
        yield told(
            "power",
            "Hydraulic power of the duty's flow",
            flows.hydraulic_power(pressure.value, q) / 1e6,
            "kW",
            "pressure times flow",
            "the oil's alone; heat is not reckoned",
        )


def _oil(n: CylinderNumbers) -> Iterator[Check]:
    for way, area in driven_areas(n).items():
        out = "out" if way == "push" else "in"
        litres = area * n.stroke.value / MM3_PER_LITRE
        yield told(f"oil-{out}", f"Oil for a stroke {out}", litres, "l", "area times stroke")
    swing = flows.rod_volume(n.rod.value, n.stroke.value) / MM3_PER_LITRE
    yield told("oil-swing", "Oil that the tank gives up between in and out", swing, "l", GEOMETRY)

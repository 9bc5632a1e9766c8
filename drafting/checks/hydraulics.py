"""Forces, pressures, speeds, times, oil and power, and whether they do what the machine asks."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.calc import flow as flows
from drafting.calc import force as forces
from drafting.calc.types import MM3_PER_LITRE
from drafting.checks.check import Check, told
from drafting.checks.judging import against
from drafting.checks.loads import pull_at, push_at
from drafting.checks.numbers import CylinderNumbers, Number

GEOMETRY = "geometry"
AREAS = "areas times pressures, at rest, without friction"
CONTINUITY = "flow over area, without leakage"
PRACTICE = "common practice, from memory"


def hydraulics(n: CylinderNumbers) -> tuple[Check, ...]:
    """Give all that follows from areas, pressures and flow."""
    return (*_areas(n), *_pressures(n), *_forces(n), *_gravity(n), *_motion(n), *_oil(n))


def driven_areas(n: CylinderNumbers) -> dict[str, float]:
    """Give the area in mm2 that oil drives, by the way it moves: ``push``, ``pull``."""
    bore, rod = n.bore.value, n.rod.value
    if n.piston == "displacement":
        return {"push": forces.rod_area(rod)}
    both = {"push": forces.cap_area(bore), "pull": forces.annulus_area(bore, rod)}
    return both if n.action == "double" else {n.action: both[n.action]}


def _areas(n: CylinderNumbers) -> Iterator[Check]:
    for way, area in driven_areas(n).items():
        yield told(f"{way}-area", f"Area that makes the {way}", area, "mm2", GEOMETRY)
    if n.action == "double" and n.piston == "sealed":
        ratio = forces.area_ratio(n.bore.value, n.rod.value)
        yield told("area-ratio", "Area ratio, base side over rod side", ratio, "", GEOMETRY)


def _pressures(n: CylinderNumbers) -> Iterator[Check]:
    d, working, relief = n.duty, n.working_pressure, n.relief_pressure
    if d.pressure is not None and working is not None:
        yield against(
            "duty-pressure",
            "Working pressure against the pressure of the duty",
            working.value,
            d.pressure.value,
            "MPa",
            "the duty stays within the working pressure",
            (working, d.pressure),
        )
    if n.proof_pressure is not None and (highest := n.highest_pressure) is not None:
        yield against(
            "proof-pressure",
            "Proof pressure against the highest pressure in use",
            n.proof_pressure.value,
            highest.value,
            "MPa",
            "a proof test goes beyond use (common practice: 1.5 times)",
            (n.proof_pressure, highest),
        )
    supply = relief or working or d.pressure
    if supply is not None and n.action == "double" and n.piston == "sealed":
        yield told(
            "blocked-rod-pressure",
            "Pressure on the rod side if its port is blocked",
            forces.blocked_rod_pressure(n.bore.value, n.rod.value, supply.value),
            "MPa",
            "force balance of the piston",
            f"at {supply.value:g} MPa on the base side; a load that pulls adds to it",
        )


def _forces(n: CylinderNumbers) -> Iterator[Check]:
    pressure = n.duty.pressure or n.working_pressure
    for way in ("push", "pull"):
        yield from _force(n, way, pressure)
    if pressure is not None and n.action == "double" and n.piston == "sealed":
        yield told(
            "regenerative-push",
            "Push with the rod side led to the base side",
            forces.ram_force(n.rod.value, pressure.value),
            "N",
            AREAS,
        )


def _force(n: CylinderNumbers, way: str, pressure: Number | None) -> Iterator[Check]:
    asked = n.duty.push if way == "push" else n.duty.pull
    back = n.duty.return_pressure
    ways = driven_areas(n)
    counter = 0.0
    if back is not None and n.piston == "sealed" and n.action == "double":
        counter = back.value * ways["pull" if way == "push" else "push"]
    if asked is not None and way not in ways:
        name = f"{way.capitalize()} of a cylinder that cannot {way}"
        yield against(way, name, 0.0, asked.value, "N", "single acting", (asked,))
        return
    note = f"{back.value:g} MPa on the return side counted" if counter and back is not None else ""
    if pressure is not None and way in ways:
        able = (push_at if way == "push" else pull_at)(n, pressure.value) - counter
        name = f"{way.capitalize()} at {pressure.value:g} MPa"
        if asked is None:
            yield told(way, name, able, "N", AREAS, note)
        else:
            rests_on = (pressure, n.bore, n.rod, asked)
            yield against(way, name, able, asked.value, "N", AREAS, rests_on, note)
    if asked is not None:
        needed = (asked.value + counter) / ways[way]
        name = f"Pressure that the {way} of the duty needs"
        yield told(f"{way}-needs", name, needed, "MPa", AREAS, note)


def _gravity(n: CylinderNumbers) -> Iterator[Check]:
    mass, angle = n.duty.mass, n.duty.angle
    degrees = angle.value if angle is not None else _angle(n.duty.orientation)
    if mass is None or degrees is None:
        return
    weight = forces.weight_along(mass.value, degrees)
    where = f"stroke {degrees:g} degrees above the horizontal"
    name = "Weight of the moved mass along the stroke"
    yield told("weight-along", name, weight, "N", "m g sin(angle)", where)
    for way, area in driven_areas(n).items():
        if weight > 0.0:
            yield told(
                f"holding-pressure-{way}",
                f"Pressure that this weight keeps in the cylinder, load on the {way} side",
                forces.pressure_on(weight, area),
                "MPa",
                "force balance",
                "trapped with the machine off; a holding valve must stand on the port",
            )


def _angle(orientation: str) -> float | None:
    return {"horizontal": 0.0, "vertical": 90.0}.get(orientation)


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
    if n.action == "double" and n.piston == "sealed":
        fast = flows.regenerative_speed(n.rod.value, q)
        yield told("speed-regenerative", "Speed out, regenerative", fast, "mm/s", CONTINUITY, note)
    most = q
    if n.action == "double" and n.piston == "sealed":
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
        yield against(
            f"port-speed-{end}",
            f"Oil speed in the {end} port: allowed over present",
            flows.PRESSURE_LINE_SPEED,
            flows.line_speed(through, bore.value),
            "mm/s",
            f"6 m/s in pressure lines, {PRACTICE}",
            (flow, bore, n.bore, n.rod),
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

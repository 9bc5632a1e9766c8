"""The bores and rods of the standard series, each laid out for a duty.

The lay-out is for choosing: axial sizes by the rules that the drawing follows, a pin by shear
where none is asked for, column pinned at both ends, mass of plain bars and tubes. What passes is
then settled as a whole cylinder and held against every check (``whole.py``).
"""

from __future__ import annotations

from functools import cache
from math import pi

from drafting.calc import flow as flows
from drafting.calc import force as forces
from drafting.calc.column import column_lengths, column_load
from drafting.calc.mass import bar_mass, tube_mass
from drafting.calc.thread import shear_strength
from drafting.calc.tube import barlow_pressure, yield_pressure
from drafting.calc.types import MM3_PER_LITRE
from drafting.checks.bands import ON_BURST, ON_YIELD
from drafting.errors import Refused
from drafting.model.catalog import ENDS, mount_types
from drafting.records import dataclass
from drafting.settle.shop_sizes import neat_up
from drafting.sizing.axis import Axis, lay_axis
from drafting.sizing.duty import DutyFile
from drafting.sizing.port import USUAL, carries, ports_for, word_of
from drafting.sizing.steels import steel_of
from drafting.spec.given import Typed
from drafting.standards.port_thread import PortThread
from drafting.standards.sizes import usual_sizes
from drafting.standards.table import Row, lookup, table
from drafting.standards.tubes import wall_rule


@dataclass(frozen=True, slots=True)
class Pair:
    """A bore and a rod that go together in some series, mm. ``system``: ``inch``, ``metric``."""

    bore: float
    rod: float
    system: str
    series: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A pair laid out for a duty: mm, N, l/s, mm/s, s, litres, kg.

    ``axis`` has the closed lengths. ``column`` is the critical load fully out. ``outside`` is that
    of the lightest stock tube that does, else of the heaviest; ``wall`` what its wall has of the
    factors asked, 1 for enough. ``flow_needed`` is what the times ask. ``port`` is for what leaves
    the base end as the rod goes in; ``passes`` is the flow to the rod side, l/s, for which it is
    large enough. Speeds and times are None when no flow is known.
    """

    pair: Pair
    outside: float
    wall: float
    pin: float
    axis: Axis
    push: float
    pull: float
    column: float
    oil_out: float
    oil_in: float
    mass: float
    flow_needed: float | None
    port: str
    passes: float
    speed_out: float | None
    speed_in: float | None
    seconds_out: float | None
    seconds_in: float | None


@cache
def pairs(series: str) -> tuple[Pair, ...]:
    """Give the pairs of ``inch``, ``metric`` or ``both`` series, smallest bore first."""
    found: dict[tuple[float, float], Pair] = {}
    for row in table("bore_rod").rows:
        if not row.word("table").startswith("pair"):
            continue
        system = "inch" if row.number("bore_in") is not None else "metric"
        bore, rod = row.size("bore"), row.size("rod")
        if bore is None or rod is None or (series not in ("both", system)):
            continue
        key = (round(bore, 3), round(rod, 3))
        known = found.get(key)
        names = dict.fromkeys((*(known.series if known else ()), _series(row)))
        found[key] = Pair(bore, rod, known.system if known else system, tuple(names))
    return tuple(found[k] for k in sorted(found))


def _series(row: Row) -> str:
    return f"{row.word('standard')}, {row.word('series')}"


def lay_out(pair: Pair, duty: DutyFile) -> Candidate:
    """Lay a pair out for a duty."""
    bore, rod, stroke = pair.bore, pair.rod, duty.stroke
    outside, wall = _tube(pair, duty)
    pin = duty.pin or _pin(max(duty.push or 0.0, duty.pull or 0.0), duty.units)
    cap_side, rod_side = forces.cap_area(bore), forces.annulus_area(bore, rod)
    oil_out, oil_in = (area * stroke / MM3_PER_LITRE for area in (cap_side, rod_side))
    needed = duty.flow_needed(oil_out, oil_in)
    flow = duty.flow or needed
    axis, port = _lay(duty, pair, outside, pin, flow and flow * cap_side / rod_side)
    at = axis.at
    tube, free = column_lengths(0.0, at.gland_face, at.rod_datum + stroke)
    q = duty.flow * MM3_PER_LITRE if duty.flow is not None else None
    speed_out = flows.speed(q, cap_side) if q else None
    speed_in = flows.speed(q, rod_side) if q else None
    strength = steel_of(duty.units, "rod").strength[0]
    return Candidate(
        pair,
        outside,
        wall,
        pin,
        axis,
        forces.push_force(bore, rod, duty.pressure, duty.return_pressure),
        forces.pull_force(bore, rod, duty.pressure, duty.return_pressure),
        column_load("pinned_pinned", outside, bore, tube, rod, free, strength),
        oil_out,
        oil_in,
        tube_mass(outside, bore, at.gland_face - at.closed_end)
        + bar_mass(bore, at.oil_side - at.closed_end)
        + tube_mass(bore, rod, at.piston_front - at.oil_side + at.gland_face - at.gland_inner)
        + bar_mass(rod, at.rod_datum - at.oil_side),
        needed,
        word_of(port) if port else "",
        carries(port) * rod_side / cap_side if port else 0.0,
        speed_out,
        speed_in,
        flows.stroke_time(stroke, speed_out) if speed_out else None,
        flows.stroke_time(stroke, speed_in) if speed_in else None,
    )


def values_of(
    duty: DutyFile, pair: Pair, outside: float, pin: float, port: str
) -> dict[str, Typed]:
    """Give what decides the lay-out, by the names of the spec."""
    values: dict[str, Typed] = {
        "cylinder.bore": pair.bore,
        "cylinder.rod": pair.rod,
        "cylinder.stroke": duty.stroke,
        "cylinder.barrel_outside": outside,
        "cylinder.working_pressure": duty.pressure,
    }
    for end, mount in zip(ENDS, (duty.body_mount, duty.rod_mount), strict=True):
        table, fields = f"{end}_mount", mount_types()[end, mount].fields
        values[f"{table}.mount"] = mount
        if "pin" in fields:
            values[f"{table}.pin"] = pin
        if "position" in fields:
            values[f"{table}.position"] = duty.position
    if port:
        for table in ("base_port", "rod_port"):
            values |= {f"{table}.thread": port, f"{table}.clock": 0.0}
    return values


def stock_outsides(bore: float) -> tuple[float, ...]:
    """Give the outsides of the stock tubes of a bore, mm, lightest first."""
    rows = lookup(table("tube").rows, "id", bore)
    return tuple(sorted(r.required("od_mm") for r in rows))


def _tube(pair: Pair, duty: DutyFile) -> tuple[float, float]:
    """Give the lightest outside that carries the pressure with what is asked, and how well."""
    first = wall_rule(pair.bore, duty.pressure).outside_mm
    metal, asked = steel_of(duty.units, "barrel"), duty.safety_factor
    found = (first, 0.0)
    for outside in sorted({first, *(d for d in stock_outsides(pair.bore) if d > first)}):
        bursts = barlow_pressure(outside, (outside - pair.bore) / 2, metal.tensile[0])
        yields = yield_pressure(pair.bore, outside, metal.strength[0])
        ratio = min(yields / ON_YIELD.asked(asked), bursts / ON_BURST.asked(asked)) / duty.pressure
        found = (outside, ratio)
        if ratio >= 1.0:
            break
    return found


def _pin(force: float, units: str) -> float:
    """Give a usual pin that carries a force in double shear."""
    allowed = shear_strength(steel_of(units, "pin").strength[0]) / ON_YIELD.ample
    return usual_pin((2 * force / (pi * allowed)) ** 0.5, units)


def usual_pin(least: float, units: str) -> float:
    """Give the next usual pin in mm, of the file's own series; beyond it the next shop size."""
    usual = [p.mm for p in usual_sizes("pin") if p.inch == (units == "in") and p.mm >= least - 1e-6]
    return min(usual, default=neat_up(least, units))


def _lay(
    duty: DutyFile, pair: Pair, outside: float, pin: float, flow: float | None
) -> tuple[Axis, PortThread | None]:
    """Close the axis with the port for a flow (l/s), or the widest that the barrel takes."""
    family = duty.ports or USUAL[duty.units]
    for port in (*ports_for(flow, family), None) if flow else (None,):
        values = values_of(duty, pair, outside, pin, word_of(port) if port else "")
        try:
            return lay_axis(duty.units, values, duty.retracted, duty.tightest), port
        except Refused as refused:
            if any(not f.field.endswith("_port.thread") for f in refused.faults):
                raise
    raise AssertionError("a cylinder without ports has no port that does not fit")

"""The bores and rods of the standard series, each laid out for a duty.

The lay-out is for choosing: axial sizes by the rules that the drawing follows, a pin by shear
where none is asked for, column pinned at both ends, mass of plain bars and tubes.
"""

from __future__ import annotations

from functools import cache
from math import pi

from drafting.calc import flow as flows
from drafting.calc import force as forces
from drafting.calc.column import column_lengths, column_load
from drafting.calc.mass import bar_mass, tube_mass
from drafting.calc.thread import shear_strength
from drafting.calc.tube import yield_pressure
from drafting.calc.types import MM3_PER_LITRE
from drafting.checks.bands import ON_YIELD
from drafting.checks.materials import ASSUMED_PIN, ASSUMED_ROD, Material, assumed
from drafting.model.catalog import mount_types
from drafting.records import dataclass
from drafting.settle.shop_sizes import neat_up
from drafting.sizing.axis import lay_axis
from drafting.sizing.duty import DutyFile
from drafting.spec.given import Typed
from drafting.standards.table import Row, table
from drafting.standards.tubes import Wall, tube_yield, wall_rule


@dataclass(frozen=True, slots=True)
class Pair:
    """A bore and a rod that go together in some series, mm."""

    bore: float
    rod: float
    system: str
    series: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A pair laid out for a duty: mm, N, l/s, mm/s, s, litres, kg.

    ``closed`` is the smallest length between the datums, retracted. ``column`` is the critical
    load fully out, at the length asked for where there is one and it closes, else at ``closed``.
    ``wall_factor`` is against yield of the ordinary tube, which nobody has chosen yet. Speeds and
    times are None when no flow is known.
    """

    pair: Pair
    wall: Wall
    pin: float
    push: float
    pull: float
    wall_factor: float
    closed: float
    column: float
    oil_out: float
    oil_in: float
    mass: float
    speed_out: float | None
    speed_in: float | None
    seconds_out: float | None
    seconds_in: float | None


@cache
def rod_metal() -> Material:
    """Give the metal that the column is reckoned with, an assumption."""
    return assumed(ASSUMED_ROD)


@cache
def _tube_yield(system: str) -> float:
    return tube_yield(system).required("yield_min_mpa")


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
    wall = wall_rule(bore, duty.pressure)
    pin = duty.pin or _pin(max(duty.push or 0.0, duty.pull or 0.0), duty.units)
    axis = lay_axis(duty.units, values_of(duty, bore, rod, pin), duty.retracted)
    at = axis.at
    tube, free = column_lengths(0.0, at.gland_face, at.rod_datum + stroke)
    q = duty.flow * MM3_PER_LITRE if duty.flow is not None else None
    cap_side, rod_side = forces.cap_area(bore), forces.annulus_area(bore, rod)
    speed_out = flows.speed(q, cap_side) if q else None
    speed_in = flows.speed(q, rod_side) if q else None
    strength = rod_metal().strength
    return Candidate(
        pair,
        wall,
        pin,
        forces.push_force(bore, rod, duty.pressure, duty.return_pressure),
        forces.pull_force(bore, rod, duty.pressure, duty.return_pressure),
        yield_pressure(bore, wall.outside_mm, _tube_yield(pair.system)) / duty.pressure,
        axis.closed,
        column_load("pinned_pinned", wall.outside_mm, bore, tube, rod, free, strength),
        cap_side * stroke / MM3_PER_LITRE,
        rod_side * stroke / MM3_PER_LITRE,
        tube_mass(wall.outside_mm, bore, at.gland_face - at.closed_end)
        + bar_mass(bore, at.oil_side - at.closed_end)
        + tube_mass(bore, rod, at.piston_front - at.oil_side + at.gland_face - at.gland_inner)
        + bar_mass(rod, at.rod_datum - at.oil_side),
        speed_out,
        speed_in,
        flows.stroke_time(stroke, speed_out) if speed_out else None,
        flows.stroke_time(stroke, speed_in) if speed_in else None,
    )


def values_of(duty: DutyFile, bore: float, rod: float, pin: float) -> dict[str, Typed]:
    """Give what decides the lay-out, by the names of the spec."""
    values: dict[str, Typed] = {
        "cylinder.bore": bore,
        "cylinder.rod": rod,
        "cylinder.stroke": duty.stroke,
        "cylinder.working_pressure": duty.pressure,
        "body_mount.mount": duty.body_mount,
    }
    body, end = mount_types()["body", duty.body_mount], mount_types()["rod", duty.rod_mount]
    if "pin" in body.fields:
        values["body_mount.pin"] = pin
    if "position" in body.fields:
        values["body_mount.position"] = duty.position
    values["rod_mount.mount"] = duty.rod_mount
    if "pin" in end.fields:
        values["rod_mount.pin"] = pin
    return values


def _pin(force: float, units: str) -> float:
    """Give a shop size of pin that carries a force in double shear with an ample factor."""
    allowed = shear_strength(assumed(ASSUMED_PIN).strength) / ON_YIELD.ample
    return neat_up((2 * force / (pi * allowed)) ** 0.5, units)

"""What the plots show, as numbers: force by pressure, speed by flow, limits by extension."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from drafting.calc import flow as flows
from drafting.calc import force as forces
from drafting.calc.types import MM3_PER_LITRE
from drafting.checks.bands import ON_COLUMN
from drafting.checks.buckling import column, loads
from drafting.checks.loads import driven_areas, pull_at, push_at
from drafting.checks.numbers import CylinderNumbers, Number
from drafting.factors import KINDS
from drafting.records import dataclass

STEPS = 60


@dataclass(frozen=True, slots=True)
class Series:
    """A named line through points in the chart's own units."""

    name: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Level:
    """A named straight line across the chart, at a value of x (upright) or of y (lying)."""

    name: str
    at: float
    upright: bool


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart; both axes start at zero. ``top`` names a second scale on top, x plus ``shift``."""

    name: str
    title: str
    x_label: str
    y_label: str
    series: tuple[Series, ...]
    levels: tuple[Level, ...]
    note: str
    top_label: str = ""
    shift: float = 0.0
    top_only_to: float | None = None


@dataclass(frozen=True, slots=True)
class _Units:
    """Names and factors from the inner units to those shown."""

    pressure: str
    force: str
    flow: str
    speed: str
    length: str
    per_mpa: float
    per_n: float
    per_l_s: float
    per_mm: float


def _units(units: str) -> _Units:
    if units == "in":
        p, f, q = "psi", "lbf", "gal/min"
    else:
        p, f, q = "bar", "kN", "L/min"
    length = "in" if units == "in" else "mm"
    return _Units(
        p,
        f,
        q,
        f"{length}/s",
        length,
        1 / float(KINDS["pressure"].factors[p]),
        1 / float(KINDS["force"].factors[f]),
        1 / float(KINDS["flow"].factors[q]),
        1 / float(KINDS["length"].factors[length]),
    )


def shown(value: float) -> str:
    """Give a number with at most four figures that count, written out."""
    return f"{float(f'{value:.4g}'):.12g}"


def charts(n: CylinderNumbers, units: str) -> tuple[Chart, ...]:
    """Give the charts that the numbers allow, in the units of the spec (``in`` or ``mm``)."""
    u = _units(units)
    found = (_force(n, u), _speed(n, u), _column(n, u))
    return tuple(c for c in found if c is not None)


def _level(name: str, number: Number | None, factor: float, upright: bool) -> tuple[Level, ...]:
    return (Level(name, number.value * factor, upright),) if number is not None else ()


def _force(n: CylinderNumbers, u: _Units) -> Chart | None:
    highest = max(
        (p.value for p in (n.highest_pressure, n.proof_pressure, n.duty.pressure) if p), default=0.0
    )
    if highest == 0.0:
        return None
    able: dict[str, Callable[[CylinderNumbers, float], float]] = {"push": push_at, "pull": pull_at}
    series = [
        Series(way, ((0.0, 0.0), (highest * u.per_mpa, able[way](n, highest) * u.per_n)))
        for way in driven_areas(n)
    ]
    if n.action == "double" and n.piston == "sealed":
        both = forces.ram_force(n.rod.value, highest)
        end = (highest * u.per_mpa, both * u.per_n)
        series.append(Series("push, regenerative", ((0.0, 0.0), end)))
    return Chart(
        "force-pressure",
        "Force asked against the force there is",
        f"pressure, {u.pressure}",
        f"force, {u.force}",
        tuple(series),
        (
            *_level("working", n.working_pressure, u.per_mpa, True),
            *_level("relief", n.relief_pressure, u.per_mpa, True),
            *_level("push asked", loads(n).get("duty"), u.per_n, False),
            *_level("pull asked", n.duty.pull, u.per_n, False),
        ),
        "At rest, without friction and without return pressure.",
    )


def _speed(n: CylinderNumbers, u: _Units) -> Chart | None:
    if n.duty.flow is None:
        return None
    most = 1.5 * n.duty.flow.value
    q = most * MM3_PER_LITRE
    names = {"push": "out", "pull": "in"}
    speeds = {names[w]: flows.speed(q, area) for w, area in driven_areas(n).items()}
    if n.action == "double" and n.piston == "sealed":
        speeds["out, regenerative"] = flows.regenerative_speed(n.rod.value, q)
    return Chart(
        "speed-flow",
        "Speed against flow",
        f"flow, {u.flow}",
        f"speed, {u.speed}",
        tuple(
            Series(name, ((0.0, 0.0), (most * u.per_l_s, v * u.per_mm)))
            for name, v in speeds.items()
        ),
        _level("flow of the duty", n.duty.flow, u.per_l_s, True),
        "Steady speed, without leakage.",
    )


def _column(n: CylinderNumbers, u: _Units) -> Chart | None:
    found = loads(n)
    if not found:
        return None
    out = [n.stroke.value * k / STEPS for k in range(STEPS + 1)]
    buckles = [min(column(n, p, x).load for p in ("y", "z")) * u.per_n for x in out]
    asked = n.duty.safety_factor
    wanted = asked.value if asked is not None else ON_COLUMN.ample
    why = "asked for" if asked is not None else "common practice, its upper end"
    series = (
        Series(f"limit, factor {wanted:g}", _along(out, [f / wanted for f in buckles], u)),
        Series("buckles", _along(out, buckles, u)),
    )
    names = {"duty": "push asked", "full": "full push"}
    return Chart(
        "column-extension",
        "Push against the column's limit, over the stroke",
        f"extension, {u.length}",
        f"force, {u.force}",
        series,
        tuple(Level(names[k], load.value * u.per_n, False) for k, load in found.items()),
        f"Weaker plane; factor {wanted:g}: {why}. Own weight, side load, play, a bent rod and "
        "eccentric pins are not covered.",
        f"pin distance (between the datums), {u.length}",
        (n.rod_pivot.value - n.body_pivot.value) * u.per_mm,
        n.stroke.value * u.per_mm,
    )


def _along(
    out: Sequence[float], forces: Sequence[float], u: _Units
) -> tuple[tuple[float, float], ...]:
    return tuple((x * u.per_mm, f) for x, f in zip(out, forces, strict=True))

"""The column, each plane on its own.

A pin turns in one plane and holds in the other, but only as well as pin, ears and frame fit: it
counts as held only where the person says so. An end whose load nobody guides is free, whatever pin
it has; on a body that turns, or is not held, such a cylinder is no column but a mechanism.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Literal

from drafting.calc.column import column_lengths, column_load, longest_stroke, smallest_rod
from drafting.calc.euler import bar_inertia, euler_load, tube_inertia
from drafting.calc.stepped import LENGTH_FACTOR, Ends
from drafting.calc.types import STEEL_MODULUS
from drafting.checks.bands import ON_COLUMN
from drafting.checks.check import Check, LoadCase, told
from drafting.checks.judging import judge
from drafting.checks.loads import in_use, load_cases, push_at
from drafting.checks.numbers import CylinderNumbers, EndMount, Number
from drafting.checks.question import At, Input, Question, sized, strong
from drafting.records import dataclass

Plane = Literal["y", "z"]
"""Named by the axis square to it: ``y`` is the plane in which the body pin turns."""
PLANES: tuple[Plane, Plane] = ("y", "z")
METHOD = (
    "stepped column of tube and rod with Johnson's line for short ones; own weight, sag, side "
    "load, play, bent rod and eccentric pins are not covered"
)
GUIDED, HELD = "duty.load_guided", "body_mount.held"
FULL = ("full-push", "regenerative")
PAIRS: dict[tuple[str, str], Ends] = {
    ("pinned", "pinned"): "pinned_pinned",
    ("pinned", "fixed"): "pinned_fixed",
    ("fixed", "pinned"): "fixed_pinned",
    ("fixed", "fixed"): "fixed_fixed",
}
MECHANISM = (
    "a mechanism, no column: nobody guides the load and the body can turn, so that it falls over "
    "under any push; guide the load"
)
_load = cache(column_load)


@dataclass(frozen=True, slots=True)
class Column:
    """The column in one plane, lengths in mm, load in N; ``ends`` None for a mechanism."""

    ends: Ends | None
    tube: float
    rod: float
    load: float

    @property
    def words(self) -> str:
        """Say how its ends stand."""
        return MECHANISM if self.ends is None else self.ends.replace("_", "-")


def buckling(n: CylinderNumbers) -> tuple[Check, ...]:
    """Give the factors against buckling and, as advice, the longest stroke and thinnest rod."""
    cases = [c for c in in_use(load_cases(n)) if c.rod > 0.0]
    if not cases:
        return ()
    return (*_told(n), *_factors(n, cases), *_advice(n, cases))


def ends_in(n: CylinderNumbers, plane: Plane, guided: bool, held: bool) -> Ends | None:
    """Give the end conditions in a plane, tube end first; None for a mechanism."""
    body = _end(n.body, plane, held)
    if not guided:
        return "fixed_free" if body == "fixed" else None
    return PAIRS[body, _end(n.rod_end, plane, bool(n.rod_end.held))]


def _end(mount: EndMount, plane: Plane, held: bool) -> str:
    turns = mount.axis in ("ball", "skew", plane)
    return "fixed" if held and not turns else "pinned"


def column(n: CylinderNumbers, plane: Plane, extension: float | None = None) -> Column:
    """Give the column in one plane with the weakest of what is open, fully out unless told."""
    at = {i.field: i.low for i in _inputs(n)}
    return _column(n, plane, at, n.stroke.value if extension is None else extension)


def _column(n: CylinderNumbers, plane: Plane, at: At, out: float) -> Column:
    reach = sum(n.sizes[f].value - at[f] for f in n.rod_reach if f in at)
    longer = at[n.stroke.name] - n.stroke.value + at[n.rod_pivot.name] - n.rod_pivot.value
    pivot = n.rod_pivot.value + out + longer
    face = n.gland_face.value + reach
    tube, rod = column_lengths(n.body_pivot.value, min(face, pivot - 1e-6), pivot)
    ends = ends_in(n, plane, at[GUIDED] > 0.5, at[HELD] > 0.5)
    if ends is None:
        return Column(None, tube, rod, 0.0)
    outside = max(at[n.barrel_outside.name], n.bore.value * (1 + 1e-9))
    strength = at[n.steels["rod"].field]
    load = _load(ends, outside, n.bore.value, tube, at[n.rod.name], rod, strength)
    return Column(ends, tube, rod, load)


def _inputs(n: CylinderNumbers) -> tuple[Input, ...]:
    """Give all that the column rests on; what may be so or not is 0 to 1."""
    turns = n.body.axis is not None
    guided = n.duty.load_guided
    if guided is None and not turns:
        guide = Input(GUIDED, 0.0, 1.0, unit="flag", word="true")
    else:
        # Between two pins only a machine that guides the load lets it stand at all.
        free = guided is False
        guide = Input(GUIDED, float(not free), float(not free), unit="flag", word="true")
    held = n.body.held
    open_end = not turns and held is None and guide.low == 0.0
    hold = Input(
        HELD, float(bool(held)), 1.0 if open_end else float(bool(held)), unit="flag", word="true"
    )
    reach = tuple(sized(n.sizes[f]) for f in n.rod_reach if f in n.sizes)
    sizes = (n.rod, n.stroke, n.rod_pivot, n.barrel_outside)
    return (*map(sized, sizes), *reach, strong(n.steels["rod"]), guide, hold)


def _weaker(n: CylinderNumbers, at: At) -> Column:
    return min((_column(n, p, at, n.stroke.value) for p in PLANES), key=lambda c: c.load)


def _rod_alone(n: CylinderNumbers) -> CylinderNumbers | None:
    """Give the cylinder as a rod over the whole length: no stiffer wherever the gland is.

    None where the rod is stiffer than the tube, which makes the tube the weak part.
    """
    if bar_inertia(n.rod.value) > tube_inertia(n.barrel_outside.value, n.bore.value):
        return None
    firm = Number(n.barrel_outside.name, n.barrel_outside.value)
    return replace(n, gland_face=n.body_pivot, rod_reach=(), barrel_outside=firm)


def _factors(n: CylinderNumbers, cases: list[LoadCase]) -> Iterator[Check]:
    full = [c for c in cases if c.code in FULL]
    duty = [c for c in cases if c.code not in FULL]
    for which, loading, what in (
        ("duty", duty, "greatest push that the duty asks"),
        ("full", full, "full push at the highest pressure"),
    ):
        found = against(n, which, what, loading) if loading else None
        if found is not None:
            yield found


def against(n: CylinderNumbers, which: str, what: str, cases: list[LoadCase]) -> Check | None:
    """Judge the column fully out against some load cases; None where none can be told."""
    asked = n.duty.safety_factor.value if n.duty.safety_factor else None
    found = _judged(n, which, what, cases, asked)
    alone = _rod_alone(n)
    if found is not None and found.verdict == "depends" and alone is not None:
        short = _judged(alone, which, what, cases, asked)
        if short is not None and short.verdict == "holds":
            return short
    return found


def _judged(
    n: CylinderNumbers, which: str, what: str, cases: list[LoadCase], asked: float | None
) -> Check | None:
    def factor(at: At, case: LoadCase) -> float:
        return _weaker(n, at).load / case.rod

    def note(at: At, case: LoadCase) -> str:
        c = _weaker(n, at)
        where = "" if n.rod_reach else "; the rod alone over the whole length"
        return f"{c.words}; tube {c.tube:.0f} mm, rod {c.rod:.0f} mm; load {case.rod:.0f} N{where}"

    name = f"Factor against buckling, {what}"
    q = Question(f"column-{which}", name, ON_COLUMN, _inputs(n), factor, METHOD, note)
    return judge(q, cases, asked)


def _told(n: CylinderNumbers) -> Iterator[Check]:
    columns = [column(n, plane) for plane in PLANES]
    for plane, c in zip(("turning", "pin"), columns, strict=True):
        lengths = f"{c.words}; tube {c.tube:.0f} mm, rod {c.rod:.0f} mm"
        of = "of turning" if plane == "turning" else "of the pin"
        name = f"Column load fully out, plane {of}"
        yield told(f"column-load-{plane}", name, c.load, "N", METHOD, lengths)
    c = columns[0]
    if c.ends is not None:
        stiff = STEEL_MODULUS * bar_inertia(n.rod.value)
        alone = euler_load(stiff, c.tube + c.rod, LENGTH_FACTOR[c.ends])
        name = "Euler's load of the rod alone over the whole length"
        yield told("column-rod-alone", name, alone, "N", "Euler; a lower bound while slender")


def loads(n: CylinderNumbers) -> dict[str, Number]:
    """Give the pushes that the column is held against, N: the duty's, and all that pressure can."""
    found: dict[str, Number] = {}
    pushes = [c for c in in_use(load_cases(n)) if c.rod > 0.0 and c.code not in FULL]
    if pushes:
        most = max(pushes, key=lambda c: c.rod)
        found["duty"] = Number(most.name, most.rod, "computed")
    highest = n.highest_pressure
    if highest is not None and (full := push_at(n, highest.value)) > 0.0:
        found["full"] = Number(highest.name, full, "computed")
    return found


def _advice(n: CylinderNumbers, cases: list[LoadCase]) -> Iterator[Check]:
    load = max((c for c in cases if not c.decided_by), key=lambda c: c.rod, default=cases[0]).rod
    weaker = min((column(n, p) for p in PLANES), key=lambda c: c.load)
    if weaker.ends is None:
        return
    wanted = ON_COLUMN.asked(n.duty.safety_factor.value if n.duty.safety_factor else None)
    held, strength = load * wanted, n.steels["rod"].strength[0]
    sections = weaker.ends, n.barrel_outside.value, n.bore.value
    note = f"factor {wanted:g} at {load:.0f} N, the rest as it is"
    rest = weaker.tube - n.tube_share * n.stroke.value
    share, out = n.tube_share, n.stroke.value
    stroke = longest_stroke(held, *sections, rest, share, n.rod.value, weaker.rod - out, strength)
    yield told("longest-stroke", "Longest stroke that holds", stroke, "mm", METHOD, note)
    thinnest = smallest_rod(held, *sections, weaker.tube, weaker.rod, strength)
    if thinnest < n.bore.value:
        yield told("thinnest-rod", "Thinnest rod that holds", thinnest, "mm", METHOD, note)
    else:
        note = f"{note}; not even a rod as thick as the bore"
        yield told("thinnest-rod", "No rod holds in the bore of", thinnest, "mm", METHOD, note)

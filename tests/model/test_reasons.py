"""A derived size follows the rule that its reason states, small and large, in inch and mm.

The numbers are taken from the reason's own words; what they are parts of is looked up by name. A
size may be drawn at the shop size (1/16 in, 1 mm) near to what the rule gives, or next above it.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from math import ceil

import pytest

from drafting.errors import Refused
from drafting.model.cylinder import Cylinder
from drafting.values import Value
from tests.agree.cases import Case, cases
from tests.model.mount_specs import settled

SCALES = (0.45, 1.0, 2.3)
STEP = {"in": 25.4 / 16, "mm": 1.0}
Sizes = Callable[[str], float]


def _bolts(at: Sizes, table: str, axis: str) -> float:
    """Give how far apart the outermost bolts stand along an axis, else their circle."""
    pair = at(f"{table}.bolts.pitch.{axis}")
    return pair or at(f"{table}.bolts.circle")


RULES: dict[str, Callable[[Sizes, str, str, list[float]], float]] = {
    r"(N) of the bore(?:, at least (N) mm|, as drawn only)?$": lambda at, t, f, n: max(
        n[0] * at("cylinder.bore"), *n[1:], 0.0
    ),
    r"half of the bore$": lambda at, t, f, n: 0.5 * at("cylinder.bore"),
    r"half of outside: a round nose$": lambda at, t, f, n: at(f"{t}.outside") / 2,
    r"the (?:eye|tube|ring) lies against the face \(half of outside\)$": lambda at, t, f, n: (
        at(f"{t}.outside") / 2
    ),
    r"(N) of the hole through the": lambda at, t, f, n: n[0] * at(f"{t}.hole"),
    r"(N) of the bushing in the": lambda at, t, f, n: n[0] * at(f"{t}.bushing"),
    r"a boss of (N) of the pin$": lambda at, t, f, n: n[0] * at(f"{t}.pin"),
    r"(N) of the pin$": lambda at, t, f, n: n[0] * at(f"{t}.diameter"),
    r"a plate (N) of the pin thick$": lambda at, t, f, n: n[0] * at(f"{t}.diameter"),
    r"throat plus a web of (N) of outside$": lambda at, t, f, n: (
        at(f"{t}.throat") + n[0] * at(f"{t}.outside")
    ),
    r"a ring of (N) of the ball all round": lambda at, t, f, n: (1 + 2 * n[0]) * at(f"{t}.ball"),
    r"shoulders and two pins as long as thick$": lambda at, t, f, n: (
        at(f"{t}.shoulders") + 2 * at(f"{t}.pin")
    ),
    r"barrel or square and an eighth of the bore each side$": lambda at, t, f, n: (
        (at("cylinder.square") or at("cylinder.barrel_outside")) + at("cylinder.bore") / 4
    ),
    r"half of the bore, at least three holes$": lambda at, t, f, n: max(
        at("cylinder.bore") / 2, 3 * at(f"{t}.bolts.hole")
    ),
    r"rod bush (N) of the rod$": lambda at, t, f, n: n[0] * at("cylinder.rod"),
    r"as large as the barrel$": lambda at, t, f, n: at("cylinder.barrel_outside"),
    r"a cap one barrel wall thick$": lambda at, t, f, n: (
        2 * at("cylinder.barrel_outside") - at("cylinder.bore")
    ),
    r"a quarter of the gland shows": lambda at, t, f, n: at("cylinder.gland_length") / 4,
    r"left plus right$": lambda at, t, f, n: at(f"{t}.left") + at(f"{t}.right"),
    r"the width less the other side$": lambda at, t, f, n: at(f"{t}.width") - at(f"{t}.left"),
    r"both rows of holes and (N) holes to each edge$": lambda at, t, f, n: (
        _bolts(at, t, "x") + 2 * n[0] * at(f"{t}.bolts.hole")
    ),
    r"the bolts plus (N) holes to each edge$": lambda at, t, f, n: (
        _bolts(at, t, f) + 2 * n[0] * at(f"{t}.bolts.hole")
    ),
    r"retracted plus stroke$": lambda at, t, f, n: at("cylinder.retracted") + at("cylinder.stroke"),
    r"(?:extended|retracted) plus the adjustment$": lambda at, t, f, n: (
        at(f"cylinder.{f.partition('_')[0]}") + at("rod_mount.adjustment")
    ),
    r"thread length less jam nut and adjustment$": lambda at, t, f, n: (
        at(f"{t}.thread_length") - at(f"{t}.jam_nut_thickness") - at(f"{t}.adjustment")
    ),
    r"the grip and half of the hole$": lambda at, t, f, n: at(f"{t}.grip") + at(f"{t}.hole") / 2,
    r"the grip and one hole$": lambda at, t, f, n: at(f"{t}.grip") + at(f"{t}.hole"),
}
"""For each reason what its size comes to: sizes by name, table, field, the numbers in the words."""


def _scaled(value: object, by: float) -> object:
    if isinstance(value, dict):
        kept = ("count", "cap_turned")
        return {k: v if k in kept else _scaled(v, by) for k, v in value.items()}
    if isinstance(value, list):
        return [_scaled(v, by) for v in value]
    if isinstance(value, bool) or not isinstance(value, int | float):
        return value
    return round(value * by, 4)


@cache
def cylinders() -> tuple[tuple[str, str, Cylinder], ...]:
    """Give (name, units, cylinder) of every case without a port, at every scale that closes."""
    out = []
    for k, case in enumerate(c for c in cases() if "port" not in str(c.tables)):
        if "thread" in str(case.tables):
            scales: tuple[float, ...] = (1.0,)
        else:
            scales = SCALES
        for by in scales:
            units = ("in", "mm")[(k + len(out)) % 2]
            tables = {n: _scaled(t, by) for n, t in case.tables.items()}
            try:
                cylinder = settled(Case(case.name, tables, units).text())
            except Refused:
                continue
            out.append((f"{case.name}, {by} times", units, cylinder))
    return tuple(out)


def follows(value: Value, units: str, at: Sizes) -> bool | None:
    """Tell whether a value is what its reason says; None where no rule knows the reason."""
    table, _, field = value.name.partition(".")
    for words, rule in RULES.items():
        found = re.match(words.replace("(N)", r"([\d.]+)"), value.why)
        if found and isinstance(value.value, float):
            numbers = [float(g) for g in found.groups() if g and re.fullmatch(r"[\d.]+", g)]
            want, step = rule(at, table, field.rpartition(".")[2], numbers), STEP[units]
            near = (want, round(want / step) * step, ceil(want / step - 1e-9) * step)
            return min(abs(value.value - w) for w in near) < 1e-6
    return None


def test_every_derived_size_follows_its_reason():
    seen: dict[str, int] = {}
    for name, units, c in cylinders():

        def at(field: str, c: Cylinder = c) -> float:
            found = c.value(field)
            return found.value if found and isinstance(found.value, float) else 0.0

        for value in c.values:
            if value.origin not in ("derived", "computed"):
                continue
            agrees = follows(value, units, at)
            if agrees is not None:
                seen[value.why] = seen.get(value.why, 0) + 1
                assert agrees, (name, value)
    assert len(seen) > 25
    assert sum(seen.values()) > 1500


def test_a_size_off_its_reason_is_seen():
    value = Value("rod_mount.nose", 21.0, "mm", None, "derived", "half of outside: a round nose")
    sizes = {"rod_mount.outside": 40.0}
    assert follows(value, "mm", sizes.__getitem__) is False
    assert follows(value, "mm", {"rod_mount.outside": 42.0}.__getitem__) is True


@pytest.mark.parametrize("scale", SCALES)
def test_every_scale_is_among_the_cylinders(scale):
    assert sum(name.endswith(f"{scale} times") for name, _, _ in cylinders()) > 50

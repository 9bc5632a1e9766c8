"""Lines of TOML to copy: what, typed, turns "depends" or "not known" into a verdict."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil, floor

from drafting.checks.check import Check, Decides
from drafting.factors import INCH
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.reports.check_names import short_name
from drafting.reports.readings import INCHES, METRIC
from drafting.reports.verdicts import does, judged
from drafting.spec.fields import TABLES
from drafting.spec.write import quote
from drafting.units import spell

STEP = {"in": INCH / 16, "mm": Fraction(1)}
"""Sizes that would do are rounded to what a tape shows, to the side that holds."""
PRESSURE = "cylinder.working_pressure"
"""Without it nothing is judged."""
OWN = "..."
"""Stands for what only the reader knows; the file is refused until it is replaced."""


@dataclass(frozen=True, slots=True)
class ToType:
    """One line: the table it stands in, the key, the value as TOML, and why it is asked for."""

    table: str
    key: str
    value: str
    why: str
    decides: int

    @property
    def field(self) -> str:
        """Give the dotted field."""
        return f"{self.table}.{self.key}" if self.table else self.key


def to_type(c: Cylinder, checks: Sequence[Check]) -> tuple[ToType, ...]:
    """Give a line for each field that decides a check without a verdict, in the file's order.

    A value is what was drawn, where that would do, else the least change that would.
    """
    asked: dict[str, list[tuple[Check, Decides]]] = {}
    if not judged(checks):
        asked[PRESSURE] = []
    for k in judged(checks):
        if k.verdict in ("depends", "not known"):
            for d in k.depends_on:
                asked.setdefault(d.field, []).append((k, d))
    lines = [_line(c, field, found) for field, found in asked.items()]
    known = [entry for entry in lines if entry is not None]
    order = list(TABLES)
    return tuple(sorted(known, key=lambda t: order.index(t.table)))


def as_toml(lines: Iterable[ToType], wide: int) -> list[str]:
    """Give the lines under the headings of their tables, comments in one column.

    A comment that would go beyond ``wide`` columns loses its second half.
    """
    lines = list(lines)
    keys = max((len(t.key) for t in lines), default=0)
    values = max((len(t.value) for t in lines), default=0)
    room = wide - keys - values - len(" =   # ")
    told, table = [], ""
    for t in lines:
        if t.table != table:
            told.append(f"[{t.table}]")
            table = t.table
        why = t.why if len(t.why) <= room else t.why.partition("; ")[0]
        told.append(f"{t.key:<{keys}} = {t.value:<{values}}  # {why}")
    return told


def to_type_rows(lines: Iterable[ToType]) -> list[dict[str, str | int]]:
    """Give the lines for ``check --json``; ``value`` is TOML as it would be typed."""
    return [{"field": t.field, "value": t.value, "why": t.why, "decides": t.decides} for t in lines]


def _line(c: Cylinder, name: str, found: Sequence[tuple[Check, Decides]]) -> ToType | None:
    table, _, key = name.rpartition(".")
    field = TABLES[table].field(key) if table in TABLES else None
    if field is None:
        return None
    checks = list(dict.fromkeys(short_name(k) for k, _ in found))
    hardest = _hardest([d for _, d in found])
    limit = does(hardest, c.spec.units) if hardest else field.doc
    value = _value(c, name, hardest)
    drawn = c.value(name)
    if drawn is not None and drawn.origin in ("derived", "table") and hardest:
        limit = f"measure it: {limit}"
    what = checks[0] if len(checks) == 1 else f"{len(checks) or 'all'} checks"
    return ToType(table, key, value, f"{limit}; {what}", len(checks))


def _hardest(decides: Sequence[Decides]) -> Decides | None:
    """Give the demand that meets all the others, None where none has a value."""
    words = [d for d in decides if isinstance(d.would_do, str)]
    sized = [d for d in decides if isinstance(d.would_do, float | int)]
    most = [d for d in sized if d.sense == "at most"]
    if words:
        return words[0]
    return min(most, key=_limit) if most else max(sized, key=_limit, default=None)


def _limit(d: Decides) -> float:
    assert isinstance(d.would_do, float | int)
    return float(d.would_do)


def _value(c: Cylinder, name: str, d: Decides | None) -> str:
    """Give what to type: a word or a size that would do, else a place for the reader's own."""
    if d is None:
        return quote(OWN)
    if d.would_do in ("true", "false"):
        return d.would_do
    if isinstance(d.would_do, str):
        return quote(d.would_do)
    units, limit, down = c.spec.units, _limit(d), d.sense == "at most"
    if d.unit == "mm":
        known = c.value(name)
        drawn = float(known.value) if known is not None and known.unit == "mm" else None
        if drawn is not None and (drawn <= limit if down else drawn >= limit):
            return quote(spell(drawn, "length", units))
        return quote(spell(_round(limit, STEP[units], down), "length", units))
    if d.unit == "MPa":
        factor, word = (INCHES["MPa"][0], "psi") if units == "in" else (1.0, "MPa")
        return quote(
            f"{_round(limit * factor, Fraction(500 if units == 'in' else 5), down):.0f} {word}"
        )
    if d.unit == "N":
        factor, word = INCHES["N"] if units == "in" else METRIC["N"]
        return quote(
            f"{_round(limit * factor, Fraction(100 if units == 'in' else 1, 2), down):g} {word}"
        )
    return f"{_round(limit, Fraction(1, 10), down):g}"


def _round(value: float, step: Fraction, down: bool) -> float:
    """Round to a step, to the side that holds."""
    steps = value / float(step)
    return float(step * (floor(steps + 1e-9) if down else ceil(steps - 1e-9)))

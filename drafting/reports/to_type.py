"""Lines of TOML to copy: what, typed, turns "depends" or "not known" into a verdict."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

from drafting.checks.check import Check, Decides
from drafting.errors import Refused
from drafting.factors import INCH
from drafting.model.cylinder import Cylinder
from drafting.model.load import load
from drafting.records import dataclass
from drafting.reports.check_names import short_name
from drafting.reports.verdicts import PEOPLE, does, field_words, grades, judged
from drafting.spec.field import Field
from drafting.spec.fields import TABLES
from drafting.spec.given import Given
from drafting.spec.write import quote
from drafting.told.short import limit, quantity
from drafting.units import mixed, nearest_fraction, read_length, spell

STEP = {"in": INCH / 16, "mm": Fraction(1)}
"""Sizes that would do are rounded to what a tape shows, to the side that holds."""
PRESSURE = "cylinder.working_pressure"
"""Without it nothing is judged."""
FACTOR = "duty.safety_factor"
"""A demand, not a fact: the reader's own, whatever would do."""
_NOISE = 1e-4
"""A line's size that differs by less from what is drawn is what is drawn, rounded."""
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

    A value is what was drawn, where that would do, else the least change that would. Sizes that
    would do and cannot be built together here are left to the reader.
    """
    asked: dict[str, list[tuple[Check, Decides]]] = {}
    if not judged(checks):
        asked[PRESSURE] = []
    for k in judged(checks):
        if k.verdict in ("depends", "not known"):
            for d in k.depends_on:
                asked.setdefault(d.field, []).append((k, d))
    lines = [_line(c, field, found) for field, found in asked.items()]
    known = _buildable(c, [entry for entry in lines if entry is not None])
    order = list(TABLES)
    return tuple(sorted(known, key=lambda t: order.index(t.table)))


def _buildable(c: Cylinder, lines: list[ToType]) -> list[ToType]:
    """Leave the sizes open that are not as drawn, where the cylinder is refused with them."""
    sizes = {t.field: _mm(t, c.spec.units) for t in lines}
    drawn = {name: _drawn(c, name) for name in sizes}
    changed = {
        name
        for name, mm in sizes.items()
        if mm is not None and abs((drawn[name] or 0.0) - mm) > _NOISE * mm
    }
    if not changed:
        return lines
    givens = {
        name: Given(name, mm, "mm", f"{mm} mm", 1, 1)
        for name, mm in sizes.items()
        if mm is not None and "." not in name.partition(".")[2]
    }
    try:
        load(replace(c.spec, givens={**c.spec.givens, **givens}))
    except Refused as refused:
        said = field_words(refused.faults[0].field) or "cylinder"
        why = f"yours; what would do leaves no room for the {said}"
        return [
            replace(t, value=quote(OWN), why=f"{why}; {t.why.removeprefix('measure it: ')}")
            if t.field in changed
            else t
            for t in lines
        ]
    return lines


def _mm(t: ToType, units: str) -> float | None:
    """Give a line's size in mm, None where it is no size."""
    field = _field(t.field)
    if field is None or field.kind != "length" or t.value == quote(OWN):
        return None
    return float(read_length(t.value.strip('"'), units))


def _met(c: Cylinder, d: Decides) -> bool:
    """Tell whether the size as drawn would do."""
    drawn = _drawn(c, d.field)
    if drawn is None or not isinstance(d.would_do, float | int):
        return False
    return drawn <= d.would_do if d.sense == "at most" else drawn >= d.would_do


def _drawn(c: Cylinder, field: str) -> float | None:
    known = c.value(field)
    return float(known.value) if known is not None and known.unit == "mm" else None


def as_toml(lines: Iterable[ToType], wide: int) -> list[str]:
    """Give the lines under the headings of their tables, comments in one column.

    A comment that would go beyond ``wide`` columns loses its last parts.
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
        why = t.why
        while len(why) > room and "; " in why:
            why = why.rpartition("; ")[0]
        while len(why) > room:
            why = f"{why.removesuffix('...').rpartition(' ')[0]}..."
        outer, _, inner = t.key.rpartition(".")
        if outer:
            told.append(f"# {outer} = {{... {inner} = {t.value}}}  {why}")
        else:
            told.append(f"{t.key:<{keys}} = {t.value:<{values}}  # {why}")
    return told


def to_type_rows(lines: Iterable[ToType]) -> list[dict[str, str | int]]:
    """Give the lines for ``check --json``; ``value`` is TOML as it would be typed."""
    return [{"field": t.field, "value": t.value, "why": t.why, "decides": t.decides} for t in lines]


def _line(c: Cylinder, name: str, found: Sequence[tuple[Check, Decides]]) -> ToType | None:
    field = _field(name)
    if field is None or name == PEOPLE:
        return None
    table, _, key = name.partition(".")
    counted = [d for _, d in found if d.would_do is not None]
    hardest = _hardest(counted)
    checks = list(dict.fromkeys(short_name(k) for k, _ in found))
    what = checks[0] if len(checks) == 1 else f"{len(checks) or 'all'} checks"
    value = quote(OWN) if name == FACTOR else _value(c, name, hardest)
    choices = ("true", "false") if field.kind == "flag" else field.choices
    why: tuple[str, ...] = (", ".join(choices) or field.doc, what)
    if name == FACTOR and hardest is not None:
        why = (f"yours; {does(hardest, c.spec.units)} holds", what)
    elif name.endswith("_material"):
        value, why = _steel(hardest, what, c.spec.units)
    elif hardest is not None:
        said = does(hardest, c.spec.units)
        others = [w for w in choices if w != hardest.would_do]
        if others:
            said += f", or type {' or '.join(others)}"
        why = (f"measure it: {said}" if hardest.unit == "mm" else said, what)
    elif counted:
        why = ("yours; no value of it does for all", what)
    elif _drawn(c, name) is not None:
        why = ("measure it: taken as drawn", what)
    return ToType(table, key, value, "; ".join(why), len(checks))


def _field(name: str) -> Field | None:
    """Give the field of a dotted name, also one of a small table inside a table."""
    table, *path = name.split(".")
    fields, found = TABLES[table].fields if table in TABLES else (), None
    for key in path:
        found = next((f for f in fields if f.name == key), None)
        fields = found.fields if found else ()
    return found


def _steel(d: Decides | None, what: str, units: str) -> tuple[str, tuple[str, ...]]:
    """Give the weakest steel that would do, as TOML, with what else is good."""
    if d is None or isinstance(d.would_do, str):
        return quote(str(d.would_do) if d else OWN), ("what it is", what)
    enough = [(n, mpa) for n, mpa in grades(d.field) if mpa >= _limit(d)]
    if not enough:
        return quote(OWN), (does(d, units), what)
    (name, mpa), *others = enough
    also = (f"{others[0][0]} too",) if others else ()
    has = f"{quantity(mpa, 'MPa', units, True)} yield"
    return quote(name), (has, what, does(d, units), *also)


def _hardest(decides: Sequence[Decides]) -> Decides | None:
    """Give the demand that meets all the others, None where none has a value or they disagree."""
    words = [d for d in decides if isinstance(d.would_do, str)]
    sized = [d for d in decides if isinstance(d.would_do, float | int)]
    most = min((d for d in sized if d.sense == "at most"), key=_limit, default=None)
    least = max((d for d in sized if d.sense != "at most"), key=_limit, default=None)
    if most is not None and least is not None:
        return least if _limit(least) <= _limit(most) else None
    if least is None and words:
        return words[0]
    return least if most is None else most


def _limit(d: Decides) -> float:
    assert isinstance(d.would_do, float | int)
    return float(d.would_do)


def _value(c: Cylinder, name: str, d: Decides | None) -> str:
    """Give what to type: a word or a size that would do, else a place for the reader's own.

    So is a size that nobody knows and for which nearly any value would do.
    """
    units, drawn = c.spec.units, _drawn(c, name)
    if d is None:
        return quote(OWN) if drawn is None else quote(_length(drawn, units))
    if isinstance(d.would_do, str):
        return d.would_do if d.would_do in ("true", "false") else quote(d.would_do)
    least, down = _limit(d), d.sense == "at most"
    if d.unit == "mm":
        size = drawn if drawn is not None and _met(c, d) else _round(least, STEP[units], down)
        nothing = drawn is None and (down or least < float(STEP[units]))
        return quote(OWN if nothing else _length(size, units))
    if d.unit in ("N", "MPa"):
        return quote(limit(least, d.unit, units, down).replace(",", ""))
    return f"{_round(least, Fraction(1, 100), down):g}"


def _length(mm: float, units: str) -> str:
    """Spell a length without the noise of its last digits."""
    return spell(float(f"{mm:.7g}"), "length", units) if units == "mm" else _inches(mm)


def _inches(mm: float) -> str:
    exact = nearest_fraction(mm, 64)
    if exact is not None:
        return mixed(exact)
    whole = round(2.0 * mm) / 2.0
    return f"{whole:g} mm" if abs(mm - whole) < 1e-6 else f"{mm / float(INCH):.4f}"


def _round(value: float, step: Fraction, down: bool) -> float:
    """Round to a step, to the side that holds."""
    steps = value / float(step)
    return float(step * (floor(steps + 1e-9) if down else ceil(steps - 1e-9)))

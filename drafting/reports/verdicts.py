"""Verdicts in the words of the first screen: one line for all, a row for each, worst first."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from drafting.checks.check import Check, Decides
from drafting.records import dataclass
from drafting.reports.check_names import in_a_list, on_the_body, short_name
from drafting.standards.table import table
from drafting.told.short import factor, limit, quantity, span

ORDER = ("fails", "not known", "depends", "holds")
"""Worst first."""
SHOWN = {"fails": "FAILS"}
"""A verdict that must be seen without colour too."""
COLOURS = {"fails": "31;1", "not known": "35", "depends": "33", "holds": "32"}
PEOPLE, WHO_DECIDES = "duty.lifts_people", "lifts people: a licensed engineer"
_MATERIAL = {
    "rod": "rod steel",
    "barrel": "tube steel",
    "pin": "pin steel",
    "mount": "mount steel",
    "tie_rod": "tie rod steel",
    "weld": "weld metal",
    "gland": "gland steel",
}
PARTS = {"barrel": "tube", "tie_rod": "tie rod"} | {
    k: k for k in ("rod", "pin", "mount", "weld", "gland")
}
"""Parts of the table of steels, by material field."""
_MACHINE = {"ear": "machine's ear or eye"}
"""What is not of the cylinder: round its eye an ear, in its clevis an eye."""
_ENDS = {"body_mount": "base end ", "rod_mount": "rod end ", "base_port": "base port ",
         "rod_port": "rod port "}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Line:
    """A row of the table: check, factor from-to, what is asked, verdict, what decides it."""

    check: str
    factor: str
    asked: str
    verdict: str
    decides: str


def judged(checks: Sequence[Check]) -> tuple[Check, ...]:
    """Give the checks that have a verdict, worst first; among equals the smallest ratio first."""
    asked = [k for k in checks if k.verdict is not None]
    return tuple(sorted(asked, key=lambda k: (ORDER.index(k.verdict or ""), k.ratio or 0.0)))


def line(k: Check, units: str) -> Line:
    """Give the row of a check; what has a unit is shown as a ratio, its amounts with the name."""
    name, there, asked = short_name(k), span(k.factor_from, k.factor_to), k.asked
    if k.unit and k.factor_from is not None and k.factor_to is not None and asked:
        able, wanted = (quantity(x, k.unit, units) for x in (k.factor_from, asked))
        if k.code.startswith("port-"):
            name = f"{name}: {wanted}, {able} allowed"
        else:
            name = f"{name}: {wanted} asked, {able} there"
        there, asked = span(k.factor_from / asked, k.factor_to / asked), 1.0
    return Line(
        name,
        there,
        "-" if asked is None else f"{factor(asked)}".removesuffix("0"),
        k.verdict or "",
        "" if k.verdict == "holds" else what_decides(k, units),
    )


def what_decides(k: Check, units: str) -> str:
    """Say what decides a check: the first value that would do, else what nobody typed.

    What has to be other than it is comes before what need only be measured, the cylinder's before
    the machine's. The others are counted; they are among the lines to type.
    """
    if k.factor_to == 0.0 and k.note:
        return k.note.partition(";")[0]
    first = next(iter(deciding(k)), None)
    if first and first.would_do is not None:
        others = len(k.depends_on) - 1
        return decides(first, units, on_the_body(k)) + (f"; +{others}" if others else "")
    if any(d.field == PEOPLE for d in k.depends_on):
        return WHO_DECIDES
    names = [field_words(d.field, on_the_body(k)) for d in k.depends_on]
    return f"{', '.join(names[:2])}{', ...' * (len(names) > 2)} not typed" if names else ""


def deciding(k: Check) -> tuple[Decides, ...]:
    """Give what a check depends on, what is named first in front."""
    return tuple(sorted(k.depends_on, key=_in_sight))


def _in_sight(d: Decides) -> tuple[bool, bool, bool]:
    """Give the order in which what decides is named."""
    if d.would_do is None:
        return True, False, False
    measure = as_drawn(d)
    return False, measure, not measure and d.field.rpartition(".")[2] in _MACHINE


def decides(d: Decides, units: str, body: bool = False) -> str:
    """Say what one field decides: ``pin steel: 41 ksi yield or more``.

    A size that would do as it was drawn has to be measured: ``measure base weld: 6 mm or more``.
    """
    if d.field == PEOPLE:
        return WHO_DECIDES
    if d.would_do is None:
        return f"{field_words(d.field, body)} not typed"
    measure = "measure " if d.unit == "mm" and as_drawn(d) else ""
    return f"{measure}{field_words(d.field, body)}: {does(d, units)}"


def as_drawn(d: Decides) -> bool:
    """Tell whether all that was reckoned with would do."""
    if d.taken is None or not isinstance(d.would_do, float):
        return False
    return d.taken[1] <= d.would_do if d.sense == "at most" else d.taken[0] >= d.would_do


def does(d: Decides, units: str) -> str:
    """Say the value of a field that would do."""
    if isinstance(d.would_do, str):
        return f"{d.would_do} holds"
    assert d.would_do is not None
    if not d.unit:
        return f"{d.would_do:g} or {'less' if d.sense == 'at most' else 'more'}"
    steel = d.field.endswith("_material")
    if steel and not in_reach(d):
        return "no usual one is strong enough"
    said = limit(d.would_do, d.unit, units, d.sense == "at most", steel)
    return f"{said}{' yield' * steel} or {'less' if d.sense == 'at most' else 'more'}"


def in_reach(d: Decides) -> bool:
    """Tell whether a steel that somebody sells for the part would do."""
    assert isinstance(d.would_do, float)
    return any(strength >= d.would_do for _, strength in grades(d.field))


def grades(field: str) -> list[tuple[str, float]]:
    """Give the known steels of a material field, weakest first: name and yield in MPa."""
    part = PARTS.get(field.rpartition(".")[2].removesuffix("_material"), "")
    rows = table("steels").where(part=part)
    return sorted(((r.word("name"), r.required("yield_mpa")) for r in rows), key=lambda r: r[1])


def field_words(field: str, body: bool = False) -> str:
    """Say a field as the trade does: ``rod steel``, ``base end ear``.

    ``body``: the body's mount is not at its base end.
    """
    table, _, name = field.partition(".")
    ends = _ENDS | {"body_mount": "body "} if body else _ENDS
    if name.endswith("_material"):
        return _MATERIAL.get(name.removesuffix("_material"), name.replace("_", " "))
    if name in _MACHINE:
        return f"{_MACHINE[name]}, {ends[table].strip()}"
    return ends.get(table, "") + re.sub("[._]", " ", name)


def headline(checks: Sequence[Check], errors: int = 0) -> tuple[str, str]:
    """Give the verdict on all checks: the word, and the sentence behind it.

    Nothing holds while there are ``errors``: what is judged may be another cylinder.
    """
    by = {v: [k for k in judged(checks) if k.verdict == v] for v in ORDER}
    total = sum(map(len, by.values()))
    people = any(d.field == PEOPLE for k in by["depends"] for d in k.depends_on)
    if not total:
        return "NOT JUDGED", "nothing was judged: no pressure and no force is typed"
    if len(by["holds"]) == total:
        every = "the one check holds" if total == 1 else f"all {total} checks hold"
        if errors:
            return "NOT CONFIRMED", f"{every}, but {_first(errors)}"
        return "HOLDS", f"{every}, for the loads below and no others"
    bad, unknown, depend, good = (by[v] for v in ORDER)
    parts = [_first(errors)] if errors else []
    if bad:
        named = ", ".join(in_a_list(k) for k in bad[:3]) + (", ..." if len(bad) > 3 else "")
        parts.append(f"{len(bad)} of {total} fail{'s' * (len(bad) == 1)}: {named}")
    else:
        parts.append(f"of {total} checks 0 fail")
    if unknown:
        parts.append(f"{len(unknown)} not known")
    if depend:
        parts.append(f"{len(depend)} depend{'s' * (len(depend) == 1)}{_most(depend)}")
    if good:
        parts.append(f"{len(good)} hold{'s' * (len(good) == 1)}")
    word = "DOES NOT HOLD" if bad else "NOT CALLED SAFE" if people else "NOT CONFIRMED"
    return word, "; ".join(parts)


def _first(errors: int) -> str:
    return f"{errors} error{'s' * (errors > 1)} below come{'s' * (errors == 1)} first"


def _most(checks: Sequence[Check]) -> str:
    """Say which field decides most of the checks, where it decides more than one."""
    deciding = [[d for d in k.depends_on if d.would_do is not None] or k.depends_on for k in checks]
    count = Counter(field for found in deciding for field in {d.field for d in found})
    field, n = max(count.items(), key=lambda c: (c[1], c[0]), default=("", 0))
    return f" ({field_words(field)} decides {n})" if n > 1 else ""

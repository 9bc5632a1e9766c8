"""What ``check`` says of a cylinder, as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.checks.check import Check, LoadCase
from drafting.checks.of_cylinder import Judgement
from drafting.model.cylinder import Cylinder
from drafting.reports.check_names import on_the_body
from drafting.reports.first_screen import Paint, first_screen, plainly
from drafting.reports.verdicts import decides
from drafting.reports.verdicts import judged as verdicts
from drafting.shape.mass import dry_mass
from drafting.told.facts import OPEN, Row, derived_rows, facts, part_rows
from drafting.told.length_stack import length_stack
from drafting.told.must_hold import must_hold
from drafting.told.readings import plain, reading, retold
from drafting.told.short import span
from drafting.units import format_inch, format_mm
from drafting.values import Finding

WORDS = {"error": "ERROR", "warning": "WARNING", "note": "note"}


def report(c: Cylinder, judged: Judgement, full: bool = False, paint: Paint = plainly) -> str:
    """Give the report of one cylinder: its first screen, and under it all there is if ``full``."""
    first = "\n".join(first_screen(c, judged, not full, paint)) + "\n"
    return first + whole(c, judged) if full else first


def whole(c: Cylinder, judged: Judgement) -> str:
    """Give all that there is of one cylinder, sources and cautions word for word."""
    known = [r for r in facts(c, dry_mass(c.parts)) if r[1] != OPEN]
    told = [k for k in judged.checks if k.verdict is None]
    asked = verdicts(judged.checks)
    dimensions = "in [mm]" if c.spec.units == "in" else "mm [in]"
    units = c.spec.units
    blocks = [
        _block("Must hold", _rows(must_hold(c, dimensions, 64))),
        _block("Data", _rows(known)),
        _block("Parts that come with it", _rows(part_rows(c))),
        _block("Derived, to draw with (D on the drawing)", _rows(_derived(c))),
        _block("To look at", _findings((*c.findings, *judged.findings))),
        _block("Figures", [_figure(k, units) for k in told]),
        _block("Retracted length, what tolerances add up to", _stack(c)),
        _block("Load cases", [t for case in judged.cases for t in _case(case, units)]),
        _block("Checks", [t for k in asked for t in _checked(k, units)]),
        _block("Still open, worst first", [f"{q.question} {q.why}" for q in judged.questions]),
        _block("Cautions", list(judged.cautions.texts)),
    ]
    return plain("\n".join("\n".join(b) for b in blocks if b) + "\n")


def _stack(c: Cylinder) -> list[str]:
    """Say the chain's sums, and what is not in them."""
    s, units = length_stack(c), c.spec.units
    if not s.counted:
        return []

    def band(pair: tuple[float, float]) -> str:
        down, up = (format_inch(v, 0, 4) if units == "in" else format_mm(v, 3) for v in pair)
        return f"+{up} / {down} {units}".replace("+-", "-")

    return [
        *([f"asked: {band(s.asked)}"] if s.asked else []),
        f"worst case: {band(s.worst)}",
        f"root sum square: {band(s.likely)} (likely, not sure)",
        f"counted: {', '.join(k.name for k in s.counted)}",
        f"not counted, no tolerance given: {', '.join(s.left_out)}",
    ]


def _derived(c: Cylinder) -> list[Row]:
    return [(n, retold(words, c.spec.units, stress=True)) for n, words in derived_rows(c)]


def _figure(k: Check, units: str) -> str:
    shown = reading(k.provided or 0.0, k.unit, units)
    return f"{retold(k.name, units)}: {shown}{_note(k, units, stress=k.unit != 'MPa')}"


def _case(case: LoadCase, units: str) -> list[str]:
    """Say a load case: its force and pressures, and each line that makes it up."""
    known = (
        ("along the rod", case.rod, "N"),
        ("base side", case.base, "MPa"),
        ("rod side", case.rod_side, "MPa"),
        ("against the gland", case.gland, "N"),
    )
    said = ", ".join(f"{word} {reading(x, unit, units)}" for word, x, unit in known if x)
    lines = [f"{retold(case.name, units)}: {said}" + (f"  ({case.source})" if case.source else "")]
    lines += [f"    {x.name}: {reading(x.value, x.unit, units)}" for x in case.lines]
    if case.decided_by:
        word = f'; "{case.avoided}" there takes it away' if case.avoided else ""
        lines.append(f"    not sure: {case.decided_by} is not typed{word}")
    return lines


def _checked(k: Check, units: str) -> list[str]:
    """Say a check: verdict, numbers, and under it why, for which load, by which source."""
    word = "FAILS" if k.verdict == "fails" else k.verdict
    asked = reading(k.asked or 0.0, k.unit, units)
    there = "not known"
    if not k.unit and k.factor_from is not None:
        there = span(k.factor_from, k.factor_to)
    elif k.factor_from is not None and k.factor_to is not None:
        ends = dict.fromkeys(reading(x, k.unit, units) for x in (k.factor_from, k.factor_to))
        there = " to ".join(ends)
    lines = [f"{word}: {retold(k.name, units)}: {there}, asked {asked}"]
    lines += [f"    {t}" for t in (
        f"asked by: {k.why_asked}" if k.why_asked else "",
        f"load: {k.case}" if k.case else "",
        *(f"decides: {decides(d, units, on_the_body(k))}" for d in k.depends_on),
        retold(k.note, units, stress=True),
        f"source: {k.source}" if k.source else "",
    ) if t]  # fmt: skip
    return lines


def _note(k: Check, units: str, stress: bool) -> str:
    return f"  ({retold(k.note, units, stress)})" if k.note else ""


def _block(title: str, lines: Sequence[str]) -> list[str]:
    return ["", title, *(f"  {line}" for line in lines)] if lines else []


def _rows(rows: Sequence[Row]) -> list[str]:
    wide = max((len(label) for label, _ in rows), default=0)
    return [f"{label:<{wide}}  {said}" for label, said in rows]


def _findings(findings: Iterable[Finding]) -> list[str]:
    order = list(WORDS)
    ranked = sorted(findings, key=lambda f: order.index(f.level))
    return [f"{WORDS[f.level]} {f.field} ({f.code}): {f.message}" for f in ranked]

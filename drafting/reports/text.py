"""What ``check`` says of a cylinder, as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.checks.check import Check
from drafting.checks.of_cylinder import Judgement
from drafting.model.cylinder import Cylinder
from drafting.reports.readings import plain, reading, retold
from drafting.told.facts import OPEN, Row, derived_rows, facts, part_rows
from drafting.told.length_stack import length_stack
from drafting.told.must_hold import must_hold
from drafting.units import format_inch, format_mm
from drafting.values import Finding

WORDS = {"error": "ERROR", "warning": "TO DO", "note": "note"}


def report(c: Cylinder, judged: Judgement) -> str:
    """Give the whole report of one cylinder."""
    known = [r for r in facts(c) if r[1] != OPEN]
    told = [k for k in judged.checks if k.required is None]
    asked = [k for k in judged.checks if k.required is not None]
    dimensions = "in [mm]" if c.spec.units == "in" else "mm [in]"
    people, units = judged.cautions.refusal, c.spec.units
    blocks = [
        [f"{c.name}  {c.spec.word('title') or ''}".rstrip()],
        _block("NOT CALLED SAFE", [people] if people else []),
        _block("Must hold", _rows(must_hold(c, dimensions, 64))),
        _block("Data", _rows(known)),
        _block("Parts that come with it", _rows(part_rows(c))),
        _block("Derived, to draw with (D on the drawing)", _rows(derived_rows(c))),
        _block("To look at", _findings((*c.findings, *judged.findings))),
        _block("Figures", [_figure(k, units) for k in told]),
        _block("Retracted length, what tolerances add up to", _stack(c)),
        _block("Checks (what there is, what is asked)", [_checked(k, units) for k in asked]),
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


def _figure(k: Check, units: str) -> str:
    return f"{retold(k.name, units)}: {reading(k.provided or 0.0, k.unit, units)}{_note(k, units)}"


def _checked(k: Check, units: str) -> str:
    word = "FAILS" if k.verdict == "fails" else k.verdict
    there, asked = (reading(x or 0.0, k.unit, units) for x in (k.provided, k.required))
    return f"{word}: {retold(k.name, units)}: {there}, asked {asked}{_note(k, units)}"


def _note(k: Check, units: str) -> str:
    return f"  ({retold(k.note, units, stress=True)})" if k.note else ""


def _block(title: str, lines: Sequence[str]) -> list[str]:
    return ["", title, *(f"  {line}" for line in lines)] if lines else []


def _rows(rows: Sequence[Row]) -> list[str]:
    wide = max((len(label) for label, _ in rows), default=0)
    return [f"{label:<{wide}}  {said}" for label, said in rows]


def _findings(findings: Iterable[Finding]) -> list[str]:
    order = list(WORDS)
    ranked = sorted(findings, key=lambda f: order.index(f.level))
    return [f"{WORDS[f.level]} {f.field} ({f.code}): {f.message}" for f in ranked]

"""What ``check`` says of a cylinder, as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.model.cautions import cautions
from drafting.model.cylinder import Cylinder
from drafting.model.facts import OPEN, Row, derived_rows, facts
from drafting.values import Finding

WORDS = {"error": "ERROR", "warning": "TO DO", "note": "note"}


def report(c: Cylinder) -> str:
    """Give the whole report of one cylinder."""
    known = [r for r in facts(c) if r[1] != OPEN]
    blank = [label for label, said in facts(c) if said == OPEN]
    blocks = [
        [f"{c.name}  {c.spec.word('title') or ''}".rstrip()],
        _block("Sizes", _rows(known)),
        _block("Derived, to draw with (D on the drawing)", _rows(derived_rows(c))),
        _block("To look at", _findings(c.findings)),
        _block("Not said in the spec", [", ".join(blank)] if blank else []),
        _block("Cautions", list(cautions(c))),
    ]
    return "\n".join("\n".join(b) for b in blocks if b) + "\n"


def _block(title: str, lines: Sequence[str]) -> list[str]:
    return ["", title, *(f"  {line}" for line in lines)] if lines else []


def _rows(rows: Sequence[Row]) -> list[str]:
    wide = max((len(label) for label, _ in rows), default=0)
    return [f"{label:<{wide}}  {said}" for label, said in rows]


def _findings(findings: Iterable[Finding]) -> list[str]:
    order = list(WORDS)
    ranked = sorted(findings, key=lambda f: order.index(f.level))
    return [f"{WORDS[f.level]} {f.field} ({f.code}): {f.message}" for f in ranked]

"""What carries the load and is not judged here: said, so that silence is no verdict."""

from __future__ import annotations

from drafting.checks.numbers import CylinderNumbers
from drafting.values import Finding

PISTON = "how the piston is held on the rod: its nut, thread or weld carries the whole pull"
HEADS = "head and cap of a tie-rod cylinder, and the mounts that are one piece with them"
STROKES, DAYS = "duty.strokes_per_day", 250
TIRED = (
    "how it tires: on 250 days a year that is {:,.0f} times loaded and unloaded in a year; every "
    "factor here is for a load at rest, and welds and thread roots tire first"
)
WHO = "not judged here; the builder answers for it"


def not_judged(n: CylinderNumbers) -> tuple[Finding, ...]:
    """Give a note for each part that carries the load without a check of it."""
    parts = [(f"{m.field}.mount", part) for m in n.mounts for part in m.not_judged]
    if n.piston == "sealed":
        parts.append(("cylinder.piston", PISTON))
    if n.construction == "tie rod":
        parts.append(("cylinder.construction", HEADS))
    strokes = n.sizes.get(STROKES)
    if strokes is not None:
        parts.append((STROKES, TIRED.format(DAYS * strokes.value)))
    return tuple(
        Finding("not-judged", "note", field, f"{part}: {WHO}", "common practice")
        for field, part in parts
    )

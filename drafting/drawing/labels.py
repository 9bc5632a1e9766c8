"""What is printed on a dimension: number, sign, the other unit, brackets and note."""

from __future__ import annotations

from drafting.drawing.job import Job
from drafting.drawing.letters import width
from drafting.model.frame import dot, sub
from drafting.model.wishes import Callout, Diameter, Length, Radius, Wish
from drafting.units import dual

DIAMETER, RADIUS, SQUARE = "Ø", "R", "□"
_WIDEST_NOTE = 62.0
"""Paper mm after which the line of a callout is broken."""


def measure(wish: Wish) -> float:
    """Give the size in mm that a wish shows; 0 for words."""
    match wish:
        case Length():
            return abs(dot(sub(wish.b, wish.a), wish.direction))
        case Diameter():
            return wish.diameter
        case Radius():
            return wish.radius
        case Callout():
            return 0.0


def texts(wish: Wish, job: Job, height: float) -> tuple[str, ...]:
    """Give the printed lines of a wish; the second one of a size is the other unit."""
    if isinstance(wish, Callout):
        return tuple(p for line in wish.lines for p in wrapped(line, height, _WIDEST_NOTE))
    main, other = dual(measure(wish), job.dimensions, job.fractions)
    first = sign(wish) + main
    if wish.note:
        first = f"{first} {wish.note}"
    if isinstance(wish, Length) and wish.reference:
        first = f"({first})"
    return (first,) if other is None else (first, f"[{other}]")


def sign(wish: Wish) -> str:
    """Give the sign before the number."""
    if isinstance(wish, Length):
        return {"plain": "", "round": DIAMETER, "square": SQUARE}[wish.form]
    return DIAMETER if isinstance(wish, Diameter) else RADIUS


def wrapped(text: str, height: float, room: float, bold: bool = False) -> list[str]:
    """Break a text into lines that are not wider than ``room``, between words where it can be."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if not line or width(longer, height, bold) <= room:
            line = longer
        else:
            lines.append(line)
            line = word
        while width(line, height, bold) > room and len(line) > 1:
            cut = next(
                (n for n in range(len(line) - 1, 0, -1) if width(line[:n], height, bold) <= room), 1
            )
            lines.append(line[:cut])
            line = line[cut:]
    return [*lines, line] if line else lines

"""What is printed on a dimension: number, sign, the other unit, brackets and note."""

from __future__ import annotations

from functools import lru_cache

from drafting.drawing.dimension.job import Job
from drafting.drawing.sheet.letters import width
from drafting.settle.tolerance import tolerance_of, toleranced
from drafting.settle.wishes import Callout, Diameter, Length, Radius, Wish
from drafting.shape.frame import dot, sub
from drafting.units import dual

DIAMETER, RADIUS, SQUARE = "Ø", "R", "□"
DELTA = "Δ"
"""Before the revision letter at what that revision changed, as drawing offices do."""
_WIDEST_NOTE = 78.0
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
    """Give the printed lines of a wish.

    Below a size stand the deviations of its class, the other unit, and the note.
    """
    flag = f" {DELTA}{job.meta.get('revision', '')}" if wish.name in job.changed else ""
    if isinstance(wish, Callout):
        first, *more = (p for line in wish.lines for p in _broken(line, height))
        return (first + flag, *more)
    main, other = dual(measure(wish), job.dimensions, job.fractions)
    held = tolerance_of(job.tolerances, wish.name)
    band = ""
    if held is not None and not (isinstance(wish, Length) and wish.reference):
        main, follows = toleranced(measure(wish), held, job.dimensions[:2], job.fractions)
        follows, mark, rest = follows.partition(" (")
        main, band = main + follows, mark.strip() + rest
    first = sign(wish) + main
    under = tuple(line for line in (band, f"[{other}]" if other else "") if line)
    if isinstance(wish, Length):
        first = f"({first})" if wish.reference else first
        return (first + flag, *under, *((wish.note,) if wish.note else ()))
    if wish.note:
        first = f"{first}{', ' if wish.note[0].isdigit() else ' '}{wish.note}"
    return (first + flag, *under)


def _broken(line: str, height: float) -> tuple[str, ...]:
    """Break the line of a callout where it is too wide, first between two readings."""
    if width(line, height) <= _WIDEST_NOTE:
        return (line,)
    parts = line.split(" / ")
    marked = [*(f"{p} /" for p in parts[:-1]), parts[-1]]
    return tuple(p for part in marked for p in wrapped(part, height, _WIDEST_NOTE))


def sign(wish: Wish) -> str:
    """Give the sign before the number."""
    if isinstance(wish, Length):
        return {"plain": "", "round": DIAMETER, "square": SQUARE}[wish.form]
    return DIAMETER if isinstance(wish, Diameter) else RADIUS


@lru_cache(maxsize=4096)
def wrapped(text: str, height: float, room: float, bold: bool = False) -> tuple[str, ...]:
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
    return (*lines, line) if line else tuple(lines)

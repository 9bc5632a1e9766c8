"""What is printed on a dimension: number, sign, the other unit, brackets and note."""

from __future__ import annotations

from functools import lru_cache
from itertools import islice
from math import inf

from drafting.drawing.dimension.job import Job
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.style import Style
from drafting.settle.tolerance import tolerance_of, toleranced
from drafting.settle.wishes import ADJUST, Callout, Diameter, Length, Radius, Wish
from drafting.shape.frame import dot, sub
from drafting.told.flags import change_mark
from drafting.told.printed import printed

DIAMETER, RADIUS, SQUARE = "Ø", "R", "□"
WORDS = {
    "cylinder.retracted": "RETRACTED",
    "cylinder.stroke": "STROKE",
    "cylinder.extended": "EXTENDED",
}
"""What stands before the three lengths."""

_WIDEST = 42.0
"""Paper mm after which the words of a round size stand on a line of their own."""


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


def texts(wish: Wish, job: Job, room: float = inf) -> tuple[str, ...]:
    """Give the printed lines of a wish.

    First the size with its note and, in brackets, the other unit; below it the deviations of its
    class, and a note that is too wide for one line. The three lengths say their names, and have
    ``room`` (paper mm) for one line: beside them it would make their view smaller. Last comes what
    the size was.
    """
    mark = change_mark(job.meta.get("revision", ""))
    flag = f" {mark}" if wish.name in job.changed else ""
    was = (job.was[wish.name],) if wish.name in job.was else ()
    if isinstance(wish, Callout):
        *above, last = _filled(wish, job)
        return (*above, last + flag, *was)
    follows = isinstance(wish, Length) and wish.reference
    held = None if follows else tolerance_of(job.tolerances, wish.name)
    main, other = printed(
        wish.name, measure(wish), job.dimensions, job.fractions, held is not None, follows
    )
    if wish.name in job.single:
        other = ""
    band = below = ""
    if held is not None:
        main, band = toleranced(measure(wish), held, job.dimensions[:2], job.fractions)
        more, mark, rest = band.partition(" (")
        main, band = main + more, mark.strip() + rest
    first = sign(wish) + main
    if isinstance(wish, Length):
        first = f"({first})" if wish.reference else first
        note = _adjust(job) if wish.note == ADJUST else wish.note
        first = " ".join(p for p in (WORDS.get(wish.name, ""), first) if p)
        whole = f"{first} {note}" if note else first
        if wish.name in WORDS and width(f"{whole} {other}".rstrip(), Style().text) > room:
            below = note
        else:
            first = whole
    elif wish.note == "PIN" and wish.name.endswith("_mount.pin"):
        first = f"HOLE FOR {first} PIN"
    elif wish.note:
        whole = f"{first}{', ' if wish.note[0].isdigit() else ' '}{wish.note}"
        if width(f"{whole} {other}", Style().text) > _WIDEST:
            below = wish.note
        else:
            first = whole
    lines = (band, f"[{other}]" if other else "", below)
    return (first + flag, *(line for line in lines if line), *was)


def _filled(wish: Callout, job: Job) -> list[str]:
    """Give the words of a callout with its sizes, in the sheet's unit alone."""
    if not wish.sizes:
        return list(wish.lines)
    sizes = iter([printed("", mm, job.dimensions, job.fractions)[0] for mm in wish.sizes])
    return [line.format(*islice(sizes, line.count("{}"))) for line in wish.lines]


def _adjust(job: Job) -> str:
    """Say by how much a length grows as the rod's mount is backed off, in the sheet's unit."""
    sizes = (v.value for v in job.values if v.name == "rod_mount.adjustment")
    more = max((float(s) for s in sizes if isinstance(s, int | float)), default=0.0)
    return f"(+{printed('', more, job.dimensions, job.fractions)[0]} ADJUST)"


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

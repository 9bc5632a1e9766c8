"""Rows of a data sheet as strips: what stands in each, measured from its upper left corner.

Paper millimetres, y up: everything in a strip lies at y <= 0. A strip stays whole; a section moves
whole to the next page, and only one longer than a page breaks between two strips.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import placed
from drafting.drawing.sheet.sheet import Mark, Role, Text
from drafting.drawing.sheet.strokes import Line, Point2
from drafting.records import dataclass

CAPS, HEAD = 2.5, 1.8
"""Heights of a capital: what is said, and the heads of columns."""
LEADING = 3.6
"""Base line to base line of a wrapped text."""
_OFF_RULE = 0.75
"""Free paper from a line to write on to the rule below its row: nearer, the two read as one."""
_SIZE = re.compile(r"(?<=\d) (?=\d+/\d|\[)")
"""A space within a size: before its fraction, its brackets."""
_GLUE = "·"
_FLAG = 3.0
_FLAG_GAP = 0.9


@dataclass(frozen=True, slots=True)
class Strip:
    """A row: its height, and what stands in it."""

    height: float
    marks: tuple[Mark, ...] = ()
    texts: tuple[Text, ...] = ()

    def at(self, corner: Point2) -> tuple[tuple[Mark, ...], tuple[Text, ...]]:
        """Give marks and texts with the upper left corner at a place."""
        x, y = corner
        if x == y == 0.0:
            return self.marks, self.texts
        marks = tuple(Mark(placed(m.curve, corner, 1.0), m.role, m.name) for m in self.marks)
        return marks, tuple(_moved(t, x, y) for t in self.texts)


def _moved(t: Text, x: float, y: float) -> Text:
    at = (t.at[0] + x, t.at[1] + y)
    return Text(at, t.text, t.height, t.anchor, t.turn, t.bold, t.name)


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with the head of its table, which is repeated where the table breaks, and rows.

    ``least`` rows stay together at the start.
    """

    head: Strip
    rows: tuple[Strip, ...]
    foot: Strip
    least: int = 3

    @property
    def height(self) -> float:
        """Give the height of the whole."""
        return self.head.height + sum(r.height for r in self.rows) + self.foot.height


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one column of a row: words in a room and their flag; or a line to write on."""

    x: float
    room: float
    words: str
    flag: str = ""
    line: bool = False
    height: float = CAPS
    bold: bool = False
    name: str = ""


def row(cells: Sequence[Cell], pitch: float, wide: float, under: Role | None) -> Strip:
    """Set cells side by side; ``pitch`` is the height of a row of one line, ``under`` its rule."""
    marks: list[Mark] = []
    texts: list[Text] = []
    lines = 1
    base = -(pitch + CAPS) / 2 - 0.1
    for cell in cells:
        room = cell.room - (_flag_wide(cell.flag) + _FLAG_GAP if cell.flag else 0.0)
        words = _lines(cell, room)
        lines = max(lines, len(words))
        for k, line in enumerate(words):
            at = (cell.x, base - k * LEADING)
            texts.append(Text(at, line, cell.height, bold=cell.bold, name=cell.name))
        if cell.flag and words:
            x = cell.x + width(words[-1], cell.height, cell.bold) + _FLAG_GAP
            flag_marks, flag_text = flagged(cell.flag, (x, base - (len(words) - 1) * LEADING))
            marks += flag_marks
            texts.append(flag_text)
        if cell.line:
            y = max(base - 0.7, _OFF_RULE - pitch)
            marks.append(hair((cell.x, y), (cell.x + cell.room, y), name=f"{cell.name} line"))
    high = pitch + (lines - 1) * LEADING
    if under:
        marks.append(Mark(Line((0.0, -high), (wide, -high)), under, "rule"))
    return Strip(high, tuple(marks), tuple(texts))


def _lines(cell: Cell, room: float) -> tuple[str, ...]:
    """Break words, first behind a semicolon or comma where each half has a line then.

    A size stays whole: its fraction and its brackets.
    """
    if _GLUE in cell.words:
        return wrapped(cell.words, cell.height, room, cell.bold)
    if width(one := " ".join(cell.words.split()), cell.height, cell.bold) <= room:
        return (one,) if one else ()
    held = _SIZE.sub(_GLUE, cell.words)
    if any(width(part, cell.height, cell.bold) > room for part in held.split()):
        held = cell.words
    words = wrapped(held, cell.height, room, cell.bold)
    if len(words) == 2:
        signs = [*re.finditer(", ", held), *re.finditer("; ", held)]
        for sign in reversed(signs):
            halves = (held[: sign.start() + 1], held[sign.end() :])
            if all(width(h, cell.height, cell.bold) <= room for h in halves):
                words = halves
                break
    return tuple(line.replace(_GLUE, " ") for line in words)


def flagged(flag: str, at: Point2) -> tuple[tuple[Mark, ...], Text]:
    """Draw the boxed letters of a flag on a base line."""
    x, y = at[0], at[1] - (_FLAG - CAPS) / 2
    right, top = x + _flag_wide(flag), y + _FLAG
    corners = ((x, y), (right, y), (right, top), (x, top))
    sides = tuple(
        hair(a, b, name="flag") for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
    middle = ((x + right) / 2, y + (_FLAG - HEAD) / 2)
    return sides, Text(middle, flag, HEAD, anchor="middle", name="flag")


def _flag_wide(flag: str) -> float:
    return max(_FLAG, width(flag, HEAD) + 1.4)


def hair(a: Point2, b: Point2, name: str = "") -> Mark:
    """Draw a hairline."""
    return Mark(Line(a, b), "hair", name)


def heading(
    words: str, more: str, wide: float, name: str, rule: Role | None = "rule"
) -> tuple[tuple[Mark, ...], tuple[Text, ...], float]:
    """Give a section's heading with quiet words behind it, its rule, and the height of both."""
    texts = [Text((0.0, -CAPS), words, CAPS, bold=True, name=f"{name}.heading")]
    left = width(words, CAPS, True) + 3.5
    lines = wrapped(more, CAPS, wide - left) if more else ()
    texts += [
        Text((left, -CAPS - k * LEADING), line, CAPS, name=f"{name}.about")
        for k, line in enumerate(lines)
    ]
    y = -CAPS - 2.2 - max(len(lines) - 1, 0) * LEADING
    marks = (Mark(Line((0.0, y), (wide, y)), rule, "rule"),) if rule else ()
    return marks, tuple(texts), -y


def stacked(*strips: Strip) -> Strip:
    """Give strips under each other as one."""
    marks: list[Mark] = []
    texts: list[Text] = []
    y = 0.0
    for strip in strips:
        more_marks, more_texts = strip.at((0.0, -y))
        marks += more_marks
        texts += more_texts
        y += strip.height
    return Strip(y, tuple(marks), tuple(texts))

"""Lists in columns: rows and paragraphs that flow from column to column and never overlap.

Paper millimetres. A list is cut into entries; an entry stays whole; a heading stays with its first
entry. What finds no room is given back, for the next sheet.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.sheet import Mark, Text
from drafting.drawing.sheet.strokes import Line
from drafting.records import dataclass

PAD = 1.5
_HEAD_ROOM = 0.5
"""Free paper above and below an entry."""
_BRIEF = 2
_CONTINUED = " (cont.)"
_LEAST_LINES = 6
"""A column of fewer lines tears lists apart and is left free."""
_BETWEEN = 3.0
"""Free paper between two lists in one column."""


@dataclass(frozen=True, slots=True)
class Listing:
    """A heading and its entries: (label, words) rows; an empty label makes a paragraph.

    Empty words leave a line to write on. ``name`` marks the texts. ``brief`` cuts each entry to two
    lines, with dots.
    """

    name: str
    heading: str
    rows: tuple[tuple[str, str], ...]
    label_width: float = 0.0
    brief: bool = False


@dataclass(frozen=True, slots=True)
class Column:
    """A strip of paper for lists, filled from its top."""

    x: float
    width: float
    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Set:
    """Lists set into columns; ``rest`` is what found no room, with ``(cont.)`` where it was cut."""

    marks: tuple[Mark, ...]
    texts: tuple[Text, ...]
    rest: tuple[Listing, ...]

    @property
    def left_over(self) -> int:
        """Give how many entries found no room."""
        return sum(len(entry.rows) for entry in self.rest)


@dataclass(frozen=True, slots=True)
class _Entry:
    label: tuple[str, ...]
    words: tuple[str, ...]
    height: float
    indent: float


class _Setter:
    def __init__(self, columns: Sequence[Column], height: float, pitch: float) -> None:
        self.columns = list(columns)
        self.height, self.pitch = height, pitch
        self.marks: list[Mark] = []
        self.texts: list[Text] = []
        self.k = 0
        self.y = columns[0].top if columns else 0.0

    @property
    def column(self) -> Column:
        return self.columns[self.k]

    def room(self, need: float) -> bool:
        return self.y - need >= self.column.bottom - 1e-9

    def next_column(self) -> bool:
        if self.k + 1 >= len(self.columns):
            return False
        self.k += 1
        self.y = self.column.top
        return True

    def entry(self, listing: Listing, row: tuple[str, str]) -> _Entry:
        indent = listing.label_width if row[0] else 0.0
        room = self.column.width - 2 * PAD - indent
        words = wrapped(row[1], self.height, room) if row[1] else ("",)
        if listing.brief and len(words) > _BRIEF:
            rest = " ".join(words[_BRIEF - 1 :])
            words = (*words[: _BRIEF - 1], fitted(rest, self.height, room))
        label = wrapped(row[0], self.height, listing.label_width - PAD) if row[0] else ()
        lines = max(len(words), len(label))
        return _Entry(label, words, lines * self.pitch + 2 * _HEAD_ROOM, indent)

    def rule(self) -> None:
        c = self.column
        self.marks.append(Mark(Line((c.x, self.y), (c.x + c.width, self.y)), "table"))

    def head(self, listing: Listing, again: bool) -> None:
        c = self.column
        self.rule()
        words = _again(listing.heading) if again else listing.heading
        words = fitted(words, self.height, c.width - 2 * PAD, bold=True)
        base = self.y - _HEAD_ROOM - self.height - 0.4
        self.texts.append(
            Text((c.x + PAD, base), words, self.height, bold=True, name=f"{listing.name}.heading")
        )
        self.y -= self.head_height
        self.rule()

    @property
    def head_height(self) -> float:
        return self.pitch + 2 * _HEAD_ROOM

    def put(self, listing: Listing, entry: _Entry) -> None:
        c = self.column
        base = self.y - _HEAD_ROOM - self.height - 0.2
        for i, line in enumerate(entry.label):
            place = (c.x + PAD, base - i * self.pitch)
            self.texts.append(Text(place, line, self.height, name=listing.name))
        left = c.x + PAD + entry.indent
        for i, line in enumerate(entry.words):
            if line:
                place = (left, base - i * self.pitch)
                self.texts.append(Text(place, line, self.height, name=listing.name))
            else:
                a, b = (left, base - 0.6), (c.x + c.width - PAD, base - 0.6)
                self.marks.append(Mark(Line(a, b), "table"))
        self.y -= entry.height


def flow(
    listings: Sequence[Listing], columns: Sequence[Column], height: float, pitch: float, rest: str
) -> Set:
    """Set lists into columns; the words ``rest`` stand below when something is left over."""
    usable = [c for c in columns if c.top - c.bottom > _LEAST_LINES * pitch]
    rows = [(listing, row) for listing in listings for row in listing.rows]
    setter = _Setter(usable, height, pitch)
    if not usable:
        return Set((), (), tuple(listings))
    shown: Listing | None = None
    for i, (listing, row) in enumerate(rows):
        fresh = headed = listing is not shown
        while True:
            entry = setter.entry(listing, row)
            gap = _BETWEEN if fresh and setter.y < setter.column.top else 0.0
            head = setter.head_height + gap if headed else 0.0
            if gap and rows[i + 1 : i + 2] and rows[i + 1][0] is listing:
                # No entry stands alone under its heading.
                head += setter.entry(*rows[i + 1]).height
            # The last column keeps room for the words that say where the rest is.
            spare = setter.k + 1 == len(usable) and i + 1 < len(rows)
            if setter.room(head + entry.height + (setter.head_height if spare else 0.0)):
                break
            if not setter.next_column():
                _say_rest(setter, rest)
                return Set(tuple(setter.marks), tuple(setter.texts), _rest(rows[i:], shown))
            headed = True
        if headed:
            setter.y -= gap
            setter.head(listing, again=not fresh)
        shown = listing
        setter.put(listing, entry)
    return Set(tuple(setter.marks), tuple(setter.texts), ())


def _rest(
    rows: Sequence[tuple[Listing, tuple[str, str]]], cut: Listing | None
) -> tuple[Listing, ...]:
    """Give the lists of what is left; the one that was cut says so in its heading."""
    out: dict[str, Listing] = {}
    for listing, row in rows:
        heading = listing.heading if listing is not cut else _again(listing.heading)
        before = out[listing.name].rows if listing.name in out else ()
        out[listing.name] = replace(listing, heading=heading, rows=(*before, row))
    return tuple(out.values())


def _again(heading: str) -> str:
    return f"{heading.removesuffix(_CONTINUED)}{_CONTINUED}"


def _say_rest(setter: _Setter, words: str) -> None:
    c = setter.column
    base = setter.y - _HEAD_ROOM - setter.height - 0.2
    setter.texts.append(Text((c.x + PAD, base), words, setter.height, bold=True, name="rest"))


def fitted(text: str, height: float, room: float, bold: bool = False) -> str:
    """Shorten a text with dots until it fits into ``room``."""
    if width(text, height, bold) <= room:
        return text
    while text and width(f"{text}…", height, bold) > room:
        text = text[:-1]
    return f"{text.rstrip()}…"

"""The part of the worksheet to write on: a box for each reading, dials, thread panel, cautions."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.sheet import Mark, Text
from drafting.drawing.sheet.strokes import Arc, Line
from drafting.measuring.letters import Letter, ways
from drafting.records import dataclass

SMALL, PLAIN, BIG = 1.8, 2.5, 3.5
ROW = 8.0
_BOXES = 22.0
CAUTIONS = (
    "Block the load mechanically before a pin is pulled: neither oil nor a closed valve holds it.",
    "Lock out every source, release what is stored (accumulator, spring, trapped oil): prove zero "
    "with a gauge.",
    "Drain both sides into a pan before lifting; the rod may move. Oil can be hot. Plug the ports.",
    "Never look for a leak with a hand, and never blow the piston out with air.",
    "Never loosen a gland, ring or nut with oil or air trapped behind it.",
)
FILE = (
    """title = "Lift, the old one"
units = "in"
hard_stop = "yes"
clock_seen_from = "rod"

[body_mount]
mount = {body}

[rod_mount]
mount = {rod}""",
    """[tape]
A_outer = ["28 1/2", "28 9/16"]
B_outer = ["44 1/2", "44 1/2"]

[caliper]
E = [1.749, 1.748]

[base_port]
clock = "12:00"
adapter = "out"
female = 0.69
pitch = "10 over 0.625 in"
taper = "no\"""",
    """Each letter with its readings, under
the tool that read it. A pitch by a
gauge alone: pitch = "16 tpi".
A_outer, A_inner, A_same; a bare A
means between centres, by eye.
Pins in line: turned = 0 under
[rod_mount]; crossed: turned = 90.

Then run: drafting measure FILE
or be asked: add --ask at the end""",
)
BEFORE = (
    "Off the machine, drained, ports open, to a hard stop, twice: in its machine a cylinder "
    "seldom reaches its own stops.",
    "Lengths: over the outer edges of both holes, or from edge to the same edge; a centre "
    "guessed by eye is 1/8 in (3 mm) off at best.",
    "Both ends even when they look alike, one after the other: 1 is the base, 2 the rod.",
    "Take adapters out of the ports first. Measure the machine's own ears and gaps as well.",
    "Write every reading twice, as read, without rounding.",
)


@dataclass(frozen=True, slots=True)
class Boxed:
    """Marks and texts, and the level (mm from the sheet's lower edge) where they end."""

    marks: tuple[Mark, ...]
    texts: tuple[Text, ...]
    bottom: float


def _line(x0: float, y0: float, x1: float, y1: float) -> Mark:
    return Mark(Line((x0, y0), (x1, y1)), "table")


def rectangle(box: Box) -> list[Mark]:
    """Give the four sides of a box."""
    x0, y0, x1, y1 = box
    return [_line(x0, y0, x1, y0), _line(x1, y0, x1, y1), _line(x1, y1, x0, y1),
            _line(x0, y1, x0, y0)]  # fmt: skip


def heading(text: str, x: float, top: float) -> Text:
    """Give a heading whose capitals reach ``top``."""
    return Text((x, top - PLAIN), text, PLAIN, bold=True)


def paragraphs(lines: Sequence[str], x: float, top: float, wide: float, high: float) -> Boxed:
    """Set short paragraphs, each behind a dash."""
    texts, y = [], top
    for line in lines:
        for n, part in enumerate(wrapped(line, high, wide - 3.0)):
            y -= 1.55 * high
            if n == 0:
                texts.append(Text((x, y), "-", high))
            texts.append(Text((x + 3.0, y), part, high))
    return Boxed((), tuple(texts), y)


def columns(texts: Sequence[str], x: float, top: float, wide: float) -> Boxed:
    """Set texts beside each other, line by line as they stand."""
    out, low = [], top
    for n, text in enumerate(texts):
        for k, line in enumerate(text.splitlines(), 1):
            place = (x + n * wide / len(texts), top - k * 1.6 * PLAIN)
            low = min(low, place[1])
            if line:
                out.append(Text(place, line, PLAIN))
    return Boxed((), tuple(out), low)


def blanks(x: float, top: float, wide: float, asks: Sequence[str]) -> Boxed:
    """Give words with a line to write on behind each, side by side."""
    part = wide / len(asks)
    marks, texts = [], []
    for n, ask in enumerate(asks):
        at = x + n * part
        texts.append(Text((at, top - 5.0), ask, PLAIN))
        marks.append(_line(at + width(ask, PLAIN) + 1.5, top - 5.6, at + part - 3.0, top - 5.6))
    return Boxed(tuple(marks), tuple(texts), top - 8.0)


def table_head(x: float, top: float, wide: float, units: str) -> Boxed:
    """Give the head of the table of readings."""
    unit = {"in": "inches", "mm": "millimetres", "both": "in or mm: write which"}[units]
    first = x + wide - 2 * _BOXES
    texts = (
        Text((x + 1.0, top - 4.2), "Letter", PLAIN, bold=True),
        Text((x + 16.0, top - 4.2), "What, and how", PLAIN, bold=True),
        Text((first - 1.5, top - 4.2), f"({unit})   Tool", SMALL, "end"),
        Text((first + 0.5 * _BOXES, top - 4.2), "First", PLAIN, "middle", bold=True),
        Text((first + 1.5 * _BOXES, top - 4.2), "Again", PLAIN, "middle", bold=True),
    )
    return Boxed(tuple(rectangle((x, top - 6.0, x + wide, top))), texts, top - 6.0)


def table_row(letter: Letter, x: float, top: float, wide: float) -> Boxed:
    """Give one row: letter, what it is, a tip in one line, the tool, two boxes."""
    first = x + wide - 2 * _BOXES
    bottom = top - ROW
    marks = [
        *rectangle((x, bottom, x + wide, top)),
        _line(x + 14.0, bottom, x + 14.0, top),
        _line(first, bottom, first, top),
        _line(first + _BOXES, bottom, first + _BOXES, top),
    ]
    boxes = 13.0 * len(ways(letter)) if len(ways(letter)) > 1 and letter.kind == "length" else 0.0
    room = first - x - 16.0 - boxes - 14.0
    what = letter.what[0].upper() + letter.what[1:]
    if not letter.needed:
        what += " (if you can)"
    texts = [
        Text((x + 1.5, bottom + 2.4), letter.letter, BIG, bold=True),
        Text((x + 15.5, top - 1.0 - PLAIN), _short(what, PLAIN, room), PLAIN),
        Text((first - 1.5, top - 1.0 - PLAIN), letter.tool, SMALL, "end"),
    ]
    if letter.tip:
        tip = _short(letter.tip, SMALL, first - x - 17.0)
        texts.append(Text((x + 15.5, bottom + 1.3), tip, SMALL))
    if letter.kind == "length" and len(ways(letter)) > 1:
        words = tuple(w or "centres" for w in ways(letter))
        for n, word in enumerate(words, 4 - len(words)):
            at = first - 62.0 + n * 13.0
            marks += rectangle((at, top - 3.2, at + 1.8, top - 1.4))
            texts.append(Text((at + 2.6, top - 3.1), word, SMALL))
    return Boxed(tuple(marks), tuple(texts), bottom)


def dial(x: float, y: float, radius: float, title: str) -> Boxed:
    """Give a clock to tick, as seen from the rod end, with a box for where it is seen from."""
    marks = [Mark(Arc((x, y), radius, 0.0, 2 * pi), "table")]
    texts = []
    for hour in range(1, 13):
        a = pi / 2 - hour * pi / 6
        marks.append(
            _line(
                x + 0.88 * radius * cos(a),
                y + 0.88 * radius * sin(a),
                x + radius * cos(a),
                y + radius * sin(a),
            )
        )
        far = radius + 2.6
        texts.append(
            Text((x + far * cos(a), y + far * sin(a) - SMALL / 2), str(hour), SMALL, "middle")
        )
    texts.append(Text((x, y + radius + 6.0), title, PLAIN, "middle", bold=True))
    return Boxed(tuple(marks), tuple(texts), y - radius - 5.0)


def thread_panel(x: float, top: float, wide: float, title: str, asks: Sequence[str]) -> Boxed:
    """Give a box for a thread: one line to write on for each question."""
    marks: list[Mark] = []
    texts = [heading(title, x + 1.5, top - 1.5)]
    y = top - 6.0
    for ask in asks:
        y -= 6.2
        texts.append(Text((x + 1.5, y), ask, SMALL))
        start = x + 3.0 + width(ask, SMALL)
        marks.append(_line(start, y - 0.6, x + wide - 1.5, y - 0.6))
    bottom = y - 2.5
    marks += rectangle((x, bottom, x + wide, top))
    return Boxed(tuple(marks), tuple(texts), bottom)


def _short(text: str, high: float, room: float) -> str:
    while width(text, high) > room and " " in text:
        text = text.rpartition(" ")[0].rstrip(",;:.") + "…"
    return text

"""The title block: fields of ISO 7200 in four rows, empty ones with a line to write on.

Mandatory fields of ISO 7200:2004 (W1): legal owner, number, date of issue, sheet, title, approval,
creator, document type. At most 180 wide (memory). Scale, units and projection stand beside them.
"""

from __future__ import annotations

from typing import Literal

from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.lists.papers import projection_symbol, rectangle
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import Box, clip
from drafting.drawing.sheet.sheet import Mark, Text
from drafting.drawing.sheet.strokes import Line, Poly
from drafting.drawing.sheet.style import Style
from drafting.records import dataclass

WIDTH, A3_WIDTH, HEIGHT = 160.0, 180.0, 35.0
DOCUMENT_TYPE = "Outline drawing"
STATEMENT = "OUTLINE FOR QUOTATION"
RETURN = "Not a manufacturing drawing. Builder returns own drawing for approval before cutting."
_STATEMENT, _TITLE, _PEOPLE, _FOOT, _REVISION = 6.0, 11.5, 9.0, 8.5, 6.0
_PAD = 1.2
_BASE, _HEADING_BASE = 1.5, 2.3
"""Base line of a field over the rule below; of large letters, whose g and p reach farther down."""
_LOW_BASE, _CLOSE = 1.0, 1.25
"""Base line of the last of two lines in a low row, whose name they would touch, and their pitch."""
_WRITE = "write"
_LOGO = 26.0
_HEADING, _SMALLEST, _LEAST = 5.0, 2.5, 1.8
"""Letters of a title, of a long one, and of longer ones and other long fields in lines."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One field: its name in small letters, what stands there, and its share of the row."""

    name: str
    label: str
    text: str
    share: float
    height: float = 2.5
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Block:
    """Marks and texts, and the box that they fill."""

    marks: tuple[Mark, ...]
    texts: tuple[Text, ...]
    box: Box


def title_block(
    corner: tuple[float, float],
    wide: float,
    fields: dict[str, str],
    projection: Literal["third", "first"],
    style: Style,
    logo: tuple[str, str] | None = None,
) -> Block:
    """Build the block upwards from its lower right corner.

    ``fields``: company, customer, title, number, revision, revision_note, date, drawn_by, scale,
    units, size, sheet, general_tolerance. A general tolerance has a place only where one was given,
    so have a ``logo`` (viewBox, path data) and a revision row.
    """
    right, bottom = corner
    left = right - wide
    marks: list[Mark] = []
    texts: list[Text] = []
    y = bottom
    for high, cells in _rows(fields, wide, style, logo):
        x = left
        k = wide / sum(c.share for c in cells)
        for cell in cells:
            end = x + cell.share * k
            more_marks, more_texts = _cell(cell, (x, y, end, y + high), style)
            marks += more_marks
            texts += more_texts
            if cell.name == "projection":
                marks += projection_symbol((end - 9.0, y + _FOOT / 2), projection, 5.0)
            if cell.name == "logo" and logo:
                marks += logo_marks(*logo, (x + 0.8, y + 0.8, end - 0.8, y + high - 0.8))
            if x > left:
                marks.append(Mark(Line((x, y), (x, y + high)), "table"))
            x = end
        y += high
        marks.append(Mark(Line((left, y), (right, y)), "table"))
    texts += _statement((left, y), wide, style, fields.get("statement", ""))
    y += _STATEMENT
    if fields.get("revision_note"):
        marks.append(Mark(Line((left, y), (right, y)), "table"))
        more_marks, more_texts = _revision((left, y), wide, fields, style)
        marks += more_marks
        texts += more_texts
        y += _REVISION
    box = (left, bottom, right, y)
    return Block((*marks, *rectangle(box, "frame")), tuple(texts), box)


def _rows(
    fields: dict[str, str], wide: float, style: Style, logo: tuple[str, str] | None
) -> tuple[tuple[float, tuple[Cell, ...]], ...]:
    def say(name: str) -> str:
        return fields.get(name, "")

    general = say("general_tolerance")
    kind = say("document_type") or DOCUMENT_TYPE
    number = max(48.0, min(80.0, width(say("number"), style.heading, True) + 2 * _PAD + 1.0))
    return (
        (
            _FOOT,
            (
                Cell("type", "DOCUMENT TYPE", kind, 30.0 if general else 38.0),
                Cell("units", "DIMENSIONS IN", say("units"), 26.0 if general else 36.0),
                *([Cell("general_tolerance", "TOLERANCE", general, 28.0)] if general else []),
                Cell("scale", "SCALE", say("scale"), 18.0, style.text),
                Cell("projection", "PROJECTION", "", 36.0),
                Cell("size", "SIZE", say("size"), 11.0, style.text),
                Cell("sheet", "SHEET", say("sheet") or "1 / 1", 20.0, style.text),
            ),
        ),
        (
            _PEOPLE,
            (
                *([Cell("logo", "", "", _LOGO)] if logo else []),
                Cell("company", "LEGAL OWNER", say("company"), 42.0),
                Cell("customer", "CUSTOMER", say("customer"), 38.0),
                Cell("drawn_by", "CREATED BY", say("drawn_by"), 29.0),
                Cell("approved", "APPROVED BY", "", 30.0),
                Cell("date", "DATE OF ISSUE", say("date"), 23.0),
            ),
        ),
        (
            _TITLE,
            (
                Cell("title", "TITLE", say("title"), wide - number - 13.0, style.heading, True),
                Cell("number", "DRAWING NUMBER", say("number"), number, style.heading, True),
                Cell("revision", "REV", say("revision"), 13.0, style.heading, True),
            ),
        ),
    )


def _statement(
    corner: tuple[float, float], wide: float, style: Style, other: str = ""
) -> list[Text]:
    """Write what the sheet is for, in one line; ``other`` is what it says in place of the usual."""
    x, y = corner[0] + 2.0, corner[1] + (_STATEMENT - style.small_text) / 2
    if other:
        return [Text((x, y), other, style.small_text, bold=True, name="statement")]
    second = x + width(STATEMENT, style.small_text, True) + 2.5
    room = corner[0] + wide - 1.0 - second
    words = RETURN if width(RETURN, style.small_text) <= room else RETURN.partition(". ")[2]
    return [
        Text((x, y), STATEMENT, style.small_text, bold=True, name="statement"),
        Text((second, y), words, style.small_text, name="statement"),
    ]


def logo_marks(viewbox: str, path: str, box: Box) -> tuple[Mark, ...]:
    """Draw a logo's lines as large as they fit into a box, in its middle.

    What lies outside the viewBox is cut off, as SVG does.
    """
    from drafting.spec.svg_path import read_path, read_viewbox

    x, y, wide, high = read_viewbox(viewbox)
    x0, y0, x1, y1 = box
    k = min((x1 - x0) / wide, (y1 - y0) / high)
    left, top = (x0 + x1 - k * wide) / 2, (y0 + y1 + k * high) / 2
    window = (left, top - k * high, left + k * wide, top)
    placed = (
        Poly(tuple((left + k * (p[0] - x), top - k * (p[1] - y)) for p in line))
        for line in read_path(path)
    )
    return tuple(Mark(piece, "table", "logo") for line in placed for piece in clip(line, window))


def _cell(cell: Cell, box: Box, style: Style) -> tuple[list[Mark], list[Text]]:
    x0, y0, x1, y1 = box
    small = style.field_name
    texts = [Text((x0 + _PAD, y1 - small - 0.9), cell.label, small)] if cell.label else []
    if cell.text:
        texts += _said(cell, (x0 + _PAD, y0), x1 - x0 - 2 * _PAD, y1 - y0 <= _PEOPLE)
        return [], texts
    if cell.name in ("projection", "logo"):
        return [], texts
    return [Mark(Line((x0 + _PAD, y0 + 1.4), (x1 - _PAD, y0 + 1.4)), "table", _WRITE)], texts


def _said(cell: Cell, at: tuple[float, float], room: float, low: bool) -> list[Text]:
    """Write a field over a rule, in smaller letters where it is long, in two lines where very long.

    A title has room for three, a ``low`` row for two of the smallest letters. All of a row that
    take one line stand on one base line.
    """
    x, y = at
    base = _HEADING_BASE if cell.height >= _HEADING else _BASE
    for high in (h for h in (_HEADING, 3.5, 2.5) if h <= cell.height):
        if width(cell.text, high, cell.bold) <= room:
            return [Text((x, y + base), cell.text, high, bold=cell.bold, name=cell.name)]
    high, most = (_LEAST, 2) if low else (_LEAST, 3)
    if not low and len(wrapped(cell.text, _SMALLEST, room, cell.bold)) <= 2:
        high = _SMALLEST
    lines = _at_most(most, cell.text, high, room, cell.bold)
    base, pitch = _BASE, 1.4 if len(lines) < 3 else 1.3
    if low and len(lines) > 1:
        base, pitch = _LOW_BASE, _CLOSE
    return [
        Text(
            (x, y + base + (len(lines) - 1 - k) * pitch * high),
            line,
            high,
            bold=cell.bold,
            name=cell.name,
        )
        for k, line in enumerate(lines)
    ]


def _at_most(
    most: int, words: str, high: float, room: float, bold: bool = False
) -> tuple[str, ...]:
    """Break words into a few lines; where some are cut off dots say so."""
    lines = wrapped(words, high, room, bold)
    if len(lines) <= most:
        return lines
    last = lines[most - 1]
    while last and width(f"{last.rstrip()}...", high, bold) > room:
        last = last[:-1]
    return (*lines[: most - 1], f"{last.rstrip()}...")


def _revision(
    corner: tuple[float, float], wide: float, fields: dict[str, str], style: Style
) -> tuple[list[Mark], list[Text]]:
    """Write the revision that the sheet shows: letter, what changed, when, who."""
    columns = (
        ("REV", 14.0, "revision"),
        ("DESCRIPTION", wide - 67.0, "revision_note"),
        ("DATE", 29.0, "date"),
        ("BY", 24.0, "drawn_by"),
    )
    x, y = corner
    marks: list[Mark] = []
    texts: list[Text] = []
    base = y + (_REVISION - style.small_text) / 2
    for label, share, field in columns:
        texts.append(Text((x + _PAD, base), label, style.field_name))
        start = x + _PAD + width(label, style.field_name) + 1.2
        words, room = fields.get(field, ""), x + share - start - 0.6
        fits = width(words, style.small_text) <= room
        lines = (words,) * bool(words) if fits else _at_most(2, words, _LEAST, room)
        for k, line in enumerate(lines):
            at = (start, base + (1.2 - 2.4 * k if len(lines) > 1 else 0.0))
            high = style.small_text if fits else _LEAST
            texts.append(Text(at, line, high, name=f"revisions.{field}"))
        if x > corner[0]:
            marks.append(Mark(Line((x, y), (x, y + _REVISION)), "table"))
        x += share
    return marks, texts

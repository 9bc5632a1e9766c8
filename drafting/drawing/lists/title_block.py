"""The title block with its revision rows: fields of ISO 7200, empty ones with a line to write on.

Mandatory fields of ISO 7200:2004 (W1): legal owner, number, date of issue, sheet, title, approval,
creator, document type. At most 180 wide (memory). Scale, units and projection stand beside them.
"""

from __future__ import annotations

from typing import Literal

from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.lists.columns import fitted
from drafting.drawing.lists.papers import projection_symbol, rectangle
from drafting.drawing.sheet.on_paper import Box, clip
from drafting.drawing.sheet.sheet import Mark, Text
from drafting.drawing.sheet.strokes import Line, Poly
from drafting.drawing.sheet.style import Style
from drafting.records import dataclass

WIDTH = 180.0
DOCUMENT_TYPE = "Outline drawing"
STATEMENT = (
    "OUTLINE DRAWING FOR QUOTATION - not a manufacturing drawing. "
    "Builder to return own drawing for approval before cutting."
)
_PAD = 1.5
_WRITE = "write"
_LOGO = 40.0


@dataclass(frozen=True, slots=True)
class Cell:
    """One field: its name in small letters, what stands there, and its share of the row."""

    name: str
    label: str
    text: str
    share: float
    height: float = 3.5
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Block:
    """Marks and texts, and the box that they fill."""

    marks: tuple[Mark, ...]
    texts: tuple[Text, ...]
    box: Box


def title_block(
    corner: tuple[float, float],
    fields: dict[str, str],
    projection: Literal["third", "first"],
    style: Style,
    logo: tuple[str, str] | None = None,
    short: bool = False,
) -> Block:
    """Build the block upwards from its lower right corner.

    ``fields``: company, customer, title, number, revision, revision_note, date, drawn_by, scale,
    units, size, sheet, general_tolerance. A general tolerance has a place only where one was given,
    so has a ``logo`` (viewBox, path data). ``short`` is the block of the sheets after the first:
    what tells one from another.
    """
    right, bottom = corner
    left = right - WIDTH
    say = fields.get
    rows: tuple[tuple[float, tuple[Cell, ...]], ...] = (
        (
            13.0,
            (
                Cell("scale", "SCALE", say("scale", ""), 24.0),
                Cell("units", "DIMENSIONS IN", say("units", ""), 42.0),
                Cell("projection", "PROJECTION", "", 46.0),
                Cell("size", "SIZE", say("size", ""), 16.0),
                Cell("sheet", "SHEET", say("sheet", "1 / 1"), 20.0),
                Cell("date", "DATE OF ISSUE", say("date", ""), 32.0),
            ),
        ),
        (
            12.0,
            _number_cells(fields, style),
        ),
        (12.0, (Cell("title", "TITLE", say("title", ""), 180.0, style.heading, True),)),
        (
            10.0,
            (
                Cell("drawn_by", "CREATED BY", say("drawn_by", ""), 60.0),
                Cell("approved", "APPROVED BY", "", 60.0),
                Cell("customer", "CUSTOMER", say("customer", ""), 60.0),
            ),
        ),
        (
            10.0,
            (
                Cell("company", "LEGAL OWNER", say("company", ""), WIDTH - _LOGO * bool(logo)),
                *([Cell("logo", "", "", _LOGO)] if logo else []),
            ),
        ),
        (
            9.0,
            (
                Cell("cut_name", "BUILDER'S DRAWING APPROVED FOR CUTTING: NAME", "", 80.0),
                Cell("cut_sign", "SIGNATURE", "", 60.0),
                Cell("cut_date", "DATE", "", 40.0),
            ),
        ),
    )
    marks: list[Mark] = []
    texts: list[Text] = []
    y = bottom
    for high, cells in rows[:3] if short else rows:
        x = left
        for cell in cells:
            more_marks, more_texts = _cell(cell, (x, y, x + cell.share, y + high), style)
            marks += more_marks
            texts += more_texts
            if cell.name == "projection":
                marks += projection_symbol((x + cell.share - 13.0, y + 5.5), projection)
            if cell.name == "logo" and logo:
                marks += logo_marks(*logo, (x + 1.0, y + 1.0, x + cell.share - 1.0, y + high - 1.0))
            if x > left:
                marks.append(Mark(Line((x, y), (x, y + high)), "table"))
            x += cell.share
        y += high
        marks.append(Mark(Line((left, y), (right, y)), "table"))
    if short:
        box = (left, bottom, right, y)
        return Block((*marks, *rectangle(box)), tuple(texts), box)
    lines = wrapped(STATEMENT, style.small_text, WIDTH - 2 * _PAD, bold=True)
    pitch = style.small_text * style.line_pitch
    for i, line in enumerate(lines):
        place = (left + _PAD, y + 1.6 + (len(lines) - 1 - i) * pitch)
        texts.append(Text(place, line, style.small_text, bold=True, name="statement"))
    y += len(lines) * pitch + 1.6
    marks.append(Mark(Line((left, y), (right, y)), "table"))
    y = _revisions(left, y, fields, style, marks, texts)
    box = (left, bottom, right, y)
    return Block((*marks, *rectangle(box)), tuple(texts), box)


def _number_cells(fields: dict[str, str], style: Style) -> tuple[Cell, ...]:
    general = fields.get("general_tolerance", "")
    wide = (72.0, 16.0, 42.0, 50.0) if general else (100.0, 20.0, 60.0, 0.0)
    cells = (
        Cell("number", "DRAWING NUMBER", fields.get("number", ""), wide[0], style.heading, True),
        Cell("revision", "REV", fields.get("revision", ""), wide[1], style.heading, True),
        Cell("type", "DOCUMENT TYPE", DOCUMENT_TYPE, wide[2]),
        Cell("general_tolerance", "GENERAL TOLERANCE", general, wide[3]),
    )
    return cells if general else cells[:-1]


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
    texts = [Text((x0 + _PAD, y1 - small - 1.0), cell.label, small)]
    if cell.text:
        words = fitted(cell.text, cell.height, x1 - x0 - 2 * _PAD, cell.bold)
        texts.append(
            Text((x0 + _PAD, y0 + 2.0), words, cell.height, bold=cell.bold, name=cell.name)
        )
        return [], texts
    if cell.name in ("projection", "logo"):
        return [], texts if cell.label else []
    return [Mark(Line((x0 + _PAD, y0 + 1.8), (x1 - _PAD, y0 + 1.8)), "table", _WRITE)], texts


def _revisions(
    left: float,
    y: float,
    fields: dict[str, str],
    style: Style,
    marks: list[Mark],
    texts: list[Text],
) -> float:
    """Add the revision row above its headings; without a revision it is empty, to be written in."""
    columns = (
        ("REV", 14.0, "revision"),
        ("DESCRIPTION", 106.0, "revision_note"),
        ("DATE", 30.0, "date"),
        ("BY", 30.0, "drawn_by"),
    )
    high = 5.5
    small = style.field_name
    x = left
    for label, wide, field in columns:
        words = fields.get(field, "") if fields.get("revision") else ""
        if words:
            words = fitted(words, style.small_text, wide - 2 * _PAD)
            place = (x + _PAD, y + 4.0 + (high - style.small_text) / 2)
            texts.append(Text(place, words, style.small_text, name=f"revisions.{field}"))
        texts.append(Text((x + _PAD, y + (4.0 - small) / 2), label, small))
        if x > left:
            marks.append(Mark(Line((x, y), (x, y + 4.0 + high)), "table"))
        x += wide
    y += 4.0
    marks.append(Mark(Line((left, y), (left + WIDTH, y)), "table"))
    return y + high

"""The PORTS table: what a shop orders fittings by; where the ports lie is dimensioned, not listed.

At most six rows; further ports stand on the views and on the data sheet.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.drawing.lists.title_block import Block
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.sheet import Mark, Text
from drafting.drawing.sheet.strokes import Line
from drafting.drawing.sheet.style import Style
from drafting.told.flags import Flag
from drafting.told.ports_said import PortRow, Sized

MOST = 6
_APART, _LEAST_APART = 14.0, 3.0
"""Free paper between two columns, at the most, and at the least while words can be left out."""
_ROW, _HEAD, _TITLE = 4.6, 4.6, 5.6
_INSIDE = 2.0
"""Free paper between the last column and the frame, in which the table ends."""
_CLOCK, _THREAD = "CLOCK", "THREAD"
_FLAG_GAP, _FLAG_ROOM = 1.0, 0.6
"""Free paper before a flag's frame, and within it at either side."""
Cell = tuple[Sized, ...]
"""Words in a row, each with its flag."""


def ports_table(
    at: tuple[float, float], wide: float, ports: Sequence[PortRow], style: Style
) -> Block:
    """Build the table upwards from its lower left corner."""
    x0, y0 = at
    ports = ports[:MOST]
    heads, rows = next(
        (found for k in range(3) if _fits(found := _said(ports, k), wide - _INSIDE, style)),
        _said(ports, 3),
    )
    lefts = _lefts(x0, wide - _INSIDE, _needs(heads, rows, style))
    small, head = style.small_text, style.field_name
    marks, texts = [], []
    top = y0 + len(rows) * _ROW
    for k, cells in enumerate(rows):
        y = top - (k + 1) * _ROW
        marks.append(Mark(Line((x0, y), (x0 + wide, y)), "table"))
        for left, cell in zip(lefts, cells, strict=True):
            x = left
            for words, flag in cell:
                texts.append(Text((x, y + 1.2), words, small, name="ports"))
                x += width(words, small)
                if flag:
                    frame, text = _framed(flag, (x, y + 1.2), style)
                    marks += frame
                    texts.append(text)
                    x += _flag_wide(flag, style)
                x += width(" ", small)
    for x, title in zip(lefts, heads, strict=True):
        if title:
            texts.append(Text((x, top + 1.4), title, head, name="ports.heading"))
    marks += [Mark(Line((x0, y), (x0 + wide, y)), "table") for y in (top, top + _HEAD)]
    high = top + _HEAD
    texts.append(Text((x0, high + 1.6), "PORTS", small, bold=True, name="ports.heading"))
    return Block(tuple(marks), tuple(texts), (x0, y0, x0 + wide, high + _TITLE))


def table_high(count: int) -> float:
    """Give the height of a table of so many ports."""
    return min(count, MOST) * _ROW + _HEAD + _TITLE


Words = tuple[tuple[str, ...], list[tuple[Cell, ...]]]
"""The headings and the rows."""


def _said(ports: Sequence[PortRow], short: int) -> Words:
    """Give the words of the table; ``short`` leaves out what is told elsewhere too.

    First the standards (they stand on the data sheet), then "from" in the heading, then the words
    of the family behind the thread itself.
    """
    other = next((p.other_end for p in ports if p.other_end), "")
    side = "BASE" if other == "rod" else "ROD"
    end = f"{'' if short > 1 else ' FROM'} {side} ({other.upper()})" if other else ""
    seats = list(dict.fromkeys(p.seat for p in ports if p.seat))
    rows: list[tuple[Cell, ...]] = []
    for p in ports:
        first, *more = p.thread.split(", ")
        kept = more if not short else [m for m in more if m == "plugged"]
        if short > 2:
            first = first.replace(" O-RING BOSS", " ORB").replace("FOUR-BOLT FLANGE ", "")
        by = "" if p.seat == "tube" else "x "
        seat = [(f"{by}{words}" if k else words, flag) for k, (words, flag) in enumerate(p.sizes)]
        if len(seats) > 1 and p.seat in ("spotface", "tube", "long pitch"):
            seat.insert(0, (p.seat, ""))
        thread = (", ".join((first, *kept)), p.flag)
        rows.append((((p.end, ""),), (thread,), ((p.clock, ""),), tuple(seat)))
    seat_head = seats[0].upper() if len(seats) == 1 else "BOSS" if seats else ""
    return ("", _THREAD, f"{_CLOCK}{end}", seat_head), rows


def _fits(words: Words, wide: float, style: Style) -> bool:
    return sum(_needs(*words, style)) + _LEAST_APART * (len(words[0]) - 1) <= wide


def _needs(heads: Sequence[str], rows: Sequence[tuple[Cell, ...]], style: Style) -> list[float]:
    return [
        max(width(head, style.field_name), *(_wide(cells[k], style) for cells in rows))
        for k, head in enumerate(heads)
    ]


def _wide(cell: Cell, style: Style) -> float:
    words = width(" ".join(words for words, _ in cell), style.small_text)
    return words + sum(_flag_wide(flag, style) for _, flag in cell if flag)


def _lefts(x0: float, wide: float, needs: Sequence[float]) -> tuple[float, ...]:
    """Share the width out: each column as wide as it needs, what is left over between them."""
    spare = (wide - sum(needs)) / (len(needs) - 1)
    out, x = [], x0
    for need in needs:
        out.append(x)
        x += need + min(spare, _APART)
    return tuple(out)


def _flag_wide(flag: Flag, style: Style) -> float:
    """Measure a flag's frame with the gap before it."""
    return _FLAG_GAP + width(flag, style.field_name) + 2 * _FLAG_ROOM


def _framed(flag: Flag, at: tuple[float, float], style: Style) -> tuple[list[Mark], Text]:
    """Draw the framed letters of a flag, as high as small letters."""
    x0, y0 = at[0] + _FLAG_GAP, at[1] - 0.4
    x1, y1 = at[0] + _flag_wide(flag, style), y0 + style.small_text + 0.6
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    marks = [
        Mark(Line(a, b), "table", "flag")
        for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    ]
    return marks, Text(((x0 + x1) / 2, y0 + 0.65), flag, style.field_name, "middle", name="flag")

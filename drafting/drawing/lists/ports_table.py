"""The PORTS table: what a shop orders fittings by; where the ports lie is dimensioned, not listed.

At most six rows; further ports stand on the views and on the data sheet.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.drawing.lists.title_block import Block
from drafting.drawing.sheet.explode import flag_width
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.sheet import Mark, Text
from drafting.drawing.sheet.strokes import Line
from drafting.drawing.sheet.style import Style
from drafting.told.ports_said import PortRow

MOST = 6
_APART = 14.0
"""Free paper between two columns, at the most."""
_ROW, _HEAD, _TITLE = 4.6, 4.6, 5.6
_INSIDE = 2.0
"""Free paper between the last column and the frame, in which the table ends."""
_CLOCK, _THREAD, _BOSS = "CLOCK", "THREAD", "BOSS"


def ports_table(
    at: tuple[float, float], wide: float, ports: Sequence[PortRow], style: Style
) -> Block:
    """Build the table upwards from its lower left corner."""
    x0, y0 = at
    ports = ports[:MOST]
    flags = _flag_rooms(ports, style)
    heads, rows = next(
        (found for k in range(3) if _fits(found := _said(ports, k), wide - _INSIDE, flags, style)),
        _said(ports, 3),
    )
    lefts = _lefts(x0, wide - _INSIDE, _needs(heads, rows, flags, style))
    small, head = style.small_text, style.field_name
    marks, texts = [], []
    top = y0 + len(rows) * _ROW
    for k, (cells, port) in enumerate(zip(rows, ports, strict=False)):
        y = top - (k + 1) * _ROW
        marks.append(Mark(Line((x0, y), (x0 + wide, y)), "table"))
        for x, cell in zip(lefts, cells, strict=True):
            texts.append(Text((x, y + 1.2), cell, small, name="ports"))
        for column, flag in ((1, port.flag), (-1, port.boss_flag)):
            if flag:
                at = (lefts[column] + width(cells[column], small), y + 1.2)
                frame, text = _framed(flag, at, style)
                marks += frame
                texts.append(text)
    for x, words in zip(lefts, heads, strict=True):
        if words:
            texts.append(Text((x, top + 1.4), words, head, name="ports.heading"))
    marks += [Mark(Line((x0, y), (x0 + wide, y)), "table") for y in (top, top + _HEAD)]
    title = top + _HEAD
    texts.append(Text((x0, title + 1.6), "PORTS", small, bold=True, name="ports.heading"))
    return Block(tuple(marks), tuple(texts), (x0, y0, x0 + wide, title + _TITLE))


def table_high(count: int) -> float:
    """Give the height of a table of so many ports."""
    return min(count, MOST) * _ROW + _HEAD + _TITLE


Words = tuple[tuple[str, ...], list[tuple[str, ...]]]
"""The headings and the rows."""


def _said(ports: Sequence[PortRow], short: int) -> Words:
    """Give the words of the table; ``short`` leaves out what is told elsewhere too.

    First the standards (they stand on the data sheet), then "from" in the heading, then the words
    of the family behind the thread itself.
    """
    other = next((p.other_end for p in ports if p.other_end), "")
    side = "BASE" if other == "rod" else "ROD"
    end = f"{'' if short > 1 else ' FROM'} {side} ({other.upper()})" if other else ""
    rows: list[tuple[str, ...]] = []
    for p in ports:
        first, *more = p.thread.split(", ")
        kept = more if not short else [m for m in more if m == "plugged"]
        if short > 2:
            first = first.replace(" O-RING BOSS", " ORB").replace("FOUR-BOLT FLANGE ", "")
        rows.append((p.end, ", ".join((first, *kept)), p.clock, p.boss))
    return ("", _THREAD, f"{_CLOCK}{end}", _BOSS), rows


def _flag_rooms(ports: Sequence[PortRow], style: Style) -> tuple[float, ...]:
    """Give how much wider the flags make each column."""

    def widest(flags: Iterable[str]) -> float:
        return max((flag_width(f, style) for f in flags if f), default=0.0)

    return 0.0, widest(p.flag for p in ports), 0.0, widest(p.boss_flag for p in ports)


def _fits(words: Words, wide: float, flags: Sequence[float], style: Style) -> bool:
    heads, rows = words
    return sum(_needs(heads, rows, flags, style)) + 2.0 * (len(heads) - 1) <= wide


def _needs(
    heads: Sequence[str], rows: Sequence[tuple[str, ...]], flags: Sequence[float], style: Style
) -> list[float]:
    return [
        max(width(h, style.field_name), *(width(r[k], style.small_text) for r in rows)) + flag
        for k, (h, flag) in enumerate(zip(heads, flags, strict=True))
    ]


def _lefts(x0: float, wide: float, needs: Sequence[float]) -> tuple[float, ...]:
    """Share the width out: each column as wide as it needs, what is left over between them."""
    spare = (wide - sum(needs)) / (len(needs) - 1)
    out, x = [], x0
    for need in needs:
        out.append(x)
        x += need + min(spare, _APART)
    return tuple(out)


def _framed(flag: str, at: tuple[float, float], style: Style) -> tuple[list[Mark], Text]:
    """Draw the framed letters of a flag, as high as small letters."""
    wide = width(flag, style.field_name) + 1.2
    x0, y0 = at[0] + 1.0, at[1] - 0.4
    x1, y1 = x0 + wide, y0 + style.small_text + 0.6
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    marks = [
        Mark(Line(a, b), "table", "flag")
        for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    ]
    return marks, Text(((x0 + x1) / 2, y0 + 0.65), flag, style.field_name, "middle", name="flag")

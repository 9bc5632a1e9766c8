"""The sections of the data sheet, each as a heading and rows."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.lists.strips import CAPS, HEAD, LEADING, Cell, Section, Strip, heading, row
from drafting.drawing.lists.strips import stacked as stack
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.sheet import Mark, Role, Text
from drafting.drawing.sheet.strokes import Line
from drafting.told.data_sheet import DataSheet, Held, Row, Said

_STOPS = (0.0, 0.235, 0.444, 0.6175, 0.8265)
"""Where the columns of the sizes to hold begin, in parts of the width."""
_LENGTH_STOPS = (0.0, 0.11, 0.3325, 0.555, 0.7775)
"""Likewise of the lengths, all of one width."""
_AIR = 3.0
_BAND_AIR = 0.9
"""Free paper behind a tolerance, at the least: behind most there is much more."""
_LABEL_AIR = 1.5
"""Free paper behind a label, the first of a row, and behind one of the three lengths."""
_HEAD_ROW = 4.2
_BETWEEN = 8.0
"""Free paper between two columns of rows."""
_LABEL = 38.0
_ENTRY = 4.4
"""A note has so much less free paper under it than the height of a row."""
_NUMBER = 5.0
"""Room for the number before a note, at least."""
_NOTHING = Strip(0.0)


def holding(sheet: DataSheet, pitch: float, wide: float, printed: float = 0.0) -> Section:
    """Give the sizes to hold: base end beside rod end, a line where no tolerance is given.

    ``printed`` is the height of a row in which nobody writes, where that is another one.
    """
    about = (
        f"Sizes without a tolerance: {sheet.general}."
        if sheet.general
        else "what meets the machine. Builder writes his tolerance where none is given."
    )
    if sheet.behind:
        about = about.replace("his tolerance where none is", "tolerances not")
        about += " Minus is towards the base."
    x = [wide * part for part in (*_STOPS, 1.0)]
    names = ("", sheet.body, "TOLERANCE", "ROD END", "TOLERANCE")
    top = _head("SIZES TO HOLD", about, x, names, wide, "held")

    def cells(held: Held) -> Iterable[Cell]:
        yield Cell(x[0], x[1] - _LABEL_AIR, held.label, name="held")
        for k, said in ((1, held.base), (3, held.rod)):
            yield from _said(said, (x[k], x[k + 1], x[k + 2]))

    rows = [
        _row(tuple(cells(h)), pitch, printed, wide, _under(k, len(sheet.held)))
        for k, h in enumerate(sheet.held)
    ]
    return Section(top, tuple(rows), _NOTHING)


def _row(
    cells: Sequence[Cell], pitch: float, printed: float, wide: float, under: Role | None
) -> Strip:
    written_in = any(c.line for c in cells)
    return row(cells, pitch if written_in else printed or pitch, wide, under)


def _said(said: Said | None, x: tuple[float, float, float]) -> Iterable[Cell]:
    """Give the cells of a size and its tolerance; words without one reach over both columns."""
    if said is None:
        return
    room = (x[2] if said.tolerance is None else x[1]) - x[0] - _AIR
    yield Cell(x[0], room, said.text, flag=said.flag, name="held")
    if said.tolerance is not None:
        air = _BAND_AIR if said.tolerance else _AIR
        room = x[2] - x[1] - air
        yield Cell(x[1], room, said.tolerance, line=not said.tolerance, name="held.tolerance")


def lengths(sheet: DataSheet, pitch: float, wide: float) -> Section:
    """Give the lengths between the datums as columns over their tolerances."""
    x = [wide * part for part in (*_LENGTH_STOPS, 1.0)]
    names = ("", *(label for label, _ in sheet.lengths))
    top = _head("LENGTHS", sheet.lengths_words, x, names, wide, "lengths")
    sizes = [Cell(x[0], x[1] - _AIR, "Size", name="lengths")]
    bands = [Cell(x[0], x[1] - _AIR, "Tolerance", name="lengths")]
    for k, (_, said) in enumerate(sheet.lengths, 1):
        room = x[k + 1] - x[k] - _AIR
        wide_room = x[k + 1] - x[k] - _LABEL_AIR
        sizes.append(Cell(x[k], wide_room, said.text, flag=said.flag, name="lengths"))
        if said.tolerance is not None:
            bands.append(
                Cell(x[k], room, said.tolerance, line=not said.tolerance, name="lengths.tolerance")
            )
    rows = [row(sizes, pitch, wide, "hair" if len(bands) > 1 else "rule")]
    if len(bands) > 1:
        rows.append(row(bands, pitch, wide, "rule"))
    return Section(top, tuple(rows), _NOTHING)


def data(
    rows: Sequence[tuple[str, Said]], pitch: float, wide: float, printed: float = 0.0
) -> Section:
    """Give the data in two columns; what nobody said is a line. ``printed`` as for ``holding``."""
    half = (wide - _BETWEEN) / 2
    lefts = (0.0, half + _BETWEEN)
    marks, texts, high = heading("DATA", "a line is a question to you", wide, "data", None)
    rules = tuple(Mark(Line((x, -high), (x + half, -high)), "rule", "rule") for x in lefts)
    count = (len(rows) + 1) // 2
    columns = (rows[:count], rows[count:])

    def cells(k: int) -> Iterable[Cell]:
        for x, column in zip(lefts, columns, strict=True):
            if k < len(column):
                label, said = column[k]
                yield Cell(x, _LABEL - 1.0, label, name="data")
                room = half - _LABEL
                yield Cell(
                    x + _LABEL, room, said.text, flag=said.flag, line=not said.text, name="data"
                )

    strips = tuple(_row(tuple(cells(k)), pitch, printed, wide, None) for k in range(count))
    return Section(Strip(high, (*marks, *rules), texts), strips, _NOTHING)


def ruled(rows: Sequence[tuple[str, str, str]], pitch: float, wide: float) -> Section:
    """Give the sizes drawn by rule, two beside each other: size, value, reason.

    Without reasons there are three.
    """
    about = "not asked for: the builder may choose otherwise"
    return _triples("DRAWN BY RULE", about, rows, pitch, wide, "ruled")


def left_out(rows: Sequence[tuple[str, str, str]], pitch: float, wide: float) -> Section:
    """Give the sizes for which the drawing had no room."""
    about = "drawn to scale there, but not dimensioned for want of room"
    return _triples("NOT ON SHEET 1", about, rows, pitch, wide, "left_out")


def _triples(
    title: str,
    about: str,
    rows: Sequence[tuple[str, str, str]],
    pitch: float,
    wide: float,
    name: str,
) -> Section:
    marks, texts, high = heading(title, about, wide, name)
    beside = 2 if any(reason for _, _, reason in rows) else 3
    part = (wide - (beside - 1) * _BETWEEN / 2) / beside
    x = [part * s for s in ((0.0, 0.415, 0.61, 1.0) if beside == 2 else (0.0, 0.66, 1.0))]
    count = -(-len(rows) // beside)
    strips = []
    for k in range(count):
        cells = [
            Cell(n * (part + _BETWEEN / 2) + x[i], x[i + 1] - x[i] - 1.5, words, name=name)
            for n, found in enumerate(rows[k::count])
            for i, words in enumerate(found[: len(x) - 1])
        ]
        strips.append(row(cells, pitch, wide, _under(k, count)))
    return Section(Strip(high, marks, texts), tuple(strips), _NOTHING)


def pairs(
    title: str,
    about: str,
    rows: Sequence[Row],
    pitch: float,
    wide: float,
    share: float = _STOPS[1],
) -> Section:
    """Give rows of a label, which takes a share of the width, and words behind it."""
    name = title.lower().replace(" ", "_")
    marks, texts, high = heading(title, about, wide, name)
    label = wide * share
    strips = tuple(
        row(
            (
                Cell(0.0, label - _AIR, words[0], name=name),
                Cell(label, wide - label, words[1], name=name),
            ),
            pitch,
            wide,
            _under(k, len(rows)),
        )
        for k, words in enumerate(rows)
    )
    return Section(Strip(high, marks, texts), strips, _NOTHING)


def notes(
    lines: Sequence[str],
    pitch: float,
    wide: float,
    most: float,
    title: str = "NOTES AND CAUTIONS",
    leading: float = LEADING,
    apart: float = 0.0,
) -> Section:
    """Give notes and cautions in two columns, numbered through; ``most`` is a page's height.

    ``leading`` is base line to base line of a note's lines; from the last one to the next note it
    is ``apart`` more, at least (mm).
    """
    marks, texts, high = heading(title, "", wide, "notes")
    half = (wide - _BETWEEN) / 2
    room = max(_NUMBER, width(str(len(lines)), CAPS) + 1.5)
    air = max(pitch - _ENTRY, leading + apart - CAPS - 1.0)
    entries = [_entry(n, line, half, room, air, leading) for n, line in enumerate(lines, 1)]
    strips = []
    while entries:
        count = len(entries)
        while True:
            columns = _balanced(entries[:count])
            strip = _beside(columns, half + _BETWEEN)
            if strip.height <= most - high or count == 1:
                break
            count -= 1
        strips.append(strip)
        entries = entries[count:]
    return Section(stack(Strip(high, marks, texts), Strip(1.0)), tuple(strips), _NOTHING, least=1)


def _entry(number: int, line: str, wide: float, room: float, air: float, leading: float) -> Strip:
    words = wrapped(line, CAPS, wide - room)
    texts = [Text((0.0, -CAPS), str(number), CAPS, name="notes")]
    texts += [
        Text((room, -CAPS - k * leading), part, CAPS, name="notes") for k, part in enumerate(words)
    ]
    return Strip(CAPS + 1.0 + (len(words) - 1) * leading + air, (), tuple(texts))


def _balanced(entries: Sequence[Strip]) -> tuple[Strip, Strip]:
    """Share entries out between two columns, the first not the lower one where it can be."""
    cuts = range(1, len(entries) + 1)
    best = min(cuts, key=lambda k: max(_high(entries[:k]), _high(entries[k:])))
    return stack(*entries[:best]), stack(*entries[best:])


def _high(entries: Sequence[Strip]) -> float:
    return sum(e.height for e in entries)


def _beside(columns: tuple[Strip, Strip], right: float) -> Strip:
    left_marks, left_texts = columns[0].at((0.0, 0.0))
    marks, texts = columns[1].at((right, 0.0))
    high = max(c.height for c in columns)
    return Strip(high, (*left_marks, *marks), (*left_texts, *texts))


def _head(
    title: str, about: str, x: Sequence[float], names: Sequence[str], wide: float, name: str
) -> Strip:
    """Give a heading and, under its rule, the heads of the columns."""
    marks, texts, high = heading(title, about, wide, name)
    cells = [
        Cell(x[k], x[k + 1] - x[k] - 1.0, words, height=HEAD, name=f"{name}.head")
        for k, words in enumerate(names)
        if words
    ]
    return stack(Strip(high, marks, texts), row(cells, _HEAD_ROW, wide, "hair"))


def _under(k: int, count: int) -> Role:
    return "rule" if k == count - 1 else "hair"

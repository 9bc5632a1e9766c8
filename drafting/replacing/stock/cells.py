"""One row's cells to values: each in its own unit where it says one, else in its column's."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal, InvalidOperation

from drafting.factors import Misread
from drafting.records import dataclass
from drafting.replacing.rule import Said
from drafting.replacing.stock.columns import NAME, UNITS, Column
from drafting.replacing.stock.sheets import LONGEST_CELL, LOST, Cell
from drafting.spec.field import Field
from drafting.spec.kinds import read_value
from drafting.spec.said import understood
from drafting.units import format_inch, format_mm

BLANK = frozenset(("", "-", "--", "n/a", "na", "none", "?", "tbd", "n.a.", "null", "#n/a"))
DEFAULTS: Mapping[str, Said] = {"cylinder.action": "double", "cylinder.piston": "sealed",
                                "cylinder.cushions": "none"}  # fmt: skip
"""What is taken of a row whose list has no such column: what a stock cylinder is."""
MOST_KEPT = 50_000
"""Cells that are kept of a column; beyond that it forgets and begins anew."""
AGREE = 0.5
"""Lengths (mm) of a row agree within this, as those of a spec."""
LARGEST = {"cylinder.bore": 1000.0, "cylinder.rod": 800.0, "cylinder.stroke": 20_000.0}
SMALLEST = {"cylinder.bore": 8.0, "cylinder.rod": 3.0}
"""Sizes (mm) beyond these smell of the other unit."""
_COMMA = re.compile(r"^[^,]*[0-9],[0-9]+(?![0-9,])[^,]*$")
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}( .*)?")
_YES = frozenset(("yes", "y", "true", "x", "1", "1.0", "ja", "oui", "si"))
_NO = frozenset(("no", "n", "false", "0", "0.0", "nein", "non"))


class Unreadable(ValueError):
    """A row cannot be read: the column's place and heading, and why."""

    def __init__(self, column: Column | None, message: str) -> None:
        self.column, self.message = column, message
        super().__init__(message)


@dataclass(frozen=True, slots=True)
class StockRow:
    """A row as read. ``units`` are those of its bare sizes."""

    row: int
    name: str
    values: Mapping[str, Said]


class Reader:
    """Reads rows of one list; a cell that says what another of its column said is read once.

    ``units`` are what a bare size is in where neither cell, row nor column says it, "" for unknown.
    """

    def __init__(self, columns: Sequence[Column], units: str, comma: bool) -> None:
        self.columns, self.units, self.comma = tuple(columns), units, comma
        self.known: tuple[dict[tuple[Cell, str], Said | Misread | None], ...] = tuple(
            {} for _ in columns
        )
        self.own = next((c for c in columns if c.name == UNITS), None)
        self.sizes = tuple(
            (c, kept)
            for c, kept in zip(self.columns, self.known, strict=True)
            if c.name not in (UNITS, NAME)
        )
        self.name = next((c for c in columns if c.name == NAME), None)

    def row(self, row: int, cells: Sequence[Cell]) -> StockRow | None:
        """Read a row, None for a blank one; raises Unreadable."""
        values: dict[str, Said] = dict(DEFAULTS)
        own, wide, blank = "", len(cells), True
        if self.own is not None and self.own.place < wide:
            own = _units(self.own, cells[self.own.place])
        for column, kept in self.sizes:
            cell = cells[column.place] if column.place < wide else None
            if cell is None or cell == "":
                continue
            key = (cell, own)
            if key in kept:
                value = kept[key]
            else:
                if len(kept) >= MOST_KEPT:
                    kept.clear()
                value = kept[key] = self._value(column, cell, own)
            if isinstance(value, Misread):
                raise Unreadable(column, str(value))
            if value is not None:
                blank = False
                values[column.name] = value
        name = ""
        if self.name is not None and self.name.place < wide:
            cell = cells[self.name.place]
            name = "" if cell is None else _text(self.name, cell)
        if blank and not name:
            return None
        _lengths(values, self.columns)
        for end in ("base_port", "rod_port"):
            clock = values.pop(f"{end}.clock", None)
            if clock is not None:
                values[f"{end}.clock_from_rod"] = clock
        return StockRow(row, name or f"row {row}", values)

    def _value(self, column: Column, cell: Cell, own: str) -> Said | Misread | None:
        """Give what a cell says, None for a blank one, or why it cannot be read."""
        if isinstance(cell, str) and cell.strip().casefold() in BLANK:
            return None
        try:
            if own and isinstance(cell, str):
                _conflict(column, cell, own)
            text = _cell(cell, column.field, self.comma)
            return _read(text, column.field, own or column.unit or self.units)
        except Misread as wrong:
            return wrong


def _text(column: Column, cell: Cell) -> str:
    if isinstance(cell, float):
        return f"{cell:.10g}"
    text = " ".join(str(cell).split())
    if len(text) > LONGEST_CELL:
        raise Unreadable(column, f"{len(text)} characters; at most {LONGEST_CELL}")
    return text


def _units(column: Column, cell: Cell) -> str:
    word = str(cell or "").strip().casefold().rstrip(".")
    known = {"in": "in", "inch": "in", "inches": "in", '"': "in", "mm": "mm", "metric": "mm"}
    if word and word not in known:
        raise Unreadable(column, f'"{cell}" is no unit of a row; write in or mm')
    return known.get(word, "")


_INCH = re.compile(r"[0-9] ?(in|inch|inches|\"|''|″|”)\.?$", re.IGNORECASE)
_METRIC = re.compile(r"[0-9] ?(mm|cm)\.?$", re.IGNORECASE)


def _conflict(column: Column, cell: str, own: str) -> None:
    """Refuse a size whose own unit is not that of its row."""
    if column.field.kind != "length":
        return
    text = cell.strip()
    if (own == "mm" and _INCH.search(text)) or (own == "in" and _METRIC.search(text)):
        raise Unreadable(
            column, f'"{text}" in a row whose sizes are in {own}: one of them is wrong'
        )


def _cell(cell: Cell, field: Field, comma: bool) -> str:
    """Give a cell as a person would have typed it in a spec; raises Misread."""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        return f"{cell:.10g}"
    text = str(cell).strip()
    if text.startswith(LOST):
        raise Misread("no-value", "a formula without a value, or an error: open the list in its "
                      "program and save it")  # fmt: skip
    if len(text) > LONGEST_CELL:
        raise Misread("too-long", f"{len(text)} characters; at most {LONGEST_CELL}")
    if text[:1] == "=":
        raise Misread(
            "formula", f'"{text}" is a formula without its value; save the list as values'
        )
    if text[:1] == "#":
        raise Misread("error-value", f'"{text}" is an error of the spreadsheet')
    if field.kind in ("length", "pressure", "mass"):
        if _DATE.fullmatch(text):
            raise Misread("date", f"{text}: the spreadsheet made a date of it (1/2, 3-4); type it "
                          "as text")  # fmt: skip
        if "," in text:
            return _without_comma(text, comma)
    if field.kind == "clock" and re.fullmatch(r"[0-9]{2}:[0-9]{2}:[0-9]{2}", text):
        return text[:5]
    return text


def _without_comma(text: str, comma: bool) -> str:
    """Give a number with a comma with a point; raises Misread where thousands may be meant."""
    if not _COMMA.match(text):
        raise Misread("decimal-comma", f'"{text}" has commas that say no number')
    after = re.search(r",([0-9]+)", text)
    if not comma and after and len(after[1]) == 3:
        raise Misread("decimal-comma", f'"{text}": thousands or a decimal comma? write it without')
    return text.replace(",", ".")


def _read(text: str, field: Field, unit: str) -> Said:
    """Give the value that a text is in a field; raises Misread."""
    if field.kind == "flag":
        word = text.casefold()
        if word in _YES or word in _NO:
            return word in _YES
        raise Misread("not-yes-or-no", f'found "{text}"; write yes or no')
    bare = _bare(text)
    if field.kind in ("pressure", "mass") and bare and unit and unit not in ("in", "mm"):
        text = f"{text} {unit}"
    lengths = unit if unit in ("in", "mm") else ""
    if field.kind == "length" and bare and not lengths:
        raise Misread("needs-unit", f"{text} or {text} mm? no unit stands in cell, row or heading")
    raw, _ = understood(field, text)
    value, _ = read_value(raw, text, field, lengths or "mm")
    if isinstance(value, tuple):
        raise Misread("not-a-number", f'"{text}" is more than one size')
    return value


def _bare(text: str) -> bool:
    try:
        Decimal(text)
    except InvalidOperation:
        return bool(re.fullmatch(r"[0-9]+[ -]?[0-9]*/?[0-9]*", text))
    return True


def _lengths(values: dict[str, Said], columns: Sequence[Column]) -> None:
    """Close stroke, closed and open; raises Unreadable where they do not agree, or smell."""
    names = ("cylinder.stroke", "cylinder.retracted", "cylinder.extended")
    stroke, shut, out = (values.get(n) for n in names)
    if isinstance(stroke, float) and isinstance(shut, float):
        if isinstance(out, float) and abs(shut + stroke - out) > AGREE:
            said = " + ".join(_both(x) for x in (shut, stroke))
            message = f"closed and stroke, {said}, are not open, {_both(out)}"
            raise Unreadable(_column(columns, names[2]), message)
        values[names[2]] = shut + stroke
    elif isinstance(stroke, float) and isinstance(out, float):
        values[names[1]] = out - stroke
    elif isinstance(shut, float) and isinstance(out, float):
        values[names[0]] = out - shut
    if isinstance(shut, float) and isinstance(stroke, float) and stroke > 2 * shut:
        message = f"a stroke of {_both(stroke)} in a closed length of {_both(shut)}: which unit?"
        raise Unreadable(_column(columns, names[0]), message)
    for name, most in LARGEST.items():
        value = values.get(name)
        if isinstance(value, float) and not SMALLEST.get(name, 0.0) <= value <= most:
            message = f"{_both(value)} smells of the other unit"
            raise Unreadable(_column(columns, name), message)
    bore, rod = values.get("cylinder.bore"), values.get("cylinder.rod")
    if isinstance(bore, float) and isinstance(rod, float) and rod >= bore:
        message = f"a rod of {_both(rod)} does not pass a bore of {_both(bore)}"
        raise Unreadable(_column(columns, "cylinder.rod"), message)


def _column(columns: Sequence[Column], name: str) -> Column | None:
    return next((c for c in columns if c.name == name), None)


def _both(mm: float) -> str:
    return f"{format_mm(mm)} mm ({format_inch(mm, 64)} in)"

"""One typed value -> its value inside the program, judged by its field alone."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from datetime import date, datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any

from drafting.factors import KINDS, Misread, Quantity
from drafting.spec.field import Field
from drafting.spec.given import Typed
from drafting.spec.lists import read_forces, read_numbers, read_place, read_steps
from drafting.spec.said import OTHERWISE, hinted
from drafting.units import both, format_mm, read_quantity
from drafting.values import Unit

_LONGEST = 200
_IN_MM = ("length", "pair", "pair or length", "word or length")
_MOST = 1_000_000
"""A count, and a number without a unit, goes up to this."""
_SHOWN = 12
"""So many known words are shown where none is near."""
_TEXTS = 40
"""A list of texts has at most so many entries."""
_LARGEST, _SMALLEST = Fraction(50), Fraction(1, 2000)
"""Scales: ISO 5455 has 50:1 as the largest; 10 m of cylinder at 1:2000 are 5 mm."""
_PLAIN = re.compile(r"-?[0-9]+(\.[0-9]+)?")
_HOUR = re.compile(r"([0-9]{1,2})(?::([0-9]{2}))?")
_SCALE = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?: ?([0-9]+(?:\.[0-9]+)?)")
_CLOCKS = '12, 3, "12:00", "1:30" or "45 deg"'


def read_value(raw: Any, typed: str, field: Field, units: str) -> tuple[Typed, Unit]:
    """Read one value; ``raw`` as TOML has it, ``typed`` as it stands in the file.

    Gives the value and its unit, or raises Misread.
    """
    if field.kind in KINDS:
        value = _quantity(raw, typed, field.kind, units, field.bare)
        _within(value, field, typed, units)
        return value, KINDS[field.kind].unit
    found = f'"{typed}"' if isinstance(raw, str) else typed
    read = _READERS[field.kind](raw, found, field, units)
    return read, "" if isinstance(read, str) else _UNITS.get(field.kind, "")


def example(field: Field, units: str) -> str:
    """Give the field's example as TOML, in inch or metric sizes as the file's units are."""
    if units == "in" or field.example_mm or field.kind not in KINDS or field.bare:
        return field.example if units == "in" else field.example_mm or field.example
    size = float(read_quantity(field.example.strip('"'), field.kind, "in", signed=True))
    if field.kind == "length":
        return format_mm(round_mm(size))
    k = KINDS[field.kind]
    unit = k.examples[1].partition(" ")[2]
    return f'"{format_mm(round_mm(size / float(k.factors[unit])))} {unit}"'


def round_mm(value: float) -> float:
    """Give a size as one would choose it: whole, or to a tenth below 10."""
    return round(value, 0 if abs(value) >= 10 else 1)


def near(word: str, known: Iterable[str]) -> list[str]:
    """Give the known words that are most like a word that is not."""
    from difflib import get_close_matches

    names = {k.lower(): k for k in known}
    meant = hinted(word, names)
    if meant:
        return [names[meant[0]]]
    if word.lower() in names:
        return [names[word.lower()]]
    found = get_close_matches(word.lower(), names, 2, 0.6) if len(word) > 2 else []
    return [names[n] for n in found]


def nearest(word: str, known: Iterable[str]) -> str:
    """Give ``did you mean ...?`` for a word nobody knows, or the known ones, for a message."""
    words = tuple(known)
    found = near(word, words)
    if found:
        return f"did you mean {' or '.join(found)}?"
    shown, more = words[:_SHOWN], len(words) - _SHOWN
    return f"known are: {', '.join(shown)}" + (f" and {more} more" if more > 0 else "")


def _quantity(raw: Any, typed: str, kind: Quantity, units: str, bare: bool = False) -> float:
    k = KINDS[kind]
    if isinstance(raw, str):
        return float(read_quantity(raw, kind, _bare_unit(kind, units, bare), signed=True))
    if isinstance(raw, bool) or not isinstance(raw, int | Decimal):
        raise Misread(k.code, f"found {typed}, not {k.phrase}; write for example {k.example}")
    unit = _bare_unit(kind, units, bare)
    if unit is None:
        raise Misread(
            "needs-unit",
            f"found {typed} without a unit; write {k.phrase} with its unit, in quotes: {k.example}",
        )
    if not _PLAIN.fullmatch(typed):
        raise Misread(k.code, f"found {typed}; write the number out, for example 3.5")
    return float(read_quantity(typed, kind, unit, signed=True))


def _bare_unit(kind: Quantity, units: str, bare: bool) -> str | None:
    return units if kind == "length" else "deg" if bare else None


def _within(value: float, field: Field, typed: str, units: str) -> None:
    """Hold a number against the limits of its field."""
    if field.among and value not in field.among:
        allowed = ", ".join(f"{a:g}" for a in field.among)
        raise Misread("out-of-range", f"found {typed}; it is one of {allowed}")
    for limit, what, bad in (
        (field.above, "above", field.above is not None and value <= field.above),
        (field.least, "at least", field.least is not None and value < field.least),
        (field.most, "at most", field.most is not None and value > field.most),
    ):
        if bad and limit is not None:
            shown = both(limit, units) if field.kind in _IN_MM and limit else f"{limit:g}"
            raise Misread("out-of-range", f"found {typed}; it must be {what} {shown}")


def _words(raw: Any, typed: str, field: Field, _: str) -> str:
    if not isinstance(raw, str):
        hint = f'"{typed}"' if re.fullmatch(r"[\w.:/+ -]+", typed) else field.example
        raise Misread("not-a-text", f"found {typed}; put it in quotes: {field.name} = {hint}")
    if len(raw) > _LONGEST:
        raise Misread("too-long", f"{len(raw)} characters; at most {_LONGEST} have room")
    if any(ord(c) < 32 or 127 <= ord(c) < 160 for c in raw):
        raise Misread(
            "control-character",
            "a tab or another invisible character stands in the text; a backslash in double quotes "
            "makes one: use / in its place, or put the text in single quotes",
        )
    text = raw.strip()
    if not text:
        raise Misread("empty", "nothing is written between the quotes; leave the line out instead")
    return text


def _word(raw: Any, typed: str, field: Field, units: str) -> str:
    if isinstance(raw, str) and raw in field.choices:
        return raw
    if not isinstance(raw, str):
        choices = ", ".join(f'"{c}"' for c in field.choices)
        raise Misread("unknown-word", f"found {typed}; write one of {choices}")
    other = "" if near(raw, field.choices) else OTHERWISE.get(field.name, "")
    raise Misread("unknown-word", f'found "{raw}"; {nearest(raw, field.choices)}{other}')


def _texts(raw: Any, typed: str, field: Field, units: str) -> tuple[str, ...]:
    if not isinstance(raw, list):
        raise Misread(
            "not-a-list",
            f"found {typed}; write a list in square brackets: {field.name} = {field.example}",
        )
    if len(raw) > _TEXTS:
        raise Misread("too-many", f"{len(raw)} texts; at most {_TEXTS} have room")
    return tuple(_words(entry, str(entry), field, units) for entry in raw)


def _flag(raw: Any, typed: str, field: Field, _: str) -> bool:
    if not isinstance(raw, bool):
        raise Misread("not-yes-or-no", f"found {typed}; write true or false, without quotes")
    return raw


def _count(raw: Any, typed: str, field: Field, units: str) -> int:
    if isinstance(raw, bool) or not isinstance(raw, int):
        raise Misread(
            "not-a-count", f"found {typed}; write a whole number without quotes: {field.example}"
        )
    if abs(raw) > _MOST:
        raise Misread("out-of-range", f"found {typed}; it must be at most {_MOST}")
    _within(raw, field, typed, units)
    return raw


def _number(raw: Any, typed: str, field: Field, units: str) -> float:
    if isinstance(raw, bool) or not isinstance(raw, int | Decimal) or not _PLAIN.fullmatch(typed):
        raise Misread(
            "not-a-number", f"found {typed}; write a plain number without quotes: {field.example}"
        )
    if abs(Decimal(typed)) > _MOST:
        raise Misread("out-of-range", f"found {typed}; it must be at most {_MOST}")
    value = float(raw)
    _within(value, field, typed, units)
    return value


def _clock(raw: Any, typed: str, field: Field, units: str) -> float:
    """Give degrees clockwise from 12, as seen from the side that the file states."""
    text = raw if isinstance(raw, str) else typed
    hour = _HOUR.fullmatch(text.strip())
    if hour and (isinstance(raw, str) or (isinstance(raw, int) and not isinstance(raw, bool))):
        h, minutes = int(hour[1]), int(hour[2] or 0)
        if 1 <= h <= 12 and minutes < 60:
            return (h % 12) * 30.0 + minutes / 2
        tip = f'; if degrees are meant, write "{h} deg"' if not hour[2] and h > 12 else ""
        raise Misread("not-a-clock", f"found {typed}; hours go from 1 to 12{tip}")
    if isinstance(raw, str) and re.search(r"deg|°", raw):
        degrees = float(read_quantity(raw, "angle", signed=True))
        if 0 <= degrees < 360:
            return degrees
        raise Misread("not-a-clock", f"found {typed}; degrees go from 0 to below 360, clockwise")
    if not isinstance(raw, str | int | Decimal) or isinstance(raw, bool):
        raise Misread("not-a-clock", f'found {typed}; put the clock in quotes: "12:00"')
    raise Misread("not-a-clock", f"found {typed}; write an hour or degrees: {_CLOCKS}")


def _date(raw: Any, typed: str, field: Field, _: str) -> str:
    if isinstance(raw, date) and not isinstance(raw, datetime):
        return raw.isoformat()
    if isinstance(raw, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", raw.strip()):
        try:
            return date.fromisoformat(raw.strip()).isoformat()
        except ValueError:
            pass
    raise Misread("not-a-date", f'found {typed}; write year-month-day: "2026-11-25"')


def _scale(raw: Any, typed: str, field: Field, _: str) -> str:
    return read_scale(raw, typed)


def read_scale(raw: Any, typed: str) -> str:
    """Read a scale of a drawing: ``1:4`` or ``auto``; raises Misread, naming what was ``typed``."""
    found = _SCALE.fullmatch(raw.strip()) if isinstance(raw, str) and len(raw) < 40 else None
    if found and float(found[1]) > 0 and float(found[2]) > 0:
        if not _SMALLEST <= Fraction(found[1]) / Fraction(found[2]) <= _LARGEST:
            raise Misread(
                "out-of-range",
                f"found {typed}; scales go from 1:{1 / _SMALLEST} to {_LARGEST}:1",
            )
        return f"{found[1]}:{found[2]}"
    if raw == "auto":
        return "auto"
    raise Misread("not-a-scale", f'found {typed}; write "auto", or a scale in quotes: "1:4"')


def _pair(raw: Any, typed: str, field: Field, units: str) -> tuple[float, ...]:
    if not isinstance(raw, list) or len(raw) != 2:
        raise Misread(
            "not-a-pair", f"found {typed}; write two sizes in square brackets: {field.example}"
        )
    pair = tuple(_quantity(r, str(r), "length", units) for r in raw)
    for value, entry in zip(pair, raw, strict=True):
        _within(value, field, str(entry), units)
    return pair


def _pair_or_length(raw: Any, typed: str, field: Field, units: str) -> tuple[float, ...] | float:
    if isinstance(raw, list):
        return _pair(raw, typed, field, units)
    value = _quantity(raw, typed, "length", units)
    _within(value, field, typed, units)
    return value


def _word_or_length(raw: Any, typed: str, field: Field, units: str) -> str | float:
    if isinstance(raw, str) and raw in field.choices:
        return raw
    if isinstance(raw, str) and not re.search(r"[0-9½¼¾⅛⅜⅝⅞]", raw):
        raise Misread(
            "unknown-word", f'found "{raw}"; {nearest(raw, field.choices)} (or give a distance)'
        )
    return _quantity(raw, typed, "length", units)


def _tolerance(raw: Any, typed: str, field: Field, units: str) -> str:
    """Give the tolerance as typed, once it is sure that it can be read."""
    from drafting.spec.tolerance import read_tolerance

    if not isinstance(raw, str):
        number = typed.lstrip("+-")
        raise Misread(
            "not-a-tolerance",
            f'found {typed}; write it in quotes with its signs: {field.name} = "±{number}"',
        )
    read_tolerance(raw, units)
    return raw.strip()


def _path(raw: Any, typed: str, field: Field, units: str) -> str:
    from drafting.spec.svg_path import read_path

    if not isinstance(raw, str):
        raise Misread("not-a-text", f"found {typed}; put the path data in quotes: {field.example}")
    if not read_path(raw):
        raise Misread("not-a-path", "the path data draws nothing")
    return " ".join(raw.split())


def _viewbox(raw: Any, typed: str, field: Field, units: str) -> str:
    from drafting.spec.svg_path import read_viewbox

    if not isinstance(raw, str):
        raise Misread("not-a-text", f"found {typed}; put it in quotes: {field.example}")
    read_viewbox(raw)
    return raw.strip()


_READERS: dict[str, Callable[[Any, str, Field, str], Typed]] = {
    "word": _word,
    "text": _words,
    "texts": _texts,
    "thread": _words,
    "flag": _flag,
    "count": _count,
    "number": _number,
    "clock": _clock,
    "date": _date,
    "scale": _scale,
    "pair": _pair,
    "pair or length": _pair_or_length,
    "word or length": _word_or_length,
    "tolerance": _tolerance,
    "path": _path,
    "viewbox": _viewbox,
    "forces": read_forces,
    "numbers": read_numbers,
    "place": read_place,
    "steps": read_steps,
}
_UNITS: dict[str, Unit] = {"clock": "deg", **dict.fromkeys(_IN_MM, "mm")}

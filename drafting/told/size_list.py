"""Every size of a cylinder as a table (CSV), for stock systems and spreadsheets.

A row a size: dotted name, words, millimetres, inches, tolerance as typed, where it comes from. The
spec that they were made from stands in the last row, so that the list can be told from another's.
"""

from __future__ import annotations

import csv
from base64 import b64decode, b64encode
from collections.abc import Iterator
from io import StringIO

from drafting.factors import INCH
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.settle.tolerance import tolerance_of
from drafting.told.drawn_by_rule import size_label
from drafting.told.meta import carried_text, without_folders

HEAD = ("name", "words", "mm", "inch", "tolerance", "origin", "why")
LENGTHS = ("retracted", "stroke", "extended")
_SPEC = "spec_text"
_SPEC_WORDS = "the spec behind this list, as base64 of UTF-8"


@dataclass(frozen=True, slots=True)
class Size:
    """One size in mm, with its words, its tolerance as typed and where it comes from."""

    name: str
    words: str
    mm: float
    tolerance: str
    origin: str
    why: str


def sizes(c: Cylinder) -> Iterator[Size]:
    """Give the three lengths, then every other size in mm, in the order of the model."""
    lengths = {f"cylinder.{w}": getattr(c.lengths, w) for w in LENGTHS}
    for name, mm in lengths.items():
        yield _size(c, name, mm)
    for v in c.values:
        if v.unit == "mm" and isinstance(v.value, float | int) and v.name not in lengths:
            yield _size(c, v.name, float(v.value))


def size_list(c: Cylinder) -> bytes:
    """Give the table as UTF-8 with a mark, which spreadsheets on Windows ask for."""
    out = StringIO()
    table = csv.writer(out, lineterminator="\r\n")
    table.writerow(HEAD)
    for s in sizes(c):
        table.writerow(
            (
                s.name,
                as_text(s.words),
                _number(s.mm),
                _number(s.mm / float(INCH), 5),
                as_text(s.tolerance),
                s.origin,
                as_text(s.why),
            )
        )
    packed = b64encode(carried_text(c.spec).encode("utf-8", "surrogatepass")).decode()
    table.writerow((_SPEC, _SPEC_WORDS, "", "", "", f"input_sha256 {c.spec.sha256}", packed))
    return b"\xef\xbb\xbf" + out.getvalue().encode("utf-8", "replace")


def spec_from_list(data: bytes) -> str | None:
    """Read the spec out of a list of sizes; None when it carries none."""
    text = data.decode("utf-8-sig", "replace")
    last = text.rstrip().rpartition("\n")[2].split(",")
    if last[0] != _SPEC:
        return None
    try:
        return b64decode(last[-1], validate=True).decode("utf-8", "surrogatepass")
    except ValueError:
        return None


def as_text(words: str) -> str:
    """Give words that no spreadsheet takes for a formula: a leading sign gets an apostrophe."""
    return f"'{words}" if words[:1] in tuple("=+-@\t\r\n") else words


def _size(c: Cylinder, name: str, mm: float) -> Size:
    value = c.value(name)
    held = tolerance_of(c.tolerances, name)
    return Size(
        name,
        size_label(c, name),
        mm,
        held.typed if held else "",
        value.origin if value else "computed",
        without_folders(c.spec, value.why) if value else "the other two lengths",
    )


def _number(size: float, places: int = 4) -> str:
    return f"{size:.{places}f}".rstrip("0").rstrip(".") or "0"

"""Which sizes of a cylinder rest on table rows that nobody has held against the standard."""

from __future__ import annotations

import re
from collections.abc import Iterator

from drafting.model.cylinder import Cylinder
from drafting.standards.table import table
from drafting.told.codes import code_of
from drafting.told.drawn_by_rule import size_label
from drafting.told.ports_said import port_names

_ROW = re.compile(r"\b([a-z0-9_]+)\.csv:([0-9]+)")
_MEMORY = "memory"


def from_memory(c: Cylinder) -> tuple[str, ...]:
    """Name sizes, port threads and mount codes whose table row says ``memory``."""
    return tuple(dict.fromkeys(_named(c)))


def memory_notes(c: Cylinder) -> tuple[str, ...]:
    """Give the note for the sheet: one line, or none."""
    names = from_memory(c)
    if not names:
        return ()
    many = len(names) > 1
    said = f"Table value{'s' if many else ''} from memory: {', '.join(names)}."
    return (f"{said} Check {'them' if many else 'it'} against the standards.",)


def _named(c: Cylinder) -> Iterator[str]:
    for value in c.values:
        told = f"{value.why} {value.source}" if value.typed is None else value.source
        if any(_is_memory(*found) for found in _ROW.findall(told)):
            label = size_label(c, value.name)
            yield label[:1].lower() + label[1:]
    names = port_names(c)
    for port in c.ports:
        if port.thread.confidence == _MEMORY:
            yield f"{names[port.table].lower()} thread"
    for end, word in c.mounts.items():
        code = code_of({v.name: v for v in c.values}, word, end)
        if code and any(r.confidence == _MEMORY for r in table("mounting_codes").where(code=code)):
            yield f"mount code {code}"


def _is_memory(name: str, line: str) -> bool:
    return any(r.line == int(line) and r.confidence == _MEMORY for r in table(name).rows)

"""What a list calls a value: the words of its row on the data sheet, and which end it is of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from drafting.model.cylinder import Cylinder
from drafting.told.data_rows import data_rows
from drafting.told.drawn_by_rule import size_label
from drafting.told.facts import elsewhere
from drafting.told.held import held_rows, lengths_held
from drafting.told.ports_said import port_names

_FIELDS = {
    "position": "mount, from closed end",
    "grease": "grease fitting",
    "tilt": "ball tilts each way",
}
"""What fields of a mount are called that have no row, and whose own names say too little."""
_PLACES = {
    "cylinder": "",
    "drawing": "",
    "duty": "",
    "rod_mount": "rod",
    "body_pin": "base pin",
}


def row_words(c: Cylinder) -> dict[str, str]:
    """Give the words of each value, and of each field that was typed, by dotted name."""
    body = "body" if elsewhere(c) else "base"
    places = {**_PLACES, "body_mount": body, **port_names(c)}
    words = {name: _said(name, places) for name in c.spec.givens}
    for v in c.values:
        words[v.name] = size_label(c, v.name) if v.unit == "mm" else _said(v.name, places)
    words |= dict(_rows(c))
    return words


def _rows(c: Cylinder) -> Iterator[tuple[str, str]]:
    """Give the words of what has a row: of several things in one row it is called by the first."""
    body = "body" if elsewhere(c) else "base end"
    for held in held_rows(c, "mm", 0):
        for said, end in ((held.base, "base end"), (held.rod, "rod end")):
            for name in said.names[:1] if said else ():
                place = body if name.startswith("body_mount.") else end
                yield name, f"{held.label}, {place}"
    lengths = ((label.capitalize(), said) for label, said in lengths_held(c, "mm", 0)[0])
    for label, said in (*lengths, *data_rows(c, 0.0, "mm", 0)):
        yield from ((name, label) for name in said.names[:1])


def _said(name: str, places: Mapping[str, str]) -> str:
    """Write a dotted name as words."""
    table, _, field = name.rpartition(".")
    if table.endswith("_mount"):
        field = _FIELDS.get(field, field)
    place = places.get(table, table.replace(".", " "))
    words = f"{place} {field}".strip().replace("_", " ")
    return words[:1].upper() + words[1:]

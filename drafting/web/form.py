"""What the form asks, in the order in which a person measures, from the one table of fields."""

from __future__ import annotations

from typing import Any

from drafting.model.catalog import mounts_by_end
from drafting.spec.field import Field
from drafting.spec.fields import TABLES
from drafting.spec.mount_fields import with_words

SECTIONS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("what", "What it is", ("title", "number", "units", "quantity")),
    ("lengths", "Lengths and tube", (
        "cylinder.retracted", "cylinder.stroke", "cylinder.extended", "cylinder.bore",
        "cylinder.rod", "cylinder.barrel_outside", "cylinder.construction", "cylinder.gland",
        "cylinder.action", "cylinder.clock_seen_from")),
    ("body", "Body end", ("body_mount.*",)),
    ("rod", "Rod end", ("rod_mount.*",)),
    ("ports", "Ports", (
        "base_port.thread", "base_port.clock", "base_port.position", "base_port.facing",
        "rod_port.thread", "rod_port.clock", "rod_port.position", "rod_port.facing")),
    ("pins", "Pins", ("body_pin.supplied", "body_pin.grip", "rod_pin.supplied", "rod_pin.grip")),
    ("duty", "Pressure and duty", (
        "cylinder.working_pressure", "cylinder.relief_pressure", "duty.push", "duty.pull",
        "duty.mass", "duty.orientation", "duty.load_guided", "duty.lifts_people", "duty.rod_side",
        "duty.flow", "duty.safety_factor", "cylinder.rod_material", "cylinder.barrel_material",
        "cylinder.pin_material", "cylinder.mount_material", "cylinder.fluid", "cylinder.seals")),
    ("drawing", "Drawing", (
        "drawing.sheet", "drawing.scale", "drawing.dimensions", "drawing.projection",
        "drawing.drawn_by", "drawing.company", "drawing.date", "drawing.general_tolerance")),
)  # fmt: skip
"""Key, words, and the fields of each part of the form; ``*`` stands for all that a mount takes."""
_LEFT_OUT = ("table", "texts", "path", "viewbox", "tolerance", "pair", "pair or length")
"""Kinds that a line of a form cannot hold; they stay in the text."""


def form() -> dict[str, Any]:
    """Give sections, fields, and what each mount takes."""
    mounts = mounts_by_end()
    fields: dict[str, Any] = {}
    sections = []
    for key, words, names in SECTIONS:
        known = [n for name in names for n in _named(name)]
        sections.append({"key": key, "words": words, "fields": known})
        fields |= {n: _row(n) for n in known}
    taken = {
        end: {word: ["mount", *kind.fields] for word, kind in by_word.items()}
        for end, by_word in mounts.items()
    }
    return {"sections": sections, "fields": fields, "taken": taken}


def _named(name: str) -> list[str]:
    table, _, field = name.partition(".")
    if field != "*":
        return [name] if _field(name) is not None else []
    return [f"{table}.{f.name}" for f in TABLES[table].fields if f.kind not in _LEFT_OUT]


def _field(name: str) -> Field | None:
    table, _, field = name.rpartition(".")
    known = TABLES[table]
    mounts = mounts_by_end()
    return (with_words(known, mounts[table]) if table in mounts else known).field(field)


def _row(name: str) -> dict[str, Any]:
    field = _field(name)
    assert field is not None
    return {
        "words": field.name.replace("_", " "),
        "about": field.doc,
        "kind": field.kind,
        "choices": list(field.choices),
        "example": field.example.strip('"'),
        "required": field.required,
    }

"""What the form asks, in the order in which a person measures, from the one table of fields."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drafting.model.catalog import mount_types, mounts_by_end
from drafting.settle.mount import End
from drafting.spec.edit import field_of
from drafting.spec.field import Field
from drafting.spec.fields import TABLES

SECTIONS: tuple[tuple[str, str, tuple[str, ...], tuple[str, ...]], ...] = (
    ("what", "What it is", ("title", "number", "units"),
     ("quantity", "revision", "contact", "wanted", "ship_to")),
    ("lengths", "Lengths and tube", (
        "cylinder.retracted", "cylinder.extended", "cylinder.stroke", "cylinder.bore",
        "cylinder.barrel_outside", "cylinder.rod"), (
        "cylinder.wall", "cylinder.construction", "cylinder.square", "cylinder.tie_rod",
        "cylinder.gland", "cylinder.gland_outside", "cylinder.gland_length",
        "cylinder.gland_projection", "cylinder.rod_stick_out", "cylinder.piston_length",
        "cylinder.base_thickness", "cylinder.stop_tube", "cylinder.cushions", "cylinder.action",
        "cylinder.return", "cylinder.spring_space", "cylinder.spring_force",
        "cylinder.base_weld", "cylinder.base_groove",
        "cylinder.gland_thread", "cylinder.gland_engaged", "cylinder.gland_rating",
        "cylinder.tie_rod_preload", "cylinder.piston", "cylinder.rod_keyed")),
    ("body", "Body end", ("body_mount.*",), ()),
    ("rod", "Rod end", ("rod_mount.*",), ()),
    ("ports", "Ports", (
        "base_port.thread", "cylinder.clock_seen_from", "base_port.clock", "base_port.position",
        "rod_port.thread", "rod_port.clock", "rod_port.position"), (
        "base_port.facing", "base_port.height", "rod_port.facing",
        "rod_port.height")),
    ("pins", "Pins", ("body_pin.supplied", "rod_pin.supplied"),
     ("body_pin.grip", "rod_pin.grip")),
    ("duty", "Pressure and duty", (
        "cylinder.working_pressure", "cylinder.relief_pressure", "duty.push", "duty.pull",
        "duty.rod_side", "duty.orientation", "duty.load_guided", "duty.lifts_people"), (
        "duty.mass", "duty.flow", "duty.safety_factor", "cylinder.rod_material",
        "cylinder.barrel_material", "cylinder.pin_material", "cylinder.mount_material",
        "cylinder.gland_material",
        "cylinder.tie_rod_material", "cylinder.weld_material", "cylinder.proof_pressure",
        "cylinder.fluid", "cylinder.temperature", "cylinder.seals")),
    ("drawing", "Drawing", ("drawing.drawn_by", "drawing.company", "drawing.date"), (
        "drawing.sheet", "drawing.scale", "drawing.dimensions", "drawing.projection",
        "drawing.general_tolerance")),
)  # fmt: skip
"""Key, words, the fields of each part of the form, and those behind "more".

``*`` stands for what a mount is read by; what else it takes is behind "more".
"""
_WORDS: Mapping[str, str] = {
    "title": "Name on the drawing",
    "number": "Drawing number",
    "units": "A bare number means",
    "mount": "How it is mounted",
    "barrel_outside": "Barrel, outside",
    "wanted": "Wanted when",
    "supplied": "Pin comes with it",
    "bushing": "Bushing, outside",
    "clock_seen_from": "Hours seen from",
    "bolts.count": "Bolts, how many",
    "bolts.hole": "Bolt hole",
    "bolts.circle": "Bolt circle",
    "bolts.pitch": "Bolt pitch",
}
"""What a field is called where its name alone would not say it."""
_ABOUT: Mapping[str, str] = {
    "title": "what the cylinder is for",
    "number": "names the files too",
    "units": "a size may carry its own: 88.9 mm, 3 1/2 in",
    "retracted": "rod all the way in, between the datums",
    "extended": "rod all the way out",
    "stroke": "how far the rod travels",
    "bore": "inside of the barrel",
    "rod": "the bright part, across",
    "barrel_outside": "on bare metal",
    "bushing": "the sleeve in the hole, where one is fitted",
    "clock_seen_from": "the end that is looked at",
    "mount": "",
    "supplied": "",
}
"""What is said of a field at the bench, where the format's own words are for a writer of files."""
_ENDS: Mapping[str, str] = {
    "base_port": "Base port, ",
    "rod_port": "Rod port, ",
    "body_pin": "Body end: ",
    "rod_pin": "Rod end: ",
}
_LEFT_OUT = ("texts", "path", "viewbox", "tolerance", "table")
"""Kinds that a line of a form cannot hold; they stay in the text."""


def form() -> dict[str, Any]:
    """Give sections, fields, and by end and mount which fields come first and which are more."""
    taken = {
        f"{end}_mount": {word: _of_mount(end, word) for at, word in mount_types() if at == end}
        for end in ("body", "rod")
    }  # type: dict[str, dict[str, dict[str, list[str]]]]
    fields: dict[str, Any] = {}
    sections = []
    for key, words, first, more in SECTIONS:
        if first[0].endswith(".*"):
            table = first[0].partition(".")[0]
            ways = taken[table].values()
            first = (f"{table}.mount", *_all(ways, "first"))
            more = tuple(n for n in _all(ways, "more") if n not in first)
        sections.append({"key": key, "words": words, "fields": [*first, *more]})
        sections[-1]["more"] = list(more)
        fields |= {n: _row(n) for n in (*first, *more)}
    return {"sections": sections, "fields": fields, "taken": taken}


def _all(ways: Any, which: str) -> list[str]:
    return list(dict.fromkeys(n for way in ways for n in way[which]))


def _of_mount(end: End, word: str) -> dict[str, list[str]]:
    """Give what a mount is read by, in the order of the worksheet, and what else it takes."""
    table, kind = f"{end}_mount", mount_types()[end, word]
    names: list[str] = []
    for name in mounts_by_end()[table][word].fields:
        field = TABLES[table].field(name)
        inside = field.fields if field and field.kind == "table" else ()
        names += [f"{name}.{f.name}" for f in inside if f.kind not in _LEFT_OUT] or [name]
    read = [x.field.removesuffix(".0") for x in kind.worksheet.letters]
    read += [n for n in (*kind.example, "bolts.count") if n in names]
    if "bushing" in names:
        read.insert(read.index("hole") + 1, "bushing")
    first = [n for n in dict.fromkeys(read) if n in names]
    more = [n for n in names if n not in first]
    return {"first": [f"{table}.{n}" for n in first], "more": [f"{table}.{n}" for n in more]}


def _row(name: str) -> dict[str, Any]:
    field = field_of(name)
    if field is None or field.kind in _LEFT_OUT:
        raise KeyError(f"{name} is no field of a form")
    table, _, last = name.partition(".")
    choices = mounts_by_end()[table] if last == "mount" else field.choices
    return {
        "words": _words(name, field),
        "about": _ABOUT.get(last or name, field.doc).replace("true when", "yes when"),
        "kind": field.kind,
        "choices": list(choices),
        "example": field.example.strip('"'),
        "required": field.required,
    }


def _words(name: str, field: Field) -> str:
    table, _, last = name.rpartition(".")
    inner = name.partition(".")[2] or name
    words = _WORDS.get(inner) or _WORDS.get(last) or field.name.replace("_", " ")
    before = _ENDS.get(table, "Bolts: " if table.endswith(".bolts") and inner not in _WORDS else "")
    return before + words.lower() if before else words[:1].upper() + words[1:]

"""Spec files in memory, one for each mount and variant, for the tests of mounts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from drafting.model.catalog import mount_types, mounts_by_end
from drafting.model.cylinder import Cylinder
from drafting.model.load import load
from drafting.settle.wishes import Diameter, Length, Radius, Wish
from drafting.shape.body import body
from drafting.shape.frame import dot, sub
from drafting.shape.pieces import Part
from drafting.spec.check import read_spec

INCH = 25.4
COUNTS = ("count",)
EVERY = tuple(mount_types())
"""Every (end, word) that the folder of mounts holds."""
BARE: Mapping[str, tuple[str, Mapping[str, object]]] = {"body": ("none", {}), "rod": ("plain", {})}
"""The ends without metal of their own, for looking at the other end alone."""


def written(value: object) -> str:
    """Give a value as TOML."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return "'" + value + "'"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(written, value)) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{k} = {written(v)}" for k, v in value.items()) + "}"
    return repr(value)


def in_mm(value: Any, key: str = "") -> Any:
    """Give inch sizes in mm, words and counts untouched."""
    if isinstance(value, dict):
        return {k: in_mm(v, k) for k, v in value.items()}
    if isinstance(value, list):
        return [in_mm(v) for v in value]
    if isinstance(value, str | bool) or key in COUNTS:
        return value
    return round(value * INCH, 6)


def spec_text(
    body: tuple[str, Mapping[str, object]],
    rod: tuple[str, Mapping[str, object]],
    units: str = "in",
    cylinder: Mapping[str, object] | None = None,
    more: str = "",
) -> str:
    """Give a spec of a 3 1/2 in cylinder, 16 in stroke, 30 in retracted; sizes in inches."""
    sizes: dict[str, object] = {
        "bore": 3.5,
        "rod": 1.75,
        "stroke": 16,
        "retracted": 30,
        "barrel_outside": 4,
        **(cylinder or {}),
    }
    tables = {
        "cylinder": sizes,
        "body_mount": {"mount": body[0], **body[1]},
        "rod_mount": {"mount": rod[0], **rod[1]},
    }
    if units == "mm":
        tables = {
            n: {k: v if k == "turned" else in_mm(v) for k, v in t.items()}
            for n, t in tables.items()
        }
    lines = ["title = 'Sluice gate of Harrow Brook'", f"units = '{units}'"]
    for name, table in tables.items():
        lines += [f"[{name}]", *(f"{k} = {written(v)}" for k, v in table.items())]
    return "\n".join(lines) + "\n" + more


def settled(text: str) -> Cylinder:
    """Load a spec from memory."""
    return load(read_spec(text.encode(), mounts=mounts_by_end(), file="gate.toml"))


def at_end(end: str, word: str, fields: Mapping[str, object], **spec: Any) -> Cylinder:
    """Load a cylinder with this mount at its end and a bare other end."""
    ends = {**BARE, end: (word, fields)}
    return settled(spec_text(ends["body"], ends["rod"], **spec))


def on_tie_rods(word: str, **sizes: object) -> Cylinder:
    """Load a tie-rod body with this mount, sized by its rules where the square needs more room."""
    given = {k: v for k, v in example("body", word).items() if k not in SQUARE or word not in BIG}
    text = spec_text((word, {**given, **sizes}), BARE["rod"], cylinder={"construction": "tie rod"})
    return settled(text)


SQUARE = ("shoulders", "width", "plate", "bolts", "seat_height")
BIG = ("trunnion", "flange", "foot")


def example(end: str, word: str) -> dict[str, Any]:
    """Give the mount's example sizes, in inches."""
    kind = next(k for e, k in mount_types().items() if e == (end, word))
    return dict(kind.example)


def wish(c: Cylinder, name: str) -> Any:
    """Give the one wish of that name."""
    found = [w for w in c.wishes if w.name == name]
    assert len(found) == 1, name
    return found[0]


def metal(part: Part, *points: tuple[float, float, float]) -> list[bool]:
    """Tell for world points whether the part has metal there."""
    return list(body(part).inside(np.array(points, float)))


def measured(wish: Wish) -> float | None:
    """Give the size that a dimension measures by its own points, None for words."""
    if isinstance(wish, Length):
        return abs(dot(sub(wish.b, wish.a), wish.direction))
    if isinstance(wish, Diameter):
        return wish.diameter
    if isinstance(wish, Radius):
        reach = sub(wish.through, wish.centre)
        return dot(reach, reach) ** 0.5
    return None

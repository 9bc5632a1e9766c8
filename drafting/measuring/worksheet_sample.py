"""The cylinder on the worksheet: these mounts, in proportions that show every letter."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from drafting.measuring.letters import Letter, letters
from drafting.model.catalog import mounts_by_end
from drafting.model.cylinder import Cylinder
from drafting.model.load import load
from drafting.settle.wishes import Callout, Length, Wish
from drafting.shape.frame import Vec, X, Y
from drafting.spec.check import read_spec
from drafting.spec.given import Typed
from drafting.spec.write import write_spec

_PIN: Mapping[str, Typed] = {"pin": 36.0, "hole": 36.5, "outside": 72.0}
SIZES: Mapping[str, Mapping[str, Typed]] = {
    "clevis": {**_PIN, "gap": 42.0, "width": 90.0, "throat": 46.0, "nose": 40.0},
    "cross tube": {**_PIN, "width": 100.0},
    "pin eye": {**_PIN, "width": 46.0, "nose": 40.0},
    "ball swivel": {"pin": 40.0, "hole": 40.0, "outside": 92.0},
    "trunnion": {
        "position": "middle",
        "pin": 40.0,
        "shoulders": 120.0,
        "width": 190.0,
        "outside": 60.0,
    },
    "flange": {
        "position": "base",
        "plate": (160.0, 130.0),
        "thickness": 25.0,
        "bolts.count": 4,
        "bolts.hole": 14.0,
        "bolts.pitch": (130.0, 100.0),
    },
    "foot": {
        "position": "base",
        "plate": (50.0, 180.0),
        "thickness": 18.0,
        "seat_height": 75.0,
        "bolts.count": 4,
        "bolts.hole": 16.0,
        "bolts.pitch": (170.0, 145.0),
    },
    "male thread": {"thread": "M36x2", "thread_length": 50.0, "shoulder": 62.0},
    "female thread": {"thread": "M27x2", "thread_length": 45.0},
    "plain": {},
    "none": {},
}
ROD_FLANGE: Mapping[str, Typed] = {
    "plate": (120.0, 100.0),
    "thickness": 20.0,
    "bolts.count": 4,
    "bolts.hole": 11.0,
    "bolts.pitch": (95.0, 75.0),
}
STROKE, ROOM = 130.0, 260.0
"""Short, so that both positions are drawn large; what the body needs beside the stroke."""
_OTHER: Mapping[str, tuple[str, ...]] = {
    "plate.0": ("plate.y", "plate.x", "plate"),
    "plate.1": ("plate.z", "plate.across"),
    "bolts.pitch.0": ("bolts.pitch.y", "bolts.pitch.x"),
    "bolts.pitch.1": ("bolts.pitch.z", "bolts.pitch.across"),
    "bolts.circle": (),
    "position": ("from_closed_end", "position"),
    "hole": ("hole", "pin"),
}
"""How a wish of the model is called where the letter's field is not its name."""


def sample(body: str, rod: str) -> Cylinder:
    """Give the cylinder of the worksheet."""
    values: dict[str, Typed] = {
        "title": "Worksheet",
        "units": "mm",
        "cylinder.bore": 80.0,
        "cylinder.rod": 45.0,
        "cylinder.stroke": STROKE,
        "cylinder.retracted": STROKE + ROOM + 120.0,
        "cylinder.barrel_outside": 95.0,
        "cylinder.clock_seen_from": "rod",
        "body_mount.mount": body,
        "rod_mount.mount": rod,
        **{f"body_mount.{k}": v for k, v in SIZES[body].items()},
        **{f"rod_mount.{k}": v for k, v in (ROD_FLANGE if rod == "flange" else SIZES[rod]).items()},
        "base_port.thread": "G 3/8",
        "base_port.clock": 0.0,
        "rod_port.thread": "G 3/8",
        "rod_port.clock": 0.0,
    }
    text = write_spec(values).encode()
    return load(read_spec(text, mounts=mounts_by_end(), file="worksheet"))


def lettered(c: Cylinder) -> tuple[tuple[str, Wish], ...]:
    """Give each wish of the model that a letter stands for, with the letters to print on it.

    A pin has no wish of its own: it goes through its hole, and shares the hole's leader.
    """
    known = letters(c.mounts["body"], c.mounts["rod"])
    wishes = {w.name: w for w in (*c.wishes, *_sides(c), *_along(c))}
    found: list[tuple[str, Wish]] = []
    for letter in known:
        wish = next((wishes[n] for n in _names(letter) if n in wishes), None)
        if wish is None or (letter.kind == "pin" and c.value(letter.field.replace("pin", "hole"))):
            continue
        words = letter.letter
        if letter.kind == "hole" and letter.field.endswith("mount.hole"):
            words = f"{letter.letter}, pin P{letter.end}"
        found.append((words, wish if isinstance(wish, Callout) else replace(wish, note="")))
    return tuple(found)


def _names(letter: Letter) -> tuple[str, ...]:
    if not letter.field:
        return (f"cylinder.{letter.name}",)
    table, _, rest = letter.field.partition(".")
    return tuple(f"{table}.{n}" for n in _OTHER.get(rest, (rest,)))


def _along(c: Cylinder) -> tuple[Wish, ...]:
    """Give the second way to both lengths: barrel with gland, bare rod in both positions."""
    face, n = c.stations.gland_face, c.lengths
    gland = (face, 0.0, 0.0)
    return (
        Length("cylinder.body_to_gland", (0.0, 0.0, 0.0), gland, X, rank=6),
        Length("cylinder.bare_rod_closed", gland, (n.retracted, 0.0, 0.0), X, rank=6),
        Length("cylinder.bare_rod_open", gland, (n.extended, 0.0, 0.0), X, rank=6, pose="extended"),
    )


def _sides(c: Cylinder) -> tuple[Wish, ...]:
    """Give both halves of an eye that may sit off the middle."""
    out: list[Wish] = []
    for end, x in (("body", 0.0), ("rod", c.lengths.retracted)):
        width = c.value(f"{end}_mount.width")
        if c.mounts[end] not in ("cross tube", "pin eye") or width is None:
            continue
        half, middle = float(width.value) / 2, (x, 0.0, 0.0)
        sides: tuple[tuple[str, Vec, Vec], ...] = (
            ("left", middle, (x, half, 0.0)),
            ("right", (x, -half, 0.0), middle),
        )
        out += [Length(f"{end}_mount.{n}", a, b, Y, rank=2) for n, a, b in sides]
    return tuple(out)

"""The cylinder on the worksheet: these mounts, in proportions that show every letter."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from drafting.measuring.letters import Letter, both_sheets, letters
from drafting.model.catalog import mounts_by_end
from drafting.model.cylinder import Cylinder
from drafting.model.load import load
from drafting.settle.wishes import Callout, Length, Wish
from drafting.shape.frame import Vec, X, Y, Z
from drafting.spec.check import read_spec
from drafting.spec.given import Typed
from drafting.spec.write import write_spec

STROKE, ROOM = 130.0, 260.0
"""Short, so that both positions are drawn large; what the body needs beside the stroke."""
_OTHER: Mapping[str, tuple[str, ...]] = {
    "plate.0": ("plate.y", "plate.x", "plate"),
    "plate.1": ("plate.z", "plate.across"),
    "bolts.pitch.0": ("bolts.pitch.y", "bolts.pitch.x"),
    "bolts.pitch.1": ("bolts.pitch.z", "bolts.pitch.across"),
    "position": ("from_closed_end", "position"),
    "hole": ("hole", "pin"),
}
"""How a wish of the model is called where the letter's field is not its name."""


def sample(body: str, rod: str) -> Cylinder:
    """Give the cylinder of the worksheet."""
    base, end = both_sheets(body, rod)
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
        **{f"body_mount.{k}": v for k, v in base.sample.items()},
        **{f"rod_mount.{k}": v for k, v in end.sample.items()},
        "base_port.thread": "G 3/8",
        "base_port.clock": 0.0,
        "rod_port.thread": "G 3/8",
        "rod_port.clock": 0.0,
    }
    text = write_spec(values).encode()
    return load(read_spec(text, mounts=mounts_by_end(), file="worksheet"))


def lettered(c: Cylinder) -> tuple[tuple[str, Wish], ...]:
    """Give each wish of the model that a letter stands for, with the letters to print on it.

    A pin has no wish of its own: it goes through its hole, and shares the hole's leader. So does a
    bolt circle where the sample's holes lie at a pitch.
    """
    known = letters(c.mounts["body"], c.mounts["rod"])
    wishes = _wishes(c)
    unseen = {x.field for x in known if not any(n in wishes for n in _names(x))}
    found: list[tuple[str, Wish]] = []
    for letter in known:
        wish = next((wishes[n] for n in _names(letter) if n in wishes), None)
        if wish is None or (letter.kind == "pin" and c.value(letter.field.replace("pin", "hole"))):
            continue
        words = letter.letter
        if letter.kind == "hole" and letter.field.endswith("mount.hole"):
            words = f"{letter.letter}, pin P{letter.end}"
        if letter.field.endswith("bolts.hole") and letter.field.replace("hole", "circle") in unseen:
            words = f"{letter.letter}, across Q{letter.end}"
        found.append((words, wish if isinstance(wish, Callout) else replace(wish, note="")))
    return tuple(found)


def shown(c: Cylinder) -> dict[str, Wish]:
    """Give for each field of the spec that is a size of this cylinder the wish that shows it."""
    wishes = _wishes(c)
    read = {
        x.field: wishes[n]
        for x in letters(c.mounts["body"], c.mounts["rod"])
        for n in reversed(_names(x))
        if n in wishes
    }
    return wishes | read


def _wishes(c: Cylinder) -> dict[str, Wish]:
    return {w.name: w for w in (*c.wishes, *_sides(c), *_along(c))}


def _names(letter: Letter) -> tuple[str, ...]:
    if not letter.field:
        return (f"cylinder.{letter.name}",)
    table, _, rest = letter.field.partition(".")
    return tuple(f"{table}.{n}" for n in _OTHER.get(rest, (rest,)))


def _along(c: Cylinder) -> tuple[Wish, ...]:
    """Give the second way to both lengths: barrel, gland, bare rod in both positions; the wall."""
    face, n = c.stations.gland_face, c.lengths
    gland = (face, 0.0, 0.0)
    s = c.stations
    end, low, high = (s.barrel_end, 0.0, 0.0), s.bore / 2, s.barrel_outside / 2
    seen = (s.piston_front + s.gland_inner) / 2
    wall = ((seen, 0.0, -high), (seen, 0.0, -low))
    opened = ((s.closed_end, 0.0, 0.0), end), (end, gland), (gland, (n.extended, 0.0, 0.0))
    names = ("barrel_length", "gland_projection", "bare_rod_open")
    return (
        Length("cylinder.wall", *wall, Z, rank=3, pose="extended"),
        Length("cylinder.body_to_gland", (0.0, 0.0, 0.0), gland, X, rank=6),
        Length("cylinder.bare_rod_closed", gland, (n.retracted, 0.0, 0.0), X, rank=6),
        *(
            Length(f"cylinder.{name}", *ends, X, rank=6, pose="extended")
            for name, ends in zip(names, opened, strict=True)
        ),
    )


def _sides(c: Cylinder) -> tuple[Wish, ...]:
    """Give both halves of an eye that may sit off the middle."""
    out: list[Wish] = []
    sheets = both_sheets(c.mounts["body"], c.mounts["rod"])
    for end, x, sheet in zip(("body", "rod"), (0.0, c.lengths.retracted), sheets, strict=True):
        width = c.value(f"{end}_mount.width")
        if not (sheet.reads("left") and sheet.reads("right")) or width is None:
            continue
        half, middle = float(width.value) / 2, (x, 0.0, 0.0)
        sides: tuple[tuple[str, Vec, Vec], ...] = (
            ("left", middle, (x, half, 0.0)),
            ("right", (x, -half, 0.0), middle),
        )
        out += [Length(f"{end}_mount.{n}", a, b, Y, rank=2) for n, a, b in sides]
    return tuple(out)

"""Every pair of parts, closed and open: two parts cannot take the same space."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

from drafting.settle.called import CALLED, called
from drafting.settle.ledger import Ledger
from drafting.shape.boxes import apart, around, box_of
from drafting.shape.overlap import Filled, Shared, filled, overlap, shifted
from drafting.shape.pieces import Part

WOULD = {
    "body_mount": "smaller sizes of the {} would do",
    "rod_mount": "smaller sizes of the {}, or more rod before it, would do",
    "body_pin": "another pin would do",
    "rod_pin": "another pin would do",
    "cylinder": "smaller sizes would do",
}
"""What would do, by the table that gives way: the first of these that is concerned."""


def judge_overlaps(book: Ledger, parts: Iterable[Part], stroke: float) -> None:
    """Enter a fault for every two parts that lie in one another."""
    for a, b, pose, shared in overlaps(parts, stroke):
        field, would = _way_out(book, a, b, shared)
        one, other = _words(book, shared.one.name, a), _words(book, shared.other.name, b)
        book.fault(
            "parts-overlap",
            field,
            f"{one} and {other} would be in one another {pose}, over "
            f"{book.say(shared.along)} along the axis; {would}",
        )


def _way_out(book: Ledger, a: Part, b: Part, shared: Shared) -> tuple[str, str]:
    """Give the field that gives way, and what would do."""
    names = [shared.one.name, shared.other.name]
    tables = [name.partition(".")[0] for name in names]
    port = next((t for t in tables if "_port" in t), None)
    if port is not None:
        return f"{port}.position", "another place or clock of the port would do"
    table = next(t for t in WOULD if t in tables)
    own, other = (a, b) if tables[0] == table else (b, a)
    if table == "body_mount" and book.spec.get("body_mount.position") and other.owner == "body":
        back = _back(own, other)
        return (
            "body_mount.position",
            f"{book.say(back)} nearer to the base end it would stand clear",
        )
    typed = next((n for n in names if book.spec.has(n)), None)
    return typed or (f"{table}.mount" if table in CALLED else names[0]), _would(book, table)


def _would(book: Ledger, table: str) -> str:
    return WOULD[table].format(called(book, table) if table in CALLED else "")


def _back(mount: Part, other: Part) -> float:
    """Give how far a mount on the barrel moves back (mm) until the other part is ahead of it."""
    start = around([box_of(p) for p in other.pieces if not p.cut])
    boxes = [box_of(p) for p in mount.pieces if p.name.startswith("body_mount.") and not p.cut]
    return max(box[1] for box in boxes if not apart(box, start)) - start[0]


def overlaps(parts: Iterable[Part], stroke: float) -> Iterator[tuple[Part, Part, str, Shared]]:
    """Give the pairs of parts that share metal, with the pose and where they do."""
    ready = [filled(p) for p in parts]
    open_rod = {id(f): shifted(f, stroke) for f in ready if f.part.owner == "rod"}
    for one, other in combinations(ready, 2):
        poses: list[tuple[str, Filled, Filled]] = [("closed", one, other)]
        if one.part.owner != other.part.owner:
            poses.append(("open", open_rod.get(id(one), one), open_rod.get(id(other), other)))
        for pose, a, b in poses:
            shared = overlap(a, b)
            if shared is not None:
                yield one.part, other.part, pose, shared
                break


def _words(book: Ledger, name: str, part: Part) -> str:
    """Name a piece for a message."""
    table, _, rest = name.partition(".")
    rest = rest.replace("_", " ")
    if table in CALLED:
        return f"the {rest} of the {called(book, table)}"
    return f"the {part.name}" if table == "cylinder" else f"{table}'s {rest}"

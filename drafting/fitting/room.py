"""What is found in the machine: what is near, what is struck, what is swallowed whole.

The meshes say where it may be (``sweep``); the kernel decides what is near, and a point inside of
both swears to every clash (``clash``). Meshes lie within a tenth of a millimetre of their faces, so
that what they find nearer than twice that to what is asked, and every clash, is not theirs to say.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import isnan
from pathlib import Path

from drafting.fitting import exact
from drafting.fitting.ahead import ahead
from drafting.fitting.clash import Struck, struck
from drafting.fitting.clearance import AT_THE_PIN, Clearance, Room
from drafting.fitting.machine import Machine
from drafting.fitting.meshes import FINE, box_of, compound
from drafting.fitting.pinned import unpinned
from drafting.fitting.sight import MachineSolid, Sight
from drafting.fitting.step_file import Solids, read_solids
from drafting.fitting.subject import Subject
from drafting.fitting.sweep import Seen, sweep
from drafting.fitting.turning import turns
from drafting.shape.pieces import Part
from drafting.solids.build import kernel_volume

MOST_EXACT = 3
"""Pairs clear by more than a millimetre that the kernel confirms, nearest first, of what sits in
the machine's ears and of the rest; others keep what the mesh found. All nearer ones are confirmed.
"""


def room(s: Subject, m: Machine, keep: Path | None = None) -> Room:
    """Read the machine's model and look through it; raises Refused for a model that cannot be."""
    assert m.model is not None
    return look(s, m, read_solids(m, keep))


def look(s: Subject, m: Machine, solids: Solids) -> Room:
    """Look at the travel in a machine whose solids are read."""
    v = Sight(s, m, solids)
    done = list(_confirmed(v, sweep(v)))
    found = _once([*done, *_swallowed(v, done)])
    order = tuple(sorted(found, key=lambda c: (-c.clash, c.gap - c.asked)))
    return Room(
        v.seat, solids, order, v.ats, v.reach, unpinned(v), v.bare(), ahead(v),
        turns(v, order),
    )  # fmt: skip


def _once(found: list[Clearance]) -> list[Clearance]:
    """Give each piece and solid once: struck before clear, then the earlier on the travel."""
    once: dict[tuple[str, str], Clearance] = {}
    for c in sorted(found, key=lambda c: (not c.clash, c.at)):
        once.setdefault((c.piece, c.solid), c)
    return list(once.values())


def _confirmed(v: Sight, seen: list[Seen]) -> Iterator[Clearance]:
    """Let the kernel decide what struck, what is near, and the nearest of the rest."""
    clashes: dict[tuple[int, str, float], Struck | None] = {}
    order = sorted(seen, key=lambda s: s.gap - v.things[s.thing].asked)
    counts = {True: 0, False: 0}
    for s in order:
        thing, near = v.things[s.thing], v.near[s.near]
        pin = thing.name.startswith(AT_THE_PIN)
        counts[pin] += 1
        close = s.gap < thing.asked + 10 * FINE
        if not s.meets and not close and counts[pin] > MOST_EXACT:
            yield _clear(v, s, s.gap, s.at, False)
            continue
        tried = s.meets or ((s.at,) if s.gap < 2 * FINE else ())
        hit = next(((at, c) for at in tried if (c := _struck(v, s, at, clashes))), None)
        if hit is not None:
            at, found = hit
            yield Clearance(
                thing.name, near.solid.name, 0.0, at, thing.asked, found.volume, True,
                deep=found.deep,
            )  # fmt: skip
            continue
        # The mesh may err by which of two neighbouring places is the nearer.
        ats = {s.at, *(s.beside if close else ()), *_some(s.meets)}
        gaps = {at: _exact_gap(v, s, at) for at in sorted(ats)}
        if not abs(gaps[s.at] - s.gap) <= 2 * FINE + exact.HAIR:  # nan too
            lesser = s.gap if isnan(gaps[s.at]) else min(s.gap, gaps[s.at])
            yield _clear(v, s, lesser, s.at, False, doubt=True)
            continue
        at = min(gaps, key=lambda k: gaps[k])
        gap = gaps[at]
        yield _clear(v, s, gap, at, True)


def _clear(
    v: Sight, s: Seen, gap: float, at: float, confirmed: bool, doubt: bool = False
) -> Clearance:
    thing, near = v.things[s.thing], v.near[s.near]
    never = min(s.never, gap)
    return Clearance(
        thing.name, near.solid.name, gap, at, thing.asked, 0.0, confirmed, doubt, never, s.step
    )


def _some(ats: tuple[float, ...]) -> tuple[float, ...]:
    """Give the first, the middle and the last."""
    return () if not ats else (ats[0], ats[len(ats) // 2], ats[-1])


def _struck(
    v: Sight, s: Seen, at: float, known: dict[tuple[int, str, float], Struck | None]
) -> Struck | None:
    """Tell whether the piece's part and the solid share metal at a place."""
    thing, solid = v.things[s.thing], v.near[s.near].solid
    key = (thing.part, solid.name, at)
    if key not in known:
        pose = v.seen(thing.rod, solid.moves, at)
        known[key] = struck(v.metals[thing.part], solid.metal, pose)
    return known[key]


def _exact_gap(v: Sight, s: Seen, at: float) -> float:
    thing, near = v.things[s.thing], v.near[s.near]
    own = exact.placed(compound(thing.mesh.faces), v.seen(thing.rod, near.solid.moves, at))
    return exact.distance(own, exact.near_faces(near.mesh.faces, own, s.gap + 4 * FINE))


def _swallowed(v: Sight, done: list[Clearance]) -> Iterator[Clearance]:
    """Find parts wholly inside a solid, or a solid wholly inside a part: no faces meet there.

    Looked at where the travel starts, and where a piece of the part comes nearest to the solid:
    what is swallowed elsewhere has been crossed on the way.
    """
    for k, part in enumerate(v.parts):
        rod = part.owner == "rod"
        names = {t.name for t in v.things if t.part == k}
        for solid in v.solids:
            mine = [c for c in done if c.solid == solid.name and c.piece in names]
            first = min((c.at for c in mine if c.clash), default=None)
            nearest = [min(mine, key=lambda c: c.gap).at] if mine and first is None else []
            for at in dict.fromkeys((*v.ats[:1], *nearest)):
                if first is not None and first <= at:
                    continue
                volume = _inside(v, k, solid, rod, at)
                if volume:
                    yield Clearance(_main(names, part), solid.name, 0.0, at, 0.0, volume, True)
                    break


def _main(names: set[str], part: Part) -> str:
    """Give the piece that a part goes by: the cylinder's own before ports and mounts."""
    return min(names, key=lambda n: (not n.startswith("cylinder."), n), default=part.name)


def _inside(v: Sight, k: int, solid: MachineSolid, rod: bool, at: float) -> float:
    """Give the volume of the one that lies in the other, 0 where neither does; no faces cross."""
    ours, pose = v.metals[k], v.seen(rod, solid.moves, at)
    box = exact.corners(box_of(ours.shape), pose)
    if not exact.boxes_meet(box, solid.box, 0.0):
        return 0.0
    own, its = exact.corner(ours.shape), exact.corner(solid.metal.shape)
    if own is not None and solid.metal.holds(exact.moved(own, pose)):
        return abs(kernel_volume(ours.shape))
    if its is not None and ours.encloses(exact.moved(its, exact.undone(pose))):
        return abs(kernel_volume(solid.metal.shape))
    return 0.0

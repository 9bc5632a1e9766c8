"""The meshes asked over the travel: how near each piece comes to each solid, and where they meet.

First at every place. Between two places a and b a gap is no less than half of what both have less
the farthest that the piece may go from a to b (``stray``). Where that is less than what is asked
the middle is looked at too, the worst stretch first, until it is enough for the whole travel or the
count of looks is used up; then the widest stretch that is left is told.
"""

from __future__ import annotations

import heapq
import itertools

import numpy as np

from drafting.fitting import exact
from drafting.fitting.meshes import FINE, Array, apart, put, touch
from drafting.fitting.sight import Near, Sight, Thing
from drafting.records import dataclass

MOST_LOOKS = 60
"""Places between the first ones that are looked at for one pair."""
MOST_OF_ALL = 3_000
"""The same for all pairs together."""
HOME = np.eye(4)
NARROW = 1e-3
"""Share of the travel: no stretch is halved that is narrower."""


@dataclass(frozen=True, slots=True)
class Seen:
    """What the meshes saw of a thing and a solid: the least gap (mm), its place, where they meet.

    ``never`` is what the gap falls below nowhere on the travel (mm, by the meshes); ``step`` the
    widest stretch within which it may come nearer than what is asked, 0 where that is sure.
    """

    thing: int
    near: int
    gap: float
    at: float
    meets: tuple[float, ...]
    beside: tuple[float, ...]
    never: float
    step: float


class Pair:
    """One piece and one solid: what was seen at which place.

    ``turn`` is how the piece is turned from where it is drawn.
    """

    def __init__(self, v: Sight, thing: Thing, near: Near, turn: Array | None = None) -> None:
        self.v, self.thing, self.near, self.turn = v, thing, near, turn
        self.box = thing.box if turn is None else exact.corners(thing.box, turn)
        self.gaps: dict[float, float] = {}
        self.meets: list[float] = []
        self.rough: set[float] = set()

    def look(self, at: float, enough: float, placed: bool = False) -> float:
        """Give the gap at a place; farther than ``enough`` that of the boxes, which is less."""
        v, thing, near = self.v, self.thing, self.near
        if at in self.gaps and (at not in self.rough or self.gaps[at] >= enough):
            return self.gaps[at]
        # As the solid sees it: its box stays tight.
        pose = v.seen(thing.rod, near.solid.moves, at)
        boxes = exact.boxes_apart(exact.corners(self.box, pose), near.box)
        if boxes >= enough:
            self.gaps[at] = boxes
            self.rough.add(at)
            return boxes
        self.rough.discard(at)
        put(thing.mesh, pose if self.turn is None else pose @ self.turn)
        put(near.mesh, HOME)
        if touch(thing.mesh, near.mesh):
            self.meets.append(at)
            self.gaps[at] = 0.0
        else:
            self.gaps[at] = apart(thing.mesh, near.mesh)
        return self.gaps[at]

    def goes(self, a: float, b: float) -> float:
        """Give how far the piece may go between two places, as the solid sees it."""
        return self.v.stray.between(self.thing.rod, self.near.solid.moves, self.box, a, b)

    def floor(self, a: float, b: float) -> float:
        """Give what the gap does not fall below between two places."""
        return (self.gaps[a] + self.gaps[b] - self.goes(a, b)) / 2

    def seen(self, t: int, n: int, step: float, never: float) -> Seen | None:
        """Give what was seen; None where only boxes were asked."""
        known = {at: g for at, g in self.gaps.items() if at not in self.rough}
        if not known:
            return None
        at = min(known, key=lambda k: (known[k], k))
        order = sorted(known)
        k = order.index(at)
        beside = tuple(order[max(k - 1, 0) : k] + order[k + 1 : k + 2])
        return Seen(t, n, known[at], at, tuple(sorted(self.meets)), beside, never, step)


def sweep(v: Sight) -> list[Seen]:
    """Ask the meshes over the travel; what stays farther than ``v.reach`` is left out."""
    out = []
    left = MOST_OF_ALL
    for t, thing in enumerate(v.things):
        for n, near in enumerate(v.near):
            pair = Pair(v, thing, near)
            least = v.reach
            still = bool(v.ats) and pair.goes(v.ats[0], v.ats[-1]) == 0.0
            ats = v.ats[:1] if still else v.ats  # what does not move is asked once
            for at in ats:
                least = min(least, pair.look(at, least))
            used, step, never = between(pair, ats, least, min(left, MOST_LOOKS))
            left -= used
            found = pair.seen(t, n, step, never)
            if found is not None and found.gap < v.reach:
                out.append(found)
    return out


def between(
    pair: Pair, ats: tuple[float, ...], least: float, most: int
) -> tuple[int, float, float]:
    """Look between the places where it may be too near: looks used, the step left, the floor.

    ``least`` is the least gap that was seen at the places ``ats``, ``most`` how many more may be.
    """
    v = pair.v
    asked = pair.thing.asked + 2 * FINE
    # What is too near as it is, is looked at for a clash alone.
    wanted = asked if least >= asked else 2 * FINE
    narrow = NARROW * (ats[-1] - ats[0]) if ats else 0.0
    heap = [(pair.floor(a, b), a, b) for a, b in itertools.pairwise(ats)]
    heapq.heapify(heap)
    used, done = 0, []
    while heap and heap[0][0] < wanted and not pair.meets:
        low, a, b = heapq.heappop(heap)
        if used >= most or b - a < narrow:
            done.append((low, a, b))
            if used >= most:
                break
            continue
        pair.look(a, v.reach)
        pair.look(b, v.reach)
        low = pair.floor(a, b)
        if low < wanted:
            mid = (a + b) / 2
            used += 1
            pair.look(mid, v.reach)
            for ends in ((a, mid), (mid, b)):
                heapq.heappush(heap, (pair.floor(*ends), *ends))
        else:
            heapq.heappush(heap, (low, a, b))
    rest = heap + done
    step = max((b - a for low, a, b in rest if low < wanted), default=0.0)
    never = min((low for low, _, _ in rest), default=least)
    return used, step, max(min(never, least) - 2 * FINE, 0.0)

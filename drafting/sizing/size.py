"""Sizing: the cylinders of the standard series that do a duty, or which wish stands in the way.

Of those that do it, the ones with a tenth of force to spare for friction (common practice) come
first; then the least oil for a stroke out, then the least weight. The first of them are settled as
whole cylinders; what a check fails is dropped, with the reason.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import combinations

from drafting.checks.bands import ON_COLUMN
from drafting.records import dataclass
from drafting.sizing.candidates import Candidate, lay_out, pairs
from drafting.sizing.duty import DutyFile
from drafting.sizing.whole import Dropped, Whole, settle

FRICTION_SPARE = 1.1
"""Force to spare for friction of the seals, common practice."""
MOST = 8
"""Proposals that are settled as whole cylinders."""


@dataclass(frozen=True, slots=True)
class Wish:
    """Something asked. ``at_least`` tells whether more is better; sizes in ``unit``."""

    field: str
    words: str
    asked: float
    unit: str
    at_least: bool
    measure: Callable[[Candidate], float]

    def ratio(self, c: Candidate) -> float:
        """Give how well a candidate meets it: 1 just so, above 1 with room to spare."""
        have = self.measure(c)
        return have / self.asked if self.at_least else self.asked / have

    def met(self, c: Candidate) -> bool:
        """Tell whether a candidate meets it."""
        return self.ratio(c) >= 1.0 - 1e-9


@dataclass(frozen=True, slots=True)
class Obstacle:
    """Wishes which, dropped together, would let a candidate through, and what it would take.

    ``needed`` is for each wish what it would have to be relaxed to, in its own unit.
    """

    wishes: tuple[Wish, ...]
    needed: tuple[float, ...]
    nearest: Candidate


@dataclass(frozen=True, slots=True)
class Sizing:
    """The outcome: proposals best first, or the obstacles when no candidate does the duty.

    ``passed`` candidates do it by their forces, lengths and column. ``dropped`` ranked among the
    proposals and is none, with the reason.
    """

    duty: DutyFile
    wishes: tuple[Wish, ...]
    proposals: tuple[Whole, ...]
    dropped: tuple[Dropped, ...]
    obstacles: tuple[Obstacle, ...]
    passed: int
    looked_at: int

    def margin(self, c: Candidate) -> float:
        """Give the least ratio of force to what is asked."""
        return min(w.ratio(c) for w in self.wishes if w.field in ("duty.push", "duty.pull"))


def size(duty: DutyFile, most: int = MOST) -> Sizing:
    """Size a duty and settle the ``most`` best candidates as whole cylinders."""
    wishes = wishes_of(duty)
    laid = [lay_out(p, duty) for p in pairs(duty.series)]
    good = [c for c in laid if all(w.met(c) for w in wishes)]
    plain = Sizing(duty, wishes, (), (), (), len(good), len(laid))
    ranked = sorted(good, key=lambda c: (plain.margin(c) < FRICTION_SPARE, c.oil_out, c.mass))
    proposals: list[Whole] = []
    dropped: list[Dropped] = []
    for c in ranked:
        if len(proposals) == most:
            break
        found = settle(duty, c)
        (proposals if isinstance(found, Whole) else dropped).append(found)  # type: ignore[arg-type]
    return replace(
        plain,
        proposals=tuple(proposals),
        dropped=tuple(dropped),
        obstacles=() if good else _obstacles(wishes, laid),
    )


def wishes_of(duty: DutyFile) -> tuple[Wish, ...]:
    """Give the wishes of a duty, forces first."""
    found: list[Wish] = []

    def wish(
        field: str,
        words: str,
        asked: float | None,
        unit: str,
        at_least: bool,
        measure: Callable[[Candidate], float],
    ) -> None:
        if asked is not None:
            found.append(Wish(field, words, asked, unit, at_least, measure))

    wish("duty.push", "push", duty.push, "N", True, lambda c: c.push)
    wish("duty.pull", "pull", duty.pull, "N", True, lambda c: c.pull)
    if duty.push:
        load = duty.push
        factor = duty.safety_factor or ON_COLUMN.ample
        words = "factor against buckling"
        wish("duty.safety_factor", words, factor, "", True, lambda c: c.column / load)
    if duty.flow is not None:
        wish(
            "duty.seconds_out",
            "time out",
            duty.seconds_out,
            "s",
            False,
            lambda c: c.seconds_out or 0.0,
        )
        wish(
            "duty.seconds_in",
            "time in",
            duty.seconds_in,
            "s",
            False,
            lambda c: c.seconds_in or 0.0,
        )
    wish("supply.flow", "flow that its ports pass", duty.flow, "l/s", True, lambda c: c.passes)
    wish("room.retracted", "closed length", duty.retracted, "mm", False, lambda c: c.axis.least)
    wish(
        "room.largest_outside",
        "room round the barrel, its ports left out",
        duty.largest_outside,
        "mm",
        False,
        lambda c: c.outside,
    )
    wish(
        "supply.pressure",
        "wall of a stock tube, as a part of what is asked",
        1.0,
        "",
        True,
        lambda c: c.wall,
    )
    return tuple(found)  # fmt: skip


def _obstacles(wishes: Sequence[Wish], laid: Sequence[Candidate]) -> tuple[Obstacle, ...]:
    """Give the smallest sets of wishes that stand in the way, each with the nearest candidate."""
    for count in range(1, len(wishes) + 1):
        found = []
        for dropped in combinations(wishes, count):
            kept = [w for w in wishes if w not in dropped]
            through = [c for c in laid if all(w.met(c) for w in kept)]
            if through:
                best = max(through, key=lambda c: min(w.ratio(c) for w in dropped))
                found.append(Obstacle(dropped, tuple(w.measure(best) for w in dropped), best))
        if found:
            return tuple(sorted(found, key=_how_far, reverse=True))
    return ()


def _how_far(obstacle: Obstacle) -> float:
    return min(w.ratio(obstacle.nearest) for w in obstacle.wishes)

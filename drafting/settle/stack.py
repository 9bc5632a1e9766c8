"""The axial stack from the closed end to the rod's datum, and what gives way in it.

    closed end | base cap | piston | stroke | stop tube | gland | stick-out | rod mount | rod datum

Sizes that were typed stand. The others start at a preferred value and give way to a floor, one
after the other in the order of the list, until the retracted length closes. What is left over
lengthens the rod's stick-out, or the first of the others when that was typed. Which body mount
carries the datum decides which sizes count: behind a flange at the rod end only the gland, the
stick-out and the rod mount do.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import product

from drafting.records import dataclass
from drafting.settle.shop_sizes import neat_up

CLOSE_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Give:
    """One size of the stack: its dotted name, value, and the floor it may give way to.

    ``typed`` sizes have no floor. ``label`` is what a message calls it.
    """

    name: str
    label: str
    value: float
    floor: float
    typed: bool
    why: str = ""


def lengthened(give: Give, need: float, units: str, why: str) -> Give:
    """Give a size of which something needs that many mm; a typed one stands as it is."""
    if give.typed:
        return give
    value = max(give.value, neat_up(need, units))
    why = why if value > give.value else give.why
    return replace(give, value=value, floor=max(give.floor, min(need, value)), why=why)


@dataclass(frozen=True, slots=True)
class Solved:
    """The closed stack, or why it does not close.

    ``short_by`` is above 0 when even the floors are too long; then ``sizes`` are the floors.
    ``spare`` is what was left over and lengthened one of them. ``shares`` is how much the length
    grows per mm of each size.
    """

    sizes: Mapping[str, Give]
    short_by: float
    spare: float
    shares: Mapping[str, float]


def close_stack(
    required: float,
    gives: Sequence[Give],
    spare_names: Sequence[str],
    length: Callable[[Mapping[str, float]], float],
    units: str,
) -> Solved:
    """Close the stack to the ``required`` length in mm; shop sizes are those of ``units``.

    ``length`` gives the distance between the datums for a set of sizes; it must be linear in each.
    ``gives`` is in the order of giving way. What is left over goes to the first of ``spare_names``
    that was not typed; where all were, ``short_by`` is below 0.
    """
    sizes = {g.name: g for g in gives}

    def total() -> float:
        return length({n: g.value for n, g in sizes.items()})

    floors = {g.name: (neat_up(g.floor, units), g.floor) for g in gives if not g.typed}
    for k, (name, floor) in product((0, 1), floors.items()):
        over = total() - required
        if over <= CLOSE_MM:
            break
        share, value = _share(name, sizes, length), sizes[name].value
        if share > 0:
            room = max(value - floor[k], 0.0)
            sizes[name] = replace(sizes[name], value=value - min(over / share, room))
    over = total() - required
    spare = 0.0
    free = [n for n in spare_names if not sizes[n].typed and _share(n, sizes, length) > 0]
    if over < -CLOSE_MM and free:
        last = sizes[free[0]]
        spare = -over / _share(last.name, sizes, length)
        sizes[last.name] = replace(last, value=last.value + spare)
        over = 0.0
    shares = {n: round(_share(n, sizes, length), 9) for n in sizes}
    return Solved(sizes, 0.0 if abs(over) <= CLOSE_MM else over, spare, shares)


def visible_barrel(sizes: Mapping[str, float]) -> float:
    """Give the length of the barrel from its closed end to its open end, without the gland."""
    return (
        sizes["cylinder.base_thickness"]
        + sizes["cylinder.piston_length"]
        + sizes["cylinder.stroke"]
        + sizes["cylinder.stop_tube"]
        + sizes["cylinder.spring_space"]
        + sizes["cylinder.gland_length"]
        - sizes["cylinder.gland_projection"]
    )


def _share(
    name: str, sizes: Mapping[str, Give], length: Callable[[Mapping[str, float]], float]
) -> float:
    """How much the datum distance grows per mm of one size: 1, 0, or a half for a middle mount."""
    at = {n: g.value for n, g in sizes.items()}
    return length({**at, name: at[name] + 1.0}) - length(at)

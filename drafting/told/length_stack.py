"""What the retracted length's own tolerances add up to, and what of the chain has none.

    body datum | base cap | piston | rod | rod mount | rod datum

Behind a mount at the closed end the rod is one piece from the piston to its end: stroke, gland and
stick-out are places along it and do not add; its own length has no field and no tolerance here.
"""

from __future__ import annotations

from drafting.calc.stack import root_sum_square, worst_case
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.units import Mm

ROD = (
    "cylinder.stroke",
    "cylinder.stop_tube",
    "cylinder.spring_space",
    "cylinder.gland_length",
    "cylinder.rod_stick_out",
)
ROD_LENGTH = "rod length (the builder's)"


@dataclass(frozen=True, slots=True)
class Link:
    """One size of the chain: how much the length grows per mm of it, and its deviations."""

    name: str
    share: float
    lower: Mm | None
    upper: Mm | None

    @property
    def counts(self) -> bool:
        """Tell whether it has a tolerance that is known."""
        return self.lower is not None and self.upper is not None


@dataclass(frozen=True, slots=True)
class LengthStack:
    """Deviations of the retracted length in mm, lower first; ``asked`` is its own tolerance.

    ``links`` are the whole chain; those without a tolerance are in neither sum.
    """

    links: tuple[Link, ...]
    worst: tuple[Mm, Mm]
    likely: tuple[Mm, Mm]
    asked: tuple[Mm, Mm] | None

    @property
    def counted(self) -> tuple[Link, ...]:
        """Give the links that are in the sums."""
        return tuple(k for k in self.links if k.counts)

    @property
    def left_out(self) -> tuple[str, ...]:
        """Name the links without a tolerance."""
        return tuple(k.name for k in self.links if not k.counts)

    @property
    def too_wide(self) -> bool:
        """Tell whether what is counted alone goes beyond what is asked."""
        if self.asked is None:
            return False
        return self.worst[0] < self.asked[0] - 1e-9 or self.worst[1] > self.asked[1] + 1e-9


def length_stack(c: Cylinder) -> LengthStack:
    """Add up the tolerances of the chain that makes the retracted length."""
    whole = c.shares.get("cylinder.stroke") == 1.0
    names = [n for n, share in c.shares.items() if share and not (whole and n in ROD) and _is(c, n)]
    links = [_link(c, n, c.shares[n]) for n in names]
    if whole:
        links.append(Link(ROD_LENGTH, 1.0, None, None))
    halves, middle = [], 0.0
    for k in links:
        if k.lower is not None and k.upper is not None:
            halves.append(k.share * (k.upper - k.lower) / 2)
            middle += k.share * (k.upper + k.lower) / 2
    worst, likely = worst_case(halves), root_sum_square(halves)
    own = c.tolerances.get("cylinder.retracted")
    known = own is not None and own.lower is not None and own.upper is not None
    return LengthStack(
        tuple(links),
        (middle - worst, middle + worst),
        (middle - likely, middle + likely),
        (own.lower, own.upper) if own is not None and known else None,  # type: ignore[arg-type]
    )


def _is(c: Cylinder, name: str) -> bool:
    """Tell whether a size is there at all: a stop tube of 0 is no link."""
    value = c.value(name)
    return value is not None and bool(value.value)


def _link(c: Cylinder, name: str, share: float) -> Link:
    held = c.tolerances.get(name)
    return Link(name, share, held.lower if held else None, held.upper if held else None)

"""Broken views: where metal is left out of a long view, and how true and drawn places belong.

View millimetres along x. Left of the first cut both are equal; each cut brings what lies right of
it nearer, until only its gap is left.
"""

from __future__ import annotations

from collections.abc import Iterator

from drafting.drawing.sheet.on_paper import clip, placed
from drafting.drawing.sheet.strokes import Curve, Point2
from drafting.records import dataclass

FAR = 1e7
"""Farther (mm) than anything drawn."""


@dataclass(frozen=True, slots=True)
class Cut:
    """What is left out, from ``lo`` to ``hi`` (true x); ``gap`` of it stays as free paper."""

    lo: float
    hi: float
    gap: float

    @property
    def saved(self) -> float:
        """Give by how much the view gets shorter."""
        return self.hi - self.lo - self.gap


@dataclass(frozen=True, slots=True)
class Breaks:
    """The cuts of one view, from the left."""

    cuts: tuple[Cut, ...]

    @property
    def saved(self) -> float:
        """Give by how much the view gets shorter."""
        return sum(c.saved for c in self.cuts)

    @property
    def gaps(self) -> tuple[tuple[float, float], ...]:
        """Give the gaps as they are drawn (x from, x to)."""
        out, shift = [], 0.0
        for cut in self.cuts:
            out.append((cut.lo - shift, cut.lo - shift + cut.gap))
            shift += cut.saved
        return tuple(out)

    @property
    def stretches(self) -> Iterator[tuple[float, float, float]]:
        """Give what is drawn, as (true x from, to, how far it is moved left)."""
        left, shift = -FAR, 0.0
        for cut in self.cuts:
            yield left, cut.lo, shift
            left, shift = cut.hi, shift + cut.saved
        yield left, FAR, shift

    def drawn(self, x: float) -> float:
        """Give where a true x is drawn; what is left out comes to the nearer edge of its gap."""
        for cut in self.cuts:
            if cut.lo < x < cut.hi:
                x = cut.lo if x - cut.lo < cut.hi - x else cut.hi
        return next(x - shift for lo, hi, shift in self.stretches if lo <= x <= hi)

    def true(self, x: float) -> float:
        """Give the true x of what is drawn; a gap belongs to the metal left of its middle."""
        shift = 0.0
        for cut, (lo, hi) in zip(self.cuts, self.gaps, strict=True):
            if x > (lo + hi) / 2:
                shift += cut.saved
        return x + shift

    def true_point(self, p: Point2) -> Point2:
        """Give the true point of a drawn one."""
        return (self.true(p[0]), p[1])

    def shown(self, curve: Curve) -> list[Curve]:
        """Give what of a true curve is drawn, where it is drawn; exact for lines and arcs."""
        out = []
        for lo, hi, shift in self.stretches:
            for piece in clip(curve, (lo, -FAR, hi, FAR)):
                out.append(placed(piece, (-shift, 0.0), 1.0) if shift else piece)
        return out

"""A reading of a diameter as the nearest common size, or as the two that it may be.

A new part lies in a narrow band beside its common size; wear moves it to one side only: rods and
pins get thinner, bores wider. Readings that agree in two directions or places show no wear, because
wear is never even (common practice). A size counts as known only when the reading leaves no other.
"""

from __future__ import annotations

from functools import cache
from typing import Literal

from drafting.records import dataclass
from drafting.standards.sizes import usual_sizes
from drafting.standards.table import SAME_MM, table
from drafting.units import format_inch, format_mm

Snapped = Literal["bore", "rod", "pin"]

FITS_SIGMA = 3.0
"""A reading that lies further than this from a new part's band is not that size unworn."""
CLOSE_SIGMA = 2.0
"""Beyond this the size is likely, not sure."""
NEW_MM: dict[Snapped, tuple[float, float]] = {
    "rod": (-0.08, 0.0),
    "bore": (0.0, 0.12),
    "pin": (-0.13, 0.0),
}
"""A new part against its common size: about f8, H9 and h11 of ISO 286-2 at 50 mm, rounded up."""
WORN_MM: dict[Snapped, float] = {"rod": 0.3, "bore": 0.8, "pin": 2.0}
"""Wear beyond this is no longer taken for the same part; common practice."""
CAUSE: dict[Snapped, str] = {
    "rod": "chrome loss or wear",
    "bore": "wear or a bell-mouth",
    "pin": "wear",
}
MORE_RODS_MM = (30.0, 35.0, 55.0, 60.0, 65.0, 75.0)
MORE_RODS_IN = (0.5, 0.875, 2.75, 3.25)
"""Chromed bar as it is sold beside the standard's rods; common practice, recalled."""


@dataclass(frozen=True, slots=True)
class Size:
    """A common size in mm and how it is said."""

    mm: float
    inch: bool

    @property
    def words(self) -> str:
        """Give the size in its own system."""
        return f"{format_inch(self.mm, 64)} in" if self.inch else f"{format_mm(self.mm)} mm"


@dataclass(frozen=True, slots=True)
class SizeGuess:
    """A size that a reading may be. ``away`` counts standard uncertainties beyond the new band.

    ``worn`` is the wear in mm that it would take, 0 for a part like new.
    """

    size: Size
    away: float
    worn: float


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a reading was taken to be. ``sure`` only when no other size is left."""

    sure: bool
    candidates: tuple[SizeGuess, ...]
    note: str
    decide: str = ""

    @property
    def best(self) -> SizeGuess | None:
        """Give the likeliest size."""
        return self.candidates[0] if self.candidates else None


@cache
def common_sizes(kind: Snapped) -> tuple[Size, ...]:
    """Give every common size of a kind, rising; bores with those of stock tube."""
    found = {u.mm: u.inch for u in usual_sizes(kind)}
    if kind == "rod":
        found |= dict.fromkeys(MORE_RODS_MM, False)
        found |= {i * 25.4: True for i in MORE_RODS_IN}
    if kind == "bore":
        for row in table("tube").rows:
            mm = row.required("id_mm")
            if not any(abs(mm - known) <= SAME_MM for known in found):
                found[mm] = row.word("system") == "inch"
    return tuple(Size(mm, inch) for mm, inch in sorted(found.items()))


def candidates(kind: Snapped, mm: float, u: float, even: bool) -> tuple[SizeGuess, ...]:
    """Give the sizes that a reading with standard uncertainty ``u`` may be, likeliest first.

    ``even``: the readings agree in two places or directions, so that wear is ruled out.
    """
    lo, hi = NEW_MM[kind]
    sign = 1.0 if kind == "bore" else -1.0
    found: list[SizeGuess] = []
    for size in common_sizes(kind):
        off = mm - size.mm
        beyond = max(lo - off, off - hi, 0.0)
        away = beyond / u
        if away <= FITS_SIGMA:
            found.append(SizeGuess(size, away, 0.0))
        elif not even and off * sign > 0 and beyond <= WORN_MM[kind]:
            found.append(SizeGuess(size, away, beyond))
    return tuple(sorted(found, key=lambda c: (c.worn, round(c.away, 1), abs(mm - c.size.mm))))


def verdict(
    kind: Snapped, mm: float, u: float, even: bool, system: str, inch_share: float | None
) -> Verdict:
    """Judge a reading. ``system`` is what the file says of the maker, "" when it says nothing.

    ``inch_share`` is how much of the rest is inch (0 to 1), None when nothing else is known: it
    puts one of two in front, and decides nothing.
    """
    return choose(kind, candidates(kind, mm, u, even), system, inch_share)


def choose(
    kind: Snapped, left: tuple[SizeGuess, ...], system: str, inch_share: float | None
) -> Verdict:
    """Choose among the candidates that are left."""
    if not left:
        return Verdict(False, (), f"no common {kind} is near", "measure again; then decide")
    noted = ""
    if system:
        own = tuple(c for c in left if c.size.inch == (system == "inch"))
        dropped = [c.size.words for c in left if c not in own]
        if not own:
            note = f"{' or '.join(dropped[:2])}, but the maker worked in {system}"
            return Verdict(False, left, f"{note}: worn evenly, or not of this maker?", DECIDE[kind])
        noted = f"not {', '.join(dropped)}: the maker worked in {system}" if dropped else ""
        left = own
    if len(left) > 1 and inch_share is not None and not left[0].worn:
        left = tuple(sorted(left, key=lambda c: (c.worn > 0, _against(c, inch_share))))
    best = left[0]
    if len(left) > 1:
        words = " or ".join(c.size.words for c in left[:3])
        why = "as likely as each other" if left[1].away < best.away + 1 else "both fit"
        if best.worn or left[1].worn:
            why = f"the larger one with {CAUSE[kind]}" if kind != "bore" else CAUSE[kind]
        rest = ""
        if inch_share in (0.0, 1.0):
            alike = best.size.inch == (inch_share == 1.0)
            speaks = "so rather" if alike else "which speaks against"
            rest = f"; the rest is {'inch' if inch_share else 'metric'}, {speaks} {best.size.words}"
        return Verdict(False, left, f"{words}: {why}{rest}", DECIDE[kind])
    if best.worn:
        note = f"{best.size.words} only with {CAUSE[kind]} of {format_mm(best.worn)} mm"
        return Verdict(False, left, note, DECIDE[kind])
    if best.away > CLOSE_SIGMA:
        return Verdict(False, left, f"{best.size.words}, at the edge: {CAUSE[kind]}?", DECIDE[kind])
    return Verdict(True, left, noted)


DECIDE: dict[Snapped, str] = {
    "rod": "a micrometer where the rod is bright and never ran in the gland, two directions; or "
    'the size marked on its rod seal; system = "inch" or "metric" when a thread on it tells',
    "bore": "two directions deep inside, past thread and chamfer; or the piston and its seal; or "
    "the force at a known pressure",
    "pin": "the pin where it never turned, two directions, and the hole along and across; a new "
    'pin of either size tried in the hole; system = "inch" or "metric" when a thread tells',
}
"""The reading that would decide."""


def _against(c: SizeGuess, inch_share: float) -> float:
    """Weigh a candidate: its distance, and up to one unit for being of the other system."""
    return c.away + (1.0 - inch_share if c.size.inch else inch_share)

"""Where a mount that sits on the barrel lies along it.

closed end                              barrel end
|<-- from_closed_end -->|
+-----------------------+--------------------+
|            behind |<--|-->| ahead          |
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from drafting.model.mounts.words import settle_word
from drafting.records import dataclass
from drafting.settle.ledger import Ledger
from drafting.settle.mount import Host, Mount, Neighbour
from drafting.settle.stack import visible_barrel
from drafting.settle.stations import CLEAR, Stations
from drafting.settle.wishes import Length
from drafting.shape.frame import ORIGIN, X

EDGE = 0.02
"""A mount may stand this far (mm) over an edge of the barrel and still count as on it."""


@dataclass(frozen=True, slots=True)
class Place:
    """A word of the spec, or a distance (mm) from the closed end to the datum.

    ``behind`` and ``ahead`` say how far the mount reaches from its datum towards base and rod,
    ``skirt`` how much of the barrel's end a cap gland goes over, as a share of the gland. One at
    the base may be at ``mid_cap``, the middle of a square cap, where that is not too short. At an
    end it goes ``past`` ports of that end that it would be in the way of, unless it is ``tight``.
    """

    table: str
    at: str | float
    behind: float
    ahead: float
    skirt: float = 0.0
    mid_cap: bool = False
    past: tuple[Neighbour, ...] = ()
    tight: bool = False

    def from_closed_end(self, sizes: Mapping[str, float]) -> float:
        """Give the distance from the closed end to the datum, for the sizes of the stack."""
        usual = self._usual(sizes)
        for port in () if self.tight else self.past:
            x, room = port.lies(sizes), port.room / 2
            if x - room < usual + self.ahead and usual - self.behind < x + room:
                return x + room + self.behind if self.at == "base" else x - room - self.ahead
        return usual

    def _usual(self, sizes: Mapping[str, float]) -> float:
        if isinstance(self.at, float):
            return self.at
        if self.at == "base":
            middle = sizes["cylinder.base_thickness"] / 2
            return max(middle, self.behind) if self.mid_cap else self.behind
        barrel = visible_barrel(sizes)
        if self.at == "middle":
            return barrel / 2
        capped = self.skirt and sizes["cylinder.gland_projection"] > 0
        cap = self.skirt * sizes["cylinder.gland_length"] + CLEAR if capped else 0.0
        return barrel - self.ahead - cap

    def on_end(
        self, lo: float, hi: float, least: Mapping[str, float]
    ) -> tuple[str, float, float] | None:
        """Give the end on whose square cap or head stands what reaches from lo to hi off the datum.

        With it from where to where that is, from the outer face (mm). A typed place is on the cap
        where even the shortest one has some of it; whether it is on the head is known only when the
        stack is closed: None, as for one that stands on neither.
        """
        if self.at == "rod end":
            return "rod", self.ahead - hi, self.ahead - lo
        at = self.behind if self.at == "base" else self.at
        if isinstance(at, str) or at + lo >= least["cylinder.base_thickness"]:
            return None
        return "base", at + lo, at + hi

    @property
    def share(self) -> float:
        """Give how much of a longer stroke lengthens the barrel from the datum to the gland."""
        return {"rod end": 0.0, "middle": 0.5}.get(str(self.at), 1.0)

    def enter(self, book: Ledger, s: Stations) -> None:
        """Enter where the datum came to lie."""
        why = "from the closed end to the datum"
        if self.past and not self.tight:
            why += "; clear of the port at its hour"
        if self.at == "rod end" and self.skirt and s.gland_face > s.barrel_end:
            why += (
                f"; behind the gland's cap, which goes {self.skirt:g} of its length over the barrel"
            )
        book.compute(f"{self.table}.from_closed_end", -s.closed_end, why)

    def wish(self, s: Stations) -> Length:
        """Give the distance from the closed end to the datum; a reference where nobody typed it."""
        typed = isinstance(self.at, float)
        name = f"{self.table}.{'position' if typed else 'from_closed_end'}"
        return Length(name, (s.closed_end, 0.0, 0.0), ORIGIN, X, rank=5, reference=not typed)

    def stays_on(self, book: Ledger, s: Stations, word: str) -> None:
        """Refuse a mount that would stand over the barrel's ends."""
        barrel = s.barrel_end - s.closed_end
        at = -s.closed_end
        if at - self.behind < -EDGE or at + self.ahead > barrel + EDGE:
            book.fault(
                "off-barrel",
                f"{self.table}.position",
                f"the {word} would reach from {book.say(at - self.behind)} to "
                f"{book.say(at + self.ahead)} from the closed end, but the barrel is "
                f"{book.say(barrel)} long; its datum can lie from {book.say(self.behind)} to "
                f"{book.say(barrel - self.ahead)}",
            )


def settle_place(
    book: Ledger, host: Host, otherwise: str, why: str, behind: float, ahead: float
) -> Place:
    """Settle ``position``: a word, a distance, or the mount's usual place, to be confirmed."""
    name = f"{host.table}.position"
    found = book.spec.get(name)
    place = Place(host.table, otherwise, behind, ahead, host.skirt)
    if found is not None and not isinstance(found.value, str):
        return replace(place, at=book.number(name, interface=True) or 0.0)
    return replace(place, at=settle_word(book, name, otherwise, why))


def with_ports(host: Host, mount: Mount, end: str, start: float, stop: float) -> float:
    """Give how long a cap or head is with the mount on it and, beside that, the ports in its way.

    The mount reaches from ``start`` to ``stop`` from the outer face (mm).
    """
    room = max((n.room for n in _in_way(host, mount, end)), default=0.0)
    return stop + room if start < room else stop


def beside_ports(place: Place, host: Host, mount: Mount) -> tuple[Neighbour, ...]:
    """Give the ports in whose way it is, between a mount on a round barrel and its end of that."""
    end = {"base": "base", "rod end": "rod"}.get(str(place.at), "")
    there = () if host.square else _in_way(host, mount, end)
    return tuple(n for n in there if n.typed is None or (n.typed < 0) is (end == "base"))


def _in_way(host: Host, mount: Mount, end: str) -> Iterator[Neighbour]:
    """Give the ports of an end that the mount would be in the way of, and need not be."""
    for port in (n for n in host.neighbours if n.end == end):
        span = mount.taken(host, port.clock, port.across)
        if span and (port.typed is None or not span[0] < port.typed < span[1]):
            yield port


def stack_need(end: str, long: float, least: Mapping[str, float]) -> dict[str, float]:
    """Give by the stack's name what makes a cap or head so long (mm)."""
    if end == "base":
        return {"cylinder.base_thickness": long}
    return {"cylinder.gland_length": long + least["cylinder.gland_projection"]}

"""Foot: plates beside the barrel that bear on a seat along it; the row of bolt holes is the datum.

         pitch along X
       |<------------>|            across
       |   barrel     |          |<---->|
   ----|--------------|----       .----.
       |              |     |    (      )   ---
   +--[|]--+      +--[|]--+ |   +-'----'-+   | seat_height
   +---|---+      +---|---+     +|------|+  ---
     datum                        pitch

With one plate both rows of holes lie in it; a pitch longer than the plate makes two feet. A plate
that lies behind the closed end is an angle: it stands on an upright leg against that face.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar

from drafting.model.clock import both_readings, seen_from_rod, viewpoint
from drafting.model.frame import ORIGIN, Frame, X, Y, Z, about_x, scale
from drafting.model.ledger import Ledger, Rule
from drafting.model.mounts.along_barrel import EDGE, Place, settle_place
from drafting.model.mounts.base import Drawn, End, Host, Mount
from drafting.model.mounts.foot_sizes import FootSizes, settle_foot_sizes
from drafting.model.mounts.pinned import ROOT
from drafting.model.pieces import Piece, Prism, box, cylinder
from drafting.model.placing import placed
from drafting.model.tube_parts import Stations
from drafting.model.wishes import Callout, CentreLine, Diameter, Length, Wish

LEG = 0.4
"""Half width of a foot's upright web, in barrel diameters, where the bolts leave room for it."""


@dataclass(frozen=True, slots=True)
class Foot(Mount):
    """One plate or two; ``clock`` (degrees, seen from the rod end) is where the seat faces."""

    place: Place
    sizes: FootSizes
    clock: float

    word: ClassVar[str] = "foot"
    ends: ClassVar[tuple[End, ...]] = ("body",)
    fields: ClassVar[tuple[str, ...]] = (
        "position",
        "plate",
        "thickness",
        "seat_height",
        "bolts",
        "clock",
    )
    example: ClassVar[Mapping[str, object]] = {
        "position": "base",
        "plate": [2, 7],
        "thickness": 0.75,
        "seat_height": 2.5,
        "bolts": {"count": 4, "hole": 0.656, "pitch": [14, 5.5]},
        "clock": "6:00",
    }

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> Foot:
        """Settle plate, seat, bolts and the hour that the seat faces."""
        sizes = settle_foot_sizes(book, host)
        typed = book.size(
            f"{host.table}.clock",
            Rule(180.0, "the seat faces 6 o'clock"),
            interface=True,
            unit="deg",
        )
        first, last = sizes.plates()[0], sizes.plates()[-1]
        place = settle_place(book, host, "base", "a foot at the base", -first[0], last[1])
        if sizes.two:
            place = replace(place, ahead=first[1])
        return cls(place, sizes, seen_from_rod(typed, viewpoint(book)))

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the distance from the datum row back to the closed end; below 0 on the barrel."""
        return -self.place.from_closed_end(sizes)

    def judge(self, book: Ledger, host: Host, s: Stations) -> None:
        """Enter the place; each plate must stand on the barrel or on a leg against its base."""
        self.place.enter(book, s)
        name = f"{host.table}.position"
        for k, (_, x1) in enumerate(self.sizes.plates()):
            which = ("foot", "second foot")[k]
            if x1 > s.barrel_end + EDGE:
                book.fault(
                    "off-barrel",
                    name if k == 0 else f"{host.table}.bolts.pitch",
                    f"the {which} would reach {book.say(x1 - s.closed_end)} from the closed end, "
                    f"but the barrel is {book.say(s.barrel_end - s.closed_end)} long",
                )
            elif x1 < s.closed_end - self.sizes.thickness + EDGE:
                book.fault(
                    "off-barrel",
                    name,
                    f"the {which} would end {book.say(s.closed_end - x1)} behind the closed end "
                    "and meet neither the barrel nor a leg against it",
                )

    def draw(self, host: Host, s: Stations) -> Drawn:
        """Give plates, webs or legs and holes, turned to the hour of the seat."""
        turn = about_x(180.0 - self.clock)
        pieces: list[Piece] = []
        for k, (x0, x1) in enumerate(self.sizes.plates()):
            pieces += self._plate(host, s, x0, x1, str(k + 1) if self.sizes.two else "")
        t, h, hole = host.table, self.sizes.seat_height, self.sizes.hole
        lines: list[CentreLine] = []
        for k, (x, y) in enumerate(self.sizes.holes()):
            at = Frame((x, y, 0.0), scale(Z, -1.0), Y, X)
            top = h - self.sizes.thickness
            cut = cylinder(hole / 2, top - 1.0, h + 1.0)
            pieces.append(Piece(f"{t}.bolts.hole{k + 1}", cut, at, cut=True))
            lines.append(CentreLine(f"{t}.bolts.hole", (x, y, -top), (x, y, -h), host.end))
        wishes = (placed(w, turn) for w in self._wishes(t))
        return Drawn(
            tuple(p.within(turn) for p in pieces),
            (*wishes, self.place.wish(s)),
            tuple(placed(c, turn) for c in lines),
        )

    def _plate(self, host: Host, s: Stations, x0: float, x1: float, tag: str) -> list[Piece]:
        """Give a plate along the seat with what carries it."""
        t, sizes, d = host.table, self.sizes, host.diameter
        h, half = sizes.seat_height, sizes.across / 2
        web = min(LEG * d, sizes.web, half)
        plate = Prism(box(x0, x1, -half, half), -h, sizes.thickness - h)
        pieces = [Piece(f"{t}.plate{tag}", plate)]
        a = max(x0, s.closed_end)
        if x1 - a >= sizes.thickness:
            pieces.append(Piece(f"{t}.web{tag}", Prism(box(a, x1, -web, web), -h, 0.0)))
            return pieces
        b = s.closed_end
        leg = Prism(box(b - sizes.thickness, b, -web, web), -h, 0.25 * d)
        root = cylinder(min(0.2 * d, 0.9 * web), b - sizes.thickness / 2, b + ROOT)
        return [*pieces, Piece(f"{t}.leg{tag}", leg), Piece(f"{t}.leg_root{tag}", root)]

    def _wishes(self, t: str) -> tuple[Wish, ...]:
        sizes = self.sizes
        h, half, pitch = sizes.seat_height, sizes.across / 2, sizes.pitch
        x0, x1 = sizes.plates()[0]
        y = pitch[1] / 2
        words = ("SEAT FACES", both_readings(self.clock))
        wishes: list[Wish] = [
            Length(f"{t}.seat_height", ORIGIN, (0.0, 0.0, -h), Z, rank=3),
            Length(f"{t}.plate.x", (x0, half, -h), (x1, half, -h), X, rank=3),
            Length(f"{t}.plate.across", (x0, -half, -h), (x0, half, -h), Y, rank=3),
            Length(f"{t}.thickness", (x0, half, -h), (x0, half, sizes.thickness - h), Z, rank=2),
            Length(f"{t}.bolts.pitch.across", (0.0, -y, -h), (0.0, y, -h), Y, rank=2),
            Diameter(f"{t}.bolts.hole", (0.0, y, -h), Z, sizes.hole, f"{sizes.count} HOLES"),
            Callout(f"{t}.clock", (x0, 0.0, -h), scale(Z, -1.0), words),
        ]
        if sizes.count == 4:
            end = (pitch[0], y, -h)
            wishes.append(Length(f"{t}.bolts.pitch.x", (0.0, y, -h), end, X, rank=2))
        return tuple(wishes)

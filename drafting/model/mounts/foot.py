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
beside the barrel is a side lug on a web. One that lies past an end is an angle: it stands on an
upright leg against the closed end, or against the head's face round the gland. Two feet of a
tie-rod cylinder that nobody placed stand under cap and head, which alone can carry them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import inf
from typing import ClassVar

from drafting.model.mounts.along_barrel import Place, settle_place, stack_need
from drafting.model.mounts.foot_sizes import FootSizes, settle_foot_sizes, under_head
from drafting.model.mounts.foot_stands import gland_room, judge_stands, stand_of
from drafting.model.mounts.pinned import ROOT
from drafting.model.mounts.read import PLATE
from drafting.records import dataclass
from drafting.settle.carried import Carried, MountBolts, length, welded
from drafting.settle.clock import hour, seen_from_rod, viewpoint
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import End, Host, Mount, MountDrawing
from drafting.settle.placing import placed
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet, ToRead
from drafting.settle.wishes import Callout, CentreLine, Diameter, Length, Wish
from drafting.shape.frame import ORIGIN, Frame, X, Y, Z, about_x, scale
from drafting.shape.pieces import Piece, Prism, box, cylinder

LEG = 0.4
"""Half width of a foot's upright web, in barrel diameters, where the bolts leave room for it."""
BURIED = 0.15
"""How far below the axis a web's top lies inside the barrel, in barrel diameters: at the axis it
would be an edge of the half section, and touch a bore of twice `LEG` in a line."""

ROOT_DEEP, ROOT_WIDE = 0.48, 0.25
"""An angle's root against a head's face, in hosts: how far down, and how far to either side."""
_ON_SEAT = 0.6
"""Where words point at a seat: so far from its middle to its edge, clear of the hour."""


@dataclass(frozen=True, slots=True)
class Foot(Mount):
    """One plate or two; ``clock`` (degrees, seen from the rod end) is where the seat faces.

    ``typed_clock`` is the same as the spec reads clocks.
    """

    place: Place
    sizes: FootSizes
    clock: float
    typed_clock: float

    word: ClassVar[str] = "foot"
    also: ClassVar[str] = "feet foot-mount foot-mounted foot-lugs"
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
    not_sized: ClassVar[str] = (
        "its holes are set by the machine: size it with a flange, then draw the feet"
    )
    datum: ClassVar[str] = "foot's bolt line"
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        "the bolt holes' centre line, of the foot nearer the base",
        (
            ToRead("J", "plate.0", "a foot's plate along the cylinder", "size", "caliper"),
            ToRead("L", "plate.1", "a foot's plate across", "size", "tape"),
            *PLATE,
            ToRead(
                "N",
                "seat_height",
                "centre line to the seat",
                "size",
                "tape",
                "Seat to the barrel's far side, less half of the barrel.",
            ),
            ToRead(
                "M",
                "bolts.pitch.0",
                "holes, centre to centre, along the cylinder",
                "size",
                "tape",
                "Edge to the same edge of the next hole.",
            ),
            ToRead("X", "bolts.pitch.1", "holes, centre to centre, across", "size", "caliper"),
        ),
        {
            "position": "base",
            "plate": (50.0, 180.0),
            "thickness": 18.0,
            "seat_height": 75.0,
            "bolts.count": 4,
            "bolts.hole": 16.0,
            "bolts.pitch": (170.0, 145.0),
        },
        ("H",),
        around=True,
        close_up=(-inf, 260.0),
        one_row=True,
    )

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> Foot:
        """Settle plate, seat, bolts and the hour that the seat faces."""
        sizes = settle_foot_sizes(book, host)
        typed = book.size(
            f"{host.table}.clock",
            Rule(180.0, "below the cylinder", said=hour(180.0)),
            interface=True,
            unit="deg",
        )
        first, last = sizes.plates()[0], sizes.plates()[-1]
        place = settle_place(book, host, "base", "a foot at the base", -first[0], last[1])
        if sizes.two:
            place = replace(place, ahead=first[1], mid_cap=host.square)
        return cls(place, sizes, seen_from_rod(typed, viewpoint(book)), typed)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the distance from the datum row back to the closed end; below 0 on the barrel."""
        return -self.place.from_closed_end(sizes)

    def carried(self, host: Host) -> Carried:
        """Give bolts and weld; the plate's and the web's bending are not judged."""
        t, s = host.table, self.sizes
        rows = None if s.count == 2 else length(f"{t}.bolts.pitch.x")
        bolts = MountBolts(s.count, f"{t}.bolts.hole", "beside", length(f"{t}.seat_height"), rows)
        weld = () if host.square else (welded(t),)
        alone = ("one row of bolts: how the foot tilts on it",) if rows is None else ()
        return Carried(
            (bolts, *weld),
            not_judged=("bending of a foot's plate, web or leg", *alone),
            tube_share=self.place.share,
        )

    def needs(self, host: Host, least: Mapping[str, float]) -> Mapping[str, float]:
        """Give the length of a square cap or head that a plate with one row of holes stands under.

        A longer plate with both rows reaches along the tube. On shorter ends it is notched.
        """
        alone = host.square and (self.sizes.two or self.sizes.count == 2) and not self.place.tight
        found = self.place.on_end(*self.sizes.plates()[0], least) if alone else None
        out = stack_need(found[0], found[2], least) if found else {}
        both = alone and self.sizes.ends
        return {**out, **stack_need("rod", self.sizes.along, least)} if both else out

    def tightened(self) -> Foot:
        """Give it on a cap and a head that may be shorter than its plates."""
        return replace(self, place=replace(self.place, tight=True))

    def closed(self, book: Ledger, host: Host, s: Stations) -> Foot:
        """Give it with the second foot under the head, where nobody typed a pitch."""
        return replace(self, sizes=under_head(book, host, self.sizes, s))

    def judge(self, book: Ledger, host: Host, s: Stations) -> None:
        """Enter the place and how the plates stand."""
        self.place.enter(book, s)
        judge_stands(book, host, self.sizes, s)

    def draw(self, host: Host, s: Stations) -> MountDrawing:
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
        return MountDrawing(
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
        stand = stand_of(sizes, s, x0, x1)
        if stand == "side lug":
            a = max(x0, s.closed_end)
            return [*pieces, Piece(f"{t}.web{tag}", Prism(box(a, x1, -web, web), -h, -BURIED * d))]
        if stand == "rod angle":
            return [*pieces, *self._ahead(host, s, tag, web)]
        b = s.closed_end
        leg = Prism(box(b - sizes.thickness, b, -web, web), -h, 0.25 * d)
        root = cylinder(min(0.2 * d, 0.9 * web), b - sizes.thickness / 2, b + ROOT)
        return [*pieces, Piece(f"{t}.leg{tag}", leg), Piece(f"{t}.leg_root{tag}", root)]

    def _ahead(self, host: Host, s: Stations, tag: str, web: float) -> list[Piece]:
        """Give the leg against the head's face, with room for gland and rod."""
        t, d, b = host.table, host.diameter, s.barrel_end
        end, wide = b + self.sizes.thickness, min(ROOT_WIDE * d, 0.9 * web)
        leg = Prism(box(b, end, -web, web), -self.sizes.seat_height, 0.25 * d)
        root = box(b - ROOT, (b + end) / 2, -wide, wide)
        deep = ((ROOT_DEEP * d) ** 2 - wide**2) ** 0.5
        pieces = [
            Piece(f"{t}.leg{tag}", leg),
            Piece(f"{t}.leg_root{tag}", Prism(root, -deep, 0.2 * d)),
        ]
        # A square head and its bush are one part: the leg goes round the bush.
        start = max(s.gland_face, b) if host.square else b
        if start < end:
            room = cylinder(gland_room(s) / 2, start, end + 1.0)
            pieces.append(Piece(f"{t}.gland_room{tag}", room, cut=True))
        return pieces

    def _wishes(self, t: str) -> tuple[Wish, ...]:
        sizes = self.sizes
        h, half, pitch = sizes.seat_height, sizes.across / 2, sizes.pitch
        x0, x1 = sizes.plates()[0]
        y = pitch[1] / 2
        words = (f"SEAT FACES {hour(self.typed_clock)}",)
        places = [
            (x, side * y, -h) for x in (0.0, pitch[0])[: sizes.count // 2] for side in (1, -1)
        ]
        holes = f"{sizes.count} HOLES"
        seat, *others = ((x, side * _ON_SEAT * half, -h) for side in (1, -1) for x in (x0, x1))
        wishes: list[Wish] = [
            Length(f"{t}.seat_height", ORIGIN, (0.0, half, -h), Z, rank=3),
            Length(f"{t}.plate.x", (x0, half, -h), (x1, half, -h), X, rank=3),
            Length(f"{t}.plate.across", (x0, -half, -h), (x0, half, -h), Y, rank=3),
            Length(f"{t}.thickness", (x0, half, -h), (x0, half, sizes.thickness - h), Z, rank=2),
            Length(f"{t}.bolts.pitch.across", (0.0, -y, -h), (0.0, y, -h), Y, rank=2),
            Diameter(f"{t}.bolts.hole", places[0], Z, sizes.hole, holes, others=tuple(places[1:])),
            Callout(f"{t}.clock", seat, scale(Z, -1.0), words, others=tuple(others)),
        ]
        if sizes.count == 4:
            end = (pitch[0], y, -h)
            wishes.append(Length(f"{t}.bolts.pitch.x", (0.0, y, -h), end, X, rank=2))
        return tuple(wishes)

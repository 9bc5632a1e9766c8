"""The turned parts inside and around the barrel: barrel, gland, piston, stop tube, rod.

Stations are world x in mm, at the retracted position.
"""

from __future__ import annotations

from drafting.records import dataclass
from drafting.shape.pieces import Part, Piece, cylinder, stepped

CLEAR = 1.0
"""What stays free (mm) between a gland's cap and what sits on the barrel; as drawn only."""
PISTON_RELIEF = 0.25
"""How much of a piston's length is relieved at either end."""
RELIEF_RADIUS = 0.85
"""Ends of piston and gland are relieved to this part of the bore, so that oil finds the port."""


@dataclass(frozen=True, slots=True)
class Stations:
    """Where the stack's faces lie (world x, retracted), and the diameters."""

    closed_end: float
    oil_side: float
    piston_back: float
    piston_front: float
    gland_inner: float
    barrel_end: float
    gland_face: float
    rod_end: float
    rod_datum: float
    bore: float
    rod: float
    barrel_outside: float
    gland_outside: float
    stop_tube: float
    piston_relief: float
    gland_relief: float

    @property
    def wall(self) -> float:
        """Give the barrel's wall."""
        return (self.barrel_outside - self.bore) / 2


def barrel_pieces(s: Stations) -> tuple[Piece, ...]:
    """Give tube with base cap, and the bore."""
    outside = cylinder(s.barrel_outside / 2, s.closed_end, s.barrel_end)
    return (
        Piece("cylinder.barrel_outside", outside),
        Piece("cylinder.bore", cylinder(s.bore / 2, s.oil_side, s.barrel_end + 1.0), cut=True),
    )


def gland_part(s: Stations) -> Part:
    """Give the gland: relieved nose, body in the bore, collar beyond the barrel, rod bore."""
    bore, nose = s.bore / 2, RELIEF_RADIUS * s.bore / 2
    shoulder = s.gland_inner + s.gland_relief
    stations = [(s.gland_inner, nose), (shoulder, nose), (shoulder, bore)]
    if s.gland_face > s.barrel_end:
        collar = s.gland_outside / 2
        stations += [(s.barrel_end, bore), (s.barrel_end, collar), (s.gland_face, collar)]
    else:
        stations.append((s.gland_face, bore))
    hole = cylinder(s.rod / 2, s.gland_inner - 1.0, s.gland_face + 1.0)
    return Part(
        "gland",
        "body",
        (
            Piece("cylinder.gland_outside", stepped(*stations)),
            Piece("cylinder.gland_bore", hole, cut=True),
        ),
    )


def piston_part(s: Stations) -> Part:
    """Give the piston with both ends relieved, on the rod's spigot."""
    a, b, bore = s.piston_back, s.piston_front, s.bore / 2
    nose, r = piston_nose(s), s.piston_relief
    shape = stepped(
        (a, nose), (a + r, nose), (a + r, bore), (b - r, bore), (b - r, nose), (b, nose)
    )
    hole = cylinder(spigot(s) / 2, a - 1.0, b + 1.0)
    return Part(
        "piston",
        "rod",
        (Piece("cylinder.piston", shape), Piece("cylinder.spigot", hole, cut=True)),
    )


def stop_tube_part(s: Stations) -> tuple[Part, ...]:
    """Give the spacer between piston and gland, when there is one."""
    if s.stop_tube <= 0:
        return ()
    x0, x1 = s.piston_front, s.piston_front + s.stop_tube
    radius = stop_tube_radius(s)
    hole = cylinder(s.rod / 2, x0 - 1.0, x1 + 1.0)
    return (
        Part(
            "stop tube",
            "rod",
            (
                Piece("cylinder.stop_tube", cylinder(radius, x0, x1)),
                Piece("cylinder.stop_tube_bore", hole, cut=True),
            ),
        ),
    )


def piston_nose(s: Stations) -> float:
    """Give the radius of the piston's relieved ends."""
    return max(RELIEF_RADIUS * s.bore / 2, (s.bore + s.rod) / 4)


def stop_tube_radius(s: Stations) -> float:
    """Give the outside radius of the stop tube."""
    return min((s.bore + s.rod) / 4, RELIEF_RADIUS * s.bore / 2)


def rod_pieces(s: Stations) -> tuple[Piece, ...]:
    """Give the rod from its spigot in the piston to its end."""
    sp, r = spigot(s) / 2, s.rod / 2
    return (
        Piece(
            "cylinder.rod",
            stepped((s.piston_back, sp), (s.piston_front, sp), (s.piston_front, r), (s.rod_end, r)),
        ),
    )


def spigot(s: Stations) -> float:
    """Give the diameter of the rod inside the piston: 0.7 of the rod, as drawn only."""
    return 0.7 * s.rod

"""A welded cylinder for a sluice gate of an invented valley, put together by hand from pieces.

Bore 88.9, rod 44.45, stroke 406.4; cross tube on the body, clevis on the rod, two ports.
"""

from __future__ import annotations

from drafting.shape.frame import ORIGIN, Frame, X, Y, Z, along, clock_direction
from drafting.shape.pieces import Part, Piece, Prism, box, cylinder, stepped, tongue

STROKE = 406.4
RETRACTED = 692.15
ACROSS = Frame(ORIGIN, X, Z, Y)
META = {
    "title": "Sluice gate lift",
    "number": "SG-0417",
    "revision": "A",
    "date": "2026-11-25",
    "tool": "cylinder-drafting 0.1.0",
    "spec_text": "title = 'Sluice gate lift — Ø 3 1/2'\nbore = \"3 1/2\"\n",
    "input_sha256": "0" * 64,
}


def port(table: str, x: float, clock: float) -> tuple[Piece, ...]:
    frame = along(clock_direction(clock), (x, 0.0, 0.0), X)
    opening = stepped((36.0, 5.7), (50.0, 5.7), (50.0, 9.5), (70.0, 9.5))
    return (
        Piece(f"{table}.boss", cylinder(16.0, 46.0, 66.0), frame),
        Piece(f"{table}.thread", opening, frame, cut=True),
    )


def cross_tube() -> tuple[Piece, ...]:
    return (
        Piece("body_mount.tube", cylinder(28.6, -44.45, 44.45), along(Y)),
        Piece("body_mount.neck", cylinder(24.0, 0.0, 32.0)),
        Piece("body_mount.hole", cylinder(16.0, -50.0, 50.0), along(Y), cut=True),
    )


def clevis(x: float) -> tuple[Piece, ...]:
    at = Frame((x, 0.0, 0.0), (-1.0, 0.0, 0.0), Z, Y)
    ear = tongue(31.75, 60.0)
    return (
        Piece("rod_mount.ear", Prism(ear, 19.05, 38.1), at),
        Piece("rod_mount.ear", Prism(ear, -38.1, -19.05), at),
        Piece("rod_mount.web", Prism(box(40.0, 60.0, -31.75, 31.75), -38.1, 38.1), at),
        Piece("rod_mount.hole", cylinder(16.0, -40.0, 40.0), along(Y, (x, 0.0, 0.0)), cut=True),
    )


def sample(number_of_parts: int = 4) -> tuple[Part, ...]:
    """Give barrel, gland, rod and piston, retracted; 2: a closed barrel and the rod alone."""
    barrel = Part(
        "barrel",
        "body",
        (
            *cross_tube(),
            Piece("cylinder.barrel_outside", cylinder(50.8, 30.0, 560.0)),
            Piece("cylinder.bore", cylinder(44.45, 60.0, 561.0), cut=True),
            *port("base_port", 85.0, 0.0),
            *port("rod_port", 470.0, 35.0),
        ),
    )
    gland = Part(
        "gland",
        "body",
        (
            Piece(
                "cylinder.gland_outside",
                stepped(
                    (520.0, 38.0),
                    (530.0, 38.0),
                    (530.0, 44.45),
                    (560.0, 44.45),
                    (560.0, 54.0),
                    (585.0, 54.0),
                    (590.0, 50.0),
                ),
            ),
            Piece("cylinder.gland_bore", cylinder(22.225, 519.0, 591.0), cut=True),
        ),
    )
    rod = Part(
        "rod",
        "rod",
        (
            Piece(
                "cylinder.rod",
                stepped((60.0, 15.5), (110.0, 15.5), (110.0, 22.225), (RETRACTED - 58.0, 22.225)),
            ),
            *clevis(RETRACTED),
        ),
        hatched=False,
    )
    piston = Part(
        "piston",
        "rod",
        (
            Piece("cylinder.piston", cylinder(44.45, 60.0, 110.0)),
            Piece("cylinder.spigot", cylinder(15.5, 59.0, 111.0), cut=True),
        ),
    )
    return (barrel, gland, rod, piston) if number_of_parts == 4 else (barrel, rod)

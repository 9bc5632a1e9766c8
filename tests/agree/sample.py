"""A cylinder of some twenty pieces in parts, and a swivel: what the agreement is proved on."""

from __future__ import annotations

from dataclasses import replace

from drafting.shape.frame import Frame, X, Y, Z, about_x, along, clock_direction
from drafting.shape.pieces import (
    Ball,
    Part,
    Piece,
    Prism,
    Turned,
    circle,
    cylinder,
    stepped,
    tongue,
)

ACROSS = Frame((0.0, 0.0, 0.0), X, Z, Y)
"""Outlines in the x-z plane, swept along Y; left-handed, as mirrored mounts are."""


def assembly(clock: float) -> tuple[Part, ...]:
    """Give barrel, bushing, gland, piston and rod; ports and rod end turned to the clock angle."""
    barrel = Part(
        "barrel",
        "body",
        (
            Piece("tube", stepped((0.0, 46.0), (18.0, 46.0), (18.0, 44.0), (260.0, 44.0))),
            Piece("eye", Prism(tongue(34.0, 62.0, 30.0), -20.0, 20.0), ACROSS.moved(x=-52.0)),
            Piece("bore", cylinder(37.5, 20.0, 261.0), cut=True),
            Piece("eye_hole", Prism(circle(19.0), -21.0, 21.0), ACROSS.moved(x=-52.0), cut=True),
            *_port("base_port", 37.0, clock),
            *_port("rod_port", 226.0, clock + 90.0),
        ),
    )
    bushing = Part(
        "bushing",
        "body",
        (
            Piece("sleeve", Prism(circle(19.0), -20.0, 20.0), ACROSS.moved(x=-52.0)),
            Piece("pin", Prism(circle(16.0), -25.0, 25.0), ACROSS.moved(x=-52.0), cut=True),
        ),
    )
    gland = Part(
        "gland",
        "body",
        (
            Piece(
                "gland",
                stepped((232.0, 37.5), (260.0, 37.5), (260.0, 46.0), (270.0, 46.0), (276.0, 38.0)),
            ),
            Piece("rod_bore", cylinder(20.0, 230.0, 280.0), cut=True),
            Piece("mouth", stepped((272.0, 20.0), (276.5, 24.5)), cut=True),
        ),
    )
    piston = Part(
        "piston",
        "rod",
        (
            Piece("piston", stepped((24.0, 35.5), (26.0, 37.5), (52.0, 37.5))),
            Piece("rod_seat", cylinder(20.0, 23.0, 53.0), cut=True),
        ),
    )
    turned = about_x(clock)
    rod = Part(
        "rod",
        "rod",
        (
            Piece("rod", cylinder(20.0, 24.0, 330.0)),
            Piece("cross_tube", Prism(circle(28.0), -40.0, 40.0), ACROSS.moved(x=350.0)).within(
                turned
            ),
            Piece("pin", Prism(circle(14.0), -41.0, 41.0), ACROSS.moved(x=350.0), cut=True).within(
                turned
            ),
        ),
        hatched=False,
    )
    return (barrel, bushing, gland, piston, rod)


EASED = ("rod", "piston", "gland", "bushing", "ball", "ring")


def _port(name: str, x: float, clock: float) -> tuple[Piece, ...]:
    frame = replace(along(clock_direction(clock), hint=X), origin=(x, 0.0, 0.0))
    return (
        Piece(name + ".boss", cylinder(16.0, 0.0, 56.0), frame),
        Piece(name, cylinder(8.0, 30.0, 57.0), frame, cut=True),
        Piece(name + ".spotface", cylinder(13.0, 55.0, 60.0), frame, cut=True),
    )


def swivel(clock: float) -> tuple[Part, ...]:
    """Give an eye on a turned shank, with a ring and a ball in it, and a nut with a chamfer."""
    turned = about_x(clock)
    inner, half = 24.0, 12.0
    eye = Part(
        "eye",
        "rod",
        (
            Piece("eye", Prism(circle(40.0), -15.0, 15.0), ACROSS).within(turned),
            Piece("shank", stepped((25.0, 16.0), (45.0, 20.0), (70.0, 20.0)), turned),
            Piece("ring_hole", Prism(circle(30.0), -16.0, 16.0), ACROSS, cut=True).within(turned),
        ),
    )
    bowl = along(Y).within(turned)
    ring = Part(
        "ring",
        "rod",
        (
            Piece("ring", cylinder(30.0, -10.0, 10.0), bowl),
            Piece("bowl", Turned((Ball(-11.0, 11.0, 0.0, inner),)), bowl, cut=True),
        ),
    )
    ball = Part(
        "ball",
        "rod",
        (
            Piece("ball", Turned((Ball(-half, half, 0.0, inner),)), bowl),
            Piece("pin", cylinder(15.0, -30.0, 30.0), bowl, cut=True),
        ),
        hatched=False,
    )
    return (eye, ring, ball)

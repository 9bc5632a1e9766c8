"""Pieces drawn by lot, and what a point or a distance is to them, reckoned here from scratch."""

from __future__ import annotations

from itertools import pairwise
from math import pi
from random import Random

import numpy as np

from drafting.shape.frame import Frame
from drafting.shape.pieces import (
    Arc2,
    Ball,
    Cone,
    Outline,
    Part,
    Piece,
    Prism,
    Turned,
    box,
    circle,
    cylinder,
    hexagon,
    stepped,
    tongue,
)


def frame(rng: Random, spread: float = 12.0, square: bool = False) -> Frame:
    """Give a frame turned any way, or by quarter turns, with its origin near the world's."""
    turn, _ = np.linalg.qr(np.array([[rng.gauss(0, 1) for _ in range(3)] for _ in range(3)]))
    if square:
        turn = np.eye(3)[rng.sample(range(3), 3)] * [[rng.choice((-1, 1))] for _ in range(3)]
    origin = [0.0 if square and rng.random() < 0.6 else rng.uniform(-spread, spread) for _ in "xyz"]
    return Frame(*(tuple(map(float, v)) for v in (origin, *turn)))


def shape(rng: Random) -> Turned | Prism:
    """Give a cylinder, a stepped and coned turned body, a ball zone, or a prism."""
    a, b, c = (rng.uniform(lo, hi) for lo, hi in ((5, 12), (13, 20), (4, 11)))
    x = rng.uniform(-25, -15)
    return rng.choice(
        (
            cylinder(a, x, b),
            stepped((x, a), (-c, b), (c, b), (c, a), (b, c)),
            Turned((Ball(-0.7 * a, 0.9 * a, 0.0, a),)),
            Turned((Cone(x, c, -0.6 * a, a), Ball(-0.6 * a, 0.8 * a, 1.0, b))),
            Prism(box(-a, b, -c, a), -c, b),
            Prism(tongue(a, b + c), -c, a),
            Prism(hexagon(2 * a), -c, b),
            Prism(circle(a, (c, -2.0)), -b, c),
        )
    )


def part(rng: Random, square: bool = False) -> Part:
    """Give three materials and two cuts."""
    pieces = [Piece(f"p{k}", shape(rng), frame(rng, square=square), cut=k > 2) for k in range(5)]
    return Part("part", "body", tuple(pieces))


def has(piece: Piece, points: np.ndarray) -> np.ndarray:
    """Tell which points (n, 3) lie in a piece."""
    f = piece.frame
    x, y, z = ((points - np.array(f.origin)) @ np.array(axis) for axis in (f.x, f.y, f.z))
    if isinstance(piece.shape, Prism):
        flat = _encloses(piece.shape.outline, x, y)
        return flat & (piece.shape.lo <= z) & (z <= piece.shape.hi)
    found = np.zeros(len(points), bool)
    for zone in piece.shape.zones:
        found |= (zone.x0 <= x) & (x <= zone.x1) & (np.hypot(y, z) <= _radius(zone, x))
    return found


def metal(part: Part, points: np.ndarray) -> np.ndarray:
    """Tell which points lie in a material and in no cut."""
    solid, hollow = (
        np.any([has(p, points) for p in part.pieces if p.cut is cut], axis=0)
        for cut in (False, True)
    )
    return solid & ~hollow


def _radius(zone: Cone | Ball, x: np.ndarray) -> np.ndarray:
    if isinstance(zone, Ball):
        return np.sqrt(np.maximum(zone.radius**2 - (x - zone.centre) ** 2, 0.0))
    return np.interp(x, [zone.x0, zone.x1], [zone.r0, zone.r1])


def _encloses(outline: Outline, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Tell by angles whether the chords go round the points; what lies between chord and arc too.

    Arcs are cut into eighths; they bulge outwards, as those of every shape here do.
    """
    corners: list[tuple[float, float]] = []
    bulges = np.zeros(len(x), bool)
    for e in outline:
        if not isinstance(e, Arc2):
            corners.append(e.a)
            continue
        ends = [e.at(a) for a in np.linspace(e.a0, e.a1, 9)]
        corners += ends[:-1]
        near = np.hypot(x - e.centre[0], y - e.centre[1]) <= e.radius
        for (ax, ay), (bx, by) in pairwise(ends):
            bulges |= near & ((bx - ax) * (y - ay) - (by - ay) * (x - ax) < 0.0)
    total = np.zeros(len(x))
    for (ax, ay), (bx, by) in pairwise([*corners, corners[0]]):
        turned = np.arctan2(by - y, bx - x) - np.arctan2(ay - y, ax - x)
        total += (turned + pi) % (2 * pi) - pi
    return (abs(total) > pi) | bulges

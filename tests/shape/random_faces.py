"""Faces drawn by lot, and how far points are from them (analytic geometry)."""

from __future__ import annotations

from random import Random

import numpy as np

from drafting.shape.faces import Face, faces_of
from drafting.shape.pieces import Ball, Cone, Piece, Prism, Turned, box
from tests.shape.random_pieces import frame

KINDS = ("plane", "cylinder", "cone", "sphere")
LAYS = ("askew", "square", "on one axis", "side by side")


def face(kind: str, rng: Random, lay: str) -> Face:
    """Give one face of a kind."""
    r = rng.uniform(6.0, 14.0)
    shape = {
        "plane": Prism(box(-20.0, 20.0, -20.0, 20.0), rng.uniform(-4, 4), 30.0),
        "cylinder": Turned((Cone(-26.0, r, 24.0, r),)),
        "cone": Turned((Cone(-22.0, rng.uniform(1, 4), 25.0, r + 4),)),
        "sphere": Turned((Ball(-r, r, 0.0, r),)),
    }[kind]
    put = frame(rng, spread=6.0, square=lay != "askew")
    if lay in ("on one axis", "side by side"):
        put = frame(Random(1), square=True)
        x = put.x if kind != "plane" else put.z
        along = [rng.uniform(-5.0, 5.0) * c for c in x]
        if lay == "side by side":
            along = [a + rng.uniform(2.0, 8.0) * c for a, c in zip(along, put.y, strict=True)]
        put = put.moved(*along)
    return next(f for f in faces_of(Piece(kind, shape, put), 0) if f.kind == kind)


def off(f: Face, points: np.ndarray) -> np.ndarray:
    """Give how far points (n, 3) are from the unbounded face, negative on its inner side."""
    d = points - np.array(f.o)
    s = d @ np.array(f.n)
    if f.kind == "plane":
        return s
    if f.kind == "sphere":
        return np.linalg.norm(d, axis=1) - f.size
    r = np.linalg.norm(d - s[:, None] * np.array(f.n), axis=1)
    if f.kind == "cylinder":
        return r - f.size
    return (r - abs(f.size * s)) / np.hypot(1.0, f.size)

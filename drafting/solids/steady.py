"""Fitted curves and corners, written so that every processor writes the same.

Where two round faces meet askew the kernel fits a curve. Its poles and knots differ in the eighth
or tenth decimal between processors, whose sines and roots differ in their last bit. They are
rounded to ten nanometres: a thousand times finer than a builder measures, a thousand times coarser
than they differ. Its ends stay, as other faces have their corners there. A corner in which faces
only touch is found to a fifth of a nanometre across, and lies in a plane of the axes.
"""

from __future__ import annotations

import re
from functools import partial
from math import floor

from drafting.solids.part21 import Entities, Entity, decimal, find

PLACES = 5
"""Decimals (mm) of the poles of a fitted curve between its ends …"""
KNOT_PLACES = 6
"""… and of its knots, from 0 to 1 along the curve."""
NOUGHT = 1e-6
"""A corner nearer (mm) than this to a plane of the axes lies in it."""
ACCURACY = 1e-5
"""What the file states: how near (mm) curves and faces lie to one another."""
TIE = 0.137
"""Halves are not where one number becomes the next, because sizes of a drawing often lie there."""

_SPLINE = "B_SPLINE_CURVE_WITH_KNOTS"
_NUMBER = re.compile(r"-?\d+\.\d*")
_KNOTS = re.compile(r"\([^()]*\.[^()]*\)")


def steadied(entities: Entities) -> Entities:
    """Give the entities with fitted curves rounded, and corners in the planes that they lie in."""
    out = dict(entities)
    points: set[int] = set()
    knot = partial(_rounded, places=KNOT_PLACES)
    for n, curve in find(entities, _SPLINE):
        points |= set(curve.refs[1:-1])
        last = _KNOTS.sub(lambda m: _NUMBER.sub(knot, m[0]), curve.texts[-1])
        out[n] = Entity((*curve.texts[:-1], last), curve.refs)
    corners = {r for _, corner in find(entities, "VERTEX_POINT") for r in corner.refs}
    for n in points | corners:
        rounded = partial(_rounded, places=PLACES) if n in points else _nought
        texts = tuple(_NUMBER.sub(rounded, t) for t in entities[n].texts)
        out[n] = Entity(texts, entities[n].refs)
    for n, stated in find(entities, "UNCERTAINTY_MEASURE_WITH_UNIT"):
        first = _NUMBER.sub(decimal(ACCURACY), stated.texts[0], count=1)
        out[n] = Entity((first, *stated.texts[1:]), stated.refs)
    return out


def _rounded(number: re.Match[str], places: int) -> str:
    return decimal(floor(float(number[0]) * 10**places + 0.5 + TIE) / 10**places)


def _nought(number: re.Match[str]) -> str:
    return "0." if abs(float(number[0])) < NOUGHT else number[0]

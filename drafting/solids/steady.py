"""Fitted curves and corners, written so that every processor writes the same.

Where two round faces meet askew the kernel fits a curve. Its poles and knots differ in the eighth
or tenth decimal between processors, whose sines and roots differ in their last bit. They, and the
corners in which such curves end, are rounded to ten nanometres: a thousand times finer than a
builder measures, a thousand times coarser than they differ. A corner in which faces only touch is
found to a fifth of a nanometre across, and lies in a plane of the axis. All else stays as it is.
"""

from __future__ import annotations

import re
from functools import partial
from math import floor

from drafting.solids.part21 import Entities, Entity, decimal, find

PLACES = 5
"""Decimals (mm) of what hangs on a fitted curve …"""
KNOT_PLACES = 6
"""… and of its knots, from 0 to 1 along the curve."""
NOUGHT = 1e-6
"""A corner nearer (mm) than this to a plane of the axes lies in it."""
ACCURACY = 1e-5
"""What the file states: distinct points are at least this far (mm) from one another."""
TIE = 0.137
"""Halves are not where one number becomes the next, because sizes of a drawing often lie there."""

_SPLINE = "B_SPLINE_CURVE_WITH_KNOTS"
_NUMBER = re.compile(r"-?\d+\.\d*")
_KNOTS = re.compile(r"\([^()]*\.[^()]*\)")


def steadied(entities: Entities) -> Entities:
    """Give the entities with everything that hangs on a fitted curve rounded."""
    out = dict(entities)
    points: set[int] = set()
    curves = set()
    knot = partial(_rounded, places=KNOT_PLACES)
    for n, curve in find(entities, _SPLINE):
        curves.add(n)
        points |= {r for r in curve.refs if entities[r].is_a("CARTESIAN_POINT")}
        last = _KNOTS.sub(lambda m: _NUMBER.sub(knot, m[0]), curve.texts[-1])
        out[n] = Entity((*curve.texts[:-1], last), curve.refs)
    for _, edge in find(entities, "EDGE_CURVE"):
        if edge.refs[2] in curves:
            points |= {r for corner in edge.refs[:2] for r in entities[corner].refs}
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

"""Flat runs to strokes: nothing drawn twice, what follows on is joined, coordinates made equal."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos, hypot, sin

import numpy as np

from drafting.arrays import Floats, folded
from drafting.drawing.project.carriers import (
    CHORD,
    SAME,
    Run,
    Span,
    add_line,
    arc_of,
    arc_of_chain,
    ellipse_of,
    is_straight,
    points_along,
    seen_along_axis,
    swung,
)
from drafting.drawing.project.equal import snapped
from drafting.drawing.project.flatten import Flat
from drafting.drawing.sheet.strokes import Arc, Curve, EllipseArc, Line, Look, Poly, Stroke
from drafting.shape.faces import Face
from drafting.shape.space_curves import ELLIPSE, LINE, RULED, TURN


def merged(
    flat: Flat,
    runs: Sequence[Run],
    faces: Sequence[Sequence[Face]],
    owner: Sequence[int],
    look: Look,
) -> tuple[Stroke, ...]:
    """Give the strokes of all runs."""
    lines: list[tuple[tuple[float, ...], Span]] = []
    arcs: list[tuple[tuple[float, ...], Span]] = []
    ellipses: list[tuple[tuple[float, ...], Span]] = []
    chains: list[tuple[Floats, Run]] = []
    rows = np.array([r.row for r in runs], int)
    starts = flat.at(rows, np.array([r.t0 for r in runs])).tolist()
    stops = flat.at(rows, np.array([r.t1 for r in runs])).tolist()
    forms = flat.form[rows].tolist()
    dense = points_along(flat, [r for r, form in zip(runs, forms, strict=True) if form == RULED])
    for run, form, start, stop in zip(runs, forms, starts, stops, strict=True):
        i = run.row
        if form == LINE:
            add_line(lines, start, stop, run)
        elif form == ELLIPSE and flat.edge_on[i]:
            add_line(lines, *swung(flat, run), run)
        elif form == ELLIPSE:
            major, minor = flat.major[i].tolist(), flat.minor[i].tolist()
            long, short = hypot(*major), hypot(*minor)
            if long - short < SAME:
                arcs.append(arc_of(flat, run, long))
            else:
                ellipses.append(ellipse_of(flat, run, long, short))
        else:
            points = next(dense)
            circle = seen_along_axis(flat, run, faces[owner[i]], look)
            if circle is not None:
                arcs.append(arc_of_chain(points, *circle, run))
            elif is_straight(points):
                d = points[int(np.argmax(np.hypot(*(points - points[0]).T)))] - points[0]
                along = (points - points[0]) @ d / (d @ d)
                low, high = (points[0] + s * d for s in (along.min(), along.max()))
                add_line(lines, low.tolist(), high.tolist(), run)
            else:
                chains.append((points, run))
    strokes: list[Stroke] = []
    for key, spans in _grouped(lines):
        angle, off = key
        d = (cos(angle), sin(angle))
        for lo, hi, run in _cover(spans, None, SAME):
            ends = [(d[0] * s - d[1] * off, d[1] * s + d[0] * off) for s in (lo, hi)]
            strokes.append(_stroke(Line(ends[0], ends[1]), run))
    for key, spans in _grouped(arcs):
        for lo, hi, run in _cover(spans, TURN, SAME / key[2]):
            strokes.append(_stroke(Arc((key[0], key[1]), key[2], lo, hi), run))
    for key, spans in _grouped(ellipses):
        x, y, ax, ay, short = key
        size = hypot(ax, ay)
        minor = (-ay * short / size, ax * short / size)
        for lo, hi, run in _cover(spans, TURN, SAME / size):
            strokes.append(_stroke(EllipseArc((x, y), (ax, ay), minor, lo, hi), run))
    strokes += _chains(chains)
    return snapped(strokes)


def _stroke(curve: Curve, run: Run) -> Stroke:
    return Stroke(curve, run.visible, run.part, run.piece, run.kind)


def _grouped(
    found: Sequence[tuple[tuple[float, ...], Span]],
) -> list[tuple[tuple[float, ...], list[Span]]]:
    """Put spans on the same carrier together: keys that differ by less than SAME are one."""
    if not found:
        return []
    keys = np.array([k for k, _ in found])
    labels = np.column_stack([_labels(column) for column in keys.T])
    groups: dict[tuple[int, ...], list[int]] = {}
    for n, label in enumerate(map(tuple, labels.tolist())):
        groups.setdefault(label, []).append(n)
    return [(found[rows[0]][0], [found[n][1] for n in rows]) for rows in groups.values()]


def _labels(values: Floats) -> Floats:
    order = np.argsort(values)
    steps = np.concatenate([[0], np.cumsum(np.diff(values[order]) > SAME)])
    out = np.empty(len(values), int)
    out[order] = steps
    return out


def _cover(
    spans: Sequence[Span], period: float | None, same: float
) -> list[tuple[float, float, Run]]:
    """Give each stretch once, to the best of the runs that hold it, joined where they follow on.

    Visible goes before hidden, then the longer run, then the earlier.
    """
    best = sorted(spans, key=lambda s: (not s.run.visible, -(s.hi - s.lo)))
    if len(best) == 1:
        lo, hi = best[0].lo, best[0].hi
        if period is not None:
            turn = lo - lo % period
            lo, hi = lo - turn, hi - turn
        return [(lo, hi, best[0].run)] if hi - lo > same else []
    if period is None:
        pieces = [(s.lo, s.hi, s.run) for s in best]
    else:
        pieces = [piece for s in best for piece in _wrapped(s, period, same)]
    stops: list[float] = []
    for x in sorted(x for p in pieces for x in p[:2]):
        if not stops or x - stops[-1] > same:
            stops.append(x)
    out: list[tuple[float, float, Run]] = []
    for a, b in pairwise(stops):
        mid = (a + b) / 2
        run = next((p[2] for p in pieces if p[0] < mid < p[1]), None)
        if run is None:
            continue
        if out and abs(out[-1][1] - a) < same and _alike(out[-1][2], run):
            out[-1] = (out[-1][0], b, out[-1][2])
        else:
            out.append((a, b, run))
    if period is not None and len(out) > 1:
        first, last = out[0], out[-1]
        meets = first[0] < same and last[1] > period - same
        if meets and _alike(first[2], last[2]):
            out = [*out[1:-1], (last[0], first[1] + period, last[2])]
    return out


def _wrapped(s: Span, period: float, same: float) -> list[tuple[float, float, Run]]:
    if s.hi - s.lo > period - same:
        return [(0.0, period, s.run)]
    lo = s.lo % period
    if period - lo < same:
        lo = 0.0
    hi = lo + s.hi - s.lo
    if hi <= period + same:
        return [(lo, min(hi, period), s.run)]
    return [(lo, period, s.run), (0.0, hi - period, s.run)]


def _alike(a: Run, b: Run) -> bool:
    return (a.visible, a.part, a.piece) == (b.visible, b.part, b.piece)


def _chains(chains: Sequence[tuple[Floats, Run]]) -> list[Stroke]:
    """Give chains of points without those that lie on a chain that goes before."""
    out: list[Stroke] = []
    taken: list[Floats] = []
    for points, run in sorted(chains, key=lambda c: (not c[1].visible, -len(c[0]))):
        clear = np.ones(len(points) - 1, bool)
        middle = (points[1:] + points[:-1]) / 2
        for other in taken:
            clear &= _distance(middle, other) > 2.5 * CHORD
        edges = np.flatnonzero(np.diff(np.concatenate([[0], clear.astype(int), [0]])))
        for a, b in edges.reshape(-1, 2):
            if b - a > 1 or len(points) < 4:
                chain = tuple((float(x), float(y)) for x, y in points[a : b + 1])
                out.append(_stroke(Poly(chain), run))
        taken.append(points)
    return out


def _distance(p: Floats, chain: Floats) -> Floats:
    """Give the distance of points (n, 2) from a chain of points."""
    lo, hi = chain.min(0) - 0.1, chain.max(0) + 0.1
    out = np.full(len(p), 1.0)
    near = np.flatnonzero(folded(np.logical_and, (p >= lo) & (p <= hi)))
    if len(near):
        a, d = chain[:-1], np.diff(chain, axis=0)
        (ax, ay), (dx, dy) = a.T, d.T
        gx, gy = (p[near, k, None] - start for k, start in enumerate((ax, ay)))
        u = np.clip((gx * dx + gy * dy) / np.maximum(dx * dx + dy * dy, 1e-300), 0.0, 1.0)
        out[near] = np.hypot(gx - u * dx, gy - u * dy).min(1)
    return out

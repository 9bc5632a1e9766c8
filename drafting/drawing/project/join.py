"""Flat runs to strokes: nothing drawn twice, what follows on is joined, coordinates made equal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import atan2, ceil, cos, floor, hypot, pi, sin

import numpy as np

from drafting.arrays import Floats, folded
from drafting.drawing.project.flatten import Flat
from drafting.drawing.sheet.strokes import Arc, Curve, EllipseArc, Line, Look, Point2, Poly, Stroke
from drafting.records import dataclass
from drafting.shape.faces import Face
from drafting.shape.frame import dot
from drafting.shape.space_curves import ELLIPSE, LINE, RULED, TURN, Kind

SAME = 1e-6
"""Curves and ends (mm) this near are one."""
CHORD = 0.004
"""How far a chain of points may stray from its curve (mm)."""


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of a flat curve, all visible or all hidden."""

    row: int
    t0: float
    t1: float
    visible: bool
    part: str
    piece: str
    kind: Kind


@dataclass(frozen=True, slots=True)
class _Span:
    """A run as an interval along its carrier (line: mm, circle and ellipse: radians)."""

    lo: float
    hi: float
    run: Run


def merged(
    flat: Flat,
    runs: Sequence[Run],
    faces: Sequence[Sequence[Face]],
    owner: Sequence[int],
    look: Look,
) -> tuple[Stroke, ...]:
    """Give the strokes of all runs."""
    lines: list[tuple[tuple[float, ...], _Span]] = []
    arcs: list[tuple[tuple[float, ...], _Span]] = []
    ellipses: list[tuple[tuple[float, ...], _Span]] = []
    chains: list[tuple[Floats, Run]] = []
    rows = np.array([r.row for r in runs], int)
    starts = flat.at(rows, np.array([r.t0 for r in runs])).tolist()
    stops = flat.at(rows, np.array([r.t1 for r in runs])).tolist()
    forms = flat.form[rows].tolist()
    dense = _dense(flat, [r for r, form in zip(runs, forms, strict=True) if form == RULED])
    for run, form, start, stop in zip(runs, forms, starts, stops, strict=True):
        i = run.row
        if form == LINE:
            _add_line(lines, start, stop, run)
        elif form == ELLIPSE and flat.edge_on[i]:
            _add_line(lines, *_swung(flat, run), run)
        elif form == ELLIPSE:
            major, minor = flat.major[i].tolist(), flat.minor[i].tolist()
            long, short = hypot(*major), hypot(*minor)
            if long - short < SAME:
                arcs.append(_arc(flat, run, long))
            else:
                ellipses.append(_ellipse(flat, run, long, short))
        else:
            points = next(dense)
            circle = _seen_along_axis(flat, run, faces[owner[i]], look)
            if circle is not None:
                arcs.append(_arc_of_chain(points, *circle, run))
            elif _is_straight(points):
                d = points[int(np.argmax(np.hypot(*(points - points[0]).T)))] - points[0]
                along = (points - points[0]) @ d / (d @ d)
                low, high = (points[0] + s * d for s in (along.min(), along.max()))
                _add_line(lines, low.tolist(), high.tolist(), run)
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
    return _snapped(strokes)


def _stroke(curve: Curve, run: Run) -> Stroke:
    return Stroke(curve, run.visible, run.part, run.piece, run.kind)


# --- carriers ----------------------------------------------------------------------------------


def _swung(flat: Flat, run: Run) -> tuple[Point2, Point2]:
    """Give the two ends that a run of an edge-on ellipse reaches on paper."""
    i = run.row
    phase = float(flat.phase[i])
    a, b = run.t0 - phase, run.t1 - phase
    level = [cos(a), cos(b)]
    level += [(-1.0) ** k for k in range(ceil(a / pi - 1e-9), floor(b / pi + 1e-9) + 1)]
    (x, y), (u, v) = flat.centre[i].tolist(), flat.major[i].tolist()
    low, high = min(level), max(level)
    return (x + low * u, y + low * v), (x + high * u, y + high * v)


def _add_line(lines: list[tuple[tuple[float, ...], _Span]], a: Point2, b: Point2, run: Run) -> None:
    (ax, ay), (bx, by) = a, b
    dx, dy = bx - ax, by - ay
    if hypot(dx, dy) < SAME:
        return
    angle = atan2(dy, dx) % pi
    if angle > pi - 1e-9 or angle < 1e-9:
        angle = 0.0
    c, s = (0.0, 1.0) if abs(angle - pi / 2) < 1e-9 else (cos(angle), sin(angle))
    along = sorted((c * ax + s * ay, c * bx + s * by))
    off = (c * (ay + by) - s * (ax + bx)) / 2
    lines.append(((angle, off), _Span(along[0], along[1], run)))


def _arc(flat: Flat, run: Run, radius: float) -> tuple[tuple[float, ...], _Span]:
    i = run.row
    start, sense = _heading(flat, i)
    a, b = (start + sense * (t - flat.phase[i]) for t in (run.t0, run.t1))
    return _at(flat, i, radius), _Span(float(min(a, b)), float(max(a, b)), run)


def _ellipse(flat: Flat, run: Run, long: float, short: float) -> tuple[tuple[float, ...], _Span]:
    i = run.row
    start, sense = _heading(flat, i)
    turn = 0.0 if 0.0 <= start < pi - 1e-9 else pi
    major = flat.major[i] * cos(turn)
    a, b = (turn + sense * (t - flat.phase[i]) for t in (run.t0, run.t1))
    key = (*_at(flat, i), float(major[0]), float(major[1]), short)
    return key, _Span(float(min(a, b)), float(max(a, b)), run)


def _heading(flat: Flat, i: int) -> tuple[float, float]:
    """Give the angle of the major axis, and 1 or -1 as the minor one lies left or right of it."""
    major, minor = flat.major[i].tolist(), flat.minor[i].tolist()
    sense = 1.0 if major[0] * minor[1] - major[1] * minor[0] > 0 else -1.0
    angle = atan2(major[1], major[0])
    return (0.0 if abs(angle) < 1e-9 else angle), sense


def _at(flat: Flat, i: int, *more: float) -> tuple[float, ...]:
    return (float(flat.centre[i][0]), float(flat.centre[i][1]), *more)


def _seen_along_axis(
    flat: Flat, run: Run, faces: Sequence[Face], look: Look
) -> tuple[Floats, float] | None:
    """Give centre and radius of the circle on which a run lies: a cylinder seen end-on."""
    for k in flat.curves.all[run.row].faces:
        face = faces[k]
        if face.kind == "cylinder" and abs(dot(face.n, look.toward_eye)) > 1 - 1e-12:
            return np.array(look.flat(face.o)), face.size
    return None


def _arc_of_chain(
    points: Floats, centre: Floats, radius: float, run: Run
) -> tuple[tuple[float, ...], _Span]:
    angle = np.unwrap(np.arctan2(points[:, 1] - centre[1], points[:, 0] - centre[0]))
    lo, hi = float(angle.min()), float(angle.max())
    return (float(centre[0]), float(centre[1]), radius), _Span(lo, min(hi, lo + TURN), run)


def _dense(flat: Flat, runs: Sequence[Run]) -> Iterator[Floats]:
    """Give points on each curve, dense enough for the chord to stay within CHORD."""
    found: dict[int, Floats] = {}
    wanted = dict.fromkeys(range(len(runs)), 24)  # multiples of 4: extreme points are among them
    while wanted:
        ts = [np.linspace(runs[k].t0, runs[k].t1, 2 * n + 1) for k, n in wanted.items()]
        rows = np.repeat([runs[k].row for k in wanted], [len(t) for t in ts])
        every = np.split(flat.at(rows, np.concatenate(ts)), np.cumsum([len(t) for t in ts])[:-1])
        for (k, n), p in zip(list(wanted.items()), every, strict=True):
            away = float(np.hypot(*(p[1::2] - (p[:-1:2] + p[2::2]) / 2).T).max())
            if away < CHORD or n > 2000:
                found[k] = p[::2]
                del wanted[k]
            else:
                wanted[k] = 4 * (int(n * max(1.2, (away / CHORD) ** 0.5)) // 4 + 1)
    return (found[k] for k in range(len(runs)))


def _is_straight(points: Floats) -> bool:
    d = points[int(np.argmax(np.hypot(*(points - points[0]).T)))] - points[0]
    size = np.hypot(*d)
    off = (points - points[0]) @ np.array([-d[1], d[0]]) / max(size, 1e-300)
    return bool(np.abs(off).max() < SAME)


# --- one of each -------------------------------------------------------------------------------


def _grouped(
    found: Sequence[tuple[tuple[float, ...], _Span]],
) -> list[tuple[tuple[float, ...], list[_Span]]]:
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
    spans: Sequence[_Span], period: float | None, same: float
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


def _wrapped(s: _Span, period: float, same: float) -> list[tuple[float, float, Run]]:
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


# --- equal coordinates -------------------------------------------------------------------------


def _snapped(strokes: Sequence[Stroke]) -> tuple[Stroke, ...]:
    """Make coordinates that differ by rounding alone exactly equal."""
    values = sorted({v for s in strokes for p in _points(s.curve) for v in p})
    snap: dict[float, float] = {}
    first = last = float("-inf")
    for v in values:
        if v - last > 2e-9:
            first = round(v, 9) + 0.0
        snap[v], last = first, v
    return tuple(
        Stroke(_mapped(s.curve, snap), s.visible, s.part, s.piece, s.kind) for s in strokes
    )


def _points(curve: Curve) -> tuple[Point2, ...]:
    if isinstance(curve, Line):
        return (curve.a, curve.b)
    if isinstance(curve, Poly):
        return curve.points
    if isinstance(curve, EllipseArc):
        return (curve.centre,)
    return (curve.centre, (curve.radius, curve.radius))


def _mapped(curve: Curve, snap: dict[float, float]) -> Curve:
    def at(p: Point2) -> Point2:
        return (snap[p[0]], snap[p[1]])

    if isinstance(curve, Line):
        return Line(at(curve.a), at(curve.b))
    if isinstance(curve, Poly):
        return Poly(tuple(map(at, curve.points)))
    if isinstance(curve, EllipseArc):
        return replace(curve, centre=at(curve.centre))
    return replace(curve, centre=at(curve.centre), radius=snap[curve.radius])

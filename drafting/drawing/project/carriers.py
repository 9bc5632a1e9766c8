"""Flat runs as intervals along what carries them: a line, a circle, an ellipse."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan2, ceil, cos, floor, hypot, pi, sin

import numpy as np

from drafting.arrays import Floats
from drafting.drawing.project.flatten import Flat
from drafting.drawing.sheet.strokes import Look, Point2
from drafting.records import dataclass
from drafting.shape.faces import Face
from drafting.shape.frame import dot
from drafting.shape.space_curves import TURN, Kind

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
class Span:
    """A run as an interval along its carrier (line: mm, circle and ellipse: radians)."""

    lo: float
    hi: float
    run: Run


def swung(flat: Flat, run: Run) -> tuple[Point2, Point2]:
    """Give the two ends that a run of an edge-on ellipse reaches on paper."""
    i = run.row
    phase = float(flat.phase[i])
    a, b = run.t0 - phase, run.t1 - phase
    level = [cos(a), cos(b)]
    level += [(-1.0) ** k for k in range(ceil(a / pi - 1e-9), floor(b / pi + 1e-9) + 1)]
    (x, y), (u, v) = flat.centre[i].tolist(), flat.major[i].tolist()
    low, high = min(level), max(level)
    return (x + low * u, y + low * v), (x + high * u, y + high * v)


def add_line(lines: list[tuple[tuple[float, ...], Span]], a: Point2, b: Point2, run: Run) -> None:
    """Add the run between two points as an interval along its line, if it has any length."""
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
    lines.append(((angle, off), Span(along[0], along[1], run)))


def arc_of(flat: Flat, run: Run, radius: float) -> tuple[tuple[float, ...], Span]:
    """Give the circle that carries a run seen round, and its interval."""
    i = run.row
    start, sense = _heading(flat, i)
    a, b = (start + sense * (t - flat.phase[i]) for t in (run.t0, run.t1))
    return _at(flat, i, radius), Span(float(min(a, b)), float(max(a, b)), run)


def ellipse_of(flat: Flat, run: Run, long: float, short: float) -> tuple[tuple[float, ...], Span]:
    """Give the ellipse that carries a run, and its interval."""
    i = run.row
    start, sense = _heading(flat, i)
    turn = 0.0 if 0.0 <= start < pi - 1e-9 else pi
    major = flat.major[i] * cos(turn)
    a, b = (turn + sense * (t - flat.phase[i]) for t in (run.t0, run.t1))
    key = (*_at(flat, i), float(major[0]), float(major[1]), short)
    return key, Span(float(min(a, b)), float(max(a, b)), run)


def _heading(flat: Flat, i: int) -> tuple[float, float]:
    """Give the angle of the major axis, and 1 or -1 as the minor one lies left or right of it."""
    major, minor = flat.major[i].tolist(), flat.minor[i].tolist()
    sense = 1.0 if major[0] * minor[1] - major[1] * minor[0] > 0 else -1.0
    angle = atan2(major[1], major[0])
    return (0.0 if abs(angle) < 1e-9 else angle), sense


def _at(flat: Flat, i: int, *more: float) -> tuple[float, ...]:
    return (float(flat.centre[i][0]), float(flat.centre[i][1]), *more)


def seen_along_axis(
    flat: Flat, run: Run, faces: Sequence[Face], look: Look
) -> tuple[Floats, float] | None:
    """Give centre and radius of the circle on which a run lies: a cylinder seen end-on."""
    for k in flat.curves.all[run.row].faces:
        face = faces[k]
        if face.kind == "cylinder" and abs(dot(face.n, look.toward_eye)) > 1 - 1e-12:
            return np.array(look.flat(face.o)), face.size
    return None


def arc_of_chain(
    points: Floats, centre: Floats, radius: float, run: Run
) -> tuple[tuple[float, ...], Span]:
    """Give a circle and the interval that points along it cover."""
    angle = np.unwrap(np.arctan2(points[:, 1] - centre[1], points[:, 0] - centre[0]))
    lo, hi = float(angle.min()), float(angle.max())
    return (float(centre[0]), float(centre[1]), radius), Span(lo, min(hi, lo + TURN), run)


def points_along(flat: Flat, runs: Sequence[Run]) -> Iterator[Floats]:
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


def is_straight(points: Floats) -> bool:
    """Tell whether points lie on one line."""
    d = points[int(np.argmax(np.hypot(*(points - points[0]).T)))] - points[0]
    size = np.hypot(*d)
    off = (points - points[0]) @ np.array([-d[1], d[0]]) / max(size, 1e-300)
    return bool(np.abs(off).max() < SAME)

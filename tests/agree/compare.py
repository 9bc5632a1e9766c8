"""Whether the drawn strokes of parts and the kernel's view of their solids are the same lines.

Both sides are sampled; every sample of one must lie on the other. Per view and direction at most
3 mm or 0.2 % of the length may lie farther than 0.05 mm, and nothing farther than 0.5 mm.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from drafting.drawing.project.project import project
from drafting.drawing.project.section import Section
from drafting.drawing.sheet.strokes import Arc, Curve, Line, Look, Poly, Stroke
from drafting.shape.pieces import Part
from drafting.solids.build import build_part
from tests.agree.oracle import eased, seen, views, views_of

STEP = 0.1
"""Distance of samples (mm)."""
NEAR = 0.05
FAR = 0.5
SLACK = 3.0
SHARE = 0.002
EXCUSED = 0.01
"""What named exceptions may make out of the length."""


@dataclass(frozen=True, slots=True)
class Known:
    """Lines known to differ, by name: ``where`` tells for points (n, 2) whether they are meant."""

    name: str
    where: Callable[[Any], Any]


@dataclass(frozen=True, slots=True)
class Difference:
    """One direction of one view: lengths in mm.

    ``judged`` is where the kernel's hidden-line view contradicts the kernel's own rays and these
    side with the drawing.
    """

    title: str
    length: float
    astray: float
    worst: float
    excused: float
    judged: float
    places: tuple[tuple[float, float], ...]

    @property
    def agrees(self) -> bool:
        """Tell whether it is within the limits."""
        slack = max(SLACK, SHARE * self.length)
        few = self.excused <= max(SLACK, EXCUSED * self.length)
        return self.astray <= slack and self.worst <= FAR and few

    def __str__(self) -> str:
        where = ", ".join(f"({x:.2f}, {y:.2f})" for x, y in self.places[:6])
        return (
            f"{self.title}: {self.astray:.2f} of {self.length:.0f} mm astray, "
            f"worst {self.worst:.3f} mm, excused {self.excused:.2f} mm, "
            f"judged by rays {self.judged:.2f} mm {where}"
        )


def differences(
    parts: Sequence[Part],
    looks: Sequence[Look],
    *,
    oracle: Sequence[Part] | None = None,
    ease: Iterable[str] = (),
    section: Section | None = None,
    exceptions: Sequence[Known] = (),
    strokes: Sequence[tuple[Stroke, ...]] | None = None,
) -> list[Difference]:
    """Compare both readers in the looks, visible and hidden, both ways.

    ``ease`` names parts that the kernel gets thinner by 0.01 mm. ``oracle`` is another list of
    parts for the kernel, ``strokes`` other strokes than the drawn ones: for tests of this test.
    """
    theirs = list(parts if oracle is None else oracle)
    if section is not None:
        theirs = list(section.applied(theirs))
    thin = set(ease)
    theirs = [eased(p) if p.name in thin else p for p in theirs]
    kernel = views(theirs, looks)
    if strokes is None:
        strokes = [project(parts, look, section) for look in looks]
    skip = list(exceptions)
    edge = None if section is None or section.above is None else _edge_of_half(section.above)

    def built() -> list[Any]:
        return [build_part(p) for p in theirs]

    found = []
    for look, own, other in zip(looks, strokes, kernel, strict=True):
        name = _name(look)
        drawn = {
            True: [chain(s.curve) for s in own if s.visible],
            False: [chain(s.curve) for s in own if not s.visible],
        }
        every, all_kernel = drawn[True] + drawn[False], other["visible"] + other["hidden"]
        for title, one, two, side in (
            (f"{name}: drawn visible, kernel not", drawn[True], other["visible"], True),
            (f"{name}: kernel visible, drawn not", other["visible"], drawn[True], False),
            (f"{name}: drawn hidden, kernel not", drawn[False], all_kernel, None),
            (f"{name}: kernel hidden, drawn not", other["hidden"], every, None),
        ):
            appeal = (
                None
                if side is None
                else _appeal(built, look, side, every if side is False else all_kernel)
            )
            found.append(_difference(title, one, two, skip, edge, appeal))
    return found


def visible_differences(
    strokes: Sequence[Stroke],
    shapes: Sequence[Any],
    look: Look,
    level: float,
    court: bool = True,
) -> list[Difference]:
    """Compare visible strokes with built solids, both ways; the half ends at ``level``.

    Without ``court`` no ray is asked where a line is far off, which is slow when all of them are.
    """
    (kernel,) = views_of(shapes, [look])
    drawn, name, edge = [chain(s.curve) for s in strokes], _name(look), _edge_of_half(level)
    every = kernel["visible"] + kernel["hidden"]
    found = []
    for title, one, two, side in (
        ("drawn, kernel not", drawn, kernel["visible"], True),
        ("kernel, drawn not", kernel["visible"], drawn, False),
    ):
        appeal = _appeal(lambda: shapes, look, side, every) if court else None
        found.append(_difference(f"{name}: {title}", one, two, (), edge, appeal))
    return found


def _edge_of_half(level: float) -> Known:
    """Where a half section ends it has no line (ISO 128-3), while the cut solid has an edge."""
    return Known("edge of the half", lambda p: np.abs(p[:, 1] - level) < NEAR)


def _name(look: Look) -> str:
    axes = {0: "x", 1: "y", 2: "z"}
    eye = look.toward_eye
    k = max(range(3), key=lambda i: abs(eye[i]))
    return f"from {'-' if eye[k] < 0 else '+'}{axes[k]}"


def chain(curve: Curve) -> Any:
    """Give a curve as points (n, 2), chords within 0.001 mm."""
    if isinstance(curve, Line):
        return np.array([curve.a, curve.b])
    if isinstance(curve, Poly):
        return np.array(curve.points)
    if isinstance(curve, Arc):
        size = (curve.radius, 0.0), (0.0, curve.radius)
        return _swung(curve.centre, *size, curve.a0, curve.a1)
    return _swung(curve.centre, curve.major, curve.minor, curve.t0, curve.t1)


def _swung(c: Any, a: Any, b: Any, t0: float, t1: float) -> Any:
    r = max(np.hypot(*a), np.hypot(*b))
    n = int(np.ceil((t1 - t0) / (0.008 / r) ** 0.5)) + 2
    t = np.linspace(t0, t1, n)[:, None]
    return np.array(c) + np.cos(t) * np.array(a) + np.sin(t) * np.array(b)


def _appeal(
    shapes: Callable[[], Sequence[Any]], look: Look, side: bool, lines: list[Any]
) -> Callable[[Any], Any]:
    """Give the test whether the kernel's rays take the drawing's side at points in dispute."""

    def judge(points: Any) -> Any:
        known = distance(points, lines) < NEAR
        return known & (seen(shapes(), look, points) == side)

    return judge


def _difference(
    title: str,
    one: list[Any],
    two: list[Any],
    exceptions: Sequence[Known],
    edge: Known | None,
    appeal: Callable[[Any], Any] | None,
) -> Difference:
    points = np.concatenate([_samples(c) for c in one]) if one else np.zeros((0, 2))
    if edge is not None:
        points = points[~edge.where(points)]
    away = distance(points, two)
    excused = np.zeros(len(points), bool)
    for known in exceptions:
        excused |= (away > NEAR) & known.where(points)
    bad = (away > NEAR) & ~excused
    judged = np.zeros(len(points), bool)
    if appeal is not None and STEP * bad.sum() > SLACK / 3:
        # Only where a line is far off: a line a little off is a matter of place, not of sight.
        rows = np.flatnonzero(bad & (away > FAR))
        judged[rows] = appeal(points[rows])
        bad &= ~judged
    rows = np.flatnonzero(bad)
    spread = rows[:: max(len(rows) // 6, 1)]
    return Difference(
        title,
        STEP * len(points),
        STEP * int(bad.sum()),
        float(away[~excused & ~judged].max(initial=0.0)),
        STEP * int(excused.sum()),
        STEP * int(judged.sum()),
        tuple((float(x), float(y)) for x, y in points[spread]),
    )


def _samples(chain_: Any) -> Any:
    """Give points every STEP along a chain."""
    run = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(chain_, axis=0).T))])
    at = (np.arange(max(int(run[-1] / STEP), 1)) + 0.5) * min(STEP, run[-1])
    return np.column_stack([np.interp(at, run, chain_[:, k]) for k in (0, 1)])


def distance(points: Any, chains: list[Any]) -> Any:
    """Give the distance (mm) of each point from the nearest chain, at most 9."""
    order = np.argsort(points[:, 0])
    p = points[order]
    near = np.full(len(p), 9.0)
    for c in chains:
        for piece in _short(c):
            lo, hi = piece.min(0) - FAR, piece.max(0) + FAR
            a, b = np.searchsorted(p[:, 0], (lo[0], hi[0]))
            y = p[a:b, 1]
            rows = a + np.flatnonzero((y >= lo[1]) & (y <= hi[1]) & (near[a:b] > 1e-3))
            if len(rows):
                near[rows] = np.minimum(near[rows], _to_chain(p[rows], piece))
    out = np.empty(len(p))
    out[order] = near
    return out


def _short(c: Any) -> list[Any]:
    return [c[k : k + 17] for k in range(0, len(c) - 1, 16)]


def _to_chain(p: Any, c: Any) -> Any:
    a, d = c[:-1], np.diff(c, axis=0)
    size = np.maximum((d * d).sum(1), 1e-300)
    g = p[:, None] - a[None]
    u = np.clip((g * d).sum(2) / size, 0.0, 1.0)
    return np.hypot(*np.moveaxis(g - u[..., None] * d, 2, 0)).min(1)

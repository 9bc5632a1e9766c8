"""Edges laid flat on paper: every curve as seen along a look, and where two of them meet.

Flat forms: a straight stretch, an ellipse (centre, two half axes, phase), a chain of points.
What can hide and what can be hidden changes only where two flat curves meet.
"""

from __future__ import annotations

import numpy as np

from drafting.arrays import Floats, Hits, Ints, Pairs
from drafting.drawing.sheet.strokes import Look
from drafting.shape.faces import touching
from drafting.shape.space_curves import ELLIPSE, LINE, RULED, TWIN, Curves, trig_roots

THIN = 1e-7
"""An ellipse with a half axis (mm) below this is seen edge-on."""
NEAR = 1e-6
"""Ends (mm) this near to a curve touch it."""


class Flat:
    """Curves seen along a look."""

    def __init__(self, curves: Curves, look: Look) -> None:
        self.curves, self.t0, self.t1 = curves, curves.t0, curves.t1
        self.paper = np.array([look.right, look.up]).T
        self.form = curves.form
        self.centre = curves.c @ self.paper
        a, b = curves.a @ self.paper, curves.b @ self.paper
        aa, bb, ab = _dot(a, a), _dot(b, b), _dot(a, b)
        even = np.hypot(2 * ab, aa - bb) < 1e-12 * (aa + bb)
        self.phase: Floats = np.where(even, 0.0, 0.5 * np.arctan2(2 * ab, aa - bb))
        c, s = np.cos(self.phase)[:, None], np.sin(self.phase)[:, None]
        self.major, self.minor = a * c + b * s, b * c - a * s
        self.edge_on = (self.form == ELLIPSE) & (_dot(self.minor, self.minor) < THIN**2)
        self.open = (self.form == ELLIPSE) & ~self.edge_on
        self._lay_segments()

    def at(self, row: Ints, t: Floats) -> Floats:
        """Give paper points (n, 2)."""
        points: Floats = self.curves.at(row, t) @ self.paper
        return points

    def _lay_segments(self) -> None:
        """Lay everything straight on paper, and chains, as segments with parameters at the ends.

        An edge-on ellipse swings to and fro: it becomes one segment for each half turn.
        """
        parts: list[tuple[Ints, Floats, Floats, Floats]] = []
        rows = np.flatnonzero(self.form == LINE)
        parts.append((rows, self.t0[rows], self.t1[rows], np.zeros(len(rows))))
        rows = np.flatnonzero(self.edge_on)
        if len(rows):
            a, b = self.t0[rows] - self.phase[rows], self.t1[rows] - self.phase[rows]
            first = np.floor(a / np.pi)
            for k in range(4):
                lo = np.maximum(a, (first + k) * np.pi)
                hi = np.minimum(b, (first + k + 1) * np.pi)
                use = hi - lo > 1e-9
                shift = self.phase[rows[use]]
                swing = np.where((first[use] + k) % 2 == 0, 1.0, -1.0)
                parts.append((rows[use], lo[use] + shift, hi[use] + shift, swing))
        row = np.concatenate([p[0] for p in parts])
        t0, t1, swing = (np.concatenate([p[k] for p in parts]) for k in (1, 2, 3))
        starts, stops = [self.at(row, t0)], [self.at(row, t1)]
        of_curve, t0s, t1s = [row], [t0], [t1]
        for k, (t, points) in self.curves.nodes.items():
            flat = points @ self.paper
            of_curve.append(np.full(len(t) - 1, k))
            t0s.append(t[:-1])
            t1s.append(t[1:])
            starts.append(flat[:-1])
            stops.append(flat[1:])
        self.seg_row = np.concatenate(of_curve)
        self.seg_t0, self.seg_t1 = np.concatenate(t0s), np.concatenate(t1s)
        self.seg_a, self.seg_b = np.concatenate(starts), np.concatenate(stops)
        self.seg_swing = np.concatenate([swing, np.zeros(len(self.seg_row) - len(row))])
        long = np.hypot(*(self.seg_b - self.seg_a).T) > NEAR
        for name in ("seg_row", "seg_t0", "seg_t1", "seg_swing", "seg_a", "seg_b"):
            setattr(self, name, getattr(self, name).compress(long, 0))
        way = (self.seg_b - self.seg_a).T
        self.seg_rows = np.array([*self.seg_a.T, *way, np.hypot(*way)])

    def on_segment(self, seg: Ints, u: Floats) -> Floats:
        """Give the curve parameter at the fraction u of segments."""
        t0, t1, swing = self.seg_t0[seg], self.seg_t1[seg], self.seg_swing[seg]
        u = np.clip(u, 0.0, 1.0)
        plain = t0 + u * (t1 - t0)
        phase = self.phase[self.seg_row[seg]]
        a, b = np.cos(t0 - phase), np.cos(t1 - phase)
        level = np.clip(swing * (a + u * (b - a)), -1.0, 1.0)
        half = np.floor((t0 - phase) / np.pi + 1e-9) * np.pi
        swung: Floats = phase + half + np.arccos(level)
        return np.where(swing == 0.0, plain, swung)

    def meetings(self) -> Hits:
        """Give (row, t) of every point where a stretch meets another on paper."""
        found = [self._segments(), self._segments_ellipses(), self._ellipses()]
        return np.concatenate([f[0] for f in found]), np.concatenate([f[1] for f in found])

    def _segments(self) -> Hits:
        a, b = self.seg_a, self.seg_b
        i, j = _overlapping(np.minimum(a, b) - NEAR, np.maximum(a, b) + NEAR)
        other = self.seg_row[i] != self.seg_row[j]
        i, j = i[other], j[other]
        (ax, ay, px, py, size_d), (bx, by, qx, qy, size_e) = (
            self.seg_rows.take(k, 1) for k in (i, j)
        )
        gx, gy = bx - ax, by - ay
        det = px * qy - py * qx
        slanted = np.abs(det) > 1e-9 * size_d * size_e
        safe = np.where(slanted, det, 1.0)
        away = gx * py - gy * px
        u, w = (gx * qy - gy * qx) / safe, away / safe
        du, dw = NEAR / size_d, NEAR / size_e
        hit = slanted & (u > -du) & (u < 1 + du) & (w > -dw) & (w < 1 + dw)
        segs, us = [i[hit], j[hit]], [u[hit], w[hit]]
        # Two on one straight line: the ends of each split the other.
        whole = self.form[self.seg_row] != RULED
        along = ~slanted & whole[i] & whole[j] & (np.abs(away) < NEAR * size_d)
        i, j = i[along], j[along]
        for one, two in ((i, j), (j, i)):
            d = b[one] - a[one]
            for end in (a[two], b[two]):
                u = _dot(end - a[one], d) / _dot(d, d)
                keep = (u > 0.0) & (u < 1.0)
                segs.append(one[keep])
                us.append(u[keep])
        seg, u = np.concatenate(segs), np.concatenate(us)
        return self.seg_row[seg], self.on_segment(seg, u)

    def _segments_ellipses(self) -> Hits:
        rows = np.flatnonzero(self.open)
        lo, hi = np.minimum(self.seg_a, self.seg_b), np.maximum(self.seg_a, self.seg_b)
        major, minor = (_dot(axis, axis) for axis in (self.major[rows], self.minor[rows]))
        reach = np.sqrt(self.major[rows] ** 2 + self.minor[rows] ** 2)
        elo, ehi = self.centre[rows] - reach - NEAR, self.centre[rows] + reach + NEAR
        s, k = touching(lo, hi, elo, ehi, 0.0)
        small = NEAR / np.sqrt(np.minimum(major, minor))[k]
        k = rows[k]
        p, q = (self._unit(k, ends.take(s, 0)) for ends in (self.seg_a, self.seg_b))
        # A chain that runs along the ellipse touches it with every chord: that splits nothing.
        on = (np.abs((p * p).sum(0) - 1.0) < 1e-7) & (np.abs((q * q).sum(0) - 1.0) < 1e-7)
        free = ~(on & (self.form[self.seg_row[s]] == RULED))
        s, k, small = s[free], k[free], small[free]
        p, q = p.compress(free, 1), q.compress(free, 1)
        d = q - p
        a, b, c = (d * d).sum(0), (p * d).sum(0), (p * p).sum(0) - 1.0
        # Touching: the least distance from the centre is 1 to within `small`.
        disc = b * b - a * c
        ok = disc > -2 * small * a
        size = self.seg_rows[4].take(s)
        root = np.where(disc > (TWIN / size * a) ** 2, np.sqrt(np.maximum(disc, 0.0)), 0.0)
        out_row, out_t = [], []
        for sign in (-1.0, 1.0):
            u = (sign * root - b) / a
            hit = ok & (u > -NEAR / size) & (u < 1 + NEAR / size)
            x, y = p.compress(hit, 1) + u[hit] * d.compress(hit, 1)
            out_row += [self.seg_row[s[hit]], k[hit]]
            out_t += [self.on_segment(s[hit], u[hit]), self.phase[k[hit]] + np.arctan2(y, x)]
        return np.concatenate(out_row), np.concatenate(out_t)

    def _unit(self, k: Ints, points: Floats) -> Floats:
        """Give paper points, in columns, in the frame in which ellipse k is the unit circle."""
        gx, gy = (points - self.centre.take(k, 0)).T
        (ax, ay), (bx, by) = self.major.take(k, 0).T, self.minor.take(k, 0).T
        x = (gx * ax + gy * ay) / (ax * ax + ay * ay)
        y = (gx * bx + gy * by) / (bx * bx + by * by)
        return np.array([x, y])

    def _ellipses(self) -> Hits:
        rows = np.flatnonzero(self.open)
        reach = np.sqrt(self.major[rows] ** 2 + self.minor[rows] ** 2) + NEAR
        i, j = _overlapping(self.centre[rows] - reach, self.centre[rows] + reach)
        i, j = np.concatenate([rows[i], rows[j]]), np.concatenate([rows[j], rows[i]])
        major, minor = self.major.take(j, 0), self.minor.take(j, 0)
        inv = 1.0 / _dot(major, major), 1.0 / _dot(minor, minor)

        def coords(v: Floats) -> tuple[Floats, Floats]:
            return _dot(v, major) * inv[0], _dot(v, minor) * inv[1]

        (cx, cy) = coords(self.centre[i] - self.centre[j])
        (ax, ay), (bx, by) = coords(self.major[i]), coords(self.minor[i])
        aa, bb = ax * ax + ay * ay, bx * bx + by * by
        row, t = trig_roots(
            cx * cx + cy * cy - 1.0 + (aa + bb) / 2,
            2 * (ax * cx + ay * cy),
            2 * (bx * cx + by * cy),
            (aa - bb) / 2,
            ax * bx + ay * by,
        )
        return i[row], t + self.phase[i[row]]


def _dot(a: Floats, b: Floats) -> Floats:
    return a[:, 0] * b[:, 0] + a[:, 1] * b[:, 1]


def _overlapping(lo: Floats, hi: Floats) -> Pairs:
    """Give pairs (i, j), each once, of boxes that overlap: sweep along x, then compare y."""
    order = np.argsort(lo[:, 0])
    lo, hi = lo[order], hi[order]
    n = len(order)
    count = np.searchsorted(lo[:, 0], hi[:, 0], side="right") - np.arange(n) - 1
    count = np.maximum(count, 0)
    i = np.repeat(np.arange(n), count)
    start = np.cumsum(count) - count
    j = i + 1 + np.arange(len(i)) - np.repeat(start, count)
    keep = (lo[i, 1] <= hi[j, 1]) & (lo[j, 1] <= hi[i, 1])
    return order[i[keep]], order[j[keep]]

"""Where words and sizes of the mechanism stand: where they cover the least of what is drawn.

The paper is parted into small squares. Each place for a label is weighed by the strokes and words
under it; what is placed is counted for those that follow.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, cos, degrees, dist, hypot, radians, sin
from typing import Literal

from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import Box, points
from drafting.drawing.sheet.sheet import Dimension, Linear, Mark, Note
from drafting.drawing.sheet.style import Style
from drafting.fitting.drawn.scene import Scene, travel_radius
from drafting.fitting.machine import Distance, Hinge, Load, Point
from drafting.fitting.travel import carried, hard_span, kind, span, turned
from drafting.told.short import figures, quantity, size

SQUARE = 2.0
WORDS, LEADER, FAR = 1.0, 0.25, 0.05
"""What a label costs: for each stroke under its words, under its leader, for each mm of that."""
ROUND = tuple(range(0, 360, 15))
RUNS = (9.0, 14.0, 20.0, 28.0, 38.0, 50.0, 64.0)
LEVELS = (9.0, 14.0, 20.0, 27.0, 35.0)
Square = tuple[int, int]


class Paper:
    """Strokes and words on paper by squares, within ``room`` (view mm)."""

    def __init__(self, k: float, room: Box, marks: Sequence[Mark]) -> None:
        self.k, self.room = k, room
        self.filled: dict[Square, float] = {}
        for m in marks:
            track = points(m.curve, 0.2 / k)
            weight = 0.4 if m.role in ("centre", "phantom") else 1.0
            for a, b in pairwise(track):
                self.fill(self._along(a, b), weight)

    def fill(self, squares: Iterator[Square], weight: float) -> None:
        """Count a stroke in the squares that it runs through."""
        for square in set(squares):
            self.filled[square] = self.filled.get(square, 0.0) + weight

    def _square(self, p: Point) -> Square:
        return int(p[0] * self.k // SQUARE), int(p[1] * self.k // SQUARE)

    def _along(self, a: Point, b: Point) -> Iterator[Square]:
        n = max(1, int(dist(a, b) * self.k / SQUARE * 1.5))
        for i in range(n + 1):
            yield self._square((a[0] + (b[0] - a[0]) * i / n, a[1] + (b[1] - a[1]) * i / n))

    def _in(self, b: Box) -> Iterator[Square]:
        (i0, j0), (i1, j1) = self._square(b[:2]), self._square(b[2:])
        for i in range(i0, i1 + 1):
            for j in range(j0, j1 + 1):
                yield i, j

    def cost(self, words: Box, lines: Sequence[tuple[Point, Point]]) -> float:
        """Weigh words in a box and their lines; endless where they leave the room."""
        x0, y0, x1, y1 = self.room
        if words[0] < x0 or words[1] < y0 or words[2] > x1 or words[3] > y1:
            return float("inf")
        found = WORDS * sum(self.filled.get(q, 0.0) for q in self._in(words))
        for a, b in lines:
            found += LEADER * sum(self.filled.get(q, 0.0) for q in set(self._along(a, b)))
            found += FAR * dist(a, b) * self.k
        return found

    def take(self, words: Box, lines: Sequence[tuple[Point, Point]]) -> None:
        """Count what was placed: nothing else shall stand on it."""
        self.fill(self._in(words), 6.0)
        for a, b in lines:
            self.fill(self._along(a, b), 2.0)


def labels(
    s: Scene,
    room: Box,
    marks: Sequence[Mark],
    rings: Sequence[tuple[Point, tuple[str, ...], float]] = (),
) -> tuple[Dimension, ...]:
    """Give every size and every word on a leader, each where it covers least.

    ``rings`` are words about a ring of so many paper mm.
    """
    paper = Paper(s.k, room, marks)
    sizes = [_between_pins(s, paper, n) for n in (0, 2)]
    ringed = [noted(s, paper, at, lines, r) for at, lines, r in rings]
    return (*sizes, *ringed, *(noted(s, paper, at, lines) for at, lines in _words(s)))


def _between_pins(s: Scene, paper: Paper, n: int) -> Linear:
    """Give the length between the pins along the cylinder, to the side where there is room."""
    p, word = s.ends[n], ("CLOSED", "", "OPEN")[n]
    label = f"{word} {size(p.length, s.fit.machine.units)}"
    u = p.unit
    angle = (degrees(atan2(u[1], u[0])) + 90.0) % 180.0 - 90.0
    angle = 90.0 if angle == -90.0 else angle
    up = (-sin(radians(angle)), cos(radians(angle)))
    half, k = width(label, Style().text) / 2 + 1.0, s.k
    best: tuple[float, Linear, Box, list[tuple[Point, Point]]] | None = None
    for level in (x for run in LEVELS for x in (run, -run)):
        off = (up[0] * level / k, up[1] * level / k)
        a, b = ((q[0] + off[0], q[1] + off[1]) for q in (p.base, p.rod))
        for share in (0.5, 0.35, 0.65, 0.2, 0.8):
            mid = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
            text = (mid[0] + up[0] / k, mid[1] + up[1] / k)
            # The words lean: a box along them is cut into three upright ones.
            steps = (-0.66, 0.0, 0.66)
            boxes = [_about((text[0] + u[0] * half * t / k + up[0] * 1.75 / k,
                             text[1] + u[1] * half * t / k + up[1] * 1.75 / k),
                            half / 3 / k * abs(u[0]) + 1.9 / k,
                            half / 3 / k * abs(u[1]) + 1.9 / k) for t in steps]  # fmt: skip
            lines = [(a, b), (p.base, a), (p.rod, b)]
            cost = sum(paper.cost(bx, ()) for bx in boxes) + paper.cost(boxes[1], lines)
            made = Linear(f"pins {word.lower()}", p.base, p.rod, angle, a, text, (label,), p.length)
            if best is None or cost < best[0]:
                best = (cost, made, boxes[1], lines)
                rest = boxes
    assert best is not None
    paper.take(best[2], best[3])
    for bx in rest:
        paper.take(bx, ())
    return best[1]


def _about(p: Point, half: float, high: float) -> Box:
    return p[0] - half, p[1] - high, p[0] + half, p[1] + high


def noted(s: Scene, paper: Paper, at: Point, lines: tuple[str, ...], ring: float = 0.0) -> Note:
    """Put words on a leader where they cover least; it ends at a ring of so many paper mm."""
    style, k = Style(), s.k
    wide = max(width(t, style.text) for t in lines) + 2 * style.text_gap
    high = len(lines) * style.text * style.line_pitch
    best: tuple[float, Note, Box, list[tuple[Point, Point]]] | None = None
    for angle in ROUND:
        c, sn = cos(radians(angle)), sin(radians(angle))
        tip = (at[0] + ring * c / k, at[1] + ring * sn / k)
        for run in RUNS:
            knee = (tip[0] + run * c / k, tip[1] + run * sn / k)
            side: Literal["left", "right"] = "right" if c > -1e-9 else "left"
            left = knee[0] if side == "right" else knee[0] - wide / k
            words = (left, knee[1] - 0.5 / k, left + wide / k, knee[1] + (high + 0.5) / k)
            leader = [(tip, knee)]
            cost = paper.cost(words, leader)
            if best is None or cost < best[0]:
                note = Note(
                    " ".join(lines), at, knee, "right" if side == "right" else "left", lines
                )
                best = (cost, note, words, leader)
    assert best is not None
    paper.take(best[2], best[3])
    return best[1]


def _words(s: Scene) -> Iterator[tuple[Point, tuple[str, ...]]]:
    """Give what is said and at which point: pins, hinge, loads, travel, stops."""
    f, units = s.fit, s.fit.machine.units
    way, near = f.machine.way, s.ends[0]

    def place_(p: Point) -> str:
        return f"({size(p[0], units)}, {size(p[1], units)})"

    if isinstance(way, Distance):
        return
    for word, p, ears in (("BASE PIN", near.base, f.machine.base_ears),
                          ("ROD PIN", near.rod, f.machine.rod_ears)):  # fmt: skip
        pin = f" ⌀{size(ears.pin, units)}" if ears and ears.pin else ""
        yield p, (f"{word}{pin}", f"{place_(p)} AT {_at(s, near.at)}" if word[0] == "R"
                  else place_(p))  # fmt: skip
    if isinstance(way, Hinge):
        yield way.at, (f"HINGE {place_(way.at)}",)
        middle = turned(way.rod_pin, way.at, sum(span(way)) / 2)
        r = travel_radius(s) / hypot(middle[0] - way.at[0], middle[1] - way.at[1])
        on = (way.at[0] + r * (middle[0] - way.at[0]), way.at[1] + r * (middle[1] - way.at[1]))
        a, b = span(way)
        stops = [f"{stop:.4g}°" for at, stop in zip(span(way), hard_span(way), strict=True)
                 if stop != at]  # fmt: skip
        said = (f"STOP{'S' if len(stops) > 1 else ''} AT {', '.join(stops)}",) if stops else ()
        yield on, (f"TRAVEL {b - a:.4g}°", *said)
    for load in way.loads[:3]:
        yield carried(way, load.at, near.at), (load_words(load, units),)


def load_words(load: Load, units: str) -> str:
    """Say a load as a person of that unit writes it."""
    if load.mass:
        if units == "in":
            return f"{figures(load.mass / 0.45359237)} lb"
        return f"{figures(load.mass)} kg"
    return quantity(hypot(*load.force), "N", units)


def _at(s: Scene, at: float) -> str:
    return f"{at:.4g}°" if kind(s.fit.machine.way) == "deg" else size(at, s.fit.machine.units)

"""Charts as SVG files: black on white, lines told apart by dashes and by names at their ends."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, log10
from typing import Any

from drafting.checks.numbers import CylinderNumbers
from drafting.reports.curves import Chart, charts, shown

WIDE, HIGH = 160.0, 100.0
LEFT, RIGHT, TOP, BOTTOM = 20.0, 34.0, 16.0, 22.0
"""Millimetres: the paper, and what stands free round the field."""
LETTERS, SMALL = 3.2, 2.6
DASHES = ("none", "3,1", "0.8,0.8", "4,1,0.8,1")


def plots(n: CylinderNumbers, units: str) -> dict[str, bytes]:
    """Give the SVG files of all charts that the numbers allow, by name without ending."""
    return {chart.name: svg(chart) for chart in charts(n, units)}


def svg(chart: Chart) -> bytes:
    """Draw one chart."""
    import svgwrite

    paper = svgwrite.Drawing(
        size=(f"{WIDE}mm", f"{HIGH}mm"), viewBox=f"0 0 {WIDE:g} {HIGH:g}", debug=False
    )
    paper.set_desc(title=chart.title, desc=chart.note)
    paper.add(paper.rect((0, 0), (WIDE, HIGH), fill="white"))
    _Plot(chart, paper).draw()
    return bytes(paper.tostring(), "utf-8")


def ticks(most: float, about: int = 6) -> list[float]:
    """Give round numbers from zero to the first that is not below ``most``."""
    rough = most / about
    power = 10.0 ** floor(log10(rough))
    step = next(s * power for s in (1.0, 2.0, 2.5, 5.0, 10.0) if s * power >= rough * (1 - 1e-9))
    count = ceil(most / step - 1e-9)
    return [float(f"{k * step:.10g}") for k in range(count + 1)]


def apart(wanted: Sequence[float], gap: float, lo: float, hi: float) -> list[float]:
    """Move places so that neighbours stand at least ``gap`` apart within lo to hi, order kept."""
    order = sorted(range(len(wanted)), key=lambda k: wanted[k])
    placed = list(wanted)
    below = lo - gap
    for k in order:
        placed[k] = max(placed[k], below + gap)
        below = placed[k]
    above = hi + gap
    for k in reversed(order):
        placed[k] = min(placed[k], above - gap)
        above = placed[k]
    return placed


class _Plot:
    """One chart on its paper; y grows downwards there."""

    def __init__(self, chart: Chart, paper: Any) -> None:
        self.chart, self.paper = chart, paper
        upright = [level.at for level in chart.levels if level.upright]
        lying = [level.at for level in chart.levels if not level.upright]
        xs = [x for s in chart.series for x, _ in s.points]
        ys = [y for s in chart.series for _, y in s.points]
        self.x_ticks = ticks(max(*xs, *upright))
        self.y_ticks = ticks(max(*ys, *lying))

    def x(self, value: float) -> float:
        return LEFT + (WIDE - LEFT - RIGHT) * value / self.x_ticks[-1]

    def y(self, value: float) -> float:
        return HIGH - BOTTOM - (HIGH - TOP - BOTTOM) * value / self.y_ticks[-1]

    def draw(self) -> None:
        self._grid()
        self._top_scale()
        self._levels()
        self._series()
        c = self.chart
        self._words(c.title, (LEFT, 5.0), LETTERS, "start", bold=True)
        self._words(c.x_label, ((LEFT + WIDE - RIGHT) / 2, HIGH - BOTTOM + 9.5))
        self._words(c.y_label, (5.0, (TOP + HIGH - BOTTOM) / 2), turned=True)
        for k, line in enumerate(wrapped(c.note, 84)):
            self._words(line, (LEFT, HIGH - 7.0 + 3.4 * k), SMALL, "start")

    def _grid(self) -> None:
        for value in self.x_ticks:
            at = self.x(value)
            self._line((at, self.y(0)), (at, TOP), 0.1)
            self._words(shown(value), (at, HIGH - BOTTOM + 4.5), SMALL)
        for value in self.y_ticks:
            at = self.y(value)
            self._line((LEFT, at), (WIDE - RIGHT, at), 0.1)
            self._words(shown(value), (LEFT - 1.5, at + 0.9), SMALL, "end")
        self._line((LEFT, self.y(0)), (WIDE - RIGHT, self.y(0)), 0.35)
        self._line((LEFT, self.y(0)), (LEFT, TOP), 0.35)

    def _top_scale(self) -> None:
        c = self.chart
        if not c.top_label:
            return
        self._words(c.top_label, ((LEFT + WIDE - RIGHT) / 2, 9.5), SMALL)
        last = c.top_only_to if c.top_only_to is not None else self.x_ticks[-1]
        steps = self.x_ticks[::2] if len(self.x_ticks) > 5 else self.x_ticks
        # A scale number too near to the end of the stroke gives way to it.
        room = 0.09 * self.x_ticks[-1]
        for value in (*(v for v in steps if v < last - room), last):
            self._words(shown(value + c.shift), (self.x(value), TOP - 1.5), SMALL)
            self._line((self.x(value), TOP), (self.x(value), TOP - 1.0), 0.25)

    def _levels(self) -> None:
        upright = [level for level in self.chart.levels if level.upright]
        for k, level in enumerate(upright):
            at = self.x(level.at)
            self._line((at, self.y(0)), (at, TOP), 0.25, "1.5,1")
            self._words(level.name, (at - 1.0, TOP + 3.0 + 3.2 * k), SMALL, "end")

    def _series(self) -> None:
        """Draw the lines; names of lines and of lying levels share the right margin."""
        names: list[tuple[str, float]] = []
        for dash, series in zip(DASHES, self.chart.series, strict=False):
            points = [(self.x(a), self.y(b)) for a, b in series.points]
            self.paper.add(
                self.paper.polyline(
                    [_rounded(p) for p in points], fill="none", stroke="black", stroke_width=0.5,
                    stroke_dasharray=dash,
                )
            )  # fmt: skip
            names.append((series.name, points[-1][1]))
        for level in self.chart.levels:
            if not level.upright:
                at = self.y(level.at)
                self._line((LEFT, at), (WIDE - RIGHT, at), 0.25, "1.5,1")
                names.append((f"{level.name} {shown(level.at)}", at))
        places = apart([at for _, at in names], 3.4, TOP, HIGH - BOTTOM)
        for (name, at), place in zip(names, places, strict=True):
            self._line((WIDE - RIGHT + 0.5, at), (WIDE - RIGHT + 2.5, place), 0.1)
            self._words(name, (WIDE - RIGHT + 3.0, place + 0.9), SMALL, "start")

    def _line(
        self, a: tuple[float, float], b: tuple[float, float], wide: float, dash: str = "none"
    ) -> None:
        grey = "#999999" if wide < 0.2 else "black"
        self.paper.add(
            self.paper.line(
                _rounded(a), _rounded(b), stroke=grey, stroke_width=wide, stroke_dasharray=dash
            )
        )

    def _words(
        self,
        words: str,
        at: tuple[float, float],
        high: float = LETTERS,
        anchor: str = "middle",
        turned: bool = False,
        bold: bool = False,
    ) -> None:
        extra = {"transform": f"rotate(-90 {at[0]:.2f} {at[1]:.2f})"} if turned else {}
        if bold:
            extra["font_weight"] = "bold"
        self.paper.add(
            self.paper.text(
                words, insert=_rounded(at), font_size=high, text_anchor=anchor,
                font_family="sans-serif", **extra,
            )
        )  # fmt: skip


def wrapped(text: str, most: int) -> list[str]:
    """Break words into lines of at most so many letters."""
    lines = [""]
    for word in text.split():
        if lines[-1] and len(lines[-1]) + 1 + len(word) > most:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return lines


def _rounded(point: tuple[float, float]) -> tuple[float, float]:
    return round(point[0], 3), round(point[1], 3)

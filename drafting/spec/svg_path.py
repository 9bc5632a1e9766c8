"""Path data as SVG writes it, to polylines: for a logo in the title block.

All commands of SVG 1.1 (M L H V C S Q T A Z, absolute and relative); curves become short chords.
Units and axes stay those of the drawing that the path was made in, y down.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from math import atan2, cos, hypot, pi, radians, sin, sqrt

from drafting.factors import Misread

Point = tuple[float, float]
Polyline = tuple[Point, ...]

_TOKEN = re.compile(r"\s*,?\s*([MmLlHhVvCcSsQqTtAaZz]|[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_CHORDS = 12
"""Chords of one curve: 0.01 of its size, enough for a few centimetres on paper."""
MOST_NUMBERS = 20_000


def read_viewbox(text: str) -> tuple[float, float, float, float]:
    """Give x, y, width and height of a viewBox; raises Misread."""
    parts = text.replace(",", " ").split()
    try:
        x, y, wide, high = (float(p) for p in parts)
    except ValueError as error:
        raise Misread(
            "not-a-viewbox", f'"{text}" is no viewBox; write four numbers: "0 0 120 40"'
        ) from error
    if not (0 < wide < 1e6 and 0 < high < 1e6 and abs(x) < 1e6 and abs(y) < 1e6):
        raise Misread("not-a-viewbox", f'"{text}": width and height must be above 0')
    return x, y, wide, high


def read_path(text: str) -> tuple[Polyline, ...]:
    """Give the polylines of path data; raises Misread."""
    return tuple(_Pen(text).run())


def _tokens(text: str) -> Iterator[str]:
    at, count = 0, 0
    while at < len(text.rstrip()):
        found = _TOKEN.match(text, at)
        count += 1
        if not found or count > MOST_NUMBERS:
            what = f'"{text[at : at + 12]}"' if not found else f"more than {MOST_NUMBERS} numbers"
            raise Misread(
                "not-a-path",
                f"{what} is no SVG path data; copy what stands in d of a <path>",
            )
        yield found[1]
        at = found.end()


class _Pen:
    def __init__(self, text: str) -> None:
        self.tokens = list(_tokens(text))
        self.at: Point = (0.0, 0.0)
        self.start: Point = (0.0, 0.0)
        self.handle: Point | None = None
        self.line: list[Point] = []

    def run(self) -> Iterator[Polyline]:
        k, command = 0, ""
        if not self.tokens or self.tokens[0] not in "Mm":
            raise Misread("not-a-path", "SVG path data begins with M, as in M 0 0 L 10 0")
        while k < len(self.tokens):
            if self.tokens[k].isalpha():
                command, k = self.tokens[k], k + 1
            elif command.upper() == "Z":
                raise Misread("not-a-path", "a number follows Z in the path data")
            need = _TAKES[command.upper()]
            words = self.tokens[k : k + need]
            if len(words) < need or any(w.isalpha() for w in words):
                raise Misread("not-a-path", f"{command} takes {need} numbers in the path data")
            k += need
            if command in "Mm" and len(self.line) > 1:
                yield tuple(self.line)
            self.draw(command, [float(w) for w in words])
            if command in "Zz" and len(self.line) > 1:
                yield tuple(self.line)
                self.line = [self.at]
            command = {"M": "L", "m": "l"}.get(command, command)
        if len(self.line) > 1:
            yield tuple(self.line)

    def draw(self, command: str, n: list[float]) -> None:
        x, y = self.at
        dx, dy = (x, y) if command.islower() else (0.0, 0.0)
        kind, handle = command.upper(), None
        if kind == "M":
            self.at = self.start = (n[0] + dx, n[1] + dy)
            self.line = [self.at]
        elif kind == "Z":
            self.to(self.start)
        elif kind in "LHV":
            self.to((n[0] + dx if kind != "V" else x, n[-1] + dy if kind != "H" else y))
        elif kind == "A":
            self.arc(n[0], n[1], n[2], n[3] != 0, n[4] != 0, (n[5] + dx, n[6] + dy))
        else:
            points = [(n[i] + dx, n[i + 1] + dy) for i in range(0, len(n), 2)]
            if kind in "ST":
                back = self.handle if self.handle is not None else self.at
                points.insert(0, (2 * x - back[0], 2 * y - back[1]))
            handle = points[-2]
            self.bezier([self.at, *points])
        self.handle = handle

    def to(self, p: Point) -> None:
        self.line.append(p)
        self.at = p

    def bezier(self, control: list[Point]) -> None:
        for i in range(1, _CHORDS + 1):
            t, row = i / _CHORDS, control
            while len(row) > 1:
                row = [
                    (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])) for a, b in pairwise(row)
                ]
            self.to(row[0])

    def arc(self, rx: float, ry: float, turn: float, large: bool, sweep: bool, end: Point) -> None:
        """Follow an elliptical arc, SVG 1.1 appendix F.6 (end points to centre)."""
        rx, ry, a = abs(rx), abs(ry), radians(turn)
        x, y = (self.at[0] - end[0]) / 2, (self.at[1] - end[1]) / 2
        if not rx or not ry or hypot(x, y) < 1e-12:
            self.to(end)
            return
        px, py = cos(a) * x + sin(a) * y, -sin(a) * x + cos(a) * y
        grow = sqrt(max(1.0, (px / rx) ** 2 + (py / ry) ** 2))
        rx, ry = rx * grow, ry * grow
        below = (rx * py) ** 2 + (ry * px) ** 2
        k = sqrt(max(0.0, (rx * ry) ** 2 / below - 1.0)) * (-1.0 if large == sweep else 1.0)
        cx, cy = k * rx * py / ry, -k * ry * px / rx
        first = atan2((py - cy) / ry, (px - cx) / rx)
        span = (atan2((-py - cy) / ry, (-px - cx) / rx) - first) % (2 * pi)
        if not sweep:
            span -= 2 * pi
        mx, my = (self.at[0] + end[0]) / 2, (self.at[1] + end[1]) / 2
        count = max(3, round(abs(span) / (2 * pi) * 4 * _CHORDS))
        for i in range(1, count):
            t = first + span * i / count
            u, v = cx + rx * cos(t), cy + ry * sin(t)
            self.to((mx + cos(a) * u - sin(a) * v, my + sin(a) * u + cos(a) * v))
        self.to(end)

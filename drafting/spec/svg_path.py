"""Path data as SVG writes it, to polylines: for a logo in the title block.

The grammar is held here, strictly (SVG 1.1, 8.3.9: all commands, flags of an arc glued or not);
fontTools reads what passed. Curves become short chords. Units and axes stay those of the drawing
that the path was made in, y down.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from fontTools.pens.basePen import BasePen
from fontTools.svgLib.path import parse_path
from fontTools.svgLib.path.arc import EllipticalArc

from drafting.factors import Misread

Point = tuple[float, float]
Polyline = tuple[Point, ...]

_COMMAND = re.compile(r"[\s,]*([MLHVCSQTAZ])", re.IGNORECASE | re.ASCII)
_NUMBER = re.compile(r"\s*,?\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)", re.IGNORECASE | re.ASCII)
_FLAG = re.compile(r"\s*,?\s*([01])", re.ASCII)
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_CHORDS = 12
"""Chords of one curve: 0.01 of its size, enough for a few centimetres on paper."""
MOST_NUMBERS = 20_000
LARGEST = 1e9
"""A number beyond is no logo's; so nothing here can overflow."""


def read_viewbox(text: str) -> tuple[float, float, float, float]:
    """Give x, y, width and height of a viewBox; raises Misread."""
    parts = text.replace(",", " ").split()
    try:
        x, y, wide, high = (float(p) for p in parts)
    except ValueError as error:
        raise Misread(
            "not-a-viewbox", f'"{text}" is no viewBox; write four numbers: "0 0 120 40"'
        ) from error
    if not (1e-3 <= wide <= 1e6 and 1e-3 <= high <= 1e6 and abs(x) <= 1e6 and abs(y) <= 1e6):
        what = "width and height must be above 0.001, and no number beyond a million"
        raise Misread("not-a-viewbox", f'"{text}": {what}')
    return x, y, wide, high


def read_path(text: str) -> tuple[Polyline, ...]:
    """Give the polylines of path data; raises Misread."""
    pen = _Chords()
    parse_path(" ".join(_plain(text)), pen)
    return tuple(tuple(line) for line in pen.lines if len(line) > 1)


def _plain(text: str) -> Iterator[str]:
    """Yield commands and numbers one by one, each as every reader takes it; raises Misread."""
    at, end, count, command = 0, len(text.rstrip()), 0, ""
    while at < end:
        found = _COMMAND.match(text, at)
        if not found:
            raise _not_a_path(f'"{text[at : at + 12].strip()}" is no SVG path data')
        if not command and found[1] not in "Mm":
            raise _not_a_path("SVG path data begins with M, as in M 0 0 L 10 0")
        command, at, first = found[1], found.end(), count
        yield command
        kind = command.upper()
        while word := _word(kind, count - first).match(text, at):
            number, at, count = float(word[1]), word.end(), count + 1
            if abs(number) > LARGEST:
                raise _not_a_path(f"{word[1][:20]} is too large for a logo")
            if count > MOST_NUMBERS:
                raise _not_a_path(f"more than {MOST_NUMBERS} numbers are no logo's")
            yield f"{number:.9f}" if word.re is _NUMBER else word[1]
        if need := _TAKES[kind]:
            if count == first or (count - first) % need:
                raise _not_a_path(f"{command} takes {need} numbers")
        elif count > first:
            raise _not_a_path(f"a number follows {command}")
    if not command:
        raise _not_a_path("SVG path data begins with M, as in M 0 0 L 10 0")


def _word(kind: str, place: int) -> re.Pattern[str]:
    return _FLAG if kind == "A" and place % 7 in (3, 4) else _NUMBER


def _not_a_path(what: str) -> Misread:
    return Misread("not-a-path", f"{what}; copy what stands in d of a <path>")


class _Chords(BasePen):  # type: ignore[misc]  # fontTools carries no types
    """Draws into polylines."""

    def __init__(self) -> None:
        super().__init__()
        self.lines: list[list[Point]] = []

    def _moveTo(self, pt: Point) -> None:  # noqa: N802
        self.lines.append([pt])

    def _lineTo(self, pt: Point) -> None:  # noqa: N802
        self.lines[-1].append(pt)

    def _curveToOne(self, pt1: Point, pt2: Point, pt3: Point) -> None:  # noqa: N802
        a = self.lines[-1][-1]
        for i in range(1, _CHORDS + 1):
            t = i / _CHORDS
            w = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)
            x, y = (
                sum(k * p[n] for k, p in zip(w, (a, pt1, pt2, pt3), strict=True)) for n in (0, 1)
            )
            self.lines[-1].append((x, y))

    def arcTo(  # noqa: N802
        self, rx: float, ry: float, turn: float, large: bool, sweep: bool, end: Point
    ) -> None:
        """Draw an arc; one without a radius is a straight line (SVG 1.1, F.6.2)."""
        EllipticalArc(
            complex(*self._getCurrentPoint()), rx, ry, turn, large, sweep, complex(*end)
        ).draw(self)
        self.lineTo(end)

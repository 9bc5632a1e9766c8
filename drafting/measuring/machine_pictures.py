"""The pictures of the machine's worksheet: a lever, a wall and ears of nobody's machine.

They are drawn on paper as they stand, one to one, and show where each letter is read.
"""

from __future__ import annotations

from itertools import pairwise
from math import pi

from drafting.drawing.sheet.sheet import Dimension, Linear, Mark, Note, Role, Round, Text, View
from drafting.drawing.sheet.strokes import Arc, Line, Point2

TITLE = 2.5
SMALL = 1.8
EYE, HOLE = 8.0, 3.5
"""Radius of an ear and of the hole in it, paper mm."""


def distances() -> View:
    """Show the four distances between the pins; the base's datum is the view's origin."""
    near, far = 66.0, 116.0
    stop_in, stop_out = near - 11.0, far + 11.0
    marks = [*_wall(-17.0, -13.0, 13.0), *_ear(0.0, -17.0), *_pin(0.0)]
    marks += [*_lever(near, "outline"), *_lever(far, "phantom")]
    marks += [*_pin(stop_in, "phantom"), *_pin(stop_out, "phantom")]
    marks.append(Mark(Line((-12.0, 0.0), (stop_out + 8.0, 0.0)), "centre"))
    sizes = (
        _level("A", 0.0, near, -16.0, -HOLE),
        _level("B", 0.0, far, -24.0, -HOLE),
        _level("C", 0.0, stop_in, 16.0, HOLE),
        _level("D", 0.0, stop_out, 24.0, HOLE),
    )
    texts = (
        _word("base end (1): on the frame", -17.0, 29.5, "start"),
        _word("rod end (2): on what moves", far + 40.0, 29.5, "end"),
        _word("C and D: the pin at its stops", near, 15.2, "start"),
        Text((near, -32.0), "PIN TO PIN, CLOSEST AND FARTHEST", TITLE, "middle", bold=True),
    )
    return _view("distances", marks, sizes, texts)


def side(end: int, word: str) -> View:
    """Show an ear from the side: hole, wall behind, free radius; the hole is the origin."""
    free = 17.0
    marks = [*_wall(-22.0, -16.0, 16.0), *_ear(0.0, -22.0), *_pin(0.0)]
    marks += [
        Mark(Arc((0.0, 0.0), free, -pi / 2.6, pi / 2.6), "phantom"),
        Mark(Line((-EYE - 2.0, 0.0), (EYE + 2.0, 0.0)), "centre"),
        Mark(Line((0.0, -EYE - 2.0), (0.0, EYE + 2.0)), "centre"),
    ]
    sizes: tuple[Dimension, ...] = (
        _level(f"K{end}", -22.0, 0.0, -20.0, -EYE - 2.0),
        _round(f"H{end}", HOLE, (4.0, 20.0)),
        Round(f"R{end}", "radius", (0.0, 0.0), free, (free, 0.0), (free + 4.0, 0.0), "right",
              (f"R{end}",), free),
        Round(f"N{end}", "radius", (0.0, 0.0), EYE, (0.7 * EYE, -0.714 * EYE), (12.0, -20.0),
              "right", (f"N{end}",), EYE),
    )  # fmt: skip
    title = Text((0.0, -29.0), f"{word}, FROM THE SIDE", TITLE, "middle", bold=True)
    return _view(f"side {end}", marks, sizes, (title,))


def along(end: int, word: str) -> View:
    """Show both ears along the cylinder, the pin through them, and beside them a single lug."""
    gap, thick, high, pin = 10.0, 5.0, 22.0, 3.0
    marks = [*_floor(-22.0, 58.0, -11.0)]
    for x in (-gap - thick, gap):
        marks += _box(x, -11.0, x + thick, high - 11.0)
    out = gap + thick + 4.0
    marks += [
        *(Mark(Line((a, y), (b, y)), "outline")
          for y in (-pin, pin) for a, b in ((-out, -gap - thick), (-gap, gap), (gap + thick, out))),
        *(Mark(Line((x, -pin), (x, pin)), "outline") for x in (-out, out)),
        Mark(Line((-out - 3.0, 0.0), (out + 3.0, 0.0)), "centre"),
    ]  # fmt: skip
    lug = (37.0, 53.0)
    marks += [*_box(lug[0], -11.0, lug[1], high - 11.0)]
    marks.append(Mark(Line((lug[0] - 3.0, 0.0), (lug[1] + 3.0, 0.0)), "centre"))
    other = 5.0
    marks.append(Mark(Line((0.0, -9.0), (0.0, 9.0)), "centre"))
    marks.append(Mark(Line((other, -9.0), (other, 9.0)), "phantom"))
    sizes: tuple[Dimension, ...] = (
        _level(f"G{end}", -gap, gap, 16.0, high - 11.0),
        _level(f"E{end}", gap, gap + thick, 24.0, high - 11.0, outside=True),
        _level(f"L{end}", lug[0], lug[1], 16.0, high - 11.0),
        _level(f"T{end}", -out, out, 32.0, pin),
        _level(f"S{end}", 0.0, other, -19.0, -9.0, outside=True),
        Note(f"P{end}", (-out + 1.0, pin), (-out - 2.0, 12.0), "left", (f"pin P{end}",)),
    )
    texts = (
        _word("two ears ...", -12.0, -23.0, "middle"),
        _word("... or one lug", 45.0, -23.0, "middle"),
        Text((20.0, -29.0), f"{word}, ALONG THE CYLINDER", TITLE, "middle", bold=True),
    )
    return _view(f"along {end}", marks, sizes, texts)


def _view(
    name: str, marks: list[Mark], sizes: tuple[Dimension, ...], texts: tuple[Text, ...]
) -> View:
    return View(name, name, (0.0, 0.0), 1.0, tuple(marks), sizes, (), texts)


def _word(text: str, x: float, y: float, anchor: str) -> Text:
    return Text((x, y), text, SMALL, "start" if anchor == "start" else "middle"
                if anchor == "middle" else "end")  # fmt: skip


def _level(
    letter: str, x0: float, x1: float, line: float, edge: float, outside: bool = False
) -> Linear:
    """Give a level dimension from x0 to x1 with its line at a height, from edges at ``edge``."""
    at = ((x0 + x1) / 2, line + 1.0)
    if outside:
        at = (x1 + 8.0, line + 1.0)
    return Linear(letter, (x0, edge), (x1, edge), 0.0, (x0, line), at, (letter,), x1 - x0, outside)


def _round(letter: str, radius: float, knee: Point2) -> Round:
    x, y = knee
    far = (x * x + y * y) ** 0.5
    tip = (x / far * radius, y / far * radius)
    return Round(letter, "diameter", (0.0, 0.0), radius, tip, knee, "right", (letter,), 2 * radius)


def _pin(x: float, role: Role = "outline") -> list[Mark]:
    return [Mark(Arc((x, 0.0), HOLE, 0.0, 2 * pi), role)]


def _ear(x: float, wall: float) -> list[Mark]:
    """Give an ear round x that stands on a wall to its left."""
    return [
        Mark(Line((wall, EYE), (x, EYE)), "outline"),
        Mark(Line((wall, -EYE), (x, -EYE)), "outline"),
        Mark(Arc((x, 0.0), EYE, -pi / 2, pi / 2), "outline"),
    ]


def _lever(x: float, role: Role) -> list[Mark]:
    """Give the end of a lever round x that comes from the upper right."""
    return [
        Mark(Arc((x, 0.0), EYE, pi / 2, 3 * pi / 2), role),
        Mark(Line((x, EYE), (x + 20.0, EYE)), role),
        Mark(Line((x, -EYE), (x + 20.0, -EYE)), role),
        *_pin(x, role),
    ]


def _wall(x: float, y0: float, y1: float) -> list[Mark]:
    """Give a wall to the left of x, with strokes behind it."""
    marks = [Mark(Line((x, y0), (x, y1)), "outline")]
    steps = int((y1 - y0) / 3.0)
    for k in range(steps):
        y = y0 + 3.0 * k
        marks.append(Mark(Line((x - 3.0, y), (x, y + 3.0)), "hatch"))
    return marks


def _floor(x0: float, x1: float, y: float) -> list[Mark]:
    marks = [Mark(Line((x0, y), (x1, y)), "outline")]
    for k in range(int((x1 - x0) / 3.0)):
        x = x0 + 3.0 * k
        marks.append(Mark(Line((x, y - 3.0), (x + 3.0, y)), "hatch"))
    return marks


def _box(x0: float, y0: float, x1: float, y1: float) -> list[Mark]:
    corners = ((x0, y0), (x0, y1), (x1, y1), (x1, y0))
    return [Mark(Line(a, b), "outline") for a, b in pairwise(corners)]

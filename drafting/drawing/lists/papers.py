"""Sheets of paper and scales: what there is to choose from, the frame with its zones.

Sources as in ``style.py``: "W1", "W2" republications read, "memory" none. Lengths in paper mm.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import pi
from typing import Literal

from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.sheet import Mark, Text
from drafting.drawing.sheet.strokes import Arc, Line, Point2
from drafting.records import dataclass

INCH = 25.4
_ZONE_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # no I and O, ISO 5457 (W1)
_ZONE_TEXT = 2.5
_ISO_ZONE = 50.0
_MARK_INSIDE = 4.0
"""How far a centring mark reaches into the frame and out of it; ISO 5457 has 5 (memory)."""
_RING = 4.0
"""Room for zones round the frame: ink stays 6 mm and more from the edge of the paper."""
_BAR = (50.0, 50.8)
"""The print bar of a metric and of an inch sheet."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet size, landscape; ``zones`` are divisions (along x, along y), none on small sheets."""

    name: str
    family: Literal["iso", "asme"]
    width: float
    height: float
    margins: tuple[float, float, float, float]
    zones: tuple[int, int]

    @property
    def frame(self) -> Box:
        """Give the border of the drawing space."""
        left, bottom, right, top = self.margins
        return (left, bottom, self.width - right, self.height - top)

    @property
    def is_small(self) -> bool:
        """Tell whether title block and views fill the sheet: A4 and A, when they are named."""
        return self.height < 250.0


# ISO 216 sizes (W2); margins 20 at the filing edge and 10 else, ISO 5457:1999 (memory); zones of
# 50 mm, ISO 5457 (W1).
_ISO_MARGINS = (20.0, 10.0, 10.0, 10.0)
# ASME Y14.1 sizes (W1, memory). Margins of 10 and zones are ours, read in no standard.
_ASME_MARGINS = (10.0, 10.0, 10.0, 10.0)
_NONE = (0, 0)


def _asme(name: str, wide: float, high: float, zones: tuple[int, int] = _NONE) -> Paper:
    return Paper(name, "asme", wide * INCH, high * INCH, _ASME_MARGINS, zones)


PAPERS: tuple[Paper, ...] = (
    Paper("A4", "iso", 297.0, 210.0, _ISO_MARGINS, _NONE),
    Paper("A3", "iso", 420.0, 297.0, _ISO_MARGINS, _NONE),
    Paper("A2", "iso", 594.0, 420.0, _ISO_MARGINS, (12, 8)),
    Paper("A1", "iso", 841.0, 594.0, _ISO_MARGINS, (16, 12)),
    Paper("A0", "iso", 1189.0, 841.0, _ISO_MARGINS, (24, 16)),
    _asme("A", 11.0, 8.5),
    _asme("B", 17.0, 11.0),
    _asme("C", 22.0, 17.0, (4, 4)),
    _asme("D", 34.0, 22.0, (8, 4)),
    _asme("E", 44.0, 34.0, (8, 8)),
)

_ISO_STEPS = (1, 2, 5)  # ISO 5455 (memory)
_ISO_SCALES = tuple(Fraction(1, m * 10**e) for e in range(4) for m in _ISO_STEPS)
_INCH_SCALES = tuple(Fraction(1, 2**e) for e in range(9))  # inch practice (memory)
_LARGER = {"iso": (Fraction(5), Fraction(2)), "asme": (Fraction(4), Fraction(2))}


def papers(wanted: str, units: str) -> tuple[Paper, ...]:
    """Give the sheets to try, the smallest first: the named one, or the family of the units.

    The smallest of each family is drawn on when it is named, and is not chosen else.
    """
    if wanted != "auto":
        return tuple(p for p in PAPERS if p.name == wanted)
    family = "asme" if units == "in" else "iso"
    return tuple(p for p in PAPERS if p.family == family)[1:]


def scales(wanted: str, paper: Paper) -> tuple[Fraction, ...]:
    """Give the scales to try, the largest first; views are enlarged twice and more only on demand.

    ``wanted`` is "auto" or a ratio such as ``1:4``.
    """
    if wanted != "auto":
        paper_side, _, model_side = wanted.partition(":")
        return (Fraction(paper_side.strip()) / Fraction(model_side.strip() or 1),)
    series = _INCH_SCALES if paper.family == "asme" else _ISO_SCALES
    return (*_LARGER[paper.family], *series)


def scale_text(scale: Fraction) -> str:
    """Write a scale: ``1:4``, ``2:1``."""
    if scale >= 1:
        return f"{_plain(scale)}:1"
    return f"1:{_plain(1 / scale)}"


def _plain(value: Fraction) -> str:
    return str(value.numerator) if value.denominator == 1 else f"{float(value):g}"


def rectangle(box: Box, role: Literal["frame", "table", "centre"] = "table") -> tuple[Mark, ...]:
    """Give the four sides of a box."""
    x0, y0, x1, y1 = box
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return tuple(
        Mark(Line(a, b), role) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    )


def border(paper: Paper) -> tuple[tuple[Mark, ...], tuple[Text, ...]]:
    """Draw the frame and the centring marks, on large sheets zones with letters and numbers."""
    frame = rectangle(paper.frame, "frame")
    if not any(paper.zones):
        return (*frame, *_centring(paper)), ()
    x0, y0, x1, y1 = paper.frame
    outer = (x0 - _RING, y0 - _RING, x1 + _RING, y1 + _RING)
    marks = [*frame, *rectangle(outer, "table"), *_centring(paper)]
    texts: list[Text] = []
    middle = (paper.width / 2, paper.height / 2)
    for i, along in enumerate(_stations(paper, middle[0], x0, x1, paper.zones[0])):
        for y, out in ((y1, outer[3]), (y0, outer[1])):
            if i:
                marks.append(Mark(Line((along[0], y), (along[0], out)), "table"))
            place = (sum(along) / 2, (y + out) / 2 - _ZONE_TEXT / 2)
            texts.append(Text(place, str(i + 1), _ZONE_TEXT, "middle"))
    for i, along in enumerate(reversed(_stations(paper, middle[1], y0, y1, paper.zones[1]))):
        for x, out in ((x1, outer[2]), (x0, outer[0])):
            if i:
                marks.append(Mark(Line((x, along[1]), (out, along[1])), "table"))
            place = ((x + out) / 2, sum(along) / 2 - _ZONE_TEXT / 2)
            texts.append(Text(place, _ZONE_LETTERS[i], _ZONE_TEXT, "middle"))
    return tuple(marks), tuple(texts)


def print_bar(paper: Paper) -> tuple[tuple[Mark, ...], tuple[Text, ...]]:
    """Draw a rule of 50 mm or 2 in by which a print is checked: outside the frame, else inside."""
    metric = paper.family == "iso"
    long = _BAR[0] if metric else _BAR[1]
    x = paper.frame[0] + 4.0
    y = paper.frame[1] + 2.0 if any(paper.zones) else paper.frame[1] - 3.9
    marks = [Mark(Line((x, y), (x + long, y)), "table", "print bar")]
    count = 5 if metric else 8
    for k in range(count + 1):
        high = 1.8 if k % (count if metric else 4) == 0 else 1.2
        at = x + long * k / count
        marks.append(Mark(Line((at, y), (at, y + high)), "table", "print bar"))
    words = f"{'50 mm' if metric else '2 in'} at 100 %"
    return tuple(marks), (Text((x + long + 2.0, y), words, 1.8, name="print bar"),)


def _stations(
    paper: Paper, middle: float, lo: float, hi: float, count: int
) -> list[tuple[float, float]]:
    """Divide a side into zones counted from its middle; the last ones take what is left."""
    step = _ISO_ZONE if paper.family == "iso" else (hi - lo) / count
    cuts = [lo, *(middle + step * k for k in range(1 - count // 2, count // 2)), hi]
    return list(pairwise(cuts))


def centring_room(paper: Paper) -> tuple[Box, ...]:
    """Give the places inside the frame that the centring marks take, with a little air."""
    (x0, y0, x1, y1), d = paper.frame, _MARK_INSIDE + 1.0
    mx, my = paper.width / 2, paper.height / 2
    return (
        (mx - 1.0, y0, mx + 1.0, y0 + d),
        (mx - 1.0, y1 - d, mx + 1.0, y1),
        (x0, my - 1.0, x0 + d, my + 1.0),
        (x1 - d, my - 1.0, x1, my + 1.0),
    )


def _centring(paper: Paper) -> tuple[Mark, ...]:
    mx, my, d = paper.width / 2, paper.height / 2, _MARK_INSIDE
    x0, y0, x1, y1 = paper.frame
    tracks = (
        # On small sheets the title block reaches over the middle.
        ((mx, y0 - d), (mx, y0 if paper.is_small else y0 + d)),
        ((mx, y1 - d), (mx, y1 + d)),
        ((x0 - d, my), (x0 + d, my)),
        ((x1 - d, my), (x1 + d, my)),
    )
    return tuple(Mark(Line(a, b), "table", "centring") for a, b in tracks)


def projection_symbol(
    centre: Point2, angle: Literal["third", "first"], high: float = 7.0
) -> tuple[Mark, ...]:
    """Draw the truncated cone in two views (ISO 5456-2, memory).

    The cone's small end points left. Seen from there in third angle, the circles lie on its left;
    in first angle on its right.
    """
    (x, y), k = centre, high / 7.0
    aside = 5.5 * k
    cone, rings = (x + aside, x - aside) if angle == "third" else (x - aside, x + aside)
    small, large, half, over = 1.75 * k, 3.5 * k, 3.5 * k, 1.5 * k
    a, b = cone - half, cone + half
    sides = (
        ((a, y - small), (a, y + small)),
        ((b, y - large), (b, y + large)),
        ((a, y + small), (b, y + large)),
        ((a, y - small), (b, y - large)),
    )
    centre_lines = (
        ((a - over, y), (b + over, y)),
        ((rings - large - over, y), (rings + large + over, y)),
        ((rings, y - large - over), (rings, y + large + over)),
    )
    return (
        *(Mark(Line(p, q), "thread") for p, q in sides),
        *(Mark(Arc((rings, y), r, 0.0, 2 * pi), "thread") for r in (small, large)),
        *(Mark(Line(p, q), "centre") for p, q in centre_lines),
    )

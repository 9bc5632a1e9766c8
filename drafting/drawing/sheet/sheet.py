"""The neutral sheet: everything on the paper, before any file format.

Two spaces: a *view* holds model millimetres (true size) and is placed on the paper by ``at`` and
``scale``; everything else is in paper millimetres from the lower left corner of the sheet, y up.
Writers read this and nothing else. Every kind here is handled by every writer, or returned as a
loss.
"""

from __future__ import annotations

from dataclasses import field
from typing import Literal

from drafting.drawing.sheet.breaks import Breaks
from drafting.drawing.sheet.strokes import Curve, Hatch, Point2
from drafting.records import dataclass

Role = Literal[
    "outline",  # visible edges, wide
    "hidden",  # hidden edges, narrow dashed
    "centre",  # centre and symmetry lines, narrow long-dash dot
    "phantom",  # the other position of what moves, narrow long-dash double-dot
    "thread",  # thread roots and springs, narrow continuous
    "hatch",  # section hatching, narrow continuous
    "break",  # break lines, narrow continuous
    "dimension",  # dimension and extension lines, leaders, narrow
    "text",  # lettering
    "frame",  # border of the sheet, 0.7
    "table",  # rules of tables and title block, narrow
    "rule",  # rules over and under the tables of a data sheet, 0.35
    "hair",  # between the rows of a data sheet and for what is written in, 0.18
]


@dataclass(frozen=True, slots=True)
class Mark:
    """A curve with a role. ``name`` ties it to a piece or a field (``rod_mount.pin``)."""

    curve: Curve
    role: Role
    name: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering. ``at`` is on the base line; ``height`` is that of a capital, paper mm.

    ``anchor`` is the horizontal place of ``at`` in the text. ``turn`` is 0 or 90 degrees.
    """

    at: Point2
    text: str
    height: float = 3.5
    anchor: Literal["start", "middle", "end"] = "start"
    turn: float = 0.0
    bold: bool = False
    name: str = ""


@dataclass(frozen=True, slots=True)
class Linear:
    """A linear dimension of a view, in view millimetres but for the text height.

    Measures from ``a`` to ``b`` along ``angle`` (degrees, 0 = horizontal, 90 = vertical).
    The dimension line runs through ``line_at``; ``text_at`` is the middle of the text's base line,
    above the line. ``outside`` puts the arrows outside. ``texts`` are the printed lines, the first
    the main size, a second one below the line (the other unit). ``measure_mm`` is the true size
    that the label claims, for the inspector. ``half``: ``a``, left of or below ``b``, is not seen;
    arrow and extension line stand at ``b`` alone and the line ends past the middle. ``flag``: the
    framed letters behind the size that say where it comes from. An upright line with a ``shelf``
    turns level beside ``line_at``, and its text stands level on that.
    """

    name: str
    a: Point2
    b: Point2
    angle: float
    line_at: Point2
    text_at: Point2
    texts: tuple[str, ...]
    measure_mm: float
    outside: bool = False
    reference: bool = False
    flag: str = ""
    half: bool = False
    shelf: Literal["", "left", "right"] = ""


@dataclass(frozen=True, slots=True)
class Round:
    """A diameter or radius on a leader: arrow on the circle, knee, then a shelf with the text."""

    name: str
    kind: Literal["diameter", "radius"]
    centre: Point2
    radius: float
    tip: Point2
    knee: Point2
    shelf: Literal["left", "right"]
    texts: tuple[str, ...]
    measure_mm: float
    reference: bool = False
    flag: str = ""


@dataclass(frozen=True, slots=True)
class Note:
    """Words on a leader: arrow at ``tip``, knee, then a shelf with the text lines.

    ``also`` are the names of further sizes that the words say.
    """

    name: str
    tip: Point2
    knee: Point2
    shelf: Literal["left", "right"]
    texts: tuple[str, ...]
    flag: str = ""
    also: tuple[str, ...] = ()


Dimension = Linear | Round | Note


@dataclass(frozen=True, slots=True)
class Whole:
    """What a broken view was made from: its breaks, and marks and hatches as they truly are."""

    breaks: Breaks
    marks: tuple[Mark, ...]
    hatches: tuple[Hatch, ...]


@dataclass(frozen=True, slots=True)
class View:
    """A picture of the model. ``at`` is the paper place of the view's own origin.

    ``window`` (x0, y0, x1, y1 in view millimetres) clips it: details are windows on the same
    view. In a broken view, which has its ``whole``, everything stands where it is drawn, while
    ``measure_mm`` stays true. ``title`` is printed by compose as Text; it is here for names in
    files.
    """

    name: str
    title: str
    at: Point2
    scale: float
    marks: tuple[Mark, ...]
    dimensions: tuple[Dimension, ...] = ()
    hatches: tuple[Hatch, ...] = ()
    texts: tuple[Text, ...] = ()
    window: tuple[float, float, float, float] | None = None
    whole: Whole | None = None


@dataclass(frozen=True, slots=True)
class Sheet:
    """A whole sheet; ``meta``: title, number, revision, date, tool, spec_text, input_sha256.

    ``units`` are those of the printed sizes, ``model_units`` those of a DXF's model space (None:
    the same). ``following`` are the sheets after the first, each of its own paper.
    """

    size_name: str
    width: float
    height: float
    units: Literal["in", "mm"]
    views: tuple[View, ...]
    marks: tuple[Mark, ...] = ()
    texts: tuple[Text, ...] = ()
    meta: dict[str, str] = field(default_factory=dict)
    following: tuple[Sheet, ...] = ()
    model_units: Literal["in", "mm"] | None = None

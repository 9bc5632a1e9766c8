"""What the model wants dimensioned, as meaning: world points and names, never paper places.

A wish carries the dotted name of the value that it shows, so that the drawing can flag a derived
value and the inspector can compare three numbers: the field, the measured size and the label.
All points are world points at the drawn position (retracted, unless the wish says extended).
"""

from __future__ import annotations

from typing import Literal

from drafting.records import dataclass
from drafting.shape.frame import Vec

Pose = Literal["retracted", "extended"]
ADJUST = "ADJUST"
"""The note of a length that grows as its screwed mount is backed off."""


@dataclass(frozen=True, slots=True)
class Length:
    """A distance between two points measured along ``direction`` (unit vector).

    ``rank`` orders the strips: small ranks lie nearest to the outline.
    ``reference`` puts it in parentheses. ``note`` follows the number (``TO END OF THREAD``).
    ``round`` marks a diameter shown as a distance between two lines, ``square`` a square.
    ``toward`` is the side of the metal (unit vector) on which what it leads to is seen.
    """

    name: str
    a: Vec
    b: Vec
    direction: Vec
    rank: int = 5
    reference: bool = False
    note: str = ""
    form: Literal["plain", "round", "square"] = "plain"
    pose: Pose = "retracted"
    toward: Vec | None = None


@dataclass(frozen=True, slots=True)
class Diameter:
    """The diameter of a circle in space, shown in the view that looks along its axis.

    ``others`` are the centres of equal ones that it is the size of too.
    """

    name: str
    centre: Vec
    axis: Vec
    diameter: float
    note: str = ""
    hole: bool = True
    pose: Pose = "retracted"
    others: tuple[Vec, ...] = ()


@dataclass(frozen=True, slots=True)
class Radius:
    """The radius of an arc in space, seen along its axis; ``through`` is a point on the arc."""

    name: str
    centre: Vec
    axis: Vec
    through: Vec
    radius: float
    note: str = ""
    pose: Pose = "retracted"


@dataclass(frozen=True, slots=True)
class Callout:
    """Words on a leader to a point: a port's thread with its clock, a thread's designation.

    ``others`` are points that would do as well: the far edge of a face. ``alike`` are the names and
    tips of like features that the words are of too: the leader may go to any of them. ``sizes``
    (mm) are printed as the sheet prints lengths, in the places ``{}`` of the lines. ``also`` names
    further sizes that the words say.
    """

    name: str
    tip: Vec
    normal: Vec
    lines: tuple[str, ...]
    pose: Pose = "retracted"
    others: tuple[Vec, ...] = ()
    alike: tuple[tuple[str, Vec], ...] = ()
    sizes: tuple[float, ...] = ()
    also: tuple[str, ...] = ()


Wish = Length | Diameter | Radius | Callout


@dataclass(frozen=True, slots=True)
class CentreLine:
    """An axis of a turned thing between two world points (the drawing adds the overrun).

    One that is ``ringed`` is marked by its centre circle where it is seen end on.
    """

    name: str
    a: Vec
    b: Vec
    owner: Literal["body", "rod"] = "body"
    ringed: bool = False


@dataclass(frozen=True, slots=True)
class CentreCircle:
    """The circle on which ``count`` holes of radius ``hole`` lie evenly, one at ``through``."""

    name: str
    centre: Vec
    axis: Vec
    through: Vec
    count: int
    hole: float
    owner: Literal["body", "rod"] = "body"


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread shown by convention: crest at ``major``, root at ``minor``, along the axis."""

    name: str
    start: Vec
    end: Vec
    major: float
    minor: float
    internal: bool
    owner: Literal["body", "rod"] = "body"


@dataclass(frozen=True, slots=True)
class Spring:
    """A coil spring round the axis, from ``start`` to ``end`` where the rod is out; radii in mm."""

    name: str
    start: Vec
    end: Vec
    inner: float
    outer: float
    owner: Literal["body", "rod"] = "body"


Symbol = CentreLine | CentreCircle | Thread | Spring

"""Places for a pin, and standard cylinders, as the search gives them."""

from __future__ import annotations

from typing import Literal

from drafting.fitting.machine import Point
from drafting.records import dataclass

Pin = Literal["base", "rod"]
PINS: tuple[Pin, ...] = ("base", "rod")


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A place for a pin; of the rod's at angle 0.

    ``margin`` is the length left at the tighter end, mm.
    ``spare`` is the least force there is over force asked (None without loads or pressure),
    ``angle`` the least degrees between cylinder and crank. ``unsure``: less is left than the
    tolerance of the lengths.
    """

    place: Point
    margin: float
    spare: float | None
    angle: float
    unsure: bool
    why: str


@dataclass(frozen=True, slots=True)
class Stock:
    """A standard bore, rod and stroke that would do with the base pin at ``place``, all mm.

    ``series`` is the standard that pairs bore and rod.
    """

    bore: float
    rod: float
    series: str
    stroke: float
    place: Point
    margin: float
    spare: float | None
    angle: float


@dataclass(frozen=True, slots=True)
class Suggestions:
    """``region`` are the centres of squares of side ``step`` mm in which the pin may be."""

    pin: Pin
    best: tuple[Suggestion, ...]
    region: tuple[Point, ...]
    step: float
    why_none: str = ""
    stock: tuple[Stock, ...] = ()

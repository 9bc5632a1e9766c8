"""Places for the base pin, as the search gives them."""

from __future__ import annotations

from drafting.fitting.machine import Point
from drafting.records import dataclass


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A place for the base pin. ``margin`` is the length left at the tighter end, mm.

    ``spare`` is the least force there is over force asked (None without loads or pressure),
    ``angle`` the least degrees between cylinder and crank. ``unsure``: less is left than the
    tolerance of the lengths.
    """

    base_pin: Point
    margin: float
    spare: float | None
    angle: float
    unsure: bool
    why: str


@dataclass(frozen=True, slots=True)
class Suggestions:
    """``region`` are the centres of squares of side ``step`` mm in which the base pin may be."""

    best: tuple[Suggestion, ...]
    region: tuple[Point, ...]
    step: float
    why_none: str = ""

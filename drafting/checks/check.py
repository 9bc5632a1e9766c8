"""A check: what there is against what is asked, and which of four words that comes to.

``holds``: above the top of the band with the weakest usual steel, every load-carrying size typed or
measured. ``depends``: it names the fields that decide and the value of each that would do.
``fails``: below the band even with the best usual steel. ``not known``: it says what to type.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from drafting.records import dataclass

Verdict = Literal["holds", "depends", "fails", "not known"]


@dataclass(frozen=True, slots=True)
class Decides:
    """A field that decides a verdict, and what typed there would make it hold.

    ``would_do`` is the limit in ``unit`` (mm, MPa, N, none for a factor), a word to type, or None
    when nothing typed there alone would do. ``sense`` tells on which side of the limit it holds.
    ``taken`` is what was reckoned with: one value, or from-to. ``words`` say it in one line.
    """

    field: str
    would_do: float | str | None
    unit: str
    sense: Literal["at least", "at most", "is"]
    words: str
    taken: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class LoadLine:
    """One line of a load case: what it is, and how much, in ``unit``."""

    name: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class LoadCase:
    """One way in which the cylinder is loaded.

    ``rod`` is the force along the rod outside the gland in N, push above zero, pull below;
    ``gland`` the force of the piston standing against the gland. ``base`` and ``rod_side`` are the
    pressures of the two sides in MPa. ``lines`` are what makes it up. ``decided_by`` names the
    field that says whether it can occur at all, empty for a case that does; ``avoided`` is the
    word that, typed there, takes it away.
    """

    code: str
    name: str
    rod: float = 0.0
    base: float = 0.0
    rod_side: float = 0.0
    gland: float = 0.0
    lines: tuple[LoadLine, ...] = ()
    decided_by: str = ""
    avoided: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Check:
    """One line of the report. ``code`` is stable and unique in a report.

    ``factor_from`` to ``factor_to`` is what there is, in ``unit`` (empty for a factor of safety),
    with the weakest and the best of what nobody typed; None where that is not known. ``asked`` is
    what it is held against, with ``why_asked``. A figure that nothing is asked of has neither
    ``asked`` nor ``verdict``. ``case`` is the name of the load case that governs.
    """

    code: str
    name: str
    factor_from: float | None
    factor_to: float | None
    asked: float | None
    why_asked: str
    verdict: Verdict | None
    source: str
    note: str = ""
    unit: str = ""
    depends_on: tuple[Decides, ...] = ()
    case: str = ""

    @property
    def factor(self) -> float | None:
        """Give the one number to rely on: the lower end."""
        return self.factor_from

    @property
    def provided(self) -> float | None:
        """Give what there is: the lower end."""
        return self.factor_from

    @property
    def required(self) -> float | None:
        """Give what is asked."""
        return self.asked

    @property
    def ratio(self) -> float | None:
        """Give what there is over what is asked."""
        return (
            self.factor_from / self.asked if self.factor_from is not None and self.asked else None
        )

    @property
    def ok(self) -> bool | None:
        """Give True for holds, False for fails, else None."""
        return {"holds": True, "fails": False}.get(self.verdict or "")


def told(code: str, name: str, value: float, unit: str, source: str, note: str = "") -> Check:
    """Give a figure that nothing is asked of."""
    return Check(code, name, value, value, None, "", None, source, note, unit)


def failed(checks: Iterable[Check]) -> tuple[Check, ...]:
    """Give the checks that fail."""
    return tuple(c for c in checks if c.verdict == "fails")


def open_checks(checks: Iterable[Check]) -> tuple[Check, ...]:
    """Give the checks that depend or are not known."""
    return tuple(c for c in checks if c.verdict in ("depends", "not known"))

"""One line of the answer: what the machine asks, what the cylinder has, what is left, a verdict."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from drafting.records import dataclass
from drafting.replacing.rule import Job

Verdict = Literal["fits", "fits with work", "does not fit", "not known"]
WORST_FIRST: tuple[Verdict, ...] = ("does not fit", "not known", "fits with work", "fits")
Unit = Literal["mm", "n", "mpa", "deg", ""]
STATICS = "moments about the hinge, at rest"
GEOMETRY = "geometry"


@dataclass(frozen=True, slots=True)
class Row:
    """One question, answered. Sizes in ``unit``; None where there is nothing to say.

    ``chapter`` is where it stands in the report. ``at`` is the place on the travel that decides.
    ``decides``: what is not known here makes the whole not known.
    """

    chapter: Literal["lengths", "ears", "force", "column", "room"]
    field: str
    words: str
    verdict: Verdict
    unit: Unit = "mm"
    machine: float | None = None
    cylinder: float | None = None
    margin: float | None = None
    do: str = ""
    why: str = ""
    source: str = GEOMETRY
    at: float | None = None
    jobs: tuple[Job, ...] = ()
    decides: bool = True


def whole(rows: Sequence[Row]) -> Verdict:
    """Give the one verdict: the worst of what decides. Nothing asked is nothing known."""
    found = {r.verdict for r in rows if r.decides or r.verdict != "not known"}
    return next((v for v in WORST_FIRST if v in found), "not known")


def jobs_of(rows: Sequence[Row]) -> tuple[Job, ...]:
    """Give every job once, in the order of the rows."""
    return tuple(dict.fromkeys(j for r in rows for j in r.jobs))

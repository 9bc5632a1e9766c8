"""The few lines of notes on the drawing page; all else is said on the data sheet behind it."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.drawing.dimension.job import Job
from drafting.told.flags import DERIVED, legend

BROKEN = "Not to scale across a break; dimensions true."

_REST = "Sizes to hold, data, cautions, approval: sheet 2."


def page_notes(job: Job, broken: bool, bosses: bool, further: str = "") -> tuple[str, ...]:
    """Give the lines: signs, clock and inside, where the rest is.

    ``bosses`` says them in words; ``further`` tells where views are that have pages of their own.
    """
    side = f"Clock as seen from the {job.clock_from} end."
    turning = f" Rod {job.turning}." if job.turning else ""
    lines = [
        _signs(job),
        f"{side} The inside is the builder's choice.{turning}",
        " ".join(filter(None, (_REST, further, BROKEN if broken else ""))),
    ]
    if bosses and job.ports:
        said = "; ".join(f"{p.end.lower()} {p.boss}" for p in job.ports if p.boss)
        lines.insert(1, f"Bosses: {said}.")
    return tuple(lines)


def _signs(job: Job) -> str:
    """Say what flags, parentheses and brackets mean, those that stand on the sheet."""
    other = job.dimensions.partition(" ")[2].strip("[]")
    brackets = f" [ ] {'inches' if other == 'in' else other}, for information." if other else ""
    return f"{legend({DERIVED, *job.flags.values()})} ( ) reference.{brackets}"


def where_views_are(alone: Sequence[str], first: int, count: int) -> str:
    """Say on which sheets, from the ``first`` on, views stand that have pages of their own."""
    if not count:
        return ""
    what = "Extended view" if tuple(alone) == ("extended",) else "Further views"
    return (
        f"{what}: sheet {first}."
        if count == 1
        else f"{what}: sheets {first} to {first + count - 1}."
    )

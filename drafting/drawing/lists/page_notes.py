"""The few lines of notes on the drawing page; all else is said on the data sheet behind it."""

from __future__ import annotations

from drafting.drawing.dimension.job import Job
from drafting.told.flags import DERIVED, legend

BROKEN = "Broken views: not to scale across a break, their dimensions are true."


def page_notes(job: Job, broken: bool, bosses: bool) -> tuple[str, ...]:
    """Give the lines: signs, clock and inside, where the rest is. ``bosses`` says them in words."""
    side = f"Clock as seen from the {job.clock_from} end."
    turning = f" Rod {job.turning}." if job.turning else ""
    lines = [
        _signs(job),
        f"{side} The inside is the builder's choice.{turning}",
        "Sizes to hold, data, cautions, approval: sheet 2." + (f" {BROKEN}" if broken else ""),
    ]
    if bosses and job.ports:
        said = "; ".join(f"{p.end.lower()} {p.boss}" for p in job.ports if p.boss)
        lines.insert(1, f"Bosses, Ø x height: {said}.")
    return tuple(lines)


def _signs(job: Job) -> str:
    """Say what flags, parentheses and brackets mean, those that stand on the sheet."""
    other = job.dimensions.partition(" ")[2].strip("[]")
    brackets = f" [ ] {'inches' if other == 'in' else other}, for information." if other else ""
    return f"{legend({DERIVED, *job.flags.values()})} ( ) reference.{brackets}"

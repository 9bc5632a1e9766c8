"""The few lines of notes on the drawing page; all else is said on the data sheet behind it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.drawing.dimension.job import Job
from drafting.drawing.sheet.sheet import Sheet
from drafting.told.flags import DERIVED, legend

BROKEN = "Not to scale across a break; dimensions true."
_PHANTOM = "Phantom at ports: room kept for fitting and hose."

_NEVER_LEFT_OUT = {
    "cylinder.stroke": "",
    "cylinder.extended": "",
    "cylinder.bore": "bore ",
    "cylinder.rod": "rod ",
}
"""Sizes that a page says in words where their view stands on another, with a word before them."""
_SEATS = (
    ("boss", "Bosses", " x "),
    ("spotface", "Spotfaces", " x "),
    ("tube", "Port tubes", ", "),
)
"""What ports sit in, its word, and what stands between its sizes."""
_REST = "Sizes to hold, data, cautions, approval:"


def page_notes(
    job: Job, broken: bool, bosses: bool, behind: int = 1, further: str = ""
) -> tuple[str, ...]:
    """Give the lines: signs, clock and inside, where the rest is.

    ``bosses`` says them in words; ``behind`` is how many sheets of data follow, ``further`` tells
    where views are that have pages of their own.
    """
    degrees = any("°" in p.hour for p in job.ports)
    counted = ", degrees clockwise from 12" if degrees else ""
    side = f"Clock as seen from the {job.clock_from} end{counted}."
    turning = f" Rod {job.turning}." if job.turning else ""
    sheets = {1: "sheet 2", 2: "sheets 2, 3"}.get(behind, f"sheets 2 to {behind + 1}")
    rest = f"{_REST} {sheets}."
    lines = [
        _signs(job),
        f"{side} Inside: builder's choice.{turning}",
        f"{rest} {BROKEN}" if broken else rest,
        *([further] if further else []),
    ]
    if bosses and (seats := " ".join(_seats(job))):
        lines.insert(1, seats)
    return tuple(lines)


def _seats(job: Job) -> Iterator[str]:
    """Say the bosses, spotfaces and tubes of the ports, equal ones once."""
    for seat, label, by in _SEATS:
        sizes = {
            p.end.lower(): by.join(f"{words} {flag}".strip() for words, flag in p.sizes)
            for p in job.ports
            if p.seat == seat
        }
        if len(sizes) == len(job.ports) > 1 and len(set(sizes.values())) == 1:
            sizes = {"both" if len(sizes) == 2 else "all": sizes[next(iter(sizes))]}
        if sizes:
            yield f"{label}: {'; '.join(' '.join(said) for said in sizes.items())}."


def _signs(job: Job) -> str:
    """Say what flags, parentheses, brackets and phantom lines mean, those that are on the sheet."""
    other = job.dimensions.partition(" ")[2].strip("[]")
    brackets = f" [ ] {'inches' if other == 'in' else other}, for information." if other else ""
    room = f" {_PHANTOM}" if job.phantoms else ""
    return f"{legend({DERIVED, *job.flags.values()})} ( ) reference.{brackets}{room}"


def where_views_are(alone: Sequence[str], first: int, beside: Sequence[Sheet]) -> str:
    """Say on which sheets, from the ``first`` on, views stand that have pages of their own.

    With an extended view go sizes that page 1 never does without: they are said here.
    """
    if not beside:
        return ""
    what = "Extended view" if tuple(alone) == ("extended",) else "Further views"
    last = first + len(beside) - 1
    where = f"sheet {first}" if first == last else f"sheets {first} to {last}"
    sizes = {d.name: d.texts for s in beside for v in s.views for d in v.dimensions}
    said = [f"{word}{sizes[name][0]}" for name, word in _NEVER_LEFT_OUT.items() if name in sizes]
    return f"{what}: {where}{': ' if said else ''}{', '.join(said)}."

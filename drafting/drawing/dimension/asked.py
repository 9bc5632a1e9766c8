"""Which sizes and words the drawing page shows, and how its callouts say them.

Left out first: what nobody gave of the inside. Equal ports side by side are told once (``2x``), so
is how far two equal balls tilt.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from math import dist

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import measure
from drafting.drawing.dimension.owners import is_port
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.style import Style
from drafting.records import dataclass
from drafting.settle.wishes import Callout, Length, Wish
from drafting.told.flags import DERIVED
from drafting.told.ports_said import PortRow

_INSIDE = frozenset({"base_thickness", "piston_length", "gland_length", "stop_tube"})
_SQUARE = 0.999999
_WIDEST = 66.0
_NARROW = 34.0
"""Paper mm after which the line of a callout is broken into two, and where room is short."""
_LEAST_SPARE, _LEAST_DERIVED = 1.5, 1.0
"""So many paper mm are the least of a size that may stay out, and of a port's place by rule."""
_STANDARD = re.compile(r" (?=O-RING|ISO )")
"""Between the name of a thread and its standard, which may stand on a line of its own."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What the page shows; ``left_out`` are the names of what it does not."""

    wishes: tuple[Wish, ...]
    left_out: tuple[str, ...]


def asked(job: Job, brief: bool = False) -> Asked:
    """Give the wishes of the page.

    ``brief`` leaves out the standards of the ports, and the word of what is plain to see.
    """
    flags = job.flags
    inside = {n for n in (f"cylinder.{i}" for i in _INSIDE) if flags.get(n) == DERIVED}
    wishes = _once([w for w in job.wishes if w.name not in inside], job, brief)
    wishes = _tilts_once(_said_once(wishes, {p.table for p in job.ports}), job)
    return Asked(tuple(wishes), tuple(sorted(inside)))


def is_spare(name: str, job: Job) -> bool:
    """Tell whether a size may stay out of a full view.

    A boss's height, which PORTS says too; how far a mount reaches, which the data sheet holds.
    """
    table, _, field = name.rpartition(".")
    if field == "offset":
        return True
    return field == "height" and any(p.table == table for p in job.ports)


def is_too_small(wish: Wish, job: Job, scale: float) -> bool:
    """Tell whether a size stays out at a scale: its extension lines would be one thick stroke.

    Of those that may stay out, and of ports' places that nobody gave: the data sheet has all.
    """
    on_paper = measure(wish) * scale
    if is_spare(wish.name, job):
        return on_paper < _LEAST_SPARE
    place = is_port(wish.name) and wish.name.endswith(".position")
    return place and job.flags.get(wish.name) == DERIVED and on_paper < _LEAST_DERIVED


def _once(wishes: Sequence[Wish], job: Job, brief: bool) -> list[Wish]:
    """Say each port as a callout does, equal ones that face one way (and did before) once."""
    rows = {f"{p.table}.thread": p for p in job.ports}
    groups: dict[tuple[object, ...], list[tuple[Callout, PortRow]]] = {}
    for w in wishes:
        if isinstance(w, Callout) and (row := rows.get(w.name)):
            same = (row.short, row.hour, row.plugged, row.flag, w.normal, job.was.get(w.name))
            groups.setdefault(same, []).append((w, row))
    said: dict[str, Callout | None] = {}
    for group in groups.values():
        callout, row = group[0]
        head = f"{len(group)}x" if len(group) > 1 else row.end.upper()
        head += ":" * head[-1].isdigit()  # PORT 2: 3/4 CODE 61 is no 2 3/4
        alike = tuple((w.name, w.tip) for w, _ in group[1:])
        said[callout.name] = replace(callout, lines=_lines(head, row, brief), alike=alike)
        said |= dict.fromkeys((w.name for w, _ in group[1:]))
    found = []
    for w in wishes:
        reworded = said.get(w.name, w)
        if reworded is not None:
            found.append(_briefly(reworded, brief))
    return found


def _said_once(wishes: Sequence[Wish], ports: set[str]) -> list[Wish]:
    """Say once what several ports share: a place along the axis, a height; none at odd clocks.

    A height in an oblique direction would stand askew; the PORTS table has it.
    """
    found: list[Wish] = []
    told: set[tuple[str, float]] = set()
    for w in wishes:
        table, _, field = w.name.rpartition(".")
        if isinstance(w, Length) and table in ports and field in ("position", "height"):
            if field == "height" and max(abs(c) for c in w.direction) < _SQUARE:
                continue
            size = round(w.b[0] if field == "position" else dist(w.a, w.b), 6)
            if (field, size) in told:
                continue
            told.add((field, size))
        found.append(w)
    return found


def _tilts_once(wishes: Sequence[Wish], job: Job) -> list[Wish]:
    """Say once how far the balls of both ends tilt, where it is the same in the same view."""
    alike: dict[tuple[object, ...], list[Callout]] = {}
    for w in wishes:
        if isinstance(w, Callout) and w.name.endswith("_mount.tilt"):
            same = (w.lines, w.normal, w.name in job.changed, job.was.get(w.name))
            alike.setdefault(same, []).append(w)
    said: dict[str, Callout | None] = {}
    for first, second in (group for group in alike.values() if len(group) == 2):
        lines = (f"2x {first.lines[0]}", *first.lines[1:])
        said[first.name] = replace(first, lines=lines, alike=((second.name, second.tip),))
        said[second.name] = None
    return [reworded for w in wishes if (reworded := said.get(w.name, w)) is not None]


def _briefly(wish: Wish, brief: bool) -> Wish:
    """Say words in two lines at the most; shoulders are plain to see where they are measured."""
    if brief and isinstance(wish, Length) and wish.name.endswith(".shoulders"):
        return replace(wish, note="")
    if not isinstance(wish, Callout) or len(wish.lines) <= 2:
        return wish
    parts = [f"{line}," for line in wish.lines[:-1]]
    return replace(wish, lines=in_two((*parts, wish.lines[-1])))


def _lines(head: str, row: PortRow, brief: bool) -> tuple[str, ...]:
    """Give a callout of one or two lines."""
    thread = row.brief if brief else row.short
    words = [head, *_STANDARD.split(thread, maxsplit=1)]
    words[-1] += ","
    words += [f"{row.hour},", "PLUGGED"] if row.plugged else [row.hour]
    return in_two(words, _NARROW if brief else _WIDEST)


def in_two(parts: Sequence[str], widest: float = _WIDEST) -> tuple[str, ...]:
    """Join parts in one line, or in two of about one length where that is wider (paper mm).

    A part is what nobody tears: the name of a thread, a clock.
    """
    high = Style().text
    words = " ".join(parts)
    if width(words, high) <= widest or len(parts) == 1:
        return (words,)
    ways = [(" ".join(parts[:k]), " ".join(parts[k:])) for k in range(1, len(parts))]
    return min(ways, key=lambda way: max(width(w, high) for w in way))

"""What stands on a drawing page beside the views: frame, title block, PORTS, notes, print bar.

All of it lies in the lower right: the column, as wide as the block and 85 high. On the smallest
sheets there is no table, and the notes stand left of the block.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.lists.papers import Paper, border, print_bar, scale_text
from drafting.drawing.lists.ports_table import ports_table, table_high
from drafting.drawing.lists.title_block import A3_WIDTH, HEIGHT, WIDTH, title_block
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import Box
from drafting.drawing.sheet.sheet import Mark, Text
from drafting.drawing.sheet.style import Style
from drafting.records import dataclass

COLUMN = 85.0
"""Height of the lower part of a sheet (mm): the column at the right, the open view at the left."""
UNITS = {
    "in": "inches",
    "mm": "mm",
    "in [mm]": "inches [mm]",
    "mm [in]": "mm [inches]",
}
_FLAGGED = r"\S+(?: (?:D|M|OPEN)\b)?"
_TOGETHER = re.compile(
    rf"[(\[] [)\]] \w+|(?:Ø?\d+ )?{_FLAGGED}(?: x (?:\d+ )?{_FLAGGED})+|Ø(?:\d+ )?\S+ MIN"
)
_GLUE = "·"
"""Stands for a space at which no line may end; no note has one."""
_NUMBER = re.compile(rf"(?<=\w) (?=[Ø(]?\.?\d(?!\S*{_GLUE}))")
"""The space between a word and its number, a whole number and its fraction."""
_SENTENCE = re.compile(r"(?<=[.;]) ")
"""The space behind a sentence."""
_LESS = 0.1
"""By so much (mm) the longest line of a note is made shorter at a time."""
_PITCH = 4.0
_AIR = 3.0
_INSIDE = 8.0
"""Free paper between the frame and the notes of a small sheet."""


@dataclass(frozen=True, slots=True)
class Border:
    """What stands on a sheet whatever the views; ``column`` is the box of block, notes, table."""

    marks: tuple[Mark, ...]
    texts: tuple[Text, ...]
    block: Box
    column: Box


def block_width(paper: Paper) -> float:
    """Give the width of the title block."""
    return A3_WIDTH if paper.family == "iso" and not paper.is_small else WIDTH


def bordered(
    job: Job, paper: Paper, scale: Fraction, style: Style, notes: Sequence[str] | None = None
) -> Border:
    """Set up a sheet; one without ``notes`` has no table either."""
    x0, y0, x1, _ = paper.frame
    wide = block_width(paper)
    fields = block_fields(job, paper, scale)
    block = title_block((x1, y0), wide, fields, job.projection, style, job.logo)
    marks, texts = border(paper)
    bar_marks, bar_texts = print_bar(paper)
    marks = (*marks, *block.marks, *bar_marks)
    texts = (*texts, *block.texts, *bar_texts)
    if notes is None:
        return Border(marks, texts, block.box, block.box)
    if paper.is_small:
        left = x0 + _INSIDE
        room = block.box[0] - left - 5.0
        lines = sum(len(_lines(n, room, style)) for n in notes)
        low = y0 + _AIR + (lines - 1) * _PITCH
        found, top = notes_at((left, max(y0 + HEIGHT - 12.0, low)), notes, room, style)
        return Border(marks, (*texts, *found), block.box, (x0, y0, x1, max(top, block.box[3])))
    room = wide - 1.0
    lines = sum(len(_lines(n, room, style)) for n in notes)
    y = block.box[3] + _AIR + (lines - 1) * _PITCH + 0.6
    found, top = notes_at((x1 - wide, y), notes, room, style)
    if job.ports:
        table = ports_table((x1 - wide, top + _AIR), wide, job.ports, style)
        marks, texts, top = (*marks, *table.marks), (*texts, *table.texts), table.box[3]
    return Border(marks, (*texts, *found), block.box, (x1 - wide, y0, x1, top))


def column_high(job: Job, lines: int = 3) -> float:
    """Give the height of the column with so many lines of notes, and white space above it."""
    table = 3 * _AIR + table_high(len(job.ports)) if job.ports else 0.0
    return _block_high(job) + _AIR + lines * _PITCH + table


def column_box(job: Job, paper: Paper, lines: int = 3) -> Box:
    """Give the box of the column; on a small sheet that of the block with the notes beside it."""
    x0, y0, x1, _ = paper.frame
    if paper.is_small:
        return (x0, y0, x1, y0 + _block_high(job) + 2.0)
    return (x1 - block_width(paper), y0, x1, y0 + column_high(job, lines))


def _block_high(job: Job) -> float:
    """Give the height of the title block with the row of its revision, if any."""
    return HEIGHT + 6.0 * bool(job.meta.get("revision_note"))


def notes_at(
    at: tuple[float, float], notes: Sequence[str], room: float, style: Style
) -> tuple[list[Text], float]:
    """Write notes downwards from the base line ``at``; give them with the height of their top."""
    x, y = at
    texts = []
    for note in notes:
        for line in _lines(note, room, style):
            texts.append(Text((x, y), line, style.small_text, name="notes"))
            y -= _PITCH
    return texts, at[1] + style.small_text


def _lines(note: str, room: float, style: Style) -> tuple[str, ...]:
    """Break a note into as few lines as have room, where its sentences end, else of like lengths.

    A sign stays with its word, a number too, and the sizes of a boss together.
    """
    held = _TOGETHER.sub(lambda found: found[0].replace(" ", _GLUE), note)
    held = _NUMBER.sub(_GLUE, held)
    lines = wrapped(held, style.small_text, room)
    if len(lines) > 1:
        whole = [s.replace(" ", _GLUE) for s in _SENTENCE.split(held)]
        fits = all(width(s, style.small_text) <= room for s in whole)
        sentences = wrapped(" ".join(whole), style.small_text, room) if fits else ()
        lines = sentences if len(sentences) == len(lines) else _even(held, lines, style)
    return tuple(line.replace(_GLUE, " ") for line in lines)


def _even(words: str, lines: tuple[str, ...], style: Style) -> tuple[str, ...]:
    """Break words anew into as many lines, the longest as short as it can be."""
    least = max(width(word, style.small_text) for word in words.split())
    while True:
        room = max(width(line, style.small_text) for line in lines) - _LESS
        nearer = wrapped(words, style.small_text, room) if room >= least else ()
        if len(nearer) != len(lines):
            return lines
        lines = nearer


def block_fields(job: Job, paper: Paper, scale: Fraction) -> dict[str, str]:
    """Give what the title block says."""
    words = {
        "scale": scale_text(scale),
        "units": UNITS[job.dimensions],
        "size": paper.name,
        "number": job.name,
    }
    return words | {k: v for k, v in job.meta.items() if v}

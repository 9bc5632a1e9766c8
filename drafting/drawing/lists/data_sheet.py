"""The data sheet behind the drawing: upright pages of their own, A4 or Letter, printed at 100 %.

Sections keep their order and move whole to the next page; only one longer than a page breaks, and
repeats its heading. Of two pages the first has room that the long data leave: what is drawn by rule
comes before them where all then stands wider. The approval box stands at the foot of the last page
of data; what changed never stands on the first, and has a page of its own if need be.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property
from typing import Literal

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.lists import data_sections as section
from drafting.drawing.lists.pages import BETWEEN, Placed, balanced, paged
from drafting.drawing.lists.papers import Paper
from drafting.drawing.lists.strips import CAPS, HEAD, LEADING, Section, Strip, hair
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.sheet import Mark, Sheet, Text
from drafting.drawing.sheet.strokes import Line
from drafting.records import dataclass
from drafting.told.flags import change_mark


@dataclass(frozen=True, slots=True)
class Pitch:
    """Heights of a page (mm): of a row, of one that nobody writes in, of a note's line.

    ``between`` is the free paper between two sections. ``reasons`` of what is drawn by rule are
    said beside it; without them three sizes have room side by side. Two notes are ``apart`` by so
    much more than two lines of one.
    """

    row: float
    printed: float
    note: float = LEADING
    between: float = BETWEEN
    reasons: bool = True
    apart: float = 0.0


PITCHES = (
    Pitch(5.6, 5.6, apart=1.2),
    Pitch(5.3, 5.3, apart=1.2),
    Pitch(5.0, 5.0, between=4.4, apart=1.2),
    Pitch(4.6, 4.6, between=4.0, apart=1.2),
    Pitch(4.4, 4.4, between=3.6, apart=0.8),
    Pitch(4.4, 4.2, 3.3, between=3.0, apart=0.8),
    Pitch(4.4, 4.2, 3.3, between=3.0),
    Pitch(4.4, 4.2, 3.3, between=3.0, apart=0.8, reasons=False),
    Pitch(4.4, 4.2, 3.3, between=3.0, reasons=False),
)
"""The most comfortable first; the last ones where they save a page of a few lines."""
_EASY = 5.0
"""Rows so high are written in with ease."""
_APART = (2.4, 2.0, 1.6, 1.2, 0.8, 0.4)
"""So far apart notes stand where that takes no page more, the clearest first."""
LEFT, RIGHT, TOP, BOTTOM = 20.0, 14.0, 12.0, 11.0
_TITLE, _SMALL_TITLE = 5.0, 3.5
_STEP = 1.4
"""Base line to base line of a broken title, in heights."""
FOOT = 7.0
"""Base line of the foot, from the paper's lower edge."""
_APPROVAL = 15.0
_CHANGED = 0.34
"""Share of the width for the words of what changed, with the end that they are of."""
PAPERS = {"iso": ("A4", 210.0, 297.0), "asme": ("A", 215.9, 279.4)}
_DOCUMENT = "Data sheet to the outline drawing"


def data_pages(
    job: Job, paper: Paper, left_out: Sequence[str] = (), spared: Sequence[str] = ()
) -> tuple[Sheet, ...]:
    """Give the pages behind a drawing on ``paper``: A4 behind ISO sizes, Letter behind others.

    ``left_out`` are the names of the sizes that the drawing had no room for, ``spared`` what else
    it does without, in words.
    """
    name, wide, high = PAPERS[paper.family]
    inner = wide - LEFT - RIGHT
    top = head(job, inner)
    high_left = high - TOP - BOTTOM - top.height
    laid = [_Laid(job, left_out, spared, p, inner, high_left) for p in PITCHES]
    best, more = _best(laid), _further(job, inner)
    if best.count > 1 and best.pitch != PITCHES[0]:
        other = _best([_Laid(job, left_out, spared, p, inner, high_left, True) for p in PITCHES])
        best = min(best, other, key=lambda one: (one.count, PITCHES.index(one.pitch)))
    if more and best.pitch.row < _EASY:  # there is another page, and it has room
        least = len(_shared_out(best, more)[0])
        best = next(one for one in laid if len(_shared_out(one, more)[0]) <= least)
    between = best.pitch.between
    pages, last = _shared_out(best, more)
    for mm in (mm for mm in _APART if mm > best.pitch.apart):
        clearer, end = _shared_out(best.apart(mm), more)
        if len(clearer) == len(pages):
            pages, last = clearer, end
            break
    units: Literal["in", "mm"] = "in" if job.dimensions.startswith("in") else "mm"
    out = []
    for k, strips in enumerate(pages):
        placed = [(0.0, top), *((top.height + between + y, s) for y, s in strips)]
        placed.append((high - TOP - FOOT, foot(job, inner)))
        if k == last:
            placed.append((high - TOP - BOTTOM - _APPROVAL, _approval(inner)))
        out.append(Sheet(name, wide, high, units, (), *inked(placed, high), dict(job.meta)))
    return tuple(out)


def _shared_out(laid: _Laid, more: Sequence[Section]) -> tuple[list[list[Placed]], int]:
    """Give the pages of data and of what comes after them, and which is the last of the data."""
    first, room, tail, between = laid.sections, laid.room, laid.tail, laid.pitch.between
    pages = balanced(first, room, tail, between)
    last = len(pages) - 1
    together = balanced([*first, *more], room, tail, between)
    if last and len(together) == len(pages):
        pages = together
    elif more:
        pages += paged(more, room)
    return pages, last


class _Laid:
    """The sections of a job at a pitch, on pages so ``high``; found when asked for."""

    def __init__(
        self,
        job: Job,
        left_out: Sequence[str],
        spared: Sequence[str],
        pitch: Pitch,
        wide: float,
        high: float,
        ruled_first: bool = False,
    ) -> None:
        self.pitch, self._given = pitch, (job, left_out, spared, pitch, wide, high, ruled_first)
        self.room, self.tail = high - pitch.between, pitch.between + _APPROVAL

    def apart(self, mm: float) -> _Laid:
        """Give the same tables, with notes so much farther apart."""
        job, left_out, spared, pitch, wide, high, ruled_first = self._given
        pitch = replace(pitch, apart=mm)
        other = _Laid(job, left_out, spared, pitch, wide, high, ruled_first)
        other.tables = self.tables
        return other

    @cached_property
    def tables(self) -> list[Section]:
        """Give the sections above the notes."""
        job, left_out, _, pitch, wide, _, ruled_first = self._given
        return _tables(job, left_out, pitch, wide, ruled_first)

    @cached_property
    def sections(self) -> list[Section]:
        """Give all sections."""
        job, _, spared, pitch, wide, _, _ = self._given
        return [*self.tables, *_notes(job, spared, pitch, wide, self.room - self.tail)]

    @cached_property
    def count(self) -> int:
        """Count the pages that they take; a nearer pitch takes no more."""
        return len(paged(self.sections, self.room, self.tail, self.pitch.between))


def _best(laid: Sequence[_Laid]) -> _Laid:
    """Give the most comfortable pitch: for one page, else for as few as the nearest one takes."""
    count = laid[0].count if laid[0].count == 1 else laid[-1].count
    return laid[bisect_left(laid, -count, key=lambda one: -one.count)]


def _tables(
    job: Job, left_out: Sequence[str], pitch: Pitch, wide: float, ruled_first: bool
) -> list[Section]:
    sheet = job.data
    out = []
    if sheet.held:
        out.append(section.holding(sheet, pitch.row, wide, pitch.printed))
    if sheet.lengths:
        out.append(section.lengths(sheet, pitch.row, wide))
    data = [section.data(sheet.data, pitch.row, wide, pitch.printed)] if sheet.data else []
    if sheet.ruled:
        rows = [(r.label, r.text, r.reason if pitch.reasons else "") for r in sheet.ruled]
        data.append(section.ruled(rows, pitch.printed, wide))
    out += data[::-1] if ruled_first else data
    if missing := _missing(job, left_out):
        out.append(section.left_out(missing, pitch.printed, wide))
    return out


def _notes(
    job: Job, spared: Sequence[str], pitch: Pitch, wide: float, most: float
) -> list[Section]:
    sheet = job.data
    gone = (f"Left out on sheet 1 for want of room: {', '.join(spared)}.",) if spared else ()
    lines = (*gone, *sheet.notes, *sheet.cautions)
    if not lines:
        return []
    row, leading, apart = pitch.row, pitch.note, pitch.apart
    return [section.notes(lines, row, wide, most, leading=leading, apart=apart)]


def _missing(job: Job, left_out: Sequence[str]) -> list[tuple[str, str, str]]:
    """Give what the drawing left out and no other list of this sheet says."""
    said = {n for r in job.data.ruled for n in r.names} | set(job.data.said)
    return [(r[1], r[2], "") for r in job.data.sizes if r[0] in left_out and r[0] not in said]


def _further(job: Job, wide: float) -> list[Section]:
    """Give what stands on a page after the data: the changes."""
    sheet, pitch = job.data, PITCHES[0].row
    out = []
    if sheet.changes:
        about = " ".join(words for label, words in sheet.changes if not label)
        rows = [r for r in sheet.changes if r[0]]
        title = f"CHANGES {change_mark(job.meta.get('revision', ''))}"
        out.append(section.pairs(title, about, rows, pitch, wide, _CHANGED))
    return out


def head(job: Job, wide: float, document: str = _DOCUMENT) -> Strip:
    """Give the title and the number over the rule, and what tells one page from another."""
    number, title = job.meta.get("number") or job.name, job.meta.get("title", "")
    number_high = _TITLE if width(number, _TITLE, True) <= wide / 2 else _SMALL_TITLE
    beside = wide - width(number, number_high, True) - 8.0
    room = beside if beside > wide / 3 else wide
    high = _TITLE if width(title, _TITLE, True) <= room else _SMALL_TITLE
    texts = []
    y = -_TITLE
    for k, part in enumerate(wrapped(number, number_high, wide, bold=True)):
        y -= _STEP * number_high * bool(k)
        texts.append(Text((wide, y), part, number_high, "end", bold=True, name="number"))
    y -= _STEP * high * (room == wide)
    for k, part in enumerate(wrapped(title, high, room, bold=True)):
        y -= _STEP * high * bool(k)
        texts.append(Text((0.0, y), part, high, bold=True, name="title"))
    y -= 5.6
    texts.append(Text((0.0, y), document, CAPS, name="type"))
    more, marks = _right(job, wide, y)
    y -= 2.8
    marks.append(Mark(Line((0.0, y), (wide, y)), "outline", "rule"))
    return Strip(-y, tuple(marks), (*texts, *more))


def _right(job: Job, wide: float, y: float) -> tuple[list[Text], list[Mark]]:
    """Give sheet, revision and date from the right; what is not said is a line."""
    texts: list[Text] = []
    marks: list[Mark] = []
    x = wide
    for label, words, room, name in (
        ("Date", job.meta.get("date", ""), 18.0, "date"),
        ("Rev", job.meta.get("revision", ""), 8.0, "revision"),
        ("Sheet", "8 / 8", 0.0, "sheet"),
    ):
        room = width(words, CAPS) if words else room
        x -= room
        if words:
            texts.append(Text((x, y), words, CAPS, name=name))
        else:
            marks.append(hair((x, y - 0.7), (x + room, y - 0.7), name="write"))
        x -= width(label, CAPS) + 1.6
        texts.append(Text((x, y), label, CAPS, name=f"{name} label"))
        x -= 5.0
    return texts, marks


def _approval(wide: float) -> Strip:
    """Give the box in which the builder's own drawing is approved for cutting."""
    top, mid, low = 0.0, -6.0, -_APPROVAL
    cells = (("NAME", 0.0, 0.4), ("SIGNATURE", 0.4, 0.8), ("DATE", 0.8, 1.0))
    marks = [Mark(Line((0.0, y), (wide, y)), "rule", "approval") for y in (top, low)]
    marks.append(hair((0.0, mid), (wide, mid), name="approval"))
    marks += [Mark(Line((x, top), (x, low)), "rule", "approval") for x in (0.0, wide)]
    words = "BUILDER'S DRAWING APPROVED FOR CUTTING"
    texts = [
        Text((2.0, -4.2), words, CAPS, bold=True, name="approval"),
        Text(
            (2.0 + width(words, CAPS, True) + 3.0, -4.2),
            "The builder returns his own drawing first.",
            CAPS,
            name="approval",
        ),
    ]
    for label, a, b in cells:
        x0, x1 = a * wide, b * wide
        if a:
            marks.append(hair((x0, mid), (x0, low), name="approval"))
        texts.append(Text((x0 + 1.3, mid - HEAD - 0.9), label, HEAD, name="approval"))
        marks.append(hair((x0 + 1.3, low + 1.6), (x1 - 1.3, low + 1.6), name="write"))
    return Strip(_APPROVAL, tuple(marks), tuple(texts))


def foot(job: Job, wide: float) -> Strip:
    """Give whose paper it is and, short, the hash by which the original is found."""
    company, mark = job.meta.get("company", ""), job.meta.get("input_sha256", "")[:8]
    texts = []
    if mark:
        texts.append(Text((wide, 0.0), f"Input {mark}", HEAD, "end", name="input"))
    if company:
        texts.append(Text((0.0, 0.0), wrapped(company, HEAD, wide - 24.0)[0], HEAD, name="company"))
    return Strip(LEADING, (), tuple(texts))


def inked(placed: Sequence[Placed], high: float) -> tuple[tuple[Mark, ...], tuple[Text, ...]]:
    """Give marks and texts of strips that stand so far down a page of that height."""
    marks: list[Mark] = []
    texts: list[Text] = []
    for y, strip in placed:
        more_marks, more_texts = strip.at((LEFT, high - TOP - y))
        marks += more_marks
        texts += more_texts
    return tuple(marks), tuple(texts)

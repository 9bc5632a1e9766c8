"""The mechanism's pages: the machine with the cylinder in it, the travel in plots, places for pins.

The view lies in the plane of the arm, x to the right, y up, as the machine file has it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.lists.border import Border, bordered
from drafting.drawing.lists.papers import Paper, papers, scale_text, scales
from drafting.drawing.lists.strips import Strip
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.on_paper import Box, box, union
from drafting.drawing.sheet.sheet import Mark, Sheet, Text, View
from drafting.drawing.sheet.style import Style
from drafting.fitting.drawn.labels import labels
from drafting.fitting.drawn.narrow import (
    WIDE,
    Narrow,
    detail,
    narrow,
    ring,
    ring_word,
    scale_words,
)
from drafting.fitting.drawn.places import place_labels, place_marks
from drafting.fitting.drawn.plots import drawn
from drafting.fitting.drawn.scene import Scene, scene_marks
from drafting.fitting.drawn.silhouette import Edge, silhouette
from drafting.fitting.drawn.table import travel_table, under_table
from drafting.fitting.drawn.words import chapters, headline, jobs, suggested
from drafting.fitting.fit import Fit
from drafting.fitting.lengths import say_at
from drafting.fitting.machine import Distance
from drafting.fitting.suggestion import Suggestions
from drafting.told.short import quantity

STATEMENT = "MECHANISM. Not a design approval. Shortest in outlines, longest in phantom."
INSIDE, ROUND = 6.0, 14.0
"""Free paper inside the frame, and round what is drawn, for words."""
TITLE, PLOT = 9.0, 70.0
"""Room for a view's title, and the least that the plot of forces needs on the first page."""
LETTERS = "ABC"
Layout = tuple[Box, Box]
"""Where the picture is, and where words are."""


def mechanism(f: Fit, places: Sequence[Suggestions] = ()) -> Sheet:
    """Give the pages of a mechanism, on A3 or B."""
    job, paper = _job(f), papers("auto", f.machine.units)[0]
    edges = tuple(silhouette(f.room, f.machine)) if f.room is not None else ()
    pages = [_machine(f, job, paper, edges)]
    if not isinstance(f.machine.way, Distance):
        pages.append(_travel(f, job, paper))
    pages += [_places(f, job, paper, edges, found) for found in places if found.region]
    total = len(pages)
    if total > 1:
        pages = [
            replace(p, texts=tuple(_numbered(t, n, total) for t in p.texts))
            for n, p in enumerate(pages, 1)
        ]
    return replace(pages[0], following=tuple(pages[1:]))


def _job(f: Fit) -> Job:
    job = sheet_job(f.subject.cylinder)
    words = {"title": f.machine.title, "document_type": "Mechanism", "statement": STATEMENT}
    meta = {**job.meta, **words}
    units = f.machine.units
    return replace(job, meta=meta, dimensions=units, units=units, ports=())


def _layout(paper: Paper, border: Border) -> Layout:
    """Part a page: the picture left of the title block, the words above it."""
    x0, y0, x1, y1 = paper.frame
    left, top = border.block[0], border.block[3]
    picture = (x0 + INSIDE, y0 + INSIDE, left - INSIDE, y1 - INSIDE)
    return picture, (left + 1.0, top + INSIDE, x1 - INSIDE, y1 - INSIDE)


def _scaled(
    paper: Paper, room: Box, marks: Callable[[float], Sequence[Mark]]
) -> tuple[Fraction, Box]:
    """Give the largest scale at which all has room, and the box of all in the view."""
    wide, high = room[2] - room[0] - 2 * ROUND, room[3] - room[1] - 2 * ROUND - TITLE
    steps = [k for k in scales("auto", paper) if k <= 1]
    for k in steps:
        around = union([box(m.curve) for m in marks(float(k))])
        fits = ((around[2] - around[0]) * k <= wide, (around[3] - around[1]) * k <= high)
        if all(fits) or k == steps[-1]:
            return k, around
    raise AssertionError("no scale")


def _machine(f: Fit, job: Job, paper: Paper, edges: tuple[Edge, ...]) -> Sheet:
    """Give the first page: the cylinder in the machine, the verdict, what was judged, the jobs."""
    border = bordered(job, paper, Fraction(1), Style())
    room, words = _layout(paper, border)
    scale, around = _scaled(paper, room, lambda k: tuple(scene_marks(Scene(f, edges, k))))
    border = bordered(job, paper, scale, Style())
    s = Scene(f, edges, float(scale))
    marks = tuple(scene_marks(s))
    below = room[3] - room[1] - TITLE - 2 * ROUND - s.k * (around[3] - around[1])
    plotted = below > PLOT and not isinstance(f.machine.way, Distance)
    if plotted:
        room = (room[0], room[1] + min(below, 1.4 * PLOT), room[2], room[3])
    at, free = _placed(room, around, s.k)
    gaps = tuple((n, letter) for n, letter in zip(narrow(s), LETTERS, strict=False))
    rings = tuple(m for n, letter in gaps for m in ring(s, n, letter))
    words_of = tuple(ring_word(n, letter) for n, letter in gaps)
    sizes = labels(s, free, (*marks, *rings), words_of)
    title = f"MECHANISM {scale_text(scale)}"
    views = [View("mechanism", title, at, s.k, (*marks, *rings), sizes)]
    texts = [_title(room, title)]
    wide = words[2] - words[0]
    head, work = headline(f, wide), jobs(f, wide)
    strips: list[tuple[Strip, float]] = [(head, words[3])]
    deep = words[1] + (WIDE + 14.0 if gaps else 0.0)
    left = words[3] - head.height - deep - work.height
    told = chapters(f, wide, left)
    strips += [(told, words[3] - head.height), (work, words[3] - head.height - told.height)]
    own: list[Mark] = []
    if plotted:
        corner = (room[0], room[1] - 3.0)
        high = room[1] - paper.frame[1] - INSIDE - 2.0
        curves, said = drawn(f, corner, room[2] - room[0], high, 1)
        own += curves
        texts += said
    for strip, top in strips:
        m, t = strip.at((words[0], top))
        own += m
        texts += t
    for n, (gap, letter) in enumerate(gaps):
        centre = (words[0] + WIDE / 2 + 2.0 + n * (wide / 2), words[1] + 10.0 + WIDE / 2)
        view = detail(s, gap, letter, centre)
        views.append(view)
        texts += _detail_words(f, gap, letter, view.scale, centre)
    return _sheet(f, job, paper, border, views, own, texts)


def _detail_words(
    f: Fit, n: Narrow, letter: str, k: float, centre: tuple[float, float]
) -> Iterator[Text]:
    where = say_at(f.machine, n.of.at).replace(" deg", "°")
    x, y = centre[0] + WIDE / 2 + 1.5, centre[1] + WIDE / 2 - 4.0
    yield Text((x, y), f"{letter} {scale_words(k)}", 3.5, bold=True, name="detail")
    asked = quantity(n.of.asked, "mm", f.machine.units)
    solid = n.of.solid.partition("#")[0]
    for line in (f"at {where}", *wrapped(f"{n.of.piece} to {solid}", 2.5, 38.0), f"asked {asked}"):
        y -= 4.2
        yield Text((x, y), line, 2.5, name="detail")


def _placed(room: Box, around: Box, k: float) -> tuple[tuple[float, float], Box]:
    """Give where the view's origin lies on paper, and the room for words in view mm."""
    top = room[3] - TITLE
    at = (
        (room[0] + room[2]) / 2 - k * (around[0] + around[2]) / 2,
        (room[1] + top) / 2 - k * (around[1] + around[3]) / 2,
    )
    free = tuple((room[i] - at[i % 2]) / k for i in range(3))
    return at, (*free, (top - at[1]) / k)  # type: ignore[return-value]


def _title(room: Box, title: str) -> Text:
    return Text((room[0], room[3] - 4.0), title, 3.5, bold=True, name="view title")


def _travel(f: Fit, job: Job, paper: Paper) -> Sheet:
    """Give the page of plots, and the table over the travel."""
    job = replace(job, meta={**job.meta, "scale": "-"})
    border = bordered(job, paper, Fraction(1), Style())
    room, words = _layout(paper, border)
    marks, texts = drawn(f, (room[0], room[3] - 4.0), room[2] - room[0], room[3] - room[1] - 4.0)
    strip = travel_table(f, words[2] - words[0], words[3] - words[1] - 24.0)
    more, said = strip.at((words[0], words[3]))
    notes = [Text((words[0], words[3] - strip.height - 5.0 - 4.2 * n), line, 2.5, name="note")
             for n, line in enumerate(under_table(f))]  # fmt: skip
    return _sheet(f, job, paper, border, (), (*marks, *more), (*texts, *said, *notes))


def _places(
    f: Fit, job: Job, paper: Paper, edges: tuple[Edge, ...], places: Suggestions
) -> Sheet:  # fmt: skip
    """Give the page of places for a pin: where it may be, and the three best."""
    border = bordered(job, paper, Fraction(1), Style())
    room, words = _layout(paper, border)
    scale, around = _scaled(paper, room, lambda k: tuple(place_marks(Scene(f, edges, k), places)))
    border = bordered(job, paper, scale, Style())
    s = Scene(f, edges, float(scale))
    marks = tuple(place_marks(s, places))
    at, free = _placed(room, around, s.k)
    title = f"{places.pin.upper()} PIN, WHERE IT COULD GO {scale_text(scale)}"
    view = View(f"{places.pin} pin", title, at, s.k, marks, place_labels(s, free, marks, places))
    own, texts = suggested(f, places, words[2] - words[0]).at((words[0], words[3]))
    return _sheet(f, job, paper, border, (view,), own, (_title(room, title), *texts))


def _sheet(
    f: Fit, job: Job, paper: Paper, border: Border, views: Sequence[View],
    marks: Sequence[Mark], texts: Sequence[Text],
) -> Sheet:  # fmt: skip
    return Sheet(paper.name, paper.width, paper.height, f.machine.units, tuple(views),
                 (*border.marks, *marks), (*border.texts, *texts), dict(job.meta),
                 model_units=job.units)  # fmt: skip


def _numbered(text: Text, n: int, total: int) -> Text:
    """Number the sheets in the title block."""
    return replace(text, text=f"{n} / {total}") if text.name == "sheet" else text

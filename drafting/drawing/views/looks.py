"""The looks at a cylinder that make up its sheet, and their marks at a scale.

What was found for the same parts is kept, so that a sheet drawn anew after one changed value
projects again only what shows that value.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from math import dist
from typing import Any

from drafting.drawing.dimension.assign import Choice, assign
from drafting.drawing.dimension.in_another import nowhere_else
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.owners import group_of, is_fitting
from drafting.drawing.dimension.picture import (
    Picture,
    ViewName,
    explains,
    long_enough,
)
from drafting.drawing.lists.papers import papers
from drafting.drawing.project.project import project
from drafting.drawing.project.section import Section, section_faces
from drafting.drawing.sheet.clash import segments
from drafting.drawing.sheet.on_paper import Box, clip, points
from drafting.drawing.sheet.sheet import Mark
from drafting.drawing.sheet.strokes import (
    FROM_BASE,
    FROM_ROD,
    SIDE,
    TOP,
    Hatch,
    Line,
    Look,
)
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.across_pin import said_across
from drafting.drawing.views.cleared import cleared
from drafting.drawing.views.crowded import crowded
from drafting.drawing.views.hidden_knobs import hidden_knobs
from drafting.drawing.views.mouths import clear_marks, clear_strokes, mouths_of, narrowed
from drafting.drawing.views.slivers import without_slivers
from drafting.drawing.views.symbols import symbol_marks
from drafting.drawing.views.unseen import with_measured, with_unseen
from drafting.drawing.views.where_closed import closed_marks, outlines_of
from drafting.records import dataclass
from drafting.settle.wishes import Diameter, Length, Radius, Symbol, Thread
from drafting.shape.frame import X, cross, scale
from drafting.shape.pieces import Cone, Part, Piece, Turned, extent

_WORDS = {"body_mount": "BASE END", "rod_mount": "ROD END"}
_LONG = ("side", "top")
_PLATE = "body_mount.plate"
_SQUARE = 1e-6
_SHORTEST_HIDDEN = 2.5
"""Hidden strokes shorter than this on paper (mm) are specks, not dashes."""
_PAST_BREAK = 2.0
"""How far a break line runs past the metal on paper (mm)."""
_HATCH_PITCH = 2.5
"""Between hatch lines on paper (mm)."""
_KEPT = 64
"""So many looks are kept, some eight sheets."""


@dataclass(frozen=True, slots=True)
class Seen:
    """All pictures of a job, and which wish each of them shows.

    Words ``in_table`` would be read as another fitting's in each of them: the PORTS table has them.
    """

    pictures: tuple[Picture, ...]
    choices: tuple[Choice, ...]
    in_table: frozenset[str] = frozenset()


def look_at(job: Job) -> Seen:
    """Project the cylinder into all its views and share the wishes out among them."""
    raw = with_unseen(tuple(pictures_of(job)), job.retracted, job.wishes)
    assigned = assign(said_across(job, raw), raw, job.ends)
    has_table = job.ports and not papers(job.sheet, job.units)[0].is_small
    told = [c.wish for c in assigned if has_table and nowhere_else(c.wish, c.picture)]
    choices = [c for c in assigned if c.wish not in told]
    behind = frozenset(group_of(n) for w in told for n in (w.name, *(a for a, _ in w.alike)))
    turned = frozenset(p.table for p in raw if p.name == "pin")
    drawn = with_measured(raw, job.retracted, choices)
    pictures = tuple(cleared(p, choices, turned, behind) for p in drawn)
    by_name = {p.name: p for p in pictures}
    return Seen(
        pictures,
        tuple(replace(c, picture=by_name[c.picture.name]) for c in choices),
        frozenset(w.name for w in told),
    )


def pictures_of(job: Job) -> Iterator[Picture]:
    """Project the cylinder into one view after the other, the most telling first."""
    end = FROM_ROD if job.clock_from == "rod" else FROM_BASE
    side = "ROD" if job.clock_from == "rod" else "BASE"
    closed = job.retracted
    yield _whole("side", "SIDE VIEW, RETRACTED", SIDE, closed)
    yield _whole("top", "TOP VIEW", TOP, closed)
    yield _whole("end", f"VIEW FROM {side} END", end, closed)
    yield _in_section(job.extended, job.symbols, job.lengths[0])
    yield from _along_turned_pins(job)


@lru_cache(maxsize=_KEPT)
def _whole(
    name: ViewName, title: str, look: Look, parts: tuple[Part, ...], table: str = ""
) -> Picture:
    """Look at parts in the retracted position."""
    strokes = clear_strokes(project(parts, look, hidden=name in ("side", "top", "end")))
    kept = explains(strokes, parts) if name in _LONG else strokes
    return Picture(name, title, look, "retracted", kept, table=table)


@lru_cache(maxsize=_KEPT)
def _in_section(extended: tuple[Part, ...], symbols: tuple[Symbol, ...], shift: float) -> Picture:
    """Look at the extended position with its upper half laid open.

    Mounts stay whole: what is welded to the cap is cut from the cap's face on, and what sits on the
    rod not at all, because a half eye tells less than a whole one. A flange's plate is cut with it.
    """
    parts = [at_crest(p, symbols) for p in extended]
    own = [p for p in parts if any(_own(q) for q in p.pieces)]
    metal = [q for p in own if p.hatched for q in p.pieces if _own(q) or q.name == _PLATE]
    beyond = min((extent(q, X)[0] for q in metal), default=None)
    section = Section(SIDE, above=0.0, beyond=beyond)
    cut = tuple(p for p in parts if p.hatched and (p in own or p.owner == "body"))
    shown = [section.cut(p) if p in cut else section.cleared(p) if p in own else p for p in parts]
    strokes = project([p for p in shown if p is not None], SIDE, hidden=False)
    return Picture(
        "extended",
        "EXTENDED, HALF SECTION",
        SIDE,
        "extended",
        strokes,
        shift,
        section=section,
        cut=cut,
    )


def _own(piece: Piece) -> bool:
    """Tell whether a piece is the cylinder's own metal, not a mount's."""
    return not piece.cut and piece.name.startswith("cylinder.")


def at_crest(part: Part, symbols: Sequence[Symbol]) -> Part:
    """Give a part with its tapped holes as wide as the crests: hatching runs up to them.

    Solids and outside views have the hole at the thread's major diameter.
    """
    crests = {
        t.name: (t.major / 2, t.minor / 2) for t in symbols if isinstance(t, Thread) and t.internal
    }

    def narrowed(piece: Piece) -> Piece:
        if not piece.cut or piece.name not in crests or not isinstance(piece.shape, Turned):
            return piece
        major, minor = crests[piece.name]
        zones = tuple(
            replace(z, r0=minor, r1=minor) if isinstance(z, Cone) and z.r0 == z.r1 == major else z
            for z in piece.shape.zones
        )
        return replace(piece, shape=Turned(zones))

    return replace(part, pieces=tuple(narrowed(q) for q in part.pieces))


def _along_turned_pins(job: Job) -> tuple[Picture, ...]:
    """Look along the pin of a mount that no other view shows in true shape; that mount alone.

    Its root is left out: alone it stands out of the face, where metal of the host is. Of two such
    mounts it is the one with a radius: a hole's diameter is a distance elsewhere.
    """
    turned = [w for w in job.wishes if isinstance(w, Diameter | Radius) and _is_turned(w)]
    if not turned:
        return ()
    wish = next((w for w in turned if isinstance(w, Radius)), turned[0])
    axis, table = wish.axis, wish.name.partition(".")[0]
    eye = axis if cross(axis, X)[2] > 0 else scale(axis, -1.0)
    look = Look(X, cross(eye, X))
    alone = tuple(
        replace(p, pieces=pieces)
        for p in job.retracted
        if (pieces := tuple(q for q in p.pieces if _is_seen_of(table, q)))
        and not all(q.cut for q in pieces)
    )
    what = "BOLTS" if ".bolts." in wish.name else "PIN"
    return (_whole("pin", f"ALONG {_WORDS[table]} {what}", look, alone, table),)


def _is_seen_of(table: str, piece: Piece) -> bool:
    """Tell whether a piece is a mount's own and not buried in what carries it."""
    own, _, what = piece.name.partition(".")
    return own == table and not what.startswith("root")


def _is_turned(wish: Diameter | Radius) -> bool:
    """Tell whether what is round in a mount is seen as a circle from no side, above or end."""
    askew = sum(abs(c) > _SQUARE for c in wish.axis) > 1 and abs(wish.axis[0]) < _SQUARE
    return askew and wish.pose == "retracted" and wish.name.partition(".")[0] in _WORDS


def marks_of(picture: Picture, job: Job, scale: float, style: Style) -> tuple[Mark, ...]:
    """Give outline, hidden edges, centre lines and threads of a picture, without its slivers."""
    return marks_of_clear(clear_picture(picture, job, scale, style), job, scale, style)


def clear_picture(picture: Picture, job: Job, scale: float, style: Style) -> Picture:
    """Give a picture without what would be blots at a scale."""
    parts = job.retracted if picture.pose == "retracted" else job.extended
    return without_slivers(picture, parts, scale, style.wide, _measured(job))


def _measured(job: Job) -> list[float]:
    """Give the diameters (mm) of what is round and has a size of its own."""
    round_ones = (w for w in job.wishes if isinstance(w, (Diameter, Radius)))
    return [2 * w.radius if isinstance(w, Radius) else w.diameter for w in round_ones]


def _rod(job: Job) -> float:
    """Give the diameter (mm) of the rod, 0 where it has no size."""
    across = (w for w in job.wishes if isinstance(w, Length) and w.name == "cylinder.rod")
    return next((dist(w.a, w.b) for w in across), 0.0)


def marks_of_clear(picture: Picture, job: Job, scale: float, style: Style) -> tuple[Mark, ...]:
    """Give the marks of a picture that is clear of slivers."""
    symbols = symbol_marks(job.symbols, picture, scale, style)
    knobs = hidden_knobs(picture, scale)
    replaced = symbols.replaced | knobs.replaced
    outside = {t.name for t in job.symbols if isinstance(t, Thread) and not t.internal}
    halved = picture.section is not None
    left_out = crowded(picture.strokes, scale, _measured(job), halved, outside, _rod(job))
    mouths = narrowed(picture.strokes, left_out, scale)
    least_hidden = _SHORTEST_HIDDEN / scale
    strokes = (
        replace(s, curve=mouths[s.curve]) if s.curve in mouths else s
        for s in picture.strokes
        if s not in replaced
        and (s.curve not in left_out or s.curve in mouths)
        and (picture.name == "end" or is_fitting(s.piece) or long_enough(s, least_hidden))
    )
    marks = (
        *phantom_marks(job.beneath[picture.pose == "extended"], picture),
        *(Mark(s.curve, "outline" if s.visible else "hidden", s.piece) for s in strokes),
        *clear_marks(symbols.marks, mouths_of(picture.strokes)),
        *knobs.marks,
        *phantom_marks(job.phantoms, picture),
        *closed_marks(job, picture),
    )
    if picture.window is None:
        return marks
    inside = picture.window
    cut = (replace(m, curve=c) for m in marks for c in clip(m.curve, inside))
    return (*cut, *_breaks(picture, inside, _PAST_BREAK / scale))


def _breaks(picture: Picture, window: Box, past: float) -> Iterator[Mark]:
    """Draw a narrow line where a window cuts the metal off, left or right."""
    for x in (window[0], window[2]):
        on = picture.segments[abs(picture.segments[:, :, 0] - x) < _SQUARE]
        if len(on) > 1:
            low, high = float(on[:, 1].min()) - past, float(on[:, 1].max()) + past
            yield Mark(Line((x, low), (x, high)), "break")


@lru_cache(maxsize=_KEPT)
def hatches_of(picture: Picture, scale: float) -> tuple[Hatch, ...]:
    """Give the hatched faces of a picture in section."""
    if picture.section is None:
        return ()
    return section_faces(picture.cut, picture.section, _HATCH_PITCH / scale)


def phantom_marks(phantoms: tuple[Part, ...], picture: Picture) -> tuple[Mark, ...]:
    """Give the outlines of what is no metal, by what is seen of it alone."""
    if picture.name in ("pin", "small") or not phantoms:
        return ()
    return outlines_of(phantoms, picture.look)


def phantom_lines(marks: Sequence[Mark], scale: float) -> Any:
    """Give the phantom outlines among marks as segments on paper (n, 2, 2); None without any."""
    tracks = [points(m.curve, 0.02) for m in marks if m.role == "phantom"]
    if not tracks:
        return None
    return segments([pair for track in tracks for pair in pairwise(track)]) * scale

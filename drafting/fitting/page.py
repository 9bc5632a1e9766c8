"""The mechanism on a sheet: cylinder closed, half-way and open, arm, pins' arcs, sizes, forces.

The view lies in the plane of the arm, x to the right, y up, as the machine file has it. The
cylinder's three positions: closed in outlines, half-way in narrow lines, open in phantom.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import atan2, cos, hypot, pi, radians, sin

from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.lists.border import bordered
from drafting.drawing.lists.papers import papers, scale_text, scales
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.project.project import project
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import Box, box, union
from drafting.drawing.sheet.sheet import Dimension, Linear, Mark, Note, Role, Sheet, Text, View
from drafting.drawing.sheet.strokes import SIDE, TOP, Arc, Curve, EllipseArc, Line, Poly
from drafting.drawing.sheet.style import Style
from drafting.fitting.clearance import AT_THE_PIN, Clearance
from drafting.fitting.fit import Fit
from drafting.fitting.forces import Position
from drafting.fitting.lengths import say_at
from drafting.fitting.machine import Distance, Hinge, Point
from drafting.fitting.silhouette import silhouette
from drafting.fitting.suggestion import Suggestions
from drafting.fitting.summary import summary
from drafting.fitting.travel import Place, carried, extremes, kind, place, span
from drafting.shape.pieces import Part
from drafting.told.short import figures, quantity, size

STATEMENT = "MECHANISM. Not a design approval. Shortest in outlines, longest in phantom."
INSIDE = ("piston", "stop tube")
MOST_NEAR = 3
NOTE_PITCH, NOTE_AIR = 9.0, 6.0
ROW, FOOT = 4.2, 92.0
ROWS = 9


def mechanism(f: Fit, places: Suggestions | None = None) -> Sheet:
    """Give the page of a mechanism, on A3 or B."""
    style = Style()
    job = _job(f)
    marks = tuple(_marks(f, places))
    around = union([box(m.curve) for m in marks])
    paper = papers("auto", f.machine.units)[0]
    x0, y0, x1, y1 = paper.frame
    room = (x0 + 30.0, y0 + FOOT + 18.0, x1 - 60.0, y1 - 8.0)
    scale = next(
        k for k in (*scales("auto", paper), *(scales("auto", paper)[-1:]))
        if ((around[2] - around[0]) * float(k) <= room[2] - room[0]
        and (around[3] - around[1]) * float(k) <= room[3] - room[1])
        or k == scales("auto", paper)[-1]
    )  # fmt: skip
    k = float(scale)
    at = (
        (room[0] + room[2]) / 2 - k * (around[0] + around[2]) / 2,
        (room[1] + room[3]) / 2 - k * (around[1] + around[3]) / 2,
    )
    border = bordered(job, paper, scale, style)
    dimensions: tuple[Dimension, ...] = (*_sizes(f, around, k), *_notes(f, around, k))
    title = f"MECHANISM {scale_text(scale)}"
    view = View("mechanism", title, at, k, marks, dimensions)
    heading = Text((at[0] + k * (around[0] + around[2]) / 2, y0 + FOOT - 9.0), title, style.text,
                   "middle", bold=True, name="view title")  # fmt: skip
    texts = (*border.texts, heading, *_table(f, (x0 + 6.0, y0 + FOOT - 17.0), border.block[0]))
    return Sheet(paper.name, paper.width, paper.height, f.machine.units, (view,), border.marks,
                 texts, dict(job.meta), model_units=job.units)  # fmt: skip


def _job(f: Fit) -> Job:
    job = sheet_job(f.subject.cylinder)
    words = {"title": f.machine.title, "document_type": "Mechanism", "statement": STATEMENT}
    meta = {**job.meta, **words}
    units = f.machine.units
    return replace(job, meta=meta, dimensions=units, units=units, ports=())


def _ends(f: Fit) -> tuple[Place, Place, Place]:
    """Give the places where the cylinder is shortest, half-way, and longest."""
    near, far = extremes(f.machine.way, *span(f.machine.way))
    return near, place(f.machine.way, (near.at + far.at) / 2), far


# --- what is drawn ------------------------------------------------------------------------------


def _marks(f: Fit, places: Suggestions | None) -> Iterator[Mark]:
    near, middle, far = _ends(f)
    if f.room is not None:
        for points in silhouette(f.room, f.machine):
            yield Mark(Poly(points), "thread", "machine")
    positions: tuple[tuple[Place, Role], ...] = (
        (far, "phantom"), (middle, "thread"), (near, "outline"))  # fmt: skip
    for p, role in positions:
        yield from _cylinder(f, p, role)
        yield from _arm(f, p, role)
        yield Mark(Line(p.base, p.rod), "centre", "between pins")
    yield from _arcs(f)
    if places is not None:
        pitch = max(places.step, far.length / 150)
        half, cells = pitch / 2, {(round(x / pitch), round(y / pitch)) for x, y in places.region}
        for x, y in sorted((i * pitch, j * pitch) for i, j in cells):
            yield Mark(Line((x - half, y - half), (x + half, y + half)), "hatch", "region")
        for one in places.best:
            yield from _cross(one.base_pin, 2 * pitch, "suggested")


def _cylinder(f: Fit, p: Place, role: Role) -> Iterator[Mark]:
    """Give the cylinder's visible strokes at a place, turned into the plane."""
    s = f.subject
    along = "z" in (m.axis for m in s.mounts)
    out = min(max(p.length - s.closed, 0.0), s.open - s.closed)
    parts: list[Part] = [q for q in s.cylinder.at(out) if q.name not in INSIDE]
    up = f.room.seat.up if f.room is not None else 1.0
    for stroke in project(parts, TOP if along else SIDE, hidden=False):
        if stroke.visible:
            yield Mark(_placed(stroke.curve, p, up), role, stroke.piece)


def _placed(c: Curve, p: Place, up: float) -> Curve:
    """Turn a curve of the cylinder's own view (datum at 0) to where it lies; ``up`` -1 mirrors."""
    ux, uy = p.unit

    def at(q: Point) -> Point:
        y = up * q[1]
        return p.base[0] + q[0] * ux - y * uy, p.base[1] + q[0] * uy + y * ux

    if isinstance(c, Line):
        return Line(at(c.a), at(c.b))
    if isinstance(c, Arc):
        turn = atan2(uy, ux)
        a0, a1 = (c.a0, c.a1) if up > 0 else (-c.a1, -c.a0)
        return Arc(at(c.centre), c.radius, a0 + turn, a1 + turn)
    if isinstance(c, EllipseArc):
        n = 24
        ts = [c.t0 + (c.t1 - c.t0) * k / n for k in range(n + 1)]
        return Poly(tuple(
            at((c.centre[0] + cos(t) * c.major[0] + sin(t) * c.minor[0],
                c.centre[1] + cos(t) * c.major[1] + sin(t) * c.minor[1])) for t in ts
        ))  # fmt: skip
    return Poly(tuple(at(q) for q in c.points))


def _arm(f: Fit, p: Place, role: Role) -> Iterator[Mark]:
    way = f.machine.way
    if isinstance(way, Hinge):
        yield Mark(Line(way.at, p.rod), role, "arm")
        if role == "outline":
            r = hypot(p.rod[0] - way.at[0], p.rod[1] - way.at[1]) / 20
            yield Mark(Arc(way.at, r, 0.0, 2 * pi), "outline", "hinge")
            yield from _cross(way.at, 1.6 * r, "hinge")
    if isinstance(way, Distance):
        return
    for load in way.loads:
        at = carried(way, load.at, p.at)
        yield Mark(Arc(at, hypot(*_reach(f)) / 90, 0.0, 2 * pi), role, "load")
        if isinstance(way, Hinge):
            yield Mark(Line(way.at, at), "thread" if role == "outline" else role, "load")


def _reach(f: Fit) -> Point:
    near, _, far = _ends(f)
    return far.length, near.length


def _arcs(f: Fit) -> Iterator[Mark]:
    way = f.machine.way
    a, b = span(way)
    if isinstance(way, Hinge):
        r = hypot(way.rod_pin[0] - way.at[0], way.rod_pin[1] - way.at[1])
        first = atan2(way.rod_pin[1] - way.at[1], way.rod_pin[0] - way.at[0])
        yield Mark(Arc(way.at, r, first + radians(a), first + radians(b)), "centre", "rod pin")
    else:
        yield Mark(Line(place(way, a).rod, place(way, b).rod), "centre", "rod pin")


def _cross(at: Point, r: float, name: str) -> Iterator[Mark]:
    yield Mark(Line((at[0] - r, at[1]), (at[0] + r, at[1])), "centre", name)
    yield Mark(Line((at[0], at[1] - r), (at[0], at[1] + r)), "centre", name)


# --- what is written ----------------------------------------------------------------------------


def _sizes(f: Fit, around: Box, k: float) -> Iterator[Linear]:
    """Give the places of the pins from the hinge, or from the base pin, level and upright."""
    way = f.machine.way
    if isinstance(way, Distance):
        return
    near, _, _ = _ends(f)
    origin = way.at if isinstance(way, Hinge) else way.base_pin
    low, left = around[1] - 9.0 / k, around[0] - 9.0 / k
    n = 0
    for name, p in (("base pin", near.base), ("rod pin", near.rod)):
        for level in (True, False):
            a, b = (origin, p)
            i = 0 if level else 1
            run = abs(b[i] - a[i])
            if run * k < 1.0:
                continue
            first, last = (a, b) if a[i] < b[i] else (b, a)
            off = (low if level else left) - 8.0 * (n // 2) / k
            mid = (a[i] + b[i]) / 2
            line = (mid, off) if level else (off, mid)
            label = size(run, f.machine.units)
            wide = width(label, 3.5) + 8.0
            # A short one has its text past the arrows, where no extension line runs.
            aside = 0.0 if run * k >= wide else run / 2 + (wide / 2 + 6.0) / k
            text = (mid + aside, off + 1.0 / k) if level else (off - 1.0 / k, mid + aside)
            yield Linear(f"{name} {'x' if level else 'y'}", first, last, 0.0 if level else 90.0,
                         line, text, (label,), run, outside=run * k < wide)  # fmt: skip
            n += 1


def _notes(f: Fit, around: Box, k: float) -> Iterator[Note]:
    """Give words on leaders at the right: lengths at the ends, loads, the hinge."""
    units = f.machine.units
    near, _, far = _ends(f)
    targets: list[tuple[Point, tuple[str, ...]]] = []
    for word, p in (("SHORTEST", near), ("LONGEST", far)):
        at = (p.base[0] + 0.8 * (p.rod[0] - p.base[0]), p.base[1] + 0.8 * (p.rod[1] - p.base[1]))
        place_ = f"{p.at:.1f}°" if kind(f.machine.way) == "deg" else quantity(p.at, "mm", units)
        targets.append((at, (f"{word} {size(p.length, units)}", f"AT {place_}")))
    way = f.machine.way
    if isinstance(way, Hinge):
        targets.append((way.at, ("HINGE",)))
    if not isinstance(way, Distance):
        for load in way.loads[:3]:
            at = carried(way, load.at, near.at)
            what = quantity(hypot(*load.force), "N", units)
            if load.mass:
                pounds = f"{figures(load.mass / 0.45359237)} lb"
                what = pounds if units == "in" else f"{figures(load.mass)} kg"
            targets.append((at, (what,)))
    right = around[2] + NOTE_AIR / k
    y = None
    for at, lines in sorted(targets, key=lambda t: -t[0][1]):
        level = at[1] if y is None else min(at[1], y - NOTE_PITCH * len(lines) / k)
        y = level
        yield Note(" ".join(lines), at, (right, level), "right", lines)


HEADS = ("asked", "out", "in", "push", "pull")
WIDE = (16.0, 25.0, 18.0, 20.0, 22.0, 22.0, 20.0, 20.0, 16.0)


def _table(f: Fit, at: Point, right: float) -> Iterator[Text]:
    """Give the forces over the travel, and the worst of what was found, left of the block."""
    style = Style()
    x0, y = at
    for line in wrapped(summary(f), style.small_text, right - x0 - 4.0)[:3]:
        yield Text((x0, y), line, style.small_text, bold=True, name="table")
        y -= ROW
    y -= ROW * 0.4
    ps: Sequence[Position] = f.positions
    every = max(1, (len(ps) - 1) // (ROWS - 1))
    units = f.machine.units
    at_ = "at" if kind(f.machine.way) == "deg" else f"at, {units}"
    force = "lbf" if units == "in" else "kN"
    lever = f"lever, {units}" if kind(f.machine.way) == "deg" else "lever"
    heads = (at_, f"pins, {units}", lever, *(f"{h}, {force}" for h in HEADS), "column")
    rows: Iterable[tuple[str, ...]] = (heads, *(_cells(f, q) for q in ps[::every]))
    for row in rows:
        x = x0
        for cell, wide in zip(row, WIDE, strict=True):
            if x + wide > right:
                break
            yield Text((x + wide - 2.0, y), cell, style.small_text, "end", name="table")
            x += wide
        y -= ROW
    for c in _nearest(f):
        said = f"clashes, {c.clash:,.0f} mm3" if c.clash else quantity(c.gap, "mm", units)
        text = f"{c.piece} to {c.solid}: {said} at {say_at(f.machine, c.at)}"
        yield Text((x0, y), text, style.small_text, name="clearance")
        y -= ROW


def _nearest(f: Fit) -> Sequence[Clearance]:
    """Give what comes nearest to what is asked, apart from what sits in the ears."""
    found = f.room.clearances if f.room is not None else ()
    return [c for c in found if c.clash or not c.piece.startswith(AT_THE_PIN)][:MOST_NEAR]


def _cells(f: Fit, q: Position) -> tuple[str, ...]:
    units = f.machine.units

    def force(x: float | None) -> str:
        if x is None:
            return "-"
        return figures(x / 4.4482216152605) if units == "in" else figures(x / 1000.0)

    where = f"{q.place.at:.1f}°" if kind(f.machine.way) == "deg" else size(q.place.at, units)
    lever = size(abs(q.place.arm), units) if kind(f.machine.way) == "deg" else f"{q.place.arm:.3f}"
    column = "-" if q.column is None else f"{q.column:.1f}"
    return (where, size(q.place.length, units), lever, force(q.still), force(q.out),
            force(q.back), force(q.push), force(q.pull), column)  # fmt: skip

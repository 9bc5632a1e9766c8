"""Dimensions as true DIMENSION entities, notes as LEADER and TEXT, in model space.

The stored picture of a DIMENSION is our own drawing of it, so that programs which show the picture
show what SVG and PDF show; programs which draw it anew get the same text, tied to the measured
length where the label prints it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from math import cos, dist, radians, sin
from typing import Any

from drafting.drawing.sheet.explode import Base, Exploded, in_lines
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import unit as direction
from drafting.drawing.sheet.sheet import Linear, Mark, Note, Round, Text
from drafting.drawing.sheet.strokes import Line, Point2
from drafting.drawing.write.dxf.tables import TEXT_STYLES, layer
from drafting.drawing.write.dxf.words import (
    FRACTIONAL,
    Form,
    below,
    formatted,
    own_form,
    plain,
    revision_in_words,
    tied,
)

_CENTRAL = 0.5
"""Paper mm off the middle that are none."""
_ROTATED, _DIAMETER, _RADIUS, _OWN_BLOCK, _TEXT_PLACED = 0, 3, 4, 32, 128


@dataclass(frozen=True)
class Dimensioner:
    """Writes the dimensions of one view into ``space``.

    ``k`` is the scale of the view, ``unit`` mm per drawing unit; ``place`` and ``paper`` bring
    view and paper millimetres to model space.
    """

    space: Any
    dimstyle: str
    form: Form
    k: float
    unit: float
    place: Callable[[Point2], Point2]
    paper: Callable[[Point2], Point2]

    def linear(self, d: Linear, drawn: Exploded, marks: Iterable[Mark]) -> None:
        """Write a rotated dimension."""
        a, b = level_points(d, marks)
        turn = radians(d.angle)
        u = (cos(turn), sin(turn)) if d.angle % 90 else ((1.0, 0.0), (0.0, 1.0))[d.angle % 180 > 0]
        run = (d.b[0] - d.line_at[0]) * u[0] + (d.b[1] - d.line_at[1]) * u[1]
        foot = (d.line_at[0] + run * u[0], d.line_at[1] + run * u[1])
        self._entity(
            d,
            drawn,
            _ROTATED,
            abs((d.b[0] - d.a[0]) * u[0] + (d.b[1] - d.a[1]) * u[1]),
            _changed(d),
            defpoint=self.place(foot),
            defpoint2=self.place(a),
            defpoint3=self.place(b),
            angle=d.angle % 180,
        )

    def round(self, d: Round, drawn: Exploded) -> None:
        """Write a diameter or radius dimension.

        A diameter is measured level: programs that draw it anew turn its text along the measured
        line, and ours stands level, in a place that is kept free for it.
        """
        c, r, whole = d.centre, d.radius, d.kind == "diameter"
        out = direction(c, d.tip)
        if whole:
            out = (1.0 if out[0] >= 0 else -1.0, 0.0)
        near = (c[0] + r * out[0], c[1] + r * out[1])
        far = (c[0] - r * out[0], c[1] - r * out[1])
        self._entity(
            d,
            drawn,
            _DIAMETER if whole else _RADIUS,
            2 * r if whole else r,
            {},
            defpoint=self.place(far if whole else c),
            defpoint4=self.place(near),
            leader_length=dist(d.tip, d.knee) / self.unit,
        )

    def note(self, d: Note, drawn: Exploded) -> None:
        """Write a note as LEADER and TEXT: no light program draws a MULTILEADER."""
        vertices = [self.paper(drawn.lines[0][0]), *(self.paper(b) for _, b in drawn.lines)]
        attributes = {"layer": layer("dimension")}
        self.space.add_leader(vertices, dimstyle=self.dimstyle, dxfattribs=attributes)
        for a, b in drawn.flag:
            self.space.add_line(self.paper(a), self.paper(b), dxfattribs=attributes)
        for text in drawn.texts:
            self._text(self.space, text)

    def _entity(
        self,
        d: Linear | Round,
        drawn: Exploded,
        kind: int,
        measured: float,
        changed: dict[str, int],
        **points: Any,
    ) -> None:
        block = self.space.doc.blocks.new_anonymous_block(type_char="D")
        self._picture(block, drawn)
        text, own = self._label(d, measured / self.unit)
        middle = _middle(drawn, len(d.texts))
        placed = isinstance(d, Round) or not _is_wide(d, drawn)
        if placed:
            kind, points = kind | _TEXT_PLACED, {**points, "text_midpoint": self.paper(middle)}
        else:
            changed = {**changed, "dimtix": 1}
        entity = self.space.new_entity(
            "DIMENSION",
            {
                "layer": layer("dimension"),
                "dimstyle": self.dimstyle,
                "geometry": block.name,
                "dimtype": kind | _OWN_BLOCK,
                "text": text,
                "attachment_point": 5,
                "actual_measurement": measured / self.unit,
                **points,
            },
        )
        if own:
            changed = {**changed, **own.variables}
        if changed:
            override = entity.override()
            override.update(changed)
            override.commit()

    def _label(self, d: Linear | Round, value: float) -> tuple[str, Form | None]:
        """Give the text of the entity and, where it is not the sheet's, its form of number."""
        label = revision_in_words(d.texts[0])
        first, own = tied(label, value, self.form), None
        # A program that reads the header alone (LibreCAD) would make 12 17/64 of 12.263.
        if first is None and self.form.units != FRACTIONAL:
            own = own_form(label, value)
            first = own and tied(label, value, own)
        if first is None or isinstance(d, Round):
            # Programs differ in whether <> of a round dimension brings its own sign: say it whole.
            first, own = formatted(label), None
        if d.flag:
            first += f" {d.flag}"
        _, other, rest = in_lines(d.texts)
        if other:
            first += f" {formatted(other)}"
        return (first + "\\P" + below(rest) if rest else first), own

    def _picture(self, block: Any, drawn: Exploded) -> None:
        attributes = {"layer": layer("dimension")}
        for a, b in drawn.segments:
            block.add_line(self.paper(a), self.paper(b), dxfattribs=attributes)
        for tip, left, right in drawn.arrows:
            corners = [self.paper(p) for p in (tip, left, right, right)]
            block.add_solid(corners, dxfattribs=attributes)
        for text in drawn.texts:
            self._text(block, text)

    def _text(self, space: Any, text: Text) -> None:
        height = text.height / self.unit / self.k
        said = replace(text, text=revision_in_words(text.text))
        add_text(space, said, self.paper(text.at), height, layer("dimension"))


def add_text(space: Any, text: Text, at: Point2, height: float, on: str) -> None:
    """Write one line of lettering; blank lines are no entities."""
    from ezdxf.enums import TextEntityAlignment

    words = plain(text.text)
    if not words.strip():
        return
    align = {
        "start": TextEntityAlignment.LEFT,
        "middle": TextEntityAlignment.CENTER,
        "end": TextEntityAlignment.RIGHT,
    }[text.anchor]
    attributes = {"layer": on, "style": TEXT_STYLES[text.bold], "height": height}
    if text.turn:
        attributes["rotation"] = text.turn
    space.add_text(words, dxfattribs=attributes).set_placement(at, align=align)


def level_points(d: Linear, marks: Iterable[Mark]) -> tuple[Point2, Point2]:
    """Bring both measured points to one height across the measuring direction.

    Some programs read a linear dimension as the straight distance of its points. A point slides
    along a straight mark of the view where one runs across the measuring direction; else the point
    farther from the dimension line slides along its own extension line.
    """
    axis = {0.0: 1, 90.0: 0}.get(d.angle % 180)
    if axis is None or abs(d.a[axis] - d.b[axis]) < 1e-9:
        return d.a, d.b

    def moved(p: Point2, to: float) -> Point2:
        return (to, p[1]) if axis == 0 else (p[0], to)

    level = d.line_at[axis]
    near, far = sorted((d.a, d.b), key=lambda p: abs(p[axis] - level))
    for fixed, free in ((near, far), (far, near)):
        target = moved(free, fixed[axis])
        if any(_carries(m, free, target, axis) for m in marks):
            break
    else:
        fixed, target = near, moved(far, near[axis])
    return (fixed, target) if fixed is d.a else (target, fixed)


def _carries(mark: Mark, a: Point2, b: Point2, axis: int) -> bool:
    """Say whether a straight mark runs along ``axis`` through both points."""
    if not isinstance(mark.curve, Line):
        return False
    other, line = 1 - axis, mark.curve
    if max(abs(line.a[other] - a[other]), abs(line.b[other] - a[other])) > 1e-6:
        return False
    low, high = sorted((line.a[axis], line.b[axis]))
    return low - 1e-6 <= min(a[axis], b[axis]) and max(a[axis], b[axis]) <= high + 1e-6


def _changed(d: Linear) -> dict[str, int]:
    """Give what a dimension has of its own, by the names of the DXF reference."""
    # No extension line, half dimension line and arrow at the first point; level text.
    half = {"dimse1": 1, "dimsd1": 1} if d.half else {}
    return half | ({"dimtih": 1, "dimtoh": 1} if d.shelf else {})


def _middle(drawn: Exploded, lines: int) -> Point2:
    """Give the middle of the lines of text: on the dimension line when one hangs below it."""
    first, last = drawn.texts[0], drawn.texts[lines - 1]
    turn, rise = radians(first.turn), first.height / 2
    drop = (cos(turn) * (first.at[1] - last.at[1]) - sin(turn) * (first.at[0] - last.at[0])) / 2
    return (first.at[0] - sin(turn) * (rise - drop), first.at[1] + cos(turn) * (rise - drop))


def _is_wide(d: Linear, drawn: Exploded) -> bool:
    """Tell whether a line of text stands over the middle of its line and is wider than that.

    Its place is left out then: programs put it there themselves, and LibreCAD would shift it.
    """
    first = drawn.texts[0]
    if d.half or d.shelf or len(d.texts) > 1 or len(drawn.arrows) != 2 or first.anchor != "middle":
        return False
    along = Base(first.turn)
    low, high = sorted(along.flat(tip)[0] for tip, *_ in drawn.arrows)
    wide = width(first.text, first.height, first.bold) > high - low
    return wide and bool(abs((low + high) / 2 - along.flat(first.at)[0]) < _CENTRAL)


def labels(dimensions: Sequence[object], unit: float) -> list[tuple[str, float]]:
    """List the printed main sizes with what they measure in drawing units."""
    return [(d.texts[0], d.measure_mm / unit) for d in dimensions if isinstance(d, Linear | Round)]

"""Sizes that another view, or another way to write them, would show better.

Codes: ``sheet-holes-unseen``, ``sheet-tall-words``.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import cos, pi, radians, sin

from drafting.drawing.sheet.on_paper import Box, box, hull, union
from drafting.drawing.sheet.paper import PaperView, text_box
from drafting.drawing.sheet.sheet import Linear, Sheet, View
from drafting.drawing.sheet.strokes import Arc, Point2
from drafting.values import Finding

_SAME = 0.01
_TALL = 20.0
"""Upright words may stand so far (paper mm) out of a view: a short number with its arrows."""


def shown_best(sheet: Sheet, views: Sequence[PaperView]) -> Iterable[Finding]:
    """Give the faults of one sheet; ``views`` are its views on the paper."""
    rings = {v.name: _rings(v) for v in sheet.views}
    for raw, view in zip(sheet.views, views, strict=True):
        yield from _holes_unseen(raw, rings)
        yield from _tall_words(raw, view)


def _found(code: str, name: str, message: str) -> Finding:
    return Finding(f"sheet-{code}", "warning", name, f"on the drawing {message}")


def _rings(view: View) -> dict[str, list[Point2]]:
    """Give, by mount, the centres of the holes for bolts where all are seen as whole circles."""
    found: dict[str, list[Point2]] = {}
    torn = set()
    for m in view.marks:
        table, bolts, _ = m.name.partition(".bolts.")
        if bolts and m.role == "outline" and isinstance(m.curve, Arc):
            found.setdefault(table, []).append(m.curve.centre)
            if m.curve.a1 - m.curve.a0 < 2 * pi - 1e-6:
                torn.add(table)
    return {table: centres for table, centres in found.items() if table not in torn}


def _holes_unseen(raw: View, rings: dict[str, dict[str, list[Point2]]]) -> Iterable[Finding]:
    """Find patterns of bolts measured where their holes are lines, seen as circles elsewhere."""
    for d in raw.dimensions:
        table, pitch, _ = d.name.partition(".bolts.pitch")
        if not isinstance(d, Linear) or not pitch:
            continue
        turn = radians(d.angle)
        along = (cos(turn), sin(turn))
        here = rings[raw.name].get(table, [])
        seen = any(table in found for found in rings.values())
        if seen and not any(abs(_off(c, d.a, along)) < _SAME for c in here):
            yield _found(
                "holes-unseen",
                d.name,
                f"{d.name} is measured in the {raw.name} view, not where its holes are seen",
            )


def _off(p: Point2, q: Point2, along: Point2) -> float:
    return (p[0] - q[0]) * along[0] + (p[1] - q[1]) * along[1]


def _tall_words(raw: View, view: PaperView) -> Iterable[Finding]:
    """Find upright words that alone set how tall a view is."""
    marks = [box(m.curve) for m in view.marks]
    for d in view.dimensions:
        upright = [text_box(t) for t in d.texts if abs(t.turn - 90.0) < 1.0]
        if not upright or raw.name == "extended":  # which has its field to itself
            continue
        rest: list[Box] = [*marks, *(hull(line) for line in d.extensions)]
        for e in view.dimensions:
            if e is not d:
                rest += [hull(line) for line in (*e.lines, *e.extensions)]
                rest += [text_box(t) for t in e.texts]
        whole, words = union(rest), union(upright)
        beyond = max(words[3] - whole[3], whole[1] - words[1])
        if beyond > _TALL:
            yield _found(
                "tall-words", d.name, f"{d.name} stands {beyond:.0f} mm out of its view, upright"
            )

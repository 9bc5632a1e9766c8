"""The sheet as SVG: one user unit is a millimetre, text is text, groups are named by meaning.

The library behind it is loaded and used here alone.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterable, Iterator
from functools import cache
from hashlib import sha256
from itertools import groupby
from math import atan2, degrees, hypot, pi
from typing import Any, get_args
from xml.etree import ElementTree

from drafting.drawing.carry import svg_element
from drafting.drawing.explode import Drawn, Segment
from drafting.drawing.letters import (
    FAMILY,
    clean,
    font_size,
    is_western,
    unknown,
    width,
    woff_path,
)
from drafting.drawing.paper import PaperView, on_paper
from drafting.drawing.plane import as_ellipse, ends, length, on_ellipse, principal
from drafting.drawing.sheet import Mark, Role, Sheet, Text
from drafting.drawing.strokes import Arc, Curve, EllipseArc, Line, Point2, Poly
from drafting.drawing.style import style_for

# Lies under what: hatching below everything, outlines above the thin lines that end on them.
_ORDER: dict[str, int] = {"hatch": 0, "hidden": 1, "centre": 2, "outline": 9}


def svg_bytes(sheet: Sheet) -> bytes:
    """Write the sheet as an SVG file of its true size."""
    return _Writer(sheet).document()


class _Words:
    """A title or a description with an id, which the library's own cannot have."""

    def __init__(self, tag: str, ident: str, words: str) -> None:
        self.elementname, self.ident = tag, ident
        self.xml = ElementTree.Element(tag, id=ident)
        self.xml.text = clean(words)

    def get_xml(self) -> ElementTree.Element:
        """Answer the library's one question."""
        return self.xml


class _Writer:
    def __init__(self, sheet: Sheet) -> None:
        import svgwrite

        self.sheet = sheet
        self.style = style_for(sheet.size_name)
        size = (f"{_n(sheet.width)}mm", f"{_n(sheet.height)}mm")
        self.svg = svgwrite.Drawing(size=size, debug=False)
        self.prefix = _prefix(sheet)
        self.used: dict[str, int] = {}
        self.letters = {False: set[str](), True: set[str]()}

    def document(self) -> bytes:
        sheet, svg = self.sheet, self.svg
        views = [self.view(on_paper(v, self.style)) for v in sheet.views]
        furniture = self.group("sheet", "sheet")
        for role, marks in _by_role(sheet.marks):
            furniture.add(self.marks(role, marks))
        for text in sheet.texts:
            self.add_text(furniture, text)
        self.head()
        ground = svg.rect((0, 0), (sheet.width, sheet.height), class_="ground")
        for part in (ground, *views, furniture):
            svg.add(part)
        xml: str = svg.tostring()
        return f'<?xml version="1.0" encoding="utf-8"?>\n{xml}\n'.encode()

    def head(self) -> None:
        """Write what a reader sees first: size, names, style, the spec."""
        sheet, svg = self.sheet, self.svg
        title = _Words("title", self.name("title"), _title(sheet))
        about = _Words("desc", self.name("about"), _about(sheet))
        svg["id"] = self.name("drawing")
        svg["viewBox"] = f"0 0 {_n(sheet.width)} {_n(sheet.height)}"
        svg["role"] = "img"
        svg["aria-labelledby"] = f"{title.ident} {about.ident}"
        svg["xml:lang"] = "en"
        svg["xml:space"] = "preserve"
        svg.defs.add(svg.style(self.css()))
        svg.elements[0:0] = [title, about]
        carried = svg_element(sheet.meta)
        if carried is not None:
            svg.set_metadata(carried)

    def css(self) -> str:
        root, style = f"#{self.prefix}drawing", self.style
        rules = [_font_face(bold, half) for bold, half in self.faces()]
        rules += [
            f"{root} .{role}{{fill:none;stroke:#000;stroke-width:{_n(style.width(role))}}}"
            for role in get_args(Role)
        ]
        rules += [
            f"{root} path{{stroke-linecap:butt;stroke-linejoin:round}}",
            f"{root} .outline,{root} .frame,{root} .table{{stroke-linecap:square}}",
            f"{root} .arrow{{fill:#000;stroke:none}}",
            f"{root} .ground{{fill:#fff}}",
            f'{root} text{{font-family:"{FAMILY}",Arial,"Liberation Sans",Helvetica,sans-serif;'
            "fill:#000;stroke:none;white-space:pre}",
        ]
        return "\n".join(rules)

    def faces(self) -> Iterator[tuple[bool, bool]]:
        """Name the halves of the faces (bold, western) that the texts of the sheet need."""
        for bold, texts in self.letters.items():
            if texts:
                yield bold, True
                if not all(is_western(t) for t in texts):
                    yield bold, False

    def view(self, view: PaperView) -> Any:
        group = self.group(view.name, "view", view.title)
        for part, lines in view.hatches:
            hatch = self.svg.g(class_="hatch")
            hatch.add(self.path(self.segments(lines), part))
            group.add(hatch)
        for role, marks in _by_role(view.marks):
            group.add(self.marks(role, marks))
        for drawn in view.dimensions:
            group.add(self.dimension(view.name, drawn))
        for text in view.texts:
            self.add_text(group, text)
        return group

    def dimension(self, view: str, drawn: Drawn) -> Any:
        group = self.group(f"{view}-{drawn.name}", "dimension", name=drawn.name)
        for segment in drawn.segments:
            group.add(self.path(self.segments((segment,))))
        arrows = " ".join(f"M{' L'.join(self.xy(p) for p in a)}Z" for a in drawn.arrows)
        group.add(self.path(arrows, class_="arrow"))
        for text in drawn.texts:
            self.add_text(group, text)
        return group

    def marks(self, role: Role, marks: Iterable[Mark]) -> Any:
        """Draw marks of one role, each as a path of its own: so a reader can pick it."""
        group = self.svg.g(class_=role)
        for mark in marks:
            path = self.path(self.track(mark.curve), mark.name)
            if self.style.dashes(role):
                dashes = self.style.fitted_dashes(role, length(mark.curve))
                if dashes:
                    path["stroke-dasharray"] = " ".join(_n(d) for d in dashes)
            group.add(path)
        return group

    def add_text(self, group: Any, text: Text) -> None:
        words = clean(text.text)
        if not words.strip():
            return
        x, y = text.at[0], self.sheet.height - text.at[1]
        element = self.svg.text(words, insert=(_n(x), _n(y)), font_size=_n(font_size(text.height)))
        if text.anchor != "start":
            element["text-anchor"] = text.anchor
        if text.bold:
            element["font-weight"] = "bold"
        if text.name:
            element["data-name"] = clean(text.name)
        if text.turn:
            element["transform"] = f"rotate({_n(-text.turn)} {_n(x)} {_n(y)})"
        if not unknown(words):  # then every reader shall give the line the width that was planned
            element["textLength"] = _n(width(words, text.height, text.bold))
            element["lengthAdjust"] = "spacingAndGlyphs"
        self.letters[text.bold].add(words)
        group.add(element)

    def group(self, ident: str, kind: str, title: str = "", name: str = "") -> Any:
        group = self.svg.g(id=self.name(ident), class_=kind)
        if title:
            group.set_desc(title=clean(title))
        if name:
            group["data-name"] = clean(name)
        return group

    def path(self, track: str, name: str = "", **attributes: str) -> Any:
        path = self.svg.path(track, **attributes)
        if name:
            path["data-name"] = clean(name)
        return path

    def name(self, wanted: str) -> str:
        """Make an id that no other element of this or another drawing has."""
        slug = self.prefix + (re.sub(r"[^\w.-]+", "-", wanted) or "x")
        count = self.used[slug] = self.used.get(slug, 0) + 1
        return slug if count == 1 else f"{slug}--{count}"

    def xy(self, p: Point2) -> str:
        return f"{_n(p[0])} {_n(self.sheet.height - p[1])}"

    def segments(self, lines: Iterable[Segment]) -> str:
        return " ".join(f"M{self.xy(a)}L{self.xy(b)}" for a, b in lines)

    def track(self, curve: Curve) -> str:
        match curve:
            case Line(a, b):
                return f"M{self.xy(a)}L{self.xy(b)}"
            case Poly(points):
                closed = len(points) > 2 and points[0] == points[-1]
                run = points[:-1] if closed else points
                return "M" + "L".join(self.xy(p) for p in run) + ("Z" if closed else "")
            case Arc() | EllipseArc():
                return self.arc(principal(as_ellipse(curve)))

    def arc(self, e: EllipseArc) -> str:
        """Draw an arc in pieces below half a turn, which every reader sees alike."""
        turn = degrees(atan2(e.major[1], e.major[0]))
        radii = f"A{_n(hypot(*e.major))} {_n(hypot(*e.minor))} {_n(-turn)} 0 0 "
        pieces = 1 if e.t1 - e.t0 < pi * 0.99 else 3
        knots = [e.t0 + (e.t1 - e.t0) * i / pieces for i in range(1, pieces)]
        stops = [*(on_ellipse(e, t) for t in knots), ends(e)[1]]
        return f"M{self.xy(ends(e)[0])}" + "".join(radii + self.xy(p) for p in stops)


def _by_role(marks: Iterable[Mark]) -> Iterator[tuple[Role, Iterable[Mark]]]:
    ordered = sorted(marks, key=lambda m: (_ORDER.get(m.role, 5), m.role, m.name))
    yield from groupby(ordered, key=lambda m: m.role)


@cache
def _font_face(bold: bool, western: bool) -> str:
    data = b64encode(woff_path(bold, western).read_bytes()).decode("ascii")
    weight = "bold" if bold else "normal"
    codes = "" if western else "unicode-range:U+100-491;"
    return (
        f'@font-face{{font-family:"{FAMILY}";font-weight:{weight};{codes}'
        f"src:url(data:font/woff;base64,{data}) format('woff')}}"
    )


def _prefix(sheet: Sheet) -> str:
    seed = "\n".join((sheet.meta.get("number", ""), sheet.meta.get("input_sha256", "")))
    return f"d{sha256(seed.encode('utf-8', 'surrogatepass')).hexdigest()[:8]}-"


def _title(sheet: Sheet) -> str:
    words = (sheet.meta.get("number", ""), sheet.meta.get("title", ""))
    return " ".join(w for w in words if w) or "Drawing"


def _about(sheet: Sheet) -> str:
    views = ", ".join(v.title or v.name for v in sheet.views)
    return f"Dimensioned drawing on a {sheet.size_name} sheet, sizes in {sheet.units}: {views}."


def _n(value: float) -> str:
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text

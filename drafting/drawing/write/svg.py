"""The sheet as SVG: one user unit is a millimetre, text is text, groups are named by meaning.

One element stands on a line and ids are dotted names, so that two revisions compare line by line.
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

from drafting.drawing.sheet.explode import Exploded, Segment
from drafting.drawing.sheet.letters import (
    FAMILY,
    clean,
    font_size,
    is_western,
    unknown,
    width,
    woff_path,
)
from drafting.drawing.sheet.on_paper import as_ellipse, ends, length, on_ellipse, principal
from drafting.drawing.sheet.paper import PaperView, on_paper
from drafting.drawing.sheet.sheet import Mark, Role, Sheet, Text, View
from drafting.drawing.sheet.strokes import Arc, Curve, EllipseArc, Line, Point2, Poly
from drafting.drawing.sheet.style import Style
from drafting.drawing.write import svg_elements as element
from drafting.drawing.write.carry import svg_element

_PLAIN = {"xml:lang": "en", "xml:space": "preserve"}
# Lies under what: hatching below everything, outlines above the thin lines that end on them.
_ORDER: dict[str, int] = {"hatch": 0, "hidden": 1, "centre": 2, "outline": 9}


def svg_bytes(sheet: Sheet) -> bytes:
    """Write the sheet as an SVG file of its true size."""
    return _Writer(sheet).document()


def view_bytes(sheet: Sheet, view: View) -> bytes:
    """Write a view alone, as the group that it is on the sheet."""
    writer = _Writer(sheet)
    return element.lines(writer.view(on_paper(view, writer.style)))


class _Writer:
    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.style = Style()
        self.prefix = _prefix(sheet)
        self.used: dict[str, int] = {}
        self.letters = {False: set[str](), True: set[str]()}

    def document(self) -> bytes:
        sheet = self.sheet
        views = [self.view(on_paper(v, self.style)) for v in sheet.views]
        furniture = self.group("sheet", "sheet")
        for role, marks in _by_role(sheet.marks):
            furniture.add(self.marks(role, marks))
        for text in sheet.texts:
            self.add_text(furniture, text)
        root = self.head()
        wide, high = _n(sheet.width), _n(sheet.height)
        root.add(element.rectangle(class_="ground", x="0", y="0", width=wide, height=high))
        for part in (*views, furniture):
            root.add(part)
        return element.lines(root)

    def head(self) -> Any:
        """Write what a reader sees first: size, names, style, the spec."""
        sheet, title, about = self.sheet, self.name("title"), self.name("about")
        wide, high = _n(sheet.width), _n(sheet.height)
        root = element.drawing(
            f"{wide}mm",
            f"{high}mm",
            id=self.prefix,
            viewBox=f"0 0 {wide} {high}",
            role="img",
            aria_labelledby=f"{title} {about}",
            **_PLAIN,
        )
        root.add(element.named("title", clean(_title(sheet)), title))
        root.add(element.named("desc", clean(_about(sheet)), about))
        carried = svg_element(sheet.meta)
        if carried is not None:
            root.add(element.metadata(carried))
        root.add(root.defs)
        root.defs.add(element.style(self.css()))
        return root

    def css(self) -> str:
        root, style = f"#{self.prefix}", self.style
        rules = [_font_face(bold, half) for bold, half in self.faces()]
        rules += [
            f"{root} .{role}{{fill:none;stroke:#000;stroke-width:{_n(style.width(role))}}}"
            for role in get_args(Role)
        ]
        rules += [
            f"{root} path{{stroke-linecap:butt;stroke-linejoin:round}}",
            f"{root} .outline,{root} .frame,{root} .table,{root} .rule{{stroke-linecap:square}}",
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
            hatch = element.group(class_="hatch")
            hatch.add(self.path(self.segments(lines), part))
            group.add(hatch)
        for role, marks in _by_role(view.marks):
            group.add(self.marks(role, marks))
        for drawn in view.dimensions:
            group.add(self.dimension(view.name, drawn))
        for text in view.texts:
            self.add_text(group, text)
        return group

    def dimension(self, view: str, drawn: Exploded) -> Any:
        group = self.group(f"{view}.{drawn.name}", "dimension", name=drawn.name)
        for segment in drawn.segments:
            group.add(self.path(self.segments((segment,))))
        arrows = " ".join(f"M{' L'.join(self.xy(p) for p in a)}Z" for a in drawn.arrows)
        group.add(self.path(arrows, kind="arrow"))
        for text in drawn.texts:
            self.add_text(group, text)
        return group

    def marks(self, role: Role, marks: Iterable[Mark]) -> Any:
        """Draw marks of one role, each as a path of its own: so a reader can pick it."""
        group = element.group(class_=role)
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
        # A reader that knows all letters shall give the line the width that was planned.
        known = not unknown(words)
        made = element.text(
            words,
            font_size=_n(font_size(text.height)),
            text_anchor="" if text.anchor == "start" else text.anchor,
            font_weight="bold" if text.bold else "",
            data_name=clean(text.name),
            transform=f"rotate({_n(-text.turn)} {_n(x)} {_n(y)})" if text.turn else "",
            textLength=_n(width(words, text.height, text.bold)) if known else "",
            lengthAdjust="spacingAndGlyphs" if known else "",
        )
        made["x"], made["y"] = _n(x), _n(y)
        self.letters[text.bold].add(words)
        group.add(made)

    def group(self, ident: str, kind: str, title: str = "", name: str = "") -> Any:
        group = element.group(id=self.name(ident), class_=kind, data_name=clean(name))
        if title:
            group.add(element.named("title", clean(title), ""))
        return group

    def path(self, track: str, name: str = "", kind: str = "") -> Any:
        return element.path(track, class_=kind, data_name=clean(name))

    def name(self, wanted: str) -> str:
        """Make an id that no other element of this or another drawing has."""
        plain = re.sub(r"[^\w.-]+", "-", wanted)
        slug = f"{self.prefix}.{plain or 'x'}"
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
    """Give what begins every id: the same for every revision, so that two compare line by line."""
    count = next((t.text for t in sheet.texts if t.name == "sheet"), "")
    seed = "\n".join((sheet.meta.get("number", ""), count.partition(" ")[0]))
    return f"d{sha256(seed.encode('utf-8', 'surrogatepass')).hexdigest()[:8]}"


def _title(sheet: Sheet) -> str:
    words = (sheet.meta.get("number", ""), sheet.meta.get("title", ""))
    return " ".join(w for w in words if w) or "Drawing"


def _about(sheet: Sheet) -> str:
    if not sheet.views:
        return f"Data sheet to the drawing, size {sheet.size_name}."
    views = ", ".join(v.title or v.name for v in sheet.views)
    units = {"in": "inches", "mm": "millimetres"}[sheet.units]
    return f"Dimensioned drawing, size {sheet.size_name}, sizes in {units}: {views}."


def _n(value: float) -> str:
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text

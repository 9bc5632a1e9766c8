"""The sheet as DXF R2010.

Model space holds the true outline with true dimensions, 1:1 in the unit of the sheet; frame, title
block, tables and texts lie in a paper space layout with locked viewports.

Views of one scale stand in model space as they stand on the paper, so that one viewport shows them
all. Model space begins above the sheet: programs without paper space, which draw the sheet over
the model, then draw it beside the part. The library behind it is loaded and used here alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from io import StringIO
from math import cos, radians, sin
from typing import Any

from drafting.drawing.sheet.explode import explode
from drafting.drawing.sheet.letters import clean
from drafting.drawing.sheet.on_paper import Box, at_place, length, placed, union
from drafting.drawing.sheet.paper import on_paper, windowed
from drafting.drawing.sheet.sheet import Linear, Mark, Role, Round, Sheet, Text, View
from drafting.drawing.sheet.strokes import Hatch, Point2
from drafting.drawing.sheet.style import Style
from drafting.drawing.write.carry import DICTIONARY, pack
from drafting.drawing.write.carry import labels as carried_labels
from drafting.drawing.write.dxf.curves import add_curve, loop_vertices
from drafting.drawing.write.dxf.dimensions import Dimensioner, add_text, labels
from drafting.drawing.write.dxf.tables import (
    INCH,
    VIEWPORT_LAYER,
    dimension_style,
    layer,
    linetypes,
    set_header,
    set_up,
)
from drafting.drawing.write.dxf.viewports import (
    Window,
    bare_whole,
    over_gaps,
    standing,
    unbroken,
    whole,
)
from drafting.drawing.write.dxf.words import common_form

LAYOUT = "Sheet"
_CHORD = 0.01
"""Paper mm between a curved border of a hatch and the polygon that stands for it."""
_ANSI31 = 3.175
"""Pitch of the pattern ANSI31 in mm (1/8 in)."""
_ASPECT = 1.3
"""Width by height of the window in which model space is shown first."""
_EDGES: tuple[Role, ...] = ("outline", "hidden", "centre", "phantom", "thread")
DETAIL = "detail_"
"""How the name of an enlarged detail begins."""
_LOCKED = 0x4000
_CHUNK = 240
"""Characters of one string in an XRECORD; the format promises 255."""


def dxf_bytes(sheet: Sheet, outline_only: bool = False, version: str = "R2010") -> bytes:
    """Write the sheet as a DXF file; ``outline_only`` leaves the bare 1:1 outline of its views.

    ``version`` is R2000 to R2018; before R2007 text goes through a code page.
    """
    import ezdxf

    # Dates and random ids out, so that equal sheets give equal bytes.
    fixed = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        document = ezdxf.new(version, units=4 if _units(sheet) == "mm" else 1)
        _Writer(sheet, document).fill(outline_only)
        stream = StringIO()
        document.classes.add_required_classes(document.dxfversion)
        # Their order follows a set of names, which differs from run to run.
        classes = document.classes.classes
        for key in sorted(classes):
            classes.move_to_end(key)
        document.write(stream)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = fixed
    data: bytes = document.encode(stream.getvalue())
    return data


def _units(sheet: Sheet) -> str:
    return sheet.model_units or sheet.units


class _Writer:
    def __init__(self, sheet: Sheet, document: Any) -> None:
        self.sheet, self.document = sheet, document
        self.style = Style()
        self.linetypes = linetypes(self.style)
        self.unit = 1.0 if _units(sheet) == "mm" else INCH
        self.model = document.modelspace()

    def fill(self, outline_only: bool) -> None:
        set_header(self.document, self.unit)
        set_up(self.document, self.style, self.unit)
        # The data sheet is for paper: a program without layouts would draw it over the drawing.
        sheets = (self.sheet, *(s for s in self.sheet.following if s.views))
        pages = [_bare(s.views) if outline_only else s.views for s in sheets]
        views = [v for page in pages for v in page]
        self.form = common_form([s for v in views for s in labels(v.dimensions, self.unit)])
        above = None if outline_only else self.sheet.height
        stands = standing(pages, self.style, self.unit, above)
        for stand in (s for of_page in stands for s in of_page):
            for view in stand.views:
                self.view(view, stand.shift)
        windows = [[w for s in of_page for w in s.windows] for of_page in stands]
        self.document.layouts.rename("Layout1", LAYOUT)
        if outline_only:  # the layout stays empty; some programs print on a page of its size
            self.document.layouts.get(LAYOUT).reset_limits((0.0, 0.0), self.page())
        else:
            layouts = self.document.layouts
            for n, (sheet, own) in enumerate(zip(sheets, windows, strict=True)):
                layout = layouts.new(f"{LAYOUT} {n + 1}") if n else layouts.get(LAYOUT)
                self.paper(sheet, layout, own)
        shown = [w.model for own in windows for w in own]
        self.show(union(shown) if shown else (0.0, 0.0, 1.0, 1.0))
        self.carry()

    def page(self) -> Point2:
        """Give the size of the sheet in drawing units."""
        return (self.sheet.width / self.unit, self.sheet.height / self.unit)

    def view(self, view: View, shift: Point2) -> None:
        """Draw one view in model space, whole and true even where the sheet shows it broken."""
        k, unit = view.scale, self.unit
        origin = at_place(view.at, shift, 1 / (k * unit))
        cut = whole(windowed(view))
        for mark in cut.marks:
            self.curve(self.model, mark, origin, 1 / unit, k)
        for hatch in cut.hatches:
            self.hatch(hatch, origin, k)
        dimensioner = Dimensioner(
            self.model,
            dimension_style(self.document, k, self.form.variables, self.style, unit),
            self.form,
            k,
            unit,
            place=lambda p: at_place(p, origin, 1 / unit),
            paper=lambda p: at_place(unbroken(view, p), shift, 1 / (k * unit)),
        )
        for text in _in_model(view, on_paper(view, self.style).texts):
            at = dimensioner.paper(text.at)
            add_text(self.model, text, at, text.height / unit / k, layer("text"))
        for shown, d in zip(windowed(view).dimensions, cut.dimensions, strict=True):
            drawn = explode(shown, view.at, k, self.style)
            if isinstance(d, Linear):
                dimensioner.linear(d, drawn, cut.marks)
            elif isinstance(d, Round):
                dimensioner.round(d, drawn)
            else:
                dimensioner.note(d, drawn)

    def paper(self, sheet: Sheet, layout: Any, windows: Sequence[Window]) -> None:
        """Lay out a page: frame, tables and texts, and a viewport for each scale."""
        unit = self.unit
        layout.page_setup(
            size=self.page(),
            units="mm" if unit == 1.0 else "inch",
            name=("ISO_" if sheet.size_name[1:] else "ANSI_") + sheet.size_name,
        )
        layout.dxf_layout.dxf.current_style_sheet = "monochrome.ctb"
        for w in windows:
            (x0, y0, x1, y1), (m0, n0, m1, n1) = w.paper, w.model
            viewport = layout.add_viewport(
                center=((x0 + x1) / 2 / unit, (y0 + y1) / 2 / unit),
                size=((x1 - x0) / unit, (y1 - y0) / unit),
                view_center_point=((m0 + m1) / 2, (n0 + n1) / 2),
                view_height=n1 - n0,
                dxfattribs={"layer": VIEWPORT_LAYER},
            )
            viewport.dxf.flags |= _LOCKED
        for viewport in layout.viewports():
            viewport.dxf.default_lighting_type = 1  # two lights; see the seed of a hatch
        for mark in sheet.marks:
            self.curve(layout, mark, (0.0, 0.0), 1 / unit, 1.0)
        for view in sheet.views:
            for mark in over_gaps(view, self.style):
                self.curve(layout, mark, (0.0, 0.0), 1 / unit, 1.0)
        texts = list(sheet.texts)
        for view in sheet.views:
            said = on_paper(view, self.style).texts
            beside = _in_model(view, said)
            texts += [t for t in said if t not in beside]
        for text in texts:
            at = at_place(text.at, (0.0, 0.0), 1 / unit)
            add_text(layout, text, at, text.height / unit, layer("text"))

    def curve(self, space: Any, mark: Mark, at: Point2, size: float, k: float) -> None:
        """Draw one curve as the simplest entity that is exact; ``k`` is paper mm per its mm."""
        attributes: dict[str, Any] = {"layer": layer(mark.role)}
        style, paper = self.style, length(mark.curve) * k
        if (pattern := style.pattern(mark.role, paper)) != style.dashes(mark.role):
            # Programs draw a line without dashes that is shorter than its pattern.
            attributes["linetype"] = self.linetypes.get(pattern, "Continuous")
            if pattern:
                attributes["ltscale"] = style.fitted_dashes(mark.role, paper)[0] / pattern[0]
        add_curve(space, placed(mark.curve, at, size), attributes)

    def hatch(self, hatch: Hatch, origin: Point2, k: float) -> None:
        """Draw a section face with a pattern whose lines fall on those of the sheet."""
        entity = self.model.add_hatch(dxfattribs={"layer": layer("hatch")})
        turn, pitch = radians(hatch.angle), hatch.pitch / self.unit
        start = hatch.lines[0][0] if hatch.lines else (0.0, 0.0)
        base, offset = (
            at_place(start, origin, 1 / self.unit),
            (-sin(turn) * pitch, cos(turn) * pitch),
        )
        entity.set_pattern_fill("ANSI31", color=256, style=0)
        entity.set_pattern_definition([(hatch.angle, base, offset, ())])
        entity.dxf.pattern_angle = hatch.angle - 45.0
        entity.dxf.pattern_scale = hatch.pitch / _ANSI31
        # Without a seed the entity ends in a lone 0, after which FreeCAD skips the next entity.
        entity.set_seed_points([base])
        for loop in hatch.loops:
            moved = tuple(placed(c, origin, 1 / self.unit) for c in loop)
            error = _CHORD / k / self.unit
            entity.paths.add_polyline_path(loop_vertices(moved, error), is_closed=True)

    def show(self, extents: Box) -> None:
        """Open on the whole of model space."""
        x0, y0, x1, y1 = extents
        self.model.reset_extents((x0, y0, 0.0), (x1, y1, 0.0))
        self.model.reset_limits((x0, y0), (x1, y1))
        height = max(y1 - y0, (x1 - x0) / _ASPECT) * 1.05
        # The centre counts from the target. LibreCAD 2.2 leaves the target out and shows as its
        # middle twice the centre less half the window: with these both, it shows the same.
        x, y = (x0 + x1) / 4 + height * _ASPECT / 4, (y0 + y1) / 4 + height / 4
        target = ((x0 + x1) / 2 - x, (y0 + y1) / 2 - y, 0.0)
        attributes = {"aspect_ratio": _ASPECT, "target": target}
        self.document.set_modelspace_vport(height, (x, y), dxfattribs=attributes)

    def carry(self) -> None:
        """Write the spec into a dictionary of our own, its labels into the file's properties."""
        meta = self.sheet.meta
        named = {k: meta[k] for k in ("title", "number", "revision", "date") if meta.get(k)}
        for key, value in (named | carried_labels(meta)).items():
            self.document.header.custom_vars.append(key, clean(value))
        if "spec_text" in meta:
            packed = pack(meta["spec_text"])
            chunks = [packed[i : i + _CHUNK] for i in range(0, len(packed), _CHUNK)]
            record = self.document.rootdict.get_required_dict(DICTIONARY).add_xrecord("SPEC")
            record.reset([(1, chunk) for chunk in chunks])


def _in_model(view: View, texts: Sequence[Text]) -> list[Text]:
    """Give what of a view's texts stands in model space: by it details are told from the parent."""
    detail = view.name.startswith(DETAIL)
    return [t for t in texts if detail or t.name == "detail"]


def _bare(views: Sequence[View]) -> tuple[View, ...]:
    """Keep the edges of whole views: no dimension, hatching, text, nor break line."""
    parts = [v for v in views if not v.name.startswith(DETAIL)]
    whole = [v for v in parts if v.window is None] or parts
    return tuple(
        replace(
            v,
            marks=tuple(m for m in v.marks if m.role in _EDGES),
            dimensions=(),
            hatches=(),
            texts=(),
            whole=v.whole and bare_whole(v.whole, _EDGES),
        )
        for v in whole
    )

"""Layers, line types, text and dimension styles and header of our DXF files.

Everything is ByLayer, one layer per meaning. Sizes for paper stand in the drawing's own unit (mm
or inch), like model and paper space, so that LTSCALE and PSLTSCALE are both 1. The header repeats
the dimension style: light programs read nothing else.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drafting.drawing.sheet.sheet import Role
from drafting.drawing.sheet.style import Style

INCH = 25.4
DIMSTYLE = "DRAFTING"
VIEWPORT_LAYER = "VIEWPORT"
TEXT_STYLES = {False: "DRAFTING", True: "DRAFTING_BOLD"}
# The typeface of the sheets has the widths of Arial, which is on most desks.
_FONTS = {False: "arial.ttf", True: "arialbd.ttf"}
# Colour numbers that show on black and on white; 7 is the contrast of the ground.
_COLOURS: dict[Role, int] = {
    "outline": 7,
    "hidden": 30,
    "centre": 1,
    "phantom": 6,
    "thread": 94,
    "hatch": 8,
    "break": 7,
    "dimension": 150,
    "text": 7,
    "frame": 7,
    "table": 7,
    "rule": 7,
    "hair": 8,
}
_LINETYPES: dict[Role, tuple[str, str]] = {
    "hidden": ("HIDDEN", "Hidden edge __ __ __ __"),
    "centre": ("CENTER", "Centre line ____ . ____ . ____"),
    "phantom": ("DIVIDE", "Other position ____ . . ____ . . ____"),
}
_ABOUT = dict(_LINETYPES.values())
_SHORT = "2"
"""Ends the name of the line type that short lines of a role take, as programs name theirs."""


def layer(role: Role) -> str:
    """Name the layer of a role."""
    return role.upper()


def linetypes(style: Style) -> dict[tuple[float, ...], str]:
    """Name the line type of every pattern; what roles share has the name of the first."""
    named: dict[tuple[float, ...], str] = {}
    for role, (name, _) in _LINETYPES.items():
        for k, pattern in enumerate(style.patterns(role)):
            named.setdefault(pattern, name + _SHORT if k else name)
    return named


def set_up(document: Any, style: Style, unit: float) -> None:
    """Define layers, line types and text styles; ``unit`` is 1 or 25.4, mm per drawing unit."""
    for pattern, name in linetypes(style).items():
        dashes = [d / unit for d in pattern]
        signed = [d if i % 2 == 0 else -d for i, d in enumerate(dashes)]
        # The first number is the length of the period: without it readers draw dots.
        about = _ABOUT[name.removesuffix(_SHORT)]
        document.linetypes.add(name, [sum(dashes), *signed], description=about)
    for role, colour in _COLOURS.items():
        document.layers.add(
            layer(role),
            color=colour,
            lineweight=round(style.width(role) * 100),
            linetype=_LINETYPES[role][0] if role in _LINETYPES else "Continuous",
        )
    document.layers.add(VIEWPORT_LAYER, color=8, plot=False)
    for bold, name in TEXT_STYLES.items():
        document.styles.add(name, font=_FONTS[bold])


def dimension_style(
    document: Any, scale: float, form: Mapping[str, int], style: Style, unit: float
) -> str:
    """Make, once per scale, the dimension style of the views of that scale, and name it."""
    name = DIMSTYLE
    if name in document.dimstyles:
        if document.dimstyles.get(name).dxf.dimscale == 1 / scale:
            return name
        name = f"{DIMSTYLE}_{scale:g}".replace(".", "_")
    if name not in document.dimstyles:
        values = dimension_values(scale, form, style, unit)
        entry = document.dimstyles.new(name, dxfattribs=dict(values))
        entry.dxf.dimtxsty = TEXT_STYLES[False]
        if name == DIMSTYLE:
            for key, value in values.items():
                document.header[f"${key.upper()}"] = value
            document.header["$DIMSTYLE"] = name
            document.header["$DIMTXSTY"] = TEXT_STYLES[False]
    return name


def dimension_values(
    scale: float, form: Mapping[str, int], style: Style, unit: float
) -> dict[str, float | int]:
    """Give the variables of a dimension style; names as in the DXF reference.

    ``form`` are those of the number's form.
    """
    return {
        "dimscale": 1 / scale,
        "dimlfac": 1.0,  # the number is the measured length
        "dimtxt": style.text / unit,
        "dimasz": style.arrow / unit,
        "dimexo": style.gap / unit,
        "dimexe": style.overrun / unit,
        "dimgap": style.text_gap / unit,
        "dimdli": style.next / unit,
        "dimcen": 0.0,
        "dimtad": 1,  # text above the line
        "dimtih": 0,  # and along it, inside
        "dimtoh": 0,  # as outside
        "dimtofl": 1,  # the line goes through when the arrows are outside
        "dimtix": 0,
        "dimtmove": 2,  # a text may be moved off its line without a leader
        **form,
        "dimdsep": ord("."),
        "dimtol": 0,
        "dimlim": 0,
        "dimalt": 0,
        "dimclrd": 256,
        "dimclre": 256,
        "dimclrt": 256,
        "dimlwd": -1,  # ByLayer
        "dimlwe": -1,
        # not used here, but style and header of the library differ in them
        "dimadec": 0,
        "dimazin": 0,
        "dimfxl": 1.0,
    }


def set_header(document: Any, unit: float) -> None:
    """State units and scales of lines."""
    metric = unit == 1.0
    document.header["$INSUNITS"] = 4 if metric else 1
    document.header["$MEASUREMENT"] = 1 if metric else 0
    document.header["$LUNITS"] = 2
    document.header["$LUPREC"] = 3
    document.header["$LTSCALE"] = 1.0
    document.header["$CELTSCALE"] = 1.0
    document.header["$PSLTSCALE"] = 1  # dashes keep their paper size in every viewport
    document.header["$LWDISPLAY"] = 1
    document.header["$TEXTSTYLE"] = TEXT_STYLES[False]

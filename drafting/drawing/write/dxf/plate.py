"""A plate ready to cut, as a DXF of its own: one closed contour, its holes, and words beside it.

Lines and arcs are exact. R12, for old machines, has a POLYLINE with bulges and carries the spec in
comments (group code 999); later versions have an LWPOLYLINE and the spec in an XRECORD.
"""

from __future__ import annotations

import logging
from collections.abc import Sequence
from io import StringIO
from math import pi, tan

from drafting.drawing.write.carry import PLATE_KEY, pack
from drafting.shape.pieces import Arc2, Outline, outline_bounds

CUT, WORDS = "CUT", "WORDS"
_HEIGHT = 5.0
"""Height of the words (mm)."""
_LINE = 200
"""Characters of one comment; the format promises 255."""


def plate_bytes(
    outline: Outline,
    holes: Sequence[tuple[tuple[float, float], float]],
    words: Sequence[str],
    unit: float,
    spec: str,
    version: str = "R12",
) -> bytes:
    """Write a plate; sizes in mm, told in units of ``unit`` mm. ``words`` stand below it."""
    import ezdxf
    from ezdxf.enums import TextEntityAlignment

    # The library tells of every R12 that it has no place for units; the words beside it have.
    logging.getLogger("ezdxf").addFilter(_no_units)
    fixed = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        named = 1 if unit > 2 else 4  # inches, millimetres; R12 has no place to say so
        document = ezdxf.new(version, units=0 if version == "R12" else named)
        for name, colour in ((CUT, 7), (WORDS, 8)):
            document.layers.add(name, color=colour)
        space = document.modelspace()
        cut = {"layer": CUT}
        vertices = [(x / unit, y / unit, bulge) for x, y, bulge in bulged(outline)]
        if version == "R12":
            space.add_polyline2d(vertices, format="xyb", close=True, dxfattribs=cut)
        else:
            space.add_lwpolyline(vertices, format="xyb", close=True, dxfattribs=cut)
        for (x, y), radius in holes:
            space.add_circle((x / unit, y / unit), radius / unit, dxfattribs=cut)
        left, _, low, _ = (v / unit for v in outline_bounds(outline))
        low -= 3 * _HEIGHT / unit
        for k, line in enumerate(words):
            text = space.add_text(line, height=_HEIGHT / unit, dxfattribs={"layer": WORDS})
            place = (left, low - 1.6 * k * _HEIGHT / unit)
            text.set_placement(place, align=TextEntityAlignment.LEFT)
        stream = StringIO()
        document.write(stream)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = fixed
    packed = pack(spec)
    chunks = [packed[k : k + _LINE] for k in range(0, len(packed), _LINE)]
    told = "".join(f"999\n{PLATE_KEY}{chunk}\n" for chunk in chunks)
    return (told + stream.getvalue()).encode("utf-8" if version >= "R2007" else "ascii", "replace")


def _no_units(record: logging.LogRecord) -> bool:
    return "$INSUNITS" not in record.getMessage()


def bulged(outline: Outline) -> list[tuple[float, float, float]]:
    """Give a closed outline as x, y and bulge: the tangent of a quarter of the arc's angle."""
    if len(outline) == 1 and isinstance(outline[0], Arc2):  # a whole circle: two half turns
        (x, y), r = outline[0].centre, outline[0].radius
        return [(x - r, y, 1.0), (x + r, y, 1.0)]
    found: list[tuple[float, float, float]] = []
    for edge in outline:
        if not isinstance(edge, Arc2):
            found.append((*edge.a, 0.0))
            continue
        # A bulge stands for less than a whole turn; halves keep it away from there.
        parts = 2 if edge.a1 - edge.a0 > pi else 1
        step = (edge.a1 - edge.a0) / parts
        for k in range(parts):
            found.append((*edge.at(edge.a0 + k * step), tan(step / 4)))
    return found

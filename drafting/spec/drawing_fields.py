"""The fields of the table that says how the sheet looks."""

from __future__ import annotations

from drafting.spec.field import Field, TableFields, word, words

DRAWING = TableFields(
    "drawing",
    "How the sheet looks.",
    (
        word(
            "sheet",
            "size of the sheet",
            "auto",
            "A4",
            "A3",
            "A2",
            "A1",
            "A0",
            "A",
            "B",
            "C",
            "D",
            "E",
        ),
        word("projection", "third or first angle", "third", "first"),
        Field(
            "dimensions",
            "word",
            "the unit of the dimensions, the other one in brackets",
            '"in [mm]"',
            choices=("in", "mm", "in [mm]", "mm [in]"),
            example_mm='"mm [in]"',
        ),
        Field(
            "fractions",
            "count",
            "largest denominator of inch fractions, 64 when left out; 0: decimals",
            "16",
            among=(0, 2, 4, 8, 16, 32, 64),
        ),
        Field("scale", "scale", "scale of the views", '"auto"'),
        word("breaks", "break long views where that makes them larger, or never", "auto", "none"),
        Field("date", "date", "date in the title block", '"2026-11-25"'),
        words(
            "general_tolerance",
            "general tolerance of the sheet, printed as it is given; left out, there is none",
            "ISO 2768-m",
        ),
        words("company", "company in the title block", "Upper Lenn Water Board"),
        words("drawn_by", "who drew it", "M. Osk"),
        words("customer", "who it is for", "Lenn valley orchards"),
        Field(
            "logo",
            "table",
            "logo in the title block: SVG path data, drawn as lines, and its viewBox",
            '{viewbox = "0 0 30 10", path = "M 0 10 L 15 0 L 30 10 Z"}',
            fields=(
                Field("viewbox", "viewbox", "viewBox of the path", '"0 0 30 10"', True),
                Field("path", "path", "what stands in d of the path", '"M 0 10 L 15 0"', True),
            ),
        ),
    ),
)

"""A page of a worksheet under way, its foot with the rule that checks a print, and the PDF."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import Path
from typing import Literal

from drafting.drawing.sheet.sheet import Mark, Sheet, Text, View
from drafting.drawing.sheet.strokes import Line, Point2
from drafting.measuring.worksheet_boxes import BIG, SMALL, Boxed
from drafting.told.rows import TOOL

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN = 12.0
Units = Literal["in", "mm", "both"]


@dataclass
class Page:
    """A page under way, filled from the top."""

    wide: float
    high: float
    top: float
    views: list[View] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)

    @staticmethod
    def new(paper: str, title: str) -> Page:
        """Give a page of ``paper`` with its title."""
        wide, high = PAPERS[paper]
        page = Page(wide, high, high - MARGIN - BIG - 3.0)
        page.texts.append(Text((MARGIN, high - MARGIN - BIG), title, BIG, bold=True))
        return page

    def put(self, drawn: Boxed) -> float:
        """Lay something on the page; gives the level (mm) where it ends."""
        self.marks += drawn.marks
        self.texts += drawn.texts
        return drawn.bottom

    @property
    def room(self) -> float:
        """Give the width between the margins."""
        return self.wide - 2 * MARGIN


def finished(pages: Sequence[Page], paper: str, units: Units, name: str) -> tuple[Sheet, ...]:
    """Give the pages as sheets, each with its number and the rule; ``name`` stands at the foot."""
    out = []
    for n, page in enumerate(pages, 1):
        words = f"{name}, page {n} of {len(pages)}"
        foot = Text((page.wide - MARGIN, MARGIN - 5.0), words, SMALL, "end")
        bar = check_bar((MARGIN, MARGIN - 5.0))
        out.append(
            Sheet(
                paper,
                page.wide,
                page.high,
                "in" if units == "in" else "mm",
                tuple(page.views),
                (*page.marks, *bar[0]),
                (*page.texts, foot, *bar[1]),
                {"title": f"Worksheet {name}", "tool": TOOL},
            )
        )
    return tuple(out)


def files_of(sheets: Sequence[Sheet], path: Path) -> dict[Path, bytes]:
    """Give the files of a worksheet: one PDF, or where ``path`` ends so, an SVG for each page."""
    if path.suffix.lower() != ".svg":
        return {path: pdf_of(sheets)}
    from drafting.drawing.write.svg import svg_bytes

    names = [path, *(path.with_stem(f"{path.stem}-{n}") for n in range(2, len(sheets) + 1))]
    return {name: svg_bytes(s) for name, s in zip(names, sheets, strict=True)}


def pdf_of(sheets: Sequence[Sheet]) -> bytes:
    """Give sheets as one PDF file that is printed at its own size."""
    from pypdf import PdfReader, PdfWriter

    from drafting.drawing.write.pdf import pdf_bytes

    writer = PdfWriter()
    for sheet in sheets:
        writer.append(PdfReader(BytesIO(pdf_bytes(sheet))))
    writer.add_metadata({"/Title": sheets[0].meta["title"], "/Creator": TOOL})
    writer.create_viewer_preferences().print_scaling = "/None"
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def check_bar(at: Point2) -> tuple[tuple[Mark, ...], tuple[Text, ...]]:
    """Draw a rule of 100 mm and 4 in, by which a print is checked."""
    x, y = at[0], at[1] + 2.8
    marks = [Mark(Line((x, y), (x + 101.6, y)), "table", "check bar")]
    for k in range(11):
        high = 1.8 if k % 5 else 2.6
        marks.append(Mark(Line((x + 10.0 * k, y), (x + 10.0 * k, y + high)), "table", "check bar"))
    for k in range(9):
        low = 1.2 if k % 2 else 2.2
        marks.append(Mark(Line((x + 12.7 * k, y), (x + 12.7 * k, y - low)), "table", "check bar"))
    words = "Print at 100 %: this rule is 100 mm (above) and 4 in (below) long"
    return tuple(marks), (Text((x, y + 3.4), words, 2.5, name="check bar"),)

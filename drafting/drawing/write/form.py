"""Pages with blanks that are filled in by a program: a PDF form (ISO 32000-1, 12.7).

The page is drawn as every other; a field lies over each blank, so that a printed sheet can be
filled by hand. Fields come in reading order, which is the order of the tab key.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.drawing.sheet.sheet import Sheet
from drafting.drawing.write.pdf import POINT, Writer
from drafting.records import dataclass

ABOVE = 0.25
"""How far a field stands over its line (mm), so that the line is seen."""
_LETTERS = 8.5
"""Height of letters in a field, in points."""


@dataclass(frozen=True, slots=True)
class Blank:
    """A field on a page: its name, its corner and size in paper mm, what stands in it at first.

    ``told`` is what a reader says when the field is entered. One that is ``fixed`` is not changed.
    """

    name: str
    at: tuple[float, float]
    size: tuple[float, float]
    text: str = ""
    told: str = ""
    fixed: bool = False
    lines: bool = False


def form_bytes(sheet: Sheet, blanks: Sequence[Sequence[Blank]]) -> bytes:
    """Write a sheet and those that follow it as a form; ``blanks`` by page."""
    return _Form(sheet, blanks).document()


class _Form(Writer):
    subject = "Form for the builder's quote"

    def __init__(self, sheet: Sheet, blanks: Sequence[Sequence[Blank]]) -> None:
        super().__init__(sheet)
        self.blanks = blanks

    def over(self, page: int) -> None:
        """Lay the fields over a page; places of a form are in points of the page."""
        for blank in self.blanks[page]:
            flags = ["multiline"] * blank.lines + ["readOnly"] * blank.fixed
            self.canvas.acroForm.textfield(
                value=_latin(blank.text),
                name=blank.name,
                tooltip=_latin(blank.told or blank.name),
                x=blank.at[0] * POINT,
                y=(blank.at[1] + ABOVE) * POINT,
                width=blank.size[0] * POINT,
                height=blank.size[1] * POINT,
                fontName="Helvetica",
                fontSize=_LETTERS,
                maxlen=4000 if blank.lines else 200,
                borderWidth=0,
                borderColor=None,
                fillColor=_pale() if not blank.fixed else None,
                textColor=_black(),
                forceBorder=False,
                fieldFlags=" ".join(flags),
            )


def _latin(text: str) -> str:
    """Give a text in letters that every program's own Helvetica has (ISO 32000-1, annex D)."""
    return text.encode("cp1252", "replace").decode("cp1252")


def _pale() -> object:
    from reportlab.lib.colors import Color

    return Color(0.93, 0.95, 1.0)


def _black() -> object:
    from reportlab.lib.colors import black

    return black

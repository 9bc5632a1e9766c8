"""The sheet as PDF: a page of the exact size each, text that can be searched, the typeface inside.

The library behind it is loaded and used here alone. Coordinates are paper millimetres: the page
is scaled once.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from io import BytesIO
from itertools import groupby
from typing import Any

from drafting.drawing.sheet.explode import Exploded, Segment
from drafting.drawing.sheet.letters import clean, font_size, stand_in, ttf_path, width
from drafting.drawing.sheet.on_paper import beziers, is_whole, length
from drafting.drawing.sheet.paper import PaperView, on_paper
from drafting.drawing.sheet.sheet import Mark, Role, Sheet, Text
from drafting.drawing.sheet.strokes import Curve, Line, Point2, Poly
from drafting.drawing.sheet.style import Style
from drafting.drawing.write.carry import ATTACHMENT, PIECE, labels

POINT = 72 / 25.4
_FACES = {False: "DraftingSans", True: "DraftingSans-Bold"}


def pdf_bytes(sheet: Sheet) -> bytes:
    """Write the sheet as a PDF file of its true size."""
    return Writer(sheet).document()


class Writer:
    """Draws pages one after the other; ``over`` is what a form lays over them."""

    subject = "Dimensioned drawing"

    def __init__(self, sheet: Sheet) -> None:
        from reportlab.pdfgen.canvas import Canvas

        _register_faces()
        self.sheet = sheet
        self.style = Style()
        self.attached: Any = None
        self.file = BytesIO()
        self.canvas: Any = Canvas(
            self.file,
            pagesize=(sheet.width * POINT, sheet.height * POINT),
            pageCompression=1,
            pdfVersion=(1, 7),
            invariant=1,  # no date, no random id: equal sheets give equal bytes
            initialFontName=_FACES[False],  # else an unembedded Helvetica is listed
            lang="en",
        )

    def document(self) -> bytes:
        """Give the whole file."""
        self.describe()
        for page, sheet in enumerate((self.sheet, *self.sheet.following)):
            self.canvas.setPageSize((sheet.width * POINT, sheet.height * POINT))
            self.style = Style()
            self.canvas.scale(POINT, POINT)
            for view in sheet.views:
                self.view(on_paper(view, self.style))
            self.marks(sheet.marks)
            for text in sheet.texts:
                self.text(text)
            self.over(page)
            self.canvas.showPage()
        self.name_on_pages()
        self.canvas.save()
        return self.file.getvalue()

    def over(self, page: int) -> None:
        """Lay something over a page that is drawn."""

    def describe(self) -> None:
        """Write title, author, keywords, and attach the spec."""
        meta, canvas = self.sheet.meta, self.canvas
        title = " ".join(meta[k] for k in ("number", "title") if meta.get(k))
        canvas.setTitle(clean(title) or "Drawing")
        people = ", ".join(clean(meta[k]) for k in ("drawn_by", "company") if meta.get(k))
        canvas.setAuthor(people)
        day = meta.get("date", "").replace("-", "")
        if day:
            canvas.setDateFormatter(lambda *_: f"D:{day}000000Z")
        canvas.setSubject(f"{self.subject}, {self.sheet.size_name} sheet")
        canvas.setCreator(meta.get("tool", ""))
        canvas.setKeywords([f"{k}={v}" for k, v in labels(meta).items()])
        canvas.setViewerPreference("PrintScaling", "None")  # printed at its true scale by default
        canvas.setViewerPreference("DisplayDocTitle", "true")
        if "spec_text" in meta:
            self.attach(ATTACHMENT, meta["spec_text"].encode("utf-8", "surrogatepass"))

    def attach(self, name: str, data: bytes) -> None:
        """Hang a file into the document's name tree (ISO 32000-1, 7.11.4)."""
        from reportlab.pdfbase.pdfdoc import (
            PDFArray,
            PDFDictionary,
            PDFName,
            PDFStream,
            PDFString,
        )

        document = self.canvas._doc  # the library has no public way to attach a file
        stream = PDFStream(content=data)
        stream.dictionary = PDFDictionary(
            {"Type": PDFName("EmbeddedFile"), "Params": PDFDictionary({"Size": len(data)})}
        )
        place = document.Reference(stream)
        entry = PDFDictionary(
            {
                "Type": PDFName("Filespec"),
                "F": PDFString(name),
                "UF": PDFString(name),
                "Desc": PDFString("The spec from which this drawing was made"),
                "EF": PDFDictionary({"F": place, "UF": place}),
            }
        )
        self.attached = place
        tree = PDFDictionary({"Names": PDFArray([PDFString(name), document.Reference(entry)])})
        document.Catalog.Names = PDFDictionary({"EmbeddedFiles": tree})

    def name_on_pages(self) -> None:
        """Let each page hold the spec too: whoever puts PDFs together keeps the pages alone."""
        from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFString

        if self.attached is None:
            return
        meta = self.sheet.meta
        day = meta.get("date", "").replace("-", "") or "19700101"
        when = PDFString(f"D:{day}000000Z")
        private = {"Spec": self.attached, "SHA256": PDFString(meta.get("input_sha256", ""))}
        own = PDFDictionary({"LastModified": when, "Private": PDFDictionary(private)})
        for page in self.canvas._doc.Pages.pages:
            page.LastModified = when
            page.PieceInfo = PDFDictionary({PIECE: own})

    def view(self, view: PaperView) -> None:
        """Draw a view that lies on the paper."""
        for _, lines in view.hatches:
            self.pen("hatch")
            self.segments(lines)
        self.marks(view.marks)
        for drawn in view.dimensions:
            self.dimension(drawn)
        for text in view.texts:
            self.text(text)

    def dimension(self, drawn: Exploded) -> None:
        """Draw lines, arrows and words of a dimension."""
        self.pen("dimension")
        self.segments(drawn.segments)
        path = self.canvas.beginPath()
        for tip, left, right in drawn.arrows:
            path.moveTo(*tip)
            path.lineTo(*left)
            path.lineTo(*right)
            path.close()
        self.canvas.drawPath(path, stroke=0, fill=1)
        for text in drawn.texts:
            self.text(text)

    def marks(self, marks: Iterable[Mark]) -> None:
        """Draw marks by their roles, outlines last."""
        ordered = sorted(marks, key=lambda m: (m.role == "outline", m.role))
        for role, same in groupby(ordered, key=lambda m: m.role):
            self.pen(role)
            plain = self.canvas.beginPath()
            for mark in same:
                dashes = self.style.dashes(role) and self.style.fitted_dashes(
                    role, length(mark.curve)
                )
                if dashes:
                    self.canvas.setDash(list(dashes))
                    path = self.canvas.beginPath()
                    _trace(path, mark.curve)
                    self.canvas.drawPath(path)
                else:
                    _trace(plain, mark.curve)
            self.canvas.setDash([])
            self.canvas.drawPath(plain)

    def pen(self, role: Role) -> None:
        """Take the pen of a role."""
        self.canvas.setLineWidth(self.style.width(role))
        self.canvas.setLineCap(2 if role in ("outline", "frame", "table", "rule") else 0)
        self.canvas.setLineJoin(1)

    def segments(self, lines: Iterable[Segment]) -> None:
        """Draw straight lines with the pen in hand."""
        self.canvas.lines([(*a, *b) for a, b in lines])

    def text(self, text: Text) -> None:
        """Set one line; a character without a glyph becomes a box with its code."""
        words = clean(text.text)
        if not words.strip():
            return
        canvas, size = self.canvas, font_size(text.height)
        wide = width(words, text.height, text.bold)
        x = -{"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * wide
        canvas.saveState()
        canvas.translate(*text.at)
        if text.turn:
            canvas.rotate(text.turn)
        for known, run in groupby(words, key=lambda c: stand_in(c) is not None):
            if known:
                shown = "".join(stand_in(c) or "" for c in run)
                canvas.setFont(_FACES[text.bold], size)
                canvas.drawString(x, 0, shown)
                x += width(shown, text.height, text.bold)
            else:
                for char in run:
                    self.code_box(char, x, text.height)
                    x += width(char, text.height, text.bold)
        canvas.restoreState()

    def code_box(self, char: str, x: float, height: float) -> None:
        """Draw a box of one em with the code of a character in two rows of digits."""
        canvas, em = self.canvas, font_size(height)
        code = f"{ord(char):06X}" if ord(char) > 0xFFFF else f"{ord(char):04X}"
        half, row = len(code) // 2, height * 0.36
        canvas.setLineWidth(height * 0.05)
        canvas.rect(x + em * 0.05, 0, em * 0.9, height)
        canvas.setFont(_FACES[False], font_size(row))
        for digits, y in ((code[:half], 0.56), (code[half:], 0.1)):
            canvas.drawCentredString(x + em / 2, y * height, digits)


def _trace(path: Any, curve: Curve) -> None:
    match curve:
        case Line(a, b):
            path.moveTo(*a)
            path.lineTo(*b)
        case Poly(points):
            _polygon(path, points)
        case arc:
            pieces = beziers(arc)
            path.moveTo(*pieces[0][0])
            for _, c1, c2, end in pieces:
                path.curveTo(*c1, *c2, *end)
            if is_whole(arc):
                path.close()


def _polygon(path: Any, points: tuple[Point2, ...]) -> None:
    closed = len(points) > 2 and points[0] == points[-1]
    path.moveTo(*points[0])
    for p in points[1:-1] if closed else points[1:]:
        path.lineTo(*p)
    if closed:
        path.close()


@cache
def _register_faces() -> None:
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont

    for bold, name in _FACES.items():
        registerFont(TTFont(name, str(ttf_path(bold))))

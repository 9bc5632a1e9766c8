"""The form that a builder fills in: price and time, his tolerances, his answers.

Fields bear the dotted name of what they say: ``rod_mount.pin`` holds the size as it was asked,
``rod_mount.pin.tolerance`` his tolerance, ``answer.3`` the answer to the third question,
``quote.price``, ``quote.weeks`` and ``quote.notes`` what they say. Three that nobody changes tell
which drawing it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.asking.asked import Asked, make_asked, questions_asked, sizes_asked
from drafting.asking.pages import HIGH, MARK, PITCH, Filled, blanks, inner, pages
from drafting.checks.completeness import Question
from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.lists.strips import (
    CAPS,
    HEAD,
    LEADING,
    Cell,
    Section,
    Strip,
    hair,
    heading,
    row,
    stacked,
)
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.sheet import Text
from drafting.drawing.write.form import form_bytes
from drafting.model.cylinder import Cylinder

QUOTE = (
    ("quote.builder", "Builder"),
    ("quote.reference", "Your reference"),
    ("quote.price", "Price each, and currency"),
    ("quote.weeks", "Weeks to delivery"),
    ("quote.valid", "Valid until"),
    ("quote.by", "Quoted by, and date"),
)
NOTES = "quote.notes"
IDENTITY = ("drawing.number", "drawing.revision", "drawing.input_sha256")
"""What tells a form of this drawing from every other."""
DOCUMENT = "Quote form to the outline drawing: fill in, save, send back"
_NOTES_HIGH = 34.0
_GAP = 8.0


def quote_form(c: Cylinder, family: str) -> bytes:
    """Write the form of a cylinder; ``family``: ``iso`` for A4, ``asme`` for Letter."""
    wide = inner(family)
    asked, make, questions = sizes_asked(c), make_asked(c), questions_asked(c)
    sections = [
        _quote(wide),
        _sizes("SIZES TO HOLD", _ABOUT_SIZES, asked, wide),
        *([_sizes("MATERIALS AND MAKE", _ABOUT_MAKE, make, wide)] if make else []),
        _notes(wide),
        _identity(wide),
        *([_questions(questions, wide)] if questions else []),
    ]
    sheet = pages(sheet_job(c), family, sections, DOCUMENT)
    return form_bytes(sheet, blanks(sheet, _filled(c, asked, make, questions)))


_ABOUT_SIZES = "as asked; write your tolerance beside each, and change a size only if you must"
_ABOUT_MAKE = "as asked; write what you would supply"


def _filled(
    c: Cylinder, asked: Sequence[Asked], make: Sequence[Asked], questions: Sequence[Question]
) -> dict[str, Filled]:
    found = {a.name: Filled(a.text, f"{a.words}, as asked: {a.text}") for a in (*asked, *make)}
    found |= {
        f"{a.name}.tolerance": Filled(a.tolerance, f"{a.words}: your tolerance")
        for a in asked
        if a.tolerance is not None
    }
    found |= {
        f"answer.{n}": Filled("", f"{q.question}{f' ({q.field})' if q.field else ''}")
        for n, q in enumerate(questions, 1)
    }
    found |= {name: Filled("", words) for name, words in QUOTE}
    found[NOTES] = Filled("", "Notes to the quote", high=_NOTES_HIGH)
    for name, text in zip(IDENTITY, identity(c), strict=True):
        found[name] = Filled(text, name, fixed=True)
    return found


def identity(c: Cylinder) -> tuple[str, str, str]:
    """Give number, revision and hash of the input, as the form bears them."""
    return c.spec.word("number") or c.name, c.spec.word("revision") or "", c.spec.sha256


def _quote(wide: float) -> Section:
    marks, texts, high = heading("YOUR QUOTE", "", wide, "quote")
    half = (wide - _GAP) / 2
    strips = []
    for k in range(0, len(QUOTE), 2):
        cells: list[Cell] = []
        for (name, words), x in zip(QUOTE[k : k + 2], (0.0, half + _GAP), strict=True):
            cells += _blank(name, words, x, half, 43.0)
        strips.append(row(cells, PITCH, wide, None))
    return Section(Strip(high, marks, texts), tuple(strips), Strip(0.0))


def _blank(name: str, words: str, x: float, room: float, label: float) -> Iterator[Cell]:
    yield Cell(x, label - 1.0, words, name="form")
    yield Cell(x + label, room - label, "", line=True, name=f"{MARK}{name}")


def _sizes(title: str, about: str, asked: Sequence[Asked], wide: float) -> Section:
    """Give two columns of rows: words, a blank with what is asked, a blank for a tolerance."""
    half = (wide - _GAP) / 2
    marks, texts, high = heading(title, about, wide, "form")
    count = (len(asked) + 1) // 2
    strips = []
    for k in range(count):
        cells: list[Cell] = []
        for a, x in zip(asked[k::count][:2], (0.0, half + _GAP), strict=False):
            cells += _size(a, x, half)
        strips.append(row(cells, PITCH, wide, None))
    head = row(
        [Cell(x + at, 30.0, words, height=HEAD, name="form.head")
         for x in (0.0, half + _GAP)
         for at, words in ((0.40 * half, "AS ASKED"), (0.72 * half, "TOLERANCE"))
         if any(a.tolerance is not None for a in asked) or words == "AS ASKED"],
        4.2, wide, None,
    )  # fmt: skip
    return Section(stacked(Strip(high, marks, texts), head), tuple(strips), Strip(0.0))


def _size(a: Asked, x: float, half: float) -> Iterator[Cell]:
    first, second = 0.40 * half, 0.72 * half
    yield Cell(x, first - 1.5, a.words, name="form")
    end = half if a.tolerance is None else second - 2.0
    yield Cell(x + first, end - first, "", line=True, name=f"{MARK}{a.name}")
    if a.tolerance is not None:
        yield Cell(x + second, half - second, "", line=True, name=f"{MARK}{a.name}.tolerance")


def _questions(questions: Sequence[Question], wide: float) -> Section:
    about = "what the drawing leaves open, worst first; your answer, or what you would take"
    marks, texts, high = heading("OPEN QUESTIONS", about, wide, "questions")
    ask = 0.56 * wide
    strips = []
    for n, q in enumerate(questions, 1):
        lines = wrapped(f"{q.question} {q.why[:1].upper()}{q.why[1:]}.", CAPS, ask - 8.0)
        texts_n = [Text((0.0, -CAPS - 1.6), str(n), CAPS, name="questions")]
        texts_n += [
            Text((6.0, -CAPS - 1.6 - k * LEADING), line, CAPS, name="questions")
            for k, line in enumerate(lines)
        ]
        tall = max(PITCH, CAPS + 3.4 + (len(lines) - 1) * LEADING)
        line_ = hair((ask, -CAPS - 2.6), (wide, -CAPS - 2.6), name=f"{MARK}answer.{n}")
        strips.append(Strip(tall, (line_,), tuple(texts_n)))
    return Section(Strip(high, marks, texts), tuple(strips), Strip(0.0))


def _notes(wide: float) -> Section:
    about = "what differs, what you need to know, terms"
    marks, texts, high = heading("NOTES", about, wide, "notes")
    tall = _NOTES_HIGH + 2.0
    box = Strip(tall, (hair((0.0, -tall), (wide, -tall), name=f"{MARK}{NOTES}"),))
    return Section(Strip(high, marks, texts), (box,), Strip(0.0))


def _identity(wide: float) -> Section:
    """Give the three fields by which an answer is known; nobody changes them."""
    words = ("Number", "Revision", "Input")
    stops = (0.0, 0.34, 0.52, 1.0)
    cells: list[Cell] = []
    for k, name in enumerate(IDENTITY):
        x, end = stops[k] * wide, stops[k + 1] * wide
        cells += _blank(name, words[k], x, end - x - 3.0, 15.0)
    return Section(Strip(0.0), (row(cells, HIGH + 2.0, wide, None),), Strip(0.0))

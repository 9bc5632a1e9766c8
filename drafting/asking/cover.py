"""What lies on top of the package: a page for the buyer and the builder, and words for a mail."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drafting.asking.asked import questions_asked
from drafting.asking.pages import inner, pages
from drafting.drawing.lists.data_sections import notes, pairs
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.write.pdf import pdf_bytes
from drafting.model.cylinder import Cylinder
from drafting.told.data_sheet import Row
from drafting.units import both

DOCUMENT = "Request for a quote: what is asked, and what is inside"
_PITCH = 5.6
_CARRIED = "the spec travels inside the drawing, the solids and the tables too"
_MOST = 120.0
"""Height that the questions may take on one page (mm)."""
TERMS = ("Price each", "Delivery", "Payment", "Warranty", "Packing", "Test and papers")
"""Left blank: they are between buyer and builder."""
STEPS = (
    "Fill in the quote form with any program that fills PDF forms, save it, and send it back; or "
    "print it and fill it in by hand.",
    "Say what you change. A size under SIZES TO HOLD meets the machine: it is not changed without "
    "asking.",
    "The outline drawing is no drawing to make it by. Send your own for approval before cutting.",
)


def cover(c: Cylinder, family: str, inside: Mapping[str, str]) -> bytes:
    """Write the cover page; ``inside`` tells of each file by its name."""
    wide = inner(family)
    questions = [f"{q.question} {q.why[:1].upper()}{q.why[1:]}." for q in questions_asked(c)]
    sections = [
        pairs("WHAT IS ASKED", "", asked_rows(c), _PITCH, wide),
        pairs("INSIDE", _CARRIED, tuple(inside.items()), _PITCH, wide, 0.34),
        pairs("TERMS", "between buyer and builder", [(t, "") for t in TERMS], _PITCH, wide),
        pairs("HOW TO ANSWER", "", [(str(n), s) for n, s in enumerate(STEPS, 1)], _PITCH, wide),
    ]
    if questions:
        sections.append(notes(questions, _PITCH, wide, _MOST, "OPEN QUESTIONS, WORST FIRST"))
    return pdf_bytes(pages(sheet_job(c), family, sections, DOCUMENT))


def asked_rows(c: Cylinder) -> tuple[Row, ...]:
    """Give what is asked for in rows: how many, when, for whom; what nobody typed says so."""
    n, units = c.lengths, c.spec.units
    quantity = c.spec.get("quantity")
    rows = [
        ("Cylinder", " ".join(w for w in (c.name, c.spec.word("title")) if w)),
        ("Quantity", quantity.typed if quantity else "not said: price for one and for five"),
        ("Wanted", c.spec.word("wanted") or "not said: state your weeks"),
        ("Contact", c.spec.word("contact") or "the sender of this package"),
        ("Ship to", c.spec.word("ship_to") or "not said: price at your works"),
        ("Retracted", both(n.retracted, units)),
        ("Extended", both(n.extended, units)),
        ("Stroke", both(n.stroke, units)),
        ("Bore, rod", f"{both(c.stations.bore, units)}, {both(c.stations.rod, units)}"),
    ]
    return tuple(rows)


def mail(c: Cylinder, package: str, inside: Sequence[str]) -> str:
    """Give the words of a mail to a builder, ready to be sent."""
    rows = "\n".join(f"  {label:<12}{words}" for label, words in asked_rows(c))
    files = "\n".join(f"  {name}" for name in inside)
    questions = questions_asked(c)
    worst = "\n".join(f"  {k}. {q.question}" for k, q in enumerate(questions[:5], 1))
    more = f"\n  {len(questions) - 5} more stand in the form." if len(questions) > 5 else ""
    open_ = "These are open; please answer or say what you would take:"
    ask = f"{open_}\n{worst}{more}\n\n" if worst else ""
    return (
        f"Subject: Quote request {c.name}"
        f"{', revision ' + r if (r := c.spec.word('revision')) else ''}\n\n"
        f"Good day,\n\nplease quote for this hydraulic cylinder:\n\n{rows}\n\n"
        f"{ask}Attached is {package} with:\n{files}\n\n"
        "Please fill in the form and send it back, with your own drawing for approval before "
        "cutting.\n\nKind regards\n"
    )

"""What ``measure`` found, as data and as text."""

from __future__ import annotations

from typing import Any

from drafting.measuring.results import Measured, Result


def measured_json(m: Measured) -> dict[str, Any]:
    """Give the document of ``measure --json``; uncertainties are standard ones."""
    return {
        "schema": 1,
        "spec": m.spec,
        "readings": [
            {
                "name": r.name,
                "field": r.letter.field,
                "reading_mm": round(r.reading_mm, 4),
                "uncertainty_mm": round(r.uncertainty_mm, 4),
                "taken_as_mm": round(r.taken_as_mm, 4),
                "taken_as": r.taken_as,
                "off_by_sigma": round(r.off_by_sigma, 2),
                "confidence": r.confidence,
                "note": r.note,
            }
            for r in m.rows
        ],
        "open": [{"name": o.name, "what": o.what, "to_decide": o.decide} for o in m.open],
        "notes": list(m.notes),
    }


def measured_text(m: Measured) -> str:
    """Give what was read and taken, then what is open, what it would change first."""
    count = len(m.open)
    lines = [
        f"{m.bench.title}   "
        + (f"{count} OPEN, the worst first below" if count else "nothing open"),
        "",
        f"  {'':4}{'what':<42}{'read':<20}{'taken as':<12}how sure",
    ]
    for r in m.rows:
        taken = r.taken_as.partition(":")[0]
        if taken.startswith("stock tube"):
            taken = taken.rpartition(", ")[2].removesuffix(" outside")
        lines.append(
            f"  {r.letter.letter:<4}{r.letter.what:<42}{said_with_limits(m, r):<20}"
            f"{taken:<12}{how_sure(m, r)}"
        )
    lines += ["", "  limits hold for 19 readings in 20"]
    lines += [f"  {n}".replace("±", "+-") for n in m.notes]
    if m.open:
        lines += ["", "Measure again, or decide"]
        for o in m.open:
            lines.append(f"  {o.name}: {o.what}")
            if o.decide:
                lines.append(f"      would decide: {o.decide}")
    return "\n".join(lines)


def said_with_limits(m: Measured, r: Result) -> str:
    """Say a reading with its limits in the file's unit."""
    inch = m.bench.units == "in"
    unit = 25.4 if inch else 1.0
    places = 3 if inch else 2
    limit = 2 * r.uncertainty_mm / unit
    return f"{r.reading_mm / unit:.{places}f} +-{limit:.{places}f} {m.bench.units}"


def how_sure(m: Measured, r: Result) -> str:
    """Say in words how sure a size is and why: never a bare number of deviations."""
    word = r.confidence.upper() if r.confidence == "open" else r.confidence
    inch = m.bench.units == "in"
    off = (r.reading_mm - r.taken_as_mm) / (25.4 if inch else 1.0)
    step = 0.0005 if inch else 0.005
    away = ""
    if not r.taken_as.startswith("as ") and abs(off) >= step:
        away = f"reads {abs(off):.{3 if inch else 2}f} {'over' if off > 0 else 'under'} it"
    note = r.note if r.note != r.taken_as and r.letter.kind != "length" else ""
    said = "; ".join(x for x in (away, note) if x)
    return f"{word}: {said}" if said else word

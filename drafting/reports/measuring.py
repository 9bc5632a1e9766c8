"""What ``measure`` found, as data and as text."""

from __future__ import annotations

from typing import Any

from drafting.measuring.results import Measured
from drafting.units import both


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
    """Give the readings, then what is open with what would decide it."""
    units = m.bench.units
    lines = ["Read (limits hold for 19 readings in 20 and are twice the standard uncertainty u)"]
    for r in m.rows:
        taken = "as read"
        if r.taken_as != "as read":
            taken = f"taken as {r.taken_as}, off by {r.off_by_sigma:+.1f} u"
        word = r.confidence.upper() if r.confidence == "open" else r.confidence
        note = f"  ({r.note})" if r.note and r.note != r.taken_as else ""
        limit = 2 * r.uncertainty_mm / (25.4 if units == "in" else 1.0)
        lines.append(
            f"  {r.letter.letter:<3} {r.letter.what}: {both(r.reading_mm, units)} ± {limit:.3f} "
            f"{units}, {taken}: {word}{note}"
        )
    lines += [f"  {n}" for n in m.notes]
    if m.open:
        lines += ["", "Measure again, or decide"]
        for o in m.open:
            lines.append(f"  {o.name}: {o.what}")
            if o.decide:
                lines.append(f"      would decide: {o.decide}")
    else:
        lines += ["", "Nothing is open."]
    return "\n".join(lines)

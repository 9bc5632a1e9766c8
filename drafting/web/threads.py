"""Which thread a port has, from the hole's width and its pitch: what to type for each that fits."""

from __future__ import annotations

from typing import Any

from drafting.errors import Fault, Refused
from drafting.factors import Misread
from drafting.measuring.identify import NOT_COVERED, identify
from drafting.measuring.thread_readings import ReadingError
from drafting.units import read_length

SHOWN = 6
COARSEST = 7.0
"""A bare pitch below this is in mm: no port thread has so few to the inch, nor so many mm."""


def threads(hole: str, pitch: str, units: str) -> dict[str, Any]:
    """Give the ports that a hole may be, best first: what to type, and what tells it apart.

    ``hole`` is measured inside, over the crests at the mouth; ``pitch`` is ``16`` to the inch,
    ``1.5`` or ``1.5 mm``, or empty. Raises Refused for what is no size.
    """
    try:
        across = float(read_length(hole, units if units in ("in", "mm") else None))
        per_inch, mm = _pitch(pitch.strip())
        found = identify(across, None, mm, per_inch)
    except Misread as wrong:
        raise Refused([Fault("", 1, 1, wrong.code, "", str(wrong))]) from None
    except ReadingError as wrong:
        raise Refused([Fault("", 1, 1, wrong.code, "", wrong.message)]) from None
    ports = [c for c in found.candidates if c.thread.port][:SHOWN]
    return {
        "ports": [
            {
                "type": c.thread.port,
                "family": c.thread.family,
                "apart": c.to_decide,
                "beware": c.thread.trap,
            }
            for c in ports
        ],
        "none": found.none or not ports,
        "decided": found.decided,
        "advice": list(found.advice),
        "not_covered": NOT_COVERED,
    }


def _pitch(text: str) -> tuple[float | None, float | None]:
    if not text:
        return None, None
    mm = float(read_length(text, "mm"))
    bare = not any(letter.isalpha() for letter in text)
    return (mm, None) if bare and mm >= COARSEST else (None, mm)

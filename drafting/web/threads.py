"""Which thread a port has, from the hole's width and its pitch: what to type for each that fits."""

from __future__ import annotations

from typing import Any

from drafting.errors import Fault, Refused
from drafting.factors import Misread
from drafting.measuring.identify import (
    ENOUGH,
    NOT_COVERED,
    Identification,
    ThreadMatch,
    identify,
    pitch_words,
)
from drafting.measuring.thread_readings import ReadingError, Readings
from drafting.units import both, read_length

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
    ports = _ports(found)
    fits = bool(ports) and ports[0].score >= ENOUGH
    shown = ports if fits else _nearest(ports or _ports(identify(across)), found.readings)
    return {
        "said": _said(found, len(ports)) if fits else _missed(shown, found.readings, units),
        "ports": [
            {
                "type": c.thread.port,
                "family": c.thread.family,
                "apart": c.to_decide if fits else "",
                "beware": c.thread.trap,
            }
            for c in shown
        ],
        "advice": list(found.advice),
        "not_covered": NOT_COVERED,
    }


def _ports(found: Identification) -> list[ThreadMatch]:
    return [c for c in found.candidates if c.thread.port][:SHOWN]


def _nearest(ports: list[ThreadMatch], read: Readings) -> list[ThreadMatch]:
    """Give the port whose pitch is nearest to the one that was read; one or none."""
    return sorted(ports, key=lambda c: abs(c.thread.pitch_mm - (read.pitch_mm or 0.0)))[:1]


def _said(found: Identification, fit: int) -> str:
    if found.decided:
        return "One form of thread is left; the first is it."
    return f"Not decided: {fit} {'fit' if fit > 1 else 'fits'}."


def _missed(ports: list[ThreadMatch], read: Readings, units: str) -> str:
    """Say that nothing fits, which port is nearest, and what of it is not as was read."""
    none = "None of the tables' ports fits"
    if not ports:
        return f"{none}. Measure again."
    (c,) = ports
    off = [f"the hole is off by {both(abs(c.female_off_mm), units)}"] if c.female_off_mm else []
    if read.pitch_mm and abs(read.pitch_mm - c.thread.pitch_mm) > read.pitch_uncertainty_mm:
        off.append(f"it has {pitch_words(c.thread)}")
    return f"{none}. The nearest is {c.thread.port}: {' and '.join(off)}. Measure again."


def _pitch(text: str) -> tuple[float | None, float | None]:
    if not text:
        return None, None
    mm = float(read_length(text, "mm"))
    bare = not any(letter.isalpha() for letter in text)
    return (mm, None) if bare and mm >= COARSEST else (None, mm)

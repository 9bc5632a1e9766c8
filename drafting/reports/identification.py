"""The answer of ``identify`` as data and as text."""

from __future__ import annotations

from typing import Any

from drafting.measuring.identify import NOT_COVERED, Identification, ThreadMatch
from drafting.measuring.thread_readings import Readings
from drafting.units import format_inch, format_mm

POOR = 0.5
"""A best agreement below this deserves a warning."""


def identify_json(result: Identification) -> dict[str, Any]:
    """Give the document of ``identify --json``: readings, candidates best first, what to do."""
    return {
        "schema": 1,
        "readings": _readings(result.readings),
        "candidates": [_candidate(c) for c in result.candidates],
        "decided": result.decided,
        "not_ruled_out": result.rivals,
        "advice": list(result.advice),
        "notes": [*result.readings.notes, *_warnings(result)],
        "not_covered": NOT_COVERED,
    }


def identify_text(result: Identification) -> str:
    """Give the answer for a terminal: what was read, the threads, what tells them apart."""
    lines = ["Read: " + ", ".join(_said(r) for r in _readings(result.readings))]
    lines += [f"  {note}" for note in result.readings.notes]
    if not result.candidates:
        lines += ["", f"No thread of the tables agrees with that. Note: {NOT_COVERED}."]
        return "\n".join(lines) + "\n"
    lines += ["", *_verdict(result), ""]
    for place, c in enumerate(result.candidates, start=1):
        k = c.thread
        beside = [w for w in (k.dash and f"dash {k.dash}", k.tube, k.family) if w]
        lines.append(f"{place:2}. {k.thread}  ({', '.join(beside)})  agreement {c.score:.2f}")
        lines.append(
            f"    male {_band(k.male)}, female {_band(k.female)}, "
            f"{round(k.tpi, 2):g} per inch ({format_mm(k.pitch_mm)} mm), "
            f"{'taper' if k.taper else 'parallel'}, {k.flank_deg:g} deg"
        )
        if place <= result.rivals:
            lines.append(f"    tells it apart: {c.to_decide}")
            lines.append(f"    beware: {k.trap}")
            if k.port and k.port != k.thread:
                lines.append(f'    as a port of a spec: "{k.port}"')
            if k.screw and k.screw != k.thread:
                lines.append(f'    as a plain thread: "{k.screw}"')
    if result.advice:
        lines += ["", "What to do next:", *(f"  - {line}" for line in result.advice)]
    lines += ["", *(f"Note: {w}" for w in _warnings(result)), f"Note: {NOT_COVERED}."]
    return "\n".join(lines) + "\n"


def _verdict(result: Identification) -> list[str]:
    first = result.candidates[0].thread
    others = [c.thread.thread for c in result.candidates[1 : result.rivals]]
    if not others:
        return [f"It is {first.thread}, as far as these readings go."]
    if result.decided:
        return [f"The thread is decided; it is used as {first.thread} and {', '.join(others)}."]
    more = f" and {len(others) - 4} more" if len(others) > 4 else ""
    return [
        "These readings do not decide. They fit "
        f"{', '.join([first.thread, *others[:4]])}{more}; do not order parts on them."
    ]


def _warnings(result: Identification) -> list[str]:
    if result.candidates and result.candidates[0].score < POOR:
        return ["nothing agrees well: the thread may be worn or damaged, or of a kind not known"]
    return []


def _readings(r: Readings) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = []
    for name, mm, sure in (
        ("female", r.female_mm, r.female_uncertainty_mm),
        ("male", r.male_mm, r.male_uncertainty_mm),
        ("pitch", r.pitch_mm, r.pitch_uncertainty_mm),
    ):
        if mm is not None:
            reading = {"name": name, "reading_mm": round(mm, 4), "uncertainty_mm": round(sure, 4)}
            found.append(reading)
    if r.taper is not None:
        found.append({"name": "taper", "reading": r.taper})
    if r.seat_deg is not None:
        found.append({"name": "seat", "reading_deg": r.seat_deg})
    return found


def _said(reading: dict[str, Any]) -> str:
    name = reading["name"]
    if name == "taper":
        return "taper" if reading["reading"] else "no taper"
    if name == "seat":
        return f"seat {reading['reading_deg']:g} deg"
    mm = reading["reading_mm"]
    other = f"{25.4 / mm:.4g} per inch" if name == "pitch" else f"{format_inch(mm, 64)} in"
    return f"{name} {format_mm(mm)} mm ({other}, ±{format_mm(reading['uncertainty_mm'])} mm)"


def _candidate(c: ThreadMatch) -> dict[str, Any]:
    k = c.thread
    return {
        "thread": k.thread,
        "family": k.family,
        "dash": k.dash,
        "tube": k.tube,
        "expected": {
            "male_min_mm": k.male[0],
            "male_max_mm": k.male[1],
            "female_min_mm": k.female[0],
            "female_max_mm": k.female[1],
            "pitch_mm": round(k.pitch_mm, 4),
            "tpi": round(k.tpi, 2),
            "taper": k.taper,
            "flank_deg": k.flank_deg,
            "seat_deg": k.seats[0] if k.seats else None,
        },
        "score": round(c.score, 3),
        "to_decide": c.to_decide,
        "port": k.port,
        "male": k.male_name,
        "screw": k.screw,
        "female_off_mm": None if c.female_off_mm is None else round(c.female_off_mm, 3),
        "male_off_mm": None if c.male_off_mm is None else round(c.male_off_mm, 3),
        "beware": k.trap,
        "seals": k.seals,
        "source": f"{k.source} ({k.where})",
        "confidence": k.confidence,
    }


def _band(band: tuple[float, float]) -> str:
    low, high = band
    inches = "-".join(format_inch(x, 0, 3) for x in band)
    return f"{format_mm(low, 2)}-{format_mm(high, 2)} mm ({inches} in)"

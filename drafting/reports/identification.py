"""The answer of ``identify`` as data and as text."""

from __future__ import annotations

from typing import Any

from drafting.measuring.identify import NOT_COVERED, Identification, ThreadMatch, seat_words
from drafting.measuring.thread_readings import Readings
from drafting.units import format_inch, format_mm

POOR = 0.5
"""A best agreement below this deserves a warning."""
LINES = 8
"""Rows of the short table."""


def identify_json(result: Identification) -> dict[str, Any]:
    """Give the document of ``identify --json``: readings, candidates best first, what to do."""
    return {
        "schema": 1,
        "readings": _readings(result.readings),
        "candidates": [_candidate(c) for c in result.candidates],
        "decided": result.decided,
        "none_of_these": result.none,
        "not_ruled_out": result.rivals,
        "advice": list(result.advice),
        "notes": [*result.readings.notes, *_warnings(result)],
        "not_covered": NOT_COVERED,
    }


def identify_text(result: Identification, command: str = "drafting identify") -> str:
    """Give the short answer: what was read, the verdict, a row for each thing a gauge may say.

    ``command`` is what was typed, for the line that says how to go on.
    """
    lines = [_read_line(r) for r in _readings(result.readings)]
    lines += [_verdict(result), ""]
    if result.candidates:
        lines += _table(result)
    more = _next(result, command)
    more += [f"note: {w}" for w in (*result.readings.notes, *_warnings(result))]
    lines += ["", *more] if more and lines[-1] else more
    return "\n".join(lines).replace("±", "+-") + "\n"


def _read_line(reading: dict[str, Any]) -> str:
    said = _said(reading)
    return said[:1].upper() + said[1:]


def _verdict(result: Identification) -> str:
    if not result.candidates:
        return f"NONE OF THESE   no thread of the tables agrees. {NOT_COVERED}"
    first = result.candidates[0]
    left = [c.thread.thread for c in result.candidates[: result.rivals]]
    if result.none:
        return (
            f"NONE OF THESE   the nearest, {first.thread.thread}, fits only {first.score:.2f}; "
            "measure again before anything is ordered"
        )
    if len(left) == 1:
        return f"{left[0]}   as far as these readings go"
    if result.decided:
        return f"DECIDED   one thread, used as {' and '.join(left)}"
    step = _gauge(result)
    return (
        f"NOT DECIDED   {len(left)} threads fit; {step[:1].lower()}{step[1:]} next, "
        "do not order parts on this"
    )


def _gauge(result: Identification) -> str:
    """Name the one reading that decides most, in the order in which a bench takes them."""
    left, r = [c.thread for c in result.candidates[: result.rivals]], result.readings
    if r.pitch_mm is None and len({round(k.pitch_mm, 2) for k in left}) > 1:
        return "Measure the pitch"
    if r.taper is None and len({k.taper for k in left}) > 1:
        return "Tell taper from parallel"
    if r.seat_deg is None and len({k.seats for k in left}) > 1:
        return "Look at the seat"
    if len({k.flank_deg for k in left}) > 1:
        return "Hold 55 and 60 deg gauges to the flanks"
    return "Measure the other diameter"


def _table(result: Identification) -> list[str]:
    """Give a row for each pitch and form, with what tells the threads in it apart."""
    kept = result.candidates[: max(result.rivals, 1)]
    groups: dict[tuple[float, bool], list[ThreadMatch]] = {}
    for c in kept:
        groups.setdefault((round(c.thread.pitch_mm, 3), c.thread.taper), []).append(c)
    rows = [f"  {'pitch gauge':<14}{'says':<12}{'fit':<7}which"]
    ranked = sorted(groups.values(), key=lambda g: -g[0].score)
    for group in ranked[:LINES]:
        k = group[0].thread
        own = k.screw or k.thread
        pitch = (
            f"{k.pitch_mm:g} mm ({k.tpi:.1f})" if own.startswith("M") else f"{round(k.tpi, 2):g}"
        )
        form = "taper" if k.taper else "parallel"
        first, *more = _apart(group, result.readings.seat_deg)
        rows.append(f"  {pitch:<14}{form:<12}{group[0].score:<7.2f}{first}")
        rows += [f"{'':35}{line}" for line in more]
    if len(ranked) > LINES:
        rows.append(f"  {len(ranked) - LINES} more rows: --full")
    return rows


def _apart(group: list[ThreadMatch], seat_deg: float | None) -> list[str]:
    """Say each thread of a group with the seat and flanks that it has."""
    flanks = len({c.thread.flank_deg for c in group}) > 1
    lines = []
    for c in group:
        k = c.thread
        signs = [f"{k.flank_deg:g} deg flanks"] if flanks else []
        signs += [seat_words(k, seat_deg)] if len(group) > 1 or k.seats else []
        dash = f" ({k.family} {k.dash})" if k.dash else ""
        lines.append(f"{k.thread}{dash}{': ' if signs else ''}{', '.join(signs)}")
    return lines


def _next(result: Identification, command: str) -> list[str]:
    """Say how to go on: look-alike pitches, and the line to type next."""
    left, r = [c.thread for c in result.candidates[: result.rivals]], result.readings
    lines = [line for line in result.advice if result.none and line.startswith("Look at the")]
    pitches = {round(k.pitch_mm, 3) for k in left}
    if r.pitch_mm is None and len({p for p in pitches if 1.9 < p < 2.2}) > 1:
        lines.append(
            "12 and 2 mm look alike: lay the gauge on 10 threads, 10 x 12 = 0.83 in, "
            "10 x 2 mm = 0.79 in"
        )
    if result.none or (result.decided and len(left) == 1):
        return lines if not result.none else [*lines, f"all that was looked at: {command} --full"]
    step = _gauge(result)
    option = {
        "Measure the pitch": "--tpi N   or   --pitch SIZE",
        "Tell taper from parallel": "--taper yes   or   no",
        "Look at the seat": '--seat "37 deg"',
    }.get(step)
    if option:
        lines.append(f"next: {command} {option}")
    elif step == "Measure the other diameter":
        lines.append(f"next: {step[:1].lower()}{step[1:]} on a part that fits")
    return [*lines, f"how to measure, what else tells, sources: {command} --full"]


def identify_full(result: Identification) -> str:
    """Give all that is known of each candidate: sizes, what tells it apart, what to do next."""
    lines = ["Read: " + ", ".join(_said(r) for r in _readings(result.readings))]
    lines += [f"  {note}" for note in result.readings.notes]
    if not result.candidates:
        lines += ["", f"No thread of the tables agrees with that. Note: {NOT_COVERED}."]
        return "\n".join(lines) + "\n"
    lines += ["", _verdict(result), ""]
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

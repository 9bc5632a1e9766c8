"""What ``size`` says: the candidates as a table, or what stands in the way."""

from __future__ import annotations

from typing import Any

from drafting.checks.bands import ON_COLUMN
from drafting.checks.cautions import REFUSED
from drafting.sizing.candidates import Candidate, rod_metal
from drafting.sizing.duty import DutyFile
from drafting.sizing.size import FRICTION_SPARE, Obstacle, Sizing, Wish
from drafting.units import format_inch, format_mm, spell

MOST = 12
"""Candidates shown in words; the JSON has all."""


def sizing_text(s: Sizing) -> str:
    """Give the outcome as plain text for a terminal."""
    lines = [f"{s.duty.title}: {len(s.candidates)} of {s.looked_at} standard pairs do it"]
    if s.duty.lifts_people:
        lines += ["", REFUSED]
    lines += [""]
    lines += _table(s) if s.candidates else _what_kills(s)
    lines += ["", *(f"  {line}" for line in _assumed(s))]
    return "\n".join(lines) + "\n"


def _table(s: Sizing) -> list[str]:
    heads = (
        "take", "bore x rod", "push", "pull", "spare", "out", "in", "column", "closed", "oil out",
        "about", "barrel OD",
    )  # fmt: skip
    rows = [heads, *(_row(s, k, c) for k, c in enumerate(s.candidates[:MOST], start=1))]
    wide = [max(len(r[k]) for r in rows) for k in range(len(heads))]
    lines = ["  ".join(f"{cell:>{w}}" for cell, w in zip(r, wide, strict=True)) for r in rows]
    left = len(s.candidates) - MOST
    return lines if left <= 0 else [*lines, f"and {left} more (--json lists all)"]


def _row(s: Sizing, place: int, c: Candidate) -> tuple[str, ...]:
    units, factor = s.duty.units, s.column_factor(c)
    return (
        str(place),
        f"{_length(c.pair.bore, units)} x {_length(c.pair.rod, units)}",
        _force(c.push, units),
        _force(c.pull, units),
        f"{s.margin(c):.2f}",
        _time(c.seconds_out),
        _time(c.seconds_in),
        "-" if factor is None else f"{factor:.1f}",
        _length(c.closed, units),
        f"{c.oil_out:.2f} l" if units == "mm" else f"{c.oil_out / 3.785411784:.2f} gal",
        f"{c.mass:.0f} kg" if units == "mm" else f"{c.mass / 0.45359237:.0f} lb",
        _length(c.wall.outside_mm, units),
    )


def _length(mm: float, units: str) -> str:
    return f"{format_mm(mm, 1)} mm" if units == "mm" else f"{format_inch(mm, 64)} in"


def _force(newton: float, units: str) -> str:
    return f"{newton / 1000:.1f} kN" if units == "mm" else f"{newton / 4.4482216152605:.0f} lbf"


def _time(seconds: float | None) -> str:
    return "-" if seconds is None else f"{seconds:.1f} s"


def _what_kills(s: Sizing) -> list[str]:
    if not s.obstacles:
        return ["no pair does it, whatever is relaxed: no standard size is near"]
    if len(s.obstacles[0].wishes) == 1:
        lines = ["one wish at a time stands in the way; relaxing any one of these would do:"]
    else:
        lines = ["several wishes together stand in the way; relaxing these would do:"]
    for o in s.obstacles:
        pair = o.nearest.pair
        size = f"{_length(pair.bore, s.duty.units)} x {_length(pair.rod, s.duty.units)}"
        parts = (
            _relaxed(w, need, s.duty) for w, need in zip(o.wishes, o.needed, strict=True)
            if not w.met(o.nearest)
        )  # fmt: skip
        lines.append(f"  {' and '.join(parts)} (bore x rod {size})")
    return lines


def _relaxed(w: Wish, needed: float, duty: DutyFile) -> str:
    if w.unit == "N":
        asked, could = (_force(x, duty.units) for x in (w.asked, needed))
    elif w.unit == "mm":
        asked, could = (_length(x, duty.units) for x in (w.asked, needed))
    elif w.unit == "s":
        asked, could = f"{w.asked:g} s", f"{needed:.1f} s"
    else:
        asked, could = f"{w.asked:g}", f"{needed:.2f}"
    return f"{w.words} ({w.field}): {asked} asked, {could} can be had"


def _assumed(s: Sizing) -> list[str]:
    d = s.duty
    lines = [
        f"at {spell(d.pressure, 'pressure', d.units)}, double acting, sealed piston, no friction; "
        f"those with a tenth to spare for it first (factor {FRICTION_SPARE:g}, common practice), "
        "then least oil, then least weight",
        f"column pinned at both ends, rod of {rod_metal().name}; own weight, side load "
        "and play are not covered",
        "closed length with the least base cap, piston, gland and eyes that the drawing allows; a "
        "stop tube or a thread comes on top; wall by the drawing's rule; weight of plain bars and "
        "tubes",
    ]
    if d.push and d.safety_factor is None:
        lines.append(
            f"no safety factor is asked for: {ON_COLUMN.ample:g} taken, the top of common practice"
        )
    if d.pin is None:
        lines.append("pins by shear with assumed steel: a size to draw with")
    if d.flow is None and (d.seconds_out or d.seconds_in):
        lines.append("times are asked for, but no flow is given: see flow needed in the JSON")
    lines.append("an estimate to choose from, not a design approval; check the chosen spec")
    return lines


def sizing_json(s: Sizing) -> dict[str, Any]:
    """Give the outcome as data; units stand in the keys."""
    return {
        "schema": 1,
        "duty": s.duty.file,
        "title": s.duty.title,
        "looked_at": s.looked_at,
        "safe_to_call": not s.duty.lifts_people,
        "candidates": [_candidate(s, k, c) for k, c in enumerate(s.candidates, start=1)],
        "obstacles": [_obstacle(o) for o in s.obstacles],
        "assumptions": _assumed(s),
    }


def _candidate(s: Sizing, place: int, c: Candidate) -> dict[str, Any]:
    d = s.duty
    factor = s.column_factor(c)
    needed = [
        volume / seconds
        for volume, seconds in ((c.oil_out, d.seconds_out), (c.oil_in, d.seconds_in))
        if seconds
    ]
    return {
        "take": place,
        "bore_mm": c.pair.bore,
        "rod_mm": c.pair.rod,
        "system": c.pair.system,
        "series": list(c.pair.series),
        "barrel_outside_mm": round(c.wall.outside_mm, 4),
        "push_n": round(c.push, 1),
        "pull_n": round(c.pull, 1),
        "wall_factor": round(c.wall_factor, 4),
        "margin": round(s.margin(c), 4),
        "speed_out_mm_s": _rounded(c.speed_out),
        "speed_in_mm_s": _rounded(c.speed_in),
        "time_out_s": _rounded(c.seconds_out),
        "time_in_s": _rounded(c.seconds_in),
        "flow_needed_l_s": _rounded(max(needed) if needed else None),
        "column_n": round(c.column, 1),
        "column_factor": _rounded(factor),
        "closed_mm": round(c.closed, 3),
        "oil_extend_l": round(c.oil_out, 4),
        "oil_retract_l": round(c.oil_in, 4),
        "mass_kg": round(c.mass, 2),
        "pin_mm": round(c.pin, 4),
    }


def _obstacle(o: Obstacle) -> dict[str, Any]:
    return {
        "wishes": [
            {"field": w.field, "asked": w.asked, "can_be_had": round(need, 4), "unit": w.unit}
            for w, need in zip(o.wishes, o.needed, strict=True)
        ],
        "bore_mm": o.nearest.pair.bore,
        "rod_mm": o.nearest.pair.rod,
    }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 4)

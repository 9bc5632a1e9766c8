"""What ``size`` says: the proposals as a table, or what stands in the way."""

from __future__ import annotations

from collections import Counter
from textwrap import wrap
from typing import Any

from drafting.checks.bands import ON_COLUMN
from drafting.checks.cautions import REFUSED
from drafting.sizing.candidates import Candidate, Pair
from drafting.sizing.duty import DutyFile
from drafting.sizing.port import USUAL
from drafting.sizing.size import Obstacle, Sizing, Wish
from drafting.sizing.steels import STEELS
from drafting.sizing.whole import Whole
from drafting.units import format_inch, format_mm, spell

_POUND_FORCE, _POUND, _GALLON = 4.4482216152605, 0.45359237, 3.785411784
"""N, kg and litres, exact by definition."""
WIDE = 98
MOST_TOLD = 4
"""Of those that were dropped, so many are told with their reason."""
FAST = 500.0
"""mm/s above which usual seals need their maker's word; common practice, from memory."""


def sizing_text(s: Sizing, taken: bool = False) -> str:
    """Give the outcome as plain text for a terminal; ``taken``: one of them is being written."""
    lines = [_duty(s.duty), _found(s)]
    if s.duty.lifts_people:
        lines += ["", REFUSED]
    lines += [""]
    if s.proposals:
        lines += [*_table(s), ""] if s.dropped else _table(s)
    elif s.passed:
        lines += ["each of them fails a check when it is settled as a whole cylinder:"]
    else:
        lines += _what_kills(s)
    lines += _not_these(s)
    lines += ["", *(part for line in _assumed(s) for part in wrap(line, WIDE))]
    if s.proposals and not taken:
        lines += ["", f"next: drafting size {s.duty.file} --take 1 -o mine.toml"]
    return "\n".join(lines) + "\n"


def _duty(d: DutyFile) -> str:
    words = [d.title]
    words += [f"{w} {_force(x, d.units)}" for w, x in (("push", d.push), ("pull", d.pull)) if x]
    words += [f"stroke {_length(d.stroke, d.units)}", spell(d.pressure, "pressure", d.units)]
    return "   ".join([*words, *([spell(d.flow, "flow", d.units)] if d.flow else [])])


def _found(s: Sizing) -> str:
    line = f"{s.passed} of {s.looked_at} standard pairs do it"
    if not s.proposals:
        return line
    few = f"the best {len(s.proposals)} of them" if len(s.proposals) < s.passed else "all of them"
    return f"{line}; {few}, as whole cylinders of which no check fails:"


def _table(s: Sizing) -> list[str]:
    inch = s.duty.units == "in"
    force, flow, mass = ("lbf", "gal/min", "lb") if inch else ("kN", "L/min", "kg")
    top = ("", "", "push", "pull", "", "", "out", "in", "out", "needs", "", "", "", "")
    heads = (
        "take", "bore x rod", force, force, "spare", "column", "s", "s",
        "in/s" if inch else "mm/s", flow, "closed", "pin", "ports", mass,
    )  # fmt: skip
    rows = [top, heads, *(_row(s, k, w) for k, w in enumerate(s.proposals, start=1))]
    wide = [max(len(r[k]) for r in rows) for k in range(len(heads))]
    lines = ["  ".join(f"{cell:>{w}}" for cell, w in zip(r, wide, strict=True)) for r in rows]
    return [line.rstrip() for line in lines]


def _not_these(s: Sizing) -> list[str]:
    told = [f"not {_name(d.candidate.pair, s.duty)}: {d.why}" for d in s.dropped[:MOST_TOLD]]
    left = len(s.dropped) - len(told)
    told += [f"and {left} more like these (--json has all)"] if left else []
    return [part for line in told for part in wrap(line, WIDE)]


def _row(s: Sizing, place: int, w: Whole) -> tuple[str, ...]:
    units, c = s.duty.units, w.candidate
    inch, factor = units == "in", w.column
    family = f" {s.duty.ports or USUAL[units]}"
    pin = w.cylinder.value("rod_mount.pin") or w.cylinder.value("body_mount.pin")
    needed = c.flow_needed and c.flow_needed * 60
    return (
        str(place),
        _name(c.pair, s.duty),
        _force(c.push, units).partition(" ")[0],
        _force(c.pull, units).partition(" ")[0],
        f"{100 * (s.margin(c) - 1):.0f} %",
        "-" if factor is None else f"{factor:.1f}",
        "-" if c.seconds_out is None else f"{c.seconds_out:.1f}",
        "-" if c.seconds_in is None else f"{c.seconds_in:.1f}",
        "-" if c.speed_out is None else _speed(c.speed_out, units),
        "-" if needed is None else f"{needed / (_GALLON if inch else 1.0):.1f}",
        _bare(w.cylinder.lengths.retracted, units),
        _bare(float(pin.value), units) if pin else "-",
        c.port.removesuffix(family) or "-",
        f"{c.mass / _POUND if inch else c.mass:.0f}",
    )


def _name(pair: Pair, duty: DutyFile) -> str:
    """Give a pair by its nominal sizes, with their unit where it is not the file's."""
    own = "in" if pair.system == "inch" else "mm"
    sizes = f"{_bare(pair.bore, own)} x {_bare(pair.rod, own)}"
    return sizes if own == duty.units else f"{sizes} {own}"


def _bare(mm: float, units: str) -> str:
    return format_mm(mm, 1).removesuffix(".0") if units == "mm" else format_inch(mm, 64)


def _length(mm: float, units: str) -> str:
    return f"{_bare(mm, units)} {units}"


def _force(newton: float, units: str) -> str:
    return f"{newton / 1000:.1f} kN" if units == "mm" else f"{newton / _POUND_FORCE:.0f} lbf"


def _speed(mm_s: float, units: str) -> str:
    return f"{mm_s:.0f}" if units == "mm" else f"{mm_s / 25.4:.1f}"


def _what_kills(s: Sizing) -> list[str]:
    if not s.obstacles:
        return ["no pair does it, whatever is relaxed: no standard size is near"]
    if len(s.obstacles[0].wishes) == 1:
        lines = ["one wish at a time stands in the way; relaxing any one of these would do:"]
    else:
        lines = ["several wishes together stand in the way; relaxing these would do:"]
    for o in s.obstacles:
        parts = (
            _relaxed(w, need, s.duty) for w, need in zip(o.wishes, o.needed, strict=True)
            if not w.met(o.nearest)
        )  # fmt: skip
        lines.append(f"  {' and '.join(parts)}, with {_name(o.nearest.pair, s.duty)}")
    return lines


def _relaxed(w: Wish, needed: float, duty: DutyFile) -> str:
    if w.unit == "N":
        asked, could = (_force(x, duty.units) for x in (w.asked, needed))
    elif w.unit == "mm":
        asked, could = (_length(x, duty.units) for x in (w.asked, needed))
    elif w.unit == "s":
        asked, could = f"{w.asked:g} s", f"{needed:.1f} s"
    elif w.unit == "l/s":
        asked, could = (f"{x * 60:.1f} L/min" for x in (w.asked, needed))
    else:
        asked, could = f"{w.asked:g}", f"{needed:.2f}"
    return f"{w.words} ({w.field}): {asked} asked, {could} can be had"


def _assumed(s: Sizing) -> list[str]:
    d = s.duty
    lines = [
        "Double acting, no friction; a tenth of force to spare first (common practice), then least "
        "oil, then weight.",
        f"Steels, written into the spec: {', '.join(f'{k} {v}' for k, v in _steels(d))}.",
        "Left open, and asked by check: the machine's ears, welds, what holds the gland, fits.",
        "Column pinned at both ends; own weight, side load and play are not covered.",
    ]
    if d.retracted is None:
        how = "as short as it can" if d.tightest else "comfortably; room.tightest = true: shorter"
        lines.append(f"Closed {how}.")
    if d.push and d.safety_factor is None:
        lines.append(
            f"No safety factor is asked for: {ON_COLUMN.ample:g} on the column, the top of common "
            "practice."
        )
    if d.flow is None:
        times = d.seconds_out or d.seconds_in
        lines.append(
            "No flow is given: ports are for the flow that the times need."
            if times
            else "No flow and no time is given: no ports are chosen."
        )
    if any((w.candidate.speed_out or 0.0) > FAST for w in s.proposals):
        lines.append("Above 0.5 m/s usual seals need their maker's word (common practice).")
    return [*lines, "An estimate to choose from, not a design approval: run check on the spec."]


def _steels(d: DutyFile) -> list[tuple[str, str]]:
    return [(part, words) for part, words in STEELS[d.units].items() if part != "weld"]


def sizing_json(s: Sizing) -> dict[str, Any]:
    """Give the outcome as data; units stand in the keys."""
    return {
        "schema": 1,
        "duty": s.duty.file,
        "title": s.duty.title,
        "looked_at": s.looked_at,
        "passed": s.passed,
        "safe_to_call": not s.duty.lifts_people,
        "candidates": [_proposal(s, k, w) for k, w in enumerate(s.proposals, start=1)],
        "dropped": [
            {"bore_mm": d.candidate.pair.bore, "rod_mm": d.candidate.pair.rod, "why": d.why}
            for d in s.dropped
        ],
        "obstacles": [_obstacle(o) for o in s.obstacles],
        "assumptions": _assumed(s),
    }


def _proposal(s: Sizing, place: int, w: Whole) -> dict[str, Any]:
    verdicts = Counter(k.verdict for k in w.checks if k.verdict)
    return {
        "take": place,
        **_candidate(s, w.candidate),
        "closed_mm": round(w.cylinder.lengths.retracted, 3),
        "open_mm": round(w.cylinder.lengths.extended, 3),
        "column_factor": _rounded(w.column),
        "verdicts": dict(verdicts),
        "spec": w.text,
    }


def _candidate(s: Sizing, c: Candidate) -> dict[str, Any]:
    return {
        "bore_mm": c.pair.bore,
        "rod_mm": c.pair.rod,
        "system": c.pair.system,
        "series": list(c.pair.series),
        "push_n": round(c.push, 1),
        "pull_n": round(c.pull, 1),
        "margin": round(s.margin(c), 4),
        "speed_out_mm_s": _rounded(c.speed_out),
        "speed_in_mm_s": _rounded(c.speed_in),
        "time_out_s": _rounded(c.seconds_out),
        "time_in_s": _rounded(c.seconds_in),
        "flow_needed_l_s": _rounded(c.flow_needed),
        "port": c.port or None,
        "column_n": round(c.column, 1),
        "least_closed_mm": round(c.axis.least, 3),
        "oil_extend_l": round(c.oil_out, 4),
        "oil_retract_l": round(c.oil_in, 4),
        "mass_kg": round(c.mass, 2),
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

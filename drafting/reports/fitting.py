"""What ``fit`` says: one line first, then lengths, ears, forces, column, jobs; and the JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from typing import Any

from drafting.fitting.clearance import Ahead, Clearance, Turn
from drafting.fitting.fit import Fit
from drafting.fitting.forces import Position
from drafting.fitting.lengths import say_at
from drafting.fitting.machine import Distance
from drafting.fitting.row import Row
from drafting.fitting.suggestion import Stock, Suggestion, Suggestions
from drafting.fitting.summary import facts, summary
from drafting.fitting.travel import dead_centres, kind
from drafting.replacing.rule import Job
from drafting.replacing.summary import count
from drafting.told.readings import plain
from drafting.told.short import factor, figures, quantity, size

WIDE = 100
NAME, VALUE, VERDICT = 20, 10, 14
CHAPTERS = {"lengths": "LENGTHS", "ears": "EARS", "force": "FORCE", "column": "COLUMN",
            "room": "ROOM"}  # fmt: skip
NOT_COVERED = (
    "At rest, in one plane: no shock, no side load, no play, no wind; own weight in the middle",
    "of body and rod. The machine's own frame, its hinge, hoses and valves are not judged; local",
    "codes are not known here. Where people are lifted or stand under it, a licensed engineer",
    "decides.",
)


def fit_text(
    f: Fit,
    full: bool = False,
    files: Sequence[str] = (),
    places: Sequence[Suggestions] = (),
) -> str:
    """Give the report for a terminal, at most 100 columns, plain letters."""
    blocks = [_head(f), *(_chapter(f, c, full) for c in CHAPTERS), _travel(f, full),
              _suggested(f, places), _jobs(f),
              [f"{x.level}: {x.field}: {x.message}" for x in f.findings],
              list(NOT_COVERED)]  # fmt: skip
    if files:
        blocks.append([f"files: {', '.join(files)}"])
    wrapped = ("\n".join(w for x in b for w in _wrapped(plain(x))) for b in blocks if b)
    return "\n\n".join(wrapped) + "\n"


def _wrapped(line: str) -> list[str]:
    if len(line) <= WIDE:
        return [line]
    indent = " " * (len(line) - len(line.lstrip()) + 2)
    return textwrap.wrap(line, WIDE, subsequent_indent=indent)


def why_exit(f: Fit) -> str:
    """Say why the exit code is 1, empty when it is 0."""
    said = []
    bad = [r for r in f.rows if r.verdict == "does not fit"]
    waits = [r for r in f.rows if r.verdict == "not known"]
    if bad:
        said.append(f"{len(bad)} do not fit ({', '.join(r.words for r in bad[:3])})")
    if waits:
        said.append(f"{len(waits)} not known ({', '.join(r.words for r in waits[:3])})")
    if f.jobs:
        said.append(count(len(f.jobs), "job"))
    said += [x.code for x in f.findings if x.level != "note"]
    return f"exit 1: {', '.join(said)}" if said else ""


def _head(f: Fit) -> list[str]:
    word, _, rest = summary(f).partition(": ")
    return [f'{f.subject.cylinder.name} in "{f.machine.title}"',
            f"{word.upper()}   {rest}" if rest else word.upper(),
            *(f"  {fact}" for fact in facts(f))]  # fmt: skip


def _chapter(f: Fit, chapter: str, full: bool) -> list[str]:
    rows = [r for r in f.rows if r.chapter == chapter]
    if not rows:
        return []
    units = f.machine.units
    numbers = {job: k for k, job in enumerate(f.jobs, 1)}
    head = f"  {CHAPTERS[chapter]:<{NAME}} {'asked':>{VALUE}} {'there':>{VALUE}} "
    lines = [f"{head}{'left':>{VALUE}}   verdict"]
    for r in rows:
        told = [x for x in (r.why, r.do) if x] + [f"job {numbers[j]}" for j in r.jobs]
        if full:
            told.append(f"[{r.source}]")
        cells = " ".join(f"{_said(x, r.unit, units):>{VALUE}}"
                         for x in (r.machine, r.cylinder, r.margin))  # fmt: skip
        if len(r.words) > NAME:
            lines.append(f"  {r.words}")
        name = "" if len(r.words) > NAME else r.words
        lines += _beside(f"  {name:<{NAME}} {cells}   {r.verdict:<{VERDICT}}", "; ".join(told))
    return lines


def _beside(first: str, told: str) -> Iterator[str]:
    room = WIDE - len(first) - 1
    if len(told) <= room:
        yield f"{first} {told}".rstrip()
        return
    yield first.rstrip()
    yield from textwrap.wrap(told, WIDE, initial_indent=" " * (NAME + 3),
                             subsequent_indent=" " * (NAME + 3))  # fmt: skip


def _said(x: float | None, unit: str, units: str) -> str:
    if x is None:
        return ""
    if unit == "mm":
        return f"{size(x, units)} {units}"
    if unit == "deg":
        return f"{x:.1f} deg"
    if unit == "":
        return factor(x) if x >= 0 else f"-{factor(-x)}"
    return quantity(x, {"n": "N", "mpa": "MPa"}[unit], units)


def _travel(f: Fit, full: bool) -> list[str]:
    """Give the forces over the travel as a table: some places of it, or all."""
    if isinstance(f.machine.way, Distance):
        return []
    units, ps = f.machine.units, f.positions
    if not full:
        worst = {max(ps, key=lambda q: q.most_push), max(ps, key=lambda q: q.most_pull)}
        steps = ps[:: max(1, (len(ps) - 1) // 6)]
        ps = tuple(q for q in ps if q in worst or q in steps)
    force = "lbf" if units == "in" else "kN"
    at = "deg" if kind(f.machine.way) == "deg" else units
    heads = (f"at {at}", f"pins {units}", f"lever {units}" if at == "deg" else "lever",
             f"asked {force}", f"out {force}", f"in {force}", f"push {force}", f"pull {force}",
             "column")  # fmt: skip
    lines = ["  " + "".join(f"{h:>10}" for h in heads)]
    lines += ["  " + "".join(f"{c:>10}" for c in _cells(q, units, at)) for q in ps]
    out, back, t_out, t_back = f.oil
    each = "each " if f.machine.count > 1 else ""
    said = f"  oil {each}over the travel: out {_liquid(out, units)}, in {_liquid(back, units)}"
    if t_out and t_back:
        said += f"; time out {t_out:.1f} s, in {t_back:.1f} s at the given flow"
    lines.append(said)
    low, high = f.positions[0].place.at, f.positions[-1].place.at
    reach = 180.0 if at == "deg" else 10 * (high - low)
    beyond = [d for d in dead_centres(f.machine.way, low - reach, high + reach)
              if not low <= d <= high]  # fmt: skip
    if beyond:
        near = min(beyond, key=lambda d: max(low - d, d - high))
        lines.append(f"  nearest dead centre {say_at(f.machine, near)}, outside the travel")
    return lines


def _liquid(litres: float, units: str) -> str:
    return f"{litres:.2f} l" if units == "mm" else f"{litres / 3.785411784:.2f} gal"


def _cells(q: Position, units: str, at: str) -> tuple[str, ...]:
    def force(x: float | None) -> str:
        if x is None:
            return "-"
        return figures(x / 4.4482216152605) if units == "in" else figures(x / 1000.0)

    where = f"{q.place.at:.1f}" if at == "deg" else size(q.place.at, units)
    return (where, size(q.place.length, units), size(abs(q.place.arm), units) if at == "deg"
            else f"{q.place.arm:.3f}", force(q.still), force(q.out), force(q.back), force(q.push),
            force(q.pull), "-" if q.column is None else factor(q.column))  # fmt: skip


def _suggested(f: Fit, places: Sequence[Suggestions]) -> list[str]:
    return [line for found in places for line in _one_pin(f, found)]


def _one_pin(f: Fit, places: Suggestions) -> list[str]:
    pin = f"{places.pin.upper()} PIN"
    units = f.machine.units
    if not places.best:
        return [f"{pin}   no place is better: {places.why_none}", *_stock(f, places)]
    angle = " (at angle 0)" if places.pin == "rod" else ""
    lines = [f"{pin}   where it could go{angle}, the rest as it is; best first"]
    for k, one in enumerate(places.best, 1):
        x, y = (size(v, units) for v in one.place)
        lines.append(f"  {k}  [{x}, {y}] {units}   {one.why}")
    return [*lines, *_stock(f, places)]


def _stock(f: Fit, places: Suggestions) -> list[str]:
    """Tell standard sizes that would do, smallest bore first."""
    if not places.stock:
        return []
    units = f.machine.units
    about = "heads and mounts taken as long as these; judge one with check and fit"
    lines = [f"STANDARD SIZES   bore, rod, stroke; {about}"]
    for one in places.stock:
        sizes = " x ".join(size(v, units) for v in (one.bore, one.rod, one.stroke))
        x, y = (size(v, units) for v in one.place)
        spare = f", {one.spare:.2f} times the force asked" if one.spare is not None else ""
        left = quantity(one.margin, "mm", units)
        lines.append(
            f"  {sizes} {units}   base pin [{x}, {y}]: {left} of length left{spare}, "
            f"{one.angle:.0f} deg from the dead centre  ({one.series})"
        )
    return lines


def _jobs(f: Fit) -> list[str]:
    lines: list[str] = []
    for k, job in enumerate(f.jobs, 1):
        lead = "Jobs" if k == 1 else ""
        lines += textwrap.wrap(job.text, WIDE - 8, initial_indent=f"{lead:<6}{k} ",
                               subsequent_indent=" " * 8)  # fmt: skip
    return lines


def fit_json(
    f: Fit, files: Sequence[str] = (), places: Sequence[Suggestions] = ()
) -> dict[str, Any]:
    """Give the whole as data; units stand in the keys."""
    at = f"at_{kind(f.machine.way)}"
    out, back, t_out, t_back = f.oil
    return {
        "schema": 1,
        "verdict": f.verdict,
        "summary": summary(f),
        "rows": [_row(r, at) for r in f.rows],
        "positions": [_position(q, at) for q in f.positions],
        "clearances": [_clearance(c, at) for c in (f.room.clearances if f.room else ())],
        "out_of_ports": [_ahead(a, at) for a in (f.room.ahead if f.room else ())],
        "turns": [_turn(t) for t in (f.room.turns if f.room else ())],
        "suggestions": [_suggestion(p, x) for p in places for x in p.best],
        "stock": [_stock_size(x) for p in places for x in p.stock],
        "why_no_suggestion": "; ".join(p.why_none for p in places if p.why_none),
        "jobs": [_job(j) for j in f.jobs],
        "findings": [
            {"code": x.code, "level": x.level, "field": x.field, "message": x.message}
            for x in f.findings
        ],
        "oil_out_l": _r(out),
        "oil_in_l": _r(back),
        "time_out_s": _r(t_out),
        "time_in_s": _r(t_back),
        "files": list(files),
    }


def _job(j: Job) -> str:
    return j.text


def _row(r: Row, at: str) -> dict[str, Any]:
    sizes: dict[str, Any] = {"machine_mm": None, "cylinder_mm": None, "margin_mm": None}
    tail = f"_{r.unit}" if r.unit else ""
    for name in ("machine", "cylinder", "margin"):
        sizes[f"{name}{tail}"] = _r(getattr(r, name))
    return {"field": r.field, **sizes, "verdict": r.verdict, "do": r.do, "why": r.why,
            "source": r.source, at: _r(r.at), "jobs": [j.short for j in r.jobs]}  # fmt: skip


def _suggestion(p: Suggestions, x: Suggestion) -> dict[str, Any]:
    return {f"{p.pin}_pin_mm": list(x.place), "margin_mm": _r(x.margin), "why": x.why,
            "force_ratio": _r(x.spare), "angle_deg": _r(x.angle)}  # fmt: skip


def _stock_size(x: Stock) -> dict[str, Any]:
    return {"bore_mm": _r(x.bore), "rod_mm": _r(x.rod), "stroke_mm": _r(x.stroke),
            "series": x.series, "base_pin_mm": list(x.place), "margin_mm": _r(x.margin),
            "force_ratio": _r(x.spare), "angle_deg": _r(x.angle)}  # fmt: skip


def _clearance(c: Clearance, at: str) -> dict[str, Any]:
    return {"piece": c.piece, "solid": c.solid, "gap_mm": _r(c.gap), at: _r(c.at),
            "clash_mm3": _r(c.clash), "asked_mm": _r(c.asked),
            "confirmed": c.confirmed, "doubt": c.doubt, "deep_mm": _r(c.deep),
            "never_below_mm": _r(c.never), f"step_{at[3:]}": _r(c.step)}  # fmt: skip


def _ahead(a: Ahead, at: str) -> dict[str, Any]:
    return {"port": a.port, "free_mm": _r(a.free), "solid": a.solid,
            at: _r(a.at) if a.solid else None, "straight_mm": _r(a.asked.straight),
            "bent_mm": _r(a.asked.bent), "source": a.asked.source}  # fmt: skip


def _turn(t: Turn) -> dict[str, Any]:
    return {"port": t.port, "what": t.what, "degrees": _r(t.degrees), "left_mm": _r(t.left),
            "words": t.words}  # fmt: skip


def _position(q: Position, at: str) -> dict[str, Any]:
    p = q.place
    unit = "deg_s" if at == "at_deg" else "mm_s"
    return {
        at: _r(p.at),
        "length_mm": _r(p.length),
        "arm_mm" if at == "at_deg" else "arm": _r(abs(p.arm)),
        **({} if at == "at_deg" else {"arm_mm": None}),
        "asked_n": _r(q.asked),
        "own_weight_n": _r(q.own),
        "asked_out_n": _r(q.out),
        "asked_in_n": _r(q.back),
        "push_n": _r(q.push),
        "pull_n": _r(q.pull),
        "column_factor": _r(q.column),
        f"speed_out_{unit}": _r(q.speed_out),
        f"speed_in_{unit}": _r(q.speed_back),
    }


def _r(x: float | None) -> float | None:
    return None if x is None else round(x, 4)

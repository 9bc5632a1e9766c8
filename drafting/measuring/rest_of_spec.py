"""The rest of the spec: words, pairs, what a person decided, what is missing; and its proof."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil
from pathlib import Path
from typing import Any

from drafting.measuring.barrel import barrel_holds, drawn_barrel
from drafting.measuring.diameters import TIGHT_MM
from drafting.measuring.letters import Letter, both_mounts, both_sheets, both_turn
from drafting.measuring.results import Account, Measured, Open, Result, weight
from drafting.measuring.to_spec import spec_text
from drafting.measuring.together import brought_together, faults
from drafting.settle.mount import Mount
from drafting.spec.given import Typed

HALF_INCH = 12.7
GROUND, GROUND_MM = 0.1, 2.6
"""How far the nose of a sound eye may lie under half of its outside, as a part of it and at least
(a tenth of an inch): flame-cut, ground or worn; common practice."""


def fill_in(account: Account) -> Measured:
    """Close the account: everything that is no reading, and proof that the spec can be built."""
    bench = account.bench
    for letter in bench.letters:
        if letter.letter in bench.decided:
            _decide(account, letter, bench.decided[letter.letter])
    _stroke(account)
    _ends(account)
    _close_fits(account)
    barrel_holds(account)
    _unread(account)
    values: dict[str, Any] = {
        "title": bench.title,
        "units": bench.units,
        **bench.words,
        **account.values,
    }
    if bench.number:
        values["number"] = bench.number
    _pairs(account, values)
    missing = {
        x.field: _asked(account.open, x.letter)
        for x in bench.letters
        if x.needed and x.field not in values and not _is_half(x.field) and _shown(x, values)
    }
    for table in ("base_port", "rod_port"):
        if not any(n.startswith(f"{table}.thread") for n in values):
            values = {n: v for n, v in values.items() if not n.startswith(f"{table}.")}
    if not missing:
        values = brought_together(account, values)
    values |= _origins(account, values)
    head = f"Measured from {Path(bench.file).name}"
    text = spec_text(values, account.comments, missing, head)
    if not missing:
        _prove(account, text)
        drawn_barrel(account, text)
    account.open.sort(key=weight)
    if account.open:
        asked = [f"#   {o.name}: {o.what}" for o in account.open]
        text = "\n".join(["# NOT FINISHED. Measure again or decide:", *asked, "", text])
    rows = tuple(account.rows[x.letter] for x in bench.letters if x.letter in account.rows)
    return Measured(bench, rows, tuple(account.open), tuple(account.notes), text)


def _origins(account: Account, values: Mapping[str, Any]) -> dict[str, Typed]:
    """Say of every value that was measured how well it is known, and of every guess that it is one.

    What a person decided was typed by that person.
    """
    told: dict[str, tuple[str, float | None, str]] = {}
    for row in account.rows.values():
        field = row.letter.field
        name = field if field in values else field.rpartition(".")[0]
        if name not in values or row.confidence == "decided":
            continue
        doubt = _asked(account.open, row.letter.letter, "")
        kind = "open" if row.confidence == "open" else "measured"
        said = f"{row.letter.letter} read {account.say_read(row.reading_mm, row.uncertainty_mm)}"
        note = "; ".join(x for x in (said, doubt if kind == "open" else "") if x)
        if name not in told or kind == "open":
            moved = abs(size - row.taken_as_mm) if isinstance(size := values[name], float) else 0.0
            told[name] = (kind, 2 * row.uncertainty_mm + moved or None, note)
    for table, letter in (("base_port", ""), ("rod_port", ""), ("rod_mount", "M2")):
        name = f"{table}.thread"
        if name in values and name not in told:
            doubt = _asked(account.open, letter or table, "")
            seen = account.comments.get(name, "")
            told[name] = ("open", None, doubt) if doubt else ("measured", None, seen)
    out: dict[str, Typed] = {}
    for n, (name, (kind, limit, note)) in enumerate(told.items(), 1):
        out |= {f"origin[{n}].field": name, f"origin[{n}].from": kind}
        if limit:
            out[f"origin[{n}].plus_minus"] = _limit(limit, account.bench.units)
        if note:
            out[f"origin[{n}].note"] = note.replace("±", "+-")
    return out


def _limit(mm: float, units: str) -> float:
    """Round a limit up to what a person would type: thousandths of an inch, hundredths of a mm."""
    step = 0.0254 if units == "in" else 0.01
    return float(round(ceil(mm / step - 1e-9) * step, 4))


def _decide(account: Account, letter: Letter, mm: float) -> None:
    row = account.rows.get(letter.letter)
    read = row.reading_mm if row else mm
    u = row.uncertainty_mm if row else 0.0
    account.values[letter.field] = mm
    account.comments[letter.field] = f"{letter.letter} decided by a person"
    account.rows[letter.letter] = Result(letter, read, u, mm, "as decided", "decided")
    account.open = [o for o in account.open if o.name != letter.letter]


def _stroke(account: Account) -> None:
    """Say the stroke; a whole half inch near by is a suggestion and nothing else."""
    rows = account.rows
    a, b = rows.get("A"), rows.get("B")
    account.values.pop("cylinder.stroke", None)
    if not a or not b:
        if "S" in rows and (a or b):
            account.values["cylinder.stroke"] = rows["S"].taken_as_mm
        return
    stroke = b.taken_as_mm - a.taken_as_mm
    u = (a.uncertainty_mm**2 + b.uncertainty_mm**2) ** 0.5
    near = round(stroke / HALF_INCH) * HALF_INCH
    text = f"stroke {account.say_read(stroke, u)}"
    if near > 0 and 0.05 < abs(stroke - near) <= 2 * u:
        text += f"; it may have been built as {account.say(near)}, which is not assumed"
    account.comments["cylinder.extended"] = f"{account.comments['cylinder.extended']}; {text}"
    account.notes.append(text)


def _ends(account: Account) -> None:
    bench = account.bench
    if both_turn(bench.body, bench.rod) and "rod_mount.turned" not in bench.words:
        account.ask("turned", "are the two pins in line or crossed?", "turned = 0 or 90, by sight")
    for end, mount in enumerate(both_mounts(bench.body, bench.rod), 1):
        table = ("body_mount", "rod_mount")[end - 1]
        if mount.worksheet.reads("bolts") and end not in bench.bolts:
            account.ask(table, "how many bolt holes are there?", "bolts = 4")
        if "seat" in mount.fields and f"{table}.seat" not in bench.words:
            account.ask(table, f"which face of the {mount.word} bears on the machine?",
                        'seat = "base side" or "rod side"')  # fmt: skip
        if placed_by_sight(mount) and f"{table}.position" not in bench.words:
            account.ask(table, "where does it sit?", 'position = "base", "middle", "rod end"')


def placed_by_sight(mount: type[Mount]) -> bool:
    """Tell whether where a mount sits is seen; some read a distance instead."""
    return "position" in mount.fields and not mount.worksheet.reads("position")


def _close_fits(account: Account) -> None:
    """Where two readings differ by less than they are known, let the shape decide.

    A hole is as wide as its pin at least; a nose that reads as half of the eye is round.
    """
    for end in (1, 2):
        pin, hole, nose, eye = (account.rows.get(f"{x}{end}") for x in "PHNZ")
        if pin and hole and 0 < pin.taken_as_mm - hole.taken_as_mm <= _unsure(hole) + TIGHT_MM:
            field = hole.letter.field
            account.values[field] = pin.taken_as_mm
            account.comments[field] += "; as wide as its pin, within the reading"
        if nose and eye and nose.letter.field.endswith("nose"):
            off, half = nose.taken_as_mm - eye.taken_as_mm / 2, eye.taken_as_mm / 2
            if abs(off) <= _unsure(nose) + _unsure(eye) / 2:
                account.values.pop(nose.letter.field)
                account.comments[eye.letter.field] += "; round: the nose reads as half of it"
            elif -max(GROUND_MM, GROUND * half) <= off < 0:
                account.values.pop(nose.letter.field)
                short = f"{nose.letter.letter} reads {account.say(-off)} under half of the eye"
                account.comments[eye.letter.field] += f"; {short}, drawn round"
                account.notes.append(
                    f"{short}: worn or ground there. Drawn round, {account.say(half)}, which needs "
                    "more room where it swings"
                )


def _unsure(row: Result) -> float:
    return 3 * row.uncertainty_mm


def _unread(account: Account) -> None:
    """Enter what is needed and was not read, and note what the drawing will derive."""
    have = set(account.rows)
    derived = []
    for x in account.bench.letters:
        if x.letter in have or x.field in account.values or x.field in account.bench.words:
            continue
        if x.letter in ("A", "B") and "S" in have and have & {"A", "B"}:
            continue
        end = x.letter[-1]
        if x.letter[0] == "W" and {f"U{end}", f"V{end}"} <= have:
            continue
        if account.is_open(x.letter):
            continue
        if x.field.endswith("_mount.bolts.pitch.0") and account.bench.bolts.get(x.end) == 2:
            continue
        if x.needed:
            account.ask(x.letter, f"not read: {x.what}", x.tip)
        elif x.kind == "size" and x.letter[0] in "TNZ":
            derived.append(f"{x.letter} ({x.what})")
    if derived:
        account.notes.append(
            f"not read, so the drawing derives and flags them: {', '.join(derived)}"
        )


def _pairs(account: Account, values: dict[str, Any]) -> None:
    """Bring plates and bolts together; two sides are the width, so that is left out."""
    for end, table in enumerate(("body_mount", "rod_mount"), 1):
        if {f"{table}.left", f"{table}.right"} <= values.keys():
            values.pop(f"{table}.width", None)
        for name in (f"{table}.plate", f"{table}.bolts.pitch"):
            pair = [values.pop(f"{name}.{k}", None) for k in (0, 1)]
            if pair[0] is not None and pair[1] is not None:
                values[name] = tuple(pair)
            elif pair[0] is not None and name.endswith("plate"):
                values[name] = pair[0]
            elif pair[1] is not None:
                values[f"{name}.1"] = pair[1]
        sheet = both_sheets(account.bench.body, account.bench.rod)[end - 1]
        one_row = sheet.one_row and account.bench.bolts.get(end) == 2
        if one_row and f"{table}.bolts.pitch.1" in values:
            values[f"{table}.bolts.pitch"] = values.pop(f"{table}.bolts.pitch.1")
        first = values.pop(f"{table}.first_hole", None)
        if f"{table}.bolts.hole" not in values:
            continue
        if first:
            values[f"{table}.bolts.first_hole"] = first
        laid = [n for n in (f"{table}.bolts.circle", f"{table}.bolts.pitch") if n in values]
        if len(laid) == 2:
            values.pop(laid[1])
            account.ask(f"Q{end}", "the bolts are read both on a circle and at a pitch",
                        "leave one of them out")  # fmt: skip
        if not laid:
            account.ask(f"Q{end}", "not read: where the bolt holes lie", "bolt circle or pitch")
        if end in account.bench.bolts and laid:
            values[f"{table}.bolts.count"] = account.bench.bolts[end]
        else:
            for name in [n for n in values if n.startswith(f"{table}.bolts.")]:
                values.pop(name)


def _prove(account: Account, text: str) -> None:
    """Load the spec as it is; what refuses it, or is absurd in it, is open."""
    letters = {x.field: x.letter for x in account.bench.letters}
    for field, message in faults(text):
        account.ask(letters.get(field, field), message, "the readings behind it again")


def _asked(asked: list[Open], letter: str, otherwise: str = "not read") -> str:
    return next((o.what for o in asked if letter in o.name.split(", ")), otherwise)


def _is_half(field: str) -> bool:
    return field.rpartition(".")[2] in ("0", "1") or ".bolts." in field


def _shown(letter: Letter, values: dict[str, Any]) -> bool:
    if letter.letter in ("A", "B"):
        lengths = [f"cylinder.{n}" for n in ("stroke", "retracted", "extended")]
        return sum(n in values for n in lengths) < 2
    end = letter.letter[-1]
    table = ("", "body_mount", "rod_mount")[int(end) if end.isdigit() else 0]
    return not (
        letter.field.endswith(".width") and {f"{table}.left", f"{table}.right"} <= values.keys()
    )

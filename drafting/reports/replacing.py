"""What ``compare`` says: one line first, a table worst first, the jobs as a work list, the JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from drafting.replacing.judge import Comparison
from drafting.replacing.rule import WORST_FIRST, Job, Row, Said
from drafting.replacing.summary import against, count, open_rows, summary
from drafting.replacing.turned import WORDS as TURNED
from drafting.replacing.turned import end_for_end
from drafting.told.readings import INCHES, METRIC, plain
from drafting.told.short import figures, size

WIDE = 100
NAME, VALUE, DIFFERS, VERDICT = 21, 10, 8, 12
MOST_ALIKE = 8
WEIGHT = {"in": (1 / 0.45359237, "lb"), "mm": (1.0, "kg")}
SPEED = {"in": (1 / 304.8, "ft/s"), "mm": (1e-3, "m/s")}
NOT_COVERED = (
    "Not judged: fatigue (nobody counts its strokes here; many a day are a question to the",
    "builder); side load (a load that nothing guides bends the rod); the machine's frame and the",
    "welds of its ears; hoses, valves; local codes.",
    "Where people are lifted or stand under the load, a licensed engineer decides.",
)


def compared_text(c: Comparison, full: bool = False, files: Sequence[str] = ()) -> str:
    """Give the report for a terminal, at most 100 columns, plain letters."""
    blocks = [
        _head(c),
        _table(c, full),
        _jobs(c),
        _turned(c),
        _unsaid(c) if full else [],
        [*_strength(c), *NOT_COVERED],
    ]
    if files:
        blocks.append([f"drawing: {', '.join(files)}"])
    return "\n\n".join("\n".join(plain(x) for x in b) for b in blocks if b) + "\n"


def _head(c: Comparison) -> list[str]:
    first = f"{c.original.name}  ->  {c.candidate.name}"
    said = summary(c)
    word, _, rest = said.partition(": ")
    if c.in_part:
        word, rest = c.verdict, said
    head = f"{word.upper()}   {rest}" if rest else word.upper()
    return [first, *textwrap.wrap(head, WIDE, subsequent_indent="  ")]


def _table(c: Comparison, full: bool) -> list[str]:
    units = c.original.units
    order = {v: k for k, v in enumerate(WORST_FIRST)}
    rows = sorted(c.rows, key=lambda r: order[r.verdict])
    asked = [r for r in rows if r.verdict == "not known" and _of_one(c, r.rule.field)]
    alike = [r for r in rows if r.verdict == "same" and not r.within]
    shown = rows if full else [r for r in rows if r not in alike and r not in asked]
    lines = []
    if shown:
        heads = ("size", "old", "offer", "differs", "verdict", "what it means, what to do")
        lines.append(_columns(*heads))
        numbers = {job: k for k, job in enumerate(c.jobs, 1)}
        for r in shown:
            lines += _lines(r, units, numbers, full)
    if asked and not full:
        lines += _list("not known of one of the two: ", [r.rule.words for r in asked])
    if alike and not full:
        said = [f"{r.rule.words} {_said(r.new, r.rule.unit, units)}".strip() for r in alike]
        some = said[:MOST_ALIKE]
        more = len(said) - len(some)
        lines += _list("the same in both: ", [*some, *([f"{more} more: --full"] if more else [])])
    return lines


def _of_one(c: Comparison, field: str) -> bool:
    """Tell whether a field is known of one of the two alone."""
    return (field in c.original.values) != (field in c.candidate.values)


def _columns(name: str, old: str, new: str, differs: str, verdict: str, rest: str) -> str:
    return (
        f"  {name:<{NAME}} {old:<{VALUE}} {new:<{VALUE}} {differs:>{DIFFERS}}  "
        f"{verdict:<{VERDICT}} {rest}"
    ).rstrip()


def _lines(r: Row, units: str, numbers: Mapping[Job, int], full: bool) -> Iterator[str]:
    unit = r.rule.unit
    word = _unit_word(unit, units)
    numeric = isinstance(r.old, float) or isinstance(r.new, float)
    name = f"{r.rule.words}, {word}" if word and unit != "mm" and numeric else r.rule.words
    said = [x for x in (r.answer.why, r.answer.do) if x]
    said += [f"job {numbers[j]}" for j in r.answer.jobs]
    if full:
        said.append(f"[{r.rule.source}]")
    left = WIDE - (NAME + 2 * VALUE + DIFFERS + VERDICT + 8)
    rest = textwrap.wrap("; ".join(said), left) or [""]
    names = textwrap.wrap(name, NAME, subsequent_indent="  ")
    olds, news = (textwrap.wrap(_said(x, unit, units), VALUE) or [""] for x in (r.old, r.new))
    for k in range(max(map(len, (rest, names, olds, news)))):
        cell = [x[k] if k < len(x) else "" for x in (names, olds, news, rest)]
        first = k == 0
        yield _columns(
            cell[0],
            cell[1],
            cell[2],
            _differs(r, units) if first else "",
            r.verdict if first else "",
            cell[3],
        )


def _scale(unit: str, units: str) -> tuple[float, str]:
    if unit == "kg":
        return WEIGHT[units]
    if unit == "mm/s":
        return SPEED[units]
    table = INCHES if units == "in" else METRIC
    return table.get(unit, (1.0, unit))


def _unit_word(unit: str, units: str) -> str:
    return _scale(unit, units)[1]


def _said(value: Said | None, unit: str, units: str) -> str:
    if value is None:
        return "-"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    if unit == "mm":
        return size(float(value), units)
    if unit == "":
        return f"{value:.3g}"
    shown = float(value) * _scale(unit, units)[0]
    return f"{shown:.2g}" if unit in ("s", "l", "mm/s") and shown < 10 else figures(shown)


def _differs(r: Row, units: str) -> str:
    gap = r.difference
    if gap is None or gap == 0.0:
        return ""
    if r.rule.unit == "mm":
        return f"{'+' if gap > 0 else ''}{size(gap, units)}"
    old = r.old
    share = gap / float(old) * 100 if isinstance(old, int | float) and old else None
    return "" if share is None or abs(share) < 0.5 else f"{share:+.0f} %"


def _list(head: str, said: Sequence[str]) -> list[str]:
    return textwrap.wrap(f"  {head}{', '.join(said)}", WIDE, subsequent_indent="    ")


def _jobs(c: Comparison) -> list[str]:
    lines: list[str] = []
    for k, job in enumerate(c.jobs, 1):
        head = f"{'Jobs' if k == 1 else '':<6}{k:>2} "
        lines += textwrap.wrap(head + job.text, WIDE, subsequent_indent=" " * 9)
    if not any(name.startswith("distance.") for name in c.machine) and _lengths_differ(c):
        lines += textwrap.wrap(
            "         no machine was given: measure its closest and farthest pin centres and its "
            "hard stops, or ask for the old lengths",
            WIDE,
            subsequent_indent=" " * 9,
            drop_whitespace=True,
        )
    return lines


def _lengths_differ(c: Comparison) -> bool:
    lengths = ("cylinder.retracted", "cylinder.extended")
    return any(r.rule.field in lengths and r.verdict == "not known" for r in c.rows)


def _turned(c: Comparison) -> list[str]:
    other = end_for_end(c)
    return textwrap.wrap(TURNED.format(summary(other)), WIDE) if other else []


def _unsaid(c: Comparison) -> list[str]:
    said = [r.rule.words for r in c.rows if r.unsaid]
    return _list("known of neither, and so not judged: ", said) if said else []


def _strength(c: Comparison) -> list[str]:
    """Say what the candidate's own checks come to, whatever the old one's did."""
    found, weak = c.candidate.values.get("strength"), c.candidate.values.get("strength.weak")
    if not found:
        return []
    says = {
        "not judged": "not judged, no pressure is typed",
        "fails": f"FAILS: {weak}",
        "holds": "holds at its rating",
    }.get(str(found), f"{found} at its rating")
    return textwrap.wrap(f"The offer's own strength: {says} (drafting check has all of it).", WIDE)


def why_exit(c: Comparison) -> str:
    """Give the last line: why the exit code is not 0, empty where it is."""
    if c.verdict == "fits":
        return ""
    said = []
    misfits = [r for r in against(c.rows) if r.verdict == "does not fit"]
    if misfits:
        said.append(f"{len(misfits)} that do{'es' * (len(misfits) == 1)} not fit")
    if found := open_rows(c.rows):
        said.append(f"{len(found)} not known")
    if c.jobs:
        said.append(count(len(c.jobs), "job"))
    changed = sum(r.verdict == "changes" for r in c.rows)
    if changed:
        said.append(count(changed, "change"))
    return f"exit 1: {', '.join(said)}"


KEYS = {"mm": "mm", "N": "n", "MPa": "mpa", "s": "s", "l": "l", "kg": "kg", "mm/s": "mm_s",
        "deg": "deg"}  # fmt: skip


def compared_json(c: Comparison, files: Sequence[str] = ()) -> dict[str, Any]:
    """Give the document of ``--json``."""
    other = end_for_end(c)
    turned = None if other is None else {"verdict": other.verdict, "summary": summary(other)}
    return {
        "schema": 1,
        "original": c.original.name,
        "candidate": c.candidate.name,
        "verdict": c.verdict,
        "summary": summary(c),
        "rows": [_json_row(r) for r in c.rows],
        "jobs": [j.text for j in c.jobs],
        "end_for_end": turned,
        "files": list(files),
    }


def _json_row(r: Row) -> dict[str, Any]:
    key = KEYS.get(r.rule.unit, "")
    words = any(isinstance(x, str | bool) for x in (r.old, r.new))
    suffix = f"_{key}" if key and not words else ""
    row: dict[str, Any] = {"field": r.rule.field, "words": r.rule.words}
    for name, value in (("original", r.old), ("candidate", r.new), ("difference", r.difference)):
        row[f"{name}{suffix}"] = round(value, 6) if isinstance(value, float) else value
    row["verdict"] = r.verdict
    if r.within:
        row["within_measured"] = True
    row["do"] = "; ".join(j.text for j in r.answer.jobs) or r.answer.do
    return row | {"why": r.answer.why, "source": r.rule.source}

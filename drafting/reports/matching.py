"""What ``match`` says: the ten best of a list, what decides, what could not be read, the JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import Any

from drafting.replacing.stock.matched import Matched
from drafting.replacing.summary import count
from drafting.told.readings import plain

WIDE, TOP, LISTED = 100, 10, 1000
MOST_WRONG, MOST_UNMAPPED = 3, 8


def matched_text(m: Matched, path: str) -> str:
    """Give the ten best as plain text of at most 100 columns."""
    r = m.ranking
    counts = r.counts
    said = (
        f"{r.judged + r.unreadable:,} rows read: {counts['fits']:,} fit, "
        f"{counts['fits with work']:,} fit with work, {counts['not known']:,} not known, "
        f"{counts['does not fit']:,} do not, {r.unreadable:,} not readable"
    )
    lines = [f"{m.original.name} against {path}", *textwrap.wrap(said, WIDE), ""]
    best = list(r.best(TOP))
    if best:
        wide = min(max(len(plain(j.name)) for j in best), 18)
        lines.append(f"{'':>3} {'row':>6}  {'name':<{wide}}  {'verdict':<14}  what decides")
        for k, j in enumerate(best, 1):
            word = f"fits, {j.jobs} job{'s' * (j.jobs != 1)}" if j.jobs else j.verdict
            if j.verdict not in ("fits", "fits with work"):
                word = j.verdict
            head = f"{k:>3} {j.row:>6}  {plain(j.name)[:wide]:<{wide}}  {word:<14}  "
            text = textwrap.wrap(plain(j.deciding), WIDE - len(head))[:3] or [""]
            lines.append(head + text[0])
            lines += [" " * len(head) + t for t in text[1:]]
    else:
        lines.append("no row could be judged")
    lines += ["", *_told(m)]
    return "\n".join(lines) + "\n"


def _told(m: Matched) -> list[str]:
    lines = []
    wrong = list(m.ranking.wrong(MOST_WRONG))
    if wrong:
        lines.append("not readable")
        for w in wrong:
            at = f" column {w.column}" if w.column else ""
            text = plain(f"  row {w.row}{at}: {w.message}")
            lines += textwrap.wrap(text, WIDE, subsequent_indent="    ")
        left = m.ranking.unreadable - len(wrong)
        if left > 0:
            lines.append(f"  {left:,} more: --json, or -o")
    if m.stock.unmapped:
        some = m.stock.unmapped[:MOST_UNMAPPED]
        lines.append("columns that nobody can map (nearest): name them in a file for --columns")
        lines += [plain(f'  {u.column} "{u.heading[:40]}"  ({", ".join(u.near)})') for u in some]
        left = len(m.stock.unmapped) - len(some)
        lines += [f"  {left} more"] if left else []
    lines += m.stock.notes
    names = {c.name for c in m.stock.columns}
    if m.to_ask:
        text = f"not in the list, to be asked of the one you choose: {', '.join(m.to_ask)}"
        lines += textwrap.wrap(text, WIDE, subsequent_indent="  ")
    if "cylinder.action" not in names:
        lines.append("no column for the action: double acting is taken for every row")
    return lines


def why_exit(m: Matched) -> str:
    """Give the last line: why the exit code is not 0, empty where it is."""
    said = []
    if m.ranking.unreadable:
        said.append(f"{m.ranking.unreadable:,} rows not readable")
    if not m.ranking.counts["fits"]:
        work = m.ranking.counts["fits with work"]
        said.append(f"none fits as it is, {work:,} with work")
    if m.to_ask:
        said.append(f"{count(len(m.to_ask), 'thing')} to ask")
    if m.stock.unmapped:
        n = len(m.stock.unmapped)
        said.append(f"{n} column{'s' * (n > 1)} not mapped")
    return f"exit 1: {', '.join(said)}" if said else ""


def matched_json(m: Matched, files: Sequence[str] = ()) -> dict[str, Any]:
    """Give the document of ``--json``: the first 1,000 rows, and every row not read."""
    return {
        "schema": 1,
        "original": m.original.name,
        "counts": {**m.ranking.counts, "not readable": m.ranking.unreadable},
        "rows": [
            {
                "row": j.row,
                "name": j.name,
                "rank": rank,
                "verdict": j.verdict,
                "jobs": j.jobs,
                "deciding": j.deciding,
            }
            for rank, j in enumerate(m.ranking.best(LISTED), 1)
        ],
        "unreadable": [
            {"row": w.row, "column": w.column, "message": w.message} for w in m.ranking.wrong()
        ],
        "unmapped": [
            {"column": u.column, "heading": u.heading, "nearest": list(u.near)}
            for u in m.stock.unmapped
        ],
        "to_ask": list(m.to_ask),
        "files": list(files),
    }

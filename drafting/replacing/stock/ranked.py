"""Rows judged and ranked without holding them: the ranking lies in a file of its own while it runs.

Fits come first, then fits with work by how much of it, then what is not known, then what does not
fit by how far it is from it.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace

from drafting.records import dataclass
from drafting.replacing.judge import Whole, jobs_of, row_for, whole
from drafting.replacing.known import Subject
from drafting.replacing.rule import Known, Row, Rule, Said, Sides
from drafting.replacing.stock.cells import DEFAULTS, StockRow
from drafting.replacing.stock.listed import Wrong
from drafting.replacing.summary import against, count, reason
from drafting.replacing.table import RULES

ORDER: tuple[Whole, ...] = ("fits", "fits with work", "not known", "does not fit")
MOST_KEPT = 20_000
"""Answers that one rule keeps; beyond that it forgets and begins anew."""
CHANGE = 0.5
"""What a change without a job counts against an hour of work (ours, to rank by)."""
LENGTHS = {"cylinder.stroke", "cylinder.retracted", "cylinder.extended"}


WEAKER = 20.0
"""What force that is lost counts for each whole of it (ours, alike)."""


@dataclass(frozen=True, slots=True)
class Judged:
    """One row of the list with its verdict, how many jobs, and what decides."""

    row: int
    name: str
    verdict: Whole
    jobs: int
    deciding: str
    weight: float


_Asked = tuple[tuple[str, ...], list[Rule], dict[tuple[object, ...], list[Row]]]
"""Rules that read the same columns, and what they said, by what stood in those."""


class Judge:
    """All rules for one original and machine; each answers once for rows alike to it.

    What the list has no column for is judged once (``always``). Of that, what can be asked of the
    one that is chosen in the end is left out of every verdict (``to_ask``).
    """

    def __init__(self, original: Subject, machine: Known, columns: tuple[str, ...]) -> None:
        self.original, self.machine = original, machine
        live = {f"{c}_from_rod" if c.endswith(".clock") else c for c in columns}
        live |= DEFAULTS.keys()
        if len(live & LENGTHS) > 1:
            live |= LENGTHS
        self.to_ask: list[str] = []
        self.always: list[Row] = []
        groups: dict[tuple[str, ...], list[Rule]] = {}
        for rule in RULES:
            reads = tuple(f for f in rule.reads if f in live)
            if rule.ask_last and not live & set(rule.ask_last):
                if self._row(rule, (), {}) is not None:
                    self.to_ask.append(rule.words)
            else:
                groups.setdefault(reads, []).append(rule)
        self.always = self._rows(groups.pop((), []), (), {})
        self.asked: list[_Asked] = [(reads, rules, {}) for reads, rules in groups.items()]

    def rows(self, values: Known) -> list[Row]:
        """Give the rows of one candidate that are not the same in both."""
        found = list(self.always)
        get = values.get
        for reads, rules, kept in self.asked:
            key = tuple([get(f) for f in reads])
            if key in kept:
                found += kept[key]
            else:
                if len(kept) >= MOST_KEPT:
                    kept.clear()
                found += kept.setdefault(key, self._rows(rules, reads, values))
        return found

    def _rows(self, rules: list[Rule], reads: tuple[str, ...], values: Known) -> list[Row]:
        rows = (self._row(rule, reads, values) for rule in rules)
        return [r for r in rows if r is not None and r.verdict != "same"]

    def _row(self, rule: Rule, reads: tuple[str, ...], values: Known) -> Row | None:
        new: dict[str, Said] = {f: values[f] for f in reads if f in values}
        sides = Sides(self.original.values, new, self.machine, self.original.units)
        return row_for(rule, self.original, sides)

    def judge(self, row: StockRow) -> Judged:
        """Judge one row of the list."""
        rows = self.rows(row.values)
        verdict = whole(rows)
        jobs = jobs_of(rows)
        changes = [r for r in rows if r.verdict == "changes"]
        if verdict == "fits":
            works = [r for r in rows if r.verdict == "works"]
            said = ", ".join(reason(r) for r in works[:2]) or "same in all that meets the machine"
            found = Judged(row.row, row.name, verdict, 0, said, 0.1 * len(works))
            return self._as_far(found)
        weight = sum(j.effort for j in jobs) + sum(CHANGE + WEAKER * r.answer.far for r in changes)
        if verdict == "fits with work":
            said = "; ".join([*dict.fromkeys(j.short for j in jobs), *_changed(changes)])
            return self._as_far(Judged(row.row, row.name, verdict, len(jobs), said, weight))
        against_it = against(rows)
        worst = max(against_it, key=lambda r: r.answer.far)
        more = f" (and {len(against_it) - 1} more)" if len(against_it) > 1 else ""
        do = f": {worst.answer.do}" if worst.answer.do and worst.answer.why else ""
        far = sum(r.answer.far or 0.01 for r in against_it)
        if verdict == "not known":
            far = float(len(against_it)) + weight / 100
        return Judged(row.row, row.name, verdict, len(jobs), f"{reason(worst)}{do}{more}", far)

    def _as_far(self, found: Judged) -> Judged:
        """Take back what fits an original that is not whole: nobody knows what the rest says."""
        if not self.original.missing:
            return found
        said = f"still open of the old one: {self.original.missing}; so far {found.verdict}"
        return replace(found, verdict="not known", deciding=f"{said}: {found.deciding}")


def _changed(rows: list[Row]) -> list[str]:
    """Say the force in a few words; the other changes by their number."""
    force = [r for r in rows if r.rule.field in ("push", "stroke")]
    said = [reason(r).partition(";")[0] for r in force[:2]]
    return said if said or not rows else [count(len(rows), "change")]


class Ranking:
    """The judged rows in a file without a name, which is gone when it is closed."""

    def __init__(self) -> None:
        self._base = sqlite3.connect("")
        self._base.execute(
            "create table judged (place integer, weight real, row integer, name text, jobs integer,"
            " deciding text)"
        )
        self._base.execute("create table wrong (row integer, place text, message text)")
        self.counts = dict.fromkeys(ORDER, 0)
        self.unreadable = 0

    def add(self, j: Judged) -> None:
        """Add a judged row."""
        self.counts[j.verdict] += 1
        self._base.execute(
            "insert into judged values (?, ?, ?, ?, ?, ?)",
            (ORDER.index(j.verdict), j.weight, j.row, j.name, j.jobs, j.deciding),
        )

    def refuse(self, w: Wrong) -> None:
        """Add a row that could not be read."""
        self.unreadable += 1
        self._base.execute("insert into wrong values (?, ?, ?)", (w.row, w.column, w.message))

    @property
    def judged(self) -> int:
        """Give how many rows were judged."""
        return sum(self.counts.values())

    def best(self, most: int = -1) -> Iterator[Judged]:
        """Give the rows in their order, the best first; all of them unless ``most`` is given."""
        asked = self._base.execute(
            "select row, name, place, jobs, deciding, weight from judged"
            " order by place, weight, row limit ?",
            (most,),
        )
        with closing(asked):
            for row, name, place, jobs, deciding, weight in asked:
                yield Judged(row, name, ORDER[place], jobs, deciding, weight)

    def wrong(self, most: int = -1) -> Iterator[Wrong]:
        """Give the rows that could not be read, in the order of the list."""
        asked = self._base.execute("select * from wrong order by row limit ?", (most,))
        with closing(asked):
            for row, place, message in asked:
                yield Wrong(row, place, message)

    def close(self) -> None:
        """Let go of the file."""
        self._base.close()

"""Why the exit code is not 0, in the last line on stderr, so that a script can tell."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from drafting.records import dataclass
from drafting.values import Finding

if TYPE_CHECKING:
    from drafting.checks.check import Check

WIDE = 100
"""A longer last line does without what stands in brackets."""
TO_CONFIRM = "to-confirm"
_KINDS = {"position": "port position", "clock": "clock", "hole": "hole"}


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a run says of one spec; ``checks`` is None where none were asked for."""

    name: str
    findings: Sequence[Finding]
    checks: Sequence[Check] | None = None

    @property
    def reasons(self) -> tuple[str, ...]:
        """Give what keeps it from being done, worst first; none when nothing needs a person."""
        return (*self._of_checks(), *_of_findings(self.findings))

    def _of_checks(self) -> tuple[str, ...]:
        if self.checks is None:
            return ()
        judged = [k for k in self.checks if k.verdict is not None]
        if not judged:
            return ("nothing was judged: no pressure and no force is typed",)
        fails = sum(k.verdict == "fails" for k in judged)
        waits = sum(k.verdict in ("depends", "not known") for k in judged)
        found = []
        if fails:
            found.append(f"{fails} of {len(judged)} checks fail{'s' * (fails == 1)}")
        if waits:
            found.append(f"{waits} of {len(judged)} not confirmed")
        return tuple(found)


def last_line(outcomes: Sequence[Outcome]) -> str:
    """Give the last line of a run, empty when the exit code is 0."""
    open_ones = [o for o in outcomes if o.reasons]
    if not open_ones:
        return ""
    if len(outcomes) == 1:
        why = f"exit 1: {', '.join(open_ones[0].reasons)}"
        return why if len(why) <= WIDE else re.sub(r" \([^)]*\)", "", why)
    named = ", ".join(o.name for o in open_ones[:5]) + (", ..." if len(open_ones) > 5 else "")
    return f"exit 1: {len(open_ones)} of {len(outcomes)} specs need a person: {named}"


def _of_findings(findings: Iterable[Finding]) -> list[str]:
    """Count errors, what is to be confirmed, and other warnings."""
    found = list(findings)
    confirm = [f for f in found if f.code == TO_CONFIRM and f.level == "warning"]
    errors = [f for f in found if f.level == "error"]
    warnings = [f for f in found if f.level == "warning" and f.code != TO_CONFIRM]
    said = []
    if errors:
        said.append(f"{_many(len(errors), 'error')} ({_codes(errors)})")
    if confirm:
        said.append(f"{_many(len(confirm), 'size')} to be confirmed ({_kinds(confirm)})")
    if warnings:
        said.append(f"{_many(len(warnings), 'warning')} ({_codes(warnings)})")
    return said


def _many(n: int, word: str) -> str:
    return f"{n} {word}{'s' * (n != 1 and not word.endswith('s'))}"


def _codes(findings: Iterable[Finding]) -> str:
    return ", ".join(dict.fromkeys(f.code for f in findings))


def _kinds(findings: Iterable[Finding]) -> str:
    """Count what is to be confirmed by kind: ``2 holes, 1 port position``."""
    kinds = Counter(_kind(f.field) for f in findings)
    return ", ".join(_many(n, kind) for kind, n in kinds.most_common())


def _kind(field: str) -> str:
    last = field.rpartition(".")[2]
    return _KINDS.get(last, last.replace("_", " "))

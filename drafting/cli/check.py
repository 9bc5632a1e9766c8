"""``drafting check``: everything that can be said of a cylinder without drawing it."""

from __future__ import annotations

from argparse import Namespace

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.say import needs_a_person, print_json, tell, tell_findings
from drafting.jobs.document import check_entry, load_all


def run(options: Namespace) -> int:
    """Check specs; exit code 1 when a finding needs a person."""
    cylinders = load_all(options.specs)
    if options.json:
        print_json({"schema": 1, "cylinders": [check_entry(c) for c in cylinders]})
    for c in cylinders:
        if not options.json:
            from drafting.report.text import report

            print(report(c))
        else:
            tell_findings(c.spec.file, c.findings)
    worst = any(needs_a_person(c.findings) for c in cylinders)
    if not options.json:
        tell("needs a person" if worst else "nothing needs a person")
    return NEEDS_A_PERSON if worst else DONE

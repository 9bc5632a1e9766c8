"""``drafting check``: everything that can be said of a cylinder without drawing it."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterable
from pathlib import Path

from drafting.checks.check import failed, open_checks
from drafting.checks.of_cylinder import Judgement, judge
from drafting.checks.rows import check_entry
from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.say import needs_a_person, print_json, specs_among, tell, tell_findings
from drafting.model.cylinder import Cylinder
from drafting.reports.text import report
from drafting.told.rows import load_all


def run(options: Namespace) -> int:
    """Check specs; exit code 1 when a finding needs a person."""
    cylinders = load_all(specs_among(options.specs), options.shop)
    judged = [(c, judge(c)) for c in cylinders]
    if options.plots is not None:
        _plots(options.plots, judged)
    if options.json:
        print_json({"schema": 1, "cylinders": [check_entry(c, j) for c, j in judged]})
    for c, j in judged:
        if options.json:
            tell_findings(c.spec.file, (*c.findings, *j.findings))
        else:
            print(report(c, j))
        for check in failed(j.checks):
            tell(f"{c.spec.file}: check failed: {check.code}: {check.name}: {check.note}")
    worst = any(
        needs_a_person((*c.findings, *j.findings)) or failed(j.checks) or open_checks(j.checks)
        for c, j in judged
    )
    if not options.json:
        tell("needs a person" if worst else "nothing needs a person")
    return NEEDS_A_PERSON if worst else DONE


def _plots(folder: str, judged: Iterable[tuple[Cylinder, Judgement]]) -> None:
    """Write the charts of each cylinder as NAME-CHART.svg."""
    from drafting.files import write_all
    from drafting.reports.plots import plots

    files = {
        Path(folder) / f"{c.name}-{chart}.svg": data
        for c, j in judged
        for chart, data in plots(j.numbers, c.spec.units).items()
    }
    write_all(files)
    for path in files:
        tell(f"wrote {path}")

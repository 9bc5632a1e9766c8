"""``drafting check``: everything that can be said of a cylinder without drawing it."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Iterable
from pathlib import Path

from drafting.checks.of_cylinder import Judgement, judge
from drafting.checks.rows import check_entry
from drafting.cli.folders import a_folder
from drafting.cli.say import painter, print_json, say_why, tell, tell_findings
from drafting.cli.spec_files import specs_among
from drafting.jobs.letters import with_letters
from drafting.model.cylinder import Cylinder
from drafting.reports.first_screen import WIDE, errors, summary
from drafting.reports.text import report
from drafting.reports.to_type import to_type, to_type_rows
from drafting.reports.verdicts import headline
from drafting.reports.why_exit import Outcome
from drafting.told.rows import load_all


def run(options: Namespace) -> int:
    """Check specs; exit code 0 only when every check holds and nothing needs a person."""
    plots = a_folder("--plots", options.plots) if options.plots is not None else None
    specs = specs_among(options.specs)
    cylinders = tuple(with_letters(c) for c in load_all(specs, options.shop))
    judged: list[tuple[Cylinder, Judgement]] = []
    for c in cylinders:
        j = judge(c)
        if not options.json:
            if judged:
                print(f"\n{'-' * WIDE}\n")
            print(report(c, j, options.full, painter(sys.stdout)), end="", flush=True)
        judged.append((c, j))
    if plots is not None:
        _plots(plots, judged)
    if options.json:
        rows = [check_entry(c, j) | _in_words(c, j) for c, j in judged]
        print_json({"schema": 1, "cylinders": rows})
        for c, j in judged:
            tell_findings(c.spec.file, (*c.findings, *j.findings))
    elif len(judged) > 1:
        print(f"\n{'-' * WIDE}\n")
        print(*summary(judged), sep="\n", flush=True)
    return say_why(Outcome(c.name, (*c.findings, *j.findings), j.checks) for c, j in judged)


def _in_words(c: Cylinder, j: Judgement) -> dict[str, object]:
    """Give what the first screen says on top: the verdict on all checks, and what to type."""
    word, sentence = headline(j.checks, errors(c, j))
    lines = to_type_rows(to_type(c, j.checks))
    return {"verdict": word.lower(), "summary": sentence, "to_type": lines}


def _plots(folder: Path, judged: Iterable[tuple[Cylinder, Judgement]]) -> None:
    """Write the charts of each cylinder as NAME-CHART.svg."""
    from drafting.files import write_all
    from drafting.reports.plots import plots

    files = {
        folder / f"{c.name}-{chart}.svg": data
        for c, j in judged
        for chart, data in plots(j.numbers, c.spec.units).items()
    }
    write_all(files)
    for path in files:
        tell(f"wrote {path}")

"""``drafting fit``: the cylinder in its machine, over the whole travel."""

from __future__ import annotations

from argparse import Namespace

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.folders import a_folder
from drafting.cli.say import print_json, tell
from drafting.errors import Fault, Refused
from drafting.fitting.fit import Fit, fit
from drafting.fitting.machine import read_machine
from drafting.fitting.suggestion import PINS, Suggestions
from drafting.jobs.fit import write_fit
from drafting.reports.fitting import fit_json, fit_text, why_exit
from drafting.told.rows import load_all


def run(options: Namespace) -> int:
    """Judge; exit code 0 only when all fits as it is and nothing is left open."""
    keep = a_folder("--output", options.output) if options.output is not None else None
    faults: list[Fault] = []
    machine = cylinder = None
    try:
        (cylinder,) = load_all([options.spec], options.shop)
    except Refused as refused:
        faults += refused.faults
    try:
        machine = read_machine(options.machine)
    except Refused as refused:
        faults += refused.faults
    if faults or cylinder is None or machine is None:
        raise Refused(faults)
    found = fit(cylinder, machine, keep)
    places = _places(found) if options.suggest else ()
    files = [str(path) for path in write_fit(found, keep, places)] if keep is not None else []
    if options.json:
        print_json(fit_json(found, files, places))
    else:
        print(fit_text(found, options.full, files, places), end="")
    why = why_exit(found)
    tell(why or "exit 0: it fits")
    return NEEDS_A_PERSON if why else DONE


def _places(found: Fit) -> tuple[Suggestions, ...]:
    from drafting.fitting.suggest import suggest

    return tuple(suggest(found.subject, found.machine, pin) for pin in PINS)

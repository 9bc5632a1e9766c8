"""``drafting identify``: find which thread it is."""

from __future__ import annotations

import re
from argparse import Namespace

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.say import print_json
from drafting.errors import Fault, Refused
from drafting.factors import Misread, Quantity
from drafting.measuring.identify import identify
from drafting.measuring.thread_readings import ReadingError
from drafting.reports.identification import identify_full, identify_json, identify_text
from drafting.units import read_quantity

CALIPER_MM = 0.05
"""How sure a size is that was typed with three decimals or more, common practice."""


def run(options: Namespace) -> int:
    """Identify a thread; exit code 1 while more than one fits, or none."""
    faults: list[Fault] = []
    if options.bare:
        raise Refused([_fault("bare-size", "", _bare(options.bare))])

    def read(name: str, kind: Quantity, units: str) -> float | None:
        text = getattr(options, name)
        if text is None:
            return None
        try:
            return float(read_quantity(text, kind, units))
        except Misread as wrong:
            faults.append(_fault(wrong.code, name, str(wrong)))
            return None

    sizes = {name: read(name, "length", options.units) for name in ("female", "male", "pitch")}
    seat = read("seat", "angle", "deg")
    if faults:
        raise Refused(faults)
    try:
        found = identify(
            sizes["female"],
            sizes["male"],
            sizes["pitch"],
            options.tpi,
            None if options.taper is None else options.taper == "yes",
            seat,
            female_uncertainty_mm=_uncertainty(options.female),
            male_uncertainty_mm=_uncertainty(options.male),
        )
    except ReadingError as wrong:
        raise Refused([_fault(wrong.code, wrong.field, wrong.message)]) from None
    if options.json:
        print_json(identify_json(found))
    else:
        print(
            identify_full(found) if options.full else identify_text(found, _typed(options)), end=""
        )
    return DONE if found.decided else NEEDS_A_PERSON


def _bare(sizes: list[str]) -> str:
    """Say which options a size without one may have been meant for."""
    size, *more = sizes
    guess = f" --tpi {more[0]}" if more else ""
    return (
        f"{' '.join(sizes)} does not say what was measured: the inside of a hole is "
        f'"--female {size}{guess}", the outside of a fitting "--male {size}{guess}"'
    )


def _typed(options: Namespace) -> str:
    """Give the command line again, to add to."""
    names = ("female", "male", "pitch", "tpi", "taper", "seat")
    words = [f"--{n} {_quoted(getattr(options, n))}" for n in names if getattr(options, n)]
    units = [] if options.units == "in" else [f"--units {options.units}"]
    return " ".join(["drafting identify", *words, *units])


def _quoted(value: object) -> str:
    text = f"{value:g}" if isinstance(value, float) else str(value)
    return f'"{text}"' if " " in text else text


def _uncertainty(text: str | None) -> float | None:
    """Three decimals are a caliper's, even where the size is also a whole fraction."""
    return CALIPER_MM if text and re.search(r"\.[0-9]{3}", text) else None


def _fault(code: str, name: str, message: str) -> Fault:
    return Fault("command line", 1, 1, code, f"--{name}" if name else "", message)

"""What a verb prints: one JSON document on stdout, or words; findings and prose on stderr."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, TextIO

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.errors import Fault, Refused, visible
from drafting.values import Finding

if TYPE_CHECKING:
    from drafting.reports.why_exit import Outcome


def print_json(document: Mapping[str, object]) -> None:
    """Print one JSON document and nothing else."""
    import json

    sys.stdout.write(json.dumps(document, ensure_ascii=False, indent=1) + "\n")


def error_rows(faults: Iterable[Fault]) -> list[dict[str, object]]:
    """Give faults as the JSON of a refusal has them."""
    return [
        {
            "file": f.file,
            "line": f.line,
            "column": f.column,
            "code": f.code,
            "field": f.field,
            "message": f.message,
        }
        for f in faults
    ]


def tell(line: str = "") -> None:
    """Print lines of prose to stderr; nothing that came from a file steers the terminal."""
    for one in line.split("\n"):
        print(visible(one), file=sys.stderr)


def tell_findings(file: str, findings: Iterable[Finding]) -> None:
    """Print findings, worst first, one per line."""
    order = {"error": 0, "warning": 1, "note": 2}
    for f in sorted(findings, key=lambda f: order[f.level]):
        tell(f"{file}: {f.level} {f.code}: {f.field}: {f.message}")


def named_file(option: str, text: str) -> None:
    """Refuse an option that is to name a file and names none."""
    if not text.strip():
        message = f"{option} names no file; write its name behind it, or leave {option} out"
        raise Refused([Fault("command line", 1, 1, "no-file", option, message)])


def say_why(outcomes: Iterable[Outcome]) -> int:
    """Say in the last line on stderr why the exit code is 1, and give the exit code."""
    from drafting.reports.why_exit import last_line

    why = last_line(list(outcomes))
    tell(why or "exit 0: nothing needs a person")
    return NEEDS_A_PERSON if why else DONE


def painter(stream: TextIO) -> Callable[[str, str], str]:
    """Give what puts a text in a colour: on a terminal only, and not where NO_COLOR is set.

    An old Windows console shows the codes themselves: there only one that says it can.
    """
    import os

    said = os.environ.get
    old = sys.platform == "win32" and not (said("WT_SESSION") or said("TERM") or said("ANSICON"))
    if not stream.isatty() or said("NO_COLOR") or said("TERM") == "dumb" or old:
        return lambda text, code: text
    return lambda text, code: f"\x1b[{code}m{text}\x1b[0m"

"""What can go wrong, and how it is told.

    DraftingError
    ├── Refused        the input or the command line cannot be used     exit code 2
    └── OutputFailed   a file could not be written, or the tool failed  exit code 3

A refusal carries every fault found at once; a fault knows its place in the file.
"""

import re
from dataclasses import replace

from drafting.records import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One thing wrong with an input file, with its place (lines and columns count from 1).

    ``field`` is the dotted name (``rod_mount.pin``), empty when the file as a whole is meant.
    ``message`` says what was found and what would do.
    """

    file: str
    line: int
    column: int
    code: str
    field: str
    message: str

    def __str__(self) -> str:
        """Give the one line that the terminal shows."""
        field = f"{self.field}: " if self.field else ""
        place = f"{self.file}:{self.line}:{self.column}"
        return visible(f"{place}: error {self.code}: {field}{self.message}")


class DraftingError(Exception):
    """Any failure that is told to the user in plain words."""


class Refused(DraftingError):
    """The input cannot be used; nothing was written. ``hint`` says what else would do."""

    def __init__(self, faults: list[Fault] | tuple[Fault, ...], hint: str = "") -> None:
        self.hint = hint
        self.faults = tuple(sorted(replace(f, message=shortened(f.message)) for f in faults))
        super().__init__("\n".join(str(f) for f in self.faults))


_LONG = re.compile(r'"[^"]{250,}"|\S{80,}')
_KEPT = 60


def shortened(message: str) -> str:
    """Give a message whose quotations are cut where they are longer than anybody reads."""
    return _LONG.sub(lambda m: f"{m[0][:_KEPT]}… ({len(m[0])} characters)", message)


class OutputFailed(DraftingError):
    """A file could not be written, or a part of the tool itself failed."""


LONGEST = 2000
"""Characters of one line that is told; a longer one is cut, and says so."""


def visible(text: str) -> str:
    """Give a line for a terminal: what cannot be seen, escape codes too, as its number."""
    if len(text) > LONGEST:
        text = f"{text[:LONGEST]} ... ({len(text)} characters)"
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text)


def named(sign: str) -> str:
    """Give one character as a message shows it: itself where it can be seen, and its name."""
    from unicodedata import name

    known = f"U+{ord(sign):04X} {name(sign, '').lower()}".strip()
    return f"{sign} ({known})" if sign.isprintable() and not sign.isspace() else known

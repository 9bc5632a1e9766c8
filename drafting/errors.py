"""What can go wrong, and how it is told.

    DraftingError
    ├── Refused        the input or the command line cannot be used     exit code 2
    └── OutputFailed   a file could not be written, or the tool failed  exit code 3

A refusal carries every fault found at once; a fault knows its place in the file.
"""

from unicodedata import name

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
        return f"{self.file}:{self.line}:{self.column}: error {self.code}: {field}{self.message}"


class DraftingError(Exception):
    """Any failure that is told to the user in plain words."""


class Refused(DraftingError):
    """The input cannot be used; nothing was written."""

    def __init__(self, faults: list[Fault] | tuple[Fault, ...]) -> None:
        self.faults = tuple(sorted(faults))
        super().__init__("\n".join(str(f) for f in self.faults))


class OutputFailed(DraftingError):
    """A file could not be written, or a part of the tool itself failed."""


def named(sign: str) -> str:
    """Give one character as a message shows it: itself where it can be seen, and its name."""
    known = f"U+{ord(sign):04X} {name(sign, '').lower()}".strip()
    return f"{sign} ({known})" if sign.isprintable() and not sign.isspace() else known

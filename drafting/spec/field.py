"""What a field of the spec file is."""

from __future__ import annotations

from typing import Literal

from drafting.factors import Quantity
from drafting.records import dataclass

Form = Literal[
    "word",  # one of ``choices``
    "text",  # free words on one line
    "texts",  # a list of them
    "thread",  # a thread or port as the trade spells it; judged against the standards later
    "flag",  # true or false
    "count",  # a whole number
    "number",  # a plain number without a unit
    "clock",  # an hour, "1:30" or "45 deg": degrees clockwise from 12
    "date",  # 2026-11-25
    "scale",  # "auto" or "1:4"
    "pair",  # [length, length]
    "pair or length",
    "word or length",  # one of ``choices``, or a length
    "tolerance",  # of the size whose name it bears: deviations, limits or a class of ISO 286
    "path",  # SVG path data
    "viewbox",  # x, y, width and height of an SVG drawing
    "forces",  # [force, force], to the right and up
    "numbers",  # as many plain numbers as the example has
    "place",  # [x, y, z] in millimetres of a model, or the name of a face
    "steps",  # [[at, factor], ...], ``at`` in degrees where ``bare``, else a length
    "table",  # a small table of its own, ``fields``
]


@dataclass(frozen=True, slots=True)
class Field:
    """One field: what it holds, what it means, how it is written, and its limits.

    ``also`` pairs what else people say with the choice that is meant.
    ``example`` is what a person would type after the ``=``, as TOML, where bare numbers are inches;
    ``example_mm`` the same in millimetres, where rounding the first will not do. Limits are in the
    unit of the kind (mm, MPa, degrees ...): ``above`` excludes its value, ``least`` and ``most``
    include it. A length without limits may be negative only when ``signed``. ``bare`` lets a number
    without a unit stand for degrees.
    """

    name: str
    kind: Form | Quantity
    doc: str
    example: str
    required: bool = False
    choices: tuple[str, ...] = ()
    also: tuple[tuple[str, str], ...] = ()
    among: tuple[float, ...] = ()
    above: float | None = None
    least: float | None = None
    most: float | None = None
    signed: bool = False
    bare: bool = False
    fields: tuple[Field, ...] = ()
    example_mm: str = ""


@dataclass(frozen=True, slots=True)
class TableFields:
    """A table of the spec file; the root table has no name. ``many``: an array of tables."""

    name: str
    doc: str
    fields: tuple[Field, ...]
    required: bool = False
    many: bool = False

    def field(self, name: str) -> Field | None:
        """Give a field by its name."""
        return next((f for f in self.fields if f.name == name), None)


_NO_TOLERANCE = ("adjustment", "hose_bend", "largest_outside", "spring_space")
"""Lengths that are allowances themselves."""


def with_tolerance(fields: tuple[Field, ...]) -> tuple[Field, ...]:
    """Add the small table ``tolerance`` that takes one for every size among the fields."""
    inside = tuple(
        Field(
            f.name,
            "tolerance",
            f"tolerance of {f.name.replace('_', ' ')}, only where one is asked for",
            '"+1/16 -0"',
            example_mm='"+0.5 -0"',
        )
        for f in fields
        if f.kind in ("length", "pair", "pair or length", "word or length")
        and f.name not in _NO_TOLERANCE
    )
    first = inside[0].name
    table = Field(
        "tolerance",
        "table",
        "tolerances of the sizes of this table, by field: deviations, limits or a class of ISO 286",
        f'{{{first} = "+1/16 -0"}}',
        fields=inside,
        example_mm=f'{{{first} = "+0.5 -0"}}',
    )
    return (*fields, table)


def size(name: str, doc: str, example: str, required: bool = False) -> Field:
    """Give a length that is above zero."""
    return Field(name, "length", doc, example, required, above=0.0)


def size_or_none(name: str, doc: str, example: str) -> Field:
    """Give a length that may be zero."""
    return Field(name, "length", doc, example, least=0.0)


def place(name: str, doc: str, example: str) -> Field:
    """Give a distance along the axis that may be negative."""
    return Field(name, "length", doc, example, signed=True)


def word(name: str, doc: str, *choices: str, required: bool = False) -> Field:
    """Give a choice of words; the first is the example."""
    return Field(name, "word", doc, f'"{choices[0]}"', required, choices)


def words(name: str, doc: str, example: str, required: bool = False) -> Field:
    """Give free text."""
    return Field(name, "text", doc, f'"{example}"', required)


def flag(name: str, doc: str, example: str = "true") -> Field:
    """Give a yes or no."""
    return Field(name, "flag", doc, example)


def positive(name: str, kind: Quantity, doc: str, example: str) -> Field:
    """Give a quantity with a unit that is above zero."""
    return Field(name, kind, doc, f'"{example}"', above=0.0)

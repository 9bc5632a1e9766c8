"""A commented spec to start from, for any pair of mounts, in inches or millimetres.

What a cylinder of that kind needs stands with a value; the rest stands behind a ``#`` with its
meaning, to be taken up where it is wanted. The short one leaves the rest out.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from drafting.factors import INCH
from drafting.spec.check import Mounts
from drafting.spec.field import Field, TableFields
from drafting.spec.fields import TABLES
from drafting.spec.kinds import example, round_mm
from drafting.spec.mount_fields import with_words
from drafting.spec.write import toml_of

Examples = Mapping[str, Mapping[str, object]]
"""For each table, the example values of its fields; bare numbers are inches."""

START: Examples = {
    "": {"title": "Orchard lift", "number": "OL-0001"},
    "base_port": {"clock": "12:00"},
    "rod_port": {"clock": "12:00"},
}
"""What every starter has besides its mounts, its lengths and the thread of its ports."""
LENGTHS_MM = {
    "in": {"bore": 76.2, "rod": 38.1, "stroke": 304.8, "retracted": 660.4},
    "mm": {"bore": 80.0, "rod": 40.0, "stroke": 300.0, "retracted": 650.0},
}
PORT_THREAD = {"in": "SAE-8", "mm": "M18x1.5 ISO 6149"}

HEAD = """\
# Spec of a hydraulic cylinder. Change what differs; what stands behind a # is not read.
# A bare number is in {units}. A size may carry its own unit, in quotes: "3 1/2 in", "88.9 mm".
# Clocks are read looking at the rod end, unless clock_seen_from says otherwise.
"""
SHORT_HEAD = """\
# What must be typed; "drafting new FILE" without --short offers all there is.
# A bare number is in {units}. A size may carry its own unit, in quotes: "3 1/2 in", "88.9 mm".
"""
_COLUMN = 34


def starter_spec(
    body: str, rod: str, units: str, *, mounts: Mounts, examples: Examples, short: bool = False
) -> str:
    """Give the text of a starter spec; a ``short`` one has what must be typed and nothing else.

    ``body`` and ``rod`` are mount words of ``mounts``; ``examples`` has the sizes of the two mounts
    by table; what a mount does not take is left out. Sizes in inches turn to whole millimetres
    when ``units`` is ``mm``.
    """
    given: dict[str, dict[str, Any]] = {name: dict(START.get(name, {})) for name in TABLES}
    given[""]["units"] = units
    given["cylinder"] |= LENGTHS_MM[units]
    for port in ("base_port", "rod_port"):
        given[port]["thread"] = PORT_THREAD[units]
    for table, mount in (("body_mount", body), ("rod_mount", rod)):
        given[table]["mount"] = mount
        for name, value in examples.get(table, {}).items():
            field = TABLES[table].field(name)
            if field:
                given[table][name] = _inside(field, value, units)
    said = "inches" if units == "in" else "millimetres"
    blocks = [(SHORT_HEAD if short else HEAD).format(units=said)]
    for name, table_of in TABLES.items():
        taken = None
        if name in mounts:
            taken = ("mount", *mounts[name][str(given[name]["mount"])].fields)
            table_of = with_words(table_of, mounts[name])
        if not short:
            blocks.append(block(table_of, given[name], taken, units))
        elif given[name]:
            blocks.append(_short_block(table_of, given[name], units))
    return ("" if short else "\n").join(blocks)


def _short_block(table: TableFields, given: Mapping[str, Any], units: str) -> str:
    """Give one table with what is given alone, a line each."""
    lines = [f"{f'[{table.name}]':{_COLUMN}} # {table.doc}"] if table.name else []
    for field in table.fields:
        if field.name in given:
            line = f"{field.name} = {toml_of(field, given[field.name], units)}"
            lines.append(f"{line:{_COLUMN}} # {_meaning(field).removeprefix('required: ')}")
    return "\n".join(lines) + "\n"


def block(
    table: TableFields, given: Mapping[str, Any], taken: tuple[str, ...] | None, units: str
) -> str:
    """Give one table: what is given as lines to read, the rest as comments."""
    off = "" if given else "# "
    lines = [f"# {table.doc}"] if table.name else []
    if table.name:
        lines.append(f"{off}[[{table.name}]]" if table.many else f"{off}[{table.name}]")
    for field in table.fields:
        if taken is not None and field.name not in taken:
            continue
        if field.name in given:
            line = f"{field.name} = {toml_of(field, given[field.name], units)}"
        else:
            line = f"# {field.name} = {example(field, units)}"
        lines.append(f"{line:{_COLUMN}} # {_meaning(field)}")
    return "\n".join(lines) + "\n"


def _meaning(field: Field) -> str:
    doc = "required: " + field.doc if field.required else field.doc
    return f"{doc} ({' | '.join(field.choices)})" if field.choices else doc


def _inside(field: Field, value: Any, units: str) -> Any:
    """Turn an example's inches to the mm that the program works in; what is no size stays."""
    if isinstance(value, Mapping):
        inner = {f.name: f for f in field.fields}
        return {k: _inside(inner[k], v, units) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return tuple(_inside(field, v, units) for v in value)
    if isinstance(value, bool | str) or field.kind in ("count", "number", "angle"):
        return value
    mm = float(Fraction(str(value)) * INCH)
    return mm if units == "in" else round_mm(mm)

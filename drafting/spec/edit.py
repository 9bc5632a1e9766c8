"""A spec's text with values changed in it: its comments and its order stay as they are."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from drafting.spec.field import Field
from drafting.spec.fields import TABLES
from drafting.spec.tolerance_sense import MARK

_INDEX = re.compile(r"(\w+)\[(\d+)\]")
_PAIR = re.compile(r"\s*[x×;,]\s*", re.IGNORECASE)
"""What stands between the two sizes of a pair, as a person types one."""
_YES, _NO = ("yes", "true", "y"), ("no", "false", "n")


def field_of(name: str) -> Field | None:
    """Give the field of a dotted name, None where a spec has none of that name."""
    table, _, rest = name.partition(".")
    known = TABLES.get(table.partition("[")[0]) if rest else TABLES[""]
    first, _, inner = (rest or name).partition(".")
    found = known.field(first) if known else None
    if found is not None and inner:
        return next((f for f in found.fields if f.name == inner), None)
    return found


def edited(text: str, values: Mapping[str, str | None]) -> str:
    """Write values by dotted name into a spec; None takes a name out, and a table left empty.

    What a name had before is replaced; a table that is missing is added at the end. Raises
    ``tomlkit.exceptions.ParseError`` for a text that is no TOML.
    """
    import tomlkit

    document = tomlkit.parse(text.lstrip("\ufeff"))
    for name, value in values.items():
        if value is None:
            _take_out(document, _path(name))
        else:
            _put_in(document, _path(name), _typed(name, value))
    return tomlkit.dumps(document)


def _path(name: str) -> list[Any]:
    out: list[Any] = []
    for part in name.split("."):
        found = _INDEX.fullmatch(part)
        out += [found[1], int(found[2]) - 1] if found else [part]
    return out


def _put_in(document: Any, path: list[Any], value: Any) -> None:
    import tomlkit

    *tables, last = path
    here: Any = document
    for n, table in enumerate(tables):
        if isinstance(table, int):
            while len(here) <= table:
                here.append(tomlkit.table())
            here = here[table]
            continue
        if table not in here:
            many = n + 1 < len(tables) and isinstance(tables[n + 1], int)
            inner = tomlkit.inline_table() if here is not document else tomlkit.table()
            here[table] = tomlkit.aot() if many else inner
        here = here[table]
    if last not in here or str(here[last]) != str(value):
        here[last] = value


def _take_out(document: Any, path: list[Any]) -> None:
    *tables, last = path
    chain: list[Any] = [document]
    for table in tables:
        inside = (isinstance(table, int) and table < len(chain[-1])) or table in chain[-1]
        if not inside:
            return
        chain.append(chain[-1][table])
    if last in chain[-1]:
        del chain[-1][last]


def _typed(name: str, text: str) -> Any:
    """Give a value as TOML has it: yes and no, whole numbers, pairs, else the text as typed."""
    field = field_of(name) if MARK not in name else None
    if field is not None and field.kind == "flag" and text.casefold() in (*_YES, *_NO):
        return text.casefold() in _YES
    if field is not None and field.kind == "count" and text.isascii() and text.isdigit():
        return int(text)
    if field is not None and field.kind in ("pair", "pair or length"):
        parts = _PAIR.split(text.strip().removeprefix("[").removesuffix("]"))
        return parts if len(parts) == 2 else text
    return text

"""A spec's text with values written into it: its comments and its order stay as they are."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from drafting.asking.asked import field_of
from drafting.spec.tolerance_sense import MARK

_INDEX = re.compile(r"(\w+)\[(\d+)\]")
_YES, _NO = ("yes", "true", "y"), ("no", "false", "n")


def written_in(text: str, values: Mapping[str, str], note: str) -> str:
    """Write values by dotted name into a spec, each with the origin "builder" and a note.

    What a name had before is replaced; a table that is missing is added at the end. Raises KeyError
    for a name of an array's table that is not there.
    """
    import tomlkit

    document = tomlkit.parse(text.lstrip("\ufeff"))
    for name, value in values.items():
        *tables, last = _path(name)
        here: Any = document
        for table in tables:
            if isinstance(table, int):
                here = here[table]
                continue
            if table not in here:
                new = tomlkit.inline_table() if here is not document else tomlkit.table()
                here[table] = new
            here = here[table]
        here[last] = _put(name, value)
    _mark(document, values, note)
    return tomlkit.dumps(document)


def _path(name: str) -> list[Any]:
    out: list[Any] = []
    for part in name.split("."):
        found = _INDEX.fullmatch(part)
        out += [found[1], int(found[2]) - 1] if found else [part]
    return out


def _put(name: str, text: str) -> Any:
    """Give a value as TOML has it: yes and no, whole numbers, else the text as it was typed."""
    field = field_of(name) if MARK not in name else None
    if field is not None and field.kind == "flag" and text.casefold() in (*_YES, *_NO):
        return text.casefold() in _YES
    if field is not None and field.kind == "count" and text.isascii() and text.isdigit():
        return int(text)
    return text


def _mark(document: Any, names: Iterable[str], note: str) -> None:
    import tomlkit

    fresh = list(names)
    kept = [o for o in document.get("origin", []) if o.get("field") not in fresh]
    tables = tomlkit.aot()
    for told in kept:
        tables.append(told)
    for name in fresh:
        table = tomlkit.table()
        table["field"], table["from"] = name, "builder"
        if note:
            table["note"] = note
        tables.append(table)
    document.pop("origin", None)
    document["origin"] = tables

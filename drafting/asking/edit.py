"""A builder's answers written into a spec, each with its origin."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from drafting.spec.edit import edited


def written_in(text: str, values: Mapping[str, str], note: str) -> str:
    """Write values by dotted name into a spec, each with the origin "builder" and a note."""
    return _marked(edited(text, values), values, note)


def _marked(text: str, names: Iterable[str], note: str) -> str:
    import tomlkit

    document = tomlkit.parse(text)
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
    return tomlkit.dumps(document)

"""A file beside a spec (a duty, a machine), read field by field in a spec's words of fault."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal

from drafting.errors import Fault
from drafting.factors import Misread
from drafting.spec.field import TableFields
from drafting.spec.given import Typed
from drafting.spec.kinds import example, nearest, read_value
from drafting.spec.places import MENDED
from drafting.spec.places import Path as Keys
from drafting.spec.read import Document


class Reader:
    """Reads the tables of one document and keeps every fault."""

    def __init__(self, document: Document) -> None:
        self.document = document
        self.faults: list[Fault] = list(document.faults)
        self.units: Literal["in", "mm"] = "in" if document.data.get("units") == "in" else "mm"

    def table(
        self,
        table: TableFields,
        data: dict[str, Any],
        path: Keys,
        inner: tuple[str, ...] = (),
        refuses: Callable[[str, Any], str] = lambda key, raw: "",
    ) -> dict[str, Typed]:
        """Read the fields of one table; ``inner`` are tables in it that are read by themselves.

        ``refuses`` says why a word that may be written elsewhere cannot stand here.
        """
        values: dict[str, Typed] = {}
        for key, raw in data.items():
            at: Keys = (*path, key)
            if MENDED in key or raw == MENDED or key in inner:
                continue
            field = table.field(key)
            if field is None:
                tip = nearest(key, (*(f.name for f in table.fields), *inner))
                self.fault("unknown-field", at, f"no field {key}; {tip}")
                continue
            if why := refuses(key, raw):
                self.fault("not-sized", at, f'found "{raw}"; {why}')
                continue
            typed = raw if isinstance(raw, str) else self.document.places[at].raw
            try:
                values[key] = read_value(raw, typed, field, self.units)[0]
            except Misread as error:
                self.fault(error.code, at, str(error))
        for field in table.fields:
            if field.required and field.name not in data:
                text = (
                    f"required: {field.doc}; for example {field.name} = "
                    f"{example(field, self.units)}"
                )
                self.fault("missing", path, text, dotted((*path, field.name)))
        return values

    def fault(self, code: str, at: Keys, message: str, name: str | None = None) -> None:
        """Enter a fault at the key of ``at``, or of the nearest table above it."""
        self.faults.append(self.told(code, at, message, name))

    def told(self, code: str, at: Keys, message: str, name: str | None = None) -> Fault:
        """Give a fault at its place; ``name`` is what it is about where nothing stands there."""
        place = next(
            (p for n in range(len(at), 0, -1) if (p := self.document.places.get(at[:n]))), None
        )
        line, column = (place.key_line, place.key_column) if place else (1, 1)
        name = dotted(at) if name is None else name
        return Fault(self.document.file, line, column, code, name, message)


def dotted(at: Keys) -> str:
    """Give the dotted name of a path; entries of a list count from 1 (``load[1].at``)."""
    name = ""
    for key in at:
        name += f"[{key + 1}]" if isinstance(key, int) else f".{key}" if name else key
    return name

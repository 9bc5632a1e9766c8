"""Entries of a spec file -> a checked ``Spec``, or every fault of the file at once.

What a mount takes is the model's to say and is handed in, so that nothing here knows a mount.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Literal

from drafting.errors import Fault, Refused
from drafting.factors import Misread
from drafting.records import Frozen
from drafting.spec.field import Field, TableFields
from drafting.spec.fields import TABLES
from drafting.spec.given import Given, Spec
from drafting.spec.kinds import example, near, nearest, read_value
from drafting.spec.mount_fields import Taken, with_words
from drafting.spec.places import MENDED
from drafting.spec.places import Path as Keys
from drafting.spec.read import Document, read_document
from drafting.spec.said import FIELDS, hinted, meant_word, understood
from drafting.spec.sense import make_sense

__all__ = ["Given", "Mounts", "Spec", "read_spec"]

Mounts = Mapping[str, Mapping[str, Taken]]
"""For ``body_mount`` and ``rod_mount``: each mount's word and the fields that it takes."""

MOST_TABLES = 200
"""So many tables of one name."""
MOST_FAULTS = 200
"""Reading stops after so many faults: that is no spec with slips in it."""


def read_spec(
    source: Path | str | bytes,
    *,
    mounts: Mounts,
    words: Callable[[Spec], list[Fault]] | None = None,
    file: str = "",
) -> Spec:
    """Read and check a spec: a path, or the content itself as bytes.

    ``file`` is the name that messages use; it is the path when left out. ``words`` judges what a
    later stage would refuse word by word; it is asked when the file is refused anyway, so that one
    run tells all. Raises Refused with every fault of the file.
    """
    document = read_document(source, file)
    checker = _Checker(document, mounts)
    spec = checker.run(None if isinstance(source, bytes) else Path(source))
    if checker.faults:
        told = {(f.code, f.field) for f in checker.faults}
        later = words(spec) if words else []
        raise Refused([*checker.faults, *(f for f in later if (f.code, f.field) not in told)])
    return spec


def checked_fields(
    document: Document, tables: Mapping[str, TableFields]
) -> tuple[dict[str, Given], list[Fault]]:
    """Read a file that takes only some of a spec's fields; gives what it says, and its faults."""
    checker = _Checker(document, {}, tables)
    checker.fill()
    return checker.givens, checker.faults


class _Checker:
    def __init__(
        self,
        document: Document,
        mounts: Mounts,
        tables: Mapping[str, TableFields] = TABLES,
    ) -> None:
        self.tables = tables
        self.document = document
        self.mounts = mounts
        self.faults: list[Fault] = list(document.faults)
        self.givens: dict[str, Given] = {}
        self.places: dict[str, tuple[int, int]] = {}
        self.broken: set[str] = set()
        self.units: Literal["in", "mm"] = "mm"

    def fill(self) -> None:
        data = self.document.data
        tables = self.tables
        self._fields(tables[""], {k: v for k, v in data.items() if k not in tables}, (), "")
        for name, table in tables.items():
            if name:
                self._table(table, data.get(name))

    def run(self, path: Path | None) -> Spec:
        units = _units(self.document.data.get("units"))
        known = units in ("in", "mm")
        self.units = "in" if units == "in" else "mm"
        self.fill()
        spec = Spec(
            path,
            self.document.file,
            self.document.text,
            self.document.sha256,
            self.units,
            Frozen(self.givens),
            Frozen(self.places),
        )
        if known:
            self.faults += make_sense(spec, frozenset(self.broken))
        return spec

    def _table(self, table: TableFields, value: Any) -> None:
        name = table.name
        if value is None:
            if table.required:
                self._fault("missing", name, f"the table [{name}] is missing", ())
            return
        many = isinstance(value, list) and all(isinstance(v, dict) for v in value)
        if table.many and many:
            if len(value) > MOST_TABLES:
                message = f"{len(value)} tables [[{name}]]; at most {MOST_TABLES} have room"
                self._fault("too-many", name, message, (name, MOST_TABLES))
                return
            for n, one in enumerate(value):
                self._fields(table, one, (name, n), f"{name}[{n + 1}]")
        elif isinstance(value, dict) and not table.many:
            self._fields(table, value, (name,), name)
        else:
            marks = f"[[{name}]]" if table.many else f"[{name}]"
            self._fault(
                "not-a-table",
                name,
                f"write it as a table under {'the' if table.many else 'one'} heading {marks}",
                (name, 0) if many else (name,),
            )

    def _fields(self, table: TableFields, data: dict[str, Any], path: Keys, dotted: str) -> None:
        """Read the fields of one table."""
        place = self.document.places.get(path)
        if dotted:
            self.places[dotted] = (place.line, place.column) if place else (1, 1)
        if table.name in self.mounts:
            table = with_words(table, self.mounts[table.name])
        fields = {f.name: f for f in table.fields}
        taken = self._taken(table.name, data, path)
        for typed_key, raw in data.items():
            if MENDED in typed_key:
                continue
            key = FIELDS.get(table.name, {}).get(typed_key, typed_key)
            name, at = _join(dotted, key), (*path, typed_key)
            if key != typed_key and key in data:
                message = f"{typed_key} is the same as {key}, which is typed too; leave one out"
                self._fault("typed-twice", name, message, at)
                continue
            field = fields.get(key)
            if field is None:
                self._unknown(table, key, name, raw, at)
            elif taken is not None and key not in ("mount", "tolerance", *taken):
                self._not_taken(table.name, str(self._mount(table.name, data)), key, name, at)
            elif field.kind == "table":
                self._small_table(field, raw, at, name, table, data)
            else:
                self._field(field, raw, at, name, table.name)
        meant = {n for key in data if key not in fields for n in near(key, fields)}
        there = {FIELDS.get(table.name, {}).get(k, k) for k in data}
        for field in table.fields:
            if field.required and field.name not in there and field.name not in meant:
                self._missing(field, _join(dotted, field.name), path)

    def _small_table(
        self, field: Field, raw: Any, at: Keys, name: str, table: TableFields, data: dict[str, Any]
    ) -> None:
        if raw == MENDED:
            self.broken.add(name)
        elif isinstance(raw, dict):
            taken = self._taken(table.name, data, at[:-1]) if field.name == "tolerance" else None
            known = {f.name for f in field.fields}
            strange = [k for k in raw if taken is not None and k in known and k not in taken]
            for key in strange:
                word = str(self._mount(table.name, data))
                self._not_taken(table.name, word, key, f"{name}.{key}", (*at, key))
            raw = {k: v for k, v in raw.items() if k not in strange}
            self._fields(TableFields(name, field.doc, field.fields), raw, at, name)
        else:
            self._fault("not-a-table", name, f"write it in braces: {field.example}", at)

    def _field(self, field: Field, raw: Any, at: Keys, name: str, table: str) -> None:
        place = self.document.places[at]
        if raw == MENDED or (isinstance(raw, list) and MENDED in raw):
            self.broken.add(name)
            return
        typed = raw if isinstance(raw, str) else place.raw
        try:
            meant, told = understood(field, raw)
            text = typed if meant is raw else str(meant)
            value, unit = read_value(meant, text, field, self.units)
        except Misread as error:
            self.broken.add(name)
            self._fault(error.code, name, str(error), at, inside=True)
            return
        self.givens[name] = Given(
            name, value, unit, typed, place.line, place.column, understood=told
        )

    # --- mounts --------------------------------------------------------------------------------

    def _taken(self, table: str, data: dict[str, Any], path: Keys) -> tuple[str, ...] | None:
        """Give the fields that the typed mount takes; None when any may stand here."""
        taken = self.mounts.get(table, {}).get(self._mount(table, data) or "")
        return taken.fields if taken else None

    def _mount(self, table: str, data: dict[str, Any]) -> str | None:
        """Give the mount that is meant; None where no word is typed."""
        word = data.get("mount")
        if not isinstance(word, str) or table not in self.mounts:
            return None
        try:
            return meant_word(with_words(TABLES[table], self.mounts[table]).fields[0], word)[0]
        except Misread:
            return word

    def _not_taken(self, table: str, word: str, key: str, name: str, at: Keys) -> None:
        owners = [w for w, taken in self.mounts[table].items() if key in taken.fields]
        whose = f"; {key} belongs to: {', '.join(owners)}" if owners else ""
        self._fault("not-of-this-mount", name, f'mount = "{word}" takes no {key}{whose}', at)

    # --- faults --------------------------------------------------------------------------------

    def _unknown(self, table: TableFields, key: str, name: str, raw: Any, at: Keys) -> None:
        of_a_spec = TABLES.get(key if not table.name and isinstance(raw, dict | list) else "")
        if self.tables is not TABLES and (
            (of_a_spec and of_a_spec.name) or TABLES[table.name].field(key)
        ):
            message = (
                f"{key} belongs to one cylinder: type it in its spec; company defaults give words "
                "and the look of the sheet, never sizes"
            )
            self._fault("not-for-all", name, message, at)
            return
        if isinstance(raw, dict | list) and not table.name:
            known = [t for t in self.tables if t]
            self._fault(
                "unknown-table", name, f"no table is called {key}; {nearest(key, known)}", at
            )
            return
        home = f"[{table.name}]" if table.name else "the top of the file"
        tip = _meant(table, key) or nearest(key, (f.name for f in table.fields))
        self._fault("unknown-field", name, f"{home} has no field {key}; {tip}", at)

    def _missing(self, field: Field, name: str, path: Keys) -> None:
        what = field.doc
        if field.choices:
            what += f"; one of {', '.join(field.choices)}"
        shown = f"{field.name} = {example(field, self.units)}"
        self._fault("missing", name, f"required: {what}; for example {shown}", path)

    def _fault(self, code: str, name: str, message: str, at: Keys, inside: bool = False) -> None:
        """Enter a fault at the key of ``at``, or ``inside`` at its value."""
        place = self.document.places.get(at)
        line, column = (1, 1)
        if place:
            line, column = (
                (place.line, place.column) if inside else (place.key_line, place.key_column)
            )
        self.faults.append(Fault(self.document.file, line, column, code, name, message))
        if len(self.faults) >= MOST_FAULTS:
            raise Refused(self.faults)


def _units(typed: Any) -> Any:
    """Give the units that a file means, what was typed where it means none."""
    field = TABLES[""].field("units")
    return understood(field, typed)[0] if field else typed


def _join(dotted: str, name: str) -> str:
    return f"{dotted}.{name}" if dotted else name


def _meant(table: TableFields, key: str) -> str:
    """Say which field a key means here or in another table; empty where it means none."""
    own = hinted(key, (f.name for f in table.fields))
    if own:
        return f"did you mean {own[0]}?"
    others = [t for t in TABLES.values() if t.name != table.name]
    homes = {t.name: key for t in others if t.field(key)} or {
        t.name: found[0] for t in others if (found := hinted(key, (f.name for f in t.fields)))
    }
    if not homes:
        return ""
    places = " or ".join(f"[{n}]" if n else "the top, before the first [table]" for n in homes)
    word = next(iter(homes.values()))
    return f"it belongs to {places}" + (f" and is called {word} there" if word != key else "")

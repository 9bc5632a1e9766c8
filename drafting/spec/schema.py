"""The field table as JSON Schema (draft 2020-12), so that an editor helps while one types.

The schema accepts whatever the tool accepts; it is looser, because sizes are text to it.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from drafting.factors import KINDS
from drafting.spec.check import Mounts
from drafting.spec.field import Field, TableFields
from drafting.spec.fields import TABLES
from drafting.spec.mount_fields import Taken

Schema = dict[str, Any]

_SIZE = "[0-9½¼¾⅓⅔⅛⅜⅝⅞]"
"""What every size holds; the reader judges the rest."""
_WITH_UNIT = f"{_SIZE}.*[A-Za-z°\"″”'′’]"
_ONE_LINE: Schema = {"type": "string", "pattern": "\\S", "maxLength": 200}
_LENGTHS = ("stroke", "retracted", "extended")


def json_schema(mounts: Mounts) -> Schema:
    """Give the schema of a spec file; ``mounts`` as ``read_spec`` takes them."""
    root = TABLES[""]
    schema = _table(root)
    for name, table in TABLES.items():
        if not name:
            continue
        inner = _table(table)
        if name in mounts:
            _add_mounts(inner, mounts[name])
        if table.many:
            inner = {"type": "array", "items": inner, "description": table.doc}
        schema["properties"][name] = inner
    schema["properties"]["cylinder"]["anyOf"] = [
        {"required": [a, b]} for a, b in zip(_LENGTHS, _LENGTHS[1:] + _LENGTHS[:1], strict=True)
    ]
    schema["required"] += [t.name for t in TABLES.values() if t.required and t.name]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Hydraulic cylinder spec",
        **schema,
    }


def shop_schema() -> Schema:
    """Give the schema of the file of company defaults."""
    from drafting.spec.shop import SHOP_TABLES

    schema = _table(SHOP_TABLES[""])
    for name, table in SHOP_TABLES.items():
        if name:
            schema["properties"][name] = _table(table)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Company defaults of hydraulic cylinder specs",
        **schema,
    }


def _table(table: TableFields) -> Schema:
    return {
        "type": "object",
        "description": table.doc,
        "properties": {f.name: _field(f) for f in table.fields},
        "required": [f.name for f in table.fields if f.required],
        "additionalProperties": False,
    }


def _add_mounts(schema: Schema, by_word: Mapping[str, Taken]) -> None:
    """Let each mount take its own fields only."""
    del schema["properties"]["mount"]["type"]
    schema["properties"]["mount"]["enum"] = list(by_word)
    schema["allOf"] = [
        {
            "if": {"properties": {"mount": {"const": word}}, "required": ["mount"]},
            "then": {"propertyNames": {"enum": ["mount", "tolerance", *taken.fields]}},
        }
        for word, taken in by_word.items()
    ]


def _field(field: Field) -> Schema:
    unit = KINDS[field.kind].unit if field.kind in KINDS else ""
    doc = field.doc[0].upper() + field.doc[1:] + "."
    if field.kind == "length":
        doc += ' A bare number is in the file\'s units; "3 1/2 in" and "88.9 mm" carry their own.'
    elif unit and not field.bare:
        doc += f" With its unit, for example {KINDS[field.kind].example}."  # type: ignore[index]
    return {
        "title": field.name.replace("_", " "),
        "description": doc,
        "examples": _examples(field),
        **_form(field),
    }


def _examples(field: Field) -> list[Any]:
    texts = dict.fromkeys(t for t in (field.example, field.example_mm) if t)
    return [tomllib.loads(f"x = {text}")["x"] for text in texts]


def _form(field: Field) -> Schema:
    kind = field.kind
    if kind == "length":
        return {"anyOf": [{"type": "number", **_limits(field)}, _text(_SIZE)]}
    if kind in KINDS:
        number: Schema = {"type": "number", **_limits(field)}
        return {"anyOf": [number, _text(_SIZE)]} if field.bare else _text(_WITH_UNIT)
    if kind == "word":
        return {"enum": list(field.choices)} if field.choices else {"type": "string"}
    if kind in ("pair", "pair or length"):
        size = {"anyOf": [{"type": "number", **_limits(field)}, _text(_SIZE)]}
        pair: Schema = {"type": "array", "items": size, "minItems": 2, "maxItems": 2}
        return pair if kind == "pair" else {"anyOf": [pair, *size["anyOf"]]}
    if kind == "word or length":
        return {"anyOf": [{"enum": list(field.choices)}, {"type": "number"}, _text(_SIZE)]}
    if kind == "table":
        inner = _table(TableFields(field.name, field.doc, field.fields))
        form = {k: inner[k] for k in ("type", "properties", "required", "additionalProperties")}
        if field.name == "bolts":
            form["oneOf"] = [{"required": ["circle"]}, {"required": ["pitch"]}]
        return form
    return _PLAIN_FORMS[kind] | (_limits(field) if kind in ("count", "number") else {})


def _text(pattern: str) -> Schema:
    return {"type": "string", "pattern": pattern, "maxLength": 80}


def _limits(field: Field) -> Schema:
    limits = {
        "exclusiveMinimum": field.above,
        "minimum": field.least,
        "maximum": field.most,
        "enum": list(field.among) or None,
    }
    return {k: v for k, v in limits.items() if v is not None}


_PLAIN_FORMS: dict[str, Schema] = {
    "text": _ONE_LINE,
    "thread": _ONE_LINE,
    "tolerance": _ONE_LINE,
    "path": {"type": "string", "pattern": "\\S"},
    "viewbox": _ONE_LINE,
    "texts": {"type": "array", "items": _ONE_LINE},
    "flag": {"type": "boolean"},
    "count": {"type": "integer"},
    "number": {"type": "number"},
    "clock": {
        "anyOf": [
            {"type": "integer", "minimum": 1, "maximum": 12},
            _text(f"^\\s*(0?[1-9]|1[0-2])(:[0-5][0-9])?\\s*$|{_SIZE}.*(deg|°)"),
        ]
    },
    "date": {"type": "string", "pattern": "^\\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\\s*$"},
    "scale": {"type": "string", "pattern": "^\\s*([0-9.]+ ?: ?[0-9.]+|auto)\\s*$"},
}

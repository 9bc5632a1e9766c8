"""Values -> the text of a spec file, in the order of the field table.

Reading the text gives the same values back, to the last digit.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from drafting.factors import KINDS
from drafting.spec.field import Field
from drafting.spec.fields import TABLES
from drafting.spec.given import Typed
from drafting.units import spell

_PLAIN = re.compile(r"-?[0-9]+(\.[0-9]+)?")


def write_spec(values: Mapping[str, Typed]) -> str:
    """Give the TOML text of values by dotted name, in the units inside (mm, MPa, degrees ...).

    ``units`` must be among them. A name that no field has is a ``KeyError``.
    """
    units = str(values["units"])
    left = dict(values)
    blocks = []
    for table in TABLES.values():
        for name in _tables(table.name, table.many, values):
            lines = [] if not name else [f"[[{table.name}]]" if table.many else f"[{name}]"]
            for field in table.fields:
                text = _take(field, f"{name}.{field.name}" if name else field.name, left, units)
                if text:
                    lines.append(f"{field.name} = {text}")
            blocks.append("\n".join(lines))
    if left:
        raise KeyError(f"no field is called {', '.join(sorted(left))}")
    return "\n\n".join(blocks) + "\n"


def quote(text: str) -> str:
    """Give a text as a TOML string: in single quotes when it holds a double quote or a backslash.

    The text is one line, as every text of a spec is.
    """
    if ('"' in text or "\\" in text) and "'" not in text:
        return f"'{text}'"
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _tables(name: str, many: bool, values: Mapping[str, Typed]) -> list[str]:
    if not name:
        return [""]
    if not many:
        return [name] if any(v.startswith(f"{name}.") for v in values) else []
    count = 0
    while any(v.startswith(f"{name}[{count + 1}].") for v in values):
        count += 1
    return [f"{name}[{n + 1}]" for n in range(count)]


def _take(field: Field, name: str, left: dict[str, Typed], units: str) -> str:
    """Give the TOML of one field and take it off the values that are left; empty when absent."""
    if field.kind == "table":
        inside = [(f.name, _take(f, f"{name}.{f.name}", left, units)) for f in field.fields]
        pairs = ", ".join(f"{word} = {text}" for word, text in inside if text)
        return f"{{{pairs}}}" if pairs else ""
    return toml_of(field, left.pop(name), units) if name in left else ""


def toml_of(field: Field, value: Typed | Mapping[str, Typed], units: str) -> str:
    """Give one value (mm, MPa, degrees ...) as it would be typed after the ``=``."""
    if isinstance(value, Mapping):
        fields = {f.name: f for f in field.fields}
        inside = ", ".join(f"{k} = {toml_of(fields[k], v, units)}" for k, v in value.items())
        return f"{{{inside}}}"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, tuple):
        return f"[{', '.join(toml_of(field, entry, units) for entry in value)}]"
    if isinstance(value, str):
        return quote(value)
    if field.kind in KINDS:
        text = spell(value, field.kind, units)
    elif field.kind == "clock":
        text = _clock(value)
    elif field.kind in ("count", "number"):
        text = spell(value, "length", "mm")
    else:
        text = spell(value, "length", units)
    bare = field.kind not in KINDS or field.kind == "length"
    return text if bare and _PLAIN.fullmatch(text) else quote(text)


def _clock(degrees: float) -> str:
    """Give a clock reading: 1:30 where it falls on a minute, else degrees."""
    minutes = degrees * 2
    if minutes != round(minutes):
        return spell(degrees, "angle", "in")
    hour, minute = divmod(round(minutes), 60)
    return f"{hour or 12}:{minute:02}"

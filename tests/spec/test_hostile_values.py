"""Every field with values that nobody types by accident: refused in words or taken, no crash."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from drafting.errors import Refused
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from drafting.spec.field import Field
from drafting.spec.fields import TABLES

VALUES = [
    "9" * 400, "1e400", "-inf", "nan", "0", "-0.0", "-1", "true", '""', '" "', '"nan"', '"inf mm"',
    '"1/0"', f'"{"9" * 79}"', f'"1:{"9" * 308}"', '"\\u202e"',
    f'"{"x" * 3000}"', "[]", "[[1, 2], [3]]",
    "{}", "{a = 1}", "2026-11-25", "12:00:00", '"M99999999x0.00001"', '"M 0 0 L 1e999 0"',
]  # fmt: skip
BASE = {
    "": {"title": '"T"', "units": '"mm"'},
    "cylinder": {"bore": "80", "rod": "45", "stroke": "300", "retracted": "800"},
    "body_mount": {"mount": '"cross tube"'},
    "rod_mount": {"mount": '"clevis"'},
    "base_port": {"thread": '"G 1/4"'},
}
INSIDE = ("Decimal(", "Traceback", "object at", "<class", "NoneType", "Error:", "tuple", "float(")
"""Words of the language that the program is written in."""


def texts(name: str, field: Field) -> Iterator[str]:
    for value in VALUES:
        inner = [value, *(f"{{{f.name} = {value}}}" for f in field.fields[:3])]
        for one in inner:
            tables = {n: dict(t) for n, t in BASE.items()}
            own = tables.setdefault(name, {})
            if name == "extra_port":
                own |= {"end": '"base"', "thread": '"G 1/4"'}
            own[field.name] = one
            lines = []
            for table, fields in tables.items():
                many = table and TABLES[table].many
                lines += [f"[[{table}]]" if many else f"[{table}]"] if table else []
                lines += [f"{k} = {v}" for k, v in fields.items()]
            yield "\n".join(lines)


@pytest.mark.parametrize("name", TABLES)
def test_no_value_of_any_field_is_a_crash(name: str) -> None:
    tried = 0
    for field in TABLES[name].fields:
        for text in texts(name, field):
            tried += 1
            try:
                load(read_spec(text.encode(), mounts=mounts_by_end()))
            except Refused as refused:
                for fault in refused.faults:
                    assert not any(word in fault.message for word in INSIDE), fault
                    assert len(fault.message) < 900, fault
                    assert fault.line >= 1
    assert tried >= len(VALUES)

"""Which fields random whole files have, and how often: nothing of the format is left out.

python -m tests.whole_spec_fields --histogram 500
"""

from __future__ import annotations

import sys
import tomllib
from collections import Counter
from collections.abc import Iterator
from random import Random
from typing import Any

from drafting.spec.field import Field
from drafting.spec.fields import TABLES
from tests.whole_specs import spec


def fields() -> Iterator[str]:
    """Name every field of the format: ``base_port.clock``, ``body_mount.bolts.hole``."""
    for name, table in TABLES.items():
        for field in table.fields:
            yield from _names(f"{name}." if name else "", field)


def _names(prefix: str, field: Field) -> Iterator[str]:
    yield f"{prefix}{field.name}"
    for inner in field.fields:
        yield from _names(f"{prefix}{field.name}.", inner)


def said(text: str) -> Iterator[tuple[str, Any]]:
    """Give every field of a file with its value."""
    for name, value in tomllib.loads(text).items():
        yield from _said_in(name, value)


def _said_in(name: str, value: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(value, dict):
        if name not in TABLES:
            yield name, value
        for key, inner in value.items():
            yield from _said_in(f"{name}.{key}", inner)
    elif isinstance(value, list) and value and isinstance(value[0], dict):
        for one in value:
            yield from _said_in(name, one)
    else:
        yield name, value


def histogram(count: int) -> str:
    """Give each field with how many of ``count`` files have it, and its commonest values."""
    values: dict[str, Counter[str]] = {name: Counter() for name in fields()}
    for seed in range(count):
        for name, value in said(spec(Random(seed))):
            values.setdefault(name, Counter())[str(value)] += 1
    lines = []
    for name, found in values.items():
        common = ", ".join(f"{v} ({n})" for v, n in found.most_common(6))
        lines.append(f"{found.total():5} {len(found):5} kinds  {name}: {common}")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    sys.stdout.write(histogram(int(sys.argv[sys.argv.index("--histogram") + 1])))

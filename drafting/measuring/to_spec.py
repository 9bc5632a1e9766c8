"""What was measured as the text of a spec, with a comment beside each value."""

from __future__ import annotations

import re
from collections.abc import Mapping

from drafting.spec.given import Typed
from drafting.spec.write import write_spec

_WIDE = 34
_LONGEST = 240


def spec_text(
    values: Mapping[str, Typed], comments: Mapping[str, str], missing: Mapping[str, str], head: str
) -> str:
    """Give the spec. ``missing`` are fields without a value, written as comments in their table."""
    lines = [f"# {head}"]
    table, left = "", dict(missing)
    for line in write_spec(values).splitlines():
        if line.startswith("["):
            table = line.strip("[]")
            lines.append(line)
            lines += _gaps(table, left)
            continue
        key = line.partition(" = ")[0]
        name = f"{table}.{key}" if table else key
        said = "; ".join(c for n, c in comments.items() if n == name or n.startswith(f"{name}."))
        lines.append(f"{line:<{_WIDE}}  # {_short(said)}" if said and line else line)
    for name in sorted({n.partition(".")[0] for n in left}):
        lines += ["", f"[{name}]", *_gaps(name, left)]
    return "\n".join(lines) + "\n"


def _gaps(table: str, left: dict[str, str]) -> list[str]:
    mine = [n for n in left if n.partition(".")[0] == table]
    return [f"# {n.partition('.')[2]} = ?  OPEN: {_short(left.pop(n))}" for n in mine]


def _short(text: str) -> str:
    one = re.sub(r"\s+", " ", text)
    return one if len(one) <= _LONGEST else one[: _LONGEST - 1] + "…"

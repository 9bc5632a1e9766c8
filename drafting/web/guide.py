"""The measuring sheet behind the form: what to read next, with what, and a picture of each size."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from drafting.measuring.letters import letters
from drafting.web.pictures import pictures

_WITH: dict[str, tuple[str, ...]] = {
    "plate": ("plate.0", "plate.y", "plate.x"),
    "bolts.circle": ("bolts.hole",),
    "bolts.pitch": ("bolts.pitch.0", "bolts.pitch.y", "bolts.pitch.x"),
    "bolts.count": ("bolts.hole",),
    "thread_length": ("thread",),
}
"""Fields without a picture of their own, and whose will do."""
_PORTS = (
    ("base_port.thread", "thread of the port at the base", "caliper",
     "As the trade spells it: SAE-8, G 3/8. If nobody knows: Which thread is it? below the box."),
    ("base_port.clock", "the hour that the base port faces", "",
     "Looking at the rod end, 12 o'clock up: click the dial."),
    ("rod_port.thread", "thread of the port at the rod end", "caliper",
     "As at the base; often the same."),
    ("rod_port.clock", "the hour that the rod port faces", "",
     "Looking at the rod end, as for the other."),
)  # fmt: skip
"""What the worksheet asks in a table of its own: field, what it is, with what, how."""


@lru_cache(maxsize=8)
def guide(body: str, rod: str) -> dict[str, Any]:
    """Give what is read on a cylinder with these mounts, in order, and pictures by field.

    Each row: field, letter of the worksheet, what it is, tool, tip, whether everyone is asked it.
    """
    rows: list[dict[str, Any]] = []
    for x in letters(body, rod):
        field = x.field.removesuffix(".0")
        if not field or field.endswith(".1") or any(r["field"] == field for r in rows):
            continue
        rows.append(_row(field, x.letter, x.what, x.tool, x.tip, asked=x.needed))
    rows += [_row(field, "", *rest, asked=True) for field, *rest in _PORTS]
    found = pictures(body, rod)
    for end in ("body", "rod"):
        for field, others in _WITH.items():
            name = f"{end}_mount.{field}"
            known = next((found[n] for o in others if (n := f"{end}_mount.{o}") in found), None)
            if name not in found and known:
                found[name] = known
    for port in ("base_port", "rod_port"):
        if f"{port}.thread" in found:
            found[f"{port}.clock"] = found[f"{port}.thread"]
    return {"steps": rows, "pictures": found}


def _row(field: str, letter: str, what: str, tool: str, tip: str, *, asked: bool) -> dict[str, Any]:
    return {
        "field": field,
        "letter": letter,
        "what": what,
        "tool": tool,
        "tip": tip,
        "asked": asked,
    }

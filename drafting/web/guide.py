"""The measuring sheet behind the form: what to read next, with what, and a picture of each size."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from drafting.measuring.letters import letters
from drafting.model.catalog import mounts_by_end
from drafting.web.pictures import pictures

_WITH: dict[str, tuple[str, ...]] = {
    "plate": ("plate.0", "plate.y", "plate.x"),
    "bolts.circle": ("bolts.hole",),
    "bolts.pitch": ("bolts.pitch.0", "bolts.pitch.y", "bolts.pitch.x"),
    "bolts.count": ("bolts.hole",),
    "thread_length": ("thread",),
}
"""Fields without a picture of their own, and whose will do."""
_BUSHING = (
    "over the bushing, where one sits in the hole", "caliper",
    "A sleeve of another metal: its edge shows on the face of the eye. For a worn hole that is to "
    "be bushed: over the sleeve that goes in.",
)  # fmt: skip
"""What it is, with what, how: asked for once a hole was read."""
_LEVEL = "Turn it until the pin at the base lies level. "
"""What 12 o'clock is square to, where there is such a pin."""
_HOURS = ("base_port.clock", "rod_port.clock")
_PORTS = (
    ("base_port.thread", "thread of the port at the base", "caliper",
     "As the trade spells it: SAE-8, G 3/8. If nobody knows: Which thread is it? below the box."),
    ("cylinder.clock_seen_from", "the end that you look at when you read an hour", "",
     "Every hour is read from there, and the drawing says so."),
    ("base_port.clock", "the hour that the base port faces, looking at the rod end", "",
     "12 o'clock up: click the dial, or type the hour."),
    ("rod_port.thread", "thread of the port at the rod end", "caliper",
     "As at the base; often the same."),
    ("rod_port.clock", "the hour that the rod port faces, looking at the rod end", "",
     "From the same end as the other."),
)  # fmt: skip
"""What the worksheet asks in a table of its own: field, what it is, with what, how."""


@lru_cache(maxsize=8)
def guide(body: str, rod: str) -> dict[str, Any]:
    """Give what is read on a cylinder with these mounts, in order, and pictures by field.

    Each row: field, letter of the worksheet, what it is, tool, tip, whether everyone is asked it;
    ``after`` which field it is asked and ``until`` which are typed; ``none``: what is said where
    there is nothing to measure.
    """
    rows: list[dict[str, Any]] = []
    for x in letters(body, rod):
        field = x.field.removesuffix(".0")
        if not field or field.endswith(".1") or any(r["field"] == field for r in rows):
            continue
        rows.append(_row(field, x.letter, x.what, x.tool, x.tip, asked=x.needed))
    for table, mount in (("body_mount", body), ("rod_mount", rod)):
        if "bushing" in mounts_by_end()[table][mount].fields:
            _ask_for_bushing(rows, table)
    rows = _with_ports(rows, _LEVEL if "pin" in mounts_by_end()["body_mount"][body].fields else "")
    found = pictures(body, rod)
    for end in ("body", "rod"):
        for field, others in _WITH.items():
            name = f"{end}_mount.{field}"
            known = next((found[n] for o in others if (n := f"{end}_mount.{o}") in found), None)
            if name not in found and known:
                found[name] = known
    return {"steps": rows, "pictures": found}


def _with_ports(rows: list[dict[str, Any]], level: str) -> list[dict[str, Any]]:
    """Put what is asked of each port behind the rest, with the place that the worksheet reads.

    ``level`` is what is done before the first hour is read.
    """
    places = {r["field"]: r for r in rows if r["field"].endswith("_port.position")}
    out = [r for r in rows if r["field"] not in places]
    for field, *rest in _PORTS:
        out.append(_row(field, "", *rest, asked=True))
        if field == "cylinder.clock_seen_from":
            out[-1]["until"] = _HOURS
        if field == _HOURS[0]:
            out[-1]["tip"] = level + out[-1]["tip"]
        if field in _HOURS:
            table = field.partition(".")[0]
            out.append(places[f"{table}.position"] | {"asked": True, "after": f"{table}.thread"})
    return out


def _ask_for_bushing(rows: list[dict[str, Any]], table: str) -> None:
    """Ask for the bushing behind its hole, whatever the worksheet does."""
    hole, name = f"{table}.hole", f"{table}.bushing"
    letter = next((r["letter"] for r in rows if r["field"] == name), "")
    rows[:] = [r for r in rows if r["field"] != name]
    at = next(k for k, r in enumerate(rows) if r["field"] == hole)
    rows[at]["what"] = "the hole that the pin goes through"  # with a bushing there are two
    row = _row(name, letter, *_BUSHING, asked=True)
    rows.insert(at + 1, row | {"after": hole, "none": "No bushing"})


def _row(field: str, letter: str, what: str, tool: str, tip: str, *, asked: bool) -> dict[str, Any]:
    return {
        "field": field,
        "letter": letter,
        "what": what,
        "tool": tool,
        "tip": tip,
        "asked": asked,
    }

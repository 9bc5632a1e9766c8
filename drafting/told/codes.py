"""ISO 6099 identification codes of mounts, where one applies; read from the table of codes."""

from __future__ import annotations

from collections.abc import Mapping

from drafting.standards.table import table
from drafting.values import Value

SAME_MM = 0.02
"""A plate whose sides differ by less is square."""


def iso_6099(
    mount: str,
    end: str,
    position: str = "",
    plate: str = "",
    threaded: bool = False,
    feet: str = "",
) -> str | None:
    """Give the code of a mount: the first entry of the table whose words all fit, or None.

    ``end`` is ``body`` or ``rod``; ``position`` the spec's word (``base``, ``rod end``, ...), empty
    for a distance; ``plate`` is ``round``, ``square`` or ``rectangular``; ``feet`` are ``end
    angles`` or ``side lugs`` where a foot carries both ends.
    """
    words = {
        "mount": mount,
        "end": end,
        "position": position,
        "plate": plate,
        "threaded": threaded,
        "feet": feet,
    }
    for entry in table("mounting_codes").about["code"]:
        if all(words[k] == v for k, v in entry.items() if k != "code"):
            return str(entry["code"])
    return None


def code_of(values: Mapping[str, Value], mount: str, end: str) -> str | None:
    """Give the code of a settled mount from the cylinder's values by name."""
    t = f"{end}_mount"
    at = values.get(f"{t}.position")
    position = at.value if at is not None and isinstance(at.value, str) else ""
    threaded = end == "rod" and f"{t}.thread" in values
    feet = values.get(f"{t}.feet")
    stands = str(feet.value) if feet is not None else ""
    return iso_6099(mount, end, position, _plate(values, t), threaded, stands)


def _plate(values: Mapping[str, Value], t: str) -> str:
    if f"{t}.plate" in values:
        return "round"
    y, z = values.get(f"{t}.plate.y"), values.get(f"{t}.plate.z")
    if y is None or z is None:
        return ""
    return "square" if abs(float(y.value) - float(z.value)) < SAME_MM else "rectangular"

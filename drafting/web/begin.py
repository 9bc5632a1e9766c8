"""The text that a new cylinder begins with: no size yet, or a sample's."""

from __future__ import annotations

from drafting.errors import Fault, Refused
from drafting.model.catalog import mount_types, mounts_by_end
from drafting.spec.template import starter_spec
from drafting.spec.write import quote

_OPEN = """\
# A bare number is in {said}. A size may carry its own unit, in quotes: "3 1/2 in", "88.9 mm".
title = {title}
units = "{units}"

[cylinder]

[body_mount]
mount = "{body}"

[rod_mount]
mount = "{rod}"
"""


def begin(title: str, units: str, body: str, rod: str, sample: bool) -> str:
    """Give the text; raises Refused for a unit or a mount that there is not."""
    known = mounts_by_end()
    if (
        units not in ("in", "mm")
        or body not in known["body_mount"]
        or rod not in known["rod_mount"]
    ):
        raise Refused([Fault("", 1, 1, "unknown-word", "", "no such unit or mount")])
    if not sample:
        words = {"in": "inches", "mm": "millimetres"}
        return _OPEN.format(
            said=words[units], title=quote(title or "Cylinder"), units=units, body=body, rod=rod
        )
    examples = {
        "body_mount": dict(mount_types()["body", body].example),
        "rod_mount": dict(mount_types()["rod", rod].example),
    }
    return starter_spec(body, rod, units, mounts=known, examples=examples, short=True)

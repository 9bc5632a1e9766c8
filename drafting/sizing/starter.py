"""A duty file to start from: it sizes without edits, and offers all there is behind a ``#``."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drafting.factors import Quantity
from drafting.sizing.duty import TABLES
from drafting.spec.template import block
from drafting.units import read_quantity

HEAD = """\
# What the machine needs of a cylinder that is still to be chosen. Change what differs; what stands
# behind a # is not read. Then: drafting size {file}
# A bare number is in {units}. Forces, pressures and flows carry their unit, in quotes.
"""


def _read(text: str, kind: Quantity) -> float:
    return float(read_quantity(text, kind))


START: Mapping[str, Mapping[str, Mapping[str, Any]]] = {
    "in": {
        "": {"title": "Baler door"},
        "duty": {"push": _read("14000 lbf", "force"), "stroke": 508.0, "seconds_out": 5.0},
        "supply": {
            "pressure": _read("2500 psi", "pressure"),
            "flow": _read("12 gal/min", "flow"),
        },
    },
    "mm": {
        "": {"title": "Baler door"},
        "duty": {"push": _read("60 kN", "force"), "stroke": 500.0, "seconds_out": 5.0},
        "supply": {"pressure": _read("180 bar", "pressure"), "flow": _read("45 L/min", "flow")},
    },
}
"""By units and table: N, mm, s, MPa, l/s."""


def starter_duty(body: str, rod: str, units: str, file: str) -> str:
    """Give the text of a duty file for two mounts; ``file`` is what it will be called."""
    given = {name: dict(START[units].get(name, {})) for name in TABLES}
    given[""]["units"] = units
    given["room"] = {"body_mount": body, "rod_mount": rod}
    said = "inches" if units == "in" else "millimetres"
    blocks = [block(table, given[name], None, units) for name, table in TABLES.items()]
    return "\n".join([HEAD.format(units=said, file=file), *blocks])

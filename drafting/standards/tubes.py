"""The wall to draw a barrel with when none was typed; a size to draw with, never a verdict.

The lightest tube of the bore whose hoop stress at the bore under the working pressure is at most a
quarter of the yield (factor 4 on yield: common practice). Stress by Lamé's formula for a thick
wall, s = p (D^2 + d^2) / (D^2 - d^2), which needs no thin wall and never lies below the thin-wall
formula. Yield: the lowest that is ordinary for barrel tube, named in ``tube.toml``. Not covered:
proof and shock pressure, fatigue, welds, thread reliefs, the thinning by honing.
"""

from __future__ import annotations

from typing import Literal

from drafting.records import dataclass
from drafting.standards.table import Row, lookup, table
from drafting.units import MPa, format_mm

FACTOR = 4.0
"""On yield; common practice, and the spec format's own rule."""
PART_OF_BORE = 0.1
"""Wall of a bore that the table does not list; common practice, to draw with only."""
COMMON = "common practice"


@dataclass(frozen=True, slots=True)
class Wall:
    """A barrel's wall in mm with the reason for it.

    ``carries`` tells whether it meets the rule; None when there was no pressure or no row.
    """

    wall_mm: float
    outside_mm: float
    carries: bool | None
    why: str
    source: str
    confidence: str
    origin: Literal["table", "derived"]


def wall_rule(bore_mm: float, pressure_mpa: MPa | None) -> Wall:
    """Give the wall of a barrel of this bore (mm) for the working pressure (MPa), if one is known.

    Without a pressure, and where no row carries it, the heaviest row; outside the table a tenth of
    the bore.
    """
    rows = sorted(lookup(table("tube").rows, "id", bore_mm), key=lambda r: r.required("wall_mm"))
    if not rows:
        wall = PART_OF_BORE * bore_mm
        why = f"{PART_OF_BORE:g} of the bore: no tube of {format_mm(bore_mm)} mm bore in the table"
        return Wall(wall, bore_mm + 2 * wall, None, why, COMMON, "memory", "derived")
    if pressure_mpa is None:
        why = f"heaviest tube of this bore, {rows[-1].where}: no working pressure is typed"
        return _wall(rows[-1], None, why)
    material = tube_yield(rows[0].word("system"))
    allowed = material.required("yield_min_mpa") / FACTOR
    words = (
        f"{pressure_mpa:.4g} MPa with a factor of {FACTOR:g} on the yield of "
        f"{material.word('yield_min_mpa')} MPa ({material.word('standard')} "
        f"{material.word('grade')}, {material.word('condition')}), Lamé"
    )
    for row in rows:
        if hoop(row.required("id_mm"), row.required("od_mm"), pressure_mpa) <= allowed:
            why = f"lightest tube of this bore that carries {words}; {row.where}"
            return _wall(row, True, why)
    why = f"heaviest tube of this bore, {rows[-1].where}; no row carries {words}"
    return _wall(rows[-1], False, why)


def hoop(inside_mm: float, outside_mm: float, pressure_mpa: MPa) -> MPa:
    """Give the hoop stress at the bore by Lamé (MPa), outer pressure zero."""
    a, b = inside_mm**2, outside_mm**2
    return pressure_mpa * (b + a) / (b - a)


def tube_yield(system: str) -> Row:
    """Give the material row whose yield the rule uses, for ``inch`` or ``metric`` tube."""
    named: dict[str, str] = table("tube").about["yield"][system]
    (row,) = table("tube_materials").where(**named)
    return row


def _wall(row: Row, carries: bool | None, why: str) -> Wall:
    return Wall(
        row.required("wall_mm"),
        row.required("od_mm"),
        carries,
        why,
        f"{COMMON}; {row.source}",
        row.confidence,
        "table",
    )

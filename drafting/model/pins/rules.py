"""What the tables of pins say: split pin holes, heads, and the metal beyond a hole."""

from __future__ import annotations

from drafting.settle.ledger import Rule
from drafting.settle.shop_sizes import neat_up
from drafting.standards.table import Row, lookup, table

SMALL = 0.02


def hole_rule(pin: float) -> Rule | None:
    """Give a pin's cotter hole (mm): ISO 2341, ASME B18.8.1, between their rows ISO 1234."""
    for name in ("clevis_pin", "clevis_pin_inch"):
        for row in lookup(_rows(name), "diameter", pin):
            return _tabled(row.number("split_pin_hole_mm"), row)
    for row in _rows("split_pin"):
        if row.required("range_over_mm") < pin <= row.required("range_incl_mm"):
            return _tabled(row.number("split_pin_hole_mm"), row)
    return None


def beyond_rule(pin: float, hole: float) -> Rule:
    """Give the least distance from the middle of a hole to the pin's end (mm)."""
    larger = (r for r in _rows("clevis_pin") if r.required("diameter_mm") >= pin - SMALL)
    row = next(larger, None)
    if row is None:
        rule = Rule(0.16 * pin, "0.16 of the pin, as the largest rows of ISO 2341 have")
    else:
        why = f"ISO 2341, the next row up, {_where(row)}"
        rule = Rule(row.required("hole_to_end_min_mm"), why, row.source, "table")
    return rule if rule.value >= hole else Rule(hole, "the hole's own diameter")


def head_rules(pin: float, units: str) -> tuple[Rule, Rule]:
    """Give a head's diameter and height (mm)."""
    row = next(iter(lookup(_rows("clevis_pin"), "diameter", pin)), None)
    across = _tabled(row.number("head_diameter_mm"), row) if row else None
    high = _tabled(row.number("head_height_mm"), row) if row else None
    return (
        across or Rule(neat_up(1.5 * pin, units), "1.5 of the pin"),
        high or Rule(neat_up(0.25 * pin, units), "0.25 of the pin"),
    )


def _rows(name: str) -> tuple[Row, ...]:
    return table("pins").where(table=name)


def _where(row: Row) -> str:
    return f"{row.where}, {row.confidence}"


def _tabled(value: float | None, row: Row) -> Rule | None:
    if value is None:
        return None
    why = f"{row.word('standard')}, {_where(row)}"
    return Rule(value, why, row.source, "table")

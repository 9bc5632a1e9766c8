"""What the drawing needs of a cylinder."""

from __future__ import annotations

from typing import Literal

from drafting.drawing.dimension.job import Job
from drafting.model.cylinder import Cylinder
from drafting.model.pins.details import pin_details
from drafting.told.changes import Comparison
from drafting.told.data import data_of
from drafting.told.facts import turning_note
from drafting.told.flags import flag_said
from drafting.told.meta import logo, meta
from drafting.told.ports_said import port_rows

FINEST = 64
"""The largest denominator of inch fractions, where nobody typed another; metric sizes have none."""


def sheet_job(c: Cylinder, compared: Comparison | None = None) -> Job:
    """Give what the drawing needs of a cylinder."""
    spec, n = c.spec, c.lengths
    side: Literal["rod", "base"] = (
        "base" if spec.word("cylinder.clock_seen_from") == "base" else "rod"
    )
    dimensions = spec.word("drawing.dimensions") or ("in [mm]" if spec.units == "in" else "mm")
    fractions = spec.number("drawing.fractions")
    usual = FINEST if spec.units == "in" else 0
    places = usual if fractions is None else int(fractions)
    return Job(
        name=c.name,
        retracted=c.parts,
        extended=c.at(n.stroke),
        phantoms=c.phantoms,
        pins=pin_details(c.pins, lambda name: (flag_said(c, name), c.tolerances.get(name))),
        tolerances=c.tolerances,
        wishes=c.wishes,
        symbols=c.symbols,
        values=c.values,
        findings=c.findings,
        lengths=(n.stroke, n.retracted, n.extended),
        bore=c.stations.bore,
        data=data_of(c, dimensions, places, compared),
        logo=logo(spec),
        changed=compared.flagged if compared else frozenset(),
        units=spec.units,
        dimensions=dimensions,  # type: ignore[arg-type]
        fractions=places,
        sheet=spec.word("drawing.sheet") or "auto",
        scale=spec.word("drawing.scale") or "auto",
        breaks="none" if spec.word("drawing.breaks") == "none" else "auto",
        projection="first" if spec.word("drawing.projection") == "first" else "third",
        clock_from=side,
        ports=port_rows(c, dimensions, places),
        turning=turning_note(c),
        meta=meta(c),
    )

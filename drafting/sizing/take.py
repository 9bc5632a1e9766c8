"""A chosen candidate as the text of a spec: what was asked for and chosen, nothing else."""

from __future__ import annotations

from drafting.settle.shop_sizes import neat_up
from drafting.sizing.candidates import Candidate, values_of
from drafting.sizing.duty import DutyFile
from drafting.spec.given import Typed
from drafting.spec.write import write_spec

PIN_NOTE = "Pin diameter by shear with assumed steel, to be confirmed"
"""Printed on the drawing when nobody asked for a pin of a size."""


def take(duty: DutyFile, c: Candidate) -> str:
    """Give the TOML text of a spec for a candidate; what is not settled is left out."""
    laid = values_of(duty, c.pair.bore, c.pair.rod, c.pin)
    guessed = duty.pin is None and any(name.endswith(".pin") for name in laid)
    values: dict[str, Typed | None] = {
        "title": duty.title,
        "number": duty.number or None,
        "units": duty.units,
        "notes": (PIN_NOTE,) if guessed else None,
        **laid,
        "cylinder.retracted": duty.retracted or neat_up(c.closed, duty.units),
        "cylinder.largest_outside": duty.largest_outside,
        "duty.pressure": duty.pressure,
        "duty.flow": duty.flow,
        "duty.push": duty.push,
        "duty.pull": duty.pull,
        "duty.safety_factor": duty.safety_factor,
        "duty.return_pressure": duty.return_pressure or None,
        "duty.lifts_people": duty.lifts_people or None,
    }
    return write_spec({name: value for name, value in values.items() if value is not None})

"""A proposal as the text of a spec: what was asked for and what was chosen, nothing else."""

from __future__ import annotations

from collections.abc import Mapping

from drafting.sizing.duty import DutyFile
from drafting.sizing.steels import STEELS
from drafting.spec.given import Typed
from drafting.spec.write import write_spec

CHOSEN = "Pins, eyes, tube, steels and ports were chosen for the duty: confirm before ordering"
"""Printed on the drawing: nobody measured or ordered these sizes yet."""


def spec_text(duty: DutyFile, laid: Mapping[str, Typed], closed: float) -> str:
    """Give the TOML text of a spec for the values laid out; what is not settled is left out."""
    values: dict[str, Typed | None] = {
        "title": duty.title,
        "number": duty.number or None,
        "units": duty.units,
        "notes": (CHOSEN,),
        **laid,
        **{f"cylinder.{part}_material": words for part, words in STEELS[duty.units].items()},
        "cylinder.retracted": closed,
        "cylinder.largest_outside": duty.largest_outside,
        "cylinder.clock_seen_from": "rod",
        "duty.pressure": duty.pressure,
        "duty.flow": duty.flow,
        "duty.push": duty.push,
        "duty.pull": duty.pull,
        "duty.seconds_out": duty.seconds_out,
        "duty.seconds_in": duty.seconds_in,
        "duty.safety_factor": duty.safety_factor,
        "duty.return_pressure": duty.return_pressure or None,
        "duty.load_guided": duty.load_guided,
        "duty.rod_side": duty.rod_side or None,
        "duty.strokes_per_day": duty.strokes_per_day,
        "duty.side_load": duty.side_load or None,
        "duty.environment": duty.environment or None,
        "duty.lifts_people": duty.lifts_people or None,
    }
    return write_spec({name: value for name, value in values.items() if value is not None})

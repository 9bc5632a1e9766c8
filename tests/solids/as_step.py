"""The writer of STEP files as tests call it: one position, or both ends of the stroke."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drafting.shape.pieces import Part
from drafting.solids.write_step import step_files


def step_bytes(
    name: str,
    parts: Sequence[Part],
    state: str,
    meta: Mapping[str, str],
    phantoms: Sequence[Part] = (),
) -> bytes:
    """The parts as they stand."""
    return step_files(name, parts, {state: 0.0}, meta, phantoms)[state]


def step_pair(
    name: str, parts: Sequence[Part], stroke: float, meta: Mapping[str, str]
) -> tuple[bytes, bytes]:
    """Both positions; ``stroke`` in mm."""
    made = step_files(name, parts, {"retracted": 0.0, "extended": stroke}, meta)
    return made["retracted"], made["extended"]

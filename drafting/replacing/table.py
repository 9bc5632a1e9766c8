"""The table of rules, in the order of a report. A new judgement is one more rule in its file."""

from __future__ import annotations

from drafting.replacing import (
    column,
    forces,
    lengths,
    motion,
    mounts,
    others,
    pin_length,
    pins,
    plates,
    ports,
    room,
    swivel,
    widths,
)
from drafting.replacing.rule import Rule

RULES: tuple[Rule, ...] = (
    *mounts.RULES,
    *lengths.RULES,
    *pins.RULES,
    *pin_length.RULES,
    *widths.RULES,
    *swivel.RULES,
    *room.RULES,
    *plates.RULES,
    *ports.RULES,
    *forces.RULES,
    *column.RULES,
    *motion.RULES,
    *others.RULES,
)

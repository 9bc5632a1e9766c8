"""Stroke, retracted and extended length: two give the third, three must agree."""

from __future__ import annotations

from dataclasses import dataclass

from drafting.model.ledger import Ledger

AGREE_MM = 0.5
"""How far three typed lengths may disagree before they are refused."""


@dataclass(frozen=True, slots=True)
class Lengths:
    """The three lengths in mm; ``extended - retracted == stroke`` always."""

    stroke: float
    retracted: float
    extended: float


def settle_lengths(book: Ledger) -> Lengths | None:
    """Settle the three lengths, or enter a fault and give None."""
    stroke, retracted, extended = (
        book.number(f"cylinder.{word}") for word in ("stroke", "retracted", "extended")
    )
    if stroke is not None and retracted is not None:
        if extended is not None:
            off = extended - retracted - stroke
            told = (
                f"extended {book.say(extended)} less retracted {book.say(retracted)} is "
                f"{book.say(extended - retracted)}, the stroke is {book.say(stroke)}"
            )
            if abs(off) > AGREE_MM:
                book.fault("lengths-disagree", "cylinder.extended", f"{told}; leave one out")
                return None
            if abs(off) > 1e-6:
                book.find("lengths-off", "note", "cylinder.extended", f"{told}; stroke rules")
        book.compute("cylinder.extended", retracted + stroke, "retracted plus stroke")
        return Lengths(stroke, retracted, retracted + stroke)
    if retracted is not None and extended is not None:
        book.compute("cylinder.stroke", extended - retracted, "extended less retracted")
        return Lengths(extended - retracted, retracted, extended)
    if stroke is not None and extended is not None:
        book.compute("cylinder.retracted", extended - stroke, "extended less stroke")
        return Lengths(stroke, extended - stroke, extended)
    return None

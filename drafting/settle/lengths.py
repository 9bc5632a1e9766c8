"""Stroke, retracted and extended: two give the third; of three, stroke and retracted rule."""

from __future__ import annotations

from drafting.records import dataclass
from drafting.settle.ledger import Ledger


@dataclass(frozen=True, slots=True)
class Lengths:
    """The three lengths in mm; ``extended - retracted == stroke`` always."""

    stroke: float
    retracted: float
    extended: float


def settle_lengths(book: Ledger) -> Lengths:
    """Settle the three lengths of a checked spec, which has two of them, or three that agree."""
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
            if abs(off) > 1e-6:
                book.find("lengths-off", "note", "cylinder.extended", f"{told}; stroke rules")
        book.compute("cylinder.extended", retracted + stroke, "retracted plus stroke")
        return Lengths(stroke, retracted, retracted + stroke)
    if retracted is not None and extended is not None:
        book.compute("cylinder.stroke", extended - retracted, "extended less retracted")
        return Lengths(extended - retracted, retracted, extended)
    assert stroke is not None
    assert extended is not None
    book.compute("cylinder.retracted", extended - stroke, "extended less stroke")
    return Lengths(stroke, extended - stroke, extended)

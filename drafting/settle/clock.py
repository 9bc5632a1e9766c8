"""Clock positions: one inner reading (degrees clockwise, seen from the rod end), two in words."""

from __future__ import annotations

from drafting.settle.ledger import Ledger


def viewpoint(book: Ledger) -> str:
    """Give the side from which the file's clocks are read: ``rod`` or ``base``."""
    return book.word("cylinder.clock_seen_from", "rod")


def seen_from_rod(degrees: float, viewpoint: str) -> float:
    """Turn a typed clock angle into the one seen from the rod end, 0 <= angle < 360."""
    return (degrees if viewpoint == "rod" else -degrees) % 360.0


def seen_from_base(degrees: float) -> float:
    """Give the reading from the base end of a clock angle seen from the rod end."""
    return -degrees % 360.0


def hour(degrees: float) -> str:
    """Say a clock angle: ``12:00``, ``1:30``, or degrees where it is no half hour."""
    halves = degrees / 15.0
    if abs(halves - round(halves)) > 1e-6:
        return f"{degrees:g} deg"
    halves = round(halves) % 24
    return f"{halves // 2 or 12}:{'30' if halves % 2 else '00'}"


def both_readings(degrees: float) -> str:
    """Say a clock angle from both ends: ``3:00 FROM ROD END / 9:00 FROM BASE``."""
    return f"{hour(degrees)} FROM ROD END / {hour(seen_from_base(degrees))} FROM BASE"

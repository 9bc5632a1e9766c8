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


def typed_in_degrees(book: Ledger, name: str) -> bool:
    """Tell whether a clock was typed in degrees, so that it is said so."""
    found = book.spec.get(name)
    return found is not None and ("deg" in found.typed or "\N{DEGREE SIGN}" in found.typed)


def hour(degrees: float, in_degrees: bool = False) -> str:
    """Say a clock angle: ``12:00``, ``1:10``; as ``35 deg`` where asked, or between two minutes."""
    minutes = degrees * 2
    if abs(minutes - round(minutes)) > 1e-6 or (in_degrees and degrees % 30.0):
        return f"{degrees:g} deg"
    hours, rest = divmod(round(minutes) % 720, 60)
    return f"{hours or 12}:{rest:02d}"


def both_readings(degrees: float, in_degrees: bool = False) -> str:
    """Say a clock angle from both ends: ``3:00 FROM ROD END / 9:00 FROM BASE``."""
    rod, base = (hour(d, in_degrees) for d in (degrees, seen_from_base(degrees)))
    return f"{rod} FROM ROD END / {base} FROM BASE"

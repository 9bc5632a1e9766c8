"""Tolerances settled on their sizes, and how they are written behind a number.

Only what was typed is here. A class whose deviations no table has stays a class: its deviations
are left open, never invented.
"""

from __future__ import annotations

from collections.abc import Mapping

from drafting.records import dataclass
from drafting.settle.ledger import Ledger
from drafting.spec.tolerance_sense import MARK, size_of
from drafting.units import Mm, format_inch, format_mm, mixed, nearest_fraction

INSIDE = ("bore", "hole", "gap")
"""Inside features: their classes are capital letters."""
OUTSIDE = ("rod", "pin", "bushing", "ball_width", "thickness", "grip", "gland_outside")


@dataclass(frozen=True, slots=True)
class Tolerance:
    """The tolerance of one size: deviations in mm (None: left open) and the class, if typed so.

    ``fractions`` tells that it was typed in fractions of an inch, ``places`` with how many decimals
    of ``unit``. ``why`` is the file and line, and for a class the row of the table.
    """

    name: str
    typed: str
    lower: Mm | None
    upper: Mm | None
    fit: str = ""
    fractions: bool = False
    why: str = ""
    places: int = 0
    unit: str = ""


def settle_tolerances(book: Ledger) -> dict[str, Tolerance]:
    """Give the typed tolerances by the name of their size; enters findings on odd ones."""
    found: dict[str, Tolerance] = {}
    if not any(MARK in name for name in book.spec.givens):
        return found
    from drafting.spec.tolerance import read_tolerance
    from drafting.standards.fits import fit

    for name, given in book.spec.givens.items():
        if MARK not in name:
            continue
        size = size_of(name)
        nominal = _nominal(book, size)
        read = read_tolerance(given.typed, book.spec.units)
        why = book.spec.where(name)
        lower: Mm | None = None
        upper: Mm | None = None
        if read.fit:
            band = fit(read.fit, abs(nominal))
            if band is not None:
                lower, upper = band.lower, band.upper
                why += f"; {band.where}, {band.confidence}"
            _judge_class(book, name, size, read.fit, band is not None)
        elif read.limits is not None:
            lower, upper = (limit - nominal for limit in read.limits)
        else:
            assert read.deviations is not None
            lower, upper = read.deviations
        said = (read.fit, read.fractions, why, read.places, read.unit)
        found[size] = Tolerance(size, given.typed, lower, upper, *said)
    _judge_pins(book, found)
    return found


def _nominal(book: Ledger, size: str) -> float:
    typed = book.spec.givens[size].value
    return float(typed[0] if isinstance(typed, tuple) else typed)


def _judge_class(book: Ledger, name: str, size: str, word: str, known: bool) -> None:
    inside = word[0].isupper()
    field = size.rpartition(".")[2]
    if not known:
        book.find(
            "fit-open",
            "note",
            name,
            f"the deviations of {word} at this size are in no table here: it is printed as typed, "
            "and the builder reads them in ISO 286-2",
        )
    if (field in INSIDE and not inside) or (field in OUTSIDE and inside):
        kind, other = ("inside", word.upper()) if field in INSIDE else ("outside", word.lower())
        book.find(
            "fit-side",
            "warning",
            name,
            f"{word} on an {kind} feature: capital letters are for holes, small ones for shafts; "
            f"{other}?",
            "ISO 286-1",
        )


def _judge_pins(book: Ledger, found: dict[str, Tolerance]) -> None:
    """Tell where the largest pin does not enter the smallest hole."""
    for end in ("body", "rod"):
        pin, hole = (book.spec.number(f"{end}_mount.{n}") for n in ("pin", "hole"))
        about = [found.get(f"{end}_mount.{n}") for n in ("pin", "hole")]
        if pin is None or hole is None or not any(about):
            continue
        most = pin + ((about[0].upper or 0.0) if about[0] else 0.0)
        least = hole + ((about[1].lower or 0.0) if about[1] else 0.0)
        if most > least + 1e-9:
            book.find(
                "pin-may-not-enter",
                "warning",
                f"{end}_mount.hole",
                f"the largest pin {book.say(most)} does not enter the smallest hole "
                f"{book.say(least)} that the tolerances allow",
            )


def tolerance_of(tolerances: Mapping[str, Tolerance], name: str) -> Tolerance | None:
    """Give the tolerance of a size, or of the pair that it is one of (``plate.y``)."""
    return tolerances.get(name) or tolerances.get(name.rpartition(".")[0])


def toleranced(size: Mm, t: Tolerance, unit: str, fractions: int) -> tuple[str, str]:
    """Give the number and what follows it, for a main unit "in" or "mm".

    Millimetres after ISO 129-1: deviations with equal decimals, zero as 0. Inches after ASME Y14.5:
    size and deviations with equal decimals, no leading zero, a zero with its sign (both recalled).
    No fewer decimals than were typed. Fractions where size and deviations were given so.
    """
    if t.lower is None or t.upper is None:
        return _number(size, unit, fractions), f" {t.fit}"
    if unit == "in" and t.fractions and fractions:
        parts = [nearest_fraction(abs(v), 64) for v in (size, t.upper, t.lower)]
        if all(p is not None for p in parts):
            main, up, down = (mixed(p) for p in parts if p is not None)
            if abs(t.upper + t.lower) < 1e-9:
                return main, f" ±{up}"
            return main, f" {_sign(t.upper)}{up} {_sign(t.lower, '-')}{down}"
    ends = (t.upper, t.lower)
    typed = t.places if t.unit == unit else 0
    if unit == "in":
        places = max(_places(v / 25.4, 4) for v in (*ends, size))
        places = max(places, typed, 2)
        main = format_inch(size, 0, places)
        up, down = (format_inch(abs(v), 0, places) for v in ends)
    else:
        places = max(typed, *(_places(v, 3) for v in ends))
        main = format_mm(size)
        up, down = (format_mm(abs(v), places) if abs(v) > 1e-9 else "0" for v in ends)
    if abs(t.upper + t.lower) < 1e-9:
        band = f"±{up}"
    else:
        zeros = ("+", "-") if unit == "in" else ("", "")
        band = f"{_sign(t.upper, zeros[0])}{up}/{_sign(t.lower, zeros[1])}{down}"
    return main, f" {t.fit} ({band})" if t.fit else f" {band}"


def _number(size: Mm, unit: str, fractions: int) -> str:
    return format_inch(size, fractions) if unit == "in" else format_mm(size)


def _sign(value: float, zero: str = "+") -> str:
    return zero if abs(value) <= 1e-9 else "+" if value > 0 else "-"


def _places(value: float, most: int) -> int:
    """Give how many decimals a value needs, ``most`` where no number of them is exact."""
    return next((n for n in range(most) if abs(round(value, n) - value) < 1e-6), most)

"""What was read on a thread, how sure it is, and how well it agrees with a thread of the tables."""

from __future__ import annotations

from math import exp

from drafting.records import dataclass
from drafting.standards.bands import Band, KnownThread

CALIPER_MM = 0.1
"""How far a caliper reading of a thread's crests is trusted; common practice."""
GAUGE = 0.01
"""How far a pitch gauge is trusted, as a part of the pitch; common practice."""
WORN_MM, NEW_MM = 0.20, 0.12
"""Spread beyond the standard's band. Wear and damage make a male read small and a hole large, so
that side is wider. Set so that printed identification charts, which miss the bands by up to 0.16 mm
above and 0.4 mm below, still lead to their thread."""
TAPER_MISREAD = 0.02
"""How likely a taper told by eye or by two readings is wrong; common practice."""
SEAT_MISREAD, SEAT_UNUSUAL = 0.05, 0.15
"""How likely a seat is misread, or belongs to a family that has none of its own."""
SEAT_DEG = 4.0


class ReadingError(ValueError):
    """Readings that cannot be used: ``code``, the ``field`` and a ``message``."""

    def __init__(self, code: str, field: str, message: str) -> None:
        self.code, self.field, self.message = code, field, message
        super().__init__(message)


@dataclass(frozen=True, slots=True)
class Readings:
    """What was read. Lengths in mm with their uncertainty, the seat's angle in degrees."""

    female_mm: float | None
    male_mm: float | None
    pitch_mm: float | None
    taper: bool | None
    seat_deg: float | None
    female_uncertainty_mm: float
    male_uncertainty_mm: float
    pitch_uncertainty_mm: float
    notes: tuple[str, ...]


def take(
    female_mm: float | None,
    male_mm: float | None,
    pitch_mm: float | None,
    tpi: float | None,
    taper: bool | None,
    seat_deg: float | None,
    female_uncertainty_mm: float | None,
    male_uncertainty_mm: float | None,
    pitch_uncertainty_mm: float | None,
) -> Readings:
    """Check the readings and settle their uncertainties; raise ``ReadingError``."""
    numbers = {
        "female": (female_mm, 2.0, 300.0, "mm"),
        "male": (male_mm, 2.0, 300.0, "mm"),
        "pitch": (pitch_mm, 0.2, 10.0, "mm"),
        "tpi": (tpi, 2.5, 100.0, "per inch"),
        "seat": (seat_deg, 5.0, 120.0, "degrees"),
    }
    for field, (value, low, high, unit) in numbers.items():
        if value is not None and not low <= value <= high:
            raise ReadingError(
                "out-of-range",
                field,
                f"{value:g} {unit} is no reading of a thread; it lies between {low:g} and {high:g}",
            )
    if female_mm is None and male_mm is None:
        raise ReadingError(
            "no-diameter",
            "female",
            "a diameter is needed: inside of the hole's thread (female) or outside of the "
            "fitting's thread (male)",
        )
    if female_mm is not None and male_mm is not None and female_mm >= male_mm:
        raise ReadingError(
            "female-not-smaller",
            "female",
            f"the hole reads {female_mm:g} mm over its crests and the male {male_mm:g} mm; a male "
            "that fits is larger. If both are of one kind, give them one at a time",
        )
    by_tpi = 25.4 / tpi if tpi else None
    if pitch_mm and by_tpi and abs(pitch_mm - by_tpi) > 0.03 * by_tpi:
        raise ReadingError(
            "two-pitches",
            "pitch",
            f"a pitch of {pitch_mm:g} mm is {25.4 / pitch_mm:.4g} threads per inch, not {tpi:g}; "
            "give one of the two",
        )
    pitch = by_tpi or pitch_mm
    notes: list[str] = []

    def sure(field: str, mm: float | None, given: float | None) -> float:
        step = None if mm is None or given is not None else fraction_step(mm)
        if step is None:
            return given if given is not None else CALIPER_MM
        notes.append(
            f"{field}: a whole 1/{step} in, so taken as read to the nearest 1/{step} in; "
            "a caliper reading with three decimals says more"
        )
        return 25.4 / step / 2

    return Readings(
        female_mm,
        male_mm,
        pitch,
        taper,
        seat_deg,
        sure("female", female_mm, female_uncertainty_mm),
        sure("male", male_mm, male_uncertainty_mm),
        pitch_uncertainty_mm if pitch_uncertainty_mm is not None else GAUGE * (pitch or 0.0),
        tuple(notes),
    )


def fraction_step(mm: float) -> int | None:
    """Give 16, 32 or 64 when a length is a whole number of such parts of an inch, else None."""
    for step in (16, 32, 64):
        parts = mm / 25.4 * step
        if abs(parts - round(parts)) < 1e-4 * step / 16:
            return step
    return None


def agreement(k: KnownThread, r: Readings) -> float:
    """Give how well a thread agrees with the readings, 1 fully, towards 0 not at all."""
    score = 1.0
    if r.male_mm is not None:
        score *= _in_band(r.male_mm, r.male_uncertainty_mm, k.male, WORN_MM, NEW_MM)
    if r.female_mm is not None:
        score *= _in_band(r.female_mm, r.female_uncertainty_mm, k.female, NEW_MM, WORN_MM)
    if r.pitch_mm is not None:
        score *= _bell(k.pitch_mm - r.pitch_mm, max(r.pitch_uncertainty_mm, 1e-4))
    if r.taper is not None and r.taper != k.taper:
        score *= TAPER_MISREAD
    if r.seat_deg is not None and not has_seat(k, r.seat_deg):
        score *= SEAT_MISREAD if k.seats else SEAT_UNUSUAL
    return score


def has_seat(k: KnownThread, degrees: float) -> bool:
    """Tell whether a thread's seat has this angle (from the axis or included)."""
    return any(abs(s - degrees) <= SEAT_DEG for s in k.seats)


def outside(mm: float, band: Band) -> float:
    """Give how far a reading lies beyond a band: + above, - below, 0 within (mm)."""
    return max(mm - band[1], 0.0) + min(mm - band[0], 0.0)


def _in_band(mm: float, uncertainty: float, band: Band, below: float, above: float) -> float:
    miss = outside(mm, band)
    rest = max(abs(miss) - uncertainty / 2, 0.0)
    return _bell(rest, ((below if miss < 0 else above) ** 2 + (uncertainty / 2) ** 2) ** 0.5)


def _bell(miss: float, spread: float) -> float:
    return exp(-0.5 * (miss / spread) ** 2)

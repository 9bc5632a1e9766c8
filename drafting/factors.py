"""Kinds of quantity, and the exact factor of every unit that is read without further help.

The factors are exact by definition (NIST SP 811, appendix B: inch, pound, gallon; standard gravity
9.80665 m/s2; imperial gallon 4.54609 l); the tests prove each against another library.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction
from typing import Literal

from drafting.records import dataclass
from drafting.values import Unit

Quantity = Literal[
    "length", "pressure", "flow", "force", "mass", "temperature", "angle", "acceleration"
]

INCH = Fraction("25.4")
_POUND = Fraction("0.45359237")
_GRAVITY = Fraction("9.80665")
_LBF = _POUND * _GRAVITY
_GALLON = 231 * INCH**3 / 10**6
_IMPERIAL_GALLON = Fraction("4.54609")
_THREE_TONS = 'three different {}: write "9 short {}" ({}), "9 long {}" ({}) or "9 metric {}" ({})'
_FORCE_TONS = _THREE_TONS.format(
    "forces", "tonf", "2000 lbf", "tonf", "2240 lbf", "tonf", "1000 kgf"
)
_MASS_TONS = _THREE_TONS.format("masses", "ton", "2000 lb", "ton", "2240 lb", "ton", "1000 kg")


class Misread(ValueError):
    """What was typed is not such a quantity; the message says why and what would do."""

    def __init__(self, code: str, message: str) -> None:
        self.code = code
        super().__init__(message)


def _spellings(rows: Mapping[str, Fraction | int | str]) -> dict[str, Fraction]:
    return {word: Fraction(factor) for words, factor in rows.items() for word in words.split("|")}


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its words, its unit inside, factors to it, and the limits of sense."""

    phrase: str
    unit: Unit
    pint: str
    examples: tuple[str, str]
    factors: Mapping[str, Fraction]
    least: float
    most: float
    unclear: Mapping[str, str] = field(default_factory=dict)
    shifts: Mapping[str, Fraction] = field(default_factory=dict)

    @property
    def code(self) -> str:
        """Give the code of a fault about it: ``not-a-length``."""
        return "not-" + self.phrase.replace(" ", "-")

    @property
    def example(self) -> str:
        """Give two ways to write it, for a message."""
        return f'"{self.examples[0]}" or "{self.examples[1]}"'


KINDS: dict[Quantity, Kind] = {
    "length": Kind(
        "a length",
        "mm",
        "mm",
        ("3 1/2 in", "88.9 mm"),
        _spellings(
            {
                "mm|millimetre|millimetres|millimeter|millimeters": 1,
                "cm|centimetre|centimetres|centimeter|centimeters": 10,
                "m|metre|metres|meter|meters": 1000,
                'in|inch|inches|"': INCH,
                "ft|foot|feet|'": 12 * INCH,
            }
        ),
        1e-4,
        1e5,
        {"mil": 'a thousandth of an inch, or a millimetre; write ".003 in" or "3 mm"'},
    ),
    "pressure": Kind(
        "a pressure",
        "mpa",
        "MPa",
        ("2500 psi", "172 bar"),
        _spellings(
            {
                "psi|psig|lbf/in2": _LBF / INCH**2,
                "ksi": 1000 * _LBF / INCH**2,
                "bar|barg": "0.1",
                "mbar": "0.0001",
                "MPa|N/mm2": 1,
                "kPa": "0.001",
                "Pa": "0.000001",
                "kgf/cm2|kg/cm2": _GRAVITY / 100,
                "atm": "0.101325",
            }
        ),
        1e-6,
        1e3,
        {"mPa": 'a thousandth of a pascal when read as written; for megapascals write "25 MPa"'},
    ),
    "flow": Kind(
        "a flow",
        "l_s",
        "L/s",
        ("11 gal/min", "42 L/min"),
        _spellings(
            {
                "gal/min|gpm|US gal/min|US gpm|gallon/min|gallons/min": _GALLON / 60,
                "UK gal/min|imperial gal/min|UK gpm": _IMPERIAL_GALLON / 60,
                "L/min|lpm|litre/min|litres/min|liter/min|liters/min": Fraction(1, 60),
                "L/s": 1,
                "m3/h": Fraction(1000, 3600),
                "cm3/s|cc/s": Fraction(1, 1000),
                "cm3/min|cc/min": Fraction(1, 60000),
                "in3/s": INCH**3 / 10**6,
                "in3/min": INCH**3 / 10**6 / 60,
            }
        ),
        1e-6,
        1e4,
    ),
    "force": Kind(
        "a force",
        "n",
        "N",
        ("18000 lbf", "30 kN"),
        _spellings(
            {
                "N": 1,
                "kN": 1000,
                "MN": 10**6,
                "lbf": _LBF,
                "kip|kips|kipf": 1000 * _LBF,
                "kgf|kp": _GRAVITY,
                "short tonf|US tonf|short tons-force": 2000 * _LBF,
                "long tonf|UK tonf|long tons-force": 2240 * _LBF,
                "metric tonf|tonnes-force": 1000 * _GRAVITY,
            }
        ),
        1e-3,
        1e9,
        dict.fromkeys(("tonf", "ton", "tons", "tonsf", "t", "tonne", "tonnes"), _FORCE_TONS),
    ),
    "mass": Kind(
        "a mass",
        "kg",
        "kg",
        ("1200 lb", "550 kg"),
        _spellings(
            {
                "kg": 1,
                "g": "0.001",
                "lb|lbs|lbm|pound|pounds": _POUND,
                "oz": _POUND / 16,
                "short ton|short tons|US ton|US tons": 2000 * _POUND,
                "long ton|long tons|UK ton|UK tons": 2240 * _POUND,
                "metric ton|metric tons|tonne|tonnes|t": 1000,
            }
        ),
        1e-6,
        1e8,
        dict.fromkeys(("ton", "tons"), _MASS_TONS),
    ),
    "temperature": Kind(
        "a temperature",
        "degc",
        "degC",
        ("180 degF", "80 degC"),
        _spellings({"degC|C": 1, "degF|F": Fraction(5, 9), "K|kelvin": 1}),
        -200.0,
        2000.0,
        shifts={
            "degF": Fraction(-160, 9),
            "F": Fraction(-160, 9),
            "K": Fraction("-273.15"),
            "kelvin": Fraction("-273.15"),
        },
    ),
    "angle": Kind(
        "an angle",
        "deg",
        "degree",
        ("45 deg", "30 deg"),
        _spellings({"deg|degree|degrees": 1}),
        1e-6,
        3600.0,
    ),
    "acceleration": Kind(
        "an acceleration",
        "mm_s2",
        "mm/s**2",
        ("3 ft/s2", "1 m/s2"),
        _spellings(
            {"m/s2": 1000, "mm/s2": 1, "ft/s2": 12 * INCH, "in/s2": INCH, "g": 1000 * _GRAVITY}
        ),
        1e-3,
        1e7,
    ),
}
"""Every unit that is read without further help. To add one, add a row."""

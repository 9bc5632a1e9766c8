"""Worked cases as found in books: rows of a table, and how well a printed number can be met."""

import csv
import re
from pathlib import Path

DATA = Path(__file__).parent / "data"

UNIT = {"in": 25.4, "psi": 0.006894757293168, "lbf": 4.4482216152605, "mm": 1.0, "MPa": 1.0}
"""To mm, MPa, N; exact by definition of the inch and the pound."""


def rows(name: str) -> list[dict[str, str]]:
    """The rows of ``data/NAME.csv``."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def half_digit(printed: str) -> float:
    """Half a unit of the last digit that was printed: 0.05 for 26.8, 5e4 for 2.55e7."""
    number, _, power = printed.lower().partition("e")
    digits = number.rstrip("0").rstrip(".") if float(power or 0) else number
    places = len(digits.partition(".")[2])
    return 0.5 * 10.0 ** (int(power or 0) - places)


def same(ours: float, case: dict[str, str], slack: float | None = None, own: float = 1e-5) -> None:
    """Demand the printed answer within its rounding, and the table's own recomputation.

    ``slack`` is a relative difference that the book's own rounding on the way explains; ``own``
    is how well the recomputation is to be met.
    """
    computed = float(case["computed_answer"])
    assert abs(ours - computed) <= own * abs(computed), (ours, computed)
    if case["published_answer"]:
        printed = case["published_answer"]
        allowed = half_digit(printed) * 1.0001 if slack is None else slack * abs(computed)
        assert abs(ours - float(printed)) <= allowed, (ours, printed)


def sizes(text: str) -> dict[str, float]:
    """Numbers in words such as ``OD 60 mm; p 16 MPa``, by the words before them, as printed."""
    found = {}
    for part in text.split(";"):
        for words, number in re.findall(r"([A-Za-z][A-Za-z ]*?) ([0-9.]+)", part):
            found[words.strip()] = float(number)
    return found


def test_half_a_digit():
    assert half_digit("26.8") == 0.05
    assert half_digit("4418") == 0.5
    assert abs(half_digit("25500000.0") - 0.05) < 1e-12
    assert half_digit("2.5e7") == 0.5e6

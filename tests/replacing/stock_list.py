"""A made-up stock list with the dirt that lists have, and what every row of it really is.

Run as a script: ``python -m tests.replacing.stock_list out.csv 50000``.
"""

from __future__ import annotations

import csv
import random
import sys
from collections.abc import Iterator
from pathlib import Path

HEADINGS = (
    "Part no.", "Bore", "Rod", "Stroke", "Closed", "Base mount", "Base pin", "Base hole",
    "Base width", "Base outside", "Rod mount", "Rod pin", "Rod hole", "Rod width", "Rod outside",
    "Base port", "Rod port", "Pressure (psi)", "Barrel OD", "Shelf",
)  # fmt: skip
UNITS = ("", *["in"] * 4, "", *["in"] * 4, "", *["in"] * 4, "", "", "psi", "in", "")
BORES = (2, 2.5, 3, 3.5, 4)
PINS = (0.75, 1, 1.25)
PORTS = ("SAE-8", "SAE-6", "1/2 NPT", "SAE-10", "3/8 NPT")


def fraction(size: float, dice: random.Random, comma: bool = False) -> str:
    """A size in inches as one of the ways in which people write it."""
    whole, part = int(size), size - int(size)
    sixteenths = round(part * 16)
    ways = [f"{size:g}"]
    if part and abs(part * 16 - sixteenths) < 1e-9:
        top, bottom = sixteenths, 16
        while top % 2 == 0:
            top, bottom = top // 2, bottom // 2
        said = f"{top}/{bottom}"
        ways += [f"{whole}-{said}" if whole else said, f'{whole} {said}"' if whole else f'{said}"']
    else:
        ways.append(f"{size:g} in")
    text = dice.choice(ways)
    if dice.random() < 0.05:
        text = f"{size * 25.4:.5g} mm"
    return text.replace(".", ",") if comma else text


def rows(count: int, seed: int = 7, comma: bool = False) -> Iterator[list[str]]:
    """Rows of cells, the headings not among them."""
    dice = random.Random(seed)
    for k in range(count):
        bore = dice.choice(BORES)
        rod = bore / 2 if dice.random() < 0.7 else bore / 2 + 0.25
        stroke = dice.randrange(8, 60)
        closed = stroke + dice.choice((10, 11, 12, 12.25))
        pins = dice.choice(PINS), dice.choice(PINS)
        sizes = [bore, rod, stroke, closed]
        base = [pins[0], pins[0] + 1 / 64, dice.choice((2.5, 2.75, 3)), 2 * pins[0]]
        end = [pins[1], pins[1] + 1 / 64, dice.choice((2, 2.5, 2.625)), 2 * pins[1]]
        mounts = "cross tube", dice.choice(("cross tube", "cross tube", "clevis", "Tube"))
        dirt = dice.random()
        name = dice.choice(("K", "ZK")) + f"-{1000 + k}"
        if dirt < 0.01:
            name = f"=cmd|'{k}'"
        cells = [
            name,
            *(fraction(x, dice, comma) for x in sizes),
            mounts[0],
            *(fraction(x, dice, comma) for x in base),
            mounts[1],
            *(fraction(x, dice, comma) for x in end),
            dice.choice(PORTS),
            dice.choice(PORTS),
            str(dice.choice((2500, 3000))),
            fraction(bore + 0.5, dice, comma),
            f"{dice.choice('ABC')}{dice.randrange(40)}",
        ]
        if 0.01 < dirt < 0.03:
            cells[dice.randrange(6, 15)] = dice.choice(("", "-", "n/a"))
        elif 0.03 < dirt < 0.035:
            cells[2] = "1-1/4 / 32"
        elif 0.035 < dirt < 0.037:
            cells = [""] * len(cells)
        elif 0.037 < dirt < 0.039:
            cells = list(HEADINGS)
        yield cells


def write_csv(path: Path, count: int, delimiter: str = ",", encoding: str = "utf-8") -> None:
    """Write a list as CSV, with a units row under the headings."""
    with path.open("w", encoding=encoding, newline="") as out:
        writer = csv.writer(out, delimiter=delimiter)
        writer.writerow(HEADINGS)
        writer.writerow(UNITS)
        writer.writerows(rows(count, comma=delimiter == ";"))


def write_xlsx(path: Path, count: int) -> None:
    """Write a list as a workbook."""
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    sheet = book.create_sheet("stock")
    sheet.append(HEADINGS)
    sheet.append(UNITS)
    for cells in rows(count):
        sheet.append([_cell(c) for c in cells])
    book.save(path)


def _cell(text: str) -> str | float | None:
    if text.startswith("="):
        return f"'{text}"
    try:
        return float(text)
    except ValueError:
        return text or None


if __name__ == "__main__":
    target, number = Path(sys.argv[1]), int(sys.argv[2])
    (write_xlsx if target.suffix == ".xlsx" else write_csv)(target, number)

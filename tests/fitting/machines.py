"""Machines of tests: written as text, read as a file would be."""

from __future__ import annotations

from pathlib import Path

from drafting.fitting.machine import DEEPEST, Machine, machine_of
from drafting.model.load import load, read
from drafting.spec.read import read_document

SPECS = Path(__file__).parent.parent.parent / "specs"
PAIRS = {
    "wagon-tailboard": "tailboard-lift",
    "lock-latch": "gate-latch",
    "saw-carriage": "timber-carriage",
    "bin-arms": "orchard-tipper",
}
"""The sample machines and the cylinder that each is made for."""

HINGE = """
title = "Flap"
units = "mm"
[hinge]
at = [0, 0]
base_pin = {base}
rod_pin = {rod}
from = {low}
to = {high}
{loads}
"""


def machine(text: str) -> Machine:
    """Read a machine from its text."""
    return machine_of(read_document(text.encode(), "machine.toml", DEEPEST))


def hinge(base, rod, low, high, loads="") -> Machine:
    """Give an arm about the origin."""
    text = HINGE.format(base=list(base), rod=list(rod), low=low, high=high, loads=loads)
    return machine(text)


def weight(kg, x, y) -> str:
    """Give a load of so many kg at a point of the arm."""
    return f'[[hinge.load]]\nmass = "{kg} kg"\nat = [{x}, {y}]\n'


def cylinder(name: str):
    """Settle one of the sample specs."""
    return load(read(str(SPECS / f"{name}.toml"), None))

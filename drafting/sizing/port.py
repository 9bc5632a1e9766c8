"""The port for a flow: the smallest of its family in which oil runs no faster than is usual."""

from __future__ import annotations

from math import pi

from drafting.calc.types import MM3_PER_LITRE
from drafting.model.ports.sizes import PASSAGE
from drafting.standards.port_thread import PortThread, ports

FAMILIES = ("SAE ORB", "ISO 6149", "G", "NPT")
USUAL = {"in": "SAE ORB", "mm": "ISO 6149"}
FASTEST = 6000.0
"""Oil in a port in mm/s: 6 m/s in pressure lines, common practice, from memory."""
SELDOM = ("-2", "-3", "-5", "-14")
"""Dash sizes that few fittings are made for, common practice; never chosen."""


LEAST_MM = 11.0
"""No thread smaller than this, however little flows: no hose fits it. Common practice."""


def ports_for(flow: float, family: str) -> tuple[PortThread, ...]:
    """Give the ports of a family for a flow in l/s, best first.

    That is the smallest that is large enough, and after it, for a barrel too narrow for it, the
    smaller ones; the largest of all first where none is large enough.
    """
    usable = [p for p in ports() if p.family == family and p.major_mm >= LEAST_MM]
    usable = [p for p in usable if p.dash not in SELDOM]
    usable.sort(key=lambda p: p.major_mm)
    enough = next((k for k, p in enumerate(usable) if carries(p) >= flow), len(usable) - 1)
    return tuple(reversed(usable[: enough + 1]))


def carries(port: PortThread) -> float:
    """Give the flow in l/s that is usual through the drilling behind a port, as drawn."""
    return FASTEST * pi / 4 * (PASSAGE * port.major_mm) ** 2 / MM3_PER_LITRE


def word_of(port: PortThread) -> str:
    """Give the shortest word that a spec takes for a port: its dash size, else its thread."""
    return f"SAE{port.dash}" if port.family == "SAE ORB" and port.dash else port.spelling

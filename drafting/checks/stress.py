"""Strength over stress: the factor, the pressure that counts, the area of a thread."""

from __future__ import annotations

from math import inf

from drafting.calc import thread as threads
from drafting.checks.check import LoadCase
from drafting.checks.numbers import Thread

FEW = 1e-9


def inside(case: LoadCase) -> float:
    """Give the greater of both sides' pressures, MPa."""
    return max(case.base, case.rod_side)


def over(strength: float, stress: float) -> float:
    """Give a factor; endless without a stress, none where no metal is left."""
    return inf if stress == 0.0 else max(strength / stress, 0.0) if stress > 0 else 0.0


def mpa(stress: float) -> str:
    """Say a stress, or that there is no metal to bear it."""
    return "no metal left" if stress == inf else f"{stress:.0f} MPa"


def area_of(t: Thread) -> float:
    """Give the tensile stress area of a thread, mm2."""
    area = threads.stress_area_metric if t.metric else threads.stress_area_unified
    return area(t.major, t.pitch)

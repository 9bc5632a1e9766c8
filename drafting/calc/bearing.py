"""Spherical plain bearings and bushings."""

from __future__ import annotations

from drafting.units import N, One


def static_factor(rating: N, load: N) -> One:
    """Factor between a bearing's static rating and its greatest load, C0 / F.

    Symbols: static rating C0 (N) from the bearing's maker or standard, greatest radial load F (N).
    Holds: for a radial load; a load along the pin lowers it. The series of sizes alone gives no C0.
    Source: definition, as in ISO 76 for rolling bearings.

    >>> static_factor(120_000.0, 40_000.0)
    3.0
    """
    return rating / load

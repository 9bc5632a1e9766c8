"""Threads in tension and their flanks in shear (60 degree profile: metric and unified)."""

from __future__ import annotations

from math import pi

from drafting.units import Mm, Mm2, MPa, N, One


def stress_area_metric(diameter: Mm, pitch: Mm) -> Mm2:
    """Tensile stress area of a metric thread, pi/4 (d - 0.9382 P)^2.

    Symbols: major diameter d, pitch P (mm).
    Holds: for the ISO profile; mean of pitch and root diameter.
    Source: ISO 898-1 (from memory): M20x2.5 gives 245 mm2.

    >>> round(stress_area_metric(20.0, 2.5))
    245
    """
    return pi / 4 * (diameter - 0.9382 * pitch) ** 2


def stress_area_unified(diameter: Mm, pitch: Mm) -> Mm2:
    """Tensile stress area of a unified inch thread, pi/4 (d - 0.9743 P)^2.

    Symbols: major diameter d, pitch P (mm, 25.4 over threads per inch).
    Holds: for the unified profile.
    Source: ASME B1.1 (from memory): 1/2-20 gives 0.160 in2.

    >>> round(stress_area_unified(12.7, 1.27) / 645.16, 3)
    0.16
    """
    return pi / 4 * (diameter - 0.9743 * pitch) ** 2


def root_diameter(diameter: Mm, pitch: Mm) -> Mm:
    """Root diameter of the male thread, d - 1.2269 P.

    Symbols: major diameter d, pitch P (mm).
    Holds: for a rounded root of H/6.
    Source: ISO 68-1, ISO 724 with root d3 (from memory): M20x2.5 gives 16.933 mm.

    >>> round(root_diameter(20.0, 2.5), 3)
    16.933
    """
    return diameter - 1.2269 * pitch


def male_shear_area(diameter: Mm, pitch: Mm, engaged: Mm) -> Mm2:
    """Area in which a male thread strips, 3/4 pi D1 L at the female minor diameter.

    D1 = d - 1.0825 P; the male tooth is 3/4 P thick there.

    Symbols: major diameter d, pitch P, engaged length L (mm).
    Holds: for the basic profile without tolerances, all turns taking a like share. Worn, coarse or
    long threads do not: take a part of L.
    Source: FED-STD-H28, thread shear area, at basic sizes (from memory).

    >>> round(male_shear_area(20.0, 2.5, 16.0))
    652
    """
    return 0.75 * pi * (diameter - 1.0825 * pitch) * engaged


def female_shear_area(diameter: Mm, engaged: Mm) -> Mm2:
    """Area in which a female thread strips, 7/8 pi d L at the male major diameter.

    Symbols: major diameter d, engaged length L (mm); the female tooth is 7/8 P thick there.
    Holds: as ``male_shear_area``.
    Source: FED-STD-H28, thread shear area, at basic sizes (from memory).

    >>> round(female_shear_area(20.0, 16.0))
    880
    """
    return 0.875 * pi * diameter * engaged


def shear_stress(force: N, area: Mm2) -> MPa:
    """Mean shear stress on a strip of thread, F / A.

    Symbols: force F (N), area A (mm2).
    Holds: as the area's formula; set it against the shear strength of that part's metal.
    Source: definition.

    >>> round(shear_stress(65_000.0, male_shear_area(20.0, 2.5, 16.0)), 1)
    99.7
    """
    return force / area


def gland_thread_force(bore: Mm, rod: Mm, pressure: MPa, pull_out: N = 0.0) -> N:
    """Force that drives the gland out of the barrel, p pi (D^2 - d^2) / 4 + F.

    Symbols: bore D (the seal's diameter in the barrel), rod d (mm), pressure p on the rod side,
    force F with which the piston stands against the gland (N), fully out.
    Holds: fully out the pump's whole push may stand against the gland: then F is that push less
    what the load takes.
    Source: force balance of the gland.

    >>> round(gland_thread_force(80.0, 45.0, 20.0))
    68722
    """
    return pressure * pi / 4 * (bore**2 - rod**2) + pull_out


def shear_strength(strength: MPa, share: One = 3**-0.5) -> MPa:
    """Yield in shear from yield in tension, Sy / sqrt 3.

    Symbols: yield strength Sy (MPa), share (0.577; older books take 0.5).
    Holds: for ductile metal.
    Source: von Mises.

    >>> round(shear_strength(355.0))
    205
    """
    return strength * share

"""Annotated types that only the formulas use; the everyday ones are in ``drafting.units``.

The formulas work in one coherent set of units, mm, N, MPa, s and kg, so that no conversion factor
hides in them: 1 MPa = 1 N/mm2, 1 litre = 1e6 mm3, 1 kW = 1e6 N mm/s. The tests run each function
with real quantities of the annotated units and demand both the unit and the number.
"""

from __future__ import annotations

from typing import Annotated

Mm3PerS = Annotated[float, "mm**3/s"]
NMm2 = Annotated[float, "N*mm**2"]
NPerMm = Annotated[float, "N/mm"]
NMmPerS = Annotated[float, "N*mm/s"]
NPerKg = Annotated[float, "N/kg"]
KgPerMm3 = Annotated[float, "kg/mm**3"]

MM3_PER_LITRE = 1e6
STANDARD_GRAVITY: NPerKg = 9.80665
"""Standard acceleration of fall, exact by convention (ISO 80000-3)."""
STEEL_DENSITY: KgPerMm3 = 7.85e-6
"""Density of steel, common practice."""
STEEL_MODULUS = 206_000.0
"""Young's modulus of steel in MPa, common practice (books print 200 000 to 210 000)."""
STEEL_POISSON = 0.3
"""Poisson's ratio of steel, common practice."""

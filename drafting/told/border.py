"""The cautions in their short form, for the border of a drawing; nothing else is loaded."""

from __future__ import annotations

ON_THE_SHEET = (
    "Outline from the sizes given; an estimate, not a certificate and not a design approval. "
    "Check every size on the machine before metal is cut.",
    "Block the load and relieve and lock out all pressure before any work on the cylinder.",
    "Never push a rod out with air. Oil under the skin is an emergency: go to hospital at once.",
    "The lowest-rated part sets the pressure: hose, fitting, valve, weld, seal and pin count too.",
    "Not for lifting or holding people. Load holding and factors of safety are for a qualified "
    "engineer to set, under the local code.",
)
"""The short form, for the border of a drawing."""
SPRING = "A packed return spring holds energy without any oil: never loosen the gland by hand."
REFUSED_ON_THE_SHEET = (
    "LIFTS OR CARRIES PEOPLE: not called safe by this drawing. A licensed engineer and the "
    "authority in charge decide."
)


def sheet_cautions(lifts_people: bool, spring: bool) -> tuple[str, ...]:
    """Give the short cautions for the drawing itself; ``spring`` brings the rod back."""
    refused = (REFUSED_ON_THE_SHEET,) if lifts_people else ()
    return (*refused, *ON_THE_SHEET, *((SPRING,) if spring else ()))

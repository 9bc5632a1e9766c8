"""The cautions that every sheet and report carries, in the project's own words."""

from __future__ import annotations

from drafting.model.cylinder import Cylinder

ALWAYS = (
    "Outline from the sizes given; an estimate, not a certificate and not a design approval. "
    "Check every size on the machine before metal is cut.",
    "Block the load and relieve and lock out all pressure before any work on the cylinder.",
    "Never push a rod out with air. Oil under the skin is an emergency: go to hospital at once.",
    "The lowest-rated part sets the pressure: hose, fitting, valve, weld, seal and pin count too.",
    "Not for lifting or holding people. Load holding and factors of safety are for a qualified "
    "engineer to set, under the local code.",
)


def cautions(c: Cylinder) -> tuple[str, ...]:
    """Give the cautions that apply to a cylinder."""
    lifts = c.spec.get("duty.lifts_people")
    if lifts is not None and lifts.value is True:
        return (
            "LIFTS OR CARRIES PEOPLE: this tool does not call such a design safe. A licensed "
            "engineer and the authority in charge decide.",
            *ALWAYS,
        )
    return ALWAYS

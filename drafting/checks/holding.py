"""A load that can fall: what must hold it, and what does not."""

from __future__ import annotations

from drafting.checks.numbers import CylinderNumbers
from drafting.values import Finding

NO_HOLDING_VALVE = (
    "the load can fall: a plugged or shut port is no holding valve, and a valve at the pump holds "
    "nothing when a hose bursts. Fit a holding valve on the cylinder's own port, and a mechanical "
    "prop for whoever works under it"
)
SOURCE = "ISO 4413; ISO 8643 for booms of earth-moving machines"


def can_fall(n: CylinderNumbers) -> bool:
    """Tell whether the duty says that weight acts along the stroke, or leaves it open for a mass.

    Where nothing is said of a load at all the cautions speak of it.
    """
    d = n.duty
    if d.angle is not None:
        return d.angle.value != 0.0
    if d.orientation:
        return d.orientation != "horizontal"
    return d.mass is not None


def falling_load(n: CylinderNumbers) -> tuple[Finding, ...]:
    """Give the warning that a load which can fall always brings."""
    if not can_fall(n):
        return ()
    field = "duty.angle" if n.duty.angle else "duty.orientation"
    return (Finding("load-can-fall", "warning", field, NO_HOLDING_VALVE, SOURCE),)

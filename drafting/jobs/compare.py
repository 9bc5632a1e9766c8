"""Compare: two cylinders, each from a spec, an output made from one, or a file of readings."""

from __future__ import annotations

import tomllib
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.jobs.recover import older
from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load
from drafting.records import dataclass
from drafting.replacing.rule import Known

READINGS = ("tape", "caliper", "micrometer")
"""Tables that only a file of readings has."""


@dataclass(frozen=True, slots=True)
class Taken:
    """A cylinder with what is still open about it, where it was read off an old one."""

    cylinder: Cylinder
    open: tuple[str, ...] = ()


def taken(path: Path, shop: str | None = None) -> Taken:
    """Load a cylinder from whatever holds it; raises Refused in plain words."""
    if not _readings(path):
        return Taken(older(path, shop))
    from drafting.measuring.measure import measure

    measured = measure(path)
    still = tuple(f"{o.name}: {o.what}" for o in measured.open)
    try:
        cylinder = load(checked(measured.spec.encode("utf-8"), str(path)))
    except Refused as refused:
        why = "; ".join(still[:4]) or "; ".join(f.message for f in refused.faults[:4])
        message = (
            f"these readings are no whole cylinder yet: {why}. Finish them with drafting measure "
            f"{path.name} --ask"
        )
        raise Refused([Fault(str(path), 1, 1, "not-measured", "", message)]) from refused
    return Taken(cylinder, still)


def machine_known(path: str | None) -> Known:
    """Give what a machine file says, nothing without one; raises Refused."""
    if path is None:
        return {}
    from drafting.fitting.machine import read_machine
    from drafting.fitting.subject import known

    return known(read_machine(path))


def _readings(path: Path) -> bool:
    if path.suffix.lower() != ".toml":
        return False
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, ValueError, RecursionError):
        return False  # whoever reads it as a spec tells what is wrong with it
    return any(isinstance(data.get(table), dict) for table in READINGS)

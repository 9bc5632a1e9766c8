"""Compare: two cylinders, each from a spec, an output made from one, or a file of readings.

Readings that make no whole cylinder yet are compared as far as they go.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.jobs.recover import older
from drafting.model.catalog import mounts_by_end
from drafting.model.cylinder import Cylinder
from drafting.model.load import load
from drafting.records import dataclass
from drafting.replacing.known import Subject, in_part, subject
from drafting.replacing.rule import Known
from drafting.spec.check import read_spec
from drafting.spec.given import Spec

READINGS = ("tape", "caliper", "micrometer")
"""Tables that only a file of readings has."""


@dataclass(frozen=True, slots=True)
class Taken:
    """What is known of a cylinder, and what is still open where it was read off an old one.

    ``cylinder`` is None where the readings make no whole one: it cannot be drawn.
    """

    subject: Subject
    cylinder: Cylinder | None
    open: tuple[str, ...] = ()

    def whole(self, path: str) -> Cylinder:
        """Give the cylinder to draw; raises Refused where the readings make none yet."""
        if self.cylinder is not None:
            return self.cylinder
        message = (
            f"these readings are no whole cylinder yet, and cannot be drawn: {self.subject.missing}"
            f". Finish them with drafting measure {Path(path).name} --ask"
        )
        raise Refused([Fault(path, 1, 1, "not-measured", "", message)])


MOST_MISSING = 4
"""So many open readings are named in the first line."""


def taken(path: Path, shop: str | None = None) -> Taken:
    """Load a cylinder from whatever holds it; raises Refused in plain words."""
    if not _readings(path):
        cylinder = older(path, shop)
        return Taken(subject(cylinder), cylinder)
    from drafting.measuring.measure import measure

    measured = measure(path)
    still = tuple(f"{o.name}: {o.what}" for o in measured.open)
    read: list[Spec] = []

    def keep(spec: Spec) -> list[Fault]:
        read.append(spec)
        return []

    text = measured.spec.encode("utf-8")
    try:
        spec = read_spec(text, mounts=mounts_by_end(), words=keep, file=str(path))
        read.append(spec)
        cylinder = load(spec)
    except Refused as refused:
        if not read:
            raise
        words = {x.letter: f"{x.what} ({x.letter})" for x in measured.bench.letters}
        named = [words.get(o.name, o.name) for o in measured.open if o.name]
        named = named or [f.field for f in refused.faults]
        missing = ", ".join(dict.fromkeys(named[:MOST_MISSING]))
        if len(named) > MOST_MISSING:
            missing += f" and {len(named) - MOST_MISSING} more"
        return Taken(in_part(read[0], missing), None, still)
    return Taken(subject(cylinder), cylinder, still)


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

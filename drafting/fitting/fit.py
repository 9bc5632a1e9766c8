"""All that is asked of a cylinder in a machine, in the order of the report."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from drafting.errors import Refused
from drafting.fitting.clearance import Room
from drafting.fitting.column import columns, with_columns
from drafting.fitting.ears import ears
from drafting.fitting.forces import Position, forces, oil, positions, pressure
from drafting.fitting.lengths import lengths
from drafting.fitting.machine import Distance, Hinge, Machine
from drafting.fitting.mounts import following
from drafting.fitting.room_rows import room_rows
from drafting.fitting.row import Row, Verdict, jobs_of, whole
from drafting.fitting.subject import Subject, subject
from drafting.fitting.travel import extremes, hard_span, kind
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.replacing.rule import Job
from drafting.told.short import quantity
from drafting.values import Finding

NEAREST = 1.0
"""Pins (mm) nearer to each other than that meet."""


@dataclass(frozen=True, slots=True)
class Fit:
    """What came out. ``oil`` is litres and seconds, out and back, of one cylinder."""

    subject: Subject
    machine: Machine
    rows: tuple[Row, ...]
    positions: tuple[Position, ...]
    oil: tuple[float, float, float | None, float | None]
    findings: tuple[Finding, ...]
    room: Room | None = None

    @property
    def verdict(self) -> Verdict:
        """Give the verdict on the whole."""
        found = whole(self.rows)
        if any(f.level == "error" for f in self.findings):
            return "does not fit"
        return found

    @property
    def jobs(self) -> tuple[Job, ...]:
        """Give every job once."""
        return jobs_of(self.rows)


def fit(c: Cylinder, m: Machine, keep: Path | None = None) -> Fit:
    """Judge a cylinder in a machine; raises Refused for what the machine file cannot mean.

    ``keep`` is a folder where the machine's model is kept as it was read, so that it is read once.
    """
    s = subject(c, m)
    _refuse(s, m)
    ps = with_columns(s, positions(s, m))
    rows = (*following(s, m), *lengths(s, m), *ears(s, m), *forces(s, m, ps), *columns(s, m, ps))
    seen = _look(s, m, keep)
    findings = tuple(_findings(s, m, ps))
    return Fit(s, m, (*rows, *room_rows(s, m, seen)), ps, oil(s, m), findings, seen)


def _look(s: Subject, m: Machine, keep: Path | None) -> Room | None:
    """Look through the machine's model, where there is one; the kernel loads only then."""
    if m.model is None:
        return None
    from drafting.fitting.room import room

    return room(s, m, keep)


def _refuse(s: Subject, m: Machine) -> None:
    faults = []
    near, _ = extremes(m.way, *hard_span(m.way))
    table = type(m.way).__name__.lower()
    if near.length < NEAREST:
        where = "deg" if kind(m.way) == "deg" else "mm"
        text = f"the pins meet at {near.at:.1f} {where}: no cylinder is as short as that"
        faults.append(m.fault("pins-meet", table, "base_pin", text))
    rated = [p for p in (s.numbers.working_pressure, s.numbers.relief_pressure) if p is not None]
    most = max((p.value for p in rated), default=None)
    for name in ("pressure", "relief"):
        value = getattr(m.supply, name)
        if value is not None and most is not None and value > most * (1 + 1e-9):
            text = (
                f"{quantity(value, 'MPa', m.units)} is more than the cylinder is made for, "
                f"{quantity(most, 'MPa', m.units)}; set the supply lower or take another cylinder"
            )
            faults.append(m.fault("above-rating", "supply", name, text))
    p, r = m.supply.pressure, m.supply.relief
    if p is not None and r is not None and r < p:
        text = "the relief opens below the pressure that is said to be there"
        faults.append(m.fault("out-of-order", "supply", "relief", text))
    if faults:
        raise Refused(faults)


def _findings(s: Subject, m: Machine, ps: tuple[Position, ...]) -> Iterator[Finding]:
    if not isinstance(m.way, Distance) and s.numbers.duty.load_guided is False:
        yield Finding(
            "guided-clash", "error", "duty.load_guided",
            "the spec says that nobody guides the load, the machine file has a hinge or a slide "
            "that guides it; one of the two is wrong, and the column rests on it",
        )  # fmt: skip
    if m.model is not None and not m.model.moving and not isinstance(m.way, Distance):
        what = "arm" if isinstance(m.way, Hinge) else "carriage"
        yield Finding(
            "nothing-moves", "warning", "model.moving",
            f"no solid of the model is said to move with the {what}, so that all of it stands "
            f"still: name those of the {what} under moving",
        )  # fmt: skip
    if pressure(s, m) is None:
        yield Finding("no-pressure", "warning", "supply.pressure",
                      "no pressure is given; what force there is stays open")  # fmt: skip
    for end in s.mounts:
        if end.axis == "ball":
            yield Finding(
                "ball", "note", end.field,
                "a ball lets it tilt sideways; the machine must keep it in its plane",
            )  # fmt: skip

"""A cylinder of the tests and offers that differ from it, as texts of specs."""

from __future__ import annotations

from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load
from drafting.replacing.judge import Comparison, compare
from drafting.replacing.known import subject
from drafting.replacing.rule import Known, Row

OLD = {
    "cylinder.bore": "3",
    "cylinder.rod": "2",
    "cylinder.stroke": "24",
    "cylinder.retracted": "36",
    "cylinder.barrel_outside": "3 1/2",
    "cylinder.working_pressure": "2500 psi",
    "cylinder.clock_seen_from": "rod",
    "body_mount.mount": "cross tube",
    "body_mount.pin": "1",
    "body_mount.hole": "1.016",
    "body_mount.width": "3",
    "body_mount.outside": "2",
    "rod_mount.mount": "cross tube",
    "rod_mount.pin": "1",
    "rod_mount.hole": "1.016",
    "rod_mount.width": "2 1/2",
    "rod_mount.outside": "2",
    "base_port.thread": "SAE-8",
    "base_port.clock": "12:00",
    "rod_port.thread": "SAE-8",
    "rod_port.clock": "12:00",
    "duty.flow": "11 gal/min",
    "title": "Weir rack ram",
    "units": "in",
}


def text(changes: dict[str, str | None] | None = None) -> str:
    """The old cylinder's spec with some fields other, None for one that is left out."""
    fields = {**OLD, **(changes or {})}
    tables: dict[str, list[str]] = {}
    for name, value in fields.items():
        if value is None:
            continue
        table, _, key = name.rpartition(".")
        said = value if value in ("true", "false") else f'"{value}"'
        tables.setdefault(table, []).append(f"{key} = {said}")
    head = "\n".join(tables.pop(""))
    return "\n".join([head, *(f"[{t}]\n" + "\n".join(rows) for t, rows in tables.items())])


def cylinder(**changes: str | None) -> Cylinder:
    """A cylinder; ``body_mount__pin="1"`` stands for ``body_mount.pin``."""
    named = {k.replace("__", "."): v for k, v in changes.items()}
    return load(checked(text(named).encode(), "offer.toml"))


def judged(machine: Known | None = None, **changes: str | None) -> Comparison:
    """An offer in place of the old cylinder."""
    return compare(subject(cylinder()), subject(cylinder(**changes)), machine)


def row(c: Comparison, field: str) -> Row:
    """The row of one rule."""
    return next(r for r in c.rows if r.rule.field == field)

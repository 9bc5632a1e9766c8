"""A duty file: what the machine needs of a cylinder that is still to be chosen.

Read with the same readers and the same wording of faults as a spec.
"""

from __future__ import annotations

from typing import Any, Literal

from drafting.errors import Refused
from drafting.model.catalog import ENDS, mount_types
from drafting.records import dataclass
from drafting.settle.mount import End
from drafting.sizing.port import FAMILIES
from drafting.spec.beside import Reader
from drafting.spec.field import Field, TableFields, flag, positive, size, word, words
from drafting.spec.read import Document, read_document


def sized_mounts(end: End) -> tuple[str, ...]:
    """Give the mounts of an end that a duty may ask for; the others say what to ask instead."""
    return tuple(w for (at, w), kind in mount_types().items() if at == end and not kind.not_sized)


def _mount(end: End) -> Field:
    words = sized_mounts(end)
    doc = f"how the {end} is mounted"
    return Field(f"{end}_mount", "word", doc, '"clevis"', required=True, choices=words)


TABLES: dict[str, TableFields] = {
    t.name: t
    for t in (
        TableFields(
            "",
            "What the job is called.",
            (
                words("title", "what the cylinder is for", "Sluice gate lift", True),
                words("number", "drawing number of the spec that --take writes", "SG-0417"),
                word("units", "what a bare number means", "in", "mm", required=True),
                word("series", "which standard sizes; left out, those of the file's units", "both",
                     "inch", "metric"),
            ),
            required=True,
        ),
        TableFields(
            "duty",
            "What the machine asks of it.",
            (
                positive("push", "force", "force to push with", "18000 lbf"),
                positive("pull", "force", "force to pull with", "6000 lbf"),
                size("stroke", "travel", "16", True),
                Field("seconds_out", "number", "longest time out, in seconds", "8", above=0.0),
                Field("seconds_in", "number", "longest time in, in seconds", "6", above=0.0),
                Field(
                    "safety_factor",
                    "number",
                    "factor asked for against buckling",
                    "3.5",
                    least=1.0,
                    most=100.0,
                ),
                flag("load_guided", "true when the machine guides the load along the stroke"),
                word("rod_side", "oil's way out of the rod side", "open", "metered", "blocked"),
                Field(
                    "strokes_per_day", "count", "strokes in a day; they tire it", "400",
                    least=1, most=1e6,
                ),
                words("side_load", "what pushes it sideways", "none, both pins swing"),
                words("environment", "what surrounds it", "outdoors, road salt"),
                flag("lifts_people", "true when people are lifted or stand under the load"),
            ),
            required=True,
        ),
        TableFields(
            "supply",
            "What feeds it.",
            (
                Field("pressure", "pressure", "pressure there is", '"2500 psi"', True, above=0.0),
                positive("flow", "flow", "flow there is", "11 gal/min"),
                Field(
                    "return_pressure", "pressure", "pressure of the return side", '"50 psi"',
                    least=0.0,
                ),
                word("ports", "which ports; left out, those of the file's units", *FAMILIES),
            ),
            required=True,
        ),
        TableFields(
            "room",
            "Where it goes.",
            (
                _mount("body"),
                _mount("rod"),
                word(
                    "position", "trunnion, flange: where it sits", "base", "middle", "rod end"
                ),
                size("pin", "diameter of the pins", "1.25"),
                size("retracted", "distance between the datums, retracted", '"27 1/4"'),
                flag("tightest", "true to close as short as it can; else it closes comfortably"),
                size("largest_outside", "the room round the barrel and its ports", "5.5"),
            ),
            required=True,
        ),
    )
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class DutyFile:
    """What a duty file asks, in mm, N, MPa, l/s and seconds; None where it asks nothing."""

    file: str
    title: str
    number: str
    units: Literal["in", "mm"]
    series: Literal["inch", "metric", "both"]
    stroke: float
    pressure: float
    body_mount: str
    rod_mount: str
    push: float | None = None
    pull: float | None = None
    seconds_out: float | None = None
    seconds_in: float | None = None
    safety_factor: float | None = None
    flow: float | None = None
    return_pressure: float = 0.0
    position: str = "rod end"
    pin: float | None = None
    retracted: float | None = None
    largest_outside: float | None = None
    lifts_people: bool = False
    tightest: bool = False
    ports: str = ""
    load_guided: bool | None = None
    rod_side: str = ""
    strokes_per_day: int | None = None
    side_load: str = ""
    environment: str = ""

    def flow_needed(self, oil_out: float, oil_in: float) -> float | None:
        """Give the flow in l/s that the times ask for strokes of so many litres, None for none."""
        asked = ((oil_out, self.seconds_out), (oil_in, self.seconds_in))
        needed = [litres / seconds for litres, seconds in asked if seconds]
        return max(needed) if needed else None


def read_duty(path: str) -> DutyFile:
    """Read a duty file; raises Refused with every fault in it."""
    return duty_of(read_document(path))


def duty_of(document: Document) -> DutyFile:
    """Judge a document as a duty file; raises Refused with every fault in it."""
    reader = Reader(document)
    values: dict[str, Any] = {}
    for name, table in TABLES.items():
        data = document.data if not name else document.data.get(name)
        if not isinstance(data, dict):
            reader.fault("missing", (), f"the table [{name}] is missing", name)
            continue
        inner = () if name else tuple(t for t in TABLES if t)
        values |= reader.table(table, data, (name,) if name else (), inner, _not_sized)
    values.setdefault("series", "inch" if values.get("units") == "in" else "metric")
    if not reader.faults and "push" not in values and "pull" not in values:
        text = "write push or pull, or both: without a force there is nothing to size"
        reader.fault("missing", ("duty",), text)
    if reader.faults:
        raise Refused(reader.faults)
    values.setdefault("number", "")
    return DutyFile(document.file, **values)


def _not_sized(key: str, raw: Any) -> str:
    """Give why a duty cannot ask for a mount that there is; empty for anything else."""
    for end in ENDS:
        if key == f"{end}_mount" and isinstance(raw, str) and (end, raw) in mount_types():
            return mount_types()[end, raw].not_sized
    return ""

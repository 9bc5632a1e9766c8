"""What one sheet is made of: everything the model hands over, and how the drawing was asked for.

Nothing here knows paper. Lengths in mm; parts, wishes and symbols at their world places.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from drafting.model.pins.details import PinDetail
from drafting.records import dataclass
from drafting.settle.tolerance import Tolerance
from drafting.settle.wishes import Symbol, Wish
from drafting.shape.pieces import Part
from drafting.told.data_sheet import DataSheet
from drafting.told.flags import Flag, flags
from drafting.told.ports_said import PortRow
from drafting.values import Finding, Value

Units = Literal["in", "mm"]
Dimensions = Literal["in", "mm", "in [mm]", "mm [in]"]


@dataclass(frozen=True, slots=True)
class Job:
    """One cylinder to be drawn.

    ``name`` is the stem of the output files, ``data`` what the data sheet behind the drawing says.
    ``retracted`` and ``extended`` are all parts in the two positions; wishes and symbols are at the
    retracted position, symbols of the rod's owner move out with it. ``lengths`` are (stroke,
    retracted, extended). ``values`` tell where a size comes from, by name.

    ``clock_from`` is the side the end view is seen from, ``ports`` are the ports in words and
    ``turning`` whether the rod may turn. ``changed`` are the names of what differs from an older
    drawing and is flagged for it with the revision letter. ``logo`` is a viewBox and SVG path data.
    ``single`` are the names of sizes that are shown in the sheet's own unit alone.
    ``pins`` are the loose pins that are supplied, each for a view of its own.
    ``phantoms`` are no metal (rooms of fittings): drawn over everything, hiding nothing.
    ``beneath`` are the parts, closed and open, of another cylinder that this one is laid over: in
    phantom. ``was`` is what a size is there, printed below it, by name.
    ``meta`` holds title, number, revision, date, company, customer, drawn_by, document_type,
    statement, tool, spec_text, input_sha256; each may be missing.
    """

    name: str
    retracted: tuple[Part, ...]
    extended: tuple[Part, ...]
    wishes: tuple[Wish, ...]
    symbols: tuple[Symbol, ...]
    values: tuple[Value, ...]
    findings: tuple[Finding, ...]
    lengths: tuple[float, float, float]
    bore: float
    data: DataSheet = DataSheet()
    logo: tuple[str, str] | None = None
    changed: frozenset[str] = frozenset()
    units: Units = "mm"
    dimensions: Dimensions = "mm"
    fractions: int = 16
    sheet: str = "auto"
    breaks: Literal["auto", "none"] = "auto"
    scale: str = "auto"
    projection: Literal["third", "first"] = "third"
    clock_from: Literal["rod", "base"] = "rod"
    ports: tuple[PortRow, ...] = ()
    single: frozenset[str] = frozenset()
    turning: str = ""
    pins: tuple[PinDetail, ...] = ()
    phantoms: tuple[Part, ...] = ()
    beneath: tuple[tuple[Part, ...], tuple[Part, ...]] = ((), ())
    was: Mapping[str, str] = field(default_factory=dict)
    tolerances: Mapping[str, Tolerance] = field(default_factory=dict)
    meta: Mapping[str, str] = field(default_factory=dict)

    @property
    def flags(self) -> dict[str, Flag]:
        """Give the flag of each size that has one, by name."""
        return flags(self.values)

    @property
    def ends(self) -> Mapping[str, str]:
        """Give the words for the sizes of both mounts; a body's that is not at its base is BODY."""
        at = {v.name: v.value for v in self.values}.get("body_mount.position", "base")
        return {"body_mount": "BASE" if at == "base" else "BODY", "rod_mount": "ROD"}

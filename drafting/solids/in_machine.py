"""The cylinder where it stands in a machine, as STEP: it drops into the model without mating."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from drafting.errors import OutputFailed
from drafting.records import dataclass
from drafting.shape.pieces import Part
from drafting.solids.build import build_part
from drafting.solids.products import groups

Rows = tuple[tuple[float, ...], ...]
"""Three rows of four: turn and move, mm."""


@dataclass(frozen=True, slots=True)
class Stand:
    """One position: its name, and where body and rod (parts at the closed position) stand."""

    name: str
    body: Rows
    rod: Rows


def in_machine_step(name: str, parts: Sequence[Part], stands: Sequence[Stand]) -> bytes:
    """Give one STEP assembly with the cylinder at each position, in the machine's coordinates.

    Products are ``NAME-closed`` and so on, with ``NAME-closed-barrel`` and ``-rod`` in them. Raises
    OutputFailed when the kernel cannot make a part.
    """
    import cadquery as cq

    found = groups(name, parts)
    shapes = {id(p.part): cq.Shape.cast(build_part(p.part)) for g in found for p in g.products}
    whole = cq.Assembly(name=f"{name}-in-machine")
    for stand in stands:
        outer = cq.Assembly(name=f"{name}-{stand.name}")
        for group in found:
            where = _location(stand.rod if group.owner == "rod" else stand.body)
            inner = cq.Assembly(name=f"{group.name}-{stand.name}", loc=where)
            for product in group.products:
                inner.add(
                    shapes[id(product.part)],
                    name=f"{product.name}-{stand.name}-{product.part.name.replace(' ', '-')}",
                    color=cq.Color(*product.colour),
                )
            outer.add(inner)
        whole.add(outer)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "in-machine.step"
        whole.export(str(path), exportType="STEP")
        if not path.exists():
            raise OutputFailed(f"the kernel wrote no STEP file of {name} in its machine")
        return path.read_bytes()


def _location(rows: Rows) -> Any:
    import cadquery as cq
    from OCP.gp import gp_Trsf
    from OCP.TopLoc import TopLoc_Location

    move = gp_Trsf()
    move.SetValues(*(v for row in rows for v in row))
    return cq.Location(TopLoc_Location(move))

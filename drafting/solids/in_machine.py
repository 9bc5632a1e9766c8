"""The cylinder where it stands in a machine: as STEP to drop in, as GLB to look at."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from drafting.errors import OutputFailed
from drafting.records import dataclass
from drafting.shape.pieces import Part
from drafting.solids.build import build_part
from drafting.solids.kernel_text import explored
from drafting.solids.products import Colour, groups
from drafting.solids.write_glb import UP, Book

Rows = tuple[tuple[float, ...], ...]
"""Three rows of four: turn and move, mm."""
HOME: Rows = ((1.0, 0.0, 0.0, 0.0), (0.0, 1.0, 0.0, 0.0), (0.0, 0.0, 1.0, 0.0))
GREY: Colour = (0.62, 0.66, 0.70)
MOST_FACES = 6_000
"""Faces of a machine that are shown: a viewer in a browser is to turn it without waiting."""


@dataclass(frozen=True, slots=True)
class Stand:
    """One position: where body and rod (parts at the closed position) stand, and the arm."""

    name: str
    body: Rows
    rod: Rows
    arm: Rows


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


@dataclass(frozen=True, slots=True)
class Around:
    """A solid of the machine: its name, its shape (mm), whether it moves with the arm."""

    name: str
    shape: Any
    moves: bool


def in_machine_glb(
    name: str, parts: Sequence[Part], stands: Sequence[Stand], machine: Sequence[Around]
) -> bytes:
    """Give one GLB scene: the cylinder at each position, the machine to be looked through.

    Nodes are ``NAME-closed`` and so on, ``machine`` for what stands still, ``machine-closed`` and
    so on for what moves. The model's Z is taken as up. Solids with more faces than ``MOST_FACES``
    in all are left out, the last ones first, and named in the root's ``extras``.
    """
    book = Book()
    shown, faces = [], 0
    for one in machine:
        faces += sum(1 for _ in explored(one.shape, "FACE"))
        if faces <= MOST_FACES:
            shown.append((one, book.shape(one.name, GREY, one.shape, clear=True)))
    meshes = [(g, [book.mesh(p) for p in g.products]) for g in groups(name, parts)]

    def placed(word: str, rows: Rows, found: Sequence[tuple[str, int]]) -> int:
        below = [book.node({"name": n, "mesh": mesh}) for n, mesh in found]
        return book.node({"name": word, "matrix": _matrix(rows), "children": below})

    still = [(one.name, mesh) for one, mesh in shown if not one.moves]
    moving = [(one.name, mesh) for one, mesh in shown if one.moves]
    tops = [placed("machine", HOME, still)] if still else []
    for stand in stands:
        halves = [
            placed(g.name, stand.rod if g.owner == "rod" else stand.body,
                   [(p.name, mesh) for p, mesh in zip(g.products, own, strict=True)])
            for g, own in meshes
        ]  # fmt: skip
        tops.append(book.node({"name": f"{name}-{stand.name}", "children": halves}))
        if moving:
            tops.append(placed(f"machine-{stand.name}", stand.arm, moving))
    left = [one.name for one in machine if one.name not in {o.name for o, _ in shown}]
    root = book.node({"name": f"{name}-in-machine", "rotation": UP, "children": tops,
                      **({"extras": {"left_out": left}} if left else {})})  # fmt: skip
    return book.packed(f"{name}-in-machine", root, {}, {})


def _matrix(rows: Rows) -> list[float]:
    """Give a pose as glTF has it: by columns, metres."""
    turn = [[row[k] for row in rows] + [0.0] for k in range(3)]
    return [*(c for column in turn for c in column), *(row[3] / 1000.0 for row in rows), 1.0]


def _location(rows: Rows) -> Any:
    import cadquery as cq
    from OCP.gp import gp_Trsf
    from OCP.TopLoc import TopLoc_Location

    move = gp_Trsf()
    move.SetValues(*(v for row in rows for v in row))
    return cq.Location(TopLoc_Location(move))

"""The machine's STEP file as named kernel solids, read in a child and kept by content."""

from __future__ import annotations

import json
import pickle
import tempfile
from hashlib import sha256
from pathlib import Path
from typing import Any

from drafting.apart import TooLate, in_child
from drafting.errors import Refused
from drafting.files import read_regular
from drafting.fitting.machine import Machine
from drafting.records import dataclass

LARGEST = 200_000_000
"""Bytes of a STEP file that is looked into."""
SECONDS = 120
KEPT = "2"
"""Changes when what the child answers changes: what was kept before is read anew."""
_WORDS = {
    "no-solids": "holds no solids: surfaces or a sketch alone have no inside; export it as solids",
    "too-many": "holds more than 5,000 solids; export the parts near the cylinder alone",
    "damaged": "cannot be read as STEP: it is damaged, cut short, or another kind of file",
    "late": f"was not read within {SECONDS} s; export the parts near the cylinder alone",
}


@dataclass(frozen=True, slots=True)
class Solids:
    """The machine's solids (``TopoDS_Solid``, mm, where the assembly has them) and its round faces.

    ``faces`` are named cylindrical faces: a point on the axis in their middle, and the direction.
    """

    names: tuple[str, ...]
    shapes: tuple[Any, ...]
    faces: dict[str, tuple[float, ...]]


def read_solids(m: Machine, keep: Path | None = None) -> Solids:
    """Read the machine's STEP file; ``keep`` is a folder where what was read is kept by content.

    Raises Refused with the place in the machine file that names it.
    """
    assert m.model is not None
    path = m.folder / m.model.step
    try:
        data = read_regular(path, LARGEST)
    except Refused as refused:
        raise Refused([m.fault("no-model", "model", "step", f.message)
                       for f in refused.faults]) from None  # fmt: skip
    kept = None
    if keep is not None:
        kept = keep / f"{path.stem}-{sha256(data + KEPT.encode()).hexdigest()[:16]}.brep"
    found = _kept(kept) if kept is not None else None
    if found is None:
        found = _asked(m, data)
        if kept is not None:
            from drafting.files import write_all

            write_all({kept: found})
    line, _, shapes = found.partition(b"\n")
    head = json.loads(line)
    faces = {k: tuple(v) for k, v in head["faces"].items()}
    return Solids(tuple(head["names"]), tuple(shapes_of(shapes)), faces)


def _kept(path: Path) -> bytes | None:
    try:
        found = read_regular(path, 4 * LARGEST)
        return found if "names" in json.loads(found.partition(b"\n")[0]) else None
    except (Refused, ValueError):
        return None


def _asked(m: Machine, data: bytes) -> bytes:
    try:
        found = in_child("drafting.fitting.step_child", pickle.dumps(data), SECONDS)
        head = json.loads(found.partition(b"\n")[0])
        failed = head.get("failed", "")
    except TooLate:
        found, failed = b"", "late"
    except ValueError:
        found, failed = b"", "damaged"
    if failed:
        code = failed if failed in _WORDS else "damaged"
        assert m.model is not None
        text = f"{m.model.step} {_WORDS[code]}"
        raise Refused([m.fault(f"model-{code}", "model", "step", text)])
    return found


def shapes_of(binary: bytes) -> list[Any]:
    """Give the solids in the child's answer, in the order of the names."""
    from OCP.BinTools import BinTools
    from OCP.TopoDS import TopoDS, TopoDS_Compound, TopoDS_Iterator

    whole = TopoDS_Compound()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "solids.bin"
        path.write_bytes(binary)
        BinTools.Read_s(whole, str(path))
    walk, found = TopoDS_Iterator(whole), []
    while walk.More():
        found.append(TopoDS.Solid_s(walk.Value()))
        walk.Next()
    return found

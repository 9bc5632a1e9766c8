"""The child's half of reading a machine's STEP file: solids with their names, as binary B-rep.

A stranger's file is read nowhere else. The answer is one line of JSON about the solids, then the
shapes as the kernel's own binary format, in the same order.
"""

from __future__ import annotations

import json
import pickle
import sys
import tempfile
from pathlib import Path
from typing import Any

from drafting.apart import limit_memory

MEMORY = 3_000_000_000
MOST = 5_000
"""Solids of one machine."""


def serve() -> None:
    """Read one file from stdin and answer on stdout: the child's whole life."""
    limit_memory(MEMORY)
    data = pickle.load(sys.stdin.buffer)  # from our own parent; what it holds is bytes
    out = sys.stdout.buffer
    sys.stdout = sys.stderr  # the kernel prints what it likes
    try:
        head, shapes = read(data)
    except Exception as wrong:  # foreign files fail in every way there is
        head, shapes = {"failed": f"{type(wrong).__name__}"}, b""
    out.write(json.dumps(head).encode() + b"\n" + shapes)
    out.flush()


def read(data: bytes) -> tuple[dict[str, Any], bytes]:
    """Give what is in a STEP file, and its solids where the assembly places them, mm."""
    from OCP.IFSelect import IFSelect_ReturnStatus
    from OCP.Interface import Interface_Static
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDocStd import TDocStd_Document

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "machine.step"
        path.write_bytes(data)
        reader = STEPCAFControl_Reader()
        reader.SetNameMode(True)
        Interface_Static.SetIVal_s("read.stepcaf.subshapes.name", 1)
        if reader.ReadFile(str(path)) != IFSelect_ReturnStatus.IFSelect_RetDone:
            return {"failed": "damaged"}, b""
        document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
        if not reader.Transfer(document):
            return {"failed": "damaged"}, b""
        solids, faces = _solids(document)
        if not solids:
            return {"failed": "no-solids"}, b""
        if len(solids) > MOST:
            return {"failed": "too-many"}, b""
        return {"names": [n for n, _ in solids], "faces": faces}, _binary([s for _, s in solids])


def _solids(document: Any) -> tuple[list[tuple[str, Any]], dict[str, list[float]]]:
    """Walk the assembly; a product of several solids numbers them."""
    from OCP.TDF import TDF_LabelSequence
    from OCP.TopLoc import TopLoc_Location
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    roots = TDF_LabelSequence()
    tool.GetFreeShapes(roots)
    found: list[tuple[str, Any]] = []
    faces: dict[str, list[float]] = {}
    for k in range(1, roots.Length() + 1):
        _walk(tool, roots.Value(k), TopLoc_Location(), "", found, faces, 0)
    return _unique(found), faces


def _walk(
    tool: Any, label: Any, where: Any, called: str, found: list[Any], faces: Any, deep: int
) -> None:
    from OCP.TDF import TDF_Label, TDF_LabelSequence

    if deep > 50 or len(found) > MOST:
        return
    name = _name(label) or called
    if tool.IsReference_s(label):
        to = TDF_Label()
        tool.GetReferredShape_s(label, to)
        here = where.Multiplied(tool.GetLocation_s(label))
        own = _name(to)
        _walk(tool, to, here, own or name, found, faces, deep + 1)
        return
    if tool.IsAssembly_s(label):
        parts = TDF_LabelSequence()
        tool.GetComponents_s(label, parts)
        for k in range(1, parts.Length() + 1):
            _walk(tool, parts.Value(k), where, name, found, faces, deep + 1)
        return
    shape = tool.GetShape_s(label)
    if shape.IsNull():
        return
    for solid in _each(shape):
        found.append((name or "solid", solid.Moved(where)))
    subs = TDF_LabelSequence()
    tool.GetSubShapes_s(label, subs)
    for k in range(1, subs.Length() + 1):
        word = _name(subs.Value(k))
        place = _round(tool.GetShape_s(subs.Value(k)).Moved(where))
        if word and place:
            faces.setdefault(word, place)


def _round(shape: Any) -> list[float] | None:
    """Give the middle of a cylindrical face on its axis, and the axis."""
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_SurfaceType
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopoDS import TopoDS

    if shape.ShapeType() != TopAbs_ShapeEnum.TopAbs_FACE:
        return None
    surface = BRepAdaptor_Surface(TopoDS.Face_s(shape))
    if surface.GetType() != GeomAbs_SurfaceType.GeomAbs_Cylinder:
        return None
    axis = surface.Cylinder().Axis()
    at, d = axis.Location(), axis.Direction()
    mid = (surface.FirstVParameter() + surface.LastVParameter()) / 2
    return [at.X() + mid * d.X(), at.Y() + mid * d.Y(), at.Z() + mid * d.Z(), d.X(), d.Y(), d.Z()]


def _each(shape: Any) -> list[Any]:
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    found = []
    walk = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_SOLID)
    while walk.More():
        found.append(TopoDS.Solid_s(walk.Current()))
        walk.Next()
    return found


def _name(label: Any) -> str:
    from OCP.TDataStd import TDataStd_Name

    word = TDataStd_Name()
    if not label.FindAttribute(TDataStd_Name.GetID_s(), word):
        return ""
    return str(word.Get().ToExtString()).strip()[:200]


def _unique(found: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
    """Number the solids of one name, so that each can be told from the others."""
    counts: dict[str, int] = {}
    names = [n for n, _ in found]
    out = []
    for name, solid in found:
        counts[name] = counts.get(name, 0) + 1
        again = names.count(name) > 1 if len(names) < 500 else True
        out.append((f"{name}#{counts[name]}" if again else name, solid))
    return out


def _binary(shapes: list[Any]) -> bytes:
    from OCP.BinTools import BinTools
    from OCP.BRep import BRep_Builder
    from OCP.TopoDS import TopoDS_Compound

    whole, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(whole)
    for shape in shapes:
        builder.Add(whole, shape)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "solids.bin"
        BinTools.Write_s(whole, str(path))
        return path.read_bytes()

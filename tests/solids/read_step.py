"""Read a STEP file back with the kernel: the tree with names, colours, solids and named faces."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any


@dataclass
class Node:
    name: str
    instance: str
    at: tuple[float, float, float]
    colour: tuple[float, float, float] | None
    solids: list[Any]
    faces: dict[str, list[Any]] = field(default_factory=dict)
    children: list[Node] = field(default_factory=list)

    def walk(self) -> list[Node]:
        return [self, *(n for c in self.children for n in c.walk())]

    def faces_of(self, piece: str) -> list[Any]:
        """The faces of a piece here and below: all that are called ``piece.something``."""
        return [
            face
            for node in self.walk()
            for name, faces in node.faces.items()
            for face in faces
            if name.rpartition(".")[0] == piece
        ]

    def bores(self, mount: str) -> list[Any]:
        """The walls of a mount's hole here and below, in whatever piece of it they lie."""
        return [
            face
            for node in self.walk()
            for name, faces in node.faces.items()
            for face in faces
            if name.startswith(f"{mount}.") and name.rpartition(".")[2].startswith("bore")
        ]

    def named(self, name: str) -> Node:
        return next(n for n in self.walk() if n.name == name)


def read(data: bytes, folder: Path) -> Node:
    from OCP.Interface import Interface_Static
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDF import TDF_LabelSequence
    from OCP.TDocStd import TDocStd_Document
    from OCP.TopLoc import TopLoc_Location
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    from drafting.solids.kernel_text import quiet_kernel

    path = folder / "read-back.step"
    path.write_bytes(data)
    document = TDocStd_Document(TCollection_ExtendedString("test"))
    with quiet_kernel():
        reader = STEPCAFControl_Reader()
        Interface_Static.SetIVal_s("read.stepcaf.subshapes.name", 1)
        reader.SetColorMode(True)
        reader.SetNameMode(True)
        assert reader.ReadFile(str(path)).name == "IFSelect_RetDone"
        assert reader.Transfer(document)
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    colours = XCAFDoc_DocumentTool.ColorTool_s(document.Main())
    roots = TDF_LabelSequence()
    shapes.GetFreeShapes(roots)
    assert roots.Length() == 1
    return _node(roots.Value(1), TopLoc_Location(), colours)


def _node(label: Any, outer: Any, colours: Any) -> Node:
    from OCP.TDF import TDF_Label, TDF_LabelSequence
    from OCP.XCAFDoc import XCAFDoc_ShapeTool as Tool

    source, here = label, outer
    if Tool.IsReference_s(label):
        source = TDF_Label()
        Tool.GetReferredShape_s(label, source)
        here = outer.Multiplied(Tool.GetLocation_s(label))
    move = here.Transformation().TranslationPart()
    node = Node(
        _name(source), _name(label), (move.X(), move.Y(), move.Z()), _colour(source, colours), []
    )
    if Tool.IsAssembly_s(source):
        parts = TDF_LabelSequence()
        Tool.GetComponents_s(source, parts)
        node.children = [_node(parts.Value(i), here, colours) for i in range(1, parts.Length() + 1)]
        return node
    node.solids = explore(Tool.GetShape_s(source).Moved(here), "SOLID")
    named = TDF_LabelSequence()
    Tool.GetSubShapes_s(source, named)
    for i in range(1, named.Length() + 1):
        face = Tool.GetShape_s(named.Value(i)).Moved(here)
        node.faces.setdefault(_name(named.Value(i)), []).append(face)
    return node


def explore(shape: Any, kind: str) -> list[Any]:
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp
    from OCP.TopTools import TopTools_IndexedMapOfShape

    found = TopTools_IndexedMapOfShape()
    TopExp.MapShapes_s(shape, getattr(TopAbs_ShapeEnum, f"TopAbs_{kind}"), found)
    return [found.FindKey(i) for i in range(1, found.Extent() + 1)]


def _name(label: Any) -> str:
    from OCP.TDataStd import TDataStd_Name

    name = TDataStd_Name()
    if not label.IsAttribute(TDataStd_Name.GetID_s()):
        return ""
    label.FindAttribute(TDataStd_Name.GetID_s(), name)
    return str(name.Get().ToExtString())


def _colour(label: Any, colours: Any) -> tuple[float, float, float] | None:
    from OCP.Quantity import Quantity_Color
    from OCP.XCAFDoc import XCAFDoc_ColorType, XCAFDoc_ShapeTool

    found = Quantity_Color()
    shape = XCAFDoc_ShapeTool.GetShape_s(label)
    if not colours.GetColor(shape, XCAFDoc_ColorType.XCAFDoc_ColorSurf, found):
        return None
    linear = (found.Red(), found.Green(), found.Blue())
    red, green, blue = (
        round(12.92 * c if c <= 0.0031308 else 1.055 * c ** (1 / 2.4) - 0.055, 3) for c in linear
    )
    return red, green, blue


def bounds(shape: Any) -> tuple[float, ...]:
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, box, False, False)
    low, high = box.CornerMin(), box.CornerMax()
    return (low.X(), low.Y(), low.Z(), high.X(), high.Y(), high.Z())

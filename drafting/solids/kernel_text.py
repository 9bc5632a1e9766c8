"""The kernel's own STEP text of named, coloured, assembled solids, without its chatter.

Names go in as placeholders ``@0``, ``@1`` … and are put in later: the kernel writes letters beyond
ASCII in a way of its own.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from io import BytesIO
from typing import Any, Literal

from drafting.errors import OutputFailed
from drafting.solids.build import build_part
from drafting.solids.carry_step import to_string
from drafting.solids.face_names import names_of
from drafting.solids.products import Colour, Group, Product

SETTINGS = {"write.surfacecurve.mode": 0, "write.stepcaf.subshapes.name": 1}
"""No parametric curves (0.4 of the size, nothing lost), names of faces."""
ASSEMBLY = "@assembly"
"""The assembly's own placeholder: its name tells the position, which is not known here."""

Built = tuple[Sequence[Any], Sequence[str]]
"""The solids of a part, and the names of their faces in order."""


def kernel_text(groups: Sequence[Group]) -> tuple[str, dict[str, str]]:
    """Give the STEP text, and what to put for its strings (``'@3'``: ``'SG-0417-rod'``).

    Every component stands at the origin: the solids are where their parts are drawn.
    """
    with quiet_kernel():
        built = [
            [list(explored(build_part(p.part), "SOLID")) for p in group.products]
            for group in groups
        ]
        parts = [p.part for group in groups for p in group.products]
        faces = [_faces(solids) for group in built for solids in group]
        names = iter(names_of(list(zip(parts, faces, strict=True))))
        document = _Document()
        for group, solids_of in zip(groups, built, strict=True):
            document.add(group, [(solids, next(names)) for solids in solids_of])
        return document.text(), document.strings


def _faces(solids: Iterable[Any]) -> list[Any]:
    return [face for solid in solids for face in explored(solid, "FACE")]


@contextmanager
def quiet_kernel() -> Iterator[None]:
    """Keep the kernel from printing on stdout, and leave its settings as they were."""
    from OCP.Interface import Interface_Static
    from OCP.Message import Message, Message_Gravity
    from OCP.STEPCAFControl import STEPCAFControl_Controller

    STEPCAFControl_Controller.Init_s()
    printers = list(Message.DefaultMessenger_s().Printers())
    levels = [p.GetTraceLevel() for p in printers]
    before = {key: Interface_Static.IVal_s(key) for key in SETTINGS}
    try:
        for printer in printers:
            printer.SetTraceLevel(Message_Gravity.Message_Fail)
        for key, value in SETTINGS.items():
            Interface_Static.SetIVal_s(key, value)
        yield
    finally:
        for key, value in before.items():
            Interface_Static.SetIVal_s(key, value)
        for printer, level in zip(printers, levels, strict=True):
            printer.SetTraceLevel(level)


class _Document:
    """An assembly in the kernel's terms."""

    def __init__(self) -> None:
        from OCP.TCollection import TCollection_ExtendedString
        from OCP.TDocStd import TDocStd_Document
        from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

        self.strings: dict[str, str] = {}
        self.document = TDocStd_Document(TCollection_ExtendedString("drafting"))
        self.shapes = XCAFDoc_DocumentTool.ShapeTool_s(self.document.Main())
        self.colours = XCAFDoc_DocumentTool.ColorTool_s(self.document.Main())
        XCAFDoc_ShapeTool.SetAutoNaming_s(False)
        self.top = self.shapes.NewShape()
        self._label(self.top, ASSEMBLY)

    def add(self, group: Group, built: Sequence[Built]) -> None:
        """Add a group: its part, or an assembly of its parts; ``built`` has one for each."""
        if group.alone:
            self._place(self.top, self._solid(group.products[0], *built[0]), group.name)
            return
        inner = self.shapes.NewShape()
        self._name(inner, group.name)
        for product, made in zip(group.products, built, strict=True):
            self._place(inner, self._solid(product, *made), product.name)
        self._place(self.top, inner, group.name)

    def text(self) -> str:
        """Give the file."""
        from OCP.IFSelect import IFSelect_ReturnStatus
        from OCP.STEPCAFControl import STEPCAFControl_Writer
        from OCP.STEPControl import STEPControl_StepModelType

        self.shapes.UpdateAssemblies()
        writer = STEPCAFControl_Writer()
        writer.SetColorMode(True)
        writer.SetNameMode(True)
        out = BytesIO()
        if (
            not writer.Transfer(self.document, STEPControl_StepModelType.STEPControl_AsIs)
            or writer.WriteStream(out) != IFSelect_ReturnStatus.IFSelect_RetDone
        ):
            raise OutputFailed("the solid kernel could not write the STEP file")
        return out.getvalue().decode("ascii")

    def _solid(self, product: Product, solids: Sequence[Any], names: Sequence[str]) -> Any:
        """Enter a part; one that falls apart (tie rods) is an assembly of its solids."""
        left = iter(names)
        if len(solids) == 1:
            return self._metal(solids[0], product, product.name, left)
        inner = self.shapes.NewShape()
        self._name(inner, product.name)
        for i, solid in enumerate(solids, 1):
            name = f"{product.name}-{i}"
            self._place(inner, self._metal(solid, product, name, left), name)
        return inner

    def _metal(self, solid: Any, product: Product, name: str, names: Iterator[str]) -> Any:
        from OCP.XCAFDoc import XCAFDoc_ColorType

        label = self.shapes.AddShape(solid, False, False)
        self._name(label, name)
        self.colours.SetColor(label, _colour(product.colour), XCAFDoc_ColorType.XCAFDoc_ColorSurf)
        for face in explored(solid, "FACE"):
            if own := next(names):
                self._name(self.shapes.AddSubShape(label, face), own)
        return label

    def _place(self, outer: Any, inner: Any, name: str) -> None:
        from OCP.TopLoc import TopLoc_Location

        self._name(self.shapes.AddComponent(outer, inner, TopLoc_Location()), name)

    def _name(self, label: Any, name: str) -> None:
        placeholder = f"@{len(self.strings)}"
        self.strings[f"'{placeholder}'"] = to_string(name)
        self._label(label, placeholder)

    def _label(self, label: Any, text: str) -> None:
        from OCP.TCollection import TCollection_ExtendedString
        from OCP.TDataStd import TDataStd_Name

        TDataStd_Name.Set_s(label, TCollection_ExtendedString(text))


def explored(shape: Any, kind: Literal["SOLID", "FACE"]) -> Iterator[Any]:
    """Give the solids or faces of a kernel shape, each once, in its own order."""
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp
    from OCP.TopoDS import TopoDS
    from OCP.TopTools import TopTools_IndexedMapOfShape

    found = TopTools_IndexedMapOfShape()
    TopExp.MapShapes_s(shape, getattr(TopAbs_ShapeEnum, f"TopAbs_{kind}"), found)
    narrow = TopoDS.Solid_s if kind == "SOLID" else TopoDS.Face_s
    for i in range(1, found.Extent() + 1):
        yield narrow(found.FindKey(i))


def _colour(colour: Colour) -> Any:
    from OCP.Quantity import Quantity_Color, Quantity_TypeOfColor

    return Quantity_Color(*colour, Quantity_TypeOfColor.Quantity_TOC_sRGB)

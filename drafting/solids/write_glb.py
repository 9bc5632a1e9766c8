"""Parts to a GLB file (glTF 2.0, Khronos): for looking at, in a browser or a viewer.

glTF is in metres with +Y up, so one turned root node holds the nodes ``barrel`` and ``rod``, which
keep the axes of the model (+X to the rod, +Z at 12 o'clock). The spec travels in ``asset.extras``.
"""

from __future__ import annotations

import json
import sys
from array import array
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import floor, sqrt
from struct import pack, unpack_from
from typing import Any

from drafting.shape.frame import Vec
from drafting.shape.pieces import Part
from drafting.solids.build import build_part
from drafting.solids.kernel_text import explored
from drafting.solids.products import PRODUCT_NAMES, Colour, Product, groups
from drafting.solids.steady import TIE
from drafting.solids.triangles import settled

_Triangles = tuple["array[float]", "array[float]", "array[int]"]
"""Vertices in metres, unit normals, the corners of triangles."""
DEFLECTION = 0.1
"""Triangles leave the surface by this much (mm) at the most …"""
ANGLE = 0.2
"""… and two neighbours differ by this angle (radians) at the most."""
PLACE = 1e-3
"""Points are told to this much (mm), a hundredth of what a triangle leaves its surface, …"""
CLEAR = 0.35
"""How much of a thing is there that is looked through."""
NORMAL = 3
"""… directions from so many decimals: processors differ in their last bits."""
UP = [-(0.5**0.5), 0.0, 0.0, 0.5**0.5]
"""A quarter turn about X (quaternion): +Z of the model becomes +Y of glTF."""
_FLOAT, _UNSIGNED = 5126, 5125
_VERTICES, _INDICES = 34962, 34963


def glb_bytes(
    name: str,
    parts: Sequence[Part],
    state: str,
    meta: Mapping[str, str],
    lengths: Mapping[str, float] | None = None,
) -> bytes:
    """Give the GLB file of the parts as they stand; ``meta`` as for STEP.

    ``lengths`` (``stroke_mm``, ``retracted_mm``) stand in the ``extras`` of the node ``rod``, so
    that a viewer can slide it: its translation along x is in metres. Raises OutputFailed when the
    kernel cannot make a part.
    """
    book = Book()
    tops: list[int] = []
    for group in groups(name, parts):
        node: dict[str, Any] = {"name": PRODUCT_NAMES[group.owner]}
        if group.alone:
            node["mesh"] = book.mesh(group.products[0])
        else:
            node["children"] = [
                book.node({"name": p.name, "mesh": book.mesh(p)}) for p in group.products
            ]
        if group.owner == "rod" and lengths:
            node["extras"] = dict(lengths)
        tops.append(book.node(node))
    root = book.node({"name": f"{name}-{state}", "rotation": UP, "children": tops})
    keep = ("number", "revision", "title", "date", "spec_text", "input_sha256")
    extras = {k: meta[k] for k in keep if meta.get(k)}
    return book.packed(f"{name}-{state}", root, {"generator": meta.get("tool", "")}, extras)


def read_glb_json(data: bytes) -> dict[str, Any]:
    """Give the JSON part of a GLB file; raises ValueError when it is none."""
    if data[:4] != b"glTF" or data[16:20] != b"JSON":
        raise ValueError("not a GLB file")
    (length,) = unpack_from("<I", data, 12)
    document: dict[str, Any] = json.loads(data[20 : 20 + length])
    return document


@dataclass(slots=True)
class Book:
    """The lists of a glTF document of one scene, and its binary part."""

    nodes: list[dict[str, Any]] = field(default_factory=list)
    meshes: list[dict[str, Any]] = field(default_factory=list)
    materials: list[dict[str, Any]] = field(default_factory=list)
    accessors: list[dict[str, Any]] = field(default_factory=list)
    views: list[dict[str, Any]] = field(default_factory=list)
    data: bytearray = field(default_factory=bytearray)

    def node(self, node: dict[str, Any]) -> int:
        """Enter a node and give its number."""
        self.nodes.append(node)
        return len(self.nodes) - 1

    def mesh(self, product: Product) -> int:
        """Enter a part's triangles and its colour, and give the mesh's number."""
        return self._enter(product.name, product.colour, _triangles_of(product.part), clear=False)

    def shape(self, name: str, colour: Colour, shape: Any, clear: bool = False) -> int:
        """Enter a kernel shape, to be looked through where it is ``clear``."""
        return self._enter(name, colour, _triangles(shape), clear)

    def _enter(self, name: str, colour: Colour, triangles: _Triangles, clear: bool) -> int:
        points, normals, corners = triangles
        linear = [_linear(c) for c in colour]
        self.materials.append(
            {
                "name": name,
                "pbrMetallicRoughness": {
                    "baseColorFactor": [*linear, CLEAR if clear else 1.0],
                    "metallicFactor": 0.3,
                    "roughnessFactor": 0.5,
                },
                **({"alphaMode": "BLEND"} if clear else {}),
            }
        )
        attributes = {
            "POSITION": self._accessor(points, "VEC3", bounded=True),
            "NORMAL": self._accessor(normals, "VEC3"),
        }
        primitive = {
            "attributes": attributes,
            "indices": self._accessor(corners, "SCALAR"),
            "material": len(self.materials) - 1,
        }
        self.meshes.append({"name": name, "primitives": [primitive]})
        return len(self.meshes) - 1

    def packed(
        self, name: str, root: int, asset: Mapping[str, Any], extras: Mapping[str, Any]
    ) -> bytes:
        """Give the file of a scene with one root node."""
        document = {
            "asset": {"version": "2.0", **asset, "extras": dict(extras)},
            "scene": 0,
            "scenes": [{"name": name, "nodes": [root]}],
            "nodes": self.nodes,
            "meshes": self.meshes,
            "materials": self.materials,
            "accessors": self.accessors,
            "bufferViews": self.views,
            "buffers": [{"byteLength": len(self.data)}],
        }
        text = json.dumps(document, ensure_ascii=False, separators=(",", ":")).encode("utf-8")
        text += b" " * (-len(text) % 4)
        size = 12 + 8 + len(text) + 8 + len(self.data)
        return b"".join(
            (
                pack("<4sII", b"glTF", 2, size),
                pack("<I4s", len(text), b"JSON"),
                text,
                pack("<I4s", len(self.data), b"BIN\0"),
                self.data,
            )
        )

    def _accessor(self, values: array[Any], kind: str, bounded: bool = False) -> int:
        if sys.byteorder == "big":
            values = values[:]
            values.byteswap()
        raw = values.tobytes()
        indices = kind == "SCALAR"
        self.views.append(
            {
                "buffer": 0,
                "byteOffset": len(self.data),
                "byteLength": len(raw),
                "target": _INDICES if indices else _VERTICES,
            }
        )
        self.data += raw
        accessor: dict[str, Any] = {
            "bufferView": len(self.views) - 1,
            "componentType": _UNSIGNED if indices else _FLOAT,
            "count": len(values) // (1 if indices else 3),
            "type": kind,
        }
        if bounded:
            accessor["min"] = [min(values[i::3]) for i in range(3)]
            accessor["max"] = [max(values[i::3]) for i in range(3)]
        self.accessors.append(accessor)
        return len(self.accessors) - 1


def _linear(c: float) -> float:
    """From sRGB to the linear light of glTF (IEC 61966-2-1)."""
    return round(c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4, 4)


@lru_cache(maxsize=16)
def _triangles_of(part: Part) -> _Triangles:
    """Give the triangles of a part, kept for a next model in which only others have changed."""
    return _triangles(build_part(part))


def _triangles(shape: Any) -> _Triangles:
    """Give vertices in metres, unit normals, and the corners of counterclockwise triangles."""
    from OCP.BRep import BRep_Tool
    from OCP.BRepLib import BRepLib_ToolTriangulatedShape
    from OCP.BRepMesh import BRepMesh_IncrementalMesh
    from OCP.TopAbs import TopAbs_Orientation
    from OCP.TopLoc import TopLoc_Location

    BRepMesh_IncrementalMesh(shape, DEFLECTION, False, ANGLE, False)
    points, normals, corners = array("f"), array("f"), array("I")
    for face in explored(shape, "FACE"):
        place = TopLoc_Location()
        net = BRep_Tool.Triangulation_s(face, place)
        BRepLib_ToolTriangulatedShape.ComputeNormals_s(face, net)
        turn = place.Transformation()
        inside_out = face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
        first = len(points) // 3
        spots: list[Vec] = []
        for i in range(1, net.NbNodes() + 1):
            p = net.Node(i).Transformed(turn)
            n = net.Normal(i).Transformed(turn)
            if inside_out:
                n.Reverse()
            spots.append((p.X(), p.Y(), p.Z()))
            points.extend(_place(c) / 1000.0 for c in spots[-1])
            normals.extend(_direction(n.X(), n.Y(), n.Z()))
        net_corners = (net.Triangle(i).Get() for i in range(1, net.NbTriangles() + 1))
        turned = [
            (a - 1, c - 1, b - 1) if inside_out else (a - 1, b - 1, c - 1)
            for a, b, c in net_corners
        ]
        corners.extend(first + k for t in settled(spots, turned) for k in t)
    return points, normals, corners


def _direction(x: float, y: float, z: float) -> Vec:
    x, y, z = (round(c, NORMAL) + 0.0 for c in (x, y, z))
    size = sqrt(x * x + y * y + z * z) or 1.0
    return x / size, y / size, z / size


def _place(mm: float) -> float:
    """Give a coordinate as every processor has it; halves are not where two numbers part."""
    return floor(mm / PLACE + 0.5 + TIE) * PLACE

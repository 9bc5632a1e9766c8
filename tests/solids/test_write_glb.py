"""GLB files: valid, in metres, closed, named, equal bytes.

Sources: glTF 2.0 (ISO/IEC 12113:2022); the Khronos glTF validator where Node has it
(``npm install gltf-validator``, found through NODE_PATH); volumes of ring and cone by formula.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from array import array
from math import pi
from pathlib import Path

import pytest

from drafting.solids.write_glb import glb_bytes, read_glb_json
from tests.solids.sample_parts import META, RETRACTED, STROKE, sample

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def data() -> bytes:
    return glb_bytes("SG-0417", sample(), "retracted", META)


def values(data: bytes, accessor: int) -> array[float] | array[int]:
    document = read_glb_json(data)
    entry = document["accessors"][accessor]
    view = document["bufferViews"][entry["bufferView"]]
    start = 20 + int.from_bytes(data[12:16], "little") + 8 + view["byteOffset"]
    out: array[float] | array[int] = array("f" if entry["componentType"] == 5126 else "I")
    out.frombytes(data[start : start + view["byteLength"]])
    return out


def mesh(data: bytes, name: str) -> tuple[list[tuple[float, ...]], ...]:
    document = read_glb_json(data)
    entry = next(m for m in document["meshes"] if m["name"] == name)["primitives"][0]
    points = values(data, entry["attributes"]["POSITION"])
    normals = values(data, entry["attributes"]["NORMAL"])
    corners = values(data, entry["indices"])
    return (
        list(zip(points[0::3], points[1::3], points[2::3], strict=True)),
        list(zip(normals[0::3], normals[1::3], normals[2::3], strict=True)),
        list(zip(corners[0::3], corners[1::3], corners[2::3], strict=True)),
    )


def apart(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(q - p for p, q in zip(a, b, strict=True))


def dot(a: tuple[float, ...], b: tuple[float, ...]) -> float:
    return sum(p * q for p, q in zip(a, b, strict=True))


def cross(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[float, ...]:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def test_nodes_and_spec(data: bytes) -> None:
    document = read_glb_json(data)
    root = document["nodes"][document["scenes"][0]["nodes"][0]]
    assert root["name"] == "SG-0417-retracted"
    children = [document["nodes"][n] for n in root["children"]]
    assert [c["name"] for c in children] == ["barrel", "rod"]
    assert [[document["nodes"][n]["name"] for n in c["children"]] for c in children] == [
        ["SG-0417-barrel-main", "SG-0417-gland"],
        ["SG-0417-rod-main", "SG-0417-piston"],
    ]
    assert document["asset"]["extras"]["spec_text"] == META["spec_text"]
    assert document["asset"]["generator"] == META["tool"]


def test_one_part_is_its_own_node() -> None:
    document = read_glb_json(glb_bytes("x", sample(2), "retracted", {}))
    assert all("mesh" in n for n in document["nodes"] if n["name"] in ("barrel", "rod"))
    assert document["asset"]["extras"] == {}


def test_metres_and_bounds(data: bytes) -> None:
    points, _, _ = mesh(data, "SG-0417-rod-main")
    assert max(p[0] for p in points) == pytest.approx((RETRACTED + 31.75) / 1000, abs=2e-4)
    assert min(p[1] for p in points) == pytest.approx(-0.0381, abs=1e-6)


@pytest.mark.parametrize(
    ("name", "volume"),
    [
        ("SG-0417-piston", pi * (44.45**2 - 15.5**2) * 50),
        (
            "SG-0417-gland",
            pi
            * (
                38.0**2 * 10
                + 44.45**2 * 30
                + 54.0**2 * 25
                + (54.0**2 + 54.0 * 50.0 + 50.0**2) / 3 * 5
                - 22.225**2 * 70
            ),
        ),
    ],
)
def test_triangles_close_and_look_outward(data: bytes, name: str, volume: float) -> None:
    points, normals, triangles = mesh(data, name)
    total = 0.0
    edges: dict[tuple[object, object], int] = {}
    for corners in triangles:
        a, b, c = (points[int(k)] for k in corners)
        normal = cross(
            [q - p for p, q in zip(a, b, strict=True)], [q - p for p, q in zip(a, c, strict=True)]
        )
        assert all(
            sum(x * y for x, y in zip(normal, normals[int(k)], strict=True)) > 0 for k in corners
        )
        total += sum(x * y for x, y in zip(normal, a, strict=True)) / 6
        spots = [tuple(round(x, 6) for x in p) for p in (a, b, c)]
        for p, q in zip(spots, spots[1:] + spots[:1], strict=True):
            edges[p, q] = edges.get((p, q), 0) + 1
    assert total * 1e9 == pytest.approx(volume, rel=0.002)
    assert all(edges.get((q, p)) == n for (p, q), n in edges.items())
    assert all(dot(n, n) == pytest.approx(1.0, abs=1e-5) for n in normals)


def test_equal_bytes_in_another_process(data: bytes) -> None:
    code = (
        "import sys; from drafting.solids.write_glb import glb_bytes; "
        "from tests.solids.sample_parts import *; "
        "sys.stdout.buffer.write(glb_bytes('SG-0417', sample(), 'retracted', META))"
    )
    run = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONHASHSEED": "7", "PYTHONPATH": str(ROOT)},
        capture_output=True,
        check=True,
    )
    assert run.stdout == data


def test_the_other_position_differs(data: bytes) -> None:
    from drafting.shape.pieces import moved

    out = [moved(p, STROKE) if p.owner == "rod" else p for p in sample()]
    points, _, _ = mesh(glb_bytes("SG-0417", out, "extended", META), "SG-0417-rod-main")
    before, _, _ = mesh(data, "SG-0417-rod-main")
    shift = max(p[0] for p in points) - max(p[0] for p in before)
    assert shift == pytest.approx(STROKE / 1000, abs=1e-6)


def test_what_is_no_glb_is_refused() -> None:
    with pytest.raises(ValueError, match="not a GLB"):
        read_glb_json(b"solid")


VALIDATE = """
require('gltf-validator')
  .validateBytes(new Uint8Array(require('fs').readFileSync(process.argv[1])))
  .then(report => console.log(JSON.stringify(report.issues)))
"""


def test_the_khronos_validator_finds_nothing(data: bytes, tmp_path: Path) -> None:
    node = shutil.which("node")
    if node is None:
        pytest.skip("no Node here: the glTF validator cannot run")
    path = tmp_path / "x.glb"
    path.write_bytes(data)
    run = subprocess.run([node, "-e", VALIDATE, path], capture_output=True, text=True, check=False)
    if "Cannot find module" in run.stderr:
        pytest.skip("no gltf-validator here (npm install gltf-validator, NODE_PATH)")
    issues = json.loads(run.stdout)
    assert (issues["numErrors"], issues["numWarnings"], issues["numInfos"]) == (0, 0, 0), issues


def test_the_rod_says_how_far_it_goes() -> None:
    lengths = {"stroke_mm": STROKE, "retracted_mm": RETRACTED}
    nodes = read_glb_json(glb_bytes("x", sample(), "retracted", META, lengths))["nodes"]
    assert {n["name"]: n.get("extras") for n in nodes if n["name"] in ("rod", "barrel")} == {
        "rod": lengths,
        "barrel": None,
    }

"""The GLB of whole cylinders: by the Khronos validator where it is, by its bytes everywhere.

Sources: glTF 2.0 (ISO/IEC 12113:2022); lengths of the spec as the JSON tells them.
"""

import json
import os
import shutil
import struct

import pytest

from tests.readers.programs import run

VALIDATE = """
require('gltf-validator')
  .validateBytes(new Uint8Array(require('fs').readFileSync(process.argv[1])))
  .then(report => console.log(JSON.stringify(report.issues)))
"""


def test_the_khronos_validator_finds_nothing(drawn, tmp_path):
    node = shutil.which("node")
    if node is None:
        pytest.skip("node is not here: the glTF validator cannot run")
    modules = os.environ.get("NODE_PATH", "")
    done = run([node, "-e", VALIDATE, drawn.file(".glb")], tmp_path, NODE_PATH=modules)
    if b"Cannot find module" in done.stderr:
        pytest.skip("gltf-validator is not here (npm install gltf-validator, NODE_PATH)")
    issues = json.loads(done.stdout)
    assert (issues["numErrors"], issues["numWarnings"]) == (0, 0), issues


def test_its_bytes_are_a_whole_glb_in_metres(drawn):
    data = drawn.file(".glb").read_bytes()
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, kind = struct.unpack_from("<I4s", data, 12)
    assert kind == b"JSON"
    gltf = json.loads(data[20 : 20 + size])
    rest, kind = struct.unpack_from("<I4s", data, 20 + size)
    assert kind == b"BIN\0"
    assert 28 + size + rest == len(data)
    assert gltf["buffers"] == [{"byteLength": pytest.approx(rest, abs=3)}]
    for view in gltf["bufferViews"]:
        assert view.get("byteOffset", 0) + view["byteLength"] <= gltf["buffers"][0]["byteLength"]
    names = {node.get("name", "") for node in gltf["nodes"]}
    assert {"barrel", "rod"} <= names
    places = {p["attributes"]["POSITION"] for m in gltf["meshes"] for p in m["primitives"]}
    low, high = (
        [pick(gltf["accessors"][a][side][axis] for a in places) for axis in range(3)]
        for side, pick in (("min", min), ("max", max))
    )
    long = max(h - l for l, h in zip(low, high, strict=True))
    retracted = drawn.entry["lengths"]["retracted_mm"] / 1000
    assert retracted < long < 2.5 * retracted

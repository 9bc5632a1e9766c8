"""The STEP files read by FreeCAD and gmsh.

Sources: what these programs read; volumes from the pieces of the model, which the CAD kernel never
saw; lengths and holes of the spec as the JSON tells them. Both programs use the same kernel as our
writer (OCCT): they prove names, tree, units and use, not a second opinion of the geometry.
"""

import math
import re

import pytest

from drafting.shape.volume import volume
from drafting.told.rows import load_all
from tests.readers.programs import freecad, program, run

STATES = ("retracted", "extended")


@pytest.mark.parametrize("state", STATES)
def test_freecad_reads_tree_solids_and_volumes(drawn, state, tmp_path):
    told = freecad("read_step.py", drawn.file(f"-{state}.step"), tmp_path)
    assert all(t["valid"] for t in told)
    labels = {t["label"] for t in told}
    whole, barrel, rod = (f"{drawn.name}-{k}" for k in (state, "barrel", "rod"))
    assert {whole, barrel, rod} <= labels
    assert all(label.startswith(drawn.name) for label in labels)
    leaves = [t for t in told if t["leaf"]]
    assert all(t["solids"] == 1 for t in leaves)
    assert all(whole in t["within"] and {barrel, rod} & set(t["within"]) for t in leaves)
    (cylinder,) = load_all([str(drawn.spec)])
    assert len(leaves) == len(cylinder.parts)
    for label, owner in ((barrel, "body"), (rod, "rod")):
        (read,) = [t["volume"] for t in told if t["label"] == label]
        sums = [volume(p) for p in cylinder.parts if p.owner == owner]
        assert read == pytest.approx(math.fsum(sums), rel=2e-3), label


def whole_of(told):
    """The assembly, in whose shape every part stands at its place."""
    (whole,) = [t for t in told if not t["within"]]
    return whole


def pin_places(told, radius):
    """World x of the holes of a radius across the cylinder's axis."""
    return {
        round(centre[0], 5)
        for r, axis, centre in whole_of(told)["cylinders"]
        if abs(r - radius) < 1e-6 and abs(axis[0]) < 1e-9
    }


@pytest.mark.parametrize("state", STATES)
@pytest.mark.parametrize("stem", ["weir-gate", "log-grapple"])
def test_pins_stand_apart_as_the_length_says(all_drawn, stem, state, tmp_path):
    drawn = all_drawn[stem]
    told = freecad("read_step.py", drawn.file(f"-{state}.step"), tmp_path)
    places = set()
    for mount in ("body_mount", "rod_mount"):
        places |= pin_places(told, drawn.size(f"{mount}.hole") / 2)
    assert sorted(places) == pytest.approx([0, drawn.entry["lengths"][f"{state}_mm"]], abs=1e-5)


@pytest.mark.parametrize("state", STATES)
def test_trunnion_to_end_of_thread_is_the_length(all_drawn, state, tmp_path):
    drawn = all_drawn["penstock-gate"]
    told = freecad("read_step.py", drawn.file(f"-{state}.step"), tmp_path)
    assert pin_places(told, drawn.size("body_mount.pin") / 2) == {0.0}
    end = whole_of(told)["box"][3]
    assert end == pytest.approx(drawn.entry["lengths"][f"{state}_mm"], abs=1e-5)


def test_gmsh_reads_labels_and_meshes_every_face(drawn, tmp_path):
    command = program("gmsh", "gmsh")
    mesh = tmp_path / "x.msh"
    step = drawn.file("-retracted.step")
    size = drawn.entry["lengths"]["retracted_mm"] / 60
    options = ["-2", "-clmax", size, "-v", "5", "-format", "msh2", "-o", mesh]
    done = run([command, step, *options], tmp_path)
    told = (done.stdout + done.stderr).decode(errors="replace")
    assert "Error" not in told
    labels = re.findall(r"Label 'Shapes/(.*)' \(3D\)", told)
    assert labels
    for part in ("barrel", "rod"):
        assert any(x.startswith(f"{drawn.name}-retracted/{drawn.name}-{part}/") for x in labels)
    (cylinder,) = load_all([str(drawn.spec)])
    (bounds,) = boxes_of(mesh)
    assert bounds[3] - bounds[0] > drawn.entry["lengths"]["retracted_mm"]
    faces = len(re.findall(r"ADVANCED_FACE", step.read_text(encoding="utf-8")))
    assert len(meshed(mesh)) == faces
    assert len(labels) >= len(cylinder.parts)


def lines_of(mesh, name):
    text = mesh.read_text(encoding="utf-8")
    return text.split(f"${name}\n", 1)[1].split(f"$End{name}", 1)[0].splitlines()[1:]


def boxes_of(mesh):
    """The box around all nodes (mm)."""
    nodes = [[float(n) for n in line.split()[1:]] for line in lines_of(mesh, "Nodes")]
    sides = list(zip(*nodes, strict=True))
    yield [*(min(s) for s in sides), *(max(s) for s in sides)]


def meshed(mesh):
    """The faces on which triangles lie."""
    rows = [line.split() for line in lines_of(mesh, "Elements")]
    return {row[4] for row in rows if row[1] == "2"}

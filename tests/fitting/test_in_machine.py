"""What ``fit`` writes to drop into the machine's model, read back by other programs and by hand."""

import struct

import cadquery as cq
import numpy as np
import pytest

from drafting.fitting.fit import fit
from drafting.fitting.machine import read_machine
from drafting.fitting.travel import extremes, place, span
from drafting.jobs.fit import fit_files
from drafting.solids.write_glb import read_glb_json
from tests.fitting.machines import PAIRS, SPECS, cylinder
from tests.readers.programs import freecad

NAME = "wagon-tailboard"


@pytest.fixture(scope="module")
def made():
    m = read_machine(str(SPECS / "machines" / f"{NAME}.toml"))
    found = fit(cylinder(PAIRS[NAME]), m)
    return found, fit_files(found)


def file_of(made, tail):
    (name,) = (n for n in made[1] if n.endswith(tail))
    return made[1][name]


def pins(found):
    """Where the pins are in the model at both ends, by the plane of the arm alone."""
    seat, way = found.room.seat, found.machine.way
    return [
        tuple(np.asarray(seat.point(p)) for p in (q.base, q.rod)) for q in extremes(way, *span(way))
    ]


def test_another_program_finds_the_cylinder_between_the_right_pins(made, tmp_path):
    """FreeCAD tells of every round face its axis: holes lie about base pin and rod pin."""
    found, _ = made
    (tmp_path / "in.step").write_bytes(file_of(made, "-in-machine.step"))
    told = freecad("read_step.py", tmp_path / "in.step", tmp_path)
    labels = {t["label"] for t in told}
    name = found.subject.cylinder.name
    assert {f"{name}-closed", f"{name}-open"} <= labels
    axis = np.asarray(found.room.seat.axis)
    for word, (base, rod) in zip(("closed", "open"), pins(found), strict=True):
        (group,) = [t for t in told if t["label"] == f"{name}-{word}"]
        for pin, table in ((base, "body_mount"), (rod, "rod_mount")):
            hole = found.subject.cylinder.value(f"{table}.hole").value / 2
            about = [
                c for r, way, c in group["cylinders"]
                if abs(r - hole) < 1e-4 and abs(abs(np.asarray(way) @ axis) - 1) < 1e-6
            ]  # fmt: skip
            off = [np.asarray(c) - pin for c in about]
            assert any(np.linalg.norm(o - (o @ axis) * axis) < 1e-3 for o in off), (word, table)


def test_pin_axes_read_back_by_the_kernel(made, tmp_path):
    path = tmp_path / "in.step"
    path.write_bytes(file_of(made, "-in-machine.step"))
    axes = set()
    for face in cq.importers.importStep(str(path)).faces("%CYLINDER").vals():
        round_ = face._geomAdaptor().Cylinder()
        d, o = round_.Axis().Direction(), round_.Axis().Location()
        if abs(d.Y()) > 0.999 and round_.Radius() == pytest.approx(15.1, abs=1e-3):
            axes.add((round(o.X(), 2), round(o.Z(), 2)))
    end = place(made[0].machine.way, 65.0).rod
    assert axes == {(100.0, -500.0), (420.0, 40.0), (round(end[0], 2), round(end[1], 2))}


def test_the_glb_has_both_positions_and_the_machine_about_them(made):
    """glTF: metres, matrices by columns (ISO/IEC 12113, 5.25); the rod's pin is its own x."""
    found, _ = made
    document = read_glb_json(file_of(made, "-in-machine.glb"))
    by = {n["name"]: n for n in document["nodes"]}
    name = found.subject.cylinder.name
    root = by[f"{name}-in-machine"]
    tops = [document["nodes"][k] for k in root["children"]]
    assert [n["name"] for n in tops if n["name"].startswith(name)] == [
        f"{name}-closed", f"{name}-open",
    ]  # fmt: skip
    closed = found.subject.closed
    for word, (base, rod) in zip(("closed", "open"), pins(found), strict=True):
        halves = [document["nodes"][k] for k in by[f"{name}-{word}"]["children"]]
        for half, at, pin in zip(halves, (0.0, closed), (base, rod), strict=True):
            pose = np.array(half["matrix"]).reshape(4, 4).T
            there = pose @ [at / 1000.0, 0, 0, 1]
            assert there[:3] * 1000.0 == pytest.approx(pin, abs=1e-6)
            assert np.linalg.det(pose[:3, :3]) == pytest.approx(1.0)
    moving = found.machine.model.moving
    shown = {document["nodes"][k]["name"] for k in by["machine-open"]["children"]}
    assert {n.partition("#")[0] for n in shown} == set(moving)
    blends = [m for m in document["materials"] if m.get("alphaMode") == "BLEND"]
    assert len(blends) == len(found.room.solids.names)
    data = file_of(made, "-in-machine.glb")
    assert struct.unpack_from("<I", data, 8)[0] == len(data)

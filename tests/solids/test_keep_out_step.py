"""The room of a fitting in the STEP file: a product of its own, which the cylinder's do not hold.

Volumes by hand: a cylinder, and a quarter of a square-sectioned ring (Guldin: area times the way of
its centroid, a quarter turn).
"""

from math import pi

import pytest

from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.solids.products import groups
from drafting.spec.check import read_spec
from tests.model.test_hose_room import RUN, D, text
from tests.solids.as_step import step_bytes
from tests.solids.read_step import read


def volume(solid):
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    found = GProp_GProps()
    BRepGProp.VolumeProperties_s(solid, found)
    return found.Mass()


def test_the_room_is_a_product_of_its_own(tmp_path):
    spec = text('fitting = "straight"\nhose_bend = 100')
    c = load(read_spec(spec.encode(), mounts=mounts_by_end(), file="t.toml"))
    tree = read(step_bytes("HB-9", c.parts, "retracted", {}, c.phantoms), tmp_path)
    assert [n.name for n in tree.children] == ["HB-9-barrel", "HB-9-rod", "HB-9-keep-out"]
    solids = [s for n in tree.named("HB-9-keep-out").walk() for s in n.solids]
    assert len(solids) == 2
    hose = 1.25 * 12.7 + 7
    straight = pi * (0.75 * D) ** 2 * RUN + pi * (hose / 2) ** 2 * 1.5 * hose
    ring = hose * hose * (100 + hose / 2) * pi / 2
    assert sum(map(volume, solids)) == pytest.approx(straight + ring, rel=1e-6)
    plain = read(step_bytes("HB-9", c.parts, "retracted", {}), tmp_path)
    assert [n.name for n in plain.children] == ["HB-9-barrel", "HB-9-rod"]


def test_two_rooms_are_an_assembly():
    spec = text('fitting = "straight"', rest='[rod_port]\nthread = "SAE-8"\nfitting = "90"')
    c = load(read_spec(spec.encode(), mounts=mounts_by_end(), file="t.toml"))
    *_, rooms = groups("HB-9", c.parts, c.phantoms)
    assert rooms.name == "HB-9-keep-out"
    assert [p.name for p in rooms.products] == [
        "HB-9-base-port-keep-out",
        "HB-9-base-port-keep-out-bend",
        "HB-9-rod-port-keep-out",
        "HB-9-rod-port-keep-out-bend",
    ]

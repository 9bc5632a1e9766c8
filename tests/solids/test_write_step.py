"""STEP files: read back with the kernel, compared with closed forms, equal in every process.

Sources: ISO 10303-21 (syntax), ISO 10303-214 (products, colours); volumes from the formulas of the
cylinder and the ring; https://reproducible-builds.org/specs/source-date-epoch/ for the time stamp.
"""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
from dataclasses import replace
from math import cos, pi, radians, sin
from pathlib import Path
from random import Random

import pytest

from drafting.errors import OutputFailed
from drafting.shape.frame import Y
from drafting.shape.pieces import Line2, Part, Piece, Prism, cylinder
from drafting.shape.volume import volume
from drafting.solids.build import kernel_volume
from drafting.solids.carry_step import spec_from_step
from drafting.solids.part21 import Entity, canonical, read_entities
from drafting.solids.write_step import step_files
from tests.solids.as_step import step_bytes, step_pair
from tests.solids.read_step import Node, bounds, explore, read
from tests.solids.sample_parts import META, RETRACTED, STROKE, sample

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def pair() -> tuple[bytes, bytes]:
    return step_pair("SG-0417", sample(), STROKE, META)


@pytest.fixture(scope="module")
def trees(pair: tuple[bytes, bytes], tmp_path_factory: pytest.TempPathFactory) -> list[Node]:
    return [read(data, tmp_path_factory.mktemp("step")) for data in pair]


def outline(node: Node) -> tuple[str, list[object]]:
    return node.name, [outline(c) for c in node.children]


def test_products(trees: list[Node]) -> None:
    for tree, state in zip(trees, ("retracted", "extended"), strict=True):
        assert outline(tree) == (
            f"SG-0417-{state}",
            [
                ("SG-0417-barrel", [("SG-0417-barrel-main", []), ("SG-0417-gland", [])]),
                ("SG-0417-rod", [("SG-0417-rod-main", []), ("SG-0417-piston", [])]),
            ],
        )
        assert all(n.instance == n.name for n in tree.walk())


def test_an_owner_with_one_part_is_that_part(tmp_path: Path) -> None:
    tree = read(step_bytes("SG-0417", sample(2), "retracted", META), tmp_path)
    assert outline(tree) == ("SG-0417-retracted", [("SG-0417-barrel", []), ("SG-0417-rod", [])])
    assert [len(n.solids) for n in tree.children] == [1, 1]


def test_only_the_rod_moves(trees: list[Node]) -> None:
    for tree, x in zip(trees, (0.0, STROKE), strict=True):
        assert tree.named("SG-0417-barrel").at == (0.0, 0.0, 0.0)
        assert tree.named("SG-0417-rod").at == pytest.approx((x, 0.0, 0.0), abs=1e-9)


def test_solids_are_valid_and_have_the_volume_of_the_formulas(trees: list[Node]) -> None:
    from OCP.BRepCheck import BRepCheck_Analyzer

    volumes = {
        "SG-0417-piston": pi * (44.45**2 - 15.5**2) * 50,
        "SG-0417-gland": pi
        * (
            38.0**2 * 10
            + 44.45**2 * 30
            + 54.0**2 * 25
            + (54.0**2 + 54.0 * 50.0 + 50.0**2) / 3 * 5
            - 22.225**2 * 70
        ),
    }
    for tree in trees:
        leaves = [n for n in tree.walk() if not n.children]
        assert [len(n.solids) for n in leaves] == [1, 1, 1, 1]
        for leaf in leaves:
            assert BRepCheck_Analyzer(leaf.solids[0]).IsValid()
            if leaf.name in volumes:
                assert kernel_volume(leaf.solids[0]) == pytest.approx(volumes[leaf.name], rel=1e-9)


def test_the_files_hold_the_volume_of_the_pieces(trees: list[Node]) -> None:
    for part, leaf in zip(
        sample(),
        ("SG-0417-barrel-main", "SG-0417-gland", "SG-0417-rod-main", "SG-0417-piston"),
        strict=True,
    ):
        held = kernel_volume(trees[1].named(leaf).solids[0])
        assert held == pytest.approx(volume(part), rel=0.003)


def test_bounds(trees: list[Node]) -> None:
    for tree, x in zip(trees, (RETRACTED, RETRACTED + STROKE), strict=True):
        rod = tree.named("SG-0417-rod-main").solids[0]
        assert bounds(rod) == pytest.approx(
            (x - 632.15, -38.1, -31.75, x + 31.75, 38.1, 31.75), abs=1e-5
        )
        barrel = tree.named("SG-0417-barrel-main").solids[0]
        side = 66.0 * sin(radians(35.0)) + 16.0 * cos(radians(35.0))  # rim of the turned boss
        assert bounds(barrel)[0] == pytest.approx(-28.6, abs=1e-5)
        assert bounds(barrel)[3:] == pytest.approx((560.0, side, 66.0), abs=1e-5)


def test_holes_are_found_by_name(trees: list[Node]) -> None:
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.TopoDS import TopoDS

    def places(faces: list[object]) -> set[tuple[float, float, float]]:
        found = set()
        for face in faces:
            round_ = BRepAdaptor_Surface(TopoDS.Face_s(face)).Cylinder()
            at, axis = round_.Axis().Location(), round_.Axis().Direction()
            assert abs(axis.Y()) == pytest.approx(1.0)
            found.add((round(at.X(), 6), round(at.Z(), 6), round(round_.Radius(), 6)))
        return found

    for tree, x in zip(trees, (RETRACTED, RETRACTED + STROKE), strict=True):
        body = tree.named("SG-0417-barrel-main").bores("body_mount")
        rod = tree.named("SG-0417-rod-main").bores("rod_mount")
        assert places(body) == {(0.0, 0.0, 16.0)}
        assert len(rod) == 2
        assert places(rod) == {(round(x, 6), 0.0, 16.0)}


def test_every_face_has_the_name_of_a_piece(trees: list[Node]) -> None:
    for leaf, part in zip(
        ("SG-0417-barrel-main", "SG-0417-gland", "SG-0417-rod-main", "SG-0417-piston"),
        sample(),
        strict=True,
    ):
        node = trees[0].named(leaf)
        assert sum(len(f) for f in node.faces.values()) == len(explore(node.solids[0], "FACE"))
        assert {n.rpartition(".")[0] for n in node.faces} <= {p.name for p in part.pieces}


def test_no_two_faces_of_a_file_have_one_name(pair: tuple[bytes, bytes]) -> None:
    text = pair[0].decode("ascii").replace("\n", "")
    names = re.findall(r"ADVANCED_FACE\('([^']*)'", text)
    assert "" not in names
    assert len(names) == len(set(names)) > 30


def test_a_face_is_what_its_name_says(trees: list[Node]) -> None:
    """Where planes look and where round faces lie, from the sizes of the sample (mm)."""
    rod, barrel = (trees[0].named(f"SG-0417-{w}-main") for w in ("rod", "barrel"))

    def box(node: Node, name: str) -> tuple[float, ...]:
        (face,) = node.faces[name]
        return bounds(face)

    assert box(barrel, "body_mount.tube.face_3h")[1::3] == pytest.approx((44.45, 44.45), abs=1e-5)
    assert box(barrel, "body_mount.tube.face_9h")[1::3] == pytest.approx((-44.45, -44.45), abs=1e-5)
    assert box(barrel, "body_mount.tube.bore")[2::3] == pytest.approx((-16.0, 16.0), abs=1e-5)
    assert box(barrel, "base_port.boss.face_12h")[2::3] == pytest.approx((66.0, 66.0), abs=1e-5)
    assert box(barrel, "cylinder.barrel_outside.face_rod")[::3] == pytest.approx((560.0,) * 2)
    web = box(rod, "rod_mount.web.face_base")
    assert web[::3] == pytest.approx((RETRACTED - 60.0,) * 2, abs=1e-5)
    (turned,) = (n for n in barrel.faces if n.startswith("rod_port.boss.face"))
    assert turned == "rod_port.boss.face_1h10"  # 35 degrees past 12


def test_the_port_face_lies_where_the_boss_ends(trees: list[Node]) -> None:
    (face,) = trees[0].named("SG-0417-barrel-main").faces["base_port.boss.face_12h"]
    b = bounds(face)
    assert (b[0], b[3], b[5]) == pytest.approx((69.0, 101.0, 66.0), abs=1e-5)


def test_colours(trees: list[Node]) -> None:
    colours = {n.name: n.colour for n in trees[0].walk() if not n.children}
    assert len(set(colours.values())) == 4
    rod, barrel = colours["SG-0417-rod-main"], colours["SG-0417-barrel-main"]
    assert rod == (0.8, 0.82, 0.85)
    assert barrel == (0.55, 0.57, 0.6)


def test_header(pair: tuple[bytes, bytes]) -> None:
    head = pair[1].partition(b"DATA;")[0].decode("ascii")
    assert "'SG-0417 rev. A: Sluice gate lift, extended'" in head
    assert "FILE_NAME('SG-0417-extended.step','2026-11-25T00:00:00',('')," in head
    assert "'cylinder-drafting 0.1.0'" in head
    assert "SHA-256 of the input: 0000" in head
    text = pair[1].decode("ascii").replace("\n", "")
    products = re.findall(r"PRODUCT\(('[^']*'),\1,('[^']*')", text)
    assert ("'SG-0417-extended'", "'Sluice gate lift, extended'") in products
    assert ("'SG-0417-gland'", "'Sluice gate lift, gland'") in products
    assert len(products) == 7
    versions = re.findall(r"PRODUCT_DEFINITION_FORMATION\('([^']*)'", text)
    assert versions == ["A"] * 7
    assert "Open CASCADE" not in pair[1].decode("ascii")
    for data in pair:
        assert spec_from_step(data) == META["spec_text"]


@pytest.mark.parametrize(
    ("epoch", "stamp"), [("1700000000", "2023-11-14T22:13:20"), (None, ""), ("soon", "")]
)
def test_time_stamp_without_a_date(
    monkeypatch: pytest.MonkeyPatch, epoch: str | None, stamp: str
) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    if epoch is not None:
        monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    data = step_bytes("x", sample()[3:], "retracted", {})
    assert f"FILE_NAME('x-retracted.step','{stamp}',('')," in data.decode("ascii")
    assert spec_from_step(data) is None


def test_size_and_form(pair: tuple[bytes, bytes]) -> None:
    for data in pair:
        assert len(data) <= 120_000
        text = data.decode("ascii")
        assert not re.search("PCURVE|SURFACE_CURVE", text)
        assert "SI_UNIT(.MILLI.,.METRE.)" in text
        assert "AUTOMOTIVE_DESIGN" in text
        assert max(map(len, text.partition("DATA;")[2].splitlines())) <= 120
        numbers = [int(n) for n in re.findall(r"^#(\d+)=", text, re.M)]
        assert numbers == list(range(1, len(numbers) + 1))
        assert {int(n) for n in re.findall(r"#(\d+)", text)} <= set(numbers)


@pytest.mark.parametrize("name", ["Größe-7", "閘門", "O'Neill", "a\\b", "@0"])
def test_names_of_any_script(name: str, tmp_path: Path) -> None:
    tree = read(step_bytes(name, sample(2), "retracted", META), tmp_path)
    names = [f"{name}-retracted", f"{name}-barrel", f"{name}-rod"]
    assert [n.name for n in tree.walk()] == names


PRINT_HASHES = """
import hashlib
from tests.solids.as_step import step_pair, step_bytes
from tests.solids.sample_parts import *
for _ in range(2):
    for data in step_pair("SG-0417", sample(), STROKE, META):
        print(hashlib.sha256(data).hexdigest())
"""


def test_equal_bytes_in_every_process_and_nothing_else_on_stdout(pair: tuple[bytes, bytes]) -> None:
    runs = [
        subprocess.run(
            [sys.executable, "-c", PRINT_HASHES],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    ]
    own = [hashlib.sha256(d).hexdigest() for d in pair]
    assert runs == ["\n".join(own + own) + "\n"] * 2


def test_a_position_between(trees: list[Node], tmp_path: Path) -> None:
    made = step_files("SG-0417", sample(), {"at-700mm": 7.85}, META)
    tree = read(made["at-700mm"], tmp_path)
    assert tree.name == "SG-0417-at-700mm"
    assert tree.named("SG-0417-rod").at == pytest.approx((7.85, 0.0, 0.0), abs=1e-9)
    assert b"lift, at 700mm" in made["at-700mm"]


def test_a_moved_rod_is_another_file(pair: tuple[bytes, bytes]) -> None:
    assert step_pair("SG-0417", sample(), STROKE + 0.01, META)[1] != pair[1]


@pytest.mark.parametrize("seed", range(5))
def test_numbers_and_order_of_the_kernel_do_not_matter(
    pair: tuple[bytes, bytes], seed: int
) -> None:
    random = Random(seed)
    entities = read_entities(pair[0].decode("ascii"), {})
    others = sorted(random.sample(range(1, 10 * len(entities)), len(entities)))
    to = dict(zip(sorted(entities), others, strict=True))
    again = {to[n]: Entity(e.texts, [to[r] for r in e.refs]) for n, e in entities.items()}
    mixed = dict(random.sample(list(again.items()), len(again)))
    data = pair[0].partition(b"DATA;")[2]
    assert canonical(mixed, "").partition(b"DATA;")[2] == data


def test_a_part_that_falls_apart_is_an_assembly_of_its_solids(tmp_path: Path) -> None:
    two = Part(
        "rings",
        "body",
        tuple(Piece(f"cylinder.ring{x}", cylinder(10.0, x, x + 5.0)) for x in (0.0, 50.0)),
    )
    tree = read(step_bytes("x", (two, sample()[3]), "retracted", {}), tmp_path)
    rings = tree.named("x-barrel").children
    assert [n.name for n in rings] == ["x-barrel-1", "x-barrel-2"]
    assert [len(n.solids) for n in rings] == [1, 1]
    faces = ("face_base", "face_rod", "outside")
    assert [set(n.faces) for n in rings] == [
        {f"cylinder.ring{x}.{f}" for f in faces} for x in (0.0, 50.0)
    ]
    assert {n.colour for n in rings} == {(0.55, 0.57, 0.6)}


def test_a_part_without_metal_is_told() -> None:
    hole = Piece("rod_mount.hole", cylinder(60.0, 0.0, 200.0), cut=True)
    piston = sample()[3]
    with pytest.raises(OutputFailed, match="piston"):
        step_bytes("x", (replace(piston, pieces=(*piston.pieces, hole)),), "retracted", {})


def test_the_kernel_talks_again_afterwards() -> None:
    from OCP.Interface import Interface_Static
    from OCP.Message import Message

    before = [p.GetTraceLevel() for p in Message.DefaultMessenger_s().Printers()]
    step_bytes("x", sample()[3:], "retracted", {})
    assert [p.GetTraceLevel() for p in Message.DefaultMessenger_s().Printers()] == before
    assert Interface_Static.IVal_s("write.surfacecurve.mode") == 1


def test_a_wrong_axis_is_seen() -> None:
    """The search for named holes can fail: a hole along another axis is not the same."""
    from drafting.solids.build import build_part
    from drafting.solids.face_names import piece_of
    from drafting.solids.kernel_text import explored

    plain = Part("bar", "rod", (Piece("a.bar", cylinder(5.0, 0.0, 9.0)),))
    turned = replace(plain.pieces[0], frame=replace(plain.pieces[0].frame, x=Y))
    shape = build_part(plain)
    assert {piece_of(f, plain) for f in explored(shape, "FACE")} == {plain.pieces[0]}
    other = replace(plain, pieces=(turned,))
    assert {piece_of(f, other) for f in explored(shape, "FACE")} == {None}


def test_a_number_is_not_taken_for_an_hour() -> None:
    """Two planes askew of the axis are numbered; the hour of another ends in h."""
    from drafting.solids.build import build_part
    from drafting.solids.face_names import names_of
    from drafting.solids.kernel_text import explored

    outline = (Line2((0, 0), (20, 0)), Line2((20, 0), (12, 8)), Line2((12, 8), (8, 8)),
               Line2((8, 8), (0, 0)))  # fmt: skip
    part = Part("wedge", "rod", (Piece("a.wedge", Prism(outline, -5.0, 5.0)),))
    (names,) = names_of([(part, list(explored(build_part(part), "FACE")))])
    assert len(set(names)) == len(names) == 6
    assert {"a.wedge.face_1", "a.wedge.face_2"} <= set(names)
    assert sum(n.endswith("h") for n in names) == 4

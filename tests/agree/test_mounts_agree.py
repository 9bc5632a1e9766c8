"""Every mount drawn and built: three views, volumes and boxes, one end varied at a time.

Source of the expected lines: the hidden-line removal of the open-source solid kernel (OCCT). By
itself a run takes one clock angle for each mount (all four over the mounts) and one view of each
variant; with DRAFTING_WIDE=1 in the environment it takes all angles and views of all of them.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from itertools import combinations

import pytest

from drafting.drawing.strokes import FROM_ROD, SIDE, TOP
from drafting.model.cylinder import Cylinder
from drafting.model.pieces import Part, bounds
from drafting.model.volume import volume
from drafting.solids.build import build_part, kernel_volume
from tests.agree.compare import differences
from tests.agree.mount_variants import VARIANTS
from tests.model.mount_specs import EVERY, at_end, example, on_tie_rods

CLOCKS = (0, 35, 90, 200)
WIDE = bool(os.environ.get("DRAFTING_WIDE"))
MODELS = {f"{end} {word}": (end, word, example(end, word)) for end, word in EVERY} | dict(VARIANTS)
LOOKS = (SIDE, TOP, FROM_ROD)
RUNS = [
    pytest.param(
        name,
        clock,
        LOOKS if WIDE or name not in VARIANTS else (LOOKS[k % 3],),
        id=f"{name}, {clock} deg",
    )
    for k, name in enumerate(MODELS)
    for clock in (CLOCKS if WIDE else (CLOCKS[(k + 1) % 4],))
]


def cylinder(name: str, clock: int) -> Cylinder:
    """Give the mount on a cylinder that is bare at the other end, turned to the clock angle."""
    end, word, sizes = MODELS[name]
    turn = (
        {"turned": clock} if end == "rod" else {"clock": f"{clock} deg"} if word == "foot" else {}
    )
    port = f"[base_port]\nthread = 'SAE-8'\nclock = '{clock} deg'\nposition = {{}}\n"
    c = at_end(end, word, {**sizes, **turn})
    if end == "rod" or word == "foot":
        return c
    x = (c.stations.oil_side + 0.25 * (c.stations.gland_inner - c.stations.oil_side)) / 25.4
    return at_end(end, word, sizes, more=port.format(round(x, 3)))


@pytest.mark.parametrize(("name", "clock", "looks"), RUNS)
def test_views_are_the_kernels(name, clock, looks):
    parts = cylinder(name, clock).parts
    thin = [p.name for p in parts if p.name != "barrel"]
    found = differences(parts, looks, ease=thin)
    assert all(d.length > 50.0 for d in found)
    assert not [str(d) for d in found if not d.agrees]


@pytest.mark.parametrize("name", MODELS)
def test_boxes_and_volumes_are_the_kernels(name):
    for part in cylinder(name, 35).parts:
        shape = build_part(part)
        lo, hi = _box(shape)
        low, high = bounds(part.pieces)
        if not any(p.cut for p in part.pieces):
            assert (*lo, *hi) == pytest.approx((*low, *high), abs=0.01), part.name
        assert all(a <= b + 0.01 for a, b in zip((*low, *hi), (*lo, *high), strict=True))
        assert kernel_volume(shape) == pytest.approx(volume(part), rel=2e-3), part.name
        assert _solids(shape) == 1 or part.name in APART, part.name


TIE_RODS = [(word, {}) for end, word in EVERY if end == "body"] + [
    (word, {"position": place})
    for word in ("trunnion", "flange", "foot")
    for place in ("base", "middle", "rod end")
]


@pytest.mark.parametrize(("word", "sizes"), TIE_RODS)
def test_on_tie_rods_each_part_is_one_piece_and_none_shares_metal(word, sizes):
    parts = on_tie_rods(word, **sizes).parts
    for part in parts:
        assert _solids(build_part(part)) == 1 or part.name in APART, part.name
    _assert_apart(parts)


APART = ("gland bolts", "tie rods")
"""Parts that stand for several pieces of metal."""


@pytest.mark.parametrize("name", MODELS)
def test_no_two_parts_share_metal(name):
    """A common volume of two parts would be metal twice; they may touch."""
    _assert_apart(cylinder(name, 0).parts)


def _assert_apart(parts: Sequence[Part]) -> None:
    shapes = {p.name: build_part(p) for p in parts}
    for a, b in combinations(parts, 2):
        if _apart(a, b):
            continue
        common = _common(shapes[a.name], shapes[b.name])
        assert common < 1e-3 * min(volume(a), volume(b)), f"{a.name} and {b.name}: {common:.1f}"


def _apart(a: Part, b: Part) -> bool:
    (lo, hi), (lo2, hi2) = bounds(a.pieces), bounds(b.pieces)
    return any(hi[k] <= lo2[k] + 1e-6 or hi2[k] <= lo[k] + 1e-6 for k in range(3))


def _common(a, b) -> float:
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common

    return kernel_volume(BRepAlgoAPI_Common(a, b).Shape())


def _box(shape):
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, box, False, False)
    x0, y0, z0, x1, y1, z1 = box.Get()
    return (x0, y0, z0), (x1, y1, z1)


def _solids(shape) -> int:
    from OCP.TopAbs import TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer

    walk, count = TopExp_Explorer(shape, TopAbs_SOLID), 0
    while walk.More():
        count += 1
        walk.Next()
    return count

"""The column's equations against PyNite, an open frame library (MIT), which knows none of them.

Each column is built of its beam members; the library gives elastic and geometric stiffness, and
the lowest load at which they cancel is the critical load. Beams of cubic shape come out too stiff,
never too soft: with eight members a section by at most 5e-4 for the columns here.
"""

import numpy as np
import pytest

from drafting.calc.euler import bar_inertia, tube_inertia
from drafting.calc.stepped import LENGTH_FACTOR, critical_load

pynite = pytest.importorskip("Pynite", reason="install the test extras for the frame library")
E, EACH = 206_000.0, 8
COLUMNS = {
    "long": (95.0, 80.0, 900.0, 45.0, 850.0),
    "rod nearly alone": (60.0, 50.0, 80.0, 28.0, 1100.0),
    "short rod out": (60.0, 50.0, 1100.0, 28.0, 50.0),
    "thick rod": (75.0, 63.0, 300.0, 56.0, 700.0),
}
HELD = {"pinned": (True, False), "fixed": (True, True), "free": (False, False),
        "guided": (False, True)}  # fmt: skip
"""Across and turning, held or not."""


def frame_load(ends, outside, bore, a, rod, b):
    """The critical load by the frame library, N."""
    model = pynite.FEModel3D()
    model.add_material("steel", E, E / 2.6, 0.3, 1.0)
    for name, inertia in (("tube", tube_inertia(outside, bore)), ("rod", bar_inertia(rod))):
        model.add_section(name, 1000.0, inertia, inertia, 2 * inertia)
    places = [a * k / EACH for k in range(EACH)] + [a + b * k / EACH for k in range(EACH + 1)]
    last = f"n{2 * EACH}"
    for k, x in enumerate(places):
        model.add_node(f"n{k}", x, 0.0, 0.0)
        model.def_support(f"n{k}", support_DZ=True, support_RX=True, support_RY=True)
    for k in range(2 * EACH):
        section = "tube" if k < EACH else "rod"
        model.add_member(f"m{k}", f"n{k}", f"n{k + 1}", "steel", section)
    held = dict(zip(("n0", last), (HELD[e] for e in ends.split("_")), strict=True))
    for name, (across, turning) in held.items():
        model.def_support(name, name == "n0", across, True, True, True, turning)
    if ends == "free_fixed":  # the push enters at the free tube end all the same
        model.def_support(last, True, True, True, True, True, True)
        model.def_support("n0", False, False, True, True, True, False)
    model.add_node_load(
        "n0" if ends == "free_fixed" else last, "FX", 1.0 - 2.0 * (ends != "free_fixed")
    )
    model.add_load_combo("push", {"Case 1": 1.0})
    model.analyze_linear(check_stability=False)
    free = []
    for node in model.nodes.values():
        free += [6 * node.ID + 1] * (not node.support_DY) + [6 * node.ID + 5] * (
            not node.support_RZ
        )
    pick = np.ix_(free, free)
    elastic = np.asarray(model.Ke("push", sparse=False))[pick]
    geometric = np.asarray(model.Kg("push", sparse=False, first_step=False))[pick]
    lower = np.linalg.inv(np.linalg.cholesky(elastic))
    return 1.0 / np.linalg.eigvalsh(-lower @ geometric @ lower.T).max()


@pytest.mark.parametrize("ends", tuple(LENGTH_FACTOR))
@pytest.mark.parametrize("column", COLUMNS.values(), ids=COLUMNS)
def test_against_the_frame(ends, column):
    outside, bore, a, rod, b = column
    ours = critical_load(ends, E * tube_inertia(outside, bore), a, E * bar_inertia(rod), b)
    frame = frame_load(ends, outside, bore, a, rod, b)
    assert ours == pytest.approx(frame, rel=6e-4)
    assert frame >= ours * (1 - 1e-7)


def test_the_frame_tells_ends_apart():
    """A tube end that turns instead of holding is far outside the tolerance."""
    column = COLUMNS["long"]
    assert frame_load("fixed_pinned", *column) > 2 * frame_load("pinned_pinned", *column)

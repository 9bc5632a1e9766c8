"""How far a piece may move between two places, against points that are really moved there."""

import random
from itertools import pairwise

import numpy as np
import pytest

from drafting.errors import Refused
from drafting.fitting import exact
from drafting.fitting.machine import Distance, Hinge
from drafting.fitting.poses import cylinder_poses, moved_pose
from drafting.fitting.step_file import Solids
from drafting.fitting.stray import rates, strays
from drafting.fitting.subject import subject
from drafting.fitting.travel import place, span
from tests.fitting.machines import cylinder, machine

MODEL = """
[model]
step = "none.step"
base_pin = [0, 0, 0]
rod_pin = [{x}, {y}, 0]
axis = [0, 0, 1]
"""


def random_machine(rng, far=700.0):
    def point(far):
        return [round(rng.uniform(-far, far), 1) for _ in range(2)]

    head = 'title = "R"\nunits = "mm"\n'
    kind = rng.choice(("hinge", "hinge", "slide", "distance"))
    if kind == "distance":
        way = f"[distance]\nclosest = {far:.1f}\nfarthest = {far * rng.uniform(1.05, 1.6):.1f}\n"
    elif kind == "slide":
        way = (f"[slide]\nbase_pin = {point(200)}\nrod_pin = {point(1.3 * far)}\n"
               f"along = {point(1)}\ntravel = {rng.uniform(50, 900):.1f}\n")  # fmt: skip
    else:
        a = rng.uniform(-90, 90)
        way = (f"[hinge]\nat = [0, 0]\nbase_pin = {point(far)}\nrod_pin = {point(far)}\n"
               f"from = {a:.1f}\nto = {a + rng.uniform(5, 150):.1f}\n")  # fmt: skip
    bare = machine(head + way)
    first = place(bare.way, span(bare.way)[0])
    run = (first.rod[0] - first.base[0], first.rod[1] - first.base[1])
    return machine(head + way + MODEL.format(x=f"{run[0]:.6f}", y=f"{run[1]:.6f}"))


def test_no_point_of_a_box_goes_farther_than_the_bound():
    from drafting.fitting.poses import seat

    rng = random.Random(36)
    c = cylinder("tailboard-lift")
    spread, tight, done = np.random.default_rng(36).uniform(size=(20, 3)), 0.0, 0
    while done < 60:
        try:
            m = random_machine(rng)
            s = subject(c, m)
            where = seat(s, m, Solids((), (), {}))
        except (Refused, ZeroDivisionError):
            continue
        stray = strays(s, m, where)
        low, high = span(m.way)
        if min(place(m.way, low + (high - low) * k / 50).length for k in range(51)) < 60.0:
            continue  # no cylinder is so short
        done += 1
        corner = np.array([rng.uniform(-100, 600), *(rng.uniform(-60, 60) for _ in range(2))])
        size = np.array([rng.uniform(1, 200) for _ in range(3)])
        box = (*corner, *(corner + size))
        points = np.vstack([exact.corner_points(box), corner + size * spread])
        a = rng.uniform(low, high)
        b = min(high, a + (high - low) * rng.choice((0.02, 0.1, 0.4)))
        for rod in (False, True):
            for moves in (False, True):
                bound = stray.between(rod, moves, box, a, b)
                went = most(s, m, where, points, rod, moves, np.linspace(a, b, 9))
                assert went <= bound + 1e-6, (m.way, rod, moves)
                tight = max(tight, went / bound if bound else 0.0)
    assert tight > 0.6  # a bound of ten times as much would help nobody


def most(s, m, where, points, rod, moves, ats):
    """The farthest that one of the points is from where it was at the first place."""

    def at(k):
        own = cylinder_poses(s, where, place(m.way, k))[rod]
        pose = np.linalg.inv(moved_pose(m, where, k)) @ own if moves else own
        return exact.moved(points, pose)

    first = at(ats[0])
    return max(float(np.linalg.norm(at(k) - first, axis=1).max()) for k in ats[1:])


@pytest.mark.parametrize("seed", range(5))
def test_rates_are_no_less_than_those_of_finite_differences(seed):
    rng = random.Random(seed)
    m = random_machine(rng)
    low, high = span(m.way)
    rate = rates(m.way, low, high)
    ats = np.linspace(low, high, 2001)
    lengths = np.array([place(m.way, at).length for at in ats])
    angles = np.unwrap([np.arctan2(*reversed(place(m.way, at).unit)) for at in ats])
    unit = np.radians(np.diff(ats)) if isinstance(m.way, Hinge) else np.diff(ats)
    arm = 1.0 if isinstance(m.way, Hinge) else 0.0
    assert np.abs(np.diff(lengths) / unit).max() <= rate.slide + 1e-6
    assert np.abs(np.diff(angles) / unit).max() <= rate.turn + 1e-6
    if not isinstance(m.way, Distance):
        assert np.abs(np.diff(angles) / unit - arm).max() <= rate.against + 1e-6
    finer = [rates(m.way, a, b).turn for a, b in pairwise(np.linspace(low, high, 9))]
    assert max(finer) <= rate.turn + 1e-9

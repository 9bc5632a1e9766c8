"""Random machines: no crash, no number that is endless, no length that a plain count denies."""

import json
import os
import random
from math import hypot, isfinite

import pytest

from drafting.errors import Refused
from drafting.fitting.fit import fit
from drafting.fitting.travel import place, span
from drafting.reports.fitting import fit_json, fit_text
from tests.fitting.machines import cylinder, machine

COUNT = 500 if os.environ.get("DRAFTING_WIDE") else 40
SPECS = ("tailboard-lift", "gate-latch", "timber-carriage", "orchard-tipper", "hay-shuttle")


def text_of(rng):
    def point(far=900):
        return [round(rng.uniform(-far, far), 1), round(rng.uniform(-far, far), 1)]

    lines = ['title = "R"', 'units = "mm"']
    kind = rng.choice(("hinge", "hinge", "slide", "distance"))
    if kind == "distance":
        a = rng.uniform(300, 900)
        lines += ["[distance]", f"closest = {a:.1f}", f"farthest = {a + rng.uniform(5, 600):.1f}"]
        if rng.random() < 0.5:
            lines += [f"hard_closest = {a - rng.uniform(0, 50):.1f}"]
    elif kind == "slide":
        lines += ["[slide]", f"base_pin = {point(200)}", f"rod_pin = {point()}",
                  f"along = {point(1)}", f"travel = {rng.uniform(10, 900):.1f}"]  # fmt: skip
    else:
        a = rng.uniform(-180, 180)
        lines += ["[hinge]", "at = [0, 0]", f"base_pin = {point()}", f"rod_pin = {point()}",
                  f"from = {a:.1f}", f"to = {a + rng.uniform(1, 170):.1f}"]  # fmt: skip
    if kind != "distance":
        for _ in range(rng.randrange(3)):
            lines += [f"[[{kind}.load]]", f"at = {point()}"]
            if rng.random() < 0.5:
                lines += [f'mass = "{rng.uniform(1, 3000):.0f} kg"']
            else:
                x, y = point(40)
                frame = rng.choice(("ground", "arm")) if kind == "hinge" else "ground"
                lines += [f'force = ["{x} kN", "{y} kN"]', f'frame = "{frame}"']
    if rng.random() < 0.6:
        lines += ["[supply]", f'pressure = "{rng.uniform(10, 130):.0f} bar"', 'flow = "20 L/min"']
    if rng.random() < 0.5:
        lines += ["[pivot_friction]", f"share = {rng.uniform(0, 0.3):.2f}"]
    if rng.random() < 0.3:
        lines += ["[pair]", f"count = {rng.randrange(1, 5)}"]
    for ears in ("base_ears", "rod_ears"):
        if rng.random() < 0.5:
            lines += [f"[{ears}]", f"gap = {rng.uniform(5, 90):.1f}"]
            lines += [f"pin = {rng.uniform(8, 45):.1f}", f"behind = {rng.uniform(10, 90):.1f}"]
            for name, low, high in (("ear", 3, 40), ("around", 5, 90), ("lug_nose", 5, 60),
                                    ("pin_grip", 10, 200), ("aside", -20, 20)):  # fmt: skip
                if rng.random() < 0.4:
                    lines += [f"{name} = {rng.uniform(low, high):.1f}"]
    return "\n".join(lines) + "\n"


@pytest.fixture(scope="module")
def cylinders():
    return [cylinder(name) for name in SPECS]


def test_random_machines(cylinders):
    rng = random.Random(1818)
    judged = 0
    for k in range(COUNT):
        text, c = text_of(rng), cylinders[k % len(cylinders)]
        try:
            m = machine(text)
            f = fit(c, m)
        except Refused:  # pins that meet, a supply above the rating: told, and no crash
            continue
        judged += 1
        out = json.dumps(fit_json(f), allow_nan=False)
        assert len(out) > 100
        said = fit_text(f)
        assert max(map(len, said.splitlines())) <= 100, text
        for q in f.positions:
            for v in (q.asked, q.out, q.back, q.column):
                assert v is None or isfinite(v)
        # Lengths, counted in a thousand steps without any of the closed forms.
        a, b = span(m.way)
        runs = [hypot(p.rod[0] - p.base[0], p.rod[1] - p.base[1])
                for p in (place(m.way, a + (b - a) * i / 1000) for i in range(1001))]  # fmt: skip
        rows = {r.field: r for r in f.rows}
        near, far = rows["cylinder.retracted"], rows["cylinder.extended"]
        if min(runs) < c.lengths.retracted - 1e-6:
            assert near.verdict in ("does not fit", "fits with work")
        if max(runs) > c.lengths.extended + 1e-6:
            assert far.verdict in ("does not fit", "fits with work")
        if near.verdict == "fits" and far.verdict == "fits":
            assert c.lengths.retracted <= min(runs) + 1e-6
            assert max(runs) <= c.lengths.extended + 1e-6
        # A whole that fits needs every row to fit or to be a job.
        if f.verdict in ("fits", "fits with work"):
            assert not [r for r in f.rows if r.verdict == "does not fit"]
    assert judged > COUNT / 2

"""Fittings, hoses and the room straight out of a port, among plates whose distance is known."""

import cadquery as cq
import numpy as np
import pytest

from drafting.fitting.room import look
from drafting.fitting.room_rows import room_rows
from drafting.fitting.step_file import Solids
from drafting.fitting.subject import subject
from drafting.model.load import checked, load
from tests.fitting.machines import SPECS, cylinder, machine
from tests.fitting.test_clash import TEXT

PLATE = cq.Workplane("XY").box(60.0, 60.0, 5.0)


def seen(c, text=TEXT, **shapes):
    m = machine(text)
    s = subject(c, m)
    wrapped = tuple(w.val().wrapped for w in shapes.values())
    found = look(s, m, Solids(tuple(shapes), wrapped, {}))
    return found, {r.field: r for r in room_rows(s, m, found)}


def port(c, table):
    (found,) = [p for p in c.ports if p.table == table]
    return found


@pytest.mark.parametrize("free", [20.0, 95.0])
def test_the_room_straight_out_of_a_port_ends_at_a_plate(free):
    c = cylinder("tailboard-lift")
    one = port(c, "base_port")
    x, y, z = one.tip
    found, rows = seen(c, lid=PLATE.translate((x, y, z + free + 2.5)))
    (base, rod) = sorted(found.ahead, key=lambda a: a.port)
    assert (base.port, base.solid) == ("base_port", "lid")
    assert base.free == pytest.approx(free, abs=0.1)
    assert rod.solid == ""
    assert rod.free == rod.asked.straight
    # 37 degree flare -6: thread 9/16 in (SAE J514); nut and elbow are ours, common practice.
    assert base.asked.wide == pytest.approx(0.75 * 14.2875, abs=0.01)
    row = rows["room.base_port.ahead"]
    assert row.verdict == "not known"
    assert row.decides == (free < base.asked.bent)


def fitted(kind="straight", **more):
    text = (SPECS / "tailboard-lift.toml").read_text(encoding="utf-8")
    said = f'[base_port]\nfitting = "{kind}"\n' + "".join(f"{k} = {v}\n" for k, v in more.items())
    return load(checked(text.replace("[base_port]\n", said).encode(), "tailboard-lift.toml"))


def test_a_fitting_and_its_hose_are_named_with_solid_and_gap():
    """A plate beside the nut, 3.1 mm off it by arithmetic; a post in the way of the bent hose."""
    c = fitted()
    x, _, z = port(c, "base_port").tip
    wide = next(p for p in c.phantoms if p.name == "base port keep-out")
    nut = max(zone.r0 for p in wide.pieces for zone in getattr(p.shape, "zones", ())[:1])
    side = PLATE.rotate((0, 0, 0), (1, 0, 0), 90).translate((x, nut + 3.1 + 2.5, z + 40.0))
    found, rows = seen(c, text=TEXT + "hoses = 10\n", frame=side)
    by = {c.piece: c for c in found.clearances}
    assert by["base_port.fitting"].gap == pytest.approx(3.1, abs=0.002)
    assert by["base_port.fitting"].asked == 10.0
    row = rows["room.base_port.fitting"]
    assert (row.verdict, [j.short for j in row.jobs]) == ("fits with work", ["turn half round"])
    assert not [a for a in found.ahead if a.port == "base_port"]
    post = cq.Workplane("XY").circle(4).extrude(900).translate((x + 90.0, 0.0, z + 20.0))
    found, _ = seen(c, post=post)
    struck = {c.piece for c in found.clearances if c.clash}
    assert struck & {"base_port.hose_bend", "base_port.hose"}
    assert np.isfinite(found.reach)

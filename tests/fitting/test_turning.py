"""How far to turn: what is proposed is drawn so and looked at again, and it clears."""

import re

import cadquery as cq

from drafting.fitting.room import look
from drafting.fitting.room_rows import room_rows
from drafting.fitting.row import jobs_of
from drafting.fitting.step_file import Solids
from drafting.fitting.subject import subject
from drafting.model.load import checked, load
from drafting.settle.clock import hour
from tests.fitting.machines import SPECS, machine
from tests.fitting.test_clash import TEXT

MACHINE = TEXT.replace("clearance = 0", "clearance = 5")


def seen(c, text=MACHINE, **shapes):
    m = machine(text)
    s = subject(c, m)
    found = look(s, m, Solids(tuple(shapes), tuple(w.val().wrapped for w in shapes.values()), {}))
    return found, room_rows(s, m, found)


def spec(name, table, **said):
    """A sample with lines set in one of its tables."""
    text = (SPECS / f"{name}.toml").read_text(encoding="utf-8")
    head, mark, rest = text.partition(f"[{table}]\n")
    own, _, after = rest.partition("\n[")
    for key, value in said.items():
        own = re.sub(rf"(?m)^{key}\s*=.*\n", "", own) + f"\n{key} = {value}"
    return load(checked(f"{head}{mark}{own}\n[{after}".encode(), f"{name}.toml"))


def test_a_fitting_is_turned_and_the_proposal_clears():
    """A plate where its arm points; half as much turn would not do."""
    c = spec("tailboard-lift", "base_port", fitting='"90"', fitting_clock='"12:00"')
    (port,) = [p for p in c.ports if p.table == "base_port"]
    x, _, z = port.tip
    plate = cq.Workplane("XY").box(4.0, 90.0, 90.0).translate((x + 70.0, 0.0, z + 45.0))
    found, rows = seen(c, plate=plate)
    (turn,) = found.turns
    assert (turn.port, turn.what) == ("base_port", "fitting")
    wanted = {r.verdict for r in rows if r.field == "room.base_port.fitting"}
    assert wanted == {"fits with work"}
    assert "does not fit" not in {r.verdict for r in rows}
    (job,) = jobs_of(rows)
    clock = re.search(r'fitting_clock = ("[\d:]+")', job.text)[1]
    assert clock == f'"{hour(turn.degrees % 360.0)}"'
    again, _ = seen(spec("tailboard-lift", "base_port", fitting='"90"', fitting_clock=clock),
                    plate=plate)  # fmt: skip
    mine = [k for k in again.clearances if k.piece.startswith("base_port.")]
    assert all(k.clash == 0.0 and k.gap >= k.asked for k in mine)
    least = min((k.gap - k.asked for k in mine), default=turn.left)
    assert least >= turn.left - 1e-6
    less = turn.degrees - 30.0 * (1 if turn.degrees > 0 else -1)
    other = spec("tailboard-lift", "base_port", fitting='"90"',
                 fitting_clock=f'"{hour(less % 360.0)}"')  # fmt: skip
    between, _ = seen(other, plate=plate)
    assert not all(k.clash == 0.0 and k.gap >= k.asked for k in between.clearances
                   if k.piece.startswith("base_port."))  # fmt: skip


def test_a_welded_boss_is_not_turned_but_the_whole_cylinder_half_round_is():
    """Both mounts turn on loose pins: half round they are the same."""
    c = spec("tailboard-lift", "base_port", clock='"12:00"')
    (port,) = [p for p in c.ports if p.table == "base_port"]
    x, _, z = port.tip
    lid = cq.Workplane("XY").box(80.0, 80.0, 4.0).translate((x, 0.0, z + 3.0))
    found, rows = seen(c, lid=lid)
    (turn,) = found.turns
    assert turn.what == "whole"
    assert jobs_of(rows)[0].short == "turn half round"
    other = cq.Workplane("XY").box(80.0, 80.0, 4.0).translate((x, 0.0, -z - 3.0))
    found, rows = seen(c, lid=lid, other=other)
    (turn,) = found.turns
    assert turn.what == "made"
    assert {r.verdict for r in rows if r.field == "room.base_port.boss"} == {"does not fit"}
    assert jobs_of(rows) == ()
    hour = re.search(r"at (\d+:\d\d) seen from the rod end", turn.words)[1]
    again, _ = seen(spec("tailboard-lift", "base_port", clock=f'"{hour}"'), lid=lid, other=other)
    mine = [k for k in again.clearances if k.piece == "base_port.boss"]
    assert all(k.gap >= k.asked and not k.clash for k in mine)


def test_nothing_is_proposed_where_nothing_helps():
    c = spec("tailboard-lift", "base_port", clock='"12:00"')
    (port,) = [p for p in c.ports if p.table == "base_port"]
    x, _, z = port.tip
    ring = cq.Workplane("YZ", origin=(x - 20, 0, 0)).circle(z + 30).circle(z - 1.0).extrude(40)
    found, _ = seen(c, ring=ring)
    assert any(k.clash for k in found.clearances if k.piece == "base_port.boss")
    assert found.turns == ()

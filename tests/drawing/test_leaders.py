"""Leaders: where they go, and that they can be told apart."""

from itertools import pairwise, permutations
from math import cos, dist, pi, sin
from pathlib import Path

import numpy as np
import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.dimension.ground import Ground
from drafting.drawing.dimension.leader_ways import note_ways
from drafting.drawing.sheet.clash import segments
from drafting.drawing.sheet.explode import explode
from drafting.drawing.sheet.on_paper import points
from drafting.drawing.sheet.silhouette import Silhouette
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at
from drafting.settle.wishes import Callout
from drafting.shape.frame import X
from tests.drawing.test_calm import job_of, view
from tests.drawing.test_ways import PLAIN, SCALE, _ground

SPECS = Path(__file__).parents[2] / "specs"

PRESS = """
title = "Reed press"
units = "in"
[cylinder]
bore = 8
rod = "5 1/2"
stroke = 10
retracted = 29
gland = "bolted"
working_pressure = "3000 psi"
clock_seen_from = "rod"
[body_mount]
mount = "clevis"
pin = 3
hole = "3 1/32"
gap = "3 1/16"
width = 6
throat = 3
nose = "2 3/4"
[rod_mount]
mount = "tang"
pin = 3
hole = "3 1/32"
width = 3
nose = "2 3/4"
[base_port]
thread = "flange 1 1/4 code 61"
clock = "1:30"
position = "7 1/4"
[rod_port]
thread = "flange 1 1/4 code 61"
clock = "1:30"
position = 18
"""


def over_metal(v, name):
    """How far (paper mm) a leader runs over what its view covers."""
    tracks = [points(m.curve, 0.05) for m in v.marks if m.role == "outline"]
    metal = Silhouette(segments([line for t in tracks for line in pairwise(t)]) * v.scale)
    d = next(d for d in v.dimensions if d.name.endswith(name))
    a, b = np.array(d.tip) * v.scale, np.array(d.knee) * v.scale
    p = a + (b - a) * np.linspace(0.0, 1.0, 41)[:, None]
    return float(metal.covers(p[:, 0], p[:, 0], p[:, 1], p[:, 1]).mean()) * dist(a, b)


def test_a_leader_does_not_run_across_its_view():
    """The port stands 8 mm from the upper edge; its words stood below, 37 mm of metal off."""
    top = view(compose(job_of(PRESS)), "top")
    assert over_metal(top, "port.thread") < 15.0


def test_words_of_two_ports_go_to_the_one_that_has_room():
    """Sizes stood round the base's port: its words stood below the barrel, their leader across."""
    sheet = compose(job_of((SPECS / "hay-shuttle.toml").read_text()))
    top = view(sheet, "top")
    (note,) = (d for d in top.dimensions if d.name.endswith("port.thread"))
    assert " ".join(note.texts).startswith("2x ")
    assert note.name == "rod_port.thread"
    assert over_metal(top, note.name) < 10.0  # of the foot that it stands over


RAM = """
title = "Ram with a wide flange"
units = "mm"
[cylinder]
bore = 90
rod = 50
stroke = 210
retracted = 330
[body_mount]
mount = "flange"
plate = 250
thickness = 28
bolts = {count = 12, hole = 17, circle = 205, first_hole = "on"}
[rod_mount]
mount = "male thread"
thread = "M36x2"
[base_port]
thread = "G 1/2"
[rod_port]
thread = "G 3/8"
"""


def test_a_bolt_circle_is_pointed_at_between_its_holes():
    """Its arrow ended in a hole, as the words of the holes do."""
    end = view(compose(job_of(RAM)), "end")
    tips = {d.name.rpartition(".")[2]: d.tip for d in end.dimensions}
    off = 1.0 / end.scale
    at = [(102.5 * sin(pi * k / 6), 102.5 * cos(pi * k / 6)) for k in range(12)]
    assert min(dist(tips["circle"], p) for p in at) > 17 / 2 + off
    assert abs(min(dist(tips["hole"], p) for p in at) - 17 / 2) < 1e-6


TAPPED = """
title = "Tapped behind its flats"
units = "mm"
[cylinder]
bore = 63
rod = 36
stroke = 310
retracted = 530
clock_seen_from = "base"
[body_mount]
mount = "pin eye"
pin = 30
[rod_mount]
mount = "female thread"
thread = "M27x2"
thread_length = 44
flats = 32
[base_port]
thread = "G 1/2"
[rod_port]
thread = "G 3/8"
"""


def test_words_of_a_tapped_hole_go_to_its_dashes():
    """They went to the flats over it, or to the corner of the rod's end."""
    sheet = compose(job_of(TAPPED))
    note = next(d for v in sheet.views for d in v.dimensions if d.name == "rod_mount.thread")
    assert abs(note.tip[0] - (530 - 22)) < 1e-6
    assert abs(abs(note.tip[1]) - 27 / 2) < 1e-6


TROUGH = """
title = "Tilt of the long trough"
units = "mm"
[cylinder]
bore = 90
rod = 75
stroke = 600
retracted = 40
action = "push"
piston = "displacement"
return = "load"
gland = "wire ring"
working_pressure = "100 bar"
clock_seen_from = "rod"
[body_mount]
mount = "flange"
position = "rod end"
plate = [200, 200]
thickness = 25
seat = "base side"
bolts = {count = 4, hole = 18, circle = 230, first_hole = "astride"}
[rod_mount]
mount = "plain"
[base_port]
thread = "Rc 1/2"
clock = "7:30"
position = -560
[[extra_port]]
end = "rod"
thread = "G 1/8"
clock = "1:30"
plugged = true
"""


def test_leaders_of_the_end_view_keep_off_each_other_s_arrows():
    """One ran through the tip of another: which hole was meant could not be told."""
    end = view(compose(job_of(TROUGH)), "end")
    leads = [(np.array(d.tip), np.array(d.knee)) for d in end.dimensions if hasattr(d, "knee")]
    assert len(leads) >= 2
    for (tip, _), (a, b) in permutations(leads, 2):
        along = np.clip((tip - a) @ (b - a) / ((b - a) @ (b - a)), 0.0, 1.0)
        assert dist(tip, a + along * (b - a)) * end.scale > 1.2


ROLLS = """
title = "Roll change pusher"
units = "mm"
[cylinder]
bore = 100
rod = 70
stroke = 800
retracted = 1390
barrel_outside = 127
base_thickness = 55
gland = "bolted"
gland_outside = 190
gland_length = 130
gland_projection = 70
piston_length = 90
stop_tube = 40
cushions = "both"
clock_seen_from = "rod"
rod_keyed = true
tolerance = {bore = "H8", rod = "f7", retracted = "±1.5", stroke = "+2 -0"}
[body_mount]
mount = "ball swivel"
pin = 70
hole = 70
width = 49
ball_width = 70
outside = 140
grease = true
tolerance = {hole = "H7", ball_width = "+0 -0.2"}
[rod_mount]
mount = "ball swivel"
pin = 70
hole = 70
width = 49
ball_width = 70
outside = 140
thread = "M64x3"
thread_length = 85
grease = true
tolerance = {hole = "H7", ball_width = "+0 -0.2"}
[base_port]
thread = "flange 3/4 code 62"
clock = "1:30"
position = 165
[rod_port]
thread = "flange 3/4 code 62"
clock = "1:30"
[[extra_port]]
end = "base"
thread = "G 1/8"
clock = "12:00"
plugged = true
[[extra_port]]
end = "rod"
thread = "G 1/8"
clock = "12:00"
plugged = true
[drawing]
projection = "first"
dimensions = "mm [in]"
"""


def test_words_of_two_leaders_do_not_stand_on_one_line():
    """It read CUSHION SCREW, 4:30 (+0.03/0), with a leader from each end."""
    side, style = view(compose(job_of(ROLLS)), "side"), Style()
    words = [
        explode(d, (0.0, 0.0), side.scale, style) for d in side.dimensions if hasattr(d, "knee")
    ]
    level = [
        (sorted((a[0], b[0])), a[1]) for w in words for a, b in w.lines if abs(a[1] - b[1]) < 1e-6
    ]
    assert len(level) > 4
    for (one, y), (other, z) in permutations(level, 2):
        assert abs(y - z) > 1.0 or one[0] > other[0] or other[0] - one[1] >= 3.0


SLUICE = """
title = "Sluice bolt"
units = "mm"
[cylinder]
construction = "tie rod"
bore = 80
rod = 56
stroke = 300
retracted = 150
square = 110
gland_outside = 84
[body_mount]
mount = "flange"
position = "rod end"
plate = [210, 110]
thickness = 30
seat = "rod side"
bolts = {count = 4, hole = 17.5, pitch = [170, 72]}
[rod_mount]
mount = "male thread"
thread = "M42x2"
[base_port]
thread = "G 3/4"
[rod_port]
thread = "G 3/4"
"""


@pytest.mark.parametrize("name", ["side", "end"])
def test_words_of_a_gland_go_to_its_own_edge_where_that_is_seen(name):
    """From aside its upper and lower edge are behind nuts: the tip lay on the corner of one."""
    seen = look_at(job_of(SLUICE))
    (wish,) = (c.wish for c in seen.choices if c.wish.name == "cylinder.gland_projection")
    picture = next(p for p in seen.pictures if p.name == name)
    edge = picture.segments.reshape(-1, 2) * SCALE
    ways = note_ways(wish, PLAIN, Ground(picture, SCALE, Style(), segments([]), edge))
    tips = {ways.make(i).tip for i in range(len(ways.costs))}
    assert tips
    assert all(picture.on_own("cylinder.gland_outside", tip) for tip in tips)


def test_words_of_a_gland_go_to_the_rim_that_is_near():
    """From the left below it the leader ran over the rod to the highest or lowest point."""
    seen = look_at(job_of(SLUICE))
    end = next(p for p in seen.pictures if p.name == "end")
    (wish,) = (c.wish for c in seen.choices if c.wish.name == "cylinder.gland_projection")
    edge = end.segments.reshape(-1, 2) * SCALE
    ways = note_ways(wish, PLAIN, Ground(end, SCALE, Style(), segments([]), edge))
    some = [ways.make(i) for i in ways.costs.argsort()]
    best = next(d for d in some if d.knee[0] < -60.0 and d.knee[1] < -60.0)
    assert best.tip[0] < -20.0
    assert best.tip[1] < -20.0


def test_a_steep_leader_from_behind_a_face_is_dear_too():
    """Words over the barrel beside the end that they are of: room in front of it was not taken."""
    face = Callout("mount.seat", (600.0, 0.0, 50.0), X, ("FACE",))
    ways = note_ways(face, PLAIN, _ground())
    costs: dict[tuple[float, float], float] = {}
    for i, cost in enumerate(ways.costs.tolist()):
        d = ways.make(i)
        if d.knee[1] > 50.0:
            at = (round(d.knee[0] - 600.0, 3), round(d.knee[1], 3))
            costs[at] = min(cost, costs.get(at, cost))
    steep = [(x, y) for x, y in costs if x < 0.0 and y - 50.0 > 3.0 * -x]
    assert steep
    assert all(costs[x, y] - costs[-x, y] > 12.0 for x, y in steep)


WINCH = """
title = "Winch brake"
units = "in"
[cylinder]
action = "pull"
return = "spring"
spring_space = "2 1/4"
bore = "2 1/4"
rod = 1
stroke = {stroke}
retracted = 15
gland = "snap ring"
clock_seen_from = "rod"
[body_mount]
mount = "spade eye"
pin = "5/8"
width = "5/8"
[rod_mount]
mount = "clevis"
pin = "5/8"
gap = "11/16"
width = "1 5/16"
turned = 90
[rod_port]
thread = "SAE-4"
clock = "5:00"
"""


@pytest.mark.parametrize("stroke", [2.25, 2.5, 2.75])
def test_a_spring_is_pointed_at_beside_the_bore_that_is_measured_across_it(stroke):
    """The heads of both met in its middle: it read SPRING with the diameter of the bore."""
    opened = view(compose(job_of(WINCH.format(stroke=stroke))), "extended")
    named = {d.name: d for d in opened.dimensions}
    spring, bore = named["cylinder.spring_space"], named["cylinder.bore"]
    x = np.linspace(spring.tip[0], spring.knee[0], 11)
    assert abs(x - bore.line_at[0]).min() * opened.scale > 2.0

"""Words that stand badly are looked at once more when their page is settled (our rule).

All sizes are made up.
"""

from math import dist

from drafting.drawing.compose import choose
from drafting.drawing.compose.choose import compose
from drafting.drawing.compose.dresser import Dresser
from drafting.drawing.compose.page import laid_out
from drafting.drawing.compose.scale import Rule
from drafting.drawing.compose.settled import with_settled_words
from drafting.drawing.dimension.yielding import RESTLESS
from drafting.drawing.lists.papers import papers
from tests.drawing.sample_job import job
from tests.drawing.test_calm import job_of

BOOM = """
title = "Billet boom"
units = "in"
[cylinder]
construction = "welded"
bore = "4 1/2"
rod = "2 3/4"
stroke = 33
retracted = 53
barrel_outside = "5 1/4"
base_thickness = "1 5/8"
gland = "bolted"
gland_outside = 7
gland_length = "4 5/8"
gland_projection = "1 3/4"
piston_length = "3 1/4"
cushions = "rod"
clock_seen_from = "rod"
rod_keyed = true
[body_mount]
mount = "clevis"
pin = 2
hole = 2.016
gap = "2 1/16"
width = "4 9/16"
throat = "2 7/16"
nose = 2
[rod_mount]
mount = "ball swivel"
pin = "1 3/4"
hole = "1 3/4"
width = "1 5/16"
ball_width = "1 17/32"
outside = "3 7/8"
thread = "2-12 UN"
thread_length = "2 3/4"
adjustment = "1/4"
jam_nut = true
grease = true
turned = 90
tolerance = {hole = "+0.0007 -0"}
[base_port]
thread = "flange 1 code 61"
clock = "4:30"
position = "6 3/8"
[rod_port]
thread = "SAE-16"
clock = "1:00"
position = "42 1/4"
facing = "base"
height = "1 1/4"
outlet_position = 11
[[extra_port]]
end = "base"
thread = "SAE-4"
clock = "9:30"
position = "6 3/8"
plugged = true
[rod_pin]
supplied = true
grip = "3 7/8"
length = "5 1/4"
head = true
retention = "keeper plate"
[drawing]
dimensions = "in [mm]"
"""


def settling(text, monkeypatch):
    """The first page whose words were looked at once more, before and after."""
    pages = []

    def kept(page, dresser):
        found = with_settled_words(page, dresser)
        pages.append((page, found[0]))
        return found

    monkeypatch.setattr(choose, "with_settled_words", kept)
    compose(job_of(text))
    return pages[0]


def test_no_view_moves_or_gets_smaller_for_it(monkeypatch):
    before, after = settling(BOOM, monkeypatch)
    assert after is not before
    assert [(v.at, v.scale) for v in after.views] == [(v.at, v.scale) for v in before.views]
    worst = [max(v.view.placed.extra for v in page.views) for page in (before, after)]
    assert worst[1] < worst[0] - 10.0
    assert after.clashes <= before.clashes


def test_a_page_on_which_nothing_stands_badly_stays_as_it_is():
    dresser = Dresser(job())
    rule = Rule(dresser.job, dresser.seen, papers("auto", "mm")[0])
    page = next(p for m in rule.main() if (p := laid_out(dresser, rule, m)))
    assert with_settled_words(page, dresser) == (page, dresser)


PENSTOCK = """
title = "Penstock lift"
units = "mm"
[cylinder]
bore = 50
rod = 28
stroke = 295
retracted = 520
gland = "snap ring"
working_pressure = "120 bar"
clock_seen_from = "base"
[body_mount]
mount = "spade eye"
pin = 25
hole = 25.1
width = 25
outside = 55
[rod_mount]
mount = "clevis"
pin = 25
hole = 25.1
gap = 27
width = 55
throat = 32
turned = 90
[base_port]
thread = "G 3/8"
clock = "7:00"
[rod_port]
thread = "G 3/8"
clock = "1:30"
[drawing]
sheet = "A4"
"""


def test_words_across_a_barrel_go_to_the_view_that_shows_their_port_free(monkeypatch):
    """Their leader ran across all the metal, not quite dear enough for a restless view."""
    before, after = settling(PENSTOCK, monkeypatch)
    assert before.tangled == ["rod_port.thread"]
    assert max(v.view.placed.extra for v in before.views) < RESTLESS
    shown = [
        v.view.picture.name for v in after.views if "rod_port.thread" in dict(v.view.placed.ways)
    ]
    assert shown == ["top"]
    assert not after.tangled
    assert after.clashes <= before.clashes


BRACE = """
title = "Gate side brace"
units = "in"
[cylinder]
construction = "welded"
bore = 4
rod = 2
stroke = 14
retracted = "18 1/2"
barrel_outside = "4 3/4"
gland = "bolted"
gland_outside = "6 1/4"
clock_seen_from = "rod"
[body_mount]
mount = "foot"
position = "middle"
plate = [6, 9]
thickness = 1
seat_height = 4
bolts = {count = 4, hole = "11/16", pitch = ["4 1/2", "7 1/2"]}
clock = "3:00"
[rod_mount]
mount = "spade eye"
pin = "1 1/2"
hole = 1.516
width = "1 1/2"
turned = 90
[base_port]
thread = "SAE-12"
clock = "12:00"
[rod_port]
thread = "SAE-12"
clock = "10:00"
"""


def test_words_of_the_mount_on_the_body_may_go_to_the_extended_view():
    """The leader to a hole ran slanted across all of the barrel: no place was left beside it."""
    sheet = compose(job_of(BRACE))
    ((place, hole),) = (
        (v, d) for v in sheet.views for d in v.dimensions if d.name == "body_mount.bolts.hole"
    )
    assert place.name == "extended"
    assert dist(hole.tip, hole.knee) * place.scale < 20.0

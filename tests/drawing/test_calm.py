"""What the eye stumbles over on a sheet on which nothing touches; all sizes are made up."""

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.on_paper import points
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec

LEG = """
title = "Cart leg"
units = "in"
[cylinder]
bore = "2 1/2"
rod = "1 1/2"
stroke = 14
retracted = "23 3/8"
clock_seen_from = "base"
[body_mount]
mount = "tang"
pin = 1
hole = "1 1/64"
width = "1 1/4"
[rod_mount]
mount = "clevis"
pin = 1
hole = "1 1/64"
gap = "1 5/16"
width = "2 5/8"
turned = 90
[base_port]
thread = "3/8 NPT"
clock = "45 deg"
position = "2 3/4"
[rod_port]
thread = "3/8 NPT"
clock = "45 deg"
position = "18 1/2"
"""


def job_of(text):
    return sheet_job(load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml")))


def view(sheet, name):
    return next(v for v in sheet.views if v.name == name)


def test_hours_stay_where_their_centre_lines_end():
    """A port's words stood between the end view and its 12, which then stood alone above them."""
    job = job_of(LEG)
    end = view(compose(job), "end")
    hours = {t.text: t.at for t in end.texts if t.name == "clock"}
    own = [m.curve for m in end.marks if m.role == "outline"]
    top = max(p[1] for c in own for p in points(c, 0.05))
    assert (hours["12"][1] - top) * end.scale < 6.0


LATCH = """
title = "Hatch latch"
units = "in"
[cylinder]
bore = "1 1/2"
rod = "3/4"
stroke = {stroke}
retracted = {retracted}
clock_seen_from = "rod"
[body_mount]
mount = "tang"
pin = "1/2"
width = "3/4"
[rod_mount]
mount = "tang"
pin = "1/2"
width = "3/4"
[base_port]
thread = "SAE-4"
clock = "12:00"
[rod_port]
thread = "SAE-4"
clock = "12:00"
[drawing]
sheet = "A"
scale = "{scale}"
"""
FOOT = """
title = "Cart foot"
units = "mm"
[cylinder]
bore = 63
rod = 40
stroke = 350
retracted = 560
clock_seen_from = "rod"
[body_mount]
mount = "cross tube"
pin = 30
width = 80
[rod_mount]
mount = "clevis"
pin = 30
gap = 42
width = 82
[base_port]
thread = "G 3/8"
clock = "12:00"
position = 70
[rod_port]
thread = "G 3/8"
clock = "12:00"
position = 430
[drawing]
sheet = "A4"
"""


@pytest.mark.parametrize(
    ("stroke", "retracted", "scale", "alone"),
    [(4, 11, "1:2", ["extended"]), ("1", "5 1/2", "1:1", ["end", "top", "extended"])],
)
def test_a_named_sheet_with_a_named_scale_takes_more_pages(stroke, retracted, scale, alone):
    """The views lay over each other and beyond the frame, and twenty warnings said so."""
    text = LATCH.format(stroke=f'"{stroke}"', retracted=f'"{retracted}"', scale=scale)
    job = job_of(text)
    sheet = compose(job)
    assert not list(inspect(sheet, job))
    pages = [[v.name for v in page.views] for page in sheet.following if page.views]
    assert pages == [[name] for name in alone]
    said = " ".join(t.text for t in sheet.texts)
    last = len(sheet.following) + 1
    own = f"sheet {last}" if len(alone) == 1 else f"sheets {last - len(alone) + 1} to {last}"
    assert f"{'Extended view' if len(alone) == 1 else 'Further views'}: {own}: " in said
    lengths = {d.name: d.texts[0] for v in sheet.following[-1].views for d in v.dimensions}
    for name in ("cylinder.stroke", "cylinder.extended", "cylinder.bore"):
        assert lengths[name] in said
    assert {f"1:{1 / v.scale:g}" for page in (sheet, *sheet.following) for v in page.views} == {
        scale
    }


def test_words_come_nearer_before_the_scale_falls_on_a_named_sheet():
    """It was drawn at 1:10, the outlines two sheets of paper away from filling it."""
    assert view(compose(job_of(FOOT)), "side").scale == pytest.approx(1 / 5)


def test_a_width_is_not_measured_past_the_whole_cylinder():
    """82 over the ears stood beside the cross tube's 80, its lines along the whole barrel."""
    top = view(compose(job_of(FOOT)), "top")
    where = {d.name: d.line_at[0] for d in top.dimensions if d.name.endswith(".width")}
    assert where["rod_mount.width"] > 500.0
    assert where["body_mount.width"] < 100.0


PLATE = """
title = "Hatch press"
units = "in"
[cylinder]
construction = "tie rod"
bore = 2
rod = 0.9
clock_seen_from = "rod"
retracted = 30.2
extended = 41.7
working_pressure = "140 bar"
[body_mount]
mount = "flange"
position = "middle"
[rod_mount]
mount = "plain"
[base_port]
thread = "SAE-4"
clock = "12:00"
[rod_port]
thread = "SAE-4"
clock = "12:00"
"""


def test_a_face_is_pointed_at_on_the_side_of_the_words():
    """The leader ran up the whole plate, from words below to the upper end of its face."""
    side = view(compose(job_of(PLATE)), "side")
    (seat,) = (d for d in side.dimensions if d.name == "body_mount.seat")
    assert seat.tip[1] * seat.knee[1] > 0.0


FEEDER = """
title = "Foot feeder"
units="in"

[cylinder]
construction="tie rod"
bore="2 1/2"
rod=1
stroke=18
retracted=28
tie_rod="3/8-24 UNF"
clock_seen_from="base"
cushions="both"
working_pressure="1500 psi"
[body_mount]
mount="foot"
clock="6:00"
position="base"
seat_height=1.75
plate=[2,5]
thickness=0.5
bolts={count=2,hole="9/16",pitch=[0,4]}
[rod_mount]
mount="female thread"
thread="3/4-16 UNF"
thread_length="1 1/8"
[base_port]
thread="1/2 NPT"
clock="3:00"
[rod_port]
thread="1/2 NPT"
clock="3:00"
"""


def test_a_cushion_screw_in_line_with_its_port_costs_no_scale():
    """It was drawn at 1:8, as the port's extension line runs through the screw above it."""
    job = job_of(FEEDER)
    sheet = compose(job)
    assert view(sheet, "side").scale == pytest.approx(1 / 4)
    assert not list(inspect(sheet, job))

"""A return spring in the half section: where it stands, and that it is said. Sizes are made up."""

from itertools import pairwise
from math import dist

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.sheet import Linear, Note
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at, marks_of
from drafting.model.load import checked, load

NAME = "cylinder.spring_space"
TEXT = """
title = "Lid catch"
number = "LC-5"
units = "mm"
[cylinder]
bore = 40
rod = 20
stroke = {stroke}
action = "{action}"
return = "spring"
retracted = 330
{more}
[body_mount]
mount = "pin eye"
pin = 16
[rod_mount]
mount = "pin eye"
pin = 16
[{port}]
thread = "G 1/4"
clock = "6:00"
"""


def _drawn(action, space=60, stroke=80, more=""):
    port = {"push": "base_port", "pull": "rod_port"}[action]
    room = f"spring_space = {space}\n{more}" if space else more
    text = TEXT.format(stroke=stroke, action=action, more=room, port=port)
    cylinder = load(checked(text.encode()))
    return cylinder, sheet_job(cylinder)


def _zigzag(job, scale=0.5, view="extended"):
    picture = next(p for p in look_at(job).pictures if p.name == view)
    marks = marks_of(picture, job, scale, Style())
    return [m.curve for m in marks if m.name == NAME]


@pytest.mark.parametrize("more", ["", "stop_tube = 15"])
def test_who_pushes_packs_it_against_the_gland(more):
    cylinder, job = _drawn("push", 60, more=more)
    lines = _zigzag(job)
    inner = cylinder.stations.gland_inner
    assert lines[0].a == pytest.approx((inner - 60.0, 10.0))
    assert lines[-1].b == pytest.approx((inner, 20.0))
    assert all({c.a[1], c.b[1]} == {10.0, 20.0} for c in lines)
    assert all(c.b == d.a for c, d in pairwise(lines))


def test_who_pulls_stretches_it_behind_the_piston():
    cylinder, job = _drawn("pull", 50, stroke=70)
    lines = _zigzag(job)
    assert lines[0].a[0] == pytest.approx(cylinder.stations.oil_side)
    assert lines[-1].b[0] - lines[0].a[0] == pytest.approx(50.0 + 70.0)


@pytest.mark.parametrize("scale", [2.0, 0.5, 0.05])
def test_its_lines_do_not_run_together_on_paper(scale):
    _, job = _drawn("push")
    lines = _zigzag(job, scale)
    assert len(lines) % 2 == 1  # the middle of the room lies on one
    assert len(lines) == 1 or (lines[0].b[0] - lines[0].a[0]) * scale >= 1.5
    assert dist(lines[0].a, lines[-1].b) > 59.0


def test_it_is_seen_in_section_alone_and_only_with_room():
    _, job = _drawn("push")
    assert not any(_zigzag(job, view=name) for name in ("side", "top", "end"))
    _, bare = _drawn("push", space=0)
    assert not _zigzag(bare)


@pytest.mark.parametrize(("action", "said"), [("push", "60 SPRING"), ("pull", "SPRING")])
def test_the_page_says_it(action, said):
    _, job = _drawn(action)
    sheet = compose(job)
    (one,) = (d for v in sheet.views for d in v.dimensions if d.name == NAME)
    assert one.texts == (said,)
    assert isinstance(one, Linear if action == "push" else Note)
    assert inspect(sheet, job) == ()

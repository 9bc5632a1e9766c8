"""Faults of placing that no contact shows: each is put into a clean sheet, and told.

The rules are our own, from reading sheets as a checker does: a size is read where it stands, a
leader points at its own piece, a callout says which end it means, nothing is said twice.
"""

from dataclasses import replace

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.sheet.sheet import Mark, Note, Round
from drafting.drawing.sheet.strokes import Arc, Line
from drafting.settle.wishes import Callout
from drafting.shape.frame import Z
from drafting.told.ports_said import PortRow
from tests.drawing.sample_job import job as sample
from tests.drawing.sample_job import wishes


def row(table, end):
    boss = (("Ø36", "D"), ("12", ""))
    return PortRow(
        table, end, "G 1/2, ISO 1179-1", "12:00", "boss", boss, "G 1/2", "G 1/2", "12:00"
    )


PORTS = (row("base_port", "Base port"), row("rod_port", "Rod port"))


@pytest.fixture(scope="module")
def job():
    return sample(ports=PORTS)


@pytest.fixture(scope="module")
def sheet(job):
    return compose(job)


def codes(sheet, job):
    return {(f.code, f.field) for f in inspect(sheet, job)}


def changed(sheet, name, **changes):
    """The sheet with a dimension of that name changed."""
    views = tuple(
        replace(
            v,
            dimensions=tuple(replace(d, **changes) if d.name == name else d for d in v.dimensions),
        )
        for v in sheet.views
    )
    return replace(sheet, views=views)


def view(sheet, name):
    return next(v for v in sheet.views if v.name == name)


def with_view(sheet, new):
    return replace(sheet, views=tuple(new if v.name == new.name else v for v in sheet.views))


def test_a_clean_sheet_is_clean(sheet, job):
    assert codes(sheet, job) == set()


def test_a_size_read_on_another_part(sheet, job):
    """The base tube's width, dimensioned beyond the barrel, reads as the barrel's."""
    found = codes(changed(sheet, "body_mount.width", line_at=(700.0, 0.0)), job)
    assert ("sheet-foreign-outline", "body_mount.width") in found


def test_words_on_the_metal(sheet, job):
    """The words of a leader whose knee lies in the barrel stand on it."""
    name = next(d.name for d in view(sheet, "side").dimensions if isinstance(d, Round))
    found = codes(changed(sheet, name, knee=(300.0, 10.0), shelf="right"), job)
    assert ("sheet-words-on-metal", name) in found
    assert ("sheet-words-on-metal", name) not in codes(sheet, job)


def test_a_leader_to_another_piece(sheet, job):
    found = codes(changed(sheet, "base_port.thread", tip=(300.0, 50.0)), job)
    assert ("sheet-tip-off-piece", "base_port.thread") in found


def test_a_leader_to_the_room_of_a_fitting(sheet, job):
    moved = changed(sheet, "base_port.thread", tip=(300.0, 50.0))
    shown = next(v for v in moved.views if any(d.name == "base_port.thread" for d in v.dimensions))
    hose = Mark(Line((300.0, 20.0), (300.0, 80.0)), "phantom", "base_port.hose")
    found = codes(with_view(moved, replace(shown, marks=(*shown.marks, hose))), job)
    assert ("sheet-tip-off-piece", "base_port.thread") in found


def test_a_circle_in_dashes_that_another_part_covers_is_its_own(sheet, job):
    """A plate as wide as the barrel behind it was told to be pointed at wrongly."""
    side = view(sheet, "side")
    rim = next(d for d in side.dimensions if isinstance(d, Round))

    def dashed(mark):
        same = isinstance(mark.curve, Arc) and abs(mark.curve.radius - rim.radius) < 1e-6
        return replace(mark, role="hidden", name="cylinder.barrel_outside") if same else mark

    marks = tuple(map(dashed, side.marks))
    assert marks != side.marks
    found = codes(with_view(sheet, replace(side, marks=marks)), job)
    assert ("sheet-tip-off-piece", rim.name) not in found


def test_a_callout_that_does_not_say_which_port(sheet, job):
    found = codes(changed(sheet, "base_port.thread", texts=("G 1/2, 12:00",)), job)
    assert found == {("sheet-which-end", "base_port.thread")}
    alone = sample(ports=PORTS[:1])
    assert codes(changed(compose(alone), "base_port.thread", texts=("G 1/2",)), alone) == set()


def test_a_leader_over_another_view(sheet, job):
    side, top = view(sheet, "side"), view(sheet, "top")
    far = ((top.at[1] - side.at[1]) / side.scale) + 40.0
    found = codes(changed(sheet, "rod_mount.hole", knee=(300.0, far)), job)
    assert ("sheet-leader-across", "rod_mount.hole") in found


def test_a_tick_for_a_port_that_is_not_seen(sheet, job):
    end = view(sheet, "end")
    tick = Mark(Line((-3.0, -20.0), (3.0, -20.0)), "centre", "rod_port.thread")
    found = codes(with_view(sheet, replace(end, marks=(*end.marks, tick))), job)
    assert found == {("sheet-bare-tick", "rod_port.thread")}


def test_a_size_far_from_what_it_measures(sheet, job):
    side = view(sheet, "side")
    found = codes(
        changed(sheet, "cylinder.retracted", line_at=(0.0, -50.0 - 60.0 / side.scale)), job
    )
    assert ("sheet-far-away", "cylinder.retracted") in found


def test_a_size_beyond_the_room_of_a_hose_is_near_it(sheet, job):
    side = view(sheet, "side")
    away = 60.0 / side.scale
    far = changed(sheet, "cylinder.retracted", line_at=(0.0, -50.0 - away))
    hose = Mark(Line((9.0, -50.0), (9.0, -40.0 - away)), "phantom", "room")
    there = replace(view(far, "side"), marks=(*side.marks, hose))
    assert ("sheet-far-away", "cylinder.retracted") in codes(far, job)
    assert ("sheet-far-away", "cylinder.retracted") not in codes(with_view(far, there), job)


def test_a_number_said_twice(sheet, job):
    side, top = view(sheet, "side"), view(sheet, "top")
    port = next(d for v in (side, top) for d in v.dimensions if d.name == "base_port.position")
    other = top if port in side.dimensions else side
    twice = with_view(sheet, replace(other, dimensions=(*other.dimensions, port)))
    assert ("sheet-said-twice", "base_port.position") in codes(twice, job)


def test_every_code_of_a_sheet_says_so(sheet, job):
    broken = changed(sheet, "base_port.thread", texts=("G 1/2",), tip=(300.0, 50.0))
    assert all(f.code.startswith("sheet-") for f in inspect(broken, job))


def test_equal_ports_are_told_once():
    """``2x`` stands for ports that look one way, so that no callout is left without its end."""
    second = Callout("rod_port.thread", (300.0, 0.0, 50.0), Z, ("G 1/2",))
    found = compose(sample(ports=PORTS, wishes=(*wishes(), second)))
    notes = [d for v in found.views for d in v.dimensions if isinstance(d, Note)]
    assert [d.texts for d in notes] == [("2x G 1/2, 12:00",)]

"""Where the rod's end stands closed: in phantom, so that the stroke begins at something.

Sizes are those of the made-up ram in ``sample_job``: rod 40 to x 440, eye of 60 at 460, stroke 200.
"""

from dataclasses import replace
from math import pi

import pytest

from drafting.drawing.sheet.on_paper import box, union
from drafting.drawing.sheet.strokes import Arc
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at, marks_of
from drafting.shape.frame import along
from drafting.shape.pieces import Piece, cylinder, moved
from tests.drawing import sample_job


def _phantoms(job):
    picture = next(p for p in look_at(job).pictures if p.name == "extended")
    return [m for m in marks_of(picture, job, 0.2, Style()) if m.role == "phantom"]


def _bare(part):
    return replace(part, pieces=tuple(q for q in part.pieces if "rod_mount" not in q.name))


def test_a_mount_stands_there_by_its_outlines():
    job = sample_job.job()
    assert union([box(m.curve) for m in _phantoms(job)]) == (430.0, -30.0, 490.0, 30.0)


def test_a_bare_rod_by_its_face():
    job = sample_job.job()
    bare = replace(
        job,
        retracted=tuple(_bare(p) for p in job.retracted),
        extended=tuple(_bare(p) for p in job.extended),
    )
    assert [box(m.curve) for m in _phantoms(bare)] == [(440.0, -20.0, 440.0, 20.0)]


def test_a_mount_that_would_overlap_itself_by_what_is_free_of_it_and_the_line_of_the_stroke():
    """Moved by 50 it begins at 480: from 430 to there the closed one is to be seen."""
    job = sample_job.job()
    opened = tuple(moved(p, 50.0) if p.owner == "rod" else p for p in job.retracted)
    short = replace(job, extended=opened, lengths=(50.0, 460.0, 510.0))
    *free, line = _phantoms(short)
    assert box(line.curve) == (460.0, -30.0, 460.0, 30.0)
    assert union([box(m.curve) for m in free]) == pytest.approx((430.0, -30.0, 480.0, 30.0))


def test_the_root_of_a_mount_is_in_the_rod_there_too():
    job = sample_job.job()
    root = Piece("rod_mount.root", cylinder(8.0, 420.0, 436.0), along((1.0, 0.0, 0.0)))
    rooted = tuple(
        replace(p, pieces=(*p.pieces, root)) if p.owner == "rod" else p for p in job.retracted
    )
    both = (_phantoms(j) for j in (job, replace(job, retracted=rooted)))
    one, other = ([box(m.curve) for m in some] for some in both)
    assert one == other


def test_the_hole_of_a_mount_that_overlaps_itself_is_there_whole():
    """A stroke of 20: of the eye's hole of 30, at 460, no more than its left rim was free."""
    job = sample_job.job()
    opened = tuple(moved(p, 20.0) if p.owner == "rod" else p for p in job.retracted)
    short = replace(job, extended=opened, lengths=(20.0, 460.0, 480.0))
    rounds = [m.curve for m in _phantoms(short) if isinstance(m.curve, Arc)]
    (hole,) = [c for c in rounds if c.a1 - c.a0 == pytest.approx(2 * pi)]
    assert hole.centre == pytest.approx((460.0, 0.0))
    assert all(box(c)[2] <= 450.0 + 1e-6 for c in rounds if c is not hole)

"""The room of fittings on a sheet: phantom outlines that hide nothing and that nothing hides."""

from dataclasses import replace

from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at, marks_of, phantom_marks
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from tests.model.test_hose_room import text


def test_phantoms_are_drawn_in_their_role_in_every_view_of_the_cylinder():
    spec = text('fitting = "90"')
    job = sheet_job(load(read_spec(spec.encode(), mounts=mounts_by_end(), file="t.toml")))
    bare = replace(job, phantoms=())
    style = Style()
    with_one, without = look_at(job), look_at(bare)
    assert [p.name for p in with_one.pictures] == [p.name for p in without.pictures]
    for a, b in zip(with_one.pictures, without.pictures, strict=True):
        marks = marks_of(a, job, 0.2, style)
        phantom = [m for m in marks if m.name.startswith("base_port.keep_out")]
        assert all(m.role == "phantom" for m in phantom)
        assert tuple(m for m in marks if m not in phantom) == marks_of(b, bare, 0.2, style)
        assert len(phantom) > 4
    # In the open view the rod's mount stands where it is retracted: there the stroke begins.
    others = [m for m in marks_of(with_one.pictures[3], bare, 0.2, style) if m.role == "phantom"]
    assert others
    assert {m.name.partition(".")[0] for m in others} == {"rod_mount"}
    pin = replace(with_one.pictures[0], name="pin")
    assert phantom_marks(job.phantoms, pin) == ()

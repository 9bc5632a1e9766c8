"""The room of fittings on a sheet: phantom outlines that hide nothing and that nothing hides."""

from dataclasses import replace

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at, marks_of, phantom_marks
from drafting.model.load import checked, load
from tests.model.test_hose_room import text


def test_phantoms_are_drawn_in_their_role_in_every_view_of_the_cylinder():
    spec = text('fitting = "90"')
    job = sheet_job(load(checked(spec.encode())))
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


def _sheet(more, thread):
    return compose(sheet_job(load(checked(text(more, thread).encode()))))


BENT, BEND = "keep_out_stem", "keep_out_bend"


@pytest.mark.parametrize(
    ("more", "thread", "drawn", "gone"),
    [
        ('fitting = "90"', "SAE-8", {BENT, BEND}, None),
        ('fitting = "90"\nhose_bend = 600', "SAE-8", {BENT}, "bends of the hoses"),
        ('fitting = "straight"', "SAE-24", set(), "bends of the hoses"),
        ('fitting = "straight"', "SAE-32", None, "fittings and hoses"),
    ],
)
def test_hoses_cost_no_scale_and_no_larger_paper(more, thread, drawn, gone):
    """Cut off before they bend they may have room, else they are left out; the data sheet says so.

    A straight fitting of SAE-32, its thread 63.5, is 264 long with its nut and hose end.
    """
    sheet, bare = _sheet(more, thread), _sheet("", thread)
    assert sheet.size_name == bare.size_name
    assert [(v.name, v.scale) for v in sheet.views] == [(v.name, v.scale) for v in bare.views]
    phantoms = {
        m.name.partition(".")[2] for v in sheet.views for m in v.marks if "keep_out" in m.name
    }
    if drawn is None:
        assert not phantoms
    else:
        assert {"keep_out", "keep_out_hose"} | drawn == phantoms - {"keep_out_bend_inside"}
    words = " ".join(t.text for p in sheet.following for t in p.texts)
    assert (f"for want of room: {gone}." in words) if gone else "for want of room" not in words

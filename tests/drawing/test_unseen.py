"""Ports that the long views do not show, or only an edge of them.

The ram is that of ``sample_job``, barrel 100, with its boss of 36 turned to half past four: with
its face at 52 it is behind the barrel from aside and from above, at 62 an edge of it stands out.
"""

from dataclasses import replace

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.dimension.assign import Choice
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.project.project import project
from drafting.drawing.sheet.on_paper import box, union
from drafting.drawing.sheet.sheet import Note
from drafting.drawing.sheet.strokes import SIDE, TOP, Line, Stroke
from drafting.drawing.sheet.style import Style
from drafting.drawing.views.looks import look_at, marks_of
from drafting.drawing.views.symbols import symbol_marks
from drafting.drawing.views.unseen import with_measured, with_unseen
from drafting.settle.wishes import Callout, CentreLine, Length
from drafting.shape.frame import ORIGIN, X, Y, add, along, scale
from drafting.shape.pieces import Part, Piece, Prism, cylinder, stepped
from drafting.shape.pieces import box as square
from tests.drawing import sample_job

HALF_PAST_FOUR = (0.0, 0.5**0.5, -(0.5**0.5))


def _port(table, x, face, out=HALF_PAST_FOUR):
    """Give boss, wishes and axis of a port, at half past four if nothing else is said."""
    foot, tip = (add((x, 0.0, 0.0), scale(out, r)) for r in (40.0, face))
    boss = Piece(f"{table}.boss", cylinder(18.0, 40.0, face), along(out, (x, 0, 0), X))
    wishes = (
        Callout(f"{table}.thread", tip, out, ("G 1/2", "4:30")),
        Length(f"{table}.position", ORIGIN, tip, X, 3, toward=out),
    )
    return boss, wishes, CentreLine(f"{table}.thread", foot, tip)


COLLAR = Piece("cylinder.gland_outside", cylinder(90.0, 360.0, 380.0))
"""Hides from the rod end what is on the barrel."""


def _job(*ports, more=()):
    """Give the sample with these ports for its own; each a table, its place and its face."""
    job = sample_job.job()
    made = [_port(*p) for p in ports]

    def fitted(part):
        if part.name != "barrel":
            return part
        kept = tuple(q for q in part.pieces if "port" not in q.name)
        return replace(part, pieces=(*kept, *more, *(boss for boss, _, _ in made)))

    return replace(
        job,
        retracted=tuple(fitted(p) for p in job.retracted),
        extended=tuple(fitted(p) for p in job.extended),
        wishes=(
            *(w for w in job.wishes if "port" not in w.name),
            *(w for _, wishes, _ in made for w in wishes),
        ),
        symbols=(
            *(s for s in job.symbols if "port" not in s.name),
            *(axis for _, _, axis in made),
        ),
    )


def _hidden(picture):
    return [s for s in picture.strokes if not s.visible and "port" in s.piece]


def test_a_port_behind_the_barrel_is_drawn_hidden_in_the_side_view_alone():
    side, top, end, *_ = look_at(_job(("base_port", 70.0, 52.0))).pictures
    assert "base_port" in end.tables  # an edge, beyond the outline of the barrel
    assert union([box(s.curve) for s in _hidden(side)])[::2] == pytest.approx((52.0, 88.0))
    assert not _hidden(top)
    assert not _hidden(end)


def test_what_a_long_view_shows_is_not_drawn_hidden():
    for job in (_job(("base_port", 70.0, 62.0)), sample_job.job()):
        assert not any(_hidden(p) for p in look_at(job).pictures)


def test_callout_and_position_go_where_the_port_is_drawn():
    """In the end view the place of one is on the metal of the other."""
    job = _job(("base_port", 70.0, 52.0), ("rod_port", 300.0, 62.0))
    where = {c.wish.name: c.picture.name for c in look_at(job).choices}
    assert where["base_port.thread"] == "side"
    assert where["base_port.position"] == "side"


@pytest.mark.parametrize(
    ("out", "where"), [((0.0, 0.75**0.5, -0.5), "top"), ((0.0, 0.5, -(0.75**0.5)), "side")]
)
def test_a_position_goes_where_an_edge_of_the_port_is_seen(out, where):
    """At four o'clock it stood in the side view, its extension line on the bare barrel."""
    seen = look_at(_job(("base_port", 70.0, 62.0, out)))
    shown = [p.name for p in seen.pictures[:2] if "base_port" in p.tables]
    assert shown == [where]
    assert {c.wish.name: c.picture.name for c in seen.choices}["base_port.position"] == where


def test_a_cushion_screw_that_no_long_view_shows_is_dashed_and_pointed_at_there():
    """Its leader ended in the end view, on a face behind which the screw was."""
    frame = along(HALF_PAST_FOUR, (300.0, 0.0, 0.0), X)
    screw = Piece("cylinder.cushion_screw", cylinder(5.0, 48.0, 55.0), frame)
    tip = add((300.0, 0.0, 0.0), scale(HALF_PAST_FOUR, 55.0))
    job = _job(more=(screw, COLLAR))
    words = Callout(screw.name, tip, HALF_PAST_FOUR, ("CUSHION SCREW",))
    seen = look_at(replace(job, wishes=(*job.wishes, words)))
    hidden = [s for s in seen.pictures[0].strokes if s.piece == screw.name]
    assert hidden
    assert not any(s.visible for s in hidden)
    assert {c.wish.name: c.picture.name for c in seen.choices}[screw.name] == "side"


def test_the_dashes_are_drawn_at_every_scale():
    job = _job(("base_port", 70.0, 52.0))
    side = look_at(job).pictures[0]
    for k in (1.0, 0.2, 0.05):
        marks = [m for m in marks_of(side, job, k, Style()) if m.role == "hidden"]
        assert {m.name for m in marks} == {"base_port.boss"}


def test_where_an_edge_is_seen_the_arrow_comes_from_outside_to_it():
    job = _job(("base_port", 70.0, 62.0), more=(COLLAR,))
    views = {v.name: v for v in compose(job).views}
    notes = {d.name: d for d in views["side"].dimensions if isinstance(d, Note)}
    lowest = -(62.0 + 18.0) * 0.5**0.5
    note = notes["base_port.thread"]
    assert note.tip == pytest.approx((70.0, lowest), abs=0.2)
    assert note.knee[1] < lowest


def test_the_axis_of_a_port_runs_beside_what_is_seen_of_it():
    """Farther in it would be a bare tick on the barrel."""
    job = _job(("base_port", 70.0, 62.0))
    side, over = look_at(job).pictures[0], Style().centre_overrun / 0.5
    (axis,) = (m for m in marks_of(side, job, 0.5, Style()) if m.name == "base_port.thread")
    _, low, _, high = box(axis.curve)
    assert high == pytest.approx(-50.0 + over, abs=0.2)
    assert low == pytest.approx(-(62.0 + 18.0) * 0.5**0.5 - over, abs=0.2)


def _tapped(out):
    """Give a block with a tapped hole in one side, its words, and it from aside and from above."""
    mouth = stepped((20.0, 6.0), (30.0, 6.0), (30.0, 10.0), (41.0, 10.0))
    head = Part(
        "head",
        "body",
        (
            Piece("cylinder.head", Prism(square(-60.0, 60.0, -40.0, 40.0), -40.0, 40.0)),
            Piece("rod_port.thread", mouth, along(out), cut=True),
        ),
    )
    words = Callout("rod_port.thread", scale(out, 40.0), out, ("G 1/2",))
    pictures = tuple(
        Picture(name, "", look, "retracted", project((head,), look, hidden=False))
        for name, look in (("side", SIDE), ("top", TOP))
    )
    return head, words, pictures


def _in_flat_side(out):
    """Give what is drawn hidden, from aside and from above, of a tapped hole in a block's side."""
    head, words, pictures = _tapped(out)
    return tuple(_hidden(p) for p in with_unseen(pictures, (head,), (words,)))


def test_a_port_in_a_flat_side_is_drawn_by_the_rim_of_its_thread():
    """Its drilling is narrower, and says nothing more."""
    aside, above = _in_flat_side(Y)
    assert [(s.curve.radius, s.visible) for s in aside] == [(10.0, False)]
    assert not above


def test_one_that_faces_down_by_the_two_lines_of_its_thread():
    aside, above = _in_flat_side((0.0, 0.0, -1.0))
    found = sorted(box(s.curve) for s in aside)
    assert found == [pytest.approx((x, -40.0, x, -30.0), abs=1e-6) for x in (-10.0, 10.0)]
    assert not above


@pytest.mark.parametrize(("where", "lines"), [(0, [-10.0, 10.0]), (1, [])])
def test_one_that_is_seen_from_above_is_dashed_where_its_place_is_measured(where, lines):
    """The extension line of its place began on the bare head."""
    head, words, pictures = _tapped((0.0, 0.0, 1.0))
    place = Length("rod_port.position", (-60.0, 0.0, 0.0), words.tip, X, toward=words.normal)
    choices = (Choice(words, pictures[1], 0.0), Choice(place, pictures[where], 0.0))
    assert with_unseen(pictures, (head,), (words, place)) == pictures
    aside, above = (_hidden(p) for p in with_measured(pictures, (head,), choices))
    assert sorted(box(s.curve)[0] for s in aside) == pytest.approx(lines)
    assert not above


def test_each_of_two_like_ports_is_drawn_where_their_words_stand():
    """Of '2x G 1/2, 3:00' one was dashed in the side view, of the other nothing but a screw."""
    head, words, pictures = _tapped(Y)
    both = replace(words, name="base_port.thread", alike=((words.name, words.tip),))
    place = Length(words.name, (-60.0, 0.0, 0.0), words.tip, X, toward=words.normal)
    choices = (Choice(both, pictures[0], 0.0), Choice(place, pictures[1], 0.0))
    aside, above = (_hidden(p) for p in with_measured(pictures, (head,), choices))
    assert [(s.piece, s.curve.radius) for s in aside] == [(words.name, 10.0)]
    assert not above


def test_of_a_flange_that_faces_down_its_bore_is_drawn_with_its_axis():
    """The outer edges of two bolt holes stood there, and nothing of the bore between them."""
    down = (0.0, 0.0, -1.0)
    holes = [
        Piece("rod_port.bolts", cylinder(4.0, 30.0, 41.0), along(down, (x, y, 0.0)), cut=True)
        for x in (-20.0, 20.0)
        for y in (-9.0, 9.0)
    ]
    block = Piece("cylinder.head", Prism(square(-60.0, 60.0, -40.0, 40.0), -40.0, 40.0))
    bore = Piece("rod_port.thread", cylinder(8.0, 15.0, 41.0), along(down), cut=True)
    head = Part("head", "body", (block, bore, *holes))
    side = Picture("side", "", SIDE, "retracted", project((head,), SIDE, hidden=False))
    words = Callout("rod_port.thread", scale(down, 40.0), down, ("CODE 61",))
    (drawn,) = with_unseen((side,), (head,), (words,))
    assert sorted({box(s.curve)[0] for s in _hidden(drawn)}) == pytest.approx([-8.0, 8.0])
    axis = CentreLine("rod_port.thread", scale(down, 15.0), scale(down, 40.0))
    (mark,) = symbol_marks((axis,), drawn, 1.0, Style()).marks
    over = Style().centre_overrun
    assert box(mark.curve) == pytest.approx((0.0, -40.0 - over, 0.0, -15.0 + over))
    assert symbol_marks((axis,), side, 1.0, Style()).marks == ()


def test_of_a_port_of_which_a_line_is_seen_the_axis_overruns_that():
    seen = Stroke(Line((-10.0, 40.0), (10.0, 40.0)), True, "head", "rod_port.thread", "rim")
    side = Picture("side", "", SIDE, "retracted", (seen,))
    axis = CentreLine("rod_port.thread", (0.0, 0.0, 20.0), (0.0, 0.0, 40.0))
    (mark,) = symbol_marks((axis,), side, 1.0, Style()).marks
    over = Style().centre_overrun
    assert box(mark.curve) == pytest.approx((0.0, 40.0 - over, 0.0, 40.0 + over))

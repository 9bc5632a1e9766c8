"""No writer can drop anything: each kind of thing on a sheet is in the file, or told as a loss.

Whether a kind is in a file is seen by leaving it out: the file's bytes change, or they do not.
"""

from dataclasses import replace
from itertools import pairwise

import pytest

from drafting.drawing.sheet.breaks import Breaks, Cut
from drafting.drawing.sheet.sheet import Linear, Mark, Note, Round, Sheet, Text, View, Whole
from drafting.drawing.sheet.strokes import Hatch, Line
from drafting.drawing.write import writers
from drafting.drawing.write.writers import KINDS, WRITERS, Options, Writer, kinds, losses, write

LINE = Line((0.0, 0.0), (80.0, 30.0))
CORNERS = ((0, 0), (40, 0), (40, 40), (0, 40), (0, 0))
SQUARE = tuple(Line(a, b) for a, b in pairwise(CORNERS))
HATCH = Hatch("gland", (SQUARE,), 45.0, 4.0, (((0.0, 10.0), (30.0, 40.0)),))
VIEW = View("v", "View", (100.0, 100.0), 0.5, (Mark(LINE, "outline"),))
BARE = Sheet("A3", 420.0, 297.0, "mm", (VIEW,))


def view(**parts):
    return replace(BARE, views=(replace(BARE.views[0], **parts),))


def following(**parts):
    return replace(BARE, following=(replace(BARE, **parts),))


WHOLE = Whole(Breaks((Cut(20.0, 50.0, 6.0),)), (Mark(LINE, "outline"),), ())
WITH = {
    "marks of views": view(marks=(*VIEW.marks, Mark(SQUARE[1], "outline"))),
    "marks beside the views": replace(BARE, marks=(Mark(LINE, "frame"),)),
    "hatches": view(hatches=(HATCH,)),
    "lengths": view(
        dimensions=(Linear("l", (0, 0), (80, 0), 0, (0, -40), (40, -38), ("80",), 80),)
    ),
    "rounds": view(
        dimensions=(Round("r", "radius", (0, 0), 20, (20, 0), (40, 20), "right", ("R20",), 20),)
    ),
    "notes on leaders": view(dimensions=(Note("n", (0, 0), (40, 20), "left", ("G 1/2",)),)),
    "words": replace(BARE, texts=(Text((50, 50), "words"),)),
    "bold words": replace(BARE, texts=(Text((50, 50), "words", bold=True),)),
    "the unbroken outline": view(whole=WHOLE),
    "windows": view(window=(0.0, 0.0, 40.0, 40.0)),
    "further drawing pages": following(texts=(Text((60, 60), "more"),)),
    "pages without views": following(views=(), texts=(Text((60, 60), "more"),)),
    "the spec inside": replace(BARE, meta={"spec_text": "title = 'x'\\n", "tool": "t"}),
}


def bytes_of(writer, sheet):
    return dict(writer.write(sheet, "x", Options()))


def seen(writer, kind):
    """Whether a sheet with a thing of this kind gives another file than one without it."""
    other = BARE
    if kind == "bold words":
        other = WITH["words"]
    return bytes_of(writer, WITH[kind]) != bytes_of(writer, other)


def test_every_kind_has_a_sheet_that_holds_it():
    assert set(WITH) == set(KINDS)
    for kind, sheet in WITH.items():
        assert kind in set(kinds(sheet)), kind


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", WRITERS)
def test_what_is_on_a_sheet_is_written_or_told_as_a_loss(name, kind):
    writer = WRITERS[name]
    assert seen(writer, kind) is (kind in writer.writes), kind
    assert (kind in write(WITH[kind], name, "x").losses) is (kind not in writer.writes)


# --- a writer that records what it is given ------------------------------------------------------


def recording(*wanted):
    """A writer that notes down the kinds that it was made for, and nothing else."""

    def record(sheet, stem, options):
        there = sorted(k for k in kinds(sheet) if k in wanted)
        return {f"{stem}.txt": "\n".join(there).encode()}

    return record


def test_a_recording_writer_is_held_to_what_it_says(monkeypatch):
    honest = Writer(frozenset({"words", "hatches"}), recording("words", "hatches"))
    monkeypatch.setitem(writers.WRITERS, "txt", honest)
    for kind in KINDS:
        if set(kinds(WITH[kind])) <= {kind, "marks of views"} and kind != "marks of views":
            assert (bytes_of(honest, WITH[kind]) != bytes_of(honest, BARE)) is (
                kind in honest.writes
            )
    assert write(WITH["hatches"], "txt", "x").losses == ("marks of views",)


def test_a_writer_that_drops_what_it_says_it_writes_is_found():
    boasting = Writer(frozenset({"words", "hatches"}), recording("words"))
    assert seen(boasting, "hatches") is not ("hatches" in boasting.writes)


def test_losses_are_those_of_the_whole_set():
    dxf = WRITERS["dxf"]
    assert losses(WITH["pages without views"], dxf) == ("pages without views",)
    assert losses(WITH["further drawing pages"], dxf) == ()

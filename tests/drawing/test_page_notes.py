"""The notes of the drawing page: what they say is true of the sheets that follow."""

from dataclasses import replace

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.lists.page_notes import BROKEN, page_notes
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.style import Style
from drafting.told.ports_said import PortRow
from tests.drawing.sample_job import data
from tests.drawing.sample_job import job as sample

HIGH, LOW = (("Ø1 5/8", "D"), ("1 1/4", "")), (("Ø1 5/8", "D"), ("3/8", "D"))


def port(end: str, seat: str, sizes: tuple) -> PortRow:
    return PortRow(end, end, "", "", seat, sizes, "", "", "")


@pytest.mark.parametrize(
    ("ports", "said"),
    [
        ([("boss", LOW), ("boss", LOW)], "Bosses: both Ø1 5/8 D x 3/8 D."),
        ([("boss", LOW)] * 3, "Bosses: all Ø1 5/8 D x 3/8 D."),
        (
            [("boss", LOW), ("boss", HIGH)],
            "Bosses: port 1 Ø1 5/8 D x 3/8 D; port 2 Ø1 5/8 D x 1 1/4.",
        ),
        ([("boss", LOW), ("", ())], "Bosses: port 1 Ø1 5/8 D x 3/8 D."),
        (
            [("boss", HIGH), ("spotface", (("Ø2.2 MIN", ""),))],
            "Bosses: port 1 Ø1 5/8 D x 1 1/4. Spotfaces: port 2 Ø2.2 MIN.",
        ),
        (
            [("tube", (("Ø1 3/8", ""), ("axis 1 off barrel", "D"))), ("boss", LOW)],
            "Bosses: port 2 Ø1 5/8 D x 3/8 D. Port tubes: port 1 Ø1 3/8, axis 1 off barrel D.",
        ),
    ],
)
def test_bosses_are_said_with_their_flags_and_equal_ones_once(ports, said):
    """'base port Ø1 x 3/8; rod port Ø1 x 3/8' said twice what nobody had given."""
    rows = tuple(port(f"Port {n}", *p) for n, p in enumerate(ports, 1))
    assert page_notes(sample(ports=rows), False, True)[1] == said


@pytest.mark.parametrize(("hour", "counted"), [("45°", True), ("1:30", False)])
def test_degrees_are_told_from_where_and_which_way_they_count(hour, counted):
    """'ROD PORT, 45°' read as a port that slants."""
    rows = (port("Port 1", "", ()), replace(port("Port 2", "", ()), hour=hour))
    line = page_notes(sample(ports=rows), False, False)[1]
    assert (" end, degrees clockwise from 12. " in line) is counted


def test_a_flat_has_no_word_of_a_boss():
    rows = (port("Port 1", "", ()), port("Port 2", "", ()))
    assert page_notes(sample(ports=rows), False, True) == page_notes(sample(), False, True)


def test_a_phantom_at_a_port_has_a_word():
    """A hose in phantom lines looked like a pipe that comes with the cylinder."""
    plain, roomy = (
        page_notes(sample(phantoms=p), False, False)[0] for p in ((), sample().retracted)
    )
    assert "hose" not in plain
    assert roomy == f"{plain} Phantom at ports: room kept for fitting and hose."


@pytest.mark.parametrize(
    ("behind", "where"), [(1, "sheet 2."), (2, "sheets 2, 3."), (3, "sheets 2 to 4.")]
)
def test_the_sheets_of_data_are_named_on_one_line(behind, where):
    for broken in (False, True):
        line = page_notes(sample(), broken, False, behind)[2]
        assert where in line
        assert (BROKEN in line) is broken
        assert width(line, Style().small_text) < 159.0


@pytest.mark.parametrize(
    ("lines", "count", "where"), [(1, 1, "sheet 2."), (110, 2, "sheets 2, 3."), (150, 3, "to 4.")]
)
def test_the_note_counts_the_sheets_that_follow(lines, count, where):
    """'Sizes to hold, data, cautions, approval: sheet 2' while the last two stood on sheet 3."""
    sheet = compose(sample(data=replace(data(), notes=("Primer only, no paint",) * lines)))
    assert len(sheet.following) == count
    assert [t.text for t in sheet.texts if t.name == "notes"][-1].endswith(where)

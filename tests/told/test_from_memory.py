"""Table values from memory are named on the sheet; the tables' own confidence decides."""

import pytest

from drafting.drawing.of_cylinder import sheet_job
from drafting.standards.table import table
from drafting.told.from_memory import from_memory, memory_notes
from tests.model.mount_specs import settled, spec_text

BARE = ("none", {}), ("plain", {})
PORT = "[base_port]\nthread = '{}'\nclock = 12\nposition = 2.5\nheight = 1\n"


def cylinder(body=BARE[0], rod=BARE[1], thread="G 1/2", **cylinder_table):
    return settled(spec_text(body, rod, cylinder=cylinder_table, more=PORT.format(thread)))


def test_nothing_is_said_where_every_row_was_seen():
    """G 1/2 stands in a row that was seen once, and the barrel's outside is typed."""
    assert table("port_bspp").where(size="1/2")[0].confidence == "witnessed-1"
    assert from_memory(cylinder()) == ()
    assert memory_notes(cylinder()) == ()


@pytest.mark.parametrize(
    ("changed", "named"),
    [
        ({"thread": "Rc 1/2"}, "base port thread"),
        ({"rod": ("male thread", {"thread": "1 1/4-12 UNF"})}, "rod thread length"),
        ({"body": ("trunnion", {"position": "base"})}, "mount code MT2"),
    ],
)
def test_what_rests_on_memory_is_named_on_the_sheet(changed, named):
    c = cylinder(**changed)
    assert named in from_memory(c)
    (note,) = [n for n in sheet_job(c).data.notes if n.startswith("Table value")]
    assert named in note
    one = len(from_memory(c)) == 1
    assert note.startswith(f"Table value{'' if one else 's'} from memory: ")
    assert note.endswith(f"Check {'it' if one else 'them'} against the standards.")


def test_what_rests_on_memory_has_the_names_of_the_lists():
    """The note said extra port thread, where both pages called the port base port 2."""
    more = (
        '[[extra_port]]\nend = "base"\nthread = "Rc 1/2"\nclock = 6\nposition = 2.5\nheight = 1\n'
    )
    c = settled(spec_text(*BARE, more=PORT.format("G 1/2") + more))
    assert from_memory(c) == ("base port 2 thread",)


def test_a_tube_from_the_table_is_named():
    text = spec_text(*BARE).replace("barrel_outside = 4\n", "")
    assert from_memory(settled(text)) == ("barrel OD",)

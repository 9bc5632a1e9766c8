"""The list of what must hold: every functional size once, with its tolerance or a mark.

The sizes are those of the text below; 1 in = 25.4 mm.
"""

from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from drafting.told.facts import OPEN, facts, part_rows
from drafting.told.must_hold import must_hold

SPEC = """
title = "Cider press"
units = "mm"
{top}
[cylinder]
bore = 80
rod = 45
stroke = 300
retracted = 640
tolerance = {{retracted = "±0.5"}}
[body_mount]
mount = "clevis"
pin = 30
hole = 30.2
gap = 40
width = 80
tolerance = {{hole = "H9"}}
[rod_mount]
mount = "male thread"
thread = "M33x2"
thread_length = 45
[base_port]
thread = "G 1/2"
clock = "3:00"
position = 90
[rod_port]
thread = "G 1/2"
clock = "12:00"
{more}
"""


def cylinder(top="", more=""):
    return load(read_spec(SPEC.format(top=top, more=more).encode(), mounts=mounts_by_end()))


def test_every_functional_size_has_its_row():
    rows = dict(must_hold(cylinder(), "mm"))
    assert rows["Q"] == "builder to state tolerance in quote"
    assert rows["Retracted"] == "640 ±0.5"
    assert rows["Stroke"] == "300 Q"
    assert rows["Extended"] == "(940)"
    assert rows["Base hole"] == "30.2 H9 (+0.062/0)"
    assert rows["Base gap"] == "40 Q"
    assert rows["Base swing radius"].endswith(" D Q")
    assert rows["Rod thread"] == "M33x2"
    assert rows["Base port"] == "G 1/2 at 90 Q"
    assert rows["Base port clock"] == "3:00 from rod end, 9:00 from base"


def test_a_general_tolerance_takes_the_marks_away():
    rows = dict(must_hold(cylinder(more='[drawing]\ngeneral_tolerance = "ISO 2768-m"'), "mm"))
    assert rows["General"] == "ISO 2768-m"
    assert rows["Stroke"] == "300"
    assert "Q" not in rows


def test_a_second_port_at_one_end_has_its_number():
    more = '[[extra_port]]\nend = "base"\nthread = "G 1/2"\nclock = "9:00"\nplugged = true\n'
    rows = dict(must_hold(cylinder(more=more + "position = 90"), "mm"))
    assert rows["Base port 2"] == "G 1/2 at 90 Q, plugged"
    assert rows["Base port 2 clock"] == "9:00 from rod end, 3:00 from base"


def test_two_units_stand_in_one_row():
    assert dict(must_hold(cylinder(), "mm [in]"))["Stroke"] == "300 [11.811] Q"


def test_no_size_stands_in_both_lists():
    c = cylinder()
    held = [label for label, _ in must_hold(c, "mm")]
    assert not set(held) & {label for label, _ in facts(c)}
    assert len(held) == len(set(held))


def test_what_was_not_said_stays_open_and_what_is_known_is_said():
    rows = dict(facts(cylinder(top="quantity = 2\nmatched_set = true"), mass=31.25))
    assert rows["Rod plating"] == rows["Stays bare"] == rows["Marking"] == rows["Seals"] == OPEN
    assert rows["Quantity"] == "2, a matched set"
    assert rows["Weight, dry"] == "31.2 kg (69 lb)"
    # pi/4 80^2 300 mm3 out; less the rod's pi/4 45^2 300 on the way back.
    assert rows["Oil, out and back"] == "1.51 L, 1.03 L"
    assert float(rows["Largest OD, no mounts"].split()[0]) > 80.0


def test_supplied_parts_have_a_table():
    assert part_rows(cylinder()) == ()
    (row,) = part_rows(cylinder(more='[body_pin]\nsupplied = true\nretention = "cotter"'))
    assert row[0] == "1 x"
    assert row[1].startswith("base end pin, 30 mm")

"""Ports in words: a pad is no round boss, and what is said of three says of what."""

from pathlib import Path
from types import MappingProxyType

import pytest

from drafting.drawing.lists.ports_table import ports_table
from drafting.drawing.sheet.on_paper import box
from drafting.drawing.sheet.style import Style
from drafting.model.load import checked, load
from drafting.told.drawn_by_rule import drawn_by_rule
from drafting.told.ports_said import port_rows

SPECS = Path(__file__).parents[2] / "specs"


BSP = "G 1/2 DIN 3852-2"


def cylinder(name, swaps=MappingProxyType({})):
    text = (SPECS / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in swaps.items():
        assert old in text
        text = text.replace(old, new)
    return load(checked(text.encode()))


@pytest.mark.parametrize(
    ("name", "swaps", "said"),
    [
        ("log-grapple", {}, [("boss", (("Ø30", "D"), ("13", "D")))] * 2),
        (
            "log-grapple",
            {"[rod_port]": "height = 16\n[rod_port]"},
            [("boss", (("Ø30", "D"), ("16", ""))), ("boss", (("Ø30", "D"), ("13", "D")))],
        ),
        (
            "timber-carriage",
            {},
            [
                ("boss", (("Ø30.2", "D"), ("14.29", "D"))),
                ("tube", (("Ø30.2", "D"), ("axis 19.05 off barrel", ""))),
            ],
        ),
        (
            "pulp-press",
            {},
            [("boss", (("69.6 x 44.2", "D"), ("3", "D")))] * 2
            + [("boss", (("58.1 x 35.8", "D"), ("3", "D")))],
        ),
        ("lock-paddle", {}, [("spotface", (("Ø27 MIN", ""),))] * 3),
        ("lock-paddle", {BSP: "SAE-8"}, [("spotface", (("Ø30 MIN", ""),))] * 3),
        ("lock-paddle", {BSP: "1/2 NPT"}, [("", ())] * 3),
        (
            "lock-paddle",
            {BSP: "1/2 code 61", "69": "82", "472.5": "498"},
            [("long pitch", (("along", "D"),))] * 3,
        ),
    ],
)
def test_each_size_of_a_boss_has_its_own_flag_and_a_flat_has_no_boss(name, swaps, said):
    """'Ø1 5/8 x 1 1/4 D' where 1 1/4 was typed; bosses were said of ports in a head's flats."""
    assert [(r.seat, r.sizes) for r in port_rows(cylinder(name, swaps), "mm", 0)] == said


def test_a_pad_is_drawn_by_rule_as_a_pad():
    rows = {r.label: r.text for r in drawn_by_rule(cylinder("pulp-press"), "mm", 0, ())}
    assert not [label for label in rows if "boss" in label]
    assert rows["2x port pad along"] == "69.6"
    assert rows["3x port height"] == "3"  # 'Height of 3' said neither of what nor what 3 was


def test_the_size_of_a_flange_is_no_count():
    """'1 FOUR-BOLT FLANGE CODE 62' and '2x 1 CODE 62' read as one flange, and as two of one."""
    row = port_rows(cylinder("pulp-press"), "mm", 0)[0]
    assert row.thread.startswith("FOUR-BOLT FLANGE 3/4 CODE 61, ")
    assert row.short == row.brief == '3/4" CODE 61'


@pytest.mark.parametrize("name", ["pulp-press", "timber-carriage", "weir-gate"])
def test_the_last_column_of_ports_keeps_off_the_frame(name):
    """The box of a flag lay half a millimetre beside the frame."""
    c = cylinder(name)
    wide = 160.0
    dimensions = "in [mm]" if c.spec.units == "in" else "mm"
    table = ports_table((0.0, 0.0), wide, port_rows(c, dimensions, 16), Style())
    flags = [m.curve for m in table.marks if m.name == "flag"]
    assert flags
    assert max(box(curve)[2] for curve in flags) <= wide - 1.5


FLANGED = {BSP: "1/2 code 61", "69": "82", "472.5": "498"}


@pytest.mark.parametrize(("name", "swaps"), [("lock-paddle", FLANGED), ("pulp-press", {})])
def test_how_the_bolts_of_a_flange_port_lie_is_told_with_a_pad_and_without(name, swaps):
    """Neither of their pitches was on any paper where the port is in a head's flat."""
    c = cylinder(name, swaps)
    (row,) = (r for r in drawn_by_rule(c, "mm", 0, ()) if "base_port.bolts" in r.names)
    assert (row.label, row.text, row.reason) == (
        "Port bolts, long pitch",
        "along",
        "the cylinder's axis",
    )
    for port in c.ports:
        holes = [q for part in c.parts for q in part.pieces if q.name == f"{port.table}.bolts"]
        spans = [max(v) - min(v) for v in zip(*(q.frame.origin for q in holes), strict=True)]
        assert spans[0] > max(spans[1:]) + 10.0


def test_a_port_without_a_flange_has_no_such_row():
    rows = [r.label for r in drawn_by_rule(cylinder("lock-paddle"), "mm", 0, ())]
    assert "Port bolts, long pitch" not in rows


def test_how_far_a_tube_lies_off_is_said_in_one_way():
    """'Axis off barrel' in PORTS and 'tube axis off seat' behind it read as two sizes."""
    c = cylinder("timber-carriage", {"height          = 0.75\n": ""})
    ((said, flag),) = port_rows(c, "in", 16)[1].sizes[1:]
    (row,) = (r for r in drawn_by_rule(c, "in", 16, ()) if "rod_port.height" in r.names)
    assert (row.label, flag) == ("Rod port axis off barrel", "D")
    assert said.split(" ", 1)[0] == "axis"
    assert said.endswith("off barrel")

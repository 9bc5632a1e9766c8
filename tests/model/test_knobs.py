"""Cushion screws and breathers stand at an hour that neither a port nor the body's mount takes."""

import pytest

from drafting.model.ports.knobs import _apart, _hours, _is_apart
from drafting.settle.wishes import Callout
from drafting.shape.frame import dot
from tests.model.test_ports_drawn import PLAIN, TIE, port, settled, spec

TRUNNION = {"mount": '"trunnion"', "position": '"base"', "pin": "50"}
FOOT = {"mount": '"foot"', "position": '"base"'}
HOURS = {"12": (0, 1), "3": (1, 0), "6": (0, -1), "9": (-1, 0), "1:30": (0.7071, 0.7071)}


def cushioned(cylinder, body, *clocks, **more):
    """A cylinder cushioned at the base, with a port there at each of these hours."""
    first, *others = clocks
    extra = [{"end": '"base"', **port("G 1/4", clock=c)} for c in others]
    more |= {"extra_port": extra} if others else {}
    sizes = {**cylinder, "cushions": '"base"'}
    return settled(spec(sizes, body, base_port=port("G 1/4", clock=first), **more))


def at(c, hour):
    """Tell whether the screw or breather looks out at that hour."""
    (said,) = (w for w in c.wishes if isinstance(w, Callout) and w.name in KNOBS)
    y, z = HOURS[hour]
    return dot(said.normal, (0.0, y, z)) == pytest.approx(1.0, abs=1e-4)


KNOBS = ("cylinder.cushion_screw", "cylinder.breather")


@pytest.mark.parametrize(
    ("cylinder", "body", "clocks", "hour"),
    [
        (TIE, {"mount": '"none"'}, ["6"], "9"),
        (TIE, TRUNNION, ["6"], "12"),  # pins at 3:00 and 9:00, a port at 6:00
        (PLAIN, TRUNNION, ["6"], "12"),
        (TIE, FOOT, ["3"], "12"),  # a quarter turn from 3:00 is 6:00, under which the foot lies
        (TIE, FOOT, ["12"], "3"),
        (PLAIN, FOOT, ["3"], "12"),
        (PLAIN, {"mount": '"none"'}, ["12", "3", "6", "9"], "1:30"),
    ],
)
def test_a_cushion_screw_keeps_off_ports_and_mount(cylinder, body, clocks, hour):
    c = cushioned(cylinder, body, *clocks)
    assert at(c, hour)
    assert "no-free-hour" not in {f.code for f in c.findings}
    assert c.value("cylinder.cushion_screw").why == "on a side free of ports and mount"


def test_a_screw_without_a_free_hour_is_told_and_said_at_its_leader():
    """Of four sides the trunnion has two and ports have two; on a round there would be eighths."""
    c = cushioned(TIE, TRUNNION, "12", "6")
    (told,) = (f for f in c.findings if f.code == "no-free-hour")
    assert (told.level, told.field) == ("warning", "cylinder.cushions")
    assert "base end" in told.message
    assert "3:00" in told.message
    (said,) = (w for w in c.wishes if w.name == "cylinder.cushion_screw")
    assert said.lines == ("CUSHION SCREW", "PLACE BY BUILDER")
    assert c.value("cylinder.cushion_screw").why == "builder's choice"


@pytest.mark.parametrize(
    ("side", "base", "rod", "lines", "value"),
    [
        ("rod", "10", "10", ("2x CUSHION SCREW, 1:00",), "1:00"),
        ("base", "2", "2", ("2x CUSHION SCREW, 11:00",), "11:00"),
        ("rod", "6", "4", ("2x CUSHION SCREW", "BASE 9:00, ROD 7:00"),
         "base end 9:00, rod end 7:00"),
        ("base", "6", "1", ("2x CUSHION SCREW", "BASE 3:00, ROD 10:00"),
         "base end 3:00, rod end 10:00"),
    ],
)  # fmt: skip
def test_cushion_screws_say_their_hours_as_clocks_are_typed(side, base, rod, lines, value):
    """Of a screw behind the barrel two dashes were seen; '7:30 base, 4:00 rod' read as one hour."""
    sizes = {**PLAIN, "cushions": '"both"', "clock_seen_from": f'"{side}"'}
    ports = {f"{e}_port": port("G 1/4", clock=c) for e, c in (("base", base), ("rod", rod))}
    c = settled(spec(sizes, **ports))
    (said,) = (w for w in c.wishes if w.name == "cylinder.cushion_screw")
    assert said.lines == lines
    assert c.value("cylinder.cushion_screw").value == value


def test_a_breather_keeps_off_the_mount_too():
    """Nothing but the foot is there: with the seat facing up it is a quarter turn on."""
    pull = {**TIE, "action": '"pull"', "return": '"load"'}
    down, up = (settled(spec(pull, {**FOOT, "clock": c})) for c in ('"6:00"', '"12:00"'))
    assert at(down, "12")
    assert at(up, "3")


@pytest.mark.parametrize(
    ("a", "b", "between"),
    [(0, 90, 90), (350, 10, 20), (10, 350, 20), (180, 0, 180), (90, 275, 175), (30, 30, 0)],
)
def test_clocks_are_apart_the_shorter_way_round(a, b, between):
    assert _apart(a, b) == between


@pytest.mark.parametrize(
    ("taken", "on_flat", "on_round"),
    [([], 0, 0), ([0], 90, 90), ([0, 90], 270, 270), ([0, 90, 270], 180, 180), ([0, 46], 270, 270),
     ([0, 45], 90, 90), ([20, 110, 290], 200, 200), ([0, 90, 180, 270], None, 45)],
)  # fmt: skip
def test_what_has_no_place_stands_a_quarter_turn_beside_the_port(taken, on_flat, on_round):
    """Right, left, then opposite: the first that keeps 45 degrees from everything."""
    first = [
        next((h for h in _hours(taken, f) if _is_apart(h, taken)), None) for f in (True, False)
    ]
    assert first == [on_flat, on_round]

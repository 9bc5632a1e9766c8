"""Sizes of tube, stack and lengths at several bores, against the rules of the spec format.

Floors: base cap 0.25 of the bore, piston 0.5, gland 0.6, stick-out 0.1, each at least 10 mm. Sizes
to start from are 0.35, 0.7, 0.9 and 0.25 of the bore, at least 15, 20, 25 and 20 mm (common
practice), drawn at the next 1/16 in or 1 mm. They give way to the next such size over the floor,
and below it only where that is not enough.
"""

from __future__ import annotations

from math import ceil

import pytest

from drafting.errors import Refused
from drafting.settle.carried import Sum
from drafting.settle.clock import both_readings, hour, seen_from_base, seen_from_rod
from tests.model.mount_specs import settled

FLOORS = {"base_thickness": 0.25, "piston_length": 0.5, "gland_length": 0.6, "rod_stick_out": 0.1}
STARTS = {
    "base_thickness": (0.35, 15.0),
    "piston_length": (0.7, 20.0),
    "gland_length": (0.9, 25.0),
    "rod_stick_out": (0.25, 20.0),
}
ORDER = ("rod_stick_out", "gland_length", "piston_length", "base_thickness")


def load(more: str = "", units: str = "mm", **cylinder: object):
    sizes = {"bore": 83.0, "rod": 41.0, "stroke": 317.0, **cylinder}
    lines = ["title = 'Weir'", f"units = '{units}'", "[cylinder]"]
    lines += [f"{k} = {v!r}" for k, v in sizes.items() if v is not None]
    lines += ["[body_mount]", "mount = 'none'", "[rod_mount]", "mount = 'plain'"]
    return settled("\n".join(lines) + "\n" + more)


def floor(name: str, bore: float) -> float:
    return max(FLOORS[name] * bore, 10.0)


def start(name: str, bore: float, step: float = 1.0) -> float:
    part, least = STARTS[name]
    return max(ceil(max(part * bore, least) / step - 1e-9) * step, floor(name, bore))


@pytest.mark.parametrize("bore", [13.0, 27.0, 83.0, 203.0])
@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_closed_stack_starts_at_its_sizes_and_gives_way_in_order(bore, units):
    unit, step = (25.4, 25.4 / 16) if units == "in" else (1.0, 1.0)
    wanted = {n: start(n, bore, step) for n in ORDER}
    stroke = 4 * bore
    for less in (-30.0, 0.0, 3.0, 0.4, 0.8, 1.0):
        room = sum(wanted[n] - floor(n, bore) for n in ORDER)
        short = less if less > 1 or less < 0 else less * room
        want = dict(wanted)
        left = short
        for least in (step, 1e-9):  # down to whole steps, then to the floors themselves
            for n in ORDER if left > 0 else ORDER[:1]:
                low = ceil(floor(n, bore) / least - 1e-9) * least
                gives = min(left, max(want[n] - low, 0.0))
                want[n] -= gives
                left -= gives
        retracted = stroke + sum(wanted.values()) - short
        sizes = {"bore": bore, "rod": bore / 2, "stroke": stroke, "retracted": retracted}
        c = load(units=units, **{k: v / unit for k, v in sizes.items()})
        for n in ORDER:
            assert c.value(f"cylinder.{n}").value == pytest.approx(want[n], abs=1e-5), n
        assert ("left over" in c.value("cylinder.rod_stick_out").why) is (less < 0.0)
    shortest = stroke + sum(floor(n, bore) for n in ORDER)
    with pytest.raises(Refused) as told:
        load(bore=bore, rod=bore / 2, stroke=stroke, retracted=shortest - 0.01)
    assert [f.code for f in told.value.faults] == ["cannot-close"]


def test_two_lengths_give_the_third():
    for known, name, value in (
        ({"stroke": 317.0, "retracted": 700.0}, "extended", 1017.0),
        ({"stroke": 317.0, "extended": 1017.0}, "retracted", 700.0),
        ({"stroke": None, "retracted": 700.0, "extended": 1017.0}, "stroke", 317.0),
    ):
        c = load(**known)
        assert c.value(f"cylinder.{name}").value == pytest.approx(value)
        lengths = c.lengths
        assert (lengths.stroke, lengths.retracted, lengths.extended) == (317.0, 700.0, 1017.0)


def test_three_lengths_that_agree_are_silent_and_off_by_a_little_are_told():
    def off(extended: float) -> list[str]:
        c = load(retracted=700.0, extended=extended)
        assert c.lengths.extended == 1017.0
        return [f.message for f in c.findings if f.code == "lengths-off"]

    assert off(1017.0) == []
    (told,) = off(1017.4)
    assert "317.4" in told
    assert "317 mm" in told


def test_a_wall_gives_the_barrel_s_outside():
    c = load(retracted=700.0, wall=9.5)
    assert c.value("cylinder.barrel_outside").value == 102.0
    assert c.stations.barrel_outside == 102.0
    assert c.stations.wall == 9.5
    both = load(retracted=700.0, wall=9.5, barrel_outside=102.0)
    assert both.value("cylinder.barrel_outside").origin == "given"


@pytest.mark.parametrize(("pressure", "told"), [("20 bar", False), ("900 bar", True)])
def test_a_wall_that_no_tube_has_for_the_pressure_is_told(pressure, told):
    c = load(bore=80.0, retracted=700.0, working_pressure=pressure)
    assert any(f.code == "wall-too-light" for f in c.findings) is told


def test_an_open_size_is_to_be_decided_and_a_measured_one_is_not():
    for kind, told in (("open", 1), ("measured", 0), ("builder", 0)):
        more = (
            f"[[origin]]\nfield = 'cylinder.bore'\nfrom = '{kind}'\nplus_minus = 0.7\nnote = 'x'\n"
        )
        c = load(more, retracted=700.0)
        assert sum(f.code == "open-size" for f in c.findings) == told
        assert c.value("cylinder.bore").origin == kind
        assert c.value("cylinder.bore").plus_minus == 0.7


def test_a_sum_adds_its_parts_times_its_fields():
    some = Sum(((0.5, "a"), (3.0, "b"), (-1.0, "c")))
    assert some.of({"a": 7.0, "b": 11.0, "c": 2.0}) == 3.5 + 33.0 - 2.0
    assert some.fields == ("a", "b", "c")


@pytest.mark.parametrize(
    ("degrees", "typed_so", "rod", "base"),
    [
        (0.0, False, "12:00", "12:00"),
        (35.0, False, "1:10", "10:50"),
        (35.0, True, "35 deg", "325 deg"),
        (90.0, True, "3:00", "9:00"),
        (180.0, False, "6:00", "6:00"),
        (330.0, False, "11:00", "1:00"),
        (0.3, False, "0.3 deg", "359.7 deg"),
        (15.5, False, "12:31", "11:29"),
        (359.9999999, False, "12:00", "12:00"),
    ],
)
def test_clocks_are_said_from_both_ends(degrees, typed_so, rod, base):
    """Half a degree is a minute; the base end sees the clock mirrored."""
    assert hour(degrees, typed_so) == rod
    assert both_readings(degrees, typed_so) == f"{rod} FROM ROD END / {base} FROM BASE"
    assert seen_from_base(degrees) == pytest.approx(-degrees % 360)
    assert seen_from_rod(degrees, "rod") == degrees % 360
    assert seen_from_rod(degrees, "base") == pytest.approx(-degrees % 360)


@pytest.mark.parametrize(
    ("units", "bore", "outside"), [("mm", 43.7, 53.0), ("mm", 16, 20.0), ("in", 0.8125, 25.4)]
)
def test_a_barrel_of_no_tube_has_a_size_of_the_shop(units, bore, outside):
    """A tenth of the bore as wall gave 52.44 mm, and .9 in among fractions."""
    unit = 25.4 if units == "in" else 1.0
    long = {"stroke": 12 * bore, "retracted": 20 * bore + 100 / unit}
    c = load(units=units, bore=bore, rod=bore / 2, **long)
    assert c.value("cylinder.barrel_outside").value == pytest.approx(outside)
    assert c.value("cylinder.barrel_outside").why.startswith("0.1 of the bore")

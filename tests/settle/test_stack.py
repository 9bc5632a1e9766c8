"""The axial stack: what gives way, in which order, and what is left over.

Floors are the spec format's own; lengths here are worked by hand.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.settle.stack import Give, close_stack


def gives(typed: dict[str, float] | None = None) -> list[Give]:
    typed = typed or {}
    table = {"stick": (20, 10), "gland": (45, 30), "piston": (35, 25), "cap": (18, 12.5)}
    return [
        Give(n, n, typed.get(n, v), typed.get(n, f), n in typed) for n, (v, f) in table.items()
    ] + [Give("stroke", "stroke", 100, 100, True)]


def total(sizes):
    return sum(sizes.values())


def test_left_over_lengthens_the_stick_out():
    solved = close_stack(250, gives(), ("stick",), total, "mm")
    assert solved.spare == pytest.approx(250 - 218)
    assert solved.sizes["stick"].value == pytest.approx(52)
    assert solved.sizes["gland"].value == 45


def test_sizes_give_way_in_the_order_of_the_list():
    solved = close_stack(218 - 10 - 5, gives(), ("stick",), total, "mm")
    assert solved.sizes["stick"].value == 10
    assert solved.sizes["gland"].value == 40
    assert solved.sizes["piston"].value == 35
    assert solved.short_by == 0


def test_typed_sizes_stand():
    solved = close_stack(203, gives({"gland": 45}), ("stick",), total, "mm")
    assert solved.sizes["gland"].value == 45
    assert solved.sizes["piston"].value == 30


def test_too_short_says_by_how_much():
    floors = 10 + 30 + 25 + 12.5 + 100
    solved = close_stack(floors - 7, gives(), ("stick",), total, "mm")
    assert solved.short_by == pytest.approx(7)
    assert sum(g.value for g in solved.sizes.values()) == pytest.approx(floors)


def test_what_does_not_count_stays():
    solved = close_stack(60, gives(), ("stick",), lambda s: s["stick"] + s["gland"], "mm")
    assert solved.sizes["piston"].value == 35
    assert solved.sizes["stick"].value + solved.sizes["gland"].value == pytest.approx(60)


def test_half_shares_close_too():
    solved = close_stack(
        190, gives(), ("stick",), lambda s: total(s) - s["cap"] / 2 - s["gland"] / 2, "mm"
    )
    got = {n: g.value for n, g in solved.sizes.items()}
    assert total(got) - got["cap"] / 2 - got["gland"] / 2 == pytest.approx(190)


@given(st.floats(177.5, 1000))
def test_any_length_above_the_floors_closes(required):
    solved = close_stack(required, gives(), ("stick",), total, "mm")
    assert solved.short_by == 0
    assert sum(g.value for g in solved.sizes.values()) == pytest.approx(required)
    assert all(g.value >= g.floor - 1e-9 for g in solved.sizes.values())


def test_left_over_goes_to_the_next_when_the_stick_out_was_typed():
    solved = close_stack(250, gives({"stick": 12}), ("stick", "gland"), total, "mm")
    assert solved.sizes["stick"].value == 12
    assert solved.sizes["gland"].value == pytest.approx(45 + 250 - 210)
    assert solved.short_by == 0


def test_left_over_with_everything_typed_is_said():
    solved = close_stack(250, gives({"stick": 12}), ("stick",), total, "mm")
    assert solved.short_by == pytest.approx(-40)


@pytest.mark.parametrize(
    ("units", "step", "stick", "gland", "piston"),
    [
        ("in", 25.4 / 16, 7 * 25.4 / 16, 20 * 25.4 / 16, 25),
        ("mm", 1.0, 11, 31, 25),
    ],
)
def test_what_gives_way_stays_a_shop_size(units, step, stick, gland, piston):
    """10 mm stood among fractions of an inch, and a gland of 2.63755 in took what was left."""
    floors = {"stick": 10.3, "gland": 30.6, "piston": 25}
    starts = {"stick": 24 * step, "gland": 40 * step, "piston": 25}
    some = [Give(n, n, max(starts[n], floors[n]), floors[n], False) for n in floors]
    first = close_stack(stick + gland + piston, some, ("stick",), total, units)
    assert [g.value for g in first.sizes.values()] == pytest.approx([stick, gland, piston])
    tight = close_stack(sum(floors.values()), some, ("stick",), total, units)
    assert [g.value for g in tight.sizes.values()] == pytest.approx([*floors.values()])
    assert (first.short_by, tight.short_by) == (0.0, 0.0)


def test_whole_steps_are_left_before_the_next_gives_way_below_them():
    some = [Give(n, n, 20.0, floor, False) for n, floor in (("a", 10.4), ("b", 12.2))]
    between = close_stack(11.0 + 13.0 - 0.3, some, ("a",), total, "mm")
    assert [g.value for g in between.sizes.values()] == pytest.approx([10.7, 13.0])

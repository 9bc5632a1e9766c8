"""What takes every ``holds`` back: people, no pressure, an old cylinder that nobody measured."""

from dataclasses import replace

import pytest

from drafting.checks.all import PEOPLE, UNSEEN, all_checks
from tests.checks.sample_numbers import by_code, duty, given, metal, numbers, steels

STRONG = steels(rod=metal("cylinder.rod_material", 900.0))
SEEN = {"cylinder.wall": given("cylinder.wall", 7.5, "measured")}
DRAWN = {
    "cylinder.barrel_outside": None,
    "cylinder.wall": given("cylinder.wall", 7.5, "derived"),
    "cylinder.base_weld": None,
}


def checks(n):
    return by_code(all_checks(n))


def with_sizes(n, **sizes):
    return replace(n, sizes={k: v for k, v in {**n.sizes, **sizes}.items() if v is not None})


def reasons(n, code="rod-along"):
    return [d.words for d in checks(n)[code].depends_on]


def test_nothing_is_taken_back_of_a_new_cylinder():
    assert checks(numbers(steels=STRONG))["rod-along"].verdict == "holds"


def test_people():
    n = duty(numbers(steels=STRONG), lifts_people=True)
    before, after = checks(numbers(steels=STRONG)), checks(n)
    assert "holds" not in {k.verdict for k in after.values()}
    assert reasons(n) == [PEOPLE]
    for code, k in before.items():
        if k.verdict in ("fails", None):
            assert after[code] == k
        elif k.verdict != "holds":
            assert after[code].verdict == k.verdict
            assert after[code].depends_on[-1].words == PEOPLE


def test_no_pressure():
    n = numbers(steels=STRONG, working_pressure=None)
    assert checks(n)["rod-along"].verdict == "depends"
    assert reasons(n) == ["no pressure is typed"]


@pytest.mark.parametrize(
    ("construction", "sizes", "unseen"),
    [
        ("welded", {**SEEN, "cylinder.base_weld": given("cylinder.base_weld", 12.0)}, []),
        ("welded", SEEN | {"cylinder.base_weld": None}, ["base weld"]),
        ("welded", SEEN | {"cylinder.base_weld": None,
                           "cylinder.base_groove": given("cylinder.base_groove", 9.0)}, []),
        ("welded", DRAWN, ["barrel outside", "base weld"]),
        ("welded", {"cylinder.wall": None, "cylinder.barrel_outside":
                    given("cylinder.barrel_outside", 95.0, "measured")}, []),
        ("tie rod", DRAWN, ["barrel outside"]),
        ("tie rod", SEEN | {"cylinder.base_weld": None}, []),
    ],
)  # fmt: skip
def test_an_old_one(construction, sizes, unseen):
    n = with_sizes(numbers(steels=STRONG, construction=construction), **sizes)
    old = replace(n, old=True)
    assert reasons(old) == [UNSEEN.format(what) for what in unseen]
    assert checks(old)["rod-along"].verdict == ("depends" if unseen else "holds")
    assert checks(n)["rod-along"].verdict == "holds"

"""No size, piece, dimension, mark or finding of a kept cylinder changes unseen."""

from __future__ import annotations

import json
import re

import pytest

from tests.model.kept_cylinders import PLAUSIBLE, different, kept, kept_cases, rules

NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e[+-]\d+)?")
CLOSE_MM = 2e-3


def same(a: str | None, b: str | None) -> bool:
    """Tell whether two facts say the same: words equal, numbers as near as they are written."""
    if a is None or b is None:
        return a is b
    numbers = [[float(x) for x in NUMBER.findall(t)] for t in (a, b)]
    return NUMBER.sub("#", a) == NUMBER.sub("#", b) and numbers[0] == pytest.approx(
        numbers[1], abs=CLOSE_MM, rel=1e-5
    )


@pytest.mark.parametrize("case", kept_cases(), ids=lambda c: c.name)
def test_a_cylinder_is_as_it_was_kept(case):
    now, then = different(case), kept(case.name.partition(":")[0]).get(case.name, {})
    changed = {
        name: {"was": then.get(name, "not there"), "is": now.get(name, "not there")}
        for name in {**then, **now}
        if (name in now) != (name in then) or not same(now.get(name), then.get(name))
    }
    assert not changed, "if this is meant: python -m tests.model.kept_cylinders --write"


def test_what_is_held_plausible_is_as_it_was_kept():
    assert rules() == json.loads(PLAUSIBLE.read_text("utf-8"))


def test_a_number_that_moved_is_seen():
    assert same("12.5 at (3, 0)", "12.5004 at (3, 0)")
    assert not same("12.5 at (3, 0)", "12.51 at (3, 0)")
    assert not same("12.5 at (3, 0)", "12.5 from (3, 0)")
    assert not same(None, "12.5")

"""What the data sheet says of a rule is true of the number beside it.

The check is arithmetic on the sizes themselves: "0.9 of bore" stands beside 0.9 times the bore,
rounded to what one would choose; what gave way or took what was left says that instead.
"""

from __future__ import annotations

import re
from dataclasses import replace
from random import Random

import pytest

from drafting.errors import Refused
from drafting.model.load import checked, load
from drafting.told.data import data_of
from drafting.told.drawn_by_rule import drawn_by_rule
from tests.whole_specs import spec

SHARE = re.compile(r"(?:wall )?([0-9.]+|1/4) of (?:the )?(bore|hole|bushing|gland|rod|pin)")
ROUNDING_MM, ROUNDING = 6.5, 0.12
"""Sizes are rounded to what one would choose: a quarter inch and an eighth of them at the most."""

LONG = """
title = "Long"
units = "in"
[cylinder]
bore = 3
rod = 1.5
stroke = 12
retracted = 60
{typed}
[body_mount]
mount = "clevis"
pin = 1
[rod_mount]
mount = "cross tube"
pin = 1
width = 2
"""


def reference(cylinder, name, word):
    table = name.partition(".")[0]
    own = {w: f"{table}.{w}" for w in ("hole", "bushing", "pin")}
    own["gland"] = "cylinder.gland_length"
    value = cylinder.value(own.get(word, f"cylinder.{word}"))
    return None if value is None else float(value.value)


def untrue(cylinder, rows):
    """Give the rows whose share is not that of their size, and how many have a share."""
    wrong, seen = [], 0
    for row in rows:
        said = SHARE.fullmatch(row.reason)
        if not said:
            continue
        share = 0.25 if said[1] == "1/4" else float(said[1])
        for name in row.names:
            whole, size = reference(cylinder, name, said[2]), cylinder.value(name)
            if whole is None or size is None:
                continue
            seen += 1
            found = float(size.value)
            if row.reason.startswith("wall"):
                found = (found - whole) / 2
            if abs(found - share * whole) > max(ROUNDING_MM, ROUNDING * share * whole):
                wrong.append(f"{name} = {size.value}: {row.reason}, {said[2]} {whole}")
    return wrong, seen


@pytest.mark.parametrize("start", range(0, 60, 20))
def test_a_share_is_that_of_the_size_beside_it(start):
    shares = 0
    for seed in range(start, start + 20):
        try:
            c = load(checked(spec(Random(seed)).encode(), "lot.toml"))
        except Refused:
            continue
        wrong, seen = untrue(c, drawn_by_rule(c, "mm", 0, ()))
        assert wrong == []
        assert [r for r in data_of(c, "mm", 0).ruled if not r.reason] == []
        shares += seen
    assert shares > 20


def test_the_rule_can_fail():
    c = load(checked(LONG.format(typed="").encode()))
    rows = drawn_by_rule(c, "in", 16, ())
    (row,) = (r for r in rows if "cylinder.piston_length" in r.names)
    assert untrue(c, [replace(row, reason="0.1 of bore")])[0]


@pytest.mark.parametrize(
    ("typed", "taken"),
    [
        ("", "cylinder.rod_stick_out"),
        ("rod_stick_out = 1", "cylinder.gland_length"),
        ("rod_stick_out = 1\ngland_length = 3", "cylinder.piston_length"),
    ],
)
def test_what_takes_what_is_left_says_so_and_no_share(typed, taken):
    """60 in closed with 12 in of stroke leave some 30 in over; no share of a 3 in bore is that."""
    c = load(checked(LONG.format(typed=typed).encode()))
    long = [v.name for v in c.values if v.unit == "mm" and v.origin == "derived" and v.value > 500]
    rows = {n: r.reason for r in drawn_by_rule(c, "in", 16, ()) for n in r.names}
    told = [n for n in long if rows.get(n) == "what is left"]
    assert told == [taken]
    assert not any(SHARE.fullmatch(rows.get(n, "")) for n in long)


def test_what_gave_way_says_so():
    """30 in closed with 20.5 of stroke is tight: what was to be longer gave way."""
    tight = LONG.format(typed="").replace("retracted = 60", "retracted = 30")
    c = load(checked(tight.replace("stroke = 12", "stroke = 21.5").encode()))
    rows = {n: r.reason for r in drawn_by_rule(c, "in", 16, ()) for n in r.names}
    gave = [v.name for v in c.values if "gave way" in v.why]
    assert gave
    assert {rows[n] for n in gave if n in rows} == {"gave way to fit"}


@pytest.mark.parametrize(("bore", "said"), [(0.75, "half of least gland"), (4, "1/4 of gland")])
def test_a_gland_that_shows_less_than_a_quarter_says_of_what(bore, said):
    """A 3/4 in bore has a gland of at least .45 in: no more than half of that may show."""
    short = LONG.format(typed='gland = "cap"\ngland_outside = 6').replace(
        "bore = 3", f"bore = {bore}"
    )
    c = load(checked(short.replace("rod = 1.5", f"rod = {bore / 2}").encode()))
    (row,) = (r for r in drawn_by_rule(c, "in", 16, ()) if "cylinder.gland_projection" in r.names)
    assert row.reason == said


@pytest.mark.parametrize(
    ("outside", "said"),
    [(19.5, "widest that fits"), (19.8, "widest that fits"), (21.0, "spotface")],
)
def test_a_boss_as_wide_as_its_barrel_lets_it_says_so(outside, said):
    """A boss narrower than the thread's spotface stood there without a reason."""
    text = LONG.replace('"in"', '"mm"').replace("bore = 3\nrod = 1.5", "bore = 15\nrod = 8")
    text = text.replace("12\nretracted = 60", "120\nretracted = 400").replace("pin = 1", "pin = 8")
    ports = "".join(f'[{e}_port]\nthread = "G 1/8"\nclock = "2:00"\n' for e in ("base", "rod"))
    typed = f'clock_seen_from = "rod"\nbarrel_outside = {outside}'
    typed = text.format(typed=typed).replace("width = 2", "width = 12") + ports
    rows = drawn_by_rule(load(checked(typed.encode())), "mm", 0, ())
    assert {r.reason for r in rows if "base_port.boss" in r.names} == {said}

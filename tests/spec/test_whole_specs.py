"""Random files of the whole format: legal, and no field of the format is never drawn.

Source: the format's own tables of fields. Which files are drawn starts from a fixed point in the
gate and elsewhere each week in the wide run (``tests/conftest.py``).
"""

from collections import Counter
from functools import cache
from random import Random

from hypothesis import HealthCheck, given, settings

from drafting.errors import Refused
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from drafting.spec.fields import TABLES
from tests.whole_spec_fields import fields, histogram, said
from tests.whole_specs import SPACE, spec, whole_specs

MANY = 1500
NOT_AT_RODS = ("shoulders", "position", "seat_height", "clock")
NEVER = {
    **{f"rod_mount.{n}": "no mount at the rod end takes it" for n in NOT_AT_RODS},
    **{f"rod_mount.tolerance.{n}": "its size is not at the rod end" for n in NOT_AT_RODS},
    "drawing.logo": "an outline, drawn by the tests of the title block",
    "drawing.logo.viewbox": "part of the logo",
    "drawing.logo.path": "part of the logo",
}
"""What is left out, and why."""
SMALL_SHEETS = {"A4", "A3", "A2", "A", "B", "C"}
"""A cylinder by lot may be too long for them."""


@cache
def values():
    """Give each field that is drawn with its values."""
    found: dict[str, Counter[str]] = {}
    for seed in range(MANY):
        for name, value in said(spec(Random(seed))):
            found.setdefault(name, Counter())[str(value)] += 1
    return found


def faults(text):
    try:
        load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml"))
    except Refused as refused:
        return {f.code for f in refused.faults}
    return set()


@settings(deadline=None, suppress_health_check=list(HealthCheck))
@given(whole_specs())
def test_a_file_is_refused_for_want_of_room_alone(text):
    assert faults(text) <= SPACE


def test_hardly_any_file_is_refused():
    refused = [seed for seed in range(300) if faults(spec(Random(seed)))]
    assert len(refused) <= 12


def test_no_field_is_never_drawn():
    drawn = set(values())
    known = set(fields())
    assert sorted(known - drawn) == sorted(n for n in NEVER if n in known)
    assert not drawn - known


def test_every_word_is_drawn_and_values_spread():
    found = values()
    for table in TABLES.values():
        for field in table.fields:
            name = f"{table.name}.{field.name}".lstrip(".")
            if field.kind == "word" and name not in NEVER:
                left = set(field.choices) - set(found[name])
                assert left <= SMALL_SHEETS if name == "drawing.sheet" else not left, name
    for name in ("cylinder.bore", "cylinder.stroke", "body_mount.pin", "rod_mount.width"):
        kinds = found[name]
        assert len(kinds) > 20, name
        for mark in (" in", " mm"):
            assert any(v.endswith(mark) for v in kinds), (name, mark)
    ways = " ".join(found["base_port.clock"])
    assert all(mark in ways for mark in (":30", ":00", " deg"))
    assert {str(h) for h in (3, 6, 9, 12)} <= set(found["base_port.clock"])
    whole = " ".join(found["cylinder.base_thickness"])
    assert all(mark in whole for mark in ("/16", '"', " ft ", "-"))
    assert {"rod", "base"} <= set(found["cylinder.clock_seen_from"])


def test_the_histogram_tells_every_field():
    lines = histogram(20).splitlines()
    assert len(lines) >= len(list(fields()))
    bores = next(line for line in lines if " cylinder.bore:" in line)
    assert bores.split()[0] == "20"

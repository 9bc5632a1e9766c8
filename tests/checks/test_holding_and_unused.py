"""A load that can fall is warned of, always; a field typed for nothing is named, and no other.

That a plugged or shut port holds no load is the trade's (ISO 4413: a valve on the cylinder).
"""

from dataclasses import replace
from pathlib import Path

import pytest

from drafting.checks.cautions import CAN_FALL
from drafting.checks.of_cylinder import judge
from drafting.checks.unused import UNUSED, unused
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load, read
from drafting.spec.check import read_spec
from drafting.spec.given import Given

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.toml"))
SPEC = """
title = "Hay lift"
units = "mm"
[cylinder]
bore = 63
rod = 36
stroke = 300
retracted = 560
barrel_outside = 75
working_pressure = "160 bar"
{cylinder}
[body_mount]
mount = "pin eye"
pin = 30
width = 40
{body}
[rod_mount]
mount = "pin eye"
pin = 30
width = 40
[duty]
{duty}
"""


def judged(cylinder="", body="", duty=""):
    text = SPEC.format(cylinder=cylinder, body=body, duty=duty)
    return judge(load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml")))


def warned(duty):
    j = judged(duty=duty)
    found = [f for f in j.findings if f.code == "load-can-fall"]
    assert all(f.level == "warning" for f in found)
    assert all("no holding valve" in f.message for f in found)
    assert not found or CAN_FALL in j.cautions.texts
    return bool(found)


@pytest.mark.parametrize(
    ("duty", "falls"),
    [
        ('orientation = "vertical"', True),
        ('orientation = "inclined"', True),
        ("angle = -90", True),
        ("angle = 5", True),
        ('mass = "900 kg"', True),
        ("angle = 0", False),
        ('orientation = "horizontal"', False),
        ('orientation = "horizontal"\nmass = "900 kg"', False),
        ('push = "10 kN"', False),
    ],
)
def test_a_load_that_can_fall_always_brings_the_warning(duty, falls):
    assert warned(duty) is falls


def names(j):
    return {f.field for f in j.findings if f.code == UNUSED}


def test_a_field_that_changes_nothing_is_named():
    """A strength of tie rods says nothing of a welded cylinder, which has none."""
    assert names(judged(cylinder='tie_rod_preload = "40 kN"')) == {"cylinder.tie_rod_preload"}


def test_a_field_that_a_check_a_question_or_the_sheet_uses_is_not():
    cylinder = 'pin_material = "1045"\nfluid = "water glycol"\nseals = "FKM"\ngland = "threaded"'
    duty = 'push = "20 kN"\nsafety_factor = 3\nflow = "20 L/min"\nload_guided = true'
    assert names(judged(cylinder, "held = true", duty)) == set()


@pytest.mark.parametrize("path", SPECS, ids=lambda p: p.stem)
def test_no_sample_types_anything_for_nothing(path):
    assert names(judge(load(read(str(path))))) == set()


def test_what_is_said_decides():
    c = load(read(str(SPECS[-1])))
    named = {f.field for f in unused(c, lambda _: "always the same")}
    assert named <= set(c.spec.givens)
    assert list(unused(c, lambda other: sorted(other.spec.givens))) == []


def test_what_a_shop_file_says_for_nothing_is_no_slip_of_the_specs_writer():
    c = load(read_spec(SPEC.format(cylinder="", body="", duty="").encode(),
                       mounts=mounts_by_end(), file="trial.toml"))  # fmt: skip
    typed = Given("cylinder.tie_rod_preload", 40_000.0, "N", "40 kN", 3, 1)

    def said(given):
        spec = replace(c.spec, givens={**c.spec.givens, given.name: given})
        return [f.field for f in unused(replace(c, spec=spec), lambda _: "the same")]

    assert typed.name in said(typed)
    assert typed.name not in said(replace(typed, file="drafting-shop.toml"))
    assert "duty.lifts_people" not in said(replace(typed, name="duty.lifts_people", value=False))
    assert "drawing.scale" not in said(replace(typed, name="drawing.scale", value=2.0))
    assert "duty.friction" in said(replace(typed, name="duty.friction", value=0.2))
    assert "cylinder.tolerance.bore" not in said(replace(typed, name="cylinder.tolerance.bore"))
    assert not {"cylinder.bore", "body_mount.pin"} & set(said(typed))

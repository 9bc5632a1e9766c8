"""What a check names to type turns it into a verdict, and no check names nothing.

Random files of the whole format and the samples: the words on the first screen must be true.
"""

from dataclasses import replace
from pathlib import Path
from random import Random

import pytest

from drafting.checks.all import PEOPLE, UNSEEN
from drafting.checks.check import Check
from drafting.checks.of_cylinder import judge
from drafting.errors import Refused
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load, read
from drafting.spec.check import read_spec
from drafting.spec.field import Field
from drafting.spec.fields import TABLES
from drafting.spec.given import Given
from tests.whole_specs import spec

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.toml"))


def field_of(name: str) -> Field | None:
    table, *inner = name.split(".")
    found = TABLES[table].field(inner[0])
    for word in inner[1:]:
        found = next((f for f in found.fields if f.name == word), None) if found else None
    return found


THREADS = ("thread", "tie_rod")
SIZES = {"body_mount.bolts.hole", "rod_mount.bolts.hole", "cylinder.gland_engaged"}
"""Sizes of what nobody named yet: they are asked for with the word."""
NOBODY_SAID = {
    PEOPLE,
    "no pressure is typed",
    *(UNSEEN.format(what) for what in ("barrel outside", "base weld")),
}
"""What takes every ``holds`` back until a person says it; no value of it can be named."""


def cylinders():
    yield from (load(read(str(path))) for path in SPECS)
    for seed in range(45):
        try:
            text = spec(Random(seed)).encode()
            yield load(read_spec(text, mounts=mounts_by_end(), file=f"{seed}.toml"))
        except Refused:
            continue


CYLINDERS = list(cylinders())
_JUDGED: dict[str, tuple[Check, ...]] = {}


def first(c):
    """The checks of a cylinder, judged once."""
    if c.spec.file not in _JUDGED:
        _JUDGED[c.spec.file] = judge(c).checks
    return _JUDGED[c.spec.file]


@pytest.mark.parametrize("c", CYLINDERS, ids=lambda c: c.spec.file)
def test_no_check_without_a_verdict_is_without_a_field_to_type(c):
    for check in first(c):
        assert check.verdict in (None, "holds", "depends", "fails", "not known")
        if check.verdict in ("depends", "not known"):
            assert check.depends_on, check.code
            words = {d.field for d in check.depends_on if d.words.endswith(": not typed")}
            for d in check.depends_on:
                field = field_of(d.field)
                assert field, f"{check.code}: {d.field} is no field"
                assert d.words
                assert "inf" not in check.note
                only_a_person_knows = check.verdict == "not known" and words
                if d.would_do is None and d.words not in NOBODY_SAID and not only_a_person_knows:
                    raise AssertionError(f"{check.code}: {d.field} without a value: {d.words}")
            assert all(field_of(f).choices or f.endswith(THREADS) for f in words if f not in SIZES)
        if check.verdict == "holds":
            assert check.depends_on == ()
            assert check.factor_from >= check.asked * (1 - 1e-9)


def typed(c, name, value):
    """The cylinder as if a steel or a yes had been typed; sizes would move the drawing."""
    given = Given(name, value, "", str(value), 1, 1)
    return replace(c, spec=replace(c.spec, givens={**c.spec.givens, name: given}))


@pytest.mark.parametrize("c", CYLINDERS, ids=lambda c: c.spec.file)
def test_a_steel_that_would_do_does(c):
    """One steel alone decides: typed as its yield, a little stronger, the check holds."""
    for check in first(c):
        if check.verdict != "depends" or len(check.depends_on) != 1:
            continue
        (d,) = check.depends_on
        if not d.field.endswith("_material") or not isinstance(d.would_do, float):
            continue
        again = judge(typed(c, d.field, f"{d.would_do * 1.001:.6f} MPa")).checks
        assert next(k.verdict for k in again if k.code == check.code) == "holds", check.code
        weaker = judge(typed(c, d.field, f"{d.would_do * 0.99:.6f} MPa")).checks
        assert next(k.verdict for k in weaker if k.code == check.code) != "holds", check.code


@pytest.mark.parametrize("c", CYLINDERS, ids=lambda c: c.spec.file)
def test_a_factor_or_a_word_that_would_do_does(c):
    for check in first(c):
        if check.verdict != "depends" or len(check.depends_on) != 1:
            continue
        (d,) = check.depends_on
        if d.field == "duty.safety_factor":
            value = d.would_do
        elif d.field in ("duty.rod_side", "duty.load_guided", "body_mount.held") and d.would_do:
            value = True if d.would_do == "true" else d.would_do
        else:
            continue
        again = {k.code: k for k in judge(typed(c, d.field, value)).checks}
        assert check.code not in again or again[check.code].verdict == "holds", check.code


@pytest.mark.parametrize("c", CYLINDERS, ids=lambda c: c.spec.file)
def test_stronger_steel_never_weakens(c):
    found = {k.code: k for k in first(c) if k.verdict}
    pin = typed(c, "cylinder.pin_material", "900 MPa")
    steel = judge(typed(pin, "cylinder.rod_material", "900 MPa")).checks
    for code, k in {k.code: k for k in steel if k.verdict}.items():
        if found[code].factor_from is not None and k.factor_from is not None:
            assert k.factor_from >= found[code].factor_from * (1 - 1e-9), code

"""The JSON Schema against the jsonschema package: what the tool accepts, the schema accepts."""

import datetime
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from drafting.errors import Refused
from drafting.spec.check import read_spec
from drafting.spec.fields import TABLES
from drafting.spec.schema import json_schema

TESTS = Path(__file__).parent.parent
SPECS = sorted((TESTS.parent / "specs").glob("*.toml"))
WRONG = TESTS / "wrong_specs"
SEEN = (
    "unknown_field",
    "capital_field",
    "field_in_wrong_table",
    "unknown_table",
    "unknown_word",
    "missing_fields",
    "missing_tables",
    "missing_units",
    "wrong_units",
    "one_length",
    "zero_and_negative",
    "bare_pressure",
    "clock_beyond_12",
    "field_of_another_mount",
    "no_mount_has_fields",
    "single_brackets",
    "table_as_number",
    "wrong_kinds",
    "plate_and_bolts",
    "bolts_without_place",
)
"""Wrong specs whose fault an editor shows by the schema alone."""


def plain(value):
    """Dates as text, as editors hand them to a schema."""
    if isinstance(value, dict):
        return {k: plain(v) for k, v in value.items()}
    if isinstance(value, list):
        return [plain(v) for v in value]
    return value.isoformat() if isinstance(value, datetime.date | datetime.time) else value


@pytest.fixture(scope="module")
def validator(mounts) -> Draft202012Validator:
    schema = json_schema(mounts)
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.fixture(scope="module")
def open_validator() -> Draft202012Validator:
    """A schema without any mount of its own, so that every field may stand."""
    return Draft202012Validator(json_schema({}))


@pytest.mark.parametrize("path", SPECS, ids=lambda p: p.stem)
def test_the_samples_pass(path: Path, open_validator) -> None:
    errors = list(open_validator.iter_errors(plain(tomllib.loads(path.read_text()))))
    assert not errors


@pytest.mark.parametrize("name", SEEN)
def test_wrong_specs_are_seen(name: str, validator) -> None:
    assert not validator.is_valid(plain(tomllib.loads((WRONG / f"{name}.toml").read_text())))


def test_the_base_of_the_wrong_specs_passes(validator, mounts) -> None:
    text = (WRONG / "missing_units.toml").read_text()
    good = text.replace('title = "Mill gate"\n', 'title = "Mill gate"\nunits = "in"\n')
    read_spec(good.encode(), mounts=mounts)
    assert validator.is_valid(tomllib.loads(good))


SIZES = ("3", "3.5", '"3 1/2"', "'3 1/2\"'", '"½ in"', '"2 ft 3 in"', '"88.9 mm"', "'''2'-3\"'''")
OTHERS = (
    ("base_port.clock", ("12", '"1:30"', '"12:00"', '"45 deg"', '"22.5°"')),
    ("cylinder.working_pressure", ('"2500 psi"', '"17.2 MPa"', '"172bar"', '"1 1/2 ksi"')),
    ("cylinder.temperature", ('"-20 °C"', '"180 degF"')),
    ("rod_mount.turned", ("90", "-35.5", '"90 deg"')),
    ("drawing.scale", ('"auto"', '"1:4"', '"2 : 1"')),
    ("drawing.date", ('"2026-11-25"', "2026-11-25")),
)


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        *(("cylinder.stroke", s) for s in SIZES),
        *(("base_port.position", s) for s in ("-3", '"-3 1/2"')),
        *((name, typed) for name, many in OTHERS for typed in many),
    ],
)
def test_what_is_read_is_accepted(name: str, typed: str, validator, mounts) -> None:
    table, _, field = name.partition(".")
    text = (WRONG / "rod_thicker_than_bore.toml").read_text().replace("rod = 3", "rod = 1.5")
    lines = [line for line in text.splitlines() if not line.startswith(f"{field} =")]
    if f"[{table}]" not in lines:
        lines.append(f"[{table}]")
    lines.insert(lines.index(f"[{table}]") + 1, f"{field} = {typed}")
    text = "\n".join(lines)
    try:
        read_spec(text.encode(), mounts=mounts)
    except Refused as refused:
        pytest.fail(str(refused))
    assert validator.is_valid(plain(tomllib.loads(text)))


def test_every_field_is_described_with_an_example(open_validator) -> None:
    properties = open_validator.schema["properties"]
    for name, table in TABLES.items():
        inner = properties[name] if name else open_validator.schema
        inner = inner.get("items", inner)
        for field in table.fields:
            shown = inner["properties"][field.name]
            assert shown["description"]
            one = Draft202012Validator(shown)
            assert shown["examples"]
            assert all(one.is_valid(example) for example in shown["examples"]), field.name

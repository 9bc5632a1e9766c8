"""read(write(x)) == x, to the last digit, for random values of every field.

What is read back goes through the standard library's TOML reader and the same checks as a file.
"""

from math import ulp

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.spec.check import read_spec
from drafting.spec.field import Field
from drafting.spec.fields import TABLES
from drafting.spec.mount_fields import MOUNT_FIELDS, Taken
from drafting.spec.write import quote, write_spec
from drafting.units import read_quantity

TOLERANCES = st.sampled_from(["±0.5", "+0.002 -0 in", "H8", "js6"])
TEXT = st.text(
    st.characters(exclude_categories=("C",), exclude_characters="\ue000"), min_size=1, max_size=40
).filter(lambda s: s == s.strip() != "")
INCHES = st.builds(lambda n, d: n / d * 25.4, st.integers(1, 350), st.sampled_from([1, 16, 64]))
SIZES = INCHES | st.floats(0.3, 9000.0)
EVERYTHING = {
    f"{end}_mount": {word: Taken(tuple(MOUNT_FIELDS)) for word in ("clevis", "hook")}
    for end in ("body", "rod")
}


def values_of(field: Field) -> st.SearchStrategy:
    pair = st.tuples(SIZES, SIZES)
    low = field.least if field.least is not None else 0.01
    widest = field.most if field.kind == "angle" and field.most else 360.0
    kinds = {
        "length": SIZES | SIZES.map(lambda x: -x) if field.signed else SIZES,
        "angle": st.floats(0.01, widest) | st.integers(0, int(widest)).map(float),
        "temperature": st.floats(-50.0, 200.0).map(lambda x: round(x, 6)),
        "word": st.sampled_from(field.choices or ("clevis", "hook")),
        "text": TEXT,
        "thread": TEXT,
        "texts": st.lists(TEXT, max_size=3).map(tuple),
        "flag": st.booleans(),
        "count": st.integers(int(low), 60),
        "number": st.floats(max(low, 0.0), 90.0 if field.most is None else min(field.most, 90.0)),
        "clock": st.integers(0, 719).map(lambda n: n / 2) | st.floats(0.001, 359.9),
        "tolerance": TOLERANCES,
        "date": st.dates().map(lambda d: d.isoformat()),
        "scale": st.sampled_from(["auto", "1:4", "2:1", "1:2.5"]),
        "pair": pair,
        "pair or length": pair | SIZES,
        "word or length": st.sampled_from(field.choices or ("x",)) | SIZES,
    }
    if field.among:
        return st.sampled_from(field.among)
    if field.name == "field":  # an origin is told of a value that is there
        return st.just("cylinder.bore")
    return kinds.get(field.kind, st.floats(0.01, 500.0))


FIELDS = [
    (table, prefix, field)
    for table in TABLES.values()
    for prefix, fields in [
        ("", table.fields),
        *((f"{f.name}.", f.fields) for f in table.fields if f.name == "bolts"),
    ]
    for field in fields
    if field.kind != "table"
]
LEAST = {
    "title": "t",
    "units": "in",
    "cylinder.bore": 99000.0,
    "cylinder.rod": 40.0,
    "cylinder.stroke": 300.0,
    "cylinder.retracted": 600.0,
    "body_mount.mount": "clevis",
    "rod_mount.mount": "clevis",
}
BOLTS = {"bolts.count": 4, "bolts.hole": 0.01, "bolts.circle": 9501.0}
BESIDE = {
    "cylinder.return": {"cylinder.action": "push"},
    "cylinder.spring_space": {"cylinder.action": "push", "cylinder.return": "spring"},
    "cylinder.spring_force": {"cylinder.action": "push", "cylinder.return": "spring"},
    "cylinder.piston": {"cylinder.action": "push"},
    "cylinder.gland": {"cylinder.construction": "tie rod"},
    "cylinder.square": {"cylinder.construction": "tie rod"},
    "cylinder.tie_rod": {"cylinder.construction": "tie rod"},
    "cylinder.cap_turned": {"cylinder.construction": "tie rod"},
    "cylinder.barrel_outside": {"cylinder.bore": 0.2, "cylinder.rod": 0.1},
    "cylinder.bore": {"cylinder.rod": 0.1},
    "cylinder.stroke": {"cylinder.retracted": 600.0},
    "cylinder.extended": {"cylinder.retracted": 0.001, "cylinder.stroke": None},
}
"""What a field needs beside it, so that the file makes sense."""


@pytest.mark.parametrize(
    ("table", "prefix", "field"),
    FIELDS,
    ids=[f"{t.name}.{p}{f.name}" for t, p, f in FIELDS],
)
@settings(deadline=None, max_examples=15)
@given(data=st.data(), units=st.sampled_from(["in", "mm"]))
def test_every_field_reads_back(table, prefix: str, field: Field, data, units: str) -> None:
    home = f"{table.name}[1]" if table.many else table.name
    name = f"{home}.{prefix}{field.name}" if home else field.name
    needed = {f.name: data.draw(values_of(f)) for f in table.fields if f.required and table.many}
    if table.name.endswith("_port"):
        needed["thread"] = "SAE-8"
    if field.name == "outlet_position":
        needed["facing"] = "base"
    if prefix:
        needed |= BOLTS
        if field.name == "pitch":
            del needed["bolts.circle"]
    values = LEAST | {f"{home}.{k}": v for k, v in needed.items()} | {"units": units}
    values |= BESIDE.get(name, {})
    values[name] = data.draw(values_of(field))
    values = {k: v for k, v in values.items() if v is not None}
    read_back(values)


@pytest.mark.parametrize("table", [t for t in TABLES.values() if t.field("tolerance")])
@settings(deadline=None, max_examples=15)
@given(data=st.data())
def test_tolerances_read_back(table, data) -> None:
    """A tolerance stands beside its size; the reference length takes none."""
    fields = {f.name: f for f in table.field("tolerance").fields}
    word = data.draw(st.sampled_from(sorted(fields.keys() - {"extended"})))
    home = f"{table.name}[1]" if table.many else table.name
    values = LEAST | {"units": "mm"} | BESIDE.get(f"{table.name}.{word}", {})
    if table.name.endswith("_port"):
        values |= {f"{home}.thread": "SAE-8", f"{home}.facing": "base"}
    if table.many:
        values[f"{home}.end"] = "base"
    values.setdefault(f"{home}.{word}", data.draw(st.floats(2.0, 900.0)))
    values[f"{home}.tolerance.{word}"] = data.draw(TOLERANCES)
    read_back(values)


def read_back(values: dict) -> None:
    text = write_spec(values)
    spec = read_spec(text.encode(), mounts=EVERYTHING)
    found = {g.name: g.value for g in spec.givens.values()}
    assert found == values
    assert write_spec(found) == text


def test_a_whole_spec_reads_back() -> None:
    """Every field of every table at once, each with its example, in both units."""
    lines = ["units = 'UNITS'"]
    for table in TABLES.values():
        lines += [f"[[{table.name}]]" if table.many else f"[{table.name}]"] if table.name else []
        lines += [f"{f.name} = {f.example}" for f in table.fields if f.name != "units"]
    text = "\n".join(lines)
    for old, new in (
        ('"welded"', '"tie rod"'),
        ('"double"', '"push"'),
        ('"load"', '"spring"'),
        ('facing = "out"', 'facing = "base"'),
        ("pitch = [4.5, 4.5]", ""),
        ("bushing = 1.5", "bushing = 1.75"),
        ("shoulders = 5.0", "shoulders = 2.5"),
    ):
        text = text.replace(old, new)
    for units in ("in", "mm"):
        spec = read_spec(text.replace("UNITS", units).encode(), mounts=EVERYTHING)
        assert len(spec.givens) > 120
        read_back({g.name: g.value for g in spec.givens.values()})


def test_the_text_is_what_a_person_would_type() -> None:
    text = write_spec(
        {
            "title": 'The "old" gate',
            "units": "in",
            "cylinder.bore": 88.9,
            "cylinder.rod": 45.0,
            "cylinder.stroke": 406.4,
            "cylinder.stop_tube": 32.1564,
            "cylinder.working_pressure": float(read_quantity("2500 psi", "pressure")),
            "base_port.clock": 45.0,
            "body_mount.bolts.count": 4,
            "body_mount.bolts.circle": 165.1,
        }
    )
    assert text == (
        'title = \'The "old" gate\'\nunits = "in"\n\n'
        '[cylinder]\nbore = "3 1/2"\nrod = "45 mm"\nstroke = 16\n'
        'stop_tube = 1.266\nworking_pressure = "2500 psi"\n\n'
        '[body_mount]\nbolts = {count = 4, circle = "6 1/2"}\n\n'
        '[base_port]\nclock = "1:30"\n'
    )


def test_a_name_without_a_field_is_refused() -> None:
    with pytest.raises(KeyError, match="boer"):
        write_spec({"units": "mm", "cylinder.boer": 1.0})


def test_quotes_within_text() -> None:
    assert quote("plain") == '"plain"'
    assert quote('3 1/2" pin') == "'3 1/2\" pin'"
    assert quote("it's 3\"") == '"it\'s 3\\""'


def test_neighbouring_floats_stay_apart() -> None:
    for value in (88.9, 88.9 + ulp(88.9), 88.9 - ulp(88.9)):
        for units in ("in", "mm"):
            read_back(LEAST | {"units": units, "cylinder.rod": value})

"""Words as people type them are taken and told; what has two readings is refused with both.

The variants are common practice: what drawings, orders and shops write for the things.
"""

from __future__ import annotations

import pytest

from drafting.errors import Refused
from drafting.model.catalog import mounts_by_end
from drafting.spec.check import read_spec
from tests.model.mount_specs import settled

HEAD = """
title = "Gate"
units = {units}
quantity = {quantity}
[cylinder]
bore = {bore}
rod = 1.5
stroke = 12
{closed} = 30
construction = {construction}
cushions = {cushions}
action = {action}
working_pressure = {pressure}
[body_mount]
mount = {body}
{position}
[rod_mount]
mount = {rod}
{pin}
[base_port]
thread = "SAE-8"
clock = {clock}
[drawing]
sheet = {sheet}
[duty]
push = {push}
"""
PLAIN = {
    "units": '"in"', "quantity": "1", "bore": "3", "closed": "retracted",
    "construction": '"welded"', "cushions": '"none"', "action": '"double"',
    "pressure": '"2500 psi"', "body": '"none"', "position": "", "rod": '"plain"', "pin": "",
    "clock": '"12:00"', "sheet": '"auto"', "push": '"9000 lbf"',
}  # fmt: skip
NAMES = {
    "units": "units", "quantity": "quantity", "bore": "cylinder.bore",
    "construction": "cylinder.construction", "cushions": "cylinder.cushions",
    "action": "cylinder.action", "pressure": "cylinder.working_pressure",
    "body": "body_mount.mount", "rod": "rod_mount.mount", "clock": "base_port.clock",
    "sheet": "drawing.sheet", "push": "duty.push",
}  # fmt: skip


@pytest.fixture(scope="module")
def mounts():
    return mounts_by_end()


def spec(mounts, **typed):
    if typed.get("body", "none").strip("'\"").casefold() in ("flange", "trunnion"):
        typed = {"position": 'position = "base"', **typed}
    text = HEAD.format(**{**PLAIN, **typed})
    return read_spec(text.encode(), mounts=mounts)


@pytest.mark.parametrize(
    ("field", "typed", "meant", "told"),
    [
        ("units", '"IN"', "in", False),
        ("units", '"inch"', "in", True),
        ("units", '"Inches"', "in", True),
        ("units", '"in."', "in", False),
        ("units", '"inch."', "in", True),
        ("quantity", '"2"', 2, False),
        ("bore", '"Ø3"', 76.2, False),
        ("bore", '"ø 3 in"', 76.2, False),
        ("bore", '"dia 3"', 76.2, False),
        ("bore", '"3 dia"', 76.2, False),
        ("bore", '"3 in dia."', 76.2, False),
        ("bore", '"76.2 mm Ø"', 76.2, False),
        ("construction", '"Welded"', "welded", False),
        ("construction", '"tie-rod"', "tie rod", False),
        ("construction", '"tie_rod"', "tie rod", False),
        ("construction", '"TIEROD"', "tie rod", False),
        ("cushions", '"Both ends"', "both", True),
        ("action", '"double-acting"', "double", True),
        ("pressure", '"2,500 psi"', 17.2368932329, True),
        ("body", '"Clevis"', "clevis", False),
        ("body", '"fork"', "clevis", True),
        ("body", '"yoke"', "clevis", True),
        ("body", '"ball"', "ball swivel", True),
        ("rod", '"stud"', "male thread", True),
        ("body", '"pin-eye"', "pin eye", False),
        ("body", '"Tang"', "pin eye", True),
        ("body", '"crosstube"', "cross tube", False),
        ("body", '"spherical bearing"', "ball swivel", True),
        ("body", '"Trunnion"', "trunnion", False),
        ("rod", '"Fork End"', "clevis", True),
        ("rod", '"MALE_THREAD"', "male thread", False),
        ("clock", '"12 o\'clock"', 0.0, False),
        ("clock", '"3 O\'Clock"', 90.0, False),
        ("clock", '"top"', 0.0, True),
        ("clock", '"Bottom"', 180.0, True),
        ("clock", '"up"', 0.0, True),
        ("sheet", '"a3"', "A3", False),
        ("sheet", '"Letter"', "A", True),
        ("sheet", '"Tabloid"', "B", True),
        ("sheet", '"11x17"', "B", True),
        ("push", '"9000 lb"', 40033.9943, True),
        ("push", '"9,000 lbs"', 40033.9943, True),
    ],
)
def test_what_people_type_is_taken(field, typed, meant, told, mounts) -> None:
    found = spec(mounts, **{field: typed}).get(NAMES[field])
    assert found is not None
    assert found.value == (pytest.approx(meant) if isinstance(meant, float) else meant)
    assert bool(found.understood) is told
    assert found.typed == typed.strip('"')


@pytest.mark.parametrize(
    ("field", "typed", "both"),
    [
        ("rod", '"threaded"', ("male thread", "female thread")),
        ("body", '"lug"', ("pin eye", "foot")),
        ("action", '"single acting"', ("push", "pull")),
        ("clock", '"left"', ("3 or 9 o'clock",)),
        ("pressure", '"2,500 bar"', ("2.500", "2500")),
        ("bore", '"3,500"', ("3.500", "3500")),
        ("push", '"9 tons"', ("2000 lbf", "2240 lbf", "1000 kgf")),
    ],
)
def test_two_readings_stay_refused_with_both(field, typed, both, mounts) -> None:
    with pytest.raises(Refused) as caught:
        spec(mounts, **{field: typed})
    message = next(f.message for f in caught.value.faults if f.field == NAMES[field])
    for words in both:
        assert words in message


def test_closed_and_open_are_the_two_lengths(mounts) -> None:
    found = spec(mounts, closed="closed")
    assert found.number("cylinder.retracted") == pytest.approx(762.0)
    found = spec(mounts, closed="open")
    assert found.number("cylinder.extended") == pytest.approx(762.0)
    with pytest.raises(Refused, match="typed-twice"):
        spec(mounts, closed="retracted = 30\nclosed")


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("rod_diameter = 2", "rod"),
        ("bore_dia = 2", "bore"),
        ("Wall_Thickness = 1", "wall"),
        ("stroke_length = 2", "stroke"),
        ("tube_od = 4", "barrel_outside"),
        ("pressure = 4", "working_pressure"),
        ("paint = 4", "finish"),
        ("travel = 2", "stroke"),
        ("collapsed = 2", "retracted"),
    ],
)
def test_a_hint_is_the_nearest_in_meaning(line, meant, mounts) -> None:
    with pytest.raises(Refused) as caught:
        spec(mounts, closed=f"{line}\nretracted")
    (message,) = (f.message for f in caught.value.faults if f.code == "unknown-field")
    assert message.endswith(f"did you mean {meant}?")


def test_a_hint_leads_to_another_table(mounts) -> None:
    for line, said in (
        ("pin_diameter = 1", "it belongs to [body_mount] or [rod_mount] and is called pin there"),
        ("push = 1", "it belongs to [duty]"),
    ):
        with pytest.raises(Refused) as caught:
            spec(mounts, closed=f"{line}\nretracted")
        (message,) = (f.message for f in caught.value.faults if f.code == "unknown-field")
        assert message.endswith(said)


def test_no_list_of_all_fields(mounts) -> None:
    with pytest.raises(Refused, match=r"known are: .* and [0-9]+ more"):
        spec(mounts, closed="qqqq = 2\nretracted")


def test_what_was_understood_is_a_note() -> None:
    text = HEAD.format(**{**PLAIN, "rod": '"fork"', "pin": "pin = 1", "push": '"9000 lb"'})
    notes = [
        (f.level, f.field, f.message) for f in settled(text).findings if f.code == "understood"
    ]
    assert ("note", "rod_mount.mount", '"fork" is taken as "clevis"') in notes
    assert ("note", "duty.push", '"9000 lb" is taken as pounds of force (lbf)') in notes

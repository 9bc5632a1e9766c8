"""Every mount that the folder holds, at each end that it fits, from its example and from nothing.

Words and datums are those of the spec format; lengths are worked by hand from the sizes typed.
"""

from __future__ import annotations

import pytest

from drafting.errors import Refused
from drafting.model.catalog import mounts_by_end
from drafting.model.load import checked, load
from drafting.settle.wishes import Radius
from drafting.shape.pieces import bounds
from drafting.shape.volume import volume
from drafting.spec.mount_fields import MOUNT_FIELDS
from drafting.spec.said import TWO_READINGS, key_of
from tests.model.mount_specs import (
    EVERY,
    INCH,
    at_end,
    example,
    in_mm,
    measured,
    on_tie_rods,
    spec_text,
)

every = pytest.mark.parametrize(("end", "word"), EVERY, ids=[f"{e} {w}" for e, w in EVERY])


def test_no_word_of_the_spec_format_is_lost():
    """Words are the contract with the files that people keep: more may come, none may go."""
    found = mounts_by_end()
    both = {"clevis", "cross tube", "pin eye", "ball swivel", "flange"}
    assert set(found["body_mount"]) >= both | {"trunnion", "foot", "none"}
    assert set(found["rod_mount"]) >= both | {"male thread", "female thread", "plain"}


@every
def test_takes_only_fields_that_the_spec_format_knows(end, word):
    assert set(mounts_by_end()[f"{end}_mount"][word].fields) <= set(MOUNT_FIELDS)


@pytest.mark.parametrize("end", ["body", "rod"])
def test_no_two_mounts_of_an_end_are_called_the_same(end):
    """What one mount is also called is no other one's name, and has no second reading."""
    said = [key_of(s) for word, taken in mounts_by_end()[f"{end}_mount"].items()
            for s in (word, *taken.also)]  # fmt: skip
    assert len(said) == len(set(said))
    assert not set(said) & set(TWO_READINGS["mount"])


@every
@pytest.mark.parametrize("units", ["in", "mm"])
def test_settles_from_its_example(end, word, units):
    c = at_end(end, word, example(end, word), units=units)
    s = c.stations
    assert c.mounts[end] == word
    assert s.rod_datum == pytest.approx(30 * INCH)
    assert c.lengths.extended - c.lengths.retracted == pytest.approx(16 * INCH)
    stack = [
        s.closed_end, s.oil_side, s.piston_back, s.piston_front, s.gland_inner, s.barrel_end,
        s.gland_face, s.rod_end,
    ]  # fmt: skip
    assert stack == sorted(stack)
    for part in c.parts:
        assert volume(part) > 0, part.name
    assert len({p.name for p in c.parts}) == len(c.parts)


@every
def test_inch_and_mm_files_give_the_same_metal(end, word):
    a, b = (at_end(end, word, example(end, word), units=u) for u in ("in", "mm"))
    typed = {v.name for v in a.values if v.origin == "given"}
    for v in a.values:
        if v.name in typed and isinstance(v.value, float):
            assert b.value(v.name).value == pytest.approx(v.value, abs=1e-6), v.name


@every
@pytest.mark.parametrize("typed", [True, False], ids=["example", "nothing typed"])
@pytest.mark.parametrize("units", ["in", "mm"])
def test_every_dimension_measures_the_value_that_it_names(end, word, typed, units):
    c = at_end(end, word, example(end, word) if typed else {}, units=units)
    values = {v.name: v.value for v in c.values}
    shown = 0
    for wish in c.wishes:
        assert wish.name in values, wish.name
        size = measured(wish)
        if size is None:
            continue
        if isinstance(wish, Radius):
            assert size == pytest.approx(wish.radius)
        shown += wish.name.startswith(f"{end}_mount")
        assert size == pytest.approx(abs(float(values[wish.name])), abs=1e-6), wish.name
    assert shown or word in ("none", "plain")


@every
def test_every_typed_size_is_dimensioned_or_called_out(end, word):
    sizes = example(end, word)
    c = at_end(end, word, sizes)
    names = {w.name for w in c.wishes}
    for key, value in sizes.items():
        name = f"{end}_mount.{key}"
        shown_by = {"pin": "hole", "thread_length": "shoulder"}.get(key)
        if f"{end}_mount.{shown_by}" in names or key == "clock":
            continue
        if key == "position" and isinstance(value, str):
            continue
        keys = [name]
        if isinstance(value, dict):
            keys = [f"{name}.{k}" for k in value if k in ("hole", "circle")]
        assert all(any(n == k or n.startswith(f"{k}.") for n in names) for k in keys), keys


@every
def test_what_meets_the_machine_is_to_be_confirmed_when_it_was_not_typed(end, word):
    c = at_end(end, word, {})
    asked = {f.field for f in c.findings if f.code == "to-confirm" and f.level == "warning"}
    for v in c.values:
        if v.interface and v.origin in ("derived", "table"):
            assert v.name in asked, v.name
        if v.origin in ("derived", "table"):
            assert v.why, v.name
            assert v.source, v.name


@every
def test_the_rod_takes_its_mount_along(end, word):
    c = at_end(end, word, example(end, word))
    own = [p for p in c.parts if p.owner == ("body" if end == "body" else "rod")]
    moved = {p.name: p for p in c.at(c.lengths.stroke)}
    for part in own:
        step = bounds(moved[part.name].pieces)[0][0] - bounds(part.pieces)[0][0]
        assert step == pytest.approx(0.0 if end == "body" else 16 * INCH)


@every
def test_the_rod_mount_turns_about_the_axis_only(end, word):
    if end == "body":
        return
    still, turned = (at_end(end, word, {**example(end, word), "turned": t}) for t in (0, 90))
    for a, b in zip(still.parts, turned.parts, strict=True):
        if a.owner == "rod":
            (lo, hi), (lo2, hi2) = bounds(a.pieces), bounds(b.pieces)
            assert (lo2[0], hi2[0]) == pytest.approx((lo[0], hi[0]))
            assert (hi2[1] - lo2[1], hi2[2] - lo2[2]) == pytest.approx(
                (hi[2] - lo[2], hi[1] - lo[1])
            )


IMPOSSIBLE = [
    ("body", "pin eye", {"pin": 1, "hole": 1, "outside": 0.9}, "no-metal-round-pin"),
    ("body", "pin eye", {"pin": 1, "hole": 1, "outside": 2, "nose": 0.8}, "nose-inside-eye"),
    ("body", "pin eye", {"pin": 1, "hole": 1, "outside": 2, "offset": 0.9}, "eye-in-face"),
    ("rod", "pin eye", {"pin": 1, "hole": 1, "left": 1, "right": 1, "width": 3}, "sides-disagree"),
    ("rod", "pin eye", {"pin": 1, "hole": 1, "adjustment": 0.25}, "no-thread"),
    ("rod", "pin eye", {"pin": 1, "hole": 1, "jam_nut": True}, "no-thread"),
    (
        "rod",
        "pin eye",
        {"pin": 1, "width": 1, "outside": 4, "thread": "1 1/4-12 UNF", "offset": 3},
        "thread-through-side",
    ),
    ("rod", "clevis", {"pin": 1, "thread": "2 1/4-12 UN"}, "thread-too-large"),
    ("rod", "clevis", {"pin": 1, "thread": "1 1/4-12 UNF", "offset": 1.5}, "throat-past-face"),
    (
        "rod",
        "clevis",
        {"pin": 1, "thread": "1-12 UNF", "thread_length": 0.5, "adjustment": 0.5},
        "no-engagement",
    ),
    ("body", "ball swivel", {"pin": 1, "width": 2, "ball_width": 0.9}, "ring-hides-ball"),
    ("body", "ball swivel", {"pin": 1, "ball_width": 0.9, "outside": 1.2}, "ring-inside-ball"),
    ("body", "ball swivel", {"pin": 1, "outside": 2.5, "offset": 1}, "ring-in-face"),
    ("body", "trunnion", {"pin": 1, "shoulders": 3.9, "width": 8}, "shoulders-in-barrel"),
    ("body", "trunnion", {"pin": 1, "shoulders": 4, "width": 8}, "shoulders-in-barrel"),
    ("body", "trunnion", {"pin": 4, "width": 4.5}, "no-pins"),
    ("body", "trunnion", {"pin": 2, "outside": 1.5}, "no-shoulder"),
    ("body", "trunnion", {"pin": 0.4, "grease": True}, "no-room-for-grease"),
    ("body", "trunnion", {"position": 0.5}, "off-barrel"),
    ("body", "trunnion", {"position": 40}, "off-barrel"),
    ("body", "flange", {"plate": [5, 5], "bolts": {"count": 4, "hole": 0.6, "pitch": [4.6, 4.6]}},
     "hole-off-plate"),
    ("body", "flange", {"bolts": {"count": 4, "hole": 0.6, "circle": 4.2}}, "hole-under-host"),
    ("body", "flange", {"bolts": {"count": 40, "hole": 0.6, "circle": 6}}, "holes-overlap"),
    ("body", "flange", {"bolts": {"count": 6, "hole": 0.6, "pitch": [6, 6]}}, "bolts-and-pitch"),
    ("body", "flange", {"position": 40}, "off-barrel"),
    ("body", "flange", {"position": -2, "thickness": 1}, "off-barrel"),
    ("body", "flange", {"position": "rod end", "offset": 1}, "offset-and-position"),
    ("body", "flange", {"position": "base", "thickness": 1, "offset": 1.5}, "flange-off-barrel"),
    ("rod", "flange", {"thickness": 1, "offset": 1.5}, "flange-off-rod"),
    ("rod", "flange", {"plate": 3, "bolts": {"count": 4, "hole": 0.5, "circle": 2}},
     "hole-under-host"),
    ("body", "foot", {"seat_height": 1.5}, "seat-in-barrel"),
    ("body", "foot", {"plate": 5}, "foot-plate"),
    ("body", "foot", {"bolts": {"count": 3, "hole": 0.6, "pitch": [6, 6]}}, "bolts-and-pitch"),
    ("body", "foot", {"bolts": {"count": 4, "hole": 0.6, "circle": 6}}, "bolts-and-pitch"),
    ("body", "foot", {"plate": [2, 7], "bolts": {"count": 4, "hole": 0.6, "pitch": [1.8, 5]}},
     "hole-off-plate"),
    ("body", "foot", {"plate": [2, 7], "bolts": {"count": 2, "hole": 0.6, "pitch": [9, 5]}},
     "bolts-and-pitch"),
    ("body", "foot", {"bolts": {"count": 4, "hole": 0.6, "pitch": [60, 6]}}, "off-barrel"),
    ("body", "foot", {"position": "rod end", "bolts": {"count": 4, "hole": 0.6, "pitch": [14, 6]}},
     "off-barrel"),
    ("body", "foot", {"position": -5}, "off-barrel"),
    ("body", "foot", {"seat_height": 2.5, "thickness": 2}, "plate-in-barrel"),
    ("rod", "male thread", {"thread": "M27x2", "thread_length": 2, "shoulder": 1.5},
     "thread-past-shoulder"),
    ("rod", "male thread", {"thread": "3/4 ORB"}, "thread-unknown"),
    ("rod", "male thread", {"thread": "M90x3"}, "thread-too-large"),
    ("rod", "female thread", {"thread": "1 3/4-12 UN"}, "no-wall"),
    ("rod", "female thread", {"thread": "M24x2", "thread_length": 30}, "hole-too-deep"),
    ("rod", "plain", {"flats": 1.75}, "flats-outside-rod"),
]  # fmt: skip


@pytest.mark.parametrize(("end", "word", "fields", "code"), IMPOSSIBLE, ids=lambda v: str(v)[:30])
def test_what_cannot_exist_is_refused_at_its_field(end, word, fields, code):
    with pytest.raises(Refused) as refused:
        at_end(end, word, fields)
    faults = refused.value.faults
    assert code in {f.code for f in faults}
    for fault in faults:
        assert fault.field.startswith(f"{end}_mount")
        assert fault.line > 1


def test_a_rod_without_a_table_row_asks_for_its_thread():
    with pytest.raises(Refused) as refused:
        at_end("rod", "male thread", {}, cylinder={"rod": 1.9})
    assert [f.code for f in refused.value.faults] == ["missing"]


DOUBTFUL = [
    ("body", "ball swivel", {"pin": 1, "width": 1.0, "ball_width": 0.9}, "ring-wider-than-ball"),
    ("body", "ball swivel", {"pin": 1, "width": 0.3, "ball_width": 0.9}, "narrow-ring"),
    ("body", "trunnion", {"pin": 2, "shoulders": 5, "width": 6}, "short-pins"),
    ("body", "flange", {"plate": 6, "bolts": {"count": 4, "hole": 0.6, "circle": 5.2}},
     "hole-near-edge"),
    ("body", "flange", {"bolts": {"count": 4, "hole": 0.6, "circle": 4.8}}, "no-room-for-bolts"),
    ("body", "flange", {"position": 0.5, "thickness": 1}, "flange-datum"),
    ("body", "foot", {"bolts": {"count": 2, "hole": 0.6, "pitch": [1, 4]}}, "no-room-for-bolts"),
    ("rod", "clevis", {"pin": 1, "thread": "1-12 UNF", "thread_length": 1, "adjustment": 0.25},
     "short-engagement"),
    ("rod", "female thread", {"thread": "1 1/2-12 UNF"}, "thin-wall"),
    ("rod", "plain", {"flats": 1.1}, "deep-flats"),
]  # fmt: skip


@pytest.mark.parametrize(("end", "word", "fields", "code"), DOUBTFUL, ids=lambda v: str(v)[:30])
def test_what_smells_of_a_mix_up_is_a_finding(end, word, fields, code):
    assert code in {f.code for f in at_end(end, word, fields).findings}


def test_fields_of_one_mount_are_refused_on_another():
    for fields, body in (({"clock": "6:00"}, "clevis"), ({"thread": "M27x2"}, "pin eye")):
        with pytest.raises(Refused) as refused:
            at_end("body", body, fields)
        assert {f.code for f in refused.value.faults} <= {"not-of-this-mount", "unknown-field"}


def test_inch_sizes_become_mm_in_the_helper():
    assert in_mm({"bolts": {"count": 4, "hole": 1.0}, "seat": "base side"}) == {
        "bolts": {"count": 4, "hole": 25.4},
        "seat": "base side",
    }


@pytest.mark.parametrize("word", [w for e, w in EVERY if e == "body"])
def test_every_body_mount_fits_a_tie_rod_body(word):
    for part in on_tie_rods(word).parts:
        assert volume(part) > 0


@pytest.mark.parametrize(
    ("word", "narrow"),
    [
        ("ball swivel", {"pin": 1.25, "width": 0.937, "ball_width": 1.093}),
        ("pin eye", {"pin": 1.25, "width": 1.0}),
    ],
)
def test_a_thread_thicker_than_its_eye_moves_out_to_the_hub(word, narrow):
    """Common practice: the shank of a screwed-on eye holds a thread too thick for the eye."""
    cylinder = at_end("rod", word, {**narrow, "thread": "1 1/4-12 UNF"})
    size = {v.name: float(v.value) for v in cylinder.values if v.unit == "mm"}
    beyond = size["rod_mount.offset"] - size["rod_mount.outside"] / 2
    assert beyond >= size["rod_mount.engagement"] - 0.02


@pytest.mark.parametrize("bolts", [{"hole": 0.5}, {"hole": 0.5, "count": 4}, {"count": 6}])
def test_bolts_that_say_no_place_are_refused_by_the_file_alone(bolts):
    """What settles words after a refusal does not stumble over what is missing."""
    with pytest.raises(Refused) as caught:
        checked(spec_text(("flange", {"bolts": bolts}), ("plain", {})).encode(), "gate.toml")
    assert {f.code for f in caught.value.faults} == {"missing"}


@pytest.mark.parametrize(
    ("units", "rod", "told", "other"),
    [("mm", "33.3", "M27x2", "UNF"), ("in", "1.31", "1 1/4-12 UNF", "M27")],
)
def test_a_thread_that_is_asked_for_is_shown_in_the_specs_own_family(units, rod, told, other):
    times = 25.4 if units == "mm" else 1.0
    text = f"""
    title = "Trial"
    units = "{units}"
    [cylinder]
    bore = {2.5 * times}
    rod = {rod}
    stroke = {8 * times}
    retracted = {20 * times}
    [body_mount]
    mount = "none"
    [rod_mount]
    mount = "male thread"
    """
    with pytest.raises(Refused) as refused:
        load(checked(text.encode()))
    (fault,) = [f for f in refused.value.faults if f.field == "rod_mount.thread"]
    assert told in fault.message
    assert other not in fault.message


@pytest.mark.parametrize("word", ["pin eye", "clevis", "spade eye"])
def test_the_swing_radius_is_shown_whatever_was_typed(word):
    """With outside typed alone, nothing on the drawing said how far the eye swings."""
    sizes = {"outside": 2.5}
    shown = {
        w.name: measured(w) for w in at_end("rod", word, {**example("rod", word), **sizes}).wishes
    }
    assert shown["rod_mount.nose"] == pytest.approx(1.25 * INCH)
    assert shown["rod_mount.outside"] == pytest.approx(2.5 * INCH)
    both = at_end("rod", word, {**example("rod", word), **sizes, "nose": 1.25})
    assert "rod_mount.outside" not in {w.name for w in both.wishes}


def test_a_trunnions_sizes_have_their_words():
    notes = {
        w.name: w.note
        for w in at_end("body", "trunnion", example("body", "trunnion")).wishes
        if hasattr(w, "note")
    }
    assert notes["body_mount.outside"] == "TRUNNION BOSS"
    assert notes["body_mount.shoulders"] == "OVER SHOULDERS"

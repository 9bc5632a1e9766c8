"""Mounts of any sizes: either refused at a field of the spec, or whole metal that measures right.

There is no outside source here: the property is that nothing between the two can happen.
"""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drafting.errors import Refused
from drafting.settle.wishes import Length
from drafting.shape.frame import dot, sub
from drafting.shape.volume import volume
from tests.model.mount_specs import EVERY, at_end, example

EXTRA = {
    "pin eye": {"bushing": 1.3, "grease": True, "left": 0.8, "nose": 1.1, "offset": 2.5},
    "clevis": {"throat": 1.4, "nose": 1.0, "outside": 1.9, "offset": 2.2, "bushing": 1.3},
    "cross tube": {"outside": 2.0, "left": 0.8, "grease": True, "offset": 1.2},
    "ball swivel": {"outside": 3.0, "offset": 2.0, "grease": True},
    "trunnion": {"outside": 2.25, "grease": True},
    "flange": {"offset": 0.5},
}
SCREWED = {"thread": "1-12 UNF", "thread_length": 1.5, "adjustment": 0.25, "jam_nut": True}


@st.composite
def sizes(draw, end: str, word: str):
    """Draw the example's sizes and more of them, each left out or scaled by itself."""
    every = {**example(end, word), **(EXTRA.get(word, {}) if draw(st.booleans()) else {})}
    if end == "rod" and word in ("pin eye", "clevis", "ball swivel") and draw(st.booleans()):
        every |= SCREWED
    if end == "rod" and word == "flange":
        every.pop("position", None)

    def scaled(value):
        if isinstance(value, bool | str):
            return value
        if isinstance(value, list):
            return [scaled(v) for v in value]
        if isinstance(value, dict):
            return {k: v if k == "count" else scaled(v) for k, v in value.items()}
        return round(value * draw(st.floats(0.5, 1.8)), 3)

    return {k: scaled(v) for k, v in every.items() if draw(st.integers(0, 4))}


@pytest.mark.parametrize(("end", "word"), EVERY, ids=[f"{e} {w}" for e, w in EVERY])
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_refused_at_a_field_or_whole_metal(end, word, data):
    fields = data.draw(sizes(end, word))
    try:
        c = at_end(end, word, fields, cylinder={"retracted": 36})
    except Refused as refused:
        for fault in refused.faults:
            assert fault.field.startswith((f"{end}_mount", "cylinder.")), fault
            assert len(fault.message) > 20
        return
    values = {v.name: v.value for v in c.values}
    for part in c.parts:
        assert volume(part) > 0, part.name
    for wish in c.wishes:
        if isinstance(wish, Length):
            size = abs(dot(sub(wish.b, wish.a), wish.direction))
            assert size == pytest.approx(abs(float(values[wish.name])), abs=0.03), wish.name

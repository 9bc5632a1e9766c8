"""A set of mounts for the tests of the spec layer, which knows none by itself."""

from collections.abc import Mapping

import pytest

from drafting.spec.mount_fields import Taken

PIN = ("pin", "hole", "width", "outside", "nose", "offset", "bushing", "grease")
THREADED = ("turned", "thread", "thread_length", "adjustment", "jam_nut", "flats")


@pytest.fixture(scope="session")
def mounts() -> Mapping[str, Mapping[str, Taken]]:
    both = {
        "clevis": (*PIN, "gap", "throat"),
        "cross tube": (*PIN, "left", "right"),
        "flange": ("position", "plate", "thickness", "seat", "bolts", "offset"),
    }
    ends = {
        "body_mount": {**both, "foot": ("seat_height", "plate", "bolts", "clock"), "none": ()},
        "rod_mount": {
            **{word: (*fields, *THREADED) for word, fields in both.items()},
            "male thread": ("thread", "thread_length", "shoulder"),
            "plain": (),
        },
    }
    return {end: {word: Taken(fields) for word, fields in by.items()} for end, by in ends.items()}

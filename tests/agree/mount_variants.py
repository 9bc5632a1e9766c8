"""Mounts with what can be added to them: bushings, fittings, threads, places along the barrel."""

from __future__ import annotations

from collections.abc import Mapping

PIN = {"pin": 1.25, "hole": 1.266}
SCREWED = {"thread": "1 1/4-12 UNF", "adjustment": 0.25, "jam_nut": True}

VARIANTS: Mapping[str, tuple[str, str, Mapping[str, object]]] = {
    "eye, off centre, bushed, greased": (
        "body",
        "pin eye",
        {**PIN, "width": 1.5, "left": 1, "bushing": 1.5, "outside": 3, "grease": True},
    ),
    "eye as wide as the rod": ("rod", "pin eye", {**PIN, "width": 1.75}),
    "eye screwed on": ("rod", "pin eye", {**PIN, "width": 1.75, "flats": 1.5, **SCREWED}),
    "tube, bushed, greased": (
        "body",
        "cross tube",
        {**PIN, "width": 3.5, "bushing": 1.5, "grease": True},
    ),
    "clevis as wide as the rod": ("rod", "clevis", {**PIN, "gap": 1, "width": 1.75}),
    "clevis with its slot down to the face": (
        "body",
        "clevis",
        {**PIN, "gap": 1.5, "width": 3.5, "throat": 1.5, "offset": 1.5},
    ),
    "clevis with a long nose, bushed": (
        "body",
        "clevis",
        {**PIN, "gap": 1.5, "width": 3.5, "outside": 2.5, "nose": 1.5, "bushing": 1.5},
    ),
    "clevis screwed on": ("rod", "clevis", {**PIN, "gap": 1.5625, "width": 3.25, **SCREWED}),
    "swivel, greased": (
        "body",
        "ball swivel",
        {"pin": 1, "hole": 1, "width": 0.7, "ball_width": 1.2, "grease": True},
    ),
    "swivel screwed on": (
        "rod",
        "ball swivel",
        {"pin": 1.25, "hole": 1.25, "offset": 3.75, "thread": "1-12 UNF", "thread_length": 1.5},
    ),
    "spade as high as the barrel": (
        "body",
        "spade eye",
        {**PIN, "bushing": 1.75, "width": 0.75, "outside": 4, "offset": 2.5},
    ),
    "trunnion at the base, greased": ("body", "trunnion", {"position": "base", "grease": True}),
    "trunnion wider than the barrel": (
        "body",
        "trunnion",
        {"position": "rod end", "pin": 1.5, "outside": 4.5},
    ),
    "flange at the base": (
        "body",
        "flange",
        {
            "position": "base",
            "plate": 8,
            "bolts": {"count": 6, "hole": 0.656, "circle": 6.5, "first_hole": "on"},
        },
    ),
    "flange over the gland": ("body", "flange", {"position": 22.5, "thickness": 1}),
    "foot of one plate": (
        "body",
        "foot",
        {"position": "middle", "bolts": {"count": 4, "hole": 0.656, "pitch": [3, 5.5]}},
    ),
    "foot as an angle": (
        "body",
        "foot",
        {
            "position": -1.5,
            "plate": [3, 7],
            "bolts": {"count": 2, "hole": 0.656, "pitch": [1, 5.5]},
        },
    ),
    "rod flange, rod through it": ("rod", "flange", {"offset": 0}),
    "male thread with flats": (
        "rod",
        "male thread",
        {"thread": "1 1/4-12 UNF", "thread_length": 1.5, "shoulder": 2, "flats": 1.5},
    ),
}

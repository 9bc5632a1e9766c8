"""What is measured next: the worksheet's letters, and pictures that mark what they say."""

from __future__ import annotations

import re
from math import dist
from xml.etree import ElementTree

import pytest

from drafting.measuring.letters import letters
from drafting.model.catalog import mount_words
from drafting.web.form import form
from drafting.web.guide import guide

PAIRS = [
    *((body, "clevis") for body in mount_words("body")),
    *(("cross tube", rod) for rod in mount_words("rod")),
]
PAIRS = list(dict.fromkeys(PAIRS))
TYPED = {  # mm, as the sample of the worksheet has them typed
    "cylinder.retracted": 510.0, "cylinder.extended": 640.0, "cylinder.stroke": 130.0,
    "cylinder.bore": 80.0, "cylinder.barrel_outside": 95.0, "cylinder.rod": 45.0,
    "body_mount.width": 100.0, "rod_mount.gap": 42.0, "rod_mount.width": 90.0,
    "rod_mount.throat": 46.0, "rod_mount.hole": 36.5, "rod_mount.nose": 40.0,
}  # fmt: skip


@pytest.mark.parametrize(("body", "rod"), PAIRS)
def test_every_size_that_is_asked_has_its_letter_a_field_and_a_picture(body, rod):
    found = guide(body, rod)
    fields = form()["fields"]
    needed = {x.field.removesuffix(".0") for x in letters(body, rod) if x.needed and x.field}
    asked = [s["field"] for s in found["steps"] if s["asked"]]
    assert needed - {n for n in needed if n.endswith(".1")} <= set(asked)
    assert len(asked) == len(set(asked))
    for name in asked:
        assert name in fields, name
        assert name in found["pictures"], name
    for svg in found["pictures"].values():
        root = ElementTree.fromstring(svg)
        assert root.get("aria-hidden") == "true"
        assert all(float(n) > 0 for n in root.get("viewBox").split()[2:])


def test_a_picture_marks_the_size_that_it_is_of():
    """The blue line is as long as the size: the picture is the model's, not an artist's."""
    pictures = guide("cross tube", "clevis")["pictures"]
    for name, mm in TYPED.items():
        (track,) = re.findall(r'class="size" d="M([^"]*)"', pictures[name])
        a, b = ([float(v) for v in p.split()] for p in track.split("L"))
        assert dist(a, b) == pytest.approx(mm, abs=0.25), name


def test_a_mount_is_shown_without_a_size():
    pictures = guide("cross tube", "clevis")["pictures"]
    for end in ("body_mount.mount", "rod_mount.mount"):
        assert 'class="line"' in pictures[end]
        assert 'class="size"' not in pictures[end]

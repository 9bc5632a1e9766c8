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


@pytest.mark.parametrize(("body", "rod"), PAIRS)
def test_a_bushing_is_asked_for_behind_its_hole_where_a_mount_takes_one(body, rod):
    steps = guide(body, rod)["steps"]
    names = [s["field"] for s in steps]
    for end, mount in (("body", body), ("rod", rod)):
        takes = f"{end}_mount.bushing" in (
            form()["taken"][f"{end}_mount"][mount]["first"]
            + form()["taken"][f"{end}_mount"][mount]["more"]
        )
        if not takes:
            assert f"{end}_mount.bushing" not in names
            continue
        at = names.index(f"{end}_mount.bushing")
        assert names[at - 1] == f"{end}_mount.hole"
        assert (steps[at]["after"], steps[at]["none"]) == (names[at - 1], "No bushing")
        first = form()["taken"][f"{end}_mount"][mount]["first"]
        assert first.index(names[at]) == first.index(names[at - 1]) + 1, "not behind More"


def test_an_hour_is_asked_after_the_end_that_it_is_seen_from():
    found = guide("cross tube", "clevis")
    names = [s["field"] for s in found["steps"]]
    seen = found["steps"][names.index("cylinder.clock_seen_from")]
    assert seen["until"] == ("base_port.clock", "rod_port.clock")
    for port in ("base_port", "rod_port"):
        clock = names.index(f"{port}.clock")
        assert names.index("cylinder.clock_seen_from") < clock
        assert "looking at the rod end" in found["steps"][clock]["what"]
        assert ("pin at the base" in found["steps"][clock]["tip"]) == (port == "base_port")
        assert found["steps"][clock + 1]["after"] == f"{port}.thread"
        assert found["pictures"][f"{port}.clock"] != found["pictures"][f"{port}.clock@base"]


def test_no_pin_is_laid_level_where_there_is_none():
    for step in guide("flange", "clevis")["steps"]:
        assert "level" not in step["tip"], step["field"]


@pytest.mark.parametrize(("body", "hole"), [("pin eye", 36.5), ("spade eye", 36.5)])
def test_a_bushing_is_a_ring_round_its_hole(body, hole):
    """Whether the sample has one or not: the ring's inside is the hole, the size its outside."""
    svg = guide(body, "clevis")["pictures"]["body_mount.bushing"]
    (ring,) = re.findall(r'class="pin" fill-rule="evenodd" d="([^"]*)"', svg)
    outside, inside = (float(r) for r in re.findall(r"m-([\d.]+) 0a", ring))
    (track,) = re.findall(r'class="size" d="M([^"]*)"', svg)
    a, b = ([float(v) for v in p.split()] for p in track.split("L"))
    assert inside == pytest.approx(hole / 2, abs=0.06)
    assert dist(a, b) == pytest.approx(2 * outside, abs=0.25)
    assert outside > 1.1 * inside

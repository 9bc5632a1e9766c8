"""What is read alike on several mounts: pins, eyes, bolted plates."""

from __future__ import annotations

from collections.abc import Mapping

from drafting.settle.to_read import ToRead
from drafting.spec.given import Typed

AT_PIN = "the pin's centre"
PIN_EDGES = ("H", "P")
EYE: Mapping[str, Typed] = {"pin": 36.0, "hole": 36.5, "outside": 72.0}
"""Sample sizes of an eye, mm."""

PIN = (
    ToRead("P", "pin", "the pin, at its unworn end", "pin", "caliper",
           "Twice, a quarter turn apart, under the head or beyond the ears: wear is never even."),
    ToRead("H", "hole", "the hole", "hole", "caliper",
           "Along the cylinder and across it, deep inside: a pulled hole is longer one way."),
)  # fmt: skip
SIDES = (
    ToRead("U", "left", "centre line to the face at 3 o'clock", "size", "caliper",
           "Only when the eye does not sit in the middle; looking from the rod end.", False),
    ToRead("V", "right", "centre line to the face at 9 o'clock", "size", "caliper", "", False),
)  # fmt: skip
OUTSIDE = ToRead("Z", "outside", "over the eye, square to the cylinder", "size", "caliper",
                 "", False)  # fmt: skip
NOSE = ToRead("N", "nose", "pin centre to the end of the nose", "size", "caliper",
              "Measure from the hole's edge and add half of the hole.", False)  # fmt: skip
NO_WASHERS = "Without washers. The gap of the machine's ears too."

PLATE = (
    ToRead("Y", "thickness", "thickness of the plate", "size", "caliper"),
    ToRead("H", "bolts.hole", "a bolt hole", "hole", "caliper", "Two holes, two ways."),
)
FLANGE = (
    ToRead("J", "plate.0", "the plate from 3 to 9 o'clock (its diameter when round)", "size",
           "tape"),
    ToRead("L", "plate.1", "the plate from 12 to 6 o'clock; leave it out when round", "size",
           "tape", "", False),
    *PLATE,
    ToRead("Q", "bolts.circle", "bolt circle: across two opposite holes, centre to centre", "size",
           "caliper", "Over the outer edges, less one hole.", False),
    ToRead("M", "bolts.pitch.0", "holes, centre to centre, 3 to 9 o'clock", "size", "caliper",
           "Outer edge to outer edge, less one hole.", False),
    ToRead("X", "bolts.pitch.1", "holes, centre to centre, 12 to 6 o'clock", "size", "caliper",
           "", False),
)  # fmt: skip

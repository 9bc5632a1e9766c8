"""The fields of a machine file. Loads stand inside ``[hinge]`` and ``[slide]``, many or none."""

from __future__ import annotations

from drafting.spec.field import (
    Field,
    TableFields,
    flag,
    positive,
    size,
    size_or_none,
    word,
    words,
)


def _point(name: str, doc: str, example: str, required: bool = True) -> Field:
    return Field(name, "pair", doc, example, required)


def _degrees(name: str, doc: str, example: str, required: bool = False) -> Field:
    return Field(name, "angle", doc, example, required, bare=True, least=-360.0, most=360.0)


def _bar(name: str, doc: str, example: str) -> Field:
    return Field(name, "pressure", doc, f'"{example}"', above=0.0)


def _numbers(name: str, doc: str, example: str) -> Field:
    return Field(name, "numbers", doc, example)


def _load(frame: str, at: str) -> TableFields:
    return TableFields(
        "load",
        "What it carries.",
        (
            Field("mass", "mass", "a weight; it hangs down wherever it is", '"850 lb"', above=0.0),
            Field("force", "forces", "a force to the right and up", '["-2 kN", "0 N"]'),
            _point("at", f"where it acts, {at}", "[64, 4]"),
            word("frame", f"a force that moves with the {frame} turns with it", frame, "ground"),
            Field("table", "steps", "how much of it over the travel: [[at, factor], ...]",
                  "[[0, 1], [72, 0.4]]", bare=frame == "arm"),
        ),
        many=True,
    )  # fmt: skip


def _ears(name: str, which: str) -> TableFields:
    return TableFields(
        name,
        f"The machine's ears at the {which}.",
        (
            size("gap", "between the ears", '"3 1/16"'),
            size("lug", "for a clevis mount: thickness of the machine's lug", "1.5"),
            size("pin", "diameter of its pin", "1.25"),
            size("hole", "hole in the ears or the lug", "1.266"),
            size("ear", "thickness of one ear", "0.5"),
            size("behind", "from the pin's centre to the nearest wall behind", "1.75"),
            size("around", "free radius about the pin", "2"),
            size("lug_nose", "for a clevis mount: swing radius of the machine's lug", '"7/8"'),
            size("pin_grip", "usable length of its pin, from the head to what holds it", "4.25"),
            Field(
                "aside",
                "length",
                "how far their middle lies beside the other pair's",
                '"1/8"',
                signed=True,
            ),
            flag("grease_reach", "true when a gun reaches the fitting"),
        ),
    )


LOADS = {"hinge": _load("arm", "on the arm at angle 0"),
         "slide": _load("carriage", "on the carriage at travel 0")}  # fmt: skip

TABLES: dict[str, TableFields] = {
    t.name: t
    for t in (
        TableFields(
            "",
            "What the machine is.",
            (
                words("title", "what the machine is", "Slipway flap", True),
                word("units", "what a bare number means", "in", "mm", required=True),
            ),
            required=True,
        ),
        TableFields(
            "distance",
            "Measured between the machine's pin centres.",
            (
                size("closest", "the shortest that the machine goes to", '"26 1/2"', True),
                size("farthest", "the longest that is needed", '"42 7/8"', True),
                size("hard_closest", "beyond this something breaks", "26"),
                size("hard_farthest", "beyond this something breaks", '"43 1/2"'),
            ),
        ),
        TableFields(
            "hinge",
            "An arm that turns about a hinge; x to the right, y up.",
            (
                _point("at", "the hinge", "[0, 0]"),
                _point("base_pin", "the cylinder's pin on the frame", "[18, -6]"),
                _point("rod_pin", "the cylinder's pin on the arm, at angle 0", "[30, 9]"),
                _degrees("from", "where the arm starts, counter-clockwise", "0", True),
                _degrees("to", "where it ends", "72", True),
                _degrees("hard_from", "a stop before the start", "-3"),
                _degrees("hard_to", "a stop past the end", "76"),
            ),
        ),
        TableFields(
            "slide",
            "A carriage on a straight guide.",
            (
                _point("base_pin", "the cylinder's pin on the frame", "[0, 0]"),
                _point("rod_pin", "the cylinder's pin on the carriage, at travel 0", "[30, 0]"),
                _numbers("along", "direction of the guide", "[1, 0]"),
                size("travel", "how far it is to go", "16", True),
                Field("hard_from", "length", "a stop before the start", "-0.5", signed=True),
                Field("hard_to", "length", "a stop past the end", "17", signed=True),
            ),
        ),
        TableFields(
            "pivot_friction",
            "What the pins take, against the motion.",
            (Field("share", "number", "part of the force", "0.05", True, least=0.0, most=0.9),),
        ),
        _ears("base_ears", "base"),
        _ears("rod_ears", "rod"),
        TableFields(
            "model",
            "The machine's solid.",
            (
                words("step", "STEP file beside this one", "flap-frame.step", True),
                Field("moving", "texts", "solids that move with the arm or carriage",
                      '["arm", "flap"]'),
                Field("base_pin", "place", "the datum in the model's millimetres, or a round face",
                      "[120.0, 0, -40]", True),
                Field("rod_pin", "place", "the other datum, at the start of the travel",
                      "[640.0, 0, -40]", True),
                _numbers("axis", "the pin's direction, towards the reader", "[0, 1, 0]"),
                _numbers("up", "where the cylinder's 12 o'clock points", "[0, 0, 1]"),
                Field("lateral", "length", "how far along the pin the centre line sits", "0",
                      signed=True),
                size_or_none("clearance", "asked everywhere", '"1/4"'),
                size_or_none("hoses", "asked about fittings and hose bends", "2"),
            ),
        ),
        TableFields(
            "supply",
            "What feeds it.",
            (
                _bar("pressure", "pressure there is", "2500 psi"),
                _bar("relief", "what the relief valve opens at", "2750 psi"),
                positive("flow", "flow", "flow there is", "11 gal/min"),
                Field("return_pressure", "pressure", "pressure of the return side", '"50 psi"',
                      least=0.0),
            ),
        ),
        TableFields(
            "hoses",
            "What the hose ends are.",
            (
                Field("base", "thread", "hose end at the base", '"3/4-16 37 flare"'),
                Field("rod", "thread", "hose end at the rod", '"3/4-16 37 flare"'),
                size("base_free", "free straight out beyond the hose's end at the base", "2"),
                size("rod_free", "the same at the rod", "2"),
            ),
        ),
        TableFields(
            "pair",
            "Cylinders that work together.",
            (Field("count", "count", "how many", "2", True, least=1, most=16),),
        ),
    )
}  # fmt: skip

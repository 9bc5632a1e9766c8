"""Every table and field of the spec file, once: parser, messages, schema and forms read this.

Names are the contract with the files that people keep: add, never rename.
"""

from __future__ import annotations

from drafting.spec.drawing_fields import DRAWING
from drafting.spec.field import (
    Field,
    TableFields,
    flag,
    place,
    positive,
    size,
    size_or_none,
    with_tolerance,
    word,
    words,
)
from drafting.spec.mount_fields import BODY_MOUNT, ROD_MOUNT

ROOT = TableFields(
    "",
    "What the drawing is called, and what a bare number means.",
    (
        words("title", "what the cylinder is for; the drawing's title", "Sluice gate lift", True),
        words("number", "drawing number; names the output files", "SG-0417"),
        words("revision", "revision letter", "A"),
        words("revision_note", "what this revision changes, in the revision block", "wider gap"),
        Field(
            "quantity", "count", "how many are wanted; not a matched set", "2", least=1, most=1e6
        ),
        flag("matched_set", "true when the cylinders must work as a matched set"),
        word(
            "units",
            "what a bare number means, and the drawing's first unit",
            "in",
            "mm",
            required=True,
        ),
        words("contact", "who answers questions, on the data sheet", "R. Hale, 555-0134"),
        words("wanted", "when it is wanted, on the data sheet", "mid March"),
        words("ship_to", "where it goes, on the data sheet", "Harrow Brook mill, east gate"),
        Field("notes", "texts", "general notes, printed on the drawing", '["Primer only"]'),
    ),
    required=True,
)

CYLINDER = TableFields(
    "cylinder",
    "Barrel, rod and lengths. Two of stroke, retracted and extended are required.",
    with_tolerance(
        (
            word("construction", "how barrel and ends are held together", "welded", "tie rod"),
            word(
                "action", "double acting, or single acting: push or pull", "double", "push", "pull"
            ),
            word(
                "piston",
                "sealed piston, or a displacement ram that pushes on the rod's area",
                "sealed",
                "displacement",
            ),
            word("return", "single acting: what brings the rod back", "load", "spring"),
            size("spring_space", "length that the packed return spring takes", "2"),
            words("spring_force", "return spring: its force, rod in and rod out", "90 lbf, 40 lbf"),
            size("bore", "inside diameter of the barrel", '"3 1/2"', True),
            size("rod", "rod diameter", "1.75", True),
            size("stroke", "travel, metal to metal, net of the stop tube", "16"),
            size("retracted", "length between the two datums, retracted", '"27 1/4"'),
            size("extended", "length between the two datums, extended", '"43 1/4"'),
            size("barrel_outside", "outside diameter of the barrel", "4"),
            size("wall", "wall thickness of the barrel", "0.25"),
            size("base_thickness", "base cap, from its oil side to the closed end", "1"),
            word(
                "gland",
                "how the gland is held",
                "threaded",
                "cap",
                "bolted",
                "snap ring",
                "wire ring",
                "tie rod",
            ),
            size("gland_outside", "outside diameter of what shows of the gland", "4.25"),
            size("gland_length", "length of the whole gland", "3.5"),
            size_or_none("gland_projection", "what of the gland shows beyond the barrel", "1.0"),
            size("rod_stick_out", "bare rod beyond the gland, retracted", "0.75"),
            size("piston_length", "length of the piston", "2.0"),
            size_or_none(
                "stop_tube", "spacer that keeps piston and gland apart when extended", "0"
            ),
            word("cushions", "cushioned ends", "none", "base", "rod", "both"),
            size("square", "tie rod: head and cap, across flats", "5"),
            Field(
                "tie_rod",
                "thread",
                "tie rod: thread of the tie rods",
                '"1/2-20 UNF"',
                example_mm='"M12x1.25"',
            ),
            Field(
                "cap_turned",
                "angle",
                "tie rod: cap turned against the head",
                "0",
                among=(0, 90, 180, 270),
                bare=True,
            ),
            positive(
                "working_pressure",
                "pressure",
                "highest steady pressure at the cylinder",
                "2500 psi",
            ),
            positive("relief_pressure", "pressure", "setting of the relief valve", "2750 psi"),
            positive("proof_pressure", "pressure", "pressure of the proof test", "3750 psi"),
            size("largest_outside", "the room in the machine; anything beyond is a finding", "5.5"),
            word(
                "clock_seen_from", "from which end every clock in the file is read", "rod", "base"
            ),
            flag("rod_keyed", "true when the rod cannot turn", "false"),
            Field(
                "gland_thread",
                "thread",
                "thread that holds the gland in the barrel",
                '"3 1/2-12 UN"',
            ),
            size("gland_engaged", "length of the gland's thread that bears", "1.25"),
            positive(
                "gland_rating",
                "force",
                "what ring, bolts or wire of the gland hold at yield, as the builder says",
                "60000 lbf",
            ),
            size("base_weld", "leg of the fillet between barrel and base cap", "0.375"),
            size("base_groove", "depth of a groove weld between barrel and base cap", "0.25"),
            positive("tie_rod_preload", "force", "tie rod: preload of each rod", "9000 lbf"),
            words("pin_material", "pin material: a grade, or its yield in psi or MPa", "4140"),
            words("mount_material", "material of mounts, caps and ears, likewise", "1020"),
            words("gland_material", "material of the gland, likewise", "ductile iron"),
            words("tie_rod_material", "tie rod: their material, likewise", "4140"),
            words("weld_material", "weld metal: a grade, or its yield in psi or MPa", "E70"),
            words("rod_material", "rod material, on the data sheet", "C45E, hard chrome"),
            words("barrel_material", "barrel material, on the data sheet", "E355, honed"),
            words("seals", "seals, on the data sheet", "polyurethane and NBR"),
            words("fluid", "fluid, on the data sheet", "mineral oil, ISO VG 46"),
            Field(
                "temperature",
                "temperature",
                "highest temperature of the fluid",
                '"180 degF"',
                signed=True,
            ),
            words("finish", "finish, on the data sheet", "primer, grey"),
            words("rod_finish", "plating of the rod, on the data sheet", "hard chrome 25 µm"),
            words("bare", "what stays bare of paint, on the data sheet", "rod, pin holes, ports"),
            words("marking", "what is marked on the cylinder", "number and date on the barrel"),
        )
    ),
    required=True,
)

PORT_FIELDS = (
    Field(
        "thread",
        "thread",
        "port thread or flange, as the trade spells it",
        '"SAE-8"',
        True,
        example_mm='"M18x1.5 ISO 6149"',
    ),
    Field("clock", "clock", "the hour that the port faces", '"12:00"'),
    place("position", "from the body datum to the port's centre, + towards the rod", "3.5"),
    size_or_none("height", "port face above the barrel's outside", "0.75"),
    word("facing", "out, or a port tube along the barrel to base or rod", "out", "base", "rod"),
    place("outlet_position", "port tube: from the body datum to its outlet", "1.5"),
    flag("plugged", "true when the port is plugged", "false"),
    word(
        "fitting",
        "37 degree flare fitting in the port, drawn as the room that it takes with its hose",
        "straight",
        "90",
    ),
    Field(
        "fitting_clock",
        "clock",
        "where the 90 degree fitting, or the hose behind a straight one, points: the hour as seen "
        "by who looks at the port's face, 12 towards the rod end (on a port tube along the barrel: "
        "away from the barrel); not read from an end of the cylinder",
        '"12:00"',
    ),
    size("hose_bend", "bend radius of the hose, to the inside of the bend", '"180 mm"'),
)
BASE_PORT = TableFields(
    "base_port", "The port at the base end; left out, there is none.", with_tolerance(PORT_FIELDS)
)
ROD_PORT = TableFields(
    "rod_port", "The port at the rod end; left out, there is none.", with_tolerance(PORT_FIELDS)
)
EXTRA_PORT = TableFields(
    "extra_port",
    "One more port; repeat the table for each.",
    (
        word("end", "the end that the port is on", "base", "rod", required=True),
        *with_tolerance(PORT_FIELDS),
    ),
    many=True,
)

PIN_FIELDS = (
    flag("supplied", "true when the pin comes with the cylinder"),
    size("grip", "usable length between head and retention", "3.75"),
    size("length", "whole length of the pin", "4.5"),
    flag("head", "true when the pin has a head"),
    word(
        "retention", "what keeps the pin in", "spring clip", "cotter", "two cotters", "keeper plate"
    ),
    size("hole", "diameter of the hole for the retention", "0.177"),
)
BODY_PIN = TableFields("body_pin", "The pin of the body mount.", with_tolerance(PIN_FIELDS))
ROD_PIN = TableFields("rod_pin", "The pin of the rod mount.", with_tolerance(PIN_FIELDS))

DUTY = TableFields(
    "duty",
    "What the machine asks of the cylinder; feeds the checks.",
    (
        positive("pressure", "pressure", "pressure while doing this duty", "2500 psi"),
        positive("flow", "flow", "flow to the cylinder", "11 gal/min"),
        positive("push", "force", "force to push with", "18000 lbf"),
        positive("pull", "force", "force to pull with", "6000 lbf"),
        Field("seconds_out", "number", "longest time out, in seconds", "8", above=0.0, most=1e5),
        Field("seconds_in", "number", "longest time in, in seconds", "6", above=0.0, most=1e5),
        positive("mass", "mass", "mass that is moved", "1200 lb"),
        Field(
            "safety_factor",
            "number",
            "factor of safety asked for; never below what common practice has at the least",
            "3.5",
            least=1.0,
            most=100.0,
        ),
        word("orientation", "how the cylinder lies", "horizontal", "vertical", "inclined"),
        Field(
            "return_pressure", "pressure", "back pressure on the return side", '"50 psi"', least=0.0
        ),
        flag("load_guided", "true when the machine guides the load along the stroke", "false"),
        Field(
            "angle",
            "angle",
            "stroke above the horizontal, where it is inclined",
            "30",
            signed=True,
            bare=True,
            least=-90.0,
            most=90.0,
        ),
        word("rod_side", "oil's way out of the rod side", "open", "metered", "blocked"),
        Field(
            "friction",
            "number",
            "friction of guides and seals as a part of the load, against the motion",
            "0.05",
            least=0.0,
            most=1.0,
        ),
        positive("acceleration", "acceleration", "acceleration of the mass", "3 ft/s2"),
        size("stopping_distance", "in which the mass is stopped from full speed", "1"),
        Field(
            "strokes_per_day", "count", "strokes in a day; they tire it", "400", least=1, most=1e6
        ),
        words("speed", "how fast it shall move, on the data sheet", "out in 4 s"),
        words("side_load", "what pushes it sideways, on the data sheet", "none, both pins swing"),
        words("environment", "what surrounds it, on the data sheet", "outdoors, road salt"),
        flag("lifts_people", "true when people are lifted or stand under the load", "false"),
    ),
)

ORIGIN = TableFields(
    "origin",
    "Where a typed value came from; written by measuring and by a builder's answers.",
    (
        words("field", "the dotted name of a field typed above", "cylinder.retracted", True),
        word("from", "read off an old part, a best guess of several, or the builder's answer",
             "measured", "open", "builder", required=True),
        size("plus_minus", "how well a measured size is known", '"1/16"'),
        words("note", "what was read, or what would decide", "over the outer edges"),
    ),
    many=True,
)  # fmt: skip

TABLES: dict[str, TableFields] = {
    t.name: t
    for t in (
        ROOT,
        CYLINDER,
        BODY_MOUNT,
        ROD_MOUNT,
        BASE_PORT,
        ROD_PORT,
        EXTRA_PORT,
        BODY_PIN,
        ROD_PIN,
        DUTY,
        ORIGIN,
        DRAWING,
    )
}
"""In the order of the file."""

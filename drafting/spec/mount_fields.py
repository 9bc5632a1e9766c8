"""The fields of the two mount tables; which mount takes which is the model's to say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from drafting.records import dataclass
from drafting.spec.field import (
    Field,
    TableFields,
    flag,
    positive,
    size,
    size_or_none,
    with_tolerance,
    word,
    words,
)

BOLT_FIELDS = (
    Field("count", "count", "number of bolts", "4", True, least=1, most=64),
    size("hole", "diameter of the bolt holes", "0.656", True),
    size("circle", "bolt circle diameter", "6.5"),
    Field(
        "pitch",
        "pair or length",
        "bolt pitch: flange [along Y, along Z]; foot [along X, across], or the one across alone "
        "for one row of two bolts",
        "[4.5, 4.5]",
        least=0.0,
        example_mm="[115, 115]",
    ),
    Field("thread", "thread", "thread of the bolts", '"5/8-11 UNC"', example_mm='"M16"'),
    words("grade", "their grade, for the checks: 4.6 to 12.9, grade 2 to grade 8", "grade 5"),
    word("first_hole", "first hole on 12 o'clock, or astride it", "on", "astride"),
)

MOUNT_FIELDS: dict[str, Field] = {
    f.name: f
    for f in (
        size("pin", "diameter of the loose pin; trunnion: of the trunnion pin itself", "1.25"),
        size("hole", "finished hole, in the bushing if there is one", "1.266"),
        size(
            "width", "over the ears, tube length, eye or ring width; trunnion: over the pins", "3.5"
        ),
        size("gap", "clevis: between the ears", "1.5"),
        size("throat", "clevis: pin centre to the slot's bottom", "1.5"),
        size("nose", "swing radius past the pin", "1.25"),
        size("ball_width", "ball swivel: across the ball's faces", "1.09"),
        size("shoulders", "trunnion: across the shoulders", "5.0"),
        size("left", "eye or tube from the centre line to the +Y side", "2.0"),
        size("right", "eye or tube from the centre line to the -Y side", "1.5"),
        size("outside", "diameter or width of the eye, tube or lug round the pin", "2.25"),
        size_or_none("offset", "datum to the barrel's closed end, or to the rod's end", "1.5"),
        size("bushing", "outside diameter of the bushing, where one is fitted", "1.5"),
        flag("grease", "true when there is a grease fitting"),
        Field(
            "position",
            "word or length",
            "where the mount sits: base, middle, rod end, or a "
            "distance from the barrel's closed end to the datum",
            '"rod end"',
            choices=("base", "middle", "rod end"),
            signed=True,
        ),
        Field(
            "plate",
            "pair or length",
            "plate: flange [along Y, along Z] or a number when round; foot [along X, across]",
            "[6, 6]",
            above=0.0,
            example_mm="[150, 150]",
        ),
        size("thickness", "thickness of the plate", "1"),
        word("seat", "flange: the face that bears on the machine", "base side", "rod side"),
        size("seat_height", "foot: centre line to its seat", "2.5"),
        Field(
            "bolts",
            "table",
            "bolt holes: count, hole, and circle or pitch",
            "{count = 4, hole = 0.656, circle = 6.5}",
            fields=with_tolerance(BOLT_FIELDS),
            example_mm="{count = 4, hole = 17, circle = 165}",
        ),
        Field("clock", "clock", "foot: the hour that its seat faces", '"6:00"'),
        Field(
            "thread",
            "thread",
            "rod end thread, or the thread that holds the mount",
            '"1 1/4-12 UNF"',
            example_mm='"M33x2"',
        ),
        size("thread_length", "length of the thread", "2"),
        size("shoulder", "male thread: datum to the rod's shoulder", "2.25"),
        size_or_none("adjustment", "how far a threaded-on mount may be backed off", "0.25"),
        flag("jam_nut", "true when a jam nut holds the threaded-on mount"),
        size("flats", "wrench flats, across", "1.5"),
        flag("held", "true when the machine holds this end so that it cannot turn", "false"),
        size("weld_leg", "leg of the fillet that holds the mount", "0.375"),
        size("weld_run", "length of that weld, all its runs together", "8"),
        size("ear", "thickness of one of the machine's ears; clevis: of its eye", "0.75"),
        positive("bearing_rating", "force", "static rating of the bearing or bushing", "60000 lbf"),
        size("bearing_outside", "outside diameter of the ball's bearing, as bought", "2"),
        Field(
            "turned",
            "angle",
            "rod pin against body pin, clockwise as in the clocks",
            "90",
            signed=True,
            bare=True,
            least=-360.0,
            most=360.0,
        ),
    )
}
"""Every field that some mount takes; which mount takes which is the model's to say."""


ROD_ONLY = ("thread", "thread_length", "shoulder", "adjustment", "jam_nut", "flats", "turned")


@dataclass(frozen=True, slots=True)
class Taken:
    """What a mount's word stands for: the fields it takes, and what else is said for the word."""

    fields: tuple[str, ...]
    also: tuple[str, ...] = ()


def mount_field(field: Field, mounts: Mapping[str, Taken]) -> Field:
    """Give the field ``mount`` with the words of the mounts that there are."""
    also = tuple((said, word) for word, taken in mounts.items() for said in taken.also)
    return replace(field, choices=tuple(mounts), also=also)


def with_words(table: TableFields, mounts: Mapping[str, Taken]) -> TableFields:
    """Give a mount's table with the words of the mounts that there are."""
    first, *others = table.fields
    return replace(table, fields=(mount_field(first, mounts), *others))


def _mount(end: str, without: tuple[str, ...]) -> TableFields:
    first = Field("mount", "word", f"how the {end} is mounted", '"clevis"', required=True)
    others = tuple(f for f in MOUNT_FIELDS.values() if f.name not in without)
    fields = (first, *with_tolerance(others))
    return TableFields(f"{end}_mount", f"The mount on the {end}.", fields, required=True)


BODY_MOUNT = _mount("body", ROD_ONLY)
ROD_MOUNT = _mount("rod", ())

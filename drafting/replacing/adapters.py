"""Adapters: found by the thread at both ends, how far they stand out, and the room for that.

The hose end stays: an adapter screws into the candidate's port and gives the old port again. What
room there is was measured from the hose's end as it stands today, straight out of the old port.
"""

from __future__ import annotations

from functools import cache, partial
from math import radians, sin

from drafting.records import dataclass
from drafting.replacing.mounts import pinned
from drafting.replacing.rule import MEMORY, Answer, Job, Rule, Sides, number, word
from drafting.settle.mount import End
from drafting.standards.port_thread import PortThread
from drafting.standards.ports import PortWordError, parse_port

PORTS = {"base_port": "base", "rod_port": "rod"}
BODY, PASSAGE = 10.0, 0.6
"""An adapter's hexagon between its threads, mm; the clear bore of a port over its thread, as it is
drawn. Both from memory: the adapter in hand is measured."""
HEXAGON = 1.6
"""Across the corners of an adapter's hexagon, over its larger thread; from memory, on the safe
side."""
SIDEWAYS = 0.5
"""A port that looks so much along the pin (sine of its clock) looks at the machine's ear."""
SEALS = {"taper": "sealant on the taper, never an O-ring", "": "its O-ring or washer seals"}
GONE = "the room straight out of it is not known"


@cache
def port(typed: str) -> PortThread | None:
    """Give the port that a word means, None for a word that no table knows."""
    try:
        return parse_port(typed)
    except PortWordError:
        return None


@dataclass(frozen=True, slots=True)
class Adapter:
    """From the candidate's port to the old one. ``longer`` and ``passage`` in mm."""

    into: PortThread
    gives: PortThread

    @property
    def longer(self) -> float:
        """Give what it stands out of the port, about: the old port's depth and a hexagon."""
        depth = self.gives.drill_depth_mm or self.gives.thread_depth_mm or self.gives.major_mm
        return depth + BODY

    @property
    def passage(self) -> float:
        """Give the clear bore of the narrower end, about."""
        return PASSAGE * min(self.into.major_mm, self.gives.major_mm)

    @property
    def reduces(self) -> bool:
        """Tell whether the new port is the narrower one."""
        return self.into.major_mm < 0.98 * self.gives.major_mm

    @property
    def seals(self) -> str:
        """Say what seals at the candidate's port."""
        return SEALS["taper" if self.into.sizes.taper else ""]


def adapter(s: Sides, table: str) -> Adapter | None:
    """Give the adapter that a port wants, None where it wants none, or nobody can tell."""
    old, new = (port(w) if w else None for w in s.words(f"{table}.thread"))
    if old is None or new is None or old.is_flange or new.is_flange:
        return None
    return None if old.spelling == new.spelling else Adapter(new, old)


def farther(s: Sides, table: str) -> float:
    """Give how much farther out the hose's end stands, mm, by all that is known of both.

    A port that looks outwards moves with the barrel's outside and with its own height.
    """
    made = adapter(s, table)
    out = made.longer if made else 0.0
    if word(s.new, f"{table}.facing", "out") == word(s.old, f"{table}.facing", "out") == "out":
        skins, heights = s.numbers("cylinder.barrel_outside"), s.numbers(f"{table}.height")
        out += (skins[1] - skins[0]) / 2 if skins else 0.0
        out += heights[1] - heights[0] if heights else 0.0
    return out


def room(s: Sides, table: str) -> Answer | None:
    """Hold what an adapter adds against the room straight out of the port."""
    made, more = adapter(s, table), farther(s, table)
    end = PORTS[table]
    free = number(s.machine, f"hoses.{end}_free")
    if made is None:
        return None
    there, new = None if free is None else f"{s.bare(free)} free", f"{s.about(more)} more"
    beside = ear(s, table, made)
    if free is None:
        do = f"measure straight out from the hose's end: {s.about(more)} free or more"
        return Answer("not known", GONE, f"{do}{beside}", old=there, new=new)
    if more <= free + 1e-6:
        if beside:
            return Answer("not known", f"{s.say(free - more)} left straight out", beside[2:],
                          old=there, new=new)  # fmt: skip
        return Answer("works", f"{s.say(free - more)} left straight out", old=there, new=new)
    text = (
        f"{end} port: a straight adapter stands {s.say(more - free)} past the room of "
        f"{s.say(free)}: an elbow adapter instead, hose led off sideways. Measure its height in "
        "hand, and the room where the hose then goes"
    )
    job = Job(f"elbow adapter at the {end} port", text, 0.5)
    return Answer(
        "works with", f"{s.say(more - free)} too far out", jobs=(job,), old=there, new=new
    )


def ear(s: Sides, table: str, made: Adapter) -> str:
    """Say what to measure where an adapter may stand against the machine's ear, else nothing.

    Only a port whose clock looks along the pin can; one that stands farther out than the ear's
    outer face passes it.
    """
    end: End = "body" if table == "base_port" else "rod"
    clock, along = number(s.new, f"{table}.clock_from_rod"), number(s.new, f"{table}.position")
    if not pinned(s.new, end) or clock is None or abs(sin(radians(clock))) < SIDEWAYS:
        return ""
    if end == "rod" and along is not None:
        closed = number(s.new, "cylinder.retracted")
        along = None if closed is None else closed - along
    ears = "base_ears" if end == "body" else "rod_ears"
    gap, thick = (number(s.machine, f"{ears}.{n}") for n in ("gap", "ear"))
    skin, height = number(s.new, "cylinder.barrel_outside"), number(s.new, f"{table}.height")
    if None not in (gap, thick, skin, height):
        outer, face = (gap or 0.0) / 2 + (thick or 0.0), (skin or 0.0) / 2 + (height or 0.0)
        if face >= outer:
            return ""
    said = "; it looks at the machine's ear"
    if along is None:
        return f"{said}: hold the ear's end against the hexagon"
    half = HEXAGON * max(made.into.major_mm, made.gives.major_mm) / 2
    begins = s.say(max(along - half, 0.0))
    return f"{said}: its hexagon begins {begins} from the pin, the ear must end before"


def _reads(table: str) -> tuple[str, ...]:
    end = "body" if table == "base_port" else "rod"
    own = (f"{table}.{n}" for n in ("thread", "facing", "height", "clock_from_rod", "position"))
    return (*own, f"{end}_mount.mount", "cylinder.barrel_outside", "cylinder.retracted")


def _asks(table: str) -> tuple[str, ...]:
    ears = "base_ears" if table == "base_port" else "rod_ears"
    return (f"hoses.{PORTS[table]}_free", f"{ears}.gap", f"{ears}.ear")


RULES = tuple(
    Rule(f"{t}.room", f"room, {end} adapter", _reads(t), partial(room, table=t), MEMORY, "",
         _asks(t), decides=False)
    for t, end in PORTS.items()
)  # fmt: skip

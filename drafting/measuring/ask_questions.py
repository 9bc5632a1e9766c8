"""The questions of the bench in their order: what is asked, how to measure it, what may be said."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from drafting.measuring.ask_file import Key
from drafting.measuring.letters import WAYS, Letter, both_mounts, both_sheets, both_turn, letters
from drafting.measuring.pitch import FORMS
from drafting.measuring.readings_file import TOOLS
from drafting.measuring.rest_of_spec import placed_by_sight
from drafting.model.catalog import ENDS, mount_words
from drafting.records import dataclass
from drafting.standards.ports import PortWordError, parse_port

YES = ("yes", "no")
REPEATS = 2
"""Readings of each letter; where they disagree one more."""
_OVER: dict[str, str] = {
    **dict.fromkeys("AB", ", over the outer edges of both pin holes; faces as they are"),
    **dict.fromkeys("TKL", ", over the outer edge of the pin hole; a face as it is"),
}
Data = dict[str, Any]


def _fine(answer: str) -> str:
    return ""


@dataclass(frozen=True, slots=True)
class Question:
    """One question. ``name`` is how a person calls it; ``also`` are other keys that answer it.

    ``known`` are all the answers there are; ``letter`` is what is read, in ``repeats``. ``check``
    says what else is wrong with an answer. ``needed``: nothing can be done without it.
    """

    name: str
    key: Key
    words: str
    help: str = ""
    known: tuple[str, ...] = ()
    letter: Letter | None = None
    needed: bool = False
    also: tuple[Key, ...] = ()
    check: Callable[[str], str] = _fine
    whole: bool = False

    @property
    def keys(self) -> tuple[Key, ...]:
        """Give every key that answers it, the one that it writes first."""
        return tuple(dict.fromkeys((self.key, *self.also)))

    @property
    def repeats(self) -> int:
        """Give how many answers it wants."""
        return REPEATS if self.letter else 1


def questions(data: Data) -> Iterator[Question]:
    """Give the questions that follow from what is known; the mounts decide which there are."""
    yield Question("title", ("title",), "What is the cylinder for?", needed=True,
                   help="A title for the drawing, as: Orchard lift")  # fmt: skip
    yield Question("units", ("units",), "Inches or millimetres, for bare numbers?",
                   known=("in", "mm"), needed=True)  # fmt: skip
    for end, said in zip(ENDS, ("base", "rod"), strict=True):
        yield Question(f"{said}-end", (f"{end}_mount", "mount"), f"How is the {said} end mounted?",
                       known=mount_words(end), needed=True,
                       help="none: nothing is fixed at that end")  # fmt: skip
    mounts = [str(table.get("mount", "")) for t in ("body_mount", "rod_mount")
              if isinstance(table := data.get(t, {}), dict)]  # fmt: skip
    if len(mounts) == 2 and all(m in mount_words(e) for m, e in zip(mounts, ENDS, strict=True)):
        yield from _at_the_bench(mounts[0], mounts[1], data)


def _at_the_bench(body: str, rod: str, data: Data) -> Iterator[Question]:
    yield Question(
        "hard-stop", ("hard_stop",),
        "Off the machine, drained, ports open, so that it goes to a hard stop at both ends?",
        known=YES, help="In its machine a cylinder seldom reaches its own stops: say no there.",
    )  # fmt: skip
    for letter in letters(body, rod):
        yield _reading(letter)
    yield from _seen(body, rod)
    for table, end in (("base_port", "base"), ("rod_port", "rod")):
        yield from _port(table, end, data)


def _reading(letter: Letter) -> Question:
    key = letter.letter
    over = _OVER.get(key, "")
    return Question(
        key,
        (letter.tool, f"{key}_outer" if over else key),
        f"{key}  {letter.what} ({letter.tool}){over}",
        letter.tip,
        letter=letter,
        also=tuple(
            (tool, f"{name}_{way}" if way else name)
            for tool in TOOLS
            for name in (key, letter.name)
            for way in WAYS
        ),
    )


def _seen(body: str, rod: str) -> Iterator[Question]:
    """Give what is seen, not measured."""
    mounts = both_mounts(body, rod)
    for table, mount in zip(("body_mount", "rod_mount"), mounts, strict=True):
        end = "base" if table == "body_mount" else "rod"
        if mount.worksheet.reads("bolts"):
            yield Question(f"{end}-bolts", (table, "bolts"), f"How many bolt holes at the {end}?",
                           whole=True)  # fmt: skip
        if "seat" in mount.fields:
            yield Question(f"{end}-seat", (table, "seat"), f"Which face of the {mount.word} bears?",
                           known=("base side", "rod side"))  # fmt: skip
        if placed_by_sight(mount):
            yield Question(f"{end}-place", (table, "position"),
                           f"Where does the {mount.word} sit?",
                           known=("base", "middle", "rod end"))  # fmt: skip
    if both_sheets(body, rod)[1].has("thread"):
        yield Question("rod-pitch", ("rod_mount", "pitch"), "Pitch of the rod's thread", _TEN)
    if both_turn(body, rod):
        yield Question("turned", ("rod_mount", "turned"),
                       "Degrees from body pin to rod pin, 0 in line or 90 crossed",
                       whole=True)  # fmt: skip


_TEN = (
    f"{FORMS}: look-alike pitches, as 12 tpi and 2 mm, are told apart over ten threads and not by "
    "a gauge of a few teeth"
)


def _port(table: str, end: str, data: Data) -> Iterator[Question]:
    seen = data.get(table, {})
    seen = seen if isinstance(seen, dict) else {}
    yield Question(
        f"{end}-adapter", (table, "adapter"), f"Port at the {end} end: was an adapter in it?",
        "none: there was none. out: there was one, and it is out now. in: it is still in, and its "
        "thread is not the port's.", known=("none", "out", "in"),
    )  # fmt: skip
    yield Question(f"{end}-thread", (table, "thread"), "Its thread, if you know it",
                   "As SAE-8, 1/2 NPT, G 1/2 or M22x1.5 ISO 6149; left out, it is worked out from "
                   "what the caliper reads", check=_port_word)  # fmt: skip
    if "thread" not in seen:
        yield Question(f"{end}-female", (table, "female"), "Inside the port's thread, over the "
                       "crests", "The caliper's inside jaws at the mouth of the hole")  # fmt: skip
        yield Question(f"{end}-pitch", (table, "pitch"), "Its pitch", _TEN)
        yield Question(f"{end}-taper", (table, "taper"), "Is it a taper?", known=YES,
                       help="Measure at the first thread and again further on: a taper pipe thread "
                       "changes by 1/16 of that length, a parallel one not at all")  # fmt: skip
    yield Question(
        f"{end}-clock",
        (table, "clock"),
        "The hour that it faces, seen from the rod end, 12 up",
        "As 12:00 or 1:30",
    )


def _port_word(answer: str) -> str:
    try:
        parse_port(answer)
    except PortWordError as wrong:
        return wrong.message
    return ""

"""Female thread: a tapped hole in the rod's end; the end face is the datum."""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt
from typing import ClassVar

from drafting.model.mounts.flats import Flats, settle_flats
from drafting.model.mounts.rod_thread import (
    SCREWED_ON,
    settle_length,
    settle_thread,
    thread_sections,
)
from drafting.records import dataclass
from drafting.settle.carried import Carried, length
from drafting.settle.ledger import Ledger
from drafting.settle.mount import End, Host, Mount, MountDrawing
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet, ToRead
from drafting.settle.wishes import Callout, Length, Thread, Wish
from drafting.shape.frame import ORIGIN, X, scale
from drafting.shape.pieces import Piece, stepped
from drafting.standards.threads import ScrewThread

WIDEST = 0.8
"""A thread above this part of the rod leaves a thin wall: a finding."""


@dataclass(frozen=True, slots=True)
class FemaleThread(Mount):
    """A tapped hole, full thread to ``length`` (mm), drilled three pitches deeper."""

    table: str
    thread: ScrewThread | None
    length: float
    flats: Flats | None

    word: ClassVar[str] = "female thread"
    also: ClassVar[str] = "female internal-thread tapped"
    ends: ClassVar[tuple[End, ...]] = ("rod",)
    fields: ClassVar[tuple[str, ...]] = ("thread", "thread_length", "flats")
    example: ClassVar[Mapping[str, object]] = {"thread": "1-14 UNS", "thread_length": 1.5}
    not_sized: ClassVar[str] = "it ends as a plain rod does: size it as plain"
    datum: ClassVar[str] = "rod's end face"
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        "the end face",
        (
            ToRead(
                "M",
                "thread",
                "the hole inside its thread's crests",
                "thread",
                "caliper",
                "And the pitch with a gauge or from a bolt that fits.",
            ),
            ToRead("L", "thread_length", "depth of full thread", "size", "caliper"),
        ),
        {"thread": "M27x2", "thread_length": 45.0},
        inside_thread=True,
    )

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> FemaleThread:
        """Settle the thread; it must leave a wall."""
        t = host.table
        flats = settle_flats(book, host)
        thread = settle_thread(book, host)
        if thread is None:
            return cls(t, None, 0.0, flats)
        if thread.major_mm > 0.95 * host.rod:
            book.fault(
                "no-wall",
                f"{t}.thread",
                f"a thread of {book.say(thread.major_mm)} in a rod of {book.say(host.rod)} leaves "
                "no wall; a smaller thread, or a male thread, would do",
            )
        elif thread.major_mm > WIDEST * host.rod:
            book.find(
                "thin-wall",
                "warning",
                f"{t}.thread",
                f"a thread of {book.say(thread.major_mm)} in a rod of {book.say(host.rod)} leaves "
                f"{book.say((host.rod - thread.major_mm) / 2)} of wall: check it",
                "common practice",
            )
        return cls(t, thread, settle_length(book, host, thread), flats)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give 0: the datum is the rod's end face."""
        return 0.0

    def carried(self, host: Host) -> Carried:
        """Give the thread in the rod; what is screwed in is the machine's."""
        deep = length(f"{self.table}.thread_length")
        inside = thread_sections(self.thread, self.table, deep, inside=True)
        return Carried(inside, not_judged=(SCREWED_ON,))

    def judge(self, book: Ledger, host: Host, s: Stations) -> None:
        """Refuse a hole that is deeper than the rod is long."""
        if self._bottom() > s.rod_end - s.piston_front:
            book.fault(
                "hole-too-deep",
                f"{self.table}.thread_length",
                f"the tapped hole needs {book.say(self._bottom())} of rod, which is "
                f"{book.say(s.rod_end - s.piston_front)} long",
            )

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give the hole at the thread's major diameter, the tap drill beyond, its point."""
        thread, t = self.thread, self.table
        assert thread is not None
        major, drill = thread.major_mm / 2, self._drill()
        shape = stepped(
            (-1.0, major),
            (self.length, major),
            (self.length, drill),
            (self._drilled(), drill),
            (self._bottom(), 0.0),
        )
        pieces = [Piece(f"{t}.thread", shape, cut=True)]
        end = (self.length, 0.0, 0.0)
        deep = self.length / 2
        rim = ((deep, y * major, z * major) for y, z in ((0, 1), (0, -1), (1, 0), (-1, 0)))
        lines = (thread.callout(internal=True),)
        words = Callout(f"{t}.thread", ORIGIN, scale(X, -1.0), lines, others=tuple(rim))
        wishes: list[Wish] = [
            words,
            Length(f"{t}.thread_length", ORIGIN, end, X, rank=3, note="FULL THREAD"),
        ]
        line = Thread(f"{t}.thread", ORIGIN, end, thread.major_mm, 2 * drill, True, host.end)
        if self.flats:
            pieces += self.flats.pieces(host, s, 0.0)
            wishes += self.flats.wishes(host, s, 0.0)
        return MountDrawing(tuple(pieces), tuple(wishes), (line,))

    def _drill(self) -> float:
        """Give the radius of the tap drill: the internal thread's basic minor one."""
        return self.thread.bore_mm / 2 if self.thread else 0.0

    def _drilled(self) -> float:
        return self.length + 3 * self.thread.pitch_mm if self.thread else 0.0

    def _bottom(self) -> float:
        return self._drilled() + self._drill() / sqrt(3)

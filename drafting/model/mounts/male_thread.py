"""Male thread: the rod's end turned down and threaded; the end of the thread is the datum.

       shoulder
  |<------------>|
  +--------+-----+------------
  | thread |     |
  +--------+-----+     rod
datum      |     +------------
  |<------>|
 thread_length
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from drafting.model.mounts.flats import Flats, settle_flats
from drafting.model.mounts.pinned import ROOT, SMALL
from drafting.model.mounts.rod_thread import (
    SCREWED_ON,
    settle_length,
    settle_thread,
    thread_depth,
    thread_sections,
)
from drafting.records import dataclass
from drafting.settle.carried import Carried
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import End, Host, Mount, MountDrawing
from drafting.settle.stations import Stations
from drafting.settle.to_read import OnWorksheet, ToRead
from drafting.settle.wishes import Callout, Length, Thread, Wish
from drafting.shape.frame import ORIGIN, X, Z
from drafting.shape.pieces import Piece, stepped
from drafting.standards.threads import ScrewThread


@dataclass(frozen=True, slots=True)
class MaleThread(Mount):
    """A thread from x = 0 to ``length``, plain to the ``shoulder`` (mm)."""

    table: str
    thread: ScrewThread | None
    length: float
    shoulder: float
    flats: Flats | None

    word: ClassVar[str] = "male thread"
    also: ClassVar[str] = "male external-thread stud threaded-stud threaded-rod"
    ends: ClassVar[tuple[End, ...]] = ("rod",)
    fields: ClassVar[tuple[str, ...]] = ("thread", "thread_length", "shoulder", "flats")
    example: ClassVar[Mapping[str, object]] = {"thread": "1 1/4-12 UNF", "thread_length": 2}
    not_sized: ClassVar[str] = "its thread comes on top of the length: size it as plain"
    datum: ClassVar[str] = "thread end"
    worksheet: ClassVar[OnWorksheet] = OnWorksheet(
        "the end of the thread",
        (
            ToRead(
                "M",
                "thread",
                "over the thread's crests",
                "thread",
                "caliper",
                "On clean full threads; and the pitch with a gauge or over ten threads.",
            ),
            ToRead("L", "thread_length", "length of the thread", "size", "caliper"),
            ToRead(
                "Y", "shoulder", "end of the thread to the shoulder", "size", "caliper", "", False
            ),
        ),
        {"thread": "M36x2", "thread_length": 50.0, "shoulder": 62.0},
    )

    @classmethod
    def settle(cls, book: Ledger, host: Host) -> MaleThread:
        """Settle the thread; it ends before the shoulder or at it."""
        t = host.table
        thread = settle_thread(book, host)
        flats = settle_flats(book, host)
        if thread is None:
            return cls(t, None, 0.0, 0.0, flats)
        length = settle_length(book, host, thread)
        shoulder = book.size(
            f"{t}.shoulder", Rule(length, "the thread runs to the shoulder"), interface=True
        )
        if shoulder < length - SMALL:
            book.fault(
                "thread-past-shoulder",
                f"{t}.shoulder",
                f"{book.say(shoulder)} from the end to the shoulder is less than the thread of "
                f"{book.say(length)}; shoulder and thread_length both run from the end of the "
                "thread, and the shoulder lies farther",
            )
        return cls(t, thread, length, shoulder, flats)

    def reach(self, sizes: Mapping[str, float]) -> float:
        """Give the distance from the end of the thread to the shoulder."""
        return self.shoulder

    def carried(self, host: Host) -> Carried:
        """Give the thread; what is screwed on is the machine's."""
        return Carried(thread_sections(self.thread, host.table), not_judged=(SCREWED_ON,))

    def draw(self, host: Host, s: Stations) -> MountDrawing:
        """Give the thread as a cylinder at its major diameter, chamfered to its root."""
        thread = self.thread
        assert thread is not None
        shape = stepped(
            (0.0, thread.minor_mm / 2),
            (thread_depth(thread), thread.major_mm / 2),
            (self.shoulder + ROOT, thread.major_mm / 2),
        )
        pieces = [Piece(f"{self.table}.thread", shape)]
        wishes = [*self._wishes(thread)]
        if self.flats:
            pieces += self.flats.pieces(host, s, self.shoulder)
            wishes += self.flats.wishes(host, s, self.shoulder)
        end = (self.length, 0.0, 0.0)
        line = Thread(
            f"{self.table}.thread", ORIGIN, end, thread.major_mm, thread.minor_mm, False, host.end
        )
        return MountDrawing(tuple(pieces), tuple(wishes), (line,), note="TO END OF THREAD")

    def _wishes(self, thread: ScrewThread) -> tuple[Wish, ...]:
        t, shoulder = self.table, (self.shoulder, 0.0, 0.0)
        tip = (self.length / 2, 0.0, thread.major_mm / 2)
        whole = self.length > self.shoulder - SMALL
        note = "THREAD TO SHOULDER" if whole else "TO SHOULDER"
        wishes: list[Wish] = [
            Callout(f"{t}.thread", tip, Z, (thread.callout(),)),
            Length(f"{t}.shoulder", ORIGIN, shoulder, X, rank=3, note=note),
        ]
        if not whole:
            end = (self.length, 0.0, 0.0)
            wishes.append(Length(f"{t}.thread_length", ORIGIN, end, X, rank=2, note="THREAD"))
        return tuple(wishes)

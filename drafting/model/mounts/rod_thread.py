"""The thread of a rod's end: typed, or the usual one for the rod."""

from __future__ import annotations

from drafting.model.mounts.words import settle_word
from drafting.settle.carried import RodThread, Sum
from drafting.settle.ledger import COMMON, Ledger, Rule
from drafting.settle.mount import Host
from drafting.settle.shop_sizes import neat_up
from drafting.standards.threads import (
    ScrewThread,
    ThreadWordError,
    parse_thread,
    usual_length,
    usual_threads,
)

FULL = 0.02
"""A thread may be this much (mm) thicker than its rod and still count as cut on it."""


def settle_thread(book: Ledger, host: Host) -> ScrewThread | None:
    """Settle the thread, not larger than the rod, or enter a fault and give None."""
    name = f"{host.table}.thread"
    typed = book.spec.word(name)
    if typed is None:
        return _usual(book, host, name)
    book.given(name, interface=True)
    try:
        thread = parse_thread(typed)
    except ThreadWordError as wrong:
        book.fault(wrong.code, name, wrong.message)
        return None
    if thread.note:
        book.find("thread-read", "note", name, f"{thread.name}: {thread.note}", thread.source)
    if thread.major_mm > host.rod + FULL:
        book.fault(
            "thread-too-large",
            name,
            f"{thread.name} is {book.say(thread.major_mm)} outside, the rod {book.say(host.rod)}; "
            "the thread is cut on the rod",
        )
        return None
    return thread


def settle_length(book: Ledger, host: Host, thread: ScrewThread) -> float:
    """Settle the thread's length: the table's for this rod, else 1.25 of the thread."""

    def rule() -> Rule:
        usual = usual_length(thread, host.rod)
        if usual:
            return Rule(usual.length_mm, usual.why, usual.source or COMMON, "table")
        return Rule(neat_up(1.25 * thread.major_mm, host.units), "1.25 of the thread")

    return book.size(f"{host.table}.thread_length", rule, interface=True)


SCREWED_ON = "the machine's own thread on or in the rod's end, and how far it is screwed"


def thread_sections(
    thread: ScrewThread | None,
    table: str,
    engaged: Sum | None = None,
    seats: bool = True,
    inside: bool = False,
    less: float = 0.0,
) -> tuple[RodThread, ...]:
    """Give the rod's thread as a section that carries; none before there is one."""
    if thread is None:
        return ()
    name, metric = f"{table}.thread", thread.metric
    return (
        RodThread(name, thread.major_mm, thread.pitch_mm, metric, engaged, seats, inside, less),
    )


def thread_depth(thread: ScrewThread) -> float:
    """Give the depth of an external thread (mm)."""
    return (thread.major_mm - thread.minor_mm) / 2


def _usual(book: Ledger, host: Host, name: str) -> ScrewThread | None:
    known = sorted(usual_threads(host.rod), key=lambda k: k[0].metric != (host.units == "mm"))
    if not known:
        book.fault(
            "missing",
            name,
            f"no thread is typed, and no table has one for a rod of {book.say(host.rod)}; type "
            f'thread, for example "{"M27x2" if host.units == "mm" else "1 1/4-12 UNF"}"',
        )
        return None
    thread, row = known[0]
    settle_word(book, name, thread.name, f"the usual one for the rod, {row.where}")
    return thread

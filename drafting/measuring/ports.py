"""What was seen of the ports: the thread as known or identified, clock and place."""

from __future__ import annotations

from collections.abc import Iterable

from drafting.measuring.identify import Identification, identify
from drafting.measuring.maker import OWN, maker, world_of
from drafting.measuring.pitch import Pitch, read_pitch, ten_threads
from drafting.measuring.readings import SeenPort
from drafting.measuring.results import Account
from drafting.measuring.thread_readings import ReadingError
from drafting.standards.ports import PortWordError, parse_port

CALIPER_MM = 0.1
_SAME = 0.01
"""Pitches nearer than this part of one are the same."""


def take_ports(account: Account) -> None:
    """Enter both ports."""
    seen: dict[str, SeenPort] = {p.table: p for p in account.bench.ports}
    for table in ("base_port", "rod_port"):
        port = seen.get(table)
        if port is None:
            account.values.pop(f"{table}.position", None)
            account.ask(table, "nothing is said of this port", "its thread, clock and place")
        else:
            _take(account, port)
    _families(account)
    clocks = [p.number("clock") for p in account.bench.ports]
    odd = any(c is not None and c % 180.0 for c in clocks)
    if odd and "cylinder.clock_seen_from" not in account.bench.words:
        account.ask("clock", "clocks are given, but not from which end they were read",
                    'clock_seen_from = "rod" or "base"')  # fmt: skip


def _take(account: Account, port: SeenPort) -> None:
    table = port.table
    if port.seen.get("adapter") not in ("out", "none"):
        account.ask(table, "was an adapter in the port? An adapter's thread is not the port's",
                    'take it out, read the port itself, and write adapter = "out"')  # fmt: skip
    clock = port.number("clock")
    if clock is None:
        account.ask(table, "the hour that it faces is missing", "the clock, seen from the rod end")
    else:
        account.values[f"{table}.clock"] = clock
    word = port.seen.get("thread")
    thread = _known(account, table, str(word)) if word else _identified(account, port)
    if thread:
        account.values[f"{table}.thread"] = thread
    elif f"{table}.position" in account.values:
        account.values.pop(f"{table}.position")


def _known(account: Account, table: str, word: str) -> str | None:
    try:
        found = parse_port(word)
    except PortWordError as wrong:
        account.ask(table, wrong.message, "the thread by its full name, or female and pitch")
        return None
    account.comments[f"{table}.thread"] = f"as typed: {found.echo}"
    return found.spelling


def _identified(account: Account, port: SeenPort) -> str | None:
    table, pitch = port.table, read_pitch(str(port.seen.get("pitch", "")))
    try:
        found = _agreeing(port, pitch)
    except ReadingError as wrong:
        account.ask(table, wrong.message, "female or male, and the pitch")
        return None
    names, other = _names(found), ""
    if found.none and "taper" in port.seen:  # one wrong word against pitch and diameter
        bare = SeenPort(table, {k: v for k, v in port.seen.items() if k != "taper"})
        without = _agreeing(bare, pitch)
        if not without.none:
            said = "a taper" if port.seen["taper"] else "parallel"
            names = _names(without)
            other = f"pitch and diameter are those of {names[0]}, which is not {said}"
    if not names:
        account.ask(table, "no port of the tables agrees", "female, male, pitch and taper")
        return None
    names, dropped = _of_maker(account, names, found)
    account.comments[f"{table}.thread"] = f"best of {', '.join(names[:4])}"
    pitches = {c.thread.pitch_mm for c in found.candidates if c.thread.port in names}
    alike = pitch is not None and not pitch.counted and len(pitches) > 1
    if other:
        account.ask(table, other, "is it a taper? A taper grows by 1/16 of the length along it")
    elif pitch is None:
        named = names[0] if len(names) == 1 else f"one of {', '.join(names[:5])}"
        account.ask(table, f"no pitch was read; by its diameter it is {named}", _advice(found))
    elif len(names) > 1 or found.none:
        named = f"its thread is one of {', '.join(names[:5])}"
        account.ask(table, named, ten_threads(pitches) if alike else _advice(found))
    else:
        said = f"; not {', '.join(dropped)}: the rest is {maker(account)}" if dropped else ""
        account.comments[f"{table}.thread"] = f"identified from what was read{said}"
    return names[0]


def _agreeing(port: SeenPort, pitch: Pitch | None) -> Identification:
    taper = port.seen.get("taper")
    return identify(
        port.number("female"),
        port.number("male"),
        pitch.mm if pitch else None,
        None,
        taper if isinstance(taper, bool) else None,
        port.number("seat"),
        female_uncertainty_mm=CALIPER_MM,
        male_uncertainty_mm=CALIPER_MM,
        pitch_uncertainty_mm=pitch.uncertainty_mm if pitch else None,
    )


def _names(found: Identification) -> list[str]:
    """Give the ports that the readings do not rule out, best first."""
    left = found.candidates[: max(found.rivals, 1)]
    return list(dict.fromkeys(c.thread.port for c in left if c.thread.port))


def _advice(found: Identification) -> str:
    return " ".join(found.advice) or found.candidates[0].to_decide


def _of_maker(
    account: Account, names: list[str], found: Identification
) -> tuple[list[str], list[str]]:
    """Part the names into those of the maker's system and those that it rules out.

    A typed system rules out any other; readings that speak alike only what has the same pitch.
    """
    system = maker(account)
    if not system or len(names) < 2:
        return names, []
    pitch = {c.thread.port: c.thread.pitch_mm for c in found.candidates}
    own = [n for n in names if world_of(n) in OWN[system]]
    if not own:
        return names, []
    typed = bool(account.bench.system)
    other = [
        n for n in names if n not in own and (typed or abs(pitch[n] / pitch[own[0]] - 1) < _SAME)
    ]
    return [n for n in names if n not in other], other


def _families(account: Account) -> None:
    """Ask where the threads of one cylinder are at home in different places.

    Not where a person named both: then they were known.
    """
    threads = {
        p.table: word
        for p in account.bench.ports
        if (word := account.values.get(f"{p.table}.thread"))
    }
    named = all("thread" in p.seen for p in account.bench.ports)
    homes = {table: world_of(str(word)) for table, word in threads.items()}
    if named or "" in homes.values() or not _foreign(homes.values()):
        return
    said = " and ".join(f"{threads[t]} at the {t.replace('_', ' ')}" for t in threads)
    read = next(p.table for p in account.bench.ports if "thread" not in p.seen)
    account.ask(read, f"two families of threads on one cylinder: {said}",
                "is an adapter left in, or was one cut anew? Read that port once more")  # fmt: skip


def _foreign(homes: Iterable[str]) -> bool:
    """Tell whether inch threads stand beside others."""
    found = set(homes)
    return "inch" in found and len(found) > 1

"""What was seen of the ports: the thread as known or identified, clock and place."""

from __future__ import annotations

from drafting.measuring.identify import Identification, identify
from drafting.measuring.readings import SeenPort, pitch_mm
from drafting.measuring.results import Account
from drafting.measuring.thread_readings import ReadingError
from drafting.standards.ports import PortWordError, parse_port

CALIPER_MM = 0.1


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
    female, male = port.number("female"), port.number("male")
    taper, seat = port.seen.get("taper"), port.number("seat")
    try:
        found = identify(
            female,
            male,
            pitch_mm(str(port.seen.get("pitch", ""))),
            None,
            taper if isinstance(taper, bool) else None,
            seat,
            female_uncertainty_mm=CALIPER_MM,
            male_uncertainty_mm=CALIPER_MM,
        )
    except ReadingError as wrong:
        account.ask(port.table, wrong.message, "female or male, and the pitch")
        return None
    names = _names(found)
    if not names:
        account.ask(port.table, "no port of the tables agrees", "female, male, pitch and taper")
        return None
    best = names[0]
    account.comments[f"{port.table}.thread"] = f"best of {', '.join(names[:4])}"
    if len(names) > 1 or found.none or "pitch" not in port.seen:
        decide = " ".join(found.advice) or found.candidates[0].to_decide
        account.ask(port.table, f"its thread is one of {', '.join(names[:5])}", decide)
    else:
        account.comments[f"{port.table}.thread"] = "identified from what was read"
    return best


def _names(found: Identification) -> list[str]:
    """Give the ports that the readings do not rule out, best first."""
    left = found.candidates[: max(found.rivals, 1)]
    return list(dict.fromkeys(c.thread.port for c in left if c.thread.port))

"""Bore, rod, pins, barrel and threads: each read as the nearest common size, or left open."""

from __future__ import annotations

from drafting.measuring.identify import identify
from drafting.measuring.means import Mean
from drafting.measuring.nearest_size import (
    FITS_SIGMA,
    Size,
    SizeGuess,
    Snapped,
    Verdict,
    candidates,
    choose,
    common_sizes,
    verdict,
)
from drafting.measuring.pitch import read_pitch
from drafting.measuring.results import Account
from drafting.standards.table import Row as TableRow
from drafting.standards.table import table
from drafting.standards.threads import ThreadWordError, parse_thread
from drafting.units import format_inch, format_mm

LOOSE_MM = 1.0
"""A hole this much wider than its pin is worn, or the pin is; common practice."""
USUAL_FIT_MM = 0.9
"""Up to 1/32 in between hole and pin is usual, and speaks for the pin; common practice. The rest is
what a caliper may add."""
EVEN_WEAR_MM = 1.2
"""Even wear beyond this would show as a step; common practice."""
TIGHT_MM = 0.02
"""A pin does not go into a hole smaller than this below it."""
TUBE_SHARE = 0.004
"""Outside of a drawn tube against its nominal size, at least 0.25 mm; common practice."""


def judge_diameter(kind: Snapped, m: Mean, system: str, share: float | None) -> Verdict:
    """Judge a bore or a rod by its own readings."""
    return verdict(kind, m.value, m.u, m.agree and not m.once, system, share)


def judge_pin(pin: Mean, hole: Mean | None, system: str, share: float | None) -> Verdict:
    """Judge a pin with the hole that it goes through: a pin larger than its hole is none."""
    even = pin.agree and not pin.once
    found = candidates("pin", pin.value, pin.u, even)
    if hole is None:
        return choose("pin", found, system, share)
    room = hole.value + FITS_SIGMA * hole.u + TIGHT_MM
    enters = tuple(c for c in found if c.size.mm <= room)
    if found and not enters:
        note = f"a pin of {found[0].size.words} does not go into a hole of {format_mm(hole.value)}"
        return Verdict(False, found, f"{note} mm: is it the other end's?", DIFFERENT)
    chosen = choose("pin", enters, system, share)
    best = chosen.best
    if chosen.sure and best and hole.value - best.size.mm > LOOSE_MM:
        gap = format_mm(hole.value - best.size.mm)
        note = f"{best.size.words}, {gap} mm loose in its hole: pin worn, or hole pulled"
        return Verdict(False, enters, note, chosen.decide or DIFFERENT)
    if chosen.sure and best:
        rival = _worn_rival(pin.value, best.size, hole.value, room, system, share)
        if rival:
            note = f"{best.size.words}, or {rival.words} worn evenly: both go into the hole"
            return Verdict(False, (best, SizeGuess(rival, 0.0, rival.mm - pin.value)), note, UNWORN)
    return chosen


def _worn_rival(
    mm: float, best: Size, hole: float, room: float, system: str, share: float | None
) -> Size | None:
    """Give a larger common pin that would go into the hole, where only even wear tells against it.

    Nothing is open when the maker's system, or all the rest of the cylinder, speaks for ``best``
    and its fit is usual.
    """
    larger = [s for s in common_sizes("pin") if best.mm < s.mm <= min(room, mm + EVEN_WEAR_MM)]
    kin = (system == "inch") == best.inch if system else share == float(best.inch)
    usual = hole - best.mm <= USUAL_FIT_MM
    return next((s for s in larger if not (usual and kin and s.inch != best.inch)), None)


UNWORN = (
    "the pin where it never turned (under its head, at its end); or a new pin of the larger size "
    'tried in the hole; or system = "inch" or "metric" when a thread or the machine tells'
)
DIFFERENT = "pin and hole of each end once more, one end at a time, the pin where it never turned"


def take_tube(outside: Mean, bore: float | None) -> tuple[float, str]:
    """Give the stock tube that a barrel's outside may be, else the reading itself."""
    near = [
        r
        for r in table("tube").rows
        if abs(r.required("od_mm") - outside.value) <= tube_room(r, outside.u)
        and (bore is None or abs(r.required("id_mm") - bore) <= 0.1)
    ]
    sizes = sorted({r.required("od_mm") for r in near})
    if len(sizes) == 1:
        return sizes[0], f"stock tube {tube_words(near[0])}"
    return outside.value, "as read: no one tube of the table"


def ask_bore(account: Account, outside: Mean) -> None:
    """Enter the bores that a barrel of this outside may have, when its wall was not seen."""
    rows = [
        r
        for r in table("tube").rows
        if abs(r.required("od_mm") - outside.value) <= tube_room(r, outside.u)
    ]
    names = "; ".join(tube_words(r) for r in rows) or "no tube of the table has this outside"
    account.ask(
        "C",
        f"the wall was not seen, so the bore is one of: {names}",
        "the piston's diameter or its seal's size; the wall at a port (F); or force and pressure "
        "together: bore = sqrt(4 x force / (pi x pressure))",
    )


def tube_room(row: TableRow, u: float) -> float:
    """Give how far (mm) a barrel's outside may lie from a tube of the table."""
    return max(0.25, TUBE_SHARE * row.required("od_mm")) + 2 * u


def tube_words(row: TableRow) -> str:
    """Say a tube: bore and outside."""
    if row.word("system") == "inch":
        bore, out = (format_inch(row.required(c), 64) for c in ("id_mm", "od_mm"))
        return f"{bore} in bore, {out} in outside"
    return f"{format_mm(row.required('id_mm'))} mm bore, {format_mm(row.required('od_mm'))} outside"


def take_thread(account: Account, m: Mean, male: bool) -> str | None:
    """Give the rod's thread, or enter what is open and give the likeliest."""
    pitch = read_pitch(account.bench.pitch)
    u = max(2 * m.u, 0.05)
    found = identify(
        None if male else m.value,
        m.value if male else None,
        pitch.mm if pitch else None,
        pitch_uncertainty_mm=pitch.uncertainty_mm if pitch else None,
        male_uncertainty_mm=u,
        female_uncertainty_mm=u,
    )
    names: dict[str, float] = {}
    for c in found.candidates:
        word = _screw(c.thread.screw)
        if word:
            names.setdefault(word, c.score)
    best = max(names.values(), default=0.0)
    left = [n for n, score in names.items() if score >= 0.2 * best]
    if not left:
        account.ask(m.read.letter.letter, "no thread of the tables is near", "size and pitch again")
        return None
    if pitch is None or len(left) > 1 or best < 0.5:
        ask = "ten threads, counted and measured; then a thread gauge"
        account.ask(m.read.letter.letter, f"one of {', '.join(left[:5])}", ask)
    return left[0]


def _screw(word: str | None) -> str | None:
    try:
        return parse_thread(word).name if word else None
    except ThreadWordError:
        return None

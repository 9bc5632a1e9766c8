"""Measure: from the readings of tape and caliper to a spec, and what must be measured again.

Uncertainties are carried through to first order, lengths stay what they are, and a diameter is the
nearest common size only where the readings leave no other. Nothing is settled in silence: what is
not sure is open, and says which reading would decide. Not covered: what nobody at the bench can
see, such as materials, pressures, a stop tube, or stops outside the cylinder.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from drafting.factors import INCH
from drafting.measuring.adjust import Adjusted
from drafting.measuring.diameters import ask_bore, judge_diameter, judge_pin, take_thread, take_tube
from drafting.measuring.lengths import adjusted, estimate, terms
from drafting.measuring.letters import Letter, Tool, both_sheets
from drafting.measuring.maker import thread_votes
from drafting.measuring.means import Mean, means, swapped
from drafting.measuring.nearest_size import Verdict
from drafting.measuring.ports import take_ports
from drafting.measuring.readings import Bench, Read
from drafting.measuring.readings_file import bench_of
from drafting.measuring.rest_of_spec import fill_in
from drafting.measuring.results import Account, Confidence, Measured, Result
from drafting.measuring.two_ways import ALONG, ANEW, BARE, LENGTHS, Length, direct, gaps, second
from drafting.spec.read import read_document

Known = dict[str, Mean]
ENDS_MARK = "ends"
"""What is open when the two ends were mixed up: every letter that belongs to an end."""


def measure(readings: Path | str | bytes | Bench) -> Measured:
    """Read a file of readings (a path, or its content as bytes) and give what it amounts to.

    Raises Refused with every fault of the file.
    """
    bench = readings if isinstance(readings, Bench) else bench_of(read_document(readings))
    account = Account(bench)
    every = means(bench)
    judged = adjusted(bench, every)
    apart = gaps(bench, every)
    told = {x for gap in apart for x in gap.letters}
    for gap in apart:
        account.ask(", ".join(gap.letters), gap.words, ANEW)
    names = {m.read.name: m.read.letter.letter for m in every}
    if judged.outlier and names[judged.outlier] not in told:
        account.ask(judged.outlier, "does not agree with the others, which agree among themselves",
                    "this one again")  # fmt: skip
    elif judged.conflict and not told & {names[x] for x in judged.conflict}:
        account.ask(", ".join(judged.conflict), "do not agree, and none can be named as wrong",
                    "each of them again")  # fmt: skip
    doubted = {judged.outlier, *judged.conflict, *told}
    known = _known(bench, every, judged.adjusted)
    for x in LENGTHS:
        lone = direct(x, bench, every) if doubted & {x, "S", *ALONG} else None
        if lone and x in known:
            known[x] = replace(known[x], value=lone[0], u=lone[1])
        one, other = direct(x, bench, every), second(x, bench, every)
        if one and other and not lone:  # slips are one-sided: no mean takes them away
            known[x] = replace(known[x], u=max(known[x].u, abs(one[0] - other[0]) / 2))
    _repeats(account, every)
    _lengths(account, every, known, doubted)
    _diameters(account, known, doubted)
    _as_read(account, known, doubted)
    take_ports(account)
    return fill_in(account)


def _known(bench: Bench, every: Sequence[Mean], found: Adjusted) -> Known:
    """Give one adjusted mean for each letter that was read, or follows from what was read."""
    out: Known = {}
    for letter in bench.letters:
        mine = [m for m in every if m.read.letter is letter]
        of_others = letter.letter in ("A", "B", "C", "F")
        if not mine and not of_others:
            continue
        size = estimate(letter.letter, bench, every, found)
        if size is None:
            continue
        if mine:
            base = min(mine, key=lambda m: (m.guessed, m.u))
            values = tuple(v for m in mine for v in m.read.values)
            read = replace(base.read, values=values)
            out[letter.letter] = Mean(
                read,
                *size,
                all(m.agree for m in mine),
                all(m.guessed for m in mine),
                tuple(v for m in mine for v in m.set_aside),
            )
        else:
            behind = "CDF" if letter.letter in "CF" else "ABSTKL"
            from_others = [m for m in every if m.read.letter.letter in behind]
            count = min((len(m.read.values) for m in from_others), default=1)
            read = Read(letter, "", letter.tool, (size[0],) * count, 1)
            guessed = any(m.guessed for m in from_others)
            out[letter.letter] = Mean(read, *size, all(m.agree for m in from_others), guessed)
    return out


def _repeats(account: Account, every: Sequence[Mean]) -> None:
    """Enter readings that disagree with their repeats, and those without a repeat."""
    swap = swapped(account.bench)
    if swap:
        account.ask(ENDS_MARK, swap, "both ends again, one after the other, each letter at its end")
    for m in every:
        if not m.agree:
            letter = m.read.letter
            spread = account.say(m.spread)
            cause = _CAUSES.get(letter.kind, "a slip of the hand or the eye")
            account.ask(letter.letter, f"repeats of {m.read.name} lie {spread} apart: {cause}",
                        letter.tip or "again, twice")  # fmt: skip
    once = [m.read.letter.letter for m in every if m.once and not _repeated(m, every)]
    twice = {"T": "AB", "K": "A", "L": "B"}  # a length read two ways needs no repeat of either
    ways = {x for x in LENGTHS if second(x, account.bench, every)}
    once = [x for x in dict.fromkeys(once) if x not in account.bench.decided]
    once = [x for x in once if x not in ways and not ways & set(twice.get(x, ""))]
    if once:
        account.ask(", ".join(once), "read only once, so that a slip would not show",
                    "each of them a second time")  # fmt: skip


def _repeated(m: Mean, every: Sequence[Mean]) -> bool:
    return any(o is not m and o.read.letter is m.read.letter for o in every)


_CAUSES = {
    "length": "not pushed home to a hard stop each time, or the tape slipped",
    "bore": "a bell-mouth, or read on thread or chamfer",
    "rod": "chrome loss or a flat: bent and worn rods are worn on one side",
    "pin": "the pin is worn where it turns",
    "hole": "the hole is pulled long",
}


def _lengths(account: Account, every: Sequence[Mean], known: Known, doubted: set[str]) -> None:
    bench = account.bench
    for letter in (x for x in bench.letters if x.letter in ("A", "B")):
        if letter.letter in bench.decided or letter.letter not in known:
            continue
        m = known[letter.letter]
        own = [e for e in every if e.read.letter is letter]
        mine = [e.read.name for e in own]
        note = " to ".join(s.datum for s in both_sheets(bench.body, bench.rod))
        if not mine:
            note += ", from the other length and the travel"
        if m.guessed:
            account.ask(
                letter.letter,
                "a pin centre guessed by eye is known to 1/8 in at best",
                "over the outer edges of both pins or holes, or from edge to same edge",
            )
        edges = [x for e in own for x in _edges(e, bench, every) if account.is_open(x)]
        if edges:
            text = f"runs over the edges of {' and '.join(dict.fromkeys(edges))}, which is open"
            account.ask(letter.letter, text, "that first; this one follows from it")
        bad = bool(doubted & {letter.letter, *mine}) or account.is_open(letter.letter)
        if not bad and not _backed(account, letter, every):
            bad = True
        _enter(account, letter, m, m.value, "as read", "open" if bad or m.guessed else "sure", note)
    undecided = {"A", "B"} & known.keys() - bench.decided.keys()
    if undecided and not bench.hard_stop:
        account.ask(
            "A, B",
            "hard_stop = true is not in the file: was it off the machine, drained, against a hard "
            "stop at both ends, each time?",
            "closed and open again, twice",
        )


def _backed(account: Account, letter: Letter, every: Sequence[Mean]) -> bool:
    """Tell whether two ways gave a length; ask for the one that is missing."""
    x: Length = "A" if letter.letter == "A" else "B"
    bench, bare = account.bench, BARE[x]
    if direct(x, bench, every) is None:
        account.ask(x, f"measure once more: only one way led to it, and no reading of {x} itself",
                    letter.tip)  # fmt: skip
    elif second(x, bench, every) is None:
        state = "closed" if x == "A" else "open"
        account.ask(
            x,
            "measure once more: read in one way only, so that an error which repeats itself (short "
            "of the stop, a burned inch, the same wrong edge) does not show",
            f"T, body datum to the gland's face, and {bare}, the gland's face to the rod's datum "
            f"{state}, at the stop anew",
        )
    else:
        return True
    return False


def _edges(m: Mean, bench: Bench, every: Sequence[Mean]) -> list[str]:
    """Give the letters of the round things whose edges bound a length."""
    read = frozenset(e.read.letter.letter for e in every)
    sums = terms(m.read.letter.letter, m.read.way, bench, read)
    return [x for x in sums if x != m.read.letter.letter and x[0] in "HP"]


def _diameters(account: Account, known: Known, doubted: set[str]) -> None:
    """Take every diameter as a common size; the second look counts what the first was sure of."""
    bench = account.bench
    first = _verdicts(account, known, None)
    for letter in bench.letters:
        x = letter.letter
        if x not in first or x in bench.decided:
            continue
        rest = [v.best.size.inch for y, v in first.items() if y != x and v.sure and v.best]
        rest += thread_votes(bench)
        share = sum(rest) / len(rest) if rest else None
        v = _verdicts(account, known, share, x)[x]
        if x == "C" and not any(r.letter is letter for r in bench.reads):
            v = replace(v, note="; ".join(t for t in (v.note, "the outside less two walls") if t))
        m, best = known[x], v.best
        if not v.sure:
            account.ask(x, v.note, v.decide)
        doubt = x in doubted or account.is_open(x)
        confidence: Confidence = "sure" if v.sure and not doubt and not m.once else "open"
        if best is None:
            _enter(account, letter, m, _round(bench, m.value), "as read", "open", v.note)
        else:
            _enter(account, letter, m, best.size.mm, best.size.words, confidence, v.note)
    bore = account.values.get("cylinder.bore")
    outside = known.get("D")
    if outside is not None and "C" not in known and "C" not in bench.decided:
        ask_bore(account, outside)
    if outside is not None and "D" not in bench.decided:
        letter = outside.read.letter
        mm, words = take_tube(outside, bore if isinstance(bore, float) else None)
        size = _round(bench, mm) if words.startswith("as read") else mm
        _enter(account, letter, outside, size, words, "open" if account.is_open("D") else "likely",
               words)  # fmt: skip


def _verdicts(
    account: Account, known: Known, share: float | None, only: str = ""
) -> dict[str, Verdict]:
    found: dict[str, Verdict] = {}
    for x, m in known.items():
        kind = m.read.letter.kind
        if only and x != only:
            continue
        system = account.bench.system
        if kind == "bore" or kind == "rod":
            found[x] = judge_diameter(kind, m, system, share)
        elif kind == "pin":
            found[x] = judge_pin(m, known.get(f"H{x[-1]}"), system, share)
    return found


def _as_read(account: Account, known: Known, doubted: set[str]) -> None:
    """Enter what is never snapped, and threads."""
    bench = account.bench
    _, sheet = both_sheets(bench.body, bench.rod)
    for letter in bench.letters:
        x, m = letter.letter, known.get(letter.letter)
        if m is None or x in bench.decided or x in account.rows or letter.kind == "length":
            continue
        bad = x in doubted or account.is_open(x) or (m.once and letter.needed)
        if letter.kind == "thread":
            word = take_thread(account, m, not sheet.inside_thread)
            if word:
                account.values[letter.field] = word
                account.comments[letter.field] = (
                    f"{x} read {account.say_read(m.value, m.u)}, pitch {bench.pitch or 'not read'}"
                )
            continue
        if x == "F" and not any(r.letter.letter == "F" for r in bench.reads):
            continue
        note = "smallest of the readings" if letter.kind == "hole" else ""
        _enter(account, letter, m, m.value, "as read", "open" if bad else "sure", note)


def _enter(
    account: Account,
    letter: Letter,
    m: Mean,
    taken: float,
    words: str,
    confidence: Confidence,
    note: str = "",
) -> None:
    """Enter a row, the spec's value and its comment."""
    if letter.end and account.is_open(ENDS_MARK):
        confidence = "open"
    size = _round(account.bench, taken, m.read.tool) if words == "as read" else taken
    aside = ", ".join(account.say(v) for v in m.set_aside)
    if aside:
        cause = f"{aside} set aside: {_CAUSES[letter.kind]}"
        note = f"{note}; {cause}" if note else cause
    extra = f"; {note}" if note and note != words else ""
    row = Result(letter, m.value, m.u, size, words, confidence, note)
    taken_as = words if words.startswith("as read") else f"taken as {words}"
    account.comments[letter.field] = (
        f"{letter.letter} read {account.say_read(m.value, m.u)}, {taken_as}: "
        f"{confidence.upper() if confidence == 'open' else confidence}{extra}"
    )
    account.rows[letter.letter] = row
    account.values[letter.field] = size


def _round(bench: Bench, mm: float, tool: Tool = "caliper") -> float:
    """Round to a step that is finer than any reading with the tool."""
    if bench.units == "mm":
        return round(mm, _PLACES[tool] - 1)
    return float(Fraction(str(round(mm / 25.4, _PLACES[tool]))) * INCH)


_PLACES: dict[Tool, int] = {"tape": 2, "caliper": 3, "micrometer": 4}
"""Decimals of an inch; of a millimetre one less."""

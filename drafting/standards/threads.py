"""Screw threads of rods, studs and tie rods: ``1 1/4-12 UNF``, ``M30x2``, ``1-14 UNS``.

Sizes come from the designation itself by the formulas of ASME B1.1 and ISO 724, so that a thread
outside the tables is still exact; the table tells the series, and which sizes are usual.
"""

from __future__ import annotations

import re

from drafting.records import dataclass
from drafting.standards.table import SAME_MM, Row, lookup, table
from drafting.standards.words import SIZE, TPI, magnitude, tidy
from drafting.units import format_inch, format_mm

INCH = re.compile(
    rf"(?P<size>{SIZE})-(?P<tpi>{TPI})(?:[ -]?(?:[0-9]+-?)?(?P<series>UN(?:EF|[FCS])?))?"
    r"(?:[ -]?(?P<fit>[123][AB]))?(?:[ -]?(?P<hand>LH|RH))?"
)
METRIC = re.compile(
    r"M(?P<size>[0-9]+(?:\.[0-9]+)?)(?:X(?P<pitch>[0-9]+(?:\.[0-9]+)?))?"
    r"(?:[ -]?(?P<fit>[0-9][A-Z](?:[0-9][A-Z])?))?(?:[ -]?(?P<hand>LH|RH))?"
)
CONSTANT_PITCH = (4, 6, 8, 12, 16, 20, 28, 32)
"""Threads per inch of the constant-pitch series UN (ASME B1.1, from memory)."""
LEAST_MM, MOST_MM = 3.0, 500.0


class ThreadWordError(ValueError):
    """A thread's word cannot be taken: ``code`` and a ``message`` with what would do."""

    def __init__(self, code: str, message: str) -> None:
        self.code, self.message = code, message
        super().__init__(message)


@dataclass(frozen=True, slots=True)
class ScrewThread:
    """A parallel thread with 60 degree flanks; lengths in mm.

    ``name`` is the designation without a class. ``minor_mm`` is the root of the external thread
    (what a drawing shows on a rod), ``bore_mm`` the basic minor diameter of the internal one.
    ``where`` is the table's row, or "" for a thread that no table lists. ``note`` tells what was
    understood beyond what was typed.
    """

    name: str
    series: str
    major_mm: float
    pitch_mm: float
    minor_mm: float
    bore_mm: float
    tpi: float
    metric: bool
    left_hand: bool
    fit: str
    where: str
    confidence: str
    source: str
    note: str

    def callout(self, internal: bool = False) -> str:
        """Give the designation for a drawing, with its class: ``1 1/4-12 UNF-2A``."""
        usual = ("6H" if internal else "6g") if self.metric else ("2B" if internal else "2A")
        inner = self.fit.endswith(("H", "B"))
        fit = self.fit if self.fit and inner == internal else usual
        return f"{self.name}-{fit}{'-LH' if self.left_hand else ''}"


@dataclass(frozen=True, slots=True)
class ThreadLength:
    """A usual length of thread on a rod's end in mm, with its row and source."""

    length_mm: float
    why: str
    source: str
    confidence: str


def parse_thread(text: str) -> ScrewThread:
    """Give the thread that a word means, or raise ``ThreadWordError``."""
    typed, wanted = " ".join(text.split()), tidy(text)
    if len(typed) <= 60:
        if found := METRIC.fullmatch(wanted):
            return _metric(typed, found)
        if (found := INCH.fullmatch(wanted)) and not re.search(r"/0+(?![0-9])", wanted):
            return _inch(typed, found)
        if re.fullmatch(SIZE, wanted) and "/0" not in wanted:
            raise _no_pitch(typed, magnitude(wanted) * 254 / 10)
    raise ThreadWordError(
        "thread-unknown",
        f'"{typed[:60]}" is no screw thread; write size and threads per inch, "1 1/4-12 UNF", '
        'or size and pitch, "M30x2"',
    )


def usual_length(thread: ScrewThread, rod_mm: float | None = None) -> ThreadLength | None:
    """Give the usual thread length on a rod's end: the rod's own row, else the shortest listed."""
    rows = [
        (length, row)
        for row in table("rod_end_threads").rows
        if _same(row, thread) and (length := _length(row)) is not None
    ]
    own = [(n, r) for n, r in rows if rod_mm and abs((r.size("rod") or 0.0) - rod_mm) <= SAME_MM]
    if not rows:
        return None
    length, row = min(own or rows, key=lambda x: (x[0], x[1].line))
    rod = "for this rod" if own else "the shortest listed for this thread"
    return ThreadLength(
        length, f"{row.word('standard')}, {rod}, {row.where}", row.source, row.confidence
    )


def usual_threads(rod_mm: float) -> tuple[tuple[ScrewThread, Row], ...]:
    """Give the threads that tables put on a rod of this diameter (mm), each with its row."""
    rows = lookup(table("rod_end_threads").where(table="rod_to_thread"), "rod", rod_mm)
    return tuple((parse_thread(r.word("thread")), r) for r in rows)


def _length(row: Row) -> float | None:
    return row.length("thread_length_short_mm") or row.length("thread_length_in")


def _same(row: Row, thread: ScrewThread) -> bool:
    other = parse_thread(row.word("thread"))
    return (
        abs(other.major_mm - thread.major_mm) < SAME_MM
        and abs(other.pitch_mm - thread.pitch_mm) < 1e-6
    )


def _metric(typed: str, found: re.Match[str]) -> ScrewThread:
    major, note = float(found["size"]), ""
    rows = _of_size(major, metric=True)
    if found["pitch"]:
        pitch = float(found["pitch"])
    else:
        coarse = [r for r in rows if r.word("series") == "M coarse"]
        if not coarse:
            raise _no_pitch(typed, major)
        pitch = coarse[0].required("pitch_mm")
        note = f"without a pitch it is the coarse thread, M{major:g}x{pitch:g} (ISO 965-1)"
    _reasonable(typed, major, pitch)
    row = next((r for r in rows if abs(r.required("pitch_mm") - pitch) < 1e-6), None)
    series = row.word("series") if row else "M"
    return _thread(f"M{major:g}x{pitch:g}", series, major, pitch, found, row, note)


def _inch(typed: str, found: re.Match[str]) -> ScrewThread:
    size = magnitude(found["size"])
    tpi = _tpi(found["tpi"])
    if tpi == 0:
        raise ThreadWordError("thread-unknown", f'"{typed}" has no threads in an inch')
    major, pitch, asked = size * 254 / 10, 25.4 / tpi, found["series"] or ""
    _reasonable(typed, major, pitch)
    rows = _of_size(major, metric=False)
    row = next((r for r in rows if r.required("tpi") == tpi), None)
    known = row.word("series").split("-")[-1] if row else ""
    if (asked == "UNC") != (known == "UNC") and asked and (asked == "UNC" or known):
        raise _contradiction(typed, found["size"], tpi, asked, rows)
    if asked == "UNF" and not row:
        raise _contradiction(typed, found["size"], tpi, asked, rows)
    series = known or asked or ("UN" if tpi in CONSTANT_PITCH else "UNS")
    name = f"{format_inch(major, 64)}-{tpi:g} {series}"
    note = f"{asked} was typed; the table has it as {series}" if asked and asked != series else ""
    return _thread(name, series, major, pitch, found, row, note)


def _thread(
    name: str,
    series: str,
    major: float,
    pitch: float,
    found: re.Match[str],
    row: Row | None,
    note: str,
) -> ScrewThread:
    metric = name.startswith("M")
    root = 1.22687 if metric else 1.19078  # d3 of ISO 724; UNR root of ASME B1.1
    fit = found["fit"] or ""
    if not row:
        note = "; ".join(
            t for t in (note, "outside the table of series: sizes from the formulas") if t
        )
    return ScrewThread(
        name=name,
        series=series,
        major_mm=major,
        pitch_mm=pitch,
        minor_mm=major - root * pitch,
        bore_mm=major - 1.08253 * pitch,
        tpi=25.4 / pitch,
        metric=metric,
        left_hand=found["hand"] == "LH",
        fit=_class(fit) if metric else fit,
        where=row.where if row else "",
        confidence=row.confidence if row else "computed",
        source="ISO 724: d3 = D - 1.22687 P, D1 = D - 1.08253 P"
        if metric
        else "ASME B1.1: d3 (UNR) = D - 1.19078 P, D1 = D - 1.08253 P",
        note=note,
    )


def _class(fit: str) -> str:
    """Give a metric class its case back: 6H is a hole's; G is read as the rod's g."""
    return fit if "H" in fit else fit.lower()


def _tpi(text: str) -> float:
    whole, _, half = text.partition(" ")
    return float(whole) + (0.5 if half else 0.0)


def _of_size(major: float, metric: bool) -> list[Row]:
    rows = lookup(table("thread_un_metric").rows, "major", major)
    return [r for r in rows if r.word("thread").startswith("M") == metric]


def _reasonable(typed: str, major: float, pitch: float) -> None:
    if not LEAST_MM <= major <= MOST_MM or not 0.2 <= pitch <= major / 4:
        raise ThreadWordError(
            "thread-size",
            f'"{typed}" would be {format_mm(major)} mm outside with a pitch of '
            f"{format_mm(pitch)} mm, which is no thread; write size and pitch as in "
            '"1 1/4-12 UNF" or "M30x2"',
        )


def _no_pitch(typed: str, major: float) -> ThreadWordError:
    metric = typed.upper().startswith("M")
    names = [f'"{_name(r)}"' for r in _of_size(major, metric)]
    example = "M30x2" if metric else "1 1/4-12 UNF"
    known = f"usual are {', '.join(names)}" if names else f'write for example "{example}"'
    return ThreadWordError("thread-incomplete", f'"{typed}" says no pitch; {known}')


def _contradiction(
    typed: str, size: str, tpi: float, asked: str, rows: list[Row]
) -> ThreadWordError:
    names = [f'"{_name(r)}"' for r in rows]
    usual = f"; usual are {', '.join(names)}" if names else ""
    return ThreadWordError(
        "thread-two-meanings",
        f'"{typed}": {size} with {tpi:g} threads per inch is not {asked} (ASME B1.1){usual}',
    )


def _name(row: Row) -> str:
    series = row.word("series")
    thread = row.word("thread")
    return thread if thread.startswith("M") else f"{thread} {series.split('-')[-1]}"

"""Which thread is it? Readings on one side, every thread of the tables on the other.

The nominal size is not what the caliper reads: pipe threads are named after a pipe, dash sizes
after a tube. Where readings leave several threads, all are given with what tells them apart.
Not in the tables, so never among the answers: 45 degree flare and JIS fittings, many of which share
these threads.
"""

from __future__ import annotations

from dataclasses import replace

from drafting.measuring.thread_readings import Readings, agreement, outside, take
from drafting.records import dataclass
from drafting.standards.bands import KnownThread, known_threads

LEAST = 0.01
"""Worse agreement than this is no candidate."""
RIVAL = 0.15
"""A candidate that agrees at least this well, as a part of the best, is not ruled out."""
MOST = 16
"""Candidates that are given."""
ENOUGH = 0.3
"""Where nothing agrees at least this well, the answer is none of these: about a quarter of a
millimetre beside the band of a new thread; worn threads of printed charts still pass."""
NOT_COVERED = "45 deg flare and JIS fittings are not in the tables; several share these threads"


@dataclass(frozen=True, slots=True)
class ThreadMatch:
    """A thread that the readings allow. ``score`` 1 agrees fully.

    ``female_off_mm`` and ``male_off_mm`` are how far a reading lies beyond the standard's band.
    """

    thread: KnownThread
    score: float
    female_off_mm: float | None
    male_off_mm: float | None
    to_decide: str


@dataclass(frozen=True, slots=True)
class Identification:
    """The answer: candidates best first. ``decided`` when only one thread form is left.

    ``none``: not even the best agrees well enough to be an answer. ``rivals`` counts the candidates
    that the readings do not rule out. ``advice`` is what to measure next, the most telling first.
    """

    readings: Readings
    candidates: tuple[ThreadMatch, ...]
    rivals: int
    decided: bool
    advice: tuple[str, ...]

    @property
    def none(self) -> bool:
        """Tell whether nothing of the tables agrees well enough."""
        return not self.candidates or self.candidates[0].score < ENOUGH


def identify(
    female_mm: float | None = None,
    male_mm: float | None = None,
    pitch_mm: float | None = None,
    tpi: float | None = None,
    taper: bool | None = None,
    seat_deg: float | None = None,
    *,
    female_uncertainty_mm: float | None = None,
    male_uncertainty_mm: float | None = None,
    pitch_uncertainty_mm: float | None = None,
) -> Identification:
    """Rank the threads of the tables by how well they agree with what was read.

    ``female_mm`` is the inside of a hole's thread over the crests at its mouth, ``male_mm`` the
    outside of a fitting's thread. Uncertainties left out: a caliper's, or half of the step when a
    size is a whole fraction of an inch. Raises ``ReadingError``.
    """
    r = take(
        female_mm,
        male_mm,
        pitch_mm,
        tpi,
        taper,
        seat_deg,
        female_uncertainty_mm,
        male_uncertainty_mm,
        pitch_uncertainty_mm,
    )
    scored = [(agreement(k, r), k) for k in known_threads()]
    ranked = sorted(
        (x for x in scored if x[0] >= LEAST), key=lambda x: (-round(x[0], 2), x[1].order)
    )[:MOST]
    left = [k for score, k in ranked if score >= RIVAL * ranked[0][0]]
    candidates = tuple(
        ThreadMatch(
            k,
            score,
            None if r.female_mm is None else outside(r.female_mm, k.female),
            None if r.male_mm is None else outside(r.male_mm, k.male),
            to_decide(k, [x for x in left if x is not k], r),
        )
        for score, k in ranked
    )
    forms = {(round(k.pitch_mm, 2), k.taper, k.flank_deg, round(k.male[1], 0)) for k in left}
    decided = len(forms) == 1 and candidates[0].score >= ENOUGH
    lines = (*_odd_one_out(r, scored), *advice(left, r))
    return Identification(r, candidates, len(left), decided, lines)


def _odd_one_out(r: Readings, scored: list[tuple[float, KnownThread]]) -> tuple[str, ...]:
    """Name the one reading without which a thread agrees, where with it none does."""
    if max((score for score, _ in scored), default=0.0) >= ENOUGH:
        return ()
    for name, without in (("taper", replace(r, taper=None)), ("seat", replace(r, seat_deg=None))):
        score, k = max(((agreement(k, without), k) for _, k in scored), key=lambda x: x[0])
        if score >= ENOUGH:
            return (f"Look at the {name} again: without it {k.thread} agrees ({score:.2f}).",)
    return ()


def to_decide(k: KnownThread, rivals: list[KnownThread], r: Readings) -> str:
    """Say what tells a thread from the rivals that the readings leave, feature by feature."""
    if not rivals:
        return "nothing else in the tables is left"
    told = []
    if r.pitch_mm is None:
        told.append(_contrast(pitch_words(k), [(pitch_words(x), x) for x in rivals]))
    if r.taper is None:
        told.append(_contrast(_form(k), [(_form(x), x) for x in rivals]))
    if r.seat_deg is None:
        told.append(_contrast(seat_words(k), [(seat_words(x), x) for x in rivals]))
    told.append(_contrast(_flank(k), [(_flank(x), x) for x in rivals]))
    words = [t for t in told if t]
    if k.screw and any(k.screw == x.screw for x in rivals):
        words.append(f"as {k.family} it seals {k.seals}")
    return "; ".join(words) or "only a closer reading of the diameter tells"


def _contrast(own: str, others: list[tuple[str, KnownThread]]) -> str:
    """Give a feature with what its rivals have instead, "" when all have the same."""
    unlike: dict[str, str] = {}
    for word, x in others:
        if word != own:
            unlike.setdefault(word, x.thread)
    if not unlike:
        return ""
    named = ", ".join(f"{word} for {thread}" for word, thread in list(unlike.items())[:3])
    return f"{own} ({named})"


def _form(k: KnownThread) -> str:
    return "taper" if k.taper else "parallel"


def _flank(k: KnownThread) -> str:
    return f"{k.flank_deg:g} deg flanks"


def pitch_words(k: KnownThread) -> str:
    """Say a pitch as its trade does."""
    if k.screw and k.screw.startswith("M"):
        return f"pitch {k.pitch_mm:g} mm"
    return f"{round(k.tpi, 2):g} per inch"


def seat_words(k: KnownThread, read_deg: float | None = None) -> str:
    """Say a thread's seat, by the angle that was read where it is the one over both sides."""
    if not k.seats:
        return "no seat"
    angle = min(k.seats, key=lambda a: abs(a - (read_deg or k.seats[0])))
    return f"seat {angle:g} deg"


def advice(left: list[KnownThread], r: Readings) -> tuple[str, ...]:
    """Say what to measure next, the most telling first; nothing when one thread is left."""
    lines = []
    pitches = {round(k.pitch_mm, 2) for k in left}
    if len(left) > 1:
        if r.pitch_mm is None and len(pitches) > 1:
            named = ", ".join(dict.fromkeys(pitch_words(k) for k in left))
            lines.append(
                f"Use a pitch gauge over ten threads or more, or count over an inch: {named}."
            )
        if r.taper is None and len({k.taper for k in left}) > 1:
            lines.append(
                "Measure the diameter at the first thread and again a known length further on: a "
                "taper pipe thread grows by 1/16 of that length, a parallel one not at all."
            )
        if r.seat_deg is None and len({k.seats for k in left}) > 1:
            bare = any(not k.seats for k in left)
            angles = sorted({k.seats[0] for k in left if k.seats})
            named = ", ".join([*(f"{a:g} deg" for a in angles), *(["none"] if bare else [])])
            lines.append(f"Look at the seat: its angle from the axis tells ({named}).")
        if len({k.flank_deg for k in left}) > 1:
            lines.append(
                "Compare the flanks with a 55 and a 60 deg thread gauge against the light."
            )
    if r.female_mm is None or r.male_mm is None:
        other = "female" if r.female_mm is None else "male"
        lines.append(f"A fitting that is known to fit gives the other reading ({other}).")
    return tuple(lines)

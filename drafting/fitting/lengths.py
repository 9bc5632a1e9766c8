"""Closed and open against the distances that the machine asks, and what stops the travel."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.fitting.machine import Distance, Hinge, Machine
from drafting.fitting.row import GEOMETRY, Row, Verdict
from drafting.fitting.subject import Subject
from drafting.fitting.travel import (
    Place,
    dead_centres,
    extremes,
    hard_span,
    kind,
    place,
    pressure_angle,
    reaches,
    span,
)
from drafting.replacing.rule import PRACTICE, Job
from drafting.told.short import limit, quantity

MOST_TURN = 180.0
"""Degrees past the travel within which a piston's end is looked for."""
EQUAL = 1e-6
LEAST_ANGLE = 15.0
"""Degrees between cylinder and crank below which it is near its dead centre; common practice, from
memory."""


def lengths(s: Subject, m: Machine) -> tuple[Row, ...]:
    """Judge closed, open, what is met beyond the travel, and dead centres."""
    return (*_dead(m), *_ends(s, m), *_beyond(s, m), *_pair(s, m))


def say_at(m: Machine, at: float) -> str:
    """Say a place on the travel."""
    return f"{at:.1f} deg" if kind(m.way) == "deg" else quantity(at, "mm", m.units)


def _ends(s: Subject, m: Machine) -> Iterator[Row]:
    near, far = extremes(m.way, *span(m.way))
    left_in, left_out = near.length - s.closed, s.open - far.length
    for field, words, asked, has, left, off, p in (
        ("cylinder.retracted", "closed", near.length, s.closed, left_in, s.off[0], near),
        ("cylinder.extended", "open", far.length, s.open, left_out, s.off[1], far),
    ):
        closed = words == "closed"
        verdict, why, do, jobs = _judged(s, m, closed, asked, left, off)
        yield Row("lengths", field, words, verdict, "mm", asked, has, left, do, why,
                  GEOMETRY, p.at, jobs)  # fmt: skip


def _judged(
    s: Subject, m: Machine, closed: bool, asked: float, left: float, off: float
) -> tuple[Verdict, str, str, tuple[Job, ...]]:
    def say(x: float) -> str:
        return quantity(x, "mm", m.units)

    if left >= off - EQUAL:
        return "fits", "", "", ()
    if left >= -EQUAL:
        why = f"it fits by {say(left)}, less than its own tolerance of {say(off)}"
        do = "measure both again, or ask for a closer length"
        return "not known", why, do, ()
    word = "too long" if closed else "too short"
    bound = limit(asked, "mm", m.units, down=closed)
    why = f"{say(-left)} {word}"
    if not closed and s.adjustment + EQUAL >= -left:
        near, _ = extremes(m.way, *span(m.way))
        if near.length - s.closed + left >= -EQUAL:
            job = Job(
                f"back the threaded mount off {say(-left)}",
                f"lengths: back the threaded mount off {say(-left)}, of {say(s.adjustment)} that "
                "it allows; closed and open both grow by it. Lock it again",
                0.5,
            )
            return "fits with work", why, "", (job,)
    if closed:
        _, far = extremes(m.way, *span(m.way))
        if s.closed > far.length:
            why += "; the pins are never so far apart: it never goes in"
    return "does not fit", why, f"ask for {bound} or {'less' if closed else 'more'}", ()


def _beyond(s: Subject, m: Machine) -> Iterator[Row]:
    """Tell what stops it past each end of the travel: the machine's stop, or the piston."""
    low, high = span(m.way)
    hard_low, hard_high = hard_span(m.way)
    named = _named(m)
    for n, (at, hard, forward) in enumerate(((low, hard_low, False), (high, hard_high, True))):
        p = place(m.way, at)
        for length, words in ((s.closed, "closed"), (s.open, "open")):
            if length is s.closed and p.length < length - EQUAL:
                continue
            if length is s.open and p.length > length + EQUAL:
                continue
            if not _towards(m, p, forward, words == "closed"):
                continue
            most = MOST_TURN if isinstance(m.way, Hinge) else 1e9
            more = 0.0 if abs(p.length - length) <= EQUAL else reaches(
                m.way, length, at, forward, most)  # fmt: skip
            yield _stop_row(s, m, words, p, hard if named[n] else None, more, forward, length)


def _named(m: Machine) -> tuple[bool, bool]:
    way = m.way
    if isinstance(way, Distance):
        return way.hard_closest is not None, way.hard_farthest is not None
    return way.hard_start is not None, way.hard_end is not None


def _towards(m: Machine, p: Place, forward: bool, closed: bool) -> bool:
    """Tell whether going on past this end shortens (or else lengthens) the cylinder."""
    grows = (p.arm > 0.0) == forward
    return grows != closed


def _stop_row(
    s: Subject,
    m: Machine,
    words: str,
    p: Place,
    hard: float | None,
    more: float | None,
    forward: bool,
    length: float,
) -> Row:
    sign = 1.0 if forward else -1.0
    field = f"stop.{'closest' if words == 'closed' else 'farthest'}"
    name = f"past {words}"
    left = abs(length - p.length)
    ends = "never, within half a turn" if more is None else f"at {say_at(m, p.at + sign * more)}"
    if hard is None:
        why = (
            f"the piston stops it {ends}, "
            f"{quantity(left, 'mm', m.units)} past the travel; no stop of the machine is named"
        )
        return Row("lengths", field, name, "fits", "mm", None, length, left, "", why, PRACTICE,
                   p.at, decides=False)  # fmt: skip
    stop = place(m.way, hard)
    spare = (length - stop.length) if words == "open" else (stop.length - length)
    turn = sign * (hard - p.at) if more is None else more - sign * (hard - p.at)
    if spare >= -EQUAL:
        why = (
            f"the machine's stop at {say_at(m, hard)} comes first"
            + ("" if more is None else f", {_amount(m, turn)} before the piston's end")
            + "; it then takes the full force"
        )
        return Row("lengths", field, name, "fits", "mm", stop.length, length, spare, "", why,
                   PRACTICE, hard)  # fmt: skip
    job = Job(
        f"stop at {ends.removeprefix('at ')}",
        f"lengths: set the machine's stop before {ends.removeprefix('at ')}: there the piston "
        "stops first and takes the blow of the moving load, which it is not made for",
        2.0,
    )
    why = f"the piston stops {_amount(m, -turn)} before the machine's stop at {say_at(m, hard)}"
    return Row("lengths", field, name, "fits with work", "mm", stop.length, length, spare, "",
               why, PRACTICE, hard, (job,))  # fmt: skip


def _amount(m: Machine, x: float) -> str:
    return f"{x:.1f} deg" if kind(m.way) == "deg" else quantity(x, "mm", m.units)


def _dead(m: Machine) -> Iterator[Row]:
    """Refuse a travel through a dead centre, and name one that is near."""
    low, high = span(m.way)
    for at in dead_centres(m.way, low, high):
        why = (
            f"at {say_at(m, at)} the cylinder lies in line with "
            f"{'hinge and arm' if isinstance(m.way, Hinge) else 'the square to the guide'}: it "
            "has no lever there and cannot say which way it goes on"
        )
        yield Row("lengths", "travel.dead_centre", "dead centre", "does not fit", "deg"
                  if isinstance(m.way, Hinge) else "mm", None, None, None,
                  "move a pin so that it lies outside the travel (--suggest), or part the travel",
                  why, GEOMETRY, at)  # fmt: skip
    if dead_centres(m.way, low, high) or not isinstance(m.way, Hinge):
        return
    worst = min(
        (place(m.way, at) for at in (low, high)), key=lambda p: pressure_angle(p, m.way) or 0.0
    )
    angle = pressure_angle(worst, m.way)
    if angle is not None and angle < LEAST_ANGLE:
        why = (
            f"only {angle:.1f} deg between cylinder and crank at {say_at(m, worst.at)}; small "
            f"play and bending move the arm far there, forces on the pins are large; "
            f"{LEAST_ANGLE:g} or more is common practice"
        )
        yield Row("lengths", "travel.dead_centre", "near dead centre", "not known", "deg",
                  LEAST_ANGLE, angle, angle - LEAST_ANGLE, "see the forces at that end", why,
                  "common practice, from memory", worst.at, decides=False)  # fmt: skip


def _pair(s: Subject, m: Machine) -> Iterator[Row]:
    """Tell what unequal lengths do to cylinders that work together."""
    if m.count < 2:
        return
    off = max(s.off)
    known = f"as {quantity(off, 'mm', m.units)} of tolerance allows" if off else "by whatever"
    why = (
        f"{m.count} cylinders on one arm: {known} they differ, the one that ends first takes all "
        "at that end and twists the arm; let the machine's stop end the travel, not a piston"
    )
    yield Row("lengths", "pair.count", "pair", "fits", "", None, None, None, "", why,
              PRACTICE, None, decides=False)  # fmt: skip

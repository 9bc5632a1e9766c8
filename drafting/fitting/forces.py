"""Force asked and force there is at each place of the travel; oil, time, speed of the arm."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from math import degrees

from drafting.calc.force import annulus_area, cap_area
from drafting.calc.types import MM3_PER_LITRE
from drafting.checks.bands import ON_FORCE
from drafting.checks.loads import driven_areas
from drafting.fitting.asked import asked, own_weight, with_friction
from drafting.fitting.lengths import say_at
from drafting.fitting.machine import Distance, Machine
from drafting.fitting.row import STATICS, Row, Verdict
from drafting.fitting.subject import Subject
from drafting.fitting.travel import Place, crossings, kind, place, stations
from drafting.records import dataclass
from drafting.replacing.rule import PRACTICE, Job
from drafting.told.short import quantity

SMALL = 1.0
"""Forces (N) of less than that are none."""


@dataclass(frozen=True, slots=True)
class Position:
    """What is known at one place of the travel: N, mm and mm/rad; None at a dead centre.

    ``asked`` is by the loads alone; ``own`` what the cylinder's own weight adds; ``out`` and
    ``back`` are with both, and friction against the motion. ``push`` and ``pull`` are what there
    is, None without a pressure. ``speed_out`` and ``speed_back`` are the arm's (deg/s) or the
    carriage's (mm/s). ``column`` is the factor against buckling at the greatest push asked there.
    """

    place: Place
    asked: float | None
    own: float | None
    out: float | None
    back: float | None
    push: float | None
    pull: float | None
    speed_out: float | None = None
    speed_back: float | None = None
    column: float | None = None

    @property
    def still(self) -> float | None:
        """Give what it holds at rest, friction not credited."""
        return None if self.asked is None or self.own is None else self.asked + self.own

    @property
    def most_push(self) -> float:
        """Give the greatest push it takes there, at rest or moving; 0 for none."""
        return max((f for f in (self.still, self.out, self.back) if f is not None), default=0.0)

    @property
    def most_pull(self) -> float:
        """Give the greatest pull it takes there, above zero; 0 for none."""
        return -min((f for f in (self.still, self.out, self.back) if f is not None), default=0.0)


def pressure(s: Subject, m: Machine) -> float | None:
    """Give the pressure that drives it, MPa: the machine's supply, else what the spec says."""
    if m.supply.pressure is not None:
        return m.supply.pressure
    n = s.numbers
    found = n.duty.pressure or n.working_pressure
    return found.value if found else None


def there(s: Subject, m: Machine) -> tuple[float | None, float | None]:
    """Give push and pull at the pressure, less what the return side holds against them, N."""
    p = pressure(s, m)
    if p is None:
        return None, None
    n, back = s.numbers, m.supply.return_pressure
    if not back and n.duty.return_pressure is not None:
        back = n.duty.return_pressure.value
    areas = driven_areas(n)
    both = n.both_sides
    ring, cap = annulus_area(n.bore.value, n.rod.value), cap_area(n.bore.value)
    push = p * areas.get("push", 0.0) - (back * ring if both else 0.0)
    pull = p * areas.get("pull", 0.0) - (back * cap if both else 0.0)
    return max(push, 0.0), max(pull, 0.0)


def positions(s: Subject, m: Machine) -> tuple[Position, ...]:
    """Give what is known at every place that is looked at."""
    return tuple(position(s, m, p) for p in stations(m.way))


def position(s: Subject, m: Machine, p: Place) -> Position:
    """Give what is known at one place."""
    loads, own = asked(m.way, p, m.count), own_weight(m.way, p, s.weights)
    has_loads = not isinstance(m.way, Distance) and bool(m.way.loads)
    if not has_loads:
        loads = own = None if isinstance(m.way, Distance) else loads and 0.0
    out = back = None
    if loads is not None and own is not None:
        share, still = m.friction or 0.0, loads + own
        out, back = with_friction(still, share, True), with_friction(still, share, False)
    push, pull = there(s, m)
    return Position(p, loads, own, out, back, push, pull, *_speeds(s, m, p))


def _speeds(s: Subject, m: Machine, p: Place) -> tuple[float | None, float | None]:
    flow = m.supply.flow
    if flow is None and s.numbers.duty.flow is not None:
        flow = s.numbers.duty.flow.value
    if flow is None or abs(p.arm) < 1e-6:
        return None, None
    each = flow * MM3_PER_LITRE / m.count

    def one(area: float) -> float | None:
        if not area:
            return None
        speed = each / area / abs(p.arm)
        return degrees(speed) if kind(m.way) == "deg" else speed

    return one(s.area("push")), one(s.area("pull"))


def oil(s: Subject, m: Machine) -> tuple[float, float, float | None, float | None]:
    """Give litres out and back of one cylinder, and seconds, over the wanted travel."""
    ps = stations(m.way)
    run = sum(abs(b.length - a.length) for a, b in itertools.pairwise(ps))
    out, back = (s.area(w) * run / MM3_PER_LITRE for w in ("push", "pull"))
    flow = m.supply.flow
    if flow is None and s.numbers.duty.flow is not None:
        flow = s.numbers.duty.flow.value
    if not flow:
        return out, back, None, None
    return out, back, out * m.count / flow or None, back * m.count / flow or None


def forces(s: Subject, m: Machine, ps: tuple[Position, ...]) -> tuple[Row, ...]:
    """Judge the force asked against the force there is, both ways."""
    if isinstance(m.way, Distance):
        why = "only distances are given: how the load acts on the cylinder is not known"
        return (Row("force", "force", "force", "not known", "n", do="write [hinge] or [slide] "
                    "with its loads, or type duty.push and duty.pull and run check", why=why,
                    source=STATICS, decides=False),)  # fmt: skip
    if not m.way.loads:
        return (Row("force", "force", "force", "not known", "n", why="no load is given",
                    do="write what it carries as [[hinge.load]] or [[slide.load]]",
                    source=STATICS, decides=False),)  # fmt: skip
    return (*_ways(s, m, ps), *_ahead(s, m, ps), *_all_on_one(m, ps), *_friction(m))


def _ways(s: Subject, m: Machine, ps: tuple[Position, ...]) -> Iterator[Row]:
    p = pressure(s, m)
    for way, words in (("push", "worst push"), ("pull", "worst pull")):
        most = "most_push" if way == "push" else "most_pull"
        worst = max(ps, key=lambda q: getattr(q, most))
        need = getattr(worst, most)
        if need <= SMALL:
            continue
        has = worst.push if way == "push" else worst.pull
        at = worst.place.at
        if not s.area(way):
            why = f"at {say_at(m, at)} it is to {way}, and this cylinder cannot"
            yield Row("force", way, words, "does not fit", "n", need, 0.0, -need,
                      "a double-acting cylinder", why, STATICS, at)  # fmt: skip
            continue
        if has is None or p is None:
            yield Row("force", way, words, "not known", "n", need, None, None,
                      "write [supply] pressure", "no pressure is given", STATICS, at)  # fmt: skip
            continue
        yield _held(m, way, words, need, has, at, p)


def _held(m: Machine, way: str, words: str, need: float, has: float, at: float, p: float) -> Row:
    ratio = has / need
    used = f"{100 / ratio:.0f} % used at {say_at(m, at)}"
    if ratio >= ON_FORCE.ample:
        verdict: Verdict = "fits"
        do = ""
    elif ratio >= ON_FORCE.least:
        verdict, do = "not known", "less than a tenth is left for the seals' friction"
    else:
        verdict = "does not fit"
        do = f"a larger bore, {quantity(p / ratio * ON_FORCE.ample, 'MPa', m.units)}, or pins "
        do += "with more lever (--suggest)"
    return Row("force", way, words, verdict, "n", need, has, has - need, do, used, STATICS, at)


def _ahead(s: Subject, m: Machine, ps: tuple[Position, ...]) -> Iterator[Row]:
    """Name where the load drives the cylinder, and where it passes over the hinge."""
    still = [(q.place.at, q.still) for q in ps if q.still is not None]
    ats = tuple(q.place.at for q in ps)

    def at_rest(at: float) -> float | None:
        return position(s, m, place(m.way, at)).still

    jobs = []
    if any(f > SMALL for _, f in still):
        jobs.append(_valve("base", "closes under its load"))
    if any(f < -SMALL for _, f in still):
        jobs.append(_valve("rod", "is drawn out by its load"))
    over = crossings(at_rest, ats)
    if over:
        where = ", ".join(say_at(m, at) for at in over)
        why = (
            f"the load passes over at {where}: it is pushed on one side and held back on the other"
        )
        yield Row("force", "over_centre", "over-centre", "fits with work", "n", None, None, None,
                  "", why, STATICS, over[0], tuple(jobs))  # fmt: skip
    elif jobs:
        why = "one way the load drives the cylinder; oil alone holds it when the pump stands"
        yield Row("force", "holding", "load runs ahead", "fits with work", "n", None, None, None,
                  "", why, PRACTICE, None, tuple(jobs))  # fmt: skip


def _valve(end: str, what: str) -> Job:
    return Job(
        f"holding valve on the {end} port",
        f"holding valve (counterbalance, or pilot-operated check with a throttle) on the {end} "
        f"port, as near to it as can be: the cylinder {what}. Where the circuit has one, nothing "
        "is to do",
        1.0,
    )


def _all_on_one(m: Machine, ps: tuple[Position, ...]) -> Iterator[Row]:
    """Tell what it means when one of several carries all."""
    if m.count < 2:
        return
    worst = max(ps, key=lambda q: max(q.most_push, q.most_pull))
    need = max(worst.most_push, worst.most_pull) * m.count
    has = worst.push if worst.most_push >= worst.most_pull else worst.pull
    enough = has is not None and has >= need * ON_FORCE.ample
    why = f"they share equally while they are alike; one alone would take {m.count} times as much"
    yield Row("force", "pair.alone", "one carries all", "fits" if enough else "not known", "n",
              need, has, None if has is None else has - need,
              "" if enough else "make sure that all stay connected and alike", why, STATICS,
              worst.place.at, decides=False)  # fmt: skip


def _friction(m: Machine) -> Iterator[Row]:
    if m.friction is None:
        yield Row("force", "pivot_friction.share", "friction", "not known", "",
                  do="write [pivot_friction] share (0.05 for greased pins is common practice)",
                  why="none is credited, and none is added: raising may take more than said",
                  source=PRACTICE, decides=False)  # fmt: skip

"""The sections that a mount declares, each held against the force along the rod."""

from __future__ import annotations

from collections.abc import Iterator
from functools import singledispatch
from math import inf, pi

from drafting.calc import lug, pin, weld
from drafting.calc.bearing import static_factor
from drafting.calc.force import rod_area
from drafting.calc.thread import (
    female_shear_area,
    male_shear_area,
    shear_strength,
    stress_area_metric,
    stress_area_unified,
)
from drafting.calc.tube import bar_stress
from drafting.checks.bands import ON_BEARING, ON_YIELD
from drafting.checks.check import LoadCase
from drafting.checks.numbers import CylinderNumbers, EndMount
from drafting.checks.question import At, Input, Question, sized, strong, unknown, unsaid
from drafting.checks.stress import FEW, area_of, mpa, over
from drafting.settle.carried import (
    Eye,
    Fillet,
    LoosePin,
    MountBolts,
    RodThread,
    Stubs,
    Sum,
)

MACHINE_EAR = (0.3, 0.6)
"""One ear of the machine, as a part of what stands between its ears, where nobody typed it."""
MACHINE_EYE = (0.6, 1.0)
"""The machine's eye as a part of the gap that it goes into, where nobody typed it."""
PLAY = 0.05
"""Play beside a single eye, each side, as a part of its width; common practice."""
LEG = 8.0
"""Where the search for a weld that would do begins, mm, once round the rod."""


def force(case: LoadCase) -> float:
    """Give the force along the rod, whichever way, N."""
    return abs(case.rod)


def sizes(n: CylinderNumbers, *sums: Sum) -> tuple[Input, ...]:
    """Give the fields of some lengths as inputs, each once; unknown ones begin at the rod."""
    fields = dict.fromkeys(f for s in sums for f in s.fields)
    return tuple(sized(n.sizes[f]) if f in n.sizes else unknown(f, n.rod.value) for f in fields)


@singledispatch
def questions(section: object, n: CylinderNumbers, m: EndMount) -> Iterator[Question]:
    """Give the questions on a section of a mount."""
    raise TypeError(f"no check knows a section {type(section).__name__}")


@questions.register
def _(s: LoosePin, n: CylinderNumbers, m: EndMount) -> Iterator[Question]:
    metal, round_it = strong(n.steels["pin"]), strong(n.steels[m.field])
    inner, outer = sizes(n, s.inner), sizes(n, s.outer)
    said = f"{n.steels['pin'].name}, {n.steels['pin'].source}"
    yield Question(
        f"{m.end}-pin-shear",
        f"Pin {m.where} in double shear",
        ON_YIELD,
        (*sizes(n, s.pin), metal),
        lambda at, c: over(
            shear_strength(at[metal.field]), pin.double_shear(force(c), s.pin.of(at))
        ),
        f"F/2A against yield over root three; {said}",
        lambda at, c: mpa(pin.double_shear(force(c), s.pin.of(at))),
    )
    yield _bearing(s, n, m, metal, round_it)
    ear = _machine(s, n, f"{m.field}.ear")
    inputs = [*sizes(n, s.pin), *(i for i in (*inner, *outer) if i.field != ear.field), ear]
    if s.room is not None:
        known = {i.field for i in inputs}
        inputs += [i for i in sizes(n, s.room) if i.field not in known]

    def bent(at: At, case: LoadCase) -> float:
        wide, thick = s.inner.of(at), s.outer.of(at)
        play = PLAY * wide if s.room is None else (s.room.of(at) - wide) / 2
        if min(wide, thick) <= 0.0 or play < -FEW:
            return inf  # no metal, or an eye that does not go into its gap
        moment = pin.bending_moment(force(case), wide, thick, play)
        return pin.bending_stress(moment, s.pin.of(at))

    yield Question(
        f"{m.end}-pin-bending",
        f"Pin {m.where} in bending",
        ON_YIELD,
        (*inputs, metal),
        lambda at, c: over(at[metal.field], bent(at, c)) if force(c) else inf,
        "loose pin, load spread evenly over eye and ears, 1/20 of a single eye's width as play on "
        f"each side; {said}",
        lambda at, c: (
            f"{bent(at, c):.0f} MPa; more play bends it more"
            if bent(at, c) < inf
            else "the eye does not go into the gap, or no metal is left"
        ),
    )


def _machine(s: LoosePin, n: CylinderNumbers, field: str) -> Input:
    """Give the machine's ear or eye: typed, else a range of what is usual."""
    if field in n.sizes:
        return sized(n.sizes[field])
    at = {f: x.value for f, x in n.sizes.items()}
    known, part = (s.inner, MACHINE_EAR) if s.room is None else (s.room, MACHINE_EYE)
    return Input(field, part[0] * known.of(at), part[1] * known.of(at), False, False)


def _bearing(
    s: LoosePin, n: CylinderNumbers, m: EndMount, metal: Input, round_it: Input
) -> Question:
    steels = (metal, round_it)
    if s.bushing:
        field = f"{m.field}.bearing_rating"
        known = n.sizes.get(field)
        return _rated(m, sized(known, "N") if known else unknown(field, 1000.0, "N"))
    bears = (*sizes(n, s.pin), *(i for i in sizes(n, s.bears) if i.field not in s.pin.fields))

    def pressed(at: At, case: LoadCase) -> float:
        wide = s.bears.of(at)
        return pin.bearing_pressure(force(case), s.pin.of(at), wide) if wide > 0 else inf

    return Question(
        f"{m.end}-pin-bearing",
        f"Pressure between pin and hole {m.where}",
        ON_YIELD,
        (*bears, *steels),
        lambda at, c: over(min(at[i.field] for i in steels), pressed(at, c)) if force(c) else inf,
        "F over projected area, on yield of the softer of pin and mount",
        lambda at, c: f"{mpa(pressed(at, c))}; a pin that turns under load bears far less",
    )


def _rated(m: EndMount, rating: Input) -> Question:
    return Question(
        f"{m.end}-bearing",
        f"Bushing or bearing {m.where} on its static rating",
        ON_BEARING,
        (rating,),
        lambda at, c: static_factor(at[rating.field], force(c)) if force(c) else inf,
        "static rating over the greatest force",
    )


@questions.register
def _(s: Eye, n: CylinderNumbers, m: EndMount) -> Iterator[Question]:
    metal = strong(n.steels[m.field])
    said = f"{n.steels[m.field].name}, {n.steels[m.field].source}"

    def beside(at: At, case: LoadCase) -> float:
        wide, hole, thick = s.outside.of(at), s.hole.of(at), s.thick.of(at)
        if wide <= hole or thick <= 0:
            return inf
        return lug.eye_tension(force(case), wide, hole, thick)

    def past(at: At, case: LoadCase) -> float:
        nose, hole, thick = s.nose.of(at), s.hole.of(at), s.thick.of(at)
        if nose <= hole / 2 or thick <= 0:
            return inf
        return lug.tear_out(force(case), nose, hole, thick)

    yield Question(
        f"{m.end}-eye-tension",
        f"Metal beside the hole {m.where}, in tension",
        ON_YIELD,
        (*sizes(n, s.outside, s.hole, s.thick), metal),
        lambda at, c: over(at[metal.field], beside(at, c)) if force(c) else inf,
        f"mean stress; {said}",
        lambda at, c: f"{mpa(beside(at, c))}; mean, two to three times at the hole's edge",
    )
    yield Question(
        f"{m.end}-tear-out",
        f"Metal past the hole {m.where}, tearing out",
        ON_YIELD,
        (*sizes(n, s.nose, s.hole, s.thick), metal),
        lambda at, c: over(shear_strength(at[metal.field]), past(at, c)) if force(c) else inf,
        f"two shortest planes; {said}",
        lambda at, c: mpa(past(at, c)),
    )


@questions.register
def _(s: Stubs, n: CylinderNumbers, m: EndMount) -> Iterator[Question]:
    metal = strong(n.steels[m.field])
    said = f"{n.steels[m.field].name}, {n.steels[m.field].source}"

    def sheared(at: At, case: LoadCase) -> float:
        return pin.single_shear(force(case) / 2, s.pin.of(at))

    def bent(at: At, case: LoadCase) -> float:
        long = s.length.of(at)
        moment = pin.cantilever_moment(force(case) / 2, long)
        return pin.bending_stress(moment, s.pin.of(at)) if long > 0 else inf

    yield Question(
        f"{m.end}-trunnion-shear",
        "Trunnion pins in shear, half the force on each",
        ON_YIELD,
        (*sizes(n, s.pin), metal),
        lambda at, c: over(shear_strength(at[metal.field]), sheared(at, c)),
        f"F/2 over the pin's section; {said}",
        lambda at, c: mpa(sheared(at, c)),
    )
    yield Question(
        f"{m.end}-trunnion-bending",
        "Trunnion pins in bending at their shoulders",
        ON_YIELD,
        (*sizes(n, s.pin, s.length), metal),
        lambda at, c: over(at[metal.field], bent(at, c)) if force(c) else inf,
        f"load spread evenly over the pin's length; {said}",
        lambda at, c: mpa(bent(at, c)),
    )


@questions.register
def _(s: Fillet, n: CylinderNumbers, m: EndMount) -> Iterator[Question]:
    metal, beside = strong(n.steels["weld"]), strong(n.steels[m.field])
    begin = ((s.leg, LEG), (s.run, pi * n.rod.value))
    inputs = [
        sized(n.sizes[f]) if f in n.sizes else unknown(f, x) for w, x in begin for f in w.fields
    ]

    def factor(at: At, case: LoadCase) -> float:
        stress = weld.fillet_stress(force(case), s.leg.of(at), s.run.of(at))
        return over(shear_strength(min(at[metal.field], at[beside.field] * 2**0.5)), stress)

    yield Question(
        f"{m.end}-weld",
        f"Weld of the mount {m.where}",
        ON_YIELD,
        (*inputs, metal, beside),
        factor,
        "force over the throat of all runs, straight; throat against the weld metal, leg against "
        "the mount's; where it joins hardened rod or cast iron it is not covered",
        lambda at, c: "repeated load is not covered and breaks welds first",
    )


@questions.register
def _(s: RodThread, n: CylinderNumbers, m: EndMount) -> Iterator[Question]:
    metal = strong(n.steels["rod"])
    word = sized(n.sizes[s.field], "") if s.field in n.sizes else Input(s.field, 1, 1, unit="")
    area = (stress_area_metric if s.metric else stress_area_unified)(s.major, s.pitch)

    def pulls(case: LoadCase) -> float:
        return max(-case.rod, 0.0) if s.seats else force(case)

    def left(at: At) -> float:
        return rod_area(at[n.rod.name]) - rod_area(s.major) if s.inside else area

    yield Question(
        "rod-thread",
        "Rod round its thread in tension" if s.inside else "Rod thread in tension",
        ON_YIELD,
        (sized(n.rod), word, metal),
        lambda at, c: over(at[metal.field], bar_stress(pulls(c), max(left(at), 1e-9))),
        f"force over the section left; {n.steels['rod'].name}, {n.steels['rod'].source}",
        lambda at, c: f"{pulls(c):.0f} N; thread roots break first under repeated load",
    )
    engaged = s.engaged
    if engaged is None:
        return
    other = strong(n.steels[m.field])
    own, theirs = (other, metal) if s.inside else (metal, other)

    def strips(at: At, case: LoadCase) -> float:
        long = max(engaged.of(at) - s.less, 0.0)
        pairs = [(theirs, female_shear_area(s.major, long))]
        pairs += [(own, male_shear_area(s.major, s.pitch, long))]
        return min(over(shear_strength(at[i.field]) * a, pulls(case)) for i, a in pairs)

    yield Question(
        "rod-thread-shear",
        "Rod thread stripping",
        ON_YIELD,
        (*sizes(n, engaged), word, metal, other),
        strips,
        "each thread's shear area at basic sizes against its own metal (FED-STD-H28)",
    )


@questions.register
def _(s: MountBolts, n: CylinderNumbers, m: EndMount) -> Iterator[Question]:
    assert m.bolts is not None
    metal, hole = strong(m.bolts), sized(n.sizes[s.hole])
    thread = m.bolt_thread
    name, table = f"Bolts of the mount {m.where}", f"{m.field}.bolts"
    if thread is None:
        yield Question(
            f"{m.end}-bolts",
            name,
            ON_YIELD,
            (hole, unsaid(f"{table}.thread"), metal),
            lambda at, c: inf if not force(c) else 1.0,
            "statics of the bolts",
        )
        return
    each = s.count * area_of(thread)
    screw = Input(thread.field, 1.0, 1.0, unit="")
    # Where nobody said which face bears, either force may draw the plate off.
    seat = f"{m.field}.seat"
    drawn = "base side" if m.end == "body" else "rod side"
    typed = seat in n.said or s.pulled_by == "beside"
    faces = Input(seat, 1.0 if typed else 0.0, 1.0, unit="flag", word=drawn)
    beside = [i for w in (s.height, s.pitch) if w is not None for i in sizes(n, w)]

    def factor(at: At, case: LoadCase) -> float:
        if thread.major > at[hole.field]:
            return 0.0 if force(case) else inf  # such a bolt does not go in
        push = {"push": case.rod, "pull": -case.rod, "beside": force(case)}[s.pulled_by]
        if not typed:
            push = -case.rod if at[seat] > 0.5 else force(case)
        if push <= 0.0:
            return inf
        if s.pulled_by != "beside":
            return over(at[metal.field] * each, push)
        shear, tension = push / each, 0.0
        if s.height is not None and s.pitch is not None:
            row = each / 2
            tension = push * s.height.of(at) / max(s.pitch.of(at), 1e-9) / row
        return over(at[metal.field], (tension**2 + 3 * shear**2) ** 0.5)

    yield Question(
        f"{m.end}-bolts",
        name,
        ON_YIELD,
        (screw, hole, *beside, metal, faces),
        factor,
        f"force over all stress areas, preload and prying not counted; {m.bolts.name}",
    )

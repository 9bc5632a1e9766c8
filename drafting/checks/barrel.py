"""The barrel and what closes it: wall, burst, base cap, its weld, gland, ports."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from drafting.calc import thread as threads
from drafting.calc import tube, weld
from drafting.calc.force import annulus_area, cap_area
from drafting.checks.bands import ON_BURST, ON_RATING, ON_YIELD, ON_YIELD_AT_PROOF
from drafting.checks.check import LoadCase
from drafting.checks.numbers import CylinderNumbers, Number, Thread
from drafting.checks.question import At, Input, Question, sized, strong, unknown, unsaid
from drafting.checks.stress import FEW, inside, mpa, over
from drafting.checks.tie_rods import (
    PRELOAD,
    TIE_RODS,
    left_between,
    preload_of,
    tie_rods,
)

LAME = "Lamé and von Mises at the bore"
PLATES = "theory of plates, edge taken as free"
THREADED = ("threaded", "cap")
RATING = "cylinder.gland_rating"


def barrel(n: CylinderNumbers) -> Iterator[tuple[Question, bool]]:
    """Give the questions on the barrel; with each whether it is for the proof test."""
    tied = n.construction == "tie rod"
    for proof in (False, True):
        yield _wall(n, tied, proof), proof
    yield _burst(n), False
    if not tied:
        yield _cap(n), False
        yield _cap_weld(n), False
    if not tied:
        yield from ((q, False) for q in _gland(n))
    if tied:
        yield from ((q, False) for q in tie_rods(n))
    for end, rating in n.port_ratings.items():
        yield _port(end, rating), False


def _wall(n: CylinderNumbers, tied: bool, proof: bool) -> Question:
    bore, outside, metal = n.bore, n.barrel_outside, strong(n.steels["barrel"])
    preload = preload_of(n) if tied else None

    def stress(at: At, case: LoadCase) -> float:
        d, p = at[outside.name], inside(case)
        if p == 0.0 or d <= at[bore.name]:
            return 0.0 if p == 0.0 else inf
        if not tied:
            return tube.equivalent_stress(at[bore.name], d, p)
        whole = TIE_RODS * at[PRELOAD]
        left = left_between(n, at, case) if n.tie_rod else whole
        at_rest = whole / annulus_area(d, at[bore.name])
        return max(tube.open_barrel_stress(at[bore.name], d, p, left), at_rest)

    def note(at: At, case: LoadCase) -> str:
        return f"{mpa(stress(at, case))} at the bore against {at[metal.field]:.0f} MPa"

    held = "between tie rods: their preload in place of the end force" if tied else "closed barrel"
    code, name = ("proof", "Barrel wall on yield in the proof test") if proof else (
        "working", "Barrel wall on yield")  # fmt: skip
    return Question(
        f"barrel-yield-{code}",
        name,
        ON_YIELD_AT_PROOF if proof else ON_YIELD,
        (sized(bore), sized(outside), metal, *([preload] if preload else [])),
        lambda at, case: over(at[metal.field], stress(at, case)),
        f"{LAME}, {held}; {n.steels['barrel'].name}, {n.steels['barrel'].source}",
        note,
    )


def _burst(n: CylinderNumbers) -> Question:
    bore, outside, metal = n.bore, n.barrel_outside, strong(n.steels["barrel"], "tensile")

    def bursts(at: At) -> float:
        wall = (at[outside.name] - at[bore.name]) / 2
        return tube.barlow_pressure(at[outside.name], max(wall, 0.0), at[metal.field])

    return Question(
        "barrel-burst",
        "Barrel wall on burst",
        ON_BURST,
        (sized(bore), sized(outside), metal),
        lambda at, case: bursts(at) / inside(case) if inside(case) else inf,
        f"Barlow with the tensile strength; {n.steels['barrel'].name}",
        lambda at, case: f"bursts near {bursts(at):.0f} MPa",
    )


def _cap(n: CylinderNumbers) -> Question:
    thick, metal = n.sizes["cylinder.base_thickness"], strong(n.steels["mount"])

    def stress(at: At, case: LoadCase) -> float:
        return tube.cap_stress_free(at[n.bore.name], at[thick.name], case.base)

    return Question(
        "cap-bending",
        "Base cap in bending",
        ON_YIELD,
        (sized(n.bore), sized(thick), metal),
        lambda at, case: over(at[metal.field], stress(at, case)),
        f"{PLATES}; {n.steels['mount'].name}, {n.steels['mount'].source}",
        lambda at, case: f"{mpa(stress(at, case))}; ports and mounts in it not counted",
    )


def _cap_weld(n: CylinderNumbers) -> Question:
    metal, beside = strong(n.steels["weld"]), strong(n.steels["barrel"], "welded")
    fillet, groove = (n.sizes.get(f"cylinder.base_{w}") for w in ("weld", "groove"))
    wall = (n.barrel_outside.value - n.bore.value) / 2
    first = groove if groove and not fillet else fillet
    size = sized(first) if first else unknown("cylinder.base_weld", wall)
    across = sized(n.barrel_outside)

    def factor(at: At, case: LoadCase) -> float:
        force, d = case.base * cap_area(at[n.bore.name]), at[across.field]
        if first is not None and first is groove:
            if at[size.field] > (d - at[n.bore.name]) / 2 + FEW:
                return 0.0
            stress = weld.ring_groove_stress(force, at[size.field], d)
            return over(min(at[metal.field], at[beside.field]), stress)
        shear = min(at[metal.field], at[beside.field] * 2**0.5)
        stress = weld.ring_fillet_stress(force, at[size.field], d)
        wall = weld.ring_groove_stress(force, max((d - at[n.bore.name]) / 2, FEW), d)
        held = over(threads.shear_strength(shear), stress)
        return min(held, over(at[beside.field], wall))

    kind = "groove" if first is not None and first is groove else "fillet"
    return Question(
        "cap-weld",
        f"Weld of the base cap ({kind})",
        ON_YIELD,
        (sized(n.bore), across, size, metal, beside),
        factor,
        f"{kind} round the barrel: throat against the weld metal, leg against the tube beside it, "
        "softened by the heat",
        lambda at, case: "repeated load is not covered and breaks welds first",
    )


def _gland(n: CylinderNumbers) -> Iterator[Question]:
    def force(at: At, case: LoadCase) -> float:
        # A displacement ram has no seal on its piston: the base side's oil stands behind the gland.
        behind = case.base if n.piston == "displacement" else case.rod_side
        return threads.gland_thread_force(at[n.bore.name], n.rod.value, behind, case.gland)

    if not n.gland:
        yield Question(
            "gland-held",
            "What holds the gland",
            ON_YIELD,
            (sized(n.bore), unsaid("cylinder.gland")),
            lambda at, case: over(1.0, force(at, case)),
            "force balance of the gland; fully out the whole push stands on it",
        )
    elif n.gland not in THREADED:
        holds = n.sizes.get(RATING)
        rating = sized(holds, "N") if holds else unknown(RATING, 1e5, "N")
        yield Question(
            "gland-held",
            f"What holds the gland: {n.gland}",
            ON_YIELD,
            (sized(n.bore), rating),
            lambda at, case: over(at[RATING], force(at, case)),
            "force balance of the gland against what its builder says that it holds",
        )
    if n.gland not in THREADED:
        return
    own, wall = strong(n.steels["gland"]), strong(n.steels["barrel"])
    thread = n.gland_thread
    engaged = n.sizes.get("cylinder.gland_engaged")
    long = sized(engaged) if engaged else unknown("cylinder.gland_engaged", 0.25 * n.bore.value)
    inputs: tuple[Input, ...] = (sized(n.bore), long, own, wall)
    if thread is None:
        across = n.bore.value if n.gland == "threaded" else n.barrel_outside.value
        thread = Thread("cylinder.gland_thread", across, 2.0, True)
        inputs = (*inputs, unsaid(thread.field))
    screw = thread
    male, female = (own, wall) if n.gland == "threaded" else (wall, own)

    def factor(at: At, case: LoadCase) -> float:
        whole = n.sizes.get("cylinder.gland_length")
        f, length = force(at, case), min(at[long.field], whole.value if whole else inf)
        out = threads.male_shear_area(screw.major, screw.pitch, length)
        hole = threads.female_shear_area(screw.major, length)
        strips = min(
            over(threads.shear_strength(at[m.field]), threads.shear_stress(f, area))
            for m, area in ((male, out), (female, hole))
        )
        if f == 0.0:
            return inf
        return min(strips, max(at[wall.field] * _left_of_wall(n, screw), 0.0) / f)

    yield Question(
        "gland-thread",
        "Gland thread in shear",
        ON_YIELD,
        inputs,
        factor,
        "each thread's shear area at basic sizes against its own metal (FED-STD-H28), and what it "
        "leaves of the barrel in tension",
        lambda at, case: f"{force(at, case):.0f} N drives the gland out",
    )


def _left_of_wall(n: CylinderNumbers, t: Thread) -> float:
    """Give what the gland's thread leaves of the barrel's section, mm2; 0 for one beside it."""
    root = threads.root_diameter(t.major, t.pitch)
    bore, outside = n.bore.value, n.barrel_outside.value
    if n.gland == "threaded":
        return annulus_area(outside, t.major) if bore <= t.major < outside else 0.0
    return annulus_area(root, bore) if bore < root and t.major <= outside + 1.0 else 0.0


def _port(end: str, rating: Number) -> Question:
    side = "base" if end == "base" else "rod_side"
    return Question(
        f"port-rating-{end}",
        f"Rating of the {end} port's flange",
        ON_RATING,
        (sized(rating, "MPa"),),
        lambda at, case: over(at[rating.name], getattr(case, side)),
        rating.why,
    )

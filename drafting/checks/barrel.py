"""The barrel and what closes it: wall, burst, base cap, its weld, gland, tie rods, ports."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from drafting.calc import thread as threads
from drafting.calc import tierod, tube, weld
from drafting.calc.force import annulus_area, cap_area
from drafting.checks.bands import ON_BURST, ON_JOINT, ON_RATING, ON_YIELD, ON_YIELD_AT_PROOF
from drafting.checks.check import LoadCase
from drafting.checks.numbers import CylinderNumbers, Number, Thread
from drafting.checks.question import At, Input, Question, sized, strong, unknown, unsaid
from drafting.checks.steels import steel

LAME = "Lamé and von Mises at the bore"
PLATES = "theory of plates, edge taken as free"
JOINT = "bolted joint theory"
TIE_RODS = 4
PRELOAD = "cylinder.tie_rod_preload"
FEW = 1e-9
THREADED = ("threaded", "cap")
RATING = "cylinder.gland_rating"


def inside(case: LoadCase) -> float:
    """Give the greater of both sides' pressures, MPa."""
    return max(case.base, case.rod_side)


def over(strength: float, stress: float) -> float:
    """Give a factor; endless without a stress, none where no metal is left."""
    return inf if stress == 0.0 else max(strength / stress, 0.0) if stress > 0 else 0.0


def mpa(stress: float) -> str:
    """Say a stress, or that there is no metal to bear it."""
    return "no metal left" if stress == inf else f"{stress:.0f} MPa"


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
        yield from ((q, False) for q in _tie_rods(n))
    for end, rating in n.port_ratings.items():
        yield _port(end, rating), False


def _wall(n: CylinderNumbers, tied: bool, proof: bool) -> Question:
    bore, outside, metal = n.bore, n.barrel_outside, strong(n.steels["barrel"])
    preload = _preload(n) if tied else None

    def stress(at: At, case: LoadCase) -> float:
        d, p = at[outside.name], inside(case)
        if p == 0.0 or d <= at[bore.name]:
            return 0.0 if p == 0.0 else inf
        if not tied:
            return tube.equivalent_stress(at[bore.name], d, p)
        whole = TIE_RODS * at[PRELOAD]
        left = _left(n, at, case) if n.tie_rod else whole
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


def area_of(t: Thread) -> float:
    """Give the tensile stress area of a thread, mm2."""
    area = threads.stress_area_metric if t.metric else threads.stress_area_unified
    return area(t.major, t.pitch)


def _preload(n: CylinderNumbers) -> Input:
    """Give the preload of one tie rod: typed, else from just closed to three quarters of the yield.

    That of the best usual rod, whatever steel it is: nobody said what it was tightened to.
    """
    typed = n.sizes.get(PRELOAD)
    if typed is not None:
        return sized(typed, "N")
    p = max((x.value for x in (n.highest_pressure, n.proof_pressure) if x), default=0.0)
    least = p * cap_area(n.bore.value) / TIE_RODS
    most = 2.0 * least
    if n.tie_rod is not None:
        best = steel("", "tie rod", None).strength[1]
        most = max(0.75 * best * area_of(n.tie_rod), 1.05 * least)
    return Input(PRELOAD, least, most, unit="N")


def _share(n: CylinderNumbers, at: At) -> float:
    assert n.tie_rod is not None
    rods = tierod.bar_stiffness(TIE_RODS * area_of(n.tie_rod), n.tie_rod_length)
    section = annulus_area(at[n.barrel_outside.name], at[n.bore.name])
    return tierod.load_share(rods, tierod.bar_stiffness(section, n.tie_rod_length))


def _stands(n: CylinderNumbers, at: At) -> bool:
    """Tell whether there is a barrel between the tie rods at all."""
    return at[n.barrel_outside.name] > at[n.bore.name]


def parting(n: CylinderNumbers, at: At, case: LoadCase) -> float:
    """Give the force that drives cap and head apart, N: the greater of both ends'."""
    bore = at[n.bore.name]
    head = case.rod_side * annulus_area(bore, n.rod.value) + case.gland
    return max(case.base * cap_area(bore), head)


def _left(n: CylinderNumbers, at: At, case: LoadCase) -> float:
    """Give the force that still presses the barrel between its ends, N."""
    end = parting(n, at, case)
    return tierod.barrel_force(TIE_RODS * at[PRELOAD], _share(n, at), end)


def _tie_rods(n: CylinderNumbers) -> Iterator[Question]:
    metal = strong(n.steels["tie_rod"])
    t = n.tie_rod
    if t is None:
        yield Question(
            "tie-rods",
            "Tie rods on yield",
            ON_YIELD,
            (unsaid("cylinder.tie_rod"), metal),
            lambda at, case: over(1.0, inside(case)),
            JOINT,
        )
        return
    preload, area = _preload(n), TIE_RODS * area_of(t)
    inputs = (sized(n.bore), sized(n.barrel_outside), preload)

    def end(at: At, case: LoadCase) -> float:
        return parting(n, at, case)

    def pulled(at: At, case: LoadCase) -> float:
        return tierod.rod_force(TIE_RODS * at[PRELOAD], _share(n, at), end(at, case))

    def on_yield(at: At, case: LoadCase) -> float:
        if not inside(case):
            return inf
        return over(at[metal.field] * area, pulled(at, case)) if _stands(n, at) else 0.0

    def on_opening(at: At, case: LoadCase) -> float:
        if not end(at, case):
            return inf
        if not _stands(n, at):
            return 0.0
        return tierod.separating_force(TIE_RODS * at[PRELOAD], _share(n, at)) / end(at, case)

    yield Question(
        "tie-rods",
        "Tie rods on yield",
        ON_YIELD,
        (*inputs, metal),
        on_yield,
        f"{JOINT}; {n.steels['tie_rod'].name}, {n.steels['tie_rod'].source}",
        lambda at, case: f"{pulled(at, case) / TIE_RODS:.0f} N in each",
    )
    typed = n.sizes.get(PRELOAD)
    tight = sized(typed, "N") if typed else unknown(PRELOAD, preload.low, "N")
    yield Question(
        "tie-rod-joint",
        "Barrel stays on its seat",
        ON_JOINT,
        (*inputs[:2], tight),
        on_opening,
        f"{JOINT}; the barrel's own shortening under pressure not counted",
    )


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

"""Gland, weld, tie rods and bolts: what nobody typed, and what would do, by hand.

Figures on which a search rests (an unseen thread, an ear of the machine) are the trade's, common
practice. Steels are the weakest and the best of the data file where none is typed.
"""

from dataclasses import replace
from math import inf, pi

import pytest

from drafting.checks.numbers import EndMount, Thread
from drafting.checks.steels import steel
from drafting.checks.strength import strength
from drafting.checks.stress import FEW
from drafting.settle.carried import Fillet, LoosePin, MountBolts, RodThread, length
from drafting.standards.table import table
from tests.checks.sample_numbers import by_code, duty, given, metal, numbers, steels

SHEAR = 3**-0.5
PUSH, RING = 16 * pi * 1600, pi / 4 * (80**2 - 45**2)
PULL = 16 * RING


def found(code, n):
    return by_code(strength(n))[code]


def decides(code, n):
    return {d.field: d for d in found(code, n).depends_on}


def usual(part):
    rows = {r.word("usual"): r for r in table("steels").where(part=part) if r.word("usual")}
    return rows["weakest"].required("yield_mpa"), rows["best"].required("yield_mpa")


def inches():
    """A 3 in bore, 1.5 in rod, 3.5 in outside at 2500 psi: 17.237 MPa on 76.2 and 38.1 mm."""
    return duty(
        numbers(
            bore=given("cylinder.bore", 76.2),
            rod=given("cylinder.rod", 38.1),
            barrel_outside=given("cylinder.barrel_outside", 88.9),
            working_pressure=given("cylinder.working_pressure", 17.237),
            gland_thread=Thread("cylinder.gland_thread", 82.55, 25.4 / 12, False),
        ),
        push=None,
        pull=None,
    )


@pytest.mark.parametrize("n", [numbers(), inches()], ids=["metric", "inch"])
def test_from_the_weakest_to_the_best_steel(n):
    """Rod, wall, pin, weld: the factor's two ends are the two ends of the data file."""
    bore, rod, out, p = n.bore.value, n.rod.value, n.barrel_outside.value, n.working_pressure.value
    push = p * pi / 4 * bore**2
    wall = 3**0.5 * p * out**2 / (out**2 - bore**2)
    pin = 3**0.5 * push / (2 * pi / 4 * 37**2)
    shear = {"rod": 4 * push / (pi * rod**2), "tube": wall, "pin": pin}
    for part, field, code in (
        ("rod", "rod", "rod-along"),
        ("tube", "barrel", "barrel-yield-working"),
        ("pin", "pin", "body-pin-shear"),
    ):
        open_ = replace(
            n, steels=steels(**{field: steel(f"cylinder.{field}_material", part, None)})
        )
        c = found(code, open_)
        low, high = usual(part)
        assert (c.factor_from, c.factor_to) == pytest.approx(
            (low / shear[part], high / shear[part])
        )
        if low / shear[part] < 3.5 <= high / shear[part]:
            (d,) = c.depends_on
            assert d.would_do == pytest.approx(3.5 * shear[part], rel=1e-6)


def test_gland_force_by_hand():
    c = found("gland-force", numbers())
    assert (c.provided, c.unit, c.verdict) == (pytest.approx(PUSH), "N", None)
    shut = duty(numbers(gland=""), rod_side="blocked")
    assert found("gland-force", shut).provided == pytest.approx(PUSH)
    assert "nobody said what" in found("gland-force", shut).note
    assert "gland-force" not in by_code(strength(numbers(piston="displacement", action="push")))
    pulled = found("gland-force", numbers(action="pull"))
    assert pulled.provided == pytest.approx(PULL)


def test_a_gland_thread_that_nobody_typed_is_looked_for_at_the_bore_and_2_mm_pitch():
    sizes = {"cylinder.gland_engaged": None}
    n = numbers(
        gland_thread=None, sizes=sizes, steels=steels(gland=metal("cylinder.gland_material", 257.0))
    )
    d = decides("gland-thread", n)
    assert set(d) == {"cylinder.gland_engaged", "cylinder.gland_thread"}
    long = 3.5 * PUSH / (257 * SHEAR * 0.75 * pi * (80 - 1.0825 * 2))
    assert d["cylinder.gland_engaged"].would_do == pytest.approx(long, rel=1e-6)
    # In a cap the thread is cut outside the barrel: there the barrel is the male one.
    soft = steels(barrel=metal("cylinder.barrel_material", 450.0))
    cap = replace(n, gland="cap", steels=soft)
    male = 450 * 0.75 * (95 - 1.0825 * 2)
    female = 311 * 0.875 * 95
    long = 3.5 * PUSH / (min(male, female) * SHEAR * pi)
    third = 0.25 * 80 / 3  # the least that is looked for
    assert long < third
    assert decides("gland-thread", cap)["cylinder.gland_engaged"].would_do == pytest.approx(third)


@pytest.mark.parametrize(("outside", "holds"), [(95.9, True), (96.1, False)])
def test_a_caps_thread_may_stand_a_millimetre_beyond_the_barrel(outside, holds):
    n = numbers(gland="cap", gland_thread=Thread("cylinder.gland_thread", outside, 2.0, True))
    assert (found("gland-thread", n).factor_from > 0) is holds


@pytest.mark.parametrize(
    ("major", "holds"), [(79.9, False), (80.0, True), (94.9, True), (95.0, False)]
)
def test_a_gland_thread_stands_in_the_wall(major, holds):
    n = numbers(gland_thread=Thread("cylinder.gland_thread", major, 2.0, True))
    assert (found("gland-thread", n).factor_from > 0) is holds


def test_a_gland_that_nobody_said_how_it_is_held_is_asked_for_with_its_thread():
    checks = by_code(strength(numbers(gland="")))
    assert (checks["gland-held"].verdict, checks["gland-held"].factor_from) == ("not known", None)
    assert [d.field for d in checks["gland-held"].depends_on] == ["cylinder.gland"]
    assert "gland-thread" not in checks


def test_which_weld_of_the_cap_counts():
    both = {"cylinder.base_groove": given("cylinder.base_groove", 7.0)}
    c = found("cap-weld", numbers(sizes=both))
    assert "fillet" in c.name  # typed beside a groove the fillet alone is counted
    assert c.factor_from == pytest.approx(393 * SHEAR * 12 / 2**0.5 * pi * 95 / PUSH)
    groove = numbers(sizes={**both, "cylinder.base_weld": None})
    assert "groove" in found("cap-weld", groove).name
    weak = replace(groove, steels=steels(weld=metal("cylinder.weld_material", 301.0)))
    assert found("cap-weld", weak).factor_from == pytest.approx(301 * pi * 88 * 7 / PUSH)
    for depth, left in ((7.5, True), (7.5 + 10 * FEW, False)):
        deep = numbers(
            sizes={
                "cylinder.base_weld": None,
                "cylinder.base_groove": given("cylinder.base_groove", depth),
            }
        )
        assert (found("cap-weld", deep).factor_from > 0) is left
    none = numbers(sizes={"cylinder.base_weld": None})
    assert "fillet" in found("cap-weld", none).name
    d = decides("cap-weld", none)["cylinder.base_weld"]
    assert d.would_do == pytest.approx(3.5 * PUSH / (393 * SHEAR * pi * 95 / 2**0.5), rel=1e-6)


def tied(**sizes):
    known = {f"cylinder.{k}": v and given(f"cylinder.{k}", v) for k, v in sizes.items()}
    return numbers(
        sizes=known,
        construction="tie rod",
        tie_rod_length=620.0,
        tie_rod=Thread("cylinder.tie_rod", 18.0, 1.5, True),
    )


ROD = pi / 4 * (18 - 0.9382 * 1.5) ** 2
WALL = pi / 4 * (95**2 - 80**2)
SHARE = 4 * ROD / (4 * ROD + WALL)


def wall_stress(pressed, p=16.0):
    """Lame's hoop and radial stress at the bore with the tie rods' squeeze along it."""
    hoop, along = p * (95**2 + 80**2) / (95**2 - 80**2), -pressed / WALL
    return (((hoop + p) ** 2 + (-p - along) ** 2 + (along - hoop) ** 2) / 2) ** 0.5


@pytest.mark.parametrize("proof", [None, 20.0])
def test_a_preload_that_nobody_typed(proof):
    """From just closed to three quarters of the yield of the best usual tie rod."""
    n = tied(tie_rod_preload=None)
    p = proof or 16.0
    if proof:
        n = replace(n, proof_pressure=given("cylinder.proof_pressure", proof))
    least, most = p * pi * 1600, 4 * 0.75 * usual("tie rod")[1] * ROD
    ends = [whole + SHARE * PUSH for whole in (most, least)]
    c = found("tie-rods", n)
    assert (c.factor_from, c.factor_to) == pytest.approx(
        [720 * 4 * ROD / max(f, PUSH) for f in ends]
    )
    # The wall between them: pressed most by the pull, which parts the ends less than the push.
    w = found("barrel-yield-working", n)
    stress = [
        max(wall_stress(whole - (1 - SHARE) * force) for force in (PUSH, PULL))
        for whole in (most, least)
    ]
    assert w.factor_from == pytest.approx(450 / max(*stress, most / WALL))
    assert w.factor_to == pytest.approx(450 / min(stress))
    d = decides("tie-rod-joint", n)["cylinder.tie_rod_preload"]
    assert d.would_do == pytest.approx(1.5 * (1 - SHARE) * PUSH / 4, rel=1e-6)
    assert d.unit == "N"


def test_thin_tie_rods_are_taken_as_just_closed_and_a_twentieth_more():
    n = replace(tied(tie_rod_preload=None), tie_rod=Thread("cylinder.tie_rod", 8.0, 1.25, True))
    rod = pi / 4 * (8 - 0.9382 * 1.25) ** 2
    share = 4 * rod / (4 * rod + WALL)
    c = found("tie-rods", n)
    assert c.factor_from == pytest.approx(720 * 4 * rod / ((1.05 + share) * PUSH))


def test_a_wall_between_tie_rods_of_which_nobody_said_anything():
    """From just closed to twice that, and all of it left on the wall."""
    n = replace(tied(tie_rod_preload=None), tie_rod=None)
    w = found("barrel-yield-working", n)
    stress = [max(wall_stress(k * PUSH), k * PUSH / WALL) for k in (1, 2)]
    assert (w.factor_from, w.factor_to) == pytest.approx((450 / stress[1], 450 / stress[0]))


@pytest.mark.parametrize("outside", [80.0, 79.0])
def test_tie_rods_round_no_barrel_hold_nothing(outside):
    n = tied(tie_rod_preload=90_000.0)
    n = replace(n, barrel_outside=given("cylinder.barrel_outside", outside))
    for code in ("tie-rods", "tie-rod-joint", "barrel-yield-working"):
        assert (found(code, n).factor_from, found(code, n).factor_to) == (0.0, 0.0)
        assert found(code, n).verdict == "fails"


def test_the_preload_alone_may_be_more_than_the_wall_bears():
    n = tied(tie_rod_preload=300_000.0)
    assert found("barrel-yield-working", n).factor_from == pytest.approx(
        450 / max(4 * 300_000 / WALL, wall_stress(4 * 300_000 - (1 - SHARE) * PULL))
    )


def test_ears_and_eyes_of_the_machine_that_nobody_typed():
    """An ear of 0.3 to 0.6 of the eye between; an eye of 0.6 to 1 of the gap it goes into."""
    n = numbers(sizes={"rod_mount.ear": None, "body_mount.ear": None})

    def rod(ear):
        return 834 * pi * 34**3 / 32 / (PUSH / 2 * (ear / 2 + 0.05 * 52 + 52 / 4))

    def body(eye):
        return 834 * pi * 37**3 / 32 / (PUSH / 2 * (22 / 2 + (42 - eye) / 2 + eye / 4))

    c = found("rod-pin-bending", n)
    assert (c.factor_from, c.factor_to) == pytest.approx((rod(0.6 * 52), rod(0.3 * 52)))
    assert c.verdict == "not known"
    c = found("body-pin-bending", n)
    assert (c.factor_from, c.factor_to) == pytest.approx((body(0.6 * 42), body(42.0)))


@pytest.mark.parametrize(("eye", "goes_in"), [(41.5, True), (42.0, True), (42.1, False)])
def test_an_eye_that_does_not_go_into_its_gap_bears_nothing(eye, goes_in):
    n = numbers(sizes={"body_mount.ear": given("body_mount.ear", eye)})
    bent = PUSH / 2 * (22 / 2 + (42 - eye) / 2 + eye / 4) * 32 / (pi * 37**3)
    c = found("body-pin-bending", n)
    assert c.factor_from == pytest.approx(834 / bent if goes_in else 0.0)
    assert c.note.startswith("the eye does not go into the gap") is not goes_in


def test_a_mount_without_its_sizes_says_which_would_do():
    leg = decides("body-weld", numbers(sizes={"body_mount.weld_run": None}))["body_mount.weld_run"]
    run = 3.5 * PUSH / (393 * SHEAR * 11 / 2**0.5)
    assert leg.would_do == pytest.approx(run, rel=1e-6)
    n = numbers(rod_end=EndMount("rod", None, None, (Fillet(length("a.leg"), length("a.run")),)))
    d = decides("rod-weld", n)
    throat = 3.5 * PUSH / (393 * SHEAR * pi * 45 / 2**0.5)  # once round the rod
    assert d["a.leg"].would_do == pytest.approx(throat, rel=1e-6)
    assert d["a.run"].would_do == pytest.approx(pi * 45, rel=1e-6)
    pin = length("a.pin")
    bare = LoosePin(pin, length("a.ear"), length("rod_mount.width"), length("rod_mount.width"))
    n = numbers(rod_end=EndMount("rod", "y", None, (bare,)))
    d = decides("rod-pin-shear", n)["a.pin"]
    assert d.would_do == pytest.approx((3.5 * PUSH / (834 * SHEAR * pi / 2)) ** 0.5, rel=1e-6)


@pytest.mark.parametrize(("origin", "said"), [("given", "holds"), ("derived", "depends")])
def test_no_rod_thread_holds_that_nobody_typed(origin, said):
    thread = RodThread("rod_mount.thread", 36.0, 3.0, True)
    sizes = {"rod_mount.thread": given("rod_mount.thread", 1.0, origin)}
    strong = steels(rod=metal("cylinder.rod_material", 900.0))
    n = numbers(sizes=sizes, steels=strong, rod_end=EndMount("rod", None, None, (thread,)))
    c = found("rod-thread", n)
    assert c.verdict == said
    area = pi / 4 * (36 - 0.9382 * 3) ** 2
    assert c.factor_from == pytest.approx(900 * area / PULL)
    inch = replace(n, rod_end=EndMount("rod", None, None, (replace(thread, metric=False),)))
    area = pi / 4 * (36 - 0.9743 * 3) ** 2
    assert found("rod-thread", inch).factor_from == pytest.approx(900 * area / PULL)


def bolted(pulled_by, height=None, pitch=None, major=16.0, said=("body_mount.seat",), steel=640.0):
    sizes = {"body_mount.bolts.hole": given("body_mount.bolts.hole", 16.0)}
    section = MountBolts(4, "body_mount.bolts.hole", pulled_by, height, pitch)
    end = EndMount(
        "body",
        None,
        None,
        (section,),
        bolts=metal("body_mount.bolts.grade", steel),
        bolt_thread=Thread("body_mount.bolts.thread", major, 2.0, True),
    )
    return numbers(sizes=sizes, body=end, said=frozenset(said))


def test_bolts_cut_alone_and_bolts_that_just_go_in():
    area = 4 * pi / 4 * (16 - 0.9382 * 2) ** 2
    cut = found("body-bolts", bolted("beside"))
    assert cut.factor_from == pytest.approx(640 * SHEAR * area / PUSH)
    assert found("body-bolts", bolted("pull")).factor_from == pytest.approx(640 * area / PULL)
    assert found("body-bolts", bolted("pull", major=16.01)).factor_from == 0.0
    either = found("body-bolts", bolted("pull", said=()))
    assert (either.factor_from, either.factor_to) == pytest.approx(
        (640 * area / PUSH, 640 * area / PULL)
    )
    assert found("body-bolts", bolted("beside", said=())).factor_to == cut.factor_to


@pytest.mark.parametrize("thick", [0.8, 1.3])
def test_a_thin_eye_has_its_stress(thick):
    n = numbers(sizes={"rod_mount.width": given("rod_mount.width", thick)})
    beside, past = (88 - 35.5) * thick, 2 * (47 - 35.5 / 2) * thick
    assert found("rod-eye-tension", n).factor_from == pytest.approx(357 * beside / PUSH)
    assert found("rod-tear-out", n).factor_from == pytest.approx(357 * SHEAR * past / PUSH)


@pytest.mark.parametrize("seats", [True, False])
def test_a_push_passes_by_a_thread_that_seats_on_a_shoulder(seats):
    thread = RodThread("rod_mount.thread", 36.0, 3.0, True, seats=seats)
    sizes = {"rod_mount.thread": given("rod_mount.thread", 1.0)}
    n = numbers(sizes=sizes, action="push", rod_end=EndMount("rod", None, None, (thread,)))
    codes = {c.code: c.factor_from for c in strength(duty(n, pull=None))}
    area = pi / 4 * (36 - 0.9382 * 3) ** 2
    if seats:
        assert codes.get("rod-thread", inf) == inf
    else:
        assert codes["rod-thread"] == pytest.approx(500 * area / PUSH)


@pytest.mark.parametrize(("leg", "named"), [(39.9, True), (40.1, False)])
def test_a_weld_beyond_forty_millimetres_is_not_proposed(leg, named):
    """Five times the 8 mm at which the search begins: what nobody lays is no advice."""
    run = 3.5 * PUSH / (393 * SHEAR * leg / 2**0.5)
    n = numbers(sizes={"body_mount.weld_run": given("body_mount.weld_run", run),
                       "body_mount.weld_leg": None})  # fmt: skip
    d = decides("body-weld", n).get("body_mount.weld_leg")
    assert (d is not None and d.would_do is not None) is named


@pytest.mark.parametrize("steel", [64.0, 400.0])
def test_a_seat_decides_only_where_nobody_said_it(steel):
    """400 MPa are enough for the pull and not for the push, 64 MPa for neither."""

    def named(said):
        return {
            d.field for d in found("body-bolts", bolted("pull", said=said, steel=steel)).depends_on
        }

    assert "body_mount.seat" not in named(("body_mount.seat",))
    area = 4 * pi / 4 * (16 - 0.9382 * 2) ** 2
    assert ("body_mount.seat" in named(())) is (steel * area / PULL >= 3.5)

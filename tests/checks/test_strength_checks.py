"""Each strength check by hand: textbook statics on sizes of which no two are equal.

Pin, eye, weld and thread as in ``tests/validation`` (Shigley, Hibbeler, Gere; FED-STD-H28); what is
tried here is that each check takes its own sizes, its own steel and its own load.
"""

from dataclasses import replace
from math import pi

import pytest

from drafting.checks.check import Check
from drafting.checks.numbers import EndMount, Number, Thread
from drafting.checks.strength import strength
from drafting.settle.carried import Fillet, MountBolts, RodThread, Stubs, Sum, length
from tests.checks.sample_numbers import (
    by_code,
    clevis_sections,
    duty,
    eye_sections,
    given,
    metal,
    numbers,
    steels,
)

PUSH = 16.0 * pi * 80.0**2 / 4
PULL = 16.0 * pi * (80.0**2 - 45.0**2) / 4
SHEAR = 3**-0.5


def found(code, n=None, **changes):
    checks = by_code(strength(n or numbers(**changes)))
    return checks[code]


def test_the_wall_as_in_the_worked_case():
    """S18 of tests/validation: 75/63 mm at 21 MPa stands at 123.55 MPa."""
    n = numbers(
        bore=given("cylinder.bore", 63.0),
        barrel_outside=given("cylinder.barrel_outside", 75.0),
        working_pressure=given("cylinder.working_pressure", 21.0),
    )
    c = found("barrel-yield-working", n)
    assert c.factor_from == pytest.approx(450 / 123.55, rel=1e-4)
    assert c.verdict == "holds"
    assert found("barrel-burst", n).factor_from == pytest.approx(2 * 580 * 6 / 75 / 21)


def test_the_highest_pressure_counts_and_proof_has_its_own_line():
    n = numbers(relief_pressure=given("cylinder.relief_pressure", 20.0),
                proof_pressure=given("cylinder.proof_pressure", 24.0))  # fmt: skip
    plain = found("barrel-yield-working").factor_from
    assert found("barrel-yield-working", n).factor_from == pytest.approx(plain * 16 / 20)
    proof = found("barrel-yield-proof", n)
    assert proof.factor_from == pytest.approx(plain * 16 / 24)
    assert proof.required == 1.25  # a typed factor is for use, not for the test
    assert found("body-pin-shear", n).factor_from == pytest.approx(
        found("body-pin-shear").factor_from * 16 / 20
    )


def test_clevis_by_hand():
    """86 over ears, 42 between them, the machine's eye 39: ears of 22 and play of 1.5 each side."""
    shear = PUSH / (2 * pi / 4 * 37**2)
    assert found("body-pin-shear").factor_from == pytest.approx(834 * SHEAR / shear)
    assert found("body-pin-bearing").factor_from == pytest.approx(357 / (PUSH / (37 * 44)))
    moment = PUSH / 2 * (22 / 2 + 1.5 + 39 / 4)
    stress = 32 * moment / (pi * 37**3)
    assert found("body-pin-bending").factor_from == pytest.approx(834 / stress)
    tension = PUSH / (44 * (77 - 38.5))
    assert found("body-eye-tension").factor_from == pytest.approx(357 / tension)
    tear = PUSH / (2 * 44 * (41 - 38.5 / 2))
    assert found("body-tear-out").factor_from == pytest.approx(357 * SHEAR / tear)


def test_eye_between_the_machines_ears_by_hand():
    """Eye 52 wide on a 34 pin between ears of 23, play 1/20 of the eye on each side."""
    moment = PUSH / 2 * (23 / 2 + 2.6 + 52 / 4)
    stress = 32 * moment / (pi * 34**3)
    assert found("rod-pin-bending").factor_from == pytest.approx(834 / stress)
    assert found("rod-pin-bearing").factor_from == pytest.approx(357 / (PUSH / (34 * 52)))
    tension = PUSH / (52 * (88 - 35.5))
    assert found("rod-eye-tension").factor_from == pytest.approx(357 / tension)


def test_the_softer_of_pin_and_mount_bears():
    soft = numbers(steels=steels(pin=metal("cylinder.pin_material", 222.0)))
    assert found("body-pin-bearing", soft).factor_from == pytest.approx(222 / (PUSH / (37 * 44)))


def test_in_a_bushing_its_rating_carries():
    n = numbers(rod_end=EndMount("rod", "y", None, eye_sections("rod_mount", bushing=True)))
    c = found("rod-bearing", n)
    assert (c.verdict, c.factor_from) == ("not known", None)
    (asked,) = c.depends_on
    assert asked.field == "rod_mount.bearing_rating"
    assert asked.would_do == pytest.approx(3.5 * PUSH, rel=1e-5)
    rated = replace(n, sizes=n.sizes | {asked.field: given(asked.field, 290_000.0)})
    assert found("rod-bearing", rated).factor_from == pytest.approx(290_000 / PUSH)


def test_welds_by_hand():
    """Shear on the throat of all runs; a ring of 12 mm leg round the 95 mm barrel."""
    throat = 11 / 2**0.5 * 260
    assert found("body-weld").factor_from == pytest.approx(393 * SHEAR * throat / PUSH)
    ring = 12 / 2**0.5 * pi * 95
    assert found("cap-weld").factor_from == pytest.approx(393 * SHEAR * ring / PUSH)
    soft = numbers(steels=steels(mount=metal("cylinder.mount_material", 240.0)))
    leg = 240 * SHEAR * 11 * 260
    assert found("body-weld", soft).factor_from == pytest.approx(leg / PUSH)


def test_a_groove_weld_is_as_strong_as_the_softened_tube():
    sizes = {"cylinder.base_weld": None, "cylinder.base_groove": given("cylinder.base_groove", 7.0)}
    area = pi * (95 - 7) * 7
    c = found("cap-weld", numbers(sizes=sizes))
    assert c.factor_from == pytest.approx(355 * area / PUSH)
    deep = {**sizes, "cylinder.base_groove": given("cylinder.base_groove", 9.0)}
    assert found("cap-weld", numbers(sizes=deep)).verdict == "fails"


def test_base_cap_by_hand():
    """Free edge: 3 (3 + 0.3) / 32 p d2 / t2 (Timoshenko and Woinowsky-Krieger)."""
    stress = 3 * 3.3 / 32 * 16 * 80**2 / 29**2
    assert found("cap-bending").factor_from == pytest.approx(357 / stress)


@pytest.mark.parametrize(("own", "wall"), [(311.0, 450.0), (900.0, 200.0)])
def test_gland_thread_each_against_its_own_metal(own, wall):
    """M85x2, 31 engaged: the gland's own thread 3/4 pi D1 L, the barrel's 7/8 pi d L."""
    n = numbers(steels=steels(gland=metal("cylinder.gland_material", own),
                              barrel=metal("cylinder.barrel_material", wall)))  # fmt: skip
    male = own * SHEAR * 0.75 * pi * (85 - 1.0825 * 2) * 31
    female = wall * SHEAR * 0.875 * pi * 85 * 31
    left = wall * pi / 4 * (95**2 - 85**2)
    least = min(male, female, left) / PUSH
    assert found("gland-thread", n).factor_from == pytest.approx(least)
    long = {"cylinder.gland_engaged": given("cylinder.gland_engaged", 11.0)}
    short = replace(n, sizes=n.sizes | long)
    least = min(male * 11 / 31, female * 11 / 31, left) / PUSH
    assert found("gland-thread", short).factor_from == pytest.approx(least)
    outside = replace(n, gland="cap")
    male, female = male * wall / own, female * own / wall
    left = wall * pi / 4 * ((85 - 1.2269 * 2) ** 2 - 80**2)
    least = min(male, female, left) / PUSH
    assert found("gland-thread", outside).factor_from == pytest.approx(least)


@pytest.mark.parametrize(("major", "gland"), [(79.0, "threaded"), (96.0, "threaded"),
                                              (82.0, "cap"), (99.0, "cap")])  # fmt: skip
def test_a_gland_thread_beside_the_wall_holds_nothing(major, gland):
    thread = Thread("cylinder.gland_thread", major, 2.0, True)
    c = found("gland-thread", numbers(gland=gland, gland_thread=thread))
    assert (c.verdict, c.factor_from) == ("fails", 0.0)


def test_a_thread_is_not_engaged_beyond_its_gland():
    sizes = {"cylinder.gland_engaged": given("cylinder.gland_engaged", 400.0),
             "cylinder.gland_length": given("cylinder.gland_length", 9.0)}  # fmt: skip
    male = 311 * SHEAR * 0.75 * pi * (85 - 1.0825 * 2) * 9
    assert found("gland-thread", numbers(sizes=sizes)).factor_from == pytest.approx(male / PUSH)


def test_bolts_that_do_not_go_into_their_holes_hold_nothing():
    n = bolted("push", **{"body_mount.bolts.hole": 15.5})
    assert (found("body-bolts", n).verdict, found("body-bolts", n).factor_from) == ("fails", 0.0)


def test_a_shut_rod_side_loads_wall_gland_and_nothing_along_the_rod():
    """16 MPa times 80^2 / (80^2 - 45^2) is 23.406 MPa behind a shut rod port."""
    shut = duty(numbers(), rod_side="blocked")
    ratio = 80**2 / (80**2 - 45**2)
    for code in ("barrel-yield-working", "barrel-burst"):
        assert found(code, shut).factor_from == pytest.approx(found(code).factor_from / ratio)
    for code in ("rod-along", "body-pin-shear", "cap-bending", "cap-weld"):
        assert found(code, shut).factor_from == pytest.approx(found(code).factor_from)
    unsaid = duty(numbers(), rod_side="")
    c = found("barrel-burst", unsaid)
    assert c.factor_from == pytest.approx(found("barrel-burst", shut).factor_from)
    assert c.factor_to == pytest.approx(found("barrel-burst").factor_from)


def test_the_rod_by_hand():
    assert found("rod-along").factor_from == pytest.approx(500 * pi / 4 * 45**2 / PUSH)


@pytest.mark.parametrize(("seats", "force"), [(True, PULL), (False, PUSH)])
def test_rod_thread_by_hand(seats, force):
    """M33x2: stress area pi/4 (33 - 0.9382 x 2)^2; a thread on a shoulder feels only the pull."""
    thread = RodThread("rod_mount.thread", 33.0, 2.0, True, length("rod_mount.thread_length"),
                       seats, less=6.0)  # fmt: skip
    sizes = {f: given(f, v) for f, v in (("rod_mount.thread", 1.0),
                                         ("rod_mount.thread_length", 43.0))}  # fmt: skip
    n = numbers(sizes=sizes, rod_end=EndMount("rod", "y", None, (thread,)))
    area = pi / 4 * (33 - 0.9382 * 2) ** 2
    assert found("rod-thread", n).factor_from == pytest.approx(500 * area / force)
    male = 500 * SHEAR * 0.75 * pi * (33 - 1.0825 * 2) * 37
    female = 357 * SHEAR * 0.875 * pi * 33 * 37
    strips = found("rod-thread-shear", n)
    assert strips.factor_from == pytest.approx(min(male, female) / force)
    inside = replace(thread, inside=True, less=0.0)
    bored = replace(n, rod_end=EndMount("rod", None, None, (inside,)))
    left = pi / 4 * (45**2 - 33**2)
    assert found("rod-thread", bored).factor_from == pytest.approx(500 * left / force)


@pytest.mark.parametrize("long", [26.0, 0.7, 0.0])
def test_trunnion_by_hand(long):
    """Half the force on each stub of 31 mm, 26 long; one without a length bears nothing."""
    known = {"pin": 31.0, "width": 139.0 + 2 * long, "shoulders": 139.0}
    sizes = {f"body_mount.{k}": given(f"body_mount.{k}", v) for k, v in known.items()}
    stub = Sum(((0.5, "body_mount.width"), (-0.5, "body_mount.shoulders")))
    stubs = Stubs(length("body_mount.pin"), stub)
    n = numbers(sizes=sizes, body=EndMount("body", "y", None, (stubs,)))
    shear = PUSH / 2 / (pi / 4 * 31**2)
    bend = 32 * (PUSH / 2 * long / 2) / (pi * 31**3)
    assert found("body-trunnion-shear", n).factor_from == pytest.approx(357 * SHEAR / shear)
    bent = found("body-trunnion-bending", n).factor_from
    assert bent == (pytest.approx(357 / bend) if long else 0.0)


def test_a_gland_that_is_not_threaded_needs_its_builders_word():
    n = numbers(gland="snap ring")
    c = found("gland-held", n)
    assert (c.verdict, c.depends_on[0].field) == ("not known", "cylinder.gland_rating")
    assert c.depends_on[0].would_do == pytest.approx(3.5 * PUSH, rel=1e-5)
    sizes = {"cylinder.gland_rating": given("cylinder.gland_rating", 3.6 * PUSH)}
    c = found("gland-held", numbers(sizes=sizes, gland="snap ring"))
    assert (c.verdict, c.factor_from) == ("holds", pytest.approx(3.6))


def test_behind_the_gland_of_a_displacement_ram_stands_the_oil():
    ram = duty(numbers(action="push", piston="displacement"), push=None, pull=None)
    left = 450 * pi / 4 * (95**2 - 85**2)
    assert found("gland-thread", ram).factor_from == pytest.approx(left / PULL)


def test_the_tube_beside_a_fillet_carries_its_end_too():
    soft = numbers(steels=steels(barrel=metal("cylinder.barrel_material", 450.0, 0.0, 130.0)))
    leg = 130 * 2**0.5 * SHEAR * 12 / 2**0.5 * pi * 95
    wall = 130 * pi * (95 - 7.5) * 7.5
    assert found("cap-weld", soft).factor_from == pytest.approx(min(leg, wall) / PUSH)
    assert wall < leg


def bolted(pulled_by, count=4, height=None, pitch=None, **sizes):
    known = {"body_mount.bolts.hole": 17.0, **sizes}
    end = EndMount(
        "body", None, None, (MountBolts(count, "body_mount.bolts.hole", pulled_by, height, pitch),),
        bolts=metal("body_mount.bolts.grade", 640.0),
        bolt_thread=Thread("body_mount.bolts.thread", 16.0, 2.0, True))  # fmt: skip
    said = frozenset({"body_mount.seat"})
    return numbers(sizes={k: given(k, v) for k, v in known.items()}, body=end, said=said)


def test_flange_bolts_feel_what_draws_them_off():
    """Four M16: stress area 156.7 mm2 each (ISO 898-1)."""
    area = 4 * pi / 4 * (16 - 0.9382 * 2) ** 2
    assert found("body-bolts", bolted("push")).factor_from == pytest.approx(640 * area / PUSH)
    assert found("body-bolts", bolted("pull")).factor_from == pytest.approx(640 * area / PULL)


def test_a_seat_that_nobody_typed_lets_either_force_draw():
    n = replace(bolted("pull"), said=frozenset())
    c = found("body-bolts", n)
    sure = found("body-bolts", bolted("pull"))
    assert c.factor_from == pytest.approx(found("body-bolts", bolted("push")).factor_from)
    assert c.factor_to == pytest.approx(sure.factor_from)


def test_foot_bolts_are_cut_and_tilted():
    high, apart = length("body_mount.seat_height"), length("body_mount.bolts.pitch.x")
    n = bolted("beside", 4, high, apart, **{"body_mount.seat_height": 63.0,
                                            "body_mount.bolts.pitch.x": 420.0})  # fmt: skip
    one = pi / 4 * (16 - 0.9382 * 2) ** 2
    shear, tension = PUSH / (4 * one), PUSH * 63 / 420 / (2 * one)
    stress = (tension**2 + 3 * shear**2) ** 0.5
    assert found("body-bolts", n).factor_from == pytest.approx(640 / stress)


def test_bolts_without_a_thread_are_not_known():
    n = bolted("push")
    n = replace(n, body=replace(n.body, bolt_thread=None))
    c = found("body-bolts", n)
    assert (c.verdict, c.depends_on[0].field) == ("not known", "body_mount.bolts.thread")


def tie_rods(preload):
    sizes = {"cylinder.tie_rod_preload": preload and given("cylinder.tie_rod_preload", preload)}
    return numbers(sizes=sizes, construction="tie rod", tie_rod_length=620.0,
                   tie_rod=Thread("cylinder.tie_rod", 18.0, 1.5, True))  # fmt: skip


def test_tie_rods_by_hand():
    """Bolted joint (Shigley ch. 8): share C = kr / (kr + kb), both of one length and modulus."""
    preload = 41_000.0
    checks = by_code(strength(tie_rods(preload)))
    rods = 4 * pi / 4 * (18 - 0.9382 * 1.5) ** 2
    wall = pi / 4 * (95**2 - 80**2)
    c = rods / (rods + wall)
    pulled = 4 * preload + c * PUSH
    assert checks["tie-rods"].factor_from == pytest.approx(720 * rods / pulled)
    assert checks["tie-rod-joint"].factor_from == pytest.approx(4 * preload / (1 - c) / PUSH)
    # On the pull the same hoop finds the barrel pressed harder: the rod side parts the ends less.
    left = 4 * preload - (1 - c) * PULL
    hoop = 16 * (95**2 + 80**2) / (95**2 - 80**2)
    along = -left / wall
    stress = (((hoop + 16) ** 2 + (-16 - along) ** 2 + (along - hoop) ** 2) / 2) ** 0.5
    assert checks["barrel-yield-working"].factor_from == pytest.approx(450 / stress)
    assert "cap-weld" not in checks


def test_an_untyped_preload_is_a_range():
    wall = by_code(strength(tie_rods(None)))["barrel-yield-working"]
    assert wall.factor_from < wall.factor_to
    assert by_code(strength(tie_rods(None)))["tie-rod-joint"].verdict == "not known"


def test_tie_rods_without_a_thread_are_not_known():
    n = replace(tie_rods(41_000.0), tie_rod=None)
    c = found("tie-rods", n)
    assert (c.verdict, c.depends_on[0].field) == ("not known", "cylinder.tie_rod")


def test_a_port_flange_is_held_against_its_own_side():
    rating = Number("rod_port.thread", 34.5, "given", "SAE J518 code 61")
    n = numbers(port_ratings={"rod": rating, "base": replace(rating, name="base_port.thread")})
    shut = duty(n, rod_side="blocked")
    assert found("port-rating-rod", shut).factor_from == pytest.approx(
        34.5 / (16 * 80**2 / (80**2 - 45**2))
    )
    assert found("port-rating-base", shut).factor_from == pytest.approx(34.5 / 16)


def test_no_load_no_check():
    n = duty(numbers(working_pressure=None), push=None, pull=None)
    assert [c for c in strength(n) if c.verdict] == []


def test_every_check_has_a_case_a_source_and_a_reason():
    checks: list[Check] = [c for c in strength(numbers()) if c.verdict]
    assert len(checks) > 15
    assert all(c.case and c.source and c.why_asked for c in checks)


def test_a_weld_nobody_typed_says_what_would_do():
    n = numbers(sizes={"body_mount.weld_leg": None})
    c = found("body-weld", n)
    assert (c.verdict, c.factor_from) == ("not known", None)
    (leg,) = c.depends_on
    assert leg.would_do == pytest.approx(3.5 * PUSH / (393 * SHEAR * 260 / 2**0.5), rel=1e-5)
    typed = replace(n, sizes=n.sizes | {leg.field: given(leg.field, leg.would_do * 1.0001)})
    assert found("body-weld", typed).verdict == "holds"


def test_clevis_sections_are_those_of_the_mount():
    assert [type(s).__name__ for s in clevis_sections("x")] == ["LoosePin", "Eye", "Fillet"]
    assert Fillet(length("a"), length("b")).leg.fields == ("a",)


@pytest.mark.parametrize(
    ("sizes", "codes"),
    [
        ({"gap": 86.5}, ("body-pin-bearing", "body-pin-bending", "body-eye-tension",
                         "body-tear-out")),
        ({"hole": 77.5}, ("body-eye-tension",)),
        ({"nose": 19.0}, ("body-tear-out",)),
    ],
)  # fmt: skip
def test_where_no_metal_is_left_nothing_is_carried(sizes, codes):
    known = {f"body_mount.{k}": given(f"body_mount.{k}", v) for k, v in sizes.items()}
    for code in codes:
        c = found(code, numbers(sizes=known))
        assert (c.verdict, c.factor_from) == ("fails", 0.0), code


def test_a_stub_that_does_not_stand_out_carries_nothing():
    sizes = {f"body_mount.{k}": given(f"body_mount.{k}", v)
             for k, v in (("pin", 31.0), ("width", 131.0), ("shoulders", 139.0))}  # fmt: skip
    stub = Sum(((0.5, "body_mount.width"), (-0.5, "body_mount.shoulders")))
    stubs = Stubs(length("body_mount.pin"), stub)
    n = numbers(sizes=sizes, body=EndMount("body", "y", None, (stubs,)))
    c = found("body-trunnion-bending", n)
    assert (c.verdict, c.factor_from) == ("fails", 0.0)

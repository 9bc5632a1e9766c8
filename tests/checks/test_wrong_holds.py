"""Cylinders whose metal would break: what is said of them, from the spec file to the verdict.

Each stands beside what statics says of it by hand; sizes are all different.
"""

from math import pi

import pytest

from drafting.checks.not_judged import not_judged
from drafting.checks.of_cylinder import judge
from drafting.cli import main
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from tests.checks.sample_numbers import numbers

CYLINDER = {
    "bore": 80, "rod": 45, "stroke": 700, "retracted": 1050, "barrel_outside": 95,
    "rod_stick_out": 31, "base_thickness": 29, "working_pressure": '"160 bar"',
    "gland": '"bolted"', "gland_rating": '"400 kN"', "base_weld": 12,
    "pin_material": '"4140 heat treated"',
    "mount_material": '"S355"', "rod_material": '"500 MPa"', "barrel_material": '"E355 SR"',
    "weld_material": '"E70"',
}  # fmt: skip
EYE = {"mount": '"pin eye"', "pin": 40, "hole": 40.3, "width": 46, "outside": 84, "nose": 43,
       "offset": 49, "ear": 26, "weld_leg": 13, "weld_run": 290}  # fmt: skip
FLANGE = {"mount": '"flange"', "position": '"base"', "plate": "[190, 180]", "thickness": 27,
          "bolts": '{count = 4, hole = 21, pitch = [146, 138], thread = "M20", grade = "10.9"}',
          "seat": '"base side"', "weld_leg": 12, "weld_run": 300}  # fmt: skip
DUTY = {"rod_side": '"open"', "orientation": '"horizontal"'}
PUSH = 16 * pi * 80**2 / 4


def spec(cylinder=(), body=EYE, rod=EYE, duty=DUTY):
    tables = {"cylinder": {**CYLINDER, **dict(cylinder)}, "body_mount": body, "rod_mount": rod,
              "base_port": {"thread": '"G 1/2"'}, "rod_port": {"thread": '"G 1/2"'},
              "duty": duty}  # fmt: skip
    lines = ['title = "Trial"', 'units = "mm"']
    for name, fields in tables.items():
        lines += [f"[{name}]", *(f"{k} = {v}" for k, v in fields.items() if v is not None)]
    return "\n".join(lines) + "\n"


def judged(*args, **changes):
    text = spec(*args, **changes)
    c = load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml"))
    return judge(c)


def checks(*args, **changes):
    return {c.code: c for c in judged(*args, **changes).checks}


def test_an_unguided_end_on_a_held_flange():
    """Fixed-free on the whole length; a pin at its end helps nothing. Euler bounds it by hand."""
    c = checks(body={**FLANGE, "held": "true"}, duty={**DUTY, "load_guided": "false"})[
        "column-full"
    ]
    assert "fixed-free" in c.note
    length = 1050 + 700
    rod_alone = pi**2 * 206_000 * pi / 64 * 45**4 / (2 * length) ** 2
    tube_alone = pi**2 * 206_000 * pi / 64 * (95**4 - 80**4) / (2 * length) ** 2
    assert rod_alone / PUSH < c.factor_from < tube_alone / PUSH
    assert c.verdict == "fails"


def test_unguided_between_two_pins():
    c = checks(duty={**DUTY, "load_guided": "false"})["column-full"]
    assert (c.verdict, c.factor_to) == ("fails", 0.0)
    assert "mechanism" in c.note


def test_the_hole_in_a_swivels_housing_is_the_bearings_outside():
    """A ball bearing of 40 mm bore is 62 mm outside (ISO 12240-1 series E)."""
    ball = {"mount": '"ball swivel"', "pin": 40, "hole": 40.01, "width": 23, "ball_width": 28,
            "outside": 93, "ear": 17, "bearing_rating": '"300 kN"', "offset": 52,
            "weld_leg": 12, "weld_run": 280}  # fmt: skip
    c = checks(body=ball)
    for hole, body in ((62.0, ball), (66.0, {**ball, "bearing_outside": 66})):
        c = checks(body=body)
        tear = PUSH / (2 * 23 * (93 / 2 - hole / 2))
        assert c["body-tear-out"].factor_from == pytest.approx(335 / 3**0.5 / tear)
        tension = PUSH / (23 * (93 - hole))
        assert c["body-eye-tension"].factor_from == pytest.approx(335 / tension)
    assert checks(body=ball)["body-tear-out"].depends_on[0].field == "body_mount.bearing_outside"


def test_the_hole_in_a_bushed_eye_is_the_bushings_outside():
    c = checks(body={**EYE, "bushing": 60})
    tear = PUSH / (2 * 46 * (43 - 30))
    assert c["body-tear-out"].factor_from == pytest.approx(335 / 3**0.5 / tear)
    assert c["body-eye-tension"].factor_from == pytest.approx(335 / (PUSH / (46 * (84 - 60))))
    assert c["body-bearing"].verdict == "not known"
    assert c["body-bearing"].depends_on[0].field == "body_mount.bearing_rating"


def test_a_weld_of_an_eye_is_judged_and_what_is_typed_for_nothing_is_told():
    c = checks()["body-weld"]
    shear = PUSH / (13 / 2**0.5 * 290)
    assert c.factor_from == pytest.approx(393 / 3**0.5 / shear)
    assert checks(body={**EYE, "weld_leg": None})["body-weld"].verdict == "not known"
    rod = {"mount": '"male thread"', "thread": '"M33x2"', "weld_leg": 9, "weld_run": 100}
    unused = [f.field for f in judged(rod=rod).findings if f.code == "unused-field"]
    assert {"rod_mount.weld_leg", "rod_mount.weld_run"} <= set(unused)


def test_a_weight_it_cannot_lift():
    """20 t straight up weigh 196 kN; 160 bar on 80 mm push 80 kN and would trap 390 bar."""
    c = checks(duty={**DUTY, "orientation": '"vertical"', "mass": '"20 tonne"', "push": '"80 kN"'})
    assert c["push"].verdict == "fails"
    assert c["push"].asked == pytest.approx(196_133)
    assert c["holding-base"].verdict == "fails"
    assert c["holding-base"].asked == pytest.approx(39.02, abs=0.01)
    assert c["body-pin-shear"].factor_from == pytest.approx(
        655 / 3**0.5 / (196_133 / (2 * pi / 4 * 40**2))
    )


def test_the_column_stands_under_the_weight():
    c = checks(duty={**DUTY, "orientation": '"vertical"', "mass": '"6000 kg"', "push": '"10 kN"'})
    light = checks(duty={**DUTY, "push": '"10 kN"'})
    ratio = light["column-duty"].factor_from / c["column-duty"].factor_from
    assert ratio == pytest.approx(6000 * 9.80665 / 10_000)


def test_a_shut_rod_side_is_judged_at_what_it_traps():
    """250 bar and a 56 rod: 250 x 80^2 / (80^2 - 56^2) = 490 bar, nothing along the rod."""
    thick = {"rod": 56, "working_pressure": '"250 bar"', "barrel_outside": 102}
    blocked = checks(thick, duty={**DUTY, "rod_side": '"blocked"'})
    free = checks(thick)
    wall = 3**0.5 * 49.02 * 102**2 / (102**2 - 80**2)
    assert blocked["barrel-yield-working"].factor_from == pytest.approx(450 / wall, rel=1e-3)
    assert blocked["rod-along"].factor_from == pytest.approx(free["rod-along"].factor_from)
    assert "oil shut in" in blocked["barrel-yield-working"].case
    unsaid = checks(thick, duty={k: v for k, v in DUTY.items() if k != "rod_side"})
    assert unsaid["barrel-yield-working"].verdict != "holds"
    assert unsaid["barrel-yield-working"].factor_to == pytest.approx(
        free["barrel-yield-working"].factor_to
    )


def test_no_pressure_no_verdict_and_exit_1(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    text = spec({"working_pressure": None}, duty={})
    (tmp_path / "trial.toml").write_text(text, encoding="utf-8")
    assert main(["check", "trial.toml"]) == 1
    said = capsys.readouterr()
    assert "no pressure" in said.out + said.err


def test_with_all_typed_most_hold_and_people_take_them_all_back():
    typed = checks(duty={**DUTY, "load_guided": "true"})
    assert sum(c.verdict == "holds" for c in typed.values()) >= 10
    lifts = checks(duty={**DUTY, "lifts_people": "true"})
    assert not any(c.verdict == "holds" for c in lifts.values())
    assert any(d.field == "duty.lifts_people" for c in lifts.values() for d in c.depends_on)


def test_an_old_cylinder_whose_wall_or_weld_nobody_measured_never_holds():
    origin = '[[origin]]\nfield = "cylinder.bore"\nfrom = "measured"\n'

    def holding(**cylinder):
        text = spec(cylinder) + origin
        c = load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml"))
        return sum(k.verdict == "holds" for k in judge(c).checks)

    assert holding() >= 8
    assert holding(base_weld=None) == 0
    assert holding(barrel_outside=None) == 0


def test_a_best_guess_of_several_is_no_typed_size():
    text = spec() + '[[origin]]\nfield = "body_mount.nose"\nfrom = "open"\n'
    c = load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml"))
    tear = next(k for k in judge(c).checks if k.code == "body-tear-out")
    assert (tear.verdict, tear.depends_on[0].field) == ("depends", "body_mount.nose")


def test_without_any_pressure_nothing_holds_on_the_duty_alone():
    plain = checks({"working_pressure": None}, duty={**DUTY, "push": '"1 kN"'})
    assert not any(c.verdict == "holds" for c in plain.values())
    assert any(d.field == "cylinder.working_pressure" for d in plain["cap-bending"].depends_on)


def test_a_flange_port_is_held_against_its_rating():
    """SAE J518 code 61, 1/2 in: 345 bar; the shut rod side traps 234 bar at 160."""
    flange = {"thread": '"flange 1/2 code 61"'}
    text = spec(duty={**DUTY, "rod_side": '"blocked"'}).replace('thread = "G 1/2"', "thread = 1")
    text = text.replace("thread = 1", f"thread = {flange['thread']}")
    c = load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml"))
    found = {k.code: k for k in judge(c).checks}
    assert found["port-rating-rod"].factor_from == pytest.approx(34.5 / 23.41, rel=1e-3)
    assert found["port-rating-base"].factor_from == pytest.approx(34.5 / 16.0)


def test_a_weld_that_is_only_a_best_guess_is_no_typed_weld():
    text = spec() + '[[origin]]\nfield = "body_mount.weld_leg"\nfrom = "open"\n'
    c = load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml"))
    weld = next(k for k in judge(c).checks if k.code == "body-weld")
    assert (weld.verdict, weld.depends_on[0].field) == ("depends", "body_mount.weld_leg")


def test_what_carries_and_is_not_judged_is_said():
    def said(**changes):
        found = [f for f in judged(**changes).findings if f.code == "not-judged"]
        assert all(f.level == "note" for f in found)
        return " ".join(f.message for f in found)

    assert "piston is held" in said()
    assert "prying" in said(body=FLANGE)
    assert "screwed" in said(rod={"mount": '"male thread"', "thread": '"M33x2"'})
    assert "tires" not in said()
    assert "100,000 times loaded" in said(duty={"strokes_per_day": "400"})  # 250 days


@pytest.mark.parametrize("construction", ["welded", "tie rod"])
@pytest.mark.parametrize("piston", ["sealed", "none"])
def test_pistons_and_heads_are_named_where_there_are_any(piston, construction):
    n = numbers(piston=piston, construction=construction)
    fields = [f.field for f in not_judged(n)]
    assert ("cylinder.piston" in fields) is (piston == "sealed")
    assert ("cylinder.construction" in fields) is (construction == "tie rod")

"""From the bench to a spec: what is sure, what stays open, and never a wrong size that is sure.

Sizes: the tables of bores, rods, pins and tubes of this project. That wear is never even, that a
pin centre is guessed to 1/8 in at best and that closed and open are read at a hard stop are common
practice. The wide count is ``python -m tests.measuring.old_cylinders 2000``.
"""

from pathlib import Path

import pytest

from drafting.errors import Refused
from drafting.measuring.letters import letters
from drafting.measuring.measure import measure
from drafting.measuring.nearest_size import candidates, verdict
from drafting.model.catalog import mount_types, mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from drafting.spec.fields import TABLES
from tests.measuring.old_cylinders import count, old, outcome, wrong

SAMPLE = Path(__file__).parents[2] / "specs" / "readings" / "orchard-lift.toml"


def text(**other):
    """The sample with some lines put in the place of others (``E="1.2"``); None drops one."""
    lines = SAMPLE.read_text(encoding="utf-8").splitlines()
    for key, value in other.items():
        found = next(n for n, line in enumerate(lines) if line.split(" = ")[0].strip() == key)
        lines[found] = "" if value is None else f"{key} = {value}"
    return "\n".join(lines)


def taken(other):
    return measure(text(**other).encode())


def is_open(m, letter):
    return [o for o in m.open if letter in o.name.split(", ")]


def row(m, letter):
    return next(r for r in m.rows if r.letter.letter == letter)


# --- the whole way -------------------------------------------------------------------------------


def test_the_sample_is_read_without_anything_open():
    m = measure(SAMPLE)
    assert m.open == ()
    c = load(read_spec(m.spec.encode(), mounts=mounts_by_end()))
    assert c.stations.bore == pytest.approx(88.9)
    assert c.stations.rod == pytest.approx(44.45)
    assert c.lengths.retracted == pytest.approx(27.25 * 25.4, abs=1.0)
    assert c.lengths.stroke == pytest.approx(16 * 25.4, abs=1.5)
    assert c.spec.word("rod_port.thread") == "3/4-16 UNF ORB"


def test_a_bench_without_slips_gives_the_drawing_back():
    counts, bad, why = count(25, sound=True)
    assert bad == []
    assert counts["same"] > 0.3 * counts.total(), why


def test_never_a_wrong_size_that_is_sure():
    counts, bad, _ = count(200)
    assert bad == []
    assert counts["same"] > 5
    assert counts["again"] > 20


def test_the_judge_of_wrong_sizes_can_fail():
    """A truth that was moved by 1 mm behind its back is called wrong."""
    o = old(
        'title = "x"\nunits = "mm"\n[cylinder]\nbore = 63\nrod = 36\nstroke = 320\n'
        'retracted = 700\n[body_mount]\nmount = "clevis"\npin = 30\n[rod_mount]\n'
        'mount = "cross tube"\npin = 30\n[base_port]\nthread = "G 1/2"\n[rod_port]\n'
        'thread = "G 1/2"\n',
        5,
        sound=True,
    )
    m = measure(o.readings.encode())
    assert wrong(o, m) == []
    assert outcome(o)[0] in ("same", "again")
    o.truth["E"] += 1.0
    o.truth["W1"] -= 1.0
    assert len(wrong(o, m)) == 2


# --- lengths -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("way", "closed"),
    [("outer", "28 1/2"), ("inner", "26"), ("same", "27 1/4")],
)
def test_lengths_may_be_read_over_any_edges(way, closed):
    lines = text().replace('A_outer = ["28 1/2", "28 1/2"]', f'A_{way} = ["{closed}"]*2')
    m = measure(lines.replace("]*2", f', "{closed}"]').encode())
    assert row(m, "A").taken_as_mm == pytest.approx(27.25 * 25.4, abs=0.6)
    assert m.open == ()


def test_a_guessed_centre_is_open_and_no_better_than_an_eighth():
    m = measure(text().replace("A_outer", "A").encode())
    assert any("guessed" in o.what for o in is_open(m, "A"))
    two = measure(text().replace("A_outer", "A").replace("S       =", "#").encode())
    assert 2 * row(two, "A").uncertainty_mm >= 25.4 / 8 / 2**0.5


def test_a_rod_not_pushed_home_once_is_found():
    m = taken({"A_outer": '["28 1/2", "29"]'})
    assert any("hard stop" in o.what for o in is_open(m, "A"))


def test_without_a_hard_stop_the_lengths_stay_open():
    assert is_open(taken({"hard_stop": None}), "A")


ALONG = {"T_outer": None, "K_outer": None, "L_outer": None}


def test_a_travel_that_does_not_agree_leaves_each_reading_as_it_is():
    """Closed, open and travel that disagree are never averaged; the gap is told."""
    short = {"B_outer": '["44 1/8", "44 1/8"]', **ALONG}
    m = taken(short)
    (gap,) = [o for o in m.open if "apart" in o.what]
    assert gap.name == "A, B, S"
    assert gap.what.startswith("B - A = 15 5/8, S = 16: 3/8 apart; B may be short of its stop")
    assert row(m, "A").confidence == row(m, "B").confidence == "open"
    edges = (1.267 + 1.2665) / 2
    assert row(m, "B").reading_mm == pytest.approx((44.125 - edges) * 25.4, abs=0.05)
    assert row(m, "A").reading_mm == pytest.approx((28.5 - edges) * 25.4, abs=0.05)


def test_a_length_needs_two_ways():
    """Errors that repeat themselves agree with each other: only another way shows them."""
    m = taken(ALONG)
    assert any("measure once more" in o.what for o in is_open(m, "A"))
    assert not m.done


def test_a_burned_inch_shows_in_the_second_way():
    """The tape was held at its first inch: every length is an inch long, and the repeats agree."""
    burned = {"A_outer": '["29 1/2", "29 1/2"]', "B_outer": '["45 1/2", "45 1/2"]'}
    m = taken(burned)
    gaps = [o for o in m.open if "1 apart" in o.what or "apart" in o.what]
    assert {"A, T, K", "B, T, L"} <= {o.name for o in gaps}
    assert row(m, "A").confidence == "open"


def test_short_of_the_stop_both_times_shows_in_the_second_way():
    m = taken({"A_outer": '["28 7/8", "28 7/8"]', "S": '["15 5/8", "15 5/8"]'})
    assert any(o.name == "A, T, K" and "3/8 apart" in o.what for o in m.open)
    assert row(m, "B").confidence == "sure"


def test_the_two_ways_are_closer_than_one():
    m, one = measure(SAMPLE), taken(ALONG)
    assert row(m, "A").uncertainty_mm < row(one, "A").uncertainty_mm


def test_the_spec_says_what_was_measured_and_what_is_open():
    m = taken({"B_outer": '["44 1/8", "44 1/8"]', "E": "[1.377, 1.377]"})
    spec = read_spec(m.spec.encode(), mounts=mounts_by_end())
    assert spec.origin("cylinder.bore").kind == "measured"
    assert spec.origin("cylinder.bore").plus_minus == pytest.approx(0.002 * 25.4, abs=0.03)
    assert spec.origin("cylinder.extended").kind == "open"
    assert "apart" in spec.origin("cylinder.extended").note
    assert spec.origin("cylinder.rod").kind == "open"
    assert "35 mm" in spec.origin("cylinder.rod").note
    found = {f.field for f in load(spec).findings if f.code == "open-size"}
    assert {"cylinder.extended", "cylinder.rod"} <= found


def test_what_a_person_decided_has_no_origin_to_tell():
    lines = text(E="[1.377, 1.377]") + "\n[decided]\nE = 1.375\n"
    spec = read_spec(measure(lines.encode()).spec.encode(), mounts=mounts_by_end())
    assert spec.origin("cylinder.rod") is None


def test_what_is_open_is_sorted_by_what_it_would_change():
    m = taken({"G2": "1.562", "B_outer": '["44 1/8", "44 1/8"]'})
    names = [o.name for o in m.open]
    assert names.index("B, S") < names.index("G2")


def test_closed_and_travel_give_open():
    m = taken({"B_outer": None})
    assert row(m, "B").taken_as_mm == pytest.approx(43.25 * 25.4, abs=1.0)


def test_lengths_are_never_snapped_and_half_inches_only_suggested():
    m = taken({"B_outer": '["44 17/32", "44 17/32"]', "S": None})
    assert row(m, "B").taken_as_mm == pytest.approx(row(m, "B").reading_mm, abs=0.13)
    assert any("may have been built as 16 in" in n for n in m.notes)


# --- diameters -----------------------------------------------------------------------------------


def test_35_mm_and_1_3_8_in_stay_two():
    m = taken({"P1": "[1.375, 1.3755]", "H1": "[1.39, 1.39]"})
    (asked,) = is_open(m, "P1")
    assert "35 mm" in asked.what
    assert "1 3/8 in" in asked.what
    assert "the rest is inch, so rather 1 3/8 in" in asked.what
    assert asked.decide


def test_the_maker_s_system_decides_between_the_two():
    m = taken({"P1": "[1.375, 1.3755]", "H1": "[1.39, 1.39]", "units": '"in"\nsystem = "inch"'})
    assert row(m, "P1").taken_as == "1 3/8 in"
    assert not is_open(m, "P1")


def test_a_micrometer_decides_where_a_caliper_cannot():
    lines = text(P1=None, H1="[1.39, 1.39]") + "\n[micrometer]\nP1 = [1.3765, 1.3766]\n"
    m = measure(lines.encode())
    assert row(m, "P1").taken_as == "35 mm"
    assert not is_open(m, "P1")


def test_a_person_may_decide():
    lines = text(P1="[1.375, 1.3755]", H1="[1.39, 1.39]") + '\n[decided]\nP1 = "35 mm"\n'
    m = measure(lines.encode())
    assert row(m, "P1").taken_as_mm == 35.0
    assert m.open == ()


def test_wear_is_named_and_left_open():
    m = taken({"P2": "[1.248, 1.215]"})
    assert any("worn" in o.what for o in is_open(m, "P2"))
    m = taken({"H2": "[1.267, 1.33]"})
    assert any("pulled" in o.what for o in is_open(m, "H2"))
    m = taken({"E": "[1.749, 1.739]"})
    assert any("chrome" in o.what for o in is_open(m, "E"))


def test_a_bell_mouth_is_set_aside_when_the_deep_readings_agree():
    m = taken({"C": "[3.501, 3.502, 3.52, 3.53]"})
    assert row(m, "C").taken_as == "3 1/2 in"
    assert row(m, "C").confidence == "sure"
    assert "bell-mouth" in row(m, "C").note


def test_a_pin_that_does_not_go_into_its_hole_belongs_elsewhere():
    m = taken({"P1": "[1.499, 1.499]"})
    assert any("does not go into" in o.what for o in is_open(m, "P1"))


def test_ends_mixed_up_in_one_round_are_found():
    m = taken({"W1": "[3.5, 3.189]", "W2": "[3.188, 3.498]"})
    assert any("second readings look as if the two ends were swapped" in o.what for o in m.open)


def test_a_pin_worn_evenly_is_loose_in_its_hole():
    m = taken({"P1": "[1.2485, 1.248]", "H1": "[1.30, 1.30]"})
    assert any("loose" in o.what for o in is_open(m, "P1"))


def test_a_larger_pin_worn_evenly_is_not_ruled_out_by_a_wide_hole():
    """A pin of 45 mm worn to 44.4 mm all round, in its hole of 45.04 mm, is not one of 1 3/4 in.

    Beside a rod of 45 mm, that is: where all else is inch, 1/32 in is the usual room.
    """
    worn = {"P1": "[1.748, 1.748]", "H1": "[1.773, 1.773]"}
    assert not is_open(taken(worn), "P1")
    m = taken({**worn, "E": "[1.771, 1.7715]"})
    assert any("1 3/4 in, or 45 mm worn evenly" in o.what for o in is_open(m, "P1"))


def test_a_size_read_once_is_told():
    assert any("only once" in o.what for o in is_open(taken({"W1": "3.5"}), "W1"))


def test_a_bore_from_the_outside_less_two_walls():
    m = taken({"C": "", "D": "[4.0, 4.0]\nF = [0.25, 0.251]"} | {"C": None})
    assert row(m, "C").reading_mm == pytest.approx(88.9, abs=0.1)


def test_an_unseen_wall_gives_the_bores_and_what_would_decide():
    m = taken({"C": None, "D": "[4.5, 4.5]"})
    (asked,) = is_open(m, "C")
    assert "4 in bore" in asked.what
    assert "seal" in asked.decide
    assert "force" in asked.decide
    assert "# bore = ?" in m.spec


@pytest.mark.parametrize("kind", ["bore", "rod", "pin"])
def test_the_nearest_common_size_needs_a_reading_near_it(kind):
    assert candidates(kind, 50.05 if kind == "bore" else 49.97, 0.03, even=True)[0].size.mm == 50
    assert candidates(kind, 47.5, 0.03, even=True) == ()
    assert not verdict(kind, 47.5, 0.03, True, "", None).sure


# --- ports and threads ---------------------------------------------------------------------------


def test_a_port_needs_its_adapter_out():
    m = measure(text().replace('adapter = "none"', 'adapter = "in"').encode())
    assert any("adapter" in o.what for o in is_open(m, "rod_port"))


def test_a_caliper_alone_does_not_tell_a_port():
    m = measure(text().replace('pitch   = "16 tpi"', "").replace("0.69", "0.98").encode())
    (asked,) = is_open(m, "rod_port")
    assert "3/4 NPT" in asked.what


def test_a_male_thread_needs_its_pitch():
    other = SAMPLE.read_text(encoding="utf-8").replace('"clevis"\nturned = 0', '"male thread"')
    other = "\n".join(x for x in other.splitlines() if x[:2] not in ("P2", "H2", "G2", "W2", "T2"))
    other = other.replace("[base_port]", "M2 = [1.242, 1.243]\nL2 = [2.0, 2.0]\n[base_port]")
    assert is_open(measure(other.encode()), "M2")
    told = other.replace('"male thread"', '"male thread"\npitch = "12 tpi"')
    m = measure(told.encode())
    assert not is_open(m, "M2")
    assert 'thread = "1 1/4-12 UNF"' in m.spec


# --- the file ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("broken", "code"),
    [
        ({"G2": "[1.5, 1.5]\nG1 = 2"}, "unknown-letter"),
        ({"E": '"1 3/4 gallons"'}, "not-a-length"),
        ({"units": '"cm"'}, "unknown-word"),
        ({"E": "[]"}, "empty"),
        ({"C": "[3.5, -3.5]"}, "out-of-range"),
        ({"mount": '"crosstube"'}, "unknown-word"),
    ],
)
def test_faults_have_their_place(broken, code):
    with pytest.raises(Refused) as refused:
        taken(broken)
    assert code in {f.code for f in refused.value.faults}
    assert all(f.line > 1 for f in refused.value.faults)


def test_names_do_as_well_as_letters():
    m = measure(text().replace("A_outer", "closed_outer").replace("\nC  =", "\nbore =").encode())
    assert row(m, "C").taken_as == "3 1/2 in"
    assert m.open == ()


def test_every_mount_has_letters_and_every_letter_a_field():
    for end, mount in mount_types():
        other = "plain" if end == "body" else "none"
        known = letters(mount, other) if end == "body" else letters(other, mount)
        assert len({x.letter for x in known}) == len(known)
        assert len({x.name for x in known}) == len(known)
        taken_by = mount_types()[end, mount]
        fields = (*taken_by.fields, *taken_by.rod_fields)
        for x in known:
            if not x.field:  # a second way to a length, or a check of one
                assert x.letter in "TKLX"
                continue
            table, first = x.field.split(".")[:2]
            assert TABLES[table].field(first) is not None
            if x.end == (1 if end == "body" else 2) and "mount" in table:
                assert first in fields, (mount, x.field)

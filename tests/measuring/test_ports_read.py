"""Threads of ports as they are read: look-alike pitches, one wrong word, families, the maker.

Diameters over the crests of holes: ASME B1.1 (9/16-18 UNF-2B .502 to .515 in, 1 1/16-12 UN-2B .972
to .990), ISO 965-1 (M27x2 6H 24.835 to 25.210 mm), tap drill of 3/4-14 NPT 59/64 in (handbooks).
That 12 per inch and 2 mm look alike on a gauge of a few teeth is common practice.
"""

import re

import pytest

from drafting.measuring.pitch import read_pitch
from tests.measuring.bench_sample import BASE_PORT, ROD_PORT, asked, taken


def threads(m):
    return re.findall(r'^thread = "([^"]*)"', m.spec, re.M)


def rod_port(lines, *more):
    return taken((ROD_PORT, lines), *more)


TWELVE = 'female = 0.985\npitch = "{}"\ntaper = false'


def test_look_alike_pitches_need_ten_threads():
    m = rod_port(TWELVE.format("12 tpi"))
    (one,) = asked(m, "rod_port")
    assert "1 1/16-12 UN ORB, M27x2" in one.what
    assert ".833 in (21.2 mm)" in one.decide  # 10 / 12 in
    assert ".787 in (20.0 mm)" in one.decide  # 10 x 2 mm
    counted = rod_port(TWELVE.format("10 over 0.835 in"))
    assert counted.done
    assert threads(counted)[1] == "1 1/16-12 UN ORB"
    metric = rod_port(TWELVE.format("10 threads over 20.1 mm"))
    assert threads(metric)[1] == "M27x2 ISO 6149"


def test_a_typed_system_rules_the_look_alike_out():
    m = rod_port(TWELVE.format("12 tpi"), ("hard_stop = true", 'hard_stop = true\nsystem = "inch"'))
    assert not asked(m, "rod_port")
    assert threads(m)[1] == "1 1/16-12 UN ORB"


def test_one_wrong_taper_makes_no_pipe_thread_of_it():
    m = rod_port('female = 0.51\npitch = "18 tpi"\ntaper = true')
    assert threads(m)[1] == "9/16-18 UNF ORB"
    assert "is it a taper" in asked(m, "rod_port")[0].decide
    assert rod_port('female = 0.51\npitch = "18 tpi"\ntaper = false').done


def test_a_pipe_thread_is_still_one():
    m = rod_port('female = 0.45\npitch = "10 over 0.556 in"\ntaper = true')
    assert threads(m)[1] == "1/4 NPT"
    assert m.done


def test_two_families_on_one_cylinder_are_a_question_unless_both_were_named():
    m = rod_port('female = "18.8 mm"\npitch = "14 tpi"\ntaper = false')
    assert "two families" in asked(m, "rod_port")[0].what
    assert rod_port('thread = "G 1/2"').done
    alike = taken((ROD_PORT, 'female = 0.69\npitch = "16 tpi"'), (BASE_PORT, 'thread = "1/2 NPT"'))
    assert alike.done  # both at home among inch threads


def test_american_or_british_taper_is_told_by_an_all_inch_cylinder():
    lines = 'female = 0.95\npitch = "14 tpi"\ntaper = true'
    m = rod_port(lines)
    assert m.done
    assert threads(m)[1] == "3/4 NPT"
    assert "not Rc 3/4: the rest is inch" in m.spec
    mixed = rod_port(lines, ("P1 = [1.249, 1.248]", "P1 = [1.181, 1.180]"),
                     ("H1 = [1.266, 1.268]", "H1 = [1.19, 1.19]"))  # fmt: skip
    assert "one of 3/4 NPT, Rc 3/4" in asked(mixed, "rod_port")[0].what  # a 30 mm pin


def test_without_a_pitch_nothing_is_told_as_known():
    (one,) = asked(rod_port("female = 0.69"), "rod_port")
    assert one.what.startswith("no pitch was read; by its diameter it is")


@pytest.mark.parametrize(
    ("text", "mm"),
    [("12 tpi", 25.4 / 12), ("11.5 per inch", 25.4 / 11.5), ("1.5 mm", 1.5),
     ("10 over 15.9 mm", 1.59), ("10 threads over 5/8 in", 1.5875), ("8 over 20 mm", 2.5)],
)  # fmt: skip
def test_pitches_as_they_are_written(text, mm):
    found = read_pitch(text)
    assert found.mm == pytest.approx(mm)
    assert found.counted == ("over" in text)
    assert found.uncertainty_mm < (0.02 * mm if found.counted else 0.04 * mm)


@pytest.mark.parametrize(
    "text", ["", "12", "0 tpi", "3 over 6 mm", "10 over 16", "10 over x mm", "nan tpi"]
)
def test_what_is_no_pitch(text):
    assert read_pitch(text) is None

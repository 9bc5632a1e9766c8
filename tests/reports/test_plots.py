"""Plots: the lines drawn are the formulas, measured back from the SVG.

Sources: areas times pressure and flow over area by hand; the column against Euler and the stepped
equation of the checks at both ends of the stroke.
"""

from dataclasses import replace
from itertools import pairwise
from math import pi
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given as each
from hypothesis import strategies as st

from drafting.checks.buckling import column
from drafting.checks.numbers import Duty
from drafting.cli import main
from drafting.reports.curves import charts
from drafting.reports.plots import (
    BOTTOM,
    HIGH,
    LEFT,
    RIGHT,
    TOP,
    WIDE,
    apart,
    plots,
    ticks,
    wrapped,
)
from tests.checks.sample_numbers import given, numbers

SVG = "{http://www.w3.org/2000/svg}"


def by_name(n, units="mm"):
    return {c.name: c for c in charts(n, units)}


def line(chart, name):
    return next(s for s in chart.series if s.name == name).points


def test_force_at_the_working_pressure_by_hand():
    chart = by_name(numbers())["force-pressure"]
    assert line(chart, "push")[-1] == pytest.approx((160.0, 16 * pi * 1600 / 1000))
    assert line(chart, "pull")[-1][1] == pytest.approx(16 * pi * (80**2 - 45**2) / 4000)
    inch = by_name(numbers(), "in")["force-pressure"]
    assert line(inch, "push")[-1] == pytest.approx((2320.6, 18_080), rel=1e-3)


def test_speed_at_the_flow_of_the_duty_by_hand():
    chart = by_name(numbers())["speed-flow"]
    q, v = line(chart, "out")[-1]
    assert q == pytest.approx(1.5 * 30)
    assert v == pytest.approx(1.5 * 0.5e6 / (pi * 1600))


def test_the_columns_limit_over_the_stroke_and_the_pushes_beside_it():
    n = numbers()
    chart = by_name(n)["column-extension"]
    buckles, limit = line(chart, "buckles"), line(chart, "limit, factor 3.5")
    assert buckles[0][0] == 0.0
    assert buckles[-1][0] == 500.0
    for x, force in (buckles[0], buckles[-1]):
        assert force * 1000 == pytest.approx(column(n, "y", x).load)
    assert [b[1] / a[1] for a, b in zip(limit, buckles, strict=True)] == pytest.approx([3.5] * 61)
    assert all(a[1] >= b[1] for a, b in pairwise(limit))
    assert chart.shift == 800.0
    asked = {x.name: x.at for x in chart.levels}
    assert asked["push asked"] == pytest.approx(60.0)
    assert asked["full push"] == pytest.approx(16 * pi * 1600 / 1000)


def test_only_what_is_known_is_plotted():
    assert set(by_name(numbers(duty=Duty()))) == {"force-pressure", "column-extension"}
    assert by_name(numbers(duty=Duty(), working_pressure=None)) == {}
    single = by_name(numbers(action="push"))["force-pressure"]
    assert [s.name for s in single.series] == ["push"]


def test_no_factor_asked_takes_the_upper_end_of_common_practice():
    n = numbers()
    n = replace(n, duty=replace(n.duty, safety_factor=None))
    chart = by_name(n)["column-extension"]
    assert line(chart, "limit, factor 4")
    assert "common practice" in chart.note


@pytest.mark.parametrize("units", ["in", "mm"])
def test_the_drawn_line_is_the_number(units):
    n = numbers(relief_pressure=given("r", 18.0))
    files = plots(n, units)
    assert set(files) == {"force-pressure", "speed-flow", "column-extension"}
    for chart in charts(n, units):
        root = ElementTree.fromstring(files[chart.name])
        drawn = root.findall(f"{SVG}polyline")
        assert len(drawn) == len(chart.series)
        xs = [x for s in chart.series for x, _ in s.points]
        ys = [y for s in chart.series for _, y in s.points]
        x_end = ticks(max(*xs, *(v.at for v in chart.levels if v.upright)))[-1]
        y_end = ticks(max(*ys, *(v.at for v in chart.levels if not v.upright)))[-1]
        for shape, series in zip(drawn, chart.series, strict=True):
            x, y = (float(v) for v in shape.get("points").split()[-1].split(","))
            assert (x - LEFT) / (WIDE - LEFT - RIGHT) * x_end == pytest.approx(
                series.points[-1][0], rel=1e-3
            )
            assert (HIGH - BOTTOM - y) / (HIGH - TOP - BOTTOM) * y_end == pytest.approx(
                series.points[-1][1], rel=1e-2
            )


def test_words_stay_on_the_paper_and_titles_are_there():
    for data in plots(numbers(), "in").values():
        root = ElementTree.fromstring(data)
        assert root.find(f"{SVG}title").text
        for text in root.findall(f"{SVG}text"):
            x, high, words = float(text.get("x")), float(text.get("font-size")), text.text
            wide = 0.62 * high * len(words)  # wider than any ordinary sans serif on average
            if text.get("transform"):
                continue
            start = {"start": x, "middle": x - wide / 2, "end": x - wide}[text.get("text-anchor")]
            assert start >= 0, words
            assert start + wide <= WIDE, words


@each(st.floats(1e-3, 1e6))
def test_ticks_are_round_and_reach(most):
    marks = ticks(most)
    assert marks[0] == 0.0
    assert marks[-1] >= most * (1 - 1e-8)
    assert marks[-2] < most
    assert 3 <= len(marks) <= 9
    assert f"{marks[1]:.6e}"[:3] in ("1.0", "2.0", "2.5", "5.0")


@each(st.lists(st.floats(16.0, 78.0), min_size=1, max_size=7))
def test_names_stand_apart(wanted):
    placed = apart(wanted, 3.4, 16.0, 78.0)
    ordered = sorted(placed)
    assert all(b - a >= 3.4 - 1e-6 for a, b in pairwise(ordered))
    assert min(placed) >= 16.0 - 1e-6
    assert max(placed) <= 78.0 + 1e-6
    by_wish = [p for _, p in sorted(zip(wanted, placed, strict=True))]
    assert by_wish == sorted(by_wish)


def test_wrapping_loses_no_word():
    text = "a stepped column of tube and rod " * 4
    assert " ".join(wrapped(text, 20)) == text.strip()
    assert max(map(len, wrapped(text, 20))) <= 20


def test_check_writes_them_on_request(tmp_path, capsys):
    spec = Path(__file__).parents[2] / "specs" / "mill-sluice.toml"
    code = main(["check", str(spec), "--plots", str(tmp_path)])
    said = capsys.readouterr()
    assert code in (0, 1)
    written = {p.name for p in tmp_path.iterdir()}
    assert "HB-0106-force-pressure.svg" in written
    assert all(name in said.err for name in written)

"""Usual sizes, codes, bearings, accessories.

Outside checks: preferred bores of ISO 3320 (memory); ISO 6099 names MP1 the fixed clevis, MP3 the
fixed eye, MP5 the spherical eye, MT1 head, MT2 cap, MT4 middle trunnion (recalled); series E of
ISO 12240-1: a 40 mm bore is 28 wide (public bearing data).
"""

import pytest

from drafting.standards.sizes import (
    accessories,
    bearing,
    nearest,
    usual_sizes,
)
from drafting.standards.table import table


def test_iso_3320_bores_are_listed():
    listed = {u.mm for u in usual_sizes("bore")}
    assert {25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 320} <= listed
    assert {2, 2.5, 3, 3.5, 4} <= {round(m / 25.4, 6) for m in listed}


@pytest.mark.parametrize("kind", ["bore", "rod", "pin"])
def test_sizes_rise_and_know_their_source(kind):
    sizes = usual_sizes(kind)
    assert [u.mm for u in sizes] == sorted({u.mm for u in sizes})
    assert all(u.source and u.confidence and u.series for u in sizes)
    inch = [u for u in sizes if u.inch]
    assert inch
    assert all((u.mm / 25.4 * 16) == pytest.approx(round(u.mm / 25.4 * 16)) for u in inch)


def test_nearest_first():
    assert [u.mm for u in nearest("bore", 88.0, 2)] == [88.9, 90]
    assert nearest("pin", 31.9, 1)[0].mm == 32
    assert nearest("rod", 44.4, 1)[0].inch


def test_every_code_that_is_given_is_a_row():
    codes = {r.word("code") for r in table("mounting_codes").rows}
    assert {e["code"] for e in table("mounting_codes").about["code"]} <= codes


def test_bearing_by_bore():
    assert bearing(40).required("B_mm") == 28
    assert bearing(31.75).word("series") == "inch (Z)"
    assert bearing(41) is None


def test_accessories_by_thread():
    assert {r.word("standard") for r in accessories("M27 x 2.0")} >= {"ISO 8133", "ISO 8140"}
    assert all("M27x2" in r.word("thread") for r in accessories("M27x2"))
    assert accessories("M8")
    assert accessories("M8x1") == accessories("M8")
    assert accessories("nothing") == ()

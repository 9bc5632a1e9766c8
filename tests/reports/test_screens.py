"""Whole screens of cylinders of our own, read for what they mean, from the command line.

Each has one thing that a reader must not miss; forces by hand: bore area times pressure, mass times
9.80665 m/s2.
"""

import re

import pytest

from drafting.cli import main
from tests.reports.test_typed_in import SAME

PORTS = """
[base_port]
thread = "G 1/4"
clock = 12
position = 82
[rod_port]
thread = "G 1/4"
clock = 12
position = 230
"""
FULL = SAME + PORTS


@pytest.fixture
def screen(tmp_path, capsys):
    def run(text, *options):
        path = tmp_path / "own.toml"
        path.write_text(text, encoding="utf-8")
        code = main(["check", str(path), *options])
        said = capsys.readouterr()
        return code, said.out, said.err.rstrip("\n").splitlines()[-1]

    return run


def verdicts(out):
    return re.findall(r"  (FAILS|not known|depends|holds)(?:  |$)", out, re.M)


def test_nothing_is_open_when_everything_is_typed_and_holds(screen):
    code, out, why = screen(FULL)
    assert code == 0
    assert why == "exit 0: nothing needs a person"
    assert "HOLDS   all " in out
    assert set(verdicts(out)) == {"holds"}
    assert "WARNING" not in out
    assert "Type what is true" not in out


@pytest.mark.parametrize(
    ("typed", "would_be", "first", "reason"),
    [
        # 15.7 kN over the two faces of a 5 mm pin (39 mm2) are 400 MPa of shear.
        ("pin = 30\nhole = 30.1", "pin = 5\nhole = 5.1", "DOES NOT HOLD", "checks? fail"),
        ("base_weld = 8\n", "", "NOT CONFIRMED", "1 of .* not confirmed"),
        ("lifts_people = false", "lifts_people = true", "NOT CALLED SAFE", "not confirmed"),
        ('working_pressure = "70 bar"\nrelief_pressure = "80 bar"\n', "", "NOT", "exit 1"),
        ("weld_run = 200", "weld_run = 9000", "NOT CONFIRMED", "1 error"),
    ],
)
def test_one_change_and_it_is_said_at_the_top_and_at_the_end(
    screen, typed, would_be, first, reason
):
    text = FULL.replace(typed, would_be, 1)
    assert text != FULL
    code, out, why = screen(text)
    assert code == 1
    verdict = next(x for x in out.splitlines()[2:] if x)
    assert re.match(first, verdict), verdict
    assert re.search(reason, why), why


def test_where_people_are_lifted_nothing_holds_and_the_law_is_named(screen):
    _, out, _ = screen(FULL.replace("lifts_people = false", "lifts_people = true"))
    assert "holds" not in verdicts(out)
    assert "licensed engineer" in out
    assert "codes in force at the place" in " ".join(out.split())


def test_a_load_that_is_too_heavy_fails_first_and_may_fall(screen):
    """3 t upright are 29.4 kN; 50 mm bore at 80 bar pushes 15.7 kN."""
    heavy = FULL.replace('orientation = "horizontal"', 'orientation = "vertical"\nmass = "3000 kg"')
    code, out, why = screen(heavy)
    assert code == 1
    assert "DOES NOT HOLD" in out
    assert re.search(r"push: 29\.4\d* kN asked.*FAILS", out)
    assert "no holding valve" in " ".join(out.split())
    assert "load-can-fall" in why


def test_a_field_that_nothing_uses_is_named(screen):
    """A preload of tie rods says nothing of a welded cylinder."""
    _, out, _ = screen(FULL.replace("base_weld = 8", 'base_weld = 8\ntie_rod_preload = "9 kN"'))
    assert re.search(r"TYPED, BUT NOT USED.*cylinder\.tie_rod_preload", out)


def test_full_begins_with_the_first_screen_and_goes_on(screen):
    _, first, _ = screen(FULL)
    _, full, _ = screen(FULL, "--full")
    head = first.rpartition("\n\n")[0]  # the pointer to --full is not told there
    assert full.startswith(head)
    for title in ("Must hold", "Figures", "Load cases", "Checks", "Still open", "Cautions"):
        assert f"\n{title}" in full

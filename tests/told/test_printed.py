"""How numbers are printed: to what they are rounded, and where a fraction stands for them."""

import pytest

from drafting.drawing.of_cylinder import sheet_job
from drafting.model.load import checked, load
from drafting.told.printed import printed


@pytest.mark.parametrize(
    ("name", "size", "shown"),
    [
        ("body_mount.gap", 41.275, ("1 5/8", "41.3")),
        ("body_mount.gap", 25.8064, ("1.016", "25.81")),
        ("body_mount.nose", 23.018125, (".906", "23.02")),
        ("body_mount.pin", 31.75, ("1 1/4", "31.75")),
        ("cylinder.bore", 63.5, ("2 1/2", "63.5")),
        ("rod_mount.hole", 20.6375, ("13/16", "20.64")),
    ],
)
def test_brackets_round_what_stands_for_a_fraction_to_a_tenth(name, size, shown):
    assert printed(name, size, "in [mm]", 16) == shown


def test_a_size_that_carries_a_fit_keeps_its_hundredths():
    assert printed("body_mount.width", 41.275, "in [mm]", 16, fitted=True)[1] == "41.28"


@pytest.mark.parametrize(
    ("size", "fractions", "shown"),
    [
        (453.5424, 64, ("17.86", "453.5")),
        (23.01875, 64, ("29/32", "23")),
        (568.644, 64, ("22.39", "568.6")),
        (568.644, 0, ("22.388", "568.6")),
    ],
)
def test_a_reference_among_fractions_is_a_fraction_or_has_two_decimals(size, fractions, shown):
    """(17.856) stood among sixteenths, to a thousandth that nobody holds."""
    assert printed("cylinder.body_length", size, "in [mm]", fractions, rough=True) == shown


def test_a_reference_in_millimetres_has_one_decimal():
    assert printed("cylinder.extended", 793.002, "mm", 64, rough=True) == ("793", "")
    assert printed("cylinder.extended", 262.36, "mm", 64, rough=True) == ("262.4", "")


@pytest.mark.parametrize(
    ("units", "shown"), [("mm", "23.4375 [595.31]"), ("in", "23 7/16 [595.3]")]
)
def test_metric_sizes_in_inches_have_no_fractions(units, shown):
    """2 11/16 and 3 1/8 stood among three decimals that metric sizes come to."""
    times = 25.4 if units == "mm" else 1.0
    text = f"""
    title = "Trial"
    units = "{units}"
    [cylinder]
    bore = {2 * times}
    rod = {times}
    stroke = {8 * times}
    retracted = {(23 + 7 / 16) * times}
    [body_mount]
    mount = "none"
    [rod_mount]
    mount = "plain"
    [drawing]
    dimensions = "in [mm]"
    """
    rows = dict(sheet_job(load(checked(text.encode()))).data.lengths)
    assert rows["RETRACTED"].text == shown


@pytest.mark.parametrize(
    ("swap", "said"),
    [
        ("", "from fractions to 0.1, pins, holes, bore and rod to 0.01;"),
        ("tolerance = {stroke = '±1/16'}", "bore, rod and sizes with a tolerance to 0.01;"),
        ("[drawing]\nfractions = 0", "[mm] for information, to 0.01, references to 0.1;"),
    ],
)
def test_the_note_tells_the_rounding_that_the_sheet_has(swap, said):
    """A sheet of decimals told of fractions."""
    text = f"""
    title = "Trial"
    units = "in"
    [cylinder]
    bore = 2
    rod = 1
    stroke = 8
    retracted = 23.4375
    {"" if swap.startswith("[") else swap}
    [body_mount]
    mount = "none"
    [rod_mount]
    mount = "plain"
    {swap if swap.startswith("[") else ""}
    """
    assert said in sheet_job(load(checked(text.encode()))).data.notes[0]

"""Rows that stand on the data sheet only where something was said, or where the oil asks for it."""

import pytest

from tests.told.test_data_rows import HAY, SPECS, sheet, words_of


def test_the_tolerance_of_a_weld_is_told():
    """'±1/16' of the weld stood nowhere."""
    more = '[rod_mount]\nweld_leg = "7/16"\ntolerance = {weld_leg = "±1/16"}\n'
    rows = words_of(sheet(text=HAY.replace("[rod_mount]\n", more)).data)
    assert rows["Rod mount weld"] == "leg 7/16 ±1/16 [11.11]"


def test_what_the_machine_has_in_a_clevis_is_an_eye():
    text = (SPECS / "log-grapple.toml").read_text(encoding="utf-8")
    found = sheet(text=text.replace("[rod_mount]\n", "[rod_mount]\near = 33\n"), dimensions="mm")
    assert words_of(found.data)["Machine at rod end"] == "eye 33 thick"


def test_a_load_that_is_not_guided_is_told():
    text = HAY.replace("[drawing]", "[duty]\nload_guided = false\n\n[drawing]")
    assert words_of(sheet(text=text).data)["Load"] == "not guided along the stroke"


def test_a_matched_set_of_nobody_knows_how_many_is_told():
    text = HAY.replace("[cylinder]", "matched_set = true\n[cylinder]", 1)
    assert words_of(sheet(text=text).data)["Quantity, a matched set"] == ""
    assert words_of(sheet(text="quantity = 6\n" + text).data)["Quantity"] == "6, a matched set"


@pytest.mark.parametrize(
    ("cylinder", "duty", "asked"),
    [
        ("", "", {"Force, push / pull": ""}),
        ('action = "push"', "", {"Force, push": ""}),
        ('action = "pull"', "", {"Force, pull": ""}),
        ('action = "push"', 'push = "20 kN"', {"Force, push": "20 kN"}),
        (
            'action = "push"',
            'pull = "2 kN"',
            {"Force, push": "", "Force, pull": "2 kN"},
        ),
    ],
)
def test_a_force_is_asked_for_only_where_the_oil_gives_it(cylinder, duty, asked):
    text = HAY.replace("[cylinder]", f"[cylinder]\n{cylinder}") + f"\n[duty]\n{duty}\n"
    rows = words_of(sheet(text=text).data)
    assert {k: v for k, v in rows.items() if k.startswith("Force")} == asked

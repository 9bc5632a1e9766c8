"""What the data sheet calls a row, and that what was typed has one; sizes are made up."""

import pytest

from tests.told.test_data_rows import HAY, SPECS, sheet, words_of

GIVEN = {
    "duty.mass": ("mass", '"900 lb"', "Mass moved", "900 lb"),
    "duty.pressure": ("pressure", '"1800 psi"', "Pressure at work", "1800 psi"),
    "duty.stopping_distance": ("stopping_distance", '"3/4"', "Stopped within", "3/4 [19.1]"),
    "duty.safety_factor": ("safety_factor", "3.5", "Factor of safety", "3.5"),
    "cylinder.gland": ("gland", '"bolted"', "Gland", "bolted"),
    "cylinder.gland_rating": ("gland_rating", '"52000 lbf"', "Gland holds", "52000 lbf"),
    "cylinder.base_weld": ("base_weld", '"5/16"', "Base cap weld", "leg 5/16 [7.9]"),
    "rod_mount.weld_leg": ("weld_leg", '"7/16"', "Rod mount weld", "leg 7/16 [11.1]"),
    "body_mount.ear": ("ear", '"3/4"', "Machine at base end", "ears 3/4 [19.1] thick"),
    "rod_mount.held": ("held", "true", "Machine at rod end", "held from turning"),
    "cylinder.wall": ("wall", '"3/8"', "Barrel wall", "3/8 [9.5]"),
    "cylinder.cushions": ("cushions", '"none"', "Cushions", "none"),
    "cylinder.pin_material": ("pin_material", '"4140"', "Pin material", "4140"),
}


@pytest.mark.parametrize("field", GIVEN)
def test_what_was_typed_stands_on_paper(field):
    """A mass, a weld or how the gland is held was typed, and no page said it."""
    word, typed, label, said = GIVEN[field]
    table = field.partition(".")[0]
    guided = "load_guided = true\n" if word == "mass" else ""
    text = HAY.replace("[drawing]", "[duty]\n\n[drawing]")
    assert label not in words_of(sheet(text=text).data)
    text = text.replace(f"[{table}]\n", f"[{table}]\n{guided}{word} = {typed}\n")
    assert words_of(sheet(text=text).data)[label] == said


def test_each_fitting_is_told_once_with_the_name_of_its_port():
    """Two rows were called rod port, and the bend of the hose stood among the sizes by rule too.

    What nobody typed of it had no flag.
    """
    more = (
        '[[extra_port]]\nend = "rod"\nthread = "SAE-6"\nclock = "6:00"\nposition = 39.5\n'
        'fitting = "straight"\nhose_bend = 5\n[drawing]'
    )
    swaps = ("position = 39.5", 'position = 39.5\nfitting = "90"'), ("[drawing]", more)
    found = sheet(*swaps)
    rows = words_of(found.data)
    assert rows["Rod port, room for"].startswith("37° flare -8 D, 90°; hose bend ")
    assert rows["Rod port, room for"].endswith("] D")
    assert rows["Rod port 2, room for"] == "37° flare -6 D, straight; hose bend 5 [127]"
    assert not [r.label for r in found.ruled if "hose" in r.label]
    assert "rod_port.hose_bend" in found.said


def test_a_mount_along_the_body_is_not_of_the_base_end():
    """A flange at the rod end had a base plate, a trunnion in the middle a fitting at the base."""
    text = (SPECS / "pomace-ram.toml").read_text(encoding="utf-8")
    found = sheet(("plate     = [240, 170]", ""), ("thickness = 30", ""), text=text)
    labels = [r.label for r in found.ruled]
    assert {"Body plate across", "Body plate up", "Body plate thickness"} <= set(labels)
    assert not [label for label in labels if label.startswith("Base plate")]
    trunnion = sheet(text=(SPECS / "penstock-gate.toml").read_text(encoding="utf-8"))
    assert words_of(trunnion.data)["Comes with it"] == "grease fitting, trunnion"
    stone = (SPECS / "stone-tray.toml").read_text(encoding="utf-8")
    at_base = sheet(('thickness = "3/4"', ""), text=stone)
    assert "Base plate thickness" in {r.label for r in at_base.ruled}


@pytest.mark.parametrize(
    ("cushions", "side", "base", "rod", "rows"),
    [
        ("both", "rod", "12:00", "12:00", [("2x cushion screw", "3:00", "seen from rod")]),
        ("both", "base", "10:00", "10:00", [("2x cushion screw", "7:00", "seen from base")]),
        ("base", "rod", "2:30", "12:00", [("Cushion screw", "5:30", "seen from rod")]),
        (
            "both",
            "rod",
            "4:30",
            "3:00",
            [
                ("Base cushion screw", "7:30", "seen from rod"),
                ("Rod cushion screw", "6:00", "side free of ports"),
            ],
        ),
    ],
)
def test_the_hour_of_a_cushion_screw_says_of_which_end_and_from_where(
    cushions, side, base, rod, rows
):
    """'7:30 base, 4:00 rod' read as one hour, told from both ends."""
    clock = 'clock    = "12:00"'
    first, second, third = HAY.split(clock)
    text = f'{first}clock = "{base}"{second}clock = "{rod}"{third}'
    more = f'clock_seen_from = "{side}"\ncushions = "{cushions}"'
    text = text.replace('clock_seen_from = "rod"', more)
    found = [r for r in sheet(text=text).ruled if "cylinder.cushion_screw" in r.names]
    assert [(r.label, r.text, r.reason) for r in found] == rows

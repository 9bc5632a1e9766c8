"""What the data sheet says: the sheet's own units first, what was typed, reasons of a few words.

1 lb = 0.45359237 kg, 1 US gal = 3.785411784 l (NIST SP 811, exact). 2 1/2 in bore, 1 1/2 in rod,
36 in of stroke: pi/4 2.5^2 36 in^3 = 176.7 in^3 = 0.76 US gal out, 0.49 back.
"""

from pathlib import Path

import pytest

from drafting.drawing.sheet.letters import width
from drafting.model.load import checked, load
from drafting.shape.mass import dry_mass
from drafting.told.data import data_of
from drafting.told.data_rows import data_rows
from drafting.told.drawn_by_rule import LONGEST, SHORT, short_reason

SPECS = Path(__file__).parents[2] / "specs"
HAY = (SPECS / "hay-loader.toml").read_text(encoding="utf-8")


def sheet(*swaps, dimensions="in [mm]", text=HAY):
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new)
    return data_of(load(checked(text.encode())), dimensions, 16)


def words_of(rows):
    return {label: said.text for label, said in rows}


def held(found):
    return {r.label: r for r in found.held}


def test_pounds_and_gallons_come_first_on_an_inch_sheet():
    c = load(checked(HAY.encode()))
    rows = words_of(data_rows(c, dry_mass(c.parts), "in [mm]", 16))
    assert rows["Oil, out / back"] == "0.76 / 0.49 US gal"
    assert rows["Weight, dry"].partition(" ")[2].startswith("lb [")
    metric = words_of(data_rows(c, 10.0, "mm", 0))
    assert metric["Weight, dry"] == "10.0 kg"
    assert metric["Oil, out / back"].endswith(" L")


def test_what_nobody_said_is_a_line_and_what_was_typed_stands_alone():
    c = load(checked(HAY.encode()))
    assert words_of(data_rows(c, 1.0, "in", 16))["Fluid, temperature"] == ""
    c = load(checked(HAY.replace("[cylinder]", '[cylinder]\nfluid = "water glycol"').encode()))
    rows = words_of(data_rows(c, 1.0, "in", 16))
    assert (rows["Fluid"], rows["Temperature"]) == ("water glycol", "")
    assert "Fluid, temperature" not in rows


def test_the_duty_is_told_as_typed():
    text = HAY.replace("[cylinder]", 'contact = "R. Hale"\nwanted = "mid March"\n\n[cylinder]')
    text = text.replace("wanted =", 'ship_to = "east gate"\nwanted =')
    text += '\n[duty]\nspeed = "out in 4 s"\nstrokes_per_day = 200\nside_load = "none"\n'
    text += 'environment = "road salt"\n'
    rows = words_of(data_rows(load(checked(text.encode())), 1.0, "in", 16))
    assert (rows["Contact"], rows["Wanted date"]) == ("R. Hale", "mid March")
    assert rows["Ship to"] == "east gate"
    assert (rows["Flow"], rows["Speed"], rows["Strokes a day"]) == ("", "out in 4 s", "200")
    assert (rows["Side load"], rows["Environment"]) == ("none", "road salt")


def test_what_nobody_said_of_the_duty_is_a_line_to_write_on():
    rows = words_of(data_rows(load(checked(HAY.encode())), 1.0, "in", 16))
    asked = ("Force, push / pull", "Flow or speed, cycles", "Orientation, side load",
             "Environment", "Contact, date, ship to", "Quantity")  # fmt: skip
    assert {rows[label] for label in asked} == {""}


def test_a_tolerance_that_nobody_gave_is_a_line_unless_one_holds_for_all():
    found = held(sheet())
    assert found["Tube length"].base.tolerance == ""
    typed = held(sheet(('width = "2 1/2"', 'width = "2 1/2"\ntolerance = {width = "±.015"}')))
    assert typed["Tube length"].base.tolerance == "±.015"
    assert typed["Tube length"].rod.tolerance == ""
    general = sheet(("[drawing]", '[drawing]\ngeneral_tolerance = "ISO 2768-m"'))
    assert held(general)["Tube length"].base.tolerance is None
    assert general.general == "ISO 2768-m"


def test_the_reference_length_is_in_parentheses_and_has_no_tolerance():
    lengths = dict(sheet().lengths)
    assert lengths["STROKE"].text == "(36) [914.4]"
    assert lengths["STROKE"].tolerance is None
    assert lengths["RETRACTED"].tolerance == ""


def test_a_hole_that_nobody_gave_has_the_letter_of_what_is_drawn():
    """'drawn 1 15/16 [49.21] D' said it twice, and was torn in two."""
    found = held(sheet(("hole  = 1.016\nwidth = 2\n", "width = 2\n")))
    assert found["Hole Ø, for the pin"].rod.text == "1 [25.4]"
    assert found["Hole Ø, for the pin"].rod.flag == "D"


def test_reasons_are_short_or_left_to_the_report():
    for path in sorted(SPECS.glob("*.toml")):
        c = load(checked(path.read_bytes()))
        for r in data_of(c, "mm", 0).ruled:
            assert 0 < len(r.reason) <= LONGEST
    assert short_reason("a clause that is much too long for the sheet") == ""
    assert short_reason("as large as the barrel") == "as barrel"
    assert short_reason("1.4 of the thread") == "1.4 of the thread"
    assert [short_reason(w) for w in ("pins.csv:39", "base_port")] == ["", ""]


def test_a_caution_about_people_comes_first():
    found = sheet(("[drawing]", "[duty]\nlifts_people = true\n\n[drawing]"))
    assert found.cautions[0].startswith("LIFTS OR CARRIES PEOPLE")


PULLS_BACK = ("[cylinder]", '[cylinder]\naction = "push"\nreturn = "spring"\nspring_space = 3')


def test_the_force_of_a_return_spring_is_asked_and_its_caution_is_on_the_sheet():
    """Nothing told the builder how strong it shall be, nor warned of what it holds."""
    label = "Spring force, in / out"
    plain, sprung = sheet(), sheet(PULLS_BACK)
    assert label not in dict(plain.data)
    assert dict(sprung.data)[label].text == ""
    told = sheet((PULLS_BACK[0], PULLS_BACK[1] + '\nspring_force = "90 lbf, 40 lbf"'))
    assert dict(told.data)[label].text == "90 lbf, 40 lbf"
    (more,) = set(sprung.cautions) - set(plain.cautions)
    assert more.startswith("A packed return spring")


def test_a_reason_fits_its_column():
    """'Twice the nose radius' took two lines, and its row with it."""
    room = (210.0 - 34.0 - 4.0) / 2 * 0.39 - 1.5
    for said in (short_reason("twice the nose radius"), *(said for _, said in SHORT)):
        assert width(said, 2.5) <= room, said


def test_a_plate_is_not_taken_for_the_base_cap():
    """Two rows said 'Base thickness', one of the flange and one of the cap."""
    text = (SPECS / "stone-tray.toml").read_text(encoding="utf-8")
    found = sheet(('thickness = "3/4"', ""), text=text)
    labels = [r.label for r in found.ruled if "hickness" in r.label]
    assert sorted(labels) == ["Base plate thickness", "Base thickness"]


def test_a_thimbleful_of_oil_is_not_nought():
    """1.2272 in^3 out and 0.7854 back, of 231 in^3 to the gallon."""
    text = HAY.replace('"82 1/4"', '"46 1/2"').replace("position = 39.5", "")
    c = load(checked(text.encode()))
    assert words_of(data_rows(c, 1.0, "in", 16))["Oil, out / back"] == "0.0053 / 0.0034 US gal"


def test_one_row_of_bolts_has_one_pitch():
    """A foot with a pitch of [0, 4] had 'Bolt pitch along 0' among the sizes to hold."""
    text = """
    title = "Bench clamp"
    units = "in"
    [cylinder]
    construction = "tie rod"
    bore = "2 1/2"
    rod = 1
    stroke = 6
    retracted = 12
    clock_seen_from = "rod"
    [body_mount]
    mount = "foot"
    position = "base"
    seat_height = 2
    bolts = {count = 2, hole = "7/16", pitch = PITCH}
    [rod_mount]
    mount = "male thread"
    thread = "3/4-16 UNF"
    thread_length = "1 1/8"
    """
    one, pair = (held(sheet(text=text.replace("PITCH", p))) for p in ("4", "[0, 4]"))
    assert "Bolt pitch along" not in pair
    assert pair.keys() == one.keys()
    assert pair["Bolt pitch across"].base.text == "4 [101.6]"


def test_a_size_that_was_typed_is_said():
    """What the gland measures outside stood nowhere once it was typed."""
    typed = HAY.replace("[cylinder]", "[cylinder]\ngland_outside = 3.25\ngland_projection = 0.75")
    rows = words_of(data_rows(load(checked(typed.encode())), 1.0, "in [mm]", 16))
    assert (rows["Gland OD"], rows["Gland projection"]) == ("3 1/4 [82.6]", "3/4 [19.1]")
    assert "Gland OD" not in words_of(data_rows(load(checked(HAY.encode())), 1.0, "in", 16))


PINS = """
[body_pin]
supplied = true
retention = "cotter"

[rod_pin]
supplied = true
retention = "{}"

[drawing]"""


def test_pins_that_come_with_it_are_told_in_their_row():
    """Two lines of pins had a page of their own, which page 1 draws anyhow."""
    text = (SPECS / "log-grapple.toml").read_text(encoding="utf-8")
    alike = sheet(("[drawing]", PINS.format("cotter")), dimensions="mm", text=text)
    rows = words_of(alike.data)
    assert rows["Pins, both ends"].startswith("supplied, head and cotter, Ø30 x ")
    other = sheet(("[drawing]", PINS.format("spring clip")), dimensions="mm", text=text)
    rows = words_of(other.data)
    assert rows["Base end pin"].startswith("supplied, head and cotter, ")
    assert rows["Rod end pin"].startswith("supplied, head and spring clip, ")


def test_which_bolts_a_flange_port_takes_is_asked():
    """Code 61 has metric bolts and inch ones, and nothing on the paper said which."""
    text = (SPECS / "pulp-press.toml").read_text(encoding="utf-8")
    assert words_of(sheet(text=text).data)["Port bolts, M or UNC?"] == ""
    assert not [label for label in words_of(sheet().data) if "bolts" in label]


def test_what_comes_with_both_ends_is_told_once():
    text = (SPECS / "eel-pass.toml").read_text(encoding="utf-8")
    rows = words_of(sheet(text=text).data)
    assert rows["Comes with it"] == "grease fittings, both ends; jam nut, rod end, 1-14 UNS"


def test_oil_is_told_for_the_ways_that_take_some():
    """A single acting cylinder took '0 / 0.047 L'."""
    text = (SPECS / "hatch-clamp.toml").read_text(encoding="utf-8")
    rows = words_of(sheet(text=text).data)
    assert "Oil, out / back" not in rows
    assert rows["Oil, out"] == "0.041 US gal"  # 9.4248 of 231 cubic inches


def test_a_light_cylinder_is_weighed_to_a_tenth_of_a_pound():
    """3.4 kg was 8 lb, which is 3.6."""
    c = load(checked(HAY.encode()))
    rows = words_of(data_rows(c, 3.4, "mm [in]", 16))
    assert rows["Weight, dry"] == "3.4 kg [7.5 lb]"


def test_nothing_is_called_a_datum_on_the_sheet():
    """A word of geometry that a shop does not use: where it is measured from is said instead."""
    for path in sorted(SPECS.glob("*.toml")):
        found = data_of(load(checked(path.read_bytes())), "mm", 0)
        labels = [r.label for r in (*found.ruled, *found.held)]
        assert not [label for label in labels if "atum" in label], path.stem
    tipper = sheet(text=(SPECS / "orchard-tipper.toml").read_text(encoding="utf-8"))
    assert "Pin to closed end" in {r.label for r in tipper.ruled}


def test_how_steep_and_how_fast_is_told_beside_the_words():
    """An angle and a time were typed and stood nowhere, as words for the same were there too."""
    duty = '[duty]\norientation = "inclined"\nangle = 30\nspeed = "as now"\nseconds_in = 5\n'
    rows = words_of(sheet(("[drawing]", f"{duty}\n[drawing]")).data)
    assert rows["Orientation"] == "inclined; stroke at 30° to level"
    assert rows["Speed"] == "as now; in within 5 s"


def test_a_trunnions_boss_is_called_that_wherever_it_stands():
    """'Base boss outside Ø' filled its column, and stood for a trunnion in the middle."""
    text = (SPECS / "penstock-gate.toml").read_text(encoding="utf-8")
    rows = {r.label: r.text for r in sheet(text=text).ruled}
    assert rows["Trunnion boss Ø"] == "3"
    assert "Base boss outside Ø" not in rows


@pytest.mark.parametrize(
    ("length", "hole_to_end", "reason"),
    [
        ("3", "3/16", "short of ISO 2341"),  # 3 - 1/4 - 2.5 - 1/16, and 9 mm asked
        ('"3 1/4"', "7/16", "ISO 2341 or more"),
    ],
)
def test_what_is_left_behind_a_pins_hole_is_what_is_drawn(length, hole_to_end, reason):
    """The list said .39 and 'at least', and the chain of the pin's picture came to .218."""
    pin = f'[rod_pin]\nsupplied = true\ngrip = "2 1/2"\nlength = {length}\nhole = "1/8"\n'
    c = load(checked(HAY.replace("[drawing]", f'{pin}retention = "cotter"\n[drawing]').encode()))
    head = c.value("rod_pin.head_height").value
    left = c.value("rod_pin.length").value - head - c.value("rod_pin.hole_at").value
    assert c.value("rod_pin.hole_to_end").value == pytest.approx(left)
    rows = {r.label: (r.text, r.reason) for r in data_of(c, "in", 16).ruled}
    assert rows["Rod pin hole to end"] == (hole_to_end, reason)


def test_a_pins_hole_reads_as_on_its_picture():
    """Ø.315 on the drawing was .31 on the data sheet."""
    pin = '[rod_pin]\nsupplied = true\ngrip = "3 3/4"\nretention = "cotter"\n'
    larger = ("pin   = 1\nhole  = 1.016\nwidth = 2\n", 'pin = "1 1/2"\nwidth = 2\n')
    rows = {r.label: r.text for r in sheet(larger, ("[drawing]", f"{pin}[drawing]")).ruled}
    assert rows["Rod pin hole"] == ".315"


def test_further_ports_have_the_names_of_the_drawing():
    """What page 1 calls base port 2 and rod port 2 was here port 2 and port 3."""
    more = "".join(
        f'[[extra_port]]\nend = "{end}"\nthread = "SAE-4"\nclock = "9:00"\nposition = {place}\n'
        for end, place in (("base", 6), ("rod", 30))
    )
    labels = {r.label for r in sheet(("[drawing]", f"{more}[drawing]")).ruled}
    assert "2x port 2, boss Ø" in labels
    assert not [label for label in labels if "ort 3" in label]


@pytest.mark.parametrize(
    ("name", "action"),
    [
        ("cask-lift", "displacement ram, pushes, load return"),
        ("hatch-clamp", "single acting, pushes, spring return"),
    ],
)
def test_what_brings_a_single_acting_rod_back_is_said(name, action):
    """Nothing on the paper said that a spring was asked for."""
    found = sheet(text=(SPECS / f"{name}.toml").read_text(encoding="utf-8"))
    assert words_of(found.data)["Action"] == action


@pytest.mark.parametrize(
    ("stroke", "said"),
    [("36", "0.76 / 0.49 US gal"), ("4", "0.085 / 0.054 US gal"), ("5", "0.106 / 0.068 US gal")],
)
def test_the_oil_of_both_ways_has_equal_decimals(stroke, said):
    """'0.11 / 0.068': 5 in by 4.9087 in2 out and by 3.1416 back, of 231 in3 to the gallon."""
    swaps = (('"82 1/4"', f"{46.25 + float(stroke)}"), ("position = 39.5", ""))
    assert words_of(sheet(*swaps).data)["Oil, out / back"] == said


def test_a_gland_that_does_not_project_is_flush():
    """'Gland projection 0' said nothing."""
    typed = HAY.replace("[cylinder]", "[cylinder]\ngland_projection = 0")
    assert words_of(sheet(text=typed).data)["Gland projection"] == "none, flush with the barrel"

"""Sizes to hold: where a mount stands, what a sign means, and the drawing's own words for a thread.

The sizes are those of the samples and of what is typed here.
"""

from pathlib import Path

import pytest

from drafting.drawing.dimension.labels import texts
from drafting.drawing.lists.data_sections import holding
from drafting.drawing.of_cylinder import sheet_job
from drafting.model.load import checked, load
from drafting.told.data import data_of
from drafting.told.facts import derived_rows

SPECS = Path(__file__).parents[2] / "specs"
NO_BASE_PORT = ('[base_port]\nthread   = "SAE-10"\nclock    = "12:00"\nposition = -16.6875\n', "")


def cylinder(name, *swaps):
    text = (SPECS / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new)
    return load(checked(text.encode()))


def sheet(name, *swaps, dimensions="mm"):
    return data_of(cylinder(name, *swaps), dimensions, 16)


def held(name, *swaps, dimensions="mm"):
    return {r.label: r for r in sheet(name, *swaps, dimensions=dimensions).held}


def test_a_mount_that_is_not_at_the_base_says_where_it_stands():
    """Under BASE END stood a flange that is at the rod end, and nothing said so."""
    assert held("pomace-ram")["Mount"].base.text == "flange at rod end (ISO 6099 MF1)"
    assert held("penstock-gate")["Mount"].base.text.startswith("trunnion at middle (")
    assert held("hay-shuttle")["Mount"].base.text.startswith("foot (")


@pytest.mark.parametrize(
    ("name", "swaps", "head"),
    [
        ("hay-shuttle", (), "BASE END"),
        ("penstock-gate", (), "BODY, BASE PORT"),
        ("pomace-ram", (), "BODY, BASE PORT"),
        ("penstock-gate", (("[cylinder]", '[cylinder]\naction = "pull"'), NO_BASE_PORT), "BODY"),
    ],
)
def test_the_column_of_a_body_mount_is_headed_by_what_stands_in_it(name, swaps, head):
    """Trunnion pins at the rod end stood under BASE END, with all their sizes."""
    texts = [t.text for t in holding(sheet(name, *swaps), 5.6, 176.0).head.texts]
    assert head in texts
    assert ("BASE END" in texts) == (head == "BASE END")


def test_a_typed_place_from_the_closed_end_is_held():
    rows = held("penstock-gate", ('position  = "middle"', "position  = 18"), dimensions="in")
    assert rows["From closed end"].base.text == "18"
    assert rows["From closed end"].base.tolerance == ""
    assert rows["Mount"].base.text.startswith("trunnion (")


def test_a_port_behind_the_datum_says_what_its_sign_means():
    """'-528' stood behind 'Port, from rod side', and a builder had to guess which way."""
    made = sheet("pomace-ram")
    assert held("pomace-ram")["Port from rod side"].base.text == "-528"
    assert (made.behind, sheet("log-grapple").behind) == (True, False)
    said = " ".join(t.text for t in holding(made, 5.6, 176.0).head.texts)
    assert "Minus is towards the base." in said


def test_a_port_right_at_the_datum_is_told_in_words():
    """'0 D' stood there, as if nothing had been measured."""
    row = held("hay-shuttle", ("position = 10", "position = 0"))["Port from bolt line"].base
    assert row.text == "right at it"


def test_both_pages_print_a_reference_alike():
    """RETRACTED (793) on the drawing was (793.002) on the data sheet."""
    c = cylinder("mill-sluice", ("extended", "extended = 800.002 #"))
    (on_drawing,) = [texts(w, sheet_job(c))[0] for w in c.wishes if w.name == "cylinder.retracted"]
    on_sheet = dict(data_of(c, "mm", 64).lengths)["RETRACTED"].text
    assert on_sheet == "(550)"
    assert on_drawing == f"RETRACTED {on_sheet}"


BOLTED = """
title = "Trial"
units = "in"
[cylinder]
bore = 3
rod = "1 1/2"
stroke = 8
retracted = "20 13/16"
tolerance = {retracted = "±1/16"}
[body_mount]
mount = "flange"
plate = 8
bolts = {count = 6, hole = "9/16", circle = 6.375, tolerance = {circle = "±0.010"}}
[rod_mount]
mount = "clevis"
pin = 1
gap = "1 1/16"
throat = "1 13/16"
tolerance = {gap = "+1/32 -0"}
[rod_pin]
supplied = true
length = "3 7/16"
retention = "two cotters"
tolerance = {length = "±1/32"}
"""


@pytest.mark.parametrize(
    ("name", "label", "on_drawing", "on_sheet"),
    [
        ("cylinder.retracted", "RETRACTED", ("RETRACTED 20 13/16 ±1/16", "[528.64]"),
         "20 13/16 [528.64] ±1/16"),
        ("body_mount.bolts.circle", "Bolt circle", ("Ø6.375 ±.010", "[161.93]", "BOLT CIRCLE"),
         "6.375 [161.93] ±.010"),
        ("rod_mount.gap", "Gap", ("1 1/16 +1/32 -0", "[26.99]"), "1 1/16 [26.99] +1/32 -0"),
        ("rod_mount.throat", "Throat", ("1 13/16", "[46]"), "1 13/16 [46]"),
    ],
)  # fmt: skip
def test_a_size_is_rounded_alike_on_both_pages(name, label, on_drawing, on_sheet):
    """[1189.04] on the drawing was [1189] on the data sheet, and ±0.010 was ±.01."""
    job = sheet_job(load(checked(BOLTED.encode())))
    (found,) = [texts(w, job) for w in job.wishes if w.name == name]
    assert found == on_drawing
    rows = {r.label: r.base or r.rod for r in job.data.held} | dict(job.data.lengths)
    assert f"{rows[label].text} {rows[label].tolerance}".strip() == on_sheet


def test_a_pins_length_is_rounded_alike_on_both_pages():
    """[136.5] on its picture was [136.53] among the data."""
    for text, brackets in ((BOLTED, "[87.31]"), (BOLTED.replace("±1/32", ""), "[87.3]")):
        text = text.replace('tolerance = {length = ""}', "")
        job = sheet_job(load(checked(text.encode())))
        (pin,) = job.pins
        (wish,) = [w for w in pin.wishes if w.name == "rod_pin.length"]
        assert texts(wish, job)[1] == brackets
        assert dict(job.data.data)["Rod end pin"].text.endswith(f"x 3 7/16 {brackets}")


def test_a_thread_is_written_as_on_the_drawing():
    """M33x2 on one page and M33x2-6g on the other: the class is the drawing's."""
    c = cylinder("hay-shuttle")
    (callout,) = [w.lines[0] for w in c.wishes if w.name == "rod_mount.thread"]
    assert callout == "M33x2-6g"
    assert held("hay-shuttle")["Thread"].rod.text == callout


@pytest.mark.parametrize(
    ("swaps", "said", "flag"),
    [
        ((), "6:00", ""),
        ((('clock       = "6:00"', 'clock       = "9:00"'),), "9:00 from base, 3:00 from rod", ""),
        ((('clock       = "6:00"', ""),), "6:00", "D"),
    ],
)
def test_where_a_foots_seat_faces_is_held(swaps, said, flag):
    row = held("hay-shuttle", *swaps)["Seat faces"].base
    assert (row.text, row.flag) == (said, flag)


def test_an_hour_that_nobody_gave_is_told_as_an_hour():
    """It was told as 180 deg where a person had typed hours for all others."""
    c = cylinder("hay-shuttle", ('clock       = "6:00"', ""))
    (found,) = [f for f in c.findings if f.field == "body_mount.clock"]
    assert "drawn as 6:00 " in found.message
    assert dict(derived_rows(c))["body_mount.clock"].startswith("6:00: ")


def test_the_largest_diameter_is_a_room_rounded_up():
    """127.28 stood among whole millimetres: the corners of a square head."""
    found = dict(sheet("lock-paddle").lengths)["LARGEST Ø, NO MOUNTS"].text
    assert found == "148.5"  # 105 times root two is 148.492
    inches = dict(sheet("gate-latch", dimensions="in").lengths)["LARGEST Ø, NO MOUNTS"].text
    assert inches == "4 1/4"  # 3 times root two is 4.2426
    odd = dict(sheet("weir-gate", dimensions="in").lengths)["LARGEST Ø, NO MOUNTS"].text
    assert odd == "5 3/16"  # of 5.1366 that was 5.14, a decimal among fractions


@pytest.mark.parametrize("name", ["pomace-ram", "log-grapple", "stone-tray"])
def test_labels_of_ports_take_one_line_without_a_sign(name):
    """'Port,' stood alone on the first of two lines."""
    made = sheet(name)
    for strip in holding(made, 5.6, 176.0).rows:
        words = [t.text for t in strip.texts if t.at[0] == 0.0]
        assert words[0] != "Port,"
        assert len(words) == 1


@pytest.mark.parametrize(
    ("side", "turned", "said"),
    [
        ("base", 22, "rod pin 22° clockwise, seen from base"),
        ("rod", 22, "rod pin 22° clockwise, seen from rod"),
        ("base", -30, "rod pin 150° clockwise, seen from base"),
        ("base", 90, "pins at 90°"),
        ("rod", 180, "pins in line"),
    ],
)
def test_the_angle_of_the_pins_is_the_typed_one_and_says_from_where(side, turned, said):
    """22 degrees typed from the base end were 158 on the sheet, without a word of the end."""
    swaps = (("turned = 90", f"turned = {turned}"), ('"base"', f'"{side}"'))
    assert held("log-grapple", *swaps)["Mount"].rod.text.endswith(f", {said}")


@pytest.mark.parametrize(
    ("turned", "keyed", "said"),
    [
        (22, "", "free to turn, drawn with rod pin 22° clockwise"),
        (22, "rod_keyed = true\n", "keyed, rod pin 22° clockwise"),
        (90, "rod_keyed = true\n", "keyed"),
    ],
)
def test_a_pin_askew_is_told_on_the_drawing(turned, keyed, said):
    """'Rod keyed.' alone let nobody see to what angle."""
    swaps = (("turned = 90", f"turned = {turned}"), ("[body_mount]", f"{keyed}\n[body_mount]"))
    assert sheet_job(cylinder("log-grapple", *swaps)).turning == said


@pytest.mark.parametrize(
    ("side", "turned", "left", "right"),
    [("rod", 0, "3:00", "9:00"), ("base", 0, "9:00", "3:00"), ("rod", 60, "5:00", "11:00"),
     ("base", 60, "11:00", "5:00")],
)  # fmt: skip
def test_a_face_beside_the_centre_is_named_by_its_hour(side, turned, left, right):
    """'Left of centre' has no side that the reader could find on the drawing."""
    swaps = (('from = "rod"', f'from = "{side}"'), ("left  =", f"turned = {turned}\nleft  ="))
    rows = held("bale-pusher", *swaps)
    assert rows[f"Centre to {left} face"].rod.text == "38.1"
    assert rows[f"Centre to {right} face"].rod.text == "25.4"


def test_what_follows_from_two_sides_is_a_reference():
    """(1.73) on the drawing was 1.732 on the data sheet, with a line for a tolerance of its own."""
    swaps = ("left  = 1.5", "left  = 1.5113"), ("right = 1", "right = 1.0051")
    row = held("bale-pusher", *swaps, dimensions="in [mm]")["Tube length"].rod
    assert (row.text, row.tolerance) == ("(2.52) [63.9]", None)


@pytest.mark.parametrize(
    ("name", "swaps", "end", "label"),
    [
        ("log-grapple", (("width = 70\nthroat", "width = 70\noffset = 61\nthroat"),), "base",
         "Pin to closed end"),
        ("log-grapple", (("turned = 90", "offset = 61"),), "rod", "Pin to rod end"),
        ("log-grapple", (("turned = 90", 'thread = "M24x2"\njam_nut = true\noffset = 75'),), "rod",
         "Pin to mount's face"),
    ],
)  # fmt: skip
def test_how_far_a_mount_reaches_is_held_where_it_was_typed(name, swaps, end, label):
    """Typed it stood nowhere; what follows from a rule stands among the sizes by rule."""
    row = getattr(held(name, *swaps)[label], end)
    assert row.text in swaps[0][1]
    assert row.tolerance is None
    table = {"base": "body_mount", "rod": "rod_mount"}[end]
    shown = [w for w in cylinder(name, *swaps).wishes if w.name == f"{table}.offset"]
    assert len(shown) == 1
    assert label not in held(name)


@pytest.mark.parametrize(
    ("tolerances", "follows"),
    [("", "width"), ('width = "±0.5 mm"', "right"),
     ('width = "±0.5 mm", right = "±0.3 mm"', "left"),
     ('width = "±0.5 mm", right = "±0.3 mm", left = "±0.2 mm"', "")],
)  # fmt: skip
def test_of_width_and_both_sides_one_without_a_tolerance_is_for_reference(tolerances, follows):
    """The typed tolerance of a width in parentheses stood nowhere."""
    more = f"right = 1\nwidth = 2.5\ntolerance = {{{tolerances}}}"
    c = cylinder("bale-pusher", ("right = 1", more))
    reference = {
        n: getattr(w, "reference", False)
        for w in c.wishes
        if (n := w.name.partition("rod_mount.")[2])
    }
    sides = {n: reference[n] for n in ("width", "left", "right")}
    assert [n for n, said in sides.items() if said] == ([follows] if follows else [])
    rows = held("bale-pusher", ("right = 1", more))
    assert (rows["Tube length"].rod.tolerance == "±0.5") is bool(tolerances)


@pytest.mark.parametrize(
    ("side", "typed", "row", "note"),
    [
        ("rod", 30, "flange, turned 30° clockwise, seen from rod",
         "free to turn, drawn turned 30° clockwise"),
        ("base", -45, "flange, turned 315° clockwise, seen from base",
         "free to turn, drawn turned 315° clockwise"),
        ("rod", 90, "flange, turned 90° clockwise, seen from rod", "free to turn"),
        ("rod", 0, "flange", "free to turn"),
    ],
)  # fmt: skip
def test_a_mount_without_a_pin_says_how_it_was_turned(side, typed, row, note):
    """A flange stood askew in the end view, and no page said by how much."""
    flange = (
        f'mount = "flange"\nplate = [100, 80]\nthickness = 12\nturned = {typed}\n'
        "bolts = {count = 4, hole = 9, pitch = [80, 60]}\n[base_port]"
    )
    text = (SPECS / "log-grapple.toml").read_text(encoding="utf-8")
    whole = text[text.index("[rod_mount]\n") + 12 : text.index("[base_port]") + 11]
    swaps = (whole, flange), ('"base"', f'"{side}"')
    assert held("log-grapple", *swaps)["Mount"].rod.text == row
    assert sheet_job(cylinder("log-grapple", *swaps)).turning == note


def test_the_tolerance_of_a_ports_height_is_held():
    """The drawing leaves a boss's height out where it is full, and its tolerance with it."""
    swaps = (("position = 80", 'position = 80\nheight = 21\ntolerance = {height = "±0.4"}'),)
    row = held("log-grapple", *swaps)["Port height"].base
    assert (row.text, row.tolerance) == ("21", "±0.4")
    assert "Port height" not in held("log-grapple", ("position = 80", "position = 80\nheight = 21"))


@pytest.mark.parametrize(
    ("swaps", "said", "origin"),
    [
        ((), "from bearing face to thread end", "bearing face"),
        (('seat = "rod side"', 'seat = "base side"'),
         "from flange's rod-side face, 30 off its bearing face, to thread end", "rod side"),
        (('seat = "rod side"', 'position = "base"\nseat = "rod side"'),
         "from flange's base-side face, 30 off its bearing face, to thread end", "base side"),
        (('seat = "rod side"', 'position = "base"\nseat = "base side"'),
         "from bearing face to thread end", "bearing face"),
    ],
)  # fmt: skip
def test_lengths_say_which_face_of_a_flange_they_run_from(swaps, said, origin):
    """'From flange face' stood beside a bearing face that was the other one."""
    text = FLANGED.replace(*swaps) if swaps else FLANGED
    made = data_of(load(checked(text.encode())), "mm", 0)
    assert made.lengths_words == said
    assert f"Port from {origin}" in {r.label for r in made.held}


FLANGED = """
title = "Sieve"
units = "mm"
[cylinder]
bore = 100
rod = 56
stroke = 300
retracted = 700
barrel_outside = 120
clock_seen_from = "rod"
[body_mount]
mount = "flange"
plate = [240, 180]
thickness = 30
seat = "rod side"
bolts = {count = 4, hole = 18, pitch = [200, 140]}
[rod_mount]
mount = "male thread"
thread = "M42x2"
thread_length = 56
[base_port]
thread = "G 1/2"
clock = 3
"""


@pytest.mark.parametrize(
    ("tube", "rod", "said"),
    [
        ("", "spade eye", [("31", "D"), ("39", "D")]),
        ("outside = 70", "spade eye", [None, ("39", "D")]),
        ("", "cross tube", None),
    ],
)
def test_a_row_of_swing_radii_is_whole(tube, rod, said):
    """At a cross tube the cell was empty, though its outside meets the machine as a nose does."""
    mount = 'mount = "{}"\npin = 30\nhole = 34\nwidth = 40\n'
    text = 'title = "Dock plate"\nunits = "mm"\n[cylinder]\nbore = 80\nrod = 45\nstroke = 300\n'
    text += f"retracted = 600\n[body_mount]\n{mount.format('cross tube')}{tube}\n"
    text += f"[rod_mount]\n{mount.format(rod)}"
    rows = {r.label: r for r in data_of(load(checked(text.encode())), "mm", 16).held}
    if said is None:
        assert "Swing radius" not in rows
    else:
        row = rows["Swing radius"]
        assert [s and (s.text, s.flag) for s in (row.base, row.rod)] == said

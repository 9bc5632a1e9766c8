"""What the page asks for, and how callouts break: at most two lines, no name torn (our rule)."""

from dataclasses import replace

import pytest

from drafting.drawing.compose.choose import compose
from drafting.drawing.dimension.asked import asked, is_too_small
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.settle.wishes import Callout, Length
from drafting.shape.frame import X, Y
from drafting.shape.pieces import extent
from drafting.spec.check import read_spec
from drafting.told.flags import DERIVED
from drafting.told.ports_said import PortRow
from drafting.values import Value
from tests.drawing.sample_job import job

NAMES = ("G 1/2", "SAE-8 (3/4-16 UNF-2B)", "M27x2", "3/4 CODE 61", "1/2 NPT", "Rc 3/4")
STANDARDS = {"SAE-8 (3/4-16 UNF-2B)": " O-RING BOSS", "M27x2": " ISO 6149"}


def said(name, end="Base port", plugged=False, hour="12:00"):
    """The lines in which the page says a port."""
    short = name + STANDARDS.get(name, "")
    row = PortRow("base_port", end, "", "", "", (), short, name, hour, plugged)
    words = Callout("base_port.thread", (0.0, 0.0, 0.0), (0.0, 0.0, 1.0), ("", "", ""))
    only = replace(job(), wishes=(words,), ports=(row,))
    return {brief: asked(only, brief).wishes[0].lines for brief in (False, True)}


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("plugged", [False, True])
@pytest.mark.parametrize("end", ["Base port", "Rod port", "Base port 2"])
def test_a_port_is_said_in_two_lines_at_most_and_its_thread_is_on_one(name, plugged, end):
    for brief, lines in said(name, end, plugged, "35 deg").items():
        assert len(lines) <= 2
        assert any(name in line for line in lines)
        assert ("O-RING" in " ".join(lines)) == (not brief and "SAE" in name)
        assert any("35 deg" in line for line in lines)
        assert lines[0].startswith(end.upper())
        assert " ".join(lines).endswith("PLUGGED") == plugged


def test_a_numbered_port_is_no_larger_thread():
    """BASE PORT 2 3/4 would be read as two and three quarters."""
    assert " ".join(said("3/4 CODE 61", "Base port 2")[False]).startswith("BASE PORT 2: 3/4 CODE")


def test_shoulders_are_said_where_that_makes_no_view_smaller():
    """Beside a narrow end view the words halved the scale of a whole sheet."""
    ends = (0.0, -70.0, 0.0), (0.0, 70.0, 0.0), (0.0, 1.0, 0.0)
    wide = [
        Length(f"body_mount.{n}", *ends, note=f"OVER {n.upper()}") for n in ("shoulders", "pins")
    ]
    only = replace(job(), wishes=tuple(wide), ports=())
    notes = {b: [w.note for w in asked(only, b).wishes] for b in (False, True)}
    assert notes == {False: ["OVER SHOULDERS", "OVER PINS"], True: ["", "OVER PINS"]}


TILTS = "BALL TILTS ({}°) EACH WAY"


@pytest.mark.parametrize(
    ("angles", "ways", "said"),
    [
        ((4, 4), (Y, Y), [f"2x {TILTS.format(4)}"]),
        ((4, 6), (Y, Y), [TILTS.format(4), TILTS.format(6)]),
        ((6, 6), (Y, X), [TILTS.format(6)] * 2),
    ],
)
def test_two_balls_that_tilt_alike_in_one_view_are_said_once(angles, ways, said):
    tips = (0.0, 20.0, 0.0), (500.0, 20.0, 0.0)
    words = tuple(
        Callout(f"{end}_mount.tilt", tip, way, (TILTS.format(angle),))
        for end, tip, way, angle in zip(("body", "rod"), tips, ways, angles, strict=True)
    )
    shown = asked(replace(job(), wishes=words, ports=())).wishes
    assert [w.lines[0] for w in shown] == said
    alike = (("rod_mount.tilt", tips[1]),) if len(said) == 1 else ()
    assert shown[0].alike == alike


def test_what_fits_one_line_stands_on_one():
    assert said("1/2 NPT")[False] == ("BASE PORT 1/2 NPT, 12:00",)


SPEC = """
title = "Net hauler"
units = "mm"
[cylinder]
construction = "{construction}"
bore = 63
rod = 36
stroke = 250
retracted = 470
working_pressure = "160 bar"
clock_seen_from = "rod"
[body_mount]
mount = "pin eye"
pin = 30
hole = 30.1
width = 35
[rod_mount]
mount = "pin eye"
pin = 30
hole = 30.1
width = 35
[base_port]
thread = "G 1/2"
clock = "12:00"
[rod_port]
thread = "G 1/2"
clock = "12:00"
"""


@pytest.mark.parametrize(
    ("construction", "body", "over"),
    [
        ("welded", ("cylinder.barrel_outside", "cylinder.gland_outside"), ()),
        ("tie rod", ("cylinder.cap", "cylinder.head"), ("cylinder.tie_rod", "cylinder.nut")),
    ],
)
def test_the_page_says_how_long_the_body_is_and_over_its_tie_rods(construction, body, over):
    """Held against the ends of the pieces, as whoever lays a tape along them would."""
    text = SPEC.format(construction=construction).encode()
    cylinder = load(read_spec(text, mounts=mounts_by_end(), file="trial.toml"))
    pieces = [p for part in cylinder.parts for p in part.pieces if not p.cut]

    def long(names):
        ends = [x for p in pieces if p.name in names for x in extent(p, X)]
        return max(ends) - min(ends)

    job = sheet_job(cylinder)
    sheet = compose(job)
    assert not inspect(sheet, job)
    shown = {d.name: d for v in sheet.views for d in v.dimensions}
    assert shown["cylinder.body_length"].measure_mm == pytest.approx(long(body))
    assert shown["cylinder.body_length"].texts[0].startswith("(")
    assert ("cylinder.over_tie_rods" in shown) == bool(over)
    if over:
        size = shown["cylinder.over_tie_rods"]
        assert size.measure_mm == pytest.approx(long(over))
        assert size.texts[0].endswith(") OVER TIE RODS")


@pytest.mark.parametrize(
    ("size", "origin", "scale", "out"),
    [
        (2.0, "derived", 0.4, True),
        (2.0, "given", 0.4, False),
        (2.0, "derived", 0.6, False),
        (1.2, "derived", 0.6, True),
    ],
)
def test_a_ports_place_by_rule_stays_out_where_it_would_be_one_thick_stroke(
    size, origin, scale, out
):
    name = "base_port.position"
    one = job(values=(Value(name, size, "mm", f"{size:g}", origin, "a rule"),))
    wish = Length(name, (0.0, 0.0, 40.0), (size, 0.0, 62.0), X)
    assert is_too_small(wish, one, scale) is out


RAKE = """
title = "Flume rake"
units = "in"
[cylinder]
bore = 3
rod = 1.5
stroke = "20 1/2"
retracted = "11 3/4"
gland = "cap"
working_pressure = "2250 psi"
clock_seen_from = "rod"
[body_mount]
mount = "foot"
position = "rod end"
plate = [2.5, 6.5]
thickness = 0.75
seat_height = 2.25
bolts = {{count = 2, hole = 0.656, pitch = 5.25}}
clock = "6:00"
[rod_mount]
mount = "clevis"
pin = 1
gap = "1 1/16"
width = "2 1/4"
throat = "1 1/4"
[base_port]
thread = "SAE-8"
clock = "2:00"
[rod_port]
thread = "SAE-8"
clock = "10:00"
{place}
"""


@pytest.mark.parametrize(("place", "shown"), [("", False), ("position = 0.125", True)])
def test_what_is_too_small_to_draw_is_told_on_the_data_sheet(place, shown):
    """Its extension lines stood half a millimetre apart; a typed place is drawn all the same."""
    text, name = RAKE.format(place=place), "rod_port.position"
    one = sheet_job(load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml")))
    sheet = compose(one)
    drawn = {d.name for s in (sheet, *sheet.following) for v in s.views for d in v.dimensions}
    assert any(w.name == name for w in one.wishes)
    assert (name in drawn) == shown
    said = [s for row in one.data.held for s in (row.base, row.rod) if s and name in s.names]
    assert [s.flag for s in said] == ["" if shown else DERIVED]
    assert not [f for f in inspect(sheet, one) if f.code == "sheet-missing-size"]

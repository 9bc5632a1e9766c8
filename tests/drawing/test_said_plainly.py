"""What words and numbers of a sheet say: each thing by its name, no digit that nobody asked for.

All sizes are made up.
"""

from io import StringIO
from pathlib import Path

import ezdxf

from drafting.drawing.compose.choose import compose
from drafting.drawing.write.dxf.file import dxf_bytes
from drafting.model.load import checked, load
from tests.drawing.test_calm import LEG, job_of

SPECS = Path(__file__).parents[2] / "specs"
FLUSH = b"[rod_mount]", b"[rod_mount]\noffset = 0"
HOIST = LEG.replace("stroke = 14", "stroke = 14\nstop_tube = 1").replace('"23 3/8"', '"25 3/8"')


def words(sheet):
    """What stands on each dimension, by name."""
    return {d.name: d.texts for v in sheet.views for d in v.dimensions}


def test_a_stop_tube_says_what_it_is():
    """A bare 1 stood in the section, and nothing told what is so long."""
    text = HOIST.replace('position = "18 1/2"', 'position = "19 1/2"')
    assert words(compose(job_of(text)))["cylinder.stop_tube"][0] == "1 STOP TUBE"


def test_what_stands_on_the_outside_is_called_by_its_name():
    """Breather and cushion screws were small unnamed rounds on the barrel."""
    push = LEG.replace("stroke = 14", 'stroke = 14\naction = "push"\nreturn = "load"')
    push = push[: push.index("[rod_port]")]
    assert words(compose(job_of(push)))["cylinder.breather"] == ("BREATHER, 12:00",)
    both = LEG.replace("stroke = 14", 'stroke = 14\ncushions = "both"')
    assert words(compose(job_of(both)))["cylinder.cushion_screw"] == ("2x CUSHION SCREW, 10:30",)
    assert not {"cylinder.breather", "cylinder.cushion_screw"} & words(compose(job_of(LEG))).keys()


TILT = """
title = "Chute tilt"
units = "in"
[cylinder]
bore = "3 1/2"
rod = "1 3/4"
stroke = "7 1/2"
retracted = 24
base_thickness = 2.475
clock_seen_from = "base"
[body_mount]
mount = "trunnion"
position = "base"
pin = "1 1/2"
width = "8 1/2"
shoulders = "5 1/2"
[rod_mount]
mount = "tang"
pin = "1 1/4"
hole = 1.258
width = "1 1/2"
[base_port]
thread = "SAE-8"
clock = "12:00"
[rod_port]
thread = "SAE-8"
clock = "12:00"
"""


def test_what_follows_from_the_parts_is_a_reference_of_two_decimals():
    """15.6625 stood there like a size to hold, to a ten-thousandth that nobody asked for."""
    said = words(compose(job_of(TILT)))
    assert said["cylinder.body_length"][0] == "(15.66)"
    typed = words(compose(job_of(TILT.replace('position = "base"', "position = 1.2625"))))
    assert typed["body_mount.position"][0] == "1.2625"


def test_a_decimal_among_fractions_is_typed_in_the_dxf():
    """A program that reads the header alone printed (15 21/32) for (15.66)."""
    document = ezdxf.read(StringIO(dxf_bytes(compose(job_of(TILT))).decode("utf-8")))
    texts = {e.dxf.text for e in document.modelspace().query("DIMENSION")}
    assert document.header["$DIMLUNIT"] == 5
    assert "(15.66) [397.8]" in texts
    assert any(text.startswith("RETRACTED <>") for text in texts)


PINS = """
[body_pin]
supplied = true
retention = "cotter"
[rod_pin]
supplied = true
retention = "cotter"
"""


def test_pins_that_are_alike_are_drawn_once():
    """Two equal pins stood above each other, or on two pages."""
    alike = LEG.replace('gap = "1 5/16"', 'gap = "1 5/16"\near = 1') + PINS
    alike = alike.replace('mount = "tang"\n', 'mount = "clevis"\ngap = "1 5/16"\near = 1\n')
    alike = alike.replace('width = "1 1/4"', 'width = "2 5/8"')
    assert [p.title for p in job_of(alike).pins] == ["PIN, BOTH ENDS"]
    other = alike.replace("[rod_pin]", '[rod_pin]\ngrip = "2 3/4"')
    assert [p.title for p in job_of(other).pins] == ["BASE END PIN", "ROD END PIN"]


def test_a_size_of_nothing_is_not_dimensioned():
    """'0 D' and '0 [0]' stood at faces that lie in one plane."""
    flush = load(checked((SPECS / "pomace-ram.toml").read_bytes().replace(*FLUSH)))
    assert flush.value("rod_mount.offset").value == 0.0
    names = {w.name for w in flush.wishes}
    assert "rod_mount.offset" not in names
    assert "cylinder.retracted" in names

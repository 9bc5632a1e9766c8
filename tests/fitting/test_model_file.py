"""The file of a machine's model: what it may be, in which unit, and what is refused."""

import re

import cadquery as cq
import pytest

from drafting.errors import Refused
from drafting.fitting.machine import read_machine
from drafting.fitting.meshes import box_of
from drafting.fitting.room import look
from drafting.fitting.step_file import read_solids
from drafting.fitting.subject import subject
from tests.fitting.flap import flap, flapping, solids
from tests.fitting.machines import machine


@pytest.mark.parametrize(
    ("was", "now", "code", "words"),
    [
        ("rod_pin = [420, 0, 40]", "rod_pin = [8228, 0, 13216]", "pins-elsewhere", "inches"),
        ("rod_pin = [420, 0, 40]", "rod_pin = [430, 0, 40]", "pins-elsewhere", "627.7"),
        ("rod_pin = [420, 0, 40]", "rod_pin = [420, 30, 40]", "pins-askew", "30"),
        ("moving = []", 'moving = ["baell"]', "no-such-solid", "ball"),
        ("base_pin = [100, 0, -500]", 'base_pin = "pivot"', "no-such-face", "pivot"),
    ],
)
def test_what_a_model_cannot_be(tailboard, was, now, code, words):
    head, mark, model = flapping().partition("[model]")
    m = machine(head + mark + model.replace(was, now))
    ball = cq.Workplane("XY").sphere(20.0)
    with pytest.raises(Refused) as refused:
        look(subject(tailboard, m), m, solids(ball=ball))
    (fault,) = refused.value.faults
    assert fault.code == code
    assert words in fault.message
    assert fault.line > 10


def test_a_pin_without_a_hole_about_it_is_named(tailboard):
    m = flap()
    ball = cq.Workplane("XY").sphere(20.0)
    ring = cq.Workplane("XZ", origin=(100, 60, -500)).circle(40).circle(16).extrude(20)
    found = look(subject(tailboard, m), m, solids(ball=ball, ring=ring))
    assert found.unpinned == ("rod_pin",)


@pytest.mark.parametrize(("scale", "words"), [(25.4, "too large"), (1 / 25.4, "too small")])
def test_a_model_in_the_wrong_unit_smells_of_inches(tailboard, scale, words):
    """Two drilled blocks, read as if one inch were a millimetre, or the other way round."""
    m = flap()
    eyes = {}
    for name, (x, z) in (("base", (100, -500)), ("arm", (420, 40))):
        block = cq.Workplane("XZ", origin=(x, 60, z)).rect(60, 60).circle(15.1).extrude(20)
        eyes[name] = cq.Workplane(block.val().scale(scale))
    with pytest.raises(Refused, match=rf"model-unit.*{words}.*smells of inches"):
        look(subject(tailboard, m), m, solids(**eyes))


def test_inches_in_a_step_file_are_read_as_what_they_are(tmp_path):
    """The file says its unit (ISO 10303-41, conversion_based_unit): 2 inches are 50.8 mm."""
    path = tmp_path / "none.step"
    cq.exporters.export(cq.Workplane("XY").box(2, 1, 0.5), str(path))
    text = path.read_text()
    milli = re.search(r"#\d+ = \( LENGTH_UNIT\(\)[^;]*;", text)[0]
    number = milli.partition(" ")[0]
    inch = (
        f"{number} = ( CONVERSION_BASED_UNIT('INCH',#90001) LENGTH_UNIT() NAMED_UNIT(#90002) );\n"
        "#90001 = LENGTH_MEASURE_WITH_UNIT(LENGTH_MEASURE(25.4),#90003);\n"
        "#90002 = DIMENSIONAL_EXPONENTS(1.,0.,0.,0.,0.,0.,0.);\n"
        f"{milli.replace(number, '#90003')}\n"
    )
    path.write_text(text.replace(milli, inch))
    (shape,) = read_solids(read_written(tmp_path)).shapes
    assert box_of(shape)[3:] == pytest.approx((25.4, 12.7, 6.35), abs=1e-3)


def test_files_that_are_no_model(tmp_path, tailboard):
    step = tmp_path / "none.step"
    m = read_written(tmp_path)
    with pytest.raises(Refused, match="no-model"):
        read_solids(m)
    step.write_bytes(b"ISO-10303-21; nothing")
    with pytest.raises(Refused, match="damaged"):
        read_solids(m)
    cq.exporters.export(cq.Workplane("XY").rect(5, 5), str(step))
    with pytest.raises(Refused, match=r"no-solids|damaged"):
        read_solids(m)


def read_written(folder):
    path = folder / "m.toml"
    path.write_text(flapping())
    return read_machine(str(path))


def test_an_assembly_keeps_names_and_places_and_is_kept_by_content(tmp_path):
    whole = cq.Assembly(name="frame")
    inner = cq.Assembly(name="pair")
    inner.add(cq.Workplane("XY").box(10, 10, 10), name="left", loc=cq.Location((0, 50, 0)))
    inner.add(cq.Workplane("XY").box(10, 10, 10), name="right")
    whole.add(inner, name="pair", loc=cq.Location((100, 0, 0)))
    whole.export(str(tmp_path / "none.step"))
    m = read_written(tmp_path)
    keep = tmp_path / "kept"
    for _ in range(2):
        found = read_solids(m, keep)
        boxes = {n: box_of(s) for n, s in zip(found.names, found.shapes, strict=True)}
        assert set(boxes) == {"left", "right"}
        assert boxes["left"][:3] == pytest.approx((95, 45, -5), abs=1e-3)
        assert boxes["right"][:3] == pytest.approx((95, -5, -5), abs=1e-3)
        assert len(list(keep.iterdir())) == 1

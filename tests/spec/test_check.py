"""A checked spec: values, units, places, and the readings that the spec format states."""

from hashlib import sha256

import pytest

from drafting.errors import Refused
from drafting.spec.check import read_spec

GOOD = """\
title = "Orchard lift"
units = "in"

[cylinder]
bore = "3 1/2"
rod = 1.75
stroke = 16
extended = "43 1/4"
working_pressure = "2500 psi"
temperature = "-20 degC"

[body_mount]
mount = "flange"
plate = [6, "150 mm"]
position = "rod end"
bolts = {count = 4, hole = 0.656, circle = 6.5}

[rod_mount]
mount = "clevis"
pin = "31.75 mm"
turned = -90

[base_port]
thread = "SAE-8"
clock = 3
position = -1.5

[[extra_port]]
end = "rod"
thread = "1/2 NPT"
clock = "1:30"

[[extra_port]]
end = "base"
thread = "G 1/2"
clock = "45 deg"
facing = "rod"
outlet_position = 3
"""


@pytest.fixture
def good(mounts):
    return read_spec(GOOD.encode(), mounts=mounts, file="orchard.toml")


@pytest.mark.parametrize(
    ("name", "value", "unit", "typed", "line", "column"),
    [
        ("title", "Orchard lift", "", "Orchard lift", 1, 9),
        ("cylinder.bore", 88.9, "mm", "3 1/2", 5, 8),
        ("cylinder.rod", 44.45, "mm", "1.75", 6, 7),
        ("cylinder.stroke", 406.4, "mm", "16", 7, 10),
        ("cylinder.temperature", -20.0, "degc", "-20 degC", 10, 15),
        ("body_mount.plate", (152.4, 150.0), "mm", '[6, "150 mm"]', 14, 9),
        ("body_mount.position", "rod end", "", "rod end", 15, 12),
        ("body_mount.bolts.count", 4, "", "4", 16, 18),
        ("body_mount.bolts.circle", 165.1, "mm", "6.5", 16, 44),
        ("rod_mount.pin", 31.75, "mm", "31.75 mm", 20, 7),
        ("rod_mount.turned", -90.0, "deg", "-90", 21, 10),
        ("base_port.clock", 90.0, "deg", "3", 25, 9),
        ("base_port.position", -38.1, "mm", "-1.5", 26, 12),
        ("extra_port[1].clock", 45.0, "deg", "1:30", 31, 9),
        ("extra_port[2].clock", 45.0, "deg", "45 deg", 36, 9),
    ],
)
def test_values_with_their_places(good, name, value, unit, typed, line, column) -> None:
    found = good.get(name)
    assert (found.value, found.unit, found.typed) == (value, unit, typed)
    assert (found.line, found.column) == (line, column)


def test_pressure_is_in_mpa(good) -> None:
    # NIST SP 811, appendix B.8: 1 psi = 6.894757 kPa
    assert good.number("cylinder.working_pressure") == pytest.approx(2500 * 6.894757e-3, rel=1e-7)


def test_the_spec_as_a_whole(good) -> None:
    assert good.units == "in"
    assert good.file == "orchard.toml"
    assert good.stem == "orchard"
    assert good.path is None
    assert good.text == GOOD
    assert good.sha256 == sha256(GOOD.encode()).hexdigest()
    assert good.has("base_port")
    assert not good.has("rod_port")
    assert good.count("extra_port") == 2
    assert good.get("cylinder.retracted") is None
    assert good.word("rod_mount.mount") == "clevis"
    assert good.number("rod_mount.mount") is None


def test_faults_of_the_model_land_at_the_right_place(good) -> None:
    typed = good.fault("x", "rod_mount.pin", "m")
    assert (typed.file, typed.line, typed.column) == ("orchard.toml", 20, 7)
    absent = good.fault("x", "rod_mount.width", "m")
    assert (absent.line, absent.column, absent.field) == (18, 1, "rod_mount.width")
    assert good.fault("x", "extra_port[2].height", "m").line == 33
    assert good.fault("x", "body_mount.bolts", "m").line == 16
    assert good.line("rod_port.thread") == 1


def test_a_path_is_read_with_and_without_bom_and_with_windows_line_ends(tmp_path, mounts) -> None:
    for content in (
        GOOD.encode(),
        b"\xef\xbb\xbf" + GOOD.encode(),
        GOOD.replace("\n", "\r\n").encode(),
    ):
        path = tmp_path / "lift.toml"
        path.write_bytes(content)
        spec = read_spec(path, mounts=mounts)
        assert spec.path == path
        assert spec.sha256 == sha256(content).hexdigest()
        assert (spec.get("rod_mount.pin").line, spec.get("rod_mount.pin").column) == (20, 7)


@pytest.mark.parametrize(
    ("typed", "degrees"),
    [
        ("12", 0.0),
        ("1", 30.0),
        ('"12:00"', 0.0),
        ('"12:30"', 15.0),
        ('"1:30"', 45.0),
        ('"9"', 270.0),
        ('"45 deg"', 45.0),
        ('"0 deg"', 0.0),
        ('"22.5°"', 22.5),
    ],
)
def test_clock_readings(mounts, typed: str, degrees: float) -> None:
    text = GOOD.replace("clock = 3\n", f"clock = {typed}\n")
    assert read_spec(text.encode(), mounts=mounts).number("base_port.clock") == degrees


@pytest.mark.parametrize("typed", ["0", "13", '"13:00"', '"0:30"', '"3:60"', "1.5", '"360 deg"'])
def test_clocks_refused(mounts, typed: str) -> None:
    text = GOOD.replace("clock = 3\n", f"clock = {typed}\n")
    with pytest.raises(Refused) as caught:
        read_spec(text.encode(), mounts=mounts)
    assert [(f.code, f.field, f.line) for f in caught.value.faults] == [
        ("not-a-clock", "base_port.clock", 25)
    ]


def test_every_two_of_three_lengths_will_do(mounts) -> None:
    lengths = {"stroke": "16", "retracted": '"27 1/4"', "extended": '"43 1/4"'}
    for left_out in (None, *lengths):
        typed = "".join(f"{k} = {v}\n" for k, v in lengths.items() if k != left_out)
        text = GOOD.replace('stroke = 16\nextended = "43 1/4"\n', typed)
        read_spec(text.encode(), mounts=mounts)


def test_three_lengths_agree_within_half_a_millimetre(mounts) -> None:
    for off, fits in ((0.49, True), (-0.49, True), (0.51, False), (-0.51, False)):
        text = GOOD.replace("stroke = 16", f'stroke = 16\nretracted = "{692.15 + off:.3f} mm"')
        if fits:
            read_spec(text.encode(), mounts=mounts)
        else:
            with pytest.raises(Refused, match="lengths-disagree"):
                read_spec(text.encode(), mounts=mounts)


def test_wall_and_outside_agree_within_two_hundredths(mounts) -> None:
    for outside, fits in ((114.3, True), (114.319, True), (114.281, True), (114.33, False)):
        sizes = f'bore = "3 1/2"\nwall = "12.7 mm"\nbarrel_outside = "{outside} mm"'
        text = GOOD.replace('bore = "3 1/2"', sizes)
        if fits:
            read_spec(text.encode(), mounts=mounts)
        else:
            with pytest.raises(Refused, match="sizes-disagree"):
                read_spec(text.encode(), mounts=mounts)


def test_a_logo_beside_its_viewbox_is_refused_rather_than_drawn_as_nothing(mounts) -> None:
    line = '[drawing]\nlogo = {viewbox = "0 0 30 10", path = "M 40 1 L 50 9"}\n'
    with pytest.raises(Refused, match=r"from 40 1 to 50 9: nothing of it lies in the viewBox"):
        read_spec((GOOD + line).encode(), mounts=mounts)
    read_spec((GOOD + line.replace("M 40 1", "M 20 1")).encode(), mounts=mounts)


def test_a_missing_file_names_its_neighbour(tmp_path, mounts) -> None:
    (tmp_path / "sluice_gate.toml").write_text(GOOD)
    with pytest.raises(
        Refused, match=r"no-file: there is no such file; there is sluice_gate\.toml"
    ):
        read_spec(tmp_path / "sluice_gte.toml", mounts=mounts)
    with pytest.raises(Refused, match="this is a folder"):
        read_spec(tmp_path, mounts=mounts)


def test_a_file_beyond_a_megabyte_is_refused(tmp_path, mounts) -> None:
    path = tmp_path / "large.toml"
    path.write_text(GOOD + "# padding\n" * 100_000)
    with pytest.raises(Refused, match="too-large"):
        read_spec(path, mounts=mounts)


@pytest.mark.parametrize(
    "evil",
    [
        "a = " + "[" * 100_000,
        "a = " + "{b = " * 50_000,
        ".".join("a" * 2000) + " = 1",
        ".".join("a" * 200_000) + " = 1",
        "".join(f"key{n} = 1\n" for n in range(60_000)),
        "# long\n" * 100_000 + "bore = 3 1/2\n" * 100,
        "[" + ".".join("a" * 2000) + "]",
        "a = " + "9" * 10_000,
        "bore = 1e999999999",
        '[cylinder]\nbore = "' + "9" * 100_000 + '"',
        "\x00",
        "a = [\n" * 2000,
        "= = =\n" * 500,
    ],
)
def test_hostile_files_are_refused_in_words(mounts, evil: str) -> None:
    with pytest.raises(Refused) as caught:
        read_spec(evil.encode(), mounts=mounts)
    assert all(len(str(f)) < 1000 for f in caught.value.faults)


ORIGIN = """
[[origin]]
field = "cylinder.bore"
from = "measured"
plus_minus = "1/16"
"""


def test_an_origin_is_told_of_a_typed_value(mounts) -> None:
    spec = read_spec((GOOD + ORIGIN).encode(), mounts=mounts)
    told = spec.origin("cylinder.bore")
    assert told is not None
    assert (told.kind, told.plus_minus) == ("measured", pytest.approx(25.4 / 16))
    assert spec.origin("cylinder.rod") is None


@pytest.mark.parametrize(
    ("more", "code"),
    [
        (ORIGIN.replace("cylinder.bore", "cylinder.wall"), "origin-of-nothing"),
        (ORIGIN + ORIGIN, "two-origins"),
        (ORIGIN.replace("measured", "guessed"), "unknown-word"),
    ],
)
def test_an_origin_of_nothing_is_refused(mounts, more, code) -> None:
    with pytest.raises(Refused) as refused:
        read_spec((GOOD + more).encode(), mounts=mounts)
    assert code in [f.code for f in refused.value.faults]

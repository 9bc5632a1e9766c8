"""What ``check`` makes of a cylinder: a guess that would fail needs a person.

By hand: 100 mm bore at 250 bar pushes 196 kN. Over the two faces of a 20 mm pin (628 mm2) that is
312 MPa, over those of a 50 mm pin 50 MPa; plain carbon steel shears at 0.577 of a yield of some
350 to 450 MPa (von Mises; handbook values, from memory), so one has no factor and one has four.
"""

import pytest

from drafting.cli import main

SPEC = """
title = "Trial"
units = "mm"
[cylinder]
bore = 100
rod = 56
stroke = 200
retracted = 600
working_pressure = "250 bar"
[body_mount]
mount = "clevis"
pin = {pin}
hole = {pin}
gap = 40
width = 90
throat = 40
outside = 60
[rod_mount]
mount = "pin eye"
pin = 40
hole = 40
width = 40
outside = 90
[base_port]
thread = "G 1/2"
[rod_port]
thread = "G 1/2"
"""


@pytest.mark.parametrize(("pin", "code"), [(20, 1), (50, None)])
def test_a_check_that_would_fail_is_a_finding(tmp_path, monkeypatch, capsys, pin, code):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "trial.toml").write_text(SPEC.format(pin=pin), encoding="utf-8")
    exit_code = main(["check", "trial.toml"])
    said = capsys.readouterr().out
    shear = [line for line in said.splitlines() if "body-pin-shear (would-fail)" in line]
    assert bool(shear) is (code == 1)
    if code:
        assert exit_code == code
        assert "TO DO" in shear[0]
        assert "Pin at the body end in double shear" in shear[0]


def test_json_has_the_finding_too_and_stays_in_si(tmp_path, monkeypatch, capsys):
    import json

    monkeypatch.chdir(tmp_path)
    (tmp_path / "trial.toml").write_text(SPEC.format(pin=20), encoding="utf-8")
    assert main(["check", "trial.toml", "--json"]) == 1
    entry = json.loads(capsys.readouterr().out)["cylinders"][0]
    found = next(f for f in entry["findings"] if f["field"] == "body-pin-shear")
    assert (found["code"], found["level"]) == ("would-fail", "warning")
    units = {c["unit"] for c in entry["checks"]}
    assert units <= {"", "N", "MPa", "mm", "mm2", "l", "s", "mm/s", "l/s", "kW", "N mm"}

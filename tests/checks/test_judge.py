"""What ``check`` makes of a cylinder: a guess that would fail needs a person.

By hand: 100 mm bore at 250 bar pushes 196 kN. Over the two faces of a 20 mm pin (628 mm2) that is
312 MPa, over those of a 50 mm pin 50 MPa; plain carbon steel shears at 0.577 of a yield of some
350 to 450 MPa (von Mises; handbook values, from memory), so one has no factor and one has four.
"""

import json

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


@pytest.mark.parametrize("pin", [20, 50])
def test_what_nobody_gave_keeps_the_exit_code_at_one(tmp_path, monkeypatch, capsys, pin):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "trial.toml").write_text(SPEC.format(pin=pin), encoding="utf-8")
    assert main(["check", "trial.toml", "--json"]) == 1
    entry = json.loads(capsys.readouterr().out)["cylinders"][0]
    shear = next(c for c in entry["checks"] if c["code"] == "body-pin-shear")
    assert shear["verdict"] in ("depends", "fails")
    assert shear["ok"] is not True
    units = {c["unit"] for c in entry["checks"]}
    assert units <= {"", "N", "MPa", "mm", "mm2", "l", "s", "mm/s", "l/s", "kW", "N mm"}

"""``measure`` and what comes after it, through real files: the words survive every step."""

import json
from pathlib import Path

from drafting.cli import main

READINGS = Path(__file__).parents[2] / "specs/readings/orchard-lift.toml"


def test_a_guess_stays_a_guess_from_the_bench_to_the_drawing_and_back(tmp_path, capsys):
    readings, spec, back = (tmp_path / n for n in ("readings.toml", "mine.toml", "back.toml"))
    text = READINGS.read_text("utf-8").replace('pitch   = "16 tpi"\n', "")
    readings.write_text(text, encoding="utf-8")
    assert main(["measure", str(readings), "-o", str(spec)]) == 1
    assert main(["draw", str(spec), "-o", str(tmp_path), "--formats", "svg,json"]) == 1
    made = json.loads((tmp_path / "HB-0210.json").read_text("utf-8"))["cylinders"][0]
    values = {v["name"]: v for v in made["values"]}
    assert values["rod_port.thread"]["origin"] == "open"
    assert values["cylinder.retracted"]["origin"] == "measured"
    assert 0.5 < values["cylinder.retracted"]["plus_minus_mm"] < 1.5
    assert "open-size" in {f["code"] for f in made["findings"]}
    assert main(["new", str(back), "--from", str(tmp_path / "HB-0210.svg")]) == 0
    assert back.read_bytes() == spec.read_bytes()
    capsys.readouterr()
    assert main(["check", str(back)]) == 1
    said = capsys.readouterr()
    assert "WARNING  rod_port.thread" in said.out
    assert "MEASURED on an old part" in said.out
    assert "1 warning (open-size)" in said.err

"""``drafting fit`` through real files: exit codes, JSON, refusals of both files at once."""

import json
from pathlib import Path

from drafting.cli import main

SPECS = Path(__file__).parent.parent.parent / "specs"
SPEC, MACHINE = str(SPECS / "tailboard-lift.toml"), str(SPECS / "machines/wagon-tailboard.toml")


def test_words_and_exit_code(capsys):
    assert main(["fit", SPEC, MACHINE]) == 1
    out, err = capsys.readouterr()
    assert "FITS WITH THREE JOBS" in out
    open_ = "3 not known (rod room about pin, out of base port, out of rod port)"
    assert err.splitlines()[-1] == f"exit 1: {open_}, three jobs"


def test_json_is_one_document(capsys):
    assert main(["fit", SPEC, MACHINE, "--json"]) == 1
    found = json.loads(capsys.readouterr().out)
    assert (found["schema"], found["verdict"]) == (1, "fits with work")


def test_faults_of_both_files_are_told_together(tmp_path, capsys):
    spec, machine = tmp_path / "c.toml", tmp_path / "m.toml"
    spec.write_text('title = "C"\nunits = "mm"\n')
    machine.write_text('title = "M"\nunits = "mm"\n')
    assert main(["fit", str(spec), str(machine)]) == 2
    err = capsys.readouterr().err
    assert "c.toml" in err
    assert "m.toml:1:1: error no-way" in err

"""``size`` on the command line."""

from pathlib import Path

import pytest

from drafting.cli import main

DUTY = Path(__file__).parents[2] / "specs" / "duties" / "weir-flap.toml"


@pytest.mark.parametrize("named", [True, False])
def test_the_duty_file_is_never_written_over(tmp_path, monkeypatch, capsys, named):
    """With ``-o``, or because the spec would get the duty file's own name."""
    monkeypatch.chdir(tmp_path)
    duty = tmp_path / "flap.toml"
    duty.write_bytes(DUTY.read_bytes())
    where = ["-o", "flap.toml"] if named else []
    assert main(["size", "flap.toml", "--take", "1", "--force", *where]) == 2
    assert "never written over" in capsys.readouterr().err
    assert duty.read_bytes() == DUTY.read_bytes()


def test_a_candidate_is_written_beside_it(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "flap.toml").write_bytes(DUTY.read_bytes())
    main(["size", "flap.toml", "--take", "1", "-o", "spec.toml"])
    assert "[rod_mount]" in (tmp_path / "spec.toml").read_text(encoding="utf-8")

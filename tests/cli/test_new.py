"""``new`` writes a spec that settles without edits, for every pair of mounts in both units."""

import re

import pytest

from drafting.cli import main
from drafting.errors import Refused
from drafting.model.catalog import mount_types, mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec

BODY = [word for end, word in mount_types() if end == "body"]
ROD = [word for end, word in mount_types() if end == "rod"]


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("rod", ROD)
@pytest.mark.parametrize("body", BODY)
def test_the_starter_settles(body, rod, units, tmp_path):
    path = tmp_path / "mine.toml"
    assert main(["new", str(path), "--units", units, "--body", body, "--rod", rod]) == 0
    cylinder = load(read_spec(path, mounts=mounts_by_end()))
    assert cylinder.mounts == {"body": body, "rod": rod}
    assert not [f for f in cylinder.findings if f.level == "error"]


def test_it_never_writes_over_a_file_unasked(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text("kept", encoding="utf-8")
    assert main(["new", str(path)]) == 2
    assert path.read_text(encoding="utf-8") == "kept"
    assert main(["new", str(path), "--force"]) == 0
    assert path.read_text(encoding="utf-8") != "kept"


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize(
    ("body", "rod"),
    [*((b, "clevis") for b in BODY), *(("clevis", r) for r in ROD), ("foot", "flange")],
)
def test_the_short_one_holds_what_must_be_typed(body, rod, units, tmp_path):
    """Bore, rod, two lengths, mounts and ports are refused when left out; the rest are sizes of
    the two mounts."""
    path = tmp_path / "mine.toml"
    assert main(["new", str(path), "--short", "--units", units, "--body", body, "--rod", rod]) == 0
    lines = path.read_text(encoding="utf-8").splitlines()
    assert len(lines) <= 30
    assert not any(line.startswith("#") for line in lines[2:])
    assert settled(lines)
    left_out = {
        line.split()[0]: settled([*lines[:n], *lines[n + 1 :]])
        for n, line in enumerate(lines)
        if not line.startswith(("#", "["))
    }
    needed = {name for name, fine in left_out.items() if not fine}
    assert needed >= {"title", "units", "bore", "rod", "stroke", "retracted", "mount", "thread"}
    sizes = {f for end, m in (("body", body), ("rod", rod)) for f in mount_types()[end, m].example}
    assert left_out.keys() - needed <= sizes | {"number", "clock"}


def settled(lines):
    try:
        return load(read_spec("\n".join(lines).encode(), mounts=mounts_by_end()))
    except Refused:
        return None


def test_words_behind_options_are_taken_as_in_a_spec(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    argv = ["--short", "--units", "Inch", "--body", "Fork", "--rod", "Cross-Tube"]
    assert main(["new", "mine", *argv]) == 0
    assert '"Fork" is taken as "clevis"' in capsys.readouterr().err
    cylinder = settled((tmp_path / "mine.toml").read_text(encoding="utf-8").splitlines())
    assert cylinder.mounts == {"body": "clevis", "rod": "cross tube"}
    assert main(["new", "other", "--rod", "threaded"]) == 2
    assert '"male thread" or "female thread"' in capsys.readouterr().err
    assert main(["draw", "mine", "-f", "svg", "--sheet", "11x17", "--dxf", "r2000"]) in (0, 1)
    assert main(["worksheet", "--body", "fork", "--rod", "clevis", "--paper", "letter"]) == 0


@pytest.mark.parametrize("name", ["old.pdf", "old.STEP", "old.stp"])
def test_a_spec_is_not_called_like_a_drawing(name, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["new", name]) == 2
    assert f"--from {name}" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("units", ["in", "mm"])
def test_the_duty_sizes_and_every_line_of_it_can_be_taken_up(units, tmp_path):
    """As it is, and with every field that waits behind a ``#``."""
    from drafting.sizing.duty import TABLES, read_duty
    from drafting.sizing.size import size

    path = tmp_path / "duty.toml"
    assert main(["new", str(path), "--duty", "--units", units, "--body", "cross tube"]) == 0
    assert size(read_duty(str(path)), 1).proposals
    offered = re.sub(r"^# (?=[a-z_]+ =)", "", path.read_text(encoding="utf-8"), flags=re.M)
    path.write_text(offered, encoding="utf-8")
    full = read_duty(str(path))
    assert (full.rod_side, full.tightest, full.ports) == ("open", True, "SAE ORB")
    assert all(f"{f.name} = " in offered for t in TABLES.values() for f in t.fields)


def test_a_duty_says_at_once_what_it_cannot_ask_for(tmp_path, capsys):
    assert main(["new", str(tmp_path / "d.toml"), "--duty", "--rod", "male thread"]) == 2
    assert "size it as plain" in capsys.readouterr().err
    assert not (tmp_path / "d.toml").exists()


@pytest.mark.parametrize(("body", "rod"), [("cross tube", "clevis"), ("flange", "male thread")])
def test_the_readings_have_every_letter_and_an_empty_one_is_told(body, rod, tmp_path, capsys):
    from drafting.measuring.letters import letters

    path = tmp_path / "old.toml"
    assert main(["new", str(path), "--readings", "--body", body, "--rod", rod]) == 0
    text = path.read_text(encoding="utf-8")
    assert all(re.search(rf"^# {x.letter}(_outer)? = ", text, re.M) for x in letters(body, rod))
    assert main(["measure", str(path)]) == 1
    capsys.readouterr()
    path.write_text(text.replace("# C = ", "C = "), encoding="utf-8")
    assert main(["measure", str(path)]) == 2
    assert "caliper.C" in capsys.readouterr().err
    path.write_text(text.replace('# C = ["", ""]', 'C = ["3.502", "3.501"]'), encoding="utf-8")
    assert main(["measure", str(path)]) == 1

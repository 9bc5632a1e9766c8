"""What the README tells a newcomer to type works as it stands, from the project's folder."""

import re
import shlex
import shutil
from pathlib import Path

import pytest

from drafting.cli import main
from drafting.cli.arguments import VERBS
from drafting.cli.parsing import parse
from drafting.model.load import checked, load

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
SECTIONS = dict(re.findall(r"^## (.+)\n((?:(?!## ).*\n)*)", README, re.M))


def typed(section):
    """The lines that begin with the program's name, in the shell blocks of a section."""
    blocks = re.findall(r"^```sh\n(.*?)^```", SECTIONS[section], re.M | re.S)
    lines = [line for block in blocks for line in block.splitlines()]
    return [shlex.split(line)[1:] for line in lines if line.startswith("drafting ")]


@pytest.fixture
def here(tmp_path, monkeypatch):
    shutil.copytree(ROOT / "specs", tmp_path / "specs")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    ("section", "made"),
    [
        ("Install and draw a sample", "output/HB-0101.pdf"),
        ("Your first spec", "mine.toml"),
        ("From the bench to the sheet", "output/HB-0210.pdf"),
        ("From the job to the sheet", "flap.toml"),
    ],
)
def test_a_section_can_be_typed_from_its_first_line_to_its_last(section, made, here):
    lines = typed(section)
    assert lines
    for argv in lines:
        light = ["-f", "pdf,json"] if argv[0] == "draw" else []
        plain = [word for word in argv if word != "--open"]
        assert main([*plain, *light]) in (0, 1), argv
    assert (here / made).exists()


def test_the_whole_spec_is_one():
    (text,) = re.findall(r"^```toml\n(title.*?)^```", SECTIONS["Your first spec"], re.M | re.S)
    assert load(checked(text.encode())).lengths.retracted == pytest.approx(34.25 * 25.4)


def test_every_command_in_the_text_is_one():
    lines = re.findall(r"`drafting ([a-z][^`]*)`", README)
    assert len(lines) > 15
    known = [line for line in lines if shlex.split(line)[0] in VERBS]
    assert known == lines
    for line in (line for line in lines if " " in line):
        parse(shlex.split(line))


def test_every_file_that_the_text_names_is_there():
    named = set(re.findall(r"(?<![\w/])(specs/[\w./-]+|output/[\w./-]+\.svg)", README))
    assert len(named) > 5
    assert [n for n in named if not (ROOT / n).exists()] == []

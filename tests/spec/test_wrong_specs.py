"""Each wrong spec beside the exact lines that a person reads, checked against spec_format words.

The expected lines were read and judged one by one when they were written; a changed message is
changed here too, on purpose.
"""

from pathlib import Path

import pytest

from drafting.errors import Refused
from drafting.model.load import checked
from drafting.spec.check import read_spec

FOLDER = Path(__file__).parent.parent / "wrong_specs"
FILES = sorted(FOLDER.glob("*.toml"))


def lines_of(path: Path, mounts) -> list[str]:
    with pytest.raises(Refused) as caught:
        read_spec(path, mounts=mounts, file=path.name)
    return [str(f) for f in caught.value.faults]


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_messages(path: Path, mounts) -> None:
    expected = path.with_suffix(".expected").read_text(encoding="utf-8").splitlines()
    assert lines_of(path, mounts) == expected


def test_every_message_has_a_twin_and_enough_of_them() -> None:
    assert len(FILES) >= 45
    assert {p.stem for p in FILES} == {p.stem for p in FOLDER.glob("*.expected")}


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_places_lie_within_the_file(path: Path, mounts) -> None:
    text = path.read_bytes().decode("utf-8-sig", "replace").splitlines() or [""]
    with pytest.raises(Refused) as caught:
        read_spec(path, mounts=mounts, file=path.name)
    for fault in caught.value.faults:
        assert 1 <= fault.line <= len(text)
        assert 1 <= fault.column <= len(text[fault.line - 1]) + 1


def test_a_file_tells_of_its_fields_and_of_its_sizes_in_one_stop() -> None:
    """A strange field, an unknown word, a pin too thick and a port of two meanings: one refusal."""
    text = """
title = "Mill gate"
units = "in"
colour = "red"
[cylinder]
bore = 3
rod = 1.5
stroke = 12
retracted = 24
gland = "glued"
[body_mount]
mount = "clevis"
pin = 1
hole = 0.9
[rod_mount]
mount = "clevis"
pin = 1
hole = 0.8
[base_port]
thread = "-8"
"""
    with pytest.raises(Refused) as refused:
        checked(text.encode(), "t.toml")
    found = [(f.code, f.field) for f in refused.value.faults]
    assert set(found) == {
        ("unknown-field", "colour"),
        ("unknown-word", "cylinder.gland"),
        ("hole-too-small", "body_mount.hole"),
        ("hole-too-small", "rod_mount.hole"),
        ("port-two-meanings", "base_port.thread"),
    }
    assert len(found) == len(set(found))

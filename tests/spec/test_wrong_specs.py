"""Each wrong spec beside the exact lines that a person reads, checked against spec_format words.

The expected lines were read and judged one by one when they were written; a changed message is
changed here too, on purpose.
"""

from pathlib import Path

import pytest

from drafting.errors import Refused
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

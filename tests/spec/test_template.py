"""The starter spec: it reads as it stands, and so does each line that it offers."""

import tomllib

import pytest

from drafting.errors import Refused
from drafting.spec.check import read_spec
from drafting.spec.template import starter_spec

EXAMPLES = {
    "body_mount": {
        "gap": 1.0,
        "plate": [6.5, 6.5],
        "bolts": {"count": 4, "hole": 0.656, "pitch": [5, 5]},
    },
    "rod_mount": {"pin": 1.0, "hole": 1.016, "gap": 1.06, "width": 2.5, "nose": 1.25},
}
ABOUT_OTHERS = (
    "not-of-this",
    "hole-too",
    "no-",
    "sizes-",
    "lengths-",
    "missing",
    "rod-too",
    "tolerance-off",
)
"""Faults of a line beside the others, which a person meets when taking it up."""


@pytest.fixture(params=["in", "mm"])
def starter(request, mounts) -> str:
    return starter_spec("flange", "clevis", request.param, mounts=mounts, examples=EXAMPLES)


def test_it_reads_as_it_stands(starter: str, mounts) -> None:
    spec = read_spec(starter.encode(), mounts=mounts)
    assert spec.word("body_mount.mount") == "flange"
    assert spec.word("rod_mount.mount") == "clevis"
    inches = spec.units == "in"
    assert spec.number("rod_mount.gap") == (26.924 if inches else 27.0)
    assert spec.get("body_mount.plate").value == ((165.1, 165.1) if inches else (165.0, 165.0))


def test_only_fields_of_the_mounts_are_offered(starter: str) -> None:
    body = starter.partition("[body_mount]")[2].partition("[rod_mount]")[0]
    rod = starter.partition("[rod_mount]")[2].partition("[base_port]")[0]
    assert "gap" not in body
    assert "gap" in rod
    assert "seat_height" not in starter


def test_each_offered_line_can_be_taken_up(starter: str, mounts) -> None:
    lines = starter.split("\n")
    offered = [n for n, t in enumerate(lines) if t.startswith("# ") and " = " in t.split("#")[1]]
    assert len(offered) > 80
    for n in offered:
        taken = list(lines)
        head = next(k for k in range(n, -1, -1) if lines[k].lstrip("# ").startswith("[") or not k)
        taken[head] = lines[head].removeprefix("# ") if head else lines[0]
        taken[n] = lines[n].removeprefix("# ")
        text = "\n".join(taken)
        tomllib.loads(text)
        try:
            read_spec(text.encode(), mounts=mounts)
        except Refused as refused:
            assert all(f.code.startswith(ABOUT_OTHERS) for f in refused.faults), str(refused)  # noqa: PT017

"""What messages call a mount: by its end, or by its kind where the body's stands elsewhere.

The sizes are those of the samples, and of what is typed here.
"""

from pathlib import Path

import pytest

from drafting.checks.of_cylinder import judge
from drafting.model.load import checked, load
from drafting.reports.verdicts import judged, line

SPECS = Path(__file__).parents[2] / "specs"


def cylinder(name, *swaps):
    text = (SPECS / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new)
    return load(checked(text.encode()))


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("pomace-ram", "the body's flange at the rod end reaches "),
        ("penstock-gate", "the body's trunnion in the middle reaches "),
        ("stone-tray", "the base end mount reaches "),
    ],
)
def test_a_mount_is_called_by_where_it_stands(name, said):
    """A flange at the rod end was the base end mount."""
    c = cylinder(name, ("[cylinder]", "[cylinder]\nlargest_outside = 1.1"))
    told = [f.message for f in c.findings if f.field == "body_mount.mount"]
    assert [m for m in told if said in m] == told[:1] != []
    assert not [m for m in told if "base end" in m and "base end" not in said]


@pytest.mark.parametrize(("name", "end"), [("pomace-ram", "body"), ("stone-tray", "base end")])
def test_a_check_of_a_mount_says_where_it_is(name, end):
    rows = [line(k, "mm") for k in judged(judge(cylinder(name)).checks)]
    (bolts,) = [r for r in rows if r.check == f"bolts of the mount, {end}"]
    assert bolts.decides.startswith(f"{end} bolts ")

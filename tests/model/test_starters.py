"""Every pair of mounts has a starter spec that the model settles without a change."""

from itertools import product

import pytest

from drafting.model.catalog import mount_types, mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from drafting.spec.template import starter_spec

MOUNTS = mounts_by_end()
TYPES = mount_types()


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize(("body", "rod"), list(product(MOUNTS["body_mount"], MOUNTS["rod_mount"])))
def test_a_starter_settles(body: str, rod: str, units: str) -> None:
    examples = {
        "body_mount": TYPES["body", body].example,
        "rod_mount": TYPES["rod", rod].example,
    }
    text = starter_spec(body, rod, units, mounts=MOUNTS, examples=examples)
    cylinder = load(read_spec(text.encode(), mounts=MOUNTS))
    assert cylinder.mounts == {"body": body, "rod": rod}
    assert not [f for f in cylinder.findings if f.level == "error"]

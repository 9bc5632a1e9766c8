"""``new`` writes a spec that settles without edits, for every pair of mounts in both units."""

import pytest

from drafting.cli import main
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

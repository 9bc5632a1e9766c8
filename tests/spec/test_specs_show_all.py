"""The sample specs show every mount, construction, gland and port family at least once."""

from pathlib import Path

import pytest

from drafting.model.catalog import mount_types
from drafting.model.load import load, read
from drafting.spec.fields import CYLINDER
from drafting.standards.port_thread import families

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.toml"))
CYLINDERS = [load(read(str(path))) for path in SPECS]


@pytest.mark.parametrize(("end", "word"), list(mount_types()))
def test_every_mount_is_shown(end, word):
    assert any(c.mounts[end] == word for c in CYLINDERS)


@pytest.mark.parametrize("family", [f.entry["family"] for f in families("port")])
def test_every_family_of_ports_is_shown(family):
    assert any(port.thread.family == family for c in CYLINDERS for port in c.ports)


@pytest.mark.parametrize("code", ["61", "62"])
def test_both_codes_of_flanges_are_shown(code):
    shown = [port.thread.spelling for c in CYLINDERS for port in c.ports]
    assert any(word.endswith(f"code {code}") for word in shown)


@pytest.mark.parametrize("field", ["construction", "gland", "action", "piston", "return"])
def test_every_word_is_shown_or_usual(field):
    known = next(f for f in CYLINDER.fields if f.name == field)
    typed = {str(g.value) for c in CYLINDERS if (g := c.spec.get(f"cylinder.{field}"))}
    assert set(known.choices[1:]) - typed <= LEFT_OUT


LEFT_OUT = {"tie rod", "pull"}
"""A tie-rod body's gland goes without saying; pulling alone is covered by tests/agree."""


def test_facings_and_plugs_are_shown():
    ports = [port.sizes for c in CYLINDERS for port in c.ports]
    assert {"out", "base"} <= {p.facing for p in ports}
    assert any(p.plugged for p in ports)

"""Nothing that is written says where on somebody's machine it was made; any folder, equal bytes."""

import json
import zlib
from pathlib import Path

import pytest

from drafting.cli import main
from tests.jobs.test_outputs import SPEC

SECRET = "Quillfeather"
"""A folder's name that stands nowhere else."""
SHOP = '[drawing]\ncompany = "Harrow Brook Works"\n[cylinder]\nseals = "NBR"\n'
TWICE = SPEC.replace(
    "stroke = 320", 'stroke = 320\nworking_pressure = "160 bar"\nextended = 1020.5'
)
FORMATS = "dxf,svg,pdf,step,glb,png,csv,html,json"


def drawn(folder, monkeypatch, absolute, more=()):
    """Draw with all there is from a folder of its own; gives the files' bytes by name."""
    folder.mkdir(parents=True)
    (folder / "a.toml").write_text(TWICE, encoding="utf-8")
    (folder / "old.toml").write_text(TWICE.replace("rod = 36", "rod = 35"), encoding="utf-8")
    (folder / "drafting-shop.toml").write_text(SHOP, encoding="utf-8")
    at = folder if absolute else Path()
    monkeypatch.chdir(folder.parent if absolute else folder)
    argv = ["draw", str(at / "a.toml"), "-o", str(at / "out"), "-f", FORMATS, "--outline"]
    assert main([*argv, "--against", str(at / "old.toml"), *more]) in (0, 1)
    argv = ["request", str(at / "a.toml"), "-o", str(at / "out" / "asked")]
    assert main(argv) in (0, 1)
    argv = ["check", str(at / "a.toml"), "--plots", str(at / "out")]
    assert main(argv) in (0, 1)
    out = folder / "out"
    return {p.relative_to(out).as_posix(): p.read_bytes() for p in out.rglob("*") if p.is_file()}


@pytest.fixture(scope="module")
def three(tmp_path_factory):
    base = tmp_path_factory.mktemp("places")
    with pytest.MonkeyPatch.context() as patch:
        return [
            drawn(base / "plain", patch, absolute=False),
            drawn(base / SECRET / "jobs", patch, absolute=True),
            drawn(base / "other" / SECRET, patch, absolute=False),
        ]


def test_equal_bytes_from_any_folder(three):
    first, *others = three
    assert len(first) >= 10
    for other in others:
        assert other.keys() == first.keys()
        assert [n for n in first if first[n] != other[n]] == []


def words(data):
    """Give a file's bytes and what is deflated inside it, as a PDF and a PNG do."""
    found = [data]
    for at in range(len(data) - 1):
        if data[at] == 0x78 and data[at + 1] in (0x01, 0x5E, 0x9C, 0xDA):
            try:
                found.append(zlib.decompressobj().decompress(data[at:], 5_000_000))
            except zlib.error:
                continue
    return b"".join(found)


def test_no_folder_is_named(three):
    for name, data in three[1].items():
        inside = words(data)
        for secret in (SECRET.encode(), SECRET.encode("utf-16-be"), SECRET.encode("utf-16-le")):
            assert secret not in inside, name


def test_the_search_finds_what_is_deflated():
    assert SECRET.encode() in words(b"stream " + zlib.compress(SECRET.encode() * 3))


def test_the_json_says_which_line_of_which_file_all_the_same(three):
    entry = json.loads(three[1]["HB-0999.json"])["cylinders"][0]
    assert entry["spec"] == "a.toml"
    why = {v["name"]: v["why"] for v in entry["values"]}
    assert why["cylinder.bore"] == "a.toml:5"
    assert why["cylinder.seals"] == "drafting-shop.toml:4"
    assert all("/" not in name for name in entry["files"])

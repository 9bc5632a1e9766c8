"""Company defaults: under the spec, never over it, never a size, and back again byte for byte."""

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from drafting.cli import main
from drafting.errors import Refused
from drafting.model.load import load, read
from drafting.spec.bundle import bundle, unbundle
from drafting.spec.schema import shop_schema
from drafting.spec.shop import SHOP_TABLES, read_shop

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "specs" / "shop" / "sluice-boom.toml"
SHOP = SAMPLE.parent / "drafting-shop.toml"
WRONG = Path(__file__).parent.parent / "wrong_shops"


@pytest.mark.parametrize("path", sorted(WRONG.glob("*.toml")), ids=lambda p: p.stem)
def test_faults_name_the_file_of_defaults(path):
    with pytest.raises(Refused) as caught:
        read_shop(path, path.name)
    expected = path.with_suffix(".expected").read_text(encoding="utf-8").splitlines()
    assert [str(f) for f in caught.value.faults] == expected


def test_no_field_of_a_shop_is_a_size():
    kinds = {f.kind for t in SHOP_TABLES.values() for f in t.fields}
    assert kinds <= {"text", "texts", "word", "count", "table", "scale"}


def test_the_spec_rules_and_defaults_keep_their_place(tmp_path):
    text = SAMPLE.read_text(encoding="utf-8").replace(
        "working_pressure", 'seals = "NBR"\nworking_pressure'
    )
    spec, shop = tmp_path / "a.toml", tmp_path / "drafting-shop.toml"
    spec.write_text(text, encoding="utf-8")
    shop.write_bytes(SHOP.read_bytes())
    c = load(read(str(spec)))
    assert c.value("cylinder.fluid").why == f"{shop}:9"
    assert c.value("cylinder.fluid").origin == "given"
    assert c.spec.word("cylinder.seals") == "NBR"
    assert c.spec.word("drawing.company") == "Harrow Brook mill workshop"
    shop.unlink()
    bare = read(str(spec))
    assert bare.word("drawing.company") is None
    assert bare.sha256 != c.spec.sha256


def test_a_named_file_is_taken_and_both_files_faults_are_told(tmp_path):
    shop = tmp_path / "ours.toml"
    shop.write_text('[drawing]\ncompany = "Elm Barn"\n', encoding="utf-8")
    assert read(str(SAMPLE), str(shop)).word("drawing.company") == "Elm Barn"
    shop.write_text("[drawing]\ncompany = 5\n", encoding="utf-8")
    wrong = tmp_path / "wrong.toml"
    wrong.write_text("title = 5\n", encoding="utf-8")
    with pytest.raises(Refused) as caught:
        read(str(wrong), str(shop))
    assert {f.file for f in caught.value.faults} == {str(shop), str(wrong)}
    with pytest.raises(Refused, match="no such file"):
        read(str(SAMPLE), str(tmp_path / "none.toml"))


@pytest.mark.parametrize("kind", ["svg", "pdf", "dxf", "json"])
def test_spec_and_defaults_come_back_from_every_output(tmp_path, kind, capsys):
    args = ["-o", str(tmp_path), "--formats", kind]
    assert main(["draw", str(SAMPLE), *args]) == 0
    output = tmp_path / f"HB-0501.{kind}"
    first = output.read_bytes()
    spec, shop = tmp_path / "back.toml", tmp_path / "drafting-shop.toml"
    assert main(["new", str(spec), "--from", str(output), "--shop", str(shop)]) == 0
    assert spec.read_bytes() == SAMPLE.read_bytes()
    assert shop.read_bytes() == SHOP.read_bytes()
    assert main(["draw", str(spec), *args]) == 0
    if kind != "json":
        assert output.read_bytes() == first
    assert main(["draw", str(spec), "--formats", "json", *args[:2], "--against", str(output)]) == 0
    entry = json.loads((tmp_path / "HB-0501.json").read_text(encoding="utf-8"))["cylinders"][0]
    assert entry["changes"] == []
    capsys.readouterr()


def test_all_files_of_a_folder_may_be_named(tmp_path, capsys):
    assert main(["draw", str(SAMPLE), str(SHOP), "--formats", "json", "-o", str(tmp_path)]) == 0
    assert "company defaults, no spec" in capsys.readouterr().err
    assert main(["check", str(SHOP)]) == 2
    assert f"{SHOP}:1:1: error no-spec" in capsys.readouterr().err


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=200), st.text(min_size=1, max_size=300), st.text(max_size=20))
def test_a_bundle_comes_apart_as_it_was(spec, shop, name):
    assert unbundle(bundle(spec, name, shop)) == (spec, name, shop)


def test_a_plain_spec_is_no_bundle():
    text = SAMPLE.read_text(encoding="utf-8")
    assert unbundle(text) == (text, "", "")


def test_the_schema_takes_the_sample_and_no_size():
    import tomllib

    schema = shop_schema()
    Draft202012Validator.check_schema(schema)
    check = Draft202012Validator(schema)
    assert check.is_valid(tomllib.loads(SHOP.read_text(encoding="utf-8")))
    assert not check.is_valid({"cylinder": {"bore": 80}})

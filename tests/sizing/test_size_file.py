"""The duty file and the verb that reads it: faults with their place, the spec that is taken."""

import json
from dataclasses import replace

import pytest

from drafting.cli import main
from drafting.errors import Refused
from drafting.model.catalog import mount_types
from drafting.sizing.duty import duty_of, read_duty
from drafting.sizing.size import size
from drafting.spec.read import read_document
from drafting.units import spell
from tests.sizing.flap_duty import DUTY, TEXT


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("push = ", "pussh = ", "duty.pussh: no field pussh; did you mean push?"),
        ("stroke = 500", "stroke = -4", "duty.stroke"),
        ('pressure = "180 bar"', "pressure = 180", "without a unit"),
        ('rod_mount = "clevis"', "", "room.rod_mount: required"),
        ('push = "60 kN"\npull = "30 kN"\n', "", "write push or pull"),
        ("[supply]", "[suply]", "the table [supply] is missing"),
        ("stroke = 500", "stroke = [", "stroke"),
    ],
)
def test_faults_are_told_with_their_place(tmp_path, old, new, told):
    file = tmp_path / "duty.toml"
    file.write_text(TEXT.replace(old, new), encoding="utf-8")
    with pytest.raises(Refused, match=told.replace("[", r"\[").replace("?", r"\?")) as refused:
        read_duty(str(file))
    assert all(f.line >= 1 and f.file == str(file) for f in refused.value.faults)


def test_the_file_reads_as_meant(tmp_path):
    file = tmp_path / "duty.toml"
    file.write_text(TEXT, encoding="utf-8")
    assert replace(read_duty(str(file)), file=DUTY.file) == replace(DUTY, series="metric")
    file.write_text(f'series = "both"\n{TEXT}', encoding="utf-8")
    assert replace(read_duty(str(file)), file=DUTY.file) == DUTY
    assert spell(DUTY.pressure, "pressure", "mm") == "180 bar"


def run(tmp_path, capsys, text, *arguments):
    file = tmp_path / "flap.toml"
    file.write_text(text, encoding="utf-8")
    code = main(["size", str(file), *arguments])
    return code, capsys.readouterr()


def test_the_verb(tmp_path, capsys):
    code, said = run(tmp_path, capsys, TEXT)
    assert code == 0
    assert "standard pairs do it" in said.out
    assert "not a design approval" in said.out
    code, said = run(tmp_path, capsys, TEXT, "--json")
    document = json.loads(said.out)
    assert document["schema"] == 1
    assert document["candidates"][0]["push_n"] >= 60_000
    code, said = run(tmp_path, capsys, TEXT.replace("60 kN", "9000 kN"))
    assert code == 1
    assert "push (duty.push)" in said.out


def test_take_writes_once(tmp_path, capsys):
    target = str(tmp_path / "chosen.toml")
    assert run(tmp_path, capsys, TEXT, "--take", "1", "-o", target)[0] == 0
    before = (tmp_path / "chosen.toml").read_text(encoding="utf-8")
    code, said = run(tmp_path, capsys, TEXT, "--take", "2", "-o", target)
    assert code == 2
    assert "is there already" in said.err
    assert (tmp_path / "chosen.toml").read_text(encoding="utf-8") == before
    assert run(tmp_path, capsys, TEXT, "--take", "2", "-o", target, "--force")[0] == 0
    assert run(tmp_path, capsys, TEXT, "--take", "999", "-o", target)[0] == 2


def test_people_are_not_called_safe(tmp_path, capsys):
    text = TEXT.replace("[supply]", "lifts_people = true\n[supply]")
    code, said = run(tmp_path, capsys, text)
    assert code == 1
    assert "licensed engineer" in said.out.replace("\n", " ")


@pytest.mark.parametrize(("end", "word"), list(mount_types()), ids=lambda v: v)
def test_every_mount_can_be_asked_for_or_says_what_to_ask_instead(end, word):
    kind = mount_types()[end, word]
    text = TEXT.replace(f'{end}_mount = "clevis"', f'{end}_mount = "{word}"')
    document = read_document(text.encode(), "lift.toml")
    if kind.not_sized:
        with pytest.raises(Refused) as refused:
            duty_of(document)
        (fault,) = refused.value.faults
        assert (fault.code, fault.field) == ("not-sized", f"room.{end}_mount")
        assert word in fault.message
        assert kind.not_sized in fault.message
    else:
        assert size(duty_of(document), 1).proposals

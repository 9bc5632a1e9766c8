"""A package from a spec and back: what is in the ZIP, what is not, and forms that answer it."""

from __future__ import annotations

import json
import zipfile

import pytest

from drafting.cli import main
from tests.asking.filling import by_pypdf
from tests.asking.test_form import SPEC

LIGHT = "step,png,dxf"


def asked(folder, *more, text=SPEC, name="winch.toml"):
    folder.mkdir(exist_ok=True)
    path = folder / name
    path.write_bytes(text.encode())
    code = main(["request", str(path), "--without", LIGHT, "-o", str(folder / "out"), *more])
    return code, folder / "out"


def test_the_package_holds_what_it_says_and_its_folder_the_same(tmp_path, capsys):
    code, out = asked(tmp_path, "--json")
    assert code in (0, 1)
    said = json.loads(capsys.readouterr().out)
    assert said["package"].endswith("out/WW-0417-request.zip")
    assert said["open"][0].endswith("?")
    with zipfile.ZipFile(out / "WW-0417-request.zip") as archive:
        names = archive.namelist()
        assert archive.testzip() is None
        for name in names:
            assert (out / "WW-0417-request" / name).read_bytes() == archive.read(name)
    assert names == [f"WW-0417{end}" for end in (
        "-cover.pdf", "-form.pdf", "-mail.txt", ".csv", ".json", ".pdf", ".toml")]  # fmt: skip
    mail = (out / "WW-0417-request" / "WW-0417-mail.txt").read_text(encoding="utf-8")
    assert "WW-0417-form.pdf" in mail
    assert "revision B" in mail


def test_equal_input_gives_equal_bytes_from_any_folder_and_names_none(tmp_path):
    packages = []
    for name in ("here", "quite elsewhere"):
        _, out = asked(tmp_path / name)
        packages.append((out / "WW-0417-request.zip").read_bytes())
        for file in (out / "WW-0417-request").iterdir():
            assert str(tmp_path).encode() not in file.read_bytes(), file.name
    assert packages[0] == packages[1]


def test_parts_are_left_out_and_an_unknown_one_is_refused(tmp_path, capsys):
    left = [f"WW-0417{end}" for end in ("-cover.pdf", "-form.pdf", "-mail.txt")]
    asked(tmp_path)  # an older package with more in it
    _, out = asked(tmp_path, "--without", "step,png,dxf,json,csv,spec,drawing")
    with zipfile.ZipFile(out / "WW-0417-request.zip") as archive:
        assert archive.namelist() == left
    assert sorted(p.name for p in (out / "WW-0417-request").iterdir()) == left
    code, _ = asked(tmp_path, "--without", "glitter")
    assert code == 2
    assert "glitter" in capsys.readouterr().err


def test_two_cylinders_have_a_folder_each_in_one_package(tmp_path):
    other = tmp_path / "two.toml"
    other.write_text(SPEC.replace("WW-0417", "WW-0418"), encoding="utf-8")
    first, out = tmp_path / "one.toml", tmp_path / "out"
    first.write_text(SPEC, encoding="utf-8")
    assert main(["request", str(first), str(other), "--without", LIGHT, "-o", str(out)]) in (0, 1)
    with zipfile.ZipFile(out / "WW-0417-and-1-more-request.zip") as archive:
        folders = {n.split("/")[0] for n in archive.namelist()}
    assert folders == {"WW-0417", "WW-0418"}


def test_a_zip_that_is_none_of_ours_is_not_written_over(tmp_path, capsys):
    out = tmp_path / "out"
    out.mkdir()
    (out / "WW-0417-request.zip").write_bytes(b"my own")
    code, _ = asked(tmp_path)
    assert code == 2
    assert "--force" in capsys.readouterr().err
    assert (out / "WW-0417-request.zip").read_bytes() == b"my own"


@pytest.mark.parametrize("named", [True, False])
def test_a_form_that_came_back_is_read_with_and_without_the_spec(named, tmp_path, capsys):
    _, out = asked(tmp_path)
    form = (out / "WW-0417-request" / "WW-0417-form.pdf").read_bytes()
    back = tmp_path / "back.pdf"
    back.write_bytes(by_pypdf(form, {"quote.builder": "Tarn Works", "rod_mount.gap": "1 5/8",
                                     "rod_mount.pin.tolerance": "h9"}))  # fmt: skip
    capsys.readouterr()
    specs = [str(tmp_path / "winch.toml")] if named else []
    code = main(["request", *specs, "--answers", str(back), "-o", str(out), "--json"])
    (row,) = json.loads(capsys.readouterr().out)["builders"]
    assert code == 1
    assert row["changed"] == [
        {"field": "rod_mount.gap", "asked": "1.5", "answered": "1 5/8", "meets_machine": True}
    ]
    assert row["answered"][0]["value"] == "h9"
    assert row["compared"] == "fits with one job: rod washers 1/16 each side"
    assert (out / "WW-0417-Tarn-Works.toml").read_text(encoding="utf-8") == row["spec"]
    assert main(["request", "--answers", str(back), "-o", str(out)]) == 2  # it is there already


def test_a_printed_form_a_picture_and_no_pdf_are_told_apart(tmp_path, capsys):
    _, out = asked(tmp_path)
    drawing = out / "WW-0417-request" / "WW-0417.pdf"
    broken = tmp_path / "broken.pdf"
    broken.write_bytes(b"%PDF-1.7\n nothing more")
    for path, words in ((drawing, "no quote form"), (broken, "damaged"), (tmp_path / "no.pdf", "")):
        capsys.readouterr()
        assert main(["request", "--answers", str(path), "-o", str(out)]) == 2
        assert words in capsys.readouterr().err

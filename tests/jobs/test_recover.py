"""The spec comes back out of what was made from it, or it is said why not, and what would do.

Other programs take part where they are installed: pypdf, qpdf and poppler put PDFs together and
lock them as a person would.
"""

import json
import shutil
import subprocess
from hashlib import sha256

import pytest
from pypdf import PdfReader, PdfWriter

from drafting.cli import main
from drafting.spec.bundle import Carried, bundle
from tests.jobs.test_outputs import SPEC

OTHER = SPEC.replace("HB-0999", "HB-1000").replace("Weir lift", "Press ram")


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Every kind of output of two specs, and one JSON of both."""
    folder = tmp_path_factory.mktemp("made")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        for stem, text in (("a", SPEC), ("b", OTHER)):
            (folder / f"{stem}.toml").write_text(text, encoding="utf-8")
        formats = "pdf,svg,dxf,step,glb,json,png,csv,html"
        assert main(["draw", "a.toml", "b.toml", "-f", formats, "-o", "."]) in (0, 1)
    rows = [json.loads((folder / f"{n}.json").read_text()) for n in ("HB-0999", "HB-1000")]
    both = {"schema": 1, "cylinders": [r["cylinders"][0] for r in rows]}
    (folder / "both.json").write_text(json.dumps(both), encoding="utf-8")
    return folder


def back(path, tmp_path, *more):
    code = main(["new", str(tmp_path / "back.toml"), "--force", "--from", str(path), *more])
    file = tmp_path / "back.toml"
    return code, file.read_text(encoding="utf-8") if file.exists() else ""


def merged_by_pypdf(folder, out):
    writer = PdfWriter()
    for name in ("HB-0999", "HB-1000"):
        writer.append(folder / f"{name}.pdf")
    writer.write(out)


def merged_by_qpdf(folder, out):
    files = [folder / f"{n}.pdf" for n in ("HB-0999", "HB-1000")]
    subprocess.run(["qpdf", "--empty", "--pages", *files, "--", out], check=True)


def merged_by_poppler(folder, out):
    files = [folder / f"{n}.pdf" for n in ("HB-0999", "HB-1000")]
    subprocess.run(["pdfunite", *files, out], check=True)


def both_in_json(folder, out):
    out.with_suffix(".json").write_bytes((folder / "both.json").read_bytes())


@pytest.mark.parametrize(
    ("join", "needs", "suffix"),
    [(merged_by_pypdf, "", ".pdf"), (merged_by_qpdf, "qpdf", ".pdf"),
     (merged_by_poppler, "pdfunite", ".pdf"), (both_in_json, "", ".json")],
)  # fmt: skip
def test_several_are_named_and_one_is_chosen(join, needs, suffix, made, tmp_path, capsys):
    if needs and not shutil.which(needs):
        pytest.skip(f"{needs} is not installed")
    join(made, tmp_path / "all.pdf")
    path = tmp_path / f"all{suffix}"
    assert back(path, tmp_path) == (2, "")
    said = capsys.readouterr().err
    assert 'HB-0999 "Weir lift"' in said
    assert 'HB-1000 "Press ram"' in said
    assert "--name" in said
    assert back(path, tmp_path, "--name", "HB-1000") == (0, OTHER)
    assert back(path, tmp_path, "--name", "weir LIFT") == (0, SPEC)
    assert back(path, tmp_path, "--name", "HB-7")[0] == 2


def test_one_page_taken_out_still_carries_it(made, tmp_path):
    pages = PdfReader(made / "HB-0999.pdf").pages
    for page in (pages[0], pages[-1]):
        writer = PdfWriter()
        writer.add_page(page)
        writer.write(tmp_path / "page.pdf")
        assert back(tmp_path / "page.pdf", tmp_path) == (0, SPEC)


def test_name_without_from_is_refused(tmp_path):
    assert main(["new", str(tmp_path / "x.toml"), "--name", "HB-1"]) == 2


def test_an_older_drawing_among_several_is_the_one_of_that_number(made, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "b.toml").write_text(OTHER.replace("stroke = 320", "stroke = 330"))
    both = str(made / "both.json")
    assert main(["draw", "b.toml", "-f", "json", "--against", both]) in (0, 1)
    entry = json.loads((tmp_path / "output" / "HB-1000.json").read_text())["cylinders"][0]
    assert [c["name"] for c in entry["changes"]][:1] == ["cylinder.stroke"]


def test_the_hash_is_over_the_file_and_over_the_defaults_too():
    """SHA-256 by the standard library, over the bytes that an editor writes with a mark too."""
    plain, marked = sha256(b"a = 1\n").hexdigest(), sha256(b"\xef\xbb\xbfa = 1\n").hexdigest()
    shop = sha256(b"b = 2\n").hexdigest()
    for own in (plain, marked, ""):
        assert Carried("a = 1\n", own).untouched
    assert not Carried("a = 2\n", plain).untouched
    whole = bundle("a = 1\n", "drafting-shop.toml", "b = 2\n")
    assert Carried(whole, sha256(f"{plain} {shop}".encode()).hexdigest()).untouched
    assert not Carried(whole, plain).untouched


@pytest.mark.parametrize("suffix", [".json", "-retracted.step", ".glb"])
def test_a_spec_that_was_changed_inside_a_file_is_told(suffix, made, tmp_path, capsys):
    data = (made / f"HB-0999{suffix}").read_bytes()
    changed = data.replace(b"stroke = 320", b"stroke = 340")
    assert changed != data
    path = tmp_path / f"old{suffix}"
    path.write_bytes(data)
    assert back(path, tmp_path) == (0, SPEC)
    assert "hash" not in capsys.readouterr().err
    path.write_bytes(changed)
    assert back(path, tmp_path)[0] == 1
    assert "does not go with the hash" in capsys.readouterr().err


@pytest.mark.parametrize("suffix", [".svg", ".dxf", ".pdf", ".png", ".csv", ".html"])
def test_another_hash_beside_the_spec_is_told(suffix, made, tmp_path, capsys):
    data = (made / f"HB-0999{suffix}").read_bytes()
    own = sha256(SPEC.encode()).hexdigest().encode()
    if suffix == ".png":
        data = png_with_another_hash(data, tmp_path)
    else:
        assert own in data
        data = data.replace(own, b"0" * 64)
    path = tmp_path / f"old{suffix}"
    path.write_bytes(data)
    assert back(path, tmp_path) == (1, SPEC)
    assert "does not go with the hash" in capsys.readouterr().err


def png_with_another_hash(data, tmp_path):
    from io import BytesIO

    from PIL import Image
    from PIL.PngImagePlugin import PngInfo

    picture = Image.open(BytesIO(data))
    picture.load()
    told = PngInfo()
    for key, words in picture.text.items():
        told.add_itxt(key, "0" * 64 if key == "input_sha256" else words)
    out = BytesIO()
    picture.save(out, "PNG", pnginfo=told)
    return out.getvalue()


ALL = [".pdf", ".svg", ".dxf", "-retracted.step", ".glb", ".json", ".png", ".html"]


@pytest.mark.parametrize("suffix", ALL)
def test_a_file_that_is_cut_short_says_so(suffix, made, tmp_path, capsys):
    data = (made / f"HB-0999{suffix}").read_bytes()
    path = tmp_path / f"old{suffix}"
    path.write_bytes(data[:300])
    assert back(path, tmp_path) == (2, "")
    assert "is cut short" in capsys.readouterr().err


@pytest.mark.parametrize("suffix", ALL)
def test_an_empty_file_says_so(suffix, tmp_path, capsys):
    path = tmp_path / f"old{suffix}"
    path.write_bytes(b"")
    assert back(path, tmp_path) == (2, "")
    said = capsys.readouterr().err
    assert "is empty" in said
    assert "copy it again" in said


@pytest.mark.parametrize("bits", ["40", "128", "256"])
def test_a_locked_pdf_says_so(bits, made, tmp_path, capsys):
    if not shutil.which("qpdf"):
        pytest.skip("qpdf is not installed")
    path = tmp_path / "locked.pdf"
    weak = ["--allow-weak-crypto"] if bits != "256" else []
    lock = ["--encrypt", "secret", "other", bits, "--"]
    subprocess.run(["qpdf", *weak, *lock, made / "HB-0999.pdf", path], check=True)
    assert back(path, tmp_path) == (2, "")
    said = capsys.readouterr().err
    assert "locked with a password" in said
    assert "save it without one" in said


def test_a_file_whose_spec_another_program_dropped_says_so(made, tmp_path, capsys):
    import ezdxf

    writer = PdfWriter()
    writer.add_blank_page(100, 100)
    writer.write(tmp_path / "plain.pdf")
    ezdxf.new().saveas(tmp_path / "plain.dxf")
    (tmp_path / "plain.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg"></svg>')
    for suffix in (".pdf", ".dxf", ".svg"):
        assert back(tmp_path / f"plain{suffix}", tmp_path) == (2, "")
        said = capsys.readouterr().err
        assert "carries no spec" in said
        assert "input_sha256" in said
        assert len(said.splitlines()) == 1, "no words of a library"


def test_the_foot_of_the_data_sheet_has_the_beginning_of_the_hash(made):
    pages = PdfReader(made / "HB-0999.pdf").pages
    words = "".join(page.extract_text() for page in pages)
    assert f"Input {sha256(SPEC.encode()).hexdigest()[:8]}" in words

"""The main job end to end, through the real files: sizes come back from DXF, STEP and JSON.

Readers: ezdxf for the DXF (its own measuring of a DIMENSION), the OCP kernel for the STEP, pypdf
for the PDF, the standard library for SVG and JSON.
"""

import json
import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import ezdxf
import pytest
from pypdf import PdfReader

from drafting.cli import main

ROOT = Path(__file__).parents[2]
SPECS = sorted((ROOT / "specs").glob("*.toml"))
LIGHT = "svg,pdf,dxf,json"


def drawn(path, folder, formats=LIGHT):
    code = main(["draw", str(path), "--formats", formats, "-o", str(folder)])
    assert code in (0, 1)
    name = next(p.stem for p in folder.glob("*.json"))
    document = json.loads((folder / f"{name}.json").read_text(encoding="utf-8"))
    return name, document["cylinders"][0]


@pytest.mark.parametrize("path", SPECS, ids=lambda p: p.stem)
def test_every_sample_draws_and_its_dimensions_are_true(path, tmp_path):
    name, entry = drawn(path, tmp_path)
    doc = ezdxf.readfile(tmp_path / f"{name}.dxf")
    audit = doc.audit()
    assert not audit.errors
    assert not audit.fixes
    unit = 25.4 if doc.units == ezdxf.units.IN else 1.0
    measured = [abs(d.get_measurement()) * unit for d in doc.modelspace().query("DIMENSION")]
    for key in ("stroke_mm", "retracted_mm", "extended_mm"):
        assert any(m == pytest.approx(entry["lengths"][key], abs=1e-6) for m in measured), key
    sizes = {v["name"]: v.get("value_mm") for v in entry["values"]}
    for field in ("cylinder.bore", "cylinder.rod", "cylinder.barrel_outside"):
        assert any(m == pytest.approx(sizes[field], abs=1e-6) for m in measured), field
    codes = {f["code"] for f in entry["findings"]}
    drawing = {
        "sheet-text-on-text",
        "sheet-line-through-text",
        "sheet-outside-frame",
        "sheet-missing-size",
    }
    assert codes & {*drawing, "sheet-label-unlike-size", "sheet-dimension-lines-crossing"} == set()


def test_the_sheet_has_its_true_paper_size_everywhere(tmp_path):
    name, _ = drawn(ROOT / "specs" / "weir-gate.toml", tmp_path)
    svg = ET.parse(tmp_path / f"{name}.svg").getroot()
    wide, high = (float(svg.get(k).removesuffix("mm")) for k in ("width", "height"))
    page = PdfReader(tmp_path / f"{name}.pdf").pages[0].mediabox
    assert float(page.width) / 72 * 25.4 == pytest.approx(wide, abs=0.01)
    assert float(page.height) / 72 * 25.4 == pytest.approx(high, abs=0.01)


def holes_of_step(path, radius):
    """World x of every cylindrical face of a radius along Y, read with the kernel."""
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_Cylinder
    from OCP.STEPControl import STEPControl_Reader
    from OCP.TopAbs import TopAbs_FACE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    from drafting.solids.kernel_text import quiet_kernel

    reader = STEPControl_Reader()
    with quiet_kernel():
        reader.ReadFile(str(path))
        reader.TransferRoots()
    faces = TopExp_Explorer(reader.OneShape(), TopAbs_FACE)
    places = set()
    while faces.More():
        surface = BRepAdaptor_Surface(TopoDS.Face_s(faces.Current()))
        faces.Next()
        if surface.GetType() != GeomAbs_Cylinder:
            continue
        cylinder = surface.Cylinder()
        along_y = abs(cylinder.Axis().Direction().Y()) > 0.999999
        if along_y and abs(cylinder.Radius() - radius) < 1e-6:
            places.add(round(cylinder.Location().X(), 6))
    return sorted(places)


def test_pins_of_the_step_stand_at_both_lengths(tmp_path):
    name, entry = drawn(ROOT / "specs" / "weir-gate.toml", tmp_path, "step,json")
    for state in ("retracted", "extended"):
        places = holes_of_step(tmp_path / f"{name}-{state}.step", 1.766 * 12.7)
        assert places == pytest.approx([0.0, entry["lengths"][f"{state}_mm"]], abs=1e-6)


def test_two_specs_of_one_name_are_refused_and_nothing_is_written(tmp_path, capsys):
    text = (ROOT / "specs" / "weir-gate.toml").read_text(encoding="utf-8")
    for stem in ("a", "b"):
        (tmp_path / f"{stem}.toml").write_text(text, encoding="utf-8")
    out = tmp_path / "out"
    files = [str(tmp_path / "a.toml"), str(tmp_path / "b.toml")]
    assert main(["draw", *files, "-o", str(out), "--json"]) == 2
    assert not out.exists()
    errors = json.loads(capsys.readouterr().out)["errors"]
    assert [e["code"] for e in errors] == ["same-name"]


def test_one_wrong_spec_among_several_writes_nothing(tmp_path, capsys):
    wrong = tmp_path / "wrong.toml"
    wrong.write_text('title = "x"\nunits = "in"\n[cylinder]\nbore = 3 1/2\n', encoding="utf-8")
    out = tmp_path / "out"
    right = str(ROOT / "specs" / "weir-gate.toml")
    assert main(["draw", right, str(wrong), "-o", str(out)]) == 2
    assert not out.exists()
    told = capsys.readouterr().err
    assert f"{wrong}:4:" in told
    assert "put" in told
    assert "quotes" in told


@pytest.mark.parametrize("suffix", ["svg", "pdf", "dxf", "json"])
def test_the_spec_comes_back_byte_for_byte(suffix, tmp_path):
    path = ROOT / "specs" / "log-grapple.toml"
    name, _ = drawn(path, tmp_path)
    back = tmp_path / "back.toml"
    assert main(["new", str(back), "--from", str(tmp_path / f"{name}.{suffix}")]) == 0
    assert back.read_bytes() == path.read_bytes()
    assert main(["new", str(back), "--from", str(tmp_path / f"{name}.{suffix}")]) == 2


def test_equal_input_gives_equal_bytes_under_any_hash_seed(tmp_path):
    found = []
    for seed in ("1", "77"):
        out = tmp_path / seed
        argv = ["draw", "specs/mill-sluice.toml", "-o", str(out), "--formats", LIGHT + ",step"]
        env = {**os.environ, "PYTHONHASHSEED": seed}
        run = subprocess.run(
            [sys.executable, "-m", "drafting", *argv], cwd=ROOT, env=env, capture_output=True
        )
        assert run.returncode in (0, 1), run.stderr
        found.append({p.name: p.read_bytes() for p in out.iterdir() if p.suffix != ".json"})
    assert found[0].keys() == found[1].keys()
    for name, data in found[0].items():
        assert data == found[1][name], name


def test_an_empty_folder_name_is_refused(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["draw", str(ROOT / "specs" / "weir-gate.toml"), "-o", ""]) == 2
    assert "--output" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())

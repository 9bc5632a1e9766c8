"""What is found by search is what the parsers find, and a file touched by others is left to them.

The parsers are the reference: the standard library's ElementTree, ezdxf and pypdf, by way of
``carriers.specs_in``.
"""

from io import BytesIO
from pathlib import Path

import pytest

from drafting.jobs import foreign
from drafting.jobs.carriers import specs_in
from drafting.jobs.draw import How, draw_one
from drafting.jobs.in_sight import spec_in_sight
from drafting.solids.carry_step import spec_strings, to_string

SPEC = Path(__file__).parents[2] / "specs" / "weir-gate.toml"
SUFFIXES = (".svg", ".dxf", ".pdf")


@pytest.fixture(scope="module")
def files():
    text = SPEC.read_text(encoding="utf-8").replace("mill pond", "müll ‘pond’ 'x'")
    return draw_one(text, How(("svg", "dxf", "pdf"))).files


def of(files, suffix):
    return next(data for name, data in files.items() if name.endswith(suffix))


def test_search_and_parser_agree_on_every_file(files):
    assert {Path(name).suffix for name in files} == set(SUFFIXES)
    for name, data in files.items():
        suffix = Path(name).suffix
        (parsed,) = specs_in(suffix, data)
        assert spec_in_sight(suffix, data) == parsed.text, name


def test_no_child_is_started_for_what_is_as_we_wrote_it(files, tmp_path, monkeypatch):
    monkeypatch.setattr(foreign, "in_child", lambda *a: pytest.fail("a child was started"))
    for name, data in files.items():
        (tmp_path / name).write_bytes(data)
    texts = foreign.carried_texts([tmp_path / name for name in files])
    assert all(isinstance(text, str) for text in texts.values())


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_a_file_cut_short_is_left_to_the_parser(files, suffix):
    data = of(files, suffix)
    assert spec_in_sight(suffix, data[: len(data) * 9 // 10]) is None


def test_pages_of_another_drawing_joined_to_ours_are_left_to_the_parser(files):
    from pypdf import PdfReader, PdfWriter

    ours = of(files, ".pdf")
    other = draw_one(SPEC.read_text(encoding="utf-8").replace("HB-0101", "HB-0999"), How(("pdf",)))
    for incremental in (False, True):
        writer = PdfWriter(BytesIO(ours), incremental=incremental)
        for page in PdfReader(BytesIO(of(other.files, ".pdf"))).pages:
            writer.add_page(page)
        out = BytesIO()
        writer.write(out)
        assert len(specs_in(".pdf", out.getvalue())) == 2
        assert spec_in_sight(".pdf", out.getvalue()) is None


def test_a_drawing_put_into_ours_is_left_to_the_parser(files):
    svg = of(files, ".svg")
    twice = svg.replace(b"</svg>", svg[svg.index(b"<metadata") : svg.index(b"</metadata>") + 11])
    assert spec_in_sight(".svg", twice + b"</svg>") is None
    assert spec_in_sight(".svg", svg.replace(b"<metadata", b"<!-- --><metadata")) is None
    dxf = of(files, ".dxf")
    record = dxf[dxf.index(b"AcDbXrecord") : dxf.index(b"  0\n", dxf.index(b"AcDbXrecord"))]
    assert spec_in_sight(".dxf", dxf.replace(record, record + b"  0\nXRECORD\n" + record)) is None


def test_a_step_header_needs_no_more_than_its_head():
    text = SPEC.read_text(encoding="utf-8")
    words = ",".join(map(to_string, spec_strings(text)))
    head = f"ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(({words}),'2;1');\nFILE_NAME('');\n"
    data = (head + "ENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n").encode("ascii")
    assert spec_in_sight(".step", data) == text
    assert spec_in_sight(".step", data[: len(head)]) is None

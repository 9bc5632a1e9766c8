"""The mechanism's page: all of it on paper, its sizes true, its positions where pins are."""

from dataclasses import replace
from io import BytesIO, StringIO
from math import hypot

import ezdxf
import pytest
from pypdf import PdfReader

from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import box
from drafting.drawing.sheet.sheet import Linear, Note
from drafting.drawing.write.writers import write
from drafting.fitting.fit import fit
from drafting.fitting.machine import read_machine
from drafting.fitting.page import mechanism
from drafting.fitting.suggest import suggest
from tests.fitting.machines import PAIRS, SPECS, cylinder, machine


@pytest.fixture(scope="module", params=PAIRS)
def drawn(request):
    m = read_machine(str(SPECS / "machines" / f"{request.param}.toml"))
    f = fit(cylinder(PAIRS[request.param]), replace(m, model=None))
    return f, mechanism(f)


def test_all_of_it_is_on_the_paper(drawn):
    _, sheet = drawn
    (view,) = sheet.views
    for mark in view.marks:
        b = box(mark.curve)
        x0, y0 = (view.at[i] + view.scale * b[i] for i in (0, 1))
        x1, y1 = (view.at[i] + view.scale * b[i + 2] for i in (0, 1))
        assert 10 <= x0 <= x1 <= sheet.width - 10, mark.name
        assert 10 <= y0 <= y1 <= sheet.height - 10, mark.name
    for note in (d for d in view.dimensions if isinstance(d, Note)):
        start = view.at[0] + view.scale * note.knee[0]
        assert start + max(width(t, 3.5) for t in note.texts) < sheet.width - 10
    for text in sheet.texts:
        assert 0 < text.at[1] < sheet.height


def test_sizes_are_true(drawn):
    f, sheet = drawn
    lengths = [d for d in sheet.views[0].dimensions if isinstance(d, Linear)]
    assert lengths
    for d in lengths:
        i = 0 if d.angle == 0 else 1
        assert abs(d.a[i] - d.b[i]) == pytest.approx(d.measure_mm)
    notes = " ".join(n.name for n in sheet.views[0].dimensions if isinstance(n, Note))
    assert "SHORTEST" in notes
    assert "LONGEST" in notes
    assert f.machine.title in sheet.meta["title"]


def test_the_three_positions_lie_between_the_pins(drawn):
    """The centre line of each position is as long as the pins are apart there."""
    f, sheet = drawn
    lines = [m.curve for m in sheet.views[0].marks if m.name == "between pins"]
    runs = sorted(hypot(c.b[0] - c.a[0], c.b[1] - c.a[1]) for c in lines)
    ps = [q.place.length for q in f.positions]
    assert runs[0] == pytest.approx(min(ps))
    assert runs[-1] == pytest.approx(max(ps))


def test_every_format_reads_back(drawn):
    f, sheet = drawn
    text = PdfReader(BytesIO(write(sheet, "pdf", "m").files["m.pdf"])).pages[0].extract_text()
    assert f.machine.title in text
    assert "SHORTEST" in text
    assert "Not a design approval" in text
    data = write(sheet, "dxf", "m").files["m.dxf"].decode()
    dimensions = ezdxf.read(StringIO(data)).modelspace().query("DIMENSION")
    assert len(dimensions) >= 2
    assert write(sheet, "svg", "m").files["m.svg"].startswith(b"<?xml")


def test_a_region_is_drawn_with_its_best():
    m = replace(read_machine(str(SPECS / "machines" / "wagon-tailboard.toml")), model=None)
    f = fit(cylinder("tailboard-lift"), m)
    marks = mechanism(f, suggest(f.subject, m)).views[0].marks
    assert sum(k.name == "region" for k in marks) > 10
    assert sum(k.name == "suggested" for k in marks) == 6


def test_distances_alone_give_a_page_too():
    text = 'title = "F"\nunits = "mm"\n[distance]\nclosest = 630\nfarthest = 930\n'
    sheet = mechanism(fit(cylinder("tailboard-lift"), machine(text)))
    assert sheet.views[0].marks

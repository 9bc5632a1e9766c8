"""The mechanism's pages: all of it on paper, its sizes true, its positions where pins are."""

import tempfile
from dataclasses import replace
from io import BytesIO, StringIO
from math import dist, hypot
from pathlib import Path

import ezdxf
import pytest
from pypdf import PdfReader

from drafting.drawing.sheet.on_paper import box
from drafting.drawing.sheet.sheet import Linear, Note
from drafting.drawing.sheet.strokes import Poly
from drafting.drawing.write.writers import write
from drafting.fitting.drawn.page import mechanism
from drafting.fitting.fit import fit
from drafting.fitting.machine import read_machine
from drafting.fitting.suggest import suggest
from drafting.fitting.travel import place
from tests.fitting.machines import PAIRS, SPECS, cylinder, machine


@pytest.fixture(scope="module", params=PAIRS)
def drawn(request):
    m = read_machine(str(SPECS / "machines" / f"{request.param}.toml"))
    f = fit(cylinder(PAIRS[request.param]), replace(m, model=None))
    return f, mechanism(f)


@pytest.fixture(scope="module")
def tailboard():
    """The tailboard with its machine's model: its narrow gap lies in the plane of the arm."""
    with tempfile.TemporaryDirectory() as keep:
        m = read_machine(str(SPECS / "machines" / "wagon-tailboard.toml"))
        f = fit(cylinder("tailboard-lift"), m, Path(keep))
    return f, mechanism(f)


def sheets(sheet):
    return (sheet, *sheet.following)


def test_all_of_it_is_on_the_paper(drawn):
    _, first = drawn
    for sheet in sheets(first):
        for view in sheet.views:
            for mark in view.marks:
                b = box(mark.curve)
                x0, y0 = (view.at[i] + view.scale * b[i] for i in (0, 1))
                x1, y1 = (view.at[i] + view.scale * b[i + 2] for i in (0, 1))
                assert 10 <= x0 <= x1 <= sheet.width - 10, mark.name
                assert 10 <= y0 <= y1 <= sheet.height - 10, mark.name
        for text in sheet.texts:
            assert 0 < text.at[0] < sheet.width
            assert 0 < text.at[1] < sheet.height


def test_sizes_are_true(drawn):
    """The two lengths between the pins are dimensioned along the cylinder, as far as they are."""
    f, sheet = drawn
    lengths = {d.name: d for d in sheet.views[0].dimensions if isinstance(d, Linear)}
    runs = [q.place.length for q in f.positions]
    for name, wanted in (("pins closed", min(runs)), ("pins open", max(runs))):
        assert lengths[name].measure_mm == pytest.approx(wanted)
        assert dist(lengths[name].a, lengths[name].b) == pytest.approx(wanted)
    notes = " ".join(n.name for n in sheet.views[0].dimensions if isinstance(n, Note))
    assert "BASE PIN" in notes
    assert "ROD PIN" in notes
    assert f.machine.title in sheet.meta["title"]


def test_the_three_positions_lie_between_the_pins(drawn):
    """The centre line of each position is as long as the pins are apart there."""
    f, sheet = drawn
    lines = [m.curve for m in sheet.views[0].marks if m.name == "between pins"]
    runs = sorted(hypot(c.b[0] - c.a[0], c.b[1] - c.a[1]) for c in lines)
    ps = [q.place.length for q in f.positions]
    assert runs[0] == pytest.approx(min(ps))
    assert runs[-1] == pytest.approx(max(ps))


def test_words_stand_on_no_other_words(drawn):
    """Boxes round what is said on leaders do not meet: the placer found room for each."""
    _, sheet = drawn
    k = sheet.views[0].scale
    boxes = []
    for d in sheet.views[0].dimensions:
        if isinstance(d, Note):
            wide = max(len(t) for t in d.texts) * 2.0 / k
            x0 = d.knee[0] if d.shelf == "right" else d.knee[0] - wide
            boxes.append((x0, d.knee[1], x0 + wide, d.knee[1] + 5.0 * len(d.texts) / k))
    for n, a in enumerate(boxes):
        for b in boxes[n + 1 :]:
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def test_the_curve_of_force_ends_where_the_positions_say(drawn):
    """The axis is read back from its own numbers: first and last point of the curve."""
    f, first = drawn
    sheet = first.following[0]
    axis = [t for t in sheet.texts if t.name == "axis" and t.anchor == "end"]
    count = next(n for n in range(1, len(axis)) if axis[n].at[1] < axis[n - 1].at[1])
    top = axis[:count]  # the plot of forces comes first, from its lowest line up
    (x, y0), v0 = top[0].at, float(top[0].text.replace(",", ""))
    (_, y1), v1 = top[-1].at, float(top[-1].text.replace(",", ""))
    assert x < sheet.width / 2
    (curve,) = [m.curve for m in sheet.marks if m.name == "curve asked, at rest"]
    assert isinstance(curve, Poly)
    unit = 4.4482216152605 if f.machine.units == "in" else 1000.0
    for p, q in ((curve.points[0], f.positions[0]), (curve.points[-1], f.positions[-1])):
        read = v0 + (p[1] - 1.2 - y0) / (y1 - y0) * (v1 - v0)
        assert read == pytest.approx(q.still / unit, abs=abs(v1 - v0) * 0.002)


def test_every_format_reads_back(drawn):
    f, sheet = drawn
    pages = PdfReader(BytesIO(write(sheet, "pdf", "m").files["m.pdf"])).pages
    assert len(pages) == 2
    text = pages[0].extract_text()
    assert f.machine.title in text
    assert "CLOSED" in text
    assert "Not a design approval" in text
    assert "OVER THE TRAVEL" in pages[1].extract_text()
    files = write(sheet, "dxf", "m").files
    dimensions = ezdxf.read(StringIO(files[min(files)].decode())).modelspace().query("DIMENSION")
    assert len(dimensions) >= 2
    # A size whose text stands beside it says where: programs that draw it anew ask for it.
    assert all(d.dxf.get("text_midpoint") is not None for d in dimensions)
    assert all(d.startswith(b"<?xml") for d in write(sheet, "svg", "m").files.values())


def test_a_narrow_gap_has_a_detail_that_dimensions_it(tailboard):
    """The barrel passes the cross beam at 65 degrees; the kernel's gap is that in the plane."""
    f, sheet = tailboard
    c = next(c for c in f.room.clearances if c.solid == "cross beam")
    view = next(v for v in sheet.views if v.name == "detail A")
    (gap,) = view.dimensions
    assert gap.measure_mm == pytest.approx(c.gap)
    assert dist(gap.a, gap.b) == pytest.approx(c.gap, abs=0.3)
    data = write(sheet, "dxf", "m").files["m.dxf"].decode()
    turned = ezdxf.read(StringIO(data)).modelspace().query("DIMENSION")
    assert [list(d.virtual_entities()) for d in turned]  # drawn anew, as other programs do
    # The beam's corner nearest to the barrel: 65 right, 190 down of the hinge, see make_models.
    assert min(dist(p, (65.0, -190.0)) for p in (gap.a, gap.b)) < 0.01
    # The other lies its outside's half from the line between the pins; that line by hand.
    p = place(f.machine.way, c.at)
    off = abs((65.0 - p.base[0]) * p.unit[1] - (-190.0 - p.base[1]) * p.unit[0])
    outside = f.subject.cylinder.value("cylinder.barrel_outside").value
    assert off - outside / 2 == pytest.approx(c.gap, abs=0.05)


def test_a_region_is_drawn_with_its_best():
    m = replace(read_machine(str(SPECS / "machines" / "wagon-tailboard.toml")), model=None)
    f = fit(cylinder("tailboard-lift"), m)
    last = mechanism(f, (suggest(f.subject, m),)).following[-1]
    marks = last.views[0].marks
    assert sum(k.name == "region" for k in marks) > 10
    assert sum(k.name == "suggested" for k in marks) == 6


def test_distances_alone_give_a_page_too():
    text = 'title = "F"\nunits = "mm"\n[distance]\nclosest = 630\nfarthest = 930\n'
    sheet = mechanism(fit(cylinder("tailboard-lift"), machine(text)))
    assert sheet.views[0].marks
    assert sheet.following == ()

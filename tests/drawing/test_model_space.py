"""Views in model space: whole and true, none over another, however the sheet shows them broken."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.drawing.compose.choose import compose
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.on_paper import at_place
from drafting.drawing.sheet.paper import on_paper, paper_box, windowed
from drafting.drawing.sheet.style import Style
from drafting.drawing.write.dxf.viewports import standing, whole
from drafting.model.load import checked, load

SLENDER = """title = "Trial"
units = "mm"
[cylinder]
bore = {bore}
rod = {rod}
stroke = {stroke}
retracted = {retracted}
clock_seen_from = "{seen}"
[body_mount]
mount = "cross tube"
pin = {pin}
width = {bore}
[rod_mount]
mount = "pin eye"
pin = {pin}
width = {bore}
turned = {turned}
[base_port]
thread = "G 1/4"
clock = {clock}
[drawing]
projection = "{projection}"
sheet = "{sheet}"
"""


@st.composite
def slender(draw):
    """A long cylinder, most often broken, with a rod end that is turned by no quarter."""
    bore = draw(st.sampled_from([40, 50, 63, 80]))
    stroke = bore * draw(st.integers(12, 25))
    return SLENDER.format(
        bore=bore,
        rod=bore // 2,
        stroke=stroke,
        retracted=stroke + 7 * bore,
        pin=bore * 2 // 5,
        seen=draw(st.sampled_from(["rod", "base"])),
        turned=draw(st.sampled_from([20, 35, 50])),
        clock=draw(st.sampled_from([12, 3, 6, 9])),
        projection=draw(st.sampled_from(["third", "first"])),
        sheet=draw(st.sampled_from(["auto", "A2", "A3"])),
    )


def in_model(sheet):
    """The box of every view in model space, with all that belongs to it."""
    unit = 1.0 if sheet.units == "mm" else 25.4
    style = Style()
    pages = [s.views for s in (sheet, *sheet.following)]
    for of_page in standing(pages, style, unit, sheet.height):
        for stand in of_page:
            for view in stand.views:
                box = paper_box(on_paper(whole(windowed(view)), style))
                ends = (
                    at_place(p, stand.shift, 1 / (view.scale * unit)) for p in (box[:2], box[2:])
                )
                low, high = ends
                yield view.name, (*low, *high)


def over(a, b):
    return a[0] < b[2] - 1e-6 and b[0] < a[2] - 1e-6 and a[1] < b[3] - 1e-6 and b[1] < a[3] - 1e-6


@settings(max_examples=25, deadline=None)
@given(text=slender())
def test_no_view_lies_over_another(text):
    sheet = compose(sheet_job(load(checked(text.encode()))))
    found = list(in_model(sheet))
    assert {"side", "extended"} <= {name for name, _ in found}
    assert [(a, b) for (a, p), (b, q) in combinations(found, 2) if over(p, q)] == []


def test_that_it_can_fail():
    assert over((0, 0, 2, 2), (1, 1, 3, 3))
    assert not over((0, 0, 2, 2), (2, 0, 3, 3))

"""A made-up sheet that holds every kind of thing a writer must know; no real part."""

from math import cos, pi, radians, sin

from drafting.drawing.sheet.sheet import Linear, Mark, Note, Round, Sheet, Text, View
from drafting.drawing.sheet.strokes import Arc, EllipseArc, Hatch, Line, Poly

SPEC = 'title = "Østervold sluice"\r\n# μ ½ 中文 "quotes" & <tags> %%c ^J \\U+00D8\tend\n\n\n'


def _box(x0, y0, x1, y1, role, name=""):
    c = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    return [Mark(Line(a, b), role, name) for a, b in zip(c, [*c[1:], c[0]], strict=True)]


def _side() -> View:
    """An eye with a pin hole, a tube with its section, a rod; 600 long."""
    pin = 40.0
    marks = [
        Mark(Arc((0, 0), pin / 2, 0, 2 * pi), "outline", "body_mount.pin"),
        Mark(Arc((0, 0), 45, radians(45), radians(315)), "outline", "body_mount"),
        Mark(Line((45 * cos(pi / 4), 45 * sin(pi / 4)), (60, 45 * sin(pi / 4))), "outline"),
        Mark(Line((45 * cos(pi / 4), -45 * sin(pi / 4)), (60, -45 * sin(pi / 4))), "outline"),
        *_box(60, -55, 420, 55, "outline", "barrel"),
        *_box(420, -17.5, 600, 17.5, "outline", "rod"),
        Mark(Line((60, 45), (420, 45)), "hidden", "bore"),
        Mark(Line((60, -45), (420, -45)), "hidden", "bore"),
        Mark(Line((-50, 0), (608, 0)), "centre", "axis"),
        Mark(Line((0, -50), (0, 50)), "centre", "body_mount.pin"),
        *_box(600, -17.5, 780, 17.5, "phantom", "rod")[:3],
        Mark(Line((560, 15), (600, 15)), "thread", "rod_mount.thread"),
        Mark(Line((560, -15), (600, -15)), "thread", "rod_mount.thread"),
        Mark(EllipseArc((120, 55), (20, 0), (0, 8), 0, pi), "outline", "port"),
        Mark(EllipseArc((380, 62), (6, 2), (-6, 18), 0.3, 2.4), "outline", "port"),
        Mark(
            Poly(tuple((200 + i, 55 - 6 * sin(i * pi / 40)) for i in range(41))),
            "outline",
            "saddle",
        ),
        Mark(Poly(((300, -60), (304, -20), (296, 20), (300, 60))), "break", "cut"),
    ]
    wall = (
        (
            Line((330, 45), (420, 45)),
            Line((420, 45), (420, 55)),
            Line((330, 55), (420, 55)),
            Line((330, 55), (330, 45)),
        ),
    )
    boss = (
        (Arc((450, 0), 17.5, -pi / 2, pi / 2), Line((450, 17.5), (450, -17.5))),
        (Arc((457, 0), 4, 0, 2 * pi),),
    )
    hatches = (
        Hatch("barrel", wall, 45, 6, tuple(((x, 45), (x + 10, 55)) for x in range(332, 410, 9))),
        Hatch("gland", boss, 135, 6, (((455, 12), (460, 7)), ((455, -6), (465, -10)))),
    )
    dims = (
        Linear(
            "retracted", (0, 0), (600, 0), 0, (300, -110), (300, -105), ("600", "[23.622]"), 600
        ),
        Linear(
            "barrel.length",
            (60, -55),
            (420, 55),
            0,
            (200, -85),
            (240, -80),
            ("360",),
            360,
            flag="D",
        ),
        Linear("barrel.outside", (420, -55), (420, 55), 90, (660, 0), (655, 0), ("Ø110",), 110),
        Linear(
            "rod.diameter", (600, -17.5), (600, 17.5), 90, (630, 0), (625, 40), ("Ø35",), 35, True
        ),
        Linear("gap", (420, 55), (428.5, 55), 0, (424, 90), (450, 95), ("(8.5)",), 8.5, True, True),
        Round(
            "body_mount.pin",
            "diameter",
            (0, 0),
            pin / 2,
            (20 * cos(2.2), 20 * sin(2.2)),
            (-60, 80),
            "left",
            ("Ø40 H9", "[1.575]"),
            pin,
            flag="D",
        ),
        Round(
            "body_mount.radius",
            "radius",
            (0, 0),
            45,
            (45 * cos(4), 45 * sin(4)),
            (-70, -70),
            "left",
            ("R45",),
            45,
        ),
        Note("port", (120, 63), (160, 100), "right", ("G 1/2", "12 o'clock {50% & more}")),
    )
    texts = (Text((560, 30), "A–A", 5, "middle", 0, True, "section"),)
    return View("side", "Side view", (90, 190), 0.4, tuple(marks), dims, hatches, texts)


def _detail(side: View) -> View:
    """The same marks through a window, at another scale."""
    dims = (
        Linear("detail.wall", (420, 45), (420, 55), 90, (435, 50), (432, 50), ("10",), 10),
        Linear("barrel.length", (60, 55), (420, 55), 0, (200, 70), (240, 72), ("360",), 360),
    )
    texts = (Text((400, 70), "X", 5), Text((0, 0), "outside", 5))
    return View(
        "detail-x",
        "Detail X",
        (-520, 0),
        1.5,
        side.marks,
        dims,
        side.hatches,
        texts,
        window=(375, 30, 440, 75),
    )


def sample(units: str = "mm", size: str = "A3") -> Sheet:
    """The whole sheet."""
    side = _side()
    if units == "in":
        side = _in_inches(side)
    marks = [
        *_box(20, 10, 410, 287, "frame"),
        *_box(230, 10, 410, 50, "table"),
        Mark(Line((230, 30), (410, 30)), "table"),
    ]
    texts = (
        Text((232, 44), "TITLE", 1.8),
        Text((232, 33), "Østervold sluice, gate 3 – ½ open", 5, "start", 0, True, "title"),
        Text((408, 13), "1:2.5", 3.5, "end", 0, False, "scale"),
        Text((408, 24), "Żaneta Łukasik · Ωμ · Юлия", 2.5, "end", name="by"),
        Text((232, 13), "Nguyễn 中文", 3.5, name="checked"),
        Text((15, 150), "100% %%c ^J \\P {x}", 2.5, "middle", 90),
        Text((232, 20), "   ", 3.5),
    )
    meta = {
        "title": "Gate cylinder",
        "number": "SG-0417",
        "revision": "B",
        "date": "2026-11-25",
        "tool": "drafting 0.1.0",
        "spec_text": SPEC,
        "input_sha256": "ab" * 32,
    }
    return Sheet(size, 420, 297, units, (side, _detail(side)), tuple(marks), texts, meta)


def _in_inches(side: View) -> View:
    """The same view with sizes printed in inches, the other unit in brackets."""
    from dataclasses import replace

    def shown(d):
        if isinstance(d, Note):
            return d
        inch = f"{d.measure_mm / 25.4:.3f}"
        sign = {"Ø": "Ø", "R": "R"}.get(d.texts[0][0], "")
        first = f"({sign}{inch})" if d.texts[0].startswith("(") else f"{sign}{inch}"
        return replace(d, texts=(first, f"[{d.measure_mm:g}]"))

    return replace(side, dimensions=tuple(shown(d) for d in side.dimensions))

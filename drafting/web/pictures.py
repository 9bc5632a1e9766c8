"""A small picture for each size of the form: the model's own lines, and the size marked on them.

What is drawn is the cylinder of the worksheet with these mounts, so that a picture is there before
any size is. Lines alone; their colours are the page's, by class.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import cos, hypot, inf, pi, sin

from drafting.drawing.dimension.assign import assign
from drafting.drawing.dimension.picture import Picture, explains
from drafting.drawing.project.project import project
from drafting.drawing.sheet.on_paper import Box, box, clip, points, union
from drafting.drawing.sheet.strokes import FROM_BASE, FROM_ROD, SIDE, TOP, Curve, Point2
from drafting.measuring.letters import both_sheets
from drafting.measuring.worksheet_sample import sample, shown
from drafting.model.cylinder import Cylinder
from drafting.settle.wishes import Callout, Length, Radius, Wish

FINE = 0.3
"""Chords leave a curve by no more than this (mm)."""
WHOLE = ("cylinder.retracted", "cylinder.extended", "cylinder.stroke")
"""What is seen on the whole cylinder; every other size on a part of it."""
NEAR = 80.0
"""How far a close-up of barrel and rod reaches from its size, each way (mm of the sample)."""
THIN = 0.8
"""A pin in its picture, as a share of its hole: so the two are told apart at a glance."""
THICK = 1.35
"""A bushing in its picture, as a share of its hole."""
HEAD = 0.05
"""An arrow head, as a share of the picture's longer side."""


def pictures(body: str, rod: str) -> dict[str, str]:
    """Give an SVG element by field: for every size of a cylinder with these mounts, and the mounts.

    That of a mount (``body_mount.mount``) shows it from the side and from above, without a size;
    that of an hour is seen from the rod end, and under its name with ``@base`` from the base end.
    """
    c = sample(body, rod)
    closed = explains(project(c.parts, SIDE), c.parts)
    opened = project(c.at(c.lengths.stroke), SIDE, hidden=False)
    looks = (
        Picture("side", "", SIDE, "retracted", closed),
        Picture("top", "", TOP, "retracted", project(c.parts, TOP)),
        Picture("end", "", FROM_ROD, "retracted", project(c.parts, FROM_ROD, hidden=False)),
        Picture("extended", "", SIDE, "extended", opened, c.lengths.stroke),
    )
    out = {f"{end}_mount.mount": _mount(c, end, looks[:2]) for end in ("body", "rod")}
    seen = _hours(looks[2])
    base = Picture("end", "", FROM_BASE, "retracted", project(c.parts, FROM_BASE, hidden=False))
    for table in ("base_port", "rod_port", "body_mount"):
        out |= {f"{table}.clock": seen, f"{table}.clock@base": _hours(base)}
    out["cylinder.clock_seen_from"] = _both_ends(looks[0])
    sizes = shown(c)
    # A pin, and a bushing that this sample has not, are drawn in and round their hole.
    by_hole = {
        f"{end}_mount.{n}": sizes[f"{end}_mount.hole"]
        for end in ("body", "rod")
        for n in ("pin", "bushing")
        if f"{end}_mount.hole" in sizes
    }
    for field, wish in (by_hole | sizes).items():
        if choices := assign([wish], looks):
            out[field] = _sized(c, field, choices[0].wish, choices[0].picture)
    return out


def _sized(c: Cylinder, field: str, wish: Wish, picture: Picture) -> str:
    at = _window(c, field, wish, picture)
    lines = [_lines(picture, at)]
    unit = max(at[2] - at[0], at[3] - at[1]) * HEAD
    look = picture.look
    if isinstance(wish, Callout):
        x, y = look.flat(wish.tip)
        lines.append(f'<circle class="size" cx="{_n(x)}" cy="{_n(-y)}" r="{_n(1.6 * unit)}"/>')
        return _svg(at, lines, unit)
    if isinstance(wish, Length):
        a, b = look.flat(wish.a), look.flat(wish.b)
        across = abs(look.flat(wish.direction)[0]) < 0.5
        ends, marks = _line(a, b, across, at, unit, inside=wish.form != "plain")
        lines += [marks, _arrow(ends[0], ends[1], unit), _arrow(ends[1], ends[0], unit)]
        return _svg(union([at, _round(ends, unit)]), lines, unit)
    centre = look.flat(wish.centre)
    radius = wish.radius if isinstance(wish, Radius) else wish.diameter / 2
    if field.endswith("_mount.pin"):
        radius *= 1.0 if wish.name == field else THIN
        lines.append(
            f'<circle class="pin" cx="{_n(centre[0])}" cy="{_n(-centre[1])}" r="{_n(radius)}"/>'
        )
    if field.endswith("_mount.bushing"):
        hole = c.value(f"{field.partition('.')[0]}.hole")
        assert hole is not None  # it sits in one
        inside = float(hole.value) / 2
        radius = radius if wish.name == field else THICK * inside
        rings = _round_track(centre, radius) + _round_track(centre, inside)
        lines.append(f'<path class="pin" fill-rule="evenodd" d="{rings}"/>')
    out = look.flat(wish.through) if isinstance(wish, Radius) else (centre[0] + radius, centre[1])
    start = centre if isinstance(wish, Radius) else (centre[0] - radius, centre[1])
    lines += [_path([start, out], "size"), _arrow(start, out, unit)]
    if not isinstance(wish, Radius):
        lines.append(_arrow(out, start, unit))
    return _svg(at, lines, unit)


def _line(
    a: Point2, b: Point2, across: bool, at: Box, unit: float, inside: bool
) -> tuple[tuple[Point2, Point2], str]:
    """Give where a dimension line runs, and it with its extension lines."""
    if across and inside:
        return ((a[0], a[1]), (a[0], b[1])), _path([(a[0], a[1]), (a[0], b[1])], "size")
    if across:
        near = at[0] if a[0] - at[0] < at[2] - a[0] else at[2]
        x = near - 1.5 * unit if near == at[0] else near + 1.5 * unit
        ends = ((x, a[1]), (x, b[1]))
    else:
        y = at[1] - 1.5 * unit
        ends = ((a[0], y), (b[0], y))
    extension = "".join(_path([p, q], "extension") for p, q in zip((a, b), ends, strict=True))
    return ends, extension + _path(ends, "size")


def _window(c: Cylinder, field: str, wish: Wish, picture: Picture) -> Box:
    """Give what of a look is shown with a size: an end, the place of a diameter, or all of it."""
    table = field.partition(".")[0]
    x0, y0, x1, y1 = picture.box
    if picture.name == "end" or field in WHOLE:
        return picture.box
    if table in ("body_mount", "rod_mount"):
        low, high = _span(c, table.partition("_")[0])
        return _seen(picture, (max(low, x0), y0, min(high, x1), y1))
    if isinstance(wish, Length):
        ends = [picture.look.flat(p)[0] for p in (wish.a, wish.b)]
        return _seen(picture, (max(min(ends) - NEAR, x0), y0, min(max(ends) + NEAR, x1), y1))
    x = picture.look.flat(wish.tip if isinstance(wish, Callout) else wish.centre)[0]
    return _seen(picture, (max(x - NEAR, x0), y0, min(x + NEAR, x1), y1))


def _span(c: Cylinder, end: str) -> tuple[float, float]:
    """Give from where to where along the axis a mount is shown, with some of what it sits on."""
    s, beyond = c.stations, 0.6 * c.stations.bore
    if end == "rod":
        return (s.rod_end - beyond, inf)
    base, _ = both_sheets(c.mounts["body"], c.mounts["rod"])
    return base.close_up or (-inf, s.closed_end + beyond)


def _seen(picture: Picture, window: Box) -> Box:
    """Give the box of what is seen in a window."""
    boxes = [box(k) for s in picture.visible for k in clip(s.curve, window)]
    return union(boxes) if boxes else window


def _mount(c: Cylinder, end: str, looks: Sequence[Picture]) -> str:
    """Draw a mount from the side, and below it from above."""
    low, high = _span(c, end)
    inner, around, down = [], [], 0.0
    for picture in looks:
        x0, y0, x1, y1 = picture.box
        at = _seen(picture, (max(low, x0), y0, min(high, x1), y1))
        lower = down - at[3]
        inner.append(f'<g transform="translate(0 {_n(-lower)})">{_lines(picture, at)}</g>')
        around.append((at[0], at[1] + lower, at[2], at[3] + lower))
        down += at[1] - at[3] - 0.2 * (at[3] - at[1])
    return _svg(union(around), inner, 0.0)


def _hours(picture: Picture) -> str:
    """Draw an end with the hours round it and a hand at 12, where the sample has its ports."""
    far = 1.15 * max(hypot(x, y) for x in picture.box[::2] for y in picture.box[1::2])
    unit = 2 * far * HEAD
    spokes = [(sin(k * pi / 6), cos(k * pi / 6), 1.0 if k % 3 else 2.0) for k in range(12)]
    ticks = "".join(
        _path([(far * x, far * y), ((far - long * unit / 2) * x, (far - long * unit / 2) * y)],
              "extension")
        for x, y, long in spokes
    )  # fmt: skip
    hand = [(0.0, picture.box[3]), (0.0, far)]
    marks = _path(hand, "size") + _arrow(hand[0], hand[1], unit)
    return _svg((-far, -far, far, far), [_lines(picture, picture.box), ticks, marks], unit)


def _both_ends(picture: Picture) -> str:
    """Draw the whole from the side, and from where one looks at either end."""
    x0, y0, x1, y1 = picture.box
    unit = (x1 - x0) * HEAD
    marks = []
    for start, tip in ((x0 - 5 * unit, x0 - unit), (x1 + 5 * unit, x1 + unit)):
        eye, end = (start, 0.0), (tip, 0.0)
        marks.append(_path([eye, end], "size") + _arrow(eye, end, 2 * unit))
    around = (x0 - 5 * unit, y0, x1 + 5 * unit, y1)
    return _svg(around, [_lines(picture, picture.box), *marks], unit)


def _round_track(centre: Point2, radius: float) -> str:
    """Give a circle as a track."""
    x, y, r = _n(centre[0]), _n(-centre[1]), _n(radius)
    return f"M{x} {y}m-{r} 0a{r} {r} 0 1 0 {_n(2 * radius)} 0a{r} {r} 0 1 0 -{_n(2 * radius)} 0z"


def _lines(picture: Picture, window: Box) -> str:
    curves = {True: [], False: []}  # type: dict[bool, list[Curve]]
    for s in picture.strokes:
        curves[s.visible] += clip(s.curve, window)
    return _path_of(curves[False], "hidden") + _path_of(curves[True], "line")


def _path_of(curves: Iterable[Curve], kind: str) -> str:
    track = "".join(_track(points(k, FINE)) for k in curves)
    return f'<path class="{kind}" d="{track}"/>' if track else ""


def _path(track: Iterable[Point2], kind: str) -> str:
    return f'<path class="{kind}" d="{_track(track)}"/>'


def _track(run: Iterable[Point2]) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(-y)}" for x, y in run)


def _arrow(start: Point2, tip: Point2, unit: float) -> str:
    dx, dy = tip[0] - start[0], tip[1] - start[1]
    far = hypot(dx, dy) or 1.0
    long = min(unit, 0.45 * far)
    u, v = dx / far * long, dy / far * long
    sides = [(tip[0] - u - k * v * 0.4, tip[1] - v + k * u * 0.4) for k in (1, -1)]
    return f'<path class="head" d="{_track([tip, *sides])}Z"/>'


def _round(ends: tuple[Point2, Point2], unit: float) -> Box:
    xs, ys = [p[0] for p in ends], [p[1] for p in ends]
    return (min(xs) - unit / 2, min(ys) - unit / 2, max(xs) + unit / 2, max(ys) + unit / 2)


def _svg(at: Box, inner: Iterable[str], unit: float) -> str:
    """Close a picture; it says nothing that the label does not, so a screen reader passes it by."""
    air = 0.03 * max(at[2] - at[0], at[3] - at[1]) + unit / 4
    x0, y0, x1, y1 = at[0] - air, -at[3] - air, at[2] + air, -at[1] + air
    frame = f"{_n(x0)} {_n(y0)} {_n(x1 - x0)} {_n(y1 - y0)}"
    return f'<svg viewBox="{frame}" aria-hidden="true">{"".join(inner)}</svg>'


def _n(value: float) -> str:
    return f"{value:.1f}".rstrip("0").rstrip(".")

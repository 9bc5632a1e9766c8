"""Plots over the travel: force asked against force there is, length, lever, speed, column."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from drafting.checks.bands import ON_COLUMN
from drafting.drawing.sheet.sheet import Mark, Role, Text
from drafting.drawing.sheet.strokes import Line, Point2, Poly
from drafting.fitting.column import held
from drafting.fitting.fit import Fit
from drafting.fitting.forces import Position, position
from drafting.fitting.machine import Distance
from drafting.fitting.travel import kind, stations
from drafting.records import dataclass
from drafting.told.short import figures

FINE = 96
BEYOND = 1.6
"""Curves are cut at so many times the greatest force there is: near a dead centre they rise on."""
SMALL = 2.5


@dataclass(frozen=True, slots=True)
class Curve:
    """A value over the travel: None where there is none; ``word`` stands at its end."""

    word: str
    value: Callable[[Position], float | None]
    role: Role = "dimension"


@dataclass(frozen=True, slots=True)
class Plot:
    """Curves of one unit. ``zero``: the axis begins there; ``high`` is its height in parts."""

    name: str
    unit: str
    curves: tuple[Curve, ...]
    zero: bool = False
    high: float = 1.0
    most: float | None = None


def plots(f: Fit) -> tuple[Plot, ...]:
    """Give the plots of an answer; those of which nothing is known are left out."""
    way, units = f.machine.way, f.machine.units
    if isinstance(way, Distance):
        return ()
    force, length = (1 / 4.4482216152605, 1 / 25.4) if units == "in" else (1e-3, 1.0)

    def of(name: str, sign: float = 1.0, k: float = force) -> Callable[[Position], float | None]:
        def value(q: Position) -> float | None:
            found = getattr(q, name)
            return None if found is None else sign * found * k

        return value

    own = f.subject.numbers.duty.safety_factor
    asked = ON_COLUMN.asked(own.value if own else None)

    def column(q: Position) -> float | None:
        return held(f.subject, q.place.length) / asked * force

    there = max((x for q in f.positions for x in (q.push, q.pull) if x), default=0.0) * force
    curves = [Curve("asked, at rest", of("still"), "outline")] if way.loads else []
    if f.machine.friction and way.loads:
        curves += [Curve("out", of("out")), Curve("in", of("back"))]
    if there:
        curves += [Curve("push there", of("push"), "hidden"),
                   Curve("pull there", of("pull", -1.0), "hidden")]  # fmt: skip
    if way.loads:
        curves.append(Curve(f"column / {asked:g}", column, "phantom"))
    turns = kind(way) == "deg"
    found = [
        Plot("FORCE", "lbf" if units == "in" else "kN", tuple(curves), True, 2.6,
             BEYOND * there if there else None),
        Plot("LENGTH", units, (
            Curve("between pins", lambda q: q.place.length * length, "outline"),
            Curve("closed", lambda _: f.subject.closed * length, "hidden"),
            Curve("open", lambda _: f.subject.open * length, "hidden"))),
        Plot("LEVER", units if turns else "share", (
            Curve("", lambda q: abs(q.place.arm) * (length if turns else 1.0), "outline"),), True),
    ]  # fmt: skip
    if any(q.speed_out or q.speed_back for q in f.positions):
        k = 1.0 if turns else length
        found.append(Plot("SPEED", "°/s" if turns else f"{units}/s", (
            Curve("out", of("speed_out", 1.0, k), "outline"),
            Curve("in", of("speed_back", 1.0, k), "hidden")), True,
            most=BEYOND * 2 * k * _middle([q.speed_out or 0.0 for q in f.positions])))  # fmt: skip
    return tuple(found)


def _middle(values: Sequence[float]) -> float:
    return sorted(values)[len(values) // 2]


def drawn(
    f: Fit, corner: Point2, wide: float, high: float, most: int | None = None
) -> tuple[list[Mark], list[Text]]:
    """Draw all plots below each other with one axis of the travel; ``corner`` is the upper left.

    The first ``most`` alone.
    """
    shown = plots(f)[:most]
    qs = tuple(position(f.subject, f.machine, p) for p in stations(f.machine.way, FINE))
    marks: list[Mark] = []
    texts: list[Text] = []
    parts, air = sum(p.high for p in shown), 7.0
    x0, y = corner[0] + 34.0, corner[1]
    run = wide - 34.0 - 30.0
    for n, plot in enumerate(shown):
        tall = (high - 8.0 - air * len(shown)) * plot.high / parts
        box = (x0, y - tall, x0 + run, y)
        last = n == len(shown) - 1
        for item in _one(f, plot, qs, box, last):
            (texts if isinstance(item, Text) else marks).append(item)  # type: ignore[arg-type]
        y -= tall + air
    return marks, texts


def _one(
    f: Fit, plot: Plot, qs: Sequence[Position], box: tuple[float, float, float, float], last: bool
) -> Iterator[Mark | Text]:
    x0, y0, x1, y1 = box
    low, high = _range(plot, qs)
    steps = _steps(low, high, max(2, int((y1 - y0) / 9)))
    low, high = min(low, steps[0]), max(high, steps[-1])
    ats = [q.place.at for q in qs]

    def at(a: float, v: float) -> Point2:
        return (x0 + (x1 - x0) * (a - ats[0]) / (ats[-1] - ats[0]),
                y0 + (y1 - y0) * (v - low) / (high - low))  # fmt: skip

    yield Text((x0 - 33.0, y1 - 3.0), plot.name, 2.5, bold=True, name="plot")
    yield Text((x0 - 33.0, y1 - 7.0), plot.unit, SMALL, name="plot")
    for v in steps:
        y = at(ats[0], v)[1]
        role: Role = "dimension" if v == 0 and low < 0 else "hair"
        yield Mark(Line((x0, y), (x1, y)), role, "grid")
        yield Text((x0 - 2.0, y - 1.2), figures(v), SMALL, "end", name="axis")
    by_mm = kind(f.machine.way) == "mm"
    mm = 25.4 if by_mm and f.machine.units == "in" else 1.0
    for v in _steps(ats[0] / mm, ats[-1] / mm, 8):
        if not ats[0] - 1e-9 <= v * mm <= ats[-1] + 1e-9:
            continue
        x = at(v * mm, low)[0]
        yield Mark(Line((x, y0), (x, y1)), "hair", "grid")
        if last:
            unit = f" {f.machine.units}" if by_mm else "°"
            yield Text((x, y0 - 4.5), f"{v:g}{unit}", SMALL, "middle", name="axis")
    yield Mark(Line((x0, y0), (x0, y1)), "dimension", "axis")
    yield Mark(Line((x0, y0), (x1, y0)), "dimension", "axis")
    placed: list[float] = []
    for curve in plot.curves:
        values = [curve.value(q) for q in qs]
        yield from _runs(values, ats, at, (low, high), curve)
        if curve.word and any(v is not None and low <= v <= high for v in values):
            yield _word(curve, values, ats, at, (low, high), placed)


def _runs(
    values: Sequence[float | None],
    ats: Sequence[float],
    at: Callable[[float, float], Point2],
    within: tuple[float, float],
    curve: Curve,
) -> Iterator[Mark]:
    run: list[Point2] = []
    for a, v in zip(ats, values, strict=True):
        if v is not None and within[0] <= v <= within[1]:
            run.append(at(a, v))
            continue
        if len(run) > 1:
            yield Mark(Poly(tuple(run)), curve.role, f"curve {curve.word}")
        run = []
    if len(run) > 1:
        yield Mark(Poly(tuple(run)), curve.role, f"curve {curve.word}")


def _word(
    curve: Curve,
    values: Sequence[float | None],
    ats: Sequence[float],
    at: Callable[[float, float], Point2],
    within: tuple[float, float],
    placed: list[float],
) -> Text:
    """Put a curve's word at its right end, clear of the words there."""
    seen = [(a, v) for a, v in zip(ats, values, strict=True)
            if v is not None and within[0] <= v <= within[1]]  # fmt: skip
    x, y = at(ats[-1], seen[-1][1])
    y -= 1.2
    while any(abs(y - other) < 3.2 for other in placed):
        y -= 0.4
    placed.append(y)
    return Text((x + 2.0, y), curve.word, SMALL, name="curve")


def _range(plot: Plot, qs: Sequence[Position]) -> tuple[float, float]:
    found = [v for c in plot.curves for q in qs if (v := c.value(q)) is not None]
    if plot.most is not None:
        found = [v for v in found if abs(v) <= plot.most]
    low, high = min(found, default=0.0), max(found, default=1.0)
    if plot.zero:
        low, high = min(low, 0.0), max(high, 0.0)
    return (low, high) if high > low else (low - 1.0, low + 1.0)


def _steps(low: float, high: float, most: int) -> list[float]:
    """Give round values from at or below ``low`` to at or above ``high``, at most so many."""
    size = 10.0 ** (len(str(int(max(high - low, 1e-9) * 1000))) - 5)
    for k in (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000):
        step = k * size
        first, last = int(low // step), -int(-high // step)
        if last - first <= most:
            return [step * n for n in range(first, last + 1)]
    return [low, high]

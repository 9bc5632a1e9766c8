"""What a mechanism's page says in words: the verdict, what was judged, what is to be done."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.drawing.dimension.labels import wrapped
from drafting.drawing.lists.strips import Cell, Strip, heading, row, stacked
from drafting.drawing.sheet.sheet import Text
from drafting.fitting.clearance import AT_THE_PIN
from drafting.fitting.fit import Fit
from drafting.fitting.lengths import say_at
from drafting.fitting.row import Row
from drafting.fitting.suggestion import Suggestions
from drafting.fitting.summary import facts, summary
from drafting.told.short import factor, quantity, size

CHAPTERS = {
    "lengths": "LENGTHS BETWEEN PINS",
    "ears": "EARS AND PINS",
    "force": "FORCE",
    "column": "COLUMN",
    "room": "ROOM",
}
PITCH, HEAD = 4.4, 3.5
NAME, COLUMN, GAP = 46.0, 23.0, 2.0
BAD = ("does not fit", "not known")


def headline(f: Fit, wide: float) -> Strip:
    """Give the verdict, and beneath it where it is tightest."""
    word, _, rest = summary(f).partition(": ")
    said = f"{word.upper()}: {rest}" if rest else word.upper()
    texts, y = [], 0.0
    for line in wrapped(said, HEAD, wide, True)[:3]:
        y += HEAD * 1.5
        texts.append(Text((0.0, -y), line, HEAD, bold=True, name="verdict"))
    for fact in facts(f):
        for line in wrapped(fact.replace(" deg", "°"), 2.5, wide):
            y += 4.2
            texts.append(Text((0.0, -y), line, 2.5, name="facts"))
    return Strip(y + 3.0, (), tuple(texts))


def chapters(f: Fit, wide: float, room: float) -> Strip:
    """Give what was judged, as much as there is room for: first without the whys, then cut.

    What sits in the ears and fits is named on one line; the report has it all.
    """
    for whys in (True, False):
        strips = [x for c in CHAPTERS for x in _chapter(f, c, wide, whys)]
        if sum(x.height for x in strips) <= room:
            return stacked(*strips)
    kept: list[Strip] = []
    for strip in strips:
        if sum(x.height for x in kept) + strip.height > room - 8.0:
            return stacked(*kept, _told("more in the report", wide), Strip(3.0))
        kept.append(strip)
    return stacked(*kept)


def jobs(f: Fit, wide: float) -> Strip:
    """Give the work list, numbered."""
    marks, texts, high = heading("JOBS" if f.jobs else "NO JOBS", "", wide, "jobs")
    strips = [Strip(high, marks, texts)]
    strips += [_listed(str(n), job.text, wide) for n, job in enumerate(f.jobs, 1)]
    return stacked(*strips)


def suggested(f: Fit, places: Suggestions, wide: float) -> Strip:
    """Give the best places for a pin with their margins."""
    pin = places.pin
    head = f"{pin.upper()} PIN"
    about = "hatched: where lengths, force and lever are met; best first"
    marks, texts, high = heading(head, about, wide, "places")
    strips = [Strip(high, marks, texts)]
    units = f.machine.units
    for n, one in enumerate(places.best, 1):
        x, y = (size(v, units) for v in one.place)
        strips.append(_listed(str(n), f"[{x}, {y}]: {one.why}", wide))
    if places.stock:
        about = "heads and mounts as long as these; judge one with check and fit"
        marks, texts, high = heading("STANDARD SIZES", about, wide, "stock")
        strips += [Strip(4.0), Strip(high, marks, texts)]
    for n, found in enumerate(places.stock, 1):
        sizes = " x ".join(size(v, units) for v in (found.bore, found.rod, found.stroke))
        x, y = (size(v, units) for v in found.place)
        left = quantity(found.margin, "mm", units)
        spare = f", {found.spare:.2f} times the force asked" if found.spare is not None else ""
        words = f"{sizes} {units}, base pin [{x}, {y}]: {left} of length left{spare}"
        strips.append(_listed(str(n), words, wide))
    return stacked(*strips)


def _listed(number: str, words: str, wide: float) -> Strip:
    """Give a numbered entry."""
    lines = wrapped(words, 2.5, wide - 7.0)
    own = [Text((0.0, -3.6), number, 2.5, bold=True, name="entry")]
    own += [Text((6.0, -3.6 - 3.7 * k), t, 2.5, name="entry") for k, t in enumerate(lines)]
    return Strip(3.7 * len(lines) + 0.8, (), tuple(own))


def _chapter(f: Fit, chapter: str, wide: float, whys: bool) -> list[Strip]:
    rows = _once([r for r in f.rows if r.chapter == chapter])
    if not rows:
        return []
    title = CHAPTERS[chapter]
    marks, texts, high = heading(title, "", wide, title.lower())
    heads = [
        Text((NAME + k * COLUMN + COLUMN - GAP, -2.5), word, 1.8, "end", name="head")
        for k, word in enumerate(("ASKED", "THERE", "LEFT"))
    ]
    heads.append(Text((NAME + 3 * COLUMN + 2.0, -2.5), "VERDICT", 1.8, name="head"))
    strips = [Strip(high, marks, (*texts, *heads))]
    quiet = [r for r in rows if r.verdict == "fits" and (
        chapter == "ears" or r.margin is None or r.words.startswith(AT_THE_PIN))]  # fmt: skip
    for r in rows:
        if r in quiet:
            continue
        strips.append(_row(f, r, wide))
        if whys and r.verdict in BAD:
            strips.append(_told("; ".join(x for x in (r.why, r.do) if x), wide))
    if quiet:
        strips.append(_told(f"fits: {', '.join(r.words for r in quiet)}", wide, 0.0))
    return [*strips, Strip(3.0)]


def _once(rows: Sequence[Row]) -> list[Row]:
    """Leave out what says the same of a solid that has the same name."""
    seen: dict[tuple[object, ...], Row] = {}
    for r in rows:
        seen.setdefault((r.words.partition("#")[0], r.verdict, r.margin), r)
    return list(seen.values())


def _row(f: Fit, r: Row, wide: float) -> Strip:
    numbers = {job: k for k, job in enumerate(f.jobs, 1)}
    told = [f"job {numbers[j]}" for j in r.jobs]
    verdict = ", ".join([r.verdict, *told]) if r.verdict == "fits with work" else r.verdict
    if r.at is not None and r.verdict in ("fits", "fits with work") and r.chapter != "lengths":
        verdict += f", at {_place(f, r.at)}"
    last = NAME + 3 * COLUMN + 2.0
    line = row((Cell(0.0, NAME - 1.0, r.words), Cell(last, wide - last, verdict)), PITCH, wide,
               "hair")  # fmt: skip
    cells = tuple(
        Text((NAME + k * COLUMN + COLUMN - GAP, -(PITCH + 2.5) / 2 - 0.1), words, 2.5, "end",
             name="row")
        for k, words in enumerate(_said(x, r, f.machine.units)
                                  for x in (r.machine, r.cylinder, r.margin))
    )  # fmt: skip
    return Strip(line.height, line.marks, (*line.texts, *cells))


def _told(words: str, wide: float, x: float = 6.0) -> Strip:
    lines = wrapped(words, 2.5, wide - x)
    texts = [Text((x, -3.2 - 3.5 * k), t, 2.5, name="why") for k, t in enumerate(lines)]
    return Strip(3.5 * len(lines) + 1.2, (), tuple(texts))


def _said(x: float | None, r: Row, units: str) -> str:
    if x is None:
        return ""
    if r.unit == "mm":
        return size(x, units)
    if r.unit == "deg":
        return f"{x:.1f}°"
    if r.unit == "":
        return factor(x) if x >= 0 else f"-{factor(-x)}"
    return quantity(x, {"n": "N", "mpa": "MPa"}[r.unit], units)


def _place(f: Fit, at: float) -> str:
    return say_at(f.machine, at).replace(" deg", "°")

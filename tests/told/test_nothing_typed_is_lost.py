"""What is typed stands on some page: its number as the sheet prints it, its words as they were.

Files by lot use the whole format. What a page says is read before anything is placed: the labels of
the wishes (which the inspector holds to be placed), the rows of the data sheet and of PORTS, notes
and title block. A number may be found where another size has it too: a field that is lost is found
missing in one of many files.
"""

from __future__ import annotations

import re
from collections.abc import Set
from functools import cache
from random import Random

import pytest

from drafting.drawing.dimension.asked import asked, is_spare
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import texts
from drafting.drawing.of_cylinder import sheet_job
from drafting.errors import Refused
from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load
from drafting.settle.tolerance import toleranced
from drafting.spec.given import Given
from drafting.spec.tolerance_sense import MARK, size_of
from drafting.told.printed import printed
from tests.whole_specs import spec

SHOWN = {
    "cylinder.construction": "tie rods and heads are seen",
    "cylinder.piston": "that of a ram is told as its action; sealed is what all others are",
    "cylinder.temperature": "told with its sign of degrees",
    "cylinder.clock_seen_from": "told in the note of the clocks",
    "duty.angle": "told with its sign of degrees",
    "rod_mount.turned": "told with its sign of degrees, as a pin of no front; drawn",
    "bolts.first_hole": "drawn in the end view",
    "seat": "told at the face that bears",
    "facing": "drawn, and said with the outlet's place",
    "clock": "told as an hour, from both ends",
    "fitting_clock": "drawn in phantom",
    "thread": "told as its standard names it",
    "position": "a word stands behind the mount; a place is dimensioned",
    "action": "told in the words of its row",
    "return": "told in the words of its row",
}
"""Fields of which the pages say what was typed in other words, or show it."""
HOW = ("drawing.", "origin", "units")
"""Tables that say how a sheet looks or where a size comes from."""
NUMBER = re.compile(r"[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+")
FILES = 120


def told(c: Cylinder, job: Job) -> list[str]:
    """Give every text of the pages; a size that a full view may do without does not count."""
    data = job.data
    held = [s for row in data.held for s in (row.base, row.rod) if s is not None]
    said = [*held, *(s for _, s in (*data.lengths, *data.data))]
    wishes = [w for w in asked(job).wishes if not is_spare(w.name, job)]
    pins = [w for pin in job.pins for w in pin.wishes]
    return [
        *(line for w in (*wishes, *pins) for line in texts(w, job)),
        *(t for s in said for t in (s.text, s.tolerance or "")),
        *(f"{r.thread} {' '.join(words for words, _ in r.sizes)}" for r in job.ports),
        *(r.label for r in data.held),
        *(label for label, _ in data.data),
        *data.notes,
        data.general,
        data.lengths_words,
        job.turning,
        *map(str, job.meta.values()),
    ]


def forms(name: str, size: float, job: Job) -> set[str]:
    """Give the ways to print a size, as in a table or for reference, and as typed."""
    units = {"in": size / 25.4, "mm": size}[job.dimensions[:2]]
    return {
        *(printed(name, size, job.dimensions, job.fractions, rough=r)[0] for r in (False, True)),
        *(f"{units:.{k}f}".lstrip("0") for k in range(5)),
        *(f"{units:.{k}f}" for k in range(5)),
    }


def is_told(c: Cylinder, job: Job, given: Given, pages: list[str]) -> bool:
    """Tell whether a typed value stands on the pages."""
    values = given.value if isinstance(given.value, tuple) else (given.value,)
    if MARK in given.name:
        size = c.spec.givens[size_of(given.name)].value
        nominal = float(size[0] if isinstance(size, tuple) else size)
        held = c.tolerances[size_of(given.name)]
        band = toleranced(nominal, held, job.dimensions[:2], job.fractions)[1].strip()
        return any(band.partition(" (")[0] in text for text in pages)
    if given.unit == "mm":
        numbers = {n for text in pages for n in NUMBER.findall(text)}
        return all(not v or forms(given.name, abs(float(v)), job) & numbers for v in values)
    flat = plain(" ".join(pages))
    return all(plain(given.typed if len(values) == 1 else str(v)) in flat for v in values)


def plain(text: str) -> str:
    return re.sub(r"\W+", "", text.lower())


def is_wanted(c: Cylinder, given: Given) -> bool:
    """Tell whether the pages must say a value; of a pin that is not supplied they say just that."""
    name = re.sub(r"\[\d+\]", "", given.name)
    table, _, field = name.partition(".")
    if isinstance(given.value, bool) or name.startswith(HOW) or name in SHOWN:
        return False
    if table in ("body_pin", "rod_pin"):
        return c.spec.get(f"{table}.supplied") is not None and any(
            p.supplied for p in c.pins if f"{p.end_of}_pin" == table
        )
    return field not in SHOWN or (field == "position" and given.unit == "mm")


def lost(c: Cylinder, without: Set[str] = frozenset()) -> list[str]:
    """Give the typed fields that no page says; texts with these numbers are taken off the pages."""
    job = sheet_job(c)
    pages = [t for t in told(c, job) if without.isdisjoint(NUMBER.findall(t))]
    wanted = [g for g in c.spec.givens.values() if is_wanted(c, g)]
    return [f"{g.name} = {g.typed}" for g in wanted if not is_told(c, job, g, pages)]


@cache
def settled(seed: int) -> Cylinder | None:
    try:
        return load(checked(spec(Random(seed)).encode(), "lot.toml"))
    except Refused:
        return None


@pytest.mark.parametrize("start", range(0, FILES, 30))
def test_what_is_typed_stands_on_some_page(start):
    found = {seed: c for seed in range(start, start + 30) if (c := settled(seed)) is not None}
    assert len(found) > 15
    assert {seed: said for seed, c in found.items() if (said := lost(c))} == {}


@pytest.mark.parametrize("field", ["rod_mount.offset", "rod_mount.ear", "cylinder.wall"])
def test_a_size_that_no_page_says_is_found(field):
    """Without the texts that say its number it is lost."""
    many = (c for seed in range(FILES) if (c := settled(seed)) is not None)
    c = next(c for c in many if c.spec.has(field))
    size = forms(field, float(c.spec.givens[field].value), sheet_job(c))
    assert any(said.startswith(f"{field} =") for said in lost(c, size))

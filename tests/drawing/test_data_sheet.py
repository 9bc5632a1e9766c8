"""The data sheet: what stands on it, and that nothing touches, leaves the margins or is cut.

Sizes of the paper: ISO 216 and ASME Y14.1. Margins, capitals and pitches are this project's own.
"""

import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.lists.data_sections import holding
from drafting.drawing.lists.data_sheet import LEFT, PITCHES, RIGHT, data_pages
from drafting.drawing.lists.pages import BETWEEN, balanced, paged
from drafting.drawing.lists.papers import PAPERS
from drafting.drawing.lists.strips import Cell, Section, Strip, row
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import box
from drafting.model.load import checked, load, read
from drafting.told.data_sheet import DataSheet, Held, Ruled, Said
from drafting.told.facts import outermost
from tests.drawing.sample_job import data, job
from tests.legal_specs import legal_specs

A3 = next(p for p in PAPERS if p.name == "A3")
B = next(p for p in PAPERS if p.name == "B")
ONCE_WRONG = sorted((Path(__file__).parent / "once_wrong").glob("*.toml"))
SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.toml"))
UNFIT = re.compile(r"\.toml|JSON|…|\.\.\.|\w_\w|\['|\bTrue\b|\bFalse\b|\d\.\d{5}")
"""What has no place on a customer's paper."""


def pages_of(text_or_path, tmp_path=None):
    path = text_or_path
    if tmp_path is not None:
        path = tmp_path / "trial.toml"
        path.write_text(text_or_path, encoding="utf-8")
    c = load(read(str(path)))
    made = sheet_job(c)
    return made, data_pages(made, B if c.spec.units == "in" else A3)


def texts(pages):
    return [t.text for p in pages for t in p.texts]


def ink(page):
    for mark in page.marks:
        yield mark.name, box(mark.curve)
    for t in page.texts:
        wide = width(t.text, t.height, t.bold)
        left = t.at[0] - wide * (t.anchor == "end") - wide / 2 * (t.anchor == "middle")
        yield t.text, (left, t.at[1], left + wide, t.at[1] + t.height)


def assert_whole(made, pages):
    said = " ".join(texts(pages))
    for page in pages:
        assert inspect(page) == ()
        for what, (x0, y0, x1, y1) in ink(page):
            assert x0 >= 20.0 - 1e-6, what
            assert x1 <= page.width - 14.0 + 1e-6, what
            assert y0 >= 6.0, what
            assert y1 <= page.height - 12.0 + 1e-6, what
    for line in (*made.data.notes, *made.data.cautions):
        assert " ".join(line.split()) in " ".join(said.split()), line
    assert not UNFIT.search(said), UNFIT.search(said)
    whole = set(texts(pages))
    for r in made.data.ruled:
        assert r.text in whole, r
        assert set(r.label.split()) <= set(said.split()), r


@pytest.mark.parametrize("spec", SPECS, ids=lambda p: p.stem)
def test_every_page_of_the_samples_is_whole(spec):
    made, pages = pages_of(spec)
    assert_whole(made, pages)
    assert sum("APPROVED FOR CUTTING" in t for t in texts(pages)) == 1


@settings(max_examples=40, deadline=None)
@given(spec=legal_specs())
def test_every_page_of_any_legal_spec_is_whole(tmp_path_factory, spec):
    made, pages = pages_of(spec, tmp_path_factory.mktemp("spec"))
    assert_whole(made, pages)


@pytest.mark.parametrize("spec", SPECS, ids=lambda p: p.stem)
def test_each_derived_size_stands_once(spec):
    made, _ = pages_of(spec)
    ruled = [n for r in made.data.ruled for n in r.names]
    assert len(ruled) == len(set(ruled))
    assert not set(ruled) & set(made.data.said)
    derived = {v.name for v in made.values if v.origin in ("derived", "table") and v.unit == "mm"}
    shown = {v.name for v in made.values if v.name in derived and v.value}
    assert shown <= {*ruled, *made.data.said}


def test_paper_is_upright_and_of_the_family_of_the_drawing():
    assert {(p.width, p.height) for p in data_pages(job(), A3)} == {(210.0, 297.0)}
    assert {(p.width, p.height) for p in data_pages(job(), B)} == {(215.9, 279.4)}


def test_a_size_without_a_tolerance_has_a_line_and_one_with_it_has_none():
    (page,) = data_pages(job(), A3)
    assert "H9" in texts([page])
    lines = [m for m in page.marks if m.name == "held.tolerance line"]
    assert len(lines) == 1


def test_what_a_small_drawing_left_out_is_told_once():
    (page,) = data_pages(job(), A3, ("body_mount.width", "cylinder.piston_length"))
    assert texts([page]).count("Base tube length") == 1
    assert texts([page]).count("Piston length") == 1
    assert "Base tube length" not in texts(data_pages(job(), A3))


def test_the_foot_names_the_input_by_which_the_original_is_found():
    meta = {"number": "HB-1", "title": "Trial", "input_sha256": "0123456789abcdef"}
    (page,) = data_pages(job(meta=meta), A3)
    assert "Input 01234567" in texts([page])


def test_long_titles_and_numbers_are_broken_but_never_cut():
    title = "Sluice gate lift of the upper pond with its spare " * 4
    meta = {"title": title.strip(), "number": "HARROW-BROOK-WORKS-" * 4 + "0900"}
    (page,) = data_pages(job(meta=meta), A3)
    assert inspect(page) == ()
    said = [t for t in page.texts if t.name in ("title", "number")]
    assert " ".join(t.text for t in said if t.name == "title") == title.strip()
    assert "".join(t.text for t in said if t.name == "number") == meta["number"]


def test_changes_never_stand_on_the_first_page():
    rows = (("Rod gap", "40 → 41"),)
    for count, expected in ((1, 2), (60, 2)):
        notes = tuple(f"Note {k}" for k in range(count))
        pages = data_pages(job(data=replace(data(), notes=notes, changes=rows)), A3)
        assert len(pages) == expected
        assert "40 → 41" not in texts(pages[:1])
        assert texts(pages[1:]).count("40 → 41") == 1
        assert sum("APPROVED FOR CUTTING" in t for t in texts(pages)) == 1


def section(rows, name="s"):
    return Section(Strip(10.0), tuple(Strip(5.0) for _ in range(rows)), Strip(0.0))


@given(counts=st.lists(st.integers(1, 60), min_size=1, max_size=6), tail=st.sampled_from([0, 20]))
def test_a_section_breaks_only_when_longer_than_a_page(counts, tail):
    room = 150.0
    sections = [section(n) for n in counts]
    pages = paged(sections, room, tail)
    for number, page in enumerate(pages):
        spare = tail if number == len(pages) - 1 else 0.0
        assert all(y + s.height <= room - spare + 1e-6 for y, s in page)
        assert page[0][1].height == 10.0
        for (y, s), (below, _) in pairwise(page):
            assert below - y - s.height == pytest.approx(0.0) or below - y - s.height == (
                pytest.approx(BETWEEN)
            )
    for k, s in enumerate(sections):
        on = [n for n, page in enumerate(pages) if any(t is s.head for _, t in page)]
        whole = s.height + (tail if k == len(sections) - 1 else 0) <= room
        assert len(on) == 1 or not whole
        shown = [t for page in pages for _, t in page if any(t is r for r in s.rows)]
        assert len(shown) == len(s.rows)


@given(counts=st.lists(st.integers(1, 60), min_size=1, max_size=6), tail=st.sampled_from([0, 20]))
def test_sharing_out_takes_no_more_pages_and_breaks_no_more_sections(counts, tail):
    room, sections = 150.0, [section(n) for n in counts]
    greedy, fair = paged(sections, room, tail), balanced(sections, room, tail)
    assert len(fair) == len(greedy)
    assert sum(len(page) for page in fair) <= sum(len(page) for page in greedy)
    if len(fair) == 2:  # the fullest is not fuller than it was
        deep = [max(page[-1][0] + page[-1][1].height for page in way) for way in (fair, greedy)]
        assert deep[0] <= deep[1] + 1e-6


def test_a_page_of_a_few_notes_is_shared_out():
    """The third page held seven notes and the box, three quarters of it white."""
    sections = [section(8), section(3), section(10), section(6), section(5)]
    pages = balanced(sections, 200.0, 20.0)
    assert [sum(s.height for _, s in page) for page in pages] == [135.0, 75.0]
    assert [sum(s.height for _, s in page) for page in paged(sections, 200.0, 20.0)] == [
        175.0,
        35.0,
    ]


def test_a_page_ends_early_only_where_the_next_one_would_be_nearly_white():
    """A first page stopped at its middle though the section behind it had room there."""
    sections = [section(9), section(4), section(15), section(8)]
    pages = balanced(sections, 200.0, 20.0)
    assert [len(page) for page in pages] == [len(page) for page in paged(sections, 200.0, 20.0)]
    assert sum(s.height for _, s in pages[0]) > 0.75 * 200.0


@pytest.mark.parametrize(
    "name", ["hatch-clamp", "bale-pusher", "eel-pass", "pulp-press", "gate-boom"]
)
def test_a_sheet_with_the_usual_rows_ends_on_its_page(name):
    """Rows that come a little nearer save a page of notes alone."""
    made, pages = pages_of(SPECS[0].parent / f"{name}.toml")
    assert len(pages) == 1
    assert_whole(made, pages)


@pytest.mark.parametrize("path", [*SPECS, *ONCE_WRONG], ids=lambda p: p.stem)
def test_no_label_and_no_size_is_torn(path):
    """'Port outlet from base / pin', '4 x Ø11/16 / [17.46]'."""
    made, pages = pages_of(path)
    whole = set(texts(pages))
    said = [s for h in made.data.held for s in (h.base, h.rod) if s and s.tolerance is not None]
    assert {h.label for h in made.data.held} | {s.text for s in said} <= whole
    rows = [t.text for p in pages for t in p.texts if t.name in ("held", "ruled", "data")]
    assert not [words for words in rows if words.startswith("[")]


def test_what_is_drawn_by_rule_stands_in_three_columns_where_it_saves_a_page():
    """A page of data was followed by half a one; the reasons are in the report."""
    made, (page,) = pages_of(SPECS[0].parent / "gate-boom.toml")
    ruled = {t.text: t.at for t in page.texts if t.name == "ruled"}
    labels = [r.label for r in made.data.ruled]
    assert len({ruled[label][0] for label in labels}) == 3
    assert not {r.reason for r in made.data.ruled if r.reason} & set(ruled)
    loose, (page,) = pages_of(SPECS[0].parent / "weir-gate.toml")
    assert {r.reason for r in loose.data.ruled if r.reason} <= set(texts([page]))


def test_of_two_crowded_pages_what_is_drawn_by_rule_fills_the_first():
    """The first page ended at its middle, the second had rows close and no reasons."""
    few = job()
    held = tuple(Held(f"Size {n}", Said(f"{n + 11}"), Said(f"{n + 43}")) for n in range(17))
    rows = tuple((f"Row {n}", Said(f"words {n}")) for n in range(58))
    ruled = tuple(Ruled((f"s.{n}",), f"Rule {n}", f"{n + 7}.5", f"why {n}") for n in range(22))
    sheet = DataSheet(held=held, data=rows, ruled=ruled, notes=few.data.notes)
    pages = data_pages(replace(few, data=sheet), A3)
    first, second = ([t.text for t in p.texts] for p in pages)
    assert {r.label for r in ruled} | {r.reason for r in ruled} <= set(first)
    assert "DATA" in second
    assert "DATA" not in first


@pytest.mark.parametrize(
    ("name", "apart"), [("hatch-clamp", 0.8), ("weir-gate", 1.2), ("bale-pusher", 0.8)]
)
def test_a_note_stands_farther_from_the_next_than_its_own_lines_from_each_other(name, apart):
    """On a page with free paper below them the notes ran together into one."""
    _, pages = pages_of(SPECS[0].parent / f"{name}.toml")
    lines = sorted(
        (t.at[0] > pages[-1].width / 2, -t.at[1], t.text.isdigit())
        for t in pages[-1].texts
        if t.name == "notes"
    )
    begun = {line[:2] for line in lines if line[2]}
    within, between = set(), set()
    for upper, lower in pairwise(sorted({line[:2] for line in lines})):
        if upper[0] == lower[0]:
            (between if lower in begun else within).add(lower[1] - upper[1])
    assert min(between) - max(within) >= apart - 1e-6


@pytest.mark.parametrize("count", [3, 14, 26])
def test_notes_stand_apart_only_where_that_takes_no_page_more(count):
    """Notes of two lines each: the nearest rows decide how many pages there are."""
    notes = tuple(f"Note {k} of the seller's own, " + "long words " * 5 for k in range(count))
    few = job(data=replace(data(), notes=notes))
    pages = data_pages(few, A3)
    numbers = {t.text for p in pages for t in p.texts if t.name == "notes" and t.text.isdigit()}
    assert len(numbers) >= count
    near = replace(PITCHES[-1], apart=0.0)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("drafting.drawing.lists.data_sheet.PITCHES", (near,))
        patch.setattr("drafting.drawing.lists.data_sheet._APART", ())
        assert len(pages) <= len(data_pages(few, A3))


def test_no_row_to_write_in_is_lower_than_a_hand_writes():
    assert min(p.row for p in PITCHES) >= 4.4


@pytest.mark.parametrize("pitch", sorted({p.row for p in PITCHES}))
def test_a_line_to_write_on_keeps_off_the_rule_below_it(pitch):
    """In close rows it lay on the rule, and nobody saw that something was to be written there."""
    strip = row((Cell(0.0, 30.0, "", line=True, name="held.tolerance"),), pitch, 176.0, "hair")
    line, rule = (next(m.curve.a[1] for m in strip.marks if n in m.name) for n in ("line", "rule"))
    assert line - rule >= 0.75 - 1e-9


def test_the_largest_diameter_without_mounts_has_no_grease_fitting_of_a_mount():
    """Fittings in the ends of a trunnion's pins made it wider than the trunnion: gland 4, boss."""
    text = (SPECS[0].parent / "penstock-gate.toml").read_text(encoding="utf-8")
    greased = load(checked(text.encode()))
    plain = load(checked(text.replace("grease    = true", "").encode()))
    assert outermost(greased) == outermost(plain) < 4.75 * 25.4  # half of what the pins reach


@pytest.mark.parametrize("paper", ["A4", "A"])
def test_words_that_reach_the_other_column_go_on_below(paper):
    """Two port threads a millimetre apart read as one line of words."""
    wide = {"A4": 210.0, "A": 215.9}[paper] - LEFT - RIGHT
    for k in range(30, 40):
        words = f"M14x1.5-6H {'O' * (k - 20)} PORT, ISO 6149-1"
        strip = holding(
            DataSheet(held=(Held("Port thread", Said(words), Said(words)),)), 5.2, wide
        ).rows[0]
        (_, *base), rod = [t for t in strip.texts if t.at[0] < 90.0], strip.texts[-1]
        assert max(t.at[0] + width(t.text, t.height) for t in base) <= rod.at[0] - 2.5


def test_rows_are_no_nearer_where_changes_take_another_page_anyway():
    """A full page of near rows was followed by a page of seven lines."""
    few = job()
    held = tuple(Held(f"Size {n}", Said(f"{n + 11}"), Said(f"{n + 43}")) for n in range(17))
    rows = tuple((f"Row {n}", Said(f"words {n}")) for n in range(30))
    ruled = tuple(Ruled((f"s.{n}",), f"Rule {n}", f"{n + 7}.5", f"why {n}") for n in range(18))
    sheet = DataSheet(held=held, data=rows, ruled=ruled, notes=few.data.notes)
    alone = data_pages(replace(few, data=sheet), A3)
    more = data_pages(replace(few, data=replace(sheet, changes=(("Stroke", "310 → 325"),))), A3)
    assert [len(alone), len(more)] == [1, 2]
    near, apart = (
        {t.text: t.at[1] for t in pages[0].texts if t.name == "held"} for pages in (alone, more)
    )
    assert near["Size 3"] - near["Size 4"] < 5.0
    assert apart["Size 3"] - apart["Size 4"] > 5.0

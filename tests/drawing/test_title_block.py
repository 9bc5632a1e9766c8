"""The title block: mandatory fields of ISO 7200:2004 (republished list) and visibly empty ones."""

import pytest

from drafting.drawing.lists.title_block import title_block
from drafting.drawing.sheet.on_paper import box
from drafting.drawing.sheet.paper import text_box
from drafting.drawing.sheet.strokes import Line
from drafting.drawing.sheet.style import Style

MANDATORY = (
    "LEGAL OWNER", "DRAWING NUMBER", "DATE OF ISSUE", "SHEET", "TITLE", "APPROVED BY", "CREATED BY",
    "DOCUMENT TYPE",
)  # fmt: skip


def block(**fields):
    return title_block((400.0, 10.0), 160.0, fields, "third", Style())


def words(made):
    return [t.text for t in made.texts]


def lines(made):
    return [m for m in made.marks if m.name == "write"]


def test_every_mandatory_field_is_there_and_empty_ones_have_a_line():
    empty = block()
    assert set(MANDATORY) <= set(words(empty))
    assert len(lines(empty)) == len(lines(block(company="Lenn"))) + 1


def test_a_general_tolerance_only_where_one_was_given():
    assert "TOLERANCE" not in words(block())
    said = words(block(general_tolerance="ISO 2768-m"))
    assert "TOLERANCE" in said
    assert "ISO 2768-m" in said


def test_a_revision_that_says_nothing_has_no_row():
    """Letter and date stand in the block; the row with an empty description said nothing."""
    given = block(revision="A", date="2026-11-25")
    assert not [t for t in given.texts if t.text == "DESCRIPTION"]
    assert [t for t in given.texts if t.name == "revision" and t.text == "A"]


def test_the_revision_stands_in_its_row_with_date_and_name():
    given = block(revision="B", revision_note="gap", date="2026-11-25", drawn_by="M. Osk")
    row = {t.name: t.text for t in given.texts if t.name.startswith("revisions.")}
    assert list(row.values()) == ["B", "gap", "2026-11-25", "M. Osk"]
    plain = block(date="2026-11-25").box
    assert plain[3] - plain[1] == 35.0 < given.box[3] - given.box[1]
    assert not [t for t in block(date="2026-11-25").texts if t.name.startswith("revisions.")]


def test_the_words_of_a_revision_stand_on_one_line():
    """Names hung above what they name, and the date was smaller than the rest of its row."""
    made = block(revision="B", revision_note="gap 2 wider", date="2026-11-25", drawn_by="M. Osk")
    row = [t for t in made.texts if t.name.startswith("revisions.")]
    names = [t for t in made.texts if t.text in ("DESCRIPTION", "BY", "DATE")]
    assert len(names) == 3
    assert len({t.at[1] for t in (*row, *names)}) == 1
    assert {t.height for t in row} == {2.5}


@pytest.mark.parametrize("number", ["Py-7g", "HB-1234567890-ABCDEFGHIJ-0987654321-g"])
@pytest.mark.parametrize("title", ["Hog clamp", "Ölpumpenträger, zweiter gegen Kippen gesichert"])
def test_tails_of_letters_stand_clear_of_the_rules(title, number):
    """The g of a title stood on the rule below it."""
    made = block(title=title, number=number, revision="g", company="Pögg", scale="1:2")
    rows = [m.curve for m in made.marks if not m.name and isinstance(m.curve, Line)]
    ruled = {line.a[1] for line in rows if line.a[1] == line.b[1]}
    (label,) = (text_box(t) for t in made.texts if t.text == "TITLE")
    said = [text_box(t) for t in made.texts if t.name in ("title", "number", "revision")]
    for _, low, _, high in said:
        assert len(ruled) >= 3
        assert not [y for y in ruled if low - 0.35 < y < high + 0.35]
        assert high < label[1] - 0.35


def test_a_long_title_is_broken_and_loses_nothing():
    title = "Return ram of the second table of the press in the long hall by the river"
    made = block(title=title, number="HB-0900-17/B")
    said = [t for t in made.texts if t.name == "title"]
    assert " ".join(t.text for t in said) == title
    assert len(said) == 2
    assert all(made.box[0] < text_box(t)[0] for t in said)
    end = min(text_box(t)[0] for t in made.texts if t.name == "number")
    assert max(text_box(t)[2] for t in said) < end


def test_a_very_long_title_has_three_lines_and_what_is_cut_off_ends_in_dots():
    title = (
        "Lift of the upper weir gate at the old mill on the west bank, the second of four of them, "
    )
    title += "as it was built again"
    for more, whole in (("", True), (" and again" * 20, False)):
        made = block(title=title + more, number="HB-1234567890-ABCDEFGHIJ-0987654321")
        said = [t for t in made.texts if t.name == "title"]
        words = " ".join(t.text for t in said)
        assert words == title if whole else words.endswith("...") and words.startswith(title)
        assert len(said) == 3
        (label,) = (t for t in made.texts if t.text == "TITLE")
        assert max(text_box(t)[3] for t in said) < text_box(label)[1]
        end = min(text_box(t)[0] for t in made.texts if t.name == "number")
        assert max(text_box(t)[2] for t in said) < end


def test_a_long_note_of_a_revision_that_is_cut_off_says_so():
    made = block(revision="B", revision_note="gap of the clevis and " * 12)
    said = [t.text for t in made.texts if t.name == "revisions.revision_note"]
    assert len(said) == 2
    assert said[-1].endswith("...")


LONG = (
    "±1/32 in unless it is said otherwise on the sheet or by who asked for it, in writing, before",
    "Wehrverschlussträgerbefestigungsgesellschaftswerkzeugausgabe, Oberes Donaukraftwerkgelände 1",
)
SAID = (
    "company", "customer", "drawn_by", "date", "title", "number", "revision", "document_type",
    "units", "scale", "size", "sheet", "general_tolerance",
)  # fmt: skip


def meet(a, b, air):
    return all(max(a[k], b[k]) - air < min(a[k + 2], b[k + 2]) for k in (0, 1))


@pytest.mark.parametrize("words", LONG)
@pytest.mark.parametrize("name", SAID)
def test_long_words_stand_clear_of_names_rules_and_other_fields(name, words):
    """A general tolerance in two lines ran into the name of its field."""
    made = block(**dict.fromkeys(SAID, "gQ") | {name: words})
    said = [text_box(t) for t in made.texts if t.name == name.replace("document_", "")]
    assert len(said) >= 2
    others = [text_box(t) for t in made.texts if t.name != name.replace("document_", "")]
    assert not [(a, b) for a in said for b in others if meet(a, b, 0.15)]
    ruled = [box(m.curve) for m in made.marks if m.role in ("table", "frame") and not m.name]
    assert len(ruled) > len(SAID)
    assert not [(a, r) for a in said for r in ruled if meet(a, r, 0.3)]

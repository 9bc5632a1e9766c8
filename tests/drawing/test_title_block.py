"""The title block: mandatory fields of ISO 7200:2004 (republished list) and visibly empty ones."""

from drafting.drawing.lists.title_block import title_block
from drafting.drawing.sheet.style import Style

MANDATORY = (
    "LEGAL OWNER", "DRAWING NUMBER", "DATE OF ISSUE", "SHEET", "TITLE", "APPROVED BY", "CREATED BY",
    "DOCUMENT TYPE",
)  # fmt: skip


def block(**fields):
    return title_block((400.0, 10.0), fields, "third", Style())


def words(made):
    return [t.text for t in made.texts]


def lines(made):
    return [m for m in made.marks if m.name == "write"]


def test_every_mandatory_field_is_there_and_empty_ones_have_a_line():
    empty = block()
    assert set(MANDATORY) <= set(words(empty))
    assert len(lines(empty)) == len(lines(block(company="Lenn"))) + 1


def test_a_general_tolerance_only_where_one_was_given():
    assert "GENERAL TOLERANCE" not in words(block())
    said = words(block(general_tolerance="ISO 2768-m"))
    assert "GENERAL TOLERANCE" in said
    assert "ISO 2768-m" in said


def test_the_revision_stands_in_its_row_with_date_and_name():
    given = block(revision="B", revision_note="gap", date="2026-11-25", drawn_by="M. Osk")
    row = {t.name: t.text for t in given.texts if t.name.startswith("revisions.")}
    assert list(row.values()) == ["B", "gap", "2026-11-25", "M. Osk"]
    assert not [t for t in block(date="2026-11-25").texts if t.name.startswith("revisions.")]

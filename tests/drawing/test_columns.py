"""Lists flow through columns, nothing overlaps, what has no room is counted."""

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.drawing.lists.columns import Column, Listing, fitted, flow
from drafting.drawing.sheet.clash import text_quad
from drafting.drawing.sheet.letters import width
from drafting.drawing.sheet.on_paper import hull

ROWS = st.lists(
    st.tuples(st.text("abc ", max_size=12), st.text("defg hij", max_size=90)),
    min_size=1,
    max_size=14,
)


@settings(max_examples=60, deadline=None)
@given(ROWS, ROWS, st.lists(st.floats(20.0, 90.0), min_size=1, max_size=4))
def test_everything_lies_in_its_column_or_is_counted(one, two, heights):
    columns = [Column(100.0 * k, 80.0, 10.0 + h, 10.0) for k, h in enumerate(heights)]
    lists = (Listing("one", "ONE", tuple(one), 25.0), Listing("two", "TWO", tuple(two), 25.0))
    found = flow(lists, columns, 2.5, 3.75, "CONTINUED")
    boxes = [hull(text_quad(t)) for t in found.texts]
    for b in boxes:
        assert any(
            c.x - 0.1 <= b[0] and b[2] <= c.x + c.width + 0.1 and b[1] >= c.bottom - 0.5
            and b[3] <= c.top + 0.1
            for c in columns
        )  # fmt: skip
    for n, a in enumerate(boxes):
        for b in boxes[n + 1 :]:
            assert (
                a[2] <= b[0] + 0.01
                or b[2] <= a[0] + 0.01
                or a[3] <= b[1] + 0.8
                or b[3] <= a[1] + 0.8
            )
    said = [t.text for t in found.texts if t.name == "rest"]
    usable = any(c.top - c.bottom > 22.5 for c in columns)
    assert said == (["CONTINUED"] if found.rest and usable else [])
    left = Counter(row for entry in found.rest for row in entry.rows)
    assert left <= Counter((*one, *two))


def test_what_has_no_room_goes_on_where_it_was_cut():
    rows = tuple(("", f"entry {k}") for k in range(30))
    column, pages = Column(0, 80, 60, 0), []
    left: tuple[Listing, ...] = (Listing("one", "ONE", rows),)
    while left:
        pages.append(flow(left, [column], 2.5, 3.75, "CONTINUED"))
        left = pages[-1].rest
    told = [t.text for page in pages for t in page.texts if t.text.startswith("entry")]
    assert told == [words for _, words in rows]
    heads = [t.text for page in pages for t in page.texts if t.name == "one.heading"]
    assert heads == ["ONE", *["ONE (cont.)"] * (len(pages) - 1)]
    assert len(pages) > 1


def test_a_wide_column_holds_all():
    lists = (Listing("one", "ONE", tuple(("", f"entry {k}") for k in range(5))),)
    found = flow(lists, [Column(0, 80, 100, 0)], 2.5, 3.75, "CONTINUED")
    assert found.left_over == 0
    assert {f"entry {k}" for k in range(5)} <= {t.text for t in found.texts}


def test_empty_words_leave_a_line_to_write_on():
    open_row = flow(
        (Listing("a", "A", (("Fluid", ""),), 25.0),), [Column(0, 80, 50, 0)], 2.5, 4, ""
    )
    said = flow((Listing("a", "A", (("Fluid", "oil"),), 25.0),), [Column(0, 80, 50, 0)], 2.5, 4, "")
    assert len(open_row.marks) == len(said.marks) + 1


def test_fitted_ends_with_dots():
    assert fitted("short", 3.5, 50.0) == "short"
    cut = fitted("a title far too long for its field", 5.0, 40.0)
    assert cut.endswith("…")
    assert width(cut, 5.0) <= 40.0


def test_no_entry_stands_alone_under_its_heading_where_the_next_column_has_room():
    rows = tuple(("", f"entry {k}") for k in range(4))
    lists = (Listing("one", "ONE", rows), Listing("two", "TWO", rows))
    columns = [Column(0, 80, 100, 100 - 34), Column(100, 80, 100, 0)]
    found = flow(lists, columns, 2.5, 3.75, "CONTINUED")
    heads = {t.name: t.at[0] for t in found.texts if t.bold}
    assert heads["one.heading"] < 80.0
    assert heads["two.heading"] > 100.0
    assert not found.rest

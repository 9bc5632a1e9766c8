"""Sections shared out over pages: whole where they fit, else broken between two rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.drawing.lists.strips import Section, Strip

BETWEEN = 4.7
"""Free paper from the last rule of a section to the next heading's capitals."""
Placed = tuple[float, Strip]
"""A strip with how far down it stands (mm)."""
_SLACK = 1e-9
_PARTS = 40
"""In so many steps a page is thought shorter, to share sections out."""


def paged(
    sections: Sequence[Section], room: float, tail: float = 0.0, between: float = BETWEEN
) -> list[list[Placed]]:
    """Give pages of the height ``room``; below the last section ``tail`` is kept free."""
    pages: list[list[Placed]] = [[]]
    y = 0.0
    for section in sections:
        spare = tail if section is sections[-1] else 0.0
        whole = section.height + spare
        start = section.height if whole <= room + _SLACK else _least(section)
        if y and y + start + spare > room + _SLACK:
            pages.append([])
            y = 0.0
        for fresh, strip in _strips(section, y, room, spare):
            if fresh:
                pages.append([])
                y = 0.0
            pages[-1].append((y, strip))
            y += strip.height
        y += between
    return pages


def balanced(
    sections: Sequence[Section], room: float, tail: float = 0.0, between: float = BETWEEN
) -> list[list[Placed]]:
    """Give no more pages than there must be; none ends early but for a last that is nearly white.

    That one gets what makes it a third full, if whole sections do.
    """
    pages = paged(sections, room, tail, between)
    highest = max(s.height for s in sections) + tail
    for less in (room * part / _PARTS for part in range(_PARTS, _PARTS // 2, -1)):
        if len(pages) == 1 or _filled(pages[-1]) + tail >= room / 3 or highest > less:
            break
        fewer = paged(sections, less, tail, between)
        if len(fewer) > len(pages):
            break
        pages = fewer
    return pages


def _filled(page: Sequence[Placed]) -> float:
    """Tell how far down a page is filled (mm)."""
    return max(y + strip.height for y, strip in page)


def _least(section: Section) -> float:
    return section.head.height + sum(r.height for r in section.rows[: section.least])


def _strips(section: Section, y: float, room: float, tail: float) -> Iterator[tuple[bool, Strip]]:
    """Give head and rows; True before what begins a new page, which is the head again."""
    yield False, section.head
    y += section.head.height
    for k, row in enumerate(section.rows):
        spare = tail if k == len(section.rows) - 1 else 0.0
        if k and y + row.height + spare > room + _SLACK:
            yield True, section.head
            y = section.head.height
        yield False, row
        y += row.height

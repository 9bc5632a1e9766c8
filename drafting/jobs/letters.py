"""Letters of the spec that the sheet's typeface lacks: named, with what is printed for them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from drafting.errors import named
from drafting.model.cylinder import Cylinder
from drafting.spec.given import Spec
from drafting.values import Finding

MOST = 6
"""Letters that a finding names one by one."""


def with_letters(c: Cylinder) -> Cylinder:
    """Give the cylinder with a finding for every field whose letters the sheet cannot print."""
    return replace(c, findings=(*c.findings, *missing_letters(c.spec)))


def missing_letters(spec: Spec) -> tuple[Finding, ...]:
    """Give a finding for every typed text with letters that the typeface lacks."""
    return tuple(
        finding
        for name, text in _texts(spec)
        if not text.isascii()
        for finding in _find(name, text)
    )


def _texts(spec: Spec) -> Iterator[tuple[str, str]]:
    for name, given in spec.givens.items():
        values = given.value if isinstance(given.value, tuple) else (given.value,)
        texts = [v for v in values if isinstance(v, str)]
        if texts:
            yield name, "".join(texts)


def _find(name: str, text: str) -> Iterator[Finding]:
    from drafting.drawing.sheet.letters import stand_in, unknown

    missing = unknown(text)
    bare = [c for c in missing if stand_in(c) is not None]
    boxes = [c for c in missing if stand_in(c) is None]
    if boxes:
        yield Finding(
            "letters-missing",
            "warning",
            name,
            f"the sheet's typeface has Latin, Greek and Cyrillic letters and lacks {_list(boxes)}: "
            "the PDF prints boxes with their codes; SVG and DXF show them where the reader has a "
            "font with these letters installed. Write it in letters that it has as well",
        )
    if bare:
        yield Finding(
            "letters-bare",
            "note",
            name,
            f"the PDF prints the plain letter for {_list(bare)}, which the sheet's typeface lacks",
        )


def _list(letters: list[str]) -> str:
    shown = ", ".join(named(c) for c in letters[:MOST])
    return f"{shown} and {len(letters) - MOST} more" if len(letters) > MOST else shown

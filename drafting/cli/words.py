"""Words behind options, taken as in a spec: case, hyphens, spaces, and what the trade says."""

from __future__ import annotations

from argparse import ArgumentTypeError
from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drafting.settle.mount import End
    from drafting.spec.field import Field

ENDS: tuple[End, ...] = ("body", "rod")


def a_mount(end: End) -> Callable[[str], str]:
    """Give what reads the word of a mount at an end."""

    def read(text: str) -> str:
        from drafting.model.catalog import mounts_by_end
        from drafting.spec.fields import TABLES
        from drafting.spec.mount_fields import with_words

        table = f"{end}_mount"
        return _meant(with_words(TABLES[table], mounts_by_end()[table]).fields[0], text)

    return read


def units(text: str) -> str:
    """Read inches or millimetres."""
    from drafting.spec.fields import ROOT

    return _meant(ROOT.field("units"), text)


def sheet(text: str) -> str:
    """Read the size of a drawing page."""
    from drafting.spec.drawing_fields import DRAWING

    return _meant(DRAWING.field("sheet"), text)


def _meant(field: Field | None, text: str) -> str:
    from drafting.cli.say import tell
    from drafting.factors import Misread
    from drafting.spec.said import meant_word

    assert field is not None
    try:
        word, told = meant_word(field, text)
    except Misread as two:
        raise ArgumentTypeError(str(two)) from None
    if told:
        tell(told)
    return word

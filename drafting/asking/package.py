"""The package that a buyer sends: one ZIP, equal for equal input, and what each file is."""

from __future__ import annotations

from collections.abc import Mapping
from io import BytesIO

from drafting.records import dataclass

_WORDS = {
    ".pdf": "the drawing and its data sheet, for reading and printing at 100 %",
    ".dxf": "the drawing for CAD; the outline is drawn 1:1",
    "-retracted.step": "the solid, retracted",
    "-extended.step": "the solid, extended",
    "-form.pdf": "the quote form: fill in and send back",
    ".toml": "the spec from which everything here was made, as text",
    ".json": "all values and findings, for programs",
    ".csv": "all sizes as a table, for stock systems",
    ".png": "a picture of the drawing",
}
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The day of every file inside: the least that the format knows, so that equal stays equal."""


@dataclass(frozen=True, slots=True)
class Package:
    """The files by name, and the ZIP with them."""

    name: str
    files: Mapping[str, bytes]
    data: bytes


def described(stem: str, names: Mapping[str, bytes]) -> dict[str, str]:
    """Tell what each file is, by its name, what is looked at first before the rest."""
    order = list(_WORDS)
    ends = sorted((n.removeprefix(stem) for n in names), key=order.index)
    return {stem + end: _WORDS[end] for end in ends}


def zipped(files: Mapping[str, bytes]) -> bytes:
    """Pack files in the order of their names; names are UTF-8, with ``/`` between folders."""
    from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

    out = BytesIO()
    with ZipFile(out, "w", ZIP_DEFLATED, compresslevel=9) as archive:
        for name in sorted(files):
            info = ZipInfo(name, _FIRST_DAY)
            info.compress_type = ZIP_DEFLATED
            info.create_system = 0  # the same wherever it is made
            info.external_attr = 0
            archive.writestr(info, files[name])
    return out.getvalue()

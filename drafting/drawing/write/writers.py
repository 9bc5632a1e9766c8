"""Every way to write a sheet, and what each of them leaves out.

A writer says which kinds of thing it writes; whatever else stands on a sheet is a loss and is
returned with the files, so that nothing is dropped in silence.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from drafting.drawing.sheet.sheet import Sheet, View
from drafting.records import dataclass

KINDS = (
    "marks of views",
    "marks beside the views",
    "hatches",
    "lengths",
    "rounds",
    "notes on leaders",
    "words",
    "bold words",
    "windows",
    "the unbroken outline",
    "further drawing pages",
    "pages without views",
    "the spec inside",
)
"""Every kind of thing that a sheet can hold."""

_ALL = frozenset(KINDS)
_OF_DIMENSION = {"Linear": "lengths", "Round": "rounds", "Note": "notes on leaders"}


@dataclass(frozen=True, slots=True)
class Options:
    """How files are written: the version of a DXF."""

    dxf: str = "R2010"


@dataclass(frozen=True, slots=True)
class Writer:
    """One format. ``write`` gives the files of a sheet by name, ``stem`` their name's beginning."""

    writes: frozenset[str]
    write: Callable[[Sheet, str, Options], Mapping[str, bytes]]


@dataclass(frozen=True, slots=True)
class Written:
    """The files by name, and the kinds of thing on the sheet that they do not hold."""

    files: Mapping[str, bytes]
    losses: tuple[str, ...]


def write(sheet: Sheet, format_: str, stem: str, options: Options | None = None) -> Written:
    """Write a sheet with its following ones in a format of ``WRITERS``."""
    writer = WRITERS[format_]
    return Written(writer.write(sheet, stem, options or Options()), losses(sheet, writer))


def losses(sheet: Sheet, writer: Writer) -> tuple[str, ...]:
    """Give the kinds of thing on a sheet that a writer leaves out, in the order of ``KINDS``."""
    there = set(kinds(sheet))
    return tuple(k for k in KINDS if k in there - writer.writes)


def kinds(sheet: Sheet) -> Iterator[str]:
    """Give the kinds of thing on a sheet and those that follow it."""
    if sheet.marks:
        yield "marks beside the views"
    yield from _words(sheet.texts)
    if sheet.meta.get("spec_text"):
        yield "the spec inside"
    for view in sheet.views:
        yield from _of_view(view)
    for more in sheet.following:
        yield "further drawing pages" if more.views else "pages without views"
        yield from kinds(more)


def _of_view(view: View) -> Iterator[str]:
    if view.marks:
        yield "marks of views"
    if view.hatches:
        yield "hatches"
    yield from _words(view.texts)
    for dimension in view.dimensions:
        yield _OF_DIMENSION[type(dimension).__name__]
    if view.window is not None:
        yield "windows"
    if view.whole is not None:
        yield "the unbroken outline"


def _words(texts: tuple[object, ...]) -> Iterator[str]:
    for text in texts:
        yield "bold words" if getattr(text, "bold", False) else "words"


def _svg(sheet: Sheet, stem: str, options: Options) -> Mapping[str, bytes]:
    from drafting.drawing.write.svg import svg_bytes

    files = {f"{stem}.svg": svg_bytes(sheet)}
    for n, more in enumerate(sheet.following, 2):
        files[f"{stem}-sheet{n}.svg"] = svg_bytes(more)
    return files


def _pdf(sheet: Sheet, stem: str, options: Options) -> Mapping[str, bytes]:
    from drafting.drawing.write.pdf import pdf_bytes

    return {f"{stem}.pdf": pdf_bytes(sheet)}


def _dxf(sheet: Sheet, stem: str, options: Options) -> Mapping[str, bytes]:
    from drafting.drawing.write.dxf.file import dxf_bytes

    return {f"{stem}.dxf": dxf_bytes(sheet, version=options.dxf)}


def _png(sheet: Sheet, stem: str, options: Options) -> Mapping[str, bytes]:
    from drafting.drawing.write.png import png_bytes

    return {f"{stem}.png": png_bytes(sheet)}


def _outline(sheet: Sheet, stem: str, options: Options) -> Mapping[str, bytes]:
    from drafting.drawing.write.dxf.file import dxf_bytes

    data = dxf_bytes(sheet, outline_only=True, version=options.dxf)
    return {f"{stem}-outline.dxf": data}


WRITERS: dict[str, Writer] = {
    "dxf": Writer(_ALL - {"pages without views"}, _dxf),
    "svg": Writer(_ALL - {"the unbroken outline"}, _svg),
    "pdf": Writer(_ALL - {"the unbroken outline"}, _pdf),
    "png": Writer(
        _ALL - {"the unbroken outline", "further drawing pages", "pages without views"}, _png
    ),
    "outline": Writer(
        frozenset(
            {
                "marks of views",
                "windows",
                "the unbroken outline",
                "further drawing pages",
                "the spec inside",
            }
        ),
        _outline,
    ),
}
"""By the word of ``--formats``; ``outline`` is the bare outline for cutting and tracing."""

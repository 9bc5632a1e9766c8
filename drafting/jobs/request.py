"""From specs to the package that a buyer sends to a builder."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.asking.asked import questions_asked
from drafting.asking.cover import cover, mail
from drafting.asking.form import quote_form
from drafting.asking.package import Package, described, zipped
from drafting.jobs.draw import Drawing, How, draw_each
from drafting.model.cylinder import Cylinder
from drafting.told.meta import carried_text

_FORMATS = {"drawing": "pdf", "dxf": "dxf", "step": "step", "json": "json", "csv": "csv",
            "png": "png"}  # fmt: skip


def requests(
    cylinders: Sequence[Cylinder], without: Sequence[str] = ()
) -> Iterator[tuple[Drawing, dict[str, bytes]]]:
    """Give each drawing with the files of its package, made one after the other."""
    formats = tuple(f for part, f in _FORMATS.items() if part not in without)
    for drawing in draw_each(cylinders, How(formats)):
        yield drawing, _files(drawing, without)


def package(made: Sequence[tuple[str, dict[str, bytes]]]) -> Package:
    """Give one ZIP for one or several cylinders; several have a folder each inside."""
    first, files = made[0]
    if len(made) == 1:
        return Package(f"{first}-request.zip", files, zipped(files))
    every = {f"{stem}/{name}": data for stem, own in made for name, data in own.items()}
    return Package(f"{first}-and-{len(made) - 1}-more-request.zip", every, zipped(every))


def open_words(c: Cylinder) -> list[str]:
    """Give the open questions as they are asked, worst first."""
    return [q.question for q in questions_asked(c)]


def _files(drawing: Drawing, without: Sequence[str]) -> dict[str, bytes]:
    c = drawing.cylinder
    family = "iso" if c.spec.units == "mm" else "asme"
    files = dict(drawing.files)
    if "form" not in without:
        files[f"{c.name}-form.pdf"] = quote_form(c, family)
    if "spec" not in without:
        files[f"{c.name}.toml"] = carried_text(c.spec).encode("utf-8", "surrogatepass")
    inside = described(c.name, files)
    files[f"{c.name}-cover.pdf"] = cover(c, family, inside)
    names = (f"{c.name}-cover.pdf", *inside)
    files[f"{c.name}-mail.txt"] = mail(c, f"{c.name}-request.zip", names).encode()
    return files

"""From cylinders to the bytes of their files."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.told.changes import Comparison
from drafting.told.meta import meta
from drafting.told.rows import draw_entry
from drafting.units import both
from drafting.values import Finding

SHEET_FORMATS = ("dxf", "svg", "pdf")


@dataclass(frozen=True, slots=True)
class Drawing:
    """One cylinder with the bytes of each file, and all that was found."""

    cylinder: Cylinder
    files: dict[Path, bytes]
    findings: tuple[Finding, ...]
    compared: Comparison | None = None

    def entry(self) -> dict[str, Any]:
        """Give its rows of the document; weighing the pieces is paid only here."""
        row = draw_entry(self.cylinder, [p.as_posix() for p in self.files], self.findings)
        return row | (self.compared.entry() if self.compared else {})

    @property
    def summary(self) -> str:
        """Say the three lengths in one line."""
        units, n = self.cylinder.spec.units, self.cylinder.lengths
        return (
            f"{self.cylinder.name}: closed {both(n.retracted, units)}, open "
            f"{both(n.extended, units)}, stroke {both(n.stroke, units)}"
        )


def draw_all(
    cylinders: Sequence[Cylinder],
    formats: Sequence[str],
    folder: Path,
    outline: bool = False,
    dxf: str = "R2010",
    compared: Comparison | None = None,
) -> tuple[Drawing, ...]:
    """Draw every cylinder in the formats wanted; nothing is written here.

    ``compared`` says what differs from an older drawing. Solids are built in a child process while
    the sheets are made.
    """
    waiting = [_start_solids(c, formats) for c in cylinders]
    drawings = []
    for c, solids in zip(cylinders, waiting, strict=True):
        files: dict[Path, bytes] = {}
        findings = c.findings
        if outline or any(f in formats for f in SHEET_FORMATS):
            made, more = sheet_files(c, formats, outline, dxf, compared)
            files |= {folder / name: data for name, data in made.items()}
            findings = (*c.findings, *more)
        if solids is not None:
            files |= {folder / name: data for name, data in solids.result().items()}
        if compared and _same_letter(c, compared):
            findings = (*findings, _same_letter_finding(c))
        drawing = Drawing(c, files, findings, compared)
        if "json" in formats:
            path = folder / f"{c.name}.json"
            files[path] = b""
            document = {"schema": 1, "cylinders": [drawing.entry()]}
            files[path] = (json.dumps(document, ensure_ascii=False, indent=1) + "\n").encode()
        drawings.append(drawing)
    return tuple(drawings)


def _same_letter(c: Cylinder, compared: Comparison) -> bool:
    return bool(compared.changes) and (c.spec.word("revision") or "") == compared.revision


def _same_letter_finding(c: Cylinder) -> Finding:
    letter = c.spec.word("revision")
    said = f"the revision is still {letter}" if letter else "no revision is typed"
    return Finding(
        "same-revision",
        "warning",
        "revision",
        f"{said}, but the drawing changed; type the next letter, so that old prints are known",
        "common practice",
    )


def _start_solids(c: Cylinder, formats: Sequence[str]) -> Any:
    wanted = tuple(f for f in formats if f in ("step", "glb"))
    if not wanted:
        return None
    from drafting.solids.beside import start

    return start(c.name, c.parts, c.lengths.stroke, meta(c), wanted, c.phantoms)


def sheet_files(
    c: Cylinder,
    formats: Sequence[str],
    outline: bool,
    dxf: str,
    compared: Comparison | None = None,
) -> tuple[dict[str, bytes], tuple[Finding, ...]]:
    """Compose the sheet, inspect it and write it in each format; also give what was found."""
    from drafting.drawing.compose.choose import compose
    from drafting.drawing.inspect.inspect import inspect
    from drafting.drawing.of_cylinder import sheet_job

    job = sheet_job(c, compared)
    sheet = compose(job)
    files: dict[str, bytes] = {}
    if "dxf" in formats or outline:
        from drafting.drawing.write.dxf.file import dxf_bytes

        if "dxf" in formats:
            files[f"{c.name}.dxf"] = dxf_bytes(sheet, version=dxf)
        if outline:
            files[f"{c.name}-outline.dxf"] = dxf_bytes(sheet, outline_only=True, version=dxf)
    if "svg" in formats:
        from drafting.drawing.write.svg import svg_bytes

        files[f"{c.name}.svg"] = svg_bytes(sheet)
        for n, more in enumerate(sheet.following, 2):
            files[f"{c.name}-sheet{n}.svg"] = svg_bytes(more)
    if "pdf" in formats:
        from drafting.drawing.write.pdf import pdf_bytes

        files[f"{c.name}.pdf"] = pdf_bytes(sheet)
    return files, inspect(sheet, job)

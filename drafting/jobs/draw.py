"""From cylinders to the bytes of their files."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Literal

from drafting.jobs.changes import Comparison
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.spec.given import Spec
from drafting.told.facts import OPEN, derived_rows, facts, part_rows
from drafting.told.must_hold import must_hold
from drafting.told.rows import TOOL, draw_entry
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


def meta(c: Cylinder) -> dict[str, str]:
    """Give what every file says of itself."""
    spec = c.spec
    words = {
        "title": spec.word("title") or "",
        "number": spec.word("number") or c.name,
        "revision": spec.word("revision") or "",
        "tool": TOOL,
        "spec_text": carried_text(spec),
        "input_sha256": spec.sha256,
        "date": _date(c),
    }
    words["revision_note"] = spec.word("revision_note") or ""
    for name in ("company", "drawn_by", "customer", "general_tolerance"):
        words[name] = spec.word(f"drawing.{name}") or ""
    return words


def carried_text(spec: Spec) -> str:
    """Give the text that travels in every file: the spec, with the company defaults behind it."""
    if spec.shop is None:
        return spec.text
    from drafting.spec.bundle import bundle

    return bundle(spec.text, Path(spec.shop.file).name, spec.shop.text)


def _logo(spec: Spec) -> tuple[str, str] | None:
    """Give viewBox and path of the logo."""
    found = [spec.word(f"drawing.logo.{n}") for n in ("viewbox", "path")]
    return (found[0], found[1]) if found[0] and found[1] else None


def _date(c: Cylinder) -> str:
    """The spec's date, else SOURCE_DATE_EPOCH, else none: equal input gives equal bytes."""
    import os
    from datetime import UTC, datetime

    typed = c.spec.word("drawing.date")
    if typed:
        return typed
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    return datetime.fromtimestamp(int(epoch), UTC).date().isoformat() if epoch.isdigit() else ""


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


def sheet_job(c: Cylinder, compared: Comparison | None = None) -> Any:
    """Give what the drawing needs of a cylinder."""
    from drafting.checks.border import sheet_cautions
    from drafting.drawing.dimension.job import Job
    from drafting.model.pins.details import pin_details
    from drafting.shape.mass import dry_mass
    from drafting.told.from_memory import memory_notes

    spec, n = c.spec, c.lengths
    side: Literal["rod", "base"] = (
        "base" if spec.word("cylinder.clock_seen_from") == "base" else "rod"
    )
    notes = spec.get("notes")
    people = spec.get("duty.lifts_people")
    said = notes.value if notes is not None and isinstance(notes.value, tuple) else ()
    dimensions = spec.word("drawing.dimensions") or ("in [mm]" if spec.units == "in" else "mm")
    fractions = spec.number("drawing.fractions")
    places = 16 if fractions is None else int(fractions)
    return Job(
        name=c.name,
        retracted=c.parts,
        extended=c.at(n.stroke),
        phantoms=c.phantoms,
        pins=pin_details(c.pins),
        tolerances=c.tolerances,
        wishes=c.wishes,
        symbols=c.symbols,
        values=c.values,
        findings=c.findings,
        lengths=(n.stroke, n.retracted, n.extended),
        bore=c.stations.bore,
        facts=tuple((k, "" if v == OPEN else v) for k, v in facts(c, dry_mass(c.parts))),
        must_hold=must_hold(c, dimensions, places),
        parts=part_rows(c),
        logo=_logo(spec),
        changes=compared.rows(w.name for w in c.wishes) if compared else (),
        changed=compared.flagged if compared else frozenset(),
        cautions=sheet_cautions(people is not None and people.value is True),
        notes=(*(str(t) for t in said), *memory_notes(c)),
        units=spec.units,
        dimensions=dimensions,  # type: ignore[arg-type]
        fractions=places,
        sheet=spec.word("drawing.sheet") or "auto",
        scale=spec.word("drawing.scale") or "auto",
        breaks="none" if spec.word("drawing.breaks") == "none" else "auto",
        projection="first" if spec.word("drawing.projection") == "first" else "third",
        clock_from=side,
        clock_words=f"CLOCK POSITIONS AS SEEN FROM THE {'BASE' if side == 'base' else 'ROD'} END",
        meta=meta(c),
    )


__all__ = ["Drawing", "derived_rows", "draw_all", "meta", "sheet_files", "sheet_job"]

"""From a spec to the bytes of its files; nothing is written here."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from drafting.jobs.letters import with_letters
from drafting.jobs.position import extension
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.told.changes import Comparison
from drafting.told.meta import meta, without_folders
from drafting.told.rows import draw_entry
from drafting.told.size_list import size_list
from drafting.units import both
from drafting.values import Finding

SHEET_FORMATS = ("dxf", "svg", "pdf", "png")
SOLID_FORMATS = ("step", "glb")
INSIDE = ("svg", "pdf", "dxf", "step", "glb", "csv")
"""What the HTML file is made of and has inside."""


@dataclass(frozen=True, slots=True)
class How:
    """What is drawn and how. ``formats`` are any of the words of ``--formats``.

    ``outline`` adds the bare outline for tracing, ``plates`` each plate as it is cut; ``dxf`` is
    the version of DXF files, where R12 is for plates and the drawing has the next;
    ``compared`` says what differs from an older drawing. ``sheet`` and ``scale`` rule over those of
    the spec. ``at`` (``60 %``, or a length) adds a STEP file of that position.
    """

    formats: tuple[str, ...] = ("dxf", "svg", "pdf", "step", "json")
    outline: bool = False
    plates: bool = False
    dxf: str = "R2010"
    compared: Comparison | None = None
    sheet: str = ""
    scale: str = ""
    at: str = ""

    @property
    def made(self) -> tuple[str, ...]:
        """Give the formats that are made: the HTML file holds others, which go no further."""
        inside = INSIDE if "html" in self.formats else ()
        return tuple(dict.fromkeys((*self.formats, *inside)))

    @property
    def sheet_words(self) -> tuple[str, ...]:
        """Give the words of the writers that are wanted."""
        words = tuple(f for f in SHEET_FORMATS if f in self.made)
        return (*words, "outline") if self.outline else words


@dataclass(frozen=True, slots=True)
class Drawing:
    """One cylinder with the bytes of each file by name, and all that was found.

    ``left_out`` says for a format what stands on the sheets and not in its files.
    """

    cylinder: Cylinder
    files: Mapping[str, bytes]
    findings: tuple[Finding, ...]
    left_out: Mapping[str, tuple[str, ...]]
    compared: Comparison | None = None

    def entry(self, folder: str = "") -> dict[str, Any]:
        """Give its rows of the document; weighing the pieces is paid only here."""
        row = draw_entry(self.cylinder, [folder + name for name in self.files], self.findings)
        row["left_out"] = {word: list(kinds) for word, kinds in self.left_out.items()}
        return row | (self.compared.entry() if self.compared else {})

    @property
    def summary(self) -> str:
        """Say the three lengths in one line."""
        units, n = self.cylinder.spec.units, self.cylinder.lengths
        return (
            f"{self.cylinder.name}: closed {both(n.retracted, units)}, open "
            f"{both(n.extended, units)}, stroke {both(n.stroke, units)}"
        )


def draw_one(text: str | bytes, how: How | None = None, file: str = "spec.toml") -> Drawing:
    """Draw the spec in a text; ``file`` is what messages call it.

    Raises Refused with every fault of the text, OutputFailed where no solid could be made.
    """
    from drafting.model.load import checked, load

    source = text.encode() if isinstance(text, str) else text
    return draw_cylinder(load(checked(source, file)), how or How())


def draw_cylinder(c: Cylinder, how: How) -> Drawing:
    """Draw one cylinder."""
    return next(draw_each([c], how))


def draw_each(cylinders: Iterable[Cylinder], how: How) -> Iterator[Drawing]:
    """Draw cylinders one after the other; each is made when it is asked for.

    Solids are built in a child process while the sheets are made; those of the next cylinder are
    begun one ahead, so that no more than two cylinders are held at a time.
    """
    queue: list[tuple[Cylinder, Any]] = []
    for c in map(with_letters, cylinders):
        queue.append((c, _start_solids(c, how)))
        if len(queue) > 1:
            yield _drawn(*queue.pop(0), how)
    for waiting in queue:
        yield _drawn(*waiting, how)


def _drawn(c: Cylinder, solids: Any, how: How) -> Drawing:
    files: dict[str, bytes] = {}
    left_out: dict[str, tuple[str, ...]] = {}
    findings = c.findings
    if how.sheet_words:
        made, left_out, more = sheet_files(c, how)
        files |= made
        findings = (*findings, *more)
    if solids is not None:
        files |= solids.result()
    if how.plates:
        files |= plate_files(c, how.dxf)
    if "csv" in how.made:
        files[f"{c.name}.csv"] = size_list(c)
    if "html" in how.formats:
        files = _with_html(c, files, findings, how)
        left_out = {f: kinds for f, kinds in left_out.items() if f in (*how.formats, "outline")}
    if how.compared and _same_letter(c, how.compared):
        findings = (*findings, _same_letter_finding(c))
    if "json" not in how.formats:
        return Drawing(c, files, findings, left_out, how.compared)
    name = f"{c.name}.json"
    whole = Drawing(c, {**files, name: b""}, findings, left_out, how.compared)
    document = {"schema": 1, "cylinders": [_base_names(whole.entry(), c)]}
    files[name] = (json.dumps(document, ensure_ascii=False, indent=1) + "\n").encode()
    return Drawing(c, files, findings, left_out, how.compared)


def _with_html(
    c: Cylinder, files: dict[str, bytes], findings: tuple[Finding, ...], how: How
) -> dict[str, bytes]:
    """Give the HTML file, and of the others those that are asked for."""
    from drafting.checks.of_cylinder import judge
    from drafting.viewing.one_file import html_bytes

    page = html_bytes(c, files, findings, judge(c))
    own = ["outline.dxf"] * how.outline + ["mm.step"] * bool(how.at)
    plates = tuple(n for n in files if "-plate-" in n)
    wanted = (*how.formats, *own)
    kept = {n: d for n, d in files.items() if n.endswith(wanted) or n in plates}
    return {**kept, f"{c.name}.html": page}


def _base_names(value: Any, c: Cylinder) -> Any:
    """Take the folders of the person's own machine out of what goes into a file."""
    if isinstance(value, dict):
        return {k: v if k.endswith("_text") else _base_names(v, c) for k, v in value.items()}
    if isinstance(value, list):
        return [_base_names(v, c) for v in value]
    return without_folders(c.spec, value) if isinstance(value, str) else value


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


def _start_solids(c: Cylinder, how: How) -> Any:
    wanted = tuple(f for f in how.made if f in SOLID_FORMATS)
    if not wanted and not how.at:
        return None
    from drafting.solids.beside import start

    at = extension(how.at, c) if how.at else None
    return start(c.name, c.parts, c.lengths, meta(c), wanted, c.phantoms, at)


def plate_files(c: Cylinder, version: str) -> dict[str, bytes]:
    """Give each plate of the mounts as a DXF to cut, by name."""
    from drafting.drawing.write.dxf.plate import plate_bytes
    from drafting.told.meta import carried_text
    from drafting.told.plates import plate_words, plates

    unit = 25.4 if c.spec.units == "in" else 1.0
    return {
        f"{c.name}-plate-{p.name}.dxf": plate_bytes(
            p.outline,
            [(h.at, h.radius) for h in p.holes],
            plate_words(c, p),
            unit,
            carried_text(c.spec),
            version,
        )
        for p in plates(c)
    }


def sheet_files(
    c: Cylinder, how: How
) -> tuple[dict[str, bytes], dict[str, tuple[str, ...]], tuple[Finding, ...]]:
    """Compose the sheet, inspect it and write it.

    Gives the files by name, what each format leaves out, and what was found.
    """
    from drafting.drawing.compose.choose import compose
    from drafting.drawing.inspect.inspect import inspect
    from drafting.drawing.of_cylinder import sheet_job
    from drafting.drawing.write.writers import Options, write

    job = sheet_job(c, how.compared)
    job = replace(job, sheet=how.sheet or job.sheet, scale=how.scale or job.scale)
    sheet = compose(job)
    files: dict[str, bytes] = {}
    left_out: dict[str, tuple[str, ...]] = {}
    for word in how.sheet_words:
        written = write(sheet, word, c.name, Options("R2000" if how.dxf == "R12" else how.dxf))
        files |= written.files
        if written.losses:
            left_out[word] = written.losses
    return files, left_out, inspect(sheet, job)

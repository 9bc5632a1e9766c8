"""A candidate drawn over the original: body datums together, only what differs carries a size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from drafting.drawing.compose.choose import compose_over
from drafting.drawing.dimension.job import Job
from drafting.drawing.dimension.labels import measure, sign
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.sheet import Sheet
from drafting.drawing.write.writers import write
from drafting.files import safe_name
from drafting.model.cylinder import Cylinder
from drafting.replacing.judge import Comparison
from drafting.replacing.summary import summary
from drafting.settle.clock import hour, seen_from_base
from drafting.settle.wishes import Callout, Wish
from drafting.told.data_sheet import DataSheet
from drafting.told.printed import printed

FORMATS = ("svg", "pdf", "dxf")
SAME_MM = 0.02
MOST_SIZES = 18
"""So many sizes at most are called out; the table of the report has all."""
MOST_LETTERS = 800
"""Letters that the verdict and the jobs take above the title block, at the most."""
FIRST = ("body_mount", "rod_mount", "base_port", "rod_port")
LENGTHS = ("cylinder.retracted", "cylinder.extended", "cylinder.stroke")
STATEMENT = "COMPARISON. Not a design approval. Original in phantom, body datums together."


def overlay_files(old: Cylinder, new: Cylinder, found: Comparison) -> dict[str, bytes]:
    """Give the overlay as files by name."""
    stem = f"{safe_name(f'{old.name}-{new.name}', new.name)}-overlay"
    sheet = overlay(old, new, found)
    files: dict[str, bytes] = {}
    for word in FORMATS:
        files |= write(sheet, word, stem).files
    return files


def overlay(old: Cylinder, new: Cylinder, found: Comparison) -> Sheet:
    """Compose the sheet of both."""
    return compose_over(overlay_job(old, new), _notes(found))


def overlay_job(old: Cylinder, new: Cylinder) -> Job:
    """Give what the overlay draws: the candidate, the original beneath, the sizes that differ."""
    units = old.spec.units
    job = replace(sheet_job(new), dimensions=units)
    was = _differing(old, new, replace(sheet_job(old), dimensions=units))
    meta = {
        **job.meta,
        "title": f"{new.name} in place of {old.name}",
        "number": f"{old.name} / {new.name}",
        "revision": "",
        "document_type": "Comparison",
        "statement": STATEMENT,
    }
    return replace(
        job,
        wishes=tuple(w for w in job.wishes if w.name in was),
        was=was,
        beneath=(old.parts, old.at(old.lengths.stroke)),
        data=DataSheet(),
        findings=(),
        pins=(),
        phantoms=(),
        tolerances={},
        meta=meta,
    )


def _differing(old: Cylinder, new: Cylinder, job: Job) -> Mapping[str, str]:
    """Give what each size that differs was, in words; what meets the machine first."""
    before: dict[str, Wish] = {w.name: w for w in old.wishes}
    typed = {v.name for c in (old, new) for v in c.values if v.origin not in ("derived", "table")}
    found: dict[str, str] = {}
    for wish in sorted(new.wishes, key=lambda w: _weight(w.name)):
        if wish.name in found or wish.name not in typed:
            continue
        words = _was(before.get(wish.name), wish, job)
        if words.startswith("was ") and wish.name in before:
            words += _faced(old, wish.name, new.spec.word("cylinder.clock_seen_from") == "base")
        if words:
            found[wish.name] = words
    return dict(list(found.items())[:MOST_SIZES])


def _faced(old: Cylinder, name: str, from_base: bool) -> str:
    """Say where a port faced, as the new drawing reads clocks; empty for anything else."""
    table, _, field = name.rpartition(".")
    clock = old.value(f"{table}.clock_from_rod")
    if field != "thread" or clock is None or not isinstance(clock.value, float):
        return ""
    return f", {hour(seen_from_base(clock.value) if from_base else clock.value)}"


def _was(before: Wish | None, wish: Wish, job: Job) -> str:
    """Say what a size was, empty where it is the same."""
    if isinstance(wish, Callout):
        if not isinstance(before, Callout):
            return "was none" if before is None and wish.name.endswith("_port.thread") else ""
        return "" if before.lines == wish.lines else f"was {before.lines[0]}"
    if before is None or isinstance(before, Callout):
        return ""
    gap = measure(wish) - measure(before)
    if abs(gap) <= SAME_MM:
        return ""
    size, _ = printed(wish.name, measure(before), job.dimensions, job.fractions)
    words = f"was {sign(before)}{size}"
    if wish.name in LENGTHS:
        more, _ = printed(wish.name, abs(gap), job.dimensions, job.fractions)
        words += f", {'+' if gap > 0 else '-'}{more}"
    return words


def _weight(name: str) -> int:
    table = name.partition(".")[0]
    if table in FIRST:
        return FIRST.index(table)
    return len(FIRST) + (name not in LENGTHS)


def _notes(found: Comparison) -> Sequence[str]:
    """Give the verdict and the jobs: as the report has them, or in short where they are many."""
    said = summary(found)
    head = f"{said[:1].upper()}{said[1:]}."
    whole = [f"{k}  {job.text}" for k, job in enumerate(found.jobs, 1)]
    if len(head) + sum(map(len, whole)) <= MOST_LETTERS:
        return (head, *whole)
    brief = "; ".join(f"{k} {job.short}" for k, job in enumerate(found.jobs, 1))
    return (head, f"Jobs, in full in the report: {brief}")

"""All that the data sheet behind a drawing says of a cylinder."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from drafting.model.cylinder import Cylinder
from drafting.shape.mass import dry_mass
from drafting.told.border import sheet_cautions
from drafting.told.changes import Comparison
from drafting.told.data_rows import data_rows, names_of_fittings
from drafting.told.data_sheet import DataSheet, Held, Said
from drafting.told.drawn_by_rule import drawn_by_rule, size_label
from drafting.told.flags import DERIVED, MEASURED, change_mark, flags, legend
from drafting.told.from_memory import memory_notes
from drafting.told.held import body_head, held_rows, lengths_held, toward_base
from drafting.told.printed import printed, rounding, with_brackets

MEASURED_SAYS = "± behind M: how well it is known, 19 readings in 20; not a tolerance to build to."
UNITS = {"in": "inches", "mm": "mm"}


def data_of(
    c: Cylinder, dimensions: str, fractions: int, compared: Comparison | None = None
) -> DataSheet:
    """Give the data sheet; ``dimensions`` and ``fractions`` as the drawing has them."""
    held = held_rows(c, dimensions, fractions)
    ends = (said for row in held for said in (row.base, row.rod) if said is not None)
    named = (*(name for said in ends for name in said.names), *names_of_fittings(c))
    lengths, words = lengths_held(c, dimensions, fractions)
    notes, people = c.spec.get("notes"), c.spec.get("duty.lifts_people")
    said = notes.value if notes is not None and isinstance(notes.value, tuple) else ()

    sizes = (
        (v.name, size_label(c, v.name), float(v.value))
        for v in c.values
        if v.unit == "mm" and isinstance(v.value, int | float)
    )
    sheet = DataSheet(
        held=held,
        body=body_head(c),
        behind=toward_base(c),
        lengths=lengths,
        lengths_words=words,
        data=data_rows(c, dry_mass(c.parts), dimensions, fractions),
        ruled=drawn_by_rule(c, dimensions, fractions, frozenset(named)),
        notes=(
            *standing_notes(
                dimensions, flags(c.values).values(), rounding(fractions, bool(c.tolerances))
            ),
            *(str(t) for t in said),
            *_depths(c),
            *memory_notes(c),
        ),
        cautions=sheet_cautions(people is not None and people.value is True, c.action.spring),
        general=c.spec.word("drawing.general_tolerance") or "",
        changes=compared.rows(w.name for w in c.wishes) if compared else (),
        said=(*named, "cylinder.bore", "cylinder.rod", "cylinder.retracted", "cylinder.stroke"),
        sizes=tuple(
            (n, label, with_brackets(*printed(n, size, dimensions, fractions)))
            for n, label, size in sizes
        ),
    )
    if compared is None:
        return sheet
    changed = frozenset(change.name for change in compared.changes)
    return _marked(sheet, changed, change_mark(c.spec.word("revision") or ""))


def _marked(sheet: DataSheet, changed: frozenset[str], mark: str) -> DataSheet:
    """Put the mark of a revision behind what it ``changed``, as on the drawing."""

    def text(words: str, names: Iterable[str]) -> str:
        return f"{words} {mark}" if words and not changed.isdisjoint(names) else words

    def said(found: Said) -> Said:
        return replace(found, text=text(found.text, found.names))

    def held(row: Held) -> Held:
        base, rod = (end and said(end) for end in (row.base, row.rod))
        return replace(row, base=base, rod=rod)

    return replace(
        sheet,
        held=tuple(map(held, sheet.held)),
        lengths=tuple((label, said(length)) for label, length in sheet.lengths),
        data=tuple((label, said(row)) for label, row in sheet.data),
        ruled=tuple(replace(r, text=text(r.text, r.names)) for r in sheet.ruled),
        sizes=tuple((n, label, text(size, (n,))) for n, label, size in sheet.sizes),
    )


def _depths(c: Cylinder) -> tuple[str, ...]:
    """Say who decides the depths that no table gives."""
    if not any(len(p.thread.callout) > 2 for p in c.ports):
        return ()
    return ("Depths of port threads, tap drills and bolt threads: by the builder.",)


def standing_notes(dimensions: str, flagged: Iterable[str], rounded: str) -> tuple[str, ...]:
    """Say the units, what brackets mean and to what they are ``rounded``, and what the flags."""
    main, _, other = dimensions.partition(" ")
    words = f"Sizes in {UNITS[main]}"
    if other:
        unit = other.strip("[]")
        words += f", [{unit}] for information"
        words += f", {rounded}" if unit == "mm" else " to .001"
    used = {DERIVED, *flagged}
    return (
        f"{words}; in (parentheses) for reference. {legend(used)}",
        *((MEASURED_SAYS,) if MEASURED in used else ()),
    )

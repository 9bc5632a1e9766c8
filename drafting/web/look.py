"""What the page shows of a spec's text: lengths, sizes, sheets, verdicts, or what does not go."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from hashlib import sha256
from typing import Any

from drafting.checks.of_cylinder import Judgement, judge
from drafting.drawing.compose.screen import views_alone
from drafting.drawing.of_cylinder import sheet_job
from drafting.drawing.sheet.sheet import Sheet
from drafting.drawing.write.svg import svg_bytes, view_bytes
from drafting.errors import Fault, Refused
from drafting.factors import KINDS
from drafting.jobs.draw import How, draw_cylinder
from drafting.jobs.letters import with_letters
from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load
from drafting.reports.verdicts import deciding, headline, judged, line
from drafting.shape.mass import dry_mass
from drafting.spec.edit import edited, field_of
from drafting.told.readings import plain
from drafting.units import both
from drafting.values import Finding
from drafting.web.parts import REST

_ONCE = re.compile(rb"<\?xml[^>]*\?>\s*|<metadata>.*?</metadata>|@font-face\{[^}]*\}\s*", re.DOTALL)
"""What a page needs no second time: its head, the spec, the letters."""
_BARE = re.compile(r"[-+]?[0-9][0-9 ./-]*")
"""A number without a unit."""
POUND = float(KINDS["mass"].factors["lb"])
"""kg."""
_TABS = 8
"""So many views are kept for what follows them."""
_kept: dict[str, Sheet] = {}
LENGTHS = ("retracted", "extended", "stroke")
FILE = "cylinder.toml"
"""What the text is called, and what is made of it where no number is typed."""


def changed(text: str, values: Mapping[str, str | None]) -> str:
    """Give the text with values put in or taken out; raises Refused for what is no TOML.

    Where a bare number is to mean another unit, what is typed bare is given the one that it had.
    """
    from tomlkit.exceptions import TOMLKitError

    try:
        if values.get("units"):
            was = as_typed(text) or {}
            if was.get("units") in ("in", "mm") and was["units"] != values["units"]:
                values = {**_with_unit(was, was["units"]), **values}
        return edited(text, values)
    except TOMLKitError as wrong:
        message = f"the text cannot be changed before this is mended: {wrong}"
        raise Refused([Fault(FILE, 1, 1, "not-toml", "", message)]) from None


def as_typed(text: str) -> dict[str, str] | None:
    """Give what is typed by dotted name, whether it goes or not; None for what is no TOML."""
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    try:
        return dict(_flat(tomlkit.parse(text.lstrip("\ufeff")), ""))
    except (TOMLKitError, RecursionError):
        return None


def _flat(table: Any, before: str) -> Iterator[tuple[str, str]]:
    for key, value in table.items():
        name = f"{before}{key}"
        if isinstance(value, dict):
            yield from _flat(value, f"{name}.")
        elif isinstance(value, bool | str):
            yield name, str(value).lower() if isinstance(value, bool) else value
        else:
            yield name, value.as_string() if hasattr(value, "as_string") else str(value)


def _with_unit(typed: Mapping[str, str], unit: str) -> dict[str, str]:
    """Give the lengths that were typed without a unit, with it."""
    out = {}
    for name, value in typed.items():
        field = field_of(name)
        kind = field.kind if field else ""
        if kind in ("length", "word or length", "pair", "pair or length"):
            sizes = [s.strip(" \"'") for s in value.strip("[] ").split(",")]
            if all(_BARE.fullmatch(s) for s in sizes):
                out[name] = " x ".join(f"{s} {unit}" for s in sizes)
    return out


def loaded(text: str) -> Cylinder:
    """Settle a text; raises Refused with all that does not go."""
    return load(checked(text.encode("utf-8", "surrogatepass"), FILE))


def look(text: str, after: str = "") -> Iterator[dict[str, Any]]:
    """Give what a page shows of a text, in parts: the sizes, the views; at rest the verdicts.

    ``after`` is the key of the views that the page has: their outlines follow before their sizes.
    A text that does not go has one part, with its faults. Later parts stand beside the first.
    """
    try:
        c = with_letters(loaded(text))
    except Refused as refused:
        typed = as_typed(text)
        yield {"text": text, "faults": [_fault(f) for f in refused.faults], "typed": typed}
        return
    yield {"text": text, "faults": [], **_sizes(c)}
    before = _kept.get(after)
    for step in views_alone(sheet_job(c), before):
        if step.sheet:
            svg = svg_bytes(step.sheet)
            yield {"views": _inline(svg), "key": _keep(step.sheet, svg)}
        elif step.outline and before:
            yield {"outline": _inline(view_bytes(before, step.outline))}
        else:
            yield {"views": None}
    yield REST
    found = judge(c)
    yield {
        "verdict": _verdict(c, found),
        "findings": [_finding(f) for f in (*c.findings, *found.findings)],
    }


def _keep(sheet: Sheet, svg: bytes) -> str:
    """Keep views for what follows them; the oldest are forgotten."""
    key = sha256(svg).hexdigest()[:16]
    _kept[key] = _kept.pop(key, sheet)
    while len(_kept) > _TABS:
        del _kept[next(iter(_kept))]
    return key


def sheets(text: str) -> Iterator[dict[str, Any]]:
    """Give the sheets of a text as they print, and what was found on them."""
    drawn = draw_cylinder(loaded(text), How(("svg",)))
    yield {
        "sheets": [_inline(d) for d in drawn.files.values()],
        "on_sheets": [_finding(f) for f in drawn.findings],
    }


def _inline(svg: bytes) -> str:
    """Give a sheet as an element of the page, which has its letters and its text already."""
    return _ONCE.sub(b"", svg).decode()


def _sizes(c: Cylinder) -> dict[str, Any]:
    units, n = c.spec.units, c.lengths
    mass = dry_mass(c.parts)
    pounds, kilos = f"{mass / POUND:.0f} lb", f"{mass:.1f} kg"
    return {
        "name": c.name,
        "title": c.spec.word("title") or "",
        "units": units,
        "lengths": {w: _length(c, getattr(n, w)) for w in LENGTHS},
        "weight": f"{pounds} ({kilos})" if units == "in" else f"{kilos} ({pounds})",
        "values": {v.name: _value(c, v.value, v.unit, v.origin, v.why) for v in c.values},
        "typed": {name: given.typed for name, given in c.spec.givens.items()},
    }


def _fault(f: Fault) -> dict[str, Any]:
    return {"field": f.field, "line": f.line, "code": f.code, "message": plain(f.message)}


def _finding(f: Finding) -> dict[str, Any]:
    return {"level": f.level, "field": f.field, "message": plain(f.message)}


def _length(c: Cylinder, mm: float) -> dict[str, Any]:
    return {"mm": round(mm, 4), "words": both(mm, c.spec.units)}


def _value(c: Cylinder, value: object, unit: str, origin: str, why: str) -> dict[str, Any]:
    words = (
        both(float(value), c.spec.units) if unit == "mm" and isinstance(value, int | float) else ""
    )
    return {"words": words, "origin": origin, "why": why}


def _verdict(c: Cylinder, j: Judgement) -> dict[str, Any]:
    errors = sum(f.level == "error" for f in (*c.findings, *j.findings))
    word, sentence = headline(j.checks, errors)
    lines = [line(k, c.spec.units) for k in judged(j.checks)]
    fields = [[d.field for d in deciding(k)] for k in judged(j.checks)]
    return {
        "word": word,
        "sentence": sentence,
        "refusal": j.cautions.refusal,
        "checks": [
            {"check": n.check, "factor": n.factor, "asked": n.asked, "verdict": n.verdict,
             "decides": n.decides, "fields": f}
            for n, f in zip(lines, fields, strict=True)
        ],
        "cautions": list(j.cautions.texts),
    }  # fmt: skip

"""What the page shows of a spec's text: lengths, sizes, sheets, verdicts, or what does not go."""

from __future__ import annotations

import re
from typing import Any

from drafting.checks.of_cylinder import judge
from drafting.errors import Fault, Refused
from drafting.jobs.draw import How, draw_cylinder
from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load
from drafting.reports.verdicts import headline, judged, line
from drafting.spec.edit import edited
from drafting.told.readings import plain
from drafting.units import both

_XML = re.compile(rb"<\?xml[^>]*\?>\s*")
_METADATA = re.compile(rb"<metadata>.*?</metadata>", re.DOTALL)
LENGTHS = ("retracted", "extended", "stroke")
FILE = "the spec"
"""What messages call the text."""


def changed(text: str, values: dict[str, str | None]) -> str:
    """Give the text with values put in or taken out; raises Refused for what is no TOML."""
    from tomlkit.exceptions import TOMLKitError

    try:
        return edited(text, values)
    except TOMLKitError as wrong:
        message = f"the text cannot be changed before this is mended: {wrong}"
        raise Refused([Fault(FILE, 1, 1, "not-toml", "", message)]) from None


def loaded(text: str) -> Cylinder:
    """Settle a text; raises Refused with all that does not go."""
    return load(checked(text.encode("utf-8", "surrogatepass"), FILE))


def look(text: str) -> dict[str, Any]:
    """Give what a page shows of a text."""
    try:
        c = loaded(text)
    except Refused as refused:
        faults = [
            {"field": f.field, "line": f.line, "code": f.code, "message": plain(f.message)}
            for f in refused.faults
        ]
        return {"text": text, "faults": faults}
    drawn = draw_cylinder(c, How(("svg",)))
    return {
        "text": text,
        "faults": [],
        "name": c.name,
        "title": c.spec.word("title") or "",
        "units": c.spec.units,
        "lengths": {
            w: _length(c, getattr(c.lengths, w)) for w in ("retracted", "extended", "stroke")
        },
        "values": {v.name: _value(c, v.value, v.unit, v.origin, v.why) for v in c.values},
        "typed": {name: given.typed for name, given in c.spec.givens.items()},
        "findings": [
            {"level": f.level, "field": f.field, "message": plain(f.message)}
            for f in drawn.findings
        ],
        "verdict": _verdict(c),
        "sheets": [_METADATA.sub(b"", _XML.sub(b"", d)).decode() for d in drawn.files.values()],
    }


def _length(c: Cylinder, mm: float) -> dict[str, Any]:
    return {"mm": round(mm, 4), "words": both(mm, c.spec.units)}


def _value(c: Cylinder, value: object, unit: str, origin: str, why: str) -> dict[str, Any]:
    words = (
        both(float(value), c.spec.units) if unit == "mm" and isinstance(value, int | float) else ""
    )
    return {"words": words, "origin": origin, "why": why}


def _verdict(c: Cylinder) -> dict[str, Any]:
    j = judge(c)
    errors = sum(f.level == "error" for f in (*c.findings, *j.findings))
    word, sentence = headline(j.checks, errors)
    lines = [line(k, c.spec.units) for k in judged(j.checks)]
    fields = [[d.field for d in k.depends_on] for k in judged(j.checks)]
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

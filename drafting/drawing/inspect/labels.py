"""Labels that tell another size than their dimension measures, claims, or has in the spec.

Code: ``sheet-label-unlike-size``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from math import cos, radians, sin

import numpy as np

from drafting.drawing.dimension.job import Job
from drafting.drawing.sheet.sheet import Linear, Note, Round, Sheet, Whole
from drafting.factors import Misread
from drafting.units import read_length
from drafting.values import Finding

_MEASURED = 0.01
"""How far (mm) a measured length may lie from the size that the label claims."""
_PRINTED = {"in": 25.4 * 0.00051, "mm": 0.0051}
"""Half of the last printed place, in mm: three decimals of an inch, two of a millimetre."""
_BRACKETED = {"in": 25.4 * 0.00051, "mm": 0.0501}
"""The same of the unit in brackets: of a millimetre one decimal."""
_ABOUT = {"in": 25.4 * 0.0051, "mm": 0.0501}
"""The same in parentheses: two decimals of an inch, one of a millimetre."""
_IN_PARENTHESES = re.compile(r"[^0-9]*\(")
_NUMBER = re.compile(r"(?:[0-9]+ )?[0-9]+/[0-9]+|[0-9]*\.?[0-9]+")


def labels(sheet: Sheet, job: Job | None) -> Iterable[Finding]:
    """Compare what a dimension measures, what it claims, what it prints, and the field's value."""
    fields = {
        v.name: v.value
        for v in (job.values if job else ())
        if v.unit == "mm" and isinstance(v.value, float)
    }
    for view in sheet.views:
        for d in view.dimensions:
            if isinstance(d, Note):
                continue
            measured = _measured(d, view.whole)
            if abs(measured - d.measure_mm) > _MEASURED:
                yield _unlike(d.name, f"measures {measured:.3f} mm on the sheet", d)
            other = "mm" if sheet.units == "in" else "in"
            numbers = [(d.texts[0], sheet.units), *((t, other) for t in d.texts if t[0] == "[")]
            for text, unit in numbers:
                shown = printed(text, unit)
                if shown is None or abs(shown - d.measure_mm) > _slack(text)[unit]:
                    yield _unlike(d.name, f'prints "{text}"', d)
            field = fields.get(d.name)
            if field is not None and abs(abs(field) - d.measure_mm) > _MEASURED:
                yield _unlike(d.name, f"is {field:.3f} mm in the spec", d)


def _slack(text: str) -> Mapping[str, float]:
    if text[0] == "[":
        return _BRACKETED
    return _ABOUT if _IN_PARENTHESES.match(text) else _PRINTED


def _unlike(name: str, what: str, d: Linear | Round) -> Finding:
    return Finding(
        "sheet-label-unlike-size",
        "warning",
        name,
        f"the dimension {name} {what}, but stands for {d.measure_mm:.3f} mm",
    )


def _measured(d: Linear | Round, whole: Whole | None) -> float:
    if isinstance(d, Round):
        rim = float(np.hypot(d.tip[0] - d.centre[0], d.tip[1] - d.centre[1]))
        return 2 * rim if d.kind == "diameter" else rim
    turn = radians(d.angle)
    a, b = (whole.breaks.true_point(p) if whole else p for p in (d.a, d.b))
    return abs((b[0] - a[0]) * cos(turn) + (b[1] - a[1]) * sin(turn))


def printed(text: str, unit: str) -> float | None:
    """Read the number on a label back, in mm; None where there is none."""
    number = _NUMBER.search(text)
    if not number:
        return None
    try:
        return float(Fraction(read_length(number[0].strip(), unit)))
    except Misread:
        return None

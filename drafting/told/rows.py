"""The rows of ``--json``: what a program reads of a cylinder."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from drafting import __version__
from drafting.errors import Fault, Refused
from drafting.model.cylinder import Cylinder
from drafting.model.load import load, read
from drafting.settle.tolerance import Tolerance, tolerance_of
from drafting.told.length_stack import LengthStack, length_stack
from drafting.values import Finding, Value

TOOL = f"cylinder-drafting {__version__}"


def load_all(paths: Sequence[str], shop: str | None = None) -> tuple[Cylinder, ...]:
    """Read and settle every spec; one refusal refuses all, and so do two of one name.

    ``shop`` is a file of company defaults, None for the one beside each spec.
    """
    cylinders, faults = load_each(paths, shop)
    if faults:
        raise Refused(faults)
    return cylinders


def load_each(
    paths: Sequence[str], shop: str | None = None
) -> tuple[tuple[Cylinder, ...], tuple[Fault, ...]]:
    """Read and settle every spec that can be; gives them, and the faults of the others.

    Of two specs of one name the first is kept.
    """
    cylinders: dict[str, Cylinder] = {}
    faults: list[Fault] = []
    for path in paths:
        try:
            c = load(read(path, shop))
        except Refused as refused:
            faults += [f for f in refused.faults if f not in faults]
            continue
        other = cylinders.setdefault(c.name.casefold(), c).spec.file
        if other != c.spec.file:
            faults.append(
                c.spec.fault(
                    "same-name",
                    "number",
                    f'"{c.name}" is also the name of {other}; give each its own number',
                )
            )
    return tuple(cylinders.values()), tuple(faults)


def value_row(v: Value, held: Tolerance | None = None) -> dict[str, Any]:
    """Give one value with its origin; the key of the size names its unit.

    ``held`` is its tolerance; deviations that no table has are null.
    """
    row: dict[str, Any] = {"name": v.name}
    size = round(v.value, 6) if isinstance(v.value, float) else v.value
    row[f"value_{v.unit}" if v.unit else "value"] = size
    row |= {"typed": v.typed, "origin": v.origin, "why": v.why}
    if v.source:
        row["source"] = v.source
    if v.plus_minus is not None:
        row["plus_minus_mm"] = round(v.plus_minus, 6)
    if held is not None:
        row["tolerance"] = {
            "typed": held.typed,
            "lower_mm": None if held.lower is None else round(held.lower, 6),
            "upper_mm": None if held.upper is None else round(held.upper, 6),
            "why": held.why,
        }
    return row


def finding_row(f: Finding) -> dict[str, str]:
    """Give one finding."""
    return {
        "code": f.code,
        "level": f.level,
        "field": f.field,
        "message": f.message,
        "source": f.source,
    }


def common_rows(c: Cylinder, findings: Iterable[Finding]) -> dict[str, Any]:
    """Give lengths, values and findings, which every document of a cylinder holds."""
    return {
        "lengths": {
            "stroke_mm": round(c.lengths.stroke, 6),
            "retracted_mm": round(c.lengths.retracted, 6),
            "extended_mm": round(c.lengths.extended, 6),
        },
        "values": [value_row(v, tolerance_of(c.tolerances, v.name)) for v in c.values],
        "retracted_stack": stack_row(length_stack(c)),
        "findings": [finding_row(f) for f in findings],
    }


def stack_row(s: LengthStack) -> dict[str, Any]:
    """Give what the tolerances of the retracted length's chain add up to (mm, lower first)."""

    def pair(band: tuple[float, float] | None) -> list[float] | None:
        return None if band is None else [round(b, 6) for b in band]

    return {
        "asked_mm": pair(s.asked),
        "worst_case_mm": pair(s.worst) if s.counted else None,
        "root_sum_square_mm": pair(s.likely) if s.counted else None,
        "counted": [{"name": k.name, "share": k.share} for k in s.counted],
        "not_counted": list(s.left_out),
    }


def draw_entry(c: Cylinder, files: Sequence[str], findings: Sequence[Finding]) -> dict[str, Any]:
    """Give one cylinder of ``draw --json`` and of NAME.json."""
    from drafting.shape.mass import dry_mass

    out, back = c.action.oil(c.stations.bore, c.stations.rod, c.lengths.stroke)
    return {
        "spec": c.spec.file,
        "name": c.name,
        "files": list(files),
        **common_rows(c, findings),
        "mass_kg": round(dry_mass(c.parts), 3),
        "oil_extend_l": round(out, 4),
        "oil_retract_l": round(back, 4),
        "tool": TOOL,
        "spec_text": c.spec.text,
        "input_sha256": c.spec.sha256,
        **({"shop_file": c.spec.shop.file, "shop_text": c.spec.shop.text} if c.spec.shop else {}),
    }

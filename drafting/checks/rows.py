"""The rows of ``check --json``."""

from __future__ import annotations

from typing import Any

from drafting.checks.check import Check, Decides, LoadCase
from drafting.checks.of_cylinder import Judgement
from drafting.model.cylinder import Cylinder
from drafting.told.rows import common_rows


def check_row(check: Check) -> dict[str, Any]:
    """Give one check; ``ok`` is null where there is no verdict."""
    return {
        "code": check.code,
        "name": check.name,
        "verdict": check.verdict,
        "factor": _rounded(check.factor),
        "factor_from": _rounded(check.factor_from),
        "factor_to": _rounded(check.factor_to),
        "provided": _rounded(check.provided),
        "required": _rounded(check.required),
        "why_required": check.why_asked,
        "unit": check.unit,
        "ratio": _rounded(check.ratio),
        "ok": check.ok,
        "depends_on": [d.field for d in check.depends_on],
        "would_do": [_would_do(d) for d in check.depends_on],
        "case": check.case,
        "source": check.source,
        "note": check.note,
    }


def _would_do(d: Decides) -> dict[str, Any]:
    value = d.would_do if isinstance(d.would_do, str) else _rounded(d.would_do)
    return {"field": d.field, "sense": d.sense, "value": value, "unit": d.unit, "words": d.words}


def case_row(case: LoadCase) -> dict[str, Any]:
    """Give one load case; forces in N, pressures in MPa, push above zero."""
    return {
        "code": case.code,
        "name": case.name,
        "rod_n": _rounded(case.rod),
        "gland_n": _rounded(case.gland),
        "base_mpa": _rounded(case.base),
        "rod_side_mpa": _rounded(case.rod_side),
        "decided_by": case.decided_by,
        "avoided": case.avoided,
        "lines": [{"name": x.name, "value": _rounded(x.value), "unit": x.unit} for x in case.lines],
        "source": case.source,
    }


def _rounded(number: float | None) -> float | None:
    return None if number is None else float(f"{number:.6g}")


def check_entry(c: Cylinder, judged: Judgement) -> dict[str, Any]:
    """Give one cylinder of ``check --json``."""
    return {
        "spec": c.spec.file,
        "name": c.name,
        **common_rows(c, (*c.findings, *judged.findings)),
        "cases": [case_row(case) for case in judged.cases],
        "checks": [check_row(k) for k in judged.checks],
        "open": [
            {"field": q.field, "weight": q.weight, "question": q.question, "why": q.why}
            for q in judged.questions
        ],
        "cautions": [t for t in (judged.cautions.refusal, *judged.cautions.texts) if t],
    }

"""A settled cylinder as the checks see it, and what they say of it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Literal

from drafting.checks.all import all_checks
from drafting.checks.cautions import Cautions, cautions
from drafting.checks.check import Check, LoadCase
from drafting.checks.completeness import Question, open_questions
from drafting.checks.holding import falling_load
from drafting.checks.materials import (
    ASSUMED_MOUNT,
    ASSUMED_PIN,
    ASSUMED_ROD,
    material,
    ordinary_tube,
    stated,
)
from drafting.checks.numbers import (
    Axis,
    BaseWeld,
    CylinderNumbers,
    Duty,
    EndMount,
    Gland,
    Number,
    TieRods,
)
from drafting.checks.unused import unused
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.standards.threads import ThreadWordError, parse_thread
from drafting.told.length_stack import length_stack
from drafting.values import Finding, Value

PIVOTS = ("clevis", "cross tube", "pin eye", "trunnion")
TIE_ROD_COUNT = 4
SIZES = (
    "pin",
    "hole",
    "width",
    "gap",
    "nose",
    "outside",
    "shoulders",
    "weld_leg",
    "weld_run",
)
"""What the checks ask of a mount."""


@dataclass(frozen=True, slots=True)
class Judgement:
    """What the checks say: verdicts, what a person must look at, open questions, cautions."""

    numbers: CylinderNumbers
    checks: tuple[Check, ...]
    cases: tuple[LoadCase, ...]
    findings: tuple[Finding, ...]
    questions: tuple[Question, ...]
    cautions: Cautions


def judge(c: Cylinder) -> Judgement:
    """Run every check on a cylinder, and find what was typed for nothing."""
    found = _judge(c)

    def said(other: Cylinder) -> object:
        return replace(_judge(other), numbers=found.numbers)

    return replace(found, findings=(*found.findings, *unused(c, said)))


def _judge(c: Cylinder) -> Judgement:
    numbers = cylinder_numbers(c)
    spring = c.spec.word("cylinder.return") == "spring"
    checks = tuple(all_checks(numbers))
    return Judgement(
        numbers,
        checks,
        (),
        (*falling_load(numbers), *_unknown_metals(c), *_wide_stack(c)),
        open_questions(numbers),
        cautions(numbers, spring),
    )


def _wide_stack(c: Cylinder) -> list[Finding]:
    """Tell where the chain's tolerances go beyond what the retracted length is to hold."""
    s = length_stack(c)
    if not s.too_wide:
        return []
    counted = ", ".join(k.name for k in s.counted)
    message = (
        f"the tolerances of {counted} alone add up to {s.worst[1]:+.3f} / {s.worst[0]:+.3f} mm, "
        "more than is asked of the retracted length; narrow them, or let the builder fit the length"
    )
    return [Finding("stack-too-wide", "warning", "cylinder.retracted", message, "arithmetic")]


def _unknown_metals(c: Cylinder) -> list[Finding]:
    """Give a finding for each typed material of which no grade is in the table."""
    found = []
    for part in ("rod", "barrel", "pin", "mount"):
        name = f"cylinder.{part}_material"
        words = c.spec.word(name)
        if words and stated(name, words) is None:
            message = (
                f'no grade with a known yield in "{words}"; the checks assume an ordinary steel '
                "and judge nothing by it"
            )
            found.append(Finding("unknown-material", "note", name, message))
    return found


def cylinder_numbers(c: Cylinder) -> CylinderNumbers:
    """Give the numbers of a cylinder, each with its origin."""
    s, spec = c.stations, c.spec
    rod_metal = material("cylinder.rod_material", spec.word("cylinder.rod_material"), ASSUMED_ROD)
    tube_metal = material(
        "cylinder.barrel_material", spec.word("cylinder.barrel_material"), ordinary_tube(spec.units)
    )
    face = _worst(c, "cylinder.rod_stick_out", "rod_mount.offset")
    return CylinderNumbers(
        bore=_number(c, "cylinder.bore", s.bore),
        rod=_number(c, "cylinder.rod", s.rod),
        stroke=_number(c, "cylinder.stroke", c.lengths.stroke),
        barrel_outside=_number(c, "cylinder.barrel_outside", s.barrel_outside),
        body_pivot=Number("body datum", 0.0),
        gland_face=Number("gland face", s.gland_face, face),
        rod_pivot=_number(c, "cylinder.retracted", c.lengths.retracted),
        body=_mount(c, "body"),
        rod_end=_mount(c, "rod"),
        barrel_material=tube_metal,
        rod_material=rod_metal,
        pin_material=material("pin", spec.word("cylinder.pin_material"), ASSUMED_PIN),
        mount_material=material("mount", spec.word("cylinder.mount_material"), ASSUMED_MOUNT),
        tube_share=_tube_share(c),
        retracted=_number(c, "cylinder.retracted", c.lengths.retracted),
        construction=spec.word("cylinder.construction") or "welded",
        action=c.action.word,
        piston="displacement" if c.action.displacement else "sealed",
        working_pressure=_maybe(c, "cylinder.working_pressure"),
        relief_pressure=_maybe(c, "cylinder.relief_pressure"),
        proof_pressure=_maybe(c, "cylinder.proof_pressure"),
        base_thickness=_maybe(c, "cylinder.base_thickness"),
        gland=_gland(c),
        base_weld=_base_weld(c),
        tie_rods=_tie_rods(c),
        port_bores={
            p.end: Number(f"{p.table} drilling", p.sizes.passage, "derived", "as drawn")
            for p in c.ports
        },
        duty=_duty(c),
        said=frozenset(spec.givens),
    )


def _number(c: Cylinder, name: str, size: float) -> Number:
    """Give a size with the origin of its value."""
    known = c.value(name)
    return Number(name, size, known.origin, known.why) if known else Number(name, size, "computed")


def _maybe(c: Cylinder, name: str) -> Number | None:
    known = c.value(name)
    if known is not None and isinstance(known.value, float):
        return Number(name, known.value, known.origin, known.why)
    typed = c.spec.number(name)
    return None if typed is None else Number(name, typed)


def _worst(c: Cylinder, *names: str) -> Literal["derived", "computed"]:
    """Tell whether a place rests on a size that was derived."""
    known: list[Value] = [v for v in map(c.value, names) if v is not None]
    return "derived" if any(v.origin in ("derived", "table") for v in known) else "computed"


def _mount(c: Cylinder, end: Literal["body", "rod"]) -> EndMount:
    table, word = f"{end}_mount", c.mounts[end]
    axis: Axis | None = None
    if word == "ball swivel":
        axis = "ball"
    elif word in PIVOTS:
        turned = c.turned % 180.0 if end == "rod" else 0.0
        axis = "y" if turned == 0.0 else "z" if turned == 90.0 else "skew"
    thread = None
    unified = False
    typed = c.spec.word(f"{table}.thread")
    if typed:
        try:
            found = parse_thread(typed)
            thread = (
                Number(f"{table}.thread", found.major_mm),
                Number(f"{table}.thread", found.pitch_mm),
            )
            unified = not found.metric
        except ThreadWordError:
            thread = None
    sizes: dict[str, Any] = {word: _maybe(c, f"{table}.{word}") for word in SIZES}
    held = bool(c.spec.get(f"{table}.held") and c.spec.givens[f"{table}.held"].value)
    return EndMount(end, word, axis, held, thread=thread, unified=unified, **sizes)


def _gland(c: Cylinder) -> Gland:
    held_by = c.spec.word("cylinder.gland") or ""
    typed = c.spec.word("cylinder.gland_thread")
    if not typed:
        return Gland(held_by)
    try:
        thread = parse_thread(typed)
    except ThreadWordError:
        return Gland(held_by)
    return Gland(
        held_by,
        Number("cylinder.gland_thread", thread.major_mm),
        Number("cylinder.gland_thread", thread.pitch_mm),
        _maybe(c, "cylinder.gland_engaged"),
    )


def _base_weld(c: Cylinder) -> BaseWeld | None:
    fillet, groove = _maybe(c, "cylinder.base_weld"), _maybe(c, "cylinder.base_groove")
    if fillet is not None:
        return BaseWeld("fillet", fillet)
    return None if groove is None else BaseWeld("groove", groove)


def _tie_rods(c: Cylinder) -> TieRods | None:
    typed = c.spec.word("cylinder.tie_rod")
    if (c.spec.word("cylinder.construction") or "welded") != "tie rod" or not typed:
        return None
    thread = parse_thread(typed)
    s = c.stations
    return TieRods(
        Number("tie rods", TIE_ROD_COUNT, "computed"),
        Number("cylinder.tie_rod", thread.major_mm),
        Number("cylinder.tie_rod", thread.pitch_mm),
        Number("tie rod length", s.barrel_end - s.closed_end, "derived"),
        unified=not thread.metric,
        preload=_maybe(c, "cylinder.tie_rod_preload"),
    )


def _duty(c: Cylinder) -> Duty:
    spec = c.spec
    words = ("pressure", "flow", "push", "pull", "mass", "return_pressure", "safety_factor")
    sizes: dict[str, Any] = {word: _maybe(c, f"duty.{word}") for word in words}
    people, guided = spec.get("duty.lifts_people"), spec.get("duty.load_guided")
    return Duty(
        **sizes,
        angle=_maybe(c, "duty.angle"),
        load_guided=None if guided is None else bool(guided.value),
        orientation=spec.word("duty.orientation") or "",
        lifts_people=bool(people is not None and people.value),
    )


def _tube_share(c: Cylinder) -> float:
    """How much of a longer stroke lengthens the barrel between the body's datum and the gland."""
    if c.mounts["body"] not in ("trunnion", "flange", "foot"):
        return 1.0
    position = c.spec.word("body_mount.position")
    return {"rod end": 0.0, "middle": 0.5}.get(position or "", 1.0)

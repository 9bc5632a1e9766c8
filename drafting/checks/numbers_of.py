"""A settled cylinder as the checks see it: each number with its origin."""

from __future__ import annotations

import re
from typing import Any, Literal

from drafting.checks.numbers import Axis, CylinderNumbers, Duty, EndMount, Number, Thread
from drafting.checks.steels import Steel, steel
from drafting.model.catalog import mount_types
from drafting.model.cylinder import Cylinder
from drafting.standards.table import table
from drafting.standards.threads import ThreadWordError, parse_thread

PARTS = ("rod", "barrel", "pin", "gland", "tie_rod", "weld")
USUAL = {"barrel": "tube", "tie_rod": "tie rod"}
"""What the table of usual steels calls a part."""
REACH = ("cylinder.rod_stick_out", "rod_mount.offset")
"""What stands between the gland's face and the rod's datum."""


def cylinder_numbers(c: Cylinder) -> CylinderNumbers:
    """Give the numbers of a cylinder."""
    s, spec = c.stations, c.spec
    sizes = _sizes(c)
    construction = spec.word("cylinder.construction") or "welded"
    return CylinderNumbers(
        bore=_number(c, "cylinder.bore", s.bore),
        rod=_number(c, "cylinder.rod", s.rod),
        stroke=_number(c, "cylinder.stroke", c.lengths.stroke),
        barrel_outside=_number(c, "cylinder.barrel_outside", s.barrel_outside),
        body_pivot=Number("body datum", 0.0),
        gland_face=Number("gland face", s.gland_face, "computed"),
        rod_pivot=_number(c, "cylinder.retracted", c.lengths.retracted),
        body=_mount(c, "body"),
        rod_end=_mount(c, "rod"),
        steels=_steels(c, construction),
        sizes=sizes,
        rod_reach=tuple(f for f in REACH if f in sizes),
        tube_share=c.carried["body"].tube_share,
        construction=construction,
        action=c.action.word,
        spring=c.action.spring,
        piston="displacement" if c.action.displacement else "sealed",
        working_pressure=sizes.get("cylinder.working_pressure"),
        relief_pressure=sizes.get("cylinder.relief_pressure"),
        proof_pressure=sizes.get("cylinder.proof_pressure"),
        gland=spec.word("cylinder.gland") or "",
        gland_thread=_thread(c, "cylinder.gland_thread"),
        tie_rod=_thread(c, "cylinder.tie_rod"),
        tie_rod_length=s.barrel_end - s.closed_end,
        port_bores={
            p.end: Number(f"{p.table} drilling", p.sizes.passage, "derived", "as drawn")
            for p in c.ports
        },
        port_ratings=_ratings(c),
        duty=_duty(c, sizes),
        said=frozenset(spec.givens),
        old=any(v.origin == "measured" for v in c.values),
    )


def _sizes(c: Cylinder) -> dict[str, Number]:
    """Give every size by its field: settled, typed for the checks, or taken for them."""
    sizes = {
        t.field: Number(t.field, t.value, t.origin, t.why)
        for carried in c.carried.values()
        for t in carried.taken
    }
    for name, given in c.spec.givens.items():
        if isinstance(given.value, int | float) and not isinstance(given.value, bool):
            told = c.spec.origin(name)
            origin = told.kind if told else "given"
            sizes[name] = Number(name, float(given.value), origin)
        elif name.endswith(".thread"):
            sizes[name] = Number(name, 1.0)
    for v in c.values:
        if isinstance(v.value, int | float) and not isinstance(v.value, bool):
            sizes[v.name] = Number(v.name, float(v.value), v.origin, v.why)
        elif v.name.endswith(".thread"):
            sizes[v.name] = Number(v.name, 1.0, v.origin, v.why)
    return sizes


def _steels(c: Cylinder, construction: str) -> dict[str, Steel]:
    """Give the metals by part; a tie-rod cylinder's cap may be cast, and the mount with it."""
    found = {}
    for part in PARTS:
        field = f"cylinder.{part}_material"
        found[part] = steel(field, USUAL.get(part, part), c.spec.word(field))
    field = "cylinder.mount_material"
    words = c.spec.word(field)
    found["rod_mount"] = found["mount"] = steel(field, "mount", words)
    cast = construction == "tie rod" and not found["mount"].typed
    found["body_mount"] = steel(field, "cap", words) if cast else found["mount"]
    return found


def _number(c: Cylinder, name: str, size: float) -> Number:
    """Give a size with the origin of its value."""
    known = c.value(name)
    return Number(name, size, known.origin, known.why) if known else Number(name, size, "computed")


def _thread(c: Cylinder, name: str) -> Thread | None:
    typed = c.spec.word(name)
    try:
        found = parse_thread(typed) if typed else None
    except ThreadWordError:
        return None
    return Thread(name, found.major_mm, found.pitch_mm, found.metric) if found else None


def _mount(c: Cylinder, end: Literal["body", "rod"]) -> EndMount:
    table, carried = f"{end}_mount", c.carried[end]
    axis: Axis | None = None
    turns = mount_types()[end, c.mounts[end]].turns
    if turns == "ball":
        axis = "ball"
    elif turns == "pin":
        turned = c.turned % 180.0 if end == "rod" else 0.0
        axis = "y" if turned == 0.0 else "z" if turned == 90.0 else "skew"
    grade = f"{table}.bolts.grade"
    at = c.value(f"{table}.position")
    return EndMount(
        end,
        axis,
        _flag(c, f"{table}.held"),
        carried.sections,
        carried.not_judged,
        steel(grade, "bolt", c.spec.word(grade)),
        _thread(c, f"{table}.bolts.thread"),
        at is not None and at.value != "base",
    )


def _ratings(c: Cylinder) -> dict[str, Number]:
    """Give the static rating in MPa of each end's weakest flange port, by end, where one is known.

    Only flanges have a rating that is one figure; other ports carry what their fitting carries.
    """
    found: dict[str, Number] = {}
    for port in c.ports:
        said = re.fullmatch(r"flange (.+) code (\d+)", port.thread.spelling)
        rows = table("port_flange").where(code=said[2], size_in=said[1]) if said else ()
        for row in rows:
            name, mpa = f"{port.table}.thread", row.required("max_pressure_bar") / 10
            if port.end not in found or mpa < found[port.end].value:
                found[port.end] = Number(name, mpa, "given", f"{row.where}, {row.source}")
    return found


def _flag(c: Cylinder, name: str) -> bool | None:
    found = c.spec.get(name)
    return None if found is None else bool(found.value)


def _duty(c: Cylinder, sizes: dict[str, Number]) -> Duty:
    words = ("pressure", "flow", "push", "pull", "seconds_out", "seconds_in", "mass",
             "return_pressure", "safety_factor",
             "angle", "friction", "acceleration", "stopping_distance")  # fmt: skip
    known: dict[str, Any] = {word: sizes.get(f"duty.{word}") for word in words}
    return Duty(
        **known,
        load_guided=_flag(c, "duty.load_guided"),
        orientation=c.spec.word("duty.orientation") or "",
        rod_side=c.spec.word("duty.rod_side") or "",
        lifts_people=bool(_flag(c, "duty.lifts_people")),
    )

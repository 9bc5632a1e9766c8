"""Parts to STEP: one assembly, the products barrel and rod, named, coloured, always the same bytes.

    SG-0417-retracted
    ├── SG-0417-barrel    with mount and ports; an assembly when the gland is a part of its own
    ├── SG-0417-rod       with mount and piston; its place in the assembly is the position
    └── SG-0417-keep-out  the room of fittings and hoses, where it was asked for

ISO 10303-21 text after AP214 (ISO 10303-214), millimetres, analytic surfaces.
"""

from __future__ import annotations

import os
import re
import time
from collections.abc import Mapping, Sequence

from drafting.shape.pieces import Part
from drafting.solids.carry_step import from_string, spec_strings, to_string
from drafting.solids.kernel_text import ASSEMBLY, kernel_text
from drafting.solids.part21 import (
    POINT_DECIMALS,
    Entities,
    Entity,
    canonical,
    decimal,
    find,
    read_entities,
    wrapped,
)
from drafting.solids.products import PRODUCT_NAMES, groups
from drafting.solids.steady import steadied

_STRING = re.compile(r"'(?:[^']|'')*'")
_SINGLE = re.compile(r"\d\.\d*")
"""The kernel keeps colours in single precision: 0.55 comes back as 0.5500000091."""
AXES = "Millimetres. Origin: body datum. +X: towards the rod. +Z: 12 o'clock."


def step_files(
    name: str,
    parts: Sequence[Part],
    places: Mapping[str, float],
    meta: Mapping[str, str],
    phantoms: Sequence[Part] = (),
) -> dict[str, bytes]:
    """Give a STEP file for each position: ``places`` say how far the rod is out (mm) in each.

    The solids are built once from the parts as they stand retracted; in each file the rod has its
    own place in the assembly. ``name`` begins every product's name, the position's word
    (``retracted``) ends the assembly's. ``meta`` as in ``Sheet.meta`` (title, number, revision,
    date, tool, spec_text, input_sha256); what is missing stays blank. ``phantoms`` are products of
    their own beside the cylinder's. Raises OutputFailed when the kernel cannot make a part.
    """
    entities = _entities(name, parts, phantoms)
    return {state: _finished(entities, name, state, x, meta) for state, x in places.items()}


def _entities(name: str, parts: Sequence[Part], phantoms: Sequence[Part]) -> Entities:
    text, strings = kernel_text(groups(name, parts, phantoms))
    entities = steadied(read_entities(text, strings))
    for n, link in find(entities, "NEXT_ASSEMBLY_USAGE_OCCURRENCE"):
        instance = _STRING.findall(link.texts[0])[1]  # for the count over the process' life
        entities[n] = _renamed(link, instance)
    for n, colour in find(entities, "COLOUR_RGB"):
        plain = _SINGLE.sub(lambda m: decimal(round(float(m[0]), 3)), colour.texts[0])
        entities[n] = Entity((plain,), [])
    for _, use in find(entities, "SHAPE_DEFINITION_REPRESENTATION"):
        definition = entities[entities[use.refs[0]].refs[0]]
        product = entities[entities[definition.refs[0]].refs[0]]
        for n in entities[use.refs[1]].refs:
            if entities[n].is_a("MANIFOLD_SOLID_BREP"):
                own = _STRING.findall(product.texts[0])[0]  # for its first instance's
                entities[n] = _renamed(entities[n], own)
    return entities


def _renamed(entity: Entity, string: str) -> Entity:
    first = _STRING.sub(lambda _: string, entity.texts[0], count=1)
    return Entity((first, *entity.texts[1:]), entity.refs)


def _finished(
    entities: Entities, name: str, state: str, rod_at: float, meta: Mapping[str, str]
) -> bytes:
    out = dict(entities)
    own = to_string(f"{name}-{state}")
    begin = to_string(f"{name}-").strip("'")
    for n, product in find(entities, "PRODUCT"):
        first = product.texts[0].replace(f"'{ASSEMBLY}'", own)
        named = _STRING.findall(first)[0]
        what = from_string(named[1:-1].removeprefix(begin)).replace("-", " ")
        title = ", ".join(t for t in (meta.get("title", ""), what) if t)
        described = f"{named},{named},{to_string(title[:250])},("
        out[n] = Entity((f"PRODUCT({described}", *product.texts[1:]), product.refs)
    revision = to_string(meta.get("revision", ""))
    for n, version in find(entities, "PRODUCT_DEFINITION_FORMATION"):
        out[n] = _renamed(version, revision)
    if rod_at:
        _move(out, to_string(f"{name}-{PRODUCT_NAMES['rod']}"), rod_at)
    return canonical(out, _header(f"{name}-{state}", state, meta))


def _move(entities: Entities, instance: str, x: float) -> None:
    """Give the instance of that name (a string of the file) another place along the axis."""
    links = find(entities, "NEXT_ASSEMBLY_USAGE_OCCURRENCE")
    link = next(n for n, e in links if f"({instance}," in e.texts[0])
    shapes = find(entities, "PRODUCT_DEFINITION_SHAPE")
    shape = next(n for n, e in shapes if e.refs == [link])
    uses = find(entities, "CONTEXT_DEPENDENT_SHAPE_REPRESENTATION")
    relation = next(entities[e.refs[0]] for _, e in uses if e.refs[1] == shape)
    steps = (entities[r] for r in relation.refs)
    number = next(e for e in steps if e.is_a("ITEM_DEFINED_TRANSFORMATION")).refs[1]
    placement = entities[number]
    point = max(entities) + 1
    entities[point] = Entity((f"CARTESIAN_POINT('',({decimal(x, POINT_DECIMALS)},0.,0.))",), [])
    entities[number] = Entity(placement.texts, [point, *placement.refs[1:]])


# --- header ------------------------------------------------------------------------------------


def _header(name: str, state: str, meta: Mapping[str, str]) -> str:
    revision = f" rev. {meta['revision']}" if meta.get("revision") else ""
    title = ", ".join(t for t in (meta.get("title", ""), state.replace("-", " ")) if t)
    texts = [f"{meta.get('number') or name}{revision}: {title}"[:250], AXES]
    if meta.get("input_sha256"):
        texts.append(f"SHA-256 of the input: {meta['input_sha256']}")
    if meta.get("spec_text"):
        texts += spec_strings(meta["spec_text"])
    description = ",\n".join(to_string(t) for t in texts)
    tool = to_string(meta.get("tool", ""))
    own, stamp = to_string(f"{name}.step"), to_string(_stamp(meta))
    file_name = f"FILE_NAME({own},{stamp},(''),(''),{tool},{tool},'');"
    return "\n".join(
        (
            f"FILE_DESCRIPTION(({description}),'2;1');",
            wrapped(file_name),
            "FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));",
        )
    )


def _stamp(meta: Mapping[str, str]) -> str:
    """The drawing's date, or SOURCE_DATE_EPOCH, or nothing: a clock would change the bytes."""
    if meta.get("date"):
        return f"{meta['date']}T00:00:00"
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    return time.strftime("%Y-%m-%dT%H:%M:%S", time.gmtime(int(epoch))) if epoch.isdigit() else ""

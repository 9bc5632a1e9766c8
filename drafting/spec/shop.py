"""Company defaults: one TOML file that stands under every spec and never gives a cylinder's size.

What the spec types itself rules. What comes from here keeps this file's name and line.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from drafting.errors import Refused
from drafting.records import Frozen
from drafting.spec.bundle import both_hashed
from drafting.spec.check import checked_fields
from drafting.spec.field import TableFields
from drafting.spec.fields import TABLES
from drafting.spec.given import Given, Shop, Spec
from drafting.spec.read import read_document

_FIELDS = {
    "": ("contact", "notes"),
    "cylinder": (
        "pin_material",
        "mount_material",
        "rod_material",
        "barrel_material",
        "seals",
        "fluid",
        "finish",
        "rod_finish",
        "bare",
        "marking",
    ),
    "drawing": (
        "sheet",
        "scale",
        "projection",
        "dimensions",
        "fractions",
        "general_tolerance",
        "company",
        "drawn_by",
        "logo",
    ),
}
SHOP_TABLES: dict[str, TableFields] = {
    name: replace(
        TABLES[name],
        doc=TABLES[name].doc if name else "Defaults under every spec; the spec's own words rule.",
        fields=tuple(f for f in TABLES[name].fields if f.name in fields),
        required=False,
    )
    for name, fields in _FIELDS.items()
}


def read_shop(source: Path | str | bytes, file: str = "") -> tuple[Shop, Mapping[str, Given]]:
    """Read company defaults: a path, or the content itself; raises Refused with every fault."""
    document = read_document(source, file)
    givens, faults = checked_fields(document, SHOP_TABLES)
    if faults:
        raise Refused(faults)
    named = {n: replace(g, file=document.file) for n, g in givens.items()}
    return Shop(document.file, document.text, document.sha256), Frozen(named)


def under(spec: Spec, shop: Shop, givens: Mapping[str, Given]) -> Spec:
    """Put company defaults under a spec; a logo stays whole, the rest is field by field."""
    own = any(name.startswith("drawing.logo.") for name in spec.givens)
    more = {
        name: given
        for name, given in givens.items()
        if name not in spec.givens and not (own and name.startswith("drawing.logo."))
    }
    digest = both_hashed(spec.sha256, shop.sha256)
    merged = Frozen({**spec.givens, **more})
    return replace(spec, givens=merged, shop=shop, sha256=digest)

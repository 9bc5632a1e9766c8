"""What was typed and changes nothing: no check reads it, no drawing and no data sheet shows it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from drafting.model.cylinder import Cylinder
from drafting.told.data_rows import AS_TYPED
from drafting.values import Finding

UNUSED = "unused-field"


def unused(c: Cylinder, said: Callable[[Cylinder], object]) -> Iterator[Finding]:
    """Give a finding for each typed field without which ``said`` of the cylinder stays the same.

    Only fields that the checks alone may read are tried: what the model has settled is drawn.
    """
    drawn, whole = {v.name for v in c.values} | AS_TYPED, said(c)
    for name, given in c.spec.givens.items():
        table = name.partition(".")[0]
        if table not in ("cylinder", "body_mount", "rod_mount", "duty") or name in drawn:
            continue
        if ".tolerance." in name or given.file or isinstance(given.value, tuple | bool):
            continue
        if said(_without(c, name)) == whole:
            message = (
                "typed, but nothing here uses it: no check reads it for this cylinder, and nothing "
                "is drawn from it. It is kept in the file"
            )
            yield Finding(UNUSED, "note", name, message)


def _without(c: Cylinder, name: str) -> Cylinder:
    """Give the cylinder as if a field had not been typed."""
    givens = {n: g for n, g in c.spec.givens.items() if n != name}
    return replace(c, spec=replace(c.spec, givens=givens))

"""The cylinder as a CadQuery assembly, for people who go on in a script."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from drafting.shape.pieces import Part
from drafting.solids.build import build_part
from drafting.solids.products import Product, groups


def assembly(parts: Sequence[Part], name: str = "cylinder") -> Any:
    """Give a ``cadquery.Assembly`` of the parts where they stand, in millimetres.

    It holds ``NAME-barrel`` and ``NAME-rod``, coloured, with the parts inside where there are
    several: ``assembly(cylinder.at(100), "SG-0417")``. Move the rod by the ``loc`` of its child.
    Raises OutputFailed when the kernel cannot make a part.
    """
    import cadquery as cq

    whole = cq.Assembly(name=name)
    for group in groups(name, parts):
        if group.alone:
            _add(whole, group.products[0])
            continue
        inner = cq.Assembly(name=group.name)
        for product in group.products:
            _add(inner, product)
        whole.add(inner, name=group.name)
    return whole


def _add(outer: Any, product: Product) -> None:
    import cadquery as cq

    shape = cq.Shape.cast(build_part(product.part))
    outer.add(shape, name=product.name, color=cq.Color(*product.colour))

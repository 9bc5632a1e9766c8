"""How far the rod is out, as a person says it: a share of the stroke, or a length."""

from __future__ import annotations

import re

from drafting.errors import Fault, Refused
from drafting.factors import Misread
from drafting.model.cylinder import Cylinder
from drafting.units import both, read_length

_SHARE = re.compile(r"\s*([0-9]{1,3}(?:\.[0-9]{1,6})?)\s*%\s*")
_NEAR = 1e-6


def extension(text: str, c: Cylinder) -> float:
    """Give how far the rod is out (mm): ``60 %`` of the stroke, or a length between the datums.

    A bare number is in the spec's units. Raises Refused for what lies outside the stroke.
    """
    n, units = c.lengths, c.spec.units
    share = _SHARE.fullmatch(text)
    if share:
        out = n.stroke * float(share[1]) / 100
        if out > n.stroke + _NEAR:
            raise _refused(f"{text.strip()} is more than the whole stroke; write 0 % to 100 %")
        return out
    try:
        length = float(read_length(text, units))
    except Misread as wrong:
        raise _refused(f'{wrong}; or a share of the stroke: "60 %"') from None
    if n.retracted - _NEAR <= length <= n.extended + _NEAR:
        return min(max(length - n.retracted, 0.0), n.stroke)
    stroke = ""
    if 0 <= length <= n.stroke:
        meant = both(n.retracted + length, units)
        stroke = f"; if the rod is to be {both(length, units)} out, write {meant}"
    raise _refused(
        f"{both(length, units)} is no length of {c.name}: closed {both(n.retracted, units)}, open "
        f"{both(n.extended, units)}{stroke}"
    )


def _refused(message: str) -> Refused:
    return Refused([Fault("command line", 1, 1, "no-position", "--at", message)])

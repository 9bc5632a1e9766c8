"""Checks by their short names, for a table; a check without one goes by its own name."""

from __future__ import annotations

from drafting.checks.check import Check
from drafting.checks.numbers import ON_THE_BODY

_ENDS = {"body": "base end", "rod": "rod end"}
_OF_AN_END = {
    "pin-shear": "pin in double shear",
    "pin-bearing": "pin in its hole",
    "pin-bending": "pin in bending",
    "eye-tension": "eye beside the hole",
    "tear-out": "eye tearing out",
    "weld": "weld of the mount",
    "bolts": "bolts of the mount",
    "bearing": "bushing or bearing",
    "trunnion-shear": "trunnion pins in shear",
    "trunnion-bending": "trunnion pins in bending",
}
_WHOLE = {
    "barrel-yield-working": "barrel on yield",
    "barrel-yield-relief": "barrel on yield, relief pressure",
    "barrel-yield-proof": "barrel on yield, proof test",
    "barrel-burst": "barrel on burst",
    "cap-bending": "base cap in bending",
    "cap-weld": "weld of the base cap",
    "gland-thread": "gland thread",
    "gland-held": "what holds the gland",
    "tie-rods": "tie rods on yield",
    "tie-rod-joint": "barrel stays on its seat",
    "rod-along": "rod, along",
    "rod-thread-shear": "rod thread stripping",
    "rod-thread": "rod thread in tension",
    "column-full": "column, open, full push",
    "column-duty": "column, open, push asked",
    "port-rating-base": "base port, its rating",
    "port-rating-rod": "rod port, its rating",
    "holding-base": "trapped by the load, base side",
    "holding-rod": "trapped by the load, rod side",
    "holding-rod-pump": "trapped by load and pump, rod side",
    "push": "push",
    "pull": "pull",
    "flow-out": "flow for the time out",
    "flow-in": "flow for the time in",
    "duty-pressure": "working pressure for the duty",
    "proof-pressure": "proof over working pressure",
}


def on_the_body(k: Check) -> bool:
    """Tell whether a check is of a mount that stands along the body."""
    return ON_THE_BODY in k.name


def short_name(k: Check) -> str:
    """Give the short name of a check: ``pin in bending, base end``."""
    if k.code in _WHOLE:
        return _WHOLE[k.code]
    end, _, what = k.code.partition("-")
    if end in _ENDS and what in _OF_AN_END:
        return f"{_OF_AN_END[what]}, {'body' if on_the_body(k) else _ENDS[end]}"
    return k.name[:1].lower() + k.name[1:]


def in_a_list(k: Check) -> str:
    """Give the short name for a list with commas: ``pin in bending (base end)``."""
    name, comma, end = short_name(k).partition(", ")
    return f"{name} ({end})" if comma else name

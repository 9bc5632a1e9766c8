"""Checks by their short names, for a table; a check without one goes by its own name."""

from __future__ import annotations

from drafting.checks.check import Check

_ENDS = {"body": "base end", "rod": "rod end"}
_OF_AN_END = {
    "pin-shear": "pin in double shear",
    "pin-bearing": "pin in its hole",
    "pin-bending": "pin in bending",
    "eye-tension": "eye beside the hole",
    "tear-out": "eye tearing out",
    "weld": "weld of the mount",
    "bolts": "bolts of the mount",
    "ball": "ball bearing",
    "cross-tube-weld": "welds of the cross tube",
    "flange": "flange plate in bending",
}
_WHOLE = {
    "barrel-yield-working": "barrel on yield",
    "barrel-yield-relief": "barrel on yield, relief pressure",
    "barrel-yield-proof": "barrel on yield, proof test",
    "barrel-burst": "barrel on burst",
    "base-cap": "base cap in bending",
    "cap-bending": "base cap in bending",
    "base-weld": "weld of the base cap",
    "cap-weld": "weld of the base cap",
    "gland-thread": "gland thread",
    "gland-force": "what holds the gland",
    "tie-rods": "tie rods on yield",
    "tie-rod-joint": "barrel stays on its seat",
    "rod": "rod, along",
    "rod-thread": "rod thread in tension",
    "column-full": "column, open, full push",
    "column-duty": "column, open, push asked",
    "trunnion-shear": "trunnion pins in shear",
    "trunnion-bending": "trunnion pins in bending",
    "push": "push",
    "pull": "pull",
    "duty-pressure": "working pressure for the duty",
    "proof-pressure": "proof over working pressure",
    "port-speed-base": "oil speed in the base port",
    "port-speed-rod": "oil speed in the rod port",
}


def short_name(k: Check) -> str:
    """Give the short name of a check: ``pin in bending, base end``."""
    if k.code in _WHOLE:
        return _WHOLE[k.code]
    end, _, what = k.code.partition("-")
    if end in _ENDS and what in _OF_AN_END:
        return f"{_OF_AN_END[what]}, {_ENDS[end]}"
    return k.name[:1].lower() + k.name[1:]

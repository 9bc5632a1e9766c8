"""Hydraulic cylinder drafting: spec file to drawing, solid and checks.

import drafting
cylinder = drafting.load(drafting.read("gate.toml"))
drafting.draw(cylinder, ("svg", "pdf"), "output")
drafting.solid(cylinder).save("gate.step")       # a cadquery.Assembly
print(drafting.report(cylinder))
drafting.compare("old.toml", "offer.toml").verdict
drafting.fit(cylinder, "machine.toml").verdict
"""

from __future__ import annotations

__version__ = "0.1.0"

_HOMES = {
    "read": "drafting.model.load",
    "load": "drafting.model.load",
    "draw": "drafting.api",
    "solid": "drafting.api",
    "check": "drafting.api",
    "report": "drafting.api",
    "compare": "drafting.api",
    "match": "drafting.api",
    "fit": "drafting.api",
    "identify": "drafting.measuring.identify",
    "measure": "drafting.measuring.measure",
}

__all__ = [
    "check",
    "compare",
    "draw",
    "fit",
    "identify",
    "load",
    "match",
    "measure",
    "read",
    "report",
    "solid",
]


def __getattr__(name: str) -> object:
    """Import a public name when it is first asked for, so that a start pays for nothing else."""
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module 'drafting' has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(home), name)

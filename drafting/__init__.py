"""Hydraulic cylinder drafting: spec file to drawing, solid and checks."""

from __future__ import annotations

__version__ = "0.1.0"

__all__ = ["load", "read"]


def __getattr__(name: str) -> object:
    """Import a public name when it is first asked for, so that a start pays for nothing else."""
    if name in ("read", "load"):
        from drafting.model import load as module

        return getattr(module, name)
    raise AttributeError(f"module 'drafting' has no attribute {name!r}")

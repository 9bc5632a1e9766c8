"""Wishes and symbols of a mount, carried from its own frame to the world."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any, TypeVar

from drafting.settle.wishes import Symbol, Wish
from drafting.shape.frame import Frame

W = TypeVar("W", bound=Wish | Symbol)

POINTS = {"a", "b", "centre", "through", "tip", "start", "end"}
SOME_POINTS = {"others"}
DIRECTIONS = {"direction", "axis", "normal"}


def placed(thing: W, frame: Frame) -> W:
    """Give a wish or symbol as seen from outside ``frame``."""
    changes: dict[str, Any] = {}
    for f in fields(thing):
        if f.name in POINTS:
            changes[f.name] = frame.point(getattr(thing, f.name))
        elif f.name in SOME_POINTS:
            changes[f.name] = tuple(map(frame.point, getattr(thing, f.name)))
        elif f.name in DIRECTIONS:
            changes[f.name] = frame.vector(getattr(thing, f.name))
    return replace(thing, **changes)

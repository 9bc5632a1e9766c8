"""The mounts that are drawn, found by walking the folder of mount files."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from drafting.model import mounts
from drafting.model.shells.tie_rod import TieRod
from drafting.model.shells.welded import Welded
from drafting.settle.mount import End, Mount
from drafting.settle.shell import Shell
from drafting.spec.mount_fields import Taken

ENDS: tuple[End, ...] = ("body", "rod")
ANY = ("held", "weld_leg", "weld_run")
"""What every mount takes, for the checks."""
ANY_ROD = ("turned",)
"""What every rod mount takes."""


@cache
def mount_types() -> Mapping[tuple[End, str], type[Mount]]:
    """Give every mount class by its end and its spec word, in the order of the words."""
    found: dict[tuple[End, str], type[Mount]] = {}
    for file in iter_modules(mounts.__path__):
        module = import_module(f"{mounts.__name__}.{file.name}")
        for thing in vars(module).values():
            if isinstance(thing, type) and thing.__module__ == module.__name__:
                word = getattr(thing, "word", None)
                if isinstance(word, str):
                    found |= {(end, word): thing for end in getattr(thing, "ends", ())}
    return dict(sorted(found.items()))


def mount_words(end: End) -> tuple[str, ...]:
    """Give the words of the mounts that fit an end."""
    return tuple(word for at, word in mount_types() if at == end)


def mounts_by_end() -> Mapping[str, Mapping[str, Taken]]:
    """Give, for each mount table of the spec, the mount words and what each takes."""
    return {
        f"{end}_mount": {
            word: Taken(
                (
                    *kind.fields,
                    *kind.check_fields,
                    *ANY,
                    *(kind.rod_fields + ANY_ROD if end == "rod" else ()),
                ),
                tuple(kind.also.split()),
            )
            for (at, word), kind in mount_types().items()
            if at == end
        }
        for end in ENDS
    }


def shell_types() -> Mapping[str, type[Shell]]:
    """Give every construction by its spec word."""
    return {kind.word: kind for kind in (Welded, TieRod)}

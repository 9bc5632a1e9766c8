"""What the files call things and what colour they have: barrel and rod, and the parts in them."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.records import dataclass
from drafting.shape.pieces import Owner, Part

Colour = tuple[float, float, float]
"""sRGB, 0 to 1."""

PRODUCT_NAMES: dict[Owner, str] = {"body": "barrel", "rod": "rod"}

_OWNER_COLOURS: dict[Owner, Colour] = {"body": (0.55, 0.57, 0.60), "rod": (0.80, 0.82, 0.85)}
_GLAND: Colour = (0.42, 0.46, 0.52)
_PISTON: Colour = (0.66, 0.64, 0.58)
_PART_COLOURS = {"gland": _GLAND, "head": _GLAND, "piston": _PISTON}
_KEEP_OUT: Colour = (0.95, 0.78, 0.35)
_BUSHING: Colour = (0.72, 0.62, 0.44)


@dataclass(frozen=True, slots=True)
class Product:
    """One piece of metal in a file: its name there, its colour, its part."""

    name: str
    colour: Colour
    part: Part


@dataclass(frozen=True, slots=True)
class Group:
    """What moves together: ``SG-0417-barrel`` or ``SG-0417-rod``."""

    name: str
    owner: Owner
    products: tuple[Product, ...]

    @property
    def alone(self) -> bool:
        """Tell whether the group is one part, which then goes by the group's name."""
        return len(self.products) == 1


def groups(name: str, parts: Sequence[Part], phantoms: Sequence[Part] = ()) -> tuple[Group, ...]:
    """Give the groups of an order's cylinder, body first; an owner without parts is left out.

    ``phantoms`` (rooms of fittings) are a group of their own, ``SG-0417-keep-out``.

    Names begin with ``name`` so that they are unique to the order: a CAD program that has a part
    of the same name open shows that one instead.
    """
    out: list[Group] = []
    for owner, word in PRODUCT_NAMES.items():
        own = [p for p in parts if p.owner == owner]
        if own:
            out.append(_group(name, f"{name}-{word}", owner, own))
    if phantoms:
        out.append(_group(name, f"{name}-keep-out", "body", phantoms, _KEEP_OUT))
    return tuple(out)


def _group(
    name: str, whole: str, owner: Owner, parts: Sequence[Part], colour: Colour | None = None
) -> Group:
    taken = {whole}
    named = tuple(
        Product(
            whole if len(parts) == 1 else _unused(_part_name(name, whole, p), taken),
            colour or _colour(p),
            p,
        )
        for p in parts
    )
    return Group(whole, owner, named)


def _part_name(name: str, whole: str, part: Part) -> str:
    """``SG-0417-gland``; the part that gives its group the name is ``SG-0417-barrel-main``."""
    plain = f"{name}-{part.name.replace(' ', '-')}"
    return f"{whole}-main" if plain == whole else plain


def _unused(name: str, taken: set[str]) -> str:
    n, free = 2, name
    while free in taken:
        free, n = f"{name}-{n}", n + 1
    taken.add(free)
    return free


def _colour(part: Part) -> Colour:
    if "bushing" in part.name:
        return _BUSHING
    return _PART_COLOURS.get(part.name, _OWNER_COLOURS[part.owner])

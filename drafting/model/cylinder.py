"""The cylinder: parts in their places, at any extension, with all that is known of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from drafting.model.pins.loose_pin import LoosePin
from drafting.model.ports.action import Action
from drafting.model.ports.port import Port
from drafting.records import dataclass
from drafting.settle.carried import Carried
from drafting.settle.lengths import Lengths
from drafting.settle.stations import Stations
from drafting.settle.tolerance import Tolerance
from drafting.settle.wishes import Symbol, Wish
from drafting.shape.pieces import Owner, Part, moved
from drafting.spec.given import Spec
from drafting.values import Finding, Value


@dataclass(frozen=True, slots=True)
class Cylinder:
    """One cylinder, settled. Parts, wishes and symbols are at the retracted position.

    ``pins`` are the loose pins that the file asks for, ``mounts`` the mount words by end,
    ``carried`` what is loaded in each.
    ``phantoms`` are no metal: the room of fittings and hoses. They move with the body.
    ``tolerances`` are those that were typed, by the name of their size; ``shares`` is how much the
    retracted length grows per mm of each size in its chain.
    """

    spec: Spec
    name: str
    lengths: Lengths
    stations: Stations
    parts: tuple[Part, ...]
    ports: tuple[Port, ...]
    wishes: tuple[Wish, ...]
    symbols: tuple[Symbol, ...]
    action: Action
    values: tuple[Value, ...]
    findings: tuple[Finding, ...]
    turned: float
    mounts: Mapping[str, str]
    carried: Mapping[str, Carried]
    pins: tuple[LoosePin, ...] = ()
    phantoms: tuple[Part, ...] = ()
    tolerances: Mapping[str, Tolerance] = field(default_factory=dict)
    shares: Mapping[str, float] = field(default_factory=dict)

    def at(self, extension: float) -> tuple[Part, ...]:
        """Give the parts with the rod moved out by ``extension`` mm (0 to stroke)."""
        if extension == 0:
            return self.parts
        return tuple(moved(p, extension) if p.owner == "rod" else p for p in self.parts)

    def owned(self, owner: Owner) -> tuple[Part, ...]:
        """Give the parts of the body or of the rod."""
        return tuple(p for p in self.parts if p.owner == owner)

    def value(self, name: str) -> Value | None:
        """Give a value by its dotted name."""
        return next((v for v in self.values if v.name == name), None)

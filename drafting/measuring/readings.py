"""What was read on one cylinder, before anything is made of it. Lengths in mm."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from drafting.measuring.letters import Letter, Tool, Way
from drafting.records import dataclass
from drafting.spec.given import Typed


@dataclass(frozen=True, slots=True)
class Read:
    """What was read for a letter in one way with one tool; ``values`` in mm."""

    letter: Letter
    way: Way
    tool: Tool
    values: tuple[float, ...]
    line: int

    @property
    def name(self) -> str:
        """Give the key in the file."""
        return f"{self.letter.letter}_{self.way}" if self.way else self.letter.letter


@dataclass(frozen=True, slots=True)
class SeenPort:
    """What was seen of a port; lengths in mm, angles in degrees."""

    table: Literal["base_port", "rod_port"]
    seen: Mapping[str, Typed]

    def number(self, name: str) -> float | None:
        """Give a number that was read."""
        value = self.seen.get(name)
        return float(value) if isinstance(value, int | float) else None


@dataclass(frozen=True, slots=True)
class Bench:
    """A file of readings. ``words`` are spec fields by dotted name; ``decided`` by letter."""

    file: str
    units: Literal["in", "mm"]
    title: str
    number: str
    system: str
    hard_stop: bool
    edges: str
    body: str
    rod: str
    words: Mapping[str, Typed]
    bolts: Mapping[int, int]
    pitch: str
    reads: tuple[Read, ...]
    ports: tuple[SeenPort, ...]
    shows: Mapping[str, float]
    decided: Mapping[str, float]
    letters: tuple[Letter, ...]

    def of(self, letter: str) -> tuple[Read, ...]:
        """Give what was read for a letter."""
        return tuple(r for r in self.reads if r.letter.letter == letter)

"""The cylinder as the machine sees it, and what is known of the machine by dotted name."""

from __future__ import annotations

from dataclasses import fields, replace

from drafting.checks.loads import driven_areas
from drafting.checks.numbers import CylinderNumbers, EndMount
from drafting.checks.numbers_of import cylinder_numbers
from drafting.fitting.asked import Weights
from drafting.fitting.machine import Distance, Machine
from drafting.fitting.travel import Way, extremes, hard_span, span, swing
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.replacing.rule import Said
from drafting.settle.tolerance import tolerance_of
from drafting.shape.mass import dry_mass


@dataclass(frozen=True, slots=True)
class Subject:
    """A settled cylinder with what ``fit`` asks of it again and again.

    ``closed`` and ``open`` are the datum lengths in mm, ``off`` how far each may be longer or
    shorter by its tolerance or by how it was measured; ``adjustment`` how far a threaded mount
    backs off, which lengthens both.
    """

    cylinder: Cylinder
    numbers: CylinderNumbers
    closed: float
    open: float
    off: tuple[float, float]
    adjustment: float
    weights: Weights

    @property
    def mounts(self) -> tuple[EndMount, EndMount]:
        """Give both mounts, body first."""
        return self.numbers.mounts

    def area(self, way: str) -> float:
        """Give the area in mm2 that drives it: ``push``, ``pull``; 0 where nothing does."""
        return driven_areas(self.numbers).get(way, 0.0)


def subject(c: Cylinder, machine: Machine) -> Subject:
    """Take what is needed; a hinge or a slide guides the load, whatever the spec left out."""
    n = cylinder_numbers(c)
    if not isinstance(machine.way, Distance) and n.duty.load_guided is None:
        n = replace(n, duty=replace(n.duty, load_guided=True))
    s = c.stations
    weights = Weights(
        dry_mass(c.owned("body")),
        (s.closed_end + s.gland_face) / 2,
        dry_mass(c.owned("rod")),
        s.rod_datum - (s.piston_back + s.rod_end) / 2,
    )
    adjusts = (c.spec.number(f"{end}_mount.adjustment") or 0.0 for end in ("body", "rod"))
    lengths = c.lengths
    off = (_off(c, "cylinder.retracted"), _off(c, "cylinder.extended"))
    return Subject(c, n, lengths.retracted, lengths.extended, off, sum(adjusts), weights)


def _off(c: Cylinder, name: str) -> float:
    held = tolerance_of(c.tolerances, name)
    value = c.value(name)
    known = [abs(d) for d in (held.lower, held.upper) if d is not None] if held else []
    if value is not None and value.plus_minus:
        known.append(value.plus_minus)
    return max(known, default=0.0)


def known(m: Machine) -> dict[str, Said]:
    """Give what a machine file says by dotted name, as the rules of replacement ask for it.

    Of a hinge and a slide the distances between the pins are those of the travel, and of its stops
    where they were named.
    """
    found: dict[str, Said] = {}
    near, far = extremes(m.way, *span(m.way))
    found["distance.closest"], found["distance.farthest"] = near.length, far.length
    found |= {f"distance.{n}": size for n, size in _stops(m.way).items()}
    for table, thing in (("base_ears", m.base_ears), ("rod_ears", m.rod_ears),
                         ("supply", m.supply)):  # fmt: skip
        for f in fields(thing) if thing is not None else ():
            value = getattr(thing, f.name)
            if value is not None:
                found[f"{table}.{f.name}"] = value
    for end, thread, free in zip(("base", "rod"), m.hoses, m.free, strict=True):
        if thread:
            found[f"hoses.{end}"] = thread
        if free is not None:
            found[f"hoses.{end}_free"] = free
    found["pair.count"] = float(m.count)
    found["travel.base_swing"], found["travel.rod_swing"] = swing(m.way)
    return found


def _stops(way: Way) -> dict[str, float]:
    """Give the distances at the stops that were named, by which end of the travel they bound."""
    if isinstance(way, Distance):
        own = {n: getattr(way, n) for n in ("hard_closest", "hard_farthest")}
        return {n: size for n, size in own.items() if size is not None}
    low, high = hard_span(way)
    near, far = extremes(way, low, high)
    named = [at for at, stop in ((low, way.hard_start), (high, way.hard_end)) if stop is not None]
    ends = {"hard_closest": near, "hard_farthest": far}
    return {n: p.length for n, p in ends.items() if any(abs(p.at - at) < 1e-9 for at in named)}

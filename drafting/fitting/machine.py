"""A machine file: where the cylinder goes. Read with the readers and the words of a spec.

Inside: mm, degrees, N, kg, MPa, l/s. x to the right, y up, in the plane of the arm.
"""

from __future__ import annotations

from math import hypot
from pathlib import Path
from typing import Any, Literal

from drafting.errors import Fault, Refused
from drafting.fitting.machine_fields import LOADS, TABLES
from drafting.records import dataclass
from drafting.spec.beside import Reader
from drafting.spec.read import Document, read_document

Point = tuple[float, float]
MOST_LOADS = 50
DEEPEST = 5
"""A load's table of steps lies so deep."""
LEAST_SWING = 1e-3
"""Degrees, and millimetres of a slide: less than that is no travel."""


@dataclass(frozen=True, slots=True)
class Load:
    """A weight (kg), or a force (N); ``at`` is where it acts at angle or travel 0.

    A force with ``turns`` turns with the arm. ``steps`` are (where, factor) over the travel.
    """

    at: Point
    mass: float = 0.0
    force: Point = (0.0, 0.0)
    turns: bool = True
    steps: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Distance:
    """Distances between the machine's pins in mm; None where no stop was named."""

    closest: float
    farthest: float
    hard_closest: float | None = None
    hard_farthest: float | None = None


@dataclass(frozen=True, slots=True)
class Hinge:
    """An arm about a hinge; angles in degrees, counter-clockwise."""

    at: Point
    base_pin: Point
    rod_pin: Point
    start: float
    end: float
    hard_start: float | None = None
    hard_end: float | None = None
    loads: tuple[Load, ...] = ()


@dataclass(frozen=True, slots=True)
class Slide:
    """A carriage on a straight guide; ``along`` is a unit vector, ``end`` the travel in mm."""

    base_pin: Point
    rod_pin: Point
    along: Point
    end: float
    hard_start: float | None = None
    hard_end: float | None = None
    loads: tuple[Load, ...] = ()
    start: float = 0.0


@dataclass(frozen=True, slots=True)
class Ears:
    """The machine's ears at one end; None where nobody measured."""

    gap: float | None = None
    lug: float | None = None
    pin: float | None = None
    hole: float | None = None
    ear: float | None = None
    behind: float | None = None
    around: float | None = None
    lug_nose: float | None = None
    pin_grip: float | None = None
    aside: float | None = None
    grease_reach: bool | None = None


@dataclass(frozen=True, slots=True)
class Model:
    """The machine's STEP file and where the cylinder lies in it."""

    step: str
    base_pin: tuple[float, ...] | str
    rod_pin: tuple[float, ...] | str
    moving: tuple[str, ...] = ()
    axis: tuple[float, ...] = (0.0, 1.0, 0.0)
    up: tuple[float, ...] | None = None
    lateral: float = 0.0
    clearance: float = 0.0
    hoses: float | None = None


@dataclass(frozen=True, slots=True)
class Supply:
    """What feeds the cylinder: MPa and l/s."""

    pressure: float | None = None
    relief: float | None = None
    flow: float | None = None
    return_pressure: float = 0.0


@dataclass(frozen=True, slots=True)
class Machine:
    """What a machine file says. ``friction`` is the share of the force, None where nobody said."""

    file: str
    title: str
    units: Literal["in", "mm"]
    way: Distance | Hinge | Slide
    friction: float | None = None
    base_ears: Ears | None = None
    rod_ears: Ears | None = None
    model: Model | None = None
    supply: Supply = Supply()
    hoses: tuple[str, str] = ("", "")
    free: tuple[float | None, float | None] = (None, None)
    count: int = 1
    document: Document | None = None

    def fault(self, code: str, table: str, field: str, message: str) -> Fault:
        """Give a fault at a field of this file, or at its table."""
        assert self.document is not None
        at = (table, field) if field else (table,)
        return Reader(self.document).told(code, at, message)

    @property
    def folder(self) -> Path:
        """Give the folder that the STEP file's name is looked up from."""
        return Path(self.file).parent


def read_machine(path: str) -> Machine:
    """Read a machine file; raises Refused with every fault in it."""
    return machine_of(read_document(path, deepest=DEEPEST))


def machine_of(document: Document) -> Machine:
    """Judge a document as a machine file; raises Refused with every fault in it."""
    reader = Reader(document)
    known = tuple(t for t in TABLES if t)
    top = reader.table(TABLES[""], document.data, (), known)
    tables: dict[str, dict[str, Any]] = {}
    for name in known:
        data = document.data.get(name)
        if data is None:
            continue
        if not isinstance(data, dict):
            reader.fault("not-a-table", (name,), f"write it as a table under one heading [{name}]")
            continue
        inner = ("load",) if name in LOADS else ()
        tables[name] = dict(reader.table(TABLES[name], data, (name,), inner))
        if inner:
            tables[name]["loads"] = _loads(reader, name, data.get("load", []))
    ways = [n for n in ("distance", "hinge", "slide") if n in document.data]
    if len(ways) != 1:
        text = (
            "say how far apart the pins are, in one way: [distance], [hinge] or [slide]"
            if not ways
            else f"{' and '.join(f'[{w}]' for w in ways)} both say where the pins are; keep one"
        )
        reader.fault("no-way" if not ways else "two-ways", (ways[-1],) if ways else (), text)
    elif not reader.faults:
        _sense(reader, ways[0], tables)
    if reader.faults:
        raise Refused(reader.faults)
    return _machine(document, reader, top, tables, ways[0])


def _loads(reader: Reader, name: str, data: Any) -> tuple[Load, ...]:
    at = (name, "load")
    if not isinstance(data, list) or not all(isinstance(d, dict) for d in data):
        text = f"write each load as a table under the heading [[{name}.load]]"
        reader.fault("not-a-table", at, text)
        return ()
    if len(data) > MOST_LOADS:
        reader.fault("too-many", at, f"{len(data)} loads; at most {MOST_LOADS} have room")
        return ()
    loads = []
    for n, one in enumerate(data):
        before = len(reader.faults)
        v: dict[str, Any] = dict(reader.table(LOADS[name], one, (*at, n)))
        if ("mass" in one) == ("force" in one):
            both = (
                "is both a mass and a force; keep one" if "mass" in one else "has no mass or force"
            )
            reader.fault("no-load", (*at, n), f"the load {both}")
        if "mass" in one and "frame" in one:
            text = "a weight always hangs down; frame belongs to a force"
            reader.fault("not-of-this-load", (*at, n, "frame"), text)
        if len(reader.faults) == before:
            flat = v.get("table", ())
            steps = tuple(zip(flat[::2], flat[1::2], strict=True))
            loads.append(
                Load(v["at"], v.get("mass", 0.0), v.get("force", (0.0, 0.0)),
                     v.get("frame") != "ground", steps)
            )  # fmt: skip
    return tuple(loads)


def _sense(reader: Reader, way: str, tables: dict[str, dict[str, Any]]) -> None:
    """Enter what cannot be of a file whose fields can all be read."""
    t = tables[way]

    def order(low: str, high: str, words: str) -> None:
        if low in t and high in t and not t[low] <= t[high]:
            reader.fault("out-of-order", (way, low), words)

    if way == "distance":
        if not t["farthest"] - t["closest"] > LEAST_SWING:
            text = "the farthest must be longer than the closest; the two may be exchanged"
            reader.fault("out-of-order", (way, "farthest"), text)
        order("hard_closest", "closest", "a stop lies beyond the closest: shorter than that")
        order("farthest", "hard_farthest", "a stop lies beyond the farthest: longer than that")
        return
    if way == "hinge":
        if not LEAST_SWING < t["to"] - t["from"] < 360.0:
            text = "degrees run counter-clockwise: write from below to, less than a turn apart"
            reader.fault("out-of-order", (way, "to"), text)
        order("hard_from", "from", "the stop before the start has a smaller angle than from")
        order("to", "hard_to", "the stop past the end has a larger angle than to")
        for pin in ("base_pin", "rod_pin"):
            if _far(t[pin], t["at"]) < 1e-6:
                text = "lies on the hinge itself: the cylinder would have no lever there"
                reader.fault("no-lever", (way, pin), text)
        return
    along = t.setdefault("along", (1.0, 0.0))
    t["along"] = (along[0] / hypot(*along), along[1] / hypot(*along))
    if t.get("hard_from", 0.0) > 0.0:
        reader.fault("out-of-order", (way, "hard_from"), "the stop before the start is 0 or less")
    order("travel", "hard_to", "the stop past the end is the travel or more")


def _far(a: Point, b: Point) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def _machine(
    document: Document,
    reader: Reader,
    top: dict[str, Any],
    tables: dict[str, dict[str, Any]],
    way: str,
) -> Machine:
    t = tables[way]
    found: Distance | Hinge | Slide
    if way == "distance":
        found = Distance(**t)
    elif way == "hinge":
        found = Hinge(t["at"], t["base_pin"], t["rod_pin"], t["from"], t["to"],
                      t.get("hard_from"), t.get("hard_to"), t["loads"])  # fmt: skip
    else:
        found = Slide(t["base_pin"], t["rod_pin"], t["along"], t["travel"],
                      t.get("hard_from"), t.get("hard_to"), t["loads"])  # fmt: skip
    hoses = tables.get("hoses", {})
    return Machine(
        document.file,
        str(top["title"]),
        reader.units,
        found,
        tables.get("pivot_friction", {}).get("share"),
        Ears(**tables["base_ears"]) if "base_ears" in tables else None,
        Ears(**tables["rod_ears"]) if "rod_ears" in tables else None,
        Model(**tables["model"]) if "model" in tables else None,
        Supply(**tables.get("supply", {})),
        (hoses.get("base", ""), hoses.get("rod", "")),
        (hoses.get("base_free"), hoses.get("rod_free")),
        int(tables.get("pair", {}).get("count", 1)),
        document,
    )

"""Sizes that are absurd beside their neighbours: another unit, or measured between other points.

One table. A rule says how large a size may be beside another one in common practice, with so much
to spare on both sides that what somebody built on purpose passes. Where a pair is beyond its rule,
the size that goes with the fewest of its neighbours is named, once.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from drafting.factors import INCH
from drafting.records import dataclass
from drafting.settle.called import called
from drafting.settle.ledger import COMMON, Ledger
from drafting.settle.lengths import Lengths
from drafting.settle.stations import Stations
from drafting.spec.fields import TABLES
from drafting.values import Level

OTHER_UNIT, OTHER_POINTS = "smells-of-unit", "between-right-points"


@dataclass(frozen=True, slots=True)
class Rule:
    """``size`` is usually ``least`` to ``most`` times ``beside``, ``slack`` mm more or less.

    ``beside`` without a table is of the same table as the size. Mount rules hold for both ends.
    """

    size: str
    beside: str
    least: float
    most: float
    slack: float = 0.0
    level: Level = "error"
    source: str = COMMON

    def allows(self, size: float, beside: float) -> bool:
        """Tell whether a pair of sizes (mm) is within the rule."""
        low, high = self.least * beside - self.slack, self.most * beside + self.slack
        return low <= size <= high


BORE, BARREL = "cylinder.bore", "cylinder.barrel_outside"
CYLINDER_RULES = (
    Rule("cylinder.rod", BORE, 0.1, 1.0),
    # A small bore at a very high pressure has a wall as thick as that: asked, not refused.
    Rule("cylinder.barrel_outside", BORE, 1.0, 3.0, level="warning"),
    Rule("cylinder.barrel_outside", BORE, 1.0, 9.0),
    Rule("cylinder.wall", BORE, 0.005, 1.0, level="warning"),
    Rule("cylinder.wall", BORE, 0.005, 4.0),
    Rule("cylinder.base_thickness", BORE, 0.04, 4.0, 10.0),
    Rule("cylinder.piston_length", BORE, 0.08, 6.0),
    Rule("cylinder.gland_length", BORE, 0.15, 8.0),
    Rule("cylinder.gland_projection", BORE, 0.0, 6.0),
    Rule("cylinder.gland_engaged", BORE, 0.04, 4.0),
    Rule("cylinder.gland_outside", BARREL, 0.5, 4.0),
    Rule("cylinder.square", BORE, 1.0, 4.0, level="warning"),
    Rule("cylinder.square", BORE, 1.0, 10.0),
    Rule("cylinder.base_weld", BORE, 0.01, 0.6),
    Rule("cylinder.base_groove", BORE, 0.005, 0.6),
    Rule("cylinder.rod_stick_out", BORE, 0.0, 14.0, 50.0),
    Rule("cylinder.stop_tube", "cylinder.stroke", 0.0, 1.0, 50.0),
    Rule("cylinder.spring_space", "cylinder.stroke", 0.0, 6.0, 50.0),
    Rule("cylinder.largest_outside", BARREL, 0.5, 20.0),
)
MOUNT_RULES = (
    Rule("pin", "cylinder.rod", 0.25, 2.0, level="warning"),
    Rule("pin", "cylinder.rod", 0.1, 5.0),
    Rule("hole", "pin", 0.9, 1.4, 4.0),
    Rule("bushing", "pin", 1.0, 3.0, 10.0),
    Rule("gap", "pin", 0.2, 8.0),
    Rule("width", "pin", 0.2, 20.0),
    Rule("left", "pin", 0.05, 15.0),
    Rule("right", "pin", 0.05, 15.0),
    Rule("outside", "pin", 1.0, 8.0, 10.0),
    Rule("nose", "pin", 0.4, 8.0),
    Rule("throat", "pin", 0.3, 12.0),
    Rule("ball_width", "pin", 0.15, 5.0),
    Rule("ear", "pin", 0.05, 6.0),
    Rule("bearing_outside", "pin", 1.0, 4.0, 10.0),
    Rule("weld_leg", "cylinder.rod", 0.02, 1.0),
    Rule("weld_run", "cylinder.rod", 0.1, 60.0),
    Rule("shoulders", BARREL, 0.5, 6.0),
    Rule("seat_height", BARREL, 0.2, 6.0),
    Rule("thickness", BORE, 0.03, 3.0),
    Rule("offset", BORE, 0.0, 14.0, 50.0),
    Rule("thread_length", "cylinder.rod", 0.1, 15.0),
    Rule("shoulder", "cylinder.rod", 0.1, 20.0, 50.0),
    Rule("adjustment", "cylinder.rod", 0.0, 6.0),
    Rule("flats", "cylinder.rod", 0.2, 2.5),
    Rule("plate", BARREL, 0.1, 10.0),
    Rule("bolts.hole", BORE, 0.015, 1.0),
    Rule("bolts.circle", BARREL, 0.3, 10.0),
    Rule("bolts.pitch", BARREL, 0.02, 10.0),
)
PORT_RULES = (Rule("height", BARREL, 0.0, 5.0, 50.0),)
PIN_RULES = (
    Rule("grip", "pin", 0.2, 30.0),
    Rule("length", "pin", 0.3, 40.0),
    Rule("hole", "pin", 0.02, 0.9),
)
DUTY_RULES = (Rule("duty.stopping_distance", "cylinder.stroke", 0.0, 1.0),)
BARE_ROD = Rule("cylinder.rod_stick_out", BORE, 0.0, 7.0, 100.0)
"""The rod that is left bare when closed; it takes up whatever the typed lengths leave over."""
BARE_END = 1.0
"""So many bores more where an end has no pin: what is fixed to it may need the reach."""
BORES = 6.0, 1000.0
"""Bores in mm that a builder of hydraulic cylinders may have seen; a warning beyond them."""
PRESSURES = 1.75, 110.0
"""Likewise steady pressures in MPa: 172 psi were 172 bar, and 2500 bar were psi."""


def judge_sane(book: Ledger, s: Stations, lengths: Lengths) -> None:
    """Enter a finding for each size that is absurd beside its neighbours."""
    _alone(book)
    pairs = _beyond(book)
    while pairs:
        name = _odd_one(book, pairs)
        _tell(book, name, [p for p in pairs if name in p[:2]])
        pairs = [p for p in pairs if name not in p[:2]]
    _bare_rod(book, s, lengths)


Pair = tuple[str, str, Rule]


def _rules(book: Ledger) -> Iterator[Pair]:
    yield from ((r.size, r.beside, r) for r in (*CYLINDER_RULES, *DUTY_RULES))
    for end in ("body", "rod"):
        yield from _of_table(f"{end}_mount", f"{end}_mount", MOUNT_RULES)
        yield from _of_table(f"{end}_pin", f"{end}_mount", PIN_RULES)
    extra = (f"extra_port[{k + 1}]" for k in range(book.spec.count("extra_port")))
    for port in ("base_port", "rod_port", *extra):
        yield from _of_table(port, port, PORT_RULES)


def _of_table(table: str, neighbour: str, rules: Iterable[Rule]) -> Iterator[Pair]:
    for r in rules:
        yield f"{table}.{r.size}", r.beside if "." in r.beside else f"{neighbour}.{r.beside}", r


def _beyond(book: Ledger) -> list[Pair]:
    """Give the pairs that are beyond their rule: a typed size, its neighbour, the rule."""
    return [
        (size, beside, rule)
        for size, beside, rule in _rules(book)
        if book.spec.get(size)
        and not all(rule.allows(a, b) for a in _sizes(book, size) for b in _sizes(book, beside))
    ]


def _sizes(book: Ledger, name: str) -> tuple[float, ...]:
    """Give a size in mm as typed, else as settled; two for a pair, none where there is none."""
    typed, known = book.spec.get(name), book.values.get(name)
    value = typed.value if typed is not None else known.value if known is not None else ()
    # A pair's zero says that there is no such size: one row of bolts.
    sizes = tuple(v for v in value if v) if isinstance(value, tuple) else (value,)
    return tuple(float(v) for v in sizes if isinstance(v, int | float))


def _odd_one(book: Ledger, pairs: Sequence[Pair]) -> str:
    """Name the typed size that most of the pairs have in common, the judged one before others."""
    count = Counter(n for pair in pairs for n in pair[:2] if book.spec.get(n))
    return max(count, key=lambda n: (count[n], any(n == size for size, _, _ in pairs)))


def _tell(book: Ledger, name: str, pairs: Sequence[Pair]) -> None:
    size = _sizes(book, name)[0]
    others = dict.fromkeys(beside if own == name else own for own, beside, _ in pairs)
    beside = ", ".join(f"{_word(book, n)} {book.say(_sizes(book, n)[0])}" for n in [*others][:3])
    said = f"{_word(book, name)} {book.say(size)} does not go with {beside}"
    level: Level = "error" if any(r.level == "error" for _, _, r in pairs) else "warning"
    for meant, other in (("mm", size / float(INCH)), ("in", size * float(INCH))):
        if all(_fits(book, name, other, pair) for pair in pairs):
            _smells(book, level, name, said, other, meant, pairs[0][2])
            return
    own, neighbour, rule = pairs[0]
    message = (
        f"{said}: is this between the right points ({_doc(name)})? {_word(book, own)} is usually "
        f"{rule.least:g} to {rule.most:g} times {_word(book, neighbour)}"
    )
    book.find(OTHER_POINTS, level, name, message, rule.source)


def _fits(book: Ledger, name: str, size: float, pair: Pair) -> bool:
    """Tell whether a pair goes together with another size in the place of ``name``."""
    a, b = ((size,) if n == name else _sizes(book, n)[:1] for n in pair[:2])
    return all(pair[2].allows(x, y) for x in a for y in b)


def _word(book: Ledger, name: str) -> str:
    table, _, field = name.partition(".")
    words = re.sub("[._]", " ", field)
    if table == "cylinder":
        return words
    if table not in ("body_mount", "rod_mount"):
        return f"{table.replace('_', ' ')} {words}"
    whose, mount, _ = called(book, table).partition("mount")
    return f"{whose}{words}" if mount else f"{words} of the {whose}"


def _doc(name: str) -> str:
    table, *path = re.sub(r"\[\d+]", "", name).split(".")
    fields, doc = TABLES[table].fields, ""
    for word in path:
        field = next(f for f in fields if f.name == word)
        fields, doc = field.fields, field.doc
    return doc


def _alone(book: Ledger) -> None:
    """Judge bore and working pressure by themselves."""
    bore = book.number("cylinder.bore") or 0.0
    if not BORES[0] <= bore <= BORES[1]:
        size = "small" if bore < BORES[0] else "large"
        message = f"a bore of {book.say(bore)} is very {size} for a hydraulic cylinder: inch or mm?"
        book.find(OTHER_UNIT, "warning", "cylinder.bore", message, COMMON)
    pressure = book.spec.get("cylinder.working_pressure")
    if pressure is not None and isinstance(pressure.value, float):
        low, high = PRESSURES
        if not low <= pressure.value <= high:
            size = "low" if pressure.value < low else "high"
            message = f"{pressure.typed} is {size} for a hydraulic cylinder: psi or bar?"
            book.find(OTHER_UNIT, "warning", pressure.name, message, COMMON)


def _bare_rod(book: Ledger, s: Stations, lengths: Lengths) -> None:
    """Judge what the typed lengths leave bare of the rod when it is closed."""
    bare = s.rod_end - s.gland_face
    # A cylinder that is held ahead of its closed end may be held back by its barrel's length.
    held_back = s.barrel_end - s.closed_end if s.closed_end < 0.0 else 0.0
    if not all(f"{end}_mount.pin" in book.values for end in ("body", "rod")):
        held_back += BARE_END * s.bore

    def stands_to_reason(bare: float) -> bool:
        least = -1.5 * s.bore  # what gives way
        return bare >= least and BARE_ROD.allows(max(bare - held_back, 0.0), s.bore)

    if stands_to_reason(bare) or book.spec.get(BARE_ROD.size):
        return
    said = f"{book.say(bare)} of rod is bare when closed, on a bore of {book.say(s.bore)}"
    field = "retracted" if book.spec.get("cylinder.retracted") else "extended"
    typed: float = getattr(lengths, field)
    inch = float(INCH)
    for name, size, meant, left in (
        (field, typed / inch, "mm", bare - typed * (1 - 1 / inch)),
        ("stroke", lengths.stroke * inch, "in", bare - lengths.stroke * (inch - 1)),
    ):
        if book.spec.get(f"cylinder.{name}") and stands_to_reason(left):
            _smells(book, "error", f"cylinder.{name}", said, size, meant, BARE_ROD)
            return
    docs = "; ".join(f"{n}: {_doc(f'cylinder.{n}')}" for n in (field, "stroke"))
    message = (
        f"{said}: are the lengths between the right points ({docs})? If so, type rod_stick_out"
    )
    book.find(OTHER_POINTS, "error", f"cylinder.{field}", message, BARE_ROD.source)


def _smells(
    book: Ledger, level: Level, name: str, said: str, size: float, meant: str, rule: Rule
) -> None:
    """Enter that a size was meant in another unit, in which it is ``size`` mm."""
    written = f'"{size / (float(INCH) if meant == "in" else 1.0):.6g} {meant}"'
    field = name.rpartition(".")[2]
    message = f"{said}: {field} smells of another unit; write {written} if that is meant"
    book.find(OTHER_UNIT, level, name, message, rule.source)

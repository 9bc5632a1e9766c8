"""The text of a STEP file in one order, whatever order the kernel wrote it in.

The kernel numbers entities as it meets them in memory, counts assembly links over the life of the
process, and stores points, directions and units as often as they are used. Here equal ones
become one, noise goes, and entities are numbered along their references from roots in a fixed
order: equal content gives equal bytes.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

POINT_DECIMALS = 8
"""Points keep ten picometres …"""
DECIMALS = 10
"""… and everything else ten decimals: for a direction 0.1 µm over a kilometre."""

_ENTITY = re.compile(r"#(\d+)\s*=\s*((?:[^';]|'(?:[^']|'')*')*);")
_STRING = re.compile(r"('(?:[^']|'')*')")
_REFERENCE = re.compile(r"#(\d+)")
_NUMBER = re.compile(r"-?\d+\.\d*(?:E[-+]?\d+)?")
_TOKEN = re.compile(r"'(?:[^']|'')*'[,)]*|[^',)]*[,)]*")
_SHARED = (
    "CARTESIAN_POINT(",
    "DIRECTION(",
    "VECTOR(",
    "AXIS2_PLACEMENT_3D(",
    "UNCERTAINTY_MEASURE_WITH_UNIT(",
    "(GEOMETRIC_REPRESENTATION_CONTEXT(",
    "(LENGTH_UNIT(",
    "(NAMED_UNIT(",
)
_WIDTH = 78


@dataclass(slots=True)
class Entity:
    """One instance: ``texts[0] #refs[0] texts[1] #refs[1] … texts[-1]``."""

    texts: tuple[str, ...]
    refs: list[int]

    def is_a(self, kind: str) -> bool:
        """Tell whether the entity is of a kind (simple instances)."""
        return self.texts[0].startswith(f"{kind}(")


Entities = dict[int, Entity]


def read_entities(text: str, names: Mapping[str, str]) -> Entities:
    """Give the instances of a data section; whole strings found in ``names`` are replaced by it."""
    data = text.partition("DATA;")[2]
    return {int(m[1]): _entity(m[2], names) for m in _ENTITY.finditer(data)}


def _entity(body: str, names: Mapping[str, str]) -> Entity:
    texts, refs = [""], []
    tidy = _tidy_point if body.startswith("CARTESIAN_POINT") else _tidy
    for i, segment in enumerate(_STRING.split(body)):
        if i % 2:
            texts[-1] += names.get(segment, segment)
            continue
        pieces = _REFERENCE.split(_NUMBER.sub(tidy, "".join(segment.split())))
        texts[-1] += pieces[0]
        texts += pieces[2::2]
        refs += [int(n) for n in pieces[1::2]]
    return Entity(tuple(texts), refs)


def _tidy(number: re.Match[str]) -> str:
    return decimal(float(number[0]))


def _tidy_point(number: re.Match[str]) -> str:
    return decimal(float(number[0]), POINT_DECIMALS)


def decimal(number: float, places: int = DECIMALS) -> str:
    """Write a real number as the file does."""
    text = f"{number:.{places}f}".rstrip("0")
    return "0." if text == "-0." else text


def find(entities: Entities, kind: str) -> list[tuple[int, Entity]]:
    """Give number and instance of every entity of a kind (simple instances)."""
    return [(n, e) for n, e in entities.items() if e.is_a(kind)]


def canonical(entities: Entities, header: str) -> bytes:
    """Give the whole file: the header section's lines as they come, then the data section."""
    merged = _shared(entities)
    digests = _digests(merged)
    used = {r for e in merged.values() for r in e.refs}
    roots = sorted((n for n in merged if n not in used), key=lambda n: _rank(n, merged[n], digests))
    numbers: dict[int, int] = {}
    waiting = roots[::-1]
    while waiting:
        n = waiting.pop()
        if n not in numbers:
            numbers[n] = len(numbers) + 1
            waiting += merged[n].refs[::-1]
    lines = [_line(numbers[n], merged[n], numbers) for n in numbers]
    before = ("ISO-10303-21;", "HEADER;", header, "ENDSEC;", "DATA;")
    after = ("ENDSEC;", "END-ISO-10303-21;", "")
    return "\n".join((*before, *lines, *after)).encode("ascii")


def _rank(number: int, entity: Entity, digests: Mapping[int, bytes]) -> tuple[int, int, bytes]:
    """The kernel keeps the order of products and links, but goes through colours by address."""
    if entity.is_a("MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION"):
        return 1, 0, digests[number]
    return 0, number, b""


def _shared(entities: Entities) -> Entities:
    """Let equal points and units be one instance; the links of an assembly keep their places."""
    own = {
        r
        for e in entities.values()
        if e.is_a("SHAPE_REPRESENTATION") or e.is_a("ITEM_DEFINED_TRANSFORMATION")
        for r in e.refs
    }
    first: dict[tuple[tuple[str, ...], tuple[int, ...]], int] = {}
    now: dict[int, int] = {}
    out: Entities = {}
    for n in _children_first(entities):
        e = entities[n]
        refs = [now[r] for r in e.refs]
        if e.texts[0].startswith(_SHARED) and n not in own:
            now[n] = first.setdefault((e.texts, tuple(refs)), n)
        else:
            now[n] = n
        if now[n] == n:
            out[n] = Entity(e.texts, refs)
    return out


def _digests(entities: Entities) -> dict[int, bytes]:
    """Give for every entity a hash of all that hangs on it."""
    found: dict[int, bytes] = {}
    for n in _children_first(entities):
        e = entities[n]
        parts = "\0".join(e.texts).encode(), *(found[r] for r in e.refs)
        found[n] = hashlib.sha256(b"\0".join(parts)).digest()
    return found


def _children_first(entities: Entities) -> Iterator[int]:
    seen: set[int] = set()
    for root in entities:
        stack = [(root, False)]
        while stack:
            n, ready = stack.pop()
            if ready:
                yield n
            elif n not in seen:
                seen.add(n)
                stack.append((n, True))
                stack += ((r, False) for r in entities[n].refs if r not in seen)


def _line(number: int, entity: Entity, numbers: Mapping[int, int]) -> str:
    parts = [f"#{number}={entity.texts[0]}"]
    for ref, text in zip(entity.refs, entity.texts[1:], strict=True):
        parts.append(f"#{numbers[ref]}{text}")
    line = "".join(parts) + ";"
    return line if len(line) <= _WIDTH else wrapped(line)


def wrapped(line: str) -> str:
    """Break a long line behind commas and brackets, never inside a string."""
    rows = [""]
    for token in _TOKEN.findall(line):
        if rows[-1] and len(rows[-1]) + len(token) > _WIDTH and rows[-1][-1] in ",()":
            rows.append("")
        rows[-1] += token
    return "\n".join(rows)

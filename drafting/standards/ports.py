"""Port words of the spec file: ``SAE-8``, ``1/2 NPT``, ``G 1/2``, ``M22x1.5 ISO 6149``, flanges.

Each ``[[port]]`` of a table's TOML says how its ports are spelled (``match``) and which words only
half say it (``partial``). A new pair of files is a new port standard.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from drafting.standards.port_thread import Family, PortThread, families, port_of, ports
from drafting.standards.table import DATA
from drafting.standards.words import fill, magnitude, pick, tidy

__all__ = ["PortThread", "PortWordError", "parse_port", "ports"]


class PortWordError(ValueError):
    """A port's word cannot be taken: ``code`` and a ``message`` with what would do."""

    def __init__(self, code: str, message: str) -> None:
        self.code, self.message = code, message
        super().__init__(message)


@lru_cache(maxsize=256)
def parse_port(text: str, folder: Path = DATA) -> PortThread:
    """Give the port that a word means, or raise ``PortWordError``.

    ``port-two-meanings``: all readings are told; ``port-incomplete``: the only one;
    ``port-size``: the neighbours in that table; ``port-unknown``: how ports are written.
    """
    typed, wanted = " ".join(text.split()), tidy(text)
    if len(typed) > 80:
        raise PortWordError("port-unknown", f"{len(typed)} characters are too many for a port")
    meant: dict[str, PortThread] = {}
    missed: list[tuple[Family, dict[str, str]]] = []
    for family in families("port", folder):
        for pattern in family.entry["match"]:
            said = family.said(pattern, wanted)
            if said is None:
                continue
            rows = pick(family.table.rows, said)
            if not rows:
                missed.append((family, said))
            for row in rows:
                meant.setdefault(fill(family.entry["spelling"], row), port_of(family, row))
    if len(meant) == 1:
        return next(iter(meant.values()))
    if meant:
        raise PortWordError("port-two-meanings", _two(typed, [p.echo for p in meant.values()]))
    if missed:
        raise PortWordError("port-size", _neighbours(typed, *missed[0]))
    half = _half(wanted, typed, folder)
    if half:
        raise half
    raise PortWordError(
        "port-unknown",
        f'"{typed}" is no port that the tables know; write for example '
        + ", ".join(f'"{s}"' for s in _examples(folder)),
    )


def _name(port: PortThread) -> str:
    return f'"{port.spelling}" ({port.echo.removeprefix(port.spelling + ": ")})'


def _two(typed: str, readings: list[str]) -> str:
    count = {2: "two", 3: "three", 4: "four"}.get(len(readings), "several")
    return f'"{typed}" means {count} things; write the one that is meant: ' + "; or ".join(readings)


def _half(wanted: str, typed: str, folder: Path) -> PortWordError | None:
    """Give the refusal of a word that says a port by halves, None when it says none."""
    found: dict[str, PortThread] = {}
    why: dict[str, list[str]] = {}
    for family in families("port", folder):
        for half in family.entry.get("partial", ()):
            said = family.said(half["match"], wanted)
            for row in pick(family.table.rows, said) if said else ():
                port = port_of(family, row)
                found.setdefault(port.spelling, port)
                because = half.get("because", "").format(
                    typed=next(iter((said or {}).values()), "")
                )
                if because and because not in why.setdefault(port.spelling, []):
                    why[port.spelling].append(because)
    readings = [
        _name(port) + (f" - {', '.join(why[s])}" if why.get(s) else "") for s, port in found.items()
    ]
    others = list(dict.fromkeys(_others(wanted, folder)))
    if not readings and not others:
        return None
    if not readings:
        return PortWordError("port-unknown", f'"{typed}": {"; or ".join(others)}')
    if len(readings) + len(others) == 1:
        message = f'"{typed}" leaves something open; if this is meant, write {readings[0]}'
        return PortWordError("port-incomplete", message)
    return PortWordError("port-two-meanings", _two(typed, readings + others))


def _others(wanted: str, folder: Path) -> list[str]:
    """Give what a word may mean beside a port."""
    return [
        fill(reading.entry["say"], row)
        for reading in families("reading", folder)
        for pattern in reading.entry["match"]
        if (said := reading.said(pattern, wanted))
        for row in pick(reading.table.rows, said)
    ]


def _neighbours(typed: str, family: Family, said: Mapping[str, str]) -> str:
    """Give the message for a size that the table does not have."""
    rows, within = family.table.rows, family.entry.get("within", "")
    if within in said:
        rows = tuple(r for r in rows if r.word(within) == said[within])
        if not rows:
            known = dict.fromkeys(r.word(within) for r in family.table.rows)
            return f'"{typed}": there is no {within} {said[within]}, only {" and ".join(known)}'
    column = next(c for c in said if c != within)
    asked = magnitude(said[column])
    sized = [(abs(magnitude(r.word(column))), r) for r in rows]
    same = [r for size, r in sized if size == asked]
    below = max((x for x in sized if x[0] < asked), key=lambda x: x[0], default=None)
    above = min((x for x in sized if x[0] > asked), key=lambda x: x[0], default=None)
    near = same or [x[1] for x in (below, above) if x]
    there = " and ".join(_name(port_of(family, r)) for r in near)
    size = "that size there is" if same else "the nearest there:"
    return f'"{typed}" is not in {family.entry["standard"]}; {size} {there}'


def _examples(folder: Path) -> list[str]:
    """Give one port of each family, from the middle of its table."""
    return [
        port_of(f, f.table.rows[len(f.table.rows) // 3]).spelling for f in families("port", folder)
    ]

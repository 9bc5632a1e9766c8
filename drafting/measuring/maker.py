"""Inch or metric: what the file says of the maker, else what all readings that tell say alike."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from drafting.measuring.readings import Bench
from drafting.measuring.results import Account
from drafting.standards.ports import PortWordError, parse_port

World = Literal["inch", "pipe", "metric", ""]
"""Where threads are at home. British pipe threads are used by inch and metric makers alike."""
_WORLDS: Mapping[str, World] = {
    "SAE ORB": "inch",
    "NPT": "inch",
    "NPTF": "inch",
    "G": "pipe",
    "G DIN 3852-2": "pipe",
    "Rc": "pipe",
    "ISO 6149": "metric",
}
OWN: Mapping[str, tuple[World, ...]] = {"inch": ("inch",), "metric": ("metric", "pipe")}
"""The threads that a maker of a system is expected to cut; common practice."""
LEAST = 2
"""So many readings at least, and none against them, speak for a maker."""


def world_of(port: str) -> World:
    """Tell where a port of the tables is at home, "" where its name does not say."""
    return _WORLDS.get(parse_port(port).family, "")


def thread_votes(bench: Bench) -> list[bool]:
    """Give for each port that is known by name and tells of the maker whether it is inch."""
    homes = []
    for port in bench.ports:
        try:
            homes.append(world_of(str(port.seen.get("thread", ""))))
        except PortWordError:
            continue  # said where the port is taken
    return [home == "inch" for home in homes if home in ("inch", "metric")]


def maker(account: Account) -> Literal["inch", "metric", ""]:
    """Give the maker's system: typed, or told alike by every reading that is sure."""
    typed = account.bench.system
    if typed:
        return "inch" if typed == "inch" else "metric"
    votes = thread_votes(account.bench)
    votes += [
        r.taken_as.endswith(" in")
        for r in account.rows.values()
        if r.letter.kind in ("bore", "rod", "pin") and r.confidence == "sure"
    ]
    if len(votes) < LEAST or len(set(votes)) > 1:
        return ""
    return "inch" if votes[0] else "metric"

"""The barrel's own length: it must hold what is in it; the one drawn by rule is held against it."""

from __future__ import annotations

from drafting.errors import Refused
from drafting.measuring.means import APART, means
from drafting.measuring.results import Account
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec

INSIDE = 0.4
"""Piston and gland want so much of the bore beside the travel at the very least: half of what they
have by the floors of the format (0.5 and 0.6 of the bore), as part of the gland lies outside."""


def barrel_holds(account: Account) -> None:
    """Ask where a barrel is too short for its travel, piston and gland."""
    barrel, bore = _read(account), account.values.get("cylinder.bore")
    ends = [account.values.get(f"cylinder.{n}") for n in ("retracted", "extended")]
    if barrel is None or not isinstance(bore, float):
        return
    closed, opened = ends
    if not isinstance(closed, float) or not isinstance(opened, float):
        return
    mm, u = barrel
    if mm + APART * u < opened - closed + INSIDE * bore:
        account.ask(
            "A, B, X",
            f"a barrel of {account.say(mm)} does not hold a travel of "
            f"{account.say(opened - closed)} with piston and gland",
            "each of them again: the same edges, the same end of the tape",
        )


def drawn_barrel(account: Account, text: str) -> None:
    """Note by how much the barrel that is drawn differs from the one that was read."""
    barrel = _read(account)
    if barrel is None:
        return
    try:
        c = load(read_spec(text.encode(), mounts=mounts_by_end(), file="spec"))
    except Refused:
        return  # asked already
    mm, u = barrel
    drawn = c.stations.barrel_end - c.stations.closed_end
    if abs(drawn - mm) > APART * u:
        account.notes.append(
            f"the barrel reads {account.say(mm)} and is drawn {account.say(drawn)} long: what lies "
            "inside is drawn by rule"
        )


def _read(account: Account) -> tuple[float, float] | None:
    found = [m for m in means(account.bench) if m.read.letter.letter == "X" and m.agree]
    return (found[0].value, found[0].u) if found else None

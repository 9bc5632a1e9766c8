"""Words and pairs of a mount, settled as sizes are: typed, or by a rule that is told."""

from __future__ import annotations

from drafting.settle.ledger import COMMON, Ledger
from drafting.values import Value


def settle_word(book: Ledger, name: str, otherwise: str, why: str) -> str:
    """Give the typed word, else ``otherwise``: it meets the machine, so it is to be confirmed."""
    found = book.spec.get(name)
    if found is not None:
        book.enter_typed(found, name, str(found.value), True)
        return str(found.value)
    book.values[name] = Value(name, otherwise, "", None, "derived", why, COMMON, True)
    book.find(
        "to-confirm",
        "warning",
        name,
        f"not typed; drawn as {otherwise} ({why}): to be confirmed on the machine",
        COMMON,
    )
    return otherwise


def typed_pair(book: Ledger, name: str, ends: tuple[str, str]) -> tuple[float, float] | None:
    """Give a typed pair of lengths in mm and enter both as ``name.end``; None for anything else."""
    found = book.spec.get(name)
    if found is None or not isinstance(found.value, tuple):
        return None
    a, b = (float(v) for v in found.value)
    for end, mm in zip(ends, (a, b), strict=True):
        book.enter_typed(found, f"{name}.{end}", mm, True)
    return a, b

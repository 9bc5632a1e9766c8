"""What a mount is called in a message: by its end, or by its kind where it stands elsewhere."""

from __future__ import annotations

from drafting.settle.ledger import Ledger

CALLED = {
    "body_mount": "base end mount",
    "rod_mount": "rod end mount",
    "body_pin": "base end pin",
    "rod_pin": "rod end pin",
}
"""Tables of the spec as the trade says them."""


def called(book: Ledger, table: str) -> str:
    """Give a mount's or pin's words: ``base end mount``, ``body's flange at the rod end``."""
    at = book.values.get("body_mount.position") if table == "body_mount" else None
    if at is None or at.value == "base":
        return CALLED[table]
    kind = book.spec.word("body_mount.mount") or "mount"
    places = {"rod end": " at the rod end", "middle": " in the middle"}
    return f"body's {kind}{places.get(str(at.value), '')}"

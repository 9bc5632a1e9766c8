"""How far an eye or a tube reaches to either side of the centre line."""

from __future__ import annotations

from drafting.model.mounts.pinned import SMALL
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.mount import Host
from drafting.settle.wishes import Length, Wish
from drafting.shape.frame import ORIGIN, Y

EYE_FIELDS = (
    "pin",
    "hole",
    "width",
    "left",
    "right",
    "outside",
    "nose",
    "offset",
    "bushing",
    "grease",
)
"""What an eye and a tube take alike."""


def settle_sides(book: Ledger, host: Host, what: str, usual: Rule) -> tuple[float, float]:
    """Settle an eye's reach to +Y (left) and -Y (right) from width, left and right.

    ``usual`` is the width when none of the three was typed.
    """
    t = host.table
    left, right = book.number(f"{t}.left", True), book.number(f"{t}.right", True)
    width = book.number(f"{t}.width", True)
    if width is None and left is not None and right is not None:
        width = left + right
        book.compute(f"{t}.width", width, "left plus right")
    elif width is None:
        known = left if left is not None else right
        rule = Rule(2 * known, "twice the side that was typed") if known is not None else usual
        book.enter(f"{t}.width", rule, interface=True)
        width = rule.value
    if left is None and right is None:
        return width / 2, width / 2
    if left is None or right is None:
        side, typed = ("left", right) if left is None else ("right", left)
        other = width - (typed or 0.0)
        book.compute(f"{t}.{side}", other, "the width less the other side")
        left, right = (other, typed or 0.0) if left is None else (left, other)
    if abs(left + right - width) > SMALL or min(left, right) <= 0:
        book.fault(
            "sides-disagree",
            f"{t}.width",
            f"left {book.say(left)} and right {book.say(right)} do not make a {what} "
            f"of {book.say(width)}; "
            "left and right are measured from the centre line and together are the width",
        )
        left = right = width / 2
    return left, right


def side_wishes(table: str, left: float, right: float) -> tuple[Wish, ...]:
    """Give the width, and both sides when the eye is not central."""
    a, b = (0.0, -right, 0.0), (0.0, left, 0.0)
    even = abs(left - right) < SMALL
    width = Length(f"{table}.width", a, b, Y, rank=3, reference=not even)
    if even:
        return (width,)
    return (
        width,
        Length(f"{table}.right", a, ORIGIN, Y, rank=2),
        Length(f"{table}.left", ORIGIN, b, Y, rank=2),
    )

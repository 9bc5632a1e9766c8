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
SIDES = ("width", "right", "left")
"""Two of them give the third."""


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


def which_follows(book: Ledger, host: Host) -> str:
    """Give the one of width, left and right that is for reference, as the two others give it.

    That is the one that was not typed, else one without a tolerance; none where each has its own.
    """
    spec, t = book.spec, host.table
    left_out = (n for n in SIDES if not spec.has(f"{t}.{n}"))
    free = (n for n in SIDES if not spec.has(f"{t}.tolerance.{n}"))
    return next(left_out, next(free, ""))


def side_wishes(table: str, left: float, right: float, follows: str) -> tuple[Wish, ...]:
    """Give the width, and both sides when the eye is not central; ``follows`` is for reference."""
    a, b = (0.0, -right, 0.0), (0.0, left, 0.0)
    if abs(left - right) < SMALL:
        return (Length(f"{table}.width", a, b, Y, rank=3),)
    ends = {"width": (a, b, 3), "right": (a, ORIGIN, 2), "left": (ORIGIN, b, 2)}
    return tuple(
        Length(f"{table}.{n}", p, q, Y, rank=rank, reference=n == follows)
        for n, (p, q, rank) in ends.items()
    )

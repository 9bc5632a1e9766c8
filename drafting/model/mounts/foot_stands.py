"""How a foot's plates stand: beside the barrel on a web, or past an end on a leg as an angle."""

from __future__ import annotations

from typing import Literal

from drafting.model.mounts.along_barrel import EDGE
from drafting.model.mounts.foot_sizes import FootSizes
from drafting.settle.ledger import Ledger
from drafting.settle.mount import Host
from drafting.settle.stations import Stations

Stand = Literal["side lug", "base angle", "rod angle"]
COLLAR = 0.92
"""Largest gland, in hosts, round which an angle still finds a face to stand against."""


def stand_of(sizes: FootSizes, s: Stations, x0: float, x1: float) -> Stand | None:
    """Tell how a plate from x0 to x1 stands; None where it meets nothing."""
    thick = sizes.thickness
    if min(x1, s.barrel_end) - max(x0, s.closed_end) >= thick:
        return "side lug"
    if x0 < s.closed_end and x1 >= s.closed_end - thick + EDGE:
        return "base angle"
    if x1 > s.barrel_end and x0 <= s.barrel_end + thick - EDGE:
        return "rod angle"
    return None


def gland_room(s: Stations) -> float:
    """Give the diameter of what an angle ahead of the barrel goes round."""
    return s.gland_outside if s.gland_face > s.barrel_end else s.bore


def judge_stands(book: Ledger, host: Host, sizes: FootSizes, s: Stations) -> None:
    """Enter how the plates stand; each must stand on the barrel or on a leg against an end."""
    stands = []
    for k, (x0, x1) in enumerate(sizes.plates()):
        name = f"{host.table}.{'bolts.pitch' if k else 'position'}"
        stand, which = stand_of(sizes, s, x0, x1), ("foot", "second foot")[k]
        from_x, to_x = book.say(x0 - s.closed_end), book.say(x1 - s.closed_end)
        barrel = book.say(s.barrel_end - s.closed_end)
        if stand is None or (stand == "side lug" and x1 > s.barrel_end + EDGE):
            book.fault(
                "off-barrel",
                name,
                f"the {which} would reach from {from_x} to {to_x} from the closed end, but the "
                f"barrel is {barrel} long: it would stand over its edge, or meet neither the "
                "barrel nor a leg against an end of it",
            )
        elif stand == "rod angle" and gland_room(s) > COLLAR * host.diameter:
            book.fault(
                "no-face-for-foot",
                name,
                f"the {which} lies ahead of the barrel ({from_x} to {to_x} from the closed "
                f"end), but a gland of {book.say(gland_room(s))} leaves no face of "
                f"{book.say(host.diameter)} to stand an angle against; put it beside the "
                "barrel",
            )
        elif host.square and s.oil_side <= x0 and x1 <= s.gland_inner:
            book.find(
                "foot-on-tube",
                "warning",
                name,
                f"the {which} stands on the tube between cap and head, where the block that "
                "carries it is fixed to nothing; " + _way_out(book, sizes, s, x0, x1),
                "common practice",
            )
        stands.append(stand)
    said = _said(sizes, s, stands)
    book.compute(f"{host.table}.feet", said, "how the plates stand", unit="")


def _way_out(book: Ledger, sizes: FootSizes, s: Stations, x0: float, x1: float) -> str:
    """Say what would bring a plate from x0 to x1 on the tube under cap or head."""
    if x0 > sizes.plates()[0][0]:
        pitch = sizes.pitch[0] + (s.gland_inner + s.barrel_end - x0 - x1) / 2
        return f"a pitch of {book.say(pitch)} along the axis would bring it under the head"
    middle = (s.oil_side - s.closed_end) / 2
    return f"a position of {book.say(middle)} would bring it under the cap"


def _said(sizes: FootSizes, s: Stations, stands: list[Stand | None]) -> str:
    """Say in words of the table of codes what carries both ends; else what the plates are."""
    if stands == ["base angle", "rod angle"]:
        return "end angles"
    plates = sizes.plates()
    ends = plates[0][0] < s.oil_side and plates[-1][1] > s.gland_inner
    if stands == ["side lug", "side lug"] and ends:
        return "side lugs"
    return ", ".join(str(stand) for stand in stands)

"""How near a piece of the cylinder and a solid of the machine come."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drafting.records import dataclass

if TYPE_CHECKING:
    from drafting.fitting.poses import Seat
    from drafting.fitting.step_file import Solids
    from drafting.model.ports.hose_room import Outward

AT_THE_PIN = ("body_mount.", "rod_mount.", "body_pin", "rod_pin")
"""Pieces that sit in the machine's ears: nothing is asked of them but that they do not clash."""


@dataclass(frozen=True, slots=True)
class Clearance:
    """The nearest that a piece and a solid come. ``gap`` mm; ``clash`` mm3, 0 where they clear.

    ``confirmed`` tells that the kernel said it; else it is the mesh's, within 0.2 mm, or, where
    there is ``doubt``, kernel and mesh do not agree. ``never`` is what the gap falls below nowhere
    between the places looked at; where that is less than asked, ``step`` is the widest stretch of
    the travel in which nothing was asked. ``deep`` mm: a point that lies so deep in both.
    """

    piece: str
    solid: str
    gap: float
    at: float
    asked: float
    clash: float = 0.0
    confirmed: bool = False
    doubt: bool = False
    never: float = 0.0
    step: float = 0.0
    deep: float = 0.0


@dataclass(frozen=True, slots=True)
class Ahead:
    """``free`` mm straight out of a port; ``solid`` ends it at the place ``at``, or none does."""

    port: str
    free: float
    asked: Outward
    solid: str = ""
    at: float = 0.0


@dataclass(frozen=True, slots=True)
class Turn:
    """By how much to turn what, so that a port clears for the whole travel: ``words`` say it.

    ``what`` is ``fitting``, ``head``, ``whole`` (half round), or ``made`` where only one that is
    made anew has its port there. ``left`` mm beyond what is asked, or more.
    """

    port: str
    what: str
    degrees: float
    left: float
    words: str


@dataclass(frozen=True, slots=True)
class Room:
    """What was found, nearest to what is asked first; ``looked`` are the places, ``reach`` mm.

    ``unseen`` names solids with a face that could not be looked at; ``ahead`` is told of the ports
    that name no fitting.
    """

    seat: Seat
    solids: Solids
    clearances: tuple[Clearance, ...]
    looked: tuple[float, ...]
    reach: float
    unpinned: tuple[str, ...] = ()
    unseen: tuple[str, ...] = ()
    ahead: tuple[Ahead, ...] = ()
    turns: tuple[Turn, ...] = ()

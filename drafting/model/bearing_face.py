"""What a builder has to know of a flange on tie rods or round a gland: said on the drawing, told.

Rods, nuts and gland stand out of the face that bears on the machine. That face is the outer one of
the plate: what lies beyond an inner one is the cylinder itself. A plate over the nuts is recessed
for them.

        plate                 plate
       |    |--.               |--.-|-.
    ===|    |==|== tie rod     |==|==== stands out of a recess
       |    |--'               |--'-|-'
       seat |--->| stands out       | seat
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import cos, hypot, sin, tau

from drafting.records import dataclass
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.stations import Stations
from drafting.settle.wishes import Callout, Wish
from drafting.shape.frame import Vec, X, Y, Z, dot, scale
from drafting.shape.pieces import Part, Piece, extent

_PROUD = 0.05
"""So far (mm) out of a face nothing keeps it off the machine."""
_PLATE = "body_mount.plate"
_STAND_OUT, _RECESS = "cylinder.tie_rod_stand_out", "cylinder.nut_recess"


@dataclass(frozen=True, slots=True)
class _Face:
    """A plate from lo to hi (world x, mm), its outer face along ``away``; it may be what bears."""

    lo: float
    hi: float
    away: Vec
    bears: bool

    @property
    def x(self) -> float:
        """Give where the outer face lies."""
        return self.hi if self.away == X else self.lo

    def covers(self, piece: Piece) -> bool:
        """Tell whether a piece lies within the plate's thickness."""
        lo, hi = extent(piece, X)
        return min(hi, self.hi) - max(lo, self.lo) > _PROUD

    def out(self, piece: Piece) -> float:
        """Give how far a piece stands out of it."""
        return extent(piece, self.away)[1] - self.x * self.away[0]


@dataclass(frozen=True, slots=True)
class _Nuts:
    """How far tie rods stand out of a face (mm), where the tip of one is, and a nut's recess."""

    out: float
    tip: Vec
    recess: float


def judge_bearing_face(book: Ledger, parts: Sequence[Part]) -> None:
    """Enter how far tie rods stand out of the face and what recess their nuts have; findings."""
    face = _face(book, parts)
    nuts = _nuts(parts, face) if face else None
    if face is None or nuts is None:
        return
    if face.bears and nuts.out > _PROUD:
        book.enter(_STAND_OUT, Rule(nuts.out, "nuts and rod ends"))
        book.find(
            "proud-of-seat",
            "warning",
            "body_mount.seat",
            f"tie rods and nuts stand {book.say(nuts.out)} out of the face that bears on the "
            "machine: the machine has to be free of them there, or the face is raised by a spacer",
        )
    if nuts.recess:
        book.enter(_RECESS, Rule(nuts.recess, "nut over its corners"))
        plates = (q for part in parts for q in part.pieces if q.name == _PLATE)
        over = max(_over_edge(q, nuts) for q in plates)
        if over > _PROUD:
            book.find(
                "recess-off-plate",
                "warning",
                _PLATE,
                f"the recesses of the tie rods' nuts, Ø{book.say(nuts.recess)}, run "
                f"{book.say(over)} over the edge of the plate; a plate or a square "
                f"{book.say(2 * over)} larger, or thinner tie rods would do",
                "common practice",
            )


def bearing_face_wishes(book: Ledger, parts: Sequence[Part], s: Stations) -> Iterator[Wish]:
    """Say what enters the machine, and what the plate is recessed for."""
    face = _face(book, parts)
    if face is None:
        return
    if (nuts := _nuts(parts, face)) is not None:
        proud = face.bears and nuts.out > _PROUD
        words = (("TIE RODS STAND OUT {}", proud), ("NUT RECESSES", nuts.recess))
        name, (x, y, z) = _STAND_OUT if proud else _RECESS, nuts.tip
        if lines := tuple(line for line, wanted in words if wanted):
            at, sizes = ((x, y, -z),), (nuts.out,) * proud
            yield Callout(name, nuts.tip, face.away, lines, others=at, sizes=sizes)
    if not face.bears or face.away != X or face.x < s.gland_inner:
        return
    out, wide = s.gland_face - face.x, s.gland_outside
    if s.gland_face - max(face.x, s.barrel_end) > _PROUD:
        name, line, shown = "cylinder.gland_outside", "GLAND {} x Ø{}", (out, wide)
        if not book.spec.has("cylinder.gland_projection"):  # a flag stands behind what it is of
            name, line, shown = "cylinder.gland_projection", "GLAND Ø{} x {}", (wide, out)
        edge, *edges = _round_edge(s.gland_face, wide / 2)
        yield Callout(name, edge, X, (line,), others=tuple(edges), sizes=shown)


def _round_edge(x: float, radius: float) -> Iterator[Vec]:
    """Give points of a round face's edge at the hours: what stands before it may cover some."""
    for hour in range(12):
        turn = tau * hour / 12
        yield (x, radius * sin(turn), radius * cos(turn))


def _face(book: Ledger, parts: Iterable[Part]) -> _Face | None:
    """Give the outer face of a flange's plate on the body; None without one."""
    seat = book.values.get("body_mount.seat")
    pieces = [q for part in parts if part.owner == "body" for q in part.pieces if not q.cut]
    plate = next((extent(q, X) for q in pieces if q.name == _PLATE), None)
    if seat is None or plate is None:
        return None
    ends = [extent(q, X) for q in pieces if q.name.startswith("cylinder.")]
    middle = (min(lo for lo, _ in ends) + max(hi for _, hi in ends)) / 2
    ahead = sum(plate) / 2 > middle
    away = X if ahead else scale(X, -1.0)
    return _Face(*plate, away, (seat.value == "rod side") is ahead)


def _nuts(parts: Iterable[Part], face: _Face) -> _Nuts | None:
    """Give what there is of tie rods at a plate; None without any."""
    pieces = [q for part in parts for q in part.pieces]
    rods = [q for q in pieces if q.name == "cylinder.tie_rod" and not q.cut]
    if not rods:
        return None
    rod = max(rods, key=lambda q: q.frame.origin[1:])
    out = face.out(rod)
    tip = (face.x + out * face.away[0], *rod.frame.origin[1:])
    within = any(q.name == "cylinder.nut" and face.covers(q) for q in pieces)
    room = next((extent(q, Z) for q in pieces if within and q.name == "cylinder.nut_room"), (0, 0))
    return _Nuts(out, tip, room[1] - room[0])


def _over_edge(plate: Piece, nuts: _Nuts) -> float:
    """Give how far a nut's recess runs over the edge of a plate, round or not; below 0 within."""
    _, y, z = nuts.tip
    outward = (0.0, y / hypot(y, z), z / hypot(y, z))
    return max(dot(nuts.tip, d) + nuts.recess / 2 - extent(plate, d)[1] for d in (Y, Z, outward))

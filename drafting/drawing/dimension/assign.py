"""Which view shows a size best: in true size, its ends in sight, the plain views first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import dist, hypot

from drafting.drawing.dimension.in_another import in_another
from drafting.drawing.dimension.owners import group_of, is_fitting, is_knob, is_port
from drafting.drawing.dimension.picture import Picture
from drafting.drawing.dimension.squares import has_clear_square
from drafting.drawing.sheet.clash import segments
from drafting.drawing.sheet.strokes import Line
from drafting.records import dataclass
from drafting.settle.wishes import Callout, Diameter, Length, Radius, Wish
from drafting.shape.frame import Vec, X, add, cross, dot, scale, sub

_SQUARE = 1e-6
_FIRST = {"side": 0.0, "top": 2.0, "pin": 1.0, "end": 4.0, "extended": 0.0, "small": 0.0}
_UNSEEN = 3.0
_COVERED = 5
"""So many times as dear is a leader to a hole of which not even dashes are shown, as one below the
head of its pin."""
_HIDDEN = 1.0
_OBLIQUE = 1.0
_ASKEW = 1.0
_IN_PROFILE = 1.5
_BEHIND = 7.2
"""What it costs to point at the edge of a port that faces away: more than at a covered one."""
_DASHED, _UNDRAWN = 1.5, 30.0
"""What it costs to point at a fitting of which only dashes are drawn, or nothing."""
_IN_ANOTHER = 2.0
"""What it costs to point into a round of another one."""
_ON_DIAL = 2.0
"""What it is worth that the hour of a seat is told where the hours stand."""
_AS_WELL = 3.0
"""So much dearer another view shows words about as well: less than what it costs to be unseen."""
_PROFILE = 0.35
"""A face that is turned so little to the eye or away from it (sine) is seen in profile."""
_AT_HOLES = 5.0
"""What it is worth that a pattern is measured where its holes are seen as circles."""

Ends = Mapping[str, str]
"""What a size of a mount's table is called where a view shows both ends."""
_HEMMED_IN = 5.5
"""What it costs to stand in a long view where extension lines are long or run over other parts, or
the line itself does: more than to have one end covered in the end view."""
_AMIDST, _PLATE_AMIDST = 0.35, 0.1
"""So much of a view's length is a long way for an extension line, and for one of a flange's plate,
whose face another view shows: all sizes of a plate there would make the end view too high. Longer
than the size it is long too."""

_ROD = "cylinder.rod"
_COVERED_SIZES = frozenset({_ROD, "cylinder.barrel_outside"})
_STUB = 0.03
"""So little of a view's length, of an edge that is seen, carries no arrows that are read on it."""

_BODY_MOUNT = "body_mount"
_TIE_ROD, _CAP = "cylinder.tie_rod", "cylinder.cap"
_NEAR = 0.02
"""Edges this near to each other, of the diameter that one of them is of, are one on paper."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A wish in the picture that shows it; the wish may be reworded for that view."""

    wish: Wish
    picture: Picture
    cost: float


def assign(
    wishes: Sequence[Wish], pictures: Sequence[Picture], ends: Ends | None = None
) -> tuple[Choice, ...]:
    """Give every wish its picture; one that no picture shows in true size is left out.

    ``ends`` are the words for the tables of the mounts, where both stand in one view.
    """
    found = []
    for wish in wishes:
        choices = [
            Choice(w, p, cost)
            for p in pictures
            if p.pose == wish.pose and p.shows(wish.name)
            for w, cost in _ways(wish, p)
        ]
        if choices:
            found.append(_in_the_open(min(choices, key=lambda c: c.cost), pictures))
    return which_end(found, ends or {})


def elsewhere(choice: Choice, pictures: Sequence[Picture]) -> list[Choice]:
    """Give the other pictures that show words about as well, the best first."""
    own, wish = choice.picture, choice.wish
    # It stands as it does where the rod is in; which way it looks is told in the end view.
    stays = group_of(wish.name) == _BODY_MOUNT and not wish.name.endswith(".clock")
    others = [
        p
        for p in pictures
        if (p.pose == wish.pose or (stays and p.name == "extended")) and p.name != own.name
    ]
    found = [
        Choice(w, p, cost)
        for p in others
        if p.shows(choice.wish.name)
        for w, cost in _ways(choice.wish, p)
        if cost < choice.cost + _AS_WELL
    ]
    return sorted(found, key=lambda c: c.cost)


def _in_the_open(choice: Choice, pictures: Sequence[Picture]) -> Choice:
    """Show the diameter of what other parts cover in the extended view, where that shows more.

    The edge of a tube is as good as covered where that of a tie rod runs along it, or where it is
    one line with the edges of square caps.
    """
    wish, picture = choice.wish, choice.picture
    opened = next((p for p in pictures if p.name == "extended"), None)
    if wish.name not in _COVERED_SIZES or not isinstance(wish, Length) or not opened:
        return choice
    here, there = (_run(wish, p) for p in (picture, opened))
    if wish.name == _ROD:
        here = picture.owners.bare_of_strewn(here)
    covered = here[1] - here[0] < _STUB * (picture.box[2] - picture.box[0])
    beside = _along_another(wish, picture) and not _along_another(wish, opened)
    if wish.name != _ROD and _TIE_ROD in picture.groups:
        beside |= bool(picture.seen_level(_CAP, max(picture.look.flat(wish.b)[1], 0.0)))
    if not (covered and there[1] - there[0] > here[1] - here[0]) and not beside:
        return choice
    x = sum(there) / 2
    a, b = ((x, *p[1:]) for p in (wish.a, wish.b))
    return Choice(replace(wish, a=a, b=b, pose="extended"), opened, choice.cost)


def _along_another(wish: Length, picture: Picture) -> bool:
    """Tell whether the edge of another piece runs along the upper end of a diameter, too near."""
    low, high = sorted(picture.look.flat(p)[1] for p in (wish.a, wish.b))
    own = picture.seen_level(wish.name, high)
    return any(
        0.0 < abs(s.curve.a[1] - high) < _NEAR * (high - low)
        and any(
            _overlap(sorted((s.curve.a[0], s.curve.b[0])), run) > (run[1] - run[0]) / 2
            for run in own
        )
        for s in picture.visible
        if isinstance(s.curve, Line) and s.curve.a[1] == s.curve.b[1] and s.piece != wish.name
    )


def _overlap(a: Sequence[float], b: Sequence[float]) -> float:
    return min(a[1], b[1]) - max(a[0], b[0])


def _run(wish: Length, picture: Picture) -> tuple[float, float]:
    """Give the longest level stroke of a piece that is seen at the upper end of its diameter."""
    high = max(picture.look.flat(p)[1] for p in (wish.a, wish.b))
    runs = picture.seen_level(wish.name, high)
    return max(runs, key=lambda r: r[1] - r[0], default=(0.0, 0.0))


def which_end(choices: Sequence[Choice], words: Ends) -> tuple[Choice, ...]:
    """Say of which mount round sizes are where an end view, which sees both, has some of each."""
    ends = [_end_of(c, words) for c in choices]
    if len({*ends} - {""}) < 2:
        return tuple(choices)
    return tuple(
        replace(c, wish=_of_end(c.wish, end)) if end else c
        for c, end in zip(choices, ends, strict=True)
    )


def _end_of(choice: Choice, words: Ends) -> str:
    """Name the mount of a round size in the end view, else nothing."""
    if choice.picture.name != "end" or not isinstance(choice.wish, Diameter):
        return ""
    return words.get(choice.wish.name.partition(".")[0], "")


def _of_end(wish: Wish, end: str) -> Wish:
    """Put the end before the note, behind its count where it has one."""
    if not isinstance(wish, Diameter):
        return wish
    count, _, rest = wish.note.partition(" ")
    note = f"{count} {end} {rest}" if count.isdigit() else f"{end} {wish.note}"
    return replace(wish, note=note.rstrip())


def _ways(wish: Wish, picture: Picture) -> list[tuple[Wish, float]]:
    first = _FIRST[picture.name]
    match wish:
        case Length():
            return [way for one in _at_ends(wish, picture) for way in _length(one, picture, first)]
        case Diameter() | Radius():
            return _round(wish, picture, first)
        case Callout():
            return [way for one in _each(wish) for way in _words(one, picture, first)]


def _at_ends(wish: Length, picture: Picture) -> Iterator[Length]:
    """Give a size, and that of a square head at the cap as well: a mount may cover the head."""
    yield wish
    if wish.form == "square" and picture.name in ("side", "top"):
        high = max(picture.look.flat(p)[1] for p in (wish.a, wish.b))
        for x0, x1 in picture.seen_level(_CAP, high):
            a, b = (((x0 + x1) / 2, *p[1:]) for p in (wish.a, wish.b))
            yield replace(wish, a=a, b=b)


def _each(wish: Callout) -> list[Callout]:
    """Give words for each knob that they are of: another one may be seen where one is not."""
    if not is_knob(wish.name):
        return [wish]
    tips = [tip for _, tip in wish.alike]
    others = [replace(wish, tip=tip, normal=_off_axis(tip), alike=()) for tip in tips]
    return [replace(wish, alike=()), *others]


def _off_axis(p: Vec) -> Vec:
    """Give the direction from the axis to a point beside it."""
    long = hypot(p[1], p[2])
    return (0.0, p[1] / long, p[2] / long)


def _length(wish: Length, picture: Picture, first: float) -> list[tuple[Wish, float]]:
    look = picture.look
    if abs(dot(wish.direction, look.toward_eye)) > _SQUARE:
        return []
    u, v = look.flat(wish.direction)
    cost = first + (_OBLIQUE if min(abs(u), abs(v)) > _SQUARE else 0.0)
    if ".bolts." in wish.name and all(picture.is_ring(look.flat(p)) for p in (wish.a, wish.b)):
        cost -= _AT_HOLES
    if wish.toward:
        if dot(wish.toward, look.toward_eye) < -_PROFILE:
            unseen = _unseen(wish, picture) if is_port(wish.name) else None
            cost += unseen or _UNSEEN
        return [(wish, cost)]
    if _hemmed_in(wish, picture):
        cost += _HEMMED_IN
    for p in (wish.a, wish.b):
        if not _in_sight(p, picture):
            hidden = picture.name == "side" and picture.on_hidden(look.flat(p))
            cost += _HIDDEN if hidden else _UNSEEN
    return [(wish, cost)]


def _hemmed_in(wish: Length, picture: Picture) -> bool:
    """Tell whether an upright size in a long view is far from both ends, or meets parts there.

    A diameter may stand across its own part; so may a square where nothing is before it. Along the
    flats of nuts extension lines would seem to be theirs.
    """
    ends = [picture.look.flat(p) for p in (wish.a, wish.b)]
    if picture.name in ("side", "top") and wish.form == "square":
        return not has_clear_square(wish, picture)
    if picture.name not in ("side", "top") or wish.form != "plain":
        return False
    if abs(picture.look.flat(wish.direction)[0]) > _SQUARE:
        return False
    (x0, _, x1, _), owners = picture.box, picture.owners
    at, most, near = ends[0][0], _AMIDST * (x1 - x0), _NEAR * dist(*ends)
    if ".plate." in wish.name:
        most = min(_PLATE_AMIDST * (x1 - x0), dist(*ends))
    for x in (x0 - 1.0, x1 + 1.0):
        out = segments([(p, (x, p[1])) for p in ends])
        met = owners.hits(wish.name, ends, out).any() or owners.by_strewn(out, near)
        if abs(x - at) <= most and not met:
            return False
    return True


def _round(wish: Diameter | Radius, picture: Picture, first: float) -> list[tuple[Wish, float]]:
    look = picture.look
    eye = look.toward_eye
    radius = wish.radius if isinstance(wish, Radius) else wish.diameter / 2
    if abs(abs(dot(wish.axis, eye)) - 1.0) < _SQUARE:
        centre = look.flat(wish.centre)
        if picture.has_circle(centre, radius):
            return [(wish, first)]
        drawn = picture.on_hidden((centre[0] + radius, centre[1]))
        covered = isinstance(wish, Diameter) and wish.hole and not drawn
        return [(wish, first + (_COVERED if covered else 2) * _UNSEEN)]
    across = X if abs(dot(wish.axis, X)) < _SQUARE else cross(wish.axis, eye)
    if isinstance(wish, Radius) or abs(dot(across, eye)) > _SQUARE:
        return []
    size = dot(across, across) ** 0.5
    if size < _SQUARE:
        return []
    return [(_as_distance(wish, scale(across, 1 / size)), first + 4 * _UNSEEN)]


def _as_distance(wish: Diameter, direction: Vec) -> Length:
    """Show a diameter as the distance of its two sides, where no view looks along its axis."""
    reach = scale(direction, wish.diameter / 2)
    return Length(
        wish.name,
        sub(wish.centre, reach),
        add(wish.centre, reach),
        direction,
        note=wish.note,
        form="round",
        pose=wish.pose,
    )


def _words(wish: Callout, picture: Picture, first: float) -> list[tuple[Wish, float]]:
    own = group_of(wish.name)
    at = picture.look.flat(wish.tip)
    unseen = _unseen(wish, picture) if is_fitting(wish.name) else None
    if is_fitting(wish.name) and unseen != _UNDRAWN and in_another(own, at, picture):
        first += 4 * _IN_ANOTHER
    if unseen is not None:
        return [(wish, first / 4 + unseen)]
    facing = dot(wish.normal, picture.look.toward_eye)
    if facing < -_PROFILE:
        return [(wish, first / 4 + (_BEHIND if is_port(wish.name) else 3 * _UNSEEN))]
    turned = 0.0 if facing > 0.95 else _ASKEW if facing > _PROFILE else _IN_PROFILE
    if wish.name.endswith(".clock"):  # which way a seat looks is seen from aside alone
        turned = _IN_PROFILE - _ON_DIAL * (picture.name == "end")
    return [(wish, first / 4 + turned + (0.0 if _shown(wish, picture) else 2 * _UNSEEN))]


def _shown(wish: Callout, picture: Picture) -> bool:
    """Tell whether what words point at is seen.

    A port and a piece of the cylinder are so at their own strokes, not at those that cover them.
    """
    own, look = group_of(wish.name), picture.look
    if is_port(wish.name):
        return picture.on_own(own, look.flat(wish.tip))
    if own.startswith("cylinder.") and own in picture.groups:
        return any(picture.on_own(own, look.flat(p)) for p in (wish.tip, *wish.others))
    return _in_sight(wish.tip, picture)


def _unseen(wish: Wish, picture: Picture) -> float | None:
    """Give what it costs that nothing is seen of a fitting, or its rim in dashes; None where it is.

    A long view has it in dashes only where no long view shows it otherwise.
    """
    own = group_of(wish.name)
    if own in picture.groups:
        return None
    dashed = picture.name != "end" and picture.nearest_of(own, (0.0, 0.0)) is not None
    return _DASHED if dashed else _UNDRAWN


def _in_sight(p: Vec, picture: Picture) -> bool:
    flat = picture.look.flat(p)
    return p[1] == p[2] == 0.0 or picture.on_stroke(flat)

"""The cylinder along its axis: sizes that give way, and where the faces come to lie."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from drafting.model.ports.sizes import PortSizes
from drafting.settle.ledger import Ledger, Rule
from drafting.settle.lengths import Lengths
from drafting.settle.mount import Host, Mount
from drafting.settle.shell import Shell
from drafting.settle.stack import Give, Solved, close_stack, lengthened
from drafting.settle.stations import PISTON_RELIEF, Stations
from drafting.settle.tube_sizes import TubeSizes, axial_gives

STACK = (
    "cylinder.base_thickness",
    "cylinder.piston_length",
    "cylinder.stroke",
    "cylinder.stop_tube",
    "cylinder.spring_space",
    "cylinder.gland_length",
    "cylinder.rod_stick_out",
)
"""From the closed end to the rod's end; the mounts' reach comes on both sides."""


SPARE = (
    "cylinder.rod_stick_out",
    "cylinder.gland_length",
    "cylinder.piston_length",
    "cylinder.base_thickness",
)
"""What takes the length that is left over, first the rod's stick-out."""


def close_axis(
    book: Ledger,
    tube: TubeSizes,
    shell: Shell,
    hosts: Mapping[str, Host],
    mounts: Mapping[str, Mount],
    ports: Sequence[PortSizes],
    lengths: Lengths,
) -> tuple[Solved, Mapping[str, Mount]]:
    """Close the stack to the retracted length and enter each settled size with its reason.

    Gives with it the mounts as that has them. Enters a fault when even the floors are too long.
    """
    need = max((p.room for p in ports), default=0.0)
    gives = shell.gives(axial_gives(book, tube.bore), need, book.spec.units)
    gland = next(g for g in gives if g.name == "cylinder.gland_length")
    projection = book.size("cylinder.gland_projection", shell.projection(gland, book.spec.units))
    least = {"cylinder.gland_projection": projection, **{g.name: g.floor for g in gives}}
    own = [give for end, mount in mounts.items() for give in mount.gives(hosts[end])]
    fixed = [Give("cylinder.stroke", "stroke", lengths.stroke, lengths.stroke, True)]
    for word in ("stop_tube", "spring_space"):
        size = book.number(f"cylinder.{word}") or 0.0
        fixed.append(Give(f"cylinder.{word}", word.replace("_", " "), size, size, True))

    def length(sizes: Mapping[str, float]) -> float:
        return (
            mounts["body"].reach({**sizes, "cylinder.gland_projection": projection})
            + sum(sizes[g] for g in STACK)
            + mounts["rod"].reach(sizes)
        )

    full, tight = hosts["body"], replace(hosts["body"], neighbours=())
    solved = Solved({}, 1.0, 0.0, {})
    for host, body in ((full, mounts["body"]), (tight, mounts["body"].tightened())):
        if solved.short_by > 0:  # rather a port in the mount's way, which is told, than no cylinder
            mounts = {**mounts, "body": body}
            stack = [*_carrying(book, gives, body, host, least), *own]
            every, units = [*stack, *fixed], book.spec.units
            solved = close_stack(lengths.retracted, every, SPARE, length, units)
    if solved.short_by > 0:
        _refuse_short(book, solved, lengths)
        return solved, mounts
    if solved.short_by < 0:
        _refuse_left_over(book, solved, lengths)
        return solved, mounts
    for give in stack:
        final = solved.sizes[give.name]
        if give.typed:
            continue
        why = give.why
        if final.value < give.value - 1e-6:
            why += f"; gave way from {book.say(give.value)} to close the length"
        if final.value > give.value + 1e-6:
            why += f"; {book.say(solved.spare)} left over lengthens it"
        book.enter(give.name, Rule(final.value, why))
    _tell_first_gland(book, gland, solved)
    if projection > solved.sizes["cylinder.gland_length"].value:
        book.fault(
            "gland-projects",
            "cylinder.gland_projection",
            f"{book.say(projection)} is more than the whole gland of "
            f"{book.say(solved.sizes['cylinder.gland_length'].value)}",
        )
    return solved, mounts


def _carrying(
    book: Ledger, gives: Sequence[Give], mount: Mount, host: Host, least: Mapping[str, float]
) -> Iterator[Give]:
    """Give the sizes long enough for the body's mount, and for the ports beside it.

    Of a square head's gland the part that shows carries none.
    """
    units, word = book.spec.units, book.spec.word("body_mount.mount")
    alone, beside = mount.needs(replace(host, neighbours=()), least), mount.needs(host, least)
    room = max((n.room for n in host.neighbours if n.end == "rod"), default=0.0)
    for give in gives:
        if room and host.square and give.name == "cylinder.gland_length":
            long = room + least["cylinder.gland_projection"]
            give = lengthened(give, long, units, "as long as its port needs")
        for needs, who in (
            (alone, f"its {word} needs"),
            (beside, f"{word} and port beside it need"),
        ):
            give = lengthened(give, needs.get(give.name, 0.0), units, f"as long as {who}")
        yield give


def _tell_first_gland(book: Ledger, gland: Give, solved: Solved) -> None:
    """Say of which gland the projection is a share, where closing the length changed the gland."""
    shown = book.values["cylinder.gland_projection"]
    if shown.typed is None and shown.value and solved.sizes[gland.name].value != gland.value:
        why = f"{shown.why}; the gland as it was before the length closed, {book.say(gland.value)}"
        book.values[shown.name] = replace(shown, why=why)


def stations(
    book: Ledger,
    tube: TubeSizes,
    shell: Shell,
    mounts: Mapping[str, Mount],
    solved: Solved,
    lengths: Lengths,
) -> Stations:
    """Give the faces of the closed stack in world x."""
    size = {n: g.value for n, g in solved.sizes.items()}
    projection = float(book.values["cylinder.gland_projection"].value)
    gland, piston = size["cylinder.gland_length"], size["cylinder.piston_length"]
    closed = mounts["body"].reach({**size, "cylinder.gland_projection": projection})
    spring = size["cylinder.spring_space"]
    behind = spring if book.word("cylinder.action", "double") == "pull" else 0.0
    oil = closed + size["cylinder.base_thickness"]
    front = oil + behind + piston
    inner = front + lengths.stroke + size["cylinder.stop_tube"] + spring - behind
    return Stations(
        closed_end=closed,
        oil_side=oil,
        piston_back=oil + behind,
        piston_front=front,
        gland_inner=inner,
        barrel_end=inner + gland - projection,
        gland_face=inner + gland,
        rod_end=inner + gland + size["cylinder.rod_stick_out"],
        rod_datum=lengths.retracted,
        bore=tube.bore,
        rod=tube.rod,
        barrel_outside=tube.barrel_outside,
        gland_outside=shell.gland_outside,
        stop_tube=size["cylinder.stop_tube"],
        piston_relief=PISTON_RELIEF * piston,
        gland_relief=0.2 * (gland - projection),
    )


def _refuse_left_over(book: Ledger, solved: Solved, lengths: Lengths) -> None:
    over = book.say(-solved.short_by)
    book.fault(
        "left-over",
        "cylinder.rod_stick_out",
        f"every size of the chain was typed, and {over} of the retracted "
        f"{book.say(lengths.retracted)} is left over; leave one of them out, or measure again",
    )


def _refuse_short(book: Ledger, solved: Solved, lengths: Lengths) -> None:
    field = "cylinder.retracted" if book.spec.has("cylinder.retracted") else "cylinder.extended"
    used = ", ".join(
        f"{g.label} {book.say(g.value)}{'' if g.typed else ' (least)'}"
        for g in solved.sizes.values()
        if g.value
    )
    book.fault(
        "cannot-close",
        field,
        f"retracted {book.say(lengths.retracted)} is too short; the shortest that closes is "
        f"{book.say(lengths.retracted + solved.short_by)}: {used}",
    )

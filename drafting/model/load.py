"""From a checked spec to a cylinder: settle every size, close the stack, place the parts."""

from __future__ import annotations

from collections.abc import Mapping

from drafting.errors import Refused
from drafting.files import safe_name
from drafting.model.assemble import place_parts, place_wishes
from drafting.model.catalog import mount_types, mounts_by_end
from drafting.model.clock import seen_from_rod, viewpoint
from drafting.model.cylinder import Cylinder
from drafting.model.ledger import Ledger, Rule
from drafting.model.lengths import Lengths, settle_lengths
from drafting.model.limits import NOT_DRAWN, judge_ports, judge_whole
from drafting.model.mounts.base import Host, Mount
from drafting.model.neat import neat_up
from drafting.model.port import Port, PortSizes, place_port, settle_port_sizes
from drafting.model.stack import Give, Solved, close_stack
from drafting.model.tube_parts import (
    Stations,
)
from drafting.model.tube_sizes import TubeSizes, axial_gives, settle_tube
from drafting.spec.check import Spec, read_spec


def read(path: str) -> Spec:
    """Read and check a spec file; raises Refused with every fault of the file."""
    return read_spec(path, mounts=mounts_by_end(), not_drawn=NOT_DRAWN)


def load(spec: Spec) -> Cylinder:
    """Settle a checked spec into a cylinder; raises Refused with every fault."""
    book = Ledger(spec)
    lengths = settle_lengths(book)
    tube = settle_tube(book)
    hosts = {
        "body": Host("body", tube.barrel_outside, tube.bore, tube.rod, spec.units),
        "rod": Host("rod", tube.rod, tube.bore, tube.rod, spec.units),
    }
    settled = {end: _mount(book, host) for end, host in hosts.items()}
    _stop_on_faults(book)
    assert lengths is not None
    solved = _close(book, tube, settled, lengths)
    _stop_on_faults(book)
    stations = _stations(book, tube, solved, lengths)
    ports = _ports(book, tube, stations)
    _stop_on_faults(book)
    drawn = {
        end: settled[end].draw(hosts[end], solved.sizes[f"{end}_mount.offset"].value)
        for end in hosts
    }
    turned = _turned(book)
    parts = place_parts(stations, drawn, ports, turned, lengths)
    judge_whole(book, stations, lengths, settled)
    judge_ports(book, ports, stations, parts, lengths)
    _stop_on_faults(book)
    wishes, symbols = place_wishes(book, stations, drawn, ports, turned, lengths)
    return Cylinder(
        spec,
        safe_name(book.word("number", ""), spec.stem),
        lengths,
        stations,
        parts,
        ports,
        wishes,
        symbols,
        tuple(book.values.values()),
        tuple(book.findings),
        turned,
        {end: type(m).word for end, m in settled.items()},
    )


def _mount(book: Ledger, host: Host) -> Mount:
    word = book.word(f"{host.table}.mount", "")
    return mount_types()[word].settle(book, host)


def _stop_on_faults(book: Ledger) -> None:
    if book.faults:
        raise Refused(book.faults)


def _close(book: Ledger, tube: TubeSizes, mounts: Mapping[str, Mount], lengths: Lengths) -> Solved:
    gives = axial_gives(book, tube.bore)
    for end, mount in mounts.items():
        o = mount.offset
        label = f"{'base' if end == 'body' else 'rod'} end {type(mount).word}"
        gives.append(Give(f"{end}_mount.offset", label, o.value, o.floor, o.typed, o.why))
    stop = book.size("cylinder.stop_tube", Rule(0.0, "none was asked for"))
    fixed = [Give("stroke", "stroke", lengths.stroke, lengths.stroke, True)]
    if stop:
        fixed.append(Give("cylinder.stop_tube", "stop tube", stop, stop, True))
    solved = close_stack(
        lengths.retracted, [*gives, *fixed], "cylinder.rod_stick_out", lambda s: sum(s.values())
    )
    if solved.short_by > 0:
        _refuse_short(book, solved, lengths)
        return solved
    for give in gives:
        final = solved.sizes[give.name]
        if give.typed:
            continue
        why = give.why
        if final.value < give.value - 1e-6:
            why += f"; gave way from {book.say(give.value)} to close the length"
        if give.name == "cylinder.rod_stick_out" and solved.spare > 0:
            why += f"; {book.say(solved.spare)} left over lengthens it"
        book.enter(give.name, Rule(final.value, why))
    return solved


def _refuse_short(book: Ledger, solved: Solved, lengths: Lengths) -> None:
    units = book.spec.units
    field = "cylinder.retracted" if book.spec.has("cylinder.retracted") else "cylinder.extended"
    used = ", ".join(
        f"{g.label} {book.say(g.value)}{'' if g.typed else ' (least)'}"
        for g in solved.sizes.values()
    )
    book.fault(
        "cannot-close",
        field,
        f"retracted {book.say(lengths.retracted)} is too short; the shortest that closes is "
        f"{book.say(lengths.retracted + solved.short_by)}: {used}",
    )


def _stations(book: Ledger, tube: TubeSizes, solved: Solved, lengths: Lengths) -> Stations:
    size = {n: g.value for n, g in solved.sizes.items()}
    gland = size["cylinder.gland_length"]
    projection = book.size(
        "cylinder.gland_projection",
        lambda: Rule(
            min(neat_up(0.25 * gland, book.spec.units), gland / 2), "a quarter of the gland"
        ),
    )
    if projection > gland:
        book.fault(
            "gland-projects",
            "cylinder.gland_projection",
            f"{book.say(projection)} is more than the whole gland of {book.say(gland)}",
        )
    piston = size["cylinder.piston_length"]
    closed = size["body_mount.offset"]
    oil = closed + size["cylinder.base_thickness"]
    inner = oil + piston + lengths.stroke + size.get("cylinder.stop_tube", 0.0)
    return Stations(
        closed_end=closed,
        oil_side=oil,
        piston_front=oil + piston,
        gland_inner=inner,
        barrel_end=inner + gland - projection,
        gland_face=inner + gland,
        rod_end=inner + gland + size["cylinder.rod_stick_out"],
        rod_datum=lengths.retracted,
        bore=tube.bore,
        rod=tube.rod,
        barrel_outside=tube.barrel_outside,
        gland_outside=tube.gland_outside,
        stop_tube=size.get("cylinder.stop_tube", 0.0),
        piston_relief=0.25 * piston,
        gland_relief=0.2 * (gland - projection),
    )


def _ports(book: Ledger, tube: TubeSizes, s: Stations) -> tuple[Port, ...]:
    side = viewpoint(book)
    ports = []
    for table, end in (("base_port", "base"), ("rod_port", "rod")):
        if not book.spec.has(table):
            continue
        clock = book.size(f"{table}.clock", Rule(0.0, "12 o'clock"), interface=True, unit="deg")
        sizes: PortSizes | None = settle_port_sizes(
            book, table, end, tube.barrel_outside, tube.bore, seen_from_rod(clock, side)
        )
        port = place_port(book, sizes, s) if sizes else None
        if port:
            ports.append(port)
    return tuple(ports)


def _turned(book: Ledger) -> float:
    typed = book.number("rod_mount.turned") or 0.0
    return seen_from_rod(typed, viewpoint(book))

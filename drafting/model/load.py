"""From a checked spec to a cylinder: settle every size, close the stack, place the parts."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.files import safe_name
from drafting.model.assemble import place_parts, place_wishes
from drafting.model.axial import close_axis, stations
from drafting.model.bearing_face import bearing_face_wishes
from drafting.model.catalog import mount_types, mounts_by_end, shell_types
from drafting.model.cylinder import Cylinder
from drafting.model.limits import judge_whole
from drafting.model.overlaps import judge_overlaps
from drafting.model.pins.loose_pin import LoosePin
from drafting.model.pins.settle import settle_pins
from drafting.model.ports.action import Action, settle_action
from drafting.model.ports.hose_room import judge_keep_outs, keep_outs
from drafting.model.ports.judge import judge_ports
from drafting.model.ports.knobs import place_knobs
from drafting.model.ports.port import place_ports
from drafting.model.ports.sizes import PortSizes, port_words, settle_port_sizes
from drafting.model.sane import judge_sane
from drafting.model.turning import judge_turning
from drafting.records import dataclass
from drafting.settle.clock import seen_from_rod, viewpoint
from drafting.settle.ledger import Ledger
from drafting.settle.lengths import Lengths, settle_lengths
from drafting.settle.mount import Host, Mount, Neighbour
from drafting.settle.shell import Shell
from drafting.settle.tolerance import settle_tolerances
from drafting.settle.tube_sizes import TubeSizes, settle_tube
from drafting.spec.check import read_spec
from drafting.spec.given import SHOP_FILE, Spec


def read(path: str, shop: str | None = None) -> Spec:
    """Read and check a spec file over company defaults; raises Refused with every fault of both.

    ``shop`` is their file, None for ``drafting-shop.toml`` beside the spec, where there is one.
    """
    beside = Path(shop) if shop else Path(path).parent / SHOP_FILE
    if shop is None and not beside.is_file():
        return checked(path)
    from drafting.spec.shop import read_shop, under

    faults: list[Fault] = []
    spec = defaults = None
    try:
        defaults = read_shop(beside)
    except Refused as refused:
        faults += refused.faults
    try:
        spec = checked(path)
    except Refused as refused:
        faults += refused.faults
    if spec is None or defaults is None:
        raise Refused(faults)
    return under(spec, *defaults)


def checked(source: str | bytes, file: str = "") -> Spec:
    """Check a spec by itself, from its path or its content; ``file`` is what messages call it."""
    return read_spec(source, mounts=mounts_by_end(), words=settling_faults, file=file)


_NEEDED = ("cylinder.bore", "cylinder.rod", "body_mount.mount", "rod_mount.mount")
"""What must be read before any size can be settled."""


def settling_faults(spec: Spec) -> list[Fault]:
    """Give what settling the sizes would refuse in a file that is refused anyway, in one stop.

    Port words are told always; sizes only where all that they are settled from could be read.
    """
    lengths = [spec.number(f"cylinder.{n}") for n in ("stroke", "retracted", "extended")]
    two = sum(n is not None for n in lengths) >= 2
    if not two or not all(name in spec.givens for name in _NEEDED):
        return port_words(spec)
    book = Ledger(spec)
    try:
        _settle_sizes(book)
    except Refused as refused:
        return [*book.faults, *refused.faults]
    return book.faults


@dataclass(frozen=True, slots=True)
class _Sizes:
    """Every size that does not give way, as settled."""

    lengths: Lengths
    tube: TubeSizes
    action: Action
    shell: Shell
    ports: list[PortSizes]
    hosts: Mapping[str, Host]
    mounts: Mapping[str, Mount]
    pins: tuple[LoosePin, ...]


def _settle_sizes(book: Ledger) -> _Sizes:
    """Settle every size but those that give way; faults go into the book."""
    spec = book.spec
    lengths = settle_lengths(book)
    tube = settle_tube(book)
    action = settle_action(book)
    shell = shell_types()[book.word("cylinder.construction", "welded")].settle(book, tube)
    sizes = settle_port_sizes(book, shell)
    hosts = {
        "body": Host(
            "body",
            shell.host_diameter,
            tube.bore,
            tube.rod,
            spec.units,
            shell.flat_seats,
            shell.skirt,
            tuple(_neighbour(book, shell, p) for p in sizes if p.facing in ("out", p.end)),
        ),
        "rod": Host("rod", tube.rod, tube.bore, tube.rod, spec.units),
    }
    settled = {end: _mount(book, host) for end, host in hosts.items()}
    pins = settle_pins(book, hosts, settled)
    return _Sizes(lengths, tube, action, shell, sizes, hosts, settled, pins)


def load(spec: Spec) -> Cylinder:
    """Settle a checked spec into a cylinder; raises Refused with every fault."""
    book = Ledger(spec)
    for name, given in spec.givens.items():
        if given.file:
            book.given(name)
        if given.understood:
            book.find("understood", "note", name, given.understood, "common practice")
    found = _settle_sizes(book)
    lengths, tube, action, shell = found.lengths, found.tube, found.action, found.shell
    sizes, hosts, pins = found.ports, found.hosts, found.pins
    _stop_on_faults(book)
    solved, mounts = close_axis(book, tube, shell, hosts, found.mounts, sizes, lengths)
    _stop_on_faults(book)
    s = stations(book, tube, shell, mounts, solved, lengths)
    settled = {end: mount.closed(book, hosts[end], s) for end, mount in mounts.items()}
    for end, mount in settled.items():
        mount.judge(book, hosts[end], s)
    ports = place_ports(book, shell, sizes, s, partial(settled["body"].taken, hosts["body"]))
    _stop_on_faults(book)
    drawn = {end: settled[end].draw(hosts[end], s) for end in hosts}
    knobs = place_knobs(book, action, shell, s, ports, drawn["body"].solid())
    turned = _turned(book)
    parts = place_parts(s, shell, drawn, ports, knobs, turned, lengths, pins)
    judge_whole(book, parts)
    judge_sane(book, s, lengths)
    judge_ports(book, action, ports, s, parts, lengths)
    judge_turning(book, parts, lengths.stroke)
    phantoms = keep_outs(book, ports)
    judge_keep_outs(book, phantoms, parts, lengths.stroke)
    judge_overlaps(book, parts, lengths.stroke)
    _stop_on_faults(book)
    tolerances = settle_tolerances(book)
    wishes, symbols = place_wishes(book, s, shell, action, drawn, ports, knobs, turned, lengths)
    wishes = (*wishes, *bearing_face_wishes(book, parts, s))
    return Cylinder(
        spec,
        safe_name(book.word("number", ""), spec.stem),
        lengths,
        s,
        parts,
        ports,
        wishes,
        symbols,
        action,
        tuple(book.values.values()),
        tuple(book.findings),
        turned,
        {end: type(m).word for end, m in settled.items()},
        {end: m.carried(hosts[end]) for end, m in settled.items()},
        pins,
        phantoms,
        tolerances,
        solved.shares,
    )


def _neighbour(book: Ledger, shell: Shell, p: PortSizes) -> Neighbour:
    """Give a port as a mount sees it; one whose tube runs along the barrel over it is none."""
    usual = partial(shell.lies, p.end, p.boss)
    typed = book.spec.number(f"{p.table}.position")
    return Neighbour(p.end, p.clock, p.across, p.room, usual, typed)


def _mount(book: Ledger, host: Host) -> Mount:
    word = book.word(f"{host.table}.mount", "")
    return mount_types()[host.end, word].settle(book, host)


def _stop_on_faults(book: Ledger) -> None:
    if book.faults:
        raise Refused(book.faults)


def _turned(book: Ledger) -> float:
    typed = book.number("rod_mount.turned") or 0.0
    return seen_from_rod(typed, viewpoint(book))

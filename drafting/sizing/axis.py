"""Where a cylinder's faces come to lie before there is a spec file: the model's own rules."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from drafting.errors import Refused
from drafting.model.axial import close_axis, stations
from drafting.model.catalog import mount_types, shell_types
from drafting.model.ports.sizes import settle_port_sizes
from drafting.records import Frozen, dataclass
from drafting.settle.ledger import Ledger
from drafting.settle.lengths import settle_lengths
from drafting.settle.mount import Host, Mount
from drafting.settle.shop_sizes import neat_up
from drafting.settle.stack import Solved
from drafting.settle.stations import Stations
from drafting.settle.tube_sizes import settle_tube
from drafting.spec.given import Given, Spec, Typed

_TOO_SHORT = 1.0
_CLOSE = 1e-6
_AMPLE = 1e4
"""mm more than the least length: room enough for every size at its preferred value."""


@dataclass(frozen=True, slots=True)
class Axis:
    """Distances between the datums, retracted, in mm, and the faces at the one that was chosen.

    ``least`` has every size at its floor, ``comfortable`` at what is usual for the bore.
    """

    least: float
    comfortable: float
    closed: float
    at: Stations


def lay_axis(
    units: Literal["in", "mm"],
    values: Mapping[str, Typed],
    retracted: float | None,
    tightest: bool = False,
) -> Axis:
    """Close the stack of typed values (mm): at ``retracted``, else comfortably or at its tightest.

    Where ``retracted`` is too short the least length is taken. Raises Refused when the model
    cannot settle the values at any length.
    """
    floors, _ = _close(units, {**values, "cylinder.retracted": _TOO_SHORT})
    least = _TOO_SHORT + floors.short_by
    ample, _ = _close(units, {**values, "cylinder.retracted": least + _AMPLE})
    # Sums lose their last digits: a round size is no hair longer than itself.
    comfortable = max(round(least + _AMPLE - ample.spare, 9), least)
    free = neat_up(least if tightest else comfortable, units)
    closed = max(retracted or free, least + _CLOSE)
    _, at = _close(units, {**values, "cylinder.retracted": closed})
    assert at is not None
    return Axis(least, comfortable, closed, at)


def _close(
    units: Literal["in", "mm"], values: Mapping[str, Typed]
) -> tuple[Solved, Stations | None]:
    book = Ledger(_spec(units, values))
    lengths = settle_lengths(book)
    tube = settle_tube(book)
    shell = shell_types()["welded"].settle(book, tube)
    ports = settle_port_sizes(book, shell)
    hosts = {
        "body": Host("body", shell.host_diameter, tube.bore, tube.rod, units),
        "rod": Host("rod", tube.rod, tube.bore, tube.rod, units),
    }
    mounts: dict[str, Mount] = {
        host.end: mount_types()[host.end, book.word(f"{host.table}.mount", "")].settle(book, host)
        for host in hosts.values()
    }
    if book.faults or lengths is None:
        raise Refused(book.faults)
    solved, closed = close_axis(book, tube, shell, hosts, mounts, ports, lengths)
    if solved.short_by > 0:
        return solved, None
    return solved, stations(book, tube, shell, closed, solved, lengths)


def _spec(units: Literal["in", "mm"], values: Mapping[str, Typed]) -> Spec:
    givens = {n: Given(n, v, "", str(v), 1, 1) for n, v in values.items()}
    places = dict.fromkeys((*values, *(n.partition(".")[0] for n in values)), (1, 1))
    return Spec(None, "size", "", "", units, Frozen(givens), Frozen(places))

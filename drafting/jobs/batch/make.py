"""One order to the bytes of its files and what is told of it: the work of one worker.

What goes in and what comes back is plain, so that a worker may be another process or another
machine.
"""

from __future__ import annotations

from collections.abc import Mapping

from drafting.errors import DraftingError, Refused
from drafting.jobs.batch import in_time
from drafting.jobs.batch.orders import Order
from drafting.records import dataclass


@dataclass(frozen=True, slots=True)
class Made:
    """What came of an order. ``faults`` (field, message) where nothing did.

    ``sizes`` are mm by dotted name, ``verdict`` is that of ``check``, ``to_do`` waits for a person.
    """

    files: Mapping[str, bytes]
    title: str = ""
    sizes: Mapping[str, float] | None = None
    mass_kg: float = 0.0
    verdict: str = ""
    to_do: tuple[str, ...] = ()
    faults: tuple[tuple[str, str], ...] = ()


def make(order: Order, formats: tuple[str, ...], shop: str, shop_file: str) -> Made:
    """Draw and check one order; a refusal, a failure and too long a time are told, never raised."""
    try:
        with in_time.within(in_time.LIMIT):
            return _made(order, formats, shop, shop_file)
    except in_time.Late:
        from drafting.solids import beside

        beside.leave()
        message = f"this took longer than {in_time.LIMIT:g} s and was left off"
        return Made({}, faults=(("", message),))
    except Refused as refused:
        return Made({}, faults=tuple((f.field, f.message) for f in refused.faults))
    except DraftingError as failed:
        return Made({}, faults=(("", str(failed)),))


def _made(order: Order, formats: tuple[str, ...], shop: str, shop_file: str) -> Made:
    from drafting.checks.of_cylinder import judge
    from drafting.jobs.draw import How, draw_cylinder
    from drafting.model.load import checked, load
    from drafting.reports.verdicts import headline
    from drafting.reports.why_exit import Outcome
    from drafting.shape.mass import dry_mass
    from drafting.told.size_list import sizes

    spec = checked(order.text.encode("utf-8", "surrogateescape"), order.file)
    if shop:
        from drafting.spec.shop import read_shop, under

        spec = under(spec, *read_shop(shop.encode(), shop_file))
    c = load(spec)
    drawing = draw_cylinder(c, How(formats))
    checks = judge(c).checks
    errors = sum(f.level == "error" for f in drawing.findings)
    return Made(
        drawing.files,
        spec.word("title") or "",
        {s.name: round(s.mm, 6) for s in sizes(c)},
        round(dry_mass(c.parts), 4),
        headline(checks, errors)[0],
        Outcome(c.name, drawing.findings).reasons,
    )

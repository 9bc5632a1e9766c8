"""A run: orders to workers, files to the disk as they come, a line in the manifest for each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, Executor, Future, wait
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from drafting.errors import Fault, OutputFailed, Refused
from drafting.files import write_all
from drafting.jobs.batch.make import Made, make
from drafting.jobs.batch.manifest import Entry, Manifest
from drafting.jobs.batch.orders import Order
from drafting.records import dataclass

AHEAD = 2
"""Orders that wait for each worker, so that no run holds the files of all."""


@dataclass(frozen=True, slots=True)
class How:
    """How a run draws: formats, company defaults, how many workers, and where.

    ``address`` is that of the scheduler of a distributed engine that is running, empty for workers
    on this machine. ``again``: what failed before is tried once more.
    """

    formats: tuple[str, ...]
    shop: str = ""
    shop_file: str = ""
    workers: int = 1
    address: str = ""
    again: bool = False
    force: bool = False


@dataclass(frozen=True, slots=True)
class Ran:
    """What a run came to: every entry in the order of the rows, and how many were not done anew."""

    entries: tuple[Entry, ...]
    done: int
    skipped: int

    @property
    def failed(self) -> tuple[Entry, ...]:
        """Give what could not be drawn."""
        return tuple(e for e in self.entries if e.faults)


def run(
    orders: Iterable[Order],
    folder: Path,
    how: How,
    progress: Callable[[Entry, int], None] | None = None,
) -> Ran:
    """Draw all orders that are not done yet; ``progress`` is told of each and of how many are done.

    Raises OutputFailed where a file cannot be written or a worker broke down: what was done is
    kept.
    """
    rows: dict[str, int] = {}
    done = skipped = 0
    with Manifest(folder) as manifest:
        before = dict(manifest.entries)

        def waiting() -> Iterator[Order]:
            nonlocal skipped
            for order in orders:
                rows[order.name.casefold()] = order.row
                known = before.get(order.name.casefold())
                if known and known.key == order.key and _rests(known, folder, how.again):
                    skipped += not known.faults
                else:
                    yield order

        for order, made in _made(waiting(), how):
            entry = _kept(order, made, folder, before, how.force)
            manifest.add(entry)
            done += not entry.faults
            if progress is not None:
                progress(entry, done + skipped)
        kept = manifest.entries
        entries = tuple(replace(kept[k], row=row) for k, row in rows.items() if k in kept)
    return Ran(entries, done, skipped)


def _rests(known: Entry, folder: Path, again: bool) -> bool:
    """Tell whether what is known of an unchanged order stays: done and there, or failed."""
    return not again if known.faults else known.stands(folder)


def _kept(order: Order, made: Made, folder: Path, before: dict[str, Entry], force: bool) -> Entry:
    """Write the files of an order, take away what it wrote before and no longer does."""
    if made.faults:
        return Entry(order.row, order.name, order.key, faults=made.faults)
    known = before.get(order.name.casefold())
    own = set(known.files) if known else set()
    strangers = [n for n in made.files if n not in own and (folder / n).exists()]
    if strangers and not force:
        message = (
            f"{strangers[0]} is in the folder already and not of this run; write elsewhere with "
            "-o, or over it with --force"
        )
        return Entry(order.row, order.name, order.key, faults=(("", message),))
    write_all({folder / name: data for name, data in made.files.items()})
    for name in own - set(made.files):
        (folder / name).unlink(missing_ok=True)
    sizes = dict(made.sizes or {})
    return Entry(order.row, order.name, order.key, tuple(made.files), made.title, sizes,
                 made.mass_kg, made.verdict, made.to_do)  # fmt: skip


def _made(orders: Iterator[Order], how: How) -> Iterator[tuple[Order, Made]]:
    """Give each order with what came of it, as they are finished."""
    if how.workers == 1 and not how.address:
        for order in orders:
            yield order, _faulted(order) or make(order, how.formats, how.shop, how.shop_file)
        return
    with _workers(how) as pool:
        under_way: dict[Future[Made], Order] = {}
        try:
            for order in orders:
                if (refused := _faulted(order)) is not None:
                    yield order, refused
                    continue
                asked = pool.submit(make, order, how.formats, how.shop, how.shop_file)
                under_way[asked] = order
                if len(under_way) >= AHEAD * how.workers:
                    yield from _finished(under_way)
            while under_way:
                yield from _finished(under_way)
        finally:
            for asked in under_way:
                asked.cancel()


def _faulted(order: Order) -> Made | None:
    return Made({}, faults=order.faults) if order.faults else None


def _finished(under_way: dict[Future[Made], Order]) -> Iterator[tuple[Order, Made]]:
    """Wait for one or more, and give them."""
    ready, _ = wait(under_way, return_when=FIRST_COMPLETED)
    for asked in ready:
        order = under_way.pop(asked)
        try:
            yield order, asked.result()
        except Exception as broken:  # a worker that died, an engine that went away
            raise OutputFailed(
                f"{order.file}: a worker broke down ({type(broken).__name__}: {broken}). What was "
                "done is kept: the same again goes on from there, with --workers 1 one by one."
            ) from broken


@contextmanager
def _workers(how: How) -> Iterator[Executor]:
    if how.address:
        with _engine(how.address) as pool:
            yield pool
        return
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    # spawned, not forked: a worker starts a kernel of its own and inherits nothing half done
    pool = ProcessPoolExecutor(how.workers, get_context("spawn"), _leave_ctrl_c)
    try:
        yield pool
    except BaseException:
        pool.shutdown(wait=False, cancel_futures=True)
        raise
    pool.shutdown()


def _leave_ctrl_c() -> None:
    """Leave Ctrl-C to the process that keeps the manifest: it lets go of its workers."""
    import signal

    signal.signal(signal.SIGINT, signal.SIG_IGN)


@contextmanager
def _engine(address: str) -> Iterator[Executor]:
    """Give the workers behind the scheduler of a distributed engine; raises Refused."""

    def refused(message: str) -> Refused:
        return Refused([Fault("command line", 1, 1, "no-engine", "--on", message)])

    try:
        from distributed import Client
    except ImportError:
        message = 'the engine is not installed: pip install "cylinder-drafting[distributed]"'
        raise refused(message) from None
    try:
        client = Client(address, timeout="20s")
    except (OSError, ValueError, TimeoutError) as wrong:
        raise refused(f"no scheduler answers at {address} ({wrong})") from None
    with client:
        yield client.get_executor()

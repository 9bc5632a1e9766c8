"""The jobs of the page, done in a process of their own: text in, parts of the answer out.

A job gives its answer in parts, what is ready first; between two of them it is left off when the
page has changed its mind. Orders come pickled on stdin, parts go pickled to stdout, both from and
to ``worker.py`` alone: pickle never meets foreign data.
"""

from __future__ import annotations

import gc
import os
import pickle
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from functools import cache
from queue import SimpleQueue
from time import monotonic
from typing import Any

from drafting.errors import DraftingError, Fault, Refused
from drafting.web.parts import REST, Part

RESTED = 0.15
"""So old (s) is an order before what can wait is done: a key may come."""
BEGUN, DONE = "begun", "done"
"""What a worker says of an order beside its parts."""


def _look(text: str, values: Mapping[str, str | None], after: str = "") -> Iterator[Part]:
    from drafting.web.look import changed, look

    yield from look(changed(text, values) if values else text, after)


def _sheets(text: str) -> Iterator[Part]:
    from drafting.web.look import sheets

    yield from sheets(text)


def _guide(body: str, rod: str) -> Iterator[Part]:
    from drafting.web.guide import guide

    yield guide(body, rod)


def _begin(title: str, units: str, body: str, rod: str, sample: bool) -> Iterator[Part]:
    from drafting.web.begin import begin

    yield {"text": begin(title, units, body, rod, sample)}


def _threads(hole: str, pitch: str, units: str) -> Iterator[Part]:
    from drafting.web.threads import threads

    yield threads(hole, pitch, units)


def _drawn(text: str, word: str) -> Iterator[Part]:
    from drafting.web.make import drawn

    yield _file(drawn(text, word))


def _package(text: str) -> Iterator[Part]:
    from drafting.web.make import package

    yield _file(package(text))


def _opened(name: str, data: bytes) -> Iterator[Part]:
    from drafting.web.make import opened

    yield {"text": opened(name, data)}


def _warm() -> Iterator[Part]:
    _warmed()
    yield {}


@cache
def _warmed() -> None:
    """Make one solid before one is asked for: the kernel loads, and what leads to it."""
    from drafting.web.begin import begin
    from drafting.web.make import drawn

    drawn(begin("", "in", "clevis", "clevis", sample=True), "glb")


JOBS: Mapping[str, Callable[..., Iterator[Part]]] = {
    "look": _look,
    "sheets": _sheets,
    "guide": _guide,
    "begin": _begin,
    "threads": _threads,
    "drawn": _drawn,
    "package": _package,
    "open": _opened,
    "warm": _warm,
}
"""Every job by its name."""


def _file(made: tuple[str, bytes]) -> Part:
    return {"name": made[0], "data": made[1]}


def parts(job: str, asked: tuple[Any, ...]) -> Iterator[Part]:
    """Do a job; what it refuses is its last part, and so is what broke in it."""
    try:
        yield from JOBS[job](*asked)
    except Refused as refused:
        yield {"faults": [row(f) for f in refused.faults], "status": 422}
    except DraftingError as failed:
        yield told(str(failed))
    except Exception as wrong:
        yield told(f"the tool itself failed here: {type(wrong).__name__}: {wrong}")


def row(f: Fault) -> Part:
    """Give a fault as the page is told it."""
    return {"field": f.field, "line": f.line, "code": f.code, "message": f.message}


def told(message: str) -> Part:
    """Give the part that tells what broke."""
    return {"faults": [row(Fault("", 1, 1, "failed", "", message))], "status": 500}


def serve() -> None:
    """Do orders one after the other until stdin ends. What else is printed goes to stderr."""
    gc.set_threshold(400_000, 50, 50)  # collecting cost 8 % of a drawing
    with suppress(ValueError):
        signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent ends it
    orders: SimpleQueue[tuple[int, str, tuple[Any, ...]]] = SimpleQueue()
    dropped: set[int] = set()
    met = threading.Event()
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)

    def listen() -> None:
        while True:
            try:
                number, job, asked = pickle.load(sys.stdin.buffer)
            except EOFError:
                os._exit(0)
            if job:
                orders.put((number, job, asked))
            else:
                dropped.add(number)
            met.set()

    def say(number: int, part: object) -> None:
        pickle.dump((number, part), out)
        out.flush()

    threading.Thread(target=listen, daemon=True).start()
    while True:
        number, job, asked = orders.get()
        met.clear()
        begun = monotonic()
        say(number, BEGUN)
        if number not in dropped:
            for part in parts(job, asked):
                if part is REST and orders.empty():
                    met.wait(max(0.0, begun + RESTED - monotonic()))
                if number in dropped:
                    break
                if part is not REST:
                    say(number, part)
        dropped.discard(number)
        say(number, DONE)

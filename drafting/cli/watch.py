"""Wait until a file was saved."""

from __future__ import annotations

import os
import time
from collections.abc import Iterable, Sequence
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.spec.content import STDIN
from drafting.spec.given import SHOP_FILE

EVERY = 0.3
"""Seconds between two looks."""
State = tuple[tuple[int, int] | None, ...]


def watched(specs: Sequence[str], shop: str | None) -> tuple[str, ...]:
    """Give the specs and the company defaults under them; the standard input is refused."""
    if STDIN in specs:
        message = "the standard input comes once; name the file that is to be watched"
        raise Refused([Fault("command line", 1, 1, "no-file", "--watch", message)])
    defaults = [shop] if shop else [str(Path(s).parent / SHOP_FILE) for s in specs]
    return tuple(dict.fromkeys((*specs, *defaults)))


def state(paths: Iterable[str]) -> State:
    """Give when each file was last saved and its size; None for one that is not there."""
    return tuple(_one(p) for p in paths)


def wait_for_change(paths: Iterable[str], before: State) -> State:
    """Wait until a file differs and has come to rest, and give the new state.

    Editors save in steps: a file that is gone or still grows is waited for.
    """
    names = tuple(paths)
    seen = before
    while True:
        time.sleep(EVERY)
        now = state(names)
        if now != before and now == seen:
            return now
        seen = now


def _one(path: str) -> tuple[int, int] | None:
    try:
        found = os.stat(path)
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size

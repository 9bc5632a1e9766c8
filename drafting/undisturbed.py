"""Make many things that live on without the collector of cycles, which looks for what died."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def undisturbed() -> Iterator[None]:
    """Hold the collector off; what was made then counts as old, and is not looked through at once.

    Old things are looked through when many have come. What somebody else froze stays frozen: then
    the collector looks once when all is made.
    """
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            if not gc.get_freeze_count():
                gc.freeze()
                gc.unfreeze()
            gc.enable()

"""A limit of time for one order, so that no row keeps a run from its end."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager

LIMIT = 300.0
"""Seconds for one cylinder; the slowest known takes a tenth of it on a busy machine."""


class Late(BaseException):
    """An order took too long; no Exception, so that nobody who tells failures takes it for one."""


@contextmanager
def within(seconds: float) -> Iterator[None]:
    """Raise Late in what takes longer.

    There is no limit where the system has no alarms (Windows) or the work is done in a thread, as
    an engine's workers do.
    """
    alarms = hasattr(signal, "setitimer")
    if not alarms or threading.current_thread() is not threading.main_thread():
        yield
        return

    def late(*_: object) -> None:
        raise Late

    before = signal.signal(signal.SIGALRM, late)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0.0)
        signal.signal(signal.SIGALRM, before)

"""A warm process that does jobs for the page, seen from the page's side.

What hangs is ended and told, what breaks is told, and the next order finds a new process. The
newest order of a browser's tab wins: an older one of its is dropped. Which is newer the browser
says by its turns, for orders that are sent one after the other may be met the other way round.
"""

from __future__ import annotations

import atexit
import os
import pickle
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from queue import Empty, SimpleQueue
from time import monotonic
from typing import IO, Any

from drafting.web.parts import Part
from drafting.web.work import BEGUN, DONE, told

LIMIT = 60.0
"""Seconds without a word from a process that has an order, after which it is ended."""
_CHILD = "import sys; sys.path[:] = {path!r}; from drafting.web import work; work.serve()"
BEHIND = 5
"""By so much a process steps back that others do not wait for (of the 19 of a Unix)."""
_LOOK = 0.25
"""Seconds between two looks at the clock."""


@dataclass(eq=False)
class _Process:
    """One process and who waits for its answers, by the number of the order."""

    child: subprocess.Popen[bytes]
    waiting: dict[int, SimpleQueue[object]] = field(default_factory=dict)
    heard: float = field(default_factory=monotonic)
    why: str = "the process that did this ended; try again"


class Worker:
    """One process that is started with the first order, and anew after it has ended.

    ``behind``: it gives way where the processor is wanted by what follows typing.
    """

    def __init__(
        self, limit: float = LIMIT, command: str = _CHILD, *, behind: bool = False
    ) -> None:
        self.limit = limit
        self.behind = behind
        self.command = command.format(path=sys.path)
        self.lock = threading.Lock()
        self.process: _Process | None = None
        self.number = 0
        self.newest: dict[str, tuple[int, int]] = {}
        self.shut = False
        atexit.register(self.end)

    def ask(self, job: str, *asked: Any, tab: str = "", turn: int = 0) -> Iterator[Part]:
        """Give the parts of an answer as they come; no more once the tab has a newer order.

        ``turn`` counts the orders of a tab; one behind its newest has no answer.
        """
        try:
            process, number = self._send(job, asked, tab, turn)
        except OSError as wrong:
            yield told(f"no process could be had: {wrong}")
            return
        answers = process.waiting.get(number)
        while answers is not None:
            try:
                part = answers.get(timeout=_LOOK)
            except Empty:
                if monotonic() - process.heard > self.limit:
                    self._end(process, f"this took longer than {self.limit:g} s and was ended")
                continue
            if part == DONE:
                return
            if isinstance(part, dict):
                yield part

    def end(self) -> None:
        """End the process, if there is one, and start none any more; who waits is told."""
        self.shut = True
        if self.process:
            self._end(self.process, "the page was shut")

    def _send(self, job: str, asked: tuple[Any, ...], tab: str, turn: int) -> tuple[_Process, int]:
        with self.lock:
            if self.shut:
                raise OSError("the page was shut")
            if self.process is None or self.process.child.poll() is not None:
                self.process = self._started()
            process = self.process
            self.number += 1
            number = self.number
            last, older = self.newest.get(tab, (0, 0)) if tab else (0, 0)
            if turn < last:
                return process, number  # it was outdated before it came
            if not process.waiting:
                process.heard = monotonic()
            process.waiting[number] = SimpleQueue()
            if tab:
                self.newest[tab] = (turn, number)
            with suppress(OSError):  # who listens to it tells of its end
                if older in process.waiting:
                    pickle.dump((older, "", ()), _in(process))
                pickle.dump((number, job, asked), _in(process))
                _in(process).flush()
        return process, number

    def _started(self) -> _Process:
        child = subprocess.Popen(
            [sys.executable, "-c", self.command],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
        if self.behind and sys.platform != "win32":
            with suppress(OSError):  # not everyone may, and it works as it is
                os.setpriority(os.PRIO_PROCESS, child.pid, BEHIND)
        process = _Process(child)
        threading.Thread(target=self._listen, args=(process,), daemon=True).start()
        return process

    def _listen(self, process: _Process) -> None:
        assert process.child.stdout is not None
        with suppress(EOFError, OSError, pickle.UnpicklingError):
            while True:
                number, part = pickle.load(process.child.stdout)
                process.heard = monotonic()
                with self.lock:
                    answers = process.waiting.get(number)
                    if part == DONE:
                        process.waiting.pop(number, None)
                if answers and part != BEGUN:
                    answers.put(part)
        process.child.kill()
        process.child.wait()
        with self.lock:
            if self.process is process:
                self.process = None
            left, process.waiting = process.waiting, {}
        for answers in left.values():
            answers.put(told(process.why))
            answers.put(DONE)

    def _end(self, process: _Process, why: str) -> None:
        process.why = why
        process.child.kill()


def _in(process: _Process) -> IO[bytes]:
    assert process.child.stdin is not None
    return process.child.stdin

"""Solids from a second process, so that the kernel loads while the drawing is made.

Loading the kernel takes longer than everything else together. The child takes its orders on stdin
and gives one answer for each on stdout, pickled, in order; what the kernel itself prints goes to
stderr. Both ends are this module: pickle never meets foreign data. Where no second process can be
had the work is done here.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import subprocess
import sys
import tempfile
import threading
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from queue import Empty, SimpleQueue
from types import TracebackType

from drafting.errors import DraftingError, OutputFailed
from drafting.model.pieces import Part

_CHILD = "import sys; sys.path[:] = {path!r}; from drafting.solid import beside; beside.serve()"


@dataclass(frozen=True, slots=True)
class Order:
    """What ``write_step.step_pair`` needs for one cylinder (``parts`` retracted, stroke in mm)."""

    name: str
    parts: Sequence[Part]
    stroke: float
    meta: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class _Answer:
    """The files of both positions, or why there are none."""

    files: tuple[bytes, bytes] | None
    failure: str = ""


def start(*orders: Order) -> Handle:
    """Begin with the solids of these orders; ``Handle.result`` gives them one after the other."""
    return Handle(orders)


class Handle:
    """Solids under way. Leaving its ``with`` block ends the child if it still works."""

    def __init__(self, orders: Sequence[Order]) -> None:
        self._waiting = list(orders)
        self._answers: SimpleQueue[_Answer] = SimpleQueue()
        self._words = tempfile.TemporaryFile()  # noqa: SIM115  (closed with the handle)
        self._child = self._spawn()
        if self._child is not None:
            talk = (self._child, list(orders))
            self._work = threading.Thread(target=self._converse, args=talk, daemon=True)
            self._work.start()

    def result(self) -> tuple[bytes, bytes]:
        """Give (retracted, extended) of the next order; waits for it.

        Raises OutputFailed with the reason when the kernel could not make it, IndexError when
        there is no order left.
        """
        order = self._waiting.pop(0)
        answer = _answer(order) if self._child is None else self._next()
        if answer.files is None:
            raise OutputFailed(f"the solids of {order.name} could not be made: {answer.failure}")
        return answer.files

    def close(self) -> None:
        """End the child if it still works."""
        if self._child is not None:
            if self._child.poll() is None:
                self._child.kill()
            self._child.wait()
            self._work.join()
        self._words.close()

    def __enter__(self) -> Handle:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def _spawn(self) -> subprocess.Popen[bytes] | None:
        if not sys.executable or getattr(sys, "frozen", False):
            return None
        try:
            return subprocess.Popen(
                [sys.executable, "-c", _CHILD.format(path=sys.path)],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=self._words,
                creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
            )
        except OSError:
            return None

    def _converse(self, child: subprocess.Popen[bytes], orders: list[Order]) -> None:
        assert child.stdin is not None
        assert child.stdout is not None
        left = len(orders)
        try:
            with child.stdout as answers:
                with child.stdin as told:
                    pickle.dump(orders, told)
                while left:
                    self._answers.put(pickle.load(answers))
                    left -= 1
        except Exception:  # what cuts a pickle short has no common base
            failure = _Answer(None, self._last_words(child.wait()))
            for _ in range(left):
                self._answers.put(failure)

    def _last_words(self, code: int) -> str:
        words = ""
        with contextlib.suppress(OSError, ValueError):
            self._words.seek(0)
            words = self._words.read().decode("utf-8", "replace").strip().rpartition("\n")[2]
        return f"the process of the solid kernel ended with code {code}" + (words and f": {words}")

    def _next(self) -> _Answer:
        while True:  # a wait without end cannot be interrupted on Windows
            with contextlib.suppress(Empty):
                return self._answers.get(timeout=0.2)


def serve() -> None:
    """Answer the orders on stdin: the child's whole life."""
    import gc
    import signal

    gc.disable()  # a tenth of the time to load the kernel; the process is short
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent ends this process
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    for order in pickle.load(sys.stdin.buffer):
        pickle.dump(_answer(order), out)
        out.flush()


def _answer(order: Order) -> _Answer:
    from drafting.solid.write_step import step_pair

    try:
        return _Answer(step_pair(order.name, order.parts, order.stroke, order.meta))
    except DraftingError as told:
        return _Answer(None, str(told))
    except Exception as wrong:  # the kernel's own exceptions have no common base
        return _Answer(None, f"the solid kernel failed ({type(wrong).__name__}: {wrong})")

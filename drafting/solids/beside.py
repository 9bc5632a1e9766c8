"""Solids from a second process, so that the kernel loads while the drawing is made.

Loading the kernel takes longer than everything else together. One child serves all orders that
are under way: pickled orders on its stdin, pickled answers on its stdout, in the same order; what
the kernel itself prints goes to stderr. It ends with its last order, or where it is kept with its
parent. Both ends are this module: pickle never meets foreign data. Where no second process can be
had the work is done in this one.
"""

from __future__ import annotations

import atexit
import contextlib
import os
import pickle
import subprocess
import sys
import tempfile
import threading
from collections import deque
from collections.abc import Mapping, Sequence
from queue import Empty, SimpleQueue
from typing import IO

from drafting.errors import DraftingError, OutputFailed
from drafting.records import dataclass
from drafting.settle.lengths import Lengths
from drafting.shape.pieces import Part

_CHILD = "import sys; sys.path[:] = {path!r}; from drafting.solids import beside; beside.serve()"


@dataclass(frozen=True, slots=True)
class _Order:
    name: str
    parts: tuple[Part, ...]
    lengths: Lengths
    meta: dict[str, str]
    formats: tuple[str, ...]
    phantoms: tuple[Part, ...]
    at: float | None


@dataclass(frozen=True, slots=True)
class _Answer:
    """The files by name, or why there are none."""

    files: dict[str, bytes]
    failure: str = ""


class Handle:
    """The solids of one cylinder under way."""

    def __init__(self, order: _Order) -> None:
        self.order = order
        self.answers: SimpleQueue[_Answer] = SimpleQueue()
        self.away = False

    def result(self) -> dict[str, bytes]:
        """Give the files by name; waits for them. To be asked once.

        Raises OutputFailed with the reason when they could not be made.
        """
        answer = self._wait() if self.away else _answer(self.order)
        if answer.failure:
            raise OutputFailed(
                f"the solids of {self.order.name} could not be made: {answer.failure}"
            )
        return answer.files

    def _wait(self) -> _Answer:
        while True:  # a wait without end cannot be interrupted on Windows
            with contextlib.suppress(Empty):
                return self.answers.get(timeout=0.2)


def warm() -> None:
    """Let the child load the kernel already, before the first order is known."""
    global _child
    with _lock:
        if _child is None or _child.owner != os.getpid():  # a forked process has none of its own
            _child = _Child.born()


def keep() -> None:
    """Let the child wait for further orders: a process that lives long loads the kernel once."""
    global _kept
    _kept = True


def leave() -> None:
    """End the child with all that is under way, because it takes too long."""
    global _child
    with _lock:
        child, _child = _child, None
        if child is not None and child.owner == os.getpid():
            child.process.kill()


def start(
    name: str,
    parts: Sequence[Part],
    lengths: Lengths,
    meta: Mapping[str, str],
    formats: Sequence[str] = ("step",),
    phantoms: Sequence[Part] = (),
    at: float | None = None,
) -> Handle:
    """Begin with the solids of a cylinder (``parts`` retracted).

    ``formats``: ``step`` gives NAME-retracted.step and NAME-extended.step, ``glb`` NAME.glb; ``at``
    (the rod out by so many mm) gives one STEP file more, named after its length. ``phantoms`` go
    into the STEP files alone.
    """
    order = _Order(name, tuple(parts), lengths, dict(meta), tuple(formats), tuple(phantoms), at)
    handle = Handle(order)
    warm()
    with _lock:
        if _child is not None:
            _child.take(handle)
    return handle


# --- the parent's side -------------------------------------------------------------------------


class _Child:
    """The process and its two threads: one tells it the orders, one hears the answers."""

    def __init__(self, process: subprocess.Popen[bytes], words: IO[bytes]) -> None:
        self.owner = os.getpid()
        self.process = process
        self.words = words
        self.waiting: deque[Handle] = deque()
        self.orders: SimpleQueue[_Order | None] = SimpleQueue()
        atexit.register(process.kill)
        for work in (self._tell, self._hear):
            threading.Thread(target=work, daemon=True).start()

    @classmethod
    def born(cls) -> _Child | None:
        """Start one, or give None where that cannot be."""
        if not sys.executable or getattr(sys, "frozen", False):
            return None
        words = tempfile.TemporaryFile()  # noqa: SIM115  (closed when the child has ended)
        try:
            process = subprocess.Popen(
                [sys.executable, "-c", _CHILD.format(path=sys.path)],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=words,
                creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
            )
        except OSError:
            words.close()
            return None
        return cls(process, words)

    def take(self, handle: Handle) -> None:
        """Take an order; the lock is held."""
        handle.away = True
        self.waiting.append(handle)
        self.orders.put(handle.order)

    def _tell(self) -> None:
        assert self.process.stdin is not None
        with contextlib.suppress(OSError), self.process.stdin as pipe:
            while (order := self.orders.get()) is not None:
                pickle.dump(order, pipe)
                pipe.flush()

    def _hear(self) -> None:
        global _child
        assert self.process.stdout is not None
        failure = None
        with self.process.stdout as pipe:
            while failure is None:
                try:
                    answer = pickle.load(pipe)
                except Exception:  # what cuts a pickle short has no common base
                    answer = failure = _Answer({}, self._last_words())
                with _lock:
                    for _ in range(len(self.waiting) if failure else 1):
                        self.waiting.popleft().answers.put(answer)
                    if failure is None and (self.waiting or _kept):
                        continue
                    self.orders.put(None)
                    if _child is self:
                        _child = None
                    break
        self.process.wait()
        atexit.unregister(self.process.kill)
        self.words.close()

    def _last_words(self) -> str:
        code = self.process.wait()
        self.words.seek(0)
        words = self.words.read().decode("utf-8", "replace").strip().rpartition("\n")[2]
        return f"the process of the solid kernel ended with code {code}" + (words and f": {words}")


_lock = threading.Lock()
_child: _Child | None = None
_kept = False


# --- the child's side --------------------------------------------------------------------------


def serve() -> None:
    """Answer orders until there are no more: the child's whole life."""
    import gc
    import signal

    gc.set_threshold(400_000, 50, 50)  # a tenth of the time to load the kernel
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent ends this process
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    with contextlib.suppress(ImportError):
        import OCP.gp  # noqa: F401
    with contextlib.suppress(EOFError):
        while True:
            pickle.dump(_answer(pickle.load(sys.stdin.buffer)), out)
            out.flush()


def _answer(order: _Order) -> _Answer:
    try:
        return _Answer(_files(order))
    except DraftingError as told:
        return _Answer({}, str(told))
    except ImportError as missing:
        return _Answer({}, f"the solid kernel is not installed as it should be ({missing})")
    except Exception as wrong:  # the kernel's own exceptions have no common base
        return _Answer({}, f"the solid kernel failed ({type(wrong).__name__}: {wrong})")


def _files(order: _Order) -> dict[str, bytes]:
    name, n, files = order.name, order.lengths, {}
    places = {"retracted": 0.0, "extended": n.stroke} if "step" in order.formats else {}
    if order.at is not None:
        places[f"at-{round(n.retracted + order.at, 3):g}mm"] = order.at
    if places:
        from drafting.solids.write_step import step_files

        made = step_files(name, order.parts, places, order.meta, order.phantoms)
        files = {f"{name}-{state}.step": data for state, data in made.items()}
    if "glb" in order.formats:
        from drafting.solids.write_glb import glb_bytes

        lengths = {"stroke_mm": round(n.stroke, 6), "retracted_mm": round(n.retracted, 6)}
        files[f"{name}.glb"] = glb_bytes(name, order.parts, "retracted", order.meta, lengths)
    return files

"""Solids from a second process: the same bytes, plain failures, and nothing left running."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import pytest

from drafting.errors import OutputFailed
from drafting.model.pieces import Part, Piece, cylinder
from drafting.solid import beside
from drafting.solid.beside import Order, start
from drafting.solid.write_step import step_pair
from tests.solid.sample_parts import META, STROKE, sample

ROOT = Path(__file__).parents[2]
GOOD = Order("SG-0417", sample()[2:], STROKE, META)
NOTHING = (Piece("a", cylinder(1, 0, 9)), Piece("b", cylinder(2, -1, 10), cut=True))
EMPTY = Order("SG-0418", (Part("rod", "rod", NOTHING),), STROKE, META)


def test_the_same_bytes_and_each_order_its_own_answer() -> None:
    with start(GOOD, EMPTY, replace(GOOD, name="SG-0419")) as handle:
        first = handle.result()
        with pytest.raises(OutputFailed, match="solids of SG-0418 could not be made"):
            handle.result()
        third = handle.result()
        with pytest.raises(IndexError):
            handle.result()
    assert first == step_pair(GOOD.name, GOOD.parts, GOOD.stroke, GOOD.meta)
    assert third == step_pair("SG-0419", GOOD.parts, GOOD.stroke, GOOD.meta)


def test_where_no_process_can_be_had(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*args: object, **more: object) -> None:
        raise OSError("no more processes")

    monkeypatch.setattr(beside.subprocess, "Popen", refused)
    with start(GOOD) as handle:
        assert handle.result() == step_pair(GOOD.name, GOOD.parts, GOOD.stroke, GOOD.meta)


@pytest.mark.parametrize(
    ("child", "words"),
    [
        ("import os; os._exit(3)", "ended with code 3"),
        ("raise SystemExit('no kernel here')", "ended with code 1: no kernel here"),
        ("print('chatter', flush=True)", "ended with code 0"),
        ("import os; os.kill(os.getpid(), 9)", "ended with code"),
    ],
)
def test_a_child_that_ends_too_soon(
    monkeypatch: pytest.MonkeyPatch, child: str, words: str
) -> None:
    monkeypatch.setattr(beside, "_CHILD", child)
    with start(GOOD, GOOD) as handle:
        for _ in range(2):
            with pytest.raises(OutputFailed, match=words):
                handle.result()


def test_leaving_early_ends_the_child(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(beside, "_CHILD", "import time; time.sleep(60)")
    begin = time.monotonic()
    with start(GOOD) as handle:
        child = handle._child
        assert child is not None
        assert child.poll() is None
    assert child.poll() is not None
    assert time.monotonic() - begin < 10


INTERRUPTED = """
import sys, threading, signal, os
from drafting.solid import beside
from tests.solid.test_beside import GOOD
try:
    with beside.start(GOOD) as handle:
        print(handle._child.pid, flush=True)
        handle.result(); handle.result()
except KeyboardInterrupt:
    sys.exit(130)
"""


@pytest.mark.skipif(os.name == "nt", reason="process groups")
def test_ctrl_c_in_the_terminal_ends_both_without_a_word() -> None:
    with subprocess.Popen(
        [sys.executable, "-c", INTERRUPTED],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        start_new_session=True,
    ) as run:
        assert run.stdout is not None
        assert run.stderr is not None
        child = int(run.stdout.readline())
        time.sleep(0.3)
        os.killpg(run.pid, signal.SIGINT)
        assert run.wait(timeout=20) == 130
        assert run.stderr.read() == ""
    with pytest.raises(ProcessLookupError):
        os.kill(child, 0)

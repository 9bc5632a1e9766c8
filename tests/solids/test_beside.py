"""Solids from a second process: the same bytes, plain failures, and nothing left running."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from drafting.errors import OutputFailed
from drafting.settle.lengths import Lengths
from drafting.shape.pieces import Part, Piece, cylinder
from drafting.solids import beside
from drafting.solids.write_glb import glb_bytes
from tests.solids.as_step import step_pair
from tests.solids.sample_parts import META, RETRACTED, STROKE, sample

ROOT = Path(__file__).parents[2]
PARTS = sample()[2:]
NOTHING = (Piece("a", cylinder(1, 0, 9)), Piece("b", cylinder(2, -1, 10), cut=True))
LENGTHS = Lengths(STROKE, RETRACTED, RETRACTED + STROKE)
EMPTY = (Part("rod", "rod", NOTHING),)


def start(name: str, parts: tuple[Part, ...] = PARTS, *formats: str) -> beside.Handle:
    return beside.start(name, parts, LENGTHS, META, formats or ("step",))


def files(name: str) -> dict[str, bytes]:
    pair = step_pair(name, PARTS, STROKE, META)
    return {f"{name}-retracted.step": pair[0], f"{name}-extended.step": pair[1]}


@pytest.fixture(autouse=True)
def _no_child_before() -> Iterator[None]:
    """Every test begins and ends without a child of its own."""
    yield
    if beside._child is not None:
        beside._child.process.kill()
        beside._child.process.wait()
        beside._child = None


def test_each_order_gets_its_own_answer_from_one_child() -> None:
    beside.warm()
    handles = [start("SG-0417"), start("SG-0418", EMPTY), start("SG-0419", PARTS, "step", "glb")]
    child = beside._child
    assert child is not None
    assert handles[0].result() == files("SG-0417")
    with pytest.raises(OutputFailed, match=r"solids of SG-0418 could not be made: .*rod"):
        handles[1].result()
    glb = glb_bytes(
        "SG-0419", PARTS, "retracted", META, {"stroke_mm": STROKE, "retracted_mm": RETRACTED}
    )
    assert handles[2].result() == {**files("SG-0419"), "SG-0419.glb": glb}
    assert child.process.wait(timeout=10) == 0
    with beside._lock:
        assert beside._child is None
    assert start("SG-0420").result() == files("SG-0420")


def test_a_child_that_is_kept_answers_later_orders_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(beside, "_kept", False)
    beside.keep()
    assert start("SG-0417").result() == files("SG-0417")
    first = beside._child
    assert first is not None
    assert start("SG-0418").result() == files("SG-0418")
    assert beside._child is first


def test_where_no_process_can_be_had(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*args: object, **more: object) -> None:
        raise OSError("no more processes")

    monkeypatch.setattr(beside.subprocess, "Popen", refused)
    assert start("SG-0417").result() == files("SG-0417")


def test_without_the_kernel(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(beside, "_CHILD", "import sys; sys.modules['OCP'] = None; " + beside._CHILD)
    with pytest.raises(OutputFailed, match=r"the solid kernel is not installed .*OCP"):
        start("SG-0417").result()


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
    monkeypatch.setattr(beside, "_CHILD", "import time; time.sleep(0.2); " + child)
    handles = [start("SG-0417"), start("SG-0418")]
    for handle in handles:
        with pytest.raises(OutputFailed, match=words):
            handle.result()
    with beside._lock:
        assert beside._child is None


UNFINISHED = """
from drafting.solids import beside
from tests.solids.test_beside import start
import sys
start("SG-0417")
print(beside._child.process.pid, flush=True)
{end}
"""


def ended(pid: int) -> bool:
    for _ in range(100):
        try:
            os.kill(pid, 0)
        except ProcessLookupError:
            return True
        with contextlib.suppress(OSError):  # a child that nobody waits for is no running one
            if Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] == "Z":
                return True
        time.sleep(0.1)
    return False


def parent(end: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", UNFINISHED.format(end=end)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        start_new_session=True,
    )


@pytest.mark.skipif(os.name == "nt", reason="signals and /proc")
@pytest.mark.parametrize(
    ("end", "number", "code"),
    [
        ("sys.exit(5)", None, 5),
        ("import time; time.sleep(60)", signal.SIGTERM, -15),
        ("import time; time.sleep(60)", signal.SIGKILL, -9),
    ],
)
def test_the_child_ends_with_its_parent(end: str, number: int | None, code: int) -> None:
    with parent(end) as run:
        assert run.stdout is not None
        assert run.stderr is not None
        child = int(run.stdout.readline())
        if number is not None:
            run.send_signal(number)
        assert run.wait(timeout=20) == code
        assert run.stderr.read() == ""
    assert ended(child)


@pytest.mark.skipif(os.name == "nt", reason="process groups")
def test_ctrl_c_in_the_terminal_ends_both_without_a_word() -> None:
    wait = "try: start('x').result(); start('y').result()\nexcept KeyboardInterrupt: sys.exit(130)"
    with parent(wait) as run:
        assert run.stdout is not None
        assert run.stderr is not None
        child = int(run.stdout.readline())
        time.sleep(0.3)
        os.killpg(run.pid, signal.SIGINT)
        assert run.wait(timeout=20) == 130
        assert run.stderr.read() == ""
    assert ended(child)

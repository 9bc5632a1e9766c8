"""What hangs, what breaks, what is too late: it is told, and the page lives on."""

from __future__ import annotations

import os
import threading
import time
from concurrent.futures import ThreadPoolExecutor

import pytest

from drafting.web.worker import _CHILD, BEHIND, Worker
from tests.web.test_guard import QUICK, SPEC, client, post
from tests.web.test_look import lines

SLOW = _CHILD.replace(
    "work.serve()",
    "\ndef slow(text):\n"
    "    import os, time\n"
    "    for k in range(int(text)):\n"
    "        yield {{'k': k}}\n"
    "        time.sleep(0.1)\n"
    "def hang():\n"
    "    import time; time.sleep(600); yield {{}}\n"
    "def fall():\n"
    "    import os; os._exit(3); yield {{}}\n"
    "def odd():\n"
    "    raise ZeroDivisionError('of our own making'); yield {{}}\n"
    "def rest(text):\n"
    "    yield {{'k': text}}\n"
    "    yield work.REST\n"
    "    yield {{'late': text}}\n"
    "work.JOBS = dict(rest=rest, slow=slow, hang=hang, fall=fall, odd=odd)\n"
    "work.serve()",
)
"""The same child, with jobs that do what a bad day does."""


@pytest.fixture
def worker():
    made = Worker(limit=4.0, command=SLOW)
    yield made
    made.end()


@pytest.mark.skipif(not hasattr(os, "getpriority"), reason="this system has no such order")
def test_what_makes_files_gives_way_to_what_follows_typing():
    own = os.getpriority(os.PRIO_PROCESS, 0)
    stands = []
    for behind in (False, True):
        made = Worker(command=SLOW, behind=behind)
        assert [*made.ask("slow", "1")] == [{"k": 0}]
        stands.append(os.getpriority(os.PRIO_PROCESS, made.process.child.pid) - own)
        made.end()
    assert stands == [0, BEHIND]


def messages(parts):
    return [f["message"] for p in parts for f in p.get("faults", ())]


def test_what_hangs_is_ended_and_told_and_the_next_order_is_done(worker):
    assert [*worker.ask("slow", "1")] == [{"k": 0}]
    begin = time.monotonic()
    assert "longer than 4 s" in messages(worker.ask("hang"))[0]
    assert time.monotonic() - begin < 20
    assert [*worker.ask("slow", "2")] == [{"k": 0}, {"k": 1}]


def test_a_process_that_falls_is_told_to_all_who_wait(worker):
    first = worker.ask("slow", "3")
    assert next(first) == {"k": 0}
    assert "try again" in messages(worker.ask("fall"))[0]
    assert [p for p in first if "k" in p] == [{"k": 1}, {"k": 2}]
    assert [*worker.ask("slow", "1")] == [{"k": 0}]


def test_a_job_that_breaks_is_told_by_its_own_words(worker):
    assert "ZeroDivisionError: of our own making" in messages(worker.ask("odd"))[0]
    assert [*worker.ask("slow", "1")] == [{"k": 0}]


def test_who_waits_when_the_page_is_shut_is_told_and_nothing_starts_again(worker):
    parts = worker.ask("slow", "600")
    assert next(parts) == {"k": 0}
    worker.end()
    assert "the page was shut" in messages(parts)[-1]
    assert "the page was shut" in messages(worker.ask("slow", "1"))[0]
    assert worker.process is None or worker.process.child.poll() is not None


def test_the_newest_order_of_a_tab_wins_and_others_go_on(worker):
    older, other = worker.ask("slow", "40", tab="a"), worker.ask("slow", "3", tab="b")
    assert next(older) == {"k": 0}
    with ThreadPoolExecutor() as pool:
        newer = pool.submit(lambda: [*worker.ask("slow", "2", tab="a")])
        beside = pool.submit(lambda: [*other])
        assert len([*older]) < 39
        assert newer.result() == [{"k": 0}, {"k": 1}]
        assert len(beside.result()) == 3


def test_an_order_that_is_met_after_a_newer_one_has_no_answer(worker):
    """Two threads of the server may meet two orders of one tab the other way round."""
    held = worker.ask("slow", "8", tab="b")
    next(held)
    newer = worker.ask("slow", "2", tab="a", turn=2)
    with ThreadPoolExecutor() as pool:
        found = pool.submit(lambda: [*newer])
        while not worker.newest.get("a"):
            time.sleep(0.01)
        assert [*worker.ask("slow", "3", tab="a", turn=1)] == []
        assert [*worker.ask("slow", "1", tab="c", turn=1)] == [{"k": 0}]
        assert found.result() == [{"k": 0}, {"k": 1}]
    assert [*worker.ask("slow", "1", tab="a", turn=3)] == [{"k": 0}]


def test_what_can_wait_is_left_off_where_a_newer_order_comes_at_once(worker):
    assert [*worker.ask("rest", "a")] == [{"k": "a"}, {"late": "a"}]
    older = worker.ask("rest", "b", tab="t", turn=1)
    assert next(older) == {"k": "b"}
    newer = worker.ask("rest", "c", tab="t", turn=2)
    assert next(newer) == {"k": "c"}
    assert [*older] == []
    assert [*newer] == [{"late": "c"}]


def test_what_is_outdated_before_it_begins_costs_nothing(worker):
    held = worker.ask("slow", "8", tab="a")
    next(held)
    waiting = [worker.ask("slow", "40", tab="b") for _ in range(20)]
    begin = time.monotonic()
    heads = [threading.Thread(target=lambda w=w: [*w]) for w in waiting[:-1]]
    for h in heads:
        h.start()
    time.sleep(0.2)
    assert [*worker.ask("slow", "1", tab="b")] == [{"k": 0}]
    assert time.monotonic() - begin < 20
    for h in heads:
        h.join(20)
    assert not any(h.is_alive() for h in heads)
    assert len([*held]) == 7


def test_ten_at_once_each_get_their_own():
    made = client()

    def one(k):
        answer = post(made, "/look", {"text": SPEC, "set": {"cylinder.stroke": str(10 + k)},
                                      "tab": f"tab {k}"})  # fmt: skip
        return lines(answer)

    with ThreadPoolExecutor(10) as pool:
        found = [*pool.map(one, range(10))]
    assert [f["lengths"]["stroke"]["mm"] for f in found] == [
        pytest.approx(25.4 * (10 + k)) for k in range(10)
    ]
    assert all("verdict" in f and "views" in f for f in found)


def test_a_tab_that_asks_again_is_answered_for_the_newest():
    made = client()
    with ThreadPoolExecutor(4) as pool:
        asked = [
            pool.submit(
                post,
                made,
                "/look",
                {"text": SPEC, "set": {"cylinder.stroke": str(k)}, "tab": "one"},
            )
            for k in (11, 12, 13, 14)
        ]
        found = [lines(a.result()) for a in asked]
    assert any("verdict" in f for f in found)
    assert QUICK.process is not None
    assert not QUICK.process.waiting

"""What is sent by hand over the wire, past every browser: it is turned away, and soon."""

from __future__ import annotations

import socket
import time
from contextlib import ExitStack, suppress
from http.client import HTTPConnection
from threading import Timer
from urllib.parse import parse_qs, urlsplit

import pytest

from tests.web.browser import served

ENOUGH = 20.0
"""Seconds in which an answer must be there; a busy machine takes some."""


@pytest.fixture(scope="module")
def place():
    with served() as address:
        at = urlsplit(address)
        yield at.netloc, at.port, parse_qs(at.query)["token"][0]


def said(port, *parts, ends=True):
    """The answer to bytes; where they are no whole request nobody may wait for the rest."""
    with socket.create_connection(("127.0.0.1", port), timeout=ENOUGH) as line:
        for part in parts:
            line.sendall(part)
        got = b""
        while more := line.recv(65536):
            got += more
            if b"\r\n\r\n" in got and not ends:
                break
    return got


def status(answer):
    return int(answer.split(b" ", 2)[1]) if answer else 0


def request(host, token, *heads, way="GET", at="/state", body=b""):
    port = host.rpartition(":")[2]
    lines = [f"{way} {at} HTTP/1.1", f"Host: {host}", f"Cookie: drafting-{port}={token}", *heads]
    return "\r\n".join([*lines, "Connection: close", "", ""]).encode() + body


def test_the_page_itself_is_let_in(place):
    host, port, token = place
    assert status(said(port, request(host, token))) == 200


NAMES = ["127.0.0.1.:{p}", "localhost.:{p}", "[::1]:{p}", "127.0.0.1:{p}.", "127.1:{p}",
         "2130706433:{p}", "0.0.0.0:{p}", "user@127.0.0.1:{p}", "127.0.0.1:{p}@there.example",
         "127.0.0.1", "127.0.0.1:{p}, there.example", "there.example:{p}", " "]  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_another_name_of_this_machine_is_turned_away(place, name):
    """A name that was pointed here, and every other way to write the address."""
    host, port, token = place
    sent = request(host, token).replace(
        f"Host: {host}".encode(), f"Host: {name}".format(p=port).encode()
    )
    assert status(said(port, sent)) in (400, 403)


def test_two_names_or_two_lengths_are_no_request(place):
    host, port, token = place
    for heads in (("Host: there.example",), ("Content-Length: 2", "Content-Length: 3"),
                  ("Transfer-Encoding: chunked, identity",), ("Transfer-Encoding: xchunked",),
                  ("Content-Length: -1",), (" folded: yes", ": none")):  # fmt: skip
        sent = request(host, token, f"Origin: http://{host}", *heads, way="POST", at="/save",
                       body=b"0\r\n\r\nGET /state HTTP/1.1\r\nHost: x\r\n\r\n")  # fmt: skip
        answer = said(port, sent)
        assert status(answer) in (400, 403, 431, 501), (heads, answer[:80])
        assert answer.count(b"HTTP/1.1 ") == 1, "what was smuggled in is no second request"


def test_a_head_without_end_is_cut_off(place):
    host, port, token = place
    try:
        answer = said(port, request(host, token, f"X: {'y' * 2_000_000}"))
    except ConnectionError:
        answer = b""
    assert status(answer) in (0, 400, 431)
    assert status(said(port, request(host, token))) == 200, "and the page lives on"


def test_chunks_beside_a_length_are_read_as_chunks_and_nothing_after_them(place):
    """RFC 9112, 6.3: the chunks count, and the connection is closed behind the answer."""
    host, port, token = place
    heads = (f"Origin: http://{host}", "Content-Length: 4", "Transfer-Encoding: chunked")
    body = b"0\r\n\r\nGET /state HTTP/1.1\r\nHost: x\r\n\r\n"
    answer = said(port, request(host, token, *heads, way="POST", at="/save", body=body))
    assert answer.count(b"HTTP/1.1 ") == 1, "what was smuggled in is no second request"
    assert b'"saved":true' not in answer


def test_an_address_that_names_another_place_reaches_nothing(place):
    host, port, token = place
    for at in ("http://there.example/state", "//there.example/state", "/state/../etc/passwd",
               "/%2e%2e/state", "/state%00", "*"):  # fmt: skip
        answer = said(port, request(host, token, at=at))
        assert status(answer) in (400, 403, 404), at


@pytest.mark.parametrize("heads", [("Content-Length: 5000000",), ("Transfer-Encoding: chunked",)])
def test_whom_nobody_knows_is_answered_before_a_body_is_read(place, heads):
    """A body without end holds nobody who is not let in."""
    host, port, _ = place
    begin = time.monotonic()
    sent = request(host, "wrong", f"Origin: http://{host}", *heads, way="POST", at="/look")
    assert status(said(port, sent, b"5\r\nhello\r\n", ends=False)) == 403
    assert time.monotonic() - begin < ENOUGH


def test_a_body_without_end_is_cut_off_at_the_limit(place):
    host, port, token = place
    sent = request(host, token, f"Origin: http://{host}", "Transfer-Encoding: chunked",
                   way="POST", at="/look")  # fmt: skip
    chunk = b"100000\r\n" + b"x" * 0x100000 + b"\r\n"
    got = b""
    with socket.create_connection(("127.0.0.1", port), timeout=ENOUGH) as line:
        line.sendall(sent)
        with suppress(OSError):  # the other side has shut it
            for _ in range(64):
                line.sendall(chunk)
        with suppress(OSError):
            got = line.recv(200)
    assert got == b"" or status(got) == 413
    assert status(said(port, request(host, token))) == 200, "and the page lives on"


def test_nobody_is_let_in_by_another_protocol(place):
    host, port, token = place
    heads = ("Upgrade: websocket", "Connection: Upgrade", "Sec-WebSocket-Version: 13",
             "Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==", "Origin: http://x.example")  # fmt: skip
    assert status(said(port, request(host, token, *heads))) == 403
    assert status(said(port, request(host, token, *heads[:4]))) in (200, 400, 426)
    assert status(said(port, b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n")) in (0, 400, 403)


@pytest.mark.parametrize("way", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT"])
def test_other_ways_change_nothing(place, way):
    host, port, token = place
    sent = request(host, token, f"Origin: http://{host}", way=way, at="/save")
    assert status(said(port, sent)) in (400, 404, 405)


def test_no_part_of_an_answer_waits_until_the_one_before_it_was_received(place):
    """A line that stays open is acknowledged late, by 40 ms: head and body go without that."""
    host, port, token = place
    heads = {"Cookie": f"drafting-{port}={token}", "Host": host}
    line = HTTPConnection("127.0.0.1", port, timeout=ENOUGH)
    took = []
    for _ in range(40):
        begin = time.monotonic()
        line.request("GET", "/state", headers=heads)
        line.getresponse().read()
        took.append(time.monotonic() - begin)
    line.close()
    assert min(took[20:]) < 0.02


def test_the_page_ends_though_a_line_is_held_open():
    """Half a body and then silence: what is asked to end waits for nobody."""
    with ExitStack() as later:
        with served() as address:
            at = urlsplit(address)
            token = parse_qs(at.query)["token"][0]
            line = later.enter_context(socket.create_connection(("127.0.0.1", at.port)))
            heads = (f"Origin: http://{at.netloc}", "Content-Length: 100")
            line.sendall(request(at.netloc, token, *heads, way="POST", at="/look", body=b"{"))
            assert status(said(at.port, request(at.netloc, token))) == 200
            begin = time.monotonic()
            shut = Timer(ENOUGH, line.shutdown, (socket.SHUT_RDWR,))
            shut.start()
        shut.cancel()
        assert time.monotonic() - begin < ENOUGH / 2

"""``drafting page``: the same jobs on a page in the browser, on this machine alone."""

from __future__ import annotations

import secrets
import socket
import sys
from argparse import Namespace
from contextlib import suppress
from pathlib import Path
from threading import Thread, Timer
from types import FrameType

from drafting.cli import DONE
from drafting.cli.say import tell
from drafting.errors import Fault, Refused

LOCAL = "127.0.0.1"
FIRST = ("cross tube", "clevis")
"""The mounts that a new cylinder is shown with at first."""
GRACE = 1.0
"""Seconds that an answer under way has, once the page is to end."""


def run(options: Namespace) -> int:
    """Serve the page until Ctrl-C; its address is the first line on stdout, and the only one."""
    from drafting.web.desk import Desk
    from drafting.web.worker import Worker

    path = Path(options.file) if options.file else None
    desk = Desk(path)
    desk.state()  # a file that cannot be read is refused before anything is opened
    listening = _listening(options.port)
    port = listening.getsockname()[1]
    token = secrets.token_urlsafe(24)
    hosts = frozenset({f"{LOCAL}:{port}", f"localhost:{port}"})
    address = f"http://{LOCAL}:{port}/?token={token}"
    print(address, flush=True)
    tell("the page is open until Ctrl-C; nothing is written but where you save")
    if not options.no_open:
        _opened(address)

    import uvicorn  # while the browser starts

    from drafting.web.first import form_rows
    from drafting.web.server import page

    form_rows()  # the first answer holds them
    quick, slow = Worker(), Worker(behind=True)
    made = page(desk, token, hosts, quick, slow)
    text = desk.text()
    first = ("look", text, {}) if text else ("guide", *FIRST)
    # There when it is asked for; begun earlier it took the processor from the form.
    Thread(target=lambda: [*quick.ask(*first)], daemon=True).start()
    config = uvicorn.Config(
        made, loop="asyncio", ws="none", lifespan="off", log_level="error", access_log=False
    )
    server = uvicorn.Server(config)
    ordinary = server.handle_exit

    def end(sig: int, frame: FrameType | None) -> None:
        """Nobody waits for a job that is under way, nor for a browser that keeps its line open."""
        quick.end()
        slow.end()
        ordinary(sig, frame)
        last = Timer(GRACE, setattr, (server, "force_exit", True))
        last.daemon = True
        last.start()

    server.handle_exit = end  # type: ignore[method-assign]
    with suppress(KeyboardInterrupt):
        server.run(sockets=[listening])
    return DONE


def _listening(port: int) -> socket.socket:
    # Named as TCP: then asyncio sends each part at once, and none waits 40 ms for another.
    found = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    if sys.platform != "win32":
        found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        found.bind((LOCAL, port))
        found.listen()  # a browser that is quicker than the page waits for it
    except (OSError, OverflowError) as wrong:
        message = f"port {port} cannot be had ({wrong}); leave --port out, or name another"
        raise Refused([Fault("command line", 1, 1, "port-taken", "--port", message)]) from None
    return found


def _opened(address: str) -> None:
    import webbrowser

    try:
        webbrowser.open(address)
    except (OSError, webbrowser.Error):
        tell("no browser could be opened; copy the address")

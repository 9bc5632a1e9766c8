"""``drafting page``: the same jobs on a page in the browser, on this machine alone."""

from __future__ import annotations

import secrets
import socket
import sys
from argparse import Namespace
from contextlib import suppress
from pathlib import Path

from drafting.cli import DONE
from drafting.cli.say import tell
from drafting.errors import Fault, Refused

LOCAL = "127.0.0.1"


def run(options: Namespace) -> int:
    """Serve the page until Ctrl-C; its address is the first line on stdout, and the only one."""
    import uvicorn

    from drafting.web.server import Desk, page

    path = Path(options.file) if options.file else None
    desk = Desk(path, _starter())
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
    config = uvicorn.Config(page(desk, token, hosts), log_level="error", access_log=False)
    with suppress(KeyboardInterrupt):
        uvicorn.Server(config).run(sockets=[listening])
    return DONE


def _starter() -> str:
    from drafting.model.catalog import mount_types, mounts_by_end
    from drafting.spec.template import starter_spec

    examples = {
        f"{end}_mount": dict(mount_types()[end, "clevis"].example) for end in ("body", "rod")
    }
    return starter_spec("clevis", "clevis", "in", mounts=mounts_by_end(), examples=examples)


def _listening(port: int) -> socket.socket:
    found = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if sys.platform != "win32":
        found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        found.bind((LOCAL, port))
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

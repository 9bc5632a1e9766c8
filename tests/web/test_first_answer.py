"""The first answer is what a person waits for: it asks for nothing that is not there already."""

from __future__ import annotations

import json
import subprocess
import sys

from tests.web.test_guard import SPEC

ASK = """
import asyncio, json, sys
from pathlib import Path
from drafting.web.desk import Desk
from drafting.web.first import form_rows
from drafting.web.server import page
form_rows()
made = page(Desk(Path(sys.argv[1])), "token", frozenset({"here:1"}))
heads = [(b"host", b"here:1"), (b"cookie", b"drafting-1=token")]
scope = {"type": "http", "method": "GET", "path": sys.argv[2], "raw_path": b"", "query_string": b"",
         "root_path": "", "scheme": "http", "headers": heads, "http_version": "1.1"}
said = []
async def receive():
    return {"type": "http.request", "body": b"", "more_body": False}
async def send(message):
    said.append(message)
before = set(sys.modules)
asyncio.run(made(scope, receive, send))
loaded = sorted({m.partition(".")[0] for m in set(sys.modules) - before})
print(json.dumps([said[0]["status"], len(said[1]["body"]), loaded]))
"""


def asked(path, at):
    told = subprocess.run(
        [sys.executable, "-c", ASK, path, at], capture_output=True, text=True, check=True
    )
    return json.loads(told.stdout.splitlines()[-1])


def test_the_page_is_told_without_what_only_threads_need(tmp_path):
    path = tmp_path / "winch.toml"
    path.write_text(SPEC, encoding="utf-8")
    status, size, loaded = asked(path, "/")
    assert status == 200
    assert size > 10_000
    assert "anyio" not in loaded
    assert "anyio" in asked(path, "/state")[2], "what may take time is done in a thread"

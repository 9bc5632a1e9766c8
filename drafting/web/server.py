"""The page's own addresses; each is a job of the command line. GET changes nothing."""

from __future__ import annotations

import json
from functools import cache
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Lock
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp

from drafting.errors import DraftingError, Fault, Refused
from drafting.web.guard import Guard

HERE = Path(__file__).parent
STATIC = {
    "/": (HERE / "page.html", "text/html; charset=utf-8"),
    "/page.css": (HERE / "page.css", "text/css; charset=utf-8"),
    "/page.js": (HERE / "page.js", "text/javascript; charset=utf-8"),
    "/lengths.js": (HERE.parent / "viewing" / "lengths.js", "text/javascript; charset=utf-8"),
    "/solid.js": (HERE.parent / "viewing" / "three-viewer.js", "text/javascript; charset=utf-8"),
}
"""Every file that a browser may ask for, by its address: no path of a client goes further."""
KINDS = (".toml", ".svg", ".pdf", ".dxf", ".step", ".stp", ".glb", ".png", ".csv", ".html", ".json")
"""Endings of what can be opened."""
FORMATS = ("pdf", "svg", "dxf", "step", "glb", "png", "csv", "html", "json")


class Desk:
    """What one run of the page works on: a file of the person's own, or none."""

    def __init__(self, path: Path | None, starter: str) -> None:
        self.path, self.starter = path, starter
        self.lock = Lock()

    def text(self) -> str:
        """Give what is in the file, or a starter."""
        if self.path is not None and self.path.exists():
            from drafting.files import read_regular

            data = read_regular(self.path, 1_000_000)
            return data.decode("utf-8-sig", "replace")
        return self.starter

    def state(self) -> dict[str, Any]:
        """Give the file's name, its text, and by what it is known again."""
        text = self.text()
        return {"file": self.path.name if self.path else "", "text": text, "mark": mark(text)}

    def save(self, text: str, seen: str) -> dict[str, Any]:
        """Write the text whole or not at all; nothing where the file is not the one seen."""
        if self.path is None:
            return {"saved": False, "why": "no file was named when the page was started"}
        with self.lock:
            if self.path.exists() and mark(self.text()) != seen:
                return {"saved": False, "why": "changed", **self.state()}
            from drafting.files import write_all

            write_all({self.path: text.encode("utf-8", "surrogatepass")})
        return {"saved": True, **self.state()}


def mark(text: str) -> str:
    """Give by what a text is known again."""
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def page(desk: Desk, token: str, hosts: frozenset[str]) -> ASGIApp:
    """Give the page's application behind its guard."""

    async def shown(request: Request) -> Response:
        path, kind = STATIC[request.url.path]
        return Response(_file(path), media_type=kind)

    async def form(request: Request) -> Response:
        from drafting.web.form import form as rows

        return JSONResponse(await run_in_threadpool(rows))

    async def state(request: Request) -> Response:
        return JSONResponse(await run_in_threadpool(desk.state))

    async def look(request: Request) -> Response:
        asked = await _asked(request)

        def job() -> dict[str, Any]:
            from drafting.web.look import changed, look

            text = changed(asked["text"], asked["set"]) if asked.get("set") else asked["text"]
            return look(text)

        return await _job(job)

    async def solid(request: Request) -> Response:
        asked = await _asked(request)
        return await _bytes(lambda: _drawn(asked["text"], ("glb",)), "model/gltf-binary")

    async def download(request: Request) -> Response:
        asked = await _asked(request)
        wanted = asked.get("format", "")
        if wanted not in FORMATS:
            return _wrong(f'no format "{wanted}"')
        return await _bytes(lambda: _drawn(asked["text"], (wanted,)), "application/octet-stream")

    async def package(request: Request) -> Response:
        asked = await _asked(request)
        return await _bytes(lambda: _package(asked["text"]), "application/zip")

    async def open_(request: Request) -> Response:
        name = request.query_params.get("name", "")
        data = await request.body()
        return await _job(lambda: {"text": _opened(name, data)})

    async def save(request: Request) -> Response:
        asked = await _asked(request)
        return await _job(lambda: desk.save(str(asked["text"]), str(asked.get("seen", ""))))

    routes = [
        *(Route(at, shown) for at in STATIC),
        Route("/form", form),
        Route("/state", state),
        *(
            Route(at, job, methods=["POST"])
            for at, job in (
                ("/look", look), ("/solid", solid), ("/download", download),
                ("/package", package), ("/open", open_), ("/save", save),
            )
        ),
    ]  # fmt: skip
    return Guard(Starlette(routes=routes), token, hosts)


async def _asked(request: Request) -> dict[str, Any]:
    try:
        found = json.loads(await request.body())
    except (ValueError, RecursionError):
        found = None
    if not isinstance(found, dict) or not isinstance(found.get("text"), str):
        return {"text": ""}
    told = found.get("set")
    put = {
        str(k): None if v is None else str(v) for k, v in told.items()
    } if isinstance(told, dict) else {}  # fmt: skip
    return {**found, "set": put}


async def _job(job: Any) -> Response:
    """Run a job beside the others; what it refuses is told, and so is a crash: it lives on."""
    try:
        return JSONResponse(await run_in_threadpool(job))
    except Refused as refused:
        return JSONResponse({"faults": [_row(f) for f in refused.faults]}, 422)
    except DraftingError as failed:
        return JSONResponse({"faults": [_row(Fault("", 1, 1, "failed", "", str(failed)))]}, 500)
    except Exception as wrong:
        what = f"the tool itself failed here: {type(wrong).__name__}: {wrong}"
        return JSONResponse({"faults": [_row(Fault("", 1, 1, "failed", "", what))]}, 500)


async def _bytes(job: Any, kind: str) -> Response:
    """Run a job that gives one file: its name and its bytes."""
    made: list[tuple[str, bytes]] = []

    def kept() -> dict[str, Any]:
        made.append(job())
        return {}

    answer = await _job(kept)
    if not made:
        return answer
    from urllib.parse import quote

    name, data = made[0]
    headers = {"Content-Disposition": f"attachment; filename*=UTF-8''{quote(name)}"}
    return Response(data, media_type=kind, headers=headers)


def _drawn(text: str, formats: tuple[str, ...]) -> tuple[str, bytes]:
    from drafting.asking.package import zipped
    from drafting.jobs.draw import How, draw_cylinder
    from drafting.web.look import loaded

    c = loaded(text)
    files = dict(draw_cylinder(c, How(formats)).files)
    if len(files) == 1:
        return next(iter(files.items()))
    return f"{c.name}-{formats[0]}.zip", zipped(files)


def _package(text: str) -> tuple[str, bytes]:
    from drafting.jobs.request import package as packed
    from drafting.jobs.request import requests
    from drafting.web.look import loaded

    made = [(d.cylinder.name, files) for d, files in requests([loaded(text)])]
    whole = packed(made)
    return whole.name, whole.data


def _opened(name: str, data: bytes) -> str:
    """Give the spec in a file that was dropped; raises Refused in plain words.

    It is read in a child with limits, out of a folder of its own; its name gives the ending alone.
    """
    ending = next((k for k in KINDS if name.lower().endswith(k)), "")
    if not ending:
        known = ", ".join(KINDS)
        raise Refused([Fault(name[:80], 1, 1, "no-such-output", "", f"no ending of {known}")])
    if ending == ".toml":
        from drafting.spec.read import read_document

        return read_document(data, name[:80]).text
    from drafting.jobs.recover import spec_from

    with TemporaryDirectory(prefix="drafting-") as folder:
        path = Path(folder) / f"dropped{ending}"
        path.write_bytes(data)
        try:
            return spec_from(path).text
        except Refused as refused:
            told = [f"{f.code}: {f.message}" for f in refused.faults]
            raise Refused([Fault(name[:80], 1, 1, "not-readable", "", "; ".join(told))]) from None


def _row(f: Fault) -> dict[str, Any]:
    return {"field": f.field, "line": f.line, "code": f.code, "message": f.message}


def _wrong(message: str) -> Response:
    return JSONResponse({"faults": [_row(Fault("", 1, 1, "wrong", "", message))]}, 422)


@cache
def _file(path: Path) -> bytes:
    return path.read_bytes()

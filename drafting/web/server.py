"""The page's own addresses; each is a job of the command line. GET changes nothing.

This process answers and waits; what takes time is done by two others (``worker.py``): one for what
follows typing, one for what is made: files, solids, packages.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import (
    HTMLResponse,
    JSONResponse,
    PlainTextResponse,
    Response,
    StreamingResponse,
)
from starlette.routing import Route
from starlette.types import ASGIApp

from drafting.errors import DraftingError, Refused
from drafting.web.desk import Desk
from drafting.web.first import first, script_source
from drafting.web.guard import Guard
from drafting.web.parts import Part
from drafting.web.work import row, told
from drafting.web.worker import Worker

HERE = Path(__file__).parent
_VIEWING = HERE.parent / "viewing"
_SCRIPT, _FONT = "text/javascript; charset=utf-8", "font/woff"
_FONTS = HERE.parent / "drawing" / "sheet" / "data"
STATIC = {
    "/three-viewer.js": (_VIEWING / "three-viewer.js", _SCRIPT),
    **{f"/{p.name}": (p, _FONT) for p in sorted(_FONTS.glob("*.woff"))},
}
"""Every file that a browser may ask for, by its address: no path of a client goes further."""
FORMATS = ("pdf", "svg", "dxf", "step", "glb", "png", "csv", "html", "json")
LINE = "application/x-ndjson"


class Page:
    """The jobs behind the addresses."""

    def __init__(self, desk: Desk, quick: Worker, slow: Worker) -> None:
        self.desk, self.quick, self.slow = desk, quick, slow

    async def shown(self, request: Request) -> Response:
        """Give a file of the page."""
        path, kind = STATIC[request.url.path]
        return Response(path.read_bytes(), media_type=kind)

    async def first(self, request: Request) -> Response:
        """Give the page, and in it what the form asks and the person's file as it is now.

        Not in a thread, as all else: what threads need takes longer to load than this to do.
        """
        try:
            return HTMLResponse(first(self.desk.state()))
        except (DraftingError, OSError) as failed:
            return PlainTextResponse(str(failed), 500)

    async def state(self, request: Request) -> Response:
        """Give the person's file as it is now."""
        return await _told(self.desk.state)

    async def read(self, request: Request) -> Response:
        """Give a typed size in both units."""
        from drafting.web.reading import reading

        asked = request.query_params
        words = (asked.get("value", ""), asked.get("kind", ""), asked.get("units", ""))
        return JSONResponse({"words": reading(*words)})

    async def guide(self, request: Request) -> Response:
        """Give what is measured, and pictures."""
        asked = request.query_params
        return await _one(self.quick.ask("guide", asked.get("body", ""), asked.get("rod", "")))

    async def threads(self, request: Request) -> Response:
        """Give the ports that a hole may be."""
        asked = request.query_params
        words = (asked.get(w, "") for w in ("hole", "pitch", "units"))
        return await _one(self.quick.ask("threads", *words))

    async def begin(self, request: Request) -> Response:
        """Give the text of a new cylinder."""
        asked = await _asked(request)
        words = (str(asked.get(w, "")) for w in ("title", "units", "body", "rod"))
        return await _one(self.quick.ask("begin", *words, bool(asked.get("sample"))))

    async def look(self, request: Request) -> Response:
        """Give sizes, views and verdicts of a text, a line for each part as it is ready."""
        asked = await _asked(request)
        words = (asked["text"], asked["set"], str(asked.get("after", "")))
        return _lines(self.quick.ask("look", *words, **asked["newest"]))

    async def sheets(self, request: Request) -> Response:
        """Give the sheets as they print."""
        asked = await _asked(request)
        return _lines(self.quick.ask("sheets", asked["text"], **asked["newest"]))

    async def solid(self, request: Request) -> Response:
        """Give the 3D model."""
        asked = await _asked(request)
        return await _one(self.slow.ask("drawn", asked["text"], "glb", **asked["newest"]))

    async def warm(self, request: Request) -> Response:
        """Load the kernel in the background."""
        return await _one(self.slow.ask("warm"))

    async def download(self, request: Request) -> Response:
        """Give the file of one format."""
        asked = await _asked(request)
        wanted = asked.get("format", "")
        if wanted not in FORMATS:
            return JSONResponse(told(f'no format "{wanted}"'), 422)
        return await _one(self.slow.ask("drawn", asked["text"], wanted))

    async def package(self, request: Request) -> Response:
        """Give what is sent to builders."""
        asked = await _asked(request)
        return await _one(self.slow.ask("package", asked["text"]))

    async def open(self, request: Request) -> Response:
        """Give the spec in a file that was dropped."""
        name = request.query_params.get("name", "")
        return await _one(self.quick.ask("open", name, await request.body()))

    async def save(self, request: Request) -> Response:
        """Write the person's file."""
        asked = await _asked(request)
        return await _told(lambda: self.desk.save(asked["text"], str(asked.get("seen", ""))))


def page(
    desk: Desk,
    token: str,
    hosts: frozenset[str],
    quick: Worker | None = None,
    slow: Worker | None = None,
) -> ASGIApp:
    """Give the page's application behind its guard."""
    p = Page(desk, quick or Worker(), slow or Worker(behind=True))
    asked = {"/": p.first, "/state": p.state, "/read": p.read, "/guide": p.guide,
             "/threads": p.threads}  # fmt: skip
    done = {
        "/look": p.look, "/sheets": p.sheets, "/solid": p.solid, "/warm": p.warm,
        "/begin": p.begin, "/download": p.download, "/package": p.package, "/open": p.open,
        "/save": p.save,
    }  # fmt: skip
    routes = [
        *(Route(at, p.shown) for at in STATIC),
        *(Route(at, job) for at, job in asked.items()),
        *(Route(at, job, methods=["POST"]) for at, job in done.items()),
    ]
    return Guard(Starlette(routes=routes), token, hosts, script_source())


async def _asked(request: Request) -> dict[str, Any]:
    try:
        found = json.loads(await request.body(), object_hook=_whole)
    except (ValueError, RecursionError):
        found = None
    if not isinstance(found, dict):
        found = {}
    put = found.get("set")
    values = {
        str(k): None if v is None else str(v) for k, v in put.items()
    } if isinstance(put, dict) else {}  # fmt: skip
    text, turn = found.get("text"), found.get("turn")
    return {
        **found,
        "text": text if isinstance(text, str) else "",
        "newest": {
            "tab": str(found.get("tab", ""))[:50],
            "turn": turn if isinstance(turn, int) else 0,
        },
        "set": values,
    }


def _whole(found: dict[str, Any]) -> dict[str, Any]:
    """Give an object without half letters: JSON can say half of a pair of UTF-16, no file can."""
    return {_letters(k): _letters(v) if isinstance(v, str) else v for k, v in found.items()}


def _letters(text: str) -> str:
    return text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")


async def _told(job: Callable[[], dict[str, Any]]) -> Response:
    """Run a short job of this process; what it refuses is told, and so is what broke."""
    try:
        return JSONResponse(await run_in_threadpool(job))
    except Refused as refused:
        return JSONResponse({"faults": [row(f) for f in refused.faults]}, 422)
    except (DraftingError, OSError) as failed:
        return JSONResponse(told(str(failed)), 500)


def _lines(parts: Iterator[Part]) -> Response:
    return StreamingResponse((json.dumps(p) + "\n" for p in parts), media_type=LINE)


async def _one(parts: Iterator[Part]) -> Response:
    """Answer with the one part there is: a file, rows, or what does not go."""
    found = await run_in_threadpool(lambda: next(iter([*parts]), None))
    if found is None:
        return Response(status_code=204)  # a newer order took the place of this one
    if "data" in found:
        from urllib.parse import quote

        headers = {"Content-Disposition": f"attachment; filename*=UTF-8''{quote(found['name'])}"}
        return Response(found["data"], media_type="application/octet-stream", headers=headers)
    return JSONResponse(found, found.get("status", 200))

"""Who may talk to the page: this machine's own browser, with the token that was printed.

Another site in the same browser, a name that was pointed at this machine, and other programs are
turned away; so is what is too large.
"""

from __future__ import annotations

import secrets

from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

COOKIE = "drafting-{port}"
"""A browser keeps one jar for all ports of a machine, and two pages may be open at once."""
LARGEST = 8_000_000
"""Bytes of a request."""
POLICY = (
    "default-src 'none'; script-src 'self' {script}; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'"
)
"""``script`` stands for the hash of the page's own one."""
HEADERS = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}


class Guard:
    """Lets through what comes from the page itself; everything else is answered here."""

    def __init__(self, app: ASGIApp, token: str, hosts: frozenset[str], script: str) -> None:
        self.app, self.token, self.hosts = app, token, hosts
        headers = {"Content-Security-Policy": POLICY.format(script=script), **HEADERS}
        self.headers = [(k.lower().encode(), v.encode()) for k, v in headers.items()]

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        answer = self._turned_away(request)
        if answer is None and request.method == "POST":
            body = await _read(receive)
            if body is None:
                answer = PlainTextResponse(f"more than {LARGEST} bytes", 413)
            else:
                receive = _again(body, receive)

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", []), *self.headers]
            await send(message)

        await (answer or self.app)(scope, receive, with_headers)

    def _turned_away(self, request: Request) -> Response | None:
        host = request.headers.get("host", "")
        if host not in self.hosts:
            return PlainTextResponse("this page answers to its own address only", 403)
        origin = request.headers.get("origin")
        if origin is not None and origin not in {f"http://{h}" for h in self.hosts}:
            return PlainTextResponse("not from another site", 403)
        if request.headers.get("sec-fetch-site", "none") not in ("none", "same-origin"):
            return PlainTextResponse("not from another site", 403)
        cookie = COOKIE.format(port=host.rpartition(":")[2])
        if _same(request.query_params.get("token", ""), self.token) and request.method == "GET":
            home = RedirectResponse("/", 303)
            home.set_cookie(cookie, self.token, httponly=True, samesite="strict", path="/")
            return home
        if not _same(request.cookies.get(cookie, ""), self.token):
            return PlainTextResponse("open the address that was printed, with its token", 403)
        if request.method == "POST" and origin is None:
            return PlainTextResponse("a change comes from the page itself", 403)
        return None


def _same(a: str, b: str) -> bool:
    return secrets.compare_digest(a.encode("utf-8", "replace"), b.encode())


async def _read(receive: Receive) -> bytes | None:
    """Read a body; None as soon as it is too large."""
    parts: list[bytes] = []
    size = 0
    while True:
        message = await receive()
        part = message.get("body", b"")
        size += len(part)
        if size > LARGEST:
            return None
        parts.append(part)
        if not message.get("more_body"):
            return b"".join(parts)


def _again(body: bytes, rest: Receive) -> Receive:
    """Give the body once more; then what the browser says after it, that it is gone."""
    sent = False

    async def receive() -> Message:
        nonlocal sent
        if sent:
            return await rest()
        sent = True
        return {"type": "http.request", "body": body, "more_body": False}

    return receive

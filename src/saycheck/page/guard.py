"""Who may ask what: every request passes here before any route, and every answer on its way out.

Refused with 4xx, before anything is read: another host name (a name that was made to point here), a request
that another site's page sent, one without the cookie, one that is too large. Answers forbid everything that
does not come from this server.
"""

from collections.abc import Collection

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import cookie_parser
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from saycheck.page.door import Door

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "geolocation=(), microphone=(), camera=()",
    "cache-control": "no-store",
}
LARGEST = 64 * 1024
"""Bytes of the largest ordinary request."""
OPEN_PATHS = ("/open/", "/enter", "/static/")
"""What can be asked for without the cookie."""


class Guard:
    """Wraps the application; ``hosts`` are the host names with port under which it may be asked for.

    ``larger`` gives the most bytes for the paths that take more than an ordinary request.
    """

    def __init__(self, app: ASGIApp, door: Door, hosts: Collection[str], larger: dict[str, int]) -> None:
        self.app, self.door, self.larger = app, door, larger
        self.hosts = frozenset(host.lower() for host in hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through or answer it here."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        send = _with_headers(send)
        refused = self._refused(scope)
        if refused:
            await refused(scope, receive, send)
            return
        limit = self.larger.get(scope["path"], LARGEST)
        await _Limited(self.app, limit)(scope, receive, send)

    def _refused(self, scope: Scope) -> PlainTextResponse | None:
        headers = Headers(scope=scope)
        hosts = headers.getlist("host")
        if len(hosts) != 1 or hosts[0].lower() not in self.hosts:
            return PlainTextResponse("this server has another name", 421)
        host = hosts[0].lower()
        writing = scope["method"] not in ("GET", "HEAD")
        origin = headers.get("origin")
        if origin is not None and origin.lower() != f"http://{host}":
            return PlainTextResponse("asked for from another site", 403)
        if writing and origin is None:
            return PlainTextResponse("it is not told where this was asked for", 403)
        path = scope["path"]
        site = headers.get("sec-fetch-site")
        if site not in (None, "same-origin", "none") and not path.startswith("/open/"):
            return PlainTextResponse("asked for from another site", 403)
        length = headers.get("content-length", "0")
        if not length.isdecimal() or len(length) > 12:
            return PlainTextResponse("the length is no number", 400)
        if int(length) > self.larger.get(path, LARGEST):
            return PlainTextResponse("that is too large", 413)
        cookies = cookie_parser(headers.get("cookie", ""))
        if not path.startswith(OPEN_PATHS) and not self.door.knows(cookies):
            if path == "/" and not writing and self.door.code is not None:
                return _elsewhere("/enter")
            return PlainTextResponse(
                "open the link that stands in the terminal; it works once, and there is a new one after it",
                403,
            )
        return None


def _elsewhere(path: str) -> PlainTextResponse:
    return PlainTextResponse("", 303, {"location": path})


class _Limited:
    """Stops reading a body that turns out larger than it may be, whatever it said of its length."""

    def __init__(self, app: ASGIApp, limit: int) -> None:
        self.app, self.limit = app, limit

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        taken, begun = 0, False

        async def counted() -> Message:
            nonlocal taken
            message = await receive()
            taken += len(message.get("body", b""))
            if taken > self.limit:
                raise _TooLargeError
            return message

        async def watched(message: Message) -> None:
            nonlocal begun
            begun = True
            await send(message)

        try:
            await self.app(scope, counted, watched)
        except _TooLargeError:
            if not begun:
                await PlainTextResponse("that is too large", 413)(scope, receive, send)


class _TooLargeError(Exception):
    """More came than may."""


def _with_headers(send: Send) -> Send:
    async def out(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
        await send(message)

    return out

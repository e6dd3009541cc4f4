"""What every request has to get past before anything is looked at, and what every reply says to the browser."""

from __future__ import annotations

import time
from collections.abc import Iterable
from dataclasses import field
from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING

from ...records import dataclass
from .keys import Keys, Visitor

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
    "form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)
HEADERS: tuple[tuple[bytes, bytes], ...] = (
    (b"content-security-policy", POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"same-origin"),  # without one a form would not say where it comes from
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"permissions-policy", b"geolocation=(), microphone=()"),
)
MOST_AT_ONCE = 50
OPEN_TO_ALL = ("/k/", "/static/")  # the door itself, and what holds nothing of anybody's
LOOKING = ("/try", "/more")  # posts that change nothing
_WHY = {
    400: "This is not how the page asks.",
    403: "This page is opened with the address that whatcarries prints, which holds a key. A key is good once and for "
    "five minutes; press Enter where whatcarries runs for a new one.",
    405: "Only looking (GET) and writing (POST) are known here.",
    421: "This page answers only at the address that whatcarries printed.",
    503: "Too many ask at once. Nothing was changed: try again in a moment.",
}


@dataclass
class Gate:
    """The application behind it sees a request only with the right host, from the page itself, by a known visitor."""

    app: ASGIApp
    hosts: frozenset[str]  # as in the header: 127.0.0.1:8123
    keys: Keys
    cookie: str  # its name; cookies do not tell ports apart
    last_seen: float = field(default_factory=time.monotonic)
    at_once: int = 0

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        self.last_seen = time.monotonic()
        status = self._refused(scope)
        if status:
            await _say(send, status)
            return
        if self.at_once >= MOST_AT_ONCE:
            await _say(send, 503)
            return
        self.at_once += 1
        try:
            await self.app(scope, receive, _with_headers(send))
        finally:
            self.at_once -= 1

    def _refused(self, scope: Scope) -> int:
        """The status with which it is sent away; 0 where it may come in."""
        hosts = _values(scope, b"host")
        if len(hosts) != 1 or hosts[0] not in self.hosts:
            return 421
        if scope["method"] not in ("GET", "HEAD", "POST"):
            return 405
        posts = scope["method"] == "POST"
        if posts and _values(scope, b"origin") != [f"http://{hosts[0]}"]:
            return 403
        path: str = scope["path"]
        visitor = self._visitor(scope)
        scope.setdefault("state", {})["visitor"] = visitor
        if visitor is None and not path.startswith(OPEN_TO_ALL):
            return 403
        if posts and visitor is not None and visitor.read_only and not path.endswith(LOOKING):
            return 403
        return 0

    def _visitor(self, scope: Scope) -> Visitor | None:
        for header in _values(scope, b"cookie"):
            try:
                found = SimpleCookie(header).get(self.cookie)
            except CookieError:
                continue
            if found is not None:
                return self.keys.visitor(found.value)
        return None


def _values(scope: Scope, name: bytes) -> list[str]:
    headers: Iterable[tuple[bytes, bytes]] = scope["headers"]
    return [value.decode("latin-1") for key, value in headers if key == name]


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            given = {key for key, _ in message["headers"]}
            more = [*HEADERS] if b"cache-control" in given else [*HEADERS, (b"cache-control", b"no-store")]
            message = {**message, "headers": [*message["headers"], *more]}
        await send(message)

    return sending


async def _say(send: Send, status: int) -> None:
    text = f"whatcarries: {_WHY[status]}\n".encode()
    headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"content-length", str(len(text)).encode())]
    if status == 503:
        headers.append((b"retry-after", b"1"))
    sending = _with_headers(send)
    await sending({"type": "http.response.start", "status": status, "headers": headers})
    await sending({"type": "http.response.body", "body": text})

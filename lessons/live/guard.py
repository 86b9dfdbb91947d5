"""Who may ask what: the door that every request comes through before a page is made.

Alone by default: only this machine's own names pass in the Host header, only this page's own
origin may send, and only who was given the key has a session. A class key opens the pages to
learn from and nothing of the job folder. Bodies are bounded in size and time, requests in rate.
"""

import asyncio
import secrets
import time
from collections import Counter, OrderedDict
from collections.abc import Iterable
from dataclasses import dataclass, field
from http.cookies import CookieError, SimpleCookie
from typing import Literal
from urllib.parse import parse_qs, urlencode, urlsplit

from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

Who = Literal["own", "class"]

COOKIE = "squaresaw"
LARGEST_BODY = 200_000
BODY_WITHIN_S = 10.0
LONGEST_ADDRESS = 4_000
CLASS_PAGES = ("/marks", "/drawing", "/settle", "/learn", "/bench", "/look", "/open")
PER_SECOND, AT_ONCE = 20.0, 120.0
"""Requests that one learner may send: so many a second, after so many at once."""
MOST_OPEN = 12
"""Answers that one learner may wait for at once; a browser asks for six."""
POLICY = (
    "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:;"
    " connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}


@dataclass
class Door:
    """The keys, the names by which this machine is called, and the learners' allowances."""

    port: int
    key: str = field(default_factory=lambda: secrets.token_urlsafe(24))
    class_key: str | None = None
    class_hosts: tuple[str, ...] = ()

    @property
    def class_address(self) -> str:
        """The first address by which a class comes in; empty where none may."""
        if not self.class_key:
            return ""
        return f"http://{self.class_hosts[0]}:{self.port}/?key={self.class_key}"

    def hosts(self, who: Iterable[str]) -> set[str]:
        """Host headers that are this machine's own."""
        return {f"{name}:{self.port}" for name in who}

    @property
    def own_hosts(self) -> set[str]:
        """The names by which only this machine calls itself."""
        return self.hosts(("127.0.0.1", "localhost", "[::1]"))

    def knows(self, key: str) -> Who | None:
        """Whose key this is; the time it takes tells nothing of it."""
        own = secrets.compare_digest(key.encode(), self.key.encode())
        taught = secrets.compare_digest(key.encode(), (self.class_key or self.key + "-").encode())
        return "own" if own else "class" if taught and self.class_key else None


class Guard:
    """Refuses what the door refuses before any page sees it: ASGI middleware."""

    def __init__(self, app: ASGIApp, door: Door, body_within_s: float = BODY_WITHIN_S) -> None:
        self.app, self.door, self.body_within_s = app, door, body_within_s
        self.allowance: OrderedDict[str, tuple[float, float]] = OrderedDict()
        self.open: Counter[str] = Counter()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request in, or answer it here."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        refused = self._refused(scope)
        if refused is not None:
            await refused(scope, receive, _with_headers(send))
            return
        if scope["method"] in ("GET", "HEAD"):
            await self._answered(scope, receive, _with_headers(send))
            return
        try:
            body = await asyncio.wait_for(_whole(receive), self.body_within_s)
        except TimeoutError:
            await _no(408, "That comes too slowly.")(scope, receive, _with_headers(send))
            return
        if body is None:
            await _no(413, "That is more than a page sends.")(scope, receive, _with_headers(send))
            return
        await self.app(scope, _replayed(body, receive), _with_headers(send))

    async def _answered(self, scope: Scope, receive: Receive, send: Send) -> None:
        """The page's answer; of a class, only so many at once for each learner."""
        if scope["state"]["who"] == "own":
            await self.app(scope, receive, send)
            return
        client = _client(scope)
        if self.open[client] >= MOST_OPEN:
            await _no(429, "That is too much at once; wait a little.")(scope, receive, send)
            return
        self.open[client] += 1
        try:
            await self.app(scope, receive, send)
        finally:
            self.open[client] -= 1
            if not self.open[client]:
                del self.open[client]

    def _refused(self, scope: Scope) -> Response | None:
        headers = {
            name.decode("latin-1"): text.decode("latin-1") for name, text in scope["headers"]
        }
        host = headers.get("host", "").casefold()
        own = host in self.door.own_hosts
        taught = host in self.door.hosts(self.door.class_hosts)
        if not (own or taught):
            return _no(421, "This address is not this machine's own.")
        origin = headers.get("origin")
        if origin is not None and origin != f"http://{host}":
            return _no(403, "Another page may not send here.")
        if headers.get("sec-fetch-site", "none") not in ("none", "same-origin"):
            return _no(403, "Another page may not ask here.")
        if len(scope["raw_path"]) + len(scope["query_string"]) > LONGEST_ADDRESS:
            return _no(414, "That address is too long.")
        try:
            length = int(headers.get("content-length", "0"))
        except ValueError:
            return _no(400, "That length cannot be read.")
        if length > LARGEST_BODY:
            return _no(413, "That is more than a page sends.")
        return self._no_session(scope, headers, own)

    def _no_session(self, scope: Scope, headers: dict[str, str], own: bool) -> Response | None:
        """Refuse who has no session, open one for who brings a key, or let the request pass."""
        query = parse_qs(scope["query_string"].decode("latin-1"), keep_blank_values=True)
        given = query.pop("key", [""])[0]
        if given:
            who = self.door.knows(given)
            if who is None or (who == "own" and not own):
                return _no(403, "That key opens nothing here.")
            rest = urlencode(query, doseq=True)
            path = urlsplit(scope["path"]).path if scope["path"].startswith("/") else "/"
            answer = RedirectResponse(path.replace("//", "/") + (f"?{rest}" if rest else ""), 303)
            answer.set_cookie(COOKIE, given, httponly=True, samesite="strict", path="/")
            return answer
        who = self.door.knows(_cookie(headers.get("cookie", "")))
        if who is None or (who == "own" and not own):
            return _no(403, "Open this page by the address that `squaresaw live` printed.")
        scope.setdefault("state", {})["who"] = who
        if who == "class":
            path = scope["path"]
            if scope["method"] not in ("GET", "HEAD"):
                return _no(405, "A class may look and ask; it saves nothing here.")
            if path != "/" and not path.startswith(CLASS_PAGES):
                return _no(403, "This page is the instructor's.")
            if not self._allowed(_client(scope)):
                return _no(429, "That is too fast; wait a little.")
        return None

    def _allowed(self, client: str) -> bool:
        """One request out of a learner's allowance, which fills up again with time."""
        now = time.monotonic()
        left, since = self.allowance.pop(client, (AT_ONCE, now))
        left = min(AT_ONCE, left + (now - since) * PER_SECOND) - 1.0
        self.allowance[client] = (max(left, -1.0), now)
        if len(self.allowance) > 2000:
            self.allowance.popitem(last=False)
        return left >= 0.0


async def _whole(receive: Receive) -> bytes | None:
    """A request's body; None where it is too large, or its sender went away."""
    parts, size = [], 0
    while True:
        message = await receive()
        if message["type"] != "http.request":
            return None
        parts.append(message.get("body", b""))
        size += len(parts[-1])
        if size > LARGEST_BODY:
            return None
        if not message.get("more_body", False):
            return b"".join(parts)


def _replayed(body: bytes, receive: Receive) -> Receive:
    """The body once more, for the page; then whatever else comes."""
    told = False

    async def again() -> Message:
        nonlocal told
        if told:
            return await receive()
        told = True
        return {"type": "http.request", "body": body, "more_body": False}

    return again


def _client(scope: Scope) -> str:
    return str((scope.get("client") or ("",))[0])


def _no(code: int, words: str) -> Response:
    return PlainTextResponse(words + "\n", code)


def _cookie(header: str) -> str:
    try:
        found = SimpleCookie(header).get(COOKIE)
    except CookieError:
        return ""
    return found.value if found else ""


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            names = {name.lower() for name, _ in message["headers"]}
            own = {"Content-Security-Policy": POLICY, **HEADERS}
            message["headers"] = [
                *message["headers"],
                *(
                    (name.encode(), text.encode())
                    for name, text in own.items()
                    if name.lower().encode() not in names
                ),
            ]
        await send(message)

    return sending

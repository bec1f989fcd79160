"""Who may speak to the desk: this machine's own browser, on our own page, in pieces of a bounded size."""

from __future__ import annotations

import hmac
import json
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any
from urllib.parse import urlsplit

from .words import say

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

LOOPBACK = ("127.0.0.1", "localhost", "::1")
ASKING = ("GET", "HEAD", "OPTIONS")  # change nothing, so they need no token
BRIEF = 256 * 1024  # bytes of a brief
BODY = 4 * BRIEF  # bytes of a request: a brief and what goes with it, escaped as JSON writes it
TOKEN = "x-desk-token"

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}


class Guard:
    """Stands before the page. What it refuses never reaches a route.

    A page of somebody else that is open in the same browser can send requests here. It cannot read the token, which
    is made anew at each start, and it cannot name another host for this machine without its name standing in Host.
    """

    def __init__(self, app: App, token: str) -> None:
        self.app, self.token = app, token

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = {name.lower(): value.decode("latin-1") for name, value in scope["headers"]}
        refused = self._refused(scope["method"], headers)
        if refused is None and int(headers.get(b"content-length", "0")) > BODY:
            refused = 413, say("guard.large", limit=BODY // 1024)
        if refused is not None:
            await _told(send, *refused)
            return
        body = await _whole(receive) if scope["method"] not in ASKING else b""
        if body is None:
            await _told(send, 413, say("guard.large", limit=BODY // 1024))
            return
        await self.app(scope, _again(body, receive), _guarded(send))

    def _refused(self, method: str, headers: dict[bytes, str]) -> tuple[int, str] | None:
        """Status and words where the request is not ours."""
        host = headers.get(b"host", "")
        if _name(f"//{host}") not in LOOPBACK:
            return 403, say("guard.host")
        if b"origin" in headers and headers[b"origin"] != f"http://{host}":
            return 403, say("guard.origin")
        if method not in ASKING and not hmac.compare_digest(
            headers.get(TOKEN.encode(), "").encode(), self.token.encode()
        ):
            return 403, say("guard.token")
        if not headers.get(b"content-length", "0").isdecimal():
            return 400, say("guard.type")
        return None


def _name(address: str) -> str:
    """The host's name in an address; "" where it has none."""
    try:
        return urlsplit(address).hostname or ""
    except ValueError:
        return ""


async def _whole(receive: Receive) -> bytes | None:
    """The body, or None where it is larger than any of ours, whatever its head says."""
    parts, size, more = [], 0, True
    while more:
        message = await receive()
        if message["type"] != "http.request":  # the browser went away
            break
        parts.append(message.get("body", b""))
        size += len(parts[-1])
        if size > BODY:
            return None
        more = message.get("more_body", False)
    return b"".join(parts)


def _again(body: bytes, receive: Receive) -> Receive:
    """The body that was read already, then whatever comes after it."""
    given = False

    async def once() -> Message:
        nonlocal given
        if given:
            return await receive()
        given = True
        return {"type": "http.request", "body": body, "more_body": False}

    return once


def _guarded(send: Send) -> Send:
    """Answers with our headers; a route's own policy for a file that it hands out stays."""

    async def with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            own = {name.lower() for name, _ in message["headers"]}
            message["headers"] = [
                *message["headers"],
                *((name.encode(), value.encode()) for name, value in HEADERS.items() if name.encode() not in own),
            ]
            if b"cache-control" not in own:
                message["headers"].append((b"cache-control", b"no-cache" if b"etag" in own else b"no-store"))
        await send(message)

    return with_headers


async def _told(send: Send, status: int, words: str) -> None:
    body = json.dumps({"words": words, "mistakes": []}, ensure_ascii=False).encode()
    length = str(len(body)).encode()
    head = [(b"content-type", b"application/json"), (b"content-length", length), (b"connection", b"close")]
    await _guarded(send)({"type": "http.response.start", "status": status, "headers": head})
    await send({"type": "http.response.body", "body": body})

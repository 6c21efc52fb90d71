"""Who is let in: only the browser that opened the start address, and only from the page itself.

A page of another site can send requests to this machine, and can give its own name this machine's address.
So the cookie alone is not enough: the name asked for (Host) and the page that asks (Origin, Sec-Fetch-Site)
are looked at too. Sources: RFC 6454 (the web origin), RFC 6265bis (SameSite), W3C Fetch Metadata.
"""

from __future__ import annotations

import secrets
from urllib.parse import parse_qs, urlencode

from msgspec import Struct
from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

START = "/start"
NO_ENTRY = "Open the address that notesgen printed when it started; this one leads nowhere."
READING = frozenset({"GET", "HEAD"})
OWN = frozenset({"same-origin", "none"})


class Key(Struct, frozen=True):
    """What opens the door: a random token, and the port that it is for."""

    port: int
    token: str

    @property
    def hosts(self) -> frozenset[str]:
        """The names by which a browser on this machine may ask for the page."""
        bare = ("127.0.0.1", "localhost")
        return frozenset(f"{name}:{self.port}" for name in bare) | frozenset(bare if self.port == 80 else ())

    @property
    def cookie(self) -> str:
        """The cookie's name. Browsers keep one jar for all ports of a host, so the port stands in it."""
        return f"notesgen-{self.port}"

    def address(self, path: str = "/") -> str:
        """The start address that leads to `path`."""
        return f"http://127.0.0.1:{self.port}{START}?{urlencode({'token': self.token, 'to': path})}"


def new_key(port: int) -> Key:
    """A key that nobody can guess."""
    return Key(port, secrets.token_urlsafe(24))


class Door:
    """An ASGI application that passes on what may come in, and answers 403 to the rest."""

    def __init__(self, app: ASGIApp, key: Key) -> None:
        self.app = app
        self.key = key

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request. Web sockets are not served."""
        if scope["type"] != "http":
            return
        answer = self._met(scope)
        await (answer or self.app)(scope, receive, send)

    def _met(self, scope: Scope) -> Response | None:
        """The answer given at the door; None lets the request in."""
        headers = Headers(scope=scope)
        if not self._is_from_here(headers, str(scope["method"])):
            return PlainTextResponse(NO_ENTRY, 403)
        if scope["path"] == START:
            return self._started(parse_qs(scope["query_string"].decode("ascii", "replace")))
        return None if self._has_token(headers) else PlainTextResponse(NO_ENTRY, 403)

    def _is_from_here(self, headers: Headers, method: str) -> bool:
        hosts, origins = headers.getlist("host"), headers.getlist("origin")
        if len(hosts) != 1 or hosts[0] not in self.key.hosts:
            return False
        if headers.get("sec-fetch-site", "none") not in OWN:
            return False
        return origins == [f"http://{hosts[0]}"] or (not origins and method in READING)

    def _has_token(self, headers: Headers) -> bool:
        """Programs of this machine share one jar, and some keep odd things in it: only the name counts."""
        cookies = (cookie.strip().partition("=") for cookie in headers.get("cookie", "").split(";"))
        return any(name == self.key.cookie and self._fits(value) for name, _, value in cookies)

    def _started(self, query: dict[str, list[str]]) -> Response:
        if not self._fits(query.get("token", [""])[0]):
            return PlainTextResponse(NO_ENTRY, 403)
        answer = RedirectResponse(_inside(query.get("to", ["/"])[0]), 303)
        answer.set_cookie(self.key.cookie, self.key.token, httponly=True, samesite="strict", path="/")
        return answer

    def _fits(self, token: str) -> bool:
        return secrets.compare_digest(token.encode(), self.key.token.encode())


def _inside(path: str) -> str:
    """A path of this server: two slashes or a backslash would lead a browser to another one."""
    return path if path.startswith("/") and not path.startswith("//") and "\\" not in path else "/"

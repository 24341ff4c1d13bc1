"""How a browser is let in: a link that works once, or, on the local network, a code from the terminal."""

import secrets
import time
from collections.abc import Callable, Mapping

COOKIE = "saycheck"
TRIES = 5
"""Wrong codes after which a new code is made and shown in the terminal."""
PAUSE_S = 1.0
"""Seconds between two tries of a code, whoever makes them."""


class Door:
    """Keeps the tokens of one run of the server; nothing is written anywhere.

    ``told`` is called with each new link token or code, to show it in the terminal. ``code`` is the code of
    six digits, None where the server listens on this machine only.
    """

    def __init__(self, port: int, with_code: bool, told: Callable[[str], None]) -> None:
        self.cookie = f"{COOKIE}-{port}"
        self._told = told
        self._token = secrets.token_urlsafe(24)
        self._inside: set[str] = set()
        self._wrong = 0
        self._last_try = float("-inf")
        self.code = self._new_code() if with_code else None

    @property
    def token(self) -> str:
        """The token that lets the next browser in."""
        return self._token

    def knows(self, cookies: Mapping[str, str]) -> bool:
        """Whether one of the cookies was given out here."""
        given = cookies.get(self.cookie, "")
        return any(secrets.compare_digest(given.encode(), one.encode()) for one in self._inside)

    def by_token(self, token: str) -> str | None:
        """A new cookie for the token of the link, which is spent with it; None for any other."""
        if not secrets.compare_digest(token.encode(), self._token.encode()):
            return None
        self._token = secrets.token_urlsafe(24)
        self._told(self._token)
        return self._let_in()

    def by_code(self, code: str) -> str | None:
        """A new cookie for the code; None where it is wrong, or tried again too soon."""
        now = time.monotonic()
        soon, self._last_try = now - self._last_try < PAUSE_S, now
        if self.code is None or soon:
            return None
        if secrets.compare_digest(code.strip().encode(), self.code.encode()):
            self._wrong = 0
            return self._let_in()
        self._wrong += 1
        if self._wrong >= TRIES:
            self._wrong = 0
            self.code = self._new_code()
            self._told(self.code)
        return None

    def _let_in(self) -> str:
        cookie = secrets.token_urlsafe(32)
        self._inside.add(cookie)
        return cookie

    @staticmethod
    def _new_code() -> str:
        return f"{secrets.randbelow(1_000_000):06}"

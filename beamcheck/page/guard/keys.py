"""Who may come in: a key in an address, good once and for five minutes, exchanged for a cookie."""

from __future__ import annotations

import hashlib
import secrets
import threading
import time
from collections.abc import Callable
from dataclasses import field

from ...records import dataclass

KEY_SECONDS = 5 * 60.0
SESSION_SECONDS = 8 * 3600.0
MOST_SESSIONS = 50


@dataclass(frozen=True)
class Visitor:
    """Who is there: on which machine, until when (seconds since 1970), and whether only to look."""

    phone: bool
    until: float
    read_only: bool = False


@dataclass
class Keys:
    """Keys that wait to be used, and who came in with one. Only digests are kept."""

    clock: Callable[[], float] = time.time
    _waiting: dict[str, Visitor] = field(default_factory=dict)
    _inside: dict[str, Visitor] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def new(self, *, phone: bool = False, read_only: bool = False) -> str:
        """A key of 128 bits for one machine."""
        key = secrets.token_urlsafe(16)
        with self._lock:
            self._waiting[_digest(key)] = Visitor(phone, self.clock() + KEY_SECONDS, read_only)
        return key

    def waits(self, key: str) -> bool:
        """Whether the key may still be used; looking does not use it up."""
        found = self._waiting.get(_digest(key))
        return found is not None and found.until > self.clock()

    def exchange(self, key: str) -> str | None:
        """The cookie for a key, which is used up by it; None where it is not good (any more)."""
        with self._lock:
            found = self._waiting.pop(_digest(key), None)
            now = self.clock()
            self._inside = {name: one for name, one in self._inside.items() if one.until > now}
            if found is None or found.until <= now or len(self._inside) >= MOST_SESSIONS:
                return None
            cookie = secrets.token_urlsafe(32)
            self._inside[_digest(cookie)] = Visitor(found.phone, now + SESSION_SECONDS, found.read_only)
            return cookie

    def visitor(self, cookie: str) -> Visitor | None:
        """Who has that cookie."""
        found = self._inside.get(_digest(cookie))
        return found if found is not None and found.until > self.clock() else None


def _digest(secret: str) -> str:
    return hashlib.sha256(secret.encode("utf-8", errors="replace")).hexdigest()

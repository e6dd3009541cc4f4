"""The server: its sockets on this machine, the address with its key, and when it stops."""

from __future__ import annotations

import asyncio
import socket
import sys
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import field
from pathlib import Path
from typing import Any

from ..errors import BeamcheckError
from ..records import dataclass
from .app import application
from .guard.keys import SESSION_SECONDS, Keys

LOOPBACK = "127.0.0.1"
AT_WORK = 8  # requests worked on beside each other; more only take each other's time
IDLE_SECONDS = 30 * 60.0
WARNING = """\
Whoever is in the same network can read along: the way to the phone is not encrypted. Use a network of your own.
It ends after 8 hours or with Ctrl-C. A second phone needs a second key: press Enter for one. To let a phone only
look, start with --phone-read-only.
"""
Say = Callable[[str], None]


@dataclass
class Serving:
    """A page that is served. `phone` is the address in the local network, '' without one."""

    folder: Path
    port: int = 0
    phone: str = ""
    read_only_phone: bool = False
    keys: Keys = field(default_factory=Keys)
    idle: float = IDLE_SECONDS
    sockets: list[socket.socket] = field(default_factory=list)
    started: float = field(default_factory=time.time)

    def bind(self) -> None:
        """Take the port, before anything is said.

        Raises BeamcheckError if it is in use, or this machine has no such address.
        """
        self.sockets = [_bound(LOOPBACK, self.port)]
        self.port = self.sockets[0].getsockname()[1]
        if self.phone:
            self.sockets.append(_bound(self.phone, self.port))

    def address(self) -> str:
        """The address to open on this machine, with a new key."""
        return f"http://{LOOPBACK}:{self.port}/k/{self.keys.new()}"

    def phone_address(self) -> str:
        """The same for one phone."""
        return f"http://{self.phone}:{self.port}/k/{self.keys.new(phone=True, read_only=self.read_only_phone)}"

    def run(self, on_start: Callable[[], None] = lambda: None) -> None:
        """Serve until Ctrl-C, until nobody has asked for half an hour, or with a phone for eight hours."""
        import uvicorn
        from anyio.to_thread import current_default_thread_limiter

        hosts = frozenset(f"{one}:{self.port}" for one in (LOOPBACK, self.phone) if one)
        gate = application(self.folder, hosts, self.keys, f"whatcarries_{self.port}")
        config = uvicorn.Config(
            gate,
            log_level="critical",
            access_log=False,
            lifespan="off",
            server_header=False,
            date_header=False,
            limit_concurrency=400,
            timeout_keep_alive=15,
            h11_max_incomplete_event_size=32_768,
            ws="none",
        )
        server = uvicorn.Server(config)

        async def watch() -> None:
            while not server.should_exit:
                await asyncio.sleep(min(self.idle, 5.0))
                quiet = time.monotonic() - gate.last_seen > self.idle
                if quiet or (self.phone and time.time() - self.started > SESSION_SECONDS):
                    server.should_exit = True

        async def both() -> None:
            current_default_thread_limiter().total_tokens = AT_WORK
            on_start()
            watching = asyncio.create_task(watch())
            await server.serve(sockets=self.sockets)
            watching.cancel()

        with suppress(KeyboardInterrupt):
            asyncio.run(both())


def _bound(host: str, port: int) -> socket.socket:
    made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((host, port))
        made.listen(128)
    except OSError as error:
        made.close()
        where = f"port {port}" if host == LOOPBACK else f"the address {host}, port {port},"
        raise BeamcheckError(
            f"{where} cannot be used ({error.strerror}): give another --port, or leave it out"
        ) from None
    return made


def local_address() -> str:
    """The address of this machine in the local network; no packet is sent to find it.

    Raises BeamcheckError if it is in no network.
    """
    with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        probe.connect(("192.0.2.1", 9))  # an address for documentation: a route is looked up, nothing goes out
        found: Any = probe.getsockname()[0]
        if found not in ("0.0.0.0", LOOPBACK):
            return str(found)
    raise BeamcheckError(
        "this machine is in no local network, so no phone can reach it: join one, or leave --phone out"
    )


def qr_code(text: str) -> str:
    """For a terminal, in blocks that every one has."""
    import io

    import segno

    out = io.StringIO()
    segno.make(text, error="m").terminal(out, compact=True)
    return out.getvalue()


def new_addresses(serving: Serving, say: Say) -> None:
    """At each Enter a new address is said: a key is good once."""
    if sys.stdin is None or not sys.stdin.isatty():
        return

    def wait() -> None:
        for _ in sys.stdin:
            invite(serving, say)

    threading.Thread(target=wait, daemon=True).start()


def invite(serving: Serving, say: Say) -> str:
    """Say the addresses; the one for this machine is handed back."""
    address = serving.address()
    say(f"The page of {serving.folder}:\n  {address}\n")
    if serving.phone:
        phone = serving.phone_address()
        only = ", to look only" if serving.read_only_phone else ""
        say(
            f"\nFor one phone in this network ({serving.phone}){only}, good once and for 5 minutes:\n\n"
            f"{qr_code(phone)}\n  {phone}\n\n{WARNING}"
        )
    return address

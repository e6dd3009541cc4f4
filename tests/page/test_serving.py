"""The command itself: its address, a port in use, fifty clients, a server that is killed, one that nobody asks."""

from __future__ import annotations

import http.client
import json
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

import pytest

from beamcheck.errors import BeamcheckError
from beamcheck.model.reading.reader import read_job
from beamcheck.page.serve import Serving, qr_code

from .pages import with_job


class Client:
    """Somebody who came in over a real socket."""

    def __init__(self, address: str) -> None:
        self.host, _, path = address.removeprefix("http://").partition("/")
        self.cookie = ""
        status, headers, _ = self.ask("POST", f"/{path}")
        assert status == 303
        self.cookie = headers["set-cookie"].partition(";")[0]

    def ask(self, method: str, path: str, body: Any = None) -> tuple[int, Any, str]:
        link = http.client.HTTPConnection(self.host, timeout=60)
        headers = {"Cookie": self.cookie, "Origin": f"http://{self.host}", "Content-Type": "application/json"}
        try:
            link.request(method, path, None if body is None else json.dumps(body), headers)
            reply = link.getresponse()
            return reply.status, reply.headers, reply.read().decode()
        finally:
            link.close()

    def set(self, live: str) -> tuple[int, Any, str]:
        digest = self.ask("GET", "/job/joists/text")[2].partition('data-digest="')[2].partition('"')[0]
        sets = [["beam.b.carries.1.live", live]]
        return self.ask("POST", "/job/joists/set", {"digest": digest, "sets": sets, "kind": "beam", "number": 1})


@contextmanager
def served(folder: Path, *more: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    command = [sys.executable, "-m", "beamcheck", "page", str(folder), "--no-browser", *more]
    server = subprocess.Popen(command, stdout=subprocess.PIPE, stdin=subprocess.DEVNULL, text=True)
    assert server.stdout is not None
    server.stdout.readline()
    address = server.stdout.readline().strip()
    try:
        yield server, address
    finally:
        server.kill()
        server.wait(10)
        server.stdout.close()


def test_fifty_clients_at_once_and_one_killed_server(tmp_path: Path) -> None:
    """All are answered, none loses what it wrote without being told, and the file is whole whenever it ends."""
    path = with_job(tmp_path)
    with served(tmp_path) as (server, address):
        assert address.startswith("http://127.0.0.1:")
        client = Client(address)
        found: list[int] = []

        def look(number: int) -> None:
            found.append(client.ask("GET", ("/", "/job/joists", "/job/joists/beam/1")[number % 3])[0])

        threads = [threading.Thread(target=look, args=(number,)) for number in range(50)]
        for one in threads:
            one.start()
        for one in threads:
            one.join()
        assert found == [200] * 50
        wrote: list[int] = []

        def write(number: int) -> None:
            with suppress(OSError, http.client.HTTPException):
                wrote.append(client.set(f"{30 + number} psf")[0])

        threads = [threading.Thread(target=write, args=(number,)) for number in range(12)]
        for one in threads:
            one.start()
        while not wrote and any(one.is_alive() for one in threads):
            time.sleep(0.01)
        server.kill()
        for one in threads:
            one.join()
        assert set(wrote) <= {200, 409}
    read_job(path)
    before = path.with_name("joists.toml.1")
    if before.exists():
        read_job(before)
    assert [one.name for one in tmp_path.iterdir() if one.suffix == ".toml"] == ["joists.toml"]


def test_a_port_in_use_is_told(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        command = [sys.executable, "-m", "beamcheck", "page", str(tmp_path), "--no-browser", "--port", str(port)]
        done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    assert done.returncode == 2
    assert f"port {port} cannot be used" in done.stderr and "--port" in done.stderr


def test_nobody_asks_so_it_stops(tmp_path: Path) -> None:
    serving = Serving(tmp_path, idle=0.2)
    serving.bind()
    serving.run()  # comes back by itself
    with pytest.raises(OSError, match="refused"), socket.create_connection(("127.0.0.1", serving.port), 1):
        pass


def test_only_this_machine_is_listened_to(tmp_path: Path) -> None:
    serving = Serving(tmp_path)
    serving.bind()
    assert [one.getsockname()[0] for one in serving.sockets] == ["127.0.0.1"]
    for one in serving.sockets:
        one.close()


def test_an_address_that_this_machine_has_not_is_told(tmp_path: Path) -> None:
    serving = Serving(tmp_path, phone="192.0.2.7")
    with pytest.raises(BeamcheckError, match=r"192\.0\.2\.7"):
        serving.bind()
    serving.sockets[0].close()


def test_a_phone_gets_its_own_key_as_a_code(tmp_path: Path) -> None:
    serving = Serving(tmp_path, 8123, "192.0.2.7", read_only_phone=True)
    address = serving.phone_address()
    cookie = serving.keys.exchange(address.rpartition("/")[2])
    assert cookie is not None
    visitor = serving.keys.visitor(cookie)
    assert visitor is not None and visitor.phone and visitor.read_only
    assert len(qr_code(address).splitlines()) > 10

"""The page: from a keystroke to its verdict in the server and in a browser, fifty clients, the start.

Run: pytest tests/benchmarks/test_page_speed.py -s
"""

from __future__ import annotations

import shutil
import statistics
import subprocess
import sys
import threading
import time
import tomllib
from pathlib import Path
from typing import Any

import pytest

from ..page.browser.conftest import ARGS, Opened
from ..page.pages import TRIALS, change, digest_of, visitor, with_job
from ..page.test_serving import Client, served


def milliseconds(found: list[float]) -> str:
    ordered = sorted(1000.0 * one for one in found)
    return f"median {statistics.median(ordered):.0f} ms, slowest {ordered[-1]:.0f} ms of {len(ordered)}"


@pytest.mark.parametrize("fails", [False, True])
def test_a_keystroke_in_the_server(benchmark: Any, tmp_path: Path, fails: bool) -> None:
    """A beam: text in, field set, job read, checked, the parts of the page made. Processor time is what counts."""
    with_job(tmp_path)
    client = visitor(tmp_path)
    digest = digest_of(client)
    loads = iter(range(10, 10_000))
    spent: list[float] = []

    def keystroke() -> Any:
        load = next(loads) / (1000.0 if not fails else 1.0)
        begins = time.process_time()
        said = change(client, [["beam.b.carries.1.dead", f"{load} psf"]], how="try", digest=digest).json()
        spent.append(time.process_time() - begins)
        assert said["see"]
        return said

    keystroke()
    spent.clear()
    benchmark.pedantic(keystroke, rounds=30)
    print(f"\nkeystroke to verdict in the server, a beam that {'fails' if fails else 'passes'}: {milliseconds(spent)}")


def test_a_keystroke_in_a_house(tmp_path: Path) -> None:
    """A house of many pieces: only the piece and what is below it is checked again."""
    house = TRIALS.parents[1] / "worked_examples" / "net_loft.toml"
    with_job(tmp_path, house, "house")
    client = visitor(tmp_path)
    digest, spent = digest_of(client, "house"), []
    name = tomllib.loads(house.read_text(encoding="utf-8"))["beam"][0]["name"]
    for count in range(8):
        sent = {"digest": digest, "kind": "beam", "number": 1, "sets": [[f"beam.{name}.called", f"beam {count}"]]}
        begins = time.process_time()
        client.post("/job/house/try", json=sent)
        spent.append(time.process_time() - begins)
    print(f"\nkeystroke in a house of 18 pieces, first {spent[0]:.2f} s, then {milliseconds(spent[1:])}")


def test_a_keystroke_in_a_browser(tmp_path: Path) -> None:
    """From the key to the verdict on the screen."""
    path = shutil.which("chromium")
    playwright = pytest.importorskip("playwright.sync_api")
    if path is None:
        pytest.skip("NO BROWSER: install chromium")
    with_job(tmp_path)
    with playwright.sync_playwright() as run:
        browser = run.chromium.launch(executable_path=path, args=ARGS)
        it = Opened(browser, tmp_path, 390)
        it.page.goto(it.address.partition("/k/")[0] + "/job/joists/beam/1")
        field = it.page.locator('.f[data-path="beam.b.carries.1.dead"] input').first
        it.page.evaluate("addEventListener('input', () => { window.lastKey = performance.now(); }, true)")
        found = []
        for load in range(11, 26):
            before = it.page.evaluate("performance.now()")
            field.fill(str(load))
            while it.page.evaluate("window.lastShown || 0") < before:
                time.sleep(0.1)  # who asks all the time takes the processor that answers
            found.append(it.page.evaluate("window.lastShown - window.lastKey") / 1000.0)
        it.close()
        browser.close()
    print(f"\nkeystroke to verdict in the browser, a beam: {milliseconds(found[1:])}")


def test_fifty_clients(tmp_path: Path) -> None:
    """Fifty ask for the verdict of the same beam at once."""
    with_job(tmp_path)
    with served(tmp_path) as (_, address):
        client = Client(address)
        found: list[float] = []

        def ask() -> None:
            begins = time.perf_counter()
            assert client.ask("GET", "/job/joists/beam/1")[0] == 200
            found.append(time.perf_counter() - begins)

        threads = [threading.Thread(target=ask) for _ in range(50)]
        begins = time.perf_counter()
        for one in threads:
            one.start()
        for one in threads:
            one.join()
        print(f"\nfifty clients at once: all in {time.perf_counter() - begins:.2f} s, each {milliseconds(found)}")


def test_the_start(tmp_path: Path) -> None:
    """From the command to the first page, with a job to be checked for it."""
    with_job(tmp_path)
    begins = time.perf_counter()
    with served(tmp_path) as (_, address):
        said = time.perf_counter() - begins
        client = Client(address)
        assert client.ask("GET", "/")[0] == 200
        print(f"\nstart: address after {said:.2f} s, first page after {time.perf_counter() - begins:.2f} s")
    command = [sys.executable, "-X", "importtime", "-c", "import beamcheck.cli"]
    told = subprocess.run(command, capture_output=True, text=True, check=True).stderr
    assert "starlette" not in told and "tomlkit" not in told  # other commands do not load what the page needs

"""A real browser on a real server. Where no browser can be had the tests are skipped, and say so loudly."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

ARGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"]
SHOTS = os.environ.get("PAGE_SHOTS", "")  # a folder: pictures of each step are left there to be looked at


@pytest.fixture(scope="module")  # a driven browser keeps a loop running, which other files of a worker must not find
def browser() -> Iterator[Any]:
    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    try:
        from playwright.sync_api import Error, sync_playwright
    except ImportError:
        path = None
    if path is None:
        said = "NO BROWSER: the page was NOT driven in a browser. Install chromium (apt) and playwright (pip)."
        print(f"\n{'!' * 100}\n{said}\n{'!' * 100}", file=sys.__stderr__)
        pytest.skip(said)
    with sync_playwright() as playwright:
        try:
            made = playwright.chromium.launch(executable_path=path, args=ARGS)
        except Error as error:
            print(f"\n{'!' * 100}\nNO BROWSER: it does not start: {error}\n{'!' * 100}", file=sys.__stderr__)
            pytest.skip("NO BROWSER: it does not start")
        yield made
        made.close()


class Opened:
    """A folder that is served, and a window on it."""

    def __init__(self, browser: Any, folder: Path, width: int) -> None:
        command = [sys.executable, "-m", "beamcheck", "page", str(folder), "--no-browser"]
        self.server = subprocess.Popen(command, stdout=subprocess.PIPE, stdin=subprocess.DEVNULL, text=True)
        assert self.server.stdout is not None
        self.server.stdout.readline()
        self.address = self.server.stdout.readline().strip()
        self.context = browser.new_context(viewport={"width": width, "height": 844}, accept_downloads=True)
        self.page = self.context.new_page()
        self.elsewhere: list[str] = []
        self.faults: list[str] = []
        self.page.on("request", lambda asked: self._asked(asked.url))
        self.page.on("pageerror", lambda error: self.faults.append(str(error)))
        self.page.on("console", lambda said: self.faults.append(said.text) if said.type == "error" else None)
        self._shots = 0
        for _ in range(100):
            try:
                self.page.goto(self.address)
                break
            except Exception:  # the server has said its address and is about to listen
                time.sleep(0.05)
        self.page.wait_for_url("**/")

    def _asked(self, url: str) -> None:
        origin = self.address.partition("/k/")[0]
        if not url.startswith((origin, "blob:", "data:")):
            self.elsewhere.append(url)

    def shot(self, name: str) -> None:
        """Nothing is wider than the window, no request went elsewhere, nothing went wrong; and a picture, if wanted."""
        assert self.page.evaluate("document.documentElement.scrollWidth") <= self.page.viewport_size["width"]
        assert not self.elsewhere
        assert not self.faults
        if SHOTS:
            self._shots += 1
            self.page.screenshot(path=f"{SHOTS}/{name}-{self._shots:02}.png", full_page=True)

    def accessible(self) -> None:
        """No serious fault by the rules of axe-core."""
        source = Path(__file__).parent.joinpath("axe", "axe.min.js").read_text(encoding="utf-8")
        self.page.evaluate(source)
        found = self.page.evaluate("axe.run(document, {resultTypes: ['violations']})")
        grave = [
            (one["id"], node["html"][:200], node["failureSummary"][:300])
            for one in found["violations"] if one["impact"] in ("serious", "critical") for node in one["nodes"][:3]
        ]  # fmt: skip
        assert grave == []

    def close(self) -> None:
        self.context.close()
        self.server.terminate()
        self.server.wait(10)
        if self.server.stdout is not None:
            self.server.stdout.close()


@pytest.fixture
def opened(browser: Any, tmp_path: Path) -> Iterator[Any]:
    made: list[Opened] = []

    def open_it(width: int = 390, folder: Path = tmp_path) -> Opened:
        made.append(Opened(browser, folder, width))
        return made[-1]

    yield open_it
    for one in made:
        one.close()

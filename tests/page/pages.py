"""A page of a folder without a socket, and a job to put into it."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

from starlette.testclient import TestClient

from beamcheck.page.app import application
from beamcheck.page.guard.keys import Keys

HOST = "127.0.0.1:8123"
ORIGIN = f"http://{HOST}"
TRIALS = Path(__file__).parents[1] / "trials"
OLD_TIMBERS = Path(__file__).parents[2] / "worked_examples" / "old_timbers.toml"
JOIST = TRIALS / "everyday" / "joists_at_a_table_span.toml"


def visitor(folder: Path, **given: Any) -> TestClient:
    """Somebody who came in with a key."""
    keys = Keys()
    client = TestClient(application(folder, frozenset([HOST]), keys), base_url=ORIGIN, follow_redirects=False)
    client.headers["origin"] = ORIGIN
    came = client.post(f"/k/{keys.new(**given)}")
    assert came.status_code == 303
    return client


def with_job(folder: Path, source: Path = JOIST, name: str = "joists") -> Path:
    """The folder with a copy of a trial job."""
    return Path(shutil.copy(source, folder / f"{name}.toml"))


def without_first_survey(folder: Path) -> Path:
    """The invented job of old timbers, the survey of the first taken out: it ends where the next timber begins."""
    lines = OLD_TIMBERS.read_text(encoding="utf-8").splitlines(keepends=True)
    first = next(i for i, line in enumerate(lines) if line.startswith("[stock.survey"))
    last = next(i for i, line in enumerate(lines) if i > first and line.startswith("[["))
    (folder / "old.toml").write_text("".join(lines[:first] + lines[last:]), encoding="utf-8")
    return folder


def digest_of(client: TestClient, name: str = "joists") -> str:
    """What a page of the job was based on."""
    page = client.get(f"/job/{name}/text").text
    return page.partition('data-digest="')[2].partition('"')[0]


def change(client: TestClient, sets: list[Any], *, how: str = "set", name: str = "joists", digest: str = "") -> Any:
    """What comes back for fields of the first beam."""
    body = {"page": "t", "digest": digest or digest_of(client, name), "sets": sets, "kind": "beam", "number": 1}
    return client.post(f"/job/{name}/{how}", json=body)

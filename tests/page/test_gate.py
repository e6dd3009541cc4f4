"""Nobody comes in without a key, from elsewhere, or under another name; every reply says what the page may do."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import quote

import pytest
from starlette.testclient import TestClient

from beamcheck.page.app import application
from beamcheck.page.guard.gate import POLICY
from beamcheck.page.guard.keys import Keys

from .pages import HOST, ORIGIN, digest_of, visitor, with_job

EVERY = ("/", "/job/joists", "/job/joists/beam/1", "/job/joists/text", "/job/joists.pdf", "/new-text", "/nowhere")


def test_without_a_key_nothing_is_shown(tmp_path: Path) -> None:
    with_job(tmp_path)
    client = TestClient(application(tmp_path, frozenset([HOST]), Keys()), base_url=ORIGIN)
    for path in EVERY:
        reply = client.get(path)
        assert reply.status_code == 403
        assert "joists" not in reply.text


def test_a_key_is_good_once_and_for_five_minutes(tmp_path: Path) -> None:
    now = 1000.0
    keys = Keys(clock=lambda: now)
    client = TestClient(application(tmp_path, frozenset([HOST]), keys), base_url=ORIGIN, follow_redirects=False)
    head = {"origin": ORIGIN}
    first, late = keys.new(), keys.new()
    assert len(first) >= 22  # 128 bits
    assert client.get(f"/k/{first}").status_code == 200  # looking uses nothing up
    came = client.post(f"/k/{first}", headers=head)
    assert came.status_code == 303
    said = came.headers["set-cookie"].lower()
    assert "httponly" in said and "samesite=strict" in said
    assert client.post(f"/k/{first}", headers=head).status_code == 403
    assert client.get("/").status_code == 200
    now += 301.0
    assert client.post(f"/k/{late}", headers=head).status_code == 403
    now += 8 * 3600.0
    assert client.get("/").status_code == 403


@pytest.mark.parametrize(
    "host", ["evil.example", "127.0.0.1", "127.0.0.1:9", "localhost:8123", "127.0.0.1:8123.evil.example"]
)
def test_another_host_is_not_answered(tmp_path: Path, host: str) -> None:
    client = visitor(tmp_path)
    assert client.get("/", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "https://127.0.0.1:8123", "http://127.0.0.1:9", ""])
def test_a_post_from_elsewhere_changes_nothing(tmp_path: Path, origin: str) -> None:
    path = with_job(tmp_path)
    before = path.read_bytes()
    client = visitor(tmp_path)
    body = {"digest": digest_of(client), "text": "", "name": ""}
    assert client.post("/job/joists/text", json=body, headers={"origin": origin}).status_code == 403
    assert path.read_bytes() == before


def test_every_reply_says_what_the_page_may_do(tmp_path: Path) -> None:
    with_job(tmp_path)
    client = visitor(tmp_path)
    for path in (*EVERY, "/static/page.js", "/k/wrong"):
        reply = client.get(path)
        assert reply.headers["content-security-policy"] == POLICY
        assert reply.headers["x-content-type-options"] == "nosniff"
        assert "access-control-allow-origin" not in reply.headers
        assert "set-cookie" not in reply.headers


def test_other_methods_are_not_known(tmp_path: Path) -> None:
    client = visitor(tmp_path)
    for method in ("PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"):
        assert client.request(method, "/").status_code == 405


def test_who_may_only_look_writes_nothing(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    before = path.read_bytes()
    client = visitor(tmp_path, phone=True, read_only=True)
    assert "this phone only, to look only, until" in client.get("/").text
    for way in ("set", "text", "add", "remove"):
        assert client.post(f"/job/joists/{way}", json={}).status_code == 403
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "name", ["..", "../joists", "%2e%2e%2fsecret", "/etc/passwd", ".hidden", "link", "joists.seen", "a\x00b"]
)
def test_only_names_of_the_listing_lead_to_a_file(tmp_path: Path, name: str) -> None:
    inside = tmp_path / "in"
    inside.mkdir()
    with_job(inside)
    with_job(tmp_path, name="secret")
    with_job(inside, name=".hidden")
    with_job(inside, name="joists.seen")
    (inside / "link.toml").symlink_to(tmp_path / "secret.toml")
    client = visitor(inside)
    for way in (quote(name), quote(name, safe="")):
        reply = client.get(f"/job/{way}")
        assert reply.status_code == 404 or reply.url.path == "/"  # some clients go up by themselves
        assert "invented" not in reply.text or reply.url.path == "/"
    assert "secret" not in client.get("/").text


def test_what_a_user_wrote_is_text_everywhere(tmp_path: Path) -> None:
    hostile = "<script>alert(1)</script>&\"'"
    path = with_job(tmp_path)
    path.write_text(path.read_text().replace("Joists at the span of the code table", hostile.replace('"', '\\"')))
    path.write_text(path.read_text().replace('what = "floor"', "what = '<img src=x onerror=alert(2)>'"))
    client = visitor(tmp_path)
    for place in ("/", "/job/joists", "/job/joists/beam/1", "/job/joists/job/1", "/job/joists/text"):
        page = client.get(place)
        assert page.status_code == 200
        assert "<script>alert" not in page.text
        assert "<img" not in page.text


def test_more_than_is_taken_is_refused(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    before = path.read_bytes()
    client = visitor(tmp_path)
    digest = digest_of(client)
    assert client.post("/job/joists/set", content=b" " * 20_001).status_code == 413
    assert (
        client.post("/job/joists/text", json={"digest": digest, "text": "#" * 1_000_001, "name": ""}).status_code == 413
    )
    assert path.read_bytes() == before

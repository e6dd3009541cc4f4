"""Whatever is asked of every route: never a fault of the server, and no file outside the folder is touched."""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from .pages import TRIALS, digest_of, visitor, with_job

SIZE = 'xmlns="http://www.w3.org/2000/svg" width="9in" height="9in" viewBox="0 0 9 9"'
OUTLINE = f'<svg {SIZE}><path d="M0 0H8V2L2 8H0Z"/></svg>'
MAY_BE_WRITTEN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 _-]*(\.seen)?\.toml(\.1)?|photos|letters|shape\.svg|received\.html")
WORDS = (
    "beam",
    "b",
    "stock",
    "s",
    "1",
    "2",
    "supports",
    "carries",
    "live",
    "job",
    "title",
    "existing",
    "wall",
    "..",
    "",
)
PATHS = (
    "/",
    "/new-text",
    "/nowhere",
    "/k/{text}",
    "/static/{text}",
    "/new/{text}",
    "/new/room-beam",
    "/outline/{text}",
    "/outline/shape.svg",
    "/job/{text}",
    "/job/joists",
    "/job/joists/text",
    "/job/joists/questions",
    "/job/joists/questions?who={text}&of={text}",
    "/job/joists/shop",
    "/job/joists/shop/{number}",
    "/job/joists/engineer/{number}",
    "/job/joists/{word}/{number}",
    "/job/joists/add/{word}",
    "/job/joists/kept/{word}/{text}",
    "/job/joists/{text}.json",
    "/job/joists/template/{number}.{text}",
)
POSTS = (
    "/job/joists/try",
    "/job/joists/set",
    "/job/joists/more",
    "/job/joists/add",
    "/job/joists/remove",
    "/job/joists/answer",
    "/job/joists/effects",
    "/job/joists/tick",
    "/job/joists/decide",
    "/job/joists/compare",
    "/job/joists/text",
    "/new-text",
    "/new/room-beam",
    "/outline/shape.svg",
    "/job/joists/photo?about={text}",
    "/job/{text}/set",
    "/k/{text}",
)
few = settings(
    max_examples=120,
    deadline=None,
    phases=(Phase.explicit, Phase.generate),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
text = st.one_of(
    st.text(max_size=12), st.sampled_from(["joists", "../joists", "..\\x", "/etc/passwd", "%2e%2e/a", ".x", "\x00"])
)
dotted = st.lists(st.sampled_from(WORDS), min_size=1, max_size=6).map(".".join)
value = st.recursive(
    st.one_of(
        st.none(),
        st.booleans(),
        st.integers(-3, 400),
        text,
        st.sampled_from(["13 6", "40", "40 psf", "yes", "1e400 ft"]),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.one_of(st.sampled_from(WORDS), text), inner, max_size=4)
    ),
    max_leaves=8,
)
body = st.fixed_dictionaries(
    {},
    optional={
        "sets": st.one_of(value, st.lists(st.tuples(st.one_of(dotted, text), value).map(list), max_size=3)),
        "kind": st.one_of(value, st.sampled_from(["beam", "stock", "job", "existing"])),
        "number": st.one_of(value, st.integers(0, 3)),
        "value": value,
        "text": value,
        "name": value,
        "page": value,
        "question": value,
        "answer": value,
        "by": value,
        "date": value,
        "piece": value,
        "point": value,
        "on": value,
        "sheet": value,
        "decision": value,
        "note": value,
        "answers": value,
    },
)


@pytest.fixture(scope="module")
def place() -> Iterator[tuple[Path, Any]]:
    with tempfile.TemporaryDirectory() as outer:
        folder = Path(outer) / "in"
        folder.mkdir()
        (Path(outer) / "secret.toml").write_text("secret")
        (folder / "link.toml").symlink_to(Path(outer) / "secret.toml")
        (folder / "shape.svg").write_text(OUTLINE)
        (folder / "received.html").write_text("<html>no sheet</html>")
        with_job(folder)
        yield folder, visitor(folder)


def untouched(folder: Path) -> None:
    """Nothing above the folder has changed, and in it are only such files as the page writes."""
    assert sorted(one.name for one in folder.parent.iterdir()) == ["in", "secret.toml"]
    assert (folder.parent / "secret.toml").read_text() == "secret"
    for one in folder.iterdir():
        assert MAY_BE_WRITTEN.fullmatch(one.name) or one.name == "link.toml", one


def filled(path: str, draw: Any) -> str:
    def part(found: re.Match[str]) -> str:
        strategy = {"text": text, "number": st.integers(0, 10**30), "word": st.sampled_from([*WORDS, "anchor"])}[
            found[1]
        ]
        return quote(str(draw(strategy)), safe=draw(st.sampled_from(["", "/."])))

    return re.sub(r"\{(\w+)\}", part, path)


@few
@given(data=st.data())
def test_whatever_is_looked_at(place: tuple[Path, Any], data: Any) -> None:
    folder, client = place
    reply = client.get(filled(data.draw(st.sampled_from(PATHS)), data.draw))
    assert reply.status_code < 500
    assert "secret" not in reply.text
    untouched(folder)


@few
@given(data=st.data())
def test_whatever_is_sent(place: tuple[Path, Any], data: Any) -> None:
    folder, client = place
    path = filled(data.draw(st.sampled_from(POSTS)), data.draw)
    sent: Any = data.draw(body)
    if data.draw(st.booleans()):
        sent["digest"] = digest_of(client)
    raw = data.draw(st.sampled_from([json.dumps(sent).encode(), data.draw(st.binary(max_size=60)), b'{"a":' * 3000]))
    reply = client.post(path, content=json.dumps(sent).encode() if data.draw(st.integers(0, 3)) else raw)
    assert reply.status_code < 500
    untouched(folder)
    job = folder / "joists.toml"
    job.write_bytes((TRIALS / "everyday" / "joists_at_a_table_span.toml").read_bytes())


@few
@given(sets=st.lists(st.tuples(dotted, value).map(list), min_size=1, max_size=3))
def test_whatever_is_typed_the_file_stays_one_that_can_be_read(place: tuple[Path, Any], sets: list[Any]) -> None:
    from beamcheck.model.reading.reader import read_job

    folder, client = place
    sent = {"page": "t", "digest": digest_of(client), "sets": sets, "kind": "beam", "number": 1}
    reply = client.post("/job/joists/set", json=sent)
    assert reply.status_code < 500
    read_job(folder / "joists.toml")
    (folder / "joists.toml").write_bytes((TRIALS / "everyday" / "joists_at_a_table_span.toml").read_bytes())

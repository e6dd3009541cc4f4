"""An answer goes into the job with who, how and when; ticks and decisions go beside it and change no digest."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from beamcheck.api import check_file, write_pdf

from .pages import JOIST, digest_of, visitor, with_job


def opened(folder: Path) -> tuple[Path, Any]:
    """A job with one open question: nobody answers for the wall."""
    path = with_job(folder)
    path.write_text(JOIST.read_text().replace('confirmed_by = "letter of the engineer of record, 3 May 2025"\n', ""))
    return path, visitor(folder)


def asked(path: Path) -> str:
    (one,) = [one.id for one in check_file(path).questions]
    return one


def reply(client: Any, question: str, **more: Any) -> Any:
    body = {
        "digest": digest_of(client),
        "question": question,
        "answer": "letter of A. Poe, licensed engineer, of 2 March 2026",
        "by": "A. Poe, engineer",
        "how": "letter",
        "date": "2026-03-02",
        "evidence": "letters/wall.pdf",
        **more,
    }
    return client.post("/job/joists/answer", json=body)


def test_an_answer_closes_its_question(tmp_path: Path) -> None:
    path, client = opened(tmp_path)
    before = path.read_text()
    question = asked(path)
    page = client.get("/job/joists/questions").text
    assert "1 question" in page and "Write it into the job" in page
    shown = client.post("/job/joists/effects", json={"digest": digest_of(client), "who": "", "of": ""}).json()["cards"]
    assert question in shown
    assert reply(client, question).json()["written"]
    assert path.read_text().startswith(before[:200])
    (answer,) = tomllib.loads(path.read_text())["answer"]
    assert (answer["by"], answer["date"], answer["evidence"]) == ("A. Poe, engineer", "2026-03-02", "letters/wall.pdf")
    assert check_file(path).verdict == "passes"


def test_no_answer_is_written_by_nobody_or_for_nothing(tmp_path: Path) -> None:
    path, client = opened(tmp_path)
    before = path.read_bytes()
    question = asked(path)
    for wrong in (
        {"by": ""},
        {"answer": " "},
        {"by": "?"},
        {"date": "yesterday"},
        {"how": "guess"},
        {"answer": "probably"},
    ):
        assert reply(client, question, **wrong).json()["problems"], wrong
    assert reply(client, "b/nothing").status_code == 409
    assert path.read_bytes() == before


def test_ticks_stand_beside_the_job_and_do_not_change_it(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    client = visitor(tmp_path)
    before = path.read_bytes()
    point = "Ends held against turning over."
    body = {"digest": "", "piece": "b", "point": point, "by": "J. Doe", "on": True, "photo": ""}
    assert client.post("/job/joists/tick", json=body).json()["go"]
    page = client.get("/job/joists/shop/1").text
    assert "J. Doe" in page and "Do not cover it" in page
    assert path.read_bytes() == before
    for wrong, status in (({"by": ""}, 422), ({"point": "no such"}, 409), ({"photo": "photos/none.jpg"}, 409)):
        assert client.post("/job/joists/tick", json={**body, **wrong}).status_code == status
    path.write_text(path.read_text().replace('"40 psf"', '"30 psf"'))
    assert "the job was changed since" in client.get("/job/joists/shop/1").text
    assert client.post("/job/joists/tick", json={**body, "on": False}).json()["go"]
    assert tomllib.loads((tmp_path / "joists.seen.toml").read_text()) == {}


def test_what_cannot_be_read_as_seen_is_not_written_over(tmp_path: Path) -> None:
    with_job(tmp_path)
    seen = tmp_path / "joists.seen.toml"
    for text in ("no toml [", "tick = 3\n", '[[tick]]\nwhat = "?"\n', "[[decision]]\npiece = 1\n"):
        seen.write_text(text)
        client = visitor(tmp_path)
        assert "mend it" in client.get("/job/joists/shop").text or "no text" in client.get("/job/joists/shop").text
        body = {"piece": "b", "point": "Ends held against turning over.", "by": "J. Doe", "on": True}
        assert client.post("/job/joists/tick", json=body).status_code == 409
        assert seen.read_text() == text


def test_a_decision_is_a_note_beside_the_job(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    before = path.read_bytes()
    client = visitor(tmp_path)
    body = {"piece": "b", "decision": "accepted as noted", "note": "<b>Seats</b>", "by": "A. Poe, license 0000"}
    assert client.post("/job/joists/decide", json=body).json()["go"]
    page = client.get("/job/joists/engineer/1").text
    assert "&lt;b&gt;Seats" in page and "a note, not a signature" in page
    for wrong in ({"decision": "signed"}, {"by": ""}, {"note": ""}):
        assert client.post("/job/joists/decide", json={**body, **wrong}).status_code == 422
    assert path.read_bytes() == before


def test_a_sheet_of_the_folder_is_held_against_the_job(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    write_pdf(check_file(path), tmp_path / "sheet.pdf")
    (tmp_path / "other.pdf").write_bytes(b"%PDF-1.4\n%%EOF")
    client = visitor(tmp_path)
    assert "sheet.pdf" in client.get("/job/joists/engineer").text
    assert "other.pdf" not in client.get("/job/joists/engineer").text
    found = client.post("/job/joists/compare", json={"sheet": "sheet.pdf"}).json()["found"]
    assert found.count("the same: job, results") == 2
    assert str(tmp_path) not in found
    assert client.post("/job/joists/compare", json={"sheet": "other.pdf"}).status_code == 422
    assert client.post("/job/joists/compare", json={"sheet": "../sheet.pdf"}).status_code == 404

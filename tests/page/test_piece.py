"""The form is the job file: what is typed is tried at once, written when it can be read, never over another's."""

from __future__ import annotations

import os
import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck.api import check_text
from beamcheck.model.fields.base import Piece
from beamcheck.model.job import Job
from beamcheck.page.form.fields import Field, Group, sections
from beamcheck.page.form.kinds import kind_of
from beamcheck.page.form.values import value_of

from .pages import TRIALS, change, digest_of, visitor, with_job


def test_a_try_gives_the_verdict_of_a_fresh_run_and_writes_nothing(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    before = path.read_text()
    client = visitor(tmp_path)
    for load in ("40 psf", "60 psf", "100 psf"):
        said = change(client, [["beam.b.carries.1.live", load]], how="try").json()
        fresh = check_text(before.replace("40 psf", load)).pieces[0]
        assert said["say"].startswith(f"b {fresh.verdict}".replace("refer", "waits for an answer"))
        assert not said["problems"] and not said["written"]
    assert path.read_text() == before


def test_a_set_changes_only_the_line_and_keeps_what_was(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    before = path.read_text()
    client = visitor(tmp_path)
    said = change(client, [["beam.b.carries.1.live", "50"], ["beam.b.top_held", "ends only"]]).json()
    assert said["written"]
    after = path.read_text()
    changed = [(a, b) for a, b in zip(before.splitlines(), after.splitlines(), strict=True) if a != b]
    assert len(changed) == 2
    assert 'live = "50 psf"' in after
    assert 'top_held = "ends only"' in after
    assert (tmp_path / "joists.toml.1").read_text() == before


@pytest.mark.parametrize(
    ("value", "words"), [("x", "not a length"), ("-3 ft", ""), ("1e999 ft", ""), ("15 psf", "length")]
)
def test_a_wrong_number_is_told_beside_its_field_and_not_written(tmp_path: Path, value: str, words: str) -> None:
    path = with_job(tmp_path)
    before = path.read_bytes()
    client = visitor(tmp_path)
    said = change(client, [["beam.b.carries.1.width", value]]).json()
    assert said["problems"][0]["where"] and words in said["problems"][0]["text"]
    assert path.read_bytes() == before


def test_an_odd_figure_is_written_with_why_it_is_meant(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    client = visitor(tmp_path)
    odd = [["beam.b.carries.1.width", "50 ft"]]
    said = change(client, odd).json()["problems"][0]["text"]
    assert "meant = { width" in said
    insists = [*odd, ["beam.b.carries.1.meant.width", "a hall of fifty feet (invented)"]]
    assert change(client, insists).json()["written"]
    assert tomllib.loads(path.read_text())["beam"][0]["carries"][0]["meant"] == {"width": insists[1][1]}


def test_a_file_that_cannot_be_written_is_told_and_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = with_job(tmp_path)
    before = path.read_bytes()
    client = visitor(tmp_path)

    def full(*_: Any, **__: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.replace", full)
    reply = change(client, [["beam.b.carries.1.live", "50 psf"]])
    assert reply.status_code == 409
    assert "No space left" in reply.json()["said"]
    assert path.read_bytes() == before
    assert [one.name for one in tmp_path.iterdir()] == ["joists.toml"]


def test_a_missing_number_is_told(tmp_path: Path) -> None:
    with_job(tmp_path)
    said = change(visitor(tmp_path), [["beam.b.carries.1.width", ""]]).json()
    assert "missing" in said["problems"][0]["text"]


def test_two_people_lose_nothing_and_the_second_is_told(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    one, two = visitor(tmp_path), visitor(tmp_path)
    digest = digest_of(one)
    assert change(one, [["beam.b.carries.1.live", "50 psf"]], digest=digest).json()["written"]
    reply = change(two, [["beam.b.carries.1.dead", "12 psf"]], digest=digest)
    assert reply.status_code == 409
    assert "changed elsewhere" in reply.json()["changed"] and "50 psf" in reply.json()["now"]
    assert "50 psf" in path.read_text() and "12 psf" not in path.read_text()


def test_a_file_changed_on_the_disk_is_not_written_over(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    client = visitor(tmp_path)
    digest = digest_of(client)
    path.write_text(path.read_text() + "# by hand\n")
    for how in ("try", "set"):
        assert change(client, [["beam.b.carries.1.live", "50 psf"]], how=how, digest=digest).status_code == 409
    assert path.read_text().endswith("# by hand\n")


@pytest.mark.skipif(os.geteuid() == 0, reason="who may do everything can write everywhere")
def test_a_folder_without_permission_is_told(tmp_path: Path) -> None:
    with_job(tmp_path)
    client = visitor(tmp_path)
    tmp_path.chmod(0o500)
    try:
        assert "cannot be written to" in client.get("/").text
        assert change(client, [["beam.b.carries.1.live", "50 psf"]]).status_code == 409
    finally:
        tmp_path.chmod(0o700)


def test_a_file_that_cannot_be_read_is_shown_with_its_line(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    path.write_text(path.read_text().replace('"40 psf"', "40 psf"))
    client = visitor(tmp_path)
    for place in ("/job/joists", "/job/joists/text"):
        page = client.get(place)
        assert page.status_code == 200
        assert "It cannot be read yet" in page.text and "line " in page.text


def classes(cls: type[Piece], seen: set[type[Piece]]) -> set[type[Piece]]:
    if cls not in seen:
        seen.add(cls)
        for info in cls.model_fields.values():
            for one in kind_of(info).classes:
                classes(one, seen)
    return seen


def paths(found: Any) -> set[str]:
    """All fields of a form, blank entries included."""
    made: set[str] = set()
    for one in found:
        if isinstance(one, Field):
            made.add(one.path)
        elif isinstance(one, Group):
            made |= {f"{one.add}.{inner}" if one.blank else inner for inner in paths(one.first)} | paths(one.more)
            made |= {one.add} if one.blank else set()
    return made


def test_every_field_of_the_schema_can_be_reached() -> None:
    """Of each class of the model a form is made whose fields are all those of the class."""
    for cls in classes(Job, set()) - {Job}:
        found = paths(sections(cls, {}, "x", ("x",), {}))
        for name, info in cls.model_fields.items():
            key = info.alias or name
            assert any(path == f"x.{key}" or path.startswith(f"x.{key}.") for path in found), (cls, key)


def test_every_value_of_the_trial_jobs_stands_in_a_form(tmp_path: Path) -> None:
    """What a job says is in the control of its field, and sent back unchanged it changes nothing."""
    for path in sorted((TRIALS / "everyday").glob("*.toml"))[:6]:
        data = tomllib.loads(path.read_text())
        for kind in ("beam", "stock", "existing"):
            for number, entry in enumerate(data.get(kind, ())):
                cls = kind_of(Job.model_fields[kind]).classes[0]
                groups = sections(cls, entry, f"{kind}.{entry['name']}", (kind, number), data)
                found = {one.path: one for one in _fields(groups)}
                for key, value in entry.items():
                    if not isinstance(value, (list, dict)):
                        one = found[f"{kind}.{entry['name']}.{key}"]
                        assert value_of(one.path, one.text) == value


def _fields(groups: Any) -> list[Field]:
    made: list[Field] = []
    for one in groups:
        if isinstance(one, Field):
            made.append(one)
        elif not one.blank:
            made += _fields((*one.first, *one.more))
    return made


@pytest.mark.parametrize(
    ("path", "sent", "before", "written"),
    [
        ("beam.b.carries.1.live", "40", "50 psf", "40 psf"),
        ("beam.b.carries.1.live", "200", "100 lb", "200 lb"),
        ("beam.b.clear", "13 6", "", "13 ft 6 in"),
        ("beam.b.clear", "13'-6 1/2\"", "", "13 ft 6 1/2 in"),
        ("beam.b.clear", "162", "", "162 in"),
        ("beam.b.supports.1.restrained", "yes", "", True),
        ("beam.b.plies", "2", "", 2),
        ("beam.b.clear", "", "12 ft", None),
        ("beam.a.b.c.supports.1.bearing", "3 1/2", "", "3 1/2 in"),
        ("stock.s.candidates", "Red Pine, Eastern Hemlock", "", ["Red Pine", "Eastern Hemlock"]),
    ],
)
def test_what_is_typed_is_written_as_a_job_file_has_it(path: str, sent: str, before: str, written: Any) -> None:
    assert value_of(path, sent, before) == written


def test_an_entry_is_added_and_taken_out(tmp_path: Path) -> None:
    path = with_job(tmp_path)
    client = visitor(tmp_path)
    new = {"digest": digest_of(client), "kind": "existing", "value": {"name": "post", "what": "stone post"}}
    assert client.post("/job/joists/add", json=new).json()["go"] == "/job/joists/existing/2"
    assert 'name = "post"' in path.read_text()
    old = {"digest": digest_of(client), "kind": "existing", "number": 2}
    assert client.post("/job/joists/remove", json=old).json()["written"]
    assert 'name = "post"' not in path.read_text()
    needed = {"digest": digest_of(client), "kind": "stock", "number": 1}
    assert client.post("/job/joists/remove", json=needed).json()["problems"]


def test_every_table_of_a_job_has_its_form(tmp_path: Path) -> None:
    """Also what is no piece: a part that moves, a roof and a floor of the place."""
    with_job(tmp_path, TRIALS.parents[1] / "worked_examples" / "moving_wood.toml", "moving")
    with_job(tmp_path, TRIALS.parents[1] / "worked_examples" / "net_loft.toml", "loft")
    client = visitor(tmp_path)
    for name in ("moving", "loft"):
        held = tomllib.loads((tmp_path / f"{name}.toml").read_text(encoding="utf-8"))
        for kind, entries in held.items():
            if isinstance(entries, list) and kind not in ("answer", "ruling"):
                assert client.get(f"/job/{name}/{kind}/1").status_code == 200, kind
    assert "gap, slot or reveal" in client.get("/job/moving/movement/1").text.casefold()

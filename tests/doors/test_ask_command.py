"""`ask`: open questions in order, answered at the terminal or by flags, written at once."""

from __future__ import annotations

import hashlib
import io
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from beamcheck.api import check_file
from beamcheck.cli import main
from beamcheck.model.reading.reader import read_job

from .jobs import PASSES

OPEN = PASSES.replace(
    '{ at = "0 ft", on = "wall", bearing = "4 in", restrained = true }', '{ at = "0 ft", on = "wall" }  # not yet'
)


def typed(path: Path, *lines: str, more: tuple[str, ...] = ()):
    text = "".join(f"{line}\n" for line in lines)
    return CliRunner().invoke(main, ["ask", str(path), "--ask", *more], input=text, prog_name="whatcarries")


@pytest.fixture
def job(written) -> Path:
    return written(OPEN.replace("  # not yet,", ",  # not yet"))


def ids(path: Path) -> list[str]:
    return [one.id for one in check_file(path).questions]


def test_an_answer_is_written_at_once_and_the_rest_asked_on(job) -> None:
    before = job.read_text()
    done = typed(job, "4", "the carpenter", "", "q", more=("--who", "tape"))
    assert "written   line" in done.stdout
    assert read_job(job).beam[0].supports[0].bearing == 4.0
    assert [answer.by for answer in read_job(job).answer] == ["the carpenter"]
    assert Path(f"{job}.1").read_text() == before
    assert done.exit_code == 3


def test_why_later_and_stop(job) -> None:
    before = job.read_text()
    done = typed(job, "w", "", "q")
    assert "Goes into beam.J1" in done.stdout and "Stopped: no answer was written." in done.stdout
    assert job.read_text() == before


def test_what_is_no_answer_is_asked_again(job) -> None:
    done = typed(job, "a hand", "4", "?", "", "4", "the carpenter", "none.jpg", "", "q", more=("--who", "tape"))
    assert "is not a length" in done.stdout and "nobody" in done.stdout and "none.jpg" in done.stdout
    assert read_job(job).beam[0].supports[0].bearing == 4.0


def test_evidence_is_copied_beside_the_job(job, tmp_path) -> None:
    photo = tmp_path / "seen.JPG"
    place = Image.Exif()
    place[0x010E] = "the invented quarry"
    Image.new("RGB", (8, 8)).save(photo, "JPEG", exif=place)
    typed(job, "4", "the carpenter", str(photo), "q", more=("--who", "tape"))
    (answer,) = read_job(job).answer
    name, _, digest = answer.evidence.partition(" (sha256 ")
    kept = (job.parent / name).read_bytes()
    assert hashlib.sha256(kept).hexdigest().startswith(digest.rstrip(")"))
    assert b"the invented quarry" in photo.read_bytes() and b"the invented quarry" not in kept
    assert Image.open(io.BytesIO(kept)).tobytes() == Image.open(photo).tobytes()
    fake = tmp_path / "fake.jpg"
    fake.write_text("no photo")
    said = CliRunner().invoke(
        main, ["ask", str(job), "--answer", f"{ids(job)[0]}=yes", "--by", "Ana", "--evidence", str(fake)]
    )
    assert said.exit_code == 2 and "this is none of them" in said.stderr


def test_answered_by_flags(job, run) -> None:
    name = next(one for one in ids(job) if "seat_length" in one)
    done = run("ask", job, "--answer", f"{name}=4 in", "--by", "the carpenter")
    assert "written   line" in done.stdout and name not in ids(job)
    assert run("ask", job, "--answer", "x=1", "--by", "Ana").exit_code == 2


def test_printed_for_pen_and_paper_without_a_terminal(job, run) -> None:
    for arguments in (("ask", job), ("ask", job, "--print")):
        said = run(*arguments).stdout
        assert "How long is the seat of J1" in " ".join(said.split()) and "answer ______" in said
        assert all(len(line) <= 80 for line in said.splitlines())
    assert "How long is the seat" not in run("ask", job, "--print", "--who", "engineer").stdout


def test_with_nothing_open_it_says_so(written) -> None:
    done = typed(written(PASSES))
    assert "No open question" in done.stdout and done.exit_code == 0


def test_a_file_changed_meanwhile_is_not_written_over(job, monkeypatch) -> None:
    from beamcheck.commands import ask as command

    real = command._saved

    def saved(file, made):  # somebody else saves just before
        job.write_text(OPEN + "\n# somebody else\n")
        return real(file, made)

    monkeypatch.setattr(command, "_saved", saved)
    done = typed(job, "4", "the carpenter", "", "q", more=("--who", "tape"))
    assert done.exit_code == 2 and "nothing was written" in done.stderr
    assert "# somebody else" in job.read_text()


def test_what_an_answer_before_it_settled_is_left(job, run) -> None:
    name = ids(job)[0]
    done = run("ask", job, "--answer", f"{name}=4 in", "--answer", f"{name}=3 in", "--by", "Ana")
    assert done.exit_code == 3 and f"{name}: an answer before it has settled it" in " ".join(done.stdout.split())
    assert [answer.by for answer in read_job(job).answer] == ["Ana"]

"""All files of a run are written or none; two runs at once do not mix; what a killed run left is swept away."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from beamcheck import check_file, write_json, write_sheet
from beamcheck.errors import BeamcheckError
from beamcheck.own_digest import BLANK, with_digest
from beamcheck.sheet.folder import alone
from beamcheck.sheet.write import WriteError, check_target, write_atomically, write_together

from ..doors.jobs import PASSES

NAMES = [f"{letter}.csv" for letter in "abcdef"]


def text(of: str) -> str:
    return with_digest(f"# generator: whatcarries 0\n# digest: {BLANK}\n{of}\n")


def test_all_or_none(tmp_path: Path) -> None:
    write_together([(tmp_path / name, text("old")) for name in NAMES])
    (tmp_path / NAMES[3]).write_text("prices")
    with pytest.raises(WriteError, match=r"d\.csv exists and was not made by whatcarries"):
        write_together([(tmp_path / name, text("new")) for name in NAMES])
    assert [(tmp_path / name).read_text().splitlines()[-1] for name in NAMES] == [
        "old", "old", "old", "prices", "old", "old",
    ]  # fmt: skip
    assert sorted(one.name for one in tmp_path.iterdir()) == NAMES


def test_a_step_that_fails_late_puts_back_what_was_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_together([(tmp_path / name, text("old")) for name in NAMES[:5]])
    real, count = os.replace, [0]

    def fails(one: object, other: object) -> None:
        count[0] += 1
        if count[0] == 6:
            raise PermissionError(1, "Operation not permitted")
        real(one, other)  # type: ignore[arg-type]

    monkeypatch.setattr(os, "replace", fails)
    with pytest.raises(WriteError, match=r"f\.csv could not be written: Operation not permitted"):
        write_together([(tmp_path / name, text("new")) for name in NAMES])
    assert sorted(one.name for one in tmp_path.iterdir()) == NAMES[:5]
    assert {(tmp_path / name).read_text() for name in NAMES[:5]} == {text("old")}


WRITER = """
import sys
from pathlib import Path
from beamcheck.sheet.write import write_together
from tests.sheet.test_files_of_one_run import NAMES, text
folder, who = Path(sys.argv[1]), sys.argv[2]
for turn in range(40):
    write_together([(folder / name, text(f"{who}{turn}")) for name in NAMES])
"""


def test_two_runs_at_once_do_not_mix(tmp_path: Path) -> None:
    """After each of the two is done all files are those of one run: its last."""
    done = [subprocess.Popen([sys.executable, "-c", WRITER, str(tmp_path), who]) for who in "xy"]
    assert [one.wait(60) for one in done] == [0, 0]
    assert len({(tmp_path / name).read_text() for name in NAMES}) == 1
    assert sorted(one.name for one in tmp_path.iterdir()) == NAMES


def test_a_run_that_holds_the_folder_for_ever_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("fcntl")
    monkeypatch.setattr("beamcheck.sheet.folder.PATIENCE", 0.05)
    with (
        alone(tmp_path),
        pytest.raises(WriteError, match=r"another run is writing in .* and does not come to an end"),
    ):
        write_together([(tmp_path / "a.csv", text("new"))])
    assert list(tmp_path.iterdir()) == []


def test_the_same_folder_by_two_names_is_held_once(tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "in")
    write_together([(tmp_path / "in" / "a.csv", "a"), (tmp_path / "link" / "b.csv", "b")])
    assert sorted(one.name for one in (tmp_path / "in").iterdir()) == ["a.csv", "b.csv"]


KILLED = """
import os, sys
from pathlib import Path
os.fsync = lambda _: print("there", flush=True) or sys.stdin.read()
from beamcheck.sheet.write import write_atomically
write_atomically(Path(sys.argv[1]), "new")
"""


def test_what_a_killed_run_left_is_swept_and_what_a_living_one_has_is_not(tmp_path: Path) -> None:
    pytest.importorskip("fcntl")
    target = tmp_path / "a.csv"
    runs = []
    for _ in range(2):
        run = subprocess.Popen(
            [sys.executable, "-c", KILLED, str(target)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )
        assert run.stdout is not None and run.stdout.readline() == "there\n"
        runs.append(run)
        if len(runs) == 1:
            (killed,) = tmp_path.iterdir()
    runs[0].send_signal(signal.SIGKILL)
    runs[0].communicate(timeout=20)
    living = next(one for one in tmp_path.iterdir() if one != killed)
    other = tmp_path / ".b.csv.00000000.part"
    other.write_text("of another file")
    for scrap in (killed, living, other):
        os.utime(scrap, (time.time() - 600, time.time() - 600))
    write_atomically(target, "new")
    assert sorted(tmp_path.iterdir()) == sorted([living, other, target])
    runs[1].communicate("", 20)
    assert sorted(tmp_path.iterdir()) == sorted([other, target])


@pytest.mark.parametrize("name", ["loop.csv", "one.csv", "loop.csv/in.csv"])
def test_a_link_that_leads_back_to_itself_is_told(name: str, tmp_path: Path) -> None:
    (tmp_path / "loop.csv").symlink_to(tmp_path / "loop.csv")
    (tmp_path / "one.csv").symlink_to(tmp_path / "two.csv")
    (tmp_path / "two.csv").symlink_to(tmp_path / "one.csv")
    for ask in (check_target, lambda path: write_atomically(path, "new", overwrite=True)):
        with pytest.raises(WriteError, match=r"link that leads back to itself; give another name|Too many levels"):
            ask(tmp_path / name)
    assert len(list(tmp_path.iterdir())) == 3


def test_a_link_to_nothing_yet_gets_its_file(tmp_path: Path) -> None:
    (tmp_path / "link.csv").symlink_to(tmp_path / "real.csv")
    write_atomically(tmp_path / "link.csv", "new")
    assert (tmp_path / "link.csv").is_symlink() and (tmp_path / "real.csv").read_text() == "new"


@pytest.mark.parametrize("way", ["name", "symlink", "hard link"])
def test_the_job_file_is_never_an_output_of_its_own_result(way: str, tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(PASSES)
    target = job if way == "name" else tmp_path / "out.html"
    if way == "symlink":
        target.symlink_to(job)
    elif way == "hard link":
        target.hardlink_to(job)
    result = check_file(job)
    for write in (write_sheet, write_json):
        with pytest.raises(BeamcheckError, match="is the job file that this result was made of"):
            write(result, target, overwrite=True)
    assert job.read_text() == PASSES

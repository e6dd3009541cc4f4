"""A job file on disk: whole at any moment, never over what somebody else wrote, and as it was beside it."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from beamcheck.errors import JobError
from beamcheck.jobfile.keep import ChangedSince, digest, open_job_file, save, save_new
from beamcheck.sheet.write import WriteError

OLD, NEW = "# the job\n[job]\n", "# the job\n[job]\ntitle = 'x'\n"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "porch.toml"
    made.write_text(OLD)
    return made


def test_it_is_saved_and_as_it_was_stays_beside_it(path: Path) -> None:
    file = open_job_file(path)
    assert (file.text, file.digest) == (OLD, digest(OLD.encode()))
    after = save(file, NEW)
    assert path.read_text() == NEW and Path(f"{path}.1").read_text() == OLD
    assert after == open_job_file(path)
    save(after, OLD)
    assert path.read_text() == OLD and Path(f"{path}.1").read_text() == NEW
    assert sorted(one.name for one in path.parent.iterdir()) == ["porch.toml", "porch.toml.1"]


def test_line_ends_and_marks_are_kept(path: Path) -> None:
    path.write_bytes(b"\xef\xbb\xbf# a\r\n[job]\r\n")
    file = open_job_file(path)
    save(file, file.text + "# b\r\n")
    assert path.read_bytes() == b"\xef\xbb\xbf# a\r\n[job]\r\n# b\r\n"


def test_a_newer_file_is_never_written_over(path: Path) -> None:
    file = open_job_file(path)
    path.write_text("# somebody else\n")
    with pytest.raises(ChangedSince) as caught:
        save(file, NEW)
    assert caught.value.now == "# somebody else\n" and "nothing was written" in str(caught.value)
    assert path.read_text() == "# somebody else\n" and not Path(f"{path}.1").exists()
    path.unlink()
    with pytest.raises(ChangedSince, match="taken away"):
        save(file, NEW)
    assert not path.exists()


def test_nothing_new_writes_nothing(path: Path) -> None:
    before = path.stat().st_mtime_ns
    save(open_job_file(path), OLD)
    assert path.stat().st_mtime_ns == before and not Path(f"{path}.1").exists()


def test_a_new_file_is_never_written_over_another(path: Path) -> None:
    with pytest.raises(WriteError, match="there already"):
        save_new(path, NEW)
    assert path.read_text() == OLD
    made = save_new(path.with_name("new.toml"), NEW)
    assert open_job_file(made.path) == made
    with pytest.raises(WriteError, match="could not be written"):
        save_new(path.parent / "no such folder" / "new.toml", NEW)


def test_a_link_stays_and_its_file_is_written(path: Path) -> None:
    link = path.with_name("link.toml")
    link.symlink_to(path)
    save(open_job_file(link), NEW)
    assert link.is_symlink() and path.read_text() == NEW and Path(f"{path}.1").read_text() == OLD


def test_a_link_where_the_old_file_would_go_is_refused(path: Path) -> None:
    other = path.with_name("other.txt")
    other.write_text("precious")
    Path(f"{path}.1").symlink_to(other)
    with pytest.raises(WriteError, match="is a link"):
        save(open_job_file(path), NEW)
    assert other.read_text() == "precious" and path.read_text() == OLD


def test_a_folder_that_may_not_be_written_to_says_so(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = open_job_file(path)
    real = open

    def refusing(name: object, mode: str = "r", *args: object, **more: object) -> object:
        if "x" in mode or "w" in mode:
            raise PermissionError(13, "Permission denied")
        return real(name, mode, *args, **more)  # type: ignore[call-overload]

    monkeypatch.setattr("builtins.open", refusing)
    with pytest.raises(WriteError, match="Permission denied; check that the folder"):
        save(file, NEW)
    monkeypatch.undo()
    assert path.read_text() == OLD


@pytest.mark.parametrize("content", [b"\0\0", b"\xff\xfea\0", b"\xe9"], ids=["binary", "UTF-16", "latin"])
def test_what_is_no_text_is_told_as_the_reader_tells_it(path: Path, content: bytes) -> None:
    path.write_bytes(content)
    with pytest.raises(JobError):
        open_job_file(path)
    with pytest.raises(JobError, match="no such file"):
        open_job_file(path.with_name("none.toml"))


KILLED = """
import os, signal, sys
from beamcheck.jobfile import keep
from beamcheck.sheet import write
left = int(sys.argv[2])
def counting(real):
    def call(*args, **more):
        global left
        left -= 1
        if left == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        return real(*args, **more)
    return call
for name in ("replace", "fsync", "chmod"):
    setattr(os, name, counting(getattr(os, name)))
keep.save(keep.open_job_file(sys.argv[1]), open(sys.argv[1]).read() + "# more\\n" * 1000)
"""


@pytest.mark.parametrize("moment", [1, 2, 3, 4, 5, 6])
def test_killed_at_any_moment_the_file_is_whole(path: Path, moment: int) -> None:
    """Killed before each step by which a file comes to disk: what stands there is all of the old, or all of the new."""
    done = subprocess.run([sys.executable, "-c", KILLED, str(path), str(moment)], check=False)
    whole = {OLD, OLD + "# more\n" * 1000}
    assert path.read_text() in whole
    before = Path(f"{path}.1")
    assert not before.exists() or before.read_text() == OLD
    assert done.returncode in (0, -signal.SIGKILL)
    save(open_job_file(path), NEW)  # and the lock went with it


def _write_often(path: str, name: str, times: int) -> None:
    for _ in range(times):
        while True:
            file = open_job_file(path)
            try:
                save(file, file.text + f"# {name}\n")
                break
            except ChangedSince:
                time.sleep(0.001)


def test_of_two_writers_nothing_is_lost(path: Path) -> None:
    context = multiprocessing.get_context("spawn")
    writers = [context.Process(target=_write_often, args=(str(path), name, 15)) for name in "ab"]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join(60)
    text = path.read_text()
    assert (text.count("# a\n"), text.count("# b\n")) == (15, 15)
    assert not [name for name in os.listdir(path.parent) if name.endswith(".part")]

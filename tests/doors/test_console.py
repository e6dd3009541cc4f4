"""Text on any console: encodings, pipes, the keyboard, faults. The standard for a broken pipe is POSIX write()."""

from __future__ import annotations

import errno
import io
import os
import re
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.console import say
from beamcheck.lettering import for_console, legible

from .jobs import HEAD, PASSES, STOCK, WALL, joist

STRANGE = HEAD.replace("Invented shed", "Scheune №7 \\u001b[2J\\u202e「梁」 −½″ ≤ é") + STOCK + WALL + joist()
ENCODINGS = ("ascii", "cp1252", "cp437", "utf-8", "latin-1")


@given(st.text(), st.sampled_from(ENCODINGS))
def test_any_text_fits_any_console(text, encoding) -> None:
    shown = for_console(text, encoding)
    shown.encode(encoding)
    assert shown == text or not _encodable(text, encoding)


def _encodable(text: str, encoding: str) -> bool:
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        return False
    return True


@pytest.mark.parametrize(
    ("text", "shown"),
    [("−12 lb", "-12 lb"), ("in²", "in2"), ("2 × 10", "2 x 10"), ("≤ 1", "<= 1"), ("é", "e"), ("梁", "?")],
)
def test_what_ascii_has_not_gets_its_likeness(text, shown) -> None:
    """A minus sign above all must not get lost."""
    assert for_console(text, "ascii") == shown


@pytest.mark.parametrize("encoding", [None, "no such encoding"])
def test_a_console_without_a_known_encoding_gets_ascii(encoding) -> None:
    assert for_console("−1 é", encoding) == "-1 e"


@given(st.text())
def test_what_is_legible_steers_nothing(text) -> None:
    shown = legible(text)
    assert len(re.sub(r"\[U\+[0-9A-F]{4,5}\]", "?", shown)) == len(text)  # nothing is lost
    assert not any(letter in shown for letter in "\x00\x07\x08\x1b\x7f\x9b\u202a\u202e\u2066\u2069")


@pytest.mark.parametrize("encoding", ENCODINGS)
def test_the_command_on_a_console_of_each_encoding(encoding, written) -> None:
    done = call("check", written(STRANGE), encoding=encoding)
    assert done.returncode == 0 and done.stderr == b""
    text = done.stdout.decode(encoding)
    assert text.startswith("PASSES") and "\x1b" not in text and "\u202e" not in text
    assert "A licensed engineer must review and sign" in " ".join(text.split())


def test_errors_too_keep_to_the_encoding_and_steer_nothing(tmp_path) -> None:
    path = tmp_path / "梁\x1b[2J.toml"
    path.write_text("[job]\n")
    done = call("check", path, encoding="ascii")
    assert done.returncode == 2 and b"\x1b" not in done.stderr and b"Traceback" not in done.stderr
    done.stderr.decode("ascii")


def test_a_reader_that_goes_away_is_no_fault(written, tmp_path) -> None:
    """As with `| head -1`: no traceback, the verdict's status, and the files are written all the same."""
    sheet = tmp_path / "out.json"
    running = subprocess.Popen(
        [sys.executable, "-m", "beamcheck", "check", str(written(PASSES)), "--json", str(sheet)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    )  # fmt: skip
    assert running.stdout is not None and running.stderr is not None
    running.stdout.close()
    said = running.stderr.read()
    running.stderr.close()
    assert running.wait() == 0
    assert said == b""
    assert sheet.exists()


def test_a_full_disk_is_told(monkeypatch) -> None:
    class Full(io.StringIO):
        encoding = "ascii"

        def flush(self) -> None:
            raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("sys.stdout", Full())
    with pytest.raises(OSError, match="No space left on device: 'standard output'"):
        say("anything")


def test_the_keyboard_stops_it_without_a_traceback(run, written, monkeypatch) -> None:
    def stop(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("beamcheck.api.check_job", stop)
    done = run("check", written(PASSES))
    assert done.exit_code == 130
    assert done.stderr.strip() == "whatcarries: stopped: nothing was decided, nothing written"


def test_a_fault_of_the_tool_is_said_to_be_that(run, written, monkeypatch) -> None:
    def fall(*_: object, **__: object) -> None:
        raise ZeroDivisionError("nothing to divide by")

    monkeypatch.setattr("beamcheck.api.check_job", fall)
    done = run("check", written(PASSES))
    assert done.exit_code == 1 and done.stdout == ""
    assert "this is a fault in whatcarries itself; no verdict was reached" in done.stderr
    assert "ZeroDivisionError: nothing to divide by" in done.stderr and "Traceback" not in done.stderr


HEAVY = "{'pint', 'sympy', 'scipy', 'typst', 'jinja2', 'markupsafe'}"
SPAN = [
    "span",
    "2x10",
    "--species",
    "Hem-Fir",
    "--grade",
    "No.2",
    "--dead",
    "9 psf",
    "--spacing",
    "1 ft",
    "--finish",
    "none",
]


@pytest.mark.parametrize("arguments", [["check"], ["check", "--json", "-"], [*SPAN, "--length", "9 ft"]])
def test_a_command_loads_nothing_heavy(arguments, written) -> None:
    """Only a sheet needs typst and jinja2, only pint quantities need pint."""
    if arguments[0] == "check":
        arguments = [*arguments, str(written(PASSES))]
    code = (
        f"import sys\nfrom beamcheck.cli import main\ntry:\n    main({arguments})\nexcept SystemExit:\n    pass\n"
        f"print(sorted({HEAVY} & set(sys.modules)), 'numpy' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[] True"


def test_importing_the_package_loads_nothing_at_all() -> None:
    code = "import sys, beamcheck; print([m for m in sys.modules if m.startswith(('beamcheck.', 'numpy', 'pydantic'))])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def call(*arguments: object, encoding: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "beamcheck", *map(str, arguments)],
        capture_output=True, env={**os.environ, "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"}, check=False,
    )  # fmt: skip

"""One broken file through the doors: what comes out is a result or our own error, in time."""

from __future__ import annotations

import json
import signal
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random
from typing import NamedTuple

from beamcheck import api, check_text
from beamcheck.checks.core.result import JobResult
from beamcheck.errors import BeamcheckError
from beamcheck.model.outlines.files import read_outline
from beamcheck.sheet.kept import why_kept
from beamcheck.sheet.lists.csv_out import checks_csv, hardware_csv
from beamcheck.sheet.record.as_json import result_json
from beamcheck.sheet.record.enclosed import read_back
from beamcheck.sheet.terminal.short import short_text

BYTES = (b" ", b"\0", b"<", b'"', b"9" * 30, b"0", b"\xff", b"/", b"\n")
SECONDS = 5.0  # processor time, for one file
_GIVEN_UP = 30.0


class Trouble(NamedTuple):
    """What must not happen."""

    what: str
    case: str


class TooLong(BaseException):
    """More time than anybody waits; no error that somebody would catch."""


@contextmanager
def bounded() -> Iterator[None]:
    """Whatever takes far too long is stopped, where the system can do that."""

    def stop(*_: object) -> None:
        raise TooLong

    if not hasattr(signal, "setitimer"):
        yield
        return
    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, _GIVEN_UP)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0.0)
        signal.signal(signal.SIGPROF, before)


def trouble_with(run: Callable[[], object], case: str) -> tuple[Trouble | None, float, str]:
    """Run it: what went wrong (None: nothing), processor time, and how it ended."""
    began, found, ended = time.process_time(), None, "answered"
    try:
        with bounded():
            run()
    except BeamcheckError:
        ended = "refused"
    except TooLong:
        found = Trouble(f"stopped after {_GIVEN_UP:g} s", case)
    except Exception as error:
        place = error.__traceback__
        while place is not None and place.tb_next is not None:
            place = place.tb_next
        where = f"{place.tb_frame.f_code.co_filename}:{place.tb_lineno}" if place else ""
        found = Trouble(f"{type(error).__name__}: {error} ({where})", case)
    took = time.process_time() - began
    if found is None and took > SECONDS:
        found = Trouble(f"took {took:.1f} s", case)
    return found, took, ended


def check_and_tell(text: str, chance: Random) -> JobResult:
    """A job checked, and told in the cheap ways; a few in the dear ones."""
    result = check_text(text)
    if chance.random() < 0.2:
        short_text(result, width=chance.choice((20, 80, 200)), source="job.toml")
        json.loads(result_json(result))
    if chance.random() < 0.05:
        checks_csv(result)
        hardware_csv(result)
    if chance.random() < 0.003:
        api.sheet_html(result, all_steps=chance.random() < 0.2)
    return result


def bytes_broken(raw: bytes, chance: Random) -> bytes:
    """A file of any kind with bytes changed, cut, doubled or put in."""
    for _ in range(chance.choice((1, 1, 2, 5, 20))):
        place, length = chance.randrange(len(raw) + 1), chance.choice((1, 1, 4, 60, 2000))
        match chance.randrange(4):
            case 0:
                raw = raw[:place] + chance.randbytes(min(length, 8)) + raw[place + min(length, 8) :]
            case 1:
                raw = raw[:place] + raw[place + length :]
            case 2:
                raw = raw[:place] + raw[place : place + length] * 2 + raw[place + length :]
            case _:
                raw = (
                    raw[:place]
                    + chance.choice((b" ", b"\0", b"<", b'"', b"9" * 30, b"0", b"\xff", b"/", b"\n"))
                    + raw[place:]
                )
    return raw


def read_file(raw: bytes, ending: str, folder: Path) -> object:
    """A broken file put before whoever reads such files."""
    path = folder / f"case{ending}"
    path.write_bytes(raw)
    if ending in (".svg", ".dxf"):
        return read_outline(path, "in" if ending == ".dxf" else None)
    why_kept(path)
    return read_back(path)

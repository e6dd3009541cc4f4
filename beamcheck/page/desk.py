"""A job on the desk: read, checked while somebody types, and what takes longer worked out behind.

Each job has one lock: one check at a time. What is asked next on the same page takes the place of what is being worked
out for it (`Superseded`), and work that nobody waits for makes room for whoever types. Results of pieces are kept, so
that only what was touched is worked out again.
"""

from __future__ import annotations

import threading
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import field
from typing import TypeVar

from ..checks.core.result import JobResult
from ..checks.core.wood.govern import figures_only
from ..checks.job import check_job
from ..checks.pieces import Memory
from ..errors import BeamcheckError, JobError, Problem
from ..jobfile.keep import JobFile, open_job_file
from ..model.job import Job
from ..model.reading.reader import read_job_text
from ..records import dataclass
from ..units import shown_in
from .folder.listing import Folder

K = TypeVar("K")
KEPT = 24  # checked texts of one job
MOST_DESKS = 20


class Superseded(Exception):
    """Somebody asked for something newer; no fault, and nothing that a check may take for one."""


@dataclass(frozen=True)
class Checked:
    """A text that was read and checked; without a job where it cannot be read."""

    text: str
    job: Job | None
    problems: tuple[Problem, ...]
    result: JobResult | None
    seconds: float  # of processor time that it took


@dataclass
class Desk:
    """One job of the folder."""

    name: str
    _lock: threading.Lock = field(default_factory=threading.Lock)
    _quick: Memory = field(default_factory=Memory)
    _whole: Memory = field(default_factory=Memory)
    _checked: OrderedDict[str, Checked] = field(default_factory=OrderedDict)
    _worked: OrderedDict[tuple[str, bool], Checked] = field(default_factory=OrderedDict)
    _room: dict[tuple[int, str], tuple[str, ...]] = field(default_factory=dict)
    _turn: dict[str, int] = field(default_factory=dict)
    _typing: int = 0  # how many wait for the verdict of what they typed

    def check(self, text: str, page: str = "") -> Checked:
        """Read and check a text: verdicts and figures, no steps, no remedies.

        Raises Superseded if the same page has asked for something newer.
        """
        if (known := self._checked.get(text)) is not None:
            return known
        turn = self._turn[page] = self._turn.get(page, 0) + 1

        def newest(_: str) -> None:
            if page and self._turn[page] != turn:
                raise Superseded

        self._typing += 1
        try:
            with self._lock:
                newest("")
                with figures_only():
                    return _kept(self._checked, text, lambda: self._read(text, self._quick, newest, what_ifs=False))
        finally:
            self._typing -= 1

    def known(self, text: str) -> Checked | None:
        """What was worked out already of that text, with all steps and what answers do."""
        return self._worked.get((text, True))

    def work_out(self, text: str, *, what_ifs: bool = False) -> Checked:
        """The same with all steps and remedies, and what answers do: later, and after whoever types."""
        while (known := self._worked.get((text, True)) or self._worked.get((text, what_ifs))) is None:
            try:
                with self._lock:
                    return _kept(
                        self._worked,
                        (text, what_ifs),
                        lambda: self._read(text, self._whole, self._yield, what_ifs=what_ifs),
                    )
            except Superseded:
                time.sleep(0.01)  # what was worked out so far is kept
        return known

    def room(self, job: Job, name: str) -> tuple[str, ...]:
        """How much longer, wider or heavier a piece that passes still holds; made way for whoever types."""
        from .spare import room_to_spare

        known = self._room.get((id(job), name))
        while known is None:
            try:
                with self._lock, figures_only(), shown_in(job.job.units):
                    self._quick.before_each = self._yield
                    known = tuple(room_to_spare(job, name, lambda other: check_job(other, memory=self._quick)))
            except Superseded:
                time.sleep(0.01)
        self._room = {(id(job), name): known}
        return known

    def _yield(self, _: str) -> None:
        if self._typing:
            raise Superseded

    def _read(self, text: str, memory: Memory, before_each: Callable[[str], None], *, what_ifs: bool) -> Checked:
        begins = time.thread_time()
        job: Job | None = None
        memory.before_each = before_each
        try:
            job = read_job_text(text, self.name)
            result = check_job(job, text=text, name=f"{self.name}.toml", what_ifs=what_ifs, memory=memory)
        except JobError as error:
            return Checked(text, job, error.problems, None, time.thread_time() - begins)
        except BeamcheckError as error:
            return Checked(text, job, (Problem("", str(error)),), None, time.thread_time() - begins)
        return Checked(text, job, (), result, time.thread_time() - begins)


def _kept(found: OrderedDict[K, Checked], text: K, make: Callable[[], Checked]) -> Checked:
    if text not in found:
        found[text] = make()
        while len(found) > KEPT:
            found.popitem(last=False)
    return found[text]


@dataclass
class Desks:
    """The jobs of a folder that are being looked at."""

    folder: Folder
    _open: OrderedDict[str, Desk] = field(default_factory=OrderedDict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def desk(self, name: str) -> Desk:
        """That of a job of the listing; errors are those of `Folder.job`."""
        self.folder.job(name)
        with self._lock:
            desk = self._open.setdefault(name, Desk(name))
            self._open.move_to_end(name)
            while len(self._open) > MOST_DESKS:
                self._open.popitem(last=False)
            return desk

    def file(self, name: str) -> JobFile:
        """The job file as it is on the disk now.

        Raises Refused if there is none of that name; JobError if it is no text.
        """
        return open_job_file(self.folder.job(name))

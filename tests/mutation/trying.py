"""Errors tried one after the other on tests that are collected once: each in a child, on the tests that come by."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import time
import warnings
from collections import Counter
from collections.abc import Callable, Sequence
from typing import NamedTuple

import pytest

from .mutants import Mutant
from .swapped import Swaps, swaps
from .touched import TOP, Run, Watch, digest, keep, kept

NOTICED, SURVIVED, RAN_ON, BROKEN = 1, 0, 3, 4
WORDS = {NOTICED: "noticed", SURVIVED: "survived", RAN_ON: "ran on"}
PATIENCE = 60  # seconds of processor time beyond what its tests need: an error may also make them run for ever


class Told(NamedTuple):
    """How one error fared."""

    number: int
    mutant: Mutant
    ended: str  # noticed, ran on, survived
    by: int  # how many tests come by


class Trying:
    """A pytest plugin: collects, finds what each test runs, then tries the errors instead of running the tests."""

    def __init__(self, floor: str, chosen: Sequence[tuple[int, Mutant]], near: dict[str, tuple[str, ...]]) -> None:
        self.chosen, self.near, self.told = chosen, near, list[Told]()
        self.watch, self.runs, self.on_import = Watch(floor), dict[str, Run](), dict[str, set[int]]()
        self.watch.start()

    @pytest.hookimpl
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.on_import = self.watch.stop()
        if session.testsfailed:
            raise SystemExit("tests could not be collected")
        by_file: dict[str, list[pytest.Item]] = {}
        for item in session.items:
            by_file.setdefault(item.nodeid.split("::")[0], []).append(item)
        for file, items in by_file.items():
            self.runs |= self._runs_of(file, items)
        broken = [item for item in session.items if self.runs[item.nodeid].fails]
        for item in broken:
            print(f"fails without any error put in, and is left out: {item.nodeid}", flush=True, file=sys.__stdout__)
        whole = [item for item in session.items if item not in broken]
        for number, mutant in self.chosen:
            self._try(number, mutant, whole)
        return True

    def _runs_of(self, file: str, items: list[pytest.Item]) -> dict[str, Run]:
        """The lines that each test of a file runs, in a process in which nothing is remembered from others."""
        name = digest(file)
        if (found := kept(name)) is not None and set(found) == {item.nodeid for item in items}:
            return found

        def measure() -> int:
            runs = {}
            for item, after in zip(items, [*items[1:], None], strict=True):
                started, failed = time.process_time(), item.session.testsfailed
                self.watch.start()
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
                lines, fails = self.watch.stop(), item.session.testsfailed > failed
                runs[item.nodeid] = Run(time.process_time() - started, lines, fails)
            keep(name, runs)
            return SURVIVED

        if in_child(items[0].config, measure, None) != SURVIVED or (found := kept(name)) is None:
            raise SystemExit(f"{file} came to no end without any error in the project")
        return found

    def _try(self, number: int, mutant: Mutant, items: list[pytest.Item]) -> None:
        comes_by, chosen = self._that_come_by(mutant, items)
        seconds = PATIENCE + round(4.0 * sum(self.runs[item.nodeid].seconds for item in chosen))
        raw, status = (TOP / mutant.file).read_bytes(), SURVIVED
        quick = mutant.called and not self.on_import.get(mutant.file, set()) & _lines(mutant)
        swapped = swaps(str(TOP / mutant.file), raw, mutant.of(raw)) if quick else []
        if swapped and comes_by:
            status = in_child(chosen[0].config, lambda: _noticed(chosen, swapped), seconds)
        elif chosen and not (quick and not comes_by):
            status = afresh(mutant, [item.nodeid for item in chosen], seconds)
        if status not in WORDS:
            raise SystemExit(f"the tests came to no end with {mutant.told()}")
        self.told.append(Told(number, mutant, WORDS[status], comes_by))
        print(f"{number:4} {WORDS[status]:9}{comes_by:4} tests  {mutant.told()}", flush=True, file=sys.__stdout__)

    def _that_come_by(self, mutant: Mutant, items: list[pytest.Item]) -> tuple[int, list[pytest.Item]]:
        """How many tests run the line, and those to run: they first, then others of their files that may share
        what was worked out once; all that run the file where what it does on import is wrong."""
        near, lines = self.near[mutant.file], _lines(mutant)
        on_import = not mutant.called or bool(self.on_import.get(mutant.file, set()) & lines)
        first: dict[str, tuple[int, float, str]] = {}
        for item in items:
            run, file = self.runs[item.nodeid], item.nodeid.split("::")[0]
            place = next((n for n, path in enumerate(near) if file == path or file.startswith(f"{path}/")), None)
            if place is not None and (there := run.lines.get(mutant.file)) and (on_import or there & lines):
                first[item.nodeid] = (place, run.seconds, file)
        # where one test of a file comes by alone, others of it may look at what that one has worked out
        count = Counter(file for _, _, file in first.values() if not file.startswith("tests/trials"))
        whole = {file for file, tests in count.items() if tests == 1}
        rest = [i for i in items if i.nodeid not in first and i.nodeid.split("::")[0] in whole]
        placed = sorted((i for i in items if i.nodeid in first), key=lambda i: (first[i.nodeid][0], first[i.nodeid][2]))
        return len(placed), placed + rest


def _lines(mutant: Mutant) -> set[int]:
    return set(range(mutant.lines[0], mutant.lines[1] + 1))


def _noticed(items: list[pytest.Item], swapped: Swaps) -> int:
    """Put the error in and run the tests until one fails."""
    for function, code in swapped:
        function.__code__ = code
    for item, after in zip(items, [*items[1:], None], strict=True):
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
        if item.session.testsfailed:
            return NOTICED
    return SURVIVED


def in_child(config: pytest.Config, work: Callable[[], int], seconds: int | None) -> int:
    """The status that it ends with."""
    sys.stdout.flush()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        child = os.fork()
    if child == 0:
        status = BROKEN
        try:
            if seconds is not None:
                resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
            with open(os.devnull, "w") as nowhere:
                os.dup2(nowhere.fileno(), 1)
                os.dup2(nowhere.fileno(), 2)
            config.pluginmanager.unregister(name="terminalreporter")
            status = work()
        finally:
            os._exit(status)
    _, ended = os.waitpid(child, 0)
    return RAN_ON if os.WIFSIGNALED(ended) else os.WEXITSTATUS(ended)


def afresh(mutant: Mutant, tests: Sequence[str], seconds: int) -> int:
    """With the file imported anew."""
    command = [
        sys.executable,
        "-m",
        "tests.mutation.fresh",
        mutant.file,
        str(mutant.start),
        str(mutant.end),
        mutant.new,
    ]
    status = subprocess.run(
        [*command, *tests], cwd=TOP, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds)),
    ).returncode  # fmt: skip
    if status < 0:
        return RAN_ON
    return {0: SURVIVED, 1: NOTICED, 2: NOTICED, 4: NOTICED}.get(status, BROKEN)  # 2, 4: a file could not be imported

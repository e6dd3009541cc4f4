"""Errors put into formulas or checks, to see whether the tests of their room notice: python -m tests.mutation formulas

Errors are drawn with a seed. Each stands in a copy of the project, in which the tests of the room of that file run
until one fails; what no test fails on is told. Survivors that change nothing are explained in explained.csv
beside this. Needs nothing beyond what the tests need, and a system that can bound processor time (Linux, macOS).
"""

from __future__ import annotations

import argparse
import csv
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import SimpleQueue
from random import Random
from typing import NamedTuple

from .mutants import Mutant, mutants
from .rooms import tests_of

TOP = Path(__file__).parents[2]
COPIED = ("beamcheck", "tables", "tests", "worked_examples", "pyproject.toml", "README.md", "DEVELOPERS.md")
EXPLAINED = Path(__file__).with_name("explained.csv")
PATIENCE = 300  # seconds of processor time for a turn of tests: an error may also make them run for ever


class Told(NamedTuple):
    """How one error fared."""

    number: int
    mutant: Mutant
    ended: str  # noticed, ran on, survived


class Copy:
    """A copy of the project in which one error at a time stands."""

    def __init__(self, folder: Path) -> None:
        self.folder, self._stamp = folder, time.time() - 10**6
        for name in COPIED:
            if (TOP / name).is_dir():
                shutil.copytree(TOP / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy(TOP / name, folder / name)

    def write(self, file: str, raw: bytes) -> None:
        """With a time of its own, so that no compiled file of before is taken for it."""
        path, self._stamp = self.folder / file, self._stamp + 10.0
        path.write_bytes(raw)
        os.utime(path, (self._stamp, self._stamp))

    def run(self, tests: Sequence[str], seconds: int = PATIENCE) -> str:
        """The tests, until one fails."""
        command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", "--tb=no", *tests]
        status = subprocess.run(
            command, cwd=self.folder, env=os.environ | {"PYTHONPATH": str(self.folder)}, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds)),
        ).returncode  # fmt: skip
        if status < 0:
            return "ran on"
        if status not in (0, 1, 2):  # 2: a file of tests could not be imported, which an error may well do
            raise SystemExit(f"pytest ended with status {status} on {' '.join(tests)}")
        return "noticed" if status else "survived"

    def fares(self, number: int, mutant: Mutant) -> Told:
        """Put an error in, run the tests of its room, take it out."""
        raw, ended = (TOP / mutant.file).read_bytes(), "survived"
        self.write(mutant.file, mutant.of(raw))
        for turn in tests_of(mutant.file):
            if ended == "survived":
                ended = self.run(turn)
        self.write(mutant.file, raw)
        print(f"{number:4} {ended:9} {mutant.told()}", flush=True)
        return Told(number, mutant, ended)


def main() -> int:
    """Run; the status is 1 where an error survived that nobody has explained."""
    told = argparse.ArgumentParser(prog="python -m tests.mutation", description=(__doc__ or "").split("\n")[0])
    told.add_argument("floor", choices=("formulas", "checks"))
    told.add_argument("--sample", type=int, default=150, help="how many errors")
    told.add_argument("--seed", type=int, default=1)
    told.add_argument("--only", type=int, nargs="+", help="these numbers of the sample")
    told.add_argument("--workers", type=int, default=1)
    asked = told.parse_args()
    drawn = sample(asked.floor, asked.sample, asked.seed)
    chosen = [(n, each) for n, each in enumerate(drawn) if asked.only is None or n in asked.only]
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(asked.workers) as pool:
        copies: SimpleQueue[Copy] = SimpleQueue()
        for worker in range(asked.workers):
            copies.put(Copy(Path(folder) / str(worker)))

        def tried(each: tuple[int, Mutant]) -> Told:
            copy = copies.get()
            try:
                return copy.fares(*each)
            finally:
                copies.put(copy)

        ended = list(pool.map(tried, chosen))
        told_by = sorted(
            {test for each in ended if each.ended != "survived" for t in tests_of(each.mutant.file) for test in t}
        )
        if copies.get().run(told_by, 3600) != "survived":
            raise SystemExit("the tests fail without any error in the formulas or checks: nothing is known")
    return summed_up(asked.floor, ended)


def sample(floor: str, size: int, seed: int) -> list[Mutant]:
    """So many errors of all that there could be on a floor."""
    every = [each for file in sorted((TOP / "beamcheck" / floor).rglob("*.py")) for each in mutants(TOP, file)]
    print(f"{floor}: {len(every)} errors possible, {min(size, len(every))} drawn with seed {seed}", flush=True)
    return Random(f"{floor}:{seed}").sample(every, min(size, len(every)))


def summed_up(floor: str, ended: list[Told]) -> int:
    """The score, and who survived."""
    with EXPLAINED.open(encoding="utf-8") as file:
        why = {(row["file"], row["line"], row["old"], row["new"]): row["why"] for row in csv.DictReader(file)}
    survived = [each.mutant for each in ended if each.ended == "survived"]
    explained = {each: why[key] for each in survived if (key := (each.file, _line(each), each.old, each.new)) in why}
    for each in survived:
        print(f"survived: {each.told()}" + (f": {explained[each]}" if each in explained else ""))
    killed = len(ended) - len(survived)
    print(
        f"{floor}: {killed} of {len(ended)} noticed ({killed / len(ended):.1%}); of the rest {len(explained)} explained"
    )
    return 1 if len(explained) < len(survived) else 0


def _line(mutant: Mutant) -> str:
    """The line that it stands in: its number moves, its words stay."""
    return (TOP / mutant.file).read_text(encoding="utf-8").splitlines()[mutant.line - 1].strip()


if __name__ == "__main__":
    raise SystemExit(main())

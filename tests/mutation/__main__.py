"""Errors put into formulas or checks, to see whether the tests notice: python -m tests.mutation checks --rooms brackets

Errors are drawn with a seed; each is tried on the tests of the room of its file that come by its line, until one fails,
and what no test fails on is told. Which test comes by where is found first, and kept until the project changes. The
project is not written to. Survivors that change nothing are explained in explained.csv beside this. Needs nothing
beyond what the tests need, and a system with fork and bounds of processor time (Linux, macOS).
"""

from __future__ import annotations

import argparse
import csv
import os
from collections import Counter
from pathlib import Path
from random import Random

import pytest

from .fresh import Forgetful
from .mutants import Mutant, mutants
from .rooms import tests_of
from .touched import TOP
from .trying import WORDS, Told, Trying, afresh

EXPLAINED = Path(__file__).with_name("explained.csv")
PATIENCE = 300  # seconds of processor time for the tests of formulas


def main() -> int:
    """Run; the status is 1 where an error survived that nobody has explained."""
    told = argparse.ArgumentParser(prog="python -m tests.mutation", description=(__doc__ or "").split("\n")[0])
    told.add_argument("floor", choices=("formulas", "checks"))
    told.add_argument("--rooms", nargs="+", default=[], help="only these rooms of the floor, as brackets or core/wood")
    told.add_argument("--sample", type=int, default=150, help="how many errors")
    told.add_argument("--seed", type=int, default=1)
    told.add_argument("--only", type=int, nargs="+", help="these numbers of the sample")
    asked = told.parse_args()
    os.chdir(TOP)
    drawn = sample(asked.floor, asked.rooms, asked.sample, asked.seed)
    chosen = [(n, each) for n, each in enumerate(drawn) if asked.only is None or n in asked.only]
    near = {each.file: tests_of(each.file) for _, each in chosen}
    if asked.floor == "formulas":  # they are read where they are decorated
        ended = [_formula(n, each, near[each.file]) for n, each in chosen]
    else:
        tests = list(dict.fromkeys(path for paths in near.values() for path in paths))
        trying = Trying(asked.floor, chosen, near)
        pytest.main(["-p", "no:cacheprovider", "--tb=no", *tests], plugins=[trying, Forgetful()])
        ended = trying.told
    return summed_up(ended)


def sample(floor: str, rooms: list[str], size: int, seed: int) -> list[Mutant]:
    """So many errors of all that there could be on a floor, or in some rooms of it."""
    top = TOP / "beamcheck" / floor
    files = sorted(top.rglob("*.py"))
    if rooms:
        files = [each for each in files if any(each.is_relative_to(top / room) for room in rooms)]
    every = [each for file in files for each in mutants(TOP, file)]
    size = min(size, len(every))
    print(f"{' '.join([floor, *rooms])}: {len(every)} errors possible, {size} drawn with seed {seed}", flush=True)
    return Random(f"{floor}:{seed}").sample(every, size)


def _formula(number: int, mutant: Mutant, tests: tuple[str, ...]) -> Told:
    ended = WORDS[afresh(mutant, tests, PATIENCE)]
    print(f"{number:4} {ended:9} {mutant.told()}", flush=True)
    return Told(number, mutant, ended, 0)


def summed_up(ended: list[Told]) -> int:
    """The score, and who survived."""
    with EXPLAINED.open(encoding="utf-8") as file:
        why = {(row["file"], row["line"], row["old"], row["new"]): row["why"] for row in csv.DictReader(file)}
    open_, told = 0, Counter[str]()
    for each in ended:
        mutant, room = each.mutant, each.mutant.file.split("/")[2]
        told[room] += 1
        if each.ended != "survived":
            told[f"{room} noticed"] += 1
            continue
        because = why.get((mutant.file, _line(mutant), mutant.old, mutant.new))
        open_ += because is None
        told[f"{room} explained"] += because is not None
        print(f"survived: {mutant.told()}: {because or 'not explained'}")
    rooms = sorted({each.mutant.file.split("/")[2] for each in ended})
    for room in rooms:
        print(f"{room}: {told[f'{room} noticed']} of {told[room]} noticed; {told[f'{room} explained']} explained")
    killed = sum(told[f"{room} noticed"] for room in rooms)
    explained = sum(told[f"{room} explained"] for room in rooms)
    counted = len(ended) - explained
    print(
        f"{killed} of {len(ended)} noticed ({killed / max(len(ended), 1):.1%}), {explained} of the rest explained: "
        f"{killed / max(counted, 1):.1%} of those that change something"
    )
    return 1 if open_ else 0


def _line(mutant: Mutant) -> str:
    """The line that it stands in: its number moves, its words stay."""
    return (TOP / mutant.file).read_text(encoding="utf-8").splitlines()[mutant.line - 1].strip()


if __name__ == "__main__":
    raise SystemExit(main())

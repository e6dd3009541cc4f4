"""Broken jobs, sheets and drawings for as long as told: python -m tests.fuzz --minutes 10 [--seed 7] [--jobs 100000]

The seed is printed and every case has a number: the same two make the same case. What went wrong is written into
tests/fuzz/kept/, where a test runs it from then on.
"""

from __future__ import annotations

import argparse
import hashlib
import secrets
import tempfile
import time
from pathlib import Path
from random import Random

from .breaking import bases, broken_job
from .files import of_every_kind
from .running import Trouble, bytes_broken, check_and_tell, read_file, trouble_with

KEPT = Path(__file__).parent / "kept"
ONE_IN = 10  # cases: a sheet or drawing instead of a job


def main() -> int:
    """Run; the status is 1 where something went wrong."""
    told = argparse.ArgumentParser(prog="python -m tests.fuzz", description=(__doc__ or "").split("\n")[0])
    told.add_argument("--minutes", type=float, default=1.0)
    told.add_argument("--jobs", type=int, default=10**9, help="stop after so many broken jobs")
    told.add_argument("--seed", type=int, default=None)
    told.add_argument("--from", dest="first", type=int, default=0, help="number of the first case")
    told.add_argument("--keep", type=Path, default=KEPT, help="folder for what went wrong")
    asked = told.parse_args()
    seed = secrets.randbelow(10**6) if asked.seed is None else asked.seed
    print(f"seed {seed}", flush=True)
    end, jobs, files, number = time.monotonic() + 60.0 * asked.minutes, bases(), of_every_kind(), asked.first
    counts = {"jobs answered": 0, "jobs refused": 0, "files answered": 0, "files refused": 0}
    slowest, wrong, told_at = 0.0, 0, time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        while time.monotonic() < end and counts["jobs answered"] + counts["jobs refused"] < asked.jobs:
            chance = Random(f"{seed}:{number}")
            if number % ONE_IN:
                text = broken_job(jobs, chance)
                found, took, ended = trouble_with(lambda: check_and_tell(text, chance), f"{seed}:{number}")  # noqa: B023
                counts[f"jobs {ended}"] += 1
                raw, ending = text.encode("utf-8", "surrogatepass"), ".toml"
            else:
                ending = chance.choice(sorted(files))
                raw = bytes_broken(chance.choice(files[ending]), chance)
                found, took, ended = trouble_with(lambda: read_file(raw, ending, Path(folder)), f"{seed}:{number}")  # noqa: B023
                counts[f"files {ended}"] += 1
            slowest = max(slowest, took)
            if found is not None:
                wrong += 1
                keep(found, raw, ending, asked.keep)
            number += 1
            if time.monotonic() > told_at + 30.0:
                told_at = time.monotonic()
                print(f"case {number}: {counts}, slowest {slowest:.2f} s, wrong {wrong}", flush=True)
    print(
        f"seed {seed}, cases {asked.first} to {number - 1}: {counts}, slowest {slowest:.2f} s, wrong {wrong}",
        flush=True,
    )
    return 1 if wrong else 0


def keep(found: Trouble, raw: bytes, ending: str, folder: Path) -> None:
    """Write what went wrong where a test finds it."""
    folder.mkdir(parents=True, exist_ok=True)
    name = hashlib.sha256(raw).hexdigest()[:12]
    (folder / f"{name}{ending}").write_bytes(raw)
    print(f"WRONG {found.case}: {found.what}: kept as {name}{ending}", flush=True)


if __name__ == "__main__":
    raise SystemExit(main())

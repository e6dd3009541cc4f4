"""`whatcarries check` from a cold start, beside a Python that only imports numpy and pydantic.

Run: pytest tests/benchmarks
"""

from __future__ import annotations

import resource
import statistics
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "worked_examples" / "net_loft.toml"
ONE = ROOT / "worked_examples" / "published" / "beam_4x8_center_load.toml"
ROUNDS = 7
BARE = [sys.executable, "-c", "import numpy, pydantic"]
CHECK = [sys.executable, "-m", "beamcheck", "check", str(DEMO)]


def run(command: list[str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(command, capture_output=True, text=True, check=False, cwd=ROOT, timeout=120)


def seconds(command: list[str]) -> float:
    start = time.perf_counter()
    run(command)
    return time.perf_counter() - start


def test_check_of_the_demo_from_a_cold_start(benchmark: Any) -> None:
    done = benchmark.pedantic(run, args=(CHECK,), rounds=ROUNDS, warmup_rounds=1)
    assert "FAILS" in done.stdout, done.stderr  # the demo holds a beam that is asked for too much
    pairs = [(seconds(CHECK), seconds(BARE)) for _ in range(ROUNDS)]  # turn about, so that a busy spell meets both
    ratio = statistics.median(check for check, _ in pairs) / statistics.median(bare for _, bare in pairs)
    benchmark.extra_info["ratio_to_bare_imports"] = round(ratio, 2)
    print(f"\nbeamcheck check: {ratio:.2f} times a Python that imports numpy and pydantic")


def test_bare_imports(benchmark: Any) -> None:
    done = benchmark.pedantic(run, args=(BARE,), rounds=ROUNDS, warmup_rounds=1)
    assert done.returncode == 0


def processor_seconds(command: list[str]) -> float:
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    run(command)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def test_one_beam_from_a_cold_start_in_processor_time(benchmark: Any) -> None:
    command = [sys.executable, "-m", "beamcheck", "check", str(ONE)]
    benchmark.pedantic(run, args=(command,), rounds=ROUNDS, warmup_rounds=1)
    ratios = sorted(processor_seconds(command) / processor_seconds(BARE) for _ in range(ROUNDS))
    benchmark.extra_info["ratio_to_bare_imports"] = round(ratios[ROUNDS // 2], 2)
    print(f"\none beam: {ratios[ROUNDS // 2]:.2f} times the processor time of importing numpy and pydantic")

"""Single calls: one kernel, one beam through `check_job`, the solver over many spans. Run: pytest tests/benchmarks"""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.analysis.frames.member_line import LineLoad, straight_beam
from beamcheck.calc.pad import Pad, SilentPad
from beamcheck.checks.core.wood.material import WoodMaterial, reference_values, wood_of
from beamcheck.checks.core.wood.strength import Bracing, Section, bending
from beamcheck.checks.job import check_job
from beamcheck.model.job import Job
from beamcheck.model.reading.reader import read_job_text
from beamcheck.model.stock import Stock

from ..doors.jobs import PASSES


def job() -> Job:
    return read_job_text(PASSES)


def wood_and_stock() -> tuple[Stock, WoodMaterial]:
    stock = job().stock[0]
    return stock, wood_of(stock, reference_values(stock))


def test_one_beam_through_check_job(benchmark: Any) -> None:
    result = benchmark(check_job, job())
    assert result.verdict == "passes"


def test_reading_a_job(benchmark: Any) -> None:
    assert benchmark(job).beam[0].name == "joist"


@pytest.mark.parametrize("pad", [Pad, SilentPad], ids=["written down", "silent"])
def test_one_bending_check(benchmark: Any, pad: type[Pad]) -> None:
    _, wood = wood_and_stock()
    section, bracing = Section(1.5, 9.25, 1.5), Bracing(False, "ends only", 144.0)

    def once() -> float:
        return float(bending(pad(), wood, section, bracing, M=20000.0, C_D=1.0).ratio)

    assert benchmark(once) > 0.0


@pytest.mark.parametrize("spans", [1, 2, 5, 10, 20, 50, 100, 200])
def test_solver_over_many_spans(benchmark: Any, spans: int) -> None:
    """One load case over the whole length; the end reaction of a single span is w L/2 (closed form)."""
    length, w = 144.0, 20.0
    supports = [(i * length, "pin" if i == 0 else "roller") for i in range(spans + 1)]
    loads = [[LineLoad(0.0, spans * length, w)]]
    found = benchmark(straight_beam, spans * length, supports, loads, 1.1e9, 3.0e6)
    benchmark.extra_info["spans"] = spans
    total = float(found.reactions[..., 1].sum())
    assert total == pytest.approx(w * spans * length, rel=1e-9)

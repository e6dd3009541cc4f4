"""One anchor group, and 100,000 fastener layouts beside the same yield equations typed out in plain numpy."""

from __future__ import annotations

import time
from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.job import check_job
from beamcheck.formulas.connections.lateral import single_shear, wood_bearing
from beamcheck.model.reading.reader import job_from_data

N = 100_000
ROUNDS = 7
Array = np.ndarray


def layouts(n: int = N) -> dict[str, Array]:
    """Bolts of 1/4 to 1 in between two pieces of wood, at any angle to the grain."""
    rng = np.random.default_rng(3)

    def between(low: float, high: float) -> Array:
        return rng.uniform(low, high, n)

    return {
        "D": between(0.25, 1.0), "l_m": between(1.5, 9.5), "l_s": between(1.5, 5.5), "G_m": between(0.35, 0.65),
        "G_s": between(0.35, 0.65), "theta": between(0.0, 90.0),
    }  # fmt: skip


def swept(given: dict[str, Array]) -> Array:
    """Z of every layout through the formulas of the package."""
    pad, D = SilentPad(), given["D"]
    F_em = wood_bearing(pad, G=given["G_m"], D_nom=D, theta=given["theta"])
    F_es = wood_bearing(pad, G=given["G_s"], D_nom=D, theta=given["theta"])
    made = single_shear(
        pad, D=D, D_nom=D, l_m=given["l_m"], l_s=given["l_s"], F_em=F_em, F_es=F_es, F_yb=45_000.0, theta=given["theta"]
    )
    return np.asarray(made.Z)


def bare(given: dict[str, Array]) -> Array:
    """NDS 2018 Tables 12.3.1A, 12.3.1B and 12.3.3 typed a second time, without range checks."""
    D, l_m, l_s, theta = given["D"], given["l_m"], given["l_s"], given["theta"]
    s2, c2 = np.sin(np.radians(theta)) ** 2, np.cos(np.radians(theta)) ** 2

    def F_e(G: Array) -> Array:
        along = np.round(11200.0 * G / 50.0) * 50.0
        across = np.round(6100.0 * G**1.45 / np.sqrt(D) / 50.0) * 50.0
        return along * across / (along * s2 + across * c2)

    F_em, F_es, F_yb = F_e(given["G_m"]), F_e(given["G_s"]), 45_000.0
    K = 1.0 + 0.25 * theta / 90.0
    R_e, R_t = F_em / F_es, l_m / l_s
    k_1 = (np.sqrt(R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3) - R_e * (1 + R_t)) / (1 + R_e)
    k_2 = -1 + np.sqrt(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D**2 / (3 * F_em * l_m**2))
    k_3 = -1 + np.sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2))
    modes = (
        D * l_m * F_em / (4 * K), D * l_s * F_es / (4 * K), k_1 * D * l_s * F_es / (3.6 * K),
        k_2 * D * l_m * F_em / ((1 + 2 * R_e) * 3.2 * K), k_3 * D * l_s * F_em / ((2 + R_e) * 3.2 * K),
        D**2 / (3.2 * K) * np.sqrt(2 * F_em * F_yb / (3 * (1 + R_e))),
    )  # fmt: skip
    return np.minimum.reduce(modes)


def best_of(run: Any, given: dict[str, Array]) -> float:
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        run(given)
        times.append(time.perf_counter() - start)
    return min(times)


def test_a_hundred_thousand_layouts(benchmark: Any, capsys: pytest.CaptureFixture[str]) -> None:
    given = layouts()
    np.testing.assert_allclose(swept(given), bare(given), rtol=1e-9)
    benchmark(swept, given)
    ratio = best_of(swept, given) / best_of(bare, given)
    benchmark.extra_info["ratio to bare numpy"] = ratio
    with capsys.disabled():
        print(f"\n{N} layouts: {ratio:.2f} times bare numpy")


JOB = {
    "job": {"title": "Benchmark (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16", "invented": True},
    "stock": [{
        "name": "wood", "species": "Douglas Fir-Larch", "grade": "No.1", "size": "6x12 dressed", "moisture": "dry",
        "measured_moisture": "12 %", "agency": "WCLIB", "grade_from": "stamp", "evidence": "invented stamp, mill 12",
    }],
    "existing": [{
        "name": "wall", "what": "wall", "material": "concrete", "confirmed_by": "invented sheet S-1, engineer",
    }],
    "anchor": [{
        "name": "A", "manner": "concealed plate", "into": "wall", "arm": "3 in", "seasoned": "dry",
        "split": "none seen",
        "fastener": {"kind": "bolt", "size": "3/4 in", "steel": "A307", "washer": "2 in", "coating": "none"},
        "plate": {"steel": "A36", "thickness": "3/8 in", "width": "8 in", "length": "10 in", "slot": "7/16 in"},
        "holes": {"rows": 2, "columns": 2, "spacing": "3 1/2 in", "row_spacing": "4 in", "end": "5 1/2 in",
                  "edge": "4 in"},
    }],
    "beam": [{
        "name": "B", "stock": "wood", "service": "floor", "finish": "none", "top_held": "full length",
        "supports": [{"at": "0 ft", "on": "wall", "bearing": "6 in", "restrained": True},
                     {"at": "12 ft", "on": "wall", "holds": "hung", "held_by": "A", "restrained": True}],
        "carries": [{"what": "floor", "dead": "10 psf", "live": "40 psf", "width": "4 ft", "applied": "top"}],
    }],
}  # fmt: skip


def test_one_job_with_one_group(benchmark: Any) -> None:
    job = job_from_data(JOB)
    result = benchmark(check_job, job)
    assert [piece.kind for piece in result.pieces] == ["beam", "anchor"]

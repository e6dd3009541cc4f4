"""A million beams through the checks, beside the same arithmetic typed out in plain numpy. Run: pytest tests/benchmarks

The bare chain is that of the checks for dead and live load, edges held at the ends only, in blocks of the same size,
with the same work hoisted out of the loop over combinations. It has no range checks: a row that is out of a rule's
range gives some number there and NaN in the sweep. What the sweep costs beyond it are those range checks.
"""

from __future__ import annotations

import math
import time
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.wood.material import Factor, Property, WoodMaterial
from beamcheck.checks.core.wood.strength import Section
from beamcheck.sizing import batch as simple
from beamcheck.sizing.batch import BLOCK, CHECKS, Beams, check_simple
from beamcheck.sizing.batch_rows import numbers_of, taken

N = 1_000_000
ROUNDS = 5
Array = np.ndarray


def beams(n: int = N) -> Beams:
    """Every value that differs from beam to beam in practice is an array here."""
    rng = np.random.default_rng(20)

    def between(low: float, high: float) -> Array:
        return rng.uniform(low, high, n)

    def of(low: float, high: float, **factors: Array) -> Property:
        made: dict[str, Any] = {name: Factor(value) for name, value in factors.items()}
        return Property(between(low, high), C_M=Factor(between(0.7, 1.0)), C_i=Factor(between(0.8, 1.0)), **made)

    wood = WoodMaterial(
        F_b=of(600.0, 2000.0, C_F=between(1.0, 1.5), C_r=between(1.0, 1.15)), F_t=of(300.0, 900.0),
        F_v=of(100.0, 200.0), F_c_perp=of(200.0, 700.0), F_c=of(600.0, 1500.0), E=of(1.0e6, 2.0e6),
        E_min=of(3.7e5, 7.0e5), K_cr=Factor(between(1.5, 2.0)), density=between(0.014, 0.03),
    )  # fmt: skip
    b = between(1.5, 8.0)
    return Beams(
        Section(b, b * between(1.2, 4.0), b), wood, between(60.0, 180.0), between(1.5, 6.0),
        {"D": between(1.0, 5.0), "L": between(1.0, 20.0)}, False, 360.0, 240.0, 240.0, near_seats=True,
    )  # fmt: skip


def bare(batch: Beams) -> tuple[Array, Array]:
    """The chain in plain numpy: worst ratios (checks, n) and their combinations (0: D, 1: D + L)."""
    n = batch.span.size
    worst, under = np.empty((len(CHECKS), n)), np.empty((len(CHECKS), n), dtype=np.int8)
    numbers = numbers_of(batch.wood)
    for start in range(0, n, BLOCK):
        rows = slice(start, min(start + BLOCK, n))
        w = {name: taken(value, rows) for name, value in numbers.items()}
        b, d, b_1 = (taken(value, rows) for value in (batch.section.b, batch.section.d, batch.section.breadth_alone))
        L, seat = batch.span[rows], taken(batch.seat, rows)
        A, S, I = b * d, b * d**2 / 6, b * d**3 / 12  # noqa: E741
        dead, live = taken(batch.loads["D"], rows) + w["density"] * A, taken(batch.loads["L"], rows)
        whole, long = dead + live, batch.dead_counts * dead + live
        E = w["E"] * w["E C_M"] * w["E C_t"] * w["E C_i"] * w["E C_fu"]
        E_min = w["E_min"] * w["E_min C_M"] * w["E_min C_t"] * w["E_min C_i"] * w["E_min C_fu"]
        l_e = np.where(L / d < 7, 2.06 * L, 1.63 * L + 3 * d)
        F_bE = 1.20 * E_min / np.sqrt(l_e * d / b_1**2) ** 2
        f_b = L**2 / 8 / S
        clear = L - seat
        f_v = 3 * np.where(2 * d < clear, clear / 2 - d, L / 2) / (2 * b * d)
        bent, sheared = [], []
        for C_D in (0.9, 1.0):
            F_b_star = w["F_b"] * C_D * w["F_b C_M"] * w["F_b C_t"] * w["F_b C_F"] * w["F_b C_i"] * w["F_b C_r"]
            q = F_bE / F_b_star
            C_L = (1 + q) / 1.9 - np.sqrt(((1 + q) / 1.9) ** 2 - q / 0.95)
            bent.append(f_b / (F_b_star * C_L * w["F_b C_fu"]))
            sheared.append(f_v / (w["F_v"] * C_D * w["F_v C_M"] * w["F_v C_t"] * w["F_v C_i"]))
        seated = L / 2 / (b * seat) / (w["F_c_perp"] * w["F_c_perp C_M"] * w["F_c_perp C_t"] * w["F_c_perp C_i"])
        bent_only = 5 * L**4 / (384 * E * I)
        sag = np.maximum(bent_only, bent_only / 1.03 + L**2 / (8 * (E / 16) * (5 * A / 6)))
        pairs = (
            (dead * bent[0], whole * bent[1]), (dead * sheared[0], whole * sheared[1]), (dead * seated, whole * seated),
            (batch.dead_counts * dead, long),
        )  # fmt: skip
        for check, (one, other) in zip((0, 1, 2, 5), pairs, strict=True):
            worst[check, rows], under[check, rows] = np.maximum(one, other), other > one
        worst[5, rows] *= sag / np.minimum(L / batch.limit_total, batch.total_at_most)
        worst[3, rows], under[3, rows] = live * (sag / (L / batch.limit_live)), 1
        worst[4, rows], under[4, rows] = 0.0, simple.NONE
    return worst, under


def best_time(work: Any, *args: Any) -> float:
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work(*args)
        times.append(time.perf_counter() - start)
    return min(times)


def test_a_million_beams(benchmark: Any) -> None:
    batch = beams()
    found = benchmark.pedantic(check_simple, args=(batch,), rounds=ROUNDS, warmup_rounds=1)
    with np.errstate(invalid="ignore"):
        worst, under = bare(batch)
        bare_time = best_time(bare, batch)
    inside = ~np.isnan(found.ratio)
    np.testing.assert_allclose(found.worst[:, inside], worst[:, inside], rtol=1e-12)
    np.testing.assert_array_equal(found.under[:, inside], under[:, inside])
    swept = benchmark.stats.stats.min if benchmark.stats else math.nan
    benchmark.extra_info.update(
        beams=N, block=BLOCK, ratio_to_bare_numpy=round(swept / bare_time, 3), checks_per_second=round(N / swept),
        bare_per_second=round(N / bare_time),
    )  # fmt: skip
    print(f"\n{N / swept:,.0f} full checks/s, {swept / bare_time:.2f} times bare numpy ({N / bare_time:,.0f}/s)")


@pytest.mark.parametrize("kinds", [("L",), ("L", "S"), ("L", "Lr", "S")], ids="+".join)
def test_more_kinds_of_load(benchmark: Any, kinds: tuple[str, ...]) -> None:
    n = N // 5
    batch = beams(n)
    loads = {"D": batch.loads["D"], **dict.fromkeys(kinds, batch.loads["L"])}
    more = Beams(**{**vars(batch), "loads": loads})
    found = benchmark.pedantic(check_simple, args=(more,), rounds=ROUNDS, warmup_rounds=1)
    assert found.worst.shape == (len(CHECKS), n)
    if benchmark.stats:
        benchmark.extra_info["checks_per_second"] = round(n / benchmark.stats.stats.min)

"""Which combinations of a solid bracket are solved, and what the holes of its fasteners take off its thickness."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.brackets.families.solid_field import candidates
from beamcheck.checks.brackets.families.solid_stress import _loss
from beamcheck.errors import BeamcheckError
from beamcheck.model.anchors.anchor import Fastener
from beamcheck.model.brackets.fixings import Fixings, Row

from ..brackets import BOLT, LAG, Data

# one force each, lbf, how far out, in, and C_D: each of the first six governs one of what a bracket 10 in out may
# give way to; the seventh would halfway out, were that a tenth farther out
CASES = [
    (1000.0, 1.0, 1.6), (700.0, 4.9, 1.6), (400.0, 6.0, 1.6), (900.0, 1.0, 0.9), (650.0, 4.9, 1.0), (350.0, 6.0, 1.0),
    (60.0, 10.0, 1.6),
]  # fmt: skip


def chosen(*cases: tuple[float, float, float]) -> list[int]:
    P, x, C_D = (np.array(one) for one in zip(*cases, strict=True))
    loads: Any = SimpleNamespace(
        F=P, M_wall=P * x, C_D=C_D, projection=10.0,
        beyond=lambda cut: (np.where(x > cut, P, 0.0), P * np.maximum(x - cut, 0.0)),
    )  # fmt: skip
    return candidates(loads)


def test_each_combination_that_can_govern_is_solved_once() -> None:
    """Most force, most moment at the wall and 5 in out, and the same over C_D."""
    assert chosen(*CASES) == [0, 1, 2, 3, 4, 5]
    assert chosen(CASES[0]) == [0]


@pytest.mark.parametrize(("up", "solved"), [(-10.0, True), (0.0, False)])
def test_what_lifts_is_solved_as_well(up: float, solved: bool) -> None:
    assert chosen(*CASES, (up, 8.0, 1.6), (0.5 * up, 1.0, 1.6)) == [*range(6), *([7] if solved else [])]


def bored(wide: str) -> Data:
    return {**LAG, "counterbore": wide, "counterbore_depth": "1/2 in"}


@pytest.mark.parametrize(
    ("fastener", "counts", "left"),
    [
        (LAG, (1, 1), 3.5 - 0.375), (LAG, (1, 3), 3.5 - 3 * 0.375), (bored("1 in"), (2,), 1.5),
        (BOLT, (2,), 3.5 - 2 * 0.4375),  # a bolt's hole is 1/16 in wider
        (bored("1.74 in"), (2,), 0.02), (bored("1 3/4 in"), (2,), None),
        (bored("2 in"), (2,), None),
    ],
)  # fmt: skip
def test_holes_are_deducted_and_leave_more_than_nothing(
    fastener: Data, counts: tuple[int, ...], left: float | None
) -> None:
    rows = tuple(Row.model_construct(below_top=3.0 + 4.0 * i, count=n) for i, n in enumerate(counts))
    model: Any = SimpleNamespace(
        shape=SimpleNamespace(thickness=3.5),
        fixings=Fixings.model_construct(fastener=Fastener.model_validate(fastener), rows=rows),
    )
    if left is None:
        with pytest.raises(BeamcheckError, match="leave nothing of the thickness"):
            _loss(model)
        return
    assert _loss(model) == pytest.approx(3.5 / left)


@pytest.mark.parametrize("made", [
    None, Fixings.model_construct(fastener=None, rows=(Row.model_construct(below_top=3.0, count=1),)),
    Fixings.model_construct(fastener=Fastener.model_validate(LAG), rows=()),
])  # fmt: skip
def test_without_holes_nothing_is_deducted(made: Fixings | None) -> None:
    model: Any = SimpleNamespace(shape=SimpleNamespace(thickness=3.5), fixings=made)
    assert _loss(model) == 1.0

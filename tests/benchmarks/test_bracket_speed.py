"""Field analysis of one bracket, and a screen of ten thousand by the hand rule. Figures are printed, none asserted."""

from __future__ import annotations

from typing import Any

import numpy as np
from beamcheck.sizing.bracket_screen import Strength, screen

from beamcheck.analysis.fields.field import Backing, Elastic, Press, Spring, refined_field
from beamcheck.analysis.fields.outline import outline_of
from beamcheck.checks.brackets.families.solid_hand_rule import Moduli
from beamcheck.model.brackets import Solid

N = 10_000
SHAPE = Solid.model_validate({
    "family": "solid", "thickness": "1 1/2 in", "height": "12 in", "projection": "10 in", "foot": "2 in",
    "nose": "2 in", "soffit": "concave", "grain": "upright",
})  # fmt: skip
OUTLINE = outline_of(SHAPE)


def test_field_of_one_bracket(benchmark: Any) -> None:
    """Refined until its figures stand still, on two rows of anchors. Aim: under 0.25 s."""
    elastic = Elastic(1.6e6, 80000.0, 124800.0, 0.449, 90.0)
    backing = Backing("springs", (Spring(2.0, 10000.0, 20000.0), Spring(10.0, 10000.0, 20000.0)), 1.0e6)
    field = benchmark(refined_field, OUTLINE, 1.5, elastic, backing, [Press(8.0, 9.0, 100.0)], tolerance=0.03)
    assert field.residual < 1e-8


def test_ten_thousand_brackets_by_the_hand_rule(benchmark: Any) -> None:
    rng = np.random.default_rng(5)
    P = rng.uniform(6.0, 30.0, N)
    moduli, strength = Moduli(1.6e6, 80000.0, 124800.0, 0.449, 0.0), Strength(900.0, 1500.0, 180.0, 625.0, 15.0)
    presses = [(P - 1.0, P, rng.uniform(10.0, 300.0, N))]
    found = benchmark(
        screen, OUTLINE, moduli, strength, presses, thickness=rng.uniform(0.75, 3.5, N), projection=P, diagonal=False
    )
    assert found.ratio.shape == (N,) and 0 < int(found.fits.sum()) < N

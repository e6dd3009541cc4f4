"""Pull on a bracket's top row of anchors by the lever-arm rule, against the collected notes on brackets."""

from __future__ import annotations

import pytest

from beamcheck.formulas.connections.bolt_pattern import lever_arm_tension

# x_L, height of the one row, eta, pull by lever arm; pulls in plane stress models with one-sided contact, for a stiff
# anchor on a hard wall and for a soft one on a softer wall. 100 lb; the notes' list of check values (how: derived)
ROWS = [
    ("straight", 11.5, 10.0, 0.7, 164.286, (149.609, 127.741)),
    ("concave", 9.5, 12.0, 0.45, 175.926, (165.597, 118.235)),
    ("concave, deep foot", 9.5, 12.5, 0.45, 168.889, (134.697, 92.885)),
    ("convex", 7.5, 8.5, 0.7, 126.05, (93.7191, 94.4901)),
]


@pytest.mark.parametrize(("_name", "x_L", "h_1", "eta", "arm", "models"), ROWS)
def test_the_lever_arm_rule_covers_the_models(
    _name: str, x_L: float, h_1: float, eta: float, arm: float, models: tuple[float, float]
) -> None:
    found = lever_arm_tension(100.0 * x_L, eta, h_1)
    assert found == pytest.approx(arm, rel=1e-5)
    assert found >= max(models)

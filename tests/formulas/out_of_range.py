"""Outside its range a formula raises with a sentence for people, and an element of an array becomes NaN."""

from __future__ import annotations

import math

import numpy as np
import pytest

from beamcheck.calc.core import REGISTRY
from beamcheck.errors import OutOfRange


def numbers(text: str) -> dict[str, float]:
    """'G=0.5 MC=19' as inputs."""
    return {name: float(value) for name, value in (pair.split("=") for pair in text.split())}


def refuses(name: str, good: str, bad: str, told: str) -> None:
    """A formula with good inputs, and with one of them bad."""
    formula, fine, wrong = REGISTRY[name], numbers(good), numbers(bad)
    inside = formula(**fine)
    assert math.isfinite(inside)
    with pytest.raises(OutOfRange) as refusal:
        formula(**{**fine, **wrong})
    assert told in str(refusal.value)
    first, second = formula(**{each: np.array([value, wrong.get(each, value)]) for each, value in fine.items()})
    assert first == pytest.approx(inside, rel=1e-12)
    assert math.isnan(second)

"""Ties above the feet: the rafter beside their fasteners, the feet that give, bolts at an angle to its grain."""

from __future__ import annotations

import copy
import math
import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck import check_job, job_from_data
from beamcheck.checks.core.result import Check, JobResult

Data = dict[str, Any]
TRIAL = Path(__file__).parents[2] / "trials/roofs/attic_roof_with_ceiling_joists.toml"
HEIGHTS = {"highest": "2 in", "lowest": "5 in"}


def roof(height: str = "2 ft", heights: Data | None = HEIGHTS, size: str = "2x8") -> Data:
    """The pair of the trial, 8:12 over 11 ft, with its ties up in the roof."""
    data = tomllib.loads(TRIAL.read_text(encoding="utf-8"))
    data["tie"][0]["height"] = height
    data["tie"][0].pop("ends_rest_on")
    data["stock"][0]["size"] = size
    if heights is not None:
        data["anchor"][0]["on_girder"] = heights
    return data


def checked(data: Data) -> JobResult:
    return check_job(job_from_data(copy.deepcopy(data)))


def of(data: Data, id: str, name: str = "rafters") -> Check:
    piece = next(one for one in checked(data).pieces if one.name == name)
    return next(check for check in piece.checks if check.id == id)


def test_a_raised_tie_passes() -> None:
    assert checked(roof()).verdict == "passes"


def test_shear_of_the_rafter_beside_the_fasteners() -> None:
    """Away from the ends V' = (2/3) F_v' b d_e with d_e = 7.25 - 2 in (NDS 2018 3.4.3.3, memory); C_D of snow 1.15."""
    found = of(roof(), "roof.tie_shear")
    assert 24 / math.sin(math.atan(8 / 12)) > 5 * 7.25
    assert found.capacity == pytest.approx(2 / 3 * 1.15 * 180 * 1.5 * 5.25, rel=1e-6)


def test_heights_are_asked_for_and_the_best_answer_closes() -> None:
    question = of(roof(heights=None), "roof.tie_on_rafter").questions[0]
    ((path, value),) = question.answers[0].sets
    assert path == "anchor.heel nails.on_girder"
    assert checked(roof(heights=value)).verdict == "passes"


@pytest.mark.parametrize("heights", [{"highest": "6 in", "lowest": "7 in"}, {"highest": "2 in", "lowest": "9 in"}])
def test_low_fasteners_pull_the_rafter_apart(heights: Data) -> None:
    assert of(roof(heights=heights), "roof.tie_on_rafter").verdict == "fails"


def test_feet_that_give_too_much_are_asked_about() -> None:
    """The higher the tie, the further the feet go apart; beyond an inch somebody answers for the walls (judgment)."""
    low, high = (of(roof(height), "roof.spread") for height in ("1 ft", "2 ft 5 in"))
    assert low.verdict == "passes" and high.verdict == "refer" and high.questions[0].id == "rafters/feet_apart"


def test_bolts_meet_the_rafter_at_its_angle() -> None:
    """Wood said to run along the tie lies at 33.7 deg to it: 1/2 in bolts take less than in wood along it."""
    data = roof("0 ft")
    data["tie"][0]["ends_rest_on"] = "wall"
    anchor = data["anchor"][0]
    anchor["fastener"] = {"kind": "bolt", "size": "1/2 in", "steel": "A307", "length": "4 1/2 in", "coating": "none",
                          "threads": "clear of it", "washer": "1 3/8 in"}  # fmt: skip
    anchor["holes"] = {"rows": 1, "columns": 2, "spacing": "2 in", "end": "3 1/2 in", "edge": "3 5/8 in"}
    lateral = of(data, "anchor.lateral", "heel nails")
    # NDS 2018 12.3.3: F_e,par = 11200 G, F_e,perp = 6100 G^1.45/sqrt(D), each to 50 psi; Hankinson 12.3.4
    par, perp = 5600.0, 3150.0
    theta = math.atan(8 / 12)
    turned = par * perp / (par * math.sin(theta) ** 2 + perp * math.cos(theta) ** 2)
    values = [step.value for step in lateral.steps if step.symbol in ("F_em", "F_es")]
    assert any(value == pytest.approx(turned, rel=1e-3) for value in values)

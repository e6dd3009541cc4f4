"""Ties above the feet: the rafter beside their fasteners, the feet that give, bolts at an angle to its grain."""

from __future__ import annotations

import copy
import math
import tomllib
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck import check_job, job_from_data
from beamcheck.checks.core.result import Check, JobResult
from beamcheck.checks.roofs import raised_tie

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


@pytest.mark.parametrize(("pulls", "heights", "counted"), [
    ((30.0, 900.0), (2.0, 5.1), 2.0), ((-400.0, 900.0), (2.0, 5.1), 2.15), ((-400.0, -30.0), (2.0, 5.1), 2.15),
    ((-400.0, 900.0), (2.16, 5.1), 2.16), ((-1.0, 900.0), (2.0, 5.1), 2.0), ((-400.0, 900.0), (1.0, 1.5), None),
    ((-400.0, 900.0), (2.0, 5.07), None), ((30.0, 900.0), (2.18, 5.1), None),
    ((30.0, 900.0), (1.0, 1.5), 1.0),
])  # fmt: skip
def test_what_presses_a_tie_counts_from_the_other_edge(
    pulls: tuple[float, float], heights: tuple[float, float], counted: float | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of 7 1/4 in the lowest at 5.1 in is 2.15 in from the lower edge; 30 % are 2.175 in (common practice)."""
    monkeypatch.setattr(raised_tie, "_beside", lambda run, tie, stick, highest: highest)
    low, high = (np.array([one]) for one in pulls)
    line = SimpleNamespace(extremes=lambda what: (low, np.array([5.0]), high, np.array([60.0])))
    run: Any = SimpleNamespace(rafter=SimpleNamespace(name="rafters"), tie_line=line)
    tie: Any = SimpleNamespace(name="tie", height=0.0, ends_held_by="A")
    stick: Any = SimpleNamespace(section=SimpleNamespace(d=7.25, round=False))
    on = SimpleNamespace(highest=heights[0], lowest=heights[1])
    context: Any = SimpleNamespace(anchor=lambda name: SimpleNamespace(on_girder=on, manner="wood side", name=name))
    (found,) = raised_tie.raised_tie_checks(run, tie, stick, context)
    assert found == pytest.approx(counted) if counted is not None else found.verdict == "fails"

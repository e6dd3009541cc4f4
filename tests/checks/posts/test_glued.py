"""Glued posts and rafters. Layup values are memory (NDS Supplement 2018 5A), the rest is typed here."""

from __future__ import annotations

import copy
import math
import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck import check_job, job_from_data
from beamcheck.checks.core.result import Check, PieceResult

Data = dict[str, Any]
TRIALS = Path(__file__).parents[2] / "trials"
GLUED = {"made": "glulam", "species": "Douglas Fir-Larch", "grade": "24F-V4/DF", "size": "3 1/8 in x 9 in",
         "moisture": "dry", "grade_from": "stamp", "evidence": "stamp: agency mark, plant 31, 24F-V4/DF"}  # fmt: skip


def trial(name: str) -> Data:
    return tomllib.loads((TRIALS / name).read_text(encoding="utf-8"))


def piece(data: Data, name: str) -> PieceResult:
    return next(one for one in check_job(job_from_data(copy.deepcopy(data))).pieces if one.name == name)


def post(**more: Any) -> PieceResult:
    """A post of 5 1/8 x 6 in, 9 ft high, under a glued girder."""
    data = trial("made/glulam_girder_on_a_glulam_post.toml")
    data["post"][0] |= more
    return piece(data, "P1")


def rafter(**more: Any) -> PieceResult:
    data = trial("roofs/rafters_in_hangers_on_a_ridge_beam.toml")
    data["stock"][0] = {"name": "r", **GLUED}
    wall = data["rafter"][0]["wall"] | {"bearing": "2 3/4 in"} | more.pop("wall", {})
    data["rafter"][0] |= {"seat_cut": "0.9 in", "wall": wall, **more}
    return piece(data, "rafters")


def of(result: PieceResult, id: str) -> Check:
    return next(check for check in result.checks if check.id == id)


def column(F_c: float, E_min: float, slender: float, c: float) -> float:
    F_cE = 0.822 * E_min / slender**2 / F_c
    half = (1 + F_cE) / (2 * c)
    return F_c * (half - math.sqrt(half**2 - F_cE / c))


def test_a_glued_post_has_the_c_of_glued_timber() -> None:
    """NDS 2018 3.7.1: c = 0.9, E_y,min = 850,000 psi, F_c = 1,650 psi, l_e/d = 108/5.125."""
    found = of(post(), "post.compression")
    assert found.capacity == pytest.approx(column(1650.0, 850000.0, 108 / 5.125, 0.9), rel=1e-6)
    assert post().verdict == "passes"


def test_off_center_the_least_bending_value_counts() -> None:
    """How the laminations lie is not asked: F_b,y = 1,450 psi, with C_V = 1 at this size (NDS 2018 15.4.1, 5.3.6)."""
    result = post()
    f_c, F_c, ratio = (of(result, "post.compression").demand, of(result, "post.compression").capacity, None)
    assert f_c is not None and F_c is not None
    thin = next(check for check in result.checks if check.what == "load off center the thin way")
    F_cE = 0.822 * 850000 / (108 / 5.125) ** 2
    ratio = (f_c / F_c) ** 2 + f_c * (1 + 0.234 * f_c / F_cE) / (1450 * (1 - f_c / F_cE))  # 6 e/d = 1
    assert thin.ratio == pytest.approx(ratio, rel=1e-6)


@pytest.mark.parametrize(
    "more",
    [
        {"plies": 2},
        {"cuts": [{"kind": "hole", "at": "4 ft", "depth": "1 in", "from_bottom": "3 in"}]},
        {"fire": {"minutes": 60, "exposed": ["bottom"]}},
    ],
)
def test_what_is_not_run_of_a_glued_post_refers(more: Data) -> None:
    found = [check for check in post(**more).checks if check.id == "post.glued"]
    assert found and all(check.verdict == "refer" and check.questions for check in found)


def test_thin_glued_posts_may_have_too_few_laminations() -> None:
    data = trial("made/glulam_girder_on_a_glulam_post.toml")
    data["stock"][1]["size"] = "5 1/8 in x 5 1/8 in"
    assert {q.id for check in piece(data, "P1").checks for q in check.questions if check.verdict == "refer"} >= {
        "post wood/few_laminations"
    }


def test_a_glued_rafter_counts_with_the_face_that_is_pulled() -> None:
    """2,400 psi with the stamp up and 1,850 psi where nobody looked, C_D = 1.25 of roof live load (NDS 2018 5.2.3)."""
    assert of(rafter(stamp_up=True), "roof.bending").capacity == pytest.approx(1.25 * 2400)
    assert of(rafter(), "roof.bending").capacity == pytest.approx(1.25 * 1850)
    assert rafter().verdict == "passes"


def test_a_birdsmouth_in_glued_timber_takes_a_tenth() -> None:
    """NDS 2018 5.4.5: at the end over the bearing d/10 = 0.9 in; with an overhang it is no end."""
    assert of(rafter(), "roof.birdsmouth").verdict == "passes"
    assert of(rafter(seat_cut="1 in", wall={"bearing": "3 in"}), "roof.birdsmouth").verdict == "fails"
    assert of(rafter(wall={"at": "1 ft"}), "roof.birdsmouth").verdict == "fails"

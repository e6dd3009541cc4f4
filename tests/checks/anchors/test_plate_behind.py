"""The plate behind a plate in a beam: rods pulled by the moment and by prying, against hand sums typed here."""

from __future__ import annotations

import copy
import math
from typing import Any

import pytest

from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.errors import JobError

from ..beams.beams import Data, checked, floor
from .anchor_jobs import KNIFE, STUB, hung, of

REPORT = "evaluation report ER-0000, 2025 edition, table 3"
BACK: Data = {
    "count": 4, "diameter": "5/8 in", "hole": "11/16 in", "plate": "3/8 in", "along": "10 in", "off": "1 1/2 in",
    "edge": "1 1/4 in", "takes": "3,000 lbf", "sideways": "2,500 lbf", "takes_by": REPORT, "on": "concrete",
    "clear": "1/2 in", "high": "8 in", "in_top_row": 2,
}  # fmt: skip
WALL: Data = {**STUB, "what": "concrete wall", "material": "concrete"}


def behind(back: Data | None = BACK, wall: Data = WALL, **load: Any) -> PieceResult:
    anchor = copy.deepcopy(KNIFE)
    if back is not None:
        anchor["back"] = back
    held = hung(carries=[floor(dead="10 psf", live="40 psf", width="4 ft")], **load)
    return of(checked(held, anchor=[anchor], existing=[wall]))


def the(piece: PieceResult, id: str, what: str = "") -> Check:
    found = [check for check in piece.checks if check.id == id and what in check.what]
    assert len(found) == 1, [(check.id, check.what) for check in piece.checks]
    return found[0]


def moment(clear: str) -> float:
    """Of the plate where it is welded on: the load by its distance, and what turns the end, which does not change."""
    return the(behind({**BACK, "clear": clear}), "anchor.plate_bending").demand or 0.0


def shear() -> float:
    """An inch more to the plate behind is V by an inch more of moment; 12 ft under 200 lb/ft and itself bring half."""
    V = moment("1 in") - moment("0 in")
    assert 1200.0 < V < 1350.0
    return V


def test_pull_of_the_highest_rods_by_hand() -> None:
    """T = M/(0.9 h) on two rods, h = 8 in less what stands out below the plate in the beam farther than it is thick,
    (10 - 7)/2 - 3/8 in; p = min(10/2, 2 x 1.5) = 3 in; the plate yields as in frames/checks.csv F248."""
    piece = behind()
    pried = the(piece, "anchor.pried")
    assert pried.demand == pytest.approx(moment("1/2 in") / (0.9 * (8.0 - 1.125)) / 2, rel=1e-6)
    b, a, M = 1.1875, 1.5625, 3.0 * 0.375**2 / 4 * 58000 / 1.67  # statics of the bent plate
    assert pried.capacity == pytest.approx(min((3000 * a + M) / (a + b), 3000), rel=1e-3)
    both = the(piece, "anchor.back_both")
    assert both.ratio == pytest.approx((pried.ratio or 0.0) + shear() / 4 / 2500, rel=1e-6)
    assert not [check for check in piece.checks if check.id in ("anchor.steel_beyond", "anchor.far_side")]
    assert the(piece, "anchor.back_rods").verdict == "passes"


def test_bolts_with_all_of_the_moment_are_looked_at_too() -> None:
    """Two bolts 3 1/2 in apart up the piece: each V/2 down and M/3.5 along it."""
    found = [check for check in behind().checks if check.id == "anchor.lateral"]
    _, turned = sorted(found, key=lambda check: "turns behind" in check.what)
    assert turned.demand == pytest.approx(math.hypot(shear() / 2, moment("1/2 in") / 3.5), rel=1e-6)


@pytest.mark.parametrize(
    ("back", "wall", "id"),
    [
        ({**BACK, "takes_by": ""}, WALL, "anchor.back_rods"),
        ({key: value for key, value in BACK.items() if key != "sideways"}, WALL, "anchor.back_both"),
        (BACK, {**WALL, "material": "masonry"}, "anchor.far_side"),
    ],
)
def test_what_is_not_said_is_asked(back: Data, wall: Data, id: str) -> None:
    check = the(behind(back, wall), id)
    assert check.verdict == "refer" and check.questions


def test_rods_into_one_and_a_wall_of_another_are_cured_by_the_answer() -> None:
    asked = the(behind(BACK, {**WALL, "what": "brick wall", "material": "masonry"}), "anchor.far_side").questions[0]
    assert [each for one in asked.answers for each in one.sets] == [("anchor.A1.back.on", "masonry")]


def test_what_lifts_and_what_stands_on_a_beam_is_for_an_engineer() -> None:
    held = hung(carries=[floor(dead="5 psf", live="9 psf", width="2 ft"), {**floor(wind="-600 plf"), "what": "wind"}])
    piece = of(checked(held, anchor=[{**KNIFE, "back": BACK}], existing=[WALL]))
    assert the(piece, "anchor.back_lifted").verdict == "refer"


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"high": "11 in"}, "lie beyond"),
        ({"in_top_row": 4}, "write 2"),
        ({"high": "9.7 in"}, "runs out"),
        ({"high": "1 1/2 in"}, "more than 1.5 in"),
        ({"along": "20 in", "high": "14 in"}, "at most 13.5 in"),
        ({"on": "wood", "stock": "wood"}, "no value"),
    ],
)
def test_slips(wrong: Data, says: str) -> None:
    with pytest.raises(JobError) as error:
        behind({**BACK, **wrong})
    assert says in str(error.value)


def test_a_plate_without_a_weld_has_nothing_behind_it() -> None:
    anchor = copy.deepcopy({**KNIFE, "back": BACK})
    anchor["plate"].pop("weld")
    with pytest.raises(JobError, match="welded to"):
        checked(hung(), anchor=[anchor], existing=[WALL])

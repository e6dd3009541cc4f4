"""Surveyed rafters, ties and posts: the least section anywhere feeds their checks, and one of many is one of many."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from beamcheck.checks.core.result import PieceResult
from beamcheck.checks.job import check_job
from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data

from .timbers import CLEAN, Data, result

PAPER = "grading certificate no. 31 of 10 October 2025, A. Example, grader"


def wood(name: str, survey: Data | None = None) -> Data:
    return {"name": name, "species": "Douglas Fir-Larch", "grade": "No.1", "size": "7 1/2 in x 9 1/2 in",
            "moisture": "dry", "measured_moisture": "13 %", "grade_from": "certificate", "evidence": PAPER,
            **({} if survey is None else {"survey": {**CLEAN, **survey}})}  # fmt: skip


def roof(rafter: Data | None = None, tie: Data | None = None) -> Data:
    wall = {"at": "0 ft", "on": "walls", "bearing": "2 in", "restrained": True, "tied_down": "strap, S-2, 3 May 2025"}
    return copy.deepcopy({
        "job": {"title": "Old roof (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16", "invented": True},
        "stock": [wood("r", rafter), wood("t", tie)],
        "existing": [{"name": "walls", "what": "concrete wall", "material": "concrete",
                      "confirmed_by": "invented letter of an engineer, 3 May 2025, no. 4"}],
        "rafter": [{"name": "R1", "stock": "r", "run": "9 ft", "slope": "12:12", "pair": True, "ridge": "board",
                    "spacing": "4 ft", "wall": wall, "other_wall": "walls", "tie": "T1", "finish": "none",
                    "top_held": "full length",
                    "carries": [{"what": "roof", "dead": "15 psf", "snow": "30 psf", "width": "4 ft",
                                 "measured": "plan", "applied": "top"}]}],
        "tie": [{"name": "T1", "stock": "t", "height": "0 ft", "finish": "none", "top_held": "ends only"}],
    })  # fmt: skip


LONG: Data = {
    "length": "18 ft",
    "stations": [{"at": at, "breadth": "7 1/2 in", "depth": "9 1/2 in"} for at in ("1 ft", "9 ft", "17 ft")],
}


def of(data: Data, name: str) -> PieceResult:
    return next(piece for piece in check_job(job_from_data(data)).pieces if piece.name == name)


def demand(piece: PieceResult, id: str) -> float:
    return max(check.demand or 0.0 for check in piece.checks if check.id == id)


NOTCHED = [{"what": "insects", "start": "5 ft", "end": "6 ft", "where": "left", "depth": "1 1/2 in"}]


def test_a_tie_pulls_on_the_least_section_that_was_found() -> None:
    """T over 7.5 x 9.5 against T over 6.0 x 9.5, an inch and a half gone (NDS 2018 3.8.1)."""
    whole, less = (of(roof(tie={**LONG, "losses": losses}), "T1") for losses in ([], NOTCHED))
    assert demand(less, "roof.tension") / demand(whole, "roof.tension") == pytest.approx(7.5 / 6.0, rel=0.01)
    assert any(check.id == "wood.what_was_found" for check in less.checks)


def test_a_rafter_shears_on_the_least_section_that_was_found() -> None:
    """1.5 V/(b d), NDS 2018 eq. 3.4-2; the rafter is 9 ft/cos 45 deg = 12.7 ft long."""
    whole, less = (of(roof({"losses": losses}), "R1") for losses in ([], NOTCHED))
    assert demand(less, "roof.shear") / demand(whole, "roof.shear") == pytest.approx(7.5 / 6.0, rel=0.03)


def test_one_of_a_pair_is_one_of_many_until_all_are_graded() -> None:
    data = roof({})
    asked = [check for check in of(data, "R1").checks if check.what.endswith("one of many")]
    assert [check.verdict for check in asked] == ["passes"]  # the certificate covers what a grader sees
    data["stock"][0] |= {"grade_from": "assumed", "evidence": ""}
    asked = [check for check in of(data, "R1").checks if check.what.endswith("one of many")]
    assert [check.verdict for check in asked] == ["refer"]


def test_old_cuts_of_a_tie_are_for_an_engineer() -> None:
    cut = [{"kind": "hole", "at": "5 ft", "depth": "1 in", "from_bottom": "4 in"}]
    found = of(roof(tie={**LONG, "cuts": cut}), "T1")
    assert any(check.id == "roof.cuts" and check.verdict == "refer" for check in found.checks)


def test_a_rafter_longer_than_was_looked_at() -> None:
    with pytest.raises(JobError, match="the survey looked at 10 ft"):
        job_from_data(roof({"length": "10 ft", "stations": [], "readings": []}))


def test_a_tie_longer_than_was_looked_at() -> None:
    with pytest.raises(JobError, match="the piece is 18 ft long, and the survey looked at 14 ft"):
        job_from_data(roof(tie={}))


def post(losses: list[Data], **more: Any) -> PieceResult:
    data = roof()
    del data["rafter"], data["tie"]
    data["stock"] = [wood("p", {"losses": losses})]
    data["post"] = [{"name": "P1", "stock": "p", "height": "9 ft", "on": "walls", "top_restraint": "pinned",
                     "eccentricity": "0 in", "eccentricity_weak": "0 in",
                     "carries": [{"what": "roof", "dead": "9,000 lb"}], **more}]  # fmt: skip
    return of(data, "P1")


@pytest.mark.parametrize(("where", "way"), [("left", "e_2"), ("right", "e_2"), ("top", "e_1"), ("bottom", "e_1")])
def test_what_is_gone_from_one_face_of_a_post_puts_its_load_off_center(where: str, way: str) -> None:
    """An inch gone from one face, and an inch more for decay: the middle of what is left lies 1 in off."""
    rot = [{"what": "decay", "start": "4 ft", "end": "5 ft", "where": where, "depth": "1 in"}]
    assert not any(check.id == "post.eccentric" for check in post([]).checks)
    check = next(one for one in post(rot).checks if one.id == "post.eccentric")
    steps = {step.symbol: step.value for step in check.steps}
    assert steps[way] == pytest.approx(1.0) and ({"e_1", "e_2"} - {way}).isdisjoint(steps)


def test_a_deeper_loss_never_helps_a_post() -> None:
    ratios = []
    for depth in ("1/2 in", "1 in", "1 1/2 in", "2 in", "3 in"):
        rot = [{"what": "decay", "start": "4 ft", "end": "5 ft", "where": "left", "depth": depth}]
        ratios.append(max(check.ratio or 0.0 for check in post(rot).checks if check.id.startswith("post.")))
    assert ratios == sorted(ratios)


@pytest.mark.parametrize(("cut", "counts"), [
    ({"kind": "hole", "at": "169 in", "depth": "2 1/2 in"}, True),
    ({"kind": "hole", "at": "169.3 in", "depth": "2 1/2 in"}, False),
    ({"kind": "hole", "at": "169.3 in", "depth": "1 in", "length": "4 in"}, True),
    ({"kind": "mortise", "at": "171 in", "length": "7 in", "depth": "2 in", "width": "2 in"}, True),
    ({"kind": "mortise", "at": "171.6 in", "length": "7 in", "depth": "2 in", "width": "2 in"}, False),
])  # fmt: skip
def test_an_old_cut_counts_where_it_reaches_into_the_beam(cut: Data, counts: bool) -> None:
    """A timber of 16 ft of which 14 ft (168 in) are used: what begins beyond them is cut off."""
    old = {"length": "16 ft", "cuts": [{"from_bottom": "5 in", **cut}]}
    piece = result(old, supports=[{"at": at, "on": "walls", "bearing": "6 in", "restrained": True}
                                  for at in ("3 in", "13 ft 9 in")])  # fmt: skip
    assert bool([one for one in piece.checks if one.id == "beam.cut"]) is counts

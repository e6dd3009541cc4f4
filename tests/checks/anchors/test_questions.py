"""Every check of a group that refers asks; a plausible answer that is best, written where it goes, closes the question.

Cases are small invented jobs with one thing unsaid or odd. That an answer closes a question is found by running the job
with it.
"""

from __future__ import annotations

import copy
from typing import Any

import pytest

from beamcheck.checks.core.asking.question import RULING, Question
from beamcheck.checks.core.result import JobResult
from beamcheck.checks.job import check_job
from beamcheck.model.job import Job
from beamcheck.model.job_paths import with_values
from beamcheck.model.reading.reader import job_from_data
from beamcheck.values.loader import rows

from ..beams.beams import Data, beam, floor, job, seat
from .anchor_jobs import KNIFE, RATED, STUB, hung

POST: Data = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "30 in", "edge": "2 3/4 in"}
TIMBER: Data = {"name": "wall of posts", "what": "timber wall", "material": "wood", "takes": "9,000 lb",
                "confirmed_by": "invented sheet S-1, engineer"}  # fmt: skip
LAP: Data = {
    "name": "A1", "manner": "wood side", "into": "wall of posts", "seasoned": "dry", "split": "none seen",
    "fastener": {"kind": "bolt", "size": "5/8 in", "steel": "A307", "length": "13 in", "threads": "clear of it"},
    "holes": {"rows": 2, "columns": 1, "row_spacing": "3 1/2 in", "end": "4 1/2 in", "edge": "3 in"}, "other": POST,
}  # fmt: skip
NAILED: Data = {
    **LAP, "manner": "toe-nails", "fastener": {"kind": "nail", "size": "16d common"},
    "holes": {"rows": 3, "columns": 1, "row_spacing": "1 in", "end": "1 1/8 in", "edge": "3 in"},
}  # fmt: skip
ROD: Data = {"name": "A1", "manner": "hanger rod",
             "fastener": {"kind": "bolt", "size": "5/8 in", "steel": "A36", "length": "26 in", "washer": "1 3/4 in"},
             "holes": {"rows": 1, "columns": 1, "end": "6 in", "edge": "2 3/4 in"}}  # fmt: skip


def without(data: Data, *path: str) -> Data:
    """The data with one field left out."""
    made = copy.deepcopy(data)
    inner = made
    for key in path[:-1]:
        inner = inner[key]
    del inner[path[-1]]
    return made


def on(anchor: Data, under: str = "stub", at: str = "4 1/2 in", width: str = "4 ft", **more: Any) -> Data:
    """A beam under little load, held by the group at its left end."""
    held = hung(carries=[floor(dead="5 psf", live="10 psf", width=width)], **more)
    held["supports"][0] |= {"on": under, "at": at}
    return job(held, anchor=[anchor], existing=[STUB, TIMBER])


def rod(anchor: Data) -> Data:
    lower = beam(
        name="low", carries=[floor(dead="5 psf", live="10 psf", width="4 ft")],
        supports=[{"at": "6 in", "on": "high", "lands_at": "3 ft", "holds": "hung", "held_by": "A1",
                   "restrained": True}, seat("12 ft")],
    )  # fmt: skip
    return job(beam(name="high"), lower, anchor=[anchor])


ONE_ROW: Data = {"rows": 1, "columns": 1, "end": "4 1/2 in", "edge": "4 3/4 in"}
CASES: dict[str, tuple[Data, str]] = {
    "split": (on(without(KNIFE, "split")), "split"),
    "arm said otherwise": (on({**KNIFE, "arm": "8 in"}), "arm"),
    "put together dry": (on({**KNIFE, "holes": ONE_ROW}, stock="wet one"), "seasoned"),
    "grade of the bolts": (on(without(KNIFE, "fastener", "steel")), "bolt_grade"),
    "length with threads clear": (on(without(KNIFE, "fastener", "length")), "length"),
    "stainless": (on({**KNIFE, "fastener": {**KNIFE["fastener"], "coating": "stainless"}}), "maker_bending_yield"),
    "plate longer than its slot": (on({**KNIFE, "plate": {**KNIFE["plate"], "slot_length": "8 in"}}), "slot_length"),
    "gap in a slot": (on({**KNIFE, "gap": "1 in"}), "slot_gap"),
    "pins": (on({**KNIFE, "fastener": {"kind": "pin", "size": "5/8 in", "steel": "A36"}}), "clamped"),
    "one bolt off its line": (on({**KNIFE, "holes": {"rows": 1, "columns": 1, "end": "8 in", "edge": "4 in"}}),
                              "support_place"),
    "what the stub takes": (job(hung(), anchor=[KNIFE], existing=[without(STUB, "takes")]), "existing_takes"),
    "far distances": (on({**LAP, "other": without(POST, "edge")}, "wall of posts"), "other_edge"),
    "thickness of the other side": (on({**LAP, "other": {**POST, "thickness": "7 in"}}, "wall of posts"),
                                    "other_thickness"),
    "lap into steel": (on({**LAP, "into": "stub"}), "far_material"),
    "couple of a lap": (on({**LAP, "holes": {"rows": 1, "columns": 1, "end": "4 1/2 in", "edge": "1 1/8 in"}},
                           "wall of posts"), "twist_held_by"),
    "nails close together": (
        on(NAILED, "wall of posts", "1 in", "6 in", meant={"width": "a shelf only"}), "bored_ahead"),
    "ledger without its arm": (on({**without(LAP, "holes"), "holes": LAP["holes"], "manner": "ledger"},
                                  "wall of posts", width="2 ft"), "ledger_arm"),
    "rated up": (job(hung(carries=[floor(wind="-600 plf")]), anchor=[RATED], existing=[STUB]), "rated_up"),
    "rated, conditions": (on({**RATED, "rating": without(RATED["rating"], "conditions_met")}), "conditions_met"),
    "rated, which column": (
        job(hung(), anchor=[{**RATED, "rating": {**without(RATED["rating"], "loads"), "down": "2,900 lb"}}],
            existing=[STUB]), "rating_loads"),
    "rod, where": (rod(without(ROD, "holes")), "rod_place"),
    "rod, edge": (rod({**ROD, "holes": {**ROD["holes"], "edge": "5 3/4 in"}}), "rod_edge"),
    "rod, length": (rod(without(ROD, "fastener", "length")), "length"),
    "rod, washer": (rod(without(ROD, "fastener", "washer")), "washer"),
    "rod, steel": (rod(without(ROD, "fastener", "steel")), "rod_steel"),
}  # fmt: skip
WET = {"name": "wet one", "moisture": "green", "measured_moisture": "30 %"}


def read(data: Data) -> Job:
    made = copy.deepcopy(data)
    made["stock"].append({**made["stock"][0], **WET})
    return job_from_data(made)


def asked(result: JobResult, key: str) -> Question | None:
    questions = [one for piece in result.pieces if piece.kind == "anchor" for one in piece.questions]
    return next((one for one in questions if one.id.endswith(f"/{key}")), None)


@pytest.mark.parametrize("name", CASES)
def test_its_best_answer_closes_a_question(name: str) -> None:
    data, key = CASES[name]
    made = read(data)
    question = asked(check_job(made), key)
    assert question is not None
    assert question.field != RULING and question.ask.endswith("?") and question.evidence
    assert question.answers, "a plausible answer is wanted"
    answered = with_values(made, question.answers[0].sets)
    after = check_job(answered)
    assert asked(after, key) is None
    held = {piece.name: piece for piece in after.pieces}["A1"]
    assert held.verdict == "passes", [(c.id, c.notes) for c in held.checks if not c.holds]


@pytest.mark.parametrize("name", CASES)
def test_no_check_of_a_group_refers_in_silence(name: str) -> None:
    ids = {row["check"] for row in rows("checks_anchors")}
    for piece in check_job(read(CASES[name][0])).pieces:
        if piece.kind == "anchor":
            assert all(check.questions for check in piece.checks if check.verdict == "refer")
            assert {check.id for check in piece.checks if check.id.startswith("anchor.")} <= ids


@pytest.mark.parametrize(
    ("data", "key", "best"),
    [
        # fasteners between the end and the line of the support: an arm has no sign in the job file
        (on({**KNIFE, "arm": "1 in"}, at="9 in"), "arm", None),
        # what the anchors are said to go into is the likeliest wall
        (on({**LAP, "into": "block wall", "other": {"material": "concrete", "thickness": "6 in", "grain": "along"}},
            "block wall"), "far_material", "concrete"),
    ],
)  # fmt: skip
def test_its_best_answer_is_taken_and_not_asked_again(data: Data, key: str, best: str | None) -> None:
    wall = {"name": "block wall", "what": "wall", "takes": "9,000 lb", "confirmed_by": TIMBER["confirmed_by"]}
    made = read({**data, "existing": [*data["existing"], wall]})
    question = next(one.question for one in check_job(made).questions if one.id.endswith(f"/{key}"))
    assert best is None or question.answers[0].sets[0][1] == best
    after = check_job(with_values(made, question.answers[0].sets))
    assert not [one for one in after.questions if one.id == question.id]

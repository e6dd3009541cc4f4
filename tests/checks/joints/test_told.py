"""What cannot be read of a joint: an error that says where, what, and what would be right."""

from __future__ import annotations

import copy
from collections.abc import Callable

import pytest

from beamcheck.checks.core.asking.question import RULING
from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data

from .jobs import HEAD, Data, checked, joint, member, wood
from .kinds.test_fastened import between, splice
from .kinds.test_step import heel

STOCKS = [wood("tie", "5 1/2 in x 9 1/2 in"), wood("rafter", "5 1/2 in x 7 1/2 in"), wood("plank", "1 1/2 in x 9 in")]


def told(one: Data) -> str:
    with pytest.raises(JobError) as caught:
        job_from_data({"job": HEAD, "stock": STOCKS, "joint": [one]})
    return str(caught.value)


def changed(one: Data, change: Callable[[Data], object]) -> Data:
    made = copy.deepcopy(one)
    change(made)
    return made


@pytest.mark.parametrize(
    ("one", "words"),
    [
        (changed(heel(), lambda j: j.pop("step")), "'step' needs it"),
        (changed(heel(), lambda j: j["members"][0].pop("part")), "what is it in this joint"),
        (changed(heel(), lambda j: j["members"][1].update(part="between")), "no part of it"),
        (changed(heel(), lambda j: j["members"].pop()), "joins 2 to 3 members"),
        (changed(heel(), lambda j: j["members"][1].update(name="tie")), "each member once"),
        (changed(heel(), lambda j: j["members"][1].update(part="notched")), "must be 'notched'"),
        (changed(heel(), lambda j: j["members"][0].update(stock="tye")), "no [[stock]] named 'tye'"),
        (changed(heel(), lambda j: j["members"][0].pop("direction")), "needs its direction"),
        (changed(heel(), lambda j: j.update(frame="T1")), "needs the frame and the node"),
        (changed(heel(), lambda j: j.update(fastener={"kind": "bolt", "size": "1 in"})), "does not belong to 'step'"),
        (changed(between(), lambda j: j.update(fastener={"kind": "nail", "size": "16d common"})), "does not go"),
        (changed(between(), lambda j: j["fastener"].update(size="13/16 in")), "13/16"),
        (changed(between(), lambda j: j["members"][0].pop("holes")), "where the fasteners are in it"),
        (changed(between(), lambda j: j.update(bears_on="wall")), "is no member of it"),
        (changed(between(), lambda j: [one["holes"].update(columns=2, spacing="4 in") for one in j["members"]]),
         "the layout is given at another member"),
        (changed(heel(), lambda j: [one.update(plies=2) for one in j["members"]]), "two sticks lie outside"),
        (changed(between(), lambda j: j["members"][0].update(plies=2)), "two sticks lie outside"),
        (changed(between(), lambda j: j["members"][1].pop("plies")), "write plies = 2"),
        (changed(between(), lambda j: j["members"][1].update(plies=1)), "write plies = 2"),
        (joint("rated", member("a", "tie", 0.0, 100.0)), "'rated' needs it"),
    ],
)  # fmt: skip
def test_told(one: Data, words: str) -> None:
    assert words in told(one)


def test_one_joint_for_one_post() -> None:
    steel = {"steel": "A36", "plate": "3/8 in", "bears_wide": "5 in", "bears_long": "5 in", "stands_off": "1 in",
             "stem": "full"}  # fmt: skip
    base = {"kind": "post base", "post": "P1", "base": steel}
    post = {"name": "P1", "stock": "tie", "height": "8 ft", "on": "footing", "top_restraint": "pinned"}
    footing = {"name": "footing", "what": "footing", "material": "concrete"}
    data = {"job": HEAD, "stock": STOCKS, "post": [post], "existing": [footing],
            "joint": [{"name": "one", **base}, {"name": "other", **base}]}  # fmt: skip
    with pytest.raises(JobError) as caught:
        job_from_data(data)
    assert "one joint for one end" in str(caught.value)
    assert splice().verdict == "passes"


def test_wood_that_no_rule_covers_asks_for_an_engineer_and_not_for_forces() -> None:
    """Glued timber has no values in a joint here; its forces are given, and asking for them would settle nothing."""
    glued = {
        "name": "post", "made": "glulam", "species": "Douglas Fir-Larch", "grade": "24F-V4/DF", "moisture": "dry",
        "size": "5 1/8 in x 6 in", "measured_moisture": "11 %", "grade_from": "stamp",
        "evidence": "stamp: agency mark, plant 31, 24F-V4/DF",
    }  # fmt: skip
    holes = {"end": "6 in", "edge": "2 1/2 in"}
    piece = checked(
        joint(
            "bolted lap", member("brace", "brace", 45.0, -400.0, holes=holes),
            member("post", "post", 90.0, 283.0, down=283.0, passes=True, holes={**holes, "end": "40 in"}),
            fastener={"kind": "bolt", "size": "3/4 in", "steel": "A307", "length": "11 in"}, split="none seen",
            seasoned="dry", stands_on="post foot", bears_on="post",
        ), wood("brace", "3 1/2 in x 5 1/2 in"), glued,
    )  # fmt: skip
    (found,) = piece.checks
    assert (found.id, found.verdict) == ("piece.within_rules", "refer") and "glued laminated" in " ".join(found.notes)
    (asked,) = found.questions
    assert (asked.who, asked.field) == ("engineer", RULING)

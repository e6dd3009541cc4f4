"""The level cut in the foot of a rafter of a frame that stands on a plate by itself (NDS 2018 3.4.3.2, 4.4.3.1)."""

from __future__ import annotations

import copy
import math
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.context import JOINTS_OF, Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.frames.feet import _seat
from beamcheck.checks.frames.member import MadeOf
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data, read_job

from .jobs import KING, checked, piece, wall
from .test_net_and_sag_by_force import TWO, made

SHEET_OF_WALLS = {"takes_sideways": "9,000 lb"}


def pair(cut: str | None = "1 1/2 in", **foot: Any) -> dict[str, Any]:
    """Rafters of 24 ft by 8 ft (8:12) with a collar half way up, on walls that take their thrust."""
    data = copy.deepcopy(KING)
    data["existing"] = [wall(name, **SHEET_OF_WALLS) for name in ("west wall", "east wall")]
    frame = data["frame"][0]
    frame |= {"kind": "collar tie", "collar_height": "4 ft"}
    frame["members"] = [frame["members"][0], {"name": "collar", "stock": "6x8"}]
    for one in frame["feet"]:
        one.pop("slides", None), one.pop("slides_by", None)
        one |= foot
        if cut is not None:
            one["cut"] = cut
    return data


def of(data: dict[str, Any], id: str) -> list[Check]:
    return [one for one in piece(checked(data), "truss").checks if one.id == id]


def test_shear_in_what_the_cut_leaves_by_hand() -> None:
    """V_r' = 2/3 F_v' b d_n (d_n/d)^2 with d_n = 7.5 - 1.5 in; F_v 170 psi, C_D 1.15 (6x8 dressed, 5.5 by 7.5 in)."""
    found = of(pair(), "frame.birdsmouth_shear")
    assert len(found) == 2
    d, d_n = 7.5, 7.5 - 1.5
    assert found[0].capacity == pytest.approx(2 / 3 * 170 * 1.15 * 5.5 * d_n * (d_n / d) ** 2, rel=1e-6)


def test_the_seat_is_no_longer_than_the_cut() -> None:
    """A cut of 1 1/2 in at 8:12 is level over 1.5/sin 33.69 = 2.70 in, however broad the plate."""
    bearing = of(pair(), "frame.bearing")[0]
    length = next(step.value for step in bearing.steps if step.symbol == "l_b")
    assert length == pytest.approx(1.5 / math.sin(math.atan(8 / 12)), rel=1e-6)


def test_it_is_asked_and_its_best_answer_closes_it() -> None:
    (asked, _) = of(pair(None), "frame.birdsmouth")
    assert asked.verdict == "refer" and asked.questions[0].field == "frame.truss.feet.1.cut"
    ((_, value),) = asked.questions[0].answers[0].sets
    assert {one.verdict for one in of(pair(value), "frame.birdsmouth")} == {"passes"}


def test_more_than_a_quarter_fails() -> None:
    """7.5/4 = 1.875 in."""
    assert {one.verdict for one in of(pair("1 7/8 in"), "frame.birdsmouth")} == {"passes"}
    assert {one.verdict for one in of(pair("1 15/16 in"), "frame.birdsmouth")} == {"fails"}


def test_where_a_tie_lies_on_the_seat_no_cut_is_asked() -> None:
    assert of(copy.deepcopy(KING), "frame.birdsmouth") == []
    data = copy.deepcopy(KING)
    data["frame"][0]["feet"][0]["cut"] = "1 in"
    (said,) = of(data, "frame.birdsmouth")
    assert said.verdict == "fails" and "leave cut out" in said.notes[0]


def test_a_brace_beside_a_wall_post_is_asked_for_no_cut() -> None:
    """The foot of a hammer-beam bent: brace and wall post meet on the corbel, and the post stands there on its end."""
    job = read_job(Path(__file__).parents[2] / "trials/frames/hammer_beams_on_corbels.toml")
    assert [one for one in piece(check_job(job), "bent").checks if one.id == "frame.birdsmouth"] == []


@pytest.mark.parametrize(("kind", "asked"), [("by others", ["right heel"]), ("step", ["left heel", "right heel"])])
def test_where_a_joint_says_how_a_foot_sits_no_cut_is_asked(kind: str, asked: list[str]) -> None:
    """At that foot alone, and by a joint to what is below."""
    job = job_from_data(pair(None))
    frame, context = job.frame[0], Context(Structure({}, {one.name: one for one in job.existing}, heads={
        f"{JOINTS_OF}truss": (SimpleNamespace(at="left heel", kind=kind, bears_on=None),)}))  # fmt: skip
    made = {one.stick: made_of_strut(one) for one in frame.sticks}
    nodes = {foot.at: SimpleNamespace(reaction=np.array([[0.0, 900.0]] * 2)) for foot in frame.feet}
    solved: Any = SimpleNamespace(nodes=nodes, combinations=TWO)
    found = [check for number, foot in enumerate(frame.feet, 1)
             for check in _seat(frame, number, foot, solved, made, context)]  # fmt: skip
    assert [one.where for one in found if one.id == "frame.birdsmouth"] == asked


def made_of_strut(member: Any) -> MadeOf:
    """The member with the section and the wood of a strut of 6x8."""
    one = made()
    return MadeOf(member, one.size, one.section, one.wood)

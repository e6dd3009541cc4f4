"""Members of a frame where they meet: what a joint takes out of each, by geometry, and what each brings, by statics.

The king-post truss of `frames/jobs.py`, 24 ft by 8 ft, and its joints of `test_framed.py`: rafters and post 5 1/2 x
7 1/2 in, the tie 5 1/2 x 9 1/2 in.
"""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.trusses.record import EndForces
from beamcheck.checks.core.context import JOINTS_OF, Context, Structure
from beamcheck.checks.core.wood.group_cut import GroupCut, Void
from beamcheck.checks.core.wood.strength import Section
from beamcheck.checks.joints.framed import _meeting, cuts_of, together
from beamcheck.checks.joints.hidden import hardware_of
from beamcheck.model.frames.frame import Frame
from beamcheck.model.joints.joint import Joint
from beamcheck.model.reading.reader import job_from_data
from beamcheck.model.sticks import Cut

from ..frames.jobs import SHEET, king
from .jobs import Data
from .test_framed import BOLT, LAID, joints

SLOPE = math.atan2(96.0, 144.0)
WHOLE = Section(5.5, 7.5, 5.5)


def cut(at: float, length: float = 0.0, kind: str = "notch", **more: Any) -> Cut:
    given: Data = {"depth": 1.0, "width": None, "face": "top", "from_bottom": None, **more}
    return Cut.model_construct(kind=kind, at=at, length=length, **given)


def slot(at: float, length: float, width: float, *voids: Void) -> GroupCut:
    return GroupCut("A", at, length, width, voids, 7.5, 3.75)


# ---- cuts that meet --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("cuts", "groups"), [
    ([cut(10.0, 4.0), cut(13.0, 2.0)], 2),  # 8 to 12, 12 to 14: they touch
    ([cut(10.0, 4.0), cut(12.9, 2.0)], 1), ([cut(12.9, 2.0), cut(10.0, 4.0)], 1),
    ([cut(10.0, 20.0), cut(3.0, 2.0), cut(12.0, 2.0)], 1),  # both within the first
    ([cut(10.0, 0.0, "hole", depth=3.0), cut(12.0, 1.2)], 1),  # 8 1/2 to 11 1/2
    ([cut(10.0, 0.0, "mortise", depth=3.0), cut(12.0, 1.2)], 2), ([cut(10.0, 4.0, "hole"), cut(12.5, 1.2)], 1),
    ([cut(10.0, 4.0), slot(12.5, 2.0, 0.5)], 1), ([slot(10.0, 4.0, 0.5), slot(13.5, 2.0, 0.5)], 2),
])  # fmt: skip
def test_cuts_that_overlap_count_in_one_section(cuts: list[Any], groups: int) -> None:
    assert len(together(cuts, WHOLE)) == groups


def test_one_section_of_several_cuts() -> None:
    """From the first to the last, with the widest slot; each void beside that slot, at its own height."""
    (one,) = together([
        cut(10.0, 4.0, face="top", depth=2.0), cut(11.0, 4.0, face="bottom", depth=9.0), slot(12.0, 1.0, 0.5),
        slot(9.0, 4.0, 0.375, Void(3.0, 0.6, 9.0), Void(5.0, 0.6, 1.0)),
        cut(11.0, 2.0, "mortise", depth=1.5, width=2.0, from_bottom=4.0), cut(11.0, 2.0, "notch", depth=1.0, width=7.0),
    ], WHOLE)  # fmt: skip
    assert isinstance(one, GroupCut)
    assert (one.at, one.length, one.width, one.depth, one.from_bottom) == (10.0, 6.0, 0.5, 7.5, 3.75)
    assert set(one.voids) == {
        Void(6.5, 2.0, 5.0), Void(3.75, 7.5, 5.0), Void(3.0, 0.6, 5.0), Void(5.0, 0.6, 1.0), Void(4.0, 1.5, 2.0),
        Void(7.0, 1.0, 5.0),
    }  # fmt: skip


def test_without_a_slot_voids_take_the_whole_breadth() -> None:
    (one,) = together([cut(10.0, 4.0), cut(11.0, 4.0, face="bottom")], WHOLE)
    assert isinstance(one, GroupCut) and one.width == 0.0
    assert set(one.voids) == {Void(7.0, 1.0, 5.5), Void(0.5, 1.0, 5.5)}


# ---- what the joints of the truss cut out ----------------------------------------------------------------------------


def of_the_truss(found: list[Data]) -> tuple[Frame, Context, dict[str, Joint]]:
    job = job_from_data({**king(), "joint": found})
    pieces: dict[str, Any] = {"truss": job.frame[0]}
    heads = {f"{JOINTS_OF}truss": tuple(job.joint)}
    context = Context(Structure({one.name: one for one in job.stock}, pieces, heads=heads))
    return job.frame[0], context, {one.name: one for one in job.joint}


def places(found: list[Data], member: str) -> list[tuple[float, ...]]:
    """Middle, length, depth of each."""
    frame, context, _ = of_the_truss(found)
    return [(one.at, one.length, one.depth) for one in cuts_of(frame, context)[f"truss: {member}"]]


def test_notches_lie_where_the_pieces_meet() -> None:
    """A foot of 7 1/2 in cuts 7.5/sin of the angle between the pieces along the other."""
    heel, middle = 7.5 / math.sin(SLOPE), math.hypot(72.0, 48.0)
    assert places(joints(), "tie") == [pytest.approx((0.0, heel, 1.75)), pytest.approx((288.0, heel, 1.75))]
    for side in ("left", "right"):
        expected = (middle, 7.5 / math.sin(2 * SLOPE), 1.0)
        assert places(joints(), f"{side} rafter") == [pytest.approx(expected)]


def test_holes_of_a_strap_lie_ahead_of_the_foot_and_behind_a_head() -> None:
    """Two columns 3 in apart, the first 5 in from the end, holes of 11/16 in: from 4.66 to 8.34 in."""
    frame, context, _ = of_the_truss(joints())
    (bolts,) = [one for one in cuts_of(frame, context)["truss: king post"] if getattr(one, "by", "") == "stirrup"]
    assert (bolts.at, bolts.length) == (pytest.approx(6.5), pytest.approx(3.0 + 11 / 16))
    head = {"name": "head", "kind": "plates both sides", "frame": "truss", "at": "ridge", "fastener": BOLT, **LAID,
            "members": [{"name": name, "holes": {"columns": 2, "spacing": "3 in", "end": "5 in", "edge": "3 3/4 in"},
                         "plate": {"steel": "A36", "thickness": "1/4 in", "width": "7 in", "length": "20 in"}}
                        for name in ("king post", "left rafter", "right rafter")]}  # fmt: skip
    frame, context, _ = of_the_truss([head])
    found = cuts_of(frame, context)
    assert [one.at for one in found["truss: king post"]] == [pytest.approx(96.0 - 6.5)]
    assert [one.at for one in found["truss: left rafter"]] == [pytest.approx(math.hypot(144, 96) - 6.5)]


def splice(**more: Any) -> Data:
    laid = {"columns": 2, "spacing": "3 in", "end": "5 in", "edge": "4 3/4 in"}
    plate = {"steel": "A36", "thickness": "1/4 in", "width": "7 in", "length": "20 in"}
    return {"name": "splice", "kind": "plates both sides", "splices": "truss: tie", "fastener": BOLT, **LAID,
            "members": [{"name": one, "holes": laid, "plate": plate} for one in ("west", "east")], **more}  # fmt: skip


def test_a_splice_cuts_both_lengths_on_their_own_sides() -> None:
    """The first length lies towards the first point of the member."""
    assert [one[0] for one in places([splice(splice_at="100 in")], "tie")] == [
        pytest.approx(93.5),
        pytest.approx(106.5),
    ]
    frame, context, _ = of_the_truss([splice()])
    assert cuts_of(frame, context) == {}
    said = splice(splice_at="100 in", forces_by=SHEET)
    for one, way in zip(said["members"], (180, 0), strict=True):
        one |= {"stock": "6x10", "direction": f"{way} deg", "forces": [{"load": "snow", "pull": "900 lbf"}]}
    frame, context, _ = of_the_truss([said])
    assert cuts_of(frame, context) == {}


# ---- what each member brings -----------------------------------------------------------------------------------------


def end(stick: str, direction: tuple[float, float], N: float, V: float, M: float) -> EndForces:
    """Under one combination nothing, under the other the forces."""
    long = math.hypot(*direction)
    N_, V_, M_ = (np.array([0.0, one]) for one in (N, V, M))
    return EndForces(stick, f"truss: {stick}", "6x8", 5.5, 7.5, True, 0.0, (direction[0] / long, direction[1] / long),
                     N_, V_, M_, np.zeros(2, bool))  # fmt: skip


FOOT = (
    end("tie", (-1.0, 0.0), 900.0, 40.0, 700.0), end("tie", (1.0, 0.0), 500.0, -60.0, -900.0),
    end("king post", (0.0, 1.0), 300.0, 10.0, 50.0), end("left strut", (-72.0, 48.0), -200.0, 5.0, 0.0),
    end("right strut", (72.0, 48.0), -100.0, 7.0, 0.0),
)  # fmt: skip


def meeting(found: list[Data], name: str, at: str, ends: tuple[EndForces, ...], on: str = "") -> Any:
    frame, context, by_name = of_the_truss(found)
    node = SimpleNamespace(ends=ends, reaction=np.array([[0.0, 0.0], [3.0, 80.0]]), load=np.array([[0, 0], [1.0, -20]]),
                           on=on)  # fmt: skip
    solved: Any = SimpleNamespace(nodes={at: node}, combinations=("D", "S"))
    return _meeting(by_name[name], frame, solved, context)


def test_what_runs_through_brings_what_changes_there() -> None:
    """The tie: its two pulls against each other, no moment; with the largest force, shear and moment on either side."""
    found = meeting(joints(), "stirrup", "foot of the king post", FOOT)
    post, tie = found.members
    assert tie.passes and not post.passes and list(tie.M) == [0.0, 0.0] and list(post.M) == [0.0, 50.0]
    # direction (-1, 0) with V 40: up is V to the left of the direction, so -40; the other -60
    assert tie.force[1] == pytest.approx([500.0 - 900.0, -40.0 - 60.0])
    assert [list(one) for one in tie.in_it] == [[0.0, 900.0], [0.0, 900.0]] and list(tie.V) == [0.0, 60.0]
    assert tie.direction == pytest.approx([1.0, 0.0]) and tie.from_end == 144.0 and post.from_end == 0.0
    assert list(post.V) == [0.0, 10.0] and found.reaction[1] == pytest.approx([4.0, 60.0])


def test_what_other_joints_hang_on_a_member_goes_through_as_well() -> None:
    """The struts seated on the post: their force is the post's in the stirrup, and nobody else's."""
    post, _ = meeting(joints(), "stirrup", "foot of the king post", FOOT).members
    left = np.array([-72.0, 48.0]) / math.hypot(72, 48)
    across = np.array([-left[1], left[0]])
    right = np.array([72.0, 48.0]) / math.hypot(72, 48)
    struts = -200.0 * left + 5.0 * across - 100.0 * right + 7.0 * np.array([-right[1], right[0]])
    assert post.force[1] == pytest.approx(np.array([-10.0, 300.0]) + struts)
    seats = next(one for one in meeting(joints(), "strut seats", "foot of the king post", FOOT).members
                 if one.name == "king post")  # fmt: skip
    assert seats.force[1] == pytest.approx([-10.0 - 400.0, 300.0 - 100.0])  # the tie hangs on it
    alone = [one for one in joints() if one["name"] != "strut seats"]
    post, _ = meeting(alone, "stirrup", "foot of the king post", FOOT).members
    assert post.force[1] == pytest.approx([-10.0, 300.0])


def test_a_member_points_away_from_the_joint() -> None:
    ends = (end("tie", (1.0, 0.0), 900.0, 0.0, 0.0), end("left rafter", (144.0, 96.0), -1100.0, 0.0, 30.0))
    tie, rafter = meeting(joints(), "left heel step", "left heel", ends, on="west wall").members
    assert tie.direction == pytest.approx([1.0, 0.0]) and not tie.passes
    assert rafter.direction == pytest.approx([math.cos(SLOPE), math.sin(SLOPE)]) and list(rafter.M) == [0.0, 30.0]
    there = (end("tie", (-1.0, 0.0), 900.0, 0.0, 0.0), end("right rafter", (-144.0, 96.0), -1100.0, 0.0, 30.0))
    tie, rafter = meeting(joints(), "right heel step", "right heel", there).members
    assert tie.direction == pytest.approx([-1.0, 0.0]) and not tie.passes and tie.from_end == 0.0
    assert rafter.direction == pytest.approx([-math.cos(SLOPE), math.sin(SLOPE)])
    heads = (end("left strut", (72.0, -48.0), -200.0, 5.0, 0.0),)
    rafter, strut = meeting(joints(), "left strut head", "left rafter, middle", heads).members
    assert rafter.passes and rafter.from_end == pytest.approx(math.hypot(72, 48)) and rafter.in_it is None
    assert strut.direction == pytest.approx([math.cos(SLOPE), -math.sin(SLOPE)]) and strut.from_end == 0.0


# ---- hardware that a cover has to hide -------------------------------------------------------------------------------


def test_hardware_lies_along_its_member() -> None:
    """A strap over two bolts 3 in apart with 1 1/2 in beyond each is 6 in long and stands upright with its post."""
    _, context, by_name = of_the_truss(joints())
    ((anchor, angle),) = hardware_of(by_name["stirrup"], context)
    assert angle == pytest.approx(90.0) and anchor.plate is not None
    assert (anchor.plate.length, anchor.plate.width, anchor.plate.thickness) == (6.0, 2.5, 0.25)
    assert hardware_of(by_name["left heel step"], context) == []
    _, context, by_name = of_the_truss([splice(splice_at="100 in")])
    found = hardware_of(by_name["splice"], context)
    assert [angle for _, angle in found] == [90.0, 90.0]  # of no frame by name: as of a post
    assert found[0][0].plate is not None and found[0][0].plate.length == 20.0
    turned = by_name["splice"].members[0].model_copy(update={"direction": 30.0})
    bare = by_name["splice"].members[1].model_copy(update={"holes": None})
    one = by_name["splice"].model_copy(update={"members": (turned, bare)})
    assert [angle for _, angle in hardware_of(one, context)] == [30.0]
    assert hardware_of(one.model_copy(update={"fastener": None}), context) == []
    assert hardware_of(one.model_copy(update={"kind": "by others"}), context) == []
    head = {"name": "head", "kind": "plates both sides", "frame": "truss", "at": "ridge", "fastener": BOLT, **LAID,
            "members": [{"name": name, "holes": {"columns": 2, "spacing": "3 in", "end": "5 in", "edge": "3 3/4 in"},
                         "plate": {"steel": "A36", "thickness": "1/4 in", "width": "7 in", "length": "20 in"}}
                        for name in ("left rafter", "right rafter")]}  # fmt: skip
    _, context, by_name = of_the_truss([head])
    angles = [angle for _, angle in hardware_of(by_name["head"], context)]
    assert angles == pytest.approx([math.degrees(SLOPE), 180.0 - math.degrees(SLOPE)])

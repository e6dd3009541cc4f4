"""The two lengths of a member at a splice: which lies where, and what each brings, by statics."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.joints.splice import splice_meeting
from beamcheck.errors import OutOfRange
from beamcheck.model.reading.reader import job_from_data

from ..frames.jobs import king

N, V, M = np.array([500.0, -80.0]), np.array([40.0, -30.0]), np.array([900.0, -700.0])


@pytest.mark.parametrize("name", ["tie", "left rafter", "right rafter", "king post", "left strut", "right strut"])
def test_each_length_brings_what_the_other_takes(name: str) -> None:
    """Number 1 is the length towards the first point of the member; a pull draws it away from the other."""
    job = job_from_data(king())
    frame = job.frame[0]
    stick = next(one for one in frame.sticks if one.stick == name)
    forces = {"N": N, "V": V, "M": M}
    solved: Any = SimpleNamespace(combinations=("D", "W"), between=lambda of, what, a, b: (forces[what], forces[what]))
    entries = [SimpleNamespace(name="a", plies=None, arm=None), SimpleNamespace(name="b", plies=2, arm=None)]
    joint: Any = SimpleNamespace(name="splice", spliced=stick.name, stated=False, splice_at=24.0, on="",
                                 members=entries)  # fmt: skip
    context = Context(Structure({one.name: one for one in job.stock}, {}))
    meeting = splice_meeting(joint, frame, solved, context)
    points = [np.array(frame.shape.points[point]) for point in frame.shape.stick(name).points]
    along = (points[-1] - points[0]) / np.hypot(*(points[-1] - points[0]))
    level = along if tuple(points[0]) < tuple(points[-1]) else -along  # from left to right, or up
    turn = 1.0 if level is along else -1.0
    one, two = meeting.members
    assert one.direction == pytest.approx(-along) and two.direction == pytest.approx(along)
    for piece, way in ((one, -along), (two, along)):
        assert piece.force == pytest.approx(np.outer(N, way) - np.outer(V, np.array([-way[1], way[0]])))
        assert piece.force @ way == pytest.approx(N)  # it is pulled
    assert one.force + two.force == pytest.approx(np.zeros((2, 2)))
    assert list(one.M) == pytest.approx(list(-turn * M)) and list(two.M) == pytest.approx(list(turn * M))
    assert (one.number, two.number) == (1, 2) and two.section.b == pytest.approx(2.0 * one.section.b / stick.plies)


def test_a_splice_of_which_nobody_says_where_it_is_is_asked_with_the_most_of_its_member() -> None:
    """Pull of 500 lb under one combination, push of 80 lb under the other, along it; nothing without a frame."""
    job = job_from_data(king())
    frame = job.frame[0]
    tie = next(one for one in frame.sticks if one.stick == "tie")
    bar = SimpleNamespace(pulled=np.array([500.0, 20.0]), pressed=np.array([0.0, 80.0]))
    solved: Any = SimpleNamespace(combinations=("D", "W"), members={"tie": bar})
    entries = [SimpleNamespace(name=name, plies=None, arm=None) for name in "ab"]
    joint: Any = SimpleNamespace(name="splice", spliced=tie.name, stated=False, splice_at=None, on="", members=entries,
                                 path="joint.splice")  # fmt: skip
    context = Context(Structure({one.name: one for one in job.stock}, {}))
    meeting = splice_meeting(joint, frame, solved, context)
    assert [list(one.N) for one in meeting.members] == [[500.0, -80.0]] * 2
    (asked,) = meeting.doubts
    assert asked.verdict == "refer" and asked.questions[0].field.endswith("splice_at")
    with pytest.raises(OutOfRange, match="is not said"):
        splice_meeting(joint, frame, None, context)

"""The order in which an invented truss goes together."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.frames.assembly import assembly_of, order_of
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

from ..joints.test_framed import joints
from .jobs import king, piece


def tenon(name: str, at: str, host: str, guest: str) -> dict[str, Any]:
    cut = {"thickness": "2 in", "width": "5 in", "length": "3 in", "cheek": "1 3/4 in"}
    return {"name": name, "kind": "mortise and tenon", "frame": "truss", "at": at, "tenon": cut,
            "members": [{"name": host, "part": "mortised"}, {"name": guest, "part": "tenoned"}]}  # fmt: skip


def test_every_member_once_each_joined_to_those_before() -> None:
    job = job_from_data({**king(), "joint": joints()})
    order = order_of(job.frame[0], job.joint)
    assert sorted(order) == sorted(path.name for path in job.frame[0].shape.sticks) and order[0] == "tie"
    for number, name in enumerate(order[1:], start=1):
        assert any({name} < (there := {one.name for one in joint.members}) and there & set(order[:number])
                   for joint in job.joint)  # fmt: skip
    assert order == ["tie", "left rafter", "right rafter", "king post", "left strut", "right strut"]


def test_strut_with_a_tenon_at_either_end_goes_in_before_its_rafter() -> None:
    found = [one for one in joints() if "strut" not in one["name"]]
    for side in ("left", "right"):
        found += [tenon(f"{side} head", f"{side} rafter, middle", f"{side} rafter", f"{side} strut"),
                  tenon(f"{side} seat", "foot of the king post", "king post", f"{side} strut")]  # fmt: skip
    job = job_from_data({**king(), "joint": found})
    order = order_of(job.frame[0], job.joint)
    for side in ("left", "right"):
        late = max(order.index("king post"), order.index(f"{side} rafter"))
        assert order.index(f"{side} strut") < late
    # the tie first; the rafters stand on it, the king post hangs on them and would shut the struts out
    assert order == ["tie", "left rafter", "right rafter", "left strut", "right strut", "king post"]


def test_table_of_the_order_stands_at_the_frame_that_has_joints() -> None:
    result = check_job(job_from_data({**king(), "joint": joints()}))
    table = next(one for one in piece(result, "truss").tables if one.title == "Order of assembly")
    assert len(table.rows) == 6 and any("stirrup" in row[3] for row in table.rows)
    bare = check_job(job_from_data(king()))
    assert "Order of assembly" not in [one.title for one in piece(bare, "truss").tables]


def test_members_lie_about_their_lines() -> None:
    """A tie of 24 ft lies level and a strut aslant: each as deep as it is, half of it on either side of its line."""
    job = job_from_data({**king(), "joint": joints()})
    frame = job.frame[0]
    depths = {path.name: 8.0 for path in frame.shape.sticks}
    context: Any = SimpleNamespace(structure=SimpleNamespace(joints_of=lambda name: job.joint))
    made = assembly_of(frame, depths, context)
    assert made is not None
    for laid in made[1].laid:
        if laid.what != "wood":
            continue
        (a, b, c, d), path = laid.points, frame.shape.stick(laid.name)
        ends = [frame.shape.points[path.points[i]] for i in (0, -1)]
        for one, two, (x, y) in ((a, d, ends[0]), (b, c, ends[1])):
            assert math.dist(one, two) == pytest.approx(8.0)
            assert ((one[0] + two[0]) / 2, (one[1] + two[1]) / 2) == pytest.approx((x, -y))
        assert math.dist(a, b) == pytest.approx(math.dist(*ends)) and math.dist(a, c) == pytest.approx(math.dist(b, d))

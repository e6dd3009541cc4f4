"""An answer whose field was changed later opens its question again at every piece that it is about, and at no other."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.result import Check
from beamcheck.checks.questions.rulings import changed_answers, ruled
from beamcheck.model.job import Job
from beamcheck.model.reading.reader import job_from_data

from .. import houses
from ..frames.jobs import king
from ..joints import jobs as joints
from .test_engine import piece, splice, with_ruling

KEPT = Check.keeps_rule("x", "", "kept", "c")
FAR = {"name": "far", "what": "far wall", "material": "wood", "confirmed_by": "invented sheet S-1, engineer"}


def a_roof() -> dict[str, Any]:
    other = houses.rafter(name="R2", ridge="beam", ridge_on="B", stock="6x6")
    ridge = houses.beam(houses.seat("0 ft", "P"), houses.seat("8 ft", "far"))
    return houses.job(
        rafter=[houses.rafter(tie="T", other_wall="far"), other], tie=[houses.tie()], beam=[ridge],
        post=[houses.post()], existing=[FAR],
        movement=[{"name": "seam", "kind": "bolt row", "on": "B", "across": "6 in", "built_at": "19 %"}],
    )  # fmt: skip


def a_joint() -> dict[str, Any]:
    members = [joints.member(name, name, turned, pull, holes={"end": "6 in", "edge": "3 in"})
               for name, turned, pull in (("oak", 0.0, 100.0), ("fir", 180.0, -100.0))]  # fmt: skip
    bolt = {"kind": "bolt", "size": "3/4 in", "steel": "A307", "length": "14 in"}
    return {"job": joints.HEAD, "stock": [joints.wood("oak", "6x8 dressed"), joints.wood("fir", "6x8 dressed")],
            "joint": [joints.joint("bolted lap", *members, fastener=bolt)]}  # fmt: skip


TRUSS = ["truss: left rafter", "truss: right rafter", "truss: tie", "truss: king post", "truss: left strut",
         "truss: right strut"]  # fmt: skip


def opened(data: dict[str, Any], to: str, value: Any) -> list[str]:
    """The pieces at which it is asked again."""
    data = {**data, "answer": [{"to": to, "value": value, "by": "the carpenter", "how": "tape", "date": "2026-03-02"}]}
    job = job_from_data(data)
    found = changed_answers(job, [piece(name, KEPT) for name in names(job)])
    assert all(len(one.checks) == 2 for one in found if one.verdict == "refer")
    return [one.name for one in found if one.verdict == "refer"]


def names(job: Job) -> list[str]:
    kinds = (job.beam, job.rafter, job.tie, job.post, tuple(job.members.values()), job.joint)
    return [one.name for kind in kinds for one in kind]


@pytest.mark.parametrize(("to", "value", "pieces"), [
    ("beam.B.finish", "plaster", ["B", "R2"]),  # which stands on it
    ("post.P.height", "9 ft", ["B", "P"]), ("rafter.R.slope", "5:12", ["R"]), ("tie.T.height", "1 ft", ["R", "T"]),
    ("existing.wall.material", "steel", ["R", "R2"]), ("existing.far.takes", "900 lb", ["B", "R"]),
    ("existing.footing.takes", "900 lb", ["P"]), ("stock.2x10.grade", "No.1", ["R", "T"]),
    ("stock.6x6.grade", "No.2", ["R2", "P"]), ("stock.old.moisture", "green", []),  # of which nothing is made
    ("movement.seam.built_at", "12 %", ["B"]), ("job.ground_snow", "77 psf", ["B", "R", "R2", "T", "P"]),
])  # fmt: skip
def test_of_a_roof(to: str, value: Any, pieces: list[str]) -> None:
    assert opened(a_roof(), to, value) == pieces


@pytest.mark.parametrize(("to", "value", "pieces"), [
    ("frame.truss.rise", "7 ft", TRUSS), ("existing.west wall.takes", "9,000 lb", TRUSS),
    ("stock.6x10.grade", "No.2", ["truss: tie"]),
    ("stock.6x8.grade", "No.2", [one for one in TRUSS if "tie" not in one]),
])  # fmt: skip
def test_of_a_truss(to: str, value: Any, pieces: list[str]) -> None:
    assert sorted(opened(king(), to, value)) == sorted(pieces)


@pytest.mark.parametrize(("to", "value", "pieces"), [
    ("joint.J.split", "none seen", ["J"]), ("joint.J.members.2.direction", "90 deg", ["J"]),
    ("stock.oak.moisture", "green", ["J"]),
])  # fmt: skip
def test_of_a_joint(to: str, value: Any, pieces: list[str]) -> None:
    assert opened(a_joint(), to, value) == pieces


def test_a_ruling_covers_no_force_that_is_not_known() -> None:
    """NaN never passes."""
    (found,), reopened = ruled(with_ruling('up_to = { press = "450 lb" }'), [piece("J1", splice(press=float("nan")))])
    assert found.verdict == "refer" and reopened == ("J1/splice",)

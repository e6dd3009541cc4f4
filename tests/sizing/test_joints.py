"""Bolts proposed for joints at an angle: what is proposed holds in the checks; invented joints."""

from __future__ import annotations

from pathlib import Path

import pytest

import beamcheck as bc
from beamcheck import read_job
from beamcheck.checks.job import check_job
from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.sizing.anchors import in_words
from beamcheck.sizing.joints import bolts_for
from beamcheck.values.hardware.fasteners import washer
from beamcheck.values.loader import rows as table_rows

JOBS = Path(__file__).parents[1] / "trials" / "joined_members"


@pytest.mark.parametrize(
    ("file", "name"),
    [
        ("knee_brace_lapped_on_a_post", "knee brace on the post"),
        ("tie_splice_too_short", "splice of the tie"),
        ("heel_bolted_between_two_ties", "east heel"),
    ],  # low in its rafter, where the job has it: not in the middle
)
def test_what_is_proposed_holds(file: str, name: str) -> None:
    job = read_job(JOBS / f"{file}.toml")
    found = bolts_for(job, name)
    assert found.joint is not None and found.ratio <= 1.0
    result = check_job(job.model_copy(update={"joint": (found.joint,)}))
    assert "fails" not in {check.verdict for check in result.pieces[0].checks}
    assert "no verdict" in in_words(name, found) and "bolts" in found.words


def test_smallest_is_no_larger_than_fewest() -> None:
    job = read_job(JOBS / "tie_splice_too_short.toml")
    small, few = (bolts_for(job, "splice of the tie", goal=goal).joint for goal in ("smallest", "fewest"))
    assert small is not None and few is not None and small.fastener is not None and few.fastener is not None
    many = [(one.members[0].holes.rows or 1) * (one.members[0].holes.columns or 1) for one in (small, few)
            if one.members[0].holes is not None]  # fmt: skip
    assert many[0] >= many[1]


def test_slips_are_told() -> None:
    job = read_job(JOBS / "girt_in_its_housing.toml")
    with pytest.raises(OutOfRange, match="no bolts to lay out"):
        bolts_for(job, job.joint[0].name)
    with pytest.raises(UnknownName):
        bolts_for(job, "nothing of the kind")


def test_lag_screws_for_a_lap() -> None:
    """What is proposed holds, reaches into the other member and does not come out of it; plates take none."""
    name, job = "knee brace on the post", read_job(JOBS / "knee_brace_lapped_on_a_post.toml")
    found = bolts_for(job, name, "lag screw")
    assert found.joint is not None and found.joint.fastener is not None and found.ratio <= 1.0
    assert found.joint.fastener.kind == "lag screw" and "lag screws" in found.words
    result = check_job(job.model_copy(update={"joint": (found.joint,)}))
    assert "fails" not in {check.verdict for check in result.pieces[0].checks}
    assert [check.ratio for check in result.pieces[0].checks if check.id == "anchor.lateral"] == [
        pytest.approx(found.ratio, rel=0.5)
    ] * 2 and not found.refer
    assert bolts_for is bc.bolts_for
    plated = read_job(JOBS / "tie_splice_too_short.toml")
    with pytest.raises(OutOfRange, match="takes no lag screw: it takes bolt"):
        bolts_for(plated, "splice of the tie", "lag screw")


def test_what_cannot_be_worked_out_is_not_proposed() -> None:
    """Six inches between both pieces: lag screws of 12 in hardly reach the other, of whatever size."""
    name, job = "knee brace on the post", read_job(JOBS / "knee_brace_lapped_on_a_post.toml")
    apart = job.model_copy(update={"joint": (job.joint[0].model_copy(update={"gap": 6.0}),)})
    assert bolts_for(apart, name, "lag screw").joint is None


@pytest.mark.parametrize("row", table_rows("nds_2018_l2_lag_screws"), ids=lambda row: row["size"])
def test_every_lag_screw_of_the_table_has_a_washer(row: dict[str, str]) -> None:
    assert washer(f"{row['size']} in").value.outer > 2.0 * float(row["D"])

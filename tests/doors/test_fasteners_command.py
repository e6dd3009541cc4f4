"""`whatcarries fasteners`: a proposal for one anchor group of a job, and what stands in its way."""

from __future__ import annotations

from pathlib import Path

import pytest

from beamcheck import UnknownName, fasteners_for, read_job

from ..checks.anchors.anchors import lateral

DEMO = Path(__file__).parents[2] / "worked_examples" / "net_loft.toml"


def test_it_proposes_bolts_that_hold(run) -> None:
    done = run("fasteners", str(DEMO), "hidden plate", "--family", "bolt")
    assert done.exit_code == 0
    assert done.stdout.startswith("hidden plate: ") and "bolt" in done.stdout
    assert "no verdict" in done.stdout and "Caution: " in done.stdout and "Reviewed by licensed engineer" in done.stdout


def test_what_it_proposes_holds_in_the_checks() -> None:
    """The group as proposed goes through the lateral checks again: nothing fails."""
    proposal = fasteners_for(read_job(DEMO), "hidden plate", "bolt")
    assert proposal.group is not None and proposal.ratio <= 1.0
    assert all(check.verdict != "fails" for check in lateral(proposal.group))


@pytest.mark.parametrize(
    ("group", "family", "said"),
    [("hiden plate", "bolt", "did you mean 'hidden plate'"), ("hidden plate", "nail", "family of fasteners")],
)
def test_slips_are_told(run, group: str, family: str, said: str) -> None:
    done = run("fasteners", str(DEMO), group, "--family", family)
    assert done.exit_code == 2 and said in done.stderr and "Traceback" not in done.stderr


def test_a_group_that_is_not_there_in_python() -> None:
    with pytest.raises(UnknownName, match="known are"):
        fasteners_for(read_job(DEMO), "xyzzy", "bolt")

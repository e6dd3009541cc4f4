"""What was not said of a span makes no `fails`: each condition is a rung that is run."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck import JobError, JobResult, check_text, span_question


def asked(length: str, **more: Any) -> JobResult:
    return span_question("2x10", "Hem-Fir", "No.2", dead="10 psf", live="40 psf", spacing="16 in",
                         finish="gypsum board", length=length, **more)  # fmt: skip


def rungs(result: JobResult) -> list[str]:
    return [reason for reason in result.reasons if reason.startswith("and ")]


def test_twelve_feet_turn_on_the_top_edge() -> None:
    result = asked("12 ft")
    assert result.verdict == "refer" and "turns on what was not said" in result.reasons[0]
    assert [rung.partition(":")[0] for rung in rungs(result)] == ["and the top edge held all along"]
    assert "enough by the figures" in rungs(result)[-1]
    assert "assumed_top" in [one.question.id.partition("/")[2] for one in result.questions]


def test_a_rung_is_what_the_question_with_it_gives() -> None:
    """The ratio of the rung is that of the same question with the condition said."""
    told = asked("12 ft", top_held="full length").pieces[0].closest
    assert told is not None and told.ratio is not None
    assert f"{told.ratio:.3f}" in rungs(asked("12 ft"))[-1]


def test_it_fails_where_the_last_rung_fails() -> None:
    result = asked("20 ft")
    assert result.verdict == "fails" and len(rungs(result)) == 4
    assert all("too much" in rung for rung in rungs(result))


@pytest.mark.parametrize("more", [{"top_held": "full length", "moisture": "dry"}, {"top_held": "full length"}])
def test_what_was_said_is_no_rung(more: dict[str, str]) -> None:
    said = " ".join(rungs(asked("16 ft", **more)))
    assert "top edge" not in said and ("dry" in said) is ("moisture" not in more)


def test_what_holds_as_told_has_no_ladder() -> None:
    assert not rungs(asked("6 ft"))


@pytest.mark.parametrize(("old", "new"), [
    ('top_held = "ends only"', 'top_held = "full length"'), ('moisture = "green"', 'moisture = "dry"'),
])  # fmt: skip
def test_what_is_assumed_is_the_safe_side_or_refused(old: str, new: str) -> None:
    """Else a job file could assume what is favorable, and pass."""
    text = asked("12 ft").job_text
    assert old in text and 'assumed = ["top_held"]' in text
    with pytest.raises(JobError, match="safe side"):
        check_text(text.replace(old, new))

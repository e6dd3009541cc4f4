"""What is said that an answer does is what a fresh run of the job with that answer gives."""

from __future__ import annotations

from pathlib import Path

import pytest

from beamcheck import JobError, check_job, read_job
from beamcheck.model.job_paths import with_values

from .test_trials import INDEX

HERE = Path(__file__).parent
SAMPLE = sorted(row["file"] for row in INDEX if row["expect"] != "passes" and "bracket" not in row["file"])[::5]


@pytest.mark.parametrize("file", SAMPLE)
def test_an_answer_does_what_is_said_of_it(file: str) -> None:
    try:
        job = read_job(str(HERE / file))
    except JobError:
        return  # refused: nothing is open about it
    for one in check_job(job, what_ifs=True).questions:
        for worked in one.answers[:2]:
            if not worked.effects:
                continue
            fresh = {piece.name: piece for piece in check_job(with_values(job, worked.answer.sets)).pieces}
            for effect in worked.effects:
                assert fresh[effect.piece].verdict == effect.verdict, (one.question.id, worked.answer.says)
                assert effect.ratio is None or effect.ratio == pytest.approx(
                    max(check.ratio for check in fresh[effect.piece].checks if check.what == effect.closest)
                )


def test_hardware_rated_for_dry_wood_waits_for_the_meter() -> None:
    """The reading that says wet is the one that is taken again; within 19 % the published figure holds."""
    job = read_job(str(HERE / "uplift/strap_rated_for_dry_wood_on_wet.toml"))
    (one,) = check_job(job).questions
    assert one.question.field == "stock.t.measured_moisture"
    assert check_job(with_values(job, one.question.answers[0].sets)).verdict == "passes"

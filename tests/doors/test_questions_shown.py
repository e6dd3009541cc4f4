"""Open questions at every door: terminal, sheet, JSON and Python say the same ones in the same order."""

from __future__ import annotations

import json
import re
from pathlib import Path

from beamcheck import check_file, check_text, plain_text, result_json, sheet_html

from .jobs import GOOD

OPEN = Path(__file__).parents[1] / "trials" / "joints" / "steel_stub_without_a_load_it_takes.toml"


def test_every_door_shows_every_open_question_in_one_order(run) -> None:
    result = check_file(OPEN)
    asked = [one.question.ask for one in result.questions if one.state != "idle"]
    assert asked
    text = " ".join(plain_text(result).split())
    assert "To find out, in this order:" in text
    assert [text.index(" ".join(one.split())) for one in asked] == sorted(
        text.index(" ".join(one.split())) for one in asked
    )
    page = re.sub(r"<[^>]+>", "", sheet_html(result))
    for one in asked:
        assert " ".join(one.split()) in " ".join(page.split())
    carried = json.loads(result_json(result))["questions"]
    assert [one["question"]["ask"] for one in carried] == [one.question.ask for one in result.questions]
    assert " ".join(asked[0].split()) in " ".join(run("check", OPEN).stdout.split())


def test_each_answer_shown_is_what_a_fresh_run_with_it_gives(run) -> None:
    from beamcheck.checks.job import check_job
    from beamcheck.model.job_paths import with_values
    from beamcheck.model.reading.reader import read_job

    result, job, tried = check_file(OPEN, what_ifs=True), read_job(str(OPEN)), 0
    for one in result.questions:
        for worked in one.answers:
            fresh = {piece.name: piece for piece in check_job(with_values(job, worked.answer.sets)).pieces}
            for effect in worked.effects:
                tried += 1
                assert fresh[effect.piece].verdict == effect.verdict
    assert tried
    for everything in ((), ("--all",)):  # the short answer shows them above itself
        told = run("check", OPEN, "--answers", *everything).stdout.partition("To find out")[2]
        assert "passes" in told.partition("REFER ")[0]
    assert "To find out" not in run("check", OPEN).stdout


def test_what_passes_asks_nothing() -> None:
    result = check_text(GOOD["passes"])
    assert result.questions == () and "To find out" not in plain_text(result)

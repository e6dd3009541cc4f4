"""What is above a bracket, a post or trim: asked wherever the job shows a beam that may come down on it."""

from __future__ import annotations

from pathlib import Path

import pytest

from beamcheck.checks.core.result import Check, JobResult
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import read_job_text

JOB = (
    Path(__file__).parents[2] / "trials/brackets_and_props/bracket_said_to_be_at_the_far_end.toml"
).read_text(encoding="utf-8")  # fmt: skip
NEAR = 'near = { beam = "B", at = "12 ft 8 in", gap = "3/8 in", closing = [] }\n'
SHELF = 'carries = [{ what = "shelf", dead = "5 lb", at = "4 in", bearing = "2 in", applied = "top" }]\n'
CASING = """
[[trim]]
name = "T"
role = "decorative"
what = "boards around a post"
on = "P1"
stock = "bb"
weight = "20 lb"
hangs = "on the face"
accidental = "not for load"
[trim.fixings]
fastener = { kind = "lag screw", size = "1/4 in", length = "4 in" }
rows = [{ below_top = "2 in", count = 1 }, { below_top = "9 in", count = 1 }]
through = "1 1/2 in"
other = { stock = "post8", thickness = "7 1/2 in", grain = "along", edge = "3 3/4 in", end = "12 in" }
wall = "wood"
seasoned = "dry"
split = "none seen"
"""


def checked(*changes: tuple[str, str], more: str = "") -> JobResult:
    text = JOB + more
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return check_job(read_job_text(text))


def of(found: JobResult, piece: str, what: str) -> Check | None:
    checks = next(one.checks for one in found.pieces if one.name == piece)
    return next((check for check in checks if check.what == what), None)


def carrying(height: str) -> JobResult:
    """The bracket with a shelf on it, its foot so far up the post, and nothing said of the beam."""
    return checked((NEAR, SHELF), ('role = "decorative"', 'role = "carries"'), ('at = "7 ft 1 in"', height))


def test_a_bracket_for_a_load_under_a_beam_is_asked_too() -> None:
    """Heights: 96 - 85 - 11 = 0 in are left (BC092 of the reference on brackets that carry, derived)."""
    check = of(carrying('at = "7 ft 1 in"'), "K", "gap under B by its sizes")
    assert check is not None and check.verdict == "refer"
    assert [answer.sets[0][0] for answer in check.questions[0].answers] == ["bracket.K.above", "bracket.K.near"]
    answered = check.questions[0].answers[1].sets[0][1]
    assert answered["gap"] == "0 in" and answered["at"] == "17.5 in"  # 3 3/4 + 7 1/2 / 2 + 10 in


def sized(foot: str, height: str) -> Check:
    """The same with its post at 0 along the beam and 11 in of projection."""
    found = checked(
        (NEAR, SHELF), ('role = "decorative"', 'role = "carries"'), ('at = "7 ft 1 in"', foot),
        ('height = "11 in", projection = "10 in"', f'height = "{height}", projection = "11 in"'),
        ('at = "3 3/4 in", on = "P1"', 'at = "0 ft", on = "P1"'),
    )  # fmt: skip
    check = of(found, "K", "gap under B by its sizes")
    assert check is not None
    return check


def test_place_and_gap_from_the_sizes_of_the_job() -> None:
    """96 - 72 - 20 = 4 in (BC093); the nose at 7 1/2 / 2 + 11 (BC094)."""
    assert sized('at = "6 ft"', "20 in").notes[0].startswith("4 in is left under B")
    near = sized('at = "7 ft 1 in"', "11 in").questions[0].answers[1].sets[0][1]
    assert near == {"beam": "B", "at": "14.75 in", "closing": [], "gap": "0 in"}


def test_far_below_the_beam_nothing_is_asked() -> None:
    """96 - 60 - 11 = 25 in of air."""
    check = of(carrying('at = "5 ft"'), "K", "gap under B by its sizes")
    assert check is not None and check.verdict == "passes"


def test_a_height_that_nobody_gives_is_no_gap() -> None:
    check = of(carrying(""), "K", "gap under B by its sizes")
    assert check is not None and check.verdict == "refer" and "`at`" in check.notes[0]


def test_a_boxed_column_is_asked_what_is_above_it() -> None:
    check = of(checked(more=CASING), "T", "what is above it")
    assert check is not None and check.verdict == "refer"
    assert check.questions[0].field == "trim.T.above"
    said = of(
        checked(more=CASING.replace("[trim.fixings]", 'above = "nothing"\n[trim.fixings]')), "T", "what is above it"
    )
    assert said is not None and said.verdict == "passes"


@pytest.mark.parametrize(("gap", "verdict"), [("0 in", "fails"), ("1 in", "passes")])
def test_trim_under_a_beam_is_no_prop(gap: str, verdict: str) -> None:
    near = f'near = {{ beam = "B", at = "6 ft", gap = "{gap}", closing = [] }}\n[trim.fixings]'
    check = of(checked(more=CASING.replace("[trim.fixings]", near)), "T", "gap under B")
    assert check is not None and check.verdict == verdict

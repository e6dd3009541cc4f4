"""The invented boat shed: a king-post truss from its loads to the covers over its heels, and three ways to spoil it."""

from __future__ import annotations

from pathlib import Path

import pytest

from beamcheck import check_text
from beamcheck.checks.core.result import JobResult

TEXT = (Path(__file__).parents[2] / "worked_examples" / "plated_truss.toml").read_text(encoding="utf-8")
STEP = """
[[joint]]
name = "left heel plates"
kind = "step"
frame = "truss"
at = "left heel"
step = { depth = "1 3/4 in", behind = "%s", reaction_off = "0 in", checked = "no checks there" }
members = [{ name = "tie", part = "notched" }, { name = "left rafter", part = "landing" }]
"""
PEGS = """
[[joint]]
name = "stirrup"
kind = "mortise and tenon"
frame = "truss"
at = "foot of the king post"
seasoned = "dry"
members = [{ name = "tie", part = "mortised" }, { name = "king post", part = "tenoned" }]

[joint.tenon]
thickness = "1 1/2 in"
width = "7 1/2 in"
length = "6 in"
cheek = "2 in"
shoulder = "tight"

[joint.tenon.pegs]
wood = "White Oak"
diameter = "1 1/4 in"
count = 2
end = "3 in"
edge = "4 3/4 in"
side = "2 in"
spacing = "3 1/2 in"
straight = true
"""


def without(text: str, name: str) -> str:
    """The job without the joint of that name."""
    blocks = text.split("\n[[joint]]\n")
    kept = [one for one in blocks if not one.startswith(f'name = "{name}"')]
    assert len(kept) == len(blocks) - 1
    return "\n[[joint]]\n".join(kept)


def verdicts(result: JobResult) -> dict[str, str]:
    return {piece.name: piece.verdict for piece in result.pieces if piece.verdict != "passes"}


def test_whole_shed_passes() -> None:
    result = check_text(TEXT)
    assert verdicts(result) == {}
    assert {piece.kind for piece in result.pieces} == {"frame", "member", "joint", "bracket"}


def test_short_splice_fails() -> None:
    laid = 'holes = { rows = 1, columns = 3, spacing = "3 in", end = "5 1/4 in", edge = "4 3/4 in" }'
    assert TEXT.count(laid) == 2
    short = TEXT.replace(laid, 'holes = { rows = 1, columns = 1, end = "5 1/4 in", edge = "4 3/4 in" }')
    short = short.replace('size = "3/4 in", length = "8 in"', 'size = "1/2 in", length = "8 in"')
    assert verdicts(check_text(short)) == {"splice of the tie": "fails", "truss: tie": "fails"}


@pytest.mark.parametrize(("behind", "verdict"), [("14 in", "passes"), ("7 in", "fails")])
def test_heel_step(behind: str, verdict: str) -> None:
    """A step in place of the plates holds with 14 in behind it; 7 in split off."""
    result = check_text(without(TEXT, "left heel plates") + STEP % behind)
    assert next(piece for piece in result.pieces if piece.name == "left heel plates").verdict == verdict


def test_tie_that_hangs_on_pegs_refers_or_fails() -> None:
    result = check_text(without(TEXT, "stirrup") + PEGS)
    found = next(piece for piece in result.pieces if piece.name == "stirrup")
    assert found.verdict != "passes" and "pegs" in " ".join(check.what for check in found.checks)


def test_cover_that_is_too_small_for_its_plates_is_told() -> None:
    small = TEXT.replace('heads_width = "9 in"', 'heads_width = "6 in"', 1)
    assert verdicts(check_text(small)) == {"left heel cover": "refer"}


def test_weight_of_the_covers_is_what_does_not_arrive() -> None:
    """Two covers of 10.65 lb on the frame, at none of its points."""
    path = check_text(TEXT).path
    assert path is not None
    told = "the dead load of left heel cover and right heel cover, held at no point of truss, is not counted there"
    assert path.uncounted == told
    assert all(total.applied > total.arriving for total in path.totals)

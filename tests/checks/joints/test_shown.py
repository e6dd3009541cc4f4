"""What joints say to whoever buys, cuts and looks: hardware in one list, figures with units, no nuts on screws."""

from __future__ import annotations

from pathlib import Path

import pytest

from beamcheck import check_file
from beamcheck.checks.core.pictures.others import JointPicture
from beamcheck.checks.core.result import PieceResult
from beamcheck.sheet.lists.rows import hardware_rows

TRIALS = Path(__file__).parents[2] / "trials/joined_members"


def shown(name: str) -> tuple[PieceResult, dict[str, str], list[tuple[int | str | None, str, str]]]:
    """The joint, what is said of it, and its hardware: how many, what, size."""
    result = check_file(TRIALS / f"{name}.toml")
    piece = next(one for one in result.pieces if one.kind == "joint")
    rows = [(row.in_all, row.what, row.size) for row in hardware_rows(result) if row.group == piece.name]
    return piece, dict(piece.inputs), rows


def test_a_ledger_counts_its_screws_at_every_stud() -> None:
    """12 ft at 16 in: studs at 0, 16 ... 144 in are ten, with two screws each."""
    piece, inputs, rows = shown("ledger_along_studs")
    assert [(many, what) for many, what, _ in rows] == [(20, "lag screw"), (20, "washer")]
    assert inputs["length of ledger"] == "12 ft"
    assert any("10 times" in one for one in piece.to_see)
    assert not any("nut" in one for one in piece.to_see)
    assert sum("count and size" in one for one in piece.to_see) == 1  # the same screws go through both


def test_plates_of_a_splice_are_bought_in_one_piece() -> None:
    piece, _, rows = shown("tie_splice_of_sixteen_bolts")
    assert [(many, what) for many, what, _ in rows[:-1]] == [(16, "bolt"), (32, "washer"), (16, "nut")]
    many, what, size = rows[-1]
    assert (many, what) == (2, "plate, in one piece over all") and "west half" in size and "east half" in size
    assert any("without a joint in it" in one for one in piece.to_see)


def test_screws_are_told_with_their_angle() -> None:
    piece, inputs, _ = shown("brace_on_four_inclined_screws")
    assert inputs["screws to the faces"] == "45 deg" and inputs["screws in all"] == "4"
    assert piece.to_see[0].startswith("4 screws at 45 deg")


def test_rods_of_a_base_are_told_with_what_they_bear() -> None:
    _, inputs, _ = shown("post_base_held_down")
    assert inputs["one bears, pulled"] == "2,400 lb" and inputs["plate that they go through, thick"] == "3/8 in"


def test_the_post_ends_under_its_cap() -> None:
    """The head lies half of 11 1/2 in and the plate of 3/8 in under the axis of the girder."""
    piece, _, _ = shown("post_cap_under_a_girder")
    (picture,) = piece.pictures
    assert isinstance(picture, JointPicture)
    starts = {bar.name: bar.starts for bar in picture.bars}
    assert starts["post"] == pytest.approx(0.5 * 11.5 + 0.375) and starts["girder"] is None
    assert any("plate of the cap" in one for one in picture.says)
    assert not any("two beams" in one for one in piece.to_see)


def test_an_anchor_in_concrete_has_one_washer_and_one_nut() -> None:
    piece, inputs, rows = shown("plate_anchored_to_a_slab")
    assert [(many, what) for many, what, _ in rows] == [(2, "anchor"), (2, "washer"), (2, "nut")]
    assert inputs["in the concrete"] == "4 in"
    assert any("under every nut" in one for one in piece.to_see)
    assert not any("head and nut" in one for one in piece.to_see)

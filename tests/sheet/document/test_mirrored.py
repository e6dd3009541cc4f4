"""Members and joints of a frame that are each other's mirror image: one page, and nothing that differs is hidden."""

from __future__ import annotations

from dataclasses import replace

import pytest

from beamcheck.checks.core.pictures.others import FramePicture
from beamcheck.checks.core.result import JobResult, PieceResult
from beamcheck.checks.core.summary import quantity
from beamcheck.sheet.document.short.alike import Group, groups_of, words_for
from beamcheck.sheet.document.short.sides import other_side

from ...worked_examples.results import example

RAFTER = "truss: right rafter"


@pytest.fixture(scope="module")
def shed() -> JobResult:
    return example("boat_shed")


def named(groups: tuple[Group, ...]) -> list[tuple[str, ...]]:
    return [tuple(piece.name for piece in group.pieces) for group in groups if len(group.pieces) > 1]


def with_rafter(shed: JobResult, other: PieceResult) -> JobResult:
    return replace(shed, pieces=tuple(other if piece.name == RAFTER else piece for piece in shed.pieces))


def test_rafters_struts_and_their_joints_share_a_page_and_say_so(shed: JobResult) -> None:
    groups = groups_of(shed)
    assert named(groups) == [
        ("truss: left rafter", "truss: right rafter"),
        ("truss: left strut", "truss: right strut"),
        ("left heel", "right heel"),
        ("left strut head", "right strut head"),
    ]
    heels = next(group for group in groups if group.first.name == "left heel")
    assert words_for(heels, ("J1", "J2")) == ("J2: the mirror image, read right for left, east wall for west wall",)


def test_the_figures_of_the_one_page_are_those_of_both(shed: JobResult) -> None:
    for group in groups_of(shed):
        for piece in group.pieces[1:]:
            for check, twin in zip(group.first.checks, piece.checks, strict=True):
                assert quantity(check.ratio, "ratio", "US") == quantity(twin.ratio, "ratio", "US"), check.what
                assert other_side(check.combination) == twin.combination or check.combination == twin.combination


def changes(piece: PieceResult) -> list[PieceResult]:
    """What each keeps it from being the mirror image of the left rafter."""
    first, *rest = piece.checks
    sided = next(check for check in piece.checks if "right half" in check.combination)
    same_half = replace(sided, combination=sided.combination.replace("right", "left"))
    (frame,) = (picture for picture in piece.pictures if isinstance(picture, FramePicture))
    lower = tuple(bar._replace(y0=bar.y0 - 1.0) if bar.name == "right rafter" else bar for bar in frame.bars)
    return [
        replace(piece, checks=(replace(first, ratio=(first.ratio or 0.0) * (1.0 + 1e-6)), *rest)),
        replace(piece, checks=tuple(same_half if check is sided else check for check in piece.checks)),
        replace(piece, pictures=(replace(frame, bars=lower),)),
        replace(piece, assumptions=(*piece.assumptions, "the right rafter is taken as dry")),
        replace(piece, kind="beam"),
    ]


@pytest.mark.parametrize("number", range(5))
def test_what_differs_in_more_than_its_side_has_a_page_of_its_own(shed: JobResult, number: int) -> None:
    rafter = next(piece for piece in shed.pieces if piece.name == RAFTER)
    assert ("truss: left rafter", RAFTER) not in named(groups_of(with_rafter(shed, changes(rafter)[number])))


def test_what_is_left_of_something_is_no_side() -> None:
    said = "nothing is left out: 3 in of wood left above, on the left rafter, Right heel"
    assert other_side(said) == "nothing is left out: 3 in of wood left above, on the right rafter, Left heel"

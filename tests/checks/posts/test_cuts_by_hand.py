"""What cuts leave of a post of 5 1/2 x 7 1/2 in: strips, areas and places, each by hand and at its limit."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.core.wood.strength import Section
from beamcheck.checks.posts.cuts import can_be_counted, cut_checks, least_area, weak_places, weakened
from beamcheck.model.sticks import Cut

from ..houses import Data

SECTION = Section(5.5, 7.5, 5.5)


def hole(depth: float, at: float = 48.0, up: float = 3.75, **more: Any) -> Data:
    return {"kind": "hole", "at": f"{at} in", "depth": f"{depth} in", "from_bottom": f"{up} in", **more}


def notch(depth: float, face: str = "top", at: float = 48.0, long: float = 4.0) -> Data:
    return {"kind": "notch", "at": f"{at} in", "depth": f"{depth} in", "length": f"{long} in", "face": face}


def mortise(depth: float, width: float, up: float = 3.75, long: float = 4.0) -> Data:
    return {"kind": "mortise", "at": "48 in", "depth": f"{depth} in", "length": f"{long} in", "width": f"{width} in",
            "from_bottom": f"{up} in"}  # fmt: skip


def run(*cuts: Data, surveyed: tuple[Data, ...] = (), section: Section = SECTION, plies: int = 1) -> Any:
    survey = SimpleNamespace(cuts=[Cut.model_validate(cut) for cut in surveyed]) if surveyed else None
    made = [Cut.model_validate(cut) for cut in cuts]
    return SimpleNamespace(post=SimpleNamespace(name="P", cuts=made, stock="s", height=96.0, plies=plies),
                           section=section, column=section, pressed=[8000.0],
                           context=SimpleNamespace(stock=lambda name: SimpleNamespace(survey=survey)))  # fmt: skip


# what is lost of the deep and the thin side, what is left, how far its middle is off, the length and the thinnest part
CUTS = [
    ([hole(1)], (1, 0, 6.5 * 5.5, 0, 1, 3.25)), ([hole(1, length="3 in")], (1, 0, 6.5 * 5.5, 0, 3, 3.25)),
    ([hole(1, up=2)], (1, 0, 6.5 * 5.5, 1.75 / 6.5, 1, 1.5)), ([hole(2, up=0.5)], (1.5, 0, 6 * 5.5, 0.75, 2, 6)),
    ([hole(2, up=7)], (1.5, 0, 6 * 5.5, 0.75, 2, 6)), ([hole(1, face="top")], (0, 1, 7.5 * 4.5, 0, 1, 2.25)),
    ([hole(1, face="top"), hole(1, up=2)], (1, 1, 6.5 * 4.5, 1.75 / 6.5, 1, 1.5)),
    ([notch(7, long=0.5)], (7, 0, 0.5 * 5.5, 3.5, 0.5, 0.5)),
    ([notch(1.5)], (1.5, 0, 6 * 5.5, 0.75, 4, 6)), ([notch(1.5, "bottom")], (1.5, 0, 6 * 5.5, 0.75, 4, 6)),
    ([notch(1.5), notch(1.5, "bottom")], (3, 0, 4.5 * 5.5, 0, 4, 4.5)),
    ([notch(2), notch(1, "bottom")], (3, 0, 4.5 * 5.5, (2 * 2.75 - 3.25) / 4.5, 4, 4.5)),
    ([notch(2), hole(1, up=6)], (2, 0, 5.5 * 5.5, 1, 4, 5.5)),  # the hole lies in the notch
    ([notch(2), hole(1, up=5.5)], (2.5, 0, 5 * 5.5, 1.25, 4, 5)),  # and half beside it
    ([notch(2), hole(1, up=5)], (3, 0, 4.5 * 5.5, 1.5, 4, 4.5)),  # and just under it
    ([mortise(2, 1.5)], (2, 0, 5.5 * 5.5 + 4 * 2, 0, 4, 2.75)), ([mortise(2, 5.5)], (2, 0, 5.5 * 5.5, 0, 4, 2.75)),
    ([mortise(2, 1.5), hole(1, up=1)], (3, 0, 4.5 * 5.5 + 4 * 2, 2.75 / 4.5, 4, 0.5)),
    ([mortise(2, 1.5), hole(1, up=3)], (2.25, 0, 5.25 * 5.5, 2.25 * 0.125 / 5.25, 4, 2.5)),  # at one height
    ([mortise(2, 1.5), hole(1, up=5.25)], (3, 0, 4.5 * 5.5, 1.5 / 4.5, 4, 1.75)),  # just above it: one strip
    ([mortise(2, 1.5), hole(1, face="top")], (2, 1, 5.5 * 4.5, 0, 4, 2.25)),
]  # fmt: skip


@pytest.mark.parametrize(("cuts", "left"), CUTS)
def test_what_is_left(cuts: list[Data], left: tuple[float, ...]) -> None:
    (weak,) = weak_places(run(*cuts))
    found = (weak.lost_d, weak.lost_b, weak.area, weak.off, weak.length, weak.cheek)
    assert found == pytest.approx(left)
    assert least_area(run(*cuts)) == pytest.approx(min(left[2], 41.25))
    column = weakened(run(*cuts), weak).column
    assert (column.d, column.b, column.breadth_alone) == pytest.approx((7.5 - left[0], 5.5 - left[1], 5.5 - left[1]))


@pytest.mark.parametrize(("cuts", "places"), [
    ([hole(1, 48), hole(1, 52.99)], 1), ([hole(1, 48), hole(1, 53)], 2),  # four of the larger between them (NDS 3.1.3)
    ([hole(0.5, 48), hole(1, 52.7)], 1), ([hole(0.5, 48), hole(1, 52.8)], 2),
    ([hole(1, 52.7), hole(0.5, 48)], 1), ([notch(1, at=48), notch(1, at=52)], 2),
    ([notch(1, at=48), notch(1, at=51.9)], 1),
    ([notch(1, at=48), hole(1, 54.4)], 1), ([notch(1, at=48), hole(1, 54.6)], 2),
    ([notch(1, at=48, long=20), hole(0.25, 44), hole(1, 62.4)], 1),  # of the longest, not of the last
])  # fmt: skip
def test_cuts_at_one_place(cuts: list[Data], places: int) -> None:
    assert len(weak_places(run(*cuts))) == places


def test_what_a_survey_found_counts_below_the_top() -> None:
    assert len(weak_places(run(surveyed=(hole(1, 96), hole(1, 40))))) == 2
    assert len(weak_places(run(surveyed=(hole(1, 96.5), hole(1, 40))))) == 1
    assert weak_places(run()) == [] and least_area(run()) == 41.25
    assert least_area(run(section=Section(8.0, 8.0, 8.0, round=True))) == pytest.approx(3.14159265 * 16)


@pytest.mark.parametrize(("cuts", "more", "verdict"), [
    ([mortise(3.5, 5.5, long=16.01)], {}, "refer"),  # cheeks of 2 in: eight times (judgment)
    ([hole(1)], {"section": Section(8.0, 8.0, 8.0, round=True)}, "refer"),
    ([hole(1, face="top")], {"section": Section(3.0, 5.5, 1.5), "plies": 2}, "refer"),
    ([hole(5, face="top")], {}, "refer"), ([notch(6.6, long=8)], {}, "refer"),  # cheeks of 1/4 in, a strip of 0.9 in
    ([mortise(7.5, 5.5, long=0.01)], {}, "fails"), ([hole(5.5, face="top")], {}, "fails"),
])  # fmt: skip
def test_what_is_left_is_not_counted(cuts: list[Data], more: Any, verdict: str) -> None:
    made = run(*cuts, **more)
    assert not any(can_be_counted(made, weak) for weak in weak_places(made))
    (check,) = cut_checks(made)
    assert check.verdict == verdict and bool(check.questions) == (verdict == "refer")


@pytest.mark.parametrize(("cuts", "more"), [
    ([mortise(3.5, 5.5, long=16)], {}), ([hole(1)], {"section": Section(3.0, 5.5, 1.5), "plies": 2}),
    ([hole(1, face="top")], {}),
])  # fmt: skip
def test_what_is_left_is_counted(cuts: list[Data], more: Any) -> None:
    made = run(*cuts, **more)
    assert all(can_be_counted(made, weak) for weak in weak_places(made))


@pytest.mark.parametrize(("cut", "counts"), [
    (notch(6.4), True), (notch(6.6), True), (notch(7.4, long=0.5), True), (notch(7.5, long=0.5), False),
])  # fmt: skip
def test_what_is_left_counts_until_it_is_nothing(cut: Data, counts: bool) -> None:
    """Of 7 1/2 in a strip of 1.1 in, of 0.9 in, of 0.1 in, and none."""
    made = run(cut)
    assert [can_be_counted(made, weak) for weak in weak_places(made)] == [counts]

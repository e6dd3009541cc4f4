"""Layers that contradict what stands beside them are asked about; the best answer closes."""

from __future__ import annotations

from typing import Any

import pytest

from .test_roof_fits import answered, open_checks
from .test_site import changed, floor_set, girder, joists, porch, rafters, roof_set


@pytest.mark.parametrize(
    ("made", "change", "key"),
    [
        (girder, floor_set(framing="remove"), "area_framing"), (porch, roof_set(framing="remove"), "area_framing"),
        (joists, floor_set(use="attic without storage"), "finished_attic"),
        (joists, floor_set(layers=["3/4 in panel", "plaster on wood lath"]), "ceiling_finish"),
        (rafters, roof_set(layers=["asphalt shingles, one layer", "1/2 in gypsum board"]), "ceiling_finish"),
    ],
)  # fmt: skip
def test_layers_and_what_is_said_beside_them(made: Any, change: Any, key: str) -> None:
    """The weight of joists, IRC Table R301.5 and R301.7 (read): nothing of it is taken in silence."""
    data = changed(made(), change)
    found = [question for check in open_checks(data) for question in check.questions]
    (question,) = {one.id: one for one in found if one.id.endswith(f"/{key}")}.values()
    data = answered(data, *question.answers[0].sets[0])
    assert not [q.id for check in open_checks(data) for q in check.questions if q.id == question.id]


def test_joists_bring_their_own_weight() -> None:
    """One of a row weighs itself: nothing is asked about the framing of its floor."""
    assert not open_checks(changed(joists(), floor_set(framing="remove")))

"""Anchor groups whose description contradicts itself, or is less than usual: each refers, whatever its ratios say."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.anchors.contradictions import sense_checks

from .anchors import A36, HALF, group, stock

TWO = {"rows": 1, "columns": 2, "spacing": "4 in", "end": "4 in", "edge": "6 in"}
SLOTTED = {"manner": "concealed plate", "other": None, "plate": {**A36, "length": "14 in"}, "holes": TWO, "arm": "3 in"}


def said(**anchor: Any) -> list[str]:
    return [note for check in sense_checks(group([500.0], **anchor)) for note in check.notes]


def test_a_group_that_makes_sense_says_nothing() -> None:
    assert said() == []
    assert said(**SLOTTED) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"held": stock(moisture="green", measured_moisture="30 %")}, "is green"),
        ({"fastener": {**HALF, "washer": "1 in"}}, "less than a standard cut washer"),
        ({"fastener": {**HALF, "F_yb": "300,000 psi", "F_yb_from": "maker's sheet 7"}}, "far above the table's"),
        ({**SLOTTED, "plate": {**A36, "length": "14 in", "slot_length": "9 in"}}, "how far it stands out"),
        ({**SLOTTED, "gap": "1 in"}, "does not fit a slot"),
        ({**SLOTTED, "plate": {**A36, "length": "8 1/2 in"}}, "edge of the plate"),
        ({"manner": "ledger", "arm": "0 in"}, "cannot lie in the face of the wall"),
    ],
)  # fmt: skip
def test_what_cannot_be_refers(change: dict[str, Any], words: str) -> None:
    notes = said(**change)
    assert any(words in note for note in notes), notes

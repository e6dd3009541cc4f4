"""What a propped beam says of its seats and of the moment over the bracket, just beside each limit: by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.brackets.props.beam import _grows, _hogging, _reactions, _until
from beamcheck.checks.core.asking.question import ask
from beamcheck.checks.core.result import Check

OPEN = (ask("beam_alone", "B"),)
NAMES = ("D", "D + L")


def judged(propped: list[float], alone: list[float], **support: Any) -> list[Check]:
    """What is said of a seat with these forces under D and D + L, lbf, with the bracket and without it."""
    said = SimpleNamespace(held_by=None, tied_down="", holds="rests", **support) if not support else SimpleNamespace(
        **{"held_by": None, "tied_down": "", "holds": "rests", **support}
    )  # fmt: skip
    seat: Any = SimpleNamespace(index=1, name="support 2 on wall", where="at 12 ft", support=said)
    forces = {1: propped}
    beam: Any = SimpleNamespace(
        reactions=lambda index: np.array(forces[index]), combinations=[SimpleNamespace(name=one) for one in NAMES]
    )
    solved = SimpleNamespace(reactions=lambda index: np.array({1: alone}[index]))
    run: Any = SimpleNamespace(beam=SimpleNamespace(name="B"), solved=solved)
    anchors = {"A": SimpleNamespace(name="A")}
    here: Any = SimpleNamespace(anchor=anchors.get)
    return list(_reactions(run, beam, seat, "K1", "K1", here, OPEN))


@pytest.mark.parametrize(
    ("propped", "alone", "demand"),
    [
        ([100.0, -0.51], [100.0, 200.0], 0.51), ([100.0, -0.5], [100.0, 200.0], None),
        ([100.0, -50.51], [100.0, -50.0], 50.51), ([100.0, -50.4], [100.0, -50.0], None),
        ([-3.0, -80.0], [-20.0, -60.0], 80.0), ([20.0, 10.0], [100.0, 200.0], None),
    ],
)  # fmt: skip
def test_an_end_lifts_where_it_did_not_by_more_than_half_a_pound(
    propped: list[float], alone: list[float], demand: float | None
) -> None:
    found = [check for check in judged(propped, alone) if check.id == "bracket.beam_lifted"]
    assert [check.demand for check in found] == ([] if demand is None else [demand])
    assert [(check.verdict, check.combination) for check in found] == [("fails", "D + L")] * len(found)


@pytest.mark.parametrize(
    ("propped", "alone", "more"),
    [
        ([100.0, 200.5], [100.0, 200.0], False),
        ([100.0, 200.52], [100.0, 200.0], True),
        ([100.0, -60.0], [-60.0, -90.0], True),
        ([-59.6, -90.0], [-60.0, -90.0], False),
    ],
)
def test_a_seat_gets_more_by_more_than_half_a_pound(propped: list[float], alone: list[float], more: bool) -> None:
    found = [check for check in judged(propped, alone) if check.id == "bracket.beam_pressed"]
    assert [check.demand for check in found] == [max(propped)] * more
    assert [(check.verdict, check.kind) for check in found] == [("refer", "force")] * more
    assert all(check.combination == NAMES[int(np.argmax(propped))] for check in found)


@pytest.mark.parametrize(
    ("support", "words"),
    [({"held_by": "A"}, "anchor A is checked without that"), ({"tied_down": "strap"}, "held down by 'strap'"),
     ({"holds": "fixed"}, "what holds that end is not checked here"), ({"holds": "rests"}, ""),
     ({"held_by": "B"}, ""), ({"tied_down": " "}, "")],
)  # fmt: skip
def test_what_holds_down_an_end_that_lifts(support: dict[str, str], words: str) -> None:
    (found,) = judged([0.0, -80.0], [100.0, 200.0], **support)
    assert found.verdict == ("refer" if words else "fails")
    assert (words or "nothing is said to hold it down") in found.notes[0]
    assert found.questions == (OPEN if words else ())


@pytest.mark.parametrize(
    ("propped", "alone", "demand"),
    [
        ([50.0, -1.01], [80.0, 90.0], 1.01), ([50.0, -1.0], [80.0, 90.0], None), ([50.0, -41.1], [-40.0, 9.0], 41.1),
        ([50.0, -40.9], [-40.0, 9.0], None), ([50.0, 20.0], [80.0, 90.0], None),
    ],
)  # fmt: skip
def test_a_beam_hogs_over_a_bracket_from_a_pound_inch_more(
    propped: list[float], alone: list[float], demand: float | None
) -> None:
    def moments(values: list[float]) -> Any:
        return lambda low, high: (np.array(values), None, None, None) if low == high == 24.0 else None

    beam: Any = SimpleNamespace(moments=moments(propped), combinations=[SimpleNamespace(name=one) for one in NAMES])
    run: Any = SimpleNamespace(beam=SimpleNamespace(name="B"), solved=SimpleNamespace(moments=moments(alone)))
    found = list(_hogging(run, beam, "K1", 24.0, OPEN))
    assert [(check.demand, check.combination, check.where) for check in found] == (
        [] if demand is None else [(demand, "D + L", "2 ft")])  # fmt: skip


def of(ratio: float) -> Check:
    return Check.of_ratio("bracket.gap", "K", "bending", "c", demand=ratio, capacity=1.0, kind="length")


@pytest.mark.parametrize(
    ("now", "before", "grows"),
    [(0.5, 0.5, False), (0.5000001, 0.5, False), (0.50001, 0.5, True), (0.4, 0.5, False)],
)
def test_what_grows_by_more_than_a_millionth_is_said(now: float, before: float, grows: bool) -> None:
    assert _grows(of(now), of(before)) is grows
    unknown = Check.keeps_rule("bracket.gap", "K", "bending", "c", "said")
    assert _grows(unknown, of(before)) and _grows(of(now), unknown)


def test_nothing_fails_while_it_is_not_known_whether_they_act() -> None:
    assert _until(of(1.25), ()) == of(1.25) and _until(of(0.9), OPEN) == of(0.9)
    waits = _until(of(1.25), OPEN)
    assert (waits.verdict, waits.questions, waits.ratio) == ("refer", OPEN, None)
    assert waits.notes[0] == "1.25 of what is allowed, if there is no gap"
    rule = _until(Check.breaks_rule("bracket.gap", "K", "what", "c", "why"), OPEN)
    assert rule.notes == ("not allowed, if there is no gap", "why")
    asked = Check.refers("bracket.gap", "K", "what", "c", "why", ask=ask("nose_at", "K", beam="B"))
    assert _until(asked, OPEN) is asked

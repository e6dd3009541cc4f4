"""What may be cut out of glued and composite wood, each rule at its limit and beside it.

NDS 2018 5.4.5 and 8.4 (memory); the report is invented, and what it says is taken word by word.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.beams.cuts import regions
from beamcheck.checks.beams.made.engineered import cuts_by_make, engineered_checks
from beamcheck.checks.core.wood.strength import Section
from beamcheck.model.beams import Beam
from beamcheck.model.sticks import Cut
from beamcheck.model.stock import Stock

from ..beams import Data, beam, seat
from .test_engineered import glulam, lvl

LENGTH, FIRST, LAST = 147.0, (0.0, 3.0), (144.0, 147.0)
SPAN = (1.5, 145.5)  # thirds end at 49.5 and 97.5 in
GLULAM, LVL = Section(5.125, 12.0, 5.125), Section(1.75, 12.0, 1.75)
HOLES = {"largest": "2 in", "from_seats": "12 in", "from_edges": "4 in", "middle_third_only": False}
THIRD = {**HOLES, "middle_third_only": True}


def rule(cut: Data, wood: Data, *, pulled: tuple[str, ...] = ()) -> Any:
    """The one check of the limits of a cut."""
    section = GLULAM if wood["made"] == "glulam" else LVL
    found = regions([Cut.model_validate(cut)], LENGTH, FIRST, LAST)
    made = cuts_by_make(Beam.model_validate(beam()), Stock.model_validate(wood), found, section, [SPAN],
                        [FIRST, LAST], [pulled])  # fmt: skip
    return next(check for check in made if check.id == "beam.cut")


def notch(length: float, depth: float, face: str = "bottom", at: float = 0.0, kind: str = "notch") -> Data:
    return {"kind": kind, "at": f"{at} in", "length": f"{length} in", "depth": f"{depth} in", "face": face}


def hole(depth: float, at: float = 73.5, up: float = 6.0, **more: Any) -> Data:
    return {"kind": "hole", "at": f"{at} in", "depth": f"{depth} in", "from_bottom": f"{up} in", **more}


@pytest.mark.parametrize(("cut", "pulled", "verdict"), [
    (notch(3, 1.2), (), "passes"), (notch(3, 1.21), (), "fails"),  # d/10 at the bearing
    (notch(3.01, 1.2), (), "fails"),  # past the seat
    (notch(3, 4.8, "top"), (), "passes"), (notch(3, 4.81, "top"), (), "fails"),  # 2d/5 in what is pressed
    (notch(3, 4.8, "top"), ("top",), "fails"), (notch(3, 1.2, "top"), ("top",), "passes"),
    (notch(49.5, 1, "top"), (), "passes"), (notch(49.51, 1, "top"), (), "fails"),
    (notch(49.5, 1, "top", 147), (), "passes"), (notch(49.51, 1, "top", 147), (), "fails"),
    (notch(3, 1, "top", 60), (), "fails"), (notch(3, 1, kind="taper"), (), "refer"), (hole(1), (), "refer"),
    (notch(3, 12, "top"), (), "fails"),  # nothing left
])  # fmt: skip
def test_cuts_of_glued_timber(cut: Data, pulled: tuple[str, ...], verdict: str) -> None:
    check = rule(cut, glulam(size="5 1/8 in x 12 in"), pulled=pulled)
    assert check.verdict == verdict and bool(check.questions) == (verdict == "refer")


@pytest.mark.parametrize(("cut", "said", "verdict", "asks"), [
    (notch(3, 1), {"end_notch": "1 in"}, "passes", ""), (notch(3, 1.01), {"end_notch": "1 in"}, "fails", ""),
    (notch(3, 0.25), {"end_notch": "0 in"}, "fails", ""), (notch(3, 1), {}, "refer", "wood/report_notch"),
    (notch(3.01, 1), {"end_notch": "1 in"}, "refer", "B/cut"),
    (notch(3, 1, kind="taper"), {"end_notch": "1 in"}, "refer", "B/cut"),
    (notch(3, 1, at=60), {"end_notch": "1 in"}, "refer", "B/cut"),
    (hole(2), {}, "refer", "wood/report_holes"), (hole(2), {"holes": "none"}, "fails", ""),
    (hole(2), {"holes": HOLES}, "passes", ""), (hole(2.01), {"holes": {**HOLES, "from_edges": "0.5 in"}}, "fails", ""),
    (hole(2, up=5), {"holes": HOLES}, "passes", ""), (hole(2, up=4.99), {"holes": HOLES}, "fails", ""),
    (hole(2, up=7), {"holes": HOLES}, "passes", ""), (hole(2, up=7.01), {"holes": HOLES}, "fails", ""),
    (hole(2, 16), {"holes": HOLES}, "passes", ""), (hole(2, 15.99), {"holes": HOLES}, "fails", ""),
    (hole(2, 131), {"holes": HOLES}, "passes", ""), (hole(2, 131.01), {"holes": HOLES}, "fails", ""),
    (hole(2, 50.5), {"holes": THIRD}, "passes", ""), (hole(2, 50.49), {"holes": THIRD}, "fails", ""),
    (hole(2, 96.5), {"holes": THIRD}, "passes", ""), (hole(2, 96.51), {"holes": THIRD}, "fails", ""),
    (hole(2, length="2 in"), {"holes": HOLES}, "passes", ""),
    (hole(2, length="2.01 in"), {"holes": HOLES}, "refer", "B/cut"),
    (hole(1, face="top"), {"holes": HOLES}, "refer", "B/cut"), (hole(12), {"holes": HOLES}, "fails", ""),
])  # fmt: skip
def test_cuts_of_composite_wood(cut: Data, said: Data, verdict: str, asks: str) -> None:
    check = rule(cut, lvl(size="1 3/4 in x 12 in", report=said))
    assert check.verdict == verdict
    assert [one.id.split(" at ")[0] for one in check.questions] == ([asks] if asks else [])


def test_what_is_asked_of_a_report_allows_the_cut_there_is() -> None:
    for cut, field, first in ((notch(3, 1), "end_notch", "1 in"), (hole(2), "holes", "2 in")):
        (question,) = rule(cut, lvl(size="1 3/4 in x 12 in")).questions
        assert question.field == f"stock.wood.report.{field}"
        ((path, value),) = question.answers[0].sets
        assert path == question.field and (value if field == "end_notch" else value["largest"]) == first


@pytest.mark.parametrize("at", [30.0, 73.5, 120.0])
def test_the_answer_that_a_report_allows_a_hole_closes_it(at: float) -> None:
    """Wherever it lies along the piece: what is answered allows one like it, and no other place is spoken of."""
    (question,) = rule(hole(2, at), lvl(size="1 3/4 in x 12 in")).questions
    (allows, _), (none, word) = (answer.sets[0] for answer in question.answers)
    assert (allows, none, word) == ("stock.wood.report.holes", "stock.wood.report.holes", "none")
    said = dict(question.answers[0].sets)["stock.wood.report.holes"]
    assert rule(hole(2, at), lvl(size="1 3/4 in x 12 in", report={"holes": said})).verdict == "passes"


@pytest.mark.parametrize(("wood", "fastener", "by_report"), [
    (glulam(), True, False), (lvl(), True, True), (lvl(), False, False),
])  # fmt: skip
def test_a_fire_and_fasteners(wood: Data, fastener: bool, by_report: bool) -> None:
    """A fire is for an engineer (NDS 2018 16.2, memory); fasteners in composite wood go by its report (8.1)."""
    anchor = SimpleNamespace(fastener="lag" if fastener else None)
    context: Any = SimpleNamespace(anchor=lambda name: anchor if name == "bolts" else None)
    held = [seat("0 ft", held_by="bolts"), seat("12 ft", held_by="hook")]
    for fire in ({}, {"fire": {"minutes": 60, "exposed": ["bottom"]}}):
        piece = Beam.model_validate(beam(supports=held, **fire))
        ids = [check.id for check in engineered_checks(piece, Stock.model_validate(wood), context)]
        assert ids == ["fire.engineer"] * bool(fire) + ["beam.report_fasteners"] * by_report

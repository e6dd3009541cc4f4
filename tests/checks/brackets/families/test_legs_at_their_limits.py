"""The joint of the legs of a braced bracket at its limits, under forces in the brace that are given.

Statics: a brace at 45 degrees under N pulls the top leg away with N cos 45 and lifts it by N sin 45 less the load.
"""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.brackets.families.braced_joints import brace_slides, legs_joined
from beamcheck.checks.core.result import Check

from ..brackets import BRACED, Data, bracket, find, fixings, loads_of, structure, wood

STEEL: Data = {"manner": "steel", "takes": "900 lb", "report": "report TR-0, 2025 edition", "both_sides": True}
LEGS: Data = {**BRACED, "height": "24 in", "projection": "24 in", "wall_leg": "4 in", "top_leg": "4 in"}


def lap(*down: str, **more: Any) -> Data:
    bolt = {"kind": "bolt", "size": "1/4 in", "steel": "A307", "length": "4 in"}
    rows = [{"down": one, "count": 1} for one in down]
    return {"manner": "lap", "fastener": bolt, "end": "2 in", "rows": rows, **more}


def joined(legs_joint: Data | None, up: float = -50.0, T: float = 96.0, **shape: Any) -> list[Check]:
    """What is said of the joint that is pulled by T and lifted by `up`, lbf."""
    made = {**LEGS, **shape, "legs_joint": legs_joint}
    piece, here = bracket({key: value for key, value in made.items() if value is not None}, "20 lb", "12 in",
                          fixings=fixings()), structure()  # fmt: skip
    loads = loads_of(piece, here)
    many = np.ones(len(loads.combinations))
    force: Any = SimpleNamespace(shape=piece.shape, N=many * T * math.sqrt(2.0), F=many * (T - up), beta=45.0)
    return list(legs_joined(piece, loads, wood(here), force, here))


@pytest.mark.parametrize(("up", "said"), [(-50.0, False), (0.49, False), (0.51, True), (80.0, True)])
def test_what_lifts_is_said_from_half_a_pound(up: float, said: bool) -> None:
    (text,) = joined(None, up)[0].notes
    assert "must hold 96 lb apart" in text and ("upwards" in text) is said
    assert said is ("and 80 lb upwards" in text or up == 0.51)
    steel = [check for check in joined(STEEL, up) if check.what.endswith(", upwards")]
    assert [check.verdict for check in steel] == ["refer"] * said
    if said:
        assert steel[0].questions[0].answers[0].sets[0][1] == f"{math.ceil(up):g} lb"


@pytest.mark.parametrize(("takes", "pull"), [("96.1 lb", "passes"), ("95.9 lb", "fails")])
def test_steel_takes_what_its_report_says(takes: str, pull: str) -> None:
    assert [check.verdict for check in joined({**STEEL, "takes": takes})] == [pull]
    lifted = joined({**STEEL, "takes_up": takes}, up=96.0)
    assert find(lifted, "joint of the legs, upwards").verdict == pull


@pytest.mark.parametrize(("missing", "field"), [("takes", "takes"), ("report", "report"), ("both_sides", "both_sides")])
def test_each_word_of_the_report_is_asked(missing: str, field: str) -> None:
    steel = {key: value for key, value in STEEL.items() if key != missing}
    (asked,) = [check for check in joined(steel) if check.verdict == "refer"]
    assert [one.field for one in asked.questions] == [f"bracket.K.shape.legs_joint.{field}"]
    if missing == "takes":  # in tens of pounds
        assert asked.questions[0].answers[0].sets[0][1] == "100 lb"


@pytest.mark.parametrize(("leg", "offered"), [("2.75 in", True), ("2.74 in", False)])
def test_a_lap_is_offered_where_a_bolt_has_room(leg: str, offered: bool) -> None:
    """Seven diameters to the end and four to the edge: 11/4 in."""
    (question,) = joined(None, wall_leg=leg)[0].questions
    assert len(question.answers) == 1 + offered
    steel = question.answers[-1].sets[0][1]
    assert steel["takes"] == "100 lb" and steel["both_sides"] is True
    if offered:
        rows = question.answers[0].sets[0][1]["rows"]
        assert [row["down"] for row in rows] == ["1 in", "3.55 in"]  # 0.45 in from the edge of 4 in


@pytest.mark.parametrize(
    ("down", "missing"),
    [(("1 in", "3.5 in"), ()), (("1 in", "3.49 in"), ("below",)), (("3.5 in",), ("above",)), (("3.49 in",), ("below",)),
     (("3.5 in", "3.9 in"), ("above",))],
)  # fmt: skip
def test_a_row_on_either_side_of_a_check_at_the_housing(down: tuple[str, ...], missing: tuple[str, ...]) -> None:
    """Housed 1/2 in into a top leg of 4 in: a level check may run 3 1/2 in down; a row just there is below it."""
    lost = [check.what for check in joined(lap(*down)) if "no row of the lap" in " ".join(check.notes)]
    assert [what.split(", ")[1].split(" ")[0] for what in lost] == list(missing)


@pytest.mark.parametrize(("second", "near"), [("2 in", False), ("1.99 in", True)])
def test_rows_stand_four_diameters_apart(second: str, near: bool) -> None:
    """NDS 2018 Table 12.5.1B: 4 x 1/4 in."""
    found = [check.verdict for check in joined(lap("1 in", second, "3.6 in")) if check.what.endswith("rows apart")]
    assert found == ["fails"] * near


def test_half_of_the_leg_is_taken_and_asked_where_the_end_is_not_said() -> None:
    asked = find(joined(lap("1 in", "3.6 in", end=None)), "joint of the legs, its end")
    assert asked.verdict == "refer" and asked.questions[0].field == "bracket.K.shape.legs_joint.end"
    assert asked.questions[0].answers[0].sets[0][1] == "2 in"  # of 4 in
    assert not [check for check in joined(lap("1 in", "3.6 in")) if check.what.endswith("its end")]


WORST = "lateral load on the worst fastener"


@pytest.mark.parametrize(("up", "whole"), [(-50.0, 96.0), (72.0, 120.0)])
def test_rows_of_one_side_share_and_either_side_holds_it_all(up: float, whole: float) -> None:
    """96 lb apart; with 72 lb upwards 120 lb (3 to 4 to 5); what presses down bears on the shoulder."""
    found = joined(lap("1 in", "2.5 in", "3.6 in", "3.8 in"), up)
    worst = [check.demand for check in found if check.what.endswith(WORST)]
    assert worst == pytest.approx([0.5 * whole] * 4)  # two below 3 1/2 in down, two above


@pytest.mark.parametrize("down", ["1 in", "2 in", "3 in"])
@pytest.mark.parametrize("count", [1, 2, 3])
def test_fasteners_of_one_row_share_what_pulls_in_its_line(down: str, count: int) -> None:
    """96 lb over one, two or three 1 1/2 in apart: nothing turns the row, however far from the middle of the leg."""
    made = lap(down, end="1 in", **({"apart": "1 1/2 in"} if count > 1 else {}))
    made["rows"][0]["count"] = count
    found = joined(made, wall_leg="6 in")
    assert [check.demand for check in found if check.what.endswith(WORST)] == pytest.approx([96.0 / count])
    assert not [check for check in found if check.what.endswith("eccentric group")]


def test_where_a_row_stands_in_either_leg() -> None:
    """1 in from the end of the top leg, 1 in and 3.6 in down: to ends and edges of two legs 4 in deep."""
    found = joined(lap("1 in", "3.6 in", end="1 in"))
    for down, row in ((1.0, "1 in down"), (3.6, "3 5/8 in down")):
        given = {check.what.split(f"{row}: ")[1]: check.capacity for check in found if f"{row}: " in check.what}
        assert given["end distance in the wall leg"] == pytest.approx(down)
        assert given["distance to the given edge in the wall leg"] == pytest.approx(1.0)
        assert given["end distance in the held piece K"] == pytest.approx(1.0)
        assert given["distance to the top edge in the held piece K"] == pytest.approx(down)
        assert given["distance to the bottom edge in the held piece K"] == pytest.approx(4.0 - down)


@pytest.mark.parametrize(("count", "sides"), [(1, {"below a level check at the housing"}), (2, {"all of it"})])
def test_two_screws_into_the_end_of_a_butted_brace_cross_any_check(count: int, sides: set[str]) -> None:
    screw = {"kind": "wood screw", "size": "No. 14", "length": "6 in", "bored_ahead": True}
    screws = {"fastener": screw, "count": count, "through": "3 1/2 in"}
    found = joined(lap("1 in"), joints="butted", housing=None, behind_housing=None, end_screws=screws)
    said = {check.what.split(", ")[1].split(":")[0] for check in found if ", " in check.what}
    assert sides <= said and (count == 1 or not any("check" in one for one in said))


@pytest.mark.parametrize(
    ("T", "says", "takes"), [(0.0, "0 lb", "10 lb"), (9.0, "9 lb", "10 lb"), (10.1, "10", "20 lb")]
)
def test_a_joint_that_hardly_anything_pulls_is_offered_ten_pounds(T: float, says: str, takes: str) -> None:
    """Nothing is lifted where it is pressed down; a joint that takes 0 lb would be no answer."""
    (found,) = joined(None, up=-1.0, T=T)
    assert found.notes[0].startswith(f"the joint of top leg and wall leg must hold {says}")
    assert found.questions[0].answers[-1].sets[0][1]["takes"] == takes
    unsaid = {key: value for key, value in STEEL.items() if key != "takes"}
    asked = find(joined(unsaid, up=-1.0, T=T), "joint of the legs")
    assert asked.questions[0].answers[0].sets[0][1] == takes


# ---- screws into the ends of a butted brace ------------------------------------------------------------------------


def slides(count: int | None = 1, *, beta: float = 30.0, size: str = "1/4 in", **shape: Any) -> list[Check]:
    """100 lb in a brace of 30 degrees, 19 in out and 17 in down; the legs are 24 in long."""
    lag = {"kind": "lag screw", "size": size, "length": "6 in"}
    screws = {"end_screws": {"fastener": lag, "count": count, "through": "3 1/2 in"}} if count else {}
    made = {**LEGS, "joints": "butted", "housing": None, "behind_housing": None, "brace_out": "19 in",
            "brace_down": "17 in", **screws, **shape}  # fmt: skip
    piece, here = bracket(made, "20 lb", "12 in", fixings=fixings()), structure()
    loads = loads_of(piece, here)
    many = np.ones(len(loads.combinations))
    force: Any = SimpleNamespace(shape=piece.shape, N=100.0 * many, F=50.0 * many, beta=beta)
    return list(brace_slides(piece, loads, wood(here), force, here, 18.0))


INTO = "screws into the brace through the "


@pytest.mark.parametrize(("count", "aside"), [(1, 1.25), (2, 0.625)])
def test_screws_into_the_end_of_a_brace(count: int, aside: float) -> None:
    """Level along the top leg N cos 30, down the wall leg N sin 30, shared; side by side over 2 1/2 in of thickness."""
    found = {check.what.removeprefix(INTO): check for check in slides(count)}
    for leg, force, beyond in (("top leg", 100.0 * math.cos(math.pi / 6.0), 5.0), ("wall leg", 50.0, 7.0)):
        assert found[f"{leg}: {WORST}"].demand == pytest.approx(force / count)
        assert found[f"{leg}: end distance in the held piece K"].capacity == pytest.approx(beyond)
        assert found[f"{leg}: distance to the given edge in the brace"].capacity == pytest.approx(aside)
        for edge in ("top", "bottom"):
            assert found[f"{leg}: distance to the {edge} edge in the held piece K"].capacity == pytest.approx(aside)
        if count > 1:
            assert found[f"{leg}: spacing across the grain in the brace"].capacity == pytest.approx(1.25)


def test_a_thin_brace_has_its_edges_near() -> None:
    """Of a brace 2 in deep half an inch less; a screw beyond the end of its leg stands nowhere."""
    thin = find(slides(brace="2 in"), f"{INTO}top leg: distance to the given edge in the brace")
    assert thin.capacity == pytest.approx(1.0)
    over = find(slides(brace_out="24 in"), f"{INTO}top leg: end distance")
    assert over.capacity == pytest.approx(0.01) and over.verdict == "fails"


def test_ends_that_nothing_but_glue_keeps_from_sliding_are_asked_about() -> None:
    (asked,) = slides(None)
    assert "with up to 86.6 lb" in asked.notes[0]
    (question,) = asked.questions
    assert question.field == "bracket.K.shape.end_screws"
    screws = question.answers[0].sets[0][1]
    assert (screws["fastener"]["length"], screws["through"]) == ("6.5 in", "4 in")  # 2 1/2 in into the brace
    (glued,) = slides(None, joints="glued only")
    assert dict(glued.questions[0].forces) == pytest.approx({"along the legs": 100.0 * math.cos(math.pi / 6.0)})
    assert "with up to 50 lb" not in slides(None, beta=60.0)[0].notes[0]


def test_a_screw_of_no_known_size_says_why_for_each_leg() -> None:
    found = [check for check in slides(1, size="9/7 in") if check.verdict == "refer"]
    assert found and not [check for check in slides(1, size="9/7 in") if check.ratio is not None]


def test_just_half_a_pound_upwards_is_nothing_yet() -> None:
    assert "upwards" not in joined(None, up=0.5, T=0.0)[0].notes[0]
    assert not [check for check in joined(STEEL, up=0.5, T=0.0) if check.what.endswith("upwards")]


def test_without_a_housing_a_check_may_run_along_the_whole_leg() -> None:
    """A tenoned top leg 4 in deep: no row is below such a check."""
    tenoned = {"joints": "tenoned", "housing": None, "behind_housing": None}
    lost = [check for check in joined(lap("1 in", "3.5 in"), **tenoned) if "no row of the lap" in " ".join(check.notes)]
    assert [check.what.split(", ")[1].split(" ")[0] for check in lost] == ["below"]


def test_what_one_bolt_of_a_lap_takes() -> None:
    """Mode IV of NDS 2018 Table 12.3.1A, whose thread counts (0.189 in): G 0.50, 45,000 psi; across the grain of the
    wall leg 4,450 psi, along that of the top leg 5,600; R_d (10 D + 0.5) 1.25; 2 in from ends and edges (memory)."""
    D, main, side, F_yb = 0.189, 4450.0, 5600.0, 45000.0
    Z = D**2 / ((10.0 * D + 0.5) * 1.25) * math.sqrt(2.0 * main * F_yb / (3.0 * (1.0 + main / side)))
    found = [check for check in joined(lap("2 in", end="2 in")) if check.what.endswith(WORST)]
    assert [check.capacity for check in found] == pytest.approx([Z])

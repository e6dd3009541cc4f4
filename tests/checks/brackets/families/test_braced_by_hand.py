"""Every figure of a braced bracket by statics and the NDS: 18 x 18 in of 2 1/2 x 2 1/2 in, the brace at 45 degrees.

Its axis meets the faces of the legs 15 in out and 15 in down, so it is 12 1/2 in out and down of them, 17.68 in long.
"""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.families.braced_force import Force
from beamcheck.checks.brackets.families.braced_strut import strut_picture
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.core.result import Check
from beamcheck.model.brackets.bracket import Braced

from ...anchors.anchors import said, stock
from ..brackets import BOLT, BRACED, Data, bracket, find, fixings, loads_of, structure, wood
from ..by_hand import F_B, F_PERP, F_T, F_V, E, at_angle, bending, buckling, column

SIN = math.sin(math.radians(45.0))
LENGTH = 12.5 / SIN
STEEL: Data = {"manner": "steel", "takes": "900 lb", "report": "report TR-0, 2025 edition", "both_sides": True}


def body(shape: Data, load: Data, **more: Any) -> Body:
    here = structure()
    piece = bracket(shape, carries=[load], **more)
    return family_of(piece).body(loads_of(piece, here), wood(here), here)


def at(x: float, P: float = 100.0, kind: str = "live") -> Data:
    return {"what": "shelf", kind: f"{P} lb", "at": f"{x} in"}


def brace(x: float, P: float = 100.0) -> float:
    """About the wall face, or about the face of the wall leg where that presses it more."""
    return P * max(x / 15.0, (x - 2.5) / 12.5) / SIN


def test_what_lifts_puts_nothing_into_the_brace() -> None:
    """A dry joint holds no pull: none of the combinations presses, not even by a pound."""
    loads = loads_of(bracket(BRACED, carries=[at(9.0, -50.0, "wind")]), structure())
    assert not Force(Braced.model_validate(BRACED), loads, 45.0).N.any()


def section(joints: str) -> tuple[float, float]:
    """Breadth and depth of a leg where the brace meets it: a tenon's mortise takes a third of the breadth."""
    return 2.5 * (2.0 / 3.0 if joints == "tenoned" else 1.0), 2.5 - (0.5 if joints == "housed" else 0.0)


def pulled(M: float, T: float, b: float, d: float, l_u: float, C_D: float) -> float:
    """NDS eq. 3.9-1 and 3.9-2, the larger."""
    f_b, f_t = M / (b * d**2 / 6.0), T / (b * d)
    return max(f_t / (F_T * C_D) + f_b / (F_B * C_D), (f_b - f_t) / bending(b, d, l_u, C_D))


def leaning(N: float, off: float, C_D: float) -> float:
    """NDS eq. 15.4-1 one way."""
    f_c, F_cE = N / 6.25, buckling(LENGTH, 2.5)
    bent = f_c * 6.0 * off / 2.5 * (1.0 + 0.234 * f_c / F_cE)
    return (f_c / column(2.5, 2.5, LENGTH, C_D)) ** 2 + bent / (bending(2.5, 2.5, LENGTH, C_D) * (1.0 - f_c / F_cE))


@pytest.mark.parametrize("joints", ["housed", "tenoned", "butted"])
@pytest.mark.parametrize(
    ("x", "P", "kind", "C_D"),
    [(15.0, 100.0, "live", 1.0), (18.0, 100.0, "live", 1.0), (6.0, 250.0, "dead", 0.9), (2.0, 250.0, "live", 1.0)],
)  # fmt: skip
def test_every_figure(joints: str, x: float, P: float, kind: str, C_D: float) -> None:
    shape = BRACED if joints == "housed" else {**BRACED, "joints": joints, "housing": None, "behind_housing": None}
    made = body(shape, at(x, P, kind), deflects="1/4 in")
    N, (b, d) = brace(x, P), section(joints)
    level = upright = N * SIN  # at 45 degrees
    M = max(P * (x - 15.0), 0.0) if x >= 15.0 else P * 15.0 / 4.0
    figures = {
        "top leg": (pulled(M, level, b, d, 18.0, C_D), 1.0),
        "shear of the top leg": (1.5 * max(P, abs(P - upright)) / (b * d), F_V * C_D),
        "wall leg": (pulled(1.25 * upright, upright, b, d, 18.0, C_D), 1.0),
        "brace": (leaning(N, 0.5, C_D), 1.0),  # a tight joint presses a fifth of the depth off the axis
        "brace with a check along it": (N / 6.25, column(2.5, 1.25, LENGTH, C_D)),
        "end of the brace on the top leg": (N * SIN**2 / 6.25, F_PERP),
        "end of the brace on the wall leg": (N * SIN**2 / 6.25, F_PERP),
        "sinking under the load": (sunk(x, P, joints == "housed"), 0.25),
    }
    if joints == "housed":
        figures |= {f"housing in the {leg}": (level / 1.25, at_angle(45.0, C_D)) for leg in ("top leg", "wall leg")}
        behind = 1.5 * level / (2.5 * 1.0)
        figures |= {f"wood behind the housing in the {leg}": (behind, F_V * C_D) for leg in ("top leg", "wall leg")}
    for what, (demand, capacity) in figures.items():
        check = next(one for one in made.checks if one.what == what and one.ratio is not None)
        found = [check.demand, check.capacity, check.ratio]
        assert found == pytest.approx([demand, capacity, demand / capacity], rel=1e-4), what
    tie = find(made.checks, "joint of the legs")
    assert (tie.demand, tie.capacity) == pytest.approx((level, 900.0))


def sunk(x: float, P: float, housed: bool) -> float:
    """Brace with its ends, joint of the legs with the top leg, bending, 1/32 in of slack in each joint; creep 1.5."""
    n = brace(x, 1.0)
    t, v = n * SIN, 1.0 - n * SIN
    area = 2.5 * 0.5 if housed else 2.5 * 2.5 / SIN
    c_b = LENGTH / (E * 6.25) + 2.0 / (E / 20.0 * area / 2.5)
    c_t = 1.0 / 10000.0 + 15.0 / (E * 6.25)
    inertia = 2.5 * (2.0 if housed else 2.5) ** 3 / 12.0
    bent = P * x * (x - 15.0) ** 2 / 3.0 if x >= 15.0 else P * x**2 * (15.0 - x) ** 2 / 45.0
    slack = 0.03125
    elastic = P * (n**2 * c_b + t**2 * c_t + v**2 / 10000.0) + bent / (E * inertia) + slack * (n + t)
    return 1.5 * elastic


def test_true_pins_and_a_bow_move_the_force_in_the_brace() -> None:
    bowed = {**BRACED, "sagitta": "1 in", "joints": "tenoned", "housing": None, "behind_housing": None}
    assert find(body(bowed, at(15.0)).checks, "brace").ratio == pytest.approx(leaning(brace(15.0), 1.5, 1.0))
    pins = {**bowed, "true_pins": True}
    assert find(body(pins, at(15.0)).checks, "brace").ratio == pytest.approx(leaning(brace(15.0), 1.0, 1.0))


@pytest.mark.parametrize(("sagitta", "verdict"), [(1.16, "passes"), (1.17, "refer")])
def test_grain_of_a_sawn_bow_runs_out_by_fifteen_degrees_at_most(sagitta: float, verdict: str) -> None:
    """2 atan(2 s/l) = 15 degrees at s = 17.68/2 tan 7.5 = 1.164 in."""
    found = find(body({**BRACED, "sagitta": f"{sagitta} in"}, at(15.0)).checks, "grain of the curved brace")
    assert found.verdict == verdict
    assert verdict == "passes" or found.demand == pytest.approx(math.degrees(2.0 * math.atan(2.0 * sagitta / LENGTH)))


@pytest.mark.parametrize(
    ("out", "behind", "counted"),
    [(15.0, 1.0, 1.0), (15.0, 6.0, 3.0 - 1.25 / SIN), (12.0, 8.0, 4.0), (16.2, 1.0, 1.8 - 1.25 / SIN),
     (16.3, 1.0, 0.0)],
)  # fmt: skip
def test_wood_behind_a_housing(out: float, behind: float, counted: float) -> None:
    """As stated, no more than to the end of the leg, no more than 8 depths of the housing; the axis stays at 45 deg."""
    made = body(
        {**BRACED, "brace_out": f"{out} in", "brace_down": f"{out} in", "behind_housing": f"{behind} in"}, at(12.0)
    )
    for leg in ("top leg", "wall leg"):
        found = find(made.checks, f"wood behind the housing in the {leg}")
        if not counted:
            assert found.verdict == "fails" and "no wood is left" in found.notes[0]
            continue
        N = 100.0 * max(12.0 / out, 9.5 / (out - 2.5)) / SIN
        assert found.demand == pytest.approx(1.5 * N * SIN / (2.5 * counted))


def test_an_uneven_slope_presses_the_legs_each_its_own_way() -> None:
    """Brace 15 in out and 11.5 in down: 9 on 12.5 from face to face, 35.75 degrees."""
    made = body({**BRACED, "brace_down": "11.5 in"}, at(15.0))
    beta = math.atan2(9.0, 12.5)
    N = 100.0 / math.sin(beta)
    assert find(made.checks, "end of the brace on the top leg").demand == pytest.approx(N * math.sin(beta) ** 2 / 6.25)
    assert find(made.checks, "end of the brace on the wall leg").demand == pytest.approx(N * math.cos(beta) ** 2 / 6.25)
    top, wall = find(made.checks, "housing in the top leg"), find(made.checks, "housing in the wall leg")
    assert top.demand == pytest.approx(N * math.cos(beta) / 1.25) and wall.demand == pytest.approx(100.0 / 1.25)
    assert top.capacity == pytest.approx(at_angle(math.degrees(beta)))
    assert wall.capacity == pytest.approx(at_angle(90.0 - math.degrees(beta)))
    left = (3.0 - 1.25 / math.sin(beta), 6.5 - 1.25 / math.cos(beta))
    both = body({**BRACED, "brace_down": "11.5 in", "behind_housing": "4 in", "housing": "1 in"}, at(15.0))
    behind = [find(both.checks, f"wood behind the housing in the {leg}").demand for leg in ("top leg", "wall leg")]
    assert behind == pytest.approx([1.5 * N * math.cos(beta) / (2.5 * left[0]), 150.0 / (2.5 * min(left[1], 4.0))])
    family = family_of(bracket({**BRACED, "brace_down": "11.5 in"}))
    assert family.pressed_length(9.0) == pytest.approx(2.5 / math.cos(beta)) and family.pressed_length(1.0) == 1.0


def test_its_sizes_weight_and_picture() -> None:
    family = family_of(bracket(BRACED))
    assert (family.back, family.depth_at_back, family.swells) == (18.0, 2.5, 2.5)
    assert family.stiffness(None) == (0.0, math.inf)
    area = 2.5 * (18.0 + 18.0 + math.hypot(15.0, 15.0))
    assert family.weight(0.02) == [(0.0, 18.0, pytest.approx(0.02 * 2.5 * area))]
    view = family_of(bracket({**BRACED, "sagitta": "1 in"})).side_view()
    bowed = {name: outline for name, outline, _ in view.parts}
    middle = (2.5 + 15.0) / 2.0 - 1.0 * SIN  # the axis bows towards the corner by its sagitta
    apart = [math.hypot(x - middle, y - middle) for x, y in bowed["brace"]]
    assert min(apart) == pytest.approx(1.25, abs=0.05)
    assert all(x >= 2.5 - 1e-9 and y >= 2.5 - 1e-9 for x, y in bowed["brace"])


# ---- joint of the legs ---------------------------------------------------------------------------------------


def legs(joint: Data | None, x: float = 18.0, **more: Any) -> list[Check]:
    """Of 100 lb at the nose: T = 100 x 15.5/12.5 = 124 lb apart; 24 lb lift it."""
    made = body({**BRACED, "legs_joint": joint}, at(x), **more)
    return [check for check in made.checks if check.id == "bracket.legs_joined"]


def answers(check: Check) -> list[object]:
    return [answer.sets[0][1] for question in check.questions for answer in question.answers]


@pytest.mark.parametrize(
    ("change", "fields"),
    [({"takes": None}, ["takes"]), ({"report": ""}, ["report"]), ({"both_sides": None}, ["both_sides"]),
     ({"takes": None, "report": "", "both_sides": None}, ["takes", "report", "both_sides"])],
)  # fmt: skip
def test_what_is_not_said_of_the_steel_is_asked(change: Data, fields: list[str]) -> None:
    joint = {key: value for key, value in {**STEEL, "takes_up": "50 lb", **change}.items() if value is not None}
    (refers,) = [check for check in legs(joint) if check.verdict == "refer"]
    assert [one.field.rsplit(".", 1)[1] for one in refers.questions] == fields
    if "takes" in fields:
        assert "130 lb" in answers(refers)  # 124 lb, to the next ten


@pytest.mark.parametrize(("up", "verdict"), [("24.01 lb", "passes"), ("23.9 lb", "fails"), (None, "refer")])
def test_what_lifts_the_top_leg_is_for_the_steel_too(up: str | None, verdict: str) -> None:
    joint = {**STEEL, "takes": "124.01 lb"} | ({"takes_up": up} if up else {})
    holds, lifts = legs(joint)
    assert holds.verdict == "passes" and (holds.demand, holds.capacity) == pytest.approx((124.0, 124.01))
    assert (lifts.what, lifts.verdict) == ("joint of the legs, upwards", verdict)
    assert lifts.demand == pytest.approx(24.0) if up else "24 lb" in answers(lifts)
    (inside,) = legs(joint, x=15.0)  # over the brace nothing lifts
    assert inside.demand == pytest.approx(100.0)
    assert legs({**STEEL, "takes": "123.9 lb"}, x=18.0)[0].verdict == "fails"


def test_a_joint_that_nobody_describes_is_offered_a_lap_where_there_is_room() -> None:
    """Seven diameters of 1/4 in to the end of the one leg and four to the edge of the other are 2 3/4 in."""
    (narrow,) = legs(None)
    assert "124 lb apart" in narrow.notes[0] and "24 lb upwards" in narrow.notes[0] and len(answers(narrow)) == 1
    assert answers(narrow)[0]["takes"] == "130 lb"  # type: ignore[index]
    (wide,) = [one for one in body({**BRACED, "wall_leg": "2 3/4 in", "legs_joint": None}, at(18.0)).checks
               if one.id == "bracket.legs_joined"]  # fmt: skip
    lap: Any = answers(wide)[0]
    assert lap["end"] == "1.75 in" and [row["down"] for row in lap["rows"]] == ["1 in", "2.05 in"]
    assert lap["fastener"]["length"] == "3 in"  # through 2 1/2 in and its nut


def lap(*down: float, **more: Any) -> Data:
    rows = [{"down": f"{one} in", "count": 1} for one in down]
    return {"manner": "lap", "end": "1 1/4 in", "rows": rows, "fastener": BOLT, **more}


def test_rows_of_a_lap_stand_on_both_sides_of_a_check_at_the_housing() -> None:
    """The housing leaves 2 in: a row 2 in down is below the check, one above it; each takes all of T."""
    dry = {"fixings": fixings(rows=[{"below_top": "3 in", "count": 1}])}
    both = legs(lap(0.5, 2.0), **dry)
    assert not [check for check in both if "no row of the lap" in " ".join(check.notes)]
    room = {**BRACED, "wall_leg": "2 3/4 in"}  # for 1/4 in bolts; the brace then runs 12 1/4 in out and 12 1/2 in down
    quarter = {"kind": "bolt", "size": "1/4 in", "steel": "A307", "length": "3 in"}
    joint = lap(1.0, 2.05, end="1 3/4 in", fastener=quarter)
    made = body({**room, "legs_joint": joint}, at(15.0), **dry).checks
    shares = [check.demand for check in made if "lateral load on the worst" in check.what]
    assert shares == pytest.approx([98.0, 98.0])  # of halves 1 1/4 in thick, which no stick is that is sold
    far = [check.capacity for check in made if check.what.endswith("distance to the far edge in the wall leg")]
    assert far == pytest.approx([1.75, 1.75])  # 2 3/4 in less the 1 in from its nearer edge
    above = " ".join(check.what for check in legs(lap(0.5, 1.99), **dry) if check.verdict == "fails")
    assert "below a level check at the housing" in above
    below = " ".join(check.what for check in legs(lap(2.0, 2.4), **dry) if check.verdict == "fails")
    assert "above that check" in below


def test_rows_of_a_lap_are_four_diameters_apart() -> None:
    """4 x 3/8 = 1 1/2 in along the grain of the wall leg."""
    for down, apart in ((2.0, True), (1.99, False)):
        found = [check for check in legs(lap(0.5, down)) if check.what.endswith("rows apart")]
        assert (not found) is apart


def test_whether_the_wood_was_dry_and_whole_is_asked_once() -> None:
    def asked(**more: Any) -> list[str]:
        (found,) = [check for check in legs(lap(0.5, 2.0), **more) if check.what == "wood at the joints"] or [None]
        return [one.field.rsplit(".", 1)[1] for one in found.questions] if found is not None else []

    rows = [{"below_top": "3 in", "count": 1}]
    assert asked() == ["seasoned", "split"]
    assert asked(fixings=fixings(rows=rows, seasoned=None)) == ["seasoned"]
    assert asked(fixings=fixings(rows=rows, split=None)) == ["split"]
    assert asked(fixings=fixings(rows=rows)) == []


def test_where_no_end_is_given_half_of_the_wall_leg_is_taken() -> None:
    joint = {key: value for key, value in lap(0.5, 2.0).items() if key != "end"}
    (end,) = [check for check in legs(joint) if check.what == "joint of the legs, its end"]
    assert answers(end) == ["1.25 in"] and "half of the leg" in said(legs(joint), "refer")


@pytest.mark.parametrize(
    ("down", "fits"), [(2.5, True), (2.49, False), (5.0, True), (5.01, False)]
)  # fmt: skip
def test_the_upper_row_stands_within_a_leg_below_the_joint(down: float, fits: bool) -> None:
    rows = [{"below_top": f"{down} in", "count": 1}]
    made = body(BRACED, at(15.0), fixings=fixings(rows=rows))
    found = [check for check in made.checks if check.id == "bracket.wall_leg_checked"]
    assert [check.verdict for check in found] == ["passes" if fits else "refer"]
    assert fits or answers(found[0]) == ["3.75 in"]


@pytest.mark.parametrize(("through", "far"), [("2 in", True), ("1.99 in", False), (None, True)])
def test_heads_stand_in_front_of_the_housing(through: str | None, far: bool) -> None:
    made = body(BRACED, at(15.0), fixings=fixings(rows=[{"below_top": "3 in", "count": 1}], through=through))
    found = [check.verdict for check in made.checks if check.id == "bracket.wall_leg_checked"]
    assert found == ["passes" if far else "fails"]


@pytest.mark.parametrize(("down", "clear"), [(12.9, True), (12.91, False), (17.09, False), (17.1, True)])
def test_no_head_stands_under_the_end_of_the_brace(down: float, clear: bool) -> None:
    """1 1/4 in/cos 45 and half a hexagon head of 3/8 in, 0.328 in: 2.096 in on either side of 15 in down."""
    rows = [{"below_top": "3 in", "count": 1}, {"below_top": f"{down} in", "count": 1}]
    made = body(BRACED, at(15.0), fixings=fixings(rows=rows))
    found = [check for check in made.checks if check.what == "heads clear of the brace"]
    assert (not found) is clear
    assert clear or found[0].notes[0].endswith("keep them clear of 12 7/8 in to 17 1/8 in")


@pytest.mark.parametrize(("down", "tips"), [(14.99, False), (15.0, True), (16.0, True)])
def test_without_a_row_above_the_brace_it_tips(down: float, tips: bool) -> None:
    made = body(BRACED, at(15.0), fixings=fixings(rows=[{"below_top": f"{down} in", "count": 1}]))
    assert ("rows above the brace" in [check.what for check in made.checks]) is tips
    assert (made.pull is None) is tips
    assert tips or (made.pull is not None and float(made.pull.max()) == pytest.approx(1500.0 / 0.01))


def test_a_straight_brace_is_cut_along_the_faces_of_the_legs() -> None:
    """Its edges lie on x + y = 17 1/2 -+ 1 1/4 sqrt 2: 1.768 in along either face to both sides of the axis."""
    ((_, outline, _),) = [part for part in family_of(bracket(BRACED)).side_view().parts if part[0] == "brace"]
    off = 1.25 * math.sqrt(2.0)
    for x, y in ((2.5, 15.0 - off), (2.5, 15.0 + off), (15.0 - off, 2.5), (15.0 + off, 2.5)):
        assert min(math.hypot(x - a, y - b) for a, b in outline) == pytest.approx(0.0, abs=1e-9), (x, y)
    for x, y in outline:
        assert abs(x + y - 17.5) == pytest.approx(off) and x >= 2.5 - 1e-9 and y >= 2.5 - 1e-9


def test_what_only_lifts_tips_nothing_and_a_straight_brace_has_no_bow() -> None:
    rows = fixings(rows=[{"below_top": "16 in", "count": 1}])
    lifted = body(BRACED, at(9.0, -50.0, "wind"), fixings=rows)
    assert "rows above the brace" not in [check.what for check in lifted.checks]
    assert "rows above the brace" in [check.what for check in body(BRACED, at(9.0), fixings=rows).checks]
    assert not [check for check in lifted.checks if check.id == "bracket.brace_grain"]


@pytest.mark.parametrize(("N", "drawn"), [(0.99, False), (1.0, True)])
def test_less_than_a_pound_in_the_brace_is_not_drawn(N: float, drawn: bool) -> None:
    """Out with N cos beta, down with N sin beta; a brace pressed as if about the wall face is told apart."""
    shape = Braced.model_validate(BRACED)
    loads: Any = SimpleNamespace(combinations=[SimpleNamespace(name="D"), SimpleNamespace(name="D + L")])
    force: Any = SimpleNamespace(N=np.array([0.5, N]), F=np.array([0.1, N * SIN]), x_L=np.array([3.0, 15.0]), beta=45.0)
    found = strut_picture("K", shape, loads, force)
    assert (found is not None) is drawn
    if found is not None:
        assert (found.combination, found.x_L, found.about_the_wall) == ("D + L", 15.0, True)
        assert (found.load, found.brace, found.level, found.upright) == pytest.approx((SIN, 1.0, SIN, SIN))
    force.F = force.F * np.array([1.0, 0.99])  # about the wall face it would be one per cent less
    butted = strut_picture("K", shape, loads, force)
    assert butted is None or not butted.about_the_wall


UNEVEN: Data = {**BRACED, "wall_leg": "3 in", "top_leg": "2 in", "brace_out": "14 in", "brace_down": "11 in"}


def test_the_picture_of_an_uneven_bracket() -> None:
    """Its legs with their grain, the places of the brace's axis, and its slope: 9 in down on 11 in out."""
    view = family_of(bracket(UNEVEN)).side_view()
    (wall, top, _) = view.parts
    assert wall == ("wall leg", ((0.0, 0.0), (3.0, 0.0), (3.0, 18.0), (0.0, 18.0)), 90.0)
    assert top == ("top leg", ((3.0, 0.0), (18.0, 0.0), (18.0, 2.0), (3.0, 2.0)), 0.0)
    assert view.dimensions == [("x", 0.0, 14.0, "brace axis"), ("y", 0.0, 11.0, "brace axis")]
    name, outline, grain = view.parts[2]
    assert name == "brace" and len(outline) == 4
    assert grain == pytest.approx(math.degrees(math.atan2(9.0, 11.0)))
    s, c = 9.0 / math.hypot(9.0, 11.0), 11.0 / math.hypot(9.0, 11.0)
    corners = [(3.0, 11.0 + 1.25 / c), (14.0 + 1.25 / s, 2.0), (14.0 - 1.25 / s, 2.0), (3.0, 11.0 - 1.25 / c)]
    for corner in corners:
        assert min(math.dist(corner, point) for point in outline) == pytest.approx(0.0, abs=1e-9), corner


def test_a_bowed_brace_keeps_its_depth_along_its_axis() -> None:
    """Its edges lie 1 1/4 in to both sides of a parabola with a sagitta of 1 in towards the corner."""
    _, outline, _ = family_of(bracket({**UNEVEN, "sagitta": "1 in"})).side_view().parts[2]
    u = np.linspace(0.0, 1.0, 4001)
    long = math.hypot(11.0, 9.0)
    normal = np.array([-9.0, -11.0]) / long  # towards the corner of the legs
    axis = np.array([3.0, 11.0]) + u[:, None] * np.array([11.0, -9.0]) + (4.0 * u * (1.0 - u))[:, None] * normal
    apart = [float(np.min(np.hypot(*(axis - point).T))) for point in np.array(outline)]
    inner = [d for d, (x, y) in zip(apart, outline, strict=True) if x > 3.01 and y > 2.01]
    assert len(inner) > 60 and inner == pytest.approx([1.25] * len(inner), abs=2e-3)
    flat = math.atan2(9.0, 11.0) - math.atan(4.0 / long)  # its slope where it meets the top leg
    assert max(apart) == pytest.approx(1.25 / math.sin(flat), rel=0.03)


def test_three_sticks_for_a_straight_brace_and_no_board_for_a_bowed_one() -> None:
    straight, bowed = family_of(bracket(BRACED)), family_of(bracket({**BRACED, "sagitta": "1 in"}))
    assert straight.board(stock("4x12 dressed")) is not None and bowed.board(stock("4x12 dressed")) is None


@pytest.mark.parametrize(("change", "asked"), [
    ({"housing": None}, ["housing"]), ({"behind_housing": None}, ["behind_housing"]),
    ({"housing": None, "behind_housing": None}, ["housing", "behind_housing"]), ({"joints": None}, ["joints"]),
])  # fmt: skip
def test_what_is_missing_of_the_joints_of_the_brace_is_asked(change: Data, asked: list[str]) -> None:
    made = body({**BRACED, **change}, at(12.0))
    found = [one for one in made.checks if one.id in ("bracket.housing", "bracket.brace_joints") and one.questions]
    assert [one.field.rsplit(".", 1)[1] for check in found for one in check.questions] == asked
    assert not [one for one in made.checks if one.id == "bracket.behind_housing" and one.ratio is not None]


def test_joints_that_are_only_glued_carry_nothing() -> None:
    glued = {**BRACED, "joints": "glued only", "housing": None, "behind_housing": None}
    assert "only glued" in body(glued, at(12.0)).weak_grain and not body(BRACED, at(12.0)).weak_grain


@pytest.mark.parametrize(("through", "far"), [("2 1/2 in", True), ("2.49 in", False)])
def test_without_a_housing_heads_stand_in_front_of_the_whole_leg(through: str, far: bool) -> None:
    shape = {**BRACED, "joints": "tenoned", "housing": None, "behind_housing": None}
    rows = [{"below_top": "3 in", "count": 1}, {"below_top": "9 in", "count": 1, "through": through}]
    made = body(shape, at(15.0), fixings=fixings(rows=rows, through="2 1/2 in"))
    found = [check for check in made.checks if check.id == "bracket.wall_leg_checked"]
    assert [(check.verdict, check.where) for check in found] == [("passes", "") if far else ("fails", "row 2")]


def test_of_several_rows_the_upper_one_stands_by_the_joint() -> None:
    rows = [{"below_top": "3 in", "count": 1}, {"below_top": "8 in", "count": 1}, {"below_top": "15 in", "count": 1}]
    made = body(BRACED, at(15.0), fixings=fixings(rows=rows))
    found = {check.what: check for check in made.checks if check.id == "bracket.wall_leg_checked"}
    assert {what: (one.verdict, one.where) for what, one in found.items()} == {
        "heads clear of the brace": ("fails", "row 3"), "wall leg with a check along it": ("passes", "")}  # fmt: skip


def test_its_strut_and_ties_are_drawn_where_something_presses() -> None:
    (sketch,) = body(BRACED, at(15.0)).pictures
    assert sketch.picture == "strut"
    assert body(BRACED, at(9.0, -50.0, "wind")).pictures == []

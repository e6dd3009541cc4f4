"""Figures of the split test by hand: outline, load, what a row brings, what a loose tip weighs; and its words."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.calc.pad import Pad
from beamcheck.checks.anchors.manners.registry import connect
from beamcheck.checks.anchors.unsaid import Open
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.fixings.rows import FixingRows
from beamcheck.checks.brackets.loads import bracket_loads
from beamcheck.checks.brackets.split.held import _thinned, held_of, seats_of
from beamcheck.checks.brackets.split.loose import loose_tip
from beamcheck.checks.brackets.split.proof import _record, _steps, information
from beamcheck.checks.brackets.split.row_values import row_value, under_head
from beamcheck.checks.brackets.split.split import _line_words, _rods, _Run, _runs, _unknown, split_checks
from beamcheck.checks.brackets.split.wood_as_it_is import more_checks
from beamcheck.checks.core.context import Context
from beamcheck.checks.core.result import Check
from beamcheck.model.existing import Existing
from beamcheck.values.judgment import judgment

from ...anchors.anchors import group, stock
from ..brackets import CORBEL, LAG, SOLID, Data, bracket, find, fixings, loads_of, structure, wood
from ..by_hand import F_C, F_PERP, F_V, at_angle

WHOLE = [(0.0, 0.0), (10.0, 0.0), (10.0, 3.0), (3.0, 12.0), (0.0, 12.0)]


def points(shape: Data) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in family_of(bracket(shape)).cut_outline()]


def test_outline_with_what_is_cut_out_of_it() -> None:
    assert points(SOLID) == WHOLE
    pocket = {"top": "4 in", "height": "2 in", "depth": "1 in"}
    assert points({**SOLID, "pocket": pocket}) == [*WHOLE, (0.0, 6.0), (1.0, 6.0), (1.0, 4.0), (0.0, 4.0)]
    assert points(CORBEL) == [(0.0, 0.0), (3.5, 0.0), (3.5, 9.0), (0.0, 9.0)]
    dap = {**CORBEL, "seat": "3/4 in", "below_seat": "9 in"}
    assert points(dap) == [(0.0, 0.0), (4.25, 0.0), (4.25, 9.0), (0.0, 9.0)]


def test_a_curve_keeps_within_four_thousandths() -> None:
    """A quarter of a circle of 10 in: no point of it lies farther from the lines between those that are kept."""
    theta = np.linspace(0.0, 0.5 * math.pi, 2001)
    curve = 10.0 * np.stack([np.cos(theta), np.sin(theta)], axis=-1)
    kept = _thinned(curve)
    assert 15 < len(kept) < 45 and (kept[0] == curve[0]).all() and (kept[-1] == curve[-1]).all()
    sag = [10.0 - float(np.hypot(*(0.5 * (a + b)))) for a, b in pairwise(kept)]
    assert max(sag) <= 0.0041 and max(sag) > 0.002
    straight = np.stack([np.linspace(0.0, 5.0, 50), np.linspace(0.0, 5.0, 50)], axis=-1)
    assert len(_thinned(straight)) == 2


def seats(*loads: Applied, weight: float = 6.0, shift: float = 0.0) -> tuple[list[tuple[Any, ...]], float]:
    made = bracket_loads(bracket(SOLID), structure(), [(0.0, 10.0, weight)], more=loads)
    found, total = seats_of(made, int(np.argmax(made.F)), shift)
    return [(one.x0, one.x1, one.x_R, one.share) for one in found], total


def test_where_the_load_lies_without_its_own_weight() -> None:
    """Of one stiff thing the resultant acts a sixth of its bearing farther out than its middle."""
    shelf = Applied("L", 5.0, 5.0, P=60.0, bearing=2.0)
    assert seats(shelf) == ([pytest.approx((4.0, 6.0, 5.0 + 2.0 / 6.0, 1.0))], pytest.approx(60.0))
    books = Applied("L", 2.0, 8.0, w_start=5.0, w_end=5.0)
    both, total = seats(shelf, books, shift=0.5)
    assert total == pytest.approx(90.0)
    assert both[0] == pytest.approx((4.5, 6.5, 5.5 + 2.0 / 6.0, 60.0 / 90.0))
    assert both[1][2] is None and (both[1][0], both[1][1], both[1][3]) == pytest.approx((2.5, 8.5, 30.0 / 90.0))
    snow = Applied("D", 5.0, 5.0, P=30.0, bearing=2.0)  # two kinds on one seat are one thing
    assert seats(shelf, snow)[0] == [pytest.approx((4.0, 6.0, 5.0 + 2.0 / 6.0, 1.0))]
    assert seats(weight=6.0) == ([], 0)


@pytest.mark.parametrize(
    ("allowed", "ratio"), [(200.0, 103.0 / 200.0), (103.0, 1.0), (1.01, 103.0 / 1.01), (1.0, math.inf), (0.0, math.inf)]
)
def test_ratio_of_one_run(allowed: float, ratio: float) -> None:
    """100 lb 8 in out with 6 lb of its own weight 4 in out are 103 lb there; a pound allowed is nothing."""
    held: Any = SimpleNamespace(x_R=8.0)
    found: Any = SimpleNamespace(load=allowed)
    run = _Run(0, held, found, (), 100.0, 6.0, 4.0)
    assert run.demand == pytest.approx(103.0) and run.ratio == pytest.approx(ratio)


def held(grain: float) -> SimpleNamespace:
    return SimpleNamespace(outline=np.array(WHOLE), H=12.0)


@pytest.mark.parametrize(
    ("s", "grain", "words"),
    [
        (None, 90.0, "no check, grain 90 deg"), (4.0, 90.0, "check from the top edge 4 in out, grain 90 deg"),
        (3.0, 0.0, "check from the wall 3 in down, grain 0 deg"), (3.0, 180.0, "check 3 in across the grain"),
        (4.99, 30.0, "check from the top edge 10 in out, grain 30 deg"),
        (5.1, 30.0, "check from the wall 5 7/8 in down, grain 30 deg"),
        (11.0, 30.0, "check 11 in across the grain from the corner, grain 30 deg"),
        (0.0, 90.0, "check from the top edge 0 in out"), (10.0, 90.0, "check from the top edge 10 in out"),
        (10.1, 90.0, "check 10 1/8 in across"), (0.0, 0.0, "check from the wall 0 in down"),
        (12.0, 0.0, "check from the wall 12 in down"), (12.1, 0.0, "check 12 1/8 in across"),
        (4.0, 270.0, "check 4 in across"), (4.0, 187.0, "check 4 in across"),
    ],
)  # fmt: skip
def test_which_check_governs_in_words(s: float | None, grain: float, words: str) -> None:
    """A grain line s across the grain from the corner meets the top edge s/sin out, or the wall s/cos down."""
    one = SimpleNamespace(s=s, grain=grain)
    assert _line_words(held(grain), one).startswith(words)  # type: ignore[arg-type]


@pytest.mark.parametrize(("seat", "below"), [(None, None), ("1/2 in", 0.75 * F_C)])
def test_a_block_stands_on_its_dap_and_without_one_on_nothing(seat: str | None, below: float | None) -> None:
    """Upright grain presses end grain on end grain: 3/4 of F_c* (NDS 3.10.1.3); level wood behind its back F_c_perp."""
    shape = {**CORBEL} | ({"seat": seat, "below_seat": "9 in"} if seat else {})
    piece, here = bracket(shape, "40 lb", "2 in", fixings=fixings()), structure()
    loads = loads_of(piece, here)
    which = int(np.argmax(loads.F))
    seats, _ = seats_of(loads, which, 0.0)
    made = held_of(family_of(piece), wood(here), wood(here), loads, which, [], grain=90.0, seats=seats)
    assert (made.ledge is None) is (seat is None)
    if made.ledge is not None:
        assert (made.ledge.depth, made.ledge.F) == pytest.approx((0.5, below))
    assert (made.F_v, made.F_c_perp, made.F_wall) == pytest.approx((F_V, F_PERP, F_PERP))  # the wall of wood across
    assert (made.t, made.H, made.strict) == (3.5, 9.0, True)


@pytest.mark.parametrize("grain", [0.0, 30.0, 60.0, 90.0, 150.0])
def test_what_the_wall_presses_back_with(grain: float) -> None:
    """Level grain is pressed end on by a hard wall, at most 3/4 of F_c*; a wall of wood bears across its grain."""
    piece, here = (
        bracket({**SOLID, "grain": f"{grain} deg"}, "40 lb", "3 in", fixings=fixings(wall="masonry")),
        structure(),
    )
    loads = loads_of(piece, here)
    which = int(np.argmax(loads.F))
    seats, _ = seats_of(loads, which, 0.0)
    made = held_of(family_of(piece), wood(here), wood(here), loads, which, [], grain=grain, seats=seats)
    assert made.F_wall == pytest.approx(min(at_angle(min(grain, 180.0 - grain)), 0.75 * F_C))
    soft = bracket({**SOLID, "grain": f"{grain} deg"}, "40 lb", "3 in", fixings=fixings())
    behind = held_of(family_of(soft), wood(here), wood(here), loads, which, [], grain=grain, seats=seats)
    assert behind.F_wall == pytest.approx(min(made.F_wall, F_PERP))
    unknown = held_of(family_of(soft), wood(here), None, loads, which, [], grain=grain, seats=seats)
    assert unknown.F_wall == pytest.approx(made.F_wall)


# ---- a tip that may come down ------------------------------------------------------------------------------------


def tip(head: float, washer: float = 0.0, seat: float | None = None, grain: float = 90.0) -> Check | None:
    """Upright grain: of 10 x 12 in all beyond the last head or load; 3 1/2 in thick."""
    row = SimpleNamespace(head=head, y=3.0, washer=washer)
    seats = [] if seat is None else [SimpleNamespace(x1=seat)]
    made = SimpleNamespace(rows=[row], seats=seats, rods=[], ledge=None, H=12.0, t=3.5, outline=np.array(WHOLE))
    return next(iter(loose_tip(bracket(SOLID), made, wood(structure()), grain)), None)  # type: ignore[arg-type]


def beyond(x: float) -> float:
    """Weight of what lies farther out than x, lbf: the soffit runs straight from (3, 12) to (10, 3)."""
    high = 3.0 + (10.0 - x) * 9.0 / 7.0
    return 0.5 * (high + 3.0) * (10.0 - x) * 3.5 * float(wood(structure()).density)


@pytest.mark.parametrize(
    ("head", "washer", "seat"), [(6.0, 0.0, None), (3.5, 0.0, 7.0), (6.0, 0.0, 2.0), (6.0, 2.0, None)]
)
def test_weight_of_a_tip_that_nothing_holds(head: float, washer: float, seat: float | None) -> None:
    """Beyond the last head or the end of the load, whichever is farther out; a washer reaches along the grain here."""
    found = tip(head, washer, seat)
    weight = beyond(max(head, seat or 0.0))
    assert found is not None
    assert float(found.notes[0].rsplit(": ", 1)[1].split(" ")[0]) == pytest.approx(weight, rel=0.05)
    assert found.verdict == ("passes" if weight <= 2.0 else "refer")


def test_how_heavy_a_tip_may_be() -> None:
    """2 lb (judgment); less than 1/20 lb is nothing to speak of."""
    density = float(wood(structure()).density)
    assert tip(9.99) is None
    light, heavy = tip(8.0), tip(2.0)
    assert light is not None and light.verdict == "passes" and beyond(8.0) < 2.0
    assert heavy is not None and heavy.verdict == "refer" and beyond(2.0) > 2.0 and density > 0.0
    assert dict(heavy.questions[0].forces)["down"] == pytest.approx(beyond(2.0), rel=0.03)


# ---- what strips cannot know ----------------------------------------------------------------------------------------


def more(shape: Data = SOLID, *, size: str = "4x12 dressed", wood_: Data | None = None, **piece: Any) -> list[str]:
    here = structure(wood=stock(size, **(wood_ or {})))
    made = bracket(shape, "20 lb", "3 in", **piece)
    found = more_checks(family_of(made), here, loads_of(made, here), wood(here))
    return [check.id.removeprefix("bracket.") for check in found]


def test_wood_that_dries_and_checks_that_are_there() -> None:
    assert more() == [] and more(fixings=fixings()) == []
    assert more(wood_={"moisture": "green", "measured_moisture": None}) == ["dry_wood"]
    assert more(fixings=fixings(seasoned="green")) == ["dry_wood"]
    assert more(wood_={"measured_moisture": "24 %"}) == ["dry_wood"]
    old = {"grade": "unstamped", "grade_from": None, "evidence": "", "species": "unknown"}
    assert more(wood_=old) == ["checks_seen"] and more(wood_=old, checks=[]) == []


@pytest.mark.parametrize(
    ("shape", "size", "glued"),
    [
        # upright grain: 10 in wide across it, from a stick of 11 1/4 or 9 1/4 in
        (SOLID, "4x12 dressed", False), (SOLID, "4x10 dressed", True), (SOLID, '3 1/2" x 9 3/4"', False),
        (SOLID, '3 1/2" x 9.74"', True),
        ({**SOLID, "grain": "level"}, '3 1/2" x 11 3/4"', False),
        ({**SOLID, "grain": "level"}, '3 1/2" x 11.74"', True),
        # thicker than the thin side of its stock: only the thin side is left for its width
        ({**SOLID, "thickness": "4 in"}, "4x12 dressed", True),
        ({**CORBEL, "thickness": "5 in"}, '3 1/2" x 11"', False),
    ],
)  # fmt: skip
def test_a_bracket_wider_than_its_stock_is_glued_up(shape: Data, size: str, glued: bool) -> None:
    """A quarter of an inch may be missing in the board."""
    assert ("one_piece" in more(shape, size=size)) is glued
    assert more(shape, size=size, role="decorative") == []
    assert "one_piece" not in more({**shape, "grain": None}, size=size)  # which way it is wide is not known


def test_what_it_needs_before_it_can_be_worked_out() -> None:
    def said(shape: Data = SOLID, **held: Any) -> Check:
        piece = bracket(shape, "40 lb", "3 in", **({"fixings": held["fixings"]} if "fixings" in held else {}))
        here = structure()
        found = split_checks(family_of(piece), loads_of(piece, here), [0], wood(here), here, 90.0)
        return find(found.checks, "split test")

    assert said().questions[0].field == "bracket.K.fixings"
    engineer = {"confirmed_by": "engineer, letter no. 4 of 3 May 2025"}
    assert (
        said(fixings=engineer).questions[0].field == "ruling" and said(fixings={"by_hand": "glue"}).verdict == "refer"
    )
    assert said(fixings=fixings(through=None)).questions[0].field == "bracket.K.fixings.through"
    assert said(fixings=fixings(other=None)).verdict == "refer"
    short = said(fixings=fixings(fastener={**LAG, "length": "2 1/4 in"}))
    assert short.verdict in ("refer", "fails")


def test_what_a_dowel_presses_on_in_the_bracket_by_the_slope_of_its_grain() -> None:
    """NDS 12.3.3, 12.3.4: 11,200 G along the grain, 6,100 G^1.45/sqrt(D) across it, Hankinson between; G 0.50."""
    piece, here = bracket(SOLID, "40 lb", "3 in", fixings=fixings()), structure()
    loads = loads_of(piece, here)
    assert piece.fixings is not None
    rows, which = FixingRows(family_of(piece), piece.fixings, loads), int(np.argmax(loads.F))
    q = {grain: row_value(rows, wood(here), here, 0, which, grain=grain).row.q for grain in (78.0, 80.0, 90.0, 100.0)}
    along, across = 5600.0, 6100.0 * 0.5**1.45 / math.sqrt(0.375)
    for grain in (78.0, 80.0, 100.0):
        s, c = math.sin(math.radians(grain - 90.0)) ** 2, math.cos(math.radians(grain - 90.0)) ** 2
        assert q[grain] / q[90.0] == pytest.approx(across / (along * s + across * c), rel=2e-3)
    assert q[80.0] == pytest.approx(q[100.0])


# ---- the test of each piece ------------------------------------------------------------------------------------------


def test_how_a_test_of_each_piece_runs() -> None:
    """Twice the design load in quarters; ten years against 24 hours: (18.3 + 108.4 t^-0.0464) of seconds."""
    steps, record = _steps(200.0, 100.0), _record(200.0)
    assert (
        "50 lb, 100 lb, 150 lb, then 200 lb" in steps.rows[1][1]
        and "twice the design load of 100 lb" in steps.rows[2][1]
    )
    assert "75 percent of the sinking is back; then 100 lb for a week" in steps.rows[3][1]
    share = [18.3 + 108.4 * (3600.0 * hours) ** -0.0464 for hours in (24.0, 10.0 * 365.25 * 24.0)]
    assert f"Of the twice {share[0] / share[1]:.2f} stand" in steps.note
    assert [row[0] for row in record.rows[:7]] == ["50 lb", "100 lb", "150 lb", *["200 lb"] * 4]
    assert [row[1] for row in record.rows[3:9]] == ["10 min", "1 h", "4 h", "24 h", "24 h after", "a week"]


@pytest.mark.parametrize(("sigma", "bears"), [(131.713, True), (131.8, False)])
def test_what_sound_fir_is_expected_to_bear(sigma: float, bears: bool) -> None:
    assert ("would be expected to bear it" in information(sigma)[1]) is bears


@pytest.mark.parametrize(("key", "through", "field"), [
    ("through", "2 in", "bracket.K.fixings.through"), ("through", None, "bracket.K.fixings.through"),
    ("split_by_engineer", None, "bracket.K.fixings.through"), ("seasoned", "2 in", "bracket.K.fixings.seasoned"),
])  # fmt: skip
def test_what_the_split_test_waits_for_is_asked(key: str, through: str | None, field: str) -> None:
    """How much wood lies under the heads comes first: without it nothing of a row is known."""
    here = structure()
    rows = [{"below_top": "3 in", "count": 1}]
    piece = bracket(SOLID, "100 lb", "4 in", fixings=fixings(through=through, rows=rows))
    loads = loads_of(piece, here)
    assert piece.fixings is not None
    asked = _unknown(
        FixingRows(family_of(piece), piece.fixings, loads), wood(here), here, Open("not said", key, key), loads
    )
    assert (asked.verdict, [one.field for one in asked.questions]) == ("refer", [field])


def test_a_fastener_without_a_head_presses_on_no_wood_under_it() -> None:
    found = connect(group([100.0]))
    assert under_head(Pad(), found, wood(structure()), 0, found.joint.dowel.D, 0.0) is None
    assert (under_head(Pad(), found, wood(structure()), 0, 1.5, 0.0) or 0.0) > 0.0


@pytest.mark.parametrize("report", ["", " ", "report TR-0, 2025 edition"])
def test_rods_are_believed_by_their_report(report: str) -> None:
    rod = {"out_from": "9 in", "down_from": "2 in", "out_to": "1/2 in", "down_to": "2 in", "bond": "400 lb/in",
           "steel": "2,400 lb", "across": "200 lb"}  # fmt: skip
    piece = bracket(SOLID, "40 lb", "3 in", rods=[{**rod, "report": "report TR-1, 2025 edition"}, rod])
    made = piece.model_copy(update={"rods": (piece.rods[0], piece.rods[1].model_copy(update={"report": report}))})
    found = list(_rods(family_of(made), loads_of(made, structure())))
    assert [one.questions[0].field for one in found] == ([] if report.strip() else ["bracket.K.rods.2.report"])


def test_at_its_very_limit_clear_wood_is_expected_to_bear_it() -> None:
    assert "would be expected to bear it" in information(judgment("stress over one cubic inch, clear fir").value)[1]


def runs_of(shape: Data, monkeypatch: pytest.MonkeyPatch, weight: float = 6.0) -> list[Any]:
    """Under every combination of 40 lb 4 in out on 2 in; what strips allow is given."""
    monkeypatch.setattr("beamcheck.checks.brackets.split.split._kept", lambda *given: SimpleNamespace(load=50.0))
    here = structure()
    piece = bracket(shape, carries=[{"what": "shelf", "live": "40 lb", "at": "2 in", "bearing": "2 in"}],
                    fixings=fixings())  # fmt: skip
    loads = loads_of(piece, here, weight)
    assert piece.fixings is not None
    rows = FixingRows(family_of(piece), piece.fixings, loads)
    return list(_runs(family_of(piece), rows, range(len(loads.combinations)), wood(here), here, 90.0))


@pytest.mark.parametrize(("shape", "dap"), [(SOLID, 0.0), ({**CORBEL, "seat": "1/2 in", "below_seat": "9 in"}, 0.5)])
def test_each_combination_with_its_own_weight_beside_its_load(
    shape: Data, dap: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The weight acts halfway out, the load a sixth of its seat farther out than its middle; a dap is further in.
    Under the own weight alone nothing is tried."""
    out = 10.0 if shape is SOLID else 3.5
    found = runs_of(shape, monkeypatch)
    assert {round(run.load, 6) for run in found} <= {40.0, 30.0} and found
    for run in found:
        x_R = 2.0 + 2.0 / 6.0 + dap
        assert (run.weight, run.x_c, run.held.x_R) == pytest.approx((6.0, 0.5 * out + dap, x_R))
        assert run.demand == pytest.approx(run.load + 6.0 * (0.5 * out + dap) / x_R)
        assert run.ratio == pytest.approx(run.demand / 50.0) and len(run.rows) == 2
    bare = runs_of(shape, monkeypatch, weight=0.0)
    assert [(run.weight, run.x_c) for run in bare] == [(0, 0.0)] * len(bare)


@pytest.mark.parametrize(
    ("material", "other", "field"),
    [("masonry", None, "ruling"), ("concrete", None, "ruling"), ("wood", None, "bracket.K.fixings.other.thickness")],
)
def test_anchors_in_a_wall_go_by_their_report(material: str, other: None, field: str) -> None:
    """No equation of the wood standard gives their value: whoever answers for them says that it stands."""
    here = structure()
    wall = Existing.model_validate({"name": "wall", "what": "wall", "material": material})
    place = Context(replace(here.structure, pieces={**here.structure.pieces, "wall": wall}))
    piece = bracket(SOLID, "40 lb", "3 in", on="wall", fixings=fixings(other=other))
    found = split_checks(family_of(piece), loads_of(piece, place), [0], wood(place), place, 90.0)
    assert [one.questions[0].field for one in found.checks][:1] == [field]


def test_rods_and_checks_of_a_block_move_out_with_its_dap() -> None:
    """Half an inch of it lies in the post: places are measured from the face."""
    rod = {"out_from": "3 in", "down_from": "2 in", "out_to": "1/2 in", "down_to": "2 1/2 in", "bond": "400 lb/in",
           "steel": "2,400 lb", "across": "200 lb", "head_from": "50 lb", "report": "report TR-0, 2025"}  # fmt: skip
    shape = {**CORBEL, "seat": "1/2 in", "below_seat": "9 in"}
    here = structure()
    piece = bracket(shape, "40 lb", "2 in", fixings=fixings(), rods=[rod], checks=[{"x": "1 in", "y": "4 in"}])
    loads = loads_of(piece, here)
    which = int(np.argmax(loads.F))
    seats, _ = seats_of(loads, which, 0.5)
    made = held_of(family_of(piece), wood(here), wood(here), loads, which, [], grain=90.0, seats=seats)
    ((start, end, head_from, head_to),) = [(one.start, one.end, one.head_from, one.head_to) for one in made.rods]
    assert (start, end, head_from, head_to) == ((3.5, 2.0), (1.0, 2.5), 50.0, 0.0)
    assert made.seen == ((1.5, 4.0),)
    bare = bracket(shape, "40 lb", "2 in", fixings=fixings())
    assert held_of(family_of(bare), wood(here), wood(here), loads, which, [], grain=90.0, seats=seats).seen == ()

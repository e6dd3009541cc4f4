"""What stands under a beam and how stiff it is; what a bracket hands to what it is fixed to."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.bracket import DECORATION, PROP, _reason, bracket_results
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.handed import Handed
from beamcheck.checks.brackets.props.asks import asks_under
from beamcheck.checks.core.asking.question import ask
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.errors import BeamcheckError
from beamcheck.model.beams import Beam
from beamcheck.model.brackets.bracket import Bracket, Trim
from beamcheck.model.existing import Existing
from beamcheck.model.posts import Post

from ..anchors.anchors import stock
from .brackets import BENT, CORBEL, SOLID, STRAP, Data, bracket, fixings, loads_of, structure, wood

NEAR: Data = {"beam": "B", "at": "2 ft", "gap": "1/4 in", "closing": []}
UNKNOWN: Data = {"species": "unknown", "grade": "unstamped", "grade_from": None, "evidence": ""}


def under(**pieces: Any) -> list[tuple[str, float, float, bool, str]]:
    here = structure(old=stock("6x6 dressed", **UNKNOWN))
    context = Context(Structure(here.structure.stocks, {**here.structure.pieces, **pieces}))
    return [(one.name, one.k_low, one.k_high, one.carries, one.kind) for one in asks_under("B", context)]


def post(**more: Any) -> Post:
    return Post.model_validate({"name": "P", "stock": "wood", "height": "8 ft", "on": "slab", "top_restraint": "pinned",
                                "near": NEAR, **more})  # fmt: skip


def test_a_post_for_looks_is_as_stiff_as_its_section_along_its_length() -> None:
    """E A/h: 1.7e6 x 3.5 x 5.5/96 lb/in; of two plies twice; of wood that nobody knows without a bound."""
    assert under(P=post()) == [("P", 0.0, pytest.approx(1.7e6 * 19.25 / 96.0), False, "post")]
    assert under(P=post(plies=2, plies_joined="nailed"))[0][2] == pytest.approx(2.0 * 1.7e6 * 19.25 / 96.0)
    assert under(P=post(stock="old"))[0][2] == math.inf


def test_trim_is_taken_as_rigid_and_a_bracket_as_its_family_says() -> None:
    trim = Trim.model_validate({"name": "T", "role": "decorative", "what": "board", "on": "post", "stock": "wood",
                                "weight": "5 lb", "hangs": "on the face", "near": NEAR})  # fmt: skip
    assert under(T=trim) == [("T", 0.0, math.inf, False, "trim")]
    arc = bracket(BENT, role="decorative", near=NEAR)
    low, high = family_of(arc).stiffness(stock("4x6 dressed"))
    assert under(K=arc) == [("K", low, high, False, "bracket")]
    assert under(K=bracket(BENT, "5 lb", "9 in", near=NEAR))[0][3] is True
    assert under(K=bracket(SOLID, role="decorative", near={**NEAR, "beam": "C"})) == []
    here = structure()
    plain = Context(Structure(here.structure.stocks, {**here.structure.pieces, "T": trim, "P": post()}))
    assert [one.height_above_fixing for one in asks_under("B", plain)] == [0.0, 0.0]  # nothing of theirs swells


def test_how_steeply_a_bracket_rises_and_what_swells_in_it() -> None:
    """A corbel 9 in high and 3 1/2 in out; level grain swells over its height down to its upper row."""
    piece = bracket({**CORBEL, "grain": "level"}, role="decorative", near=NEAR, fixings=fixings())
    here = structure()
    context = Context(Structure(here.structure.stocks, {**here.structure.pieces, "K": piece}))
    (one,) = asks_under("B", context)
    assert one.rises == pytest.approx(math.degrees(math.atan2(9.0, 3.5)))
    assert one.height_above_fixing == pytest.approx(3.0) and one.species == "Douglas Fir-Larch"


def test_a_bracket_whose_stiffness_cannot_be_worked_out_has_none_at_least_and_no_bound() -> None:

    def refuse(*given: object) -> None:
        raise BeamcheckError("not worked out")

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("beamcheck.checks.brackets.families.solid.SolidBracket.stiffness", refuse)
        assert under(K=bracket(SOLID, role="decorative", near=NEAR)) == [("K", 0.0, math.inf, False, "bracket")]


# ---- handed on -------------------------------------------------------------------------------------------------------


WALL: Data = {"name": "wall", "what": "old wall", "material": "masonry"}


def handed(piece: Bracket, wall: Data | None = None, prop: Any = None) -> Handed:
    here = structure()
    pieces = {**here.structure.pieces, "wall": Existing.model_validate({**WALL, **(wall or {})})}
    context = Context(replace(here.structure, pieces=pieces))
    return Handed(family_of(piece), context, loads_of(piece, here, 2.0), Body(), prop)


def on_wall(load: str | None = "100 lb", **more: Any) -> Bracket:
    return bracket(SOLID, load, "3 in", on="wall", **more)


def test_what_a_wall_must_take_in_figures() -> None:
    """102 lb down; pulled out by (100 x 3 + 2 x 5)/(0.7 x 9 in) = 49.2 lb, 3 in down."""
    (said,) = handed(on_wall(fixings=fixings())).existing()
    assert said.verdict == "refer" and "102 lb down and 49.2 lb outwards, 3 in below its top edge" in said.notes[0]
    (asked,) = said.questions
    assert asked.field == "existing.wall.confirmed_by"
    assert dict(asked.forces) == pytest.approx({"down": 102.0, "outwards": 310.0 / 6.3})
    confirmed = {"confirmed_by": "engineer, letter no. 4 of 3 May 2025"}
    (kept,) = handed(on_wall(fixings=fixings()), confirmed).existing()
    assert kept.verdict == "passes" and "confirmed by engineer" in kept.notes[0]
    assert handed(on_wall(fixings=fixings()), {"material": "plaster"}).existing() == []
    assert handed(bracket(SOLID, "100 lb", "3 in", fixings=fixings())).existing() == []  # a post of the job


def test_a_pull_that_is_not_known_is_asked_for() -> None:
    confirmed = {"confirmed_by": "engineer, letter no. 4 of 3 May 2025"}
    (bare,) = handed(on_wall(), confirmed).existing()
    assert [one.field for one in bare.questions] == ["bracket.K.fixings"] and "not known" in bare.notes[0]
    (both,) = handed(on_wall()).existing()
    assert [one.field for one in both.questions] == ["existing.wall.confirmed_by", "bracket.K.fixings"]
    assert "outwards" not in dict(both.questions[0].forces)
    others = on_wall(fixings={"confirmed_by": "engineer, letter no. 4 of 3 May 2025"})
    (said,) = handed(others, confirmed).existing()
    assert said.verdict == "passes"


@pytest.mark.parametrize(("takes", "holds"), [("102 lb", True), ("101.9 lb", False)])
def test_what_a_wall_is_said_to_take(takes: str, holds: bool) -> None:
    _, taken = handed(on_wall(fixings=fixings()), {"takes": takes}).existing()
    assert taken.holds is holds and taken.demand == pytest.approx(102.0)


def test_somebody_who_pulls_outwards_pulls_the_top_row_out() -> None:
    pulled = on_wall("10 lb", fixings=fixings(), accidental="200 lb", accidental_from="owner")
    down = (10.0 * 3.0 + 2.0 * 5.0 + 200.0 * 10.0) / 6.3
    assert handed(pulled).pull == pytest.approx(max(down, 200.0))
    short = on_wall("10 lb", fixings=fixings(rows=[{"below_top": "1 in", "count": 2, "apart": "1 in"}]),
                    accidental="200 lb", accidental_from="owner")  # fmt: skip
    assert handed(short).pull == pytest.approx(max(2040.0 / (0.7 * 11.0), 200.0))
    assert handed(on_wall()).pull is None


def test_how_far_out_its_load_stands_and_what_it_hands_on() -> None:
    made = handed(bracket(SOLID, "100 lb", "3 in", fixings=fixings()))
    assert made.off == pytest.approx(5.0)  # its own weight alone acts in the middle of its 10 in
    reactions = made.reactions()
    (row,) = reactions.rows
    assert (row.on, row.largest) == ("post", pytest.approx(102.0)) and row.least == pytest.approx(0.6 * 2.0)
    ((on, load),) = reactions.transfers
    assert (on, load.from_piece, load.applied, load.at) == ("post", "K", "side", None)
    assert load.off == made.off and load.pull == made.pull and load.forces["L"] == pytest.approx((100.0, 0.0))
    lifted = handed(bracket(SOLID, carries=[{"what": "gust", "wind": "-300 lb", "at": "3 in"}], fixings=fixings()))
    assert 0.0 <= lifted.off <= 10.0


@pytest.mark.parametrize(
    ("near", "R", "sure", "come"),
    [
        ({}, 50.0, False, 50.0), ({"gap": "0 in"}, 50.0, True, 50.0), ({"fixed_to_beam": True}, 50.0, True, 50.0),
        ({}, 0.5, False, 0.0), ({"gap": "0 in"}, 0.5, True, 0.0), ({"gap": "0 in"}, 0.51, True, 0.51),
        ({}, 0.0, False, 0.0),
    ],
)  # fmt: skip
def test_what_a_beam_that_comes_down_on_it_hands_on(near: Data, R: float, sure: bool, come: float) -> None:
    """On its nose, 10 in out: known, it is in what the wall takes; not known, it is said; half a pound is rounding."""
    asked = ask("gap", "K", "bracket.K.near.gap", beam="B")
    prop = SimpleNamespace(R=np.array([0.0, R]), open=(asked,))
    confirmed = {"confirmed_by": "engineer, letter no. 4 of 3 May 2025"}
    piece = on_wall(fixings=fixings(), near={"beam": "B", "at": "2 ft", "closing": [], **near})
    made = handed(piece, confirmed, prop)
    more = come if sure else 0.0
    if more:  # with its true weight: 10 x 12 in less the 7 x 9 in that its soffit cuts off, 358 1/2 in3 about the wall
        own = 3.5 * float(wood(structure()).density)
        assert made.whole.F.max() == pytest.approx(100.0 + more + 88.5 * own)
        assert made.pull == pytest.approx((300.0 + 10.0 * more + 358.5 * own) / 6.3, rel=1e-3)
    else:
        assert (made.whole.F.max(), made.pull) == (pytest.approx(102.0), pytest.approx(310.0 / 6.3))
    (said,) = made.existing()
    waits = not sure and come > 0.0
    assert [one.id for one in said.questions] == (["K/gap"] if waits else [])
    assert (f"{come:g} lb of B come here through K if there is no gap" in said.notes[0]) is waits
    ((_, load),) = made.reactions().transfers
    assert bool(load.perhaps) is waits and load.forces["L"][0] == pytest.approx(100.0 + more)


def test_what_only_lifts_pulls_nothing_out_and_presses_nothing_down() -> None:
    gust = [{"what": "gust", "wind": "-300 lb", "at": "3 in"}]
    piece, here = bracket(SOLID, carries=gust, on="wall", fixings=fixings()), structure()
    wall = Existing.model_validate(WALL)
    context = Context(replace(here.structure, pieces={**here.structure.pieces, "wall": wall}))
    made = Handed(family_of(piece), context, loads_of(piece, here), Body(), None)
    assert made.pull == 0.0
    (said,) = made.existing()
    assert "must take 0 lb down and 0 lb outwards" in said.notes[0]


def test_somebody_may_hang_on_it_while_the_beam_rests_on_it() -> None:
    """Dead load beside 50 lb of the beam and 200 lb of that person: all of it comes to what it is fixed to."""
    piece = on_wall(None, fixings=fixings(), accidental="200 lb", accidental_from="owner", role="decorative",
                    near={"beam": "B", "at": "2 ft", "closing": [], "gap": "0 in"})  # fmt: skip
    made = handed(piece, prop=SimpleNamespace(R=np.array([0.0, 50.0]), open=()))
    own = 88.5 * 3.5 * float(wood(structure()).density)
    assert made.whole.F.max() == pytest.approx(50.0 + 200.0 + own)


# ---- the bracket as a whole ----------------------------------------------------------------------------------------


def result(**more: Any) -> Any:
    piece, here = bracket(SOLID, **more), structure()
    context = Context(replace(here.structure, pieces={**here.structure.pieces, "K": piece}))
    return bracket_results(piece, context)[0]


def test_what_it_is_found_to_be(monkeypatch: pytest.MonkeyPatch) -> None:
    """Its stress field says nothing of that here and is not solved."""
    monkeypatch.setattr("beamcheck.checks.brackets.families.solid.SolidBracket.read_field", lambda *given: None)
    looks: Data = {"role": "decorative", "above": "nothing", "accidental": "not for load", "fixings": fixings()}
    assert result(**looks).finding == "decoration only"
    assert result(**{**looks, "above": None}).finding == "not enough information"
    nothing = result(fixings=fixings(), knots="none in the throat", deflects="1/4 in")
    assert nothing.finding == "not enough information" and [
        one.what for one in nothing.checks if one.id == "bracket.load"] == ["load"]  # fmt: skip
    books: Data = {"carries": [{"what": "books", "live": "60 lb", "at": "9 in", "bearing": "1 in", "applied": "top"}]}
    short = result(fixings=fixings(), knots="none in the throat", deflects="1/4 in", **books)
    assert (short.verdict, short.finding) == ("fails", "decoration only") and "bring a head" in short.reason


def ids(checks: tuple[Check, ...]) -> set[str]:
    return {one.id for one in checks}


def test_what_is_asked_of_which_role(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("beamcheck.checks.brackets.families.solid.SolidBracket.read_field", lambda *given: None)
    looks = result(role="decorative", fixings=fixings())
    assert {"bracket.accidental", "bracket.above"} <= ids(looks.checks) and "bracket.load" not in ids(looks.checks)
    carries = result(fixings=fixings())
    assert not {"bracket.accidental", "bracket.above"} & ids(carries.checks)
    cover = result(role="cover", cover={"hides": ["A"]}, fixings=fixings())
    assert "cover.hides" in ids(cover.checks) and "bracket.above" not in ids(cover.checks)


def test_why_it_is_what_it_is_found_to_be() -> None:
    """Of a prop the force in its own words; of one that only looks as if it carried why it does not."""
    rests = Check.breaks_rule(
        "bracket.prop_force", "K", "force", "", "50 lb of B rests on K: it acts as a prop: free it"
    )
    prop = SimpleNamespace(R=np.array([0.0, 50.0]), checks=(rests,), touches=True)
    fails, passes = SimpleNamespace(verdict="fails"), SimpleNamespace(verdict="passes")

    def why(finding: str, result: object, weak: str = "", of: object = prop) -> str:
        return _reason(finding, result, Body(weak_grain=weak), of)  # type: ignore[arg-type]

    assert why(PROP, fails) == "50 lb of B rests on K: free it"
    assert why(PROP, fails, of=SimpleNamespace(R=np.zeros(2), checks=(rests,))) == ""
    assert why(PROP, fails, of=SimpleNamespace(R=np.array([5.0]), checks=())) == ""
    assert why(DECORATION, fails, "short grain") == "short grain" and why(DECORATION, passes, "short grain") == ""
    assert why("carries", fails, "short grain") == ""


@pytest.mark.parametrize(
    ("on", "near", "asked"),
    [(("K", "slab"), "B", False), (("post", "slab"), "B", True), (("post", "slab"), None, False),
     (("K", "slab"), "C", True)],
)  # fmt: skip
def test_a_beam_that_rests_on_the_bracket_is_its_load_and_leaves_no_gap(
    on: tuple[str, str], near: str | None, asked: bool
) -> None:
    more = {"near": {"beam": near, "at": "2 ft", "gap": "1 in", "closing": []}} if near else {}
    rows = [{"below_top": "1 in", "count": 1}, {"below_top": "3 in", "count": 1}]
    piece, here = bracket(STRAP, "20 lb", "2 in", fixings=fixings(rows=rows), **more), structure()
    ends = [{"at": at, "on": one, "bearing": "2 in"} | ({"lands_at": "2 in"} if one == "K" else {})
            for at, one in zip(("0 ft", "8 ft"), on, strict=True)]  # fmt: skip
    beam = Beam.model_validate({"name": "B", "stock": "wood", "service": "floor", "finish": "none",
                                "top_held": "full length", "supports": ends})  # fmt: skip
    context = Context(replace(here.structure, pieces={**here.structure.pieces, "K": piece, "B": beam}))
    found = [check.what for check in bracket_results(piece, context)[0].checks if check.id == "bracket.gap"]
    assert found == ([f"gap under {near}"] if asked else [])


def test_what_is_drawn_and_told_of_a_bracket() -> None:
    """From its side, on its board where its grain is said, and in the order in which it is put up."""
    looks: Data = {"role": "decorative", "above": "nothing", "accidental": "not for load"}
    found = result(**looks)
    assert [one.picture for one in found.pictures] == ["elevation", "board"] and found.remedies == ()
    assert found.assembly is not None and found.tables[-1].title == "Order of assembly"
    steel = bracket(STRAP, "20 lb", "2 in")
    here = structure()
    bare = bracket_results(steel, Context(replace(here.structure, pieces={**here.structure.pieces, "K": steel})))[0]
    assert [one.picture for one in bare.pictures] == ["elevation"]
    block = bracket(CORBEL, role="decorative", above="nothing", accidental="not for load")
    alone = bracket_results(block, Context(replace(here.structure, pieces={**here.structure.pieces, "K": block})))[0]
    assert alone.assembly is None and "Order of assembly" not in [table.title for table in alone.tables]

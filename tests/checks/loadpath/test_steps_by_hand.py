"""Steps of the load path with forces that are given: their words, ends and roles, just inside and just outside."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.core.context import Structure
from beamcheck.checks.core.draft import Reactions, SupportForces, unknown_below
from beamcheck.checks.core.pictures.beams import Label
from beamcheck.checks.core.pictures.others import GapPicture
from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.checks.loadpath.load_path import _prop_edges, _tie_edges, load_path_table, totals_table, uncounted
from beamcheck.checks.loadpath.roles import (
    _extent,
    _hangs,
    _largest,
    _through,
    _wrong,
    everything,
    in_its_role,
    role_checks,
    ways_of,
)
from beamcheck.checks.loadpath.totals import Followed, Trace
from beamcheck.model.loads import Load
from beamcheck.model.reading.reader import job_from_data

from ..frames.jobs import checked as checked_frame
from ..frames.jobs import king
from ..houses import Data, beam, checked, job, post, rafter, seat, tie
from .test_load_path import BOARD, PLY, bracket, edges
from .test_roles import MOLDING, STONE, on

SKIN = on("skin", "plaster")
ENDS = job_from_data(job(
    beam=[beam(seat("0 ft", "stone"), seat("4 ft", "D", lands_at="1 ft"), seat("8 ft", "skin")),
          beam(seat("0 ft", "stone"), seat("8 ft", "soil"), name="D", role="decorative", carries=[])],
    rafter=[rafter(other_wall=None, tie="T")], tie=[tie()], post=[post()], bracket=[bracket()], trim=[MOLDING],
    existing=[STONE, SKIN, on("soil", "ground"), on("rock", confirmed_by="")],
))  # fmt: skip
THERE = everything(ENDS)


def row(on: str, largest: float = 500.0, least: float = -20.0, spacing: float = 0.0, **kinds: Any) -> SupportForces:
    return SupportForces(on, kinds, largest, least, spacing)


# ---- the table -------------------------------------------------------------------------------------------------------


def test_the_table_row_by_row() -> None:
    """What goes there, by kind; what lifts is told of what is no dead load; where it ends."""
    kinds = {"L": (340.0, -20.0), "D": (120.0, -110.0), "W": (0.0, -5.0), "S": (7.0, 0.0)}
    given = Reactions("B", (row("stone", **kinds), row("D", 300.0, 0.0, 24.0), row("skin")))
    other = Reactions("R", (row("wall", D=(9.0, 9.0)), row("")))
    found = load_path_table(ENDS, [given, other, unknown_below("P", ["rock"])]).rows
    said = "D 120 lb, L 340 lb (up to 20 lb upwards), S 7 lb, W 0 lb (up to 5 lb upwards)"
    assert found[0] == ("B", "stone", said, "500 lb", "−20 lb",
                        "by others, confirmed: invented letter of an engineer, 3 May 2025", "")  # fmt: skip
    assert found[1][:6] == ("B", "D, every 2 ft", "", "300 lb", "0 lb", "goes on")
    assert found[1][6].startswith("each beam B rests on") or found[1][6].startswith("300 lb of each beam B rests on")
    assert found[2][5] == "in plaster, which carries nothing" and "500 lb of beam B rests on skin" in found[2][6]
    assert found[3][5] == "by others, confirmed: invented sheet S-1, engineer"
    assert found[4][1] == "the opposite wall" and found[4][5:] == ("not named: nobody answers for it", "")
    assert found[5][2:] == ("", "not worked out", "not worked out", "by others, not confirmed", "")


def test_declared_roles_stand_in_the_table() -> None:
    found = load_path_table(ENDS, [Reactions("D", (row("stone"),)), Reactions("M", (row("stone"),))]).rows
    assert [one[6] for one in found] == ["D is declared decorative", "M is declared cover"]


@pytest.mark.parametrize(("applied", "arriving", "left", "said"), [
    ({"L": 7.0}, {}, [("A", "F", {"L": 7.0})], "the load of A, held at no point of F, is not counted there"),
    ({"D": 9.0}, {"D": 2.0, "W": 0.0}, [("A", "F", {"D": 7.0, "L": 0.0})], "the dead load of A, held at no point of F"),
    ({"D": 9e6}, {"D": 9e6 - 7.5}, [("A", "F", {"D": 7.0})], "the dead load of A"),  # but for rounding
    ({"D": 9e6}, {"D": 9e6 - 17.5}, [("A", "F", {"D": 7.0})], ""),
    ({"D": 9.0}, {"D": 9.0}, [("A", "F", {"D": 7.0})], ""), ({"D": 9.0}, {"D": 16.0}, [("A", "F", {"D": 7.0})], ""),
    ({"D": 4.0}, {}, [(name, "F", {"D": 1.0}) for name in "ABCD"], "the dead load of A and B and C and D, held"),
    ({"D": 2.0}, {}, [("A", "F", {"D": 1.0}), ("B", "G", {"D": 1.0})],
     "the dead load of A, held at no point of F, is not counted there; the dead load of B, held at no point of G"),
])  # fmt: skip
def test_whose_load_is_not_counted(
    applied: dict[str, float], arriving: dict[str, float], left: list[tuple[str, str, dict[str, float]]], said: str
) -> None:
    made = Trace(applied, arriving, (), left=tuple(Followed(above, 0, below, force) for above, below, force in left))
    assert uncounted(made).startswith(said) and bool(uncounted(made)) == bool(said)
    assert ("Less arrives here" in totals_table(made).note) == bool(said)


# ---- the graph -------------------------------------------------------------------------------------------------------


def test_a_frame_is_one_step_of_the_path() -> None:
    path = checked_frame(king()).path
    assert path is not None and [node.name for node in path.nodes] == ["truss", "west wall", "east wall"]


def test_what_carries_nothing_is_no_confirmed_end() -> None:
    one = beam(seat("0 ft", "stone"), seat("8 ft", "skin"))
    path = checked(beam=[one], existing=[STONE, SKIN]).path
    assert path is not None
    assert {node.name: node.ends for node in path.nodes} == {
        "B": "", "stone": "by others, confirmed", "skin": "by others, not confirmed"}  # fmt: skip


@pytest.mark.parametrize(("roles", "wrong"), [
    ({}, ""), ({"tie": "decorative"}, "the thrust of rafter R pulls on tie T, which is declared decorative"),
    ({"rafter": "decorative"}, "tie T hangs on rafter R, which is declared decorative"),
])  # fmt: skip
def test_a_tie_between_what_does_not_carry(roles: Data, wrong: str) -> None:
    """With loads of their own, which are another fault."""
    load = [{"what": "ceiling", "dead": "20 plf"}]
    one = rafter(tie="T", role=roles.get("rafter", "carries"))
    found = checked(rafter=[one], tie=[tie(role=roles.get("tie", "carries"), carries=load)])
    assert edges(found)["T", "R"].wrong == wrong


def test_a_load_of_no_width_on_a_tie_comes_to_it_from_half_way_to_its_neighbors() -> None:
    """15 psf on 16 in over 16 ft, and 5 lb/ft3 of a 2x10: half to either end; least is 0.6 of that."""
    one = job_from_data(job(rafter=[rafter(tie="T")], tie=[tie(stock="light")], stock=[BOARD | {"name": "light"}]))
    ceiling = one.tie[0].model_copy(update={"carries": (Load(what="ceiling", dead="15 psf"),)})
    one = one.model_copy(update={"tie": (ceiling,)})
    structure = Structure({stock.name: stock for stock in one.stock}, everything(one))
    (edge,) = _tie_edges(one, structure, [Reactions("R", (row("wall"),))])
    whole = 15 * 4 / 3 * 8 + 96 * 1.5 * 9.25 * PLY
    assert (edge.largest, edge.least) == (pytest.approx(whole, rel=1e-6), pytest.approx(0.6 * whole, rel=1e-6))


def test_a_tie_of_rafters_that_were_not_worked_out() -> None:
    (edge,) = _tie_edges(ENDS, SimpleNamespace(), [Reactions("R")])  # type: ignore[arg-type]
    assert (edge.above, edge.below, edge.wrong) == ("T", "R", "") and math.isnan(edge.largest + edge.least)


@pytest.mark.parametrize(("force", "over", "says"), [
    (0.5, "B", None), (9.0, "gone", None),
    (3.0, "B", "3 lb of beam B comes down on bracket K, which is no support of it"),
])  # fmt: skip
def test_a_beam_that_comes_down_on_a_bracket_that_carries(force: float, over: str, says: str | None) -> None:
    """From a negligible force on (0.5 lb: `judgment_core`, practice)."""
    picture = GapPicture("K", over, 0.0, (), 0.0, force)
    made: Any = SimpleNamespace(name="K", pictures=(picture,))
    found = list(_prop_edges(made, THERE))
    assert [(one.above, one.below, one.largest, one.least, one.wrong) for one in found] == (
        [] if says is None else [("B", "K", force, 0.0, says)]
    )


# ---- roles -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("largest", "least", "spacing", "text"), [
    (0.5, 0.0, 0.0, "beam B rests on D"), (0.6, 0.0, 0.0, "0.6 lb of beam B rests on D"),
    (0.5, -0.5, 0.0, "beam B rests on D"), (0.5, -0.6, 0.0, "beam B pulls up with 0.6 lb on D"),
    (9.0, -9.0, 24.0, "9 lb of each beam B rests on D"),
])  # fmt: skip
def test_how_much_of_it_is_told(largest: float, least: float, spacing: float, text: str) -> None:
    said = _wrong(THERE["B"], THERE["D"], row("D", largest, least, spacing), hangs=False)
    assert said == f"{text.replace('D', 'beam D')}, which is declared decorative"


@pytest.mark.parametrize(("kind", "index", "through", "hangs"), [
    ("beam", 0, "A", True), ("beam", 1, "", False), ("rafter", 0, "A", True), ("rafter", 1, "", False),
    ("standing", 0, "", False), ("post", 0, "", False), ("bracket", 0, "", True), ("trim", 0, "", True),
])  # fmt: skip
def test_which_ends_hang_and_in_what(kind: str, index: int, through: str, hangs: bool) -> None:
    """The first end hangs in a group; the other stands, and is only held by one."""
    hung, stands = {"holds": "hung", "held_by": "A"}, {"holds": "rests", "held_by": "A"}
    supports = tuple(one.model_copy(update=more) for one, more in
                     zip(THERE["B"].supports, (hung, stands, stands), strict=True))  # type: ignore[union-attr]  # fmt: skip
    foot = THERE["R"].wall  # type: ignore[union-attr]
    made = {
        "beam": THERE["B"].model_copy(update={"supports": supports}),
        "rafter": THERE["R"].model_copy(update={"wall": foot.model_copy(update=hung)}),
        "standing": THERE["R"].model_copy(update={"wall": foot.model_copy(update=stands)}),
        "post": THERE["P"], "bracket": THERE["K"], "trim": THERE["M"],
    }[kind]  # fmt: skip
    assert (_through(made, index), _hangs(made, index)) == (through, hangs)


@pytest.mark.parametrize(("name", "long"), [("B", 96.0), ("P", 96.0), ("K", 10.0), ("R", None), ("T", None)])
def test_how_long_a_piece_is_where_its_loads_stand(name: str, long: float | None) -> None:
    assert _extent(THERE[name]) == long


@pytest.mark.parametrize(("load", "extent", "force"), [
    ({"dead": "30 plf"}, 96.0, 240.0), ({"dead": "30 plf"}, None, None), ({"dead": "30 lb"}, None, 30.0),
    ({"dead": "30 plf", "from": "9 ft", "to": "10 ft"}, 96.0, None),
    ({"dead": "10 psf", "width": "3 ft"}, 96.0, 240.0), ({"dead": "10 psf"}, 96.0, None),
    ({"dead": "0.5 lb"}, 96.0, None), ({"dead": "0.6 lb"}, 96.0, 0.6), ({"wind": "-50 lb"}, 96.0, None),
    ({"dead": "10 lb", "wind": "-50 lb"}, 96.0, 10.0),
])  # fmt: skip
def test_the_most_that_an_entry_presses_with(load: Data, extent: float | None, force: float | None) -> None:
    assert _largest(Load(what="x", **load), extent) == (None if force is None else pytest.approx(force))


def test_a_role_is_told_once_and_before_the_rest() -> None:
    asked = Check.keeps_rule("loads.live", "D", "live", "c")
    kept = Check.keeps_rule("x", "D", "kept", "c")
    made = PieceResult("D", "beam", "D", "passes", (asked, kept), (Label("size", "6x12"),))
    found = in_its_role(made, THERE["D"], ())
    assert found.inputs == (Label("role", "decorative"), Label("size", "6x12")) and found.checks == (kept,)
    assert in_its_role(found, THERE["D"], ()) is found
    assert in_its_role(made, THERE["B"], ()) is made and in_its_role(made, None, ()) is made
    added = in_its_role(made, THERE["B"], [Check.breaks_rule("y", "D", "new", "c")])
    assert added.verdict == "fails" and [one.id for one in added.checks] == ["y", "loads.live", "x"]


@pytest.mark.parametrize(("largest", "area"), [(12000.0, "8.0 ft2"), (12030.0, "8.1 ft2"), (-5.0, "0.0 ft2")])
def test_bare_soil_is_asked_for_a_footing_that_is_large_enough(largest: float, area: str) -> None:
    """1,500 psf (IRC Table R401.4.1, memory), to a tenth on the safe side; of what lifts nothing comes there."""
    given = [Reactions("D", (row("stone"), row("soil", largest)))]
    checks = role_checks(ENDS, given, ways_of(ENDS, given))["D"]
    (check,) = [one for one in checks if one.id == "path.footing"]
    assert f"needs {area} of footing at 1,500 psf" in check.notes[0]
    lost = [unknown_below("D", ["soil"])]
    (check,) = [one for one in role_checks(ENDS, lost, ways_of(ENDS, lost))["D"] if one.id == "path.footing"]
    assert "what comes there on it needs a footing by its load" in check.notes[0]

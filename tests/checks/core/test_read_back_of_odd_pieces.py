"""What a piece was taken for, read back where it is not the ordinary one: held otherwise, of plies, of unknown wood."""

from __future__ import annotations

import copy
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck import job_from_data
from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.checks.core import tables
from beamcheck.checks.core import understood as words
from beamcheck.checks.core.result import Check, Holding, PieceResult
from beamcheck.checks.core.summary import check_text, governing_phrase, quantity
from beamcheck.model.reading.reader import read_job
from beamcheck.model.stock import Stock

from .. import houses
from ..beams.beams import SAWN, Data, beam, floor, job, known, seat, stock

BY = {"kind": "nail", "size": "16d common", "rows": 3, "spacing": "8 in", "row_spacing": "4 in", "end": "3 in",
      "edge": "1 1/2 in", "from_both_sides": True}  # fmt: skip


def sentence(one: Data, wood: Data | None = None, **more: Any) -> str:
    read = job_from_data(copy.deepcopy(job(one, wood=wood, **more)))
    return words.understood(read)(one["name"])


@pytest.mark.parametrize(("more", "says"), [
    ({"spacing": "16 in", "meant": {"spacing": "as it stands there"}}, "No.1, dry, one of a row every 16 in;"),
    ({"spacing": "16 in", "meant": {"spacing": "as it stands there"}}, "Meant so: spacing, as it stands there."),
    ({}, "B is a floor beam of 6x12 dressed"), ({}, "12 ft long, 12 ft from middle to middle"),
    ({}, "its top edge is held all along;"), ({"top_held": "4 ft"}, "its top edge is held every 4 ft;"),
    ({"top_held": "at loads"}, "held where loads come down"), ({"top_held": "ends only"}, "held at its ends only"),
    ({"finish": "gypsum board"}, "with gypsum board that cracks"), ({"plies": 2}, "a floor beam of 2 plies of 6x12"),
    ({"laid": "flat"}, "No.1, dry laid flat;"), ({"carries": []}, "no load of its own is given"),
    ({"carries": [floor(dead="10 plf", snow="5 plf"), floor(what="b", wind="-3 plf", roof_live="1 plf")]},
     "it carries floor, 10 plf dead and 5 plf snow; and b, 1 plf roof live and −3 plf wind."),
    ({"supports": [{"at": "0 ft", "on": "wall", "holds": "fixed"}], "length": "4 ft"},
     "4 ft long, out from its one support; it is clamped in wall;"),
    ({"supports": [seat("0 ft"), seat("5 ft"), seat("12 ft")]}, "5 ft and 7 ft from middle to middle"),
    ({"supports": [seat("12 ft"), seat("5 ft"), seat("0 ft")]}, "5 ft and 7 ft from middle to middle"),
])  # fmt: skip
def test_a_beam_in_other_ways(more: Data, says: str) -> None:
    found = sentence(beam(**more))
    assert says in found
    assert ("that cracks" in found) is ("finish" in more) and ("one of a row" in found) is ("spacing" in more)


@pytest.mark.parametrize(("wood", "says"), [
    (known("6 in x 12 in"), "6 in x 12 in, values by letter, dry"),
    (stock(grade="unstamped", grade_from=None, evidence=""), "6x12 dressed, wood that nobody has graded, dry"),
    (stock(measured_moisture="25 %"), "said to be dry, metered at 25 % and taken as wet"),
    (stock(measured_moisture="19 %"), "No.1, dry;"),
    (stock(moisture="green", measured_moisture="25 %"), "No.1, green;"),
])  # fmt: skip
def test_what_is_said_of_its_wood(wood: Data, says: str) -> None:
    given = {key: value for key, value in wood.items() if value is not None}
    assert says in sentence(beam(meant=SAWN), given)


def test_a_plate_between_two_plies() -> None:
    plate = {"thickness": "1/2 in", "depth": "11 in", "grade": "A36", "bolt": "1/2 in", "rows": 2, "spacing": "16 in",
             "row_spacing": "5 in", "edge": "3 in", "end": "2 in", "end_bolts": 3}  # fmt: skip
    made = beam(plies=2, flitch=plate, plies_schedule=BY)
    wood = stock("2x12")
    assert "2 plies of 2x12 Douglas Fir-Larch No.1, dry, with a 1/2 in x 11 in steel plate" in sentence(made, wood)
    read = job_from_data(copy.deepcopy(job(made, wood=wood)))
    wood_of_it = "2 plies of 2x12 Douglas Fir-Larch No.1, with a 1/2 in x 11 in steel plate between them"
    assert words.stick_words(read.beam[0], read.stock[0]) == wood_of_it
    assert words.beam_inputs(read.beam[0])[-3:] == [
        ("plies joined by", "16d common nails, 3 rows every 8 in"),
        ("steel plate between the plies", "1/2 in x 11 in A36"),
        ("its bolts", "1/2 in, 2 rows every 16 in, 3 over each seat"),
    ]  # fmt: skip
    plain = job_from_data(job(beam()))
    assert words.stick_words(plain.beam[0], plain.stock[0]) == "6x12 dressed Douglas Fir-Larch No.1"
    assert [row[0] for row in words.beam_inputs(plain.beam[0])] == ["length", "service", "support 1", "support 2"]


def test_labels_of_a_beam() -> None:
    ends = [seat("0 ft", restrained=False), {"at": "12 ft", "on": "wall"}]
    hole = {"kind": "hole", "at": "4 ft", "depth": "1 in", "from_bottom": "6 in"}
    made = beam(supports=ends, cuts=[hole], members=4, spacing="16 in", shared_by="boards", limit_live=480,
                limit_why="a stone floor", meant={"spacing": "as it stands there"})  # fmt: skip
    read = job_from_data(copy.deepcopy(job(made))).beam[0]
    assert words.beam_inputs(read)[2:] == [
        ("support 1", "rests on wall at 0 in, seat 5 1/2 in, not held upright"),
        ("support 2", "rests on wall at 12 ft, seat not given"),
    ]  # fmt: skip
    assert words.stick_inputs(read)[-4:] == [
        ("own deflection limits", "a stone floor"), ("shares load", "4 members at 16 in: boards"),
        ("cut", "hole, 1 in at 4 ft"), ("spacing is meant", "as it stands there"),
    ]  # fmt: skip
    assert not [row for row in words.stick_inputs(job_from_data(job()).beam[0]) if row[0] == "shares load"]


def test_rafters_posts_and_ties() -> None:
    ridge = houses.beam(houses.seat("0 ft", "wall"), houses.seat("12 ft", "wall"), name="ridge", carries=[])
    leaning = houses.rafter(ridge="beam", ridge_on="ridge", pair=False, thrust_resisted_by="", upper={
        "bearing": "1 1/2 in", "lands_from": "0 ft", "lands_to": "12 ft"}, wall={"bearing": None})  # fmt: skip
    leaning["wall"] = {key: value for key, value in leaning["wall"].items() if value is not None}
    leaning.pop("seat_cut")
    built = houses.post(name="Q", stock="2x10", plies=2, carries=[], braced_strong="4 ft", eccentricity_weak="1 in")
    read = job_from_data(copy.deepcopy(houses.job(rafter=[leaning], beam=[ridge], post=[built])))
    said = words.understood(read)
    assert said("R").startswith("R is a rafter of 2x10 Hem-Fir No.2, dry, every 16 in; 8 ft on plan at 6:12; its foot ")
    assert "its foot rests on wall, its head hangs on ridge; it carries roof, 10 psf dead and 20 psf snow." in said("R")
    assert "R stands or hangs on it" in said("ridge")
    assert said("Q").startswith("Q is a post of 2 plies of 2x10 Hem-Fir No.2, dry; 8 ft high, on footing, pinned at")
    rows = dict(words.rafter_inputs(read.rafter[0]))
    assert (rows["upper end on"], rows["other side"], rows["tie"]) == ("ridge", "none", "none")
    assert (rows["seat cut"], rows["level seat"]) == ("not given", "not given")
    assert "thrust said to be resisted by" not in rows
    rows = dict(words.post_inputs(read.post[0]))
    assert (rows["braced the deep way"], rows["braced the thin way"]) == ("4 ft", "none, whole height")
    assert (rows["load off center the deep way"], rows["load off center the thin way"]) == ("0 in", "1 in")
    pair = houses.rafter(tie="T", thrust_resisted_by="the tie")
    read = job_from_data(copy.deepcopy(houses.job(rafter=[pair], tie=[houses.tie(height="8 in")])))
    said = words.understood(read)
    assert "a pair of rafters of" in said("R") and "leans on the opposite rafter, tied by T;" in said("R")
    assert said("T").startswith("T is a level tie of 2x10 Hem-Fir No.2, dry; 8 in above the wall supports; no load ")
    assert words.rafter_inputs(read.rafter[0])[-1] == ("thrust said to be resisted by", "the tie")


def test_frames_and_their_members() -> None:
    read = read_job(Path(__file__).parents[3] / "worked_examples" / "boat_shed.toml")
    frame = read.frame[0]
    bare = frame.feet[0].model_copy(update={"bearing": None, "slides": True, "slides_by": ""})
    other = frame.model_copy(update={
        "spacing": None, "feet": (bare, *frame.feet[1:]), "joint_stiffness": 20000.0, "joint_play": 0.0625,
        "upright_by": "",
    })  # fmt: skip
    rows = dict(words.frame_inputs(other))
    assert "from frame to frame" not in rows and rows["play of bolted joints"] == "1/16 in"
    assert rows["left heel"] == "on west wall, seat not given, slides: by nobody"
    assert rows["softest joint"] != "not said" and rows["held upright by"] == "not said"
    assert "play of bolted joints" not in dict(words.frame_inputs(frame.model_copy(update={"joint_play": None})))
    member = frame.sticks[0]
    said = words.understood(read)(member.name)
    assert said.startswith(f"{member.name} is the {member.stick} of truss, ")
    plain = frame.feet[0].model_copy(update={"slides": False})
    assert "slides" not in dict(words.frame_inputs(frame.model_copy(update={"feet": (plain,)})))["left heel"]


@pytest.mark.parametrize(("near", "says"), [
    (None, "a cover over hardware; no load"),
    (SimpleNamespace(beam="B", gap=None), "under B, touching or not is not known"),
    (SimpleNamespace(beam="B", gap=0.5), "under B, 1/2 in clear"),
    (SimpleNamespace(beam="B", gap=0.0), "under B, 0 in clear"),
])  # fmt: skip
def test_a_bracket_and_what_is_over_it(near: Any, says: str) -> None:
    bracket: Any = SimpleNamespace(stock=None, near=near, shape=SimpleNamespace(family="steel_core"), on="wall",
                                   role="cover", carries=())  # fmt: skip
    parts = [one for one in words._bracket(bracket, {}) if one]
    assert says in "; ".join(parts) and parts[0].startswith("a steel core bracket on wall, ")
    assert len(parts) == 2 + (near is not None)


def test_what_a_fastening_holds() -> None:
    read: Any = SimpleNamespace(
        beam=[SimpleNamespace(name="B", supports=[SimpleNamespace(held_by="A"), SimpleNamespace(held_by=None)]),
              SimpleNamespace(name="C", supports=[SimpleNamespace(held_by="other")])],
        rafter=[SimpleNamespace(name=n, wall=SimpleNamespace(held_by=h)) for n, h in (("R", "A"), ("S", None))],
        tie=[SimpleNamespace(name=n, ends_held_by=h) for n, h in (("T", "A"), ("U", "other"))],
    )  # fmt: skip
    bolts: Any = SimpleNamespace(
        name="A", manner="wood side", fastener=SimpleNamespace(kind="bolt", size=None), into=""
    )
    assert words._anchor(bolts, read) == ["a fastening, wood side with bolts", "it holds B, R and T"]
    rated: Any = SimpleNamespace(manner="rated hardware", fastener=None, name="X", into="P")
    assert words._anchor(rated, read) == ["a fastening, rated hardware into P", "it holds nothing here"]


REPORT = {"number": "report no. 4", "edition": "renewed 3 May 2025", "F_b": "2600 psi", "F_v": "285 psi",
          "F_c_perp": "750 psi", "E": "2,000,000 psi", "d_0": "12 in", "power": 0.136}  # fmt: skip


def test_wood_by_a_report_and_steel() -> None:
    lvl = {"name": "w", "made": "composite", "species": "LVL", "grade": "2.0E", "size": "1 3/4 in x 11 7/8 in",
           "moisture": "dry", "grade_from": "stamp", "evidence": "stamp", "report": REPORT}  # fmt: skip
    rows = dict(words.stock_inputs(Stock.model_validate(lvl)))
    assert (rows["made"], rows["the maker's report"]) == ("composite lumber", "report no. 4, renewed 3 May 2025")
    assert rows["it gives"] == "F_b 2,600 psi, F_v 285 psi, F_c_perp 750 psi, E 2,000,000 psi"
    assert rows["its factors"].startswith("depth factor (12 in over the depth) to the power 0.136")
    made = {"name": "g", "made": "steel", "grade": "A992", "grade_from": "certificate", "evidence": "no. 4",
            "steel": {"shape": "W8x18"}}  # fmt: skip
    rows = dict(words.stock_inputs(Stock.model_validate(made)))
    assert rows["made"] == "steel" and not {"species", "moisture", "treatment", "size class"} & set(rows)
    letter = dict(words.stock_inputs(Stock.model_validate(known("6 in x 12 in"))))
    assert letter["design values"] == "given: invented letter of a grader" and letter["species"] == "unknown"
    bare = Stock.model_validate({**stock(), "evidence": ""}).model_copy(update={"grade_from": None})
    rows = dict(words.stock_inputs(bare))
    assert (rows["evidence"], rows["grade comes from"]) == ("none given", "not said")


# ---- tables and the words of a result --------------------------------------------------------------------------------


@pytest.mark.parametrize(("load", "row"), [
    (Applied("L", 0.0, 144.0, w_start=10.0, w_end=10.0, what="a", applied="top"), ("live", "120 plf", "0 in to 12 ft")),
    (Applied("D", 12.0, 24.0, w_start=10.0, w_end=20.0, what="a", applied="top"),
     ("dead", "120 plf to 240 plf", "12 in to 2 ft")),
    (Applied("W", 60.0, 60.0, P=-90.0, what="a", applied="top"), ("wind up", "−90 lb", "5 ft")),
    (Applied("W", 0.0, 144.0, w_start=-1.0, w_end=-1.0, what="a", applied="top"),
     ("wind up", "−12 plf", "0 in to 12 ft")),
    (Applied("L", 0.0, 0.0, P=300.0, what="a", applied="top", moves=True), ("live", "300 lb", "anywhere")),
])  # fmt: skip
def test_a_load_as_it_acts(load: Applied, row: tuple[str, str, str]) -> None:
    (found,) = tables.loads_table([load]).rows
    assert found == ("a", *row, "top")


def test_the_load_of_a_post_and_its_least() -> None:
    loads = [Applied("D", 0.0, 0.0, P=500.0, what="a"), Applied("W", 0.0, 0.0, P=90.0, P_low=-300.0, what="b"),
             Applied("W", 0.0, 0.0, P=90.0, P_low=0.0, what="c")]  # fmt: skip
    assert [(row[2], row[3]) for row in tables.post_loads_table(loads).rows] == [
        ("500 lb", "–"), ("90 lb", "−300 lb"), ("90 lb", "–")]  # fmt: skip
    own = tables.loads_table([Applied("D", 0.0, 1.0, w_start=1.0, w_end=1.0, what="self weight", applied="top")])
    assert own.rows[0][-1] == "–"


@pytest.mark.parametrize(("both", "text"), [
    (None, "–"), ((500.0, 100.0), "500 lb"), ((500.0, -100.0), "500 lb to −100 lb"), ((-50.0, -100.0), "−50 lb"),
    ((0.0, -100.0), "0 lb to −100 lb"), ((500.0, 0.0), "500 lb"),
])  # fmt: skip
def test_a_reaction_of_one_kind(both: tuple[float, float] | None, text: str) -> None:
    assert tables._range(both) == text


@pytest.mark.parametrize(("many", "shown"), [(12, 12), (13, 6)])
def test_of_many_combinations_those_that_lead_are_shown(many: int, shown: int) -> None:
    """Of each C_D the largest and the least: 0.9 at 12 and 0, 1.0 at 10 and 1, 1.15 at 11 and 2."""
    every: Any = [SimpleNamespace(name=f"c{i}", C_D=(0.9, 1.0, 1.15)[i % 3]) for i in range(many)]
    table = tables.forces_table(every, {"V": (np.arange(many, dtype=float), "force")})
    assert len(table.rows) == shown and bool(table.note) is (many > 12)
    if many > 12:
        assert [row[0] for row in table.rows] == ["c0", "c1", "c2", "c10", "c11", "c12"] and table.note.startswith(
            "13 "
        )
    assert (table.rows[1][1], table.heads) == ("1", ("combination", "C_D", "V"))


@pytest.mark.parametrize(("N", "heads"), [((-1.0, 1.0), 0), ((-1.01, 0.0), 2), ((0.0, 1.01), 2)])
def test_axial_forces_have_a_column_where_there_are_some(N: tuple[float, float], heads: int) -> None:
    """Up to a pound is rounding (judgment)."""
    ends = {"M": (-20.0, 30.0), "V": (-5.0, 4.0), "N": N}
    line: Any = SimpleNamespace(extremes=lambda q: (np.array([ends[q][0]]), None, np.array([ends[q][1]]), None))
    case: Any = SimpleNamespace(name="D", C_D=0.9)
    table = tables.line_forces_table([case], line)
    assert table.heads[2:] == ("V", "M, bottom pulled", "M, top pulled", "compression", "tension")[: 3 + heads]
    assert table.rows[0][2:] == ("5 lb", "2.5 lb-ft", "1.7 lb-ft", *((_pounds(-N[0]), _pounds(N[1])) if heads else ()))


def _pounds(value: float) -> str:
    return f"{max(0.0, value):.0f} lb"


@pytest.mark.parametrize(("value", "text"), [
    (None, "–"), (float("nan"), "–"), (float("inf"), "without limit"), (-float("inf"), "−∞"), (12.0, "12 in"),
])  # fmt: skip
def test_a_quantity_for_people(value: float | None, text: str) -> None:
    assert quantity(value, "length", "US") == text


def test_what_decides_in_a_few_words() -> None:
    over = Check.of_ratio("beam.bending", "B", "bending", "", demand=1.5, capacity=1.0, kind="force")
    rule = Check.breaks_rule("beam.cut", "B", "limits of the notch", "", "too deep")
    kept = Check.keeps_rule("x", "B", "kept", "", "as said")

    def piece(*checks: Check, held: tuple[Holding, ...] = ()) -> PieceResult:
        verdict = held[0].verdict if held else checks[0].verdict if checks else "refer"
        return PieceResult("B", "beam", "", verdict, checks, (), held_by=held)

    assert governing_phrase(piece(over, kept)) == "bending, ratio 1.50"
    assert governing_phrase(piece()) == "nothing was checked"
    assert governing_phrase(piece(rule)) == "limits of the notch"
    assert governing_phrase(piece(kept, held=(Holding("A", "fails"),))) == "what holds it: A (fails)"
    assert check_text(rule).startswith("fails: B, limits of the notch; too deep\n")
    assert check_text(kept).startswith("passes: B, kept\n") and ", ratio 1.5" in check_text(over)

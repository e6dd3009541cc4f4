"""Candidates of unknown wood put in order and in words, on checks whose ratios are made up; loads without a place."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.core.asking.question import ask
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.draft import Draft, light_trim_words, transfer_doubts, unknown_below
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.screening import Screened, _for_information, _judged, _table, _verdict, settled_by
from beamcheck.errors import BeamcheckError, OutOfRange
from beamcheck.model.beams import Beam
from beamcheck.model.brackets.bracket import Trim
from beamcheck.values.lumber import design_values, read_size

from ..anchors.anchors import stock
from ..beams import beams
from ..brackets.brackets import SOLID, bracket, structure

SIZE = read_size("6x12 dressed")
PINE, FIR = (design_values(one, "No.1", SIZE) for one in ("Eastern White Pine", "Douglas Fir-Larch"))
OPEN = ask("moisture", "w", "stock.w.measured_moisture")


def ratio(value: float, what: str = "bending") -> Check:
    return Check("B", what, "", "passes" if value <= 1.0 else "fails", ratio=value)


RULE = Check.breaks_rule("beam.rule", "B", "limits of the notch", "")


def test_what_governs_of_a_candidate() -> None:
    found = _judged(PINE, [ratio(0.4), ratio(0.8, "shear"), Check.keeps_rule("x", "B", "kept", "")])
    assert (found.ratio, found.governs, found.broken, found.holds) == (0.8, "shear", (), True)
    broken = _judged(PINE, [ratio(0.4), RULE, RULE])
    assert (broken.ratio, broken.governs, broken.broken) == (math.inf, "limits of the notch", ("limits of the notch",))
    assert not broken.holds and not _judged(PINE, [ratio(1.01)]).holds and _judged(PINE, [ratio(1.0)]).holds
    nothing = _judged(PINE, [Check.keeps_rule("x", "B", "kept", "")])
    assert (nothing.ratio, nothing.governs) == (math.inf, "nothing could be worked out")
    none = _judged(PINE, [Check("B", "a", "", "refer", ratio=math.nan, questions=(OPEN,)), ratio(0.5, "b")])
    assert (none.ratio, none.governs) == (math.inf, "a")


def screened(pine: float, fir: float, **more: Any) -> list[Screened]:
    return [Screened(PINE, pine, "shear", **more), Screened(FIR, fir, "bending")]


def test_what_is_said_of_all_candidates() -> None:
    some = _verdict("B", screened(1.2, 0.8), OPEN, "")
    assert some.verdict == "refer" and some.notes[0].startswith("1 of 2 candidates would stay within the limits")
    assert some.notes[1] == "would not hold: Eastern White Pine No.1" and some.notes[2].startswith(
        "The species settles it"
    )
    all_ = _verdict("B", screened(1.0, 0.8), OPEN, "planned")
    assert (
        all_.notes[0].startswith("2 of 2") and all_.notes[-1] == "planned" and "would not hold" not in str(all_.notes)
    )
    none = _verdict("B", screened(1.5, 1.0001), OPEN, "")
    assert none.verdict == "fails" and none.notes[0].startswith("even Douglas Fir-Larch No.1, the best of 2 candidates")
    tested = _verdict("B", screened(1.2, 0.8, unlikely="too light"), OPEN, "")
    assert tested.notes[0].endswith("Tests on site speak against 1 of the 2 candidates")
    broken = [*screened(1.2, 1.2)[:1], Screened(FIR, math.inf, "a", ("a", "b"))]
    assert _verdict("B", broken, OPEN, "").notes == ("whatever the wood is, it fails in a and in b",)


def test_a_test_that_speaks_against_a_candidate_leaves_the_others_to_settle_it() -> None:
    assert "Every candidate" in settled_by(screened(1.2, 0.8, unlikely="too light"))
    both = [replace(one, unlikely="x") for one in screened(1.2, 0.8)]
    assert settled_by(both).startswith("The species settles it")


def test_figures_of_the_weakest_are_for_information() -> None:
    weakest, best = screened(1.2, 0.8)
    shown = _for_information(ratio(1.2), weakest, best, OPEN)
    assert shown.verdict == "refer" and "weakest candidate, Eastern White Pine No.1" in shown.notes[0]
    assert _for_information(RULE, weakest, best, OPEN).verdict == "refer"
    assert _for_information(RULE, weakest, replace(best, broken=("limits of the notch",)), OPEN) is RULE
    kept = Check.keeps_rule("x", "B", "kept", "")
    assert _for_information(kept, weakest, best, OPEN) is kept


def test_the_table_of_candidates() -> None:
    table = _table(screened(1.2, 0.8), stock(), "planned")
    assert [(row[0], row[5], row[6]) for row in table.rows] == [
        ("Eastern White Pine", "shear", "over"), ("Douglas Fir-Larch", "bending", "within")]  # fmt: skip
    assert (
        len(table.heads) == 7 and "Would not hold: Eastern White Pine No.1." in table.note and "planned" in table.note
    )
    tested = _table(screened(1.2, 0.8, unlikely="too light"), stock(), "")
    assert [row[7] for row in tested.rows] == ["too light", "may be"] and len(tested.heads) == 8
    many = _table(screened(0.5, 0.5) * 21, stock(), "")
    assert len(many.rows) == 40 and "The 2 strongest candidates are left out." in many.note
    assert "Would not hold" not in many.note


# ---- what comes to a piece from others -----------------------------------------------------------------------------


def doubts(transfer: TransferredLoad, name: str = "B", **pieces: Any) -> list[tuple[str, str]]:
    here = structure()
    seats = [beams.seat("0 ft", "slab"), beams.seat("12 ft", "slab")]
    own = Beam.model_validate(beams.beam(supports=seats))
    every = {**here.structure.pieces, "B": own, "K": bracket(SOLID), **pieces}
    found = transfer_doubts(name, Context(Structure(here.structure.stocks, every), (transfer,)))
    return [(one.id.removeprefix("path."), one.questions[0].field) for one in found]


def load(on: str = "C", **more: Any) -> TransferredLoad:
    return TransferredLoad(on, more.pop("forces", {"D": (100.0, 60.0)}), **more)


def test_a_load_of_which_something_is_not_known() -> None:
    over = Beam.model_validate(beams.beam(name="C", supports=[beams.seat("0 ft", "B", lands_at="1 ft"),
                                                              beams.seat("12 ft", "B")]))  # fmt: skip
    assert doubts(load(at=20.0)) == [] and doubts(load(unknown=True))[0][0] == "load"
    assert doubts(load(at=20.0, perhaps="more may come"))[0][0] == "load"
    assert doubts(load(), C=over) == [("place", "beam.C.supports.2.lands_at")]
    given = [{**one.__dict__, "lands_at": 12.0} for one in over.supports]
    sure = over.model_copy(update={"supports": [over.supports[0].model_copy(update=one) for one in given]})
    assert doubts(load(), C=sure) == [("place", "beam.C.supports.1.lands_at")]
    assert doubts(load(spread=24.0), C=over) == [] and doubts(load(spread=24.0), "post")[0][0] == "row"
    assert doubts(load(), "post") == [] and doubts(load(), "K", C=over)[0][0] == "place"
    assert doubts(load(at=3.0), "K") == [] and doubts(load(unknown=True, spread=24.0), "post")[0][0] == "load"
    assert doubts(load(), C=bracket(SOLID)) == [("place", "ruling")]


@pytest.mark.parametrize(("weight", "asked"), [(50.0, False), (50.1, True)])
def test_a_little_trim_may_be_anywhere_along_a_simple_beam(weight: float, asked: bool) -> None:
    trim = Trim.model_construct(name="C", near=None)
    forces = {"D": (0.5 * weight, 0.2 * weight), "L": (0.0, -0.5 * weight)}
    found = doubts(load(forces=forces), C=trim)
    assert bool(found) is asked
    here = structure()
    own = Beam.model_validate(beams.beam(supports=[beams.seat("0 ft", "slab"), beams.seat("12 ft", "slab")]))
    place = Context(Structure(here.structure.stocks, {"B": own, "C": trim}), (load(forces=forces), load(at=3.0)))
    assert light_trim_words("B", place) == ([] if asked else [
        "C, no more than 50 lb, is taken at midspan (common practice)."])  # fmt: skip
    for last, simple in (
        ("9 ft", True),
        ("8.9 ft", False),
        ("10 ft", True),
    ):  # nine tenths of 10 ft between its supports
        seats = [beams.seat("0 ft", "slab"), beams.seat(last, "slab")]
        short = Beam.model_validate(beams.beam(length="10 ft", supports=seats))
        assert bool(doubts(load(forces=forces), C=trim, B=short)) is (asked or not simple)
    over = Beam.model_validate(
        beams.beam(length="10 ft", supports=[beams.seat("6 in", "slab"), beams.seat("9.4 ft", "slab")])
    )
    assert doubts(load(forces=forces), C=trim, B=over) == [("place", "ruling")]
    three = Beam.model_validate(beams.beam(supports=[beams.seat(f"{x} ft", "slab") for x in (0, 6, 12)]))
    assert doubts(load(forces=forces), C=trim, B=three) == [("place", "ruling")]


def test_a_piece_that_could_not_be_worked_out() -> None:
    draft = Draft("B", "beam", "beam")
    draft.outside(OutOfRange("too short", "NDS 2018 3.2"))
    assert [(one.clause, one.verdict) for one in draft.checks] == [("NDS 2018 3.2", "refer")]
    plain = Draft("B", "beam", "beam")
    plain.outside(BeamcheckError("no"))
    assert plain.checks[0].clause == "NDS 2018" and plain.done().verdict == "refer"
    below = unknown_below("B", ["P", None, "Q"])
    assert [(on, one.unknown) for on, one in below.transfers] == [("P", True), ("Q", True)]

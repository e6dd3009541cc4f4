"""Wood nobody knows: every candidate tried, never a pass. A beam that fails: what would make it hold, and does."""

from __future__ import annotations

import copy
import math
import re
from typing import Any

import pytest

from beamcheck.checks.beams.beam import check_beam
from beamcheck.checks.beams.beam_run import BeamSolver
from beamcheck.checks.beams.record import remedies as advise
from beamcheck.checks.beams.record.remedies import _largest_scale
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check, no_figure
from beamcheck.checks.core.screening import screen, screening_woods
from beamcheck.checks.core.wood.material import WoodMaterial, reference_values, wood_of
from beamcheck.model.beams import Beam
from beamcheck.model.reading.reader import job_from_data
from beamcheck.model.stock import Stock
from beamcheck.units import read
from beamcheck.values.lumber import DesignValues

from ..beams.beams import Data, beam, find, floor, job, ratios, result_of, said, seat, stock

PINES = ["Eastern White Pine", "Eastern Hemlock-Tamarack"]


def unknown(size: str = "7 1/2 in x 11 1/2 in", **more: Any) -> Data:
    return {
        "name": "wood", "species": "unknown", "grade": "unstamped", "size": size, "moisture": "dry",
        "measured_moisture": "12 %", "candidates": PINES, **more,
    }  # fmt: skip


def read_job(piece: Data, wood: Data) -> tuple[Beam, Stock, Context]:
    found = job_from_data(copy.deepcopy(job(piece, wood=wood)))
    structure = Structure(
        {found.stock[0].name: found.stock[0]}, {one.name: one for one in (*found.beam, *found.existing)}
    )
    return found.beam[0], found.stock[0], Context(structure)


class TestScreening:
    def test_it_is_never_a_pass(self) -> None:
        result = result_of(beam(carries=[floor(live="10 plf")]), wood=unknown())
        assert result.verdict == "refer"
        assert "6 of 6 candidates would stay within the limits" in said(result, "refer")
        assert all(check.verdict != "passes" for check in result.checks if check.ratio is not None)

    def test_each_candidate_gives_the_ratio_of_that_wood(self) -> None:
        """Against the plain checks of each row by itself, solved anew: sharing one solution changes nothing."""
        piece, stock_, context = read_job(beam(top_held="ends only", length="14 ft"), unknown())

        def make(values: DesignValues) -> WoodMaterial:
            return wood_of(stock_, values)

        _, _, found = screen("B", stock_, make, lambda wood: check_beam(piece, wood, context)[1])
        assert len(found) == 6
        for one in found:
            (wood,) = (wood for values, wood in screening_woods(stock_, make) if values == one.values)
            alone = check_beam(piece, wood, Context(context.structure))[1]
            assert one.ratio == pytest.approx(max(c.ratio for c in alone if c.ratio is not None), rel=1e-12)
        assert [one.ratio for one in found] == sorted((one.ratio for one in found), reverse=True)

    def test_a_softer_wood_bends_more_under_the_same_forces(self) -> None:
        piece, stock_, context = read_job(beam(), stock())
        wood = wood_of(stock_, reference_values(stock_))
        run = BeamSolver(piece, context).run(wood).solved
        soft = run.softer(2.0)
        assert soft.deflections(0, 144, False, soft.factors)[0] == pytest.approx(
            2 * run.deflections(0, 144, False, run.factors)[0]
        )
        assert soft.cases_run.line.at("v", 72.0) == pytest.approx(2 * run.cases_run.line.at("v", 72.0))
        assert soft.moments(0, 144)[2] == pytest.approx(run.moments(0, 144)[2])

    def test_settlement_is_solved_for_each_wood(self) -> None:
        ends = [seat("0 ft"), seat("12 ft", settles="1/2 in"), seat("24 ft")]
        piece, stock_, context = read_job(beam(supports=ends), stock())
        with pytest.raises(ValueError, match="depend on the stiffness"):
            BeamSolver(piece, context).run(wood_of(stock_, reference_values(stock_))).solved.softer(2.0)
        assert result_of(beam(supports=ends), wood=unknown()).verdict != "passes"

    def test_even_the_best_is_not_enough(self) -> None:
        result = result_of(beam(carries=[floor(live="3000 plf")]), wood=unknown())
        found = find(result, "wood of unknown grade")
        assert found.verdict == result.verdict == "fails"
        assert found.notes[0].startswith("even ")

    def test_a_rule_that_no_wood_keeps(self) -> None:
        cut = {"kind": "notch", "at": "4 ft", "length": "3 in", "depth": "1 in", "face": "bottom"}
        result = result_of(beam(carries=[floor(live="10 plf")], cuts=[cut]), wood=unknown())
        assert result.verdict == "fails"
        assert find(result, "wood of unknown grade").notes == ("whatever the wood is, it fails in limits of the notch",)

    def test_all_take_the_heaviest_weight(self) -> None:
        _, stock_, _ = read_job(beam(), unknown())
        woods = [wood for _, wood in screening_woods(stock_, lambda values: wood_of(stock_, values))]
        alone = [wood_of(stock_, values).density for values, _ in screening_woods(stock_, lambda v: wood_of(stock_, v))]
        assert {wood.density for wood in woods} == {max(alone)}

    def test_what_only_the_weakest_breaks_does_not_fail_the_piece(self) -> None:
        """A rule without a ratio that holds for the best candidate depends on the wood."""
        _, stock_, _ = read_job(beam(), unknown())
        woods = screening_woods(stock_, lambda values: wood_of(stock_, values))
        weakest = min(values.F_b for values, _ in woods)

        def check(wood: WoodMaterial) -> list[Check]:
            broken = wood.F_b.value == weakest
            return [
                Check("B", "a", "", "fails" if broken else "passes"),
                Check("B", "b", "", "passes", ratio=0.5 if not broken else 0.6),
            ]

        checks, table, found = screen("B", stock_, lambda values: wood_of(stock_, values), check)
        assert [one.verdict for one in checks] == ["refer", "refer", "refer"]
        assert math.isinf(found[0].ratio) and found[0].broken == ("a",)
        assert table.rows[0][-1] == "over"

    def test_a_ratio_that_is_no_number_counts_as_too_much(self) -> None:
        _, stock_, _ = read_job(beam(), unknown())
        nothing = Check("B", "a", "", "refer", ratio=math.nan, questions=(no_figure("B", "a"),))
        checks, _, found = screen("B", stock_, lambda values: wood_of(stock_, values), lambda _: [nothing])
        assert {one.ratio for one in found} == {math.inf}
        assert checks[0].verdict == "fails"


HEAVY = floor(dead="10 psf", live="40 psf", width="8 ft", dead_includes_own_weight=False)
FAILING = beam(supports=[seat("0 ft"), seat("18 ft")], carries=[HEAVY])


def remedies(piece: Data, wood: Data) -> tuple[str, ...]:
    return result_of(piece, wood=wood).remedies


class TestRemedies:
    def test_none_for_a_beam_that_does_not_fail(self) -> None:
        assert remedies(beam(), stock()) == ()

    def test_each_of_them_holds(self) -> None:
        """What is said is put into the job and checked again."""
        size, length, width = remedies(FAILING, stock())
        bigger = re.findall(r"grade: (.*) \(", size)[0]
        assert result_of(FAILING, wood=stock(bigger)).verdict == "passes"
        span = re.findall(r"up to (.*) over all", length)[0]
        ends = [seat("0 ft"), seat(span)]
        assert result_of({**FAILING, "supports": ends}, wood=stock()).verdict == "passes"
        narrow = re.findall(r"width of (.*) instead", width)[0]
        load = floor(dead="10 psf", live="40 psf", width=narrow)
        assert result_of({**FAILING, "carries": [load]}, wood=stock()).verdict == "passes"

    def test_an_inch_more_does_not_hold(self) -> None:
        _, length, width = remedies(FAILING, stock())
        span = read(re.findall(r"up to (.*) over all", length)[0], "length") + 2
        ends = [seat("0 ft"), seat(f"{span} in")]
        assert result_of({**FAILING, "supports": ends}, wood=stock()).verdict == "fails"
        narrow = read(re.findall(r"width of (.*) instead", width)[0], "length") + 2
        load = {**HEAVY, "width": f"{narrow} in"}
        assert result_of({**FAILING, "carries": [load]}, wood=stock()).verdict == "fails"

    def test_the_next_size_is_the_smallest_listed_that_holds(self) -> None:
        """Against trying all of them: what is skipped without a full check would not have held."""
        from beamcheck.values.lumber import read_size
        from beamcheck.values.sizes import listed_sizes

        now = read_size("6x12 dressed")
        chosen = re.findall(r"grade: (.*) \(", remedies(FAILING, stock())[0])[0]
        for name in listed_sizes(now):
            other = read_size(name)
            if other.b * other.d > now.b * now.d and other.b >= now.b and name != chosen:
                assert result_of(FAILING, wood=stock(name)).verdict == "fails"
            if name == chosen:
                break

    def test_less_load_where_there_is_no_one_width(self) -> None:
        piece = beam(carries=[floor(dead="50 plf"), floor(what="tank", live="8000 lb", at="6 ft", bearing="12 in")])
        percent = int(re.findall(r"holds with (\d+) %", remedies(piece, stock())[-1])[0])

        def loaded(share: float) -> str:
            loads = [
                floor(dead=f"{50 * share} plf"),
                floor(what="tank", live=f"{8000 * share} lb", at="6 ft", bearing="12 in"),
            ]
            return result_of(beam(carries=loads), wood=stock()).verdict

        assert (loaded(percent / 100), loaded(percent / 100 + 0.02)) == ("passes", "fails")

    def test_what_no_size_mends(self) -> None:
        cut = {"kind": "notch", "at": "4 ft", "length": "3 in", "depth": "1 in", "face": "bottom"}
        (said_,) = remedies({**FAILING, "cuts": [cut]}, stock())
        assert "first put right: limits of the notch" in said_

    def test_only_rules_broken(self) -> None:
        cut = {"kind": "notch", "at": "4 ft", "length": "3 in", "depth": "1 in", "face": "bottom"}
        assert remedies(beam(cuts=[cut], carries=[floor(live="5 plf")]), stock()) == ()

    def test_members_that_share_still_share_in_the_next_size(self) -> None:
        """C_r belongs to the bigger size as well: it is not asked to do without."""
        more = {"members": 8, "spacing": "16 in", "shared_by": "boards"}
        load = [floor(dead="10 psf", live="40 psf", width="16 in")]
        piece = beam(supports=[seat("0 ft"), seat("17 ft 6 in")], carries=load, **more)
        wood = stock("2x8", species="Hem-Fir", grade="No.2")
        bigger = re.findall(r"grade: (.*) \(", remedies(piece, wood)[0])[0]
        bent = find(result_of(piece, wood=stock(bigger, species="Hem-Fir", grade="No.2")), "bending")
        assert any(each.symbol == "C_r" and each.value == 1.15 for each in bent.steps)

    def test_many_places_of_load_are_not_searched(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(advise, "MANY", 1)
        assert "no remedy was searched for" in remedies(FAILING, stock())[0]


class TestSearch:
    """The search for the largest share, on ratios whose answer is known."""

    @pytest.mark.parametrize("power", [0.3, 1.0, 2.0, 4.0])
    @pytest.mark.parametrize("answer", [0.26, 0.5, 0.77, 0.995])
    def test_finds_the_largest_that_holds(self, power: float, answer: float) -> None:
        asked: list[float] = []

        def ratio(factor: float) -> float:
            asked.append(factor)
            return (factor / answer) ** power

        found = _largest_scale(ratio, ratio(1.0), 0.01)
        assert found is not None
        assert answer - 0.01 <= found <= answer
        assert len(asked) <= 9

    def test_a_step_and_a_broken_rule(self) -> None:
        found = _largest_scale(lambda factor: 0.2 if factor < 0.61 else math.inf, math.inf, 0.01)
        assert found is not None and 0.6 <= found < 0.61

    def test_not_even_a_quarter(self) -> None:
        assert _largest_scale(lambda factor: 1.5, 2.0, 0.01) is None
        assert _largest_scale(lambda factor: math.nan, math.nan, 0.01) is None


def test_a_screened_ratio_is_the_one_of_the_sheet() -> None:
    result = result_of(beam(), wood=unknown())
    table = next(table for table in result.tables if table.title.startswith("Screening"))
    assert float(table.rows[0][4]) == pytest.approx(max(ratios(result).values()), rel=0.01)

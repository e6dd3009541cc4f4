"""What was not said is never `fails`: a moisture reading, neighbors that share; and what must be asked, not guessed."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck import JobError, check_job, job_from_data
from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.model.job_paths import with_values

from ..beams.beams import LETTER, Data, beam, floor, job, seat, stock

JOIST = {"name": "wood", "species": "Douglas Fir-Larch", "grade": "No.2", "size": "2x10", "moisture": "dry",
         "grade_from": "stamp", "evidence": "stamp: agency mark, mill 12, No.2, Douglas Fir-Larch"}  # fmt: skip
PLATE = {"name": "plate", **LETTER, "material": "wood", "F_c_perp": "625 psi", "takes": "30,000 lb"}
SUBFLOOR = "3/4 in subfloor, nailed to every joist"


def run(data: Data, name: str = "B") -> PieceResult:
    return next(piece for piece in check_job(job_from_data(data)).pieces if piece.name == name)


def closed(data: Data, check: Check, name: str = "B") -> PieceResult:
    """The piece with the best answer to each question of a check."""
    sets = [each for question in check.questions for each in question.answers[0].sets]
    pieces = check_job(with_values(job_from_data(data), sets)).pieces
    return next(piece for piece in pieces if piece.name == name)


def only(result: PieceResult, id: str) -> Check:
    (check,) = (one for one in result.checks if one.id == id and one.verdict != "passes")
    return check


class TestMoisture:
    DATA = job(
        beam(supports=[seat("0 ft", "plate", bearing="1 1/2 in"), seat("8 ft", "plate", bearing="1 1/2 in")],
             carries=[floor(dead="10 psf", live="40 psf", width="17 ft 6 in")]),
        wood=stock("6x10 dressed"), existing=[PLATE],
    )  # fmt: skip

    def test_without_a_reading_it_waits_for_one(self) -> None:
        """NDS 2018 4.3.3: C_M 0.67 on bearing, 1.03 of what is allowed; dry 0.69."""
        data: Data = {**self.DATA, "stock": [{k: v for k, v in self.DATA["stock"][0].items() if k[0:4] != "meas"}]}
        result = run(data)
        found = [check for check in result.checks if check.id == "beam.bearing"]
        assert {check.verdict for check in found} == {"refer"} and found[0].ratio == pytest.approx(1.03, abs=0.02)
        assert [question.field for question in found[0].questions] == ["stock.wood.measured_moisture"]
        assert closed(data, found[0]).verdict == "passes"

    @pytest.mark.parametrize(("stamped", "verdict"), [("S-DRY", "passes"), ("S-GRN", "refer")])
    def test_dimension_lumber_stamped_green_waits_for_one_too(self, stamped: str, verdict: str) -> None:
        """NDS 2018 4.3.3: wet E is 0.9 of dry E; 0.96 of the allowed deflection becomes 1.06."""
        wood = {**JOIST, "species": "Hem-Fir", "size": "2x8", "evidence": f"stamp: mill 12, No.2, Hem-Fir, {stamped}"}
        data = job(
            beam(supports=[seat("0 ft", "plate"), seat("11 ft 9 in", "plate")], spacing="16 in", members=12,
                 shared_by=SUBFLOOR, carries=[floor(dead="10 psf", live="40 psf", width="16 in")]),
            wood=wood, existing=[PLATE],
        )  # fmt: skip
        result = run(data)
        assert result.verdict == verdict
        if verdict == "refer":
            (check,) = (one for one in result.checks if one.verdict == "refer")
            assert [one.field for one in check.questions] == ["stock.wood.measured_moisture"]
            assert closed(data, check).verdict == "passes"

    def test_what_it_is_taken_for_says_so(self) -> None:
        data: Data = {**self.DATA, "stock": [{**self.DATA["stock"][0], "measured_moisture": "25 %"}]}
        assert "metered at 25 % and taken as wet" in run(data).understood

    def test_said_to_be_wet_it_fails(self) -> None:
        data: Data = {**self.DATA, "stock": [{**self.DATA["stock"][0], "moisture": "wet"}]}
        assert run(data).verdict == "fails"

    def test_too_much_for_dry_wood_fails(self) -> None:
        data: Data = {**self.DATA, "stock": [{k: v for k, v in self.DATA["stock"][0].items() if k[0:4] != "meas"}]}
        data["beam"] = [{**data["beam"][0], "carries": [floor(dead="10 psf", live="40 psf", width="30 ft")],
                         "meant": {"width": "a hall on both sides"}}]  # fmt: skip
        assert run(data).verdict == "fails"


class TestNeighbors:
    def data(self, **more: Any) -> Data:
        return job(
            beam(supports=[seat("0 ft"), seat("14 ft 6 in")], spacing="16 in", carries=[floor(
                dead="10 psf", live="40 psf", width="16 in", dead_includes_own_weight=False,
            )], **more),
            wood=JOIST,
        )  # fmt: skip

    def test_a_row_whose_deck_is_not_said_is_asked_for_it(self) -> None:
        """NDS 2018 4.3.9: 1.04 without C_r, 0.91 with."""
        check = only(run(self.data()), "beam.bending")
        assert check.verdict == "refer" and check.questions[0].field == "beam.B.members"
        assert closed(self.data(), check).verdict == "passes"

    def test_one_that_is_said_to_be_alone_fails(self) -> None:
        assert only(run(self.data(members=1)), "beam.bending").verdict == "fails"


class TestOutdoors:
    @pytest.mark.parametrize(("what", "wood", "asks"), [
        ("deck, open to the rain", {}, 2), ("deck", {"moisture": "wet"}, 1), ("living room", {}, 0),
        ("floor and outside wall", {}, 0),
        ("deck", {"moisture": "wet", "treated": True, "treated_with": "preservative"}, 0),
        ("deck", {"meant": {"moisture": "under a roof", "treated": "heartwood of a cedar"}}, 0),
    ])  # fmt: skip
    def test_wet_service_and_rot(self, what: str, wood: Data, asks: int) -> None:
        """NDS 2018 4.3.3; IRC R317.1."""
        data = job(
            beam(carries=[floor(what=what, dead="10 psf", live="60 psf", width="16 in")], in_a_row=False,
                 meant={"width": "one board wide"}),
            wood={**JOIST, **wood},
        )  # fmt: skip
        found = [check for check in run(data).checks if check.id == "loads.weather"]
        assert len(found) == asks
        for check in found:
            left = [one for one in closed(data, check).checks if one.id == "loads.weather"]
            assert len(left) == asks - 1


class TestPlaces:
    def row(self, members: int) -> Data:
        carrier = beam(name="girder", supports=[seat("0 ft"), seat("9 ft")], carries=[])
        joists = beam(
            name="B", stock="joist", supports=[seat("0 ft", on="girder", lands_from="0 ft", lands_to="3 ft"),
                                               seat("12 ft")],
            carries=[floor(dead="10 psf", live="40 psf", width="16 in")], spacing="16 in", members=members,
            shared_by=SUBFLOOR,
        )  # fmt: skip
        return job(carrier, joists, stocks=[{**JOIST, "name": "joist"}])

    def test_more_joists_than_find_room(self) -> None:
        """12 pieces 16 in apart reach over 14 ft 8 in, not over 3 ft."""
        data = self.row(12)
        check = only(run(data, "girder"), "beam.row")
        assert check.questions[0].field == "beam.B.members"
        assert not [one for one in closed(data, check, "girder").checks if one.id == "beam.row"]
        assert not [one for one in run(self.row(3), "girder").checks if one.id == "beam.row"]

    @pytest.mark.parametrize(("at", "fits"), [("0 in", False), ("1 in", False), ("2 in", True), ("11 ft 10 in", True)])
    def test_a_hole_lies_within_the_piece(self, at: str, fits: bool) -> None:
        cut = {"kind": "hole", "at": at, "depth": "3 in", "from_bottom": "5 3/4 in"}
        if fits:
            assert run(job(beam(cuts=[cut])))
            return
        with pytest.raises(JobError, match="reaches beyond its left end"):
            job_from_data(job(beam(cuts=[cut])))

    def test_a_seat_that_sinks_away_is_left(self) -> None:
        supports = [seat("0 ft"), seat("10 ft", settles="1/2 in"), seat("20 ft")]
        check = only(run(job(beam(supports=supports))), "beam.uplift")
        assert check.questions[0].id.startswith("B/leaves_seat")
        tied = [supports[0], {**supports[1], "tied_down": "strap, report no. 3 of 2024"}, supports[2]]
        assert only(run(job(beam(supports=tied))), "beam.uplift").questions[0].field == "beam.B.supports.2.held_by"

    def test_an_end_that_hangs_is_asked_for_its_hanger_only(self) -> None:
        hung = {"at": "0 ft", "on": "wall", "restrained": True, "holds": "hung"}
        result = run(job(beam(supports=[hung, seat("12 ft")])))
        assert only(result, "beam.end_held") and not [one for one in result.checks if one.verdict == "refer"
                                                      and one.id == "beam.bearing"]  # fmt: skip

"""Seats: bearing of the beam, of what is under it and of its top; what holds an end (NDS 2018 3.10, IRC R502.6)."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.result import PieceResult

from .beams import Data, beam, begins, checked, find, floor, job, known, result_of, said, seat, step, stock

WOOD = known("6 in x 12 in")  # F_c_perp 400 psi
LOAD = (floor(live="240 plf"),)
R = (20 + 5 / 1728 * 72) * 72  # lb at each end of 12 ft
POST: Data = {"name": "P", "stock": "wood", "height": "8 ft", "on": "wall", "top_restraint": "pinned"}


def on(name: str, bearing: str = "5 1/2 in", **more: Any) -> Data:
    return {"supports": [seat("0 ft", on=name, bearing=bearing, **more), seat("12 ft")], "carries": [*LOAD]}


class TestOwnBearing:
    def test_stress(self) -> None:
        found = find(result_of(beam(carries=[*LOAD]), wood=WOOD), "bearing at support 1 on wall")
        assert found.demand == pytest.approx(R / (6 * 5.5))
        assert found.capacity == pytest.approx(400.0)

    def test_a_seat_narrower_than_the_beam(self) -> None:
        result = result_of(beam(**on("wall", bearing_width="3 in")), wood=WOOD)
        assert find(result, "bearing at support 1 on wall").demand == pytest.approx(R / (3 * 5.5))

    @pytest.mark.parametrize(("at", "bearing", "C_b"), [
        ("6 ft", "4 in", 4.375 / 4), ("6 ft", "6 in", 1.0), ("4 in", "4 in", 1.0), ("5 in", "4 in", 4.375 / 4),
    ])  # fmt: skip
    def test_C_b_only_three_inches_from_the_end(self, at: str, bearing: str, C_b: float) -> None:
        """NDS 2018 3.10.4 (memory): l_b under 6 in and at least 3 in from the end of the piece."""
        piece = beam(length="12 ft", supports=[seat(at, bearing=bearing), seat("12 ft")], carries=[*LOAD])
        assert find(result_of(piece, wood=WOOD), "bearing at support 1 on wall").capacity == pytest.approx(400 * C_b)

    @pytest.mark.parametrize(("material", "bearing", "fails"), [
        ("concrete", "2 15/16 in", True), ("concrete", "3 in", False), ("wood", "1 7/16 in", True),
        ("wood", "1 1/2 in", False),
    ])  # fmt: skip
    def test_least_length(self, material: str, bearing: str, fails: bool) -> None:
        """IRC R502.6 (memory): 1 1/2 in on wood or metal, 3 in on masonry or concrete."""
        plate = {
            "name": "plate",
            "what": "plate",
            "material": material,
            "F_c_perp": "900 psi",
            "confirmed_by": "invented sheet S-1, engineer",
        }
        piece = beam(**on("plate", bearing), top_held="full length")
        piece["carries"] = [floor(live="20 plf")]
        found = begins(result_of(piece, wood=WOOD, existing=[plate]), "least seat length")
        assert [check.verdict for check in found] == (["fails"] if fails else [])

    def test_seats_that_lie_over_each_other(self) -> None:
        piece = beam(
            length="12 ft", supports=[seat("0 ft"), seat("5 in"), seat("12 ft")], carries=[floor(live="5 plf")]
        )
        assert "lie over each other" in said(result_of(piece, wood=WOOD), "refer")


class TestUnder:
    def test_wood_of_others_with_its_value(self) -> None:
        plate = {
            "name": "plate",
            "what": "plate",
            "material": "wood",
            "F_c_perp": "300 psi",
            "confirmed_by": "invented sheet S-1, engineer",
        }
        found = find(result_of(beam(**on("plate")), wood=WOOD, existing=[plate]), "bearing of plate under B")
        assert found.demand == pytest.approx(R / 33)
        assert found.capacity == 300.0
        del plate["F_c_perp"]
        assert (
            find(result_of(beam(**on("plate")), wood=WOOD, existing=[plate]), "bearing of plate under B").verdict
            == "refer"
        )

    def test_a_beam_is_crushed_across_its_grain_too(self) -> None:
        soft = known("6 in x 12 in", F_c_perp=100) | {"name": "soft"}
        under = beam(name="U", stock="soft", carries=[])
        piece = beam(**on("U", lands_at="6 ft"))
        found = find(result_of(piece, under, wood=WOOD, stocks=[soft]), "bearing of U under B")
        assert found.capacity == pytest.approx(100.0)
        assert found.verdict == "passes"
        assert find(result_of(beam(**on("U", lands_at="6 ft", bearing="2 in")), under, wood=WOOD, stocks=[soft]),
                    "bearing of U under B").verdict == "fails"  # fmt: skip

    def test_a_seat_is_no_longer_than_the_beam_below_is_broad(self) -> None:
        under = beam(name="U", carries=[])
        result = result_of(beam(**on("U", "9 in", lands_at="6 ft")), under, wood=WOOD)
        assert find(result, "bearing at support 1 on U").demand == pytest.approx(R / (6 * 6))
        assert "longer than U is broad" in said(result, "refer")

    def test_a_post_thinner_than_the_beam(self) -> None:
        """A 4x4 under a beam 6 in broad: 3 1/2 in of it touch, not 6."""
        thin = stock("4x4", name="thin")
        result = result_of(beam(**on("P", "3 1/2 in")), wood=WOOD, stocks=[thin], post=[POST | {"stock": "thin"}])
        found = find(result, "bearing at support 1 on P")
        assert found.demand == pytest.approx(R / (3.5 * 3.5))
        assert "no broader than P" in found.notes[0]
        long = result_of(beam(**on("P", "5 1/2 in")), wood=WOOD, stocks=[thin], post=[POST | {"stock": "thin"}])
        assert "longer than P is broad" in said(long, "refer")
        plate = POST | {"stock": "thin", "bearing_plate": True}
        spread = result_of(beam(**on("P", "5 1/2 in")), wood=WOOD, stocks=[thin], post=[plate])
        assert find(spread, "bearing at support 1 on P").demand == pytest.approx(R / 33)

    def test_a_post_turned_either_way(self) -> None:
        """4x8: its thin side counts unless the breadth of the seat says otherwise."""
        post = stock("4x8", name="flat")
        thin = result_of(beam(**on("P", "3 1/2 in")), wood=WOOD, stocks=[post], post=[POST | {"stock": "flat"}])
        wide = result_of(
            beam(**on("P", "3 1/2 in", bearing_width="6 in")), wood=WOOD, stocks=[post], post=[POST | {"stock": "flat"}]
        )
        assert find(thin, "bearing at support 1 on P").demand == pytest.approx(R / (3.5 * 3.5))
        assert find(wide, "bearing at support 1 on P").demand == pytest.approx(R / (3.5 * 6))

    def test_two_beams_on_one_post(self) -> None:
        post = stock("6x6 dressed", name="six")
        one = beam(**on("P"), name="B")
        two = beam(name="C", supports=[seat("0 ft"), seat("12 ft", on="P")])
        result = result_of(one, two, wood=WOOD, stocks=[post], post=[POST | {"stock": "six"}])
        assert "add up to more than there is room for" in said(result, "refer")
        half = [{**each, "supports": [{**s, "bearing": "2 3/4 in"} if s["on"] == "P" else s for s in each["supports"]]}
                for each in (one, two)]  # fmt: skip
        assert "add up" not in said(result_of(*half, wood=WOOD, stocks=[post], post=[POST | {"stock": "six"}]), "refer")


class TestSeatsOnTheTop:
    def result(self, **load: Any) -> PieceResult:
        point = {"what": "column", "live": "1000 lb", "at": "6 ft", **load}
        return result_of(beam(carries=[point]), wood=WOOD)

    def test_a_square_seat(self) -> None:
        """Only its length is given, so it is no broader than that."""
        found = find(self.result(applied="top", bearing="3 in"), "seat of column on the top")
        assert found.demand == pytest.approx(1000 / 9)
        assert found.capacity == pytest.approx(400.0)  # no C_b
        found = find(self.result(applied="top", bearing="9 in"), "seat of column on the top")
        assert found.demand == pytest.approx(1000 / (9 * 6))

    @pytest.mark.parametrize("load", [{"applied": "top"}, {"bearing": "3 in"}, {}])
    def test_not_said(self, load: Data) -> None:
        assert find(self.result(**load), "seat of column on the top").verdict == "refer"

    def test_two_entries_of_which_one_has_no_seat(self) -> None:
        loads = [{"what": "column", kind: "500 lb", "at": "6 ft", "applied": "top"} for kind in ("dead", "live")]
        loads[0]["bearing"] = "3 in"
        assert find(result_of(beam(carries=loads), wood=WOOD), "seat of column on the top").verdict == "refer"

    def test_kinds_together(self) -> None:
        """500 D + 0.75 (400 L + 800 S) = 1400 lb is more than D + S."""
        found = find(
            self.result(dead="500 lb", live="400 lb", snow="800 lb", applied="top", bearing="3 in"),
            "seat of column on the top",
        )
        assert step(found, "R") == pytest.approx(1400.0)
        assert found.combination == "D + 0.75 L + 0.75 S"

    def test_a_beam_that_lands_there_reaches_over_it_by_its_seat(self) -> None:
        """Contact: breadth of the one above by the length of its seat."""
        above = beam(
            name="A", supports=[seat("0 ft", on="B", lands_at="6 ft", bearing="3 in"), seat("12 ft")], carries=[*LOAD]
        )
        result = result_of(beam(carries=[]), above, wood=WOOD)
        assert find(result, "seat of A on the top").demand == pytest.approx(R / (6 * 3))

    def test_a_moving_load_has_a_seat_anywhere(self) -> None:
        load = {"what": "jack", "live": "1000 lb", "moves": True, "applied": "top", "bearing": "2 in"}
        found = find(result_of(beam(carries=[load]), wood=WOOD), "seat of jack on the top")
        assert (found.where, found.demand) == ("anywhere", pytest.approx(250.0))


class TestLoadsInTheSide:
    def of(self, **load: Any) -> PieceResult:
        return result_of(beam(carries=[{"what": "joists", "live": "100 plf", **load}]), wood=WOOD)

    @pytest.mark.parametrize(("load", "words", "field"), [
        ({"applied": "below"}, "how high they sit is not given", "fastened.highest"),
        ({"applied": "side"}, "how high they sit is not given", "fastened.highest"), ({}, "is not said", "applied"),
    ])  # fmt: skip
    def test_not_said(self, load: Data, words: str, field: str) -> None:
        result = self.of(**load)
        assert result.verdict == "refer"
        assert words in said(result, "refer")
        assert [one.field for one in result.questions] == [f"beam.B.carries.1.{field}"]

    @pytest.mark.parametrize("deep", ["5 1/2 in", "12 in"])
    def test_heights_that_are_offered_lie_in_the_wood(self, deep: str) -> None:
        side = {"what": "joists", "live": "20 plf", "applied": "side"}
        asked = result_of(beam(carries=[side]), wood=known(f"4 in x {deep}")).questions[0]
        for answer in asked.answers:
            heights = {path.rpartition(".")[2]: value for path, value in answer.sets}
            again = result_of(beam(carries=[{**side, "fastened": heights}]), wood=known(f"4 in x {deep}"))
            assert not again.questions or [one.field for one in again.questions] == ["ruling"]

    def test_shear_beside_the_fastenings(self) -> None:
        """NDS 2018 3.4.3.3 (memory): V_r' = 2/3 F_v' b d_e (d_e/d)^2 under 5 d from the end, 2/3 F_v' b d_e beyond."""
        result = self.of(applied="side", fastened={"highest": "2 in", "lowest": "6 in"})
        near = find(result, "shear beside the fastenings of joists, near an end")
        inner = find(result, "shear beside the fastenings of joists, away from the ends")
        d_e = 12.0 - 2.0
        assert near.capacity == pytest.approx(2 / 3 * 150 * 6 * d_e * (d_e / 12) ** 2)
        assert inner.capacity == pytest.approx(2 / 3 * 150 * 6 * d_e)
        w = 100 / 12 + 5 / 1728 * 72
        assert near.demand == pytest.approx(w * 72)  # nothing is left out near the seat
        assert inner.demand == pytest.approx(w * (72 - 60))
        assert result.verdict == "passes"

    def test_low_in_the_side(self) -> None:
        """Common practice, no source: fastenings below 30 % of the depth pull the wood apart across its grain."""
        assert self.of(applied="side", fastened={"highest": "3 1/2 in", "lowest": "6 in"}).verdict == "passes"
        low = self.of(applied="side", fastened={"highest": "3 3/4 in", "lowest": "6 in"})
        assert "apart across the grain" in said(low, "refer")
        assert [one.field for one in low.questions] == ["ruling"]

    def test_below_the_beam(self) -> None:
        assert "below the beam" in said(
            self.of(applied="side", fastened={"highest": "1 in", "lowest": "13 in"}), "refer"
        )

    def test_spread_over_more_than_five_inches_of_wet_wood(self) -> None:
        """NDS 2018 12.5.1.3 (read): outer fasteners at most 5 in apart across the grain where the wood still "
        "shrinks."""
        far = {
            "what": "joists",
            "live": "100 plf",
            "applied": "side",
            "fastened": {"highest": "1 in", "lowest": "7 in"},
        }
        wet = {key: value for key, value in WOOD.items() if key != "measured_moisture"} | {"moisture": "green"}
        assert result_of(beam(carries=[far]), wood=WOOD).verdict == "passes"
        assert "still to dry" in said(result_of(beam(carries=[far]), wood=wet), "refer")

    def test_a_beam_hung_on_the_side(self) -> None:
        above = beam(
            name="A", supports=[seat("0 ft", on="B", lands_at="6 ft", holds="hung"), seat("12 ft")], carries=[*LOAD]
        )
        result = result_of(beam(carries=[]), above, wood=WOOD)
        assert "beam.side_load" in [check.id for check in result.checks]
        assert result.verdict == "refer"

    def test_the_hanger_says_where_it_sits(self) -> None:
        """Rated hardware with its heights on the girder: the girder is checked for it."""
        hanger = {
            "name": "hanger", "manner": "rated hardware", "into": "B", "split": "none seen",
            "on_girder": {"highest": "1 in", "lowest": "9 in"},
            "rating": {"down": "3,000 lb", "source": "evaluation report no. 1 (invented), 2025, table 2",
                       "duration": "included", "conditions": "every hole nailed", "conditions_met": True},
        }  # fmt: skip
        ends = [seat("0 ft", on="B", lands_at="6 ft", holds="hung", held_by="hanger"), seat("12 ft")]
        result = result_of(beam(carries=[]), beam(name="A", supports=ends, carries=[*LOAD]), wood=WOOD, anchor=[hanger])
        found = find(result, "shear beside the fastenings of A, away from the ends")
        assert found.capacity == pytest.approx(2 / 3 * 150 * 6 * 11.0)


class TestWhatHoldsAnEnd:
    def test_by_others_and_confirmed(self) -> None:
        assert find(result_of(beam(), wood=WOOD), "what holds support 1 on wall").verdict == "passes"

    def test_a_hanger_on_what_is_confirmed_is_not_confirmed(self) -> None:
        """The letter answers for the wall, not for the hanger."""
        ends = [seat("0 ft", holds="hung"), seat("12 ft")]
        result = result_of(beam(supports=ends), wood=WOOD)
        assert result.verdict == "refer"
        assert "hanger or fastening" in said(result, "refer")

    def test_nobody_answers(self) -> None:
        data = job(beam())
        del data["existing"][0]["confirmed_by"]
        from beamcheck.checks.job import check_job
        from beamcheck.model.reading.reader import job_from_data

        assert check_job(job_from_data(data)).verdict == "refer"

    def test_a_decorative_thing_cannot_carry(self) -> None:
        """The reader takes no rafter or tie as a support."""
        with pytest.raises(Exception, match="nothing rests on a tie"):
            tie = {"name": "T", "stock": "wood", "height": "0 ft", "finish": "none", "top_held": "full length"}
            checked(beam(**on("T")), wood=WOOD, tie=[tie])

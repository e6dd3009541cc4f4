"""Roles: nothing rests on what is not meant to carry, on what bears nothing, or on what nobody looked at."""

from __future__ import annotations

from typing import Any, ClassVar

import pytest

from beamcheck.checks.core.draft import unknown_below
from beamcheck.checks.core.result import JobResult
from beamcheck.checks.job import check_job
from beamcheck.checks.loadpath.roles import role_checks, ways_of
from beamcheck.errors import JobError
from beamcheck.model.beams import Beam
from beamcheck.model.existing import Existing
from beamcheck.model.job import About, Job
from beamcheck.model.loads import Load
from beamcheck.model.posts import Post
from beamcheck.model.reading.reader import job_from_data
from beamcheck.model.sticks import Support
from beamcheck.model.stock import Stock

from ..houses import Data, beam, check, checked, given_stock, job, piece, post, rafter, said, seat, tie

LETTER = "invented letter of an engineer, 3 May 2025"
STONE: Data = {"name": "stone", "what": "stone wall", "material": "masonry", "confirmed_by": LETTER}
LIGHT = given_stock("6x12 dressed", name="light")  # 5 pcf


def on(name: str, material: str = "masonry", what: str = "", confirmed_by: str = LETTER) -> Data:
    """An end of the path."""
    return {"name": name, "what": what or name, "material": material, "confirmed_by": confirmed_by}


def line(plf: int, **more: Any) -> list[Data]:
    return [{"what": "shelf", "dead": f"{plf} plf", "applied": "top", **more}]


def two_beams(**lower: Any) -> JobResult:
    """A light beam with 100 plf over 8 ft, one end on a decorative beam: 400 lb and half its weight there (statics)."""
    upper = beam(seat("0 ft", "stone"), seat("8 ft", "D1", lands_at="5 ft"), name="B1", stock="light",
                 carries=line(100))  # fmt: skip
    idle = beam(seat("0 ft", "stone"), seat("10 ft", "stone"), name="D1", stock="light", carries=[],
                **{"role": "decorative", **lower})  # fmt: skip
    return checked(beam=[upper, idle], stock=[LIGHT], existing=[STONE])


def alone(**more: Any) -> JobResult:
    one = beam(seat("0 ft", "stone"), seat("8 ft", "stone"), **{"carries": [], "stock": "light", **more})
    return checked(beam=[one], stock=[LIGHT], existing=[STONE])


class TestLoadOnWhatIsNotMeantToCarry:
    # 100 plf x 4 ft and 5 pcf x 5.5 in x 11.5 in x 4 ft (statics)
    FORCE = 400 + 5 * 5.5 * 11.5 / 144 * 4

    @pytest.mark.parametrize(("role", "words"), [("decorative", "decorative"), ("cover", "a cover")])
    def test_both_pieces_fail_and_the_sentence_says_which_load(self, role: str, words: str) -> None:
        result = two_beams(role=role)
        text = f"{self.FORCE:.0f} lb of beam B1 rests on beam D1, which is declared {words}"
        assert result.verdict == "fails" and result.reasons[0] == text
        for name, what in (("B1", "load path to D1"), ("D1", "load path from B1")):
            assert piece(result, name).verdict == "fails"
            assert check(result, name, what).notes == (text,)

    def test_the_sentence_stands_once_among_the_reasons(self) -> None:
        reasons = two_beams().reasons
        assert len([text for text in reasons if "rests on beam D1" in text]) == 1

    def test_the_same_pieces_declared_to_carry_do_not_fail(self) -> None:
        result = two_beams(role="carries")
        assert "load path" not in said(result, "B1", "fails") + said(result, "D1", "fails")

    def test_the_role_stands_among_the_inputs(self) -> None:
        assert ("role", "decorative") in piece(two_beams(), "D1").inputs
        assert all(label != "role" for label, _ in piece(two_beams(role="carries"), "D1").inputs)

    def test_a_load_of_its_own(self) -> None:
        """30 plf over 8 ft are 240 lb."""
        result = alone(role="decorative", carries=line(30))
        assert result.reasons[0] == "240 lb of 'shelf' is put on beam B, which is declared decorative"
        assert check(result, "B", "load of its own: shelf").verdict == "fails"

    @pytest.mark.parametrize(("load", "words"), [
        ({"dead": "30 plf", "from": "2 ft"}, "180 lb of "), ({"dead": "30 plf", "to": "3 ft"}, "90 lb of "),
        ({"dead": "30 plf", "from": "2 ft", "to": "5 ft"}, "90 lb of "), ({"live": "90 lb", "at": "2 ft"}, "90 lb of "),
        ({"live": "10 psf", "width": "2 ft", "to": "4 ft"}, "80 lb of "),
        ({"wind": "100 lb", "at": "2 ft"}, "60 lb of "),
        ({"dead": "10 plf", "live": "20 plf", "snow": "20 plf"}, "320 lb of "),  # D + 0.75 L + 0.75 S
        ({"dead": "10 plf", "live": "20 plf", "snow": "5 plf"}, "240 lb of "),  # D + L
        ({"dead": "10 plf", "wind": "-20 plf"}, "80 lb of "),
    ])  # fmt: skip
    def test_how_much_of_it_there_is(self, load: Data, words: str) -> None:
        """Over the 8 ft of the beam, in the combination that presses most (ASCE 7-16 2.4.1, memory)."""
        result = alone(role="decorative", carries=[{"what": "shelf", "applied": "top", **load}])
        assert result.reasons[0] == f"{words}'shelf' is put on beam B, which is declared decorative"

    def test_a_load_of_nothing_is_no_load(self) -> None:
        nothing = [{"what": "shelf", "live": "0 plf"}]
        assert said(alone(role="decorative", carries=nothing), "B", "fails") == ""

    def test_what_only_lifts_is_a_load_too(self) -> None:
        wind = [{"what": "wind", "wind": "-20 plf"}]
        assert "'wind' is put on beam B, which is declared decorative" in alone(role="decorative", carries=wind).reasons

    def test_a_post_on_it(self) -> None:
        idle = beam(seat("0 ft", "stone"), seat("8 ft", "stone"), name="D1", carries=[], role="decorative")
        foot = post(
            on="D1", lands_at="4 ft", stock="light", height="8 ft", carries=[{"what": "roof", "dead": "500 lb"}]
        )
        result = checked(beam=[idle], post=[foot], stock=[LIGHT], existing=[STONE])
        force = 500 + 5 * 5.5 * 11.5 / 144 * 8
        assert result.reasons[0] == f"{force:.0f} lb of post P rests on beam D1, which is declared decorative"

    def test_a_piece_that_pulls_up_on_it(self) -> None:
        """An overhang: 100 plf on 8 ft beyond the far support lifts the near one by 8 x 100 x 4 / 4 (statics)."""
        crane = beam(seat("0 ft", "D1", lands_at="5 ft"), seat("4 ft", "stone"), name="B1", length="12 ft",
                     stock="light", carries=line(100, **{"from": "4 ft", "to": "12 ft"}))  # fmt: skip
        idle = beam(seat("0 ft", "stone"), seat("10 ft", "stone"), name="D1", carries=[], role="decorative")
        result = checked(beam=[crane, idle], stock=[LIGHT], existing=[STONE])
        own = 5 * 5.5 * 11.5 / 144 * 12 * 2 / 4  # its middle lies 2 ft beyond the far support
        assert result.reasons[0] == (
            f"beam B1 pulls up with {800 + own:.0f} lb on beam D1, which is declared decorative"
        )

    def test_what_hangs_in_a_hanger_hangs(self) -> None:
        upper = beam(seat("0 ft", "stone"), seat("8 ft", "D1", lands_at="5 ft", holds="hung"), name="B1",
                     stock="light", carries=line(100))  # fmt: skip
        idle = beam(seat("0 ft", "stone"), seat("10 ft", "stone"), name="D1", carries=[], role="decorative")
        reasons = checked(beam=[upper, idle], stock=[LIGHT], existing=[STONE]).reasons
        assert "lb of beam B1 hangs on beam D1, which is declared decorative" in reasons[0]

    def test_a_piece_that_could_not_be_worked_out(self) -> None:
        """Its weight comes down all the same."""
        idle = beam(seat("0 ft", "stone"), seat("10 ft", "stone"), name="D1", carries=[], role="decorative")
        upper = beam(seat("0 ft", "stone"), seat("8 ft", "D1", lands_at="5 ft"), name="B1")
        one = job_from_data(job(beam=[upper, idle], existing=[STONE]))
        lost = [unknown_below("B1", ["stone", "D1"])]
        text = (
            "beam B1 rests on beam D1, which is declared decorative; how much of it comes there could not be worked out"
        )
        found = role_checks(one, lost, ways_of(one, lost))
        assert {name: [check.notes for check in checks] for name, checks in found.items()} == {
            "B1": [(text,)], "D1": [(text,)],
        }  # fmt: skip


class TestOwnWeightOnly:
    def test_a_decorative_beam_passes_with_its_own_weight(self) -> None:
        """A floor beam without live load would refer; one that is not meant to carry is not asked for loads."""
        result = alone(role="decorative")
        assert piece(result, "B").verdict == "passes", said(result, "B", "refer")
        assert "no live load is given" in said(alone(role="carries"), "B", "refer")

    def test_so_does_a_decorative_post(self) -> None:
        bare = post(carries=[], role="decorative", above="nothing")
        assert piece(checked(post=[bare]), "P").verdict == "passes"
        assert piece(checked(post=[{**bare, "role": "carries"}]), "P").verdict == "refer"

    def test_its_weight_goes_down_to_what_carries_it(self) -> None:
        """5 pcf x 5.5 in x 11.5 in x 8 ft, half on either end."""
        result = alone(role="decorative")
        assert result.path is not None
        assert [edge.largest for edge in result.path.edges] == pytest.approx([5 * 5.5 * 11.5 / 144 * 4] * 2, rel=1e-9)


class TestRoofs:
    def test_a_decorative_tie_is_pulled(self) -> None:
        result = checked(rafter=[rafter(tie="T")], tie=[tie(role="decorative")])
        text = "the thrust of rafter R pulls on tie T, which is declared decorative"
        assert text in result.reasons
        assert check(result, "R", "load path to T").notes == check(result, "T", "load path from R").notes == (text,)

    def test_a_tie_hangs_on_its_rafter(self) -> None:
        result = checked(rafter=[rafter(tie="T", role="decorative", carries=[])], tie=[tie()])
        assert "tie T hangs on rafter R, which is declared decorative" in result.reasons

    def test_each_of_a_row(self) -> None:
        idle = beam(seat("0 ft", "stone"), seat("12 ft", "stone"), name="D1", carries=[], role="decorative",
                    service="roof")  # fmt: skip
        one = rafter(ridge="beam", ridge_on="D1", pair=False, spacing="24 in", wall={"on": "stone"})
        reasons = checked(rafter=[one], beam=[idle], existing=[STONE]).reasons
        text = "lb of each rafter R rests on beam D1, which is declared decorative"
        assert len([reason for reason in reasons if reason.endswith(text)]) == 1


class TestEnds:
    @pytest.mark.parametrize("material", ["plaster", "board", "trim"])
    def test_what_bears_nothing_fails_whoever_confirms_it(self, material: str) -> None:
        one = beam(seat("0 ft", "stone"), seat("8 ft", "skin"), stock="light", carries=line(100))
        result = checked(beam=[one], stock=[LIGHT], existing=[STONE, on("skin", material, "what is there")])
        force = TestLoadOnWhatIsNotMeantToCarry.FORCE
        text = f"{force:.0f} lb of beam B rests on skin (what is there), which is {material} and carries nothing"
        assert result.reasons[0] == text
        assert check(result, "B", "load path to skin").verdict == "fails"
        held = [one for one in piece(result, "B").checks if "confirmed" in " ".join(one.notes) and "skin" in one.what]
        assert held == []  # nothing says beside it that it is confirmed

    def test_a_post_on_plaster(self) -> None:
        result = checked(post=[post(on="skin")], existing=[on("skin", "plaster")])
        assert check(result, "P", "what P stands on").verdict == "fails"

    @pytest.mark.parametrize("words", ["not checked", "unchecked so far", "hasn't been inspected", "Never verified"])
    def test_what_is_said_to_be_unchecked_fails(self, words: str) -> None:
        in_words = checked(post=[post(on="pier")], existing=[on("pier", what=f"old pier, {words}", confirmed_by="")])
        confirmed = checked(post=[post(on="pier")], existing=[on("pier", confirmed_by=words)])
        for result in (in_words, confirmed):
            assert piece(result, "P").verdict == "fails"
            assert "which is said to be unchecked" in result.reasons[0]

    @pytest.mark.parametrize(
        "more", [{"what": "old pier, not yet inspected"}, {"confirmed_by": f"{LETTER}; not checked"}]
    )
    def test_words_that_contradict_each_other_refer(self, more: dict[str, str]) -> None:
        result = checked(post=[post(on="pier")], existing=[on("pier", **more)])
        assert piece(result, "P").verdict == "refer"
        assert "these words also say that it is unchecked" in said(result, "P", "refer")

    @pytest.mark.parametrize("what", ["pier checked by a mason", "footing of unknown depth", "not new, but sound"])
    def test_other_words_are_left_alone(self, what: str) -> None:
        assert piece(checked(post=[post(on="pier")], existing=[on("pier", what=what)]), "P").verdict == "passes"

    def test_what_nobody_confirmed_refers_as_before(self) -> None:
        result = checked(post=[post(on="pier")], existing=[on("pier", confirmed_by="")])
        assert piece(result, "P").verdict == "refer"


MOLDING: Data = {
    "name": "M", "role": "cover", "what": "boxed seam", "on": "stone", "weight": "35 lb", "hangs": "below",
}  # fmt: skip


class TestTrim:
    def test_nothing_may_rest_on_trim(self) -> None:
        shelf = {**MOLDING, "name": "N", "on": "M", "role": "decorative"}
        result = checked(trim=[MOLDING, shelf], existing=[STONE])
        text = "35 lb of trim N hangs on trim M, which is trim, declared a cover: it never carries"
        assert text in result.reasons
        assert {piece(result, name).verdict for name in "MN"} == {"fails"}

    def test_a_load_of_its_own(self) -> None:
        lamp = {**MOLDING, "carries": [{"what": "lamp", "dead": "12 lb"}]}
        reasons = checked(trim=[lamp], existing=[STONE]).reasons
        assert "12 lb of 'lamp' is put on trim M, which is trim, declared a cover: it never carries" in reasons

    def test_trim_on_plaster_fails(self) -> None:
        result = checked(trim=[{**MOLDING, "on": "skin"}], existing=[on("skin", "plaster")])
        assert result.reasons[0] == "35 lb of trim M hangs on skin (skin), which is plaster and carries nothing"

    def test_its_weight_on_a_decorative_beam_is_a_load(self) -> None:
        idle = beam(seat("0 ft", "stone"), seat("8 ft", "stone"), name="D1", carries=[], role="decorative")
        result = checked(trim=[{**MOLDING, "on": "D1"}], beam=[idle], existing=[STONE])
        assert "35 lb of trim M hangs on beam D1, which is declared decorative" in result.reasons


class TestBrackets:
    SHAPE: ClassVar[Data] = {
        "family": "solid", "thickness": "3 1/2 in", "height": "12 in", "projection": "10 in", "foot": "4 in",
        "nose": "4 in", "soffit": "straight", "grain": "upright",
    }  # fmt: skip

    def bracket(self, **more: Any) -> Data:
        return {"name": "K2", "role": "decorative", "stock": "6x12", "shape": self.SHAPE, "on": "P", "at": "6 ft",
                **more}  # fmt: skip

    def under_a_beam(self, **more: Any) -> JobResult:
        """The beam of `two_beams`, on a bracket instead of a decorative beam."""
        upper = beam(seat("0 ft", "stone"), seat("8 ft", "K2", lands_at="5 in"), name="B1", stock="light",
                     carries=line(100))  # fmt: skip
        return checked(beam=[upper], bracket=[self.bracket(**more)], post=[post()], stock=[LIGHT], existing=[STONE])

    def test_a_beam_on_a_bracket_that_is_not_meant_to_carry(self) -> None:
        result = self.under_a_beam()
        force = TestLoadOnWhatIsNotMeantToCarry.FORCE
        text = f"{force:.0f} lb of beam B1 rests on bracket K2, which is declared decorative"
        assert result.reasons[0] == text
        for name, what in (("B1", "load path to K2"), ("K2", "load path from B1")):
            assert check(result, name, what).notes == (text,)

    def test_its_load_goes_on_to_the_post(self) -> None:
        """With the weight of the bracket, whatever its role is."""
        result = self.under_a_beam()
        assert result.path is not None
        forces = {(edge.above, edge.below): edge.largest for edge in result.path.edges}
        assert forces["K2", "P"] > forces["B1", "K2"] > 400
        assert all(arriving == pytest.approx(applied, rel=1e-9) for _, applied, arriving in result.path.totals)

    def test_a_load_of_its_own(self) -> None:
        vase = [{"what": "vase", "dead": "60 lb", "at": "6 in"}]
        result = checked(bracket=[self.bracket(carries=vase)], post=[post()])
        assert "60 lb of 'vase' is put on bracket K2, which is declared decorative" in result.reasons

    def test_on_plaster_and_on_a_decorative_beam(self) -> None:
        idle = beam(seat("0 ft", "stone"), seat("8 ft", "stone"), name="D1", carries=[], role="decorative")
        on_beam = checked(bracket=[self.bracket(on="D1", at="2 ft")], beam=[idle], existing=[STONE])
        assert any(text.endswith("lb of bracket K2 hangs on beam D1, which is declared decorative")
                   for text in on_beam.reasons)  # fmt: skip
        without_place = {key: value for key, value in self.bracket(on="skin").items() if key != "at"}
        on_skin = checked(bracket=[without_place], existing=[on("skin", "plaster")])
        assert any("of bracket K2 hangs on skin (skin), which is plaster and carries nothing" in text
                   for text in on_skin.reasons)  # fmt: skip

    def test_a_row_of_joists_on_one_bracket_refers(self) -> None:
        row = beam(seat("0 ft", "stone"), seat("8 ft", "K2", lands_at="5 in"), name="J", stock="light",
                   spacing="16 in", carries=line(100))  # fmt: skip
        result = checked(beam=[row], bracket=[self.bracket(role="carries")], post=[post()], stock=[LIGHT],
                         existing=[STONE])  # fmt: skip
        assert "J stands for a row, one every 16 in: one of them is counted here" in said(result, "K2", "refer")


class TestInputErrors:
    """What rests on nothing or on itself is no job: the reader and the Python API say so alike."""

    STICK = Stock(name="s", species="Hem-Fir", grade="No.2", size="2x10", moisture="dry", grade_from="stamp")
    PIER = Existing(name="pier", what="stone pier")

    def refused(self, **pieces: Any) -> str:
        about = About(title="Shed (invented)", standard="NDS 2018", loads="ASCE 7-16", invented=True)
        with pytest.raises(JobError) as caught:
            check_job(Job(job=about, stock=(self.STICK,), existing=(self.PIER,), **pieces))
        return str(caught.value)

    def test_a_post_on_nothing(self) -> None:
        text = self.refused(post=(Post(name="P", stock="s", height="8 ft", on="nothing", top_restraint="pinned"),))
        assert "no piece and no [[existing]] entry named 'nothing'" in text

    def test_a_post_on_itself(self) -> None:
        text = self.refused(post=(Post(name="P", stock="s", height="8 ft", on="P", top_restraint="pinned"),))
        assert '"P" on "P"' in text

    def test_a_beam_on_itself_by_way_of_a_post(self) -> None:
        supports = (Support(at="0 ft", on="P"), Support(at="8 ft", on="pier"))
        load = Load(what="floor", live="40 psf", width="2 ft")
        one = Beam(name="B", stock="s", supports=supports, carries=(load,), finish="none", top_held="full length",
                   service="floor")  # fmt: skip
        standing = Post(name="P", stock="s", height="8 ft", on="B", lands_at="2 ft", top_restraint="pinned")
        assert '"B" on "P" on "B"' in self.refused(beam=(one,), post=(standing,))

    def test_a_beam_without_supports(self) -> None:
        with pytest.raises(JobError, match="support"):
            job_from_data(job(beam=[beam()]))

"""Whole jobs: what comes down is what was put on, in any order of the file; reasons; nothing passes by silence."""

from __future__ import annotations

import hashlib
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks import job as whole_job
from beamcheck.checks.core.draft import Reactions
from beamcheck.checks.core.result import CAUTION, SIGN_OFF, JobResult, Table
from beamcheck.checks.job import check_job
from beamcheck.errors import JobError
from beamcheck.model.beams import Beam
from beamcheck.model.job import About, Job
from beamcheck.model.loads import Load
from beamcheck.model.reading.reader import job_from_data
from beamcheck.model.sticks import Support
from beamcheck.model.stock import Stock

from .houses import (
    BEAM_STOCK,
    SIX_BY_SIX,
    TWO_BY_TEN,
    beam,
    check,
    checked,
    job,
    piece,
    post,
    rafter,
    ratios,
    said,
    seat,
    tie,
)

quick = settings(max_examples=8, deadline=None)
PCF = 40.0
STOCKS = [
    {**one, "name": f"light {one['name']}", "density": f"{PCF:g} pcf"} for one in (SIX_BY_SIX, TWO_BY_TEN, BEAM_STOCK)
]
COLUMN, JOIST, GIRDER = (f"light {name}" for name in ("6x6", "2x10", "6x12"))


def house_data(length: int = 16, **loads: int) -> dict[str, list[Any]]:
    """A shed: rafters at 2 ft from a wall to a ridge beam on two posts, and a loft whose joist rests on a girder."""
    given_ = {"dead": 10, "live": 40, "snow": 25, "wind": 12, **loads}
    roof = {"what": "roof", "dead": f"{given_['dead']} psf", "snow": f"{given_['snow']} psf", "measured": "plan"}
    ridge = beam(seat("0 ft", "P1"), seat(f"{length} ft", "P2"), name="ridge", stock=GIRDER, service="roof", carries=[])
    floor = {"what": "floor", "dead": f"{given_['dead']} psf", "live": f"{given_['live']} psf", "width": "2 ft"}
    girder = beam(seat("0 ft", "wall"), seat("12 ft", "wall"), name="girder", stock=GIRDER, carries=[floor])
    joist = beam(
        seat("0 ft", "wall"), seat("10 ft", "girder", lands_at="5 ft"), name="joist", stock=JOIST, carries=[floor]
    )
    feet = [post(name=name, stock=COLUMN, carries=[], height="9 ft") for name in ("P1", "P2")]
    wind = {"what": "wind", "wind": f"-{given_['wind']} psf"}
    one = rafter(stock=JOIST, spacing="24 in", ridge="beam", ridge_on="ridge", pair=False, carries=[roof, wind])
    return {"stock": STOCKS, "beam": [ridge, girder, joist], "post": feet, "rafter": [one]}


def came_down(data: dict[str, list[Any]], monkeypatch: pytest.MonkeyPatch) -> tuple[JobResult, list[Reactions]]:
    caught: list[Reactions] = []

    def keep(_: Job, reactions: list[Reactions]) -> Table:
        caught.extend(reactions)
        return Table("Load path", (), ())

    monkeypatch.setattr(whole_job, "load_path_table", keep)
    return checked(**data), caught


def at_the_end(caught: list[Reactions], kind: str, rafters: float) -> float:
    """What reaches wall and footing; a rafter stands for all of them."""
    return sum(
        (rafters if row.spacing else 1.0) * row.by_kind[kind][0]
        for handed in caught for row in handed.rows if row.on in ("wall", "footing") and kind in row.by_kind
    )  # fmt: skip


class TestLoadPath:
    """All that is put on the shed, and its own weight at 40 pcf, arrives at wall and footing (statics)."""

    RAFTERS = 8  # 16 ft of ridge at 2 ft
    SLOPED = 8 / math.cos(math.atan(0.5))

    def volumes(self) -> float:
        """Cubic feet of everything."""
        timbers = 5.5 * 11.5 * (16 + 12) + 5.5**2 * 2 * 9 + 1.5 * 9.25 * (10 + self.RAFTERS * self.SLOPED)
        return timbers / 144

    def test_totals_by_kind(self, monkeypatch: pytest.MonkeyPatch) -> None:
        _, caught = came_down(house_data(), monkeypatch)
        floor, roof = 2 * (12 + 10), 8 * 16
        assert at_the_end(caught, "L", self.RAFTERS) == pytest.approx(40 * floor)
        assert at_the_end(caught, "S", self.RAFTERS) == pytest.approx(25 * roof)
        own = PCF * self.volumes()
        assert at_the_end(caught, "D", self.RAFTERS) == pytest.approx(10 * (floor + roof) + own, rel=1e-9)

    def test_uplift_goes_down_too(self, monkeypatch: pytest.MonkeyPatch) -> None:
        """The upright part of 12 psf square to the slope is 12 psf of plan; the level part stays in the wall."""
        _, caught = came_down(house_data(), monkeypatch)
        lifted = sum(
            (self.RAFTERS if row.spacing else 1.0) * row.by_kind["W"][1]
            for handed in caught for row in handed.rows if row.on in ("wall", "footing") and "W" in row.by_kind
        )  # fmt: skip
        assert lifted == pytest.approx(-12 * 8 * 16)

    def test_the_table_says_where_the_path_ends(self) -> None:
        rows = checked(**house_data()).tables[0].rows
        ends = {(row[0], row[1]): row[5] for row in rows}
        assert ends["R", "wall, every 2 ft"] == "by others, confirmed: invented sheet S-1, engineer"
        assert ends["ridge", "P1"] == "goes on"
        assert len(rows) == 2 + 3 * 2 + 2


@quick
@given(
    dead=st.integers(5, 30), live=st.integers(10, 80), snow=st.integers(10, 60), length=st.sampled_from([12, 16, 20])
)
def test_totals_for_any_loads(dead: int, live: int, snow: int, length: int) -> None:
    with pytest.MonkeyPatch.context() as patch:
        _, caught = came_down(house_data(length, dead=dead, live=live, snow=snow), patch)
    assert at_the_end(caught, "L", length / 2) == pytest.approx(live * 44)
    assert at_the_end(caught, "S", length / 2) == pytest.approx(snow * 8 * length)


class TestRaftersOnBeams:
    def ridge_load(self, **more: Any) -> dict[str, float]:
        """Line loads that come to the ridge beam, plf."""
        data = house_data()
        data["rafter"] = [{**data["rafter"][0], **more}]
        loads = next(table for table in piece(checked(**data), "ridge").tables if table.title == "Loads as they act")
        return {row[1]: float(row[2].split()[0]) for row in loads.rows if row[0] == "from R" and "wind" not in row[1]}

    def test_a_ridge_beam_carries_both_sides(self) -> None:
        """Half of 8 ft from each side: 25 psf x 4 ft, twice."""
        assert self.ridge_load()["snow"] == 100
        assert self.ridge_load(pair=True)["snow"] == 200

    def test_it_says_that_it_counts_both_sides(self) -> None:
        data = house_data()
        data["rafter"][0]["pair"] = True
        assert any("both sides of the roof" in text for text in piece(checked(**data), "R").assumptions)

    def test_few_rafters_on_a_short_beam_are_no_even_load(self) -> None:
        """Three spaces to the span: a load at midspan bends it up to 1.11 times as much as the even load (derived)."""
        assert "single loads from R" in said(checked(**house_data(length=6)), "ridge", "refer")
        assert "single loads" not in said(checked(**house_data(length=8)), "ridge", "refer")

    def test_it_says_that_they_are_spread(self) -> None:
        texts = piece(checked(**house_data()), "ridge").assumptions
        assert "R lands every 2 ft all along it: counted as an even load." in texts

    def test_a_rafter_with_its_place_is_one_force(self) -> None:
        data = house_data()
        data["rafter"][0]["wall"] = {**data["rafter"][0]["wall"], "on": "girder", "lands_at": "6 ft"}
        result = checked(**data)
        loads = next(table for table in piece(result, "girder").tables if table.title == "Loads as they act")
        assert [row[2:4] for row in loads.rows if row[:2] == ("from R", "snow")] == [("200 lb", "6 ft")]

    def test_a_rafter_on_a_post_is_one_rafter(self) -> None:
        """Not one for each spacing that goes into the height of the post."""
        data = house_data()
        data["post"].append(post(name="P3", stock=COLUMN, carries=[], height="4 ft"))
        data["rafter"][0]["wall"] = {**data["rafter"][0]["wall"], "on": "P3"}
        result = checked(**data)
        loads = next(table for table in piece(result, "P3").tables if table.title == "Loads as they act")
        assert [row[2] for row in loads.rows if row[:2] == ("from R", "snow")] == ["200 lb"]
        assert "one rafter is counted on it" in said(result, "R", "refer")


class TestOrder:
    def test_the_order_of_the_file_does_not_matter(self) -> None:
        data = house_data()
        turned = {kind: list(reversed(entries)) for kind, entries in data.items()}
        one, other = checked(**data), checked(**turned)
        for name in ("ridge", "girder", "joist", "P1", "P2", "R"):
            assert ratios(one, name) == pytest.approx(ratios(other, name), rel=1e-12)
        assert [result.name for result in one.pieces] == ["ridge", "girder", "joist", "R", "P1", "P2"]

    def test_a_chain_of_pieces_is_walked_from_the_top(self) -> None:
        """Beam on beam on post on post: the last one has everything."""
        upper = beam(seat("0 ft", "wall"), seat("8 ft", "lower", lands_at="4 ft"), name="upper", stock=GIRDER)
        lower = beam(seat("0 ft", "wall"), seat("8 ft", "Q"), name="lower", stock=GIRDER, carries=[])
        posts = [post(name="P", stock=COLUMN, carries=[]), post(name="Q", on="P", stock=COLUMN, carries=[])]
        result = checked(stock=STOCKS, beam=[lower, upper], post=posts)
        compression = check(result, "P", "compression")
        assert compression.demand is not None
        assert compression.demand * 5.5**2 > 400 * 8 / 4  # a quarter of the upper beam's load, and own weight

    def test_a_post_on_a_beam_hands_its_load_on(self, monkeypatch: pytest.MonkeyPatch) -> None:
        """A force of 1000 lb on a post at a quarter of a beam: 750 and 250 lb at the ends (statics)."""
        under = beam(seat("0 ft", "wall"), seat("8 ft", "wall"), stock=GIRDER, carries=[])
        standing = post(on="B", lands_at="2 ft", stock=COLUMN, carries=[{"what": "load", "live": "1000 lb"}])
        data = {"stock": STOCKS, "beam": [under], "post": [standing]}
        result, caught = came_down(data, monkeypatch)
        rows = next(handed.rows for handed in caught if handed.name == "B")
        assert [row.by_kind["L"][0] for row in rows] == pytest.approx([750, 250])
        assert check(result, "P", "bearing of B under P").verdict == "passes"
        assert piece(result, "B").verdict == "refer"  # how the foot sits on the beam is not shown


class TestVerdictAndReasons:
    def test_a_job_without_pieces(self) -> None:
        result = checked()
        assert result.verdict == "refer"
        assert result.reasons == ("The job has no beams, rafters, ties or posts: nothing was checked.",)

    def test_a_good_job_has_no_reasons(self) -> None:
        result = checked(post=[post()])
        assert (result.verdict, result.reasons) == ("passes", ())

    def test_each_piece_that_does_not_pass_has_its_sentence(self) -> None:
        """Fails first; each names what decides, and how much more there is."""
        weak = beam(seat("0 ft", "wall"), seat("30 ft", "wall"), name="weak", carries=[
            {"what": "floor", "live": "60 psf", "width": "10 ft", "applied": "top"}])  # fmt: skip
        loose = {"name": "loose", "what": "stones", "material": "masonry"}
        result = checked(beam=[weak], post=[post(on="loose"), post(name="good")], existing=[loose])
        assert result.verdict == "fails"
        worst = max(ratios(result, "weak").values())
        assert len(result.reasons) == 2
        assert result.reasons[0].startswith("weak: ")
        assert f"is at {worst:#.3g} of what is allowed under D + L" in result.reasons[0]
        assert result.reasons[1].startswith("P: what P stands on (loose (stones) is by others")

    def test_the_caution_goes_with_every_result(self) -> None:
        for result in (checked(), checked(post=[post()]), checked(**house_data())):
            assert (result.caution, result.sign_off) == (CAUTION, SIGN_OFF)
            assert CAUTION in repr(result)
            assert result.invented

    def test_the_text_of_the_job_stays_with_the_result(self) -> None:
        result = check_job(job_from_data(job()), text="a job", name="shed.toml")
        assert (result.job_text, result.job_name) == ("a job", "shed.toml")
        assert result.fingerprint == hashlib.sha256(b"a job").hexdigest()

    def test_words_in_metric(self) -> None:
        result = check_job(job_from_data(job(post=[post()])), units="SI")
        assert result.units == "SI"
        assert ("height", "2.438 m") in piece(result, "P").inputs or ("height", "2438 mm") in piece(result, "P").inputs
        assert ratios(result, "P") == ratios(checked(post=[post()]), "P")

    def test_unchecked_joints_keep_a_roof_from_passing(self) -> None:
        """Everything about this pair is known and strong; its joints are not checked."""
        data = {"rafter": [rafter(tie="T", wall={"tied_down": "strap"})], "tie": [tie()]}
        result = checked(**data)
        assert {result.verdict, piece(result, "R").verdict, piece(result, "T").verdict} == {"refer"}


class TestJobsFromPython:
    """A job put together in Python has not been looked through by the reader."""

    def about(self) -> About:
        return About(title="Shed (invented)", standard="NDS 2018", loads="ASCE 7-16", invented=True)

    def one_beam(self, on: str) -> Beam:
        supports = (Support(at="0 ft", on=on), Support(at="8 ft", on=on))
        load = Load(what="floor", live="40 psf", width="2 ft")
        return Beam(name="B", stock="s", supports=supports, carries=(load,), finish="none", top_held="full length",
                    service="floor")  # fmt: skip

    def test_a_support_that_is_not_there(self) -> None:
        stock = Stock(name="s", species="Hem-Fir", grade="No.2", size="2x10", moisture="dry", grade_from="stamp")
        with pytest.raises(JobError, match="no piece and no"):
            check_job(Job(job=self.about(), stock=(stock,), beam=(self.one_beam("nowhere"),)), name="shed")

    def test_a_piece_that_rests_on_itself(self) -> None:
        stock = Stock(name="s", species="Hem-Fir", grade="No.2", size="2x10", moisture="dry", grade_from="stamp")
        with pytest.raises(JobError, match="in a circle"):
            check_job(Job(job=self.about(), stock=(stock,), beam=(self.one_beam("B"),)))

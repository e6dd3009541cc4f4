"""The load path: what is applied arrives at its ends, no support is asked for more than its check allowed for."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from beamcheck.checks import job as whole_job
from beamcheck.checks.beams import result as piece_module
from beamcheck.checks.core.context import Structure
from beamcheck.checks.core.draft import Reactions, SupportForces
from beamcheck.checks.core.pictures.beams import PathEdge
from beamcheck.checks.core.result import JobResult
from beamcheck.checks.loadpath.load_path import uncounted
from beamcheck.checks.loadpath.totals import Followed as Step
from beamcheck.checks.loadpath.totals import Trace, trace
from beamcheck.checks.pieces import from_the_top
from beamcheck.model.existing import Existing
from beamcheck.model.reading.reader import job_from_data
from beamcheck.values.loads import asd_combinations

from ..anchors.anchor_jobs import RATED, anchored
from ..houses import Data, beam, checked, given_stock, job, piece, post, rafter, seat, tie
from ..test_job import PCF, house_data
from .test_roles import MOLDING, STONE, on

LIGHT = given_stock("6x12 dressed", name="light")
BOARD = given_stock("2x10", name="board")
PLY = 5 / 1728  # lbf/in3 of both


@dataclass
class Followed:
    """A checked job with what its load path was made of."""

    result: JobResult
    trace: Trace
    rows: dict[tuple[str, int], SupportForces]


def followed(**pieces: list[Data]) -> Followed:
    caught: list[tuple[Structure, list[Reactions]]] = []
    wanted = whole_job.load_path

    def keep(one: Any, of: Structure, reactions: list[Reactions], verdicts: dict[str, str]) -> Any:
        caught.append((of, reactions))
        return wanted(one, of, reactions, verdicts)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(whole_job, "load_path", keep)
        patch.setattr(piece_module, "beam_remedies", lambda *_: ())  # what would help takes long, and changes no force
        result = checked(**pieces)
    of, reactions = caught[0]
    rows = {(handed.name, index): row for handed in reactions for index, row in enumerate(handed.rows)}
    return Followed(result, trace(of, reactions), rows)


def edges(result: JobResult) -> dict[tuple[str, str], PathEdge]:
    assert result.path is not None
    return {(edge.above, edge.below): edge for edge in result.path.edges}


def totals(result: JobResult) -> dict[str, tuple[float, float]]:
    assert result.path is not None
    return {name: (applied, arriving) for name, applied, arriving in result.path.totals}


class TestTotals:
    """Sums by hand: every load by its extent, every piece by its volume."""

    def test_a_whole_shed(self) -> None:
        """Loft 44 ft of 2 ft; roof 8 ft wide, to the ridge 8 rafters, to the wall the one of the row that is counted.

        What the others of the row put on the ridge beam is half of each of them.
        """
        found = totals(checked(**house_data()))
        sloped = 8 / math.cos(math.atan(0.5))
        rafters = 1 + 7 / 2  # one whole, of seven the upper half
        timbers = 5.5 * 11.5 * (16 + 12) + 5.5**2 * 2 * 9 + 1.5 * 9.25 * (10 + rafters * sloped)
        D = 10 * 2 * 22 + 10 * 16 * rafters + PCF * timbers / 144
        L, S, W = 40 * 2 * 22, 25 * 16 * rafters, -12 * 16 * rafters
        # wind acts square to the slope: moments about the wall give the ridge more than half of its upright part
        assert found["D"] == pytest.approx((D, D), rel=1e-9)
        assert found["D + L"] == pytest.approx((D + L, D + L), rel=1e-9)
        assert found["D + 0.75 L + 0.75 S"] == pytest.approx((D + 0.75 * (L + S),) * 2, rel=1e-9)
        lever = (8**2 + 4**2) / (2 * 8 * 8)  # of the ridge, over all of the upright part: slope 1:2 over 8 ft
        W = -12 * 16 * (1 + 7 * lever)
        assert found["0.6 D + 0.6 W"] == pytest.approx((0.6 * (D + W),) * 2, rel=1e-9)

    def test_a_pair_with_a_tie(self) -> None:
        """Both rafters and the tie come down on two walls."""
        floor = [{"what": "ceiling", "dead": "5 psf", "live": "10 psf", "width": "16 in", "from": "0 ft", "to": "5 ft"}]
        result = checked(
            stock=[BOARD], rafter=[rafter(stock="board", tie="T")], tie=[tie(stock="board", carries=floor)]
        )
        sloped, area = 8 / math.cos(math.atan(0.5)), 1.5 * 9.25
        D = (2 * sloped + 16) * 12 * area * PLY + 10 * 4 / 3 * 2 * sloped + 5 * 4 / 3 * 5
        L, S = 10 * 4 / 3 * 5, 20 * 4 / 3 * 16
        found = totals(result)
        assert found["D + L"] == pytest.approx((D + L, D + L), rel=1e-9)
        assert found["D + S"] == pytest.approx((D + S, D + S), rel=1e-9)

    def test_a_tie_hangs_on_its_rafter_with_its_end_force(self) -> None:
        """15 psf on 16 in over the first 5 of 16 ft: 100 lb, 13.5/16 of them at the near end; half the own weight."""
        floor = [{"what": "ceiling", "dead": "15 psf", "width": "16 in", "from": "0 ft", "to": "5 ft"}]
        result = checked(
            stock=[BOARD], rafter=[rafter(stock="board", tie="T")], tie=[tie(stock="board", carries=floor)]
        )
        own = 8 * 12 * 1.5 * 9.25 * PLY
        assert edges(result)["T", "R"].largest == pytest.approx(100 * 13.5 / 16 + own, rel=1e-6)

    def test_trim_and_posts(self) -> None:
        """35 lb of trim under a beam on two posts, and 500 lb straight on one of them."""
        over = beam(seat("0 ft", "P"), seat("8 ft", "Q"), stock="light", carries=[])
        posts = [
            post(stock="light", height="9 ft", carries=[]),
            post(name="Q", stock="light", height="9 ft", carries=[{"what": "roof", "dead": "500 lb"}]),
        ]
        found = totals(checked(beam=[over], post=posts, trim=[{**MOLDING, "on": "B"}], stock=[LIGHT]))
        D = 35 + 500 + (8 + 18) * 12 * 5.5 * 11.5 * PLY
        assert found["D"] == pytest.approx((D, D), rel=1e-9)

    def test_a_row_of_joists_is_counted_along_its_girder(self) -> None:
        """Joists at 2 ft on 12 ft of girder: six of them, of whose far ends on the wall one is counted."""
        load = [{"what": "floor", "dead": "20 plf"}]
        joist = beam(seat("0 ft", "stone"), seat("10 ft", "G", lands_at="6 ft"), name="J", stock="board",
                     spacing="24 in", carries=load)  # fmt: skip
        girder = beam(seat("0 ft", "stone"), seat("12 ft", "stone"), name="G", stock="light", carries=[])
        found = totals(checked(beam=[joist, girder], stock=[LIGHT, BOARD], existing=[STONE]))
        one = 200 + 120 * 1.5 * 9.25 * PLY
        D = one * (1 + 5 / 2) + 144 * 5.5 * 11.5 * PLY
        assert found["D"] == pytest.approx((D, D), rel=1e-9)

    def test_where_the_path_is_lost_it_says_why(self) -> None:
        lost = trace(Structure({}, {"wall": Existing(name="wall", what="wall")}), [])
        assert (lost.totals(), lost.missing) == ((), "")
        one = job_from_data(job(post=[post()]))
        followed_ = trace(Structure({}, {"P": one.post[0]}), [Reactions("P")])
        assert (followed_.totals(), followed_.missing) == ((), "P could not be worked out")

    def test_whose_load_is_not_counted_is_said_where_it_is_all_that_does_not_arrive(self) -> None:
        left = tuple(Step(name, 0, "F", {"D": 2.0}) for name in "ABCDE")
        told = "the dead load of A and B and C and 2 more pieces, held at no point of F, is not counted there"
        assert uncounted(Trace({"D": 100.0, "S": 9.0}, {"D": 90.0, "S": 9.0}, (), left=left)) == told
        assert uncounted(Trace({"D": 100.0, "S": 9.0}, {"D": 90.0, "S": 8.0}, (), left=left)) == ""
        assert uncounted(Trace({"D": 100.0}, {"D": 89.0}, (), left=left)) == ""
        live = uncounted(Trace({"L": 7.0}, {"L": 0.0}, (), left=(Step("A", 0, "F", {"L": 7.0}),)))
        assert live == "the load of A, held at no point of F, is not counted there"

    def test_the_table_says_what_is_applied_and_what_arrives(self) -> None:
        table = checked(**house_data()).tables[1]
        assert table.title == "Load path: all loads at once"
        assert [row[0] for row in table.rows][:3] == ["D", "D + L", "D + S"]
        assert all(row[1] == row[2] for row in table.rows)


class TestTheGraph:
    def test_nodes_say_what_they_are_and_where_the_path_ends(self) -> None:
        foot = on("soil", "ground", "concrete footing on gravel")
        loose = on("rock", "ground", confirmed_by="")
        result = checked(post=[post(on="soil"), post(name="Q", on="rock")], existing=[foot, loose])
        assert result.path is not None
        nodes = {node.name: (node.kind, node.role, node.verdict, node.ends) for node in result.path.nodes}
        assert nodes["P"] == ("post", "carries", "passes", "")
        assert nodes["soil"] == ("existing", "carries", "", "ground")
        assert nodes["rock"] == ("existing", "carries", "", "by others, not confirmed")
        assert "wall" not in nodes  # nothing comes there

    def test_a_pair_of_rafters_ends_on_a_wall_without_a_name(self) -> None:
        result = checked(rafter=[rafter(tie="T")], tie=[tie()])
        assert result.path is not None
        assert {(edge.above, edge.below) for edge in result.path.edges} == {("T", "R"), ("R", "wall"), ("R", "")}
        assert result.path.nodes[-1].ends == "by others, not confirmed"

    def test_a_hanger_lies_between(self) -> None:
        """The group of fasteners takes what the end puts on it, and hands it to what is behind."""
        result = anchored(RATED)
        found = edges(result)
        assert found["B", "A1"].largest == found["A1", "stub"].largest > 0.0
        assert result.path is not None
        assert [node.kind for node in result.path.nodes if node.name == "A1"] == ["anchor"]

    def test_the_wrong_way_is_marked(self) -> None:
        one = beam(seat("0 ft", "stone"), seat("8 ft", "skin"), stock="light", carries=[])
        result = checked(beam=[one], stock=[LIGHT], existing=[STONE, on("skin", "plaster")])
        found = edges(result)
        assert found["B", "stone"].wrong == ""
        assert "which is plaster and carries nothing" in found["B", "skin"].wrong
        last = {row[1]: row[-1] for row in result.tables[0].rows}
        assert last == {"stone": "", "skin": found["B", "skin"].wrong}

    def test_a_beam_that_comes_down_on_a_bracket(self) -> None:
        """It is no support, so nothing is taken off the beam; but the path shows the force that it attracts."""
        over = beam(seat("0 ft", "stone"), seat("12 ft", "stone"))
        near = bracket(role="decorative", near={"beam": "B", "at": "2 ft", "gap": "0 in", "closing": []})
        result = checked(beam=[over], bracket=[near], post=[post()], existing=[STONE])
        assert piece(result, "K").finding == "acts as a prop"
        edge = edges(result)["B", "K"]
        assert edge.largest > 0.0 and result.path is not None and ("B", "K") not in {
            (row[0], row[1]) for row in result.tables[0].rows
        }  # fmt: skip
        assert re.fullmatch("[0-9,]+ lb of beam B comes down on bracket K, which is declared decorative", edge.wrong)

    def test_a_gap_that_nobody_has_measured_is_no_load_on_the_bracket_yet(self) -> None:
        over = beam(seat("0 ft", "stone"), seat("12 ft", "stone"))
        near = bracket(role="decorative", near={"beam": "B", "at": "2 ft"})
        result = checked(beam=[over], bracket=[near], post=[post()], existing=[STONE])
        assert piece(result, "K").verdict == "refer"
        assert edges(result)["B", "K"].wrong.startswith("where the gap is closed, which is not known, ")

    def test_an_empty_job_has_an_empty_path(self) -> None:
        path = checked().path
        assert path is not None and (path.nodes, path.edges, path.totals) == ((), (), ())


def bracket(**more: Any) -> Data:
    shape = {
        "family": "solid", "thickness": "3 1/2 in", "height": "12 in", "projection": "10 in", "foot": "2 in",
        "nose": "2 in", "soffit": "concave", "grain": "upright",
    }  # fmt: skip
    return {"name": "K", "role": "carries", "stock": "6x12", "shape": shape, "on": "P", "at": "6 ft", **more}


class TestOrder:
    """A bracket comes after what rests on it and after the beam above it, and before what it is fixed to."""

    def order(self, **pieces: list[Data]) -> list[str]:
        return [one.name for one in from_the_top(job_from_data(job(**pieces)))]

    def test_under_a_beam_and_on_a_post(self) -> None:
        over = beam(seat("0 ft", "wall"), seat("8 ft", "K", lands_at="5 in"))
        assert self.order(post=[post()], bracket=[bracket()], beam=[over]) == ["B", "K", "P"]

    def test_near_a_beam(self) -> None:
        over = beam(seat("0 ft", "wall"), seat("8 ft", "wall"))
        near = bracket(role="decorative", near={"beam": "B", "at": "2 ft"})
        shelf = {**MOLDING, "on": "K", "name": "M"}
        found = self.order(trim=[shelf], bracket=[near], post=[post()], beam=[over])
        assert found.index("B") < found.index("K") < found.index("P") and found.index("M") < found.index("K")

    def test_a_beam_that_waits_for_the_bracket_near_it(self) -> None:
        """The bracket is fixed to the beam on which the one above it stands: its load goes first."""
        upper = beam(seat("0 ft", "wall"), seat("8 ft", "P"), name="over")
        lower = beam(seat("0 ft", "wall"), seat("8 ft", "wall"), name="under")
        looking_down = bracket(role="decorative", on="over", at="2 ft", near={"beam": "under", "at": "2 ft"})
        found = self.order(bracket=[looking_down], post=[post(on="under", lands_at="4 ft")], beam=[lower, upper])
        assert found == ["K", "over", "P", "under"]


loads = st.fixed_dictionaries(
    {"dead": st.integers(5, 200)},
    optional={"live": st.integers(10, 300), "snow": st.integers(10, 300), "roof_live": st.integers(10, 100)},
)


LIFTED: dict[str, list[Data]] = {
    "beam": [beam(seat("0 ft", "stone"), seat("4 ft", "stone"), seat("8 ft", "P0"), name="B0", stock="light",
                  length="8 ft", spacing="24 in",
                  carries=[{"what": "spread", "from": "0 ft", "to": "2 ft", "dead": "42 plf"}])],
    "post": [post(name="P0", stock="light", height="8 ft", on="footing", carries=[])],
    "stock": [LIGHT], "existing": [STONE],
}  # fmt: skip


def test_a_post_bears_its_weight_less_the_least_that_lifts_it() -> None:
    """6x12 at 5 pcf: 63.25 in2 x 8 ft is 17.57 lb; the beam over two spans of 4 ft lifts it, at most by the equation of
    three moments without shear: 42 x 2^2 (2 x 4^2 - 2^2)/(16 x 4^3) less 3/8 of its weight of 2.196 x 4 lb."""
    row = followed(**LIFTED).rows["P0", 0]
    high, low = row.by_kind["D"]
    weight, w = 5.0 * 63.25 / 144.0 * 8.0, 5.0 * 63.25 / 144.0
    most = 42.0 * 2.0**2 * (2.0 * 4.0**2 - 2.0**2) / (16.0 * 4.0**3) - 3.0 / 8.0 * w * 4.0
    assert low == pytest.approx(weight - most, rel=1e-6)
    assert low < high <= weight and row.largest == pytest.approx(high)
    assert row.least == pytest.approx(min(0.6 * low, low), rel=1e-6)


@st.composite
def houses(draw: st.DrawFn) -> dict[str, list[Data]]:
    """Beams on beams, posts and walls, from the top down; each may stand for a row.

    Either all of them have simple spans, or they may overhang and have more supports.
    """
    simple = draw(st.booleans())
    count = draw(st.integers(1, 4))
    lengths = [draw(st.integers(8, 20)) for _ in range(count)]
    beams, posts = [], []
    for i, length in enumerate(lengths):
        first, last = (0, length) if simple else (draw(st.integers(0, 2)), length - draw(st.integers(0, 2)))
        places = [first, *([(first + last) // 2] if not simple and draw(st.booleans()) else []), last]
        supports = []
        for place in places:
            under = draw(st.sampled_from(["stone", "post", *range(i + 1, count)]))
            if under == "stone":
                supports.append(seat(f"{place} ft", "stone"))
            elif under == "post":
                supports.append(seat(f"{place} ft", f"P{len(posts)}"))
                lower = draw(st.sampled_from(["footing", *range(i + 1, count)]))
                more = {} if lower == "footing" else {"lands_at": f"{draw(st.integers(0, lengths[lower]))} ft"}
                below = lower if lower == "footing" else f"B{lower}"
                posts.append(post(name=f"P{len(posts)}", stock="light", on=below, carries=[], **more))
            else:
                supports.append(seat(f"{place} ft", f"B{under}", lands_at=f"{draw(st.integers(0, lengths[under]))} ft"))
        start = draw(st.integers(0, length - 4))
        end = draw(st.integers(start + 2, length))
        kinds = {kind: f"{value} plf" for kind, value in draw(loads).items()}
        carried = [{"what": "spread", "from": f"{start} ft", "to": f"{end} ft", **kinds}]
        if draw(st.booleans()):
            carried.append({"what": "wind", "wind": f"{draw(st.integers(-200, 200).filter(bool))} plf"})
        if draw(st.booleans()):
            carried.append({"what": "cask", "live": "400 lb", "moves": True})
        if draw(st.booleans()):
            carried.append({"what": "stove", "dead": "300 lb", "at": f"{draw(st.integers(0, length))} ft"})
        row = {"spacing": "24 in"} if draw(st.integers(0, 3)) == 0 else {}
        beams.append(beam(*supports, name=f"B{i}", length=f"{length} ft", stock="light", carries=carried, **row))
    return {"beam": beams, "post": posts, "stock": [LIGHT], "existing": [STONE]}


@settings(max_examples=10, deadline=None)
@given(data=houses())
@example(data=LIFTED)  # dead load lifts the far end, by more or less as the beam bends: the post has both ends of that
def test_what_is_applied_arrives_and_no_support_gets_more_than_its_check_allowed_for(
    data: dict[str, list[Data]],
) -> None:
    """Statics: nothing is lost on the way; and all loads at once lie within the envelope of the patterns.

    Wind does so on simple spans only: the checks take it one way at a time, and where a load lifts a support beyond the
    next one, wind down and wind up at once may go further than either alone. Neither is it asked of beams that stand on
    beams: their dead reactions have a range, of which one end is handed on (see DEVELOPERS.md, Known limits).
    """
    found = followed(**data)
    assert found.trace.missing == ""
    size = sum(abs(force) for force in found.trace.applied.values())
    for name, applied, arriving in found.trace.totals():
        assert arriving == pytest.approx(applied, rel=1e-9, abs=1e-9 * size), name
    simple = all([one["at"] for one in each["supports"]] == ["0 ft", each["length"]] for each in data["beam"])
    unders = [one["on"] for each in data["beam"] for one in each["supports"]] + [each["on"] for each in data["post"]]
    still = not any(under.startswith("B") for under in unders)
    for step in found.trace.steps if still else ():
        row = found.rows[step.above, step.index]
        for combination in asd_combinations():
            if "W" in combination.factors and not simple:
                continue
            force = sum(factor * step.force.get(kind, 0.0) for kind, factor in combination.factors.items())
            assert row.least - 1e-6 * size <= force <= row.largest + 1e-6 * size, (step, combination.name)


@settings(max_examples=12, deadline=None)
@given(
    slope=st.integers(2, 14), tail=st.integers(0, 3), tied=st.booleans(), wind=st.integers(-30, 30).filter(bool),
    on_plan=st.booleans(), pair=st.booleans(), moving=st.booleans(),
)  # fmt: skip
def test_the_same_for_roofs(
    slope: int, tail: int, tied: bool, wind: int, on_plan: bool, pair: bool, moving: bool
) -> None:
    """Rafters against a ridge beam, and pairs with a tie: loads summed by hand, reactions of the frame.

    The far wall of a pair is no piece: the envelope of the near one, where the load that moves stands, is its own.
    """
    roof: list[Data] = [
        {"what": "roof", "dead": "10 psf", "snow": "25 psf", **({"measured": "plan"} if on_plan else {})},
        {"what": "wind", "wind": f"{wind} psf"},
        {"what": "vent", "dead": "40 lb", "at": "5 ft"},
        {"what": "part", "live": "12 plf", "from": "1 ft", "to": "4 ft"},
    ]
    if moving:
        roof.append({"what": "man", "live": "300 lb", "moves": True})
    more: Data = {"ridge": "board"} if tied else {"ridge": "beam", "ridge_on": "ridge", "pair": pair}
    one = rafter(stock="board", slope=f"{slope}:12", carries=roof, wall={"at": f"{tail} ft"}, **more,
                 **({"tie": "T"} if tied else {}))  # fmt: skip
    ridge = beam(seat("0 ft", "stone"), seat("12 ft", "stone"), name="ridge", stock="light", carries=[])
    floor = [{"what": "ceiling", "dead": "8 plf", "live": "10 plf", "from": "2 ft", "to": "7 ft"}]
    data: dict[str, list[Data]] = {"rafter": [one], "stock": [LIGHT, BOARD], "existing": [STONE]}
    data |= {"tie": [tie(stock="board", carries=floor)]} if tied else {"beam": [ridge]}
    found = followed(**data)
    assert found.trace.missing == ""
    for name, applied, arriving in found.trace.totals():
        assert arriving == pytest.approx(applied, rel=1e-9, abs=1e-6), name
    for step in (step for step in found.trace.steps if step.below):
        row = found.rows[step.above, step.index]
        for combination in asd_combinations():
            force = sum(factor * step.force.get(kind, 0.0) for kind, factor in combination.factors.items())
            assert row.least - 1e-4 <= force <= row.largest + 1e-4, (step, combination.name)

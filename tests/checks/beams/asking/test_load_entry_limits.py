"""How loads come onto a beam: seats, fastenings in the side and twist, each rule at its limit and by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.beams.load_entry import _seats_from, largest_force, twist_checks
from beamcheck.checks.beams.seats import contact_of, seats_of
from beamcheck.checks.core.wood.strength import Section
from beamcheck.model.beams import Beam
from beamcheck.model.brackets.bracket import Bracket
from beamcheck.model.brackets.shapes import Bent, Solid, SteelCore
from beamcheck.model.posts import Post
from beamcheck.model.stock import Stock

from ... import houses
from ..beams import SAWN, Data, beam, begins, known, result_of, seat, step

WOOD = known("6 in x 12 in", F_v=150)
DRY = {key: value for key, value in WOOD.items() if key != "measured_moisture"} | {"moisture": "green"}
OWN = 5 / 1728 * 72  # lb/in


def aside(wood: Data = WOOD, highest: float = 2.0, lowest: float = 6.0, **load: Any) -> Any:
    fastened = {"highest": f"{highest} in", "lowest": f"{lowest} in"}
    entry = {"what": "joists", "live": "100 plf", "applied": "side", "fastened": fastened, **load}
    return result_of(beam(carries=[entry], meant=SAWN), wood=wood)


@pytest.mark.parametrize(("given", "ids"), [
    ({"highest": 3.59}, set()), ({"highest": 3.61}, {"beam.side_load.low"}), ({"lowest": 12.0}, set()),
    ({"lowest": 12.1}, {"beam.side_load"}), ({"highest": 1.0, "wood": DRY}, set()),
    ({"highest": 0.99, "wood": DRY}, {"beam.side_load.spread"}), ({"highest": 0.99}, set()),
    ({"lowest": 8.5, "wind": "-10 plf"}, set()),  # what lifts counts from the other edge: 12 - 8.5 = 3.5 in
    ({"lowest": 8.3, "wind": "-10 plf"}, {"beam.side_load.low"}), ({"lowest": 8.3, "wind": "10 plf"}, set()),
])  # fmt: skip
def test_places_of_fastenings(given: Any, ids: set[str]) -> None:
    """70 % of the depth beyond them (common practice); 5 in between the outer ones in wood that dries (12.5.1.3)."""
    found = aside(**given)
    assert {one.id for one in found.checks if one.id.startswith("beam.side") and one.verdict == "refer"} == ids


@pytest.mark.parametrize(("start", "end", "near", "inner"), [
    (4, 8, 200 + OWN * 24, 100 + OWN * 12), (5, 7, 100 + OWN * 12, 100 + OWN * 12), (5.5, 6.5, None, 50 + OWN * 6),
    (0, 5, 500 * 9.5 / 12 + OWN * 72, 500 * 2.5 / 12 - OWN * 12),
    (0, 4, 400 * 10 / 12 + OWN * 72, None), (8, 12, 400 * 10 / 12 + OWN * 72, None),
    (7, 12, 500 * 9.5 / 12 + OWN * 72, 500 * 2.5 / 12 - OWN * 12),
])  # fmt: skip
def test_shear_where_the_load_comes(start: float, end: float, near: float | None, inner: float | None) -> None:
    """Five depths from either end are near it (NDS 2018 3.4.3.3, memory), 5 ft of 12; V by statics, where it is."""
    piece = aside(**{"from": f"{start} ft", "to": f"{end} ft"})
    found = {one.what.rsplit(", ", 1)[1]: one.demand for one in begins(piece, "shear beside")}
    assert found == {
        words: pytest.approx(V) for words, V in (("near an end", near), ("away from the ends", inner)) if V
    }


@pytest.mark.parametrize(("forces", "most"), [
    ({"D": (100.0, 80.0), "W": (50.0, -300.0)}, 132.0),
    ({"D": (100.0, 100.0), "L": (40.0, 0.0), "S": (60.0, 0.0)}, 175.0),
    ({"D": (100.0, 90.0), "L": (80.0, -300.0)}, 210.0), ({}, 0.0),
])  # fmt: skip
def test_the_most_that_kinds_come_to(forces: Any, most: float) -> None:
    """0.6 x 80 - 0.6 x 300, D + 0.75 L + 0.75 S, D + L of the least (ASCE 7-16 2.4.1, memory)."""
    assert largest_force(forces) == pytest.approx(most)


DECORATION = Bracket.model_construct(name="K", role="decorative")


@pytest.mark.parametrize(("transfer", "piece", "verdicts"), [
    ({"off": 3.0}, DECORATION, ["passes"]), ({"off": 3.01}, DECORATION, ["refer"]), ({}, DECORATION, []),
    ({"off": 3.0}, Bracket.model_construct(name="K", role="carries"), ["refer"]), ({"off": 3.0}, None, ["refer"]),
    ({"off": 3.0, "perhaps": "more"}, DECORATION, ["refer"]),
    ({"off": 3.0, "forces": {"D": (28.8, 28.8), "L": (0.0, 0.0)}}, DECORATION, ["refer"]),
])  # fmt: skip
def test_twist_that_is_left_out(transfer: Any, piece: Any, verdicts: list[str]) -> None:
    """0.4 psi of b^2 d (judgment): 0.4 x 36 x 12 = 28.8 lb x (3 + 3 in); only of what carries nothing."""
    load = TransferredLoad("K", **{"forces": {"D": (28.8, 28.8)}, **transfer})
    context: Any = SimpleNamespace(transfers=[load], structure=SimpleNamespace(pieces={"K": piece} if piece else {}))
    assert [one.verdict for one in twist_checks("B", Section(6.0, 12.0, 6.0), context)] == verdicts
    thin = [one.verdict for one in twist_checks("B", Section(6.0, 12.0, 5.9), context)]
    assert thin == ["refer"] * len(verdicts)


@pytest.mark.parametrize(("pair", "broad"), [(True, 3.0), (False, 1.5)])
def test_a_few_rafters_have_a_seat_each_on_their_ridge(pair: bool, broad: float) -> None:
    """Where they come from both sides the two seats of a pair bear the two loads, 1 1/2 in long each."""
    upper = {"bearing": "1 1/2 in", "lands_from": "2 ft", "lands_to": "10 ft"}
    rafter = houses.rafter(ridge="beam", ridge_on="ridge", upper=upper, spacing="4 ft", members=3, pair=pair)
    ridge = houses.beam(houses.seat("0 ft", "wall"), houses.seat("12 ft", "wall"), name="ridge", carries=[])
    found = houses.checked(rafter=[rafter], beam=[ridge])
    seats = [one for one in houses.piece(found, "ridge").checks if one.id == "beam.load_seat"]
    assert [one.where for one in seats] == ["2 ft", "6 ft", "10 ft"]
    for one in seats:
        assert step(one, "R") == pytest.approx(
            broad / 1.5 * 4 * (10 * 80**0.5 + 20 * 8) / 2, rel=0.03
        )  # and its weight
        assert one.demand == pytest.approx(step(one, "R") / (broad * 1.5))


def test_what_comes_down_in_the_side_is_told_to_whoever_answers() -> None:
    """D + 0.75 L + 0.75 S of 10, 20 and 40 plf over 12 ft: 660 lb; what lifts takes nothing off."""
    found = aside(highest=4.0, dead="10 plf", live="20 plf", snow="40 plf", wind="-30 plf", lowest=11.0)
    (check,) = [one for one in found.checks if one.id == "beam.side_load.low"]
    assert dict(check.questions[0].forces) == {"down": pytest.approx(660.0)}


BENT, CORE = Bent.model_construct(thickness=1.5, inner_radius=10.0, depth=2.0), SteelCore.model_construct(
    thickness=0.25, width=1.5, projection=8.0)  # fmt: skip


@pytest.mark.parametrize(("shape", "long", "contact", "doubted"), [
    (Solid.model_construct(thickness=3.5, projection=10.0), 9.0, (3.5, 9.0), False),
    (Solid.model_construct(thickness=3.5, projection=10.0), 10.0, (3.5, 10.0), False),
    (Solid.model_construct(thickness=3.5, projection=10.0), 10.5, (3.5, 10.0), True),
    (Solid.model_construct(thickness=3.5, projection=2.0), 4.0, (3.5, 3.5), True),
    (Solid.model_construct(thickness=7.0, projection=2.0), 4.0, (6.0, 4.0), False),
    (BENT, 12.0, (1.5, 12.0), False), (BENT, 12.5, (1.5, 12.0), True), (CORE, 8.0, (1.5, 8.0), False),
    (CORE, 8.5, (1.5, 8.0), True),
])  # fmt: skip
def test_a_seat_on_a_bracket(shape: Any, long: float, contact: tuple[float, float], doubted: bool) -> None:
    """No broader than it is thick, no longer than it stands out or is thick: either way of running over it."""
    one = Beam.model_validate(beam(supports=[seat("0 ft", on="K", bearing=f"{long} in"), seat("12 ft")]))
    bracket, wood = Bracket.model_construct(name="K", shape=shape), Stock.model_validate(WOOD)
    context: Any = SimpleNamespace(
        stock=lambda name: wood, under=lambda name: bracket, anchor=lambda name: None,
        structure=SimpleNamespace(joints=SimpleNamespace(slot=lambda anchor: 0.0)),
    )  # fmt: skip
    found = contact_of(one, seats_of(one.supports, 144.0)[0], Section(6.0, 12.0, 6.0), context)
    assert (found.b, found.l_b) == contact and bool(found.doubts) is doubted
    assert any("than K is thick" in note for note in found.notes) is (contact[0] < 6.0)


@pytest.mark.parametrize(("lowest", "low"), [((9.0, 8.5), False), ((9.0, 8.3), True), ((8.3, 9.0), True)])
def test_of_several_that_lift_the_highest_of_the_lowest_fastenings_counts(
    lowest: tuple[float, float], low: bool
) -> None:
    """From the bottom edge up 12 - 8.3 = 3.7 in, more than 30 % of 12 in: whichever comes first."""
    entries = [{"what": "joists", "live": "50 plf", "wind": "-10 plf", "applied": "side",
                "fastened": {"highest": "2 in", "lowest": f"{one} in"}} for one in lowest]  # fmt: skip
    found = result_of(beam(carries=entries, meant=SAWN), wood=WOOD)
    asked = [one for one in found.checks if one.id == "beam.side_load.low" and one.verdict == "refer"]
    assert bool(asked) is low


@pytest.mark.parametrize(("foot", "broad"), [(5.5, [5.5]), (None, [0.0])])
def test_a_post_is_as_broad_on_a_beam_as_its_foot(foot: float | None, broad: list[float]) -> None:
    """A foot that nobody measured has no breadth: then the seat is asked for."""
    post = Post.model_construct(name="P")
    made: Any = SimpleNamespace(transfers=[TransferredLoad("P", {"L": (9.0, 0.0)}, at=60.0, bearing=foot)],
                                structure=SimpleNamespace(pieces={"P": post}))  # fmt: skip
    load = Applied("L", 60.0, 60.0, P=9.0, what="from P")
    assert list(_seats_from(Beam.model_validate(beam()), made, load)) == broad


@pytest.mark.parametrize(("lowest", "id"), [
    ((6.0, 12.1), "beam.side_load"), ((12.1, 6.0), "beam.side_load"), ((6.0, 12.0), ""), ((6.0, 6.9), ""),
    ((6.9, 7.1), "spread"), ((7.1, 6.9), "spread"),
])  # fmt: skip
def test_of_several_the_lowest_fastening_of_all_counts(lowest: tuple[float, float], id: str) -> None:
    """One below a beam of 12 in; one more than 5 in below the highest, 2 in down, in wood that is still to dry."""
    entries = [{"what": "joists", "live": "50 plf", "applied": "side",
                "fastened": {"highest": "2 in", "lowest": f"{one} in"}} for one in lowest]  # fmt: skip
    wood = WOOD if id != "spread" and max(lowest) > 7.0 else DRY
    found = result_of(beam(carries=entries, meant=SAWN), wood=wood)
    ids = {one.id for one in found.checks if one.id.startswith("beam.side_load") and one.verdict == "refer"}
    assert ids == ({f"beam.side_load.{id}" if id == "spread" else id} if id else set())


@pytest.mark.parametrize("highest", [(1.0, 2.0), (2.0, 1.0)])
def test_of_several_the_highest_fastening_of_all_counts(highest: tuple[float, float]) -> None:
    """5 1/2 in from the highest of all to the lowest in wood that is still to dry (12.5.1.3)."""
    entries = [{"what": "joists", "live": "50 plf", "applied": "side",
                "fastened": {"highest": f"{one} in", "lowest": "6.5 in"}} for one in highest]  # fmt: skip
    found = result_of(beam(carries=entries, meant=SAWN), wood=DRY)
    assert [one for one in found.checks if one.id == "beam.side_load.spread"]

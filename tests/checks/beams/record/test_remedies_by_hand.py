"""The piece that a remedy tries: every place along it drawn closer, loads lowered, nothing else touched."""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.beams import result
from beamcheck.checks.beams.beam import largest_ratio
from beamcheck.checks.beams.record.remedies import _less, _moved, _scaled
from beamcheck.checks.core.asking.question import ask
from beamcheck.checks.core.result import Check
from beamcheck.model.beams import Beam
from beamcheck.values.lumber import read_size
from beamcheck.values.sizes import listed_sizes

from ..beams import Data, beam, floor, known, result_of, seat, stock

STAMP = "stamp: mill 12, No.2, HEM-FIR, S-DRY"


def test_every_place_is_drawn_closer() -> None:
    loads = [floor(live="40 plf", **{"from": "2 ft", "to": "10 ft"}),
             {"what": "post", "dead": "500 lb", "at": "4 ft", "bearing": "4 in"}]  # fmt: skip
    cut = {"kind": "hole", "at": "6 ft", "depth": "1 in", "from_bottom": "5 in"}
    whole = Beam.model_validate(
        beam(supports=[seat("1 ft"), seat("11 ft")], length="12 ft", carries=loads, cuts=[cut], spacing="16 in")
    )
    half = _scaled(whole, 0.5)
    assert [one.at for one in half.supports] == [6.0, 66.0] and half.length == 72.0
    assert [(one.start, one.end, one.at) for one in half.carries] == [(12.0, 60.0, None), (None, None, 24.0)]
    assert [one.at for one in half.cuts] == [36.0]
    kept = ("carries", "supports", "cuts", "length")
    assert half.model_dump(exclude=set(kept)) == whole.model_dump(exclude=set(kept))
    assert [one.bearing for one in half.supports] == [5.5, 5.5] and half.cuts[0].depth == 1.0
    assert _scaled(whole.model_copy(update={"length": None}), 0.5).length is None


@pytest.mark.parametrize(("at", "row", "now"), [
    (60.0, None, (30.0, None)), (None, (24.0, 100.0), (None, (12.0, 50.0))), (None, None, (None, None)),
])  # fmt: skip
def test_what_comes_from_above_is_drawn_closer(at: Any, row: Any, now: Any) -> None:
    moved = _moved(TransferredLoad("A", {"D": (10.0, 8.0)}, at=at, row=row, spread=16.0), 0.5)
    assert (moved.at, moved.row) == now and (moved.spread, moved.forces) == (16.0, {"D": (10.0, 8.0)})


def test_less_load_of_every_kind() -> None:
    (load,) = Beam.model_validate(beam(carries=[floor(dead="10 psf", live="40 psf", snow="20 psf", wind="-8 psf",
                                                      roof_live="16 psf", width="6 ft")])).carries  # fmt: skip
    less = _less(load, 0.25)
    for kind, psf in (("dead", 2.5), ("live", 10.0), ("snow", 5.0), ("wind", -2.0), ("roof_live", 4.0)):
        assert getattr(less, kind) == (pytest.approx(psf / 144), "area")
    assert less.width == 72.0


OPEN = ask("moisture", "w", "stock.w.measured_moisture")
KEPT, BROKEN = Check.keeps_rule("x", "B", "kept", ""), Check.breaks_rule("x", "B", "broken", "")
ASKED, NO_NUMBER = (Check("B", "a", "", "refer", ratio=one, questions=(OPEN,)) for one in (None, math.nan))


def used(part: float) -> Check:
    return Check("B", "bending", "", "passes" if part <= 1.0 else "fails", ratio=part)


@pytest.mark.parametrize(("checks", "largest"), [
    ([], 0.0), ([KEPT], 0.0), ([ASKED], 0.0), ([KEPT, used(0.75)], 0.75), ([used(0.75), used(1.25)], 1.25),
    ([used(0.75), ASKED], 0.75), ([used(0.75), BROKEN], math.inf), ([BROKEN], math.inf),
    ([NO_NUMBER, used(0.75)], math.inf),
])  # fmt: skip
def test_the_ratio_by_which_a_remedy_is_judged(checks: list[Check], largest: float) -> None:
    """A rule that is kept and a question have none and change nothing; a broken rule is past any."""
    assert largest_ratio(checks) == largest


@pytest.mark.parametrize(("live", "percent"), [(1500, 44), (1000, 66), (700, 94)])
def test_how_much_of_the_load_holds(live: int, percent: int) -> None:
    """M = w L^2/8 on 12 ft of 6 x 12 in (S 144 in3) at 1,000 psi: 666.7 plf, 2.5 of them its own weight."""
    load = {"what": "floor", "live": f"{live} plf", "applied": "top"}
    found = result_of(beam(carries=[load]), wood=known("6 in x 12 in"))
    assert percent == int(100 * (666.67 - 2.5) / live)
    assert f"Less load: holds with {percent} % of the loads given." in found.remedies


ON_IT = beam(name="C", supports=[seat("0 ft", "B", lands_at="6 ft", bearing="3 in"), seat("8 ft")], in_a_row=False)


@pytest.mark.parametrize(("carries", "above", "told"), [
    ([floor(live="900 plf")], [], ["Less load: holds with 73 % of the loads given."]),
    ([floor(live="150 psf", width="6 ft")], [],
     ["Closer spacing: holds with a load width of 4 ft 5 in instead of 6 ft."]),
    ([floor(live="900 plf")], [ON_IT], []), ([], [ON_IT | {"carries": [floor(live="2000 plf")]}], []),
])  # fmt: skip
def test_less_load_is_told_only_where_all_of_it_is_the_beams_own(
    carries: list[Data], above: list[Data], told: list[str]
) -> None:
    """(666.7 - 2.5)/900 of what it carries, and of 72 in; what another piece brings is not its own to lower."""
    assert int(100 * (2000 / 3 - 2.5) / 900) == 73 and int(72 * (2000 / 3 - 2.5) / 900) == 53
    found = result_of(beam(carries=carries), *above, wood=known("6 in x 12 in"))
    assert found.verdict == "fails"
    assert [one for one in found.remedies if one.startswith(("Less load", "Closer spacing"))] == told


def _fails(size: str, live: float, wood: dict[str, Any]) -> bool:
    load = floor(dead="50 plf", live=f"{live} plf")
    return any(one.verdict == "fails" for one in result_of(beam(carries=[load]), wood={**wood, "size": size}).checks)


@pytest.mark.parametrize(("size", "live"), [
    ("6x12 dressed", 945.0), ("6x12 dressed", 1200.0), ("2x8", 60.0),
])  # fmt: skip
def test_the_next_size_is_the_first_that_holds(size: str, live: float) -> None:
    """Of the listed sizes of its class, no thinner and larger in section: those before it fail, it does not."""
    wood = stock(size) if size[0] == "6" else stock(size, species="Hem-Fir", grade="No.2", evidence=STAMP)
    load = floor(dead="50 plf", live=f"{live} plf")
    found = result_of(beam(carries=[load]), wood=wood)
    (told,) = [one for one in found.remedies if one.startswith("Next size")]
    name = told.split(": ")[1].split(" (")[0]
    now = read_size(size)
    larger = [each for each in listed_sizes(now) if (other := read_size(each)).b * other.d > now.b * now.d
              and other.b > now.b - 0.6 and other.size_class == now.size_class]  # fmt: skip
    assert _fails(size, live, wood) and not _fails(name, live, wood)
    assert all(_fails(each, live, wood) for each in larger[: larger.index(name)])


@pytest.mark.parametrize("wood", [known("6 in x 12 in"), stock("10 in round", species="Southern Pine", grade="No.1")])
def test_no_size_is_told_where_the_values_are_of_that_piece_or_it_is_round(wood: dict[str, Any]) -> None:
    found = result_of(beam(carries=[floor(dead="50 plf", live="2500 plf")]), wood=wood)
    assert not [one for one in found.remedies if one.startswith("Next size")]


@pytest.mark.parametrize("held", [(), (1,)])
def test_anchor_groups_are_checked_anew_after_a_remedy(held: tuple[int, ...], monkeypatch: pytest.MonkeyPatch) -> None:
    """A beam with a remedy, hung by one of its ends; nothing is said of groups where none holds it."""
    monkeypatch.setattr(result, "beam_remedies", lambda beam, *more: ("a larger one",) if beam.name == "A" else ())
    rated = {"manner": "rated hardware", "into": "U", "split": "none seen",
             "on_girder": {"highest": "1 in", "lowest": "9 in"},
             "rating": {"down": "9,000 lb", "source": "evaluation report no. 1 (invented), 2025, table 2",
                        "duration": "included", "conditions": "every hole nailed", "conditions_met": True}}  # fmt: skip
    ends = [seat("0 ft", "U", lands_at="6 ft", bearing="3 in"), seat("12 ft", "U", lands_at="3 ft", bearing="3 in")]
    for i in held:
        ends[i] |= {"holds": "hung", "held_by": f"hanger {i}"}
    piece = beam(name="A", supports=ends, carries=[floor(live="60 plf")])
    anchors = [{**rated, "name": f"hanger {i}"} for i in held]
    found = result_of(piece, beam(name="U", carries=[]), wood=known("6 in x 12 in"), anchor=anchors)
    assert found.remedies == ("a larger one",)
    assert any("anchor groups must be checked anew" in one for one in found.assumptions) is bool(held)

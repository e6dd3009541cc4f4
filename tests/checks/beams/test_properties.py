"""What must hold for any beam: balance, monotony, metric as imperial, mirror images, order of writing."""

from __future__ import annotations

import copy
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks.beams.beam_run import BeamSolver
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import JobResult, PieceResult
from beamcheck.checks.core.wood.govern import figures_only
from beamcheck.checks.core.wood.material import reference_values, wood_of
from beamcheck.model.job import Job
from beamcheck.model.reading.reader import job_from_data

from . import beams as jobs
from .beams import Data, beam, floor, job, ratios, seat, stock

quick = settings(max_examples=8, deadline=None)
whole = st.integers
SIZES = ("6x12 dressed", "4x12", "2x10", "6 1/4 in x 9 1/2 in", "8x8 dressed")


@st.composite
def beams(draw: st.DrawFn, *, cuts: bool = True) -> tuple[Data, Data]:
    """A beam of one to three spans, perhaps with an overhang, under line and point loads; and its wood."""
    size = draw(st.sampled_from(SIZES))
    wood = stock(size, grade="No.2", moisture=draw(st.sampled_from(("dry", "green"))), graded_over="whole length")
    spans = draw(st.lists(whole(60, 200), min_size=1, max_size=3))
    places = [float(x) for x in np.cumsum([draw(st.sampled_from((0, 0, 30))), *spans])]
    length = places[-1] + draw(st.sampled_from((0, 0, 24)))
    fixed: dict[str, Any] = {"tied_down": "strap"}
    supports = [seat(f"{x} in", **fixed) for x in places]
    carries = [
        floor(dead=f"{draw(whole(0, 80))} plf", live=f"{draw(whole(1, 200))} plf", snow=f"{draw(whole(0, 100))} plf")
    ]
    for n in range(draw(whole(0, 2))):
        at = draw(whole(1, int(length) - 1))
        carries.append(floor(what=f"P{n}", live=f"{draw(whole(10, 900))} lb", at=f"{at} in", bearing="4 in"))
    if draw(st.booleans()):
        carries.append(floor(what="wind", wind=f"{draw(whole(-120, 120))} plf"))
    more: Data = {}
    if cuts and draw(st.booleans()):
        more["cuts"] = [
            {"kind": "hole", "at": f"{draw(whole(8, int(length) - 8))} in", "depth": "1 in", "from_bottom": "4 in"}
        ]
    top = draw(st.sampled_from(("full length", "ends only", "3 ft")))
    meant = {"at": "a span of any length", "length": "a stick of any length"}
    piece = beam(length=f"{length} in", supports=supports, carries=carries, top_held=top, meant=meant, **more)
    return piece, wood


def result_of(piece: Data, *, wood: Data) -> PieceResult:
    """Without steps and remedies, which no property here is about."""
    with figures_only():
        return jobs.result_of(piece, wood=wood)


def checked(*pieces: Data, wood: Data) -> JobResult:
    with figures_only():
        return jobs.checked(*pieces, wood=wood)


def figures(result: PieceResult) -> list[float]:
    """Ratios and uplifts in the order of the checks."""
    return [value for check in result.checks if (value := check.ratio if check.ratio is not None else check.demand)]


def scaled(load: Data, factor: float) -> Data:
    kinds = ("dead", "live", "snow", "wind", "roof_live")
    return {
        key: f"{float(text.split()[0]) * factor} {text.split()[1]}" if key in kinds else text
        for key, text in load.items()
    }


@quick
@given(beams())
def test_reactions_carry_the_loads(made: tuple[Data, Data]) -> None:
    """In every case the supports take what lies on the beam, no more and no less."""
    read: Job = job_from_data(job(copy.deepcopy(made[0]), wood=made[1]))
    stock_, piece = read.stock[0], read.beam[0]
    context = Context(Structure({stock_.name: stock_}, {one.name: one for one in (*read.beam, *read.existing)}))
    run = BeamSolver(piece, context).run(wood_of(stock_, reference_values(stock_)))
    held = run.solved.cases_run.reactions[..., 1].sum(axis=-1)
    loaded = [sum(load.total for load in case.loads) for case in run.solved.cases]
    np.testing.assert_allclose(held, loaded, rtol=1e-8, atol=1e-6)


@quick
@given(beams(), st.floats(1.01, 3.0))
def test_more_load_never_lowers_the_largest_ratio(made: tuple[Data, Data], factor: float) -> None:
    """All variable loads together grow; own and dead weight stay. Each check that presses gets no better."""
    piece, wood = made
    more = {**piece, "carries": [scaled({**load}, factor) for load in piece["carries"]]}
    less = ratios(result_of(piece, wood=wood))
    grown = ratios(result_of(more, wood=wood))
    for what, ratio in less.items():
        if what in grown:
            assert grown[what] >= ratio * (1 - 1e-9), what
        else:  # a bearing that is lifted off, a span that is no longer pressed: then something else grew
            assert ratio <= max(grown.values())


@quick
@given(beams())
def test_metric_is_the_same_beam(made: tuple[Data, Data]) -> None:
    piece, wood = made
    inch, pound = 25.4, 4.4482216152605

    def metric(value: Any, key: str = "") -> Any:
        if isinstance(value, list):
            return [metric(each, key) for each in value]
        if isinstance(value, dict):
            return {name: metric(each, name) for name, each in value.items()}
        if isinstance(value, str) and key not in ("what", "tied_down", "size", "name"):
            number, _, unit = value.partition(" ")
            if unit == "in":
                return f"{float(number) * inch!r} mm"
            if unit == "1/2 in":
                return f"{(float(number) + 0.5) * inch!r} mm"
            if unit == "plf":
                return f"{float(number) * pound / 0.3048!r} N/m"
            if unit == "lb":
                return f"{float(number) * pound!r} N"
        return value

    ours, theirs = result_of(piece, wood=wood), result_of(metric(piece), wood=wood)
    assert theirs.verdict == ours.verdict
    assert figures(theirs) == pytest.approx(figures(ours), rel=1e-7, abs=1e-9)


@quick
@given(beams())
def test_the_mirror_image_has_the_same_ratios(made: tuple[Data, Data]) -> None:
    piece, wood = made
    length = float(piece["length"].split()[0])

    def turned(place: str) -> str:
        return f"{length - float(place.split()[0])!r} in"

    mirror = {
        **piece,
        "supports": [{**each, "at": turned(each["at"])} for each in reversed(piece["supports"])],
        "carries": [{**load, **({"at": turned(load["at"])} if "at" in load else {})} for load in piece["carries"]],
        "cuts": [{**cut, "at": turned(cut["at"])} for cut in piece.get("cuts", [])],
    }
    ours, theirs = result_of(piece, wood=wood), result_of(mirror, wood=wood)
    assert theirs.verdict == ours.verdict
    assert sorted(figures(theirs)) == pytest.approx(sorted(figures(ours)), rel=1e-6, abs=1e-7)


@quick
@given(beams(), st.randoms(use_true_random=False))
def test_the_order_of_writing_does_not_matter(made: tuple[Data, Data], dice: Any) -> None:
    piece, wood = made
    other = beam(name="other", supports=[seat("0 in", on="B", lands_at="40 in"), seat("5 ft")])
    mixed = {**piece, "carries": dice.sample(piece["carries"], len(piece["carries"])),
             "supports": dice.sample(piece["supports"], len(piece["supports"]))}  # fmt: skip
    one, two = checked(piece, other, wood=wood), checked(other, mixed, wood=wood)
    by_name = [{each.name: each for each in result.pieces} for result in (one, two)]
    for name in ("B", "other"):
        ours, theirs = (names[name] for names in by_name)
        assert theirs.verdict == ours.verdict
        assert sorted(figures(theirs)) == pytest.approx(sorted(figures(ours)), rel=1e-7)


@quick
@given(beams(cuts=False), whole(2, 5), whole(1, 5))
def test_a_longer_seat_is_never_worse_for_bearing(made: tuple[Data, Data], short: int, more: int) -> None:
    """Also across 6 in, where C_b ends (l_b F_c_perp' never falls), and for the shear, which is read at its face."""
    piece, wood = made

    def with_seats(length: int) -> dict[str, float]:
        ends = [{**each, "bearing": f"{length} in"} for each in piece["supports"]]
        return ratios(result_of({**piece, "supports": ends}, wood=wood))

    before, after = with_seats(short + 1), with_seats(short + 1 + more)
    for what in before:
        if what.startswith("bearing") or what == "shear":
            assert after[what] <= before[what] * (1 + 1e-9), what


def is_simple(piece: Data) -> bool:
    first, last = (piece["supports"][i]["at"] for i in (0, -1))
    return len(piece["supports"]) == 2 and first == "0.0 in" and last == piece["length"]


def of_two(piece: Data, wood: Data, cuts: list[Data], changed: list[Data]) -> tuple[PieceResult, PieceResult]:
    return result_of({**piece, "cuts": cuts}, wood=wood), result_of({**piece, "cuts": changed}, wood=wood)


@quick
@given(beams(cuts=False), whole(1, 14), whole(1, 6), st.sampled_from(("top", "bottom")), st.booleans())
def test_a_deeper_notch_never_helps(made: tuple[Data, Data], depth: int, more: int, face: str, at_end: bool) -> None:
    piece, wood = made
    at = "0 in" if at_end else "40 in"
    cut = {"kind": "notch", "at": at, "length": "4 in", "face": face}
    shallow, deep = of_two(
        piece, wood, [{**cut, "depth": f"{depth / 8} in"}], [{**cut, "depth": f"{(depth + more) / 8} in"}]
    )
    rank = {"passes": 0, "refer": 1, "fails": 2}
    assert rank[deep.verdict] >= rank[shallow.verdict]
    for kind in ("bending at notch", "shear at notch", "deflection", "limits"):
        before, after = ([c for c in result.checks if c.what.startswith(kind)] for result in (shallow, deep))
        for one, two in zip(before, after, strict=True):
            assert rank[two.verdict] >= rank[one.verdict] or kind == "deflection"
            # a softer span draws load away from itself in a continuous beam, and lets a tip that rises down again
            if is_simple(piece) and one.ratio is not None and two.ratio is not None:
                assert two.ratio >= one.ratio * (1 - 1e-9)


@quick
@given(beams(cuts=False), whole(6, 100), whole(1, 16))
def test_adding_a_hole_never_helps(made: tuple[Data, Data], at: int, eighths: int) -> None:
    piece, wood = made
    hole = {"kind": "hole", "at": f"{at % 50 + 6} in", "depth": f"{eighths / 8} in", "from_bottom": "4 in"}
    rank = {"passes": 0, "refer": 1, "fails": 2}
    whole_, holed = of_two(piece, wood, [], [hole])
    assert rank[holed.verdict] >= rank[whole_.verdict]
    if is_simple(piece):
        before, after = ratios(whole_), ratios(holed)
        assert all(after[what] >= ratio * (1 - 1e-9) for what, ratio in before.items())
        assert len(after) > len(before)


@quick
@given(beams(), st.sampled_from(("full length", "4 ft", "ends only")))
def test_less_bracing_never_helps(made: tuple[Data, Data], held: str) -> None:
    piece, wood = made
    best = ratios(result_of({**piece, "top_held": "full length", "bottom_held": "full length"}, wood=wood))
    worse = result_of({**piece, "top_held": held}, wood=wood)
    for check in worse.checks:
        if check.what in best and check.ratio is not None:
            assert check.ratio >= best[check.what] * (1 - 1e-9)

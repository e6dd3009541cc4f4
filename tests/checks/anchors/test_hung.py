"""Rated hardware, the work of others, glue, and hanger rods in whole jobs: none of them passes by silence.

Figures are typed out by hand beside each case. The data are invented.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.core.result import JobResult

from ..beams.beams import Data, beam, checked, find, floor, said, seat, step
from .anchor_jobs import RATED, anchored, lifted, of, rated

# ---- hardware, others, nothing -------------------------------------------------------------------------------------


def test_rated_hardware_holds_what_its_report_says() -> None:
    result = of(anchored(RATED))
    check = find(result, "rated load down")
    assert check.capacity == pytest.approx(4000.0)
    assert result.verdict == "passes"
    assert any("evaluation report 1" in source.document and source.how == "given" for source in result.sources)


def test_a_direction_that_is_not_rated_asks_for_its_figure() -> None:
    """What was not said makes it refer: the report may well have a figure for uplift."""
    check = find(of(anchored(RATED, lifted())), "rated load up")
    assert check.verdict == "refer" and "does not cover the load up" in check.notes[0]
    assert [asked.field for asked in check.questions] == ["anchor.A1.rating.up"]
    job = anchored(rated(up="20000 lbf"), lifted())
    assert find(of(job), "rated load up").verdict == "passes"
    assert "uplift" in said(of(job, "B"), "passes")


@pytest.mark.parametrize(("duration", "factor"), [("included", 1.0), ("apply C_D", 1.6)])
def test_load_duration_only_where_the_report_leaves_it_to_the_user(duration: str, factor: float) -> None:
    """Wind alone: C_D 1.6, which is also the most that a connection may have (NDS 2018 11.3.2)."""
    loads = "floor" if duration == "included" else "wind"  # up to which the report lets them be raised
    job = anchored(rated(up="20000 lbf", down="20000 lbf", duration=duration, loads=loads), lifted())
    assert find(of(job), "rated load up").capacity == pytest.approx(20000 * factor)


@pytest.mark.parametrize("change", [{"conditions_met": None}, {"conditions_met": False}, {"conditions": ""}])
def test_conditions_that_nobody_has_seen_are_referred(change: Data) -> None:
    assert of(anchored(rated(**change))).verdict == "refer"


def test_resting_hardware_takes_only_what_lifts() -> None:
    held = beam(supports=[seat("0 ft", held_by="A1"), seat("12 ft")])
    result = of(anchored(rated(down=None, up="500 lbf"), held))
    assert result.verdict == "passes" and "left to the seat" in "".join(result.assumptions)


def test_by_others_is_named_and_never_passes() -> None:
    others = {"name": "A1", "manner": "by others"}
    assert of(anchored(others)).verdict == "refer"
    named = of(anchored({**others, "confirmed_by": "invented sheet S-1, engineer"}))
    assert named.verdict == "refer" and "said to be confirmed" in said(named, "refer")


def test_glue_holds_nothing() -> None:
    job = anchored({"name": "A1", "manner": "holds nothing"})
    assert of(job).verdict == "fails" and "hold no load" in said(of(job), "fails")
    assert job.verdict == "fails"


# ---- rods ----------------------------------------------------------------------------------------------------------


IN_THE_MIDDLE = {"rows": 1, "columns": 1, "end": "6 in", "edge": "2 3/4 in"}


def rods(length: str | None = "26 in", *, washer: str | None = "1 3/4 in", **more: Any) -> JobResult:
    """A beam that hangs from another one, 12 ft long and 4 ft away from its end, by a 5/8 in rod of A36."""
    lower = beam(
        name="low", supports=[{"at": "6 in", "on": "high", "lands_at": "3 ft", "holds": "hung", "held_by": "A1",
                               "restrained": True}, seat("12 ft")],
        carries=[floor(dead="5 psf", live="10 psf", width="4 ft")],
    )  # fmt: skip
    rod = {"kind": "bolt", "size": "5/8 in", "steel": "A36", "length": length, "washer": washer}
    fastener = {key: value for key, value in rod.items() if value is not None}
    group = {"name": "A1", "manner": "hanger rod", "fastener": fastener, "holes": IN_THE_MIDDLE, **more}
    return checked(beam(name="high"), lower, anchor=[group])


def test_a_rod_with_nuts_on_the_outer_faces_passes() -> None:
    """T_a = 0.75 F_u A_b/2 (AISC J3.6); washers 1 3/4 in on 11/16 in holes (NDS Table L6: memory)."""
    result = of(rods())
    assert result.verdict == "passes", said(result, "refer") + said(result, "fails")
    assert find(result, "tension of the rod").capacity == pytest.approx(0.75 * 58000 * math.pi / 4 * 0.625**2 / 2)
    area = math.pi / 4 * (1.75**2 - 0.6875**2)
    below, above = find(result, "washer under low"), find(result, "washer on the top of high")
    F = step(below, "F_c_perp")
    C_b = (1.75 + 0.375) / 1.75  # 6 in from the end, so 5 1/8 in are clear of it (3.10.4)
    assert below.capacity == pytest.approx(F * C_b * area)
    assert above.capacity == pytest.approx(F * (1.75 + 0.375) / 1.75 * area)  # 3 ft from the end


def test_the_rod_is_a_hole_in_the_beam_that_carries_it() -> None:
    high = of(rods(), "high")
    assert [c for c in high.checks if "cut by anchor A1" in c.what and c.what.startswith("bending")]
    assert not [c for c in high.checks if c.what == "loads on the side"]


@pytest.mark.parametrize(("length", "verdict"), [(None, "refer"), ("12 in", "fails"), ("23 in", "fails")])
def test_a_rod_that_does_not_go_through_both_holds_nothing(length: str | None, verdict: str) -> None:
    """Two beams of 11 1/2 in: 23 in and more; one whose length is not said is asked about."""
    check = find(of(rods(length)), "the rod goes right through")
    assert check.verdict == verdict and check.clause == "NDS 2018 3.8.2"
    assert [asked.who for asked in check.questions] == (["tape"] if length is None else [])


@pytest.mark.parametrize(
    ("end", "edge", "words"),
    [("1/2 in", "2 3/4 in", "from the end"), ("6 in", "1/2 in", "from the side"), ("6 in", "7/8 in", "")],
)
def test_a_rod_keeps_clear_of_end_and_side(end: str, edge: str, words: str) -> None:
    """4 D from the end and 1 1/2 D from the side, as for bolts (Tables 12.5.1A and C); all of the washer on wood."""
    check = find(of(rods(holes={**IN_THE_MIDDLE, "end": end, "edge": edge})), "place of the rod in low")
    assert (check.verdict == "fails") == bool(words or edge == "7/8 in")
    assert words in "; ".join(check.notes)


def test_a_rod_without_a_given_washer_or_with_a_broad_one_counts_the_standard_one() -> None:
    assert "washer" in said(of(rods(washer=None)), "refer")
    broad = of(rods(washer="3 in"))
    assert find(broad, "washer under low").capacity == find(of(rods()), "washer under low").capacity


def test_a_rod_does_not_push() -> None:
    lower = beam(
        name="low", supports=[{"at": "0 ft", "on": "high", "lands_at": "3 ft", "holds": "hung", "held_by": "A1",
                               "restrained": True}, seat("12 ft")], carries=[floor(wind="-1200 plf")],
    )  # fmt: skip
    rod = {"kind": "bolt", "size": "5/8 in", "steel": "A36", "length": "26 in", "washer": "1 3/4 in"}
    job = checked(beam(name="high"), lower, anchor=[{"name": "A1", "manner": "hanger rod", "fastener": rod}])
    assert find(of(job), "uplift on a rod").verdict == "fails"


def test_rods_of_a_row_of_pieces_are_counted_at_midspan_too() -> None:
    high = of(rods(), "high")
    assert all(check.verdict == "passes" for check in high.checks if check.what == "limits of the slot")
    lower = beam(
        name="low", spacing="24 in", carries=[floor(dead="5 psf", live="10 psf", width="2 ft")],
        supports=[{"at": "0 ft", "on": "high", "lands_at": "3 ft", "holds": "hung", "held_by": "A1",
                   "restrained": True}, seat("12 ft")],
    )  # fmt: skip
    rod = {"kind": "bolt", "size": "5/8 in", "steel": "A36", "length": "26 in", "washer": "1 3/4 in"}
    job = checked(beam(name="high"), lower, anchor=[{"name": "A1", "manner": "hanger rod", "fastener": rod}])
    assert "middle third" in said(of(job, "high"), "refer")

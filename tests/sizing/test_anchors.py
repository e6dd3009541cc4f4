"""Fewest and smallest fasteners: what is proposed passes the checks, fewer do not, distances are those of the tables.

Distances: NDS 2018 Tables 12.5.1A to D (read) as multiples of D. Groups and loads are invented.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks.anchors.group import Group, hole_places
from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.model.links.hardware import diameter
from beamcheck.model.reading.reader import read_job
from beamcheck.sizing.anchors import Family, Proposal, fasteners_for, fewest_fasteners, sizes_of

from ..checks.anchors.anchors import find, group, lateral, layout, step, stock, tear_out

PLATE = {
    "steel": "A36",
    "thickness": "1/4 in",
    "width": "6 in",
    "length": "10 in",
    "slot": "5/16 in",
    "weld": "3/16 in",
}
BOLT = {"kind": "bolt", "size": "3/4 in", "steel": "A307", "threads": "clear of it"}
POST = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "8 in", "edge": "2 3/4 in"}
ONE = {"rows": 1, "columns": 1, "end": "4 in", "edge": "4 in"}


def knife(load: float, **more: Any) -> Group:
    return group(
        [load], held=stock('7 1/4" x 9 3/4"'), manner="concealed plate", fastener=BOLT, plate=PLATE, other=None,
        holes={"rows": 1, "columns": 2, "spacing": "4 in", "end": "5 1/4 in", "edge": "3 in"}, arm="2 in", **more,
    )  # fmt: skip


def ledger(load: float, **more: Any) -> Group:
    return group(
        [load], held=stock("2x10 dressed"), into=stock("6x6 dressed"), manner="ledger", other=POST, holes=ONE, **more
    )  # fmt: skip


def passes(made: Group) -> bool:
    checks = [*lateral(made), *layout(made), *tear_out(made)]
    return all(check.verdict != "fails" and (check.ratio is None or check.ratio <= 1.0) for check in checks)


def proposed(found: Proposal) -> Group:
    assert found.found and found.group is not None and found.layout is not None
    return found.group


FAMILIES: list[tuple[Family, Group]] = [
    ("bolt", knife(3000.0)), ("bolt", ledger(300.0, fastener=BOLT)), ("lag screw", ledger(900.0)),
    ("wood screw", ledger(500.0)), ("nail", ledger(500.0)),
]  # fmt: skip


@pytest.mark.parametrize("family, asked", FAMILIES)
def test_what_is_proposed_passes_and_one_fewer_does_not(family: Family, asked: Group) -> None:
    found = fewest_fasteners(asked, family)
    made = proposed(found)
    assert passes(made)
    n = made.x.size
    assert 0.0 < found.ratio <= 1.0
    if n > 1:
        assert not fewest_fasteners(asked, family, most=n - 1).found


@pytest.mark.parametrize("family, asked", FAMILIES)
def test_the_smallest_size_is_not_larger_and_every_smaller_one_fails(family: Family, asked: Group) -> None:
    few, small = fewest_fasteners(asked, family), fewest_fasteners(asked, family, goal="smallest")
    one, other = proposed(few), proposed(small)
    assert one.anchor.fastener is not None and other.anchor.fastener is not None
    size = other.anchor.fastener.size
    assert diameter(family, size) <= diameter(family, one.anchor.fastener.size)
    assert other.x.size >= one.x.size
    smaller = sizes_of(family)[: sizes_of(family).index(size)]
    if smaller:
        assert not fewest_fasteners(asked, family, sizes=smaller).found


def test_distances_are_those_for_which_the_geometry_factor_is_one() -> None:
    """Tables 12.5.1A to C: across the grain 4 D; end 7 D in tension, 4 D across; edge 4 D loaded, 1.5 D free."""
    made = proposed(fewest_fasteners(knife(3000.0), "bolt", sizes=["5/8"]))
    D, d = 0.625, 9.75
    assert made.x.size == 2
    if np.ptp(made.y) > 0:
        assert np.min(np.diff(np.unique(made.y))) >= 4 * D
    assert made.x.min() >= 4 * D
    assert made.y.min() >= 1.5 * D
    assert d - made.y.max() >= 4 * D
    check = find(lateral(made), "lateral load on the worst")
    assert step(check, "C_delta") == 1.0


def test_the_plate_stays_on_the_piece_and_the_holes_on_the_plate() -> None:
    """A plate 6 in wide about the holes, in a piece 9 3/4 deep; it reaches 10 in from the end."""
    made = proposed(fewest_fasteners(knife(4500.0), "bolt"))
    assert made.anchor.fastener is not None
    middle, D = 0.5 * (made.y.min() + made.y.max()), diameter("bolt", made.anchor.fastener.size)
    assert 3.0 <= middle <= 6.75
    assert made.x.max() + 1.5 * D <= 10.0


def test_the_line_of_the_support_stays_where_it_was() -> None:
    """From the end: the middle of two holes at 5 1/4 and 9 1/4, less an arm of 2."""
    for load in (1000.0, 3000.0, 4500.0):
        made = proposed(fewest_fasteners(knife(load), "bolt"))
        assert made.anchor.arm is not None
        assert float(np.mean(made.x)) - made.anchor.arm == pytest.approx(5.25)


def test_a_ledger_stays_on_its_line_and_on_the_post() -> None:
    """One hole at 4 in: the middle of the group within 1 in of that; the post is 5 1/2 in wide."""
    for family in ("lag screw", "wood screw", "nail"):
        made = proposed(fewest_fasteners(ledger(700.0), family))  # type: ignore[arg-type]
        assert abs(float(np.mean(made.x)) - 4.0) <= 1.0
        assert float(np.ptp(made.x)) < 5.5


def test_screws_are_as_long_as_the_wood_has_room_for() -> None:
    """1 1/2 side and 5 1/2 post: a lag screw of 7 in; a 60d nail (6 in) stays inside too. In 2 1/2: 4 in."""
    lag = proposed(fewest_fasteners(ledger(500.0), "lag screw")).anchor.fastener
    assert lag is not None and lag.length == 7.0
    thin = group([200.0], held=stock("2x10 dressed"), into=stock("4x6 dressed"), manner="ledger", holes=ONE,
                 other={**POST, "thickness": "2 1/2 in"})  # fmt: skip
    lag = proposed(fewest_fasteners(thin, "lag screw")).anchor.fastener
    assert lag is not None and lag.length == 4.0


def test_nothing_fits_says_so_for_every_size_and_why() -> None:
    found = fewest_fasteners(knife(40_000.0), "bolt")
    assert not found.found and found.group is None and math.isnan(found.ratio)
    assert len(found.why) == len(sizes_of("bolt"))
    assert found.words.startswith("No bolt fits: 1/4: ")
    assert any("find no room" in text for text in found.why)
    shallow = fewest_fasteners(ledger(2000.0, fastener=BOLT), "bolt", sizes=["1"], most=2)
    # a 1 in bolt across the grain: 4 D loaded and 1.5 D free are 5 1/2 in, and 4 D to the edge of the post are more
    # than the 2 3/4 in that are there
    assert not shallow.found and "1: " in shallow.words


def test_nothing_is_proposed_into_the_ground() -> None:
    job = read_job(Path(__file__).parents[1] / "trials" / "joints" / "lap_bolts_into_the_ground.toml")
    found = fasteners_for(job, "A", "bolt")
    assert not found.found and found.words == "No bolt fits: wall: nothing holds a fastener in the ground."


def test_the_answer_in_words_names_number_size_place_and_ratio() -> None:
    words = fewest_fasteners(knife(1500.0), "bolt").words
    assert words.startswith("1 bolt 5/8: 1 row of 1, 5 1/4 in from the end, ")
    assert "Largest ratio 0.9" in words and "lateral load on the worst fastener" in words


def test_what_the_job_does_not_say_comes_with_the_answer() -> None:
    found = fewest_fasteners(ledger(300.0, split=None), "lag screw")
    assert any(text.startswith("checks and splits at the holes") for text in found.refer)
    assert found.caution and found.sign_off


def test_the_proposed_group_can_be_written_as_rows() -> None:
    made = proposed(fewest_fasteners(knife(3000.0), "bolt"))
    x, y = hole_places(made.anchor.holes)
    assert np.allclose(x, made.x) and np.allclose(y, made.y)


def test_questions_that_make_no_sense() -> None:
    with pytest.raises(
        UnknownName, match="family of fasteners for 'concealed plate' 'nail' is not known; known are 'bolt'"
    ):
        fewest_fasteners(knife(100.0), "nail")
    with pytest.raises(UnknownName, match="goal 'cheapest' is not known"):
        fewest_fasteners(knife(100.0), "bolt", goal="cheapest")  # type: ignore[arg-type]
    with pytest.raises(OutOfRange, match="at least 1 must be allowed"):
        fewest_fasteners(knife(100.0), "bolt", most=0)
    found = fewest_fasteners(knife(100.0), "bolt", sizes=["9/16"])
    assert not found.found and "bolt size '9/16' is not known" in found.words


@settings(max_examples=6, deadline=None)
@given(st.floats(200, 2500), st.floats(1.05, 2.0))
def test_more_load_never_takes_fewer_bolts(load: float, more: float) -> None:
    one = fewest_fasteners(knife(load), "bolt", sizes=["1/2", "5/8"])
    two = fewest_fasteners(knife(load * more), "bolt", sizes=["1/2", "5/8"])
    if two.found:
        assert proposed(one).x.size <= proposed(two).x.size

"""What an engineer would not let pass: trim whose fixings, wall or wood do not bear out what is said of them."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.brackets.trim.trim import trim_result
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import PieceResult
from beamcheck.model.brackets.bracket import Trim
from beamcheck.model.existing import Existing

from ..anchors.anchors import stock
from .brackets import LAG, OTHER, Data, find, structure

FOUR: Data = {"rows": [{"below_top": "1 in", "count": 4, "apart": "3 in"}]}
WALL: Data = {"name": "wall", "what": "studs", "material": "wood", "confirmed_by": "engineer, letter of 3 May 2025"}


def hung(
    fixings: Data | None = None, *, wall: Data | None = None, wood: Data | None = None, other: str = "wood", **more: Any
) -> PieceResult:
    """Trim of 24 lb below a wall of studs, on four 3/8 in lag screws unless something else is said."""
    here = structure(
        wood=stock("4x6 dressed", **(wood or {})), sound=stock("4x6 dressed", name="sound"),
        thin=stock("2x6 dressed", name="thin"),
    )  # fmt: skip
    existing = Existing.model_validate({**WALL, **(wall or {})})
    held: Data = {
        "fastener": LAG, "through": "1 1/2 in", "other": {**OTHER, "stock": other}, "wall": "wood", "seasoned": "dry",
        "split": "none seen", **FOUR, **(fixings or {}),
    }  # fmt: skip
    data: Data = {
        "name": "T", "role": "decorative", "what": "boxed beam", "on": "wall", "stock": "sound", "weight": "24 lb",
        "hangs": "below", "accidental": "not for load", "fixings": held, **more,
    }  # fmt: skip
    trim = Trim.model_validate(data)
    context = Context(Structure(here.structure.stocks, {**here.structure.pieces, "wall": existing, "T": trim}))
    return trim_result(trim, context)[0]


def test_the_usual_trim_passes() -> None:
    assert hung().verdict == "passes"
    assert hung(on="post").verdict == "passes"


@pytest.mark.parametrize("split", [None, "not looked at", "check across the holes"])
def test_screws_pulled_out_of_wood_that_may_be_split_refer(split: str | None) -> None:
    """Withdrawal values are for sound wood: a screw in a check holds little or nothing (judgment)."""
    found = hung({"split": split})
    assert found.verdict == "refer"
    assert find(list(found.checks), "checks and splits at the holes").verdict == "refer"


def test_what_the_wall_is_said_to_take_counts() -> None:
    """24 lb on what is said to take 10 lb: a ratio of 2.4 by division."""
    found = hung(wall={"takes": "10 lb"})
    taken = find(list(found.checks), "what wall takes")
    assert taken.ratio == pytest.approx(2.4)
    assert found.verdict == taken.verdict == "fails"
    assert hung(wall={"takes": "30 lb"}).verdict == "passes"


@pytest.mark.parametrize("material", ["masonry", "concrete", "steel"])
def test_screws_into_wood_in_a_wall_that_is_not_of_wood_refer(material: str) -> None:
    found = hung(wall={"material": material})
    assert found.verdict == "refer"
    assert material in find(list(found.checks), "what the fasteners go into").notes[0]


def test_the_wood_that_the_fasteners_go_into_is_that_of_the_piece_it_is_fixed_to() -> None:
    """The post is of stock 'wood'; a value for screws into another stick says nothing."""
    found = hung(on="post", other="thin")
    assert found.verdict == "refer"
    assert "thin" in find(list(found.checks), "what the fasteners go into").notes[0]


def test_wood_behind_whose_grade_nobody_has_seen_refers() -> None:
    assert hung(wood={"grade_from": "assumed"}).verdict == "refer"


def test_the_steel_of_bolts_in_pull_counts() -> None:
    """A307, 3/8 in: 0.1104 in2 x 45 ksi / 2 = 2,485 lb (AISC 360-16 J3.6, memory); 4 x 3,000 lb on 4 bolts is more."""
    bolt: Data = {"kind": "bolt", "size": "3/8 in", "length": "7 in", "washer": "3 1/2 in", "steel": "A307"}
    found = hung({"fastener": bolt}, weight="3,000 lb")
    pulled = find(list(found.checks), "pull on the bolts")
    assert pulled.capacity == pytest.approx(2485.0, rel=1e-3)
    assert pulled.demand == pytest.approx(3000.0)
    assert pulled.verdict == "fails"
    nameless = hung({"fastener": {**bolt, "steel": None}})
    assert find(list(nameless.checks), "pull on the bolts").verdict == "refer"


def test_somebody_may_hang_on_one_fastener() -> None:
    """All of 450 lb beside one lag screw: where that person hangs is not known, so an even share is no answer."""
    by: Data = {"accidental_from": "the owner, letter of 3 May 2025"}
    small: Data = {"fastener": {**LAG, "size": "1/4 in"}}
    assert hung(small, accidental="450 lb", **by).verdict == "refer"
    assert hung(small, accidental="100 lb", **by).verdict == "passes"

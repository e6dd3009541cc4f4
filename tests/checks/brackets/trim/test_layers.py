"""Weight of hung trim from what it is made of: by hand from species, moisture and the table of weights."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.errors import JobError
from beamcheck.model.brackets.bracket import Trim
from beamcheck.model.fields.layers import Layer

from ..test_evidence import hung

make: Any = Trim
OAK = {
    "what": "wood",
    "species": "White Oak",
    "length": "10 ft",
    "width": "30 in",
    "thickness": "3/4 in",
    "moisture": "12 %",
}
PLASTER = {"what": "Plaster on wood lath", "length": "6 ft", "width": "4 ft"}
BRICK = {"what": "Thin brick veneer 3/4 in. + 3/8 in. mortar", "length": "6 ft", "width": "4 ft"}


def trim(*layers: dict[str, str], **more: Any) -> Trim:
    found: Trim = make(
        name="box", role="cover", what="boxed beam", on="B1", hangs="below", made_of=list(layers), **more
    )
    return found


def test_a_boxed_beam_of_oak() -> None:
    """G 0.73 (NDS Table 12.3.3A, memory): 62.4 x 0.73/(1 + 0.73 x 0.108) x 1.12 = 47.3 pcf; 1.5625 ft3 are 73.9 lb."""
    density = 62.4 * 0.73 / (1 + 0.73 * 0.009 * 12) * 1.12
    assert trim(OAK).weight == pytest.approx(density * 120 * 30 * 0.75 / 1728, rel=1e-3)


def test_a_hood_of_plaster_and_thin_brick() -> None:
    """24 ft2 at 8 psf and at 12 psf (ASCE 7 Table C3.1-1): 192 and 288 lb."""
    assert trim(PLASTER).weight == pytest.approx(192.0)
    assert trim(PLASTER, BRICK).weight == pytest.approx(480.0)


def test_what_is_listed_per_inch_takes_its_thickness() -> None:
    board = {"what": "Gypsum board, per 1/8 in.", "length": "4 ft", "width": "3 ft", "thickness": "5/8 in"}
    assert trim(board).weight == pytest.approx(12 * 5 * 0.55)


def test_wetter_wood_is_heavier_and_a_stated_weight_stands() -> None:
    assert trim({**OAK, "moisture": "30 %"}).weight > trim(OAK).weight
    assert trim(OAK, weight="90 lb").weight == 90.0


@pytest.mark.parametrize(
    ("layer", "text"),
    [
        ({**OAK, "species": "Moon Wood"}, "Moon Wood"),
        ({key: value for key, value in OAK.items() if key != "thickness"}, "how thick are the boards"),
        ({"what": "marble dust", "length": "1 ft", "width": "1 ft"}, "marble dust"),
        ({"what": "Gypsum board, per 1/8 in.", "length": "1 ft", "width": "1 ft"}, "how thick is it"),
    ],
)
def test_what_has_no_weight_is_told(layer: dict[str, str], text: str) -> None:
    with pytest.raises(JobError, match=text):
        trim(layer)


def test_a_weight_below_that_of_its_layers_is_a_slip() -> None:
    with pytest.raises(JobError, match="what it is made of weighs"):
        trim(OAK, weight="40 lb")
    assert Layer.model_validate(OAK).weight() > 40.0


TWO_ROWS = {"rows": [{"below_top": one, "count": 3, "apart": "16 in"} for one in ("2 in", "20 in")]}
FACE: dict[str, Any] = {"hangs": "on the face", "stands_out": "4 in",
                        "wall": {"confirmed_by": "engineer's letter of 3 May 2025"}}  # fmt: skip


def test_what_it_is_made_of_comes_to_its_fasteners() -> None:
    """Half of the hood's 480 lb on each row, a sixth of it, 80 lb, on each of six screws (statics)."""
    hood = hung(TWO_ROWS, made_of=[PLASTER, BRICK], weight=None, **FACE)
    check = next(one for one in hood.checks if one.id == "anchor.lateral")
    assert hood.verdict == "passes" and check.demand == pytest.approx(80.0)
    large = {**BRICK, "length": "20 ft", "width": "12 ft"}
    assert hung(TWO_ROWS, made_of=[large], weight=None, **FACE).verdict == "fails"


def test_more_of_it_never_helps() -> None:
    ranks = {"passes": 0, "refer": 1, "fails": 2}
    found = [
        hung(TWO_ROWS, made_of=[{**BRICK, "length": f"{long} ft"}], weight=None, **FACE) for long in (3, 6, 12, 24, 48)
    ]
    assert [ranks[one.verdict] for one in found] == sorted(ranks[one.verdict] for one in found)

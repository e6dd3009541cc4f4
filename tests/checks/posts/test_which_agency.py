"""Agencies with values of their own for one grade: a stamp that does not say which is asked about and never fails."""

from __future__ import annotations

from math import sqrt
from typing import Any

import pytest

from ..houses import SIX_BY_SIX, checked, piece, post, ratios

STAMP = "stamp: agency mark, mill 12, No.2, Douglas Fir-Larch"


def column(live: str, **more: Any) -> Any:
    wood = SIX_BY_SIX | {"name": "No.2 post", "grade": "No.2", "evidence": STAMP, "agency": "", **more}
    wood = {key: value for key, value in wood.items() if value is not None}
    stands = post(stock="No.2 post", height="12 ft", bearing_plate=True)
    stands["carries"] = [{"what": "girder", "dead": "4000 lb", "live": live}]
    return checked(stock=[wood], post=[stands])


def takes(F_c: float) -> float:
    """Pounds on a 5 1/2 in square column 12 ft long of E_min 470,000 psi (NDS 2018 3.7.1), its own weight apart."""
    F_cE = 0.822 * 470_000 / (144 / 5.5) ** 2
    half = (1 + F_cE / F_c) / 1.6
    return 5.5**2 * F_c * (half - sqrt(half**2 - F_cE / F_c / 0.8))


def test_what_one_agency_holds_is_asked() -> None:
    """11,000 lb is over the 475 psi of the one agency and under the 700 psi of the other."""
    assert takes(475) < 11_000 < takes(700)
    result = piece(column("7000 lb"), "P")
    assert result.verdict == "refer"
    (asked,) = (one for one in result.questions if one.id.endswith("/agency"))
    assert asked.field == "stock.No.2 post.agency"
    assert [answer.says for answer in asked.answers] == ["WCLIB", "WWPA"]


@pytest.mark.parametrize("said", [{"agency": "WCLIB"}, {"evidence": "stamp: WCLIB, mill 12, No.2, DOUG FIR-L"}])
def test_the_agency_that_is_said_counts(said: dict[str, Any]) -> None:
    result = column("7000 lb", **said)
    assert piece(result, "P").verdict == "passes"
    assert ratios(result, "P")["compression"] == pytest.approx(11_000 / takes(700), rel=0.012)  # own weight: 85 lb


@pytest.mark.parametrize("evidence", [
    "stamp: mill 12, No.2, DOUG FIR-L, not WCLIB", "stamp: No.2, DOUG FIR-L, mill 12, NOT WCLIB",
    "stamp: mill 12, No.2, DOUG FIR-L, looks like WCLIB", "stamp: WCLIB or another agency, mill 12, No.2, DOUG FIR-L",
    "stamp: WCLIB and WWPA, mill 12, No.2, DOUG FIR-L", "stamp: mill 12, No.2, DOUG FIR-L, no WCLIB mark on it",
    "stamp: mill 12, No.2, DOUG FIR-L, failed the inspection of WCLIB",
])  # fmt: skip
def test_words_that_deny_or_doubt_an_agency_give_it_no_value(evidence: str) -> None:
    """Its row is the higher one, 700 psi: a denial must not be read as its mark."""
    assert piece(column("7000 lb", evidence=evidence), "P").verdict != "passes"


def test_the_lower_agency_fails_and_so_does_what_neither_holds() -> None:
    assert piece(column("7000 lb", agency="WWPA"), "P").verdict == "fails"
    assert takes(700) < 15_000
    assert piece(column("11000 lb"), "P").verdict == "fails"


def test_wood_of_unknown_species_is_screened_as_before() -> None:
    result = piece(column("1000 lb", species="unknown", grade="unstamped", grade_from=None, evidence=""), "P")
    assert result.verdict == "refer"
    assert not [one for one in result.questions if one.id.endswith(("/agency", "/outside_rules"))]

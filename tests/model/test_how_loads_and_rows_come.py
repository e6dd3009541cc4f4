"""Fields that say how a load comes onto a piece, where a row lands, and how plies are fastened."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.errors import JobError
from tests.checks.beams.beams import beam, checked, floor, seat


def refused(*beams: dict[str, Any]) -> str:
    with pytest.raises(JobError) as error:
        checked(*beams)
    return "\n".join(f"{problem.where}: {problem.text}" for problem in error.value.problems)


SIDE = {"highest": "1 in", "lowest": "3 in"}


@pytest.mark.parametrize(
    ("load", "words"),
    [
        (floor(dead="10 lb", at="3 ft", dead_includes_own_weight=True), "only a dead load spread along"),
        (floor(live="10 plf", dead_includes_own_weight=True), "only a dead load spread along"),
        (floor(dead="10 plf", to="3 ft", dead_includes_own_weight=True), "lies along all of it"),
        (floor(live="40 plf", fastened=SIDE), "only a load on the side or from below is fastened"),
        ({"what": "x", "live": "40 plf", "applied": "side", "comes_by": "beam"}, "is for a force"),
    ],
)
def test_a_load(load: dict[str, Any], words: str) -> None:
    assert words in refused(beam(carries=[load]))


def test_a_row() -> None:
    row = beam(name="C", spacing="16 in", supports=[seat("0 ft", on="B", lands_from="1 ft"), seat("12 ft")])
    assert "lands_to: missing" in refused(row, beam())
    row["supports"][0] |= {"lands_to": "30 ft"}
    assert "30 ft is beyond the end" in refused(row, beam())
    row["supports"][0] |= {"lands_to": "6 in"}
    assert "exchange the two" in refused(row, beam())
    del row["spacing"]
    row["supports"][0] |= {"lands_to": "6 ft"}
    assert "how far apart are they?" in refused(row, beam())


def test_alone_and_in_a_row() -> None:
    assert "which is right?" in refused(beam(spacing="16 in", in_a_row=False))


def test_one_ply_is_not_fastened() -> None:
    assert "there is one ply only" in refused(beam(plies_fastened="10d nails"))

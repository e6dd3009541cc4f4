"""`clear`, face to face of two supports as a tape reads it, in place of their middles; names and places for people."""

from __future__ import annotations

import pytest

import beamcheck
from beamcheck.errors import JobError
from beamcheck.model.beams import Beam, beam_length
from beamcheck.model.reading.reader import read_job_text
from beamcheck.model.sticks import Support

from .test_slips import JOB

BY_CLEAR = JOB.replace('name = "B"', 'name = "B"\nclear = "12 ft"').replace('at = "0 ft", ', "").replace(
    'at = "13 ft", on = "wall", bearing = "5 1/2 in"', 'on = "wall", bearing = "3 1/2 in"'
)  # fmt: skip


def test_clear_and_both_seats_give_the_places() -> None:
    """By hand: seats of 5 1/2 and 3 1/2 in and 144 in between: middles at 2 3/4 and 151 1/4 in, 153 in over all."""
    beam = read_job_text(BY_CLEAR).beam[0]
    assert [support.at for support in beam.supports] == pytest.approx([2.75, 151.25])
    assert beam_length(beam) == pytest.approx(153.0)


def test_clear_works_in_python_and_says_what_is_wrong() -> None:
    rest = {"name": "B", "stock": "s", "service": "floor", "finish": "none", "top_held": "ends only"}
    seat = {"on": "wall", "bearing": "4 in"}
    assert Beam(**rest, clear="10 ft", supports=[seat, seat]).supports[1].at == 126.0
    with pytest.raises(beamcheck.BeamcheckError, match="supports 2, bearing: missing: with `clear`"):
        Beam(**rest, clear="10 ft", supports=[seat, {"on": "wall"}])
    with pytest.raises(beamcheck.BeamcheckError, match="clear: '10' has no unit"):
        Beam(**rest, clear="10", supports=[seat, seat])
    with pytest.raises(beamcheck.BeamcheckError, match="the places of the supports leave 9 ft 8 in clear"):
        Beam(**rest, clear="10 ft", supports=[Support(at="0 ft", on="a", bearing="4 in"),
                                              Support(at="10 ft", on="b", bearing="4 in")])  # fmt: skip
    with pytest.raises(beamcheck.BeamcheckError, match="between two supports, and here are 1"):
        Beam(**rest, clear="10 ft", length="3 ft", supports=[{"at": "0 ft", "on": "wall", "holds": "fixed"}])


def test_a_clear_span_in_inches_for_feet_is_told_at_the_field() -> None:
    with pytest.raises(JobError, match=r"clear: 12 in between the supports.*did you mean 12 ft\?"):
        read_job_text(BY_CLEAR.replace('clear = "12 ft"', 'clear = "12 in"'))


def test_names_and_places_for_people_are_read() -> None:
    place = 'called = "hall beam"\nplace = { from = "0 ft, 8 ft", to = "13 ft 4 5/8 in, 8 ft", level = "hall ceiling" }'
    beam = read_job_text(JOB.replace('name = "B"', f'name = "B"\n{place}')).beam[0]
    assert beam.called == "hall beam" and beam.place is not None
    assert beam.place.end == pytest.approx((160.625, 96.0))
    with pytest.raises(JobError, match=r"place, from: .*write two lengths"):
        read_job_text(JOB.replace('name = "B"', 'name = "B"\nplace = { from = "8 ft" }'))

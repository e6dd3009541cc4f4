"""The room to spare is what a fresh run of the job says: it holds there, and one step further it does not."""

from __future__ import annotations

from beamcheck.api import check_text
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import read_job_text
from beamcheck.page.spare import room_to_spare
from beamcheck.units import read

from .pages import TRIALS

TEXT = (TRIALS / "everyday" / "bedroom_over_a_garage.toml").read_text().replace('at = "12 ft"', 'at = "15 ft"')


def test_room_to_spare_is_what_a_fresh_run_says() -> None:
    job = read_job_text(TEXT)
    beam = job.beam[0]
    found = list(room_to_spare(job, beam.name, check_job))
    (live,) = [one for one in found if one.endswith("live")]
    amount = live.removeprefix("holds up to ").removesuffix(" live")
    given = next(load.live for load in beam.carries if load.live)
    (line,) = [line for line in TEXT.splitlines() if "live = " in line]
    was = line.partition('live = "')[2].partition('"')[0]
    assert read(was, "load") == given
    assert check_text(TEXT.replace(f'live = "{was}"', f'live = "{amount}"')).pieces[0].verdict == "passes"
    more = float(amount.split()[0]) + 1.0
    assert check_text(TEXT.replace(f'live = "{was}"', f'live = "{more:g} psf"')).pieces[0].verdict != "passes"


def test_a_piece_that_does_not_pass_has_none() -> None:
    job = read_job_text(
        TEXT.replace('live = "30 psf"', 'live = "190 psf"').replace('live = "40 psf"', 'live = "190 psf"')
    )
    assert check_job(job).pieces[0].verdict != "passes"
    assert list(room_to_spare(job, job.beam[0].name, check_job)) == []

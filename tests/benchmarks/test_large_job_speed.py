"""2,000 pieces of four kinds, no two alike, of which some fail; what answers do to one beam. Nothing is asserted."""

from __future__ import annotations

import time
from pathlib import Path

from beamcheck.analysis.beams.solved_beam import _numbers
from beamcheck.checks.job import check_job
from beamcheck.checks.pieces import Memory
from beamcheck.model.job import Job
from beamcheck.model.reading.reader import job_from_data, read_job

from ..checks import houses as h

EACH = 500
ONE = Path(__file__).parents[2] / "worked_examples" / "published" / "beam_4x8_center_load.toml"


def many(count: int) -> Job:
    """So many beams, posts, rafters and ties; the longest beams fail while facts are open."""
    beams = [h.beam(h.seat("0 ft", "wall"), h.seat(f"{100 + i / 4} in", "wall"), name=f"B{i}") for i in range(count)]
    return job_from_data(h.job(
        beam=beams, post=[h.post(name=f"P{i}", height=f"{80 + i / 10} in") for i in range(count)],
        rafter=[h.rafter(name=f"R{i}", run=f"{60 + i / 10} in", tie=f"T{i}") for i in range(count)],
        tie=[h.tie(name=f"T{i}") for i in range(count)],
    ))  # fmt: skip


def test_check_of_2000_pieces() -> None:
    job = many(EACH)
    began = time.process_time()
    result = check_job(job)
    fails = sum(piece.verdict == "fails" for piece in result.pieces)
    print(f"\n{len(result.pieces)} pieces, {fails} fail: {time.process_time() - began:.1f} s of processor time")
    assert len(result.pieces) == 4 * EACH


def test_what_answers_do_to_one_beam() -> None:
    job, spent = read_job(ONE), []
    for _ in range(5):
        _numbers.cache_clear()
        memory = Memory()
        check_job(job, memory=memory)
        began = time.process_time()
        found = check_job(job, what_ifs=True, memory=memory)
        spent.append(time.process_time() - began)
        assert any(one.answers for one in found.questions)
    print(f"\nwhat answers do to one beam: {min(spent):.3f} s of processor time")

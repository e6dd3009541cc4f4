"""What the tests of posts work out by hand."""

from __future__ import annotations

from hypothesis import settings

from beamcheck.checks.core.context import Structure
from beamcheck.model.job import Job
from beamcheck.model.posts import Post

quick = settings(max_examples=15, deadline=None)
LIVE = [{"what": "test load", "live": "1000 lb"}]  # C_D = 1.0


def own_weight_of_post() -> float:
    """8 ft of 5.5 in square Douglas fir-larch, G = 0.5 at 15 %, by the density rule of the NDS Supplement (memory)."""
    return 62.4 * 0.5 / (1 + 0.5 * 0.009 * 15) * 1.15 * 8 * 5.5**2 / 144


def structure_of(job_: Job, *more: Post) -> Structure:
    every = (*job_.beam, *job_.post, *job_.existing, *more)
    return Structure({one.name: one for one in job_.stock}, {one.name: one for one in every})

"""Twenty jobs of every day, each with all that is asked of it: they pass.

That a fact which is left out is asked for, and closes, is tried with these jobs too.
"""

from __future__ import annotations

import pytest

from .test_trials import INDEX, verdict_of

JOBS = [
    *sorted(row["file"] for row in INDEX if row["subject"] == "everyday"),
    "floors/three_ply_girder.toml",
    "rated_hardware/loft_joists_hung_on_a_4x10.toml",
    "rated_hardware/flush_girder_with_rated_hangers.toml",
    "uplift/porch_beam_with_rated_straps.toml",
    "wood/graded_7x10_over_plaster.toml",
]


@pytest.mark.parametrize("job", JOBS)
def test_it_passes(job: str) -> None:
    assert verdict_of(job) == "passes"


def test_they_are_twenty() -> None:
    assert len(set(JOBS)) >= 20

"""Nothing unreachable: every formula is run by a job, by a sizing call, or is named a public reference formula.

A formula that nothing runs is deleted, or given its door and a job here.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from beamcheck import check_file
from beamcheck.calc.core import REGISTRY, Formula
from beamcheck.model.beams import Beam
from beamcheck.model.stock import Stock
from beamcheck.sizing.batch import check_simple
from beamcheck.sizing.span_tables import span_table

from ..sizing.test_batch_against_jobs import batch_of
from .samples import NAMES

ROOT = Path(__file__).parents[2]
# few of the jobs that the repository has: enough that the others run nothing more
JOBS = [
    "worked_examples/net_loft.toml",
    "worked_examples/old_timbers.toml",
    "worked_examples/beam_in_a_fire.toml",
    "worked_examples/moving_wood.toml",
    "worked_examples/published/timber_8x24_wet.toml",
    "worked_examples/published/beam_4x8_center_load.toml",
    "tests/trials/brackets_and_props/corbel_in_a_dap.toml",
    "tests/trials/roofs/truss_heel_on_four_bolts.toml",
    "tests/trials/joints/forty_toe_nails_in_one_end.toml",
    "tests/trials/joints/middle_support_on_two_bolts.toml",
    "tests/trials/shear_and_cuts/joist_with_a_three_inch_hole.toml",
    "tests/trials/shear_and_cuts/shear_point_load_near_seat.toml",
    "worked_examples/plated_truss.toml",
    "tests/trials/joined_members/girt_in_its_housing.toml",
    "tests/trials/joined_members/girt_that_pulls_on_pegs.toml",
    "tests/trials/joined_members/knee_brace_lapped_on_a_post.toml",
    "tests/trials/joined_members/post_base_held_down.toml",
    "tests/trials/joined_members/ledger_along_studs.toml",
    "tests/trials/joined_members/brace_on_four_inclined_screws.toml",
    "worked_examples/mantel_on_tested_brackets.toml",
    "tests/formulas/rarely_run.toml",
    "tests/formulas/loads_from_the_site.toml",
    "tests/formulas/made_beams.toml",
    "tests/trials/made/steel_girder_beside_timber.toml",
]

STOCK = Stock.model_validate(
    {"name": "wood", "species": "Hem-Fir", "grade": "No.2", "size": "2x10", "grade_from": "stamp",
     "evidence": "invented stamp: agency mark, mill 12", "moisture": "dry"}
)  # fmt: skip
JOIST = Beam.model_validate(
    {"name": "joist", "stock": "wood", "service": "floor", "finish": "none", "top_held": "full length",
     "supports": [{"at": at, "on": "wall", "bearing": "3 1/2 in", "restrained": True} for at in ("0 ft", "12 ft")],
     "carries": [{"what": "L", "applied": "top", "live": "50 plf"}]}
)  # fmt: skip


@pytest.fixture(scope="module")
def reached() -> set[str]:
    """The names of the formulas that those jobs, a span table and a batch of beams run."""
    names: set[str] = set()
    called = Formula.__call__

    def noted(self: Formula, *args: Any, **given: Any) -> Any:
        names.add(self.name)
        return called(self, *args, **given)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Formula, "__call__", noted)
        for job in JOBS:
            check_file(ROOT / job)
        span_table(
            species=["Hem-Fir"], grades=["No.2"], sizes=["2x8"], spacings=["16 in"], finish="gypsum board",
            service="floor", moisture="dry", top_held="full length", dead="10 psf", live="40 psf", shared_by="boards",
        )  # fmt: skip
        check_simple(batch_of([(STOCK, JOIST)]))
    return names


def test_every_formula_is_run_or_is_a_reference(reached: set[str]) -> None:
    idle = [name for name in NAMES if name not in reached and not REGISTRY[name].reference]
    assert idle == [], (
        "no job runs them: give each a job in JOBS or rarely_run.toml, mark it reference=True, or delete it"
    )


def test_a_formula_that_is_run_needs_no_mark(reached: set[str]) -> None:
    assert [name for name in NAMES if name in reached and REGISTRY[name].reference] == []

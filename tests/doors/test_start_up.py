"""What a run of the command loads: a job with one beam no room that it has no use for. No clock is asked."""

from __future__ import annotations

import json
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import pytest

from beamcheck.model.classes import HEADS, KINDS, class_of, type_of
from beamcheck.model.job import Job

from .jobs import PASSES

# rooms and files that a beam on its supports has no use for
NOT_FOR_A_BEAM = (
    "checks.anchors", "checks.brackets", "checks.frames", "checks.joints", "checks.posts", "checks.roofs",
    "checks.movement", "checks.survey", "checks.beams.made", "checks.beams.fire", "checks.core.pictures.others",
    "checks.core.pictures.assembled", "checks.loads.site", "checks.loads.given_areas", "checks.loadpath.frame_totals",
    "checks.core.screening", "checks.core.wood.worth_of_tests", "checks.questions.reach", "model.reading.lines",
    "model.reading.toml_trouble",
    "analysis.fields", "analysis.props", "analysis.roofs", "analysis.site.pieces", "analysis.splits",
    "analysis.trusses", "analysis.frames.contact", "analysis.frames.buckling",
    "model.anchors.anchor", "model.anchors.manners", "model.brackets.shapes", "model.brackets.bracket",
    "model.conditions.movement", "model.brackets.fixings", "model.frames.frame", "model.joints",
    "model.links.anchors", "model.links.brackets", "model.links.joints", "model.outlines", "model.site",
    "values.brackets", "values.site", "values.hardware.pegs",
    "formulas.brackets", "formulas.connections", "formulas.joints", "formulas.steel", "formulas.movement",
    "sheet.figures", "sheet.html", "sheet.pdf", "sheet.record", "sheet.shop", "sheet.templates", "sheet.lists",
    "jobfile", "page", "situations", "sizing", "single", "commands.ask", "commands.new", "commands.papers",
    "commands.shapes", "commands.sign", "commands.span",
)  # fmt: skip
DEMO = Path(__file__).parents[2] / "worked_examples" / "net_loft.toml"
OUTSIDE = ("numpy.ma", "scipy", "skfem", "highspy", "pint", "sympy", "typst", "jinja2", "tomlkit", "rich", "pypdf")
LOADED = """
import json, sys
from beamcheck.cli import main
try:
    main({arguments})
except SystemExit:
    pass
kinds = set()
if "beamcheck.model.fields.base" in sys.modules:
    from beamcheck.model.fields.base import Piece
    todo = [Piece]
    while todo:
        kinds.update(todo)
        todo = [under for one in todo for under in one.__subclasses__()]
ready = sorted(one.__name__ for one in kinds if one.__pydantic_complete__)
print("\\n" + json.dumps([sorted(sys.modules), len(kinds), ready]))
"""


def loaded(*arguments: str) -> tuple[set[str], int, list[str]]:
    """Modules; classes of tables; those of them that were made ready to read a table."""
    code = LOADED.format(arguments=list(arguments))
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    modules, classes, ready = json.loads(done.stdout.splitlines()[-1])
    return set(modules), classes, ready


def test_the_rooms_are_there() -> None:
    assert [room for room in NOT_FOR_A_BEAM if find_spec(f"beamcheck.{room}") is None] == []


def test_a_job_with_one_beam_loads_no_room_that_it_has_no_use_for(written) -> None:
    modules, classes, ready = loaded("check", str(written(PASSES)))
    rooms = [f"beamcheck.{room}" for room in NOT_FOR_A_BEAM]
    assert [one for one in sorted(modules) if any(one == room or one.startswith(f"{room}.") for room in rooms)] == []
    assert modules.isdisjoint(OUTSIDE)
    assert ready == ["About", "Beam", "Existing", "Stock"]  # the tables of the file and no other
    assert classes <= 45  # of more than a hundred
    assert len([one for one in modules if one.startswith("beamcheck.")]) <= 206


def test_a_house_with_anchors_and_joints_loads_no_masked_arrays() -> None:
    modules, _, _ = loaded("check", str(DEMO))
    assert {"beamcheck.checks.anchors.fasteners.distances", "beamcheck.checks.joints.kinds.fastened"} <= modules
    assert "numpy.ma" not in modules


@pytest.mark.parametrize("arguments", [["--version"], ["--help"], ["check", "--help"]])
def test_what_answers_without_a_job_loads_neither_numbers_nor_tables(arguments) -> None:
    modules, classes, _ = loaded(*arguments)
    assert modules.isdisjoint({"numpy", "pydantic", "beamcheck.api", "beamcheck.model", "beamcheck.checks"})
    assert classes == 0


def test_every_kind_of_table_is_found_by_its_name() -> None:
    Job.model_rebuild()
    assert tuple(Job.model_fields) == KINDS
    for kind, field in Job.model_fields.items():
        wanted = type_of(kind) if kind != "site" else class_of(kind) | None
        assert field.annotation == wanted
        assert (kind in HEADS) == (field.is_required() or field.default is None)


def test_a_program_that_runs_a_command_within_itself_keeps_its_collector() -> None:
    """A run of half a second looks nothing through for circles; who calls it and goes on living has to."""
    code = (
        "import gc; before = gc.get_threshold()\n"
        "from beamcheck.cli import main\n"
        "try: main(['--version'])\n"
        "except SystemExit: print(gc.get_threshold() == before)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.endswith("True\n")

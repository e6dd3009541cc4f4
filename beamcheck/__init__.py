"""Checks reclaimed and sawn timber beams, posts, rafters and brackets, piece by piece, before they are covered up.

Quantities are text with a unit ('14 ft 6 in', '40 psf', '2.3 m') or pint quantities; inside they are plain floats in
inch, pound-force and psi. Every result has one of three verdicts: 'passes', 'fails', 'refer' (to a licensed engineer or
a grader). Importing the package loads nothing; each name is loaded when it is first used.

>>> import beamcheck
>>> job = beamcheck.Job(
...     job=beamcheck.About(title="Invented shed", standard="NDS 2018", loads="ASCE 7-16", invented=True),
...     stock=[beamcheck.Stock(name="joist stock", species="Hem-Fir", grade="No.2", size="2x10", moisture="dry",
...                            grade_from="stamp", evidence="invented: Hem-Fir No.2 S-DRY")],
...     existing=[beamcheck.Existing(name="wall", what="stone wall", material="masonry",
...                                  confirmed_by="invented letter of an engineer, 3 May 2025")],
...     beam=[beamcheck.Beam(
...         name="joist", stock="joist stock", service="floor", finish="none", top_held="full length",
...         supports=[beamcheck.Support(at=at, on="wall", bearing="4 in", restrained=True) for at in ("0 ft", "12 ft")],
...         carries=[beamcheck.Load(what="floor", dead="10 psf", live="40 psf", width="16 in", applied="top")],
...     )],
... )
>>> result = beamcheck.check_job(job)
>>> result.verdict, [piece.name for piece in result.pieces]
('passes', ['joist'])
>>> print(result.pieces[0].governing.what, beamcheck.show(result.pieces[0].governing.ratio, "ratio"))
bending 0.751
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

_WHERE = {
    "api": (
        "check_file", "check_text", "sheet_html", "sheet_pdf", "write_json", "write_pdf", "write_sheet",
        "write_shop", "write_template",
    ),
    "checks.core.asking.question": ("PlausibleAnswer", "Question"),
    "checks.core.result": ("CAUTION", "Check", "JobResult", "PieceResult", "SIGN_OFF"),
    "checks.job": ("check_job",),
    "errors": ("BeamcheckError", "JobError", "OutOfRange", "UnitError", "UnknownName"),
    "model.anchors.anchor": ("Anchor", "Fastener", "Holes", "Other", "Place", "Plate", "Rating"),
    "model.beams": ("Beam",),
    "model.brackets.shape": ("Pocket", "Point"),
    "model.brackets.shapes": ("Bent", "Braced", "Corbel", "Solid", "SteelCore"),
    "model.brackets.bracket": ("Bracket", "Cover", "Trim"),
    "model.existing": ("Existing",),
    "model.brackets.fixings": ("Fixings", "Row"),
    "model.anchors.girder": ("OnGirder",),
    "model.job": ("About", "Job"),
    "model.loads": ("Load",),
    "model.brackets.near": ("Closing", "Near"),
    "model.outlines.files": ("read_outline",),
    "model.posts": ("Post",),
    "model.reading.reader": ("job_from_data", "read_job", "read_job_text"),
    "model.reading.schema": ("job_schema",),
    "model.roofs": ("Rafter", "Tie"),
    "model.sticks": ("Cut", "Support"),
    "model.stock": ("GivenValues", "Stock"),
    "sheet.lists.csv_out": ("checks_csv", "hardware_csv"),
    "sheet.lists.xlsx_out": ("result_xlsx",),
    "sheet.recheck.compare": ("compare_files",),
    "sheet.recheck.difference": ("Comparison", "Difference"),
    "sheet.recheck.recheck": ("recheck",),
    "sheet.notebook": ("Drawings", "drawings"),
    "sheet.record.as_json": ("result_json", "result_schema"),
    "sheet.terminal.everything": ("plain_text",),
    "single": (
        "SingleValue", "SolvedBeam", "design_value", "group_action_factor", "lateral_value", "solved_beam",
        "withdrawal_value",
    ),
    "analysis.trusses.both_ends": ("StickForces",),
    "single_frames": ("SolvedFrame", "solved_frame", "solved_free_frame"),
    "single_joints": ("StepJoint", "TurnedGroup", "peg_distances", "peg_value", "step_joint", "turned_group"),
    "single_wood": (
        "char_depth", "equilibrium_moisture", "exclusion_value", "fire_value", "indicated_stress", "knot_ratio",
        "movement", "residual_section", "slope_ratio",
    ),
    "single_field": ("BracketField", "FieldCase", "bracket_field"),
    "sizing.anchors": ("Proposal", "fasteners_for"),
    "sizing.brackets": ("Sized", "size_bracket"),
    "sizing.joints": ("JointProposal", "bolts_for"),
    "sizing.simple_beam": ("Member", "member"),
    "sizing.sizing": ("largest_load", "longest_span", "smallest_size"),
    "sizing.span": ("longest_span_of", "span_question"),
    "sizing.span_tables": ("SpanTable", "span_table"),
    "units": ("show", "to_pint"),
}  # fmt: skip
_MODULE_OF = {name: module for module, names in _WHERE.items() for name in names}

__all__ = [
    "CAUTION", "SIGN_OFF", "About", "Anchor", "Beam", "BeamcheckError", "Bent", "Braced", "Bracket", "BracketField",
    "Check", "Closing", "Comparison", "Corbel", "Cover", "Cut", "Difference", "Drawings", "Existing", "Fastener",
    "FieldCase", "Fixings", "GivenValues", "Holes", "Job", "JobError", "JobResult", "JointProposal", "Load", "Member",
    "Near", "OnGirder", "Other", "OutOfRange", "PieceResult", "Place", "Plate", "PlausibleAnswer", "Pocket", "Point",
    "Post", "Proposal", "Question", "Rafter", "Rating", "Row", "SingleValue", "Sized", "Solid", "SolvedBeam",
    "SolvedFrame", "SpanTable", "SteelCore", "StepJoint", "StickForces", "Stock", "Support", "Tie", "Trim",
    "TurnedGroup", "UnitError", "UnknownName", "__version__", "bolts_for", "bracket_field", "char_depth", "check_file",
    "check_job", "check_text", "checks_csv", "compare_files", "design_value", "drawings", "equilibrium_moisture",
    "exclusion_value", "fasteners_for", "fire_value", "group_action_factor", "hardware_csv", "indicated_stress",
    "job_from_data", "job_schema", "knot_ratio", "largest_load", "lateral_value", "longest_span", "longest_span_of",
    "member", "movement", "peg_distances", "peg_value", "plain_text", "read_job", "read_job_text", "read_outline",
    "recheck", "residual_section", "result_json", "result_schema", "result_xlsx", "sheet_html", "sheet_pdf", "show",
    "size_bracket", "slope_ratio", "smallest_size", "solved_beam", "solved_frame", "solved_free_frame",
    "span_question", "span_table", "step_joint", "to_pint", "turned_group", "withdrawal_value", "write_json",
    "write_pdf", "write_sheet", "write_shop", "write_template",
]  # fmt: skip


def __getattr__(name: str) -> Any:
    if name == "__version__":
        from .version import VERSION

        return VERSION
    if name not in _MODULE_OF:
        raise AttributeError(f"module 'beamcheck' has no attribute {name!r}")
    from importlib import import_module

    value = getattr(import_module(f".{_MODULE_OF[name]}", __name__), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})


if TYPE_CHECKING:  # the same names for type checkers, which do not run __getattr__
    from .analysis.trusses.both_ends import StickForces
    from .api import (
        check_file,
        check_text,
        sheet_html,
        sheet_pdf,
        write_json,
        write_pdf,
        write_sheet,
        write_shop,
        write_template,
    )
    from .checks.core.asking.question import PlausibleAnswer, Question
    from .checks.core.result import CAUTION, SIGN_OFF, Check, JobResult, PieceResult
    from .checks.job import check_job
    from .errors import BeamcheckError, JobError, OutOfRange, UnitError, UnknownName
    from .model.anchors.anchor import Anchor, Fastener, Holes, Other, Place, Plate, Rating
    from .model.anchors.girder import OnGirder
    from .model.beams import Beam
    from .model.brackets.bracket import Bracket, Cover, Trim
    from .model.brackets.fixings import Fixings, Row
    from .model.brackets.near import Closing, Near
    from .model.brackets.shape import Pocket, Point
    from .model.brackets.shapes import Bent, Braced, Corbel, Solid, SteelCore
    from .model.existing import Existing
    from .model.job import About, Job
    from .model.loads import Load
    from .model.outlines.files import read_outline
    from .model.posts import Post
    from .model.reading.reader import job_from_data, read_job, read_job_text
    from .model.reading.schema import job_schema
    from .model.roofs import Rafter, Tie
    from .model.sticks import Cut, Support
    from .model.stock import GivenValues, Stock
    from .sheet.lists.csv_out import checks_csv, hardware_csv
    from .sheet.lists.xlsx_out import result_xlsx
    from .sheet.notebook import Drawings, drawings
    from .sheet.recheck.compare import compare_files
    from .sheet.recheck.difference import Comparison, Difference
    from .sheet.recheck.recheck import recheck
    from .sheet.record.as_json import result_json, result_schema
    from .sheet.terminal.everything import plain_text
    from .single import (
        SingleValue,
        SolvedBeam,
        design_value,
        group_action_factor,
        lateral_value,
        solved_beam,
        withdrawal_value,
    )
    from .single_field import BracketField, FieldCase, bracket_field
    from .single_frames import SolvedFrame, solved_frame, solved_free_frame
    from .single_joints import StepJoint, TurnedGroup, peg_distances, peg_value, step_joint, turned_group
    from .single_wood import (
        char_depth,
        equilibrium_moisture,
        exclusion_value,
        fire_value,
        indicated_stress,
        knot_ratio,
        movement,
        residual_section,
        slope_ratio,
    )
    from .sizing.anchors import Proposal, fasteners_for
    from .sizing.brackets import Sized, size_bracket
    from .sizing.joints import JointProposal, bolts_for
    from .sizing.simple_beam import Member, member
    from .sizing.sizing import largest_load, longest_span, smallest_size
    from .sizing.span import longest_span_of, span_question
    from .sizing.span_tables import SpanTable, span_table
    from .units import show, to_pint

"""A joint as a piece of the job: its checks by its kind, its inputs, forces, hardware and what to see."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ...errors import BeamcheckError, OutOfRange
from ...model.fields.base import Piece
from ...model.fields.bounds import BOUNDS
from ...model.joints.joint import Joint
from ...units import show
from ..core.asking.question import ask
from ..core.context import Context
from ..core.draft import Draft
from ..core.result import DISTANCES, Check, PieceResult
from ..core.tables import Columns, forces_table
from ..core.trivial import negligible
from ..core.wood.govern import writing
from ..core.wood.material import is_unknown
from .kinds.registry import kind_of
from .meeting import Meeting, stated_meeting
from .picture import joint_picture

BESIDE = "Each action has one path: a seat, fasteners, pegs and straps are not added to each other."

SAID = {
    "step: depth": "notch, depth",
    "step: behind": "wood behind the notch",
    "step: face": "face of the notch",
    "step: contact": "bears on that face",
    "step: checked": "checks behind it",
    "step: reaction_off": "support off the foot",
    "step: metal": "metal between the faces",
    "step: wide": "left wide at the notch",
    "step: wide_from": "cut from",
    "strap: from_end": "strap from the end",
    "row: along": "length of ledger",
    "row: spacing": "from one place of fasteners to the next",
    "row: joists": "from joist to joist",
    "row: behind": "lies against",
    "cap: plate": "plate of the cap, thick",
    "cap: bears_long": "plate along the beam",
    "cap: bears_wide": "plate across it",
    "cap: beyond": "plate beyond the post",
    "base: plate": "plate under the wood, thick",
    "base: bears_wide": "plate one way",
    "base: bears_long": "plate the other way",
    "base: stands_off": "wood above what is under it",
    "base: over": "under it",
    "base: stem": "what holds the plate up",
    "base: stem_width": "bar, wide",
    "base: stem_thickness": "bar, thick",
    "base: sideways": "level force at the foot",
    "base, rods: count": "rods",
    "base, rods: diameter": "rods, thick",
    "base, rods: hole": "their holes",
    "base, rods: plate": "plate that they go through, thick",
    "base, rods: along": "that plate along them",
    "base, rods: off": "rod to what stands on the plate",
    "base, rods: edge": "rod outward to the edge",
    "base, rods: takes": "one bears, pulled",
    "base, rods: sideways": "one bears, sideways",
    "base, rods: takes_by": "as says",
    "base, rods: on": "that plate lies on",
    "base, rods: stock": "its wood",
    "screws: count": "screws in all",
    "screws: angle": "screws to the faces",
    "screws: crossed": "leaning both ways",
}
_KINDS = {"lbf": "force", "deg": "angle"}  # of what a bound has as its unit; all else is a length
BISECTOR = "halves the angle between the two"


def stated_result(joint: Joint, context: Context) -> PieceResult:
    """A joint whose members carry their forces in the job file."""
    try:
        meeting = stated_meeting(joint, context)
    except BeamcheckError as error:
        return not_worked_out(joint, error)
    return joint_result(meeting)


def joint_result(meeting: Meeting) -> PieceResult:
    """A joint with its forces, checked."""
    joint, kind = meeting.joint, kind_of(meeting.joint)
    draft = Draft(joint.name, "joint", _title(joint))
    draft.inputs = list(_inputs(meeting))
    draft.assumptions = [BESIDE, *meeting.assumptions]
    draft.checks = [*meeting.doubts]
    if not meeting.combinations:
        return draft.done()
    try:
        draft.checks += [*round_checks(meeting), *(of_unknown_wood(check, meeting) for check in kind.checks(meeting))]
        draft.assumptions += kind.assumptions(meeting)
        draft.tables = [
            forces_table(meeting.combinations, _columns(meeting)),
            *kind.tables(meeting),
        ]
        draft.pictures = (joint_picture(meeting),) if writing() and len(meeting.members) > 1 else ()
    except BeamcheckError as error:
        draft.outside(error)
        return draft.done()
    return replace(draft.done(), to_see=tuple(kind.to_see(meeting)), drawing=kind.drawing(meeting))


def round_checks(meeting: Meeting) -> list[Check]:
    """Rules for faces, edges and notches are those of sawn pieces with flat sides."""
    found = [one.name for one in meeting.members if one.section.round]
    if not found:
        return []
    text = f"round: {', '.join(found)}; the rules for faces and edges do not hold, an engineer must judge the joint"
    return [meeting.refers("joint.round", "round pieces", "NDS 2018 11.1", text, "joint_round")]


def of_unknown_wood(check: Check, meeting: Meeting) -> Check:
    """Figures of the weakest wood that it might be fail nothing: they wait for what it is."""
    unknown = {one.stock.name for one in meeting.members if is_unknown(one.stock)}
    if not unknown or check.verdict != "fails" or check.ratio is None or check.kind in DISTANCES:
        return check
    asked = (ask("grade", name, f"stock.{name}.grade") for name in sorted(unknown))
    return check.waits_for(*asked, note="of the weakest wood that it might be")


def _columns(meeting: Meeting) -> Columns:
    """What each member brings along it, and square to it where it brings any."""
    found: Columns = {}
    for one in meeting.members:
        found[f"{one.name}, pull"] = (one.N, "force")
        if float(np.max(np.abs(one.down), initial=0.0)) > negligible():
            found[f"{one.name}, square to it"] = (one.down, "force")
    return found


def not_worked_out(joint: Joint, why: str | BeamcheckError) -> PieceResult:
    """A joint whose forces or members are not known, or whose wood no rule here covers: it never passes."""
    draft, text = Draft(joint.name, "joint", _title(joint)), str(why)
    if isinstance(why, OutOfRange):
        draft.outside(why)
        return draft.done()
    asked = ask("joint_forces", joint.name, force="forces that are not known")
    draft.checks = [Check.refers("joint.forces", joint.name, "forces on the joint", "load path", text, ask=asked)]
    return draft.done()


def _title(joint: Joint) -> str:
    return f"{joint.kind}, {' with '.join(one.name for one in joint.members) or joint.post or joint.at}"


def _inputs(meeting: Meeting) -> Iterator[tuple[str, str]]:
    joint = meeting.joint
    yield "kind", joint.kind
    if joint.frame is not None:
        yield "where", f"{joint.at} of {joint.frame}"
    if joint.spliced:
        where = "" if joint.splice_at is None else f", {show(joint.splice_at, 'length')} from its first point"
        yield "splices", f"{joint.spliced}{where}"
    for one in meeting.members:
        part = f"{one.entry.part}: " if one.entry.part else ""
        size = f"{show(one.b, 'length')} x {show(one.d, 'length')}"
        yield one.name, f"{part}{size} {one.stock.species} {one.stock.grade}{', goes on' if one.passes else ''}"
    for words in ("step", "tenon", "strap", "base", "cap", "row", "screws"):
        if (part_ := getattr(joint, words)) is not None:
            yield from _of_part(words, part_)
    if joint.embedded is not None:
        yield "in the concrete", show(joint.embedded, "length")
    if joint.fastener is not None:
        yield "fastener", f"{joint.fastener.kind} {joint.fastener.size}"
    if joint.rating is not None:
        yield "rating from", joint.rating.source
    if joint.forces_by:
        yield "forces by", joint.forces_by


def _of_part(words: str, part: Piece) -> Iterator[tuple[str, str]]:
    """What is said of a cut or a steel part, each figure with its unit."""
    bounds = BOUNDS.get(type(part).__name__, {})
    for field in type(part).model_fields:
        value = getattr(part, field)
        name = f"{words}: {field}"
        if isinstance(value, Piece):
            yield from _of_part(f"{words}, {field}", value)
        elif value is not None and value not in ("", False) and not isinstance(value, tuple):
            kind = _KINDS.get(bounds[field].unit if field in bounds else "in", "length")
            text = "yes" if value is True else show(value, kind) if isinstance(value, float) else str(value)
            yield SAID.get(name, name.replace("_", " ")), BISECTOR if text == "bisector" else text

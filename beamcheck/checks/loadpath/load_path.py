"""The load path: what rests on what, the forces that go there, where the path ends, and what must not go that way."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import starmap

import numpy as np

from ...analysis.beams.load_cases import KINDS
from ...analysis.beams.member_loads import applied_loads, self_weight
from ...analysis.beams.solved_beam import BeamSupport, solve_beam
from ...calc.pad import SilentPad
from ...model.existing import Existing
from ...model.job import Job
from ...model.roofs import Rafter, Tie
from ...units import show
from ..core.context import AnyPiece, Context, Structure
from ..core.draft import Reactions, SupportForces
from ..core.pictures.beams import LoadPath, PathEdge, PathNode, PathTotal, Role
from ..core.result import PieceResult, Table
from ..core.seat import bears_nothing
from ..core.trivial import negligible
from .roles import OTHER_SIDE, Way, everything, faults_of, kind_of, role_of, ways_of, why_not
from .roof_totals import ROUNDING, tie_length
from .totals import Trace, standing_for, trace

HEADS = (
    "piece", "puts on", "by kind, unfactored", "largest", "least", "where the path ends", "roles",
)  # fmt: skip
NOTE = (
    "Down to the ground or to what is there already, by others. A rafter that is repeated stands for one of them; a "
    "ridge beam takes both sides of the roof."
)
TOTALS = "Load path: all loads at once"
TOTALS_NOTE = (
    "Every load of a combination stands everywhere at once, from the top of the house down; all that is applied, own "
    "weights included, has to arrive where the path ends. Of a row of repeated pieces as many are counted as come to "
    "the beam that gathers them; where they end on a wall or a post, one."
)
NAMED = 4  # pieces whose load is not counted
CONFIRMED, NOT_CONFIRMED, GROUND = "by others, confirmed", "by others, not confirmed", "ground"


def load_path(
    job: Job, structure: Structure, reactions: Sequence[Reactions], results: Sequence[PieceResult]
) -> tuple[LoadPath, Trace]:
    """The whole path for the drawing, and the trace of all loads at once.

    `reactions`: sequence of Reactions: of all pieces, in the order in which they were worked out. `results`: sequence
    of PieceResult: of the pieces and anchor groups.
    """
    pieces = everything(job)
    ways = ways_of(job, reactions)
    edges = [*_tie_edges(job, structure, reactions), *(edge for way in ways for edge in _edges(way))]
    edges += [edge for result in results for edge in _prop_edges(result, pieces)]
    verdicts = {result.name: result.verdict for result in results}
    used = dict.fromkeys(name for edge in edges for name in (edge.above, edge.below))
    members = job.members  # a frame is one step of the path
    names = dict.fromkeys([*(handed.name for handed in reactions if handed.name not in members), *used])
    nodes = tuple(_node(name, pieces.get(name), verdicts.get(name, "")) for name in names)
    followed = trace(structure, reactions)
    totals = tuple(starmap(PathTotal, followed.totals()))
    return LoadPath(nodes, tuple(edges), totals, uncounted(followed)), followed


def load_path_table(job: Job, reactions: Sequence[Reactions]) -> Table:
    """One row for each support of each piece."""
    pieces = everything(job)
    rows = tuple(
        (way.above, _carrier(way), "" if way.row is None else _forces(way.row), *_range(way.row),
         _end(way.below, pieces.get(way.below)), way.wrong or _roles(pieces[way.above], pieces.get(way.below)))
        for way in ways_of(job, reactions)
    )  # fmt: skip
    return Table("Load path", HEADS, rows, NOTE)


def uncounted(followed: Trace) -> str:
    """Of which pieces the load is not counted in what; '' unless that is all by which less arrives."""
    lost = defaultdict[str, float](float)
    for step in followed.left:
        for kind, force in step.force.items():
            lost[kind] += force
    size = sum(map(abs, followed.applied.values()))
    for kind in {*followed.applied, *followed.arriving}:
        missing = followed.applied.get(kind, 0.0) - followed.arriving.get(kind, 0.0)
        if abs(missing - lost[kind]) > ROUNDING * size:
            return ""
    load = "dead load" if all(kind == "D" or not force for kind, force in lost.items()) else "load"
    told = []
    for below in dict.fromkeys(step.below for step in followed.left):
        names = list(dict.fromkeys(step.above for step in followed.left if step.below == below))
        shown = names if len(names) <= NAMED else [*names[: NAMED - 1], f"{len(names) - NAMED + 1} more pieces"]
        told.append(f"the {load} of {' and '.join(shown)}, held at no point of {below}, is not counted there")
    return "; ".join(told)


def totals_table(followed: Trace) -> Table:
    """What is applied and what arrives, by combination; no rows, and why, where the path could not be followed."""
    if followed.missing:
        return Table(TOTALS, ("combination", "applied", "arrives"), (), f"Not worked out: {followed.missing}.")
    rows = tuple(
        (name, show(applied, "force"), show(arriving, "force")) for name, applied, arriving in followed.totals()
    )
    why = uncounted(followed)
    note = f"{TOTALS_NOTE} Less arrives here: {why}." if why else TOTALS_NOTE
    return Table(TOTALS, ("combination", "applied", "arrives"), rows, note)


def _edges(way: Way) -> list[PathEdge]:
    """One edge, or two where an anchor group lies between."""
    largest, least = (math.nan, math.nan) if way.row is None else (way.row.largest, way.row.least)
    if not way.through:
        return [PathEdge(way.above, way.below, largest, least, way.wrong)]
    return [
        PathEdge(way.above, way.through, largest, least),
        PathEdge(way.through, way.below, largest, least, way.wrong),
    ]


def _prop_edges(result: PieceResult, pieces: Mapping[str, AnyPiece]) -> Iterator[PathEdge]:
    """What a beam puts on a bracket on which it comes down: no support of the beam, and nothing is taken off there."""
    if not result.pictures:
        return
    from ..core.pictures.others import GapPicture

    for picture in result.pictures:
        if isinstance(picture, GapPicture) and picture.force > negligible() and picture.beam in pieces:
            bracket = pieces[result.name]
            why = why_not(bracket) or "which is no support of it"
            text = f"{show(picture.force, 'force')} of beam {picture.beam} comes down on bracket {result.name}, {why}"
            text = text if picture.gap is not None else f"where the gap is closed, which is not known, {text}"
            yield PathEdge(picture.beam, result.name, picture.force, 0.0, text)


def _tie_edges(job: Job, structure: Structure, reactions: Sequence[Reactions]) -> list[PathEdge]:
    """What each tie puts on one of its rafters: it hangs between them by hinges, so that statics alone decides."""
    ties = {tie.name: tie for tie in job.tie}
    worked_out = {handed.name for handed in reactions if handed.rows}
    wrong = {frozenset(name for name, _ in fault.blamed): fault.text for fault in faults_of(job, ())}
    found = []
    for rafter in job.rafter:
        tie = ties.get(rafter.tie or "")
        if tie is None:
            continue
        forces = _tie_forces(rafter, tie, structure) if rafter.name in worked_out else (math.nan, math.nan)
        found.append(PathEdge(tie.name, rafter.name, *forces, wrong.get(frozenset((tie.name, rafter.name)), "")))
    return found


def _tie_forces(rafter: Rafter, tie: Tie, structure: Structure) -> tuple[float, float]:
    """Largest and least upright force at the left end of a tie over all combinations, lbf."""
    length = tie_length(rafter, tie)
    entries = [load.model_copy(update={"width": load.width or rafter.spacing}) for load in tie.carries]
    from ..roofs.framed_stick import framed

    stick = framed(tie, standing_for(structure.stocks[tie.stock], tie.laid), Context(structure))
    weight = self_weight(float(stick.wood.density), float(stick.section.area(SilentPad())), length)
    held = [BeamSupport(0.0), BeamSupport(length)]
    straight = solve_beam(
        length, held, [*applied_loads(entries, length), weight], depth=float(stick.section.d),
        EI=stick.stiff.EI, GA_s=stick.stiff.GA_s,
    )  # fmt: skip
    up = straight.reactions(0)
    return float(np.max(up)), float(np.min(up))


def _node(name: str, piece: AnyPiece | None, verdict: str) -> PathNode:
    if piece is None:
        kind = "anchor" if name != OTHER_SIDE else "existing"
        return PathNode(name, kind, "carries", verdict, "" if name != OTHER_SIDE else NOT_CONFIRMED)
    role: Role = role_of(piece)
    return PathNode(name, kind_of(piece), role, verdict, _ending(piece))


def _ending(piece: AnyPiece) -> str:
    if not isinstance(piece, Existing):
        return ""
    if bears_nothing(piece) or not piece.confirmed:
        return NOT_CONFIRMED
    return GROUND if piece.material == "ground" else CONFIRMED


def _carrier(way: Way) -> str:
    on = way.below or "the opposite wall"
    on = f"{on}, by {way.through}" if way.through else on
    return f"{on}, every {show(way.row.spacing, 'length')}" if way.row is not None and way.row.spacing else on


def _range(row: SupportForces | None) -> tuple[str, str]:
    if row is None:
        return "not worked out", "not worked out"
    return show(row.largest, "force"), show(row.least, "force")


def _forces(row: SupportForces) -> str:
    """'D 120 lb, S 340 lb (up to 20 lb upwards)'."""
    said = []
    for kind in KINDS:
        if kind in row.by_kind:
            high, low = row.by_kind[kind]
            upwards = f" (up to {show(-low, 'force')} upwards)" if low < 0 and kind != "D" else ""
            said.append(f"{kind} {show(high, 'force')}{upwards}")
    return ", ".join(said)


def _end(name: str, under: AnyPiece | None) -> str:
    if not isinstance(under, Existing):
        return "goes on" if name else "not named: nobody answers for it"
    if bears_nothing(under):
        return f"in {under.material}, which carries nothing"
    if under.confirmed:
        return f"by others, confirmed: {under.confirmed_by}"
    return "by others, not confirmed"


def _roles(above: AnyPiece, below: AnyPiece | None) -> str:
    """The declared roles, where one of them is not that of a piece that carries."""
    named = [piece for piece in (above, below) if piece is not None and role_of(piece) != "carries"]
    return ", ".join(f"{piece.name} is declared {role_of(piece)}" for piece in named)

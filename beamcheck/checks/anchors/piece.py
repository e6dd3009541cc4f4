"""An anchor group as a piece of the job: every check that belongs to its manner, its inputs, tables and drawing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from ...analysis.frames.roof_frame import RoofRun
from ...errors import BeamcheckError
from ...model.anchors import Anchor
from ...model.pieces import Beam, Existing, Post, Rafter, Stock, Support, Tie
from ...model.rules import beam_length
from ...units import show
from ..beams.beam import BeamRun, doubts, section_of
from ..core.context import Context
from ..core.draft import Draft
from ..core.govern import stated
from ..core.material import WoodMaterial, is_unknown, reference_values, rows_to_screen, wood_of
from ..core.result import Check, PieceResult, Table, Verdict
from ..core.seat import answered
from ..core.tables import forces_table
from .axial import axial_checks
from .contradictions import sense_checks
from .cuts import hole_of
from .geometry import geometry_checks
from .group import Forces, Group, group_of_beam, hole_places
from .hung import force_words, nothing_checks, others_checks, parts_of, rated_checks, rod_checks, seat_takes
from .lateral import lateral_checks
from .outputs import anchor_tables, hole_drawing, inspection
from .pull import pull_of, stands_off_checks
from .steel import PLATED, SCREW_STEEL, steel_checks
from .tear_out import tear_out_checks
from .wood import weak_wood
from .words import anchor_inputs

FASTENED = (
    "wood side", "plate one side", "plates both sides", "concealed plate", "ledger", "let-in angle", "toe-nails",
)  # fmt: skip
BARE = ("rated hardware", "by others", "holds nothing")  # no wood of theirs is checked here
SAME_LINE = 1.0  # in: so far the line of the support and that of the arm may lie apart
NEAR = 12.0  # in: a hole entered as a cut of the other piece within this distance is that of the group
LITTLE = 0.5  # lbf
RANK: dict[Verdict, int] = {"passes": 0, "refer": 1, "fails": 2}
NOT_ADDED = (
    "A seat and a group of fasteners are not added: the group is checked for all of the reaction, for it may come to "
    "carry all of it when the wood shrinks off its seat."
)
ONE_SIDED = ("wood side", "plate one side")
IN_LINE = (
    "The members stay side by side: what turns such a lap over out of its plane, as a seat in front of it does, is "
    "not counted here. A piece that others sit on is a ledger."
)
IN_THE_SEAT = "What presses down is left to the seat, which the held piece is checked for; what lifts comes here."


def anchor_result(
    group: Group, context: Context, *, support: Support | None = None, length: float | None = None
) -> PieceResult:
    """Check one anchor group.

    Parameters
    ----------
    support : Support or None
        The support that it holds; None for the end of a tie.
    length : float or None
        Of the held piece, inches, where the line of the support is to be compared with the layout.
    """
    anchor = group.anchor
    bare = anchor.manner in BARE
    rests = support is not None and support.holds == "rests"
    forces = seat_takes(group.forces) if rests and bare else group.forces
    group = replace(group, forces=forces, wood=weak_wood(group.stock, group.wood))
    context.structure.groups.setdefault(anchor.name, []).append(group)
    draft = Draft(anchor.name, "anchor", f"{anchor.manner}, {group.end} end of {group.piece}")
    draft.inputs = anchor_inputs(group)
    if rests:
        draft.assumptions.append(IN_THE_SEAT if bare else NOT_ADDED)
    draft.assumptions += _passed_on(group)
    if anchor.manner in ONE_SIDED:
        draft.assumptions.append(IN_LINE)
    try:
        draft.checks = _checks(group, context, support, length)
        draft.tables = [*_tables(group), *anchor_tables(group)]
    except BeamcheckError as error:
        draft.outside(error)
    fastener = anchor.fastener
    if anchor.manner in FASTENED and fastener is not None and fastener.kind in ("lag screw", "wood screw", "nail"):
        draft.assumptions.append(SCREW_STEEL)
    done = draft.done()
    drawn = not bare and bool(done.tables)
    return replace(
        done, to_see=inspection(group), drawing=hole_drawing(group, _governing(group, done.checks)) if drawn else None
    )


def _checks(group: Group, context: Context, support: Support | None, length: float | None) -> list[Check]:
    anchor = group.anchor
    if anchor.manner == "rated hardware":
        return [*rated_checks(group), *sense_checks(group), *_behind(group)]
    if anchor.manner == "by others":
        return others_checks(anchor, group.forces)
    if anchor.manner == "holds nothing":
        return nothing_checks(anchor, group.forces)
    found = [*_of_the_wood(group)]
    if anchor.manner == "hanger rod":
        lands_at = support.lands_at if support is not None else None
        return [
            *rod_checks(group, context, lands_at), *sense_checks(group), *found, *_behind(group),
            *_line_of_support(group, support, length),
        ]  # fmt: skip
    pull = pull_of(group)
    each = np.zeros(len(group.forces.combinations)) if pull is None else pull.each.max(axis=0)
    return [
        *lateral_checks(group), *geometry_checks(group), *tear_out_checks(group), *axial_checks(group, each),
        *stands_off_checks(group), *steel_checks(group), *sense_checks(group), *found, *_behind(group),
        *_line_of_support(group, support, length), *_holes_behind(group, support),
    ]  # fmt: skip


def _passed_on(group: Group) -> Iterator[str]:
    """What the far side has to take: of a plate a moment beside the force."""
    words = force_words(group.forces)
    if group.anchor.manner not in PLATED or group.x.size == 0:
        if group.anchor.manner == "hanger rod":
            yield "The rod goes through both pieces, with a nut and washer on the top of the one and under the other."
        return
    e = max(abs(group.anchor.arm or 0.0), float(np.mean(group.x)))
    M = float(np.max(np.abs(group.forces.across), initial=0.0)) * e
    yield (
        f"The plate is taken to be held at the end of {group.piece} or at the end of `arm`. What it is fixed to must "
        f"take {words} there, with a moment of up to {show(M, 'moment')}: whoever answers for that must know it."
    )


def _of_the_wood(group: Group) -> Iterator[Check]:
    if is_unknown(group.stock):
        text = "a grader or engineer must say what it is; figures here are of the weakest wood that it might be"
        yield stated(group.anchor.name, f"wood of {group.piece} not known", "NDS 2018 4.1", "refer", text)
    else:
        yield from doubts(group.anchor.name, group.wood)
    if group.into_wood is not None and group.into_stock is not None and not is_unknown(group.into_stock):
        yield from doubts(group.anchor.name, group.into_wood)


def _behind(group: Group) -> Iterator[Check]:
    """What the group is fastened to, and who answers for the rest of the way."""
    anchor, into = group.anchor, group.into
    name, clause = anchor.name, "load path"
    if into is None:
        text = "what it is fastened to is not known here"
        yield stated(name, "what it is fastened to", clause, "refer", text)
        return
    if anchor.into is not None and anchor.into != into.name:
        text = f"it is said to be fastened to {anchor.into}, but the end that it holds is carried by {into.name}"
        yield stated(name, "what it is fastened to", clause, "refer", text)
    if isinstance(into, Existing):
        yield answered(name, f"what {name} is fastened to", into)
    if anchor.manner not in PLATED:
        return
    what = "the steel beyond the held piece"
    plate = anchor.plate
    if plate is None or plate.weld is None:
        text = (
            f"how it is fixed to {into.name} (weld, base plate, the fasteners there) is not described and not checked"
        )
        yield stated(name, what, clause, "refer", text)
    elif not isinstance(into, Existing):
        text = f"the weld is checked; the steel that it is welded to, and the fastening of that to {into.name}, are not"
        yield stated(name, what, clause, "refer", text)


def _line_of_support(group: Group, support: Support | None, length: float | None) -> Iterator[Check]:
    """The beam was worked out with its support in one line, the group with its arm from another: they must be one."""
    anchor = group.anchor
    if support is None or length is None or group.x.size == 0:
        return
    from_end = support.at if group.end == "left" else length - support.at
    arm = 0.0 if anchor.manner in ("ledger", "toe-nails", "hanger rod") else anchor.arm
    if arm is None:
        return  # the fasteners refer already
    line = float(np.mean(group.x)) - arm
    if abs(line - from_end) > SAME_LINE:
        text = (
            f"by layout and arm the load is taken {_from_end(line)}, but the support of {group.piece} is "
            f"{_from_end(from_end)}: one of them is not right"
        )
        yield stated(anchor.name, "line of the support", "statics", "refer", text)


def _from_end(x: float) -> str:
    return f"{show(abs(x), 'length')} {'beyond' if x < 0.0 else 'from'} its end"


def _holes_behind(group: Group, support: Support | None) -> Iterator[Check]:
    """Holes bored into another piece of the job weaken that; they count there only once they are entered as cuts."""
    into, fastener = group.into, group.anchor.fastener
    if group.anchor.other is None or fastener is None or not isinstance(into, Beam | Post | Rafter | Tie):
        return
    d_h, lands_at = hole_of(fastener), support.lands_at if support is not None else None
    if not d_h:
        return
    entered = lands_at is not None and any(cut.kind == "hole" and abs(cut.at - lands_at) <= NEAR for cut in into.cuts)
    if not entered:
        text = (
            f"they are not taken off {into.name}: enter each as a cut of it (hole, {show(d_h, 'length')}), so that its "
            "own checks count them"
        )
        yield stated(group.anchor.name, f"holes in {into.name}", "NDS 2018 3.1.2", "refer", text)


def _tables(group: Group) -> list[Table]:
    parts = parts_of(group.forces)
    words = {"down": "down", "up": "up", "along": "out of the joint", "pressing": "into the joint"}
    columns = {
        text: (parts[key], "force") for key, text in words.items()
        if key in ("down", "up") or float(np.max(parts[key])) > LITTLE
    }  # fmt: skip
    return [forces_table(group.forces.combinations, columns)]


def _governing(group: Group, checks: Sequence[Check]) -> int | None:
    """The fastener that the check with the largest ratio names."""
    places = {group.name_of(k): k for k in range(group.x.size)}
    named = [check for check in checks if check.where in places and check.ratio is not None]
    return places[max(named, key=lambda check: check.ratio or 0.0).where] if named else None


# ---- from the pieces that are held to their groups ----------------------------------------------------------------


def anchors_of_beam(beam: Beam, run: BeamRun | None, context: Context) -> list[PieceResult]:
    """The groups at the supports of a beam; of a beam that could not be worked out each says so."""
    found = []
    for index, support in enumerate(beam.supports):
        anchor = context.anchor(support.held_by)
        if anchor is None:
            continue
        if run is None:
            text = f"{beam.name} could not be worked out, so the forces on it are not known"
            found.append(not_worked_out(anchor, f"support {index + 1} of {beam.name}", text))
            continue
        try:
            group = group_of_beam(anchor, beam, run, index, context, _other(anchor, context))
        except BeamcheckError as error:
            found.append(not_worked_out(anchor, f"support {index + 1} of {beam.name}", str(error)))
            continue
        result = anchor_result(group, context, support=support, length=beam_length(beam))
        if support.holds == "fixed":
            text = "the end cannot turn: the moment that holds it so is not brought to the group"
            moment = stated(anchor.name, "moment of a fixed end", "load path", "refer", text)
            result = with_checks(result, moment)
        found.append(result)
    return found


def anchors_of_tie(tie: Tie, rafter: Rafter, run: RoofRun | None, context: Context) -> list[PieceResult]:
    """The group at each end of a tie; the worse of the two ends."""
    anchor = context.anchor(tie.ends_held_by)
    if anchor is None:
        return []
    if run is None:
        text = f"{tie.name} could not be worked out, so the forces on it are not known"
        return [not_worked_out(anchor, f"ends of {tie.name}", text)]
    stock, line = context.stock(tie.stock), run.tie_line
    length, results = float(line.length), []
    try:
        x, y = hole_places(anchor.holes)
        other = _other(anchor, context)
        wood = wood_of(stock, rows_to_screen(stock)[0] if is_unknown(stock) else reference_values(stock), laid=tie.laid)
    except BeamcheckError as error:
        return [not_worked_out(anchor, f"ends of {tie.name}", str(error))]
    section = section_of(context.size(tie.stock), tie.laid, tie.plies)
    left = Forces(run.combinations, line.at("V", 0.0, "right"), line.at("N", 0.0, "right"))
    right = Forces(run.combinations, -line.at("V", length, "left"), line.at("N", length, "left"))
    for end, place, forces in (("left", 0.0, left), ("right", length, right)):
        group = Group(anchor, tie.name, end, place, stock, wood, section, rafter, *other, forces, x, y)
        results.append(anchor_result(group, context))
    return [worst_result(results)]


def wall_anchor(rafter: Rafter, context: Context) -> list[PieceResult]:
    """A rafter's foot: its forces are not brought to a group here."""
    anchor = context.anchor(rafter.wall.held_by)
    if anchor is None:
        return []
    text = f"the forces at the foot of {rafter.name} are aslant and are not brought to a group here: an engineer"
    return [not_worked_out(anchor, f"foot of {rafter.name}", text)]


def not_worked_out(anchor: Anchor, where: str, text: str) -> PieceResult:
    """A group whose forces or layout are not known: it never passes."""
    draft = Draft(anchor.name, "anchor", f"{anchor.manner}, {where}")
    draft.checks = [stated(anchor.name, "forces and layout", "load path", "refer", text)]
    return draft.done()


def held_by_nobody(anchor: Anchor) -> PieceResult:
    """A group that no piece names, as that of a tie that no rafter names."""
    return not_worked_out(anchor, "holds nothing in this job", "no piece that was worked out is held by it")


def worst_result(results: Sequence[PieceResult]) -> PieceResult:
    """Of one group that holds several ends the worst, with a word on the others."""
    if len(results) == 1:
        return results[0]

    def bad(result: PieceResult) -> tuple[int, list[float]]:
        ratios = (check.ratio for check in result.checks if check.ratio is not None)
        return RANK[result.verdict], sorted((np.inf if np.isnan(one) else one for one in ratios), reverse=True)

    worst = max(results, key=bad)
    note = f"It holds {len(results)} ends, each checked by itself; this is the worst: {worst.title}."
    return replace(worst, assumptions=(note, *worst.assumptions))


def with_checks(result: PieceResult, *more: Check) -> PieceResult:
    """The same result with checks added, and its verdict made again."""
    draft = Draft(result.name, result.kind, result.title, checks=[*result.checks, *more])
    return replace(result, checks=draft.done().checks, verdict=draft.done().verdict)


def _other(anchor: Anchor, context: Context) -> tuple[Stock | None, WoodMaterial | None]:
    """The wood of the member on the other side, when it is wood of the job."""
    if anchor.other is None or anchor.other.stock is None or anchor.other.stock not in context.structure.stocks:
        return None, None
    stock = context.stock(anchor.other.stock)
    return stock, None if is_unknown(stock) else wood_of(stock, reference_values(stock))

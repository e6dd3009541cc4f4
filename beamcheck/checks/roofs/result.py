"""From the checks of a rafter and its tie to their results, and what the rafter hands to walls and ridge."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

import numpy as np

from ...analysis.beams.member_loads import TransferredLoad
from ...analysis.roofs.roof_frame import RoofRun
from ...calc.pad import Pad
from ...errors import BeamcheckError, Unstable
from ...model.fields.said import shares_load
from ...model.posts import Post
from ...model.roofs import Rafter, Tie, UpperEnd
from ...model.sticks import Support
from ...model.stock import Stock
from ...units import show
from ...values.lumber import DesignValues
from ..anchors.results import anchors_of_rafter, anchors_of_tie
from ..beams.beam import section_of
from ..beams.record.figure import roof_figure
from ..beams.record.statics import stations
from ..core.asking.question import ask
from ..core.context import Context
from ..core.draft import GENERAL, SHEAR_SAG, Draft, Reactions, SupportForces, unknown_below
from ..core.pictures.beams import SupportMark
from ..core.result import Check, PieceResult
from ..core.screening import screen, screening_woods
from ..core.statics import BY_FRAME, Statics
from ..core.tables import line_forces_table, roof_loads_table
from ..core.understood import rafter_inputs, stick_inputs, stick_words, stock_inputs, tie_inputs
from ..core.unsaid import unsaid_of, with_unsaid
from ..core.wood.govern import drawing, writing
from ..core.wood.material import Sharing, WoodMaterial, is_unknown, modulus_prime, reference_values, wood_of
from .picture import rafter_picture
from .roof import Roof

Make = Callable[[DesignValues], WoodMaterial]
Tied = tuple[Tie, Draft]
FRAME = (
    "The frame is one pair with hinges at the ridge, the walls and the ends of the tie; the opposite rafter is its "
    "mirror image and carries the same."
)
SQUARE = "Deflection is measured square to the slope, between wall and ridge; that of the tail is not checked."
PUSH = "The sideways push of the wind on the roof is not followed into the walls."
OF_THE_FRAME = "Solved by the frame analysis of the roof. Envelopes over all combinations at the places that matter."
BOTH_SIDES = (
    "The ridge beam is given both sides of the roof: should the other side be a piece of its own here, neither of "
    "them is a pair."
)


def roof_results(rafter: Rafter, context: Context) -> list[tuple[PieceResult, Reactions]]:
    """Check a rafter and its tie, which are one frame."""
    stock = context.stock(rafter.stock)
    named = context.under(rafter.tie) if rafter.tie else None
    tie = named if isinstance(named, Tie) else None
    draft = Draft(rafter.name, "rafter", f"{stick_words(rafter, stock)} rafter, run {show(rafter.run, 'length')}")
    draft.inputs = [*stock_inputs(stock), *stick_inputs(rafter), *rafter_inputs(rafter)]
    draft.assumptions = [FRAME if rafter.ridge == "board" else PUSH, SQUARE, SHEAR_SAG, *GENERAL]
    tied = None if tie is None else (tie, _of_tie(tie, context))
    try:
        run = _checked(rafter, tied, draft, context)
    except Unstable as error:
        run = None
        draft.checks = [Check.breaks_rule("roof.stands", rafter.name, "stands still", "statics", str(error))]
    except BeamcheckError as error:
        run = None
        for one in (draft,) if tied is None else (draft, tied[1]):
            one.outside(error)
    if run is None:
        missing = unknown_below(rafter.name, [rafter.wall.on, rafter.ridge_on or rafter.other_wall])
        found = [
            (
                draft.done(),
                replace(missing, anchors=_anchors(rafter, run, context)),
            )
        ]
        if tied is not None:
            found.append(_done(tied, rafter, run, context))
        return found
    if drawing():
        _show_rafter(draft, run, tie, context)
    reactions = _rafter_reactions(run, context)
    if rafter.ridge_on is not None and rafter.pair:
        draft.assumptions.append(BOTH_SIDES)
    found = [
        (
            draft.done(),
            replace(reactions, anchors=_anchors(rafter, run, context)),
        )
    ]
    if tied is not None:
        if drawing():
            _show_tie(tied, run, context)
        found.append(_done(tied, rafter, run, context))
    return found


def _of_tie(tie: Tie, context: Context) -> Draft:
    """The result of a tie before it is checked."""
    stock = context.stock(tie.stock)
    draft = Draft(tie.name, "tie", f"{stick_words(tie, stock)} tie")
    draft.inputs = [*stock_inputs(stock), *stick_inputs(tie), *tie_inputs(tie)]
    draft.assumptions = [FRAME, SHEAR_SAG, *GENERAL]
    return draft


def _done(tied: Tied, rafter: Rafter, run: RoofRun | None, context: Context) -> tuple[PieceResult, Reactions]:
    tie, draft = tied
    return draft.done(), Reactions(tie.name, anchors=tuple(anchors_of_tie(tie, rafter, run, context)))


def _anchors(rafter: Rafter, run: RoofRun | None, context: Context) -> tuple[PieceResult, ...]:
    """The groups that hold its foot and its upper end."""
    return tuple(anchors_of_rafter(rafter, run, context, ridge=rafter.upper_held_by))


def _checked(rafter: Rafter, tied: Tied | None, draft: Draft, context: Context) -> RoofRun | None:
    """Check the sticks; of each whose wood is not known, everything that it might be.

    The frame is determinate, so the forces in one stick do not depend on what the other is made of, its weight apart;
    and that is the one of the heaviest candidate.
    """
    stock = context.stock(rafter.stock)
    sharing = Sharing(rafter.members, rafter.spacing, shares_load(rafter.shared_by))
    make = partial(_wood, stock, rafter.laid, sharing)
    wood = _standing_for(stock, make)
    if tied is None:
        roof = Roof(rafter, wood, None, None, context)
        _fill(draft, rafter, stock, make, wood, roof.rafter_checks(),
              lambda one: Roof(rafter, one, None, None, context).rafter_checks())  # fmt: skip
        return roof.run
    tie, other = tied
    tie_stock = context.stock(tie.stock)
    shared = Sharing(tie.members, tie.spacing or rafter.spacing, shares_load(tie.shared_by))
    make_tie = partial(_wood, tie_stock, tie.laid, shared)
    tie_wood = _standing_for(tie_stock, make_tie)
    roof = Roof(rafter, wood, tie, tie_wood, context)
    _fill(draft, rafter, stock, make, wood, roof.rafter_checks(),
          lambda one: Roof(rafter, one, tie, tie_wood, context).rafter_checks())  # fmt: skip
    _fill(other, tie, tie_stock, make_tie, tie_wood, roof.tie_checks(),
          lambda one: Roof(rafter, wood, tie, one, context).tie_checks())  # fmt: skip
    return roof.run


def _fill(
    draft: Draft, piece: Rafter | Tie, stock: Stock, make: Make, wood: WoodMaterial, checks: list[Check],
    check: Callable[[WoodMaterial], list[Check]],
) -> None:  # fmt: skip
    """The checks of a stick and what its wood takes for granted."""
    draft.checks = with_unsaid(_screened(draft, stock, make, checks, check), unsaid_of(stock, piece))
    draft.assumptions = [*wood.notes, *draft.assumptions]


def _wood(stock: Stock, laid: str, sharing: Sharing | None, values: DesignValues) -> WoodMaterial:
    return wood_of(stock, values, laid=laid, sharing=sharing, form="rafter")


def _standing_for(stock: Stock, make: Make) -> WoodMaterial:
    """The wood of a stock; of an unknown one a candidate, with the weight of the heaviest."""
    return screening_woods(stock, make)[0][1] if is_unknown(stock) else make(reference_values(stock))


def _screened(
    draft: Draft, stock: Stock, make: Make, checks: list[Check], check: Callable[[WoodMaterial], list[Check]]
) -> list[Check]:
    """The checks of known wood; of unknown wood those over all that it might be, when it is said what that is."""
    if not is_unknown(stock):
        return checks
    if stock.candidates or stock.species != "unknown":
        found, table, _ = screen(draft.name, stock, make, check)
        draft.tables.append(table)
        return found
    text = (
        "a grader or engineer must say what it is before it may carry; for figures name the species that it may be "
        "(`candidates`)"
    )
    question = ask("rafter_wood", stock.name, f"stock.{stock.name}.candidates")
    asked = Check.refers("roof.wood", draft.name, "wood of unknown grade", "IRC R502.1", text, ask=question)
    return [asked, *(one for one in checks if one.ratio is None)]


def _show_rafter(draft: Draft, run: RoofRun, tie: Tie | None, context: Context) -> None:
    rafter, line = run.rafter, run.rafter_line
    draft.tables += [
        roof_loads_table(rafter, rafter.carries, level=False),
        line_forces_table(run.combinations, line),
    ]
    size = context.size(rafter.stock)
    section = section_of(size, rafter.laid, rafter.plies)
    depth = float(section.d)
    supports = [
        SupportMark(run.tail, rafter.wall.on, rafter.wall.holds),
        SupportMark(float(line.length), rafter.ridge_on or "ridge", "rests"),
    ]
    draft.figure = roof_figure(run, line, section, rafter.slope, supports, _creep(rafter, context))
    if writing():
        thick = float(section_of(context.size(tie.stock), tie.laid, tie.plies).d) if tie is not None else 0.0
        draft.pictures = (rafter_picture(run, depth, tie, thick, draft.tables[-2]),)
    draft.statics = _statics(draft, rafter, context)


def _show_tie(tied: Tied, run: RoofRun, context: Context) -> None:
    (tie, draft), line = tied, run.tie_line
    draft.tables += [roof_loads_table(run.rafter, tie.carries, level=True), line_forces_table(run.combinations, line)]
    section = section_of(context.size(tie.stock), tie.laid, tie.plies)
    ends = [SupportMark(0.0, run.rafter.name, "hung"), SupportMark(float(line.length), run.rafter.name, "hung")]
    draft.figure = roof_figure(run, line, section, 0.0, ends, _creep(tie, context))
    draft.statics = _statics(draft, tie, context)


def _statics(draft: Draft, piece: Rafter | Tie, context: Context) -> Statics | None:
    """What the frame of rafters and tie gives, by stations, and the modulus that it was solved with."""
    if draft.figure is None or not writing():
        return None
    pad, stock = Pad(), context.stock(piece.stock)
    if not is_unknown(stock):
        modulus_prime(pad, _standing_for(stock, partial(_wood, stock, piece.laid, None)))
    return Statics(BY_FRAME, OF_THE_FRAME, stations=stations(draft.figure), steps=tuple(pad.steps))


def _creep(piece: Rafter | Tie, context: Context) -> float:
    stock = context.stock(piece.stock)
    return float(_standing_for(stock, partial(_wood, stock, piece.laid, None)).K_cr.value)


def _row(end: Support | UpperEnd) -> tuple[float, float] | None:
    """From where to where along the carrier the row lands."""
    return None if end.lands_from is None or end.lands_to is None else (end.lands_from, end.lands_to)


def _rafter_reactions(run: RoofRun, context: Context) -> Reactions:
    """What goes to the wall, and to the ridge beam from both sides.

    Repeated rafters arrive as a load along the whole carrier; one whose place is named (`lands_at`) arrives there, and
    on a post arrives one.
    """
    rafter = run.rafter
    wall, name = rafter.wall, rafter.name
    by_kind, up = run.by_kind(far=False), run.wall_reactions
    alone = wall.lands_at is not None or isinstance(context.under(wall.on), Post)
    spacing = 0.0 if alone else rafter.spacing
    rows = [SupportForces(wall.on, by_kind, float(np.max(up)), float(np.min(up)), spacing)]
    seat = run.rafter.wall.bearing_width
    breadth = float(section_of(context.size(rafter.stock), rafter.laid, rafter.plies).b)
    on_top = wall.holds == "rests"
    transfer = TransferredLoad(
        name, by_kind, at=wall.lands_at, spread=None if alone else rafter.spacing,
        applied="top" if on_top else "side", bearing=min(seat or breadth, breadth) if on_top else None,
        row=None if alone else _row(wall), members=rafter.members,
    )  # fmt: skip
    below = [(wall.on, transfer)]
    if rafter.ridge_on is not None:
        sides = 2.0 if rafter.pair else 1.0
        far = {kind: (sides * high, sides * low) for kind, (high, low) in run.by_kind(far=True).items()}
        top = sides * run.far_reactions
        rows.append(SupportForces(rafter.ridge_on, far, float(np.max(top)), float(np.min(top)), rafter.spacing))
        hanger = context.anchor(rafter.upper_held_by)
        seated = rafter.upper is not None and rafter.upper.bearing is not None
        heights = None if hanger is None or seated else hanger.on_girder
        below.append((rafter.ridge_on, TransferredLoad(
            name, far, spread=rafter.spacing, applied="top" if seated else "unknown" if hanger is None else "side",
            bearing=breadth if seated else None, by="rafter", held_by="" if seated else rafter.upper_held_by or "",
            fastened=None if heights is None else (heights.highest, heights.lowest),
            row=None if rafter.upper is None else _row(rafter.upper), members=rafter.members,
        )))  # fmt: skip
    else:
        far, up = run.by_kind(far=True), run.far_reactions
        other = rafter.other_wall or ""
        rows.append(SupportForces(other, far, float(np.max(up)), float(np.min(up)), rafter.spacing))
        if other:
            below.append((other, replace(transfer, forces=far, at=None, spread=rafter.spacing)))
    return Reactions(name, tuple(rows), tuple(below))

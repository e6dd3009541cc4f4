"""A bracket as a piece of the job: what comes to it, whether it can bear that, what holds it, and what it truly is."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from ...errors import BeamcheckError
from ...model.brackets.bracket import Bracket
from ..core.context import Context
from ..core.draft import GENERAL, Draft, Reactions, transfer_doubts, unknown_below
from ..core.pictures.others import Picture, StressPicture
from ..core.result import Check, PieceResult
from ..core.tables import forces_table
from ..core.unsaid import unsaid_of, with_unsaid
from .asking import ask_for
from .assembly import assembly_of
from .bearing import hung_on_it, into_the_wall
from .body import Body
from .covers.cover import cover_checks
from .drawing import elevation_of
from .families.registry import family_of
from .family import Family
from .fixings.fixings import fixing_checks, inspection_of
from .handed import Handed
from .loads import BracketLoads, accidental_checks, bracket_loads
from .place import likely_beams, place_checks
from .props.above import above_checks
from .props.prop import PropResult
from .under_beam import propped
from .wood import weight_of, wood_of_bracket
from .words import bracket_inputs, bracket_title, loads_on_bracket

NO_VALUE = (
    "No reference value exists for tension across the grain of sawn lumber (NDS 2018 3.8.2, memory): it is flagged "
    "here, never allowed."
)
CLAUSE = "judgment (NDS 2018 3.8.2, memory)"
CARRIES, DECORATION, PROP, UNKNOWN = "carries", "decoration only", "acts as a prop", "not enough information"


def bracket_results(bracket: Bracket, context: Context) -> tuple[PieceResult, Reactions]:
    """Check a bracket, whatever its family and role."""
    family = family_of(bracket)
    draft = Draft(bracket.name, "bracket", bracket_title(family, context))
    draft.inputs = bracket_inputs(family, context)
    draft.assumptions = [NO_VALUE, *GENERAL]
    try:
        return _worked_out(draft, family, context)
    except BeamcheckError as error:
        draft.outside(error)
        result = replace(draft.done(), finding=UNKNOWN, pictures=_drawn_at_least(family, context))
        return result, unknown_below(bracket.name, [bracket.on])


def loads_of(family: Family[Any], context: Context) -> BracketLoads:
    """All that a bracket carries, its own weight included."""
    wood, _ = wood_of_bracket(family.bracket, context)
    return bracket_loads(family.bracket, context, weight_of(family, wood))


def _drawn_at_least(family: Family[Any], context: Context) -> tuple[Picture, ...]:
    """The elevation of a bracket whose body could not be worked out, where its shape at least makes sense."""
    try:
        return (elevation_of(family, loads_of(family, context)),)
    except BeamcheckError:
        return ()


def _worked_out(draft: Draft, family: Family[Any], context: Context) -> tuple[PieceResult, Reactions]:
    bracket, name, near = family.bracket, family.bracket.name, family.bracket.near
    wood, doubts = wood_of_bracket(bracket, context)
    loads, body = loads_of(family, context), Body()
    loaded = bracket.role == "carries" or not loads.only_own_weight
    if loaded:
        body = family.body(loads, wood, context)  # type: ignore[arg-type]
        body.checks += [*hung_on_it(bracket, loads), *into_the_wall(bracket)]
    draft.checks = [*_asked_for(bracket, loads), *body.checks, *doubts, *transfer_doubts(name, context)]
    if body.weak_grain:
        id, what, clause = "bracket.grain_relied_on", "grain to be relied on for load", CLAUSE
        make = Check.breaks_rule if loaded else Check.keeps_rule
        draft.checks.append(make(id, name, what, clause, body.weak_grain))
    draft.checks += fixing_checks(family, loads, body, wood, context)
    if bracket.stock:
        draft.checks = with_unsaid(draft.checks, unsaid_of(context.stock(bracket.stock)))
    rested_on = any(beam.name == near.beam for beam in context.structure.beams_on(name)) if near is not None else False
    prop = propped(draft, family, near, context) if near is not None and not rested_on else None
    if bracket.role != "carries":
        draft.checks += accidental_checks(bracket)
    if bracket.role == "decorative" and loads.only_own_weight:
        draft.checks += above_checks(name, f"bracket.{name}", near, bracket.above, likely_beams(family, context))
    draft.checks += place_checks(family, context)
    handed = Handed(family, context, loads, body, prop)
    draft.checks += handed.existing()
    if bracket.role == "cover":
        draft.checks += cover_checks(family, loads, context)
    draft.inputs += body.inputs
    forces = {"F": (loads.F, "force"), "x_L": (loads.x_L, "length")}
    draft.tables += [*loads_on_bracket(loads), *body.tables, forces_table(loads.combinations, forces)]
    draft.assumptions += body.assumptions
    elevation = elevation_of(family, loads)
    if (order := assembly_of(bracket, elevation)) is not None:
        table, draft.assembly = order
        draft.tables.append(table)
    stock = context.stock(bracket.stock) if bracket.stock is not None else None
    board = family.board(stock) if stock is not None else None
    pictures = [
        elevation,
        *(
            replace(one, loads=elevation.loads, anchors=elevation.anchors) if isinstance(one, StressPicture) else one
            for one in body.pictures
        ),
        *([prop.picture] if prop is not None and prop.picture is not None else []),
        *([board] if board is not None else []),
    ]
    result = draft.done()
    finding = _finding(bracket, result, body, prop)
    result = replace(
        result, finding=finding, reason=_reason(finding, result, body, prop), pictures=tuple(pictures),
        to_see=tuple(inspection_of(family)), remedies=tuple(prop.remedies) if prop is not None else (),
    )  # fmt: skip
    return result, handed.reactions()


def _asked_for(bracket: Bracket, loads: BracketLoads) -> list[Check]:
    """That a bracket which is meant to carry has something to carry."""
    if bracket.role != "carries" or not loads.only_own_weight:
        return []
    text = "it is said to carry, but no load is stated and nothing rests on it"
    asked = ask_for(bracket, "load", "carries")
    return [Check.refers("bracket.load", bracket.name, "load", "judgment", text, ask=asked)]


def _finding(bracket: Bracket, result: PieceResult, body: Body, prop: PropResult | None) -> str:
    """What it is in truth, in the words of the sheet."""
    if prop is not None and prop.touches:
        return PROP
    if body.weak_grain and bracket.role == "carries":
        return DECORATION
    if result.verdict == "refer":
        return UNKNOWN
    return CARRIES if result.verdict == "passes" and bracket.role == "carries" else DECORATION


def _reason(finding: str, result: PieceResult, body: Body, prop: PropResult | None) -> str:
    """Why it is what it is found to be; '' where the checks say it best."""
    if finding == PROP and prop is not None and float(np.max(prop.R, initial=0.0)) > 0.0:
        force = next((check for check in prop.checks if check.id == "bracket.prop_force"), None)
        return force.notes[0].replace(": it acts as a prop: ", ": ") if force is not None and force.notes else ""
    return body.weak_grain if finding == DECORATION and result.verdict == "fails" else ""

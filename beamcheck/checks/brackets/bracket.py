"""A bracket as a piece of the job: what comes to it, whether it can bear that, what holds it, and what it truly is."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from ...analysis.beams.load_cases import Applied
from ...analysis.beams.member_loads import TransferredLoad
from ...errors import BeamcheckError
from ...model.brackets import Bent, Braced, Bracket, Near, SteelCore
from ...model.pieces import Beam, Existing, Post
from ...units import show
from ..beams.bearing import bears_nothing
from ..core.context import Context
from ..core.draft import GENERAL, Draft, Reactions, SupportForces, transfer_doubts, unknown_below
from ..core.govern import stated
from ..core.material import WoodMaterial
from ..core.pictures import Picture
from ..core.result import Check, PieceResult, Verdict
from ..core.stated_capacity import enough
from ..core.tables import forces_table
from .body import Body
from .cover import cover_checks
from .drawing import elevation_of
from .family import body_of, own_weight, projection_of, stiffness_of, wood_of_bracket
from .fixing_rows import held_of, outward_pulls
from .fixings import fixing_checks, inspection_of
from .loads import BracketLoads, bracket_loads
from .props.prop import PropAsk, PropResult, prop_result
from .words import bracket_inputs, bracket_title, loads_on_bracket

NO_VALUE = (
    "No reference value exists for tension across the grain of sawn lumber (NDS 2018 3.8.2, memory): it is flagged "
    "here, never allowed."
)
NEVER_ADDED = "The capacity of a bracket is never added to that of the beam above: the beam must pass without it."
CARRIES, DECORATION, PROP, UNKNOWN = "carries", "decoration only", "acts as a prop", "not enough information"
PROPPED = "as a prop: "
LITTLE = 0.5  # lbf: less is rounding


def bracket_results(bracket: Bracket, context: Context) -> tuple[PieceResult, Reactions]:
    """Check a bracket, whatever its family and role."""
    draft = Draft(bracket.name, "bracket", bracket_title(bracket, context))
    draft.inputs = bracket_inputs(bracket, context)
    draft.assumptions = [NO_VALUE, *GENERAL]
    try:
        return _worked_out(draft, bracket, context)
    except BeamcheckError as error:
        draft.outside(error)
        result = replace(draft.done(), finding=UNKNOWN, pictures=_drawn_at_least(bracket, context))
        return result, unknown_below(bracket.name, [bracket.on])


def _drawn_at_least(bracket: Bracket, context: Context) -> tuple[Picture, ...]:
    """The elevation of a bracket whose body could not be worked out, where its shape at least makes sense."""
    try:
        wood, _ = wood_of_bracket(bracket, context)
        loads = bracket_loads(bracket, context, projection_of(bracket), own_weight(bracket, wood))
        return (elevation_of(bracket, loads),)
    except BeamcheckError:
        return ()


def _worked_out(draft: Draft, bracket: Bracket, context: Context) -> tuple[PieceResult, Reactions]:
    wood, doubts = wood_of_bracket(bracket, context)
    projection = projection_of(bracket)
    loads = bracket_loads(bracket, context, projection, own_weight(bracket, wood))
    body = Body()
    if bracket.role == "carries" or not loads.only_own_weight:
        body = body_of(bracket, loads, wood, context)
    draft.checks = [*_asked_for(bracket, loads), *body.checks, *doubts, *transfer_doubts(bracket.name, context)]
    if body.weak_grain:
        verdict: Verdict = "fails" if bracket.role == "carries" or not loads.only_own_weight else "passes"
        draft.checks.append(
            stated(bracket.name, "grain to be relied on for load", "judgement (NDS 2018 3.8.2, memory)", verdict,
                   body.weak_grain)
        )  # fmt: skip
    draft.checks += fixing_checks(bracket, loads, body, wood, context)
    prop = _propped(draft, bracket, body, wood, context) if bracket.near is not None else None
    handed = _Handed(bracket, context, loads, body, prop)
    draft.checks += handed.existing()
    if bracket.role == "cover":
        draft.checks += cover_checks(bracket, loads, wood, context)
    draft.inputs += body.inputs
    forces = {"F": (loads.F, "force"), "x_L": (loads.x_L, "length")}
    draft.tables += [*loads_on_bracket(loads), *body.tables, forces_table(loads.combinations, forces)]
    draft.assumptions += body.assumptions
    pictures = [
        elevation_of(bracket, loads),
        *body.pictures,
        *([prop.picture] if prop is not None and prop.picture is not None else []),
    ]
    result = draft.done()
    finding = _finding(bracket, result, body, prop)
    result = replace(
        result, finding=finding, reason=_reason(finding, result, body, prop), pictures=tuple(pictures),
        to_see=tuple(inspection_of(bracket)), remedies=tuple(prop.remedies) if prop is not None else (),
    )  # fmt: skip
    return result, handed.reactions()


def _asked_for(bracket: Bracket, loads: BracketLoads) -> list[Check]:
    """That a bracket which is meant to carry has something to carry."""
    if bracket.role != "carries" or not loads.only_own_weight:
        return []
    text = "it is said to carry, but no load is stated and nothing rests on it"
    return [stated(bracket.name, "load", "judgement", "refer", text)]


def _propped(
    draft: Draft, bracket: Bracket, body: Body, wood: WoodMaterial | None, context: Context
) -> PropResult | None:
    """What the beam above does to it."""
    near = bracket.near
    assert near is not None
    if bracket.role == "carries":
        text = (
            f"it stands under {near.beam} and is meant to carry: write it as a support of {near.beam}, so that its "
            "share is worked out; as a neighbour only it carries nothing"
        )
        draft.checks.append(stated(bracket.name, f"under {near.beam}", "load path", "refer", text))
    verdict = context.structure.verdicts.get(near.beam)
    prop = prop_result(_asks(bracket, context), bracket.name, context, beam_verdict=verdict)
    draft.checks += prop.checks
    draft.assumptions += [NEVER_ADDED, *prop.assumptions]
    R = float(np.max(prop.R, initial=0.0))
    if R > LITTLE:
        under = _under_prop(bracket, R, near, context)
        if not prop.touches:  # what would come if there were no gap: it is not known that there is none
            under = [replace(check, verdict="refer") for check in under]
        draft.checks += under
    pulled = float(np.min(prop.R_least, initial=0.0))
    if pulled < -LITTLE:
        text = f"{near.beam} pulls it upwards with {show(-pulled, 'force')}: its fixings are not worked out for that"
        draft.checks.append(stated(bracket.name, "pull upwards", "load path", "refer", text))
    if near.slot is not None and bracket.fixings is not None and any(row.slot is None for row in bracket.fixings.rows):
        text = "a row without slots keeps it from sliding down: slots above it alone do not show that it is free"
        draft.checks.append(stated(bracket.name, "slots", "judgement", "refer", text))
    return prop


def _asks(bracket: Bracket, context: Context) -> list[PropAsk]:
    """This bracket and all others under the same beam: they share the load that they attract."""
    assert bracket.near is not None
    found = []
    for other in context.structure.pieces.values():
        if isinstance(other, Bracket) and other.near is not None and other.near.beam == bracket.near.beam:
            k_low, k_high = _stiffness(other, context)
            species = context.stock(other.stock).species if other.stock is not None else None
            known = species is not None and species.casefold() != "unknown"
            found.append(
                PropAsk(other.name, other.near, k_low, k_high, _swells(other), species if known else None,
                        other.role == "carries")
            )  # fmt: skip
    return found


def _swells(bracket: Bracket) -> float:
    """Its own wood across the grain between its upper fixing and its nose, in; 0 where the grain stands upright."""
    shape = bracket.shape
    if isinstance(shape, (SteelCore, Bent, Braced)):
        return 0.0 if isinstance(shape, SteelCore) else getattr(shape, "top_leg", getattr(shape, "depth", 0.0))
    tops = [row.below_top for row in bracket.fixings.rows] if bracket.fixings is not None else []
    height = min(tops) if tops else shape.height
    return height * math.cos(math.radians(shape.grain)) ** 2 if shape.grain is not None else height


def _stiffness(bracket: Bracket, context: Context) -> tuple[float, float]:
    """Bounds of its stiffness at the nose, lbf/in; where nothing is known the upper one is rigid."""
    known = context.structure.stiffness
    if bracket.name not in known:
        try:
            wood, _ = wood_of_bracket(bracket, context)
            known[bracket.name] = stiffness_of(bracket, wood, replace(context, transfers=()))
        except BeamcheckError:
            known[bracket.name] = (0.0, np.inf)
    return known[bracket.name]


def _with_prop(
    bracket: Bracket, R: float, near: Near, context: Context, wood: WoodMaterial | None, *, accidental: bool
) -> BracketLoads:
    """Its loads with the force of the beam on its nose."""
    nose = projection_of(bracket)
    force = Applied("L", nose, nose, P=R, what=f"from {near.beam}, which comes down on it", applied="top")
    return bracket_loads(bracket, context, nose, own_weight(bracket, wood), accidental=accidental, more=[force])


def _under_prop(bracket: Bracket, R: float, near: Near, context: Context) -> list[Check]:
    """The body and the fixings under the force that the bracket attracts."""
    wood, _ = wood_of_bracket(bracket, context)
    loads = _with_prop(bracket, R, near, context, wood, accidental=False)
    body = body_of(bracket, loads, wood, context)
    found = [*body.checks, *fixing_checks(bracket, loads, body, wood, context)]
    found = [check for check in found if check.verdict != "passes"]  # what holds is no news here
    if body.weak_grain:
        found.append(stated(bracket.name, "grain", "judgement (NDS 2018 3.8.2, memory)", "fails", body.weak_grain))
    return [replace(check, what=f"{PROPPED}{check.what}") for check in found]


def _finding(bracket: Bracket, result: PieceResult, body: Body, prop: PropResult | None) -> str:
    """What it is in truth, in the words of the sheet."""
    if prop is not None and prop.touches:
        return PROP
    if body.weak_grain and bracket.role == "carries":
        return DECORATION
    if result.verdict == "passes":
        return CARRIES if bracket.role == "carries" else DECORATION
    if result.verdict == "refer":
        return UNKNOWN
    return DECORATION


def _reason(finding: str, result: PieceResult, body: Body, prop: PropResult | None) -> str:
    """Why it is what it is found to be; '' where the checks say it best."""
    if finding == PROP and prop is not None and float(np.max(prop.R, initial=0.0)) > 0.0:
        force = next((check for check in prop.checks if check.what.startswith("force that it attracts")), None)
        return force.notes[0].replace(": it acts as a prop: ", ": ") if force is not None and force.notes else ""
    return body.weak_grain if finding == DECORATION and result.verdict == "fails" else ""


class _Handed:
    """What a bracket hands to what it is fixed to: its loads, and what a beam that comes down on it presses with."""

    def __init__(
        self, bracket: Bracket, context: Context, loads: BracketLoads, body: Body, prop: PropResult | None
    ) -> None:
        self.bracket, self.context, self.loads = bracket, context, loads
        R, near = (float(np.max(prop.R, initial=0.0)) if prop is not None else 0.0), bracket.near
        sure = near is not None and (near.fixed_to_beam or near.gap is not None)
        self.whole, self.perhaps, self.pull = loads, "", _pull(bracket, loads, body)
        if R <= LITTLE or near is None:
            return
        if not sure:
            self.perhaps = (
                f"{show(R, 'force')} of {near.beam} come here through {bracket.name} if there is no gap between them: "
                "the gap is not known"
            )
            return
        wood, _ = wood_of_bracket(bracket, context)
        self.whole = _with_prop(bracket, R, near, context, wood, accidental=True)
        if self.pull is not None:
            self.pull = max(self.pull, _pull(bracket, self.whole, Body()) or 0.0)

    @property
    def off(self) -> float:
        """How far out the resultant acts at most, in. Where something lifts, its fixings refer (`lifts`)."""
        x = self.whole.x_L[self.whole.F > LITTLE]
        return float(min(np.max(x, initial=0.0), self.whole.projection)) if x.size else self.whole.projection

    def existing(self) -> list[Check]:
        """What somebody else's wall must take: said in figures, and against what its seat is said to take."""
        bracket, under = self.bracket, self.context.under(self.bracket.on)
        if not isinstance(under, Existing) or bears_nothing(under):
            return []
        F, place = self.whole.F, "its fixings"
        tight = bracket.fixings is not None and bool(bracket.fixings.rows)
        if bracket.fixings is not None and tight:
            place = f"{show(min(row.below_top for row in bracket.fixings.rows), 'length')} below its top edge"
        pull = (
            f"{show(self.pull, 'force')} outwards, {place}" if self.pull is not None
            else "a pull outwards at its top that is not known, for its fixings are not described"
        )  # fmt: skip
        confirmed = under.confirmed_by.strip()
        text = (
            f"{under.name} must take {show(float(np.max(F, initial=0.0)), 'force')} down and {pull}"
            f"{f', confirmed by {confirmed}' if confirmed else '; nobody is named who confirms it'}"
        )
        verdict: Verdict = "passes" if confirmed and self.pull is not None and not self.perhaps else "refer"
        if self.perhaps:
            text = f"{text}. {self.perhaps}"
        return [
            stated(bracket.name, f"what {under.name} must take", "load path", verdict, text),
            *enough(bracket.name, f"what {under.name} takes", under, self.whole.combinations, F),
        ]

    def reactions(self) -> Reactions:
        """The row holds its own loads only, so that the beam's, which come to its supports, are not added up twice."""
        on, under = self.bracket.on, self.context.under(self.bracket.on)
        by_kind, F = self.loads.by_kind(), self.loads.F
        row = SupportForces(on, by_kind, float(np.max(F)), float(np.min(F)))
        transfer = TransferredLoad(
            self.bracket.name, self.whole.by_kind(), at=self.bracket.at if isinstance(under, (Beam, Post)) else None,
            applied="side", off=self.off, pull=self.pull, perhaps=self.perhaps,
        )  # fmt: skip
        return Reactions(self.bracket.name, (row,), ((on, transfer),))


def _pull(bracket: Bracket, loads: BracketLoads, body: Body) -> float | None:
    """Largest pull on the top row, lbf, somebody who pulls the nose outwards included; None where it is not known."""
    if bracket.fixings is None or not bracket.fixings.rows:
        return None
    try:
        held = held_of(bracket, loads, body)
        outward = [force for words, force in outward_pulls(held) if words == "outwards"]
        return max([float(np.max(held.pulls(), initial=0.0)), *outward])
    except BeamcheckError:
        return None

"""From a frame of the job file to its result, those of its members and joints, and what it hands to its feet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property, partial

import numpy as np

from ...analysis.beams.member_loads import TransferredLoad
from ...analysis.site.pieces import with_formed_loads
from ...analysis.trusses.record import SolvedFrame
from ...analysis.trusses.solved import solve_frame
from ...errors import BeamcheckError, Unstable
from ...model.frames.frame import Frame, FrameStick
from ...model.sticks import Cut
from ...model.stock import Stock
from ...records import dataclass
from ...units import show
from ...values.lumber import DesignValues
from ..core.asking.question import ask
from ..core.context import Context
from ..core.draft import GENERAL, SHEAR_SAG, Draft, Reactions, SupportForces, unknown_below
from ..core.result import Check, PieceResult
from ..core.screening import screen, screening_woods
from ..core.understood import frame_inputs, member_inputs, stick_words, stock_inputs
from ..core.unsaid import unsaid_of, with_unsaid
from ..core.wood.burnt import SAID
from ..core.wood.govern import writing
from ..core.wood.group_cut import GroupCut
from ..core.wood.material import WoodMaterial, is_unknown, reference_values, wood_of
from ..core.wood.wood_doubts import wood_evidence_checks
from .assembly import assembly_of
from .brought import brought_doubts, with_brought
from .feet import ask_thrust, feet_checks, held_by_nobodys_word, on_the_seat
from .fire import fire_checks
from .joined import cuts_of, described, joint_results, of_member, plays_of, softest_joint, splices_of
from .loads import frame_loads, member_loads
from .member import MadeOf, made_of, member_checks
from .net import cut_rules, net_checks
from .picture import force_pictures, frame_picture
from .sag import sag_checks
from .tables import forces_table, frame_loads_table, member_forces_table, reactions_table
from .whole import eccentric, in_plane_length, whole_checks

Done = tuple[PieceResult, Reactions]
RUNS = (
    "Both ends of what is not known are run, feet free and held, joints tight and soft; of each check the worst counts."
)
PINS = "No joint is taken to hold a moment; rafters, ties and posts of bents are continuous through the points on them."
OTHERS = "Stability out of the plane, erection, earthquake and the walls below are for an engineer."
HALVES = "Snow and other variable loads are tried on all of the frame and on either half."


def frame_results(frame: Frame, context: Context) -> list[Done]:
    """Check a frame, its members and its joints."""
    frame = with_brought(frame, context.transfers)
    members = [with_formed_loads(member, context.structure.areas) for member in frame.sticks]
    draft = Draft(frame.name, "frame", f"{frame.kind} frame of {len(members)} members")
    draft.inputs = frame_inputs(frame)
    draft.assumptions = [PINS, RUNS, HALVES, OTHERS, SHEAR_SAG, *GENERAL]
    one = _Framed(frame, members, context)
    try:
        solved = one.solve()
        draft.checks = one.frame_checks(solved)
    except Unstable as error:
        return _not_solved(frame, members, draft, _falls(frame, error), context)
    except BeamcheckError as error:
        draft.outside(error)
        return _not_solved(frame, members, draft, None, context)
    draft.tables += [frame_loads_table(frame), forces_table(frame, solved), reactions_table(frame, solved)]
    made = one.made
    depths = {name: float(one.section.d) for name, one in made.items()}
    if (order := assembly_of(frame, depths, context)) is not None:
        table, draft.assembly = order
        draft.tables.append(table)
    joints = joint_results(frame, solved, context)
    found: list[Done] = []
    for member in members:
        result = one.member_result(member, solved)
        if writing():
            result = replace(result, pictures=(frame_picture(frame, solved, made, None, member.stick),))
        at = tuple(joint for joint in joints if _joins(joint, member, frame, context))
        found.append((result, Reactions(member.name, anchors=at)))
    if writing():
        under = force_pictures(frame, solved, made, [result for result, _ in found])
        draft.pictures = (frame_picture(frame, solved, made, draft.tables[0]), *under)
    return [
        (draft.done(), _reactions(frame, solved, made, context)),
        *found,
        *((joint, Reactions(joint.name)) for joint in joints),
    ]


def _joins(joint: PieceResult, member: FrameStick, frame: Frame, context: Context) -> bool:
    one = next(one for one in context.structure.joints_of(frame.name) if one.name == joint.name)
    return one.spliced == member.name if one.spliced else one.at in frame.shape.stick(member.stick).points


def _falls(frame: Frame, error: Unstable) -> Check:
    text = f"{error}: a mechanism, or a support is missing"
    return Check.breaks_rule("frame.stands", frame.name, "stands still", "statics", text)


def _not_solved(
    frame: Frame, members: Sequence[FrameStick], draft: Draft, falls: Check | None, context: Context
) -> list[Done]:  # fmt: skip
    """Nothing of it could be worked out: its members say so, and what carries it must know."""
    if falls is not None:
        draft.checks = [falls]
    found: list[Done] = [(draft.done(), unknown_below(frame.name, [foot.on for foot in frame.feet]))]
    for member in members:
        own = Draft(member.name, "member", _title(member, context))
        own.inputs = [*stock_inputs(context.stock(member.stock)), *member_inputs(member)]
        text = f"the frame {frame.name} could not be worked out, so what comes to this member is not known"
        asked = ask("frame_member_of", frame.name)
        own.checks = [Check.refers("frame.stands", member.name, "its frame", "statics", text, ask=asked)]
        if falls is not None:
            own.checks = [replace(falls, subject=member.name, notes=(f"frame {frame.name}: {falls.notes[0]}",))]
        found.append((own.done(), Reactions(member.name)))
    found += [(joint, Reactions(joint.name)) for joint in joint_results(frame, None, context)]
    return found


def _title(member: FrameStick, context: Context) -> str:
    return f"{stick_words(member, context.stock(member.stock))}, {show(member.length, 'length')}"


def _wood(stock: Stock, laid: str, values: DesignValues) -> WoodMaterial:
    return wood_of(stock, values, laid=laid)


@dataclass(frozen=True)
class _Framed:
    """A frame with its members as they are loaded."""

    frame: Frame
    members: Sequence[FrameStick]
    context: Context

    def wood(self, member: FrameStick) -> WoodMaterial:
        """Of an unknown stock a candidate, with the weight of the heaviest."""
        stock = self.context.stock(member.stock)
        make = partial(_wood, stock, member.laid)
        return screening_woods(stock, make)[0][1] if is_unknown(stock) else make(reference_values(stock))

    @cached_property
    def cuts(self) -> dict[str, list[GroupCut | Cut]]:
        """What its joints take out of its members."""
        return cuts_of(self.frame, self.context)

    @cached_property
    def made(self) -> dict[str, MadeOf]:
        """The members by their names in the frame."""
        return {member.stick: made_of(member, self.wood(member), self.context) for member in self.members}

    def solve(self) -> SolvedFrame:
        """The forces."""
        softest = softest_joint(self.frame)
        plays = plays_of(self.frame, self.context)
        splices = splices_of(self.frame, self.context)
        return solve_frame(self.frame, [one.sized for one in self.made.values()], softest, plays, splices)

    def frame_checks(self, solved: SolvedFrame) -> list[Check]:
        """Everything about the frame as a whole."""
        made = self.made
        return [
            *whole_checks(self.frame, solved, made),
            *feet_checks(self.frame, solved, made, self.context),
            *described(self.frame, solved, self.context),
            *brought_doubts(self.frame, self.context),
            *frame_loads(self.frame, self.members, solved, self.context),
            *sag_checks(self.frame, solved, made),
        ]

    def member_result(self, member: FrameStick, solved: SolvedFrame) -> PieceResult:
        """One member as a checked piece."""
        stock = self.context.stock(member.stock)
        own = Draft(member.name, "member", _title(member, self.context))
        own.inputs = [*stock_inputs(stock), *member_inputs(member)]
        own.assumptions = [PINS, RUNS, *GENERAL]
        wood = self.wood(member)
        cuts: list[GroupCut | Cut] = [*member.cuts, *self.cuts.get(member.name, [])]

        def checks(of: WoodMaterial) -> list[Check]:
            made = made_of(member, of, self.context)
            in_plane = in_plane_length(self.frame, solved, member.stick)
            leans = eccentric(self.frame, member.stick)
            unsaid = held_by_nobodys_word(self.frame, solved, self.context)
            asked = (ask_thrust(self.frame, solved, self.context),) if unsaid else ()
            return [
                *member_checks(
                    made, solved.members[member.stick], solved.combinations, in_plane, leans=leans, asked=asked
                ),
                *fire_checks(made, solved, in_plane, leans=leans),
                *net_checks(made, solved, cuts),
                *cut_rules(made, solved),
                *of_member(member, self.frame, solved, self.context),
                *member_loads(self.frame, member, self.context),
                *wood_evidence_checks(member.name, of.doubts),
            ]

        if is_unknown(stock) and (stock.candidates or stock.species != "unknown"):
            found, table, _ = screen(member.name, stock, partial(_wood, stock, member.laid), checks)
            own.tables.append(table)
        elif is_unknown(stock):
            text = "what wood it is has to be said before it may carry; for figures name what it may be (`candidates`)"
            question = ask("rafter_wood", stock.name, f"stock.{stock.name}.candidates")
            asked = Check.refers("frame.wood", member.name, "wood of unknown grade", "IRC R502.1", text, ask=question)
            found = [asked, *(one for one in checks(wood) if one.ratio is None)]
        else:
            found = checks(wood)
        if stock.survey is not None:
            text = "the findings of a survey are not followed into a member of a frame"
            asked_survey = ask("frame_survey", member.name)
            found.append(
                Check.refers("frame.survey", member.name, "its survey", "NDS 2018 4.1", text, ask=asked_survey)
            )
        own.checks = with_unsaid(found, unsaid_of(stock))
        own.assumptions = [*wood.notes, *own.assumptions, *([SAID] if member.fire is not None else [])]
        own.tables.append(member_forces_table(member, solved))
        return own.done()


def _reactions(frame: Frame, solved: SolvedFrame, made: Mapping[str, MadeOf], context: Context) -> Reactions:
    """What goes to each foot: by kind over all runs, and the largest and least of all combinations."""
    if solved.by_case is None:
        return unknown_below(frame.name, [foot.on for foot in frame.feet])
    rows, below = [], []
    for foot in frame.feet:
        by_kind: dict[str, tuple[float, float]] = {}
        for number, case in enumerate(solved.cases):
            forces = solved.by_case[foot.at][:, number]
            start = (-np.inf, np.inf) if case.kind == "D" else (0.0, 0.0)
            high, low = by_kind.get(case.kind, start)
            by_kind[case.kind] = (max(high, float(np.max(forces))), min(low, float(np.min(forces))))
        up = solved.nodes[foot.at].reaction[:, 1]
        rows.append(SupportForces(foot.on, by_kind, float(np.max(up)), float(np.min(up))))
        section = on_the_seat(frame, foot, made, context).section
        breadth = float(min(foot.bearing_width or section.b, section.b))
        transfer = TransferredLoad(frame.name, by_kind, at=foot.lands_at, applied="top", bearing=breadth)
        below.append((foot.on, transfer))
    return Reactions(frame.name, tuple(rows), tuple(below))

"""Trim: it never carries. Its own weight on what holds it, and somebody who hangs on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....analysis.beams.load_cases import Applied
from ....analysis.beams.member_loads import TransferredLoad
from ....analysis.beams.solved_beam import BeamSupport, SolvedBeam, solve_beam
from ....errors import BeamcheckError
from ....model.anchors.anchor import Anchor
from ....model.brackets.bracket import Fixings, Trim
from ....model.existing import Existing
from ....model.posts import Post
from ....units import show
from ....values.judgment import judgment
from ....values.loads import told
from ....values.lumber import read_size
from ....values.refused import in_trade_words
from ...anchors.fasteners.connection import Connection
from ...anchors.group import Forces, Group
from ...anchors.joint import weak_wood
from ...anchors.manners.base import sense_checks
from ...anchors.manners.registry import resolved
from ...core.asking.question import PlausibleAnswer, ask
from ...core.context import Context
from ...core.draft import GENERAL, Draft, Reactions, SupportForces, transfer_doubts
from ...core.result import Check, PieceResult
from ...core.seat import answered
from ...core.wood.stated_capacity import enough
from ...core.wood.strength import Section
from ...core.wood.wood_doubts import wood_evidence_checks
from ..asking import ask_engineer, ask_for, other_asked, path_of, sentence
from ..evidence import into_checks
from ..fixings.fixings import by_hand, not_given
from ..loads import ACCIDENTAL, STIFF, accidental_checks
from ..props.above import above_checks
from ..props.asks import asks_under
from ..props.prop import prop_result
from ..wood import known_wood, wood_or_weakest
from ..words import ROLE_WORDS, fixing_rows
from .kinds import KINDS, Kind
from .places import Hits, arm_of, hits_of

LONG = 12.0  # in: where along it its weight acts does not matter to its fixings
ROOMY = 24.0  # in: a board's length and breadth are not asked for; the layout in it is the carpenter's


def trim_result(trim: Trim, context: Context) -> tuple[PieceResult, Reactions]:
    """Check a piece of trim: what holds it up. What is put on it fails by its role."""
    kind = KINDS[trim.hangs]
    draft = Draft(trim.name, "trim", f"{trim.what or 'trim'}, {show(trim.weight, 'force')}, {ROLE_WORDS[trim.role]}")
    draft.inputs = [
        ("role", trim.role), ("fixed to", trim.on), ("own weight", show(trim.weight, "force")), ("hangs", trim.hangs),
        *(("made of", f"{layer.what}{f' ({layer.species})' if layer.species else ''}: {show(layer.weight(), 'force')}")
          for layer in trim.made_of),
        *fixing_rows(trim.fixings),
    ]  # fmt: skip
    draft.assumptions = list(GENERAL[:1])
    loads = [Applied("D", 0.0, 0.0, P=trim.weight, what="own weight", own=True)]
    if isinstance(trim.accidental, float):
        loads.append(Applied("L", 0.0, 0.0, P=trim.accidental, what=ACCIDENTAL))
    solved = solve_beam(LONG, [BeamSupport(0.0, "fixed")], loads, depth=LONG, EI=STIFF, GA_s=STIFF)
    draft.checks = [*transfer_doubts(trim.name, context), *_fixings(trim, kind, solved, context)]
    draft.checks += [*_above(trim, context), *accidental_checks(trim), *_meant_to_carry(trim)]
    by_kind, forces = solved.reaction_by_kind(0), solved.reactions(0)
    row = SupportForces(trim.on, by_kind, float(np.max(forces)), float(np.min(forces)))
    result = draft.done()
    finding = "not enough information" if result.verdict == "refer" else "decoration only"
    # along a beam its place is not asked for, so it is taken at midspan
    load = TransferredLoad(trim.name, by_kind, applied=kind.applied)
    return replace(result, finding=finding), Reactions(trim.name, (row,), ((trim.on, load),))


def _meant_to_carry(trim: Trim) -> Iterator[Check]:
    """Words of a piece of trim that speak of what it holds up."""
    if trim.insists_on("what") or not (found := told(trim.what, "meant to carry")):
        return
    path, says = f"trim.{trim.name}.meant.what", "it is for looks: nothing rests on it"
    answers = [PlausibleAnswer(says, ((path, says),))]
    question = ask("trim_carries", trim.name, path, answers=answers, found=f"{found[0].words!r}")
    text = f"{trim.what!r}: trim never carries, and these words say {found[0].words!r}"
    yield Check.refers("path.sound", trim.name, "words of what it is for", "load path", text, ask=question)


def _above(trim: Trim, context: Context) -> list[Check]:
    """A beam over it; asked of what is fixed to a post on which a beam rests, since a boxed column stands tight there.

    What hangs from a beam comes down with it.
    """
    if trim.near is not None:
        return list(prop_result(asks_under(trim.near.beam, context), trim.name, context).checks)
    rests = context.structure.beams_on(trim.on) if isinstance(context.under(trim.on), Post) else ()
    if trim.hangs == "below" or (trim.above is None and not rests):
        return []
    return list(above_checks(trim.name, f"trim.{trim.name}", None, trim.above))


def _fixings(trim: Trim, kind: Kind, solved: SolvedBeam, context: Context) -> Iterator[Check]:
    name, fixings, under = trim.name, trim.fixings, context.under(trim.on)
    if isinstance(under, Existing):
        yield answered(name, f"what {name} is fixed to", under)
        yield from enough(name, f"what {under.name} takes", under, solved.combinations, solved.reactions(0))
    if fixings is None:
        yield not_given(trim)
        return
    if fixings.by_hand is not None:
        yield by_hand(trim, fixings.by_hand)
        return
    id, what, clause = "bracket.fixings_described", "fixings", "NDS 2018 12"
    if fixings.fastener is None or not fixings.rows:
        yield not_given(trim, "fasteners and rows are not described")
        return
    missing = [
        *([] if fixings.other is not None and fixings.other.stock is not None else [other_asked(trim, context)]),
        *([] if fixings.through is not None else [ask_for(trim, "through", "fixings.through")]),
        *([] if trim.stock is not None else [ask_for(trim, "trim_stock", "stock", list(context.structure.stocks))]),
    ]
    if missing:
        text = (
            "the wood that the fasteners go into (`other` with its stock), the wood of the trim (`stock`) and how much "
            "of it the fasteners go through (`through`) are not all given"
        )
        yield Check.refers(id, name, what, clause, text, ask=missing)
        return
    yield from into_checks(trim, context)
    try:
        yield from _fastened(trim, fixings, kind, solved, context)
    except BeamcheckError as error:
        text = in_trade_words(error)
        asked = ask_engineer(trim, "fixings_outside", why=sentence(text))
        yield Check.refers("bracket.fixings_outside", name, what, clause, text, ask=asked)


def _fastened(
    trim: Trim, fixings: Fixings, kind: Kind, solved: SolvedBeam, context: Context
) -> Iterator[Check]:  # fmt: skip
    """All its weight on its fasteners: pulled where it hangs, sheared on a face."""
    assert fixings.other is not None and fixings.other.stock is not None
    assert fixings.through is not None and trim.stock is not None and fixings.fastener is not None
    forces, said = kind.counted(trim, solved.reactions(0))
    stock, behind = context.stock(trim.stock), context.stock(fixings.other.stock)
    into = known_wood(behind, trim.on)
    b = fixings.through + (fixings.fastener.counterbore_depth or 0.0)
    deep = max(float(read_size(stock.size).d), b)
    anchor = Anchor.model_construct(
        name=trim.name, manner="wood side", into=trim.on, fastener=fixings.fastener, other=fixings.other,
        seasoned=fixings.seasoned, split=fixings.split,
    ).model_copy(update={"gap": fixings.gap, "arm": 0.0})  # fmt: skip
    x = _in_a_line(fixings)
    group = Group(
        anchor, trim.name, "left", 0.0, stock, weak_wood(stock, wood_or_weakest(stock)), Section(b, deep, b),
        context.under(trim.on), behind, into, Forces(solved.combinations, *kind.loaded(forces)), x,
        np.full(x.size, 0.5 * deep), path_of(trim, "fixings"),
    )  # fmt: skip
    yield said
    hits = hits_of(fixings, behind)
    joint = resolved(group)
    if isinstance(joint, Connection):
        found, joint = _that_hit(trim, hits, kind, joint, forces)
        yield from found
        yield from _couple(trim, fixings, kind, joint, forces, hits)
    else:
        yield joint
    yield from sense_checks(group)
    if into is not None:
        yield from wood_evidence_checks(trim.name, into.doubts)
    if isinstance(trim.accidental, float) and isinstance(joint, Connection):
        yield from _on_one(trim, trim.accidental, kind, joint, solved)


def _that_hit(
    trim: Trim, hits: Hits, kind: Kind, joint: Connection, forces: np.ndarray
) -> tuple[list[Check], Connection]:  # fmt: skip
    """The checks of the fasteners that surely meet the wood; where those are too few it has to be looked at."""
    every = list(kind.checks(trim, joint, forces))
    if hits.most_sure >= hits.count:
        return every, joint
    id, what, group = "trim.hits", "fasteners that meet the wood", joint.group
    fewer = resolved(replace(group, x=group.x[: hits.most_sure], y=group.y[: hits.most_sure]))
    alone = list(kind.checks(trim, fewer, forces)) if isinstance(fewer, Connection) else [fewer]
    if isinstance(fewer, Connection) and all(check.verdict != "fails" for check in alone):
        text = f"{hits.why}; only these are counted, and they are enough"
        return [*alone, Check.keeps_rule(id, trim.name, what, "geometry", text)], fewer
    worst = min(alone, key=lambda check: check.rank)
    figure = "" if worst.ratio is None else f", {show(worst.ratio, 'ratio')} of what is allowed"
    text = f"{hits.why}, and these alone do not hold it ({worst.what}{figure})"
    asked = ask_engineer(trim, "trim_in_the_wood", why=sentence(text), on=trim.on)
    return [*every, Check.refers(id, trim.name, what, "geometry", text, ask=asked)], joint


def _couple(
    trim: Trim, fixings: Fixings, kind: Kind, joint: Connection, forces: np.ndarray, hits: Hits
) -> Iterator[Check]:  # fmt: skip
    """Weight that stands out from a face turns about the lower edge and pulls on the top row."""
    if not kind.turns:
        return
    id, what, clause = "trim.couple", "pull of weight that stands out", "NDS 2018 11.1.3; statics"
    arm, farthest = arm_of(trim, fixings), judgment("weight of trim stands out")
    out_asked = ask_for(trim, "stands_out", "stands_out", on=trim.on)
    if arm.length is None:
        small = judgment("trivial force").value
        if float(np.max(forces, initial=0.0)) <= small and trim.stands_out is None:
            text = f"not more than {show(small, 'force')} on one row: what it turns is next to nothing"
            yield Check.keeps_rule(id, trim.name, what, clause, text)
            return
        low = max(row.below_top for row in fixings.rows)
        high = ask_for(trim, "trim_height", "height", [f"{low + more:g} in" for more in (2.0, 4.0)], on=trim.on)
        asked = [*([out_asked] if trim.stands_out is None else []), high]
        text = f"what turns it off the wall is not known: {arm.why}"
        yield Check.refers(id, trim.name, what, clause, text, ask=asked)
        return
    top = min(range(len(fixings.rows)), key=lambda i: fixings.rows[i].below_top)
    count = fixings.rows[top].count if joint.group.x.size == hits.count else max(hits.sure[top], 1)
    out = trim.stands_out if trim.stands_out is not None else farthest.value
    pull = forces * out / arm.length / count
    checks = list(kind.pulled(trim, joint, pull))
    said = f"{show(float(np.max(pull)), 'force')} on each fastener of the top row; lever arm {arm.why}"
    if trim.stands_out is None:
        said = f"its weight {show(out, 'length')} out, as far as is believed where nobody says: {said}"
        failing = [check for check in checks if not check.holds]
        if failing:
            worst = min(failing, key=lambda check: check.rank)
            figure = "" if worst.ratio is None else f": {show(worst.ratio, 'ratio')} of what is allowed"
            text = f"how far its weight stands out is not said (`stands_out`); {said} ({worst.what}{figure})"
            yield Check.refers(id, trim.name, what, clause, text, ask=out_asked)
            return
    yield Check.keeps_rule(id, trim.name, what, clause, said)
    yield from checks


def _in_a_line(fixings: Fixings) -> np.ndarray:
    """The fasteners in one line, each as far from the next as the nearest two of them are, in."""
    at = np.array([(row.below_top, off - 0.5 * row.offsets[-1]) for row in fixings.rows for off in row.offsets])
    apart = np.hypot(*(at[:, None, :] - at[None, :, :]).transpose(2, 0, 1))
    nearest = float(np.min(apart + np.where(np.eye(len(at), dtype=bool), np.inf, 0.0)))
    return ROOMY + min(nearest, ROOMY) * np.arange(len(at))


def _on_one(trim: Trim, hangs: float, kind: Kind, joint: Connection, solved: SolvedBeam) -> Iterator[Check]:
    """Somebody hangs beside one fastener, which then has all of that force; an even share is not to be counted on."""
    all_of_it = solved.reactions(0)
    hung = np.maximum(all_of_it - trim.weight, 0.0)  # of that person, as far as the combination counts it
    one = (all_of_it - hung) / joint.group.x.size + hung
    for check in kind.on_one(trim, joint, one):
        if check.ratio is not None and not check.holds:
            text = (
                f"all of {show(hangs, 'force')} on one fastener, since where somebody hangs on it is not known: "
                f"{show(check.ratio, 'ratio')} of what is allowed"
            )
            asked = ask_engineer(trim, "hung_on_one", why=sentence(text), forces={"down": hangs})
            what = f"{check.what}: {ACCIDENTAL}"
            yield Check.refers("trim.hung_on_one", trim.name, what, check.clause, text, *check.notes, ask=asked)

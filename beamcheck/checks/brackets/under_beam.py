"""A bracket under a beam: whether the beam may come down on it, and what that would do to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from ...analysis.beams.load_cases import Applied
from ...model.brackets.near import Near
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import Question
from ..core.context import Context
from ..core.draft import Draft
from ..core.result import Check
from .asking import ask_engineer, ask_for, sentence
from .bearing import hung_on_it
from .family import Family
from .fixings.fixings import fixing_checks
from .loads import BracketLoads, bracket_loads
from .props.asks import asks_under
from .props.prop import PropResult, prop_result
from .wood import weight_of, wood_of_bracket

NEVER_ADDED = "The capacity of a bracket is never added to that of the beam above: the beam must pass without it."
PROPPED = "as a prop: "


def propped(draft: Draft, family: Family[Any], near: Near, context: Context) -> PropResult:
    """What the beam above does to it."""
    bracket = family.bracket
    prop = prop_result(asks_under(near.beam, context), bracket.name, context)
    draft.checks += prop.checks
    draft.assumptions += [NEVER_ADDED, *prop.assumptions]
    rounding = judgment("force that is rounding").value
    R = float(np.max(prop.R, initial=0.0))
    if rounding < R:
        draft.checks += _under_prop(family, R, near, context, waits_for=() if prop.touches else prop.open)
    pulled = float(np.min(prop.R_least, initial=0.0))
    if pulled < -rounding:
        text = f"{near.beam} pulls it upwards with {show(-pulled, 'force')}: its fixings are not worked out for that"
        asked = ask_engineer(bracket, "pulled_up", why=sentence(text), forces={"up": -pulled})
        draft.checks.append(
            Check.refers("bracket.pulled_up", bracket.name, "pull upwards", "load path", text, ask=asked)
        )
    tight = [i for i, row in enumerate(bracket.fixings.rows, start=1) if row.slot is None] if bracket.fixings else []
    if near.slot is not None and tight:
        text = "a row without slots keeps it from sliding down: slots above it alone do not show that it is free"
        asked = ask_for(bracket, "slots", f"fixings.rows.{tight[0]}.slot")
        draft.checks.append(Check.refers("bracket.slots", bracket.name, "slots", "judgment", text, ask=asked))
    return prop


def with_prop(family: Family[Any], R: float, near: Near, context: Context, *, accidental: bool) -> BracketLoads:
    """Its loads with the force of the beam on its nose."""
    nose = family.bracket.shape.stands_out
    force = Applied("L", nose, nose, P=R, what=f"from {near.beam}, which comes down on it", applied="top")
    wood, _ = wood_of_bracket(family.bracket, context)
    return bracket_loads(family.bracket, context, weight_of(family, wood), accidental=accidental, more=[force])


def _under_prop(
    family: Family[Any], R: float, near: Near, context: Context, *, waits_for: Sequence[Question]
) -> list[Check]:
    """The body and the fixings under the force that it attracts; what holds is no news here.

    `waits_for`: whether it touches at all is not known until that is answered, and nothing fails before.
    """
    bracket = family.bracket
    wood, _ = wood_of_bracket(bracket, context)
    loads = with_prop(family, R, near, context, accidental=False)
    body = family.body(loads, wood, context)  # type: ignore[arg-type]
    found = [*body.checks, *hung_on_it(bracket, loads), *fixing_checks(family, loads, body, wood, context)]
    if body.weak_grain:
        clause = "judgment (NDS 2018 3.8.2, memory)"
        found.append(Check.breaks_rule("bracket.grain_relied_on", bracket.name, "grain", clause, body.weak_grain))
    bad = [check for check in found if check.verdict == "fails"]
    if waits_for:
        return [_if_it_touches(min(bad, key=lambda check: check.rank), waits_for)] if bad else []
    # of a prop that fails nobody asks for more evidence
    return [replace(check, what=f"{PROPPED}{check.what}") for check in bad or found if not check.holds]


def _if_it_touches(check: Check, waits_for: Sequence[Question]) -> Check:
    """The worst of what would fail if there is no gap, which is not known."""
    text = f"{check.what} would not hold, if there is no gap"
    if check.ratio is not None:
        text = f"{check.what} would be at {show(check.ratio, 'ratio')} of what is allowed, if there is no gap"
    what = "what it would have to bear as a prop"
    return Check.refers("bracket.as_a_prop", check.subject, what, check.clause, text, *check.notes, ask=waits_for)

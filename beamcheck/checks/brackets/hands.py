"""Somebody who hangs on a bracket, a cover or trim: whether it is decided what then happens."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.brackets import Bracket, Trim
from ...values.brackets import accidental_loads
from ..core.asking.question import PlausibleAnswer
from ..core.result import Check
from .asking import ask_for, path_of

WHAT_IF = "somebody who hangs on it"
CLAUSE = "common practice, no source"
NOT_FOR_LOAD = "not for load"


def accidental_checks(piece: Bracket | Trim) -> Iterator[Check]:
    """The usual figures are offered, never taken."""
    id, name = "bracket.accidental", piece.name
    if piece.accidental is None:
        usual = "; ".join(one.reason for one in accidental_loads())
        text = (
            'not decided (`accidental`): give a force, or write "not for load" where it is labeled so and comes off '
            f"harmlessly. No code asks for it; {CLAUSE}: {usual}"
        )
        at, chosen = path_of(piece, "accidental"), path_of(piece, "accidental_from")
        answers = [PlausibleAnswer("no: it is labeled so and comes off harmlessly", ((at, NOT_FOR_LOAD),))]
        for one in accidental_loads():
            force = f"{one.value.load:g} lb"
            says = f"yes, {force} as for a {one.value.as_for}"
            answers.append(PlausibleAnswer(says, ((at, force), (chosen, f"the owner, as for a {one.value.as_for}"))))
        yield Check.refers(id, name, WHAT_IF, CLAUSE, text, ask=ask_for(piece, "accidental", "accidental", answers))
    elif piece.accidental == NOT_FOR_LOAD:
        text = "declared not for load: label it so, and see that it comes off without hurting anybody"
        yield Check.keeps_rule(id, name, WHAT_IF, CLAUSE, text)
    elif not piece.accidental_from.strip():
        text = "who chose that force is not said (`accidental_from`)"
        asked = ask_for(piece, "accidental_from", "accidental_from")
        yield Check.refers(id, name, WHAT_IF, CLAUSE, text, ask=asked)

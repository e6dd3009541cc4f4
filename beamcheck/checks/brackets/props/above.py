"""What is above something that is only for looks: whether it is said, so that nothing comes down on it unseen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ....model.brackets.near import Near
from ...core.asking.question import PlausibleAnswer, ask
from ...core.result import Check

WHAT, CLAUSE = "what is above it", "common practice, no source"


def above_checks(
    name: str, path: str, near: Near | None, above: str | None, likely: Iterable[PlausibleAnswer] = ()
) -> Iterator[Check]:
    """Refers where neither a beam above it nor that there is none is said.

    `name`, `path`: the piece, and where it stands in the job file: 'bracket.K1'. `likely`: iterable of PlausibleAnswer:
    beams that may well be above it, each as an answer.
    """
    id = "bracket.above"
    if above is not None:
        yield Check.keeps_rule(id, name, WHAT, CLAUSE, "nothing that could come down on it, it is said")
    elif near is None:
        text = (
            "whether a beam, a shelf or a ceiling is above it is not said: write `near` with the beam and the gap, or "
            'above = "nothing"'
        )
        nothing = PlausibleAnswer("no", ((f"{path}.above", "nothing"),))
        asked = ask("above", name, f"{path}.above", answers=[nothing, *likely])
        yield Check.refers(id, name, WHAT, CLAUSE, text, ask=asked)

"""What an end rests on, for beams, rafters and posts alike: who answers for it, what it bears, how long a seat is.

Constants of a seat stand here once.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...calc.pad import Pad
from ...formulas.wood import bearing as br
from ...model.beams import Beam
from ...model.classes import is_bracket
from ...model.existing import Existing
from ...model.fields.evidence import read_evidence
from ...units import show
from ...values.found import Found
from ...values.judgment import judgment
from .asking.question import Question, ask
from .context import AnyPiece, Context
from .result import Check
from .unsaid import unsaid_of, with_unsaid
from .wood.govern import Criterion, at, govern
from .wood.grade_asked import ask_grade
from .wood.material import WoodMaterial, is_unknown, named, reference_values, wood_of
from .wood.strength import Outcome, bearing

if TYPE_CHECKING:
    from ...model.brackets.bracket import Bracket

BEARING = "NDS 2018 3.10.2"
BEARS_NOTHING = ("plaster", "board", "trim")


def bears_nothing(under: Existing) -> bool:
    """Whether it is of a material that no letter makes into a support: roles.py fails what rests on it."""
    return under.material in BEARS_NOTHING


def confirmed(under: Existing) -> bool:
    """Whether somebody is named who answers for it."""
    return bool(under.confirmed)


def nobody_answers(under: Existing) -> str:
    """What is wanting in the words that should confirm it."""
    words = under.confirmed_by.strip()
    if not words:
        return "nobody is named who answers for it"
    return f"{words!r} does not confirm it: {read_evidence(words).missing_for('structure')}"


def ask_who_answers(under: Existing) -> Question:
    """Who answers for what is there already."""
    return ask("confirmed_by", under.name, f"existing.{under.name}.confirmed_by", what=under.what)


def answered(
    subject: str, what: str, under: Existing, *, id: str = "seat.confirmed", where: str = ""
) -> Check:  # fmt: skip
    """Whether somebody answers for what is there already or is done by others."""
    if bears_nothing(under):
        text = f"{under.material} bears nothing, whoever confirms it"
        return Check.breaks_rule(id, subject, what, "load path", text, where=where)
    if confirmed(under):
        text = f"by others, confirmed: {under.confirmed_by}; not checked here"
        return Check.keeps_rule(id, subject, what, "load path", text, where=where)
    text = f"{under.name} ({under.what}) is by others, and {nobody_answers(under)}"
    return Check.refers(id, subject, what, "load path", text, ask=ask_who_answers(under), where=where)


def wood_under(
    subject: str,
    combinations: Sequence[Loaded],
    forces: np.ndarray,
    b: float,
    l_b: float,
    under: AnyPiece,
    context: Context,
    *,
    where: str = "",
) -> list[Check]:
    """Bearing across the grain of the wood under an end (NDS 2018 3.10.2); nothing where there is no such wood.

    `forces`: (combinations,): pressing, 0 or more [lbf]. `b`, `l_b`: sides of the contact [in].
    """
    what = f"bearing of {under.name} under {subject}"
    criterion = Criterion(subject, what, BEARING, "stress", where, id="seat.bearing_under")
    found = _across_the_load(under, context)
    if found is None:
        return []
    if isinstance(found, tuple):
        text, question = found
        return [Check.refers(criterion.id, subject, what, BEARING, text, ask=question, where=where)]

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(forces, which), "lbf", note=f"what {subject} presses with, from the analysis")
        if isinstance(found, WoodMaterial):
            return bearing(pad, found, R=R, b=b, l_b=l_b, near_end=True)
        f = pad(br.bearing_stress, R=R, b=b, l_b=l_b)
        F = pad.take("F_c_perp_prime", found, "psi", note="as given in the job file, taken as adjusted")
        return Outcome(f, F, f / F)

    stock = getattr(under, "stock", None)
    return with_unsaid([govern(criterion, combinations, calculate)], unsaid_of(context.stock(stock)) if stock else ())


def _across_the_load(under: AnyPiece, context: Context) -> WoodMaterial | float | tuple[str, Question] | None:
    """The wood across the load: as known, as an allowable value (psi), or why it is not known; None: there is none."""
    if isinstance(under, Existing):
        if under.material == "other":
            question = ask("seat_material", under.name, f"existing.{under.name}.material", what=under.what)
            return f"what {under.name} is made of is not said, so the bearing under the seat is not checked", question
        if under.material != "wood":
            return None
        question = ask("seat_wood", under.name, f"existing.{under.name}.F_c_perp", what=under.what)
        return ("the bearing value of the wooden seat is not given", question) if under.F_c_perp is None else (
            under.F_c_perp
        )  # fmt: skip
    if is_bracket(under):
        return bracket_wood(under, context) if under.shape.of_wood else None
    if not isinstance(under, Beam) or context.stock(under.stock).made == "steel":
        return None  # web and flange of steel are checked as its own
    return _made_of(under.name, under.stock, context, under.laid)


def _made_of(name: str, stock: str, context: Context, laid: str = "on edge") -> WoodMaterial | tuple[str, Question]:
    found = context.stock(stock)
    if is_unknown(found):
        return f"the wood of {name} is not known", ask_grade(found)
    return named(wood_of(found, reference_values(found), laid=laid, form="beam"), name)


def bracket_wood(under: Bracket, context: Context) -> WoodMaterial | tuple[str, Question]:
    """The wood of a bracket under what rests on it, or why it is not known, with the question.

    Bearing across the grain counts whichever way the grain runs: along it the wood bears more.
    """
    if under.stock is None:
        question = ask("bracket_stock", under.name, f"bracket.{under.name}.stock")
        return f"what {under.name} is made of where it is pressed is not said", question
    if context.stock(under.stock).made == "steel":
        question = ask("bracket_stock", under.name, f"bracket.{under.name}.stock")
        return f"{under.name} is entered as a stick of steel", question
    return _made_of(under.name, under.stock, context)


def least_seat_length(under: AnyPiece | None = None) -> Found[float]:
    """The shortest seat allowed on it, whatever the load, inches (IRC R502.6)."""
    return judgment(f"least seat on {_hard_or_not(under)}")


def _hard_or_not(under: AnyPiece | None) -> str:
    masonry = isinstance(under, Existing) and under.material in ("masonry", "concrete")
    return "masonry or concrete" if masonry else "wood or metal"


def least_seat(subject: str, what: str, l_b: float, under: AnyPiece, clause: str, *, where: str = "") -> list[Check]:
    """The shortest seat that is allowed, whatever the load."""
    least = least_seat_length(under)
    if l_b >= least.value:
        return []
    text = f"{show(l_b, 'length')} counted, at least {show(least.value, 'length')} asked on {_hard_or_not(under)}"
    return [Check.breaks_rule("seat.least", subject, what, clause, text, where=where)]

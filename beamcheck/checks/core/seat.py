"""What an end rests on: who answers for it, and whether the wood under it, across the load, can bear it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...calc.pad import Pad
from ...formulas.wood import bearing as br
from ...model.brackets import Bracket
from ...model.pieces import Beam, Existing
from ...units import show
from ..beams.bearing import LEAST_ON_MASONRY, LEAST_ON_WOOD, bears_nothing, bracket_wood
from .context import AnyPiece, Context
from .govern import Criterion, at, govern, stated
from .material import WoodMaterial, bearing_prime, is_unknown, reference_values, wood_of
from .result import Check
from .strength import Outcome


def answered(subject: str, what: str, under: Existing) -> Check:
    """Whether somebody answers for what is there already or is done by others."""
    if bears_nothing(under):
        text = f"{under.material} bears nothing, whoever confirms it"
        return stated(subject, what, "load path", "fails", text)
    if under.confirmed_by.strip():
        return stated(
            subject, what, "load path", "passes", f"by others, confirmed: {under.confirmed_by}; not checked here"
        )
    return stated(
        subject, what, "load path", "refer",
        f"{under.name} ({under.what}) is by others, and nobody is named who answers for it (`confirmed_by`)",
    )  # fmt: skip


def wood_under(
    subject: str,
    combinations: Sequence[Loaded],
    forces: np.ndarray,
    b: float,
    l_b: float,
    under: AnyPiece,
    context: Context,
) -> list[Check]:
    """Bearing across the grain of the wood under an end (NDS 2018 3.10.2); nothing where there is no such wood.

    Parameters
    ----------
    forces : (combinations,)
        Pressing, 0 or more. [lbf]
    b, l_b : float
        Sides of the contact. [in]
    """
    criterion = Criterion(subject, f"bearing of {under.name} under {subject}", "NDS 2018 3.10.2", "stress")
    allowed: WoodMaterial | float
    if isinstance(under, Existing):
        if under.material != "wood":
            return []
        if under.F_c_perp is None:
            text = "the bearing value of that wood is not given (F_c_perp of the [[existing]] entry)"
            return [stated(subject, criterion.what, criterion.clause, "refer", text)]
        allowed = under.F_c_perp
    elif isinstance(under, Beam):
        stock = context.stock(under.stock)
        if is_unknown(stock):
            return [
                stated(subject, criterion.what, criterion.clause, "refer", f"the wood of {under.name} is not known")
            ]
        allowed = wood_of(stock, reference_values(stock), laid=under.laid)
    elif isinstance(under, Bracket):
        wood = bracket_wood(under, context)
        if isinstance(wood, str):
            return [stated(subject, criterion.what, criterion.clause, "refer", wood)]
        allowed = wood
    else:
        return []  # end grain of a post: checked with the post

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(forces, which), "lbf", note=f"what {subject} presses with, from the analysis")
        f = pad(br.bearing_stress, R=R, b=b, l_b=l_b)
        if isinstance(allowed, WoodMaterial):
            F = bearing_prime(pad, allowed, 1.0)
        else:
            F = pad.take("F_c_perp_prime", allowed, "psi", note="as given in the job file, taken as adjusted")
        return Outcome(f, F, f / F)

    return [govern(criterion, combinations, calculate)]


def least_seat(subject: str, what: str, l_b: float, under: AnyPiece, clause: str) -> list[Check]:
    """The shortest seat that is allowed, whatever the load."""
    masonry = isinstance(under, Existing) and under.material in ("masonry", "concrete")
    least = LEAST_ON_MASONRY if masonry else LEAST_ON_WOOD
    if l_b >= least:
        return []
    text = (
        f"{show(l_b, 'length')} counted, at least {show(least, 'length')} asked on "
        f"{'masonry or concrete' if masonry else 'wood or metal'}"
    )
    return [stated(subject, what, clause, "fails", text)]

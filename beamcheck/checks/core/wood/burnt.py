"""A piece after so many minutes of fire: what is left of its section, and what its wood takes (NDS 2018 chapter 16).

The kernels of `strength.py` then run as they do on the cold piece: strengths go in times their factor of Table 16.2.2,
without C_D, C_M, C_t and C_r, E_min times that of buckling, size and flat-use factors those of the whole section.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from ....analysis.beams.combinations import Loaded
from ....calc.pad import Pad, Step
from ....errors import OutOfRange
from ....formulas.fire import char
from ....model.fields.evidence import read_evidence
from ....model.fire import Fire
from ....provenance import Source
from ....units import show
from ....values.conditions.fire import fire_factor
from ....values.found import Found
from ....values.judgment import judgment
from ....values.lumber import Size
from ..asking.question import Question, ask
from ..result import Check
from .material import ONE, Property, WoodMaterial
from .strength import Section

CLAUSE = "NDS 2018 16.2"
NO_DURATION = Found(1.0, Source("NDS 2018 Table 16.2.2", "memory"), "no load duration factor in a fire")
SAID = (
    "Fire: whether a rating is needed is decided by the code official; one- and two-family houses seldom need one for "
    "a beam. Shear and bearing of what is left, and deflection, are not checked. Deep open checks let the fire in: an "
    "engineer has to look at them. A bare steel part has no rating."
)

_TIME = re.compile(r"(\d+(?:\.\d+)?)[\s-]*(min|minutes?|h|hr|hours?)\b", re.IGNORECASE)


@dataclass(frozen=True)
class Burnt:
    """What is left: sides, inches, the depth that no longer counts, and how it was worked out."""

    section: Section
    a_eff: float
    steps: tuple[Step, ...]


def burnt(fire: Fire, section: Section) -> Burnt:
    """The section that is left.

    Raises
    ------
    OutOfRange
        If nothing is left, or the piece is round.
    """
    if section.round:
        raise OutOfRange("what is left of a round piece is for an engineer", CLAUSE)
    pad, nominal = Pad(), judgment("char depth in the first hour")
    beta_t = pad.take("beta_t", nominal.value, "in", note=nominal.reason, source=nominal.source)
    a_char = pad(char.char_depth, beta_t=beta_t, t_fire=fire.minutes / 60.0)
    a_eff = float(pad(char.effective_char_depth, a_char=a_char))
    n_sides = float(sum(face in fire.exposed for face in ("left", "right")))
    n_faces = float(sum(face in fire.exposed for face in ("top", "bottom")))
    b = float(pad(char.residual_breadth, b=section.b, n_sides=n_sides, a_eff=a_eff))
    d = float(pad(char.residual_depth, d=section.d, n_faces=n_faces, a_eff=a_eff))
    return Burnt(Section(b, d, b), a_eff, tuple(pad.steps))


def burning_wood(wood: WoodMaterial) -> WoodMaterial:
    """The same wood with the values of a fire."""

    def times(given: Property, of: str) -> Property:
        factor = fire_factor(of)
        value = char.fire_value(K_fire=factor.value, F_ref=given.value)
        return replace(given, value=value, C_M=ONE, C_t=ONE, C_r=ONE, source=factor.source)

    return replace(
        wood, F_b=times(wood.F_b, "bending"), F_t=times(wood.F_t, "tension"), F_c=times(wood.F_c, "compression"),
        E_min=times(wood.E_min, "column buckling"),
    )  # fmt: skip


def left_as_size(size: Size, section: Section) -> Size:
    """The size by which the proportion of what is left is judged: as measured."""
    b, d = sorted((float(section.b), float(section.d)))
    return replace(size, b=b, d=d, nominal_b=None, nominal_d=None, surface="measured")


def without_duration(combinations: Sequence[Loaded]) -> list[Loaded]:
    """The combinations with C_D = 1."""
    return [replace(one, C_D=1.0, duration=NO_DURATION) for one in combinations]


def without_wind(combinations: Sequence[Loaded]) -> np.ndarray:
    """1 for each combination that counts in a fire, 0 for those with wind: (combinations,)."""
    return np.array([0.0 if "W" in one.name else 1.0 for one in combinations])


def in_the_fire(checks: Sequence[Check], id: str, minutes: float, steps: Sequence[Step]) -> Iterator[Check]:
    """Checks of the cold piece, made of the one in the fire: named so, the char worked out before them."""
    for check in checks:
        what = f"after {minutes:g} min of fire: {check.what}"
        yield replace(check, id=id, what=what, steps=(*steps, *check.steps), clause=f"{CLAUSE}, {check.clause}")


def nothing_is_left(name: str, fire: Fire, error: OutOfRange) -> Check:
    """A piece of which the fire leaves nothing."""
    text = f"after {fire.minutes:g} min: {error}"
    return Check.breaks_rule("fire.section", name, "section left by the fire", CLAUSE, text)


def lasts(said: str, minutes: float) -> bool:
    """Whether an engineer, listing or report answers for what covers or holds, for all that time if one is named."""
    read = read_evidence(said)
    named = [float(number) * (60.0 if unit[0] in "hH" else 1.0) for number, unit in _TIME.findall(said)]
    return (read.documented or read.answers_for("structure")) and not (named and max(named) < minutes)


def bracing_asked(name: str, kind: str, fire: Fire) -> Iterator[Question]:
    """What holds the edges of a piece in the fire, where nobody answers for it: only its ends count then."""
    if not lasts(fire.bracing_lasts, fire.minutes):
        yield ask("fire_bracing", name, f"{kind}.{name}.fire.bracing_lasts", minutes=f"{fire.minutes:g}")


def cover_checks(name: str, kind: str, fire: Fire) -> Iterator[Check]:
    """Faces that the fire is said not to reach: something has to cover them all that time."""
    covered = [face for face in ("top", "bottom", "left", "right") if face not in fire.exposed]
    what = "faces that the fire does not reach"
    if not covered:
        return
    if lasts(fire.others_covered_by, fire.minutes):
        text = f"{' and '.join(covered)}: {fire.others_covered_by}"
        yield Check.keeps_rule("fire.cover", name, what, CLAUSE, text)
        return
    faces = " and ".join(covered)
    asked = ask("fire_cover", name, f"{kind}.{name}.fire.others_covered_by", faces=faces, minutes=f"{fire.minutes:g}")
    said = f"{fire.others_covered_by!r} does not say who answers for it, in which paper, for so long"
    text = f"{faces}: {said if fire.others_covered_by else f'what covers them for {fire.minutes:g} min is not said'}"
    yield Check.refers("fire.cover", name, what, CLAUSE, text, ask=asked)


def steel_check(name: str, group: str, cover: float | None, said: str, fire: Fire, a_eff: float) -> Check:
    """Steel that holds a piece in a fire: as much wood over it as chars, or a cover that somebody answers for."""
    what, clause, where = f"cover of the steel of {group}", "NDS 2018 16.3", group
    if lasts(said, fire.minutes):
        return Check.keeps_rule("fire.steel", name, what, clause, f"covered: {said}; not checked here", where=where)
    asked = ask("fire_steel", group, f"anchor.{group}.fire_cover", answers=[show(a_eff, "length")],
                minutes=f"{fire.minutes:g}", needed=show(a_eff, "small length"))  # fmt: skip
    if cover is None or cover <= 0.0:
        text = f"a bare steel part has no rating; {show(a_eff, 'small length')} of wood over it would do"
        return Check.refers("fire.steel", name, what, clause, text, ask=asked, where=where)
    return Check.of_ratio("fire.steel", name, what, clause, demand=a_eff, capacity=cover, kind="length", where=where)

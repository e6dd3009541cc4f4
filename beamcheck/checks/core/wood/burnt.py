"""A piece after so many minutes of fire: what is left of its section, and what its wood takes (NDS 2018 chapter 16).

The kernels of `strength.py` then run as they do on the cold piece: strengths go in times their factor of Table 16.2.2,
without C_D, C_M, C_t and C_r, E_min times that of buckling, size and flat-use factors those of the whole section.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, TypeVar

import numpy as np

from ....analysis.beams.combinations import Loaded
from ....calc.pad import Pad, Step
from ....errors import OutOfRange
from ....formulas.fire import char
from ....model.fields.base import Piece
from ....model.fields.evidence import read_evidence
from ....model.fire import Fire
from ....provenance import Source
from ....records import dataclass
from ....units import show
from ....values.conditions.fire import fire_factor
from ....values.found import Found
from ....values.judgment import judgment
from ....values.lumber import Size
from ....values.refused import in_trade_words
from ..asking.question import PlausibleAnswer, Question, ask
from ..result import Check
from .material import ONE, Property, WoodMaterial
from .strength import Section

if TYPE_CHECKING:
    from ....model.anchors.anchor import Anchor

CLAUSE = "NDS 2018 16.2"
NO_DURATION = Found(1.0, Source("NDS 2018 Table 16.2.2", "memory"), "no load duration factor in a fire")
SAID = (
    "Fire: whether a rating is needed is decided by the code official; one- and two-family houses seldom need one for "
    "a beam. Shear and bearing of what is left get no factor of the fire, since its edition decides; deflection has no "
    "limit in a fire. Deep open checks let the fire in: an engineer has to look at them. A bare steel part has no "
    "rating."
)
NO_FACTOR = "with the value of the cold wood for a lasting load: no factor of the fire is counted on"

P = TypeVar("P", bound=Piece)

_NUMBER, _HOURS, _MINUTES = r"(?<![\d.])(\d+(?:\.\d+)?)[\s-]*", r"(?:h|hrs?|hours?)\b", r"(?:mins?|minutes?)\b"
_TIME = re.compile(rf"{_NUMBER}{_HOURS}(?:[\s,]*(?:and )?{_NUMBER}{_MINUTES})?|{_NUMBER}{_MINUTES}", re.IGNORECASE)


@dataclass(frozen=True)
class Burnt:
    """What is left after so many minutes: sides, inches, the depth that no longer counts, and how it was worked out."""

    minutes: float
    section: Section
    a_eff: float
    steps: tuple[Step, ...]


def burnt(fire: Fire, section: Section) -> Burnt:
    """The section that is left. Raises OutOfRange if nothing is left, or the piece is round."""
    if section.round:
        raise OutOfRange("what is left of a round piece is for an engineer", CLAUSE)
    pad, nominal = Pad(), judgment("char depth in the first hour")
    beta_t = pad.take("beta_t", nominal.value, "in", note=nominal.reason, source=nominal.source)
    a_char = pad(char.char_depth, beta_t=beta_t, t_fire=fire.minutes / 60.0)
    a_eff = float(pad(char.effective_char_depth, a_char=a_char))
    n_sides = float(sum(face in fire.exposed for face in ("left", "right")))
    n_faces = float(sum(face in fire.exposed for face in ("top", "bottom")))
    for what, size, n in (("breadth", section.b, n_sides), ("depth", section.d, n_faces)):
        if size <= n * a_eff:
            text = f"it burns {show(a_eff, 'length')} deep from {n:g} side{'s' * (n > 1)} of a {what} of"
            raise OutOfRange(f"{text} {show(float(size), 'length')}: nothing is left of it", CLAUSE)
    b = float(pad(char.residual_breadth, b=section.b, n_sides=n_sides, a_eff=a_eff))
    d = float(pad(char.residual_depth, d=section.d, n_faces=n_faces, a_eff=a_eff))
    return Burnt(fire.minutes, Section(b, d, b), a_eff, tuple(pad.steps))


def begin(name: str, kind: str, fire: Fire, section: Section, path: str = "") -> tuple[list[Check], Burnt | None]:
    """What covers the faces, and what the fire leaves of the piece: None where that is nothing."""
    checks = list(cover_checks(name, kind, fire, path))
    try:
        return checks, burnt(fire, section)
    except OutOfRange as error:
        text = f"after {fire.minutes:g} min: {in_trade_words(error)}"
        return [*checks, Check.breaks_rule("fire.section", name, "section left by the fire", CLAUSE, text)], None


def not_worked_out(name: str, fire: Fire, why: str, more: str = "", what: str = "what the fire leaves") -> Check:
    """What an engineer has to look at; `more`: other words for the question."""
    asked = ask("fire_engineer", name, why=more or f"{why[0].upper()}{why[1:]}.", minutes=f"{fire.minutes:g}")
    return Check.refers("fire.engineer", name, what, CLAUSE, why, ask=asked)


def with_its_bracing(piece: P, fire: Fire) -> P:
    """The piece as it is held in the fire: at its ends only, unless its bracing lasts."""
    if lasts(fire.bracing_lasts, fire.minutes):
        return piece
    return piece.model_copy(update={"top_held": "ends only", "bottom_held": "ends only"})


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


def in_the_fire(checks: Sequence[Check], id: str, left: Burnt) -> Iterator[Check]:
    """Checks of the cold piece, made of the one in the fire: named so, the char worked out before them."""
    for check in checks:
        what = f"after {left.minutes:g} min of fire: {check.what}"
        yield replace(check, id=id, what=what, steps=(*left.steps, *check.steps), clause=f"{CLAUSE}, {check.clause}")


def without_a_factor(check: Check, id: str, left: Burnt) -> Check:
    """Shear or bearing of what is left. The reference knows no factor for them: what goes beyond the value of the cold
    wood is for an engineer, who has the edition in force.
    """
    (found,) = in_the_fire([check], id, left)
    found = replace(found, notes=(*found.notes, NO_FACTOR))
    if found.holds:
        return found
    what, figure = check.what, "" if check.ratio is None else f": {show(check.ratio, 'ratio')} of it"
    asked = ask("fire_no_factor", check.subject, what=what, minutes=f"{left.minutes:g}")
    asked = replace(asked, id=f"{asked.id} of {what}")
    text = f"more than the value of the cold wood on what is left{figure}; the factor of the edition in force decides"
    return Check.refers(id, check.subject, found.what, found.clause, text, ask=asked, where=check.where)


def carrier_checks(name: str, under: Sequence[Any], fire: Fire) -> Iterator[Check]:
    """What carries or holds a piece has to stand as long: sticks of the job by their own fire, brackets by an engineer.

    What is there already is answered for by whoever confirms it.
    """
    for one in under:
        kind = type(one).__name__.casefold()
        if kind not in ("beam", "post", "bracket", "rafter", "tie"):
            continue
        own: Fire | None = getattr(one, "fire", None)
        if own is not None and own.minutes >= fire.minutes:
            continue
        id, what, clause = "fire.carrier", f"what carries it in the fire: {one.name}", "IBC 2018 704.1"
        if kind == "bracket":
            why = "What a bracket and its fixings take in a fire is not worked out here."
            asked = ask("fire_engineer", one.name, why=why, minutes=f"{fire.minutes:g}")
            yield Check.refers(id, name, what, clause, why, ask=asked)
            continue
        path, faces = f"{kind}.{one.name}.fire", ["bottom", "left", "right", *(["top"] if kind == "post" else [])]
        sets = ((f"{path}.minutes", fire.minutes), *(() if own else ((f"{path}.exposed", faces),)))
        best = PlausibleAnswer(f"{fire.minutes:g} minutes, {', '.join(faces)} exposed", sets)
        asked = ask("fire_carrier", one.name, f"{path}.minutes", answers=[best], minutes=f"{fire.minutes:g}",
                    carried=name)  # fmt: skip
        text = f"{one.name} carries it, and no fire of {fire.minutes:g} min is asked of {one.name}"
        yield Check.refers(id, name, what, clause, text, ask=asked)


def lasts(said: str, minutes: float) -> bool:
    """Whether an engineer, listing or report answers for what covers or holds, for all that time if one is named.

    Of several times the least counts: which of them is that of the cover, nothing here can tell.
    """
    read = read_evidence(said)
    named = [
        60.0 * float(hours or 0) + float(more or minutes_alone or 0)
        for hours, more, minutes_alone in _TIME.findall(said)
    ]
    return (read.documented or read.answers_for("structure")) and not (named and min(named) < minutes)


def bracing_asked(name: str, kind: str, fire: Fire, path: str = "") -> Iterator[Question]:
    """What holds the edges of a piece in the fire, where nobody answers for it: only its ends count then."""
    if not lasts(fire.bracing_lasts, fire.minutes):
        yield ask("fire_bracing", name, f"{path or f'{kind}.{name}'}.fire.bracing_lasts", minutes=f"{fire.minutes:g}")


def cover_checks(name: str, kind: str, fire: Fire, path: str = "") -> Iterator[Check]:
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
    at = f"{path or f'{kind}.{name}'}.fire.others_covered_by"
    asked = ask("fire_cover", name, at, faces=faces, minutes=f"{fire.minutes:g}")
    said = f"{fire.others_covered_by!r} does not say who answers for it, in which paper, for so long"
    text = f"{faces}: {said if fire.others_covered_by else f'what covers them for {fire.minutes:g} min is not said'}"
    yield Check.refers("fire.cover", name, what, CLAUSE, text, ask=asked)


def seat_burns_away(name: str, what: str, text: str, minutes: float, where: str = "") -> Check:
    """A seat that is shorter than what burns of it."""
    asked = ask("fire_no_factor", name, what=what, minutes=f"{minutes:g}")
    asked = replace(asked, id=f"{asked.id} of {what}")
    return Check.refers("fire.bearing", name, what, CLAUSE, text, ask=asked, where=where)


def steel_check(name: str, anchor: Anchor, fire: Fire, a_eff: float, section: Section) -> Check:
    """Steel that holds a piece in a fire: as much wood over it as chars, or a cover that somebody answers for.

    No place in wood has more of it over it than half of its lesser side: a cover beyond that is a slip.
    """
    group, cover, said = anchor.name, anchor.fire_cover, anchor.fire_covered_by
    what, clause, where = f"cover of the steel of {group}", "NDS 2018 16.3", group
    if lasts(said, fire.minutes):
        return Check.keeps_rule("fire.steel", name, what, clause, f"covered: {said}; not checked here", where=where)
    most, needed = 0.5 * min(float(section.b), float(section.d)), show(a_eff, "small length")
    fits = a_eff <= most
    field, boards = f"anchor.{group}.fire_covered_by", f"boards of {_up(a_eff)} over all steel, engineer's sheet no. 1"
    best = [_up(a_eff)] if fits else [PlausibleAnswer(boards, ((field, boards),))]
    asked = ask("fire_steel", group, f"anchor.{group}.fire_cover", answers=best, minutes=f"{fire.minutes:g}",
                needed=needed)  # fmt: skip
    if cover is None or cover <= 0.0:
        text = f"a bare steel part has no rating; {needed} of wood over it would do"
        more = "" if fits else f", which a piece of {show(2.0 * most, 'length')} has nowhere"
        return Check.refers("fire.steel", name, what, clause, text + more, ask=asked, where=where)
    if cover > most:
        text = f"{show(cover, 'length')} of wood is said to lie over it: in a piece of {show(2.0 * most, 'length')} no "
        text += f"place has more than {show(most, 'length')}"
        return Check.refers("fire.steel", name, what, clause, text, ask=asked, where=where)
    return Check.of_ratio("fire.steel", name, what, clause, demand=a_eff, capacity=cover, kind="length", where=where)


def _up(x: float) -> str:
    """A length rounded up to the next sixteenth."""
    return show(-(-x * 16.0 // 1.0) / 16.0, "length")

"""Anchors without a joint of wood and fasteners: hanger rods, rated hardware, the work of others, and mere glue."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...calc.pad import Pad
from ...errors import OutOfRange
from ...formulas.connections import tear_out as tear
from ...formulas.connections import washer as wash
from ...formulas.steel import bolts as bolts
from ...formulas.wood import bearing as br
from ...formulas.wood.section import round_area
from ...model.anchor_links import diameter
from ...model.anchors import Anchor, Fastener
from ...model.pieces import Beam
from ...model.rules import beam_length
from ...provenance import Source
from ...units import show
from ...values.fasteners import washer
from ...values.lumber import read_size
from ...values.steels import bolt_grades, bolt_steel, steel
from ..beams.beam import section_of
from ..beams.bearing import CLEAR_OF_END, NEGLIGIBLE
from ..core.context import Context
from ..core.govern import Criterion, at, duration, govern, stated
from ..core.material import WoodMaterial, bearing_prime, is_unknown, reference_values, wood_of
from ..core.result import Check
from ..core.strength import Outcome
from .group import Forces, Group

Array = np.ndarray
ROD, LOW, RATED = "AISC 360-16 J3.6", "NDS 2018 3.8.2", "published rating"
NUTS = 2.5  # D beyond the wood: two nuts and their washers (common practice, no source)
MOST_C_D = 1.6  # NDS 2018 11.3.2: no impact factor in connections
DIRECTIONS = (("down", "down"), ("up", "up"), ("along", "along the piece, out of the joint"))


def seat_takes(forces: Forces) -> Forces:
    """The forces of an end that rests on a seat: what presses down stays in the seat."""
    return Forces(forces.combinations, np.minimum(forces.across, 0.0), forces.along)


def parts_of(forces: Forces) -> dict[str, Array]:
    """(combinations,) forces by direction, each 0 or more, lbf."""
    return {
        "down": np.maximum(forces.across, 0.0), "up": np.maximum(-forces.across, 0.0),
        "along": np.maximum(forces.along, 0.0), "pressing": np.maximum(-forces.along, 0.0),
    }  # fmt: skip


# ---- rated hardware ---------------------------------------------------------------------------------------------


def rated_checks(group: Group) -> list[Check]:
    """The loads that its report publishes against the forces, direction by direction and together."""
    name, rating = group.anchor.name, group.anchor.rating
    if rating is None:
        return [stated(name, "rating", RATED, "refer", "no published loads are given (`rating`)")]
    found = [*_conditions(group)]
    parts = parts_of(group.forces)
    covered: list[tuple[str, Array, float]] = []
    for field, words in DIRECTIONS:
        most, allowed = float(np.max(parts[field])), getattr(rating, field)
        if most <= NEGLIGIBLE:
            continue
        if allowed is None:
            text = f"the rating does not cover the load {words}: {show(most, 'force')} come that way, and it holds none"
            found.append(stated(name, f"rated load {words}", RATED, "fails", text))
            continue
        covered.append((words, parts[field], float(allowed)))
    if float(np.max(parts["pressing"])) > NEGLIGIBLE:
        text = "the piece is also pressed into the joint, for which the rating has no word here"
        found.append(stated(name, "pressing into the joint", RATED, "refer", text))
    found += [_rated(group, words, [(force, allowed)]) for words, force, allowed in covered]
    if len([one for one in covered if one[0] != "up"]) > 1 or len(covered) > 2:
        found.append(_rated(group, "in several directions at once", [(force, most) for _, force, most in covered]))
    if not found:
        found.append(stated(name, "rated load", RATED, "passes", "no force comes to it under any combination"))
    return found


def _conditions(group: Group) -> Iterator[Check]:
    rating = group.anchor.rating
    assert rating is not None
    what = "conditions of the rating"
    if rating.conditions_met is not True:
        said = f": {rating.conditions}" if rating.conditions.strip() else ""
        text = f"nobody has said that they are met (`conditions_met`){said}"
        if rating.conditions_met is False:
            text = f"they are said not to be met{said}: the published loads do not hold"
        yield stated(group.anchor.name, what, RATED, "refer", text)
    elif not rating.conditions.strip():
        yield stated(group.anchor.name, what, RATED, "refer", "what they are is not written down (`conditions`)")
    else:
        yield stated(group.anchor.name, what, RATED, "passes", f"said to be met: {rating.conditions}")


def _rated(group: Group, words: str, loads: list[tuple[Array, float]]) -> Check:
    rating = group.anchor.rating
    assert rating is not None
    criterion = Criterion(group.anchor.name, f"rated load {words}", RATED, "force" if len(loads) == 1 else "ratio")
    source = Source(rating.source, "given")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        factor: float | Array = 1.0
        if rating.duration == "apply C_D":
            C_D = duration(pad, group.forces.combinations, which)
            factor = np.minimum(C_D, MOST_C_D)
            pad.take("C_D", factor, note="at most 1.6 in a connection") if isinstance(which, int) else None
        used: float | Array = 0.0
        for force, allowed in loads:
            R = pad.take("R", at(force, which), "lbf", note=f"{words}; from the analysis")
            R_a = pad.take("R_a", allowed, "lbf", note="as published; nothing is added", source=source)
            if len(loads) == 1:
                return Outcome(R, R_a * factor, R / (R_a * factor))
            used = used + R / (R_a * factor)
        return Outcome(used, 1.0, used)

    return govern(criterion, group.forces.combinations, calculate)


# ---- others, and nothing ----------------------------------------------------------------------------------------


def others_checks(anchor: Anchor, forces: Forces) -> list[Check]:
    """By others: named and passed on, never passed."""
    what, clause = "fastening by others", "load path"
    if anchor.confirmed_by.strip():
        text = (
            f"by others, said to be confirmed: {anchor.confirmed_by}. Not checked: it must take {force_words(forces)}"
        )
        return [stated(anchor.name, what, clause, "refer", text)]
    text = f"by others, and nobody is named who answers for it (`confirmed_by`). It must take {force_words(forces)}"
    return [stated(anchor.name, what, clause, "refer", text)]


def nothing_checks(anchor: Anchor, forces: Forces) -> list[Check]:
    """Glue, brads, unrated pegs, magnets: they hold nothing up."""
    what, clause = "holds nothing", "load path"
    if max(float(np.max(part)) for part in parts_of(forces).values()) > NEGLIGIBLE:
        text = (
            "glue, brads, unrated pegs and magnets hold no load that anybody can count on, and "
            f"{force_words(forces)} come to it: it needs a fastening that can be worked out"
        )
        return [stated(anchor.name, what, clause, "fails", text)]
    text = "no force was worked out for it; it holds the piece against nothing, a knock or a draught included"
    return [stated(anchor.name, what, clause, "refer", text)]


def force_words(forces: Forces) -> str:
    """'up to 1,200 lb down and 300 lb up'."""
    parts = parts_of(forces)
    words = {"down": "down", "up": "up", "along": "out of the joint", "pressing": "into the joint"}
    found = [
        f"{show(float(np.max(parts[key])), 'force')} {text}"
        for key, text in words.items() if float(np.max(parts[key])) > NEGLIGIBLE
    ]  # fmt: skip
    return "up to " + " and ".join(found) if found else "no force under any combination"


# ---- hanger rods ------------------------------------------------------------------------------------------------


def rod_checks(group: Group, context: Context, lands_at: float | None) -> list[Check]:
    """A rod from a nut and washer on the top of one beam to a nut and washer under another.

    Parameters
    ----------
    lands_at : float or None
        Where along the carrying beam, inches.
    """
    anchor, fastener, carrying = group.anchor, group.anchor.fastener, group.into
    if fastener is None:
        return [stated(anchor.name, "hanger rod", ROD, "refer", "the rod is not described (`fastener`)")]
    found: list[Check] = []
    T = parts_of(group.forces)["down"]
    if float(np.min(group.forces.across)) < -NEGLIGIBLE:
        text = f"the end lifts with {show(-float(np.min(group.forces.across)), 'force')}: a rod pulls, it does not push"
        found.append(stated(anchor.name, "uplift on a rod", "ASCE 7-16 2.4.1", "fails", text))
    rods = max(len({round(float(x), 6) for x in group.x}), 1)
    if rods > 1 or group.x.size > 1:
        text = "how several rods share the load is for an engineer; each is taken to carry all of it"
        found.append(stated(anchor.name, "several rods", "statics", "refer", text))
    if fastener.counterbore is not None:
        text = "the bores for its nuts are not taken off the beams: enter them as cuts, or set the nuts on the faces"
        found.append(stated(anchor.name, "bores of a rod", "NDS 2018 3.1.2", "refer", text))
    found.append(_rod_tension(group, fastener, T))
    found += _washers(group, context, fastener, T, lands_at)
    if not isinstance(carrying, Beam):
        text = "the rod does not hang from a beam of this job: what it hangs from is not checked"
        return [*found, stated(anchor.name, "upper end of the rod", "load path", "refer", text)]
    return [*found, _through(group, context, fastener, carrying)]


def _through(group: Group, context: Context, fastener: Fastener, carrying: Beam) -> Check:
    """Whether the rod is long enough to go through both: one that ends low in a beam tears it across the grain."""
    above = float(section_of(read_size(context.stock(carrying.stock).size), carrying.laid, carrying.plies).d)
    both, what = above + float(group.section.d), "the rod goes right through"
    if fastener.length is None:
        text = f"its length is not given; through {carrying.name} and {group.piece} it needs over "
        text += show(both, "length")
        return stated(group.anchor.name, what, LOW, "refer", text)
    D = diameter(fastener.kind, fastener.size)
    if fastener.length <= both + NUTS * D:
        text = (
            f"{show(fastener.length, 'length')} long it does not go through {carrying.name} and {group.piece}, "
            f"together {show(both, 'length')} deep, with a washer and a nut at either end: a rod that ends low in a "
            "beam pulls it apart across the grain"
        )
        return stated(group.anchor.name, what, LOW, "refer", text)
    text = f"long enough to take a nut on the top of {carrying.name} and one under {group.piece}"
    return stated(group.anchor.name, what, LOW, "passes", text)


def _rod_tension(group: Group, fastener: Fastener, T: Array) -> Check:
    criterion = Criterion(group.anchor.name, "tension of the rod", ROD, "force", notes=("steel takes no C_D",))
    if not fastener.steel:
        return stated(group.anchor.name, criterion.what, ROD, "refer", "the steel of the rod is not given (`steel`)")
    grade, D = fastener.steel, diameter(fastener.kind, fastener.size)
    as_bolt = grade.casefold() in map(str.casefold, bolt_grades())

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        pull = pad.take("T", at(T, which), "lbf", note="from the analysis")
        A_b = pad(round_area, symbol="A_b", D=D)
        if as_bolt:
            bolt = bolt_steel(grade)
            F_nt = pad.take("F_nt", bolt.value.F_nt, "psi", note=bolt.reason, source=bolt.source)
        else:
            rod = steel(grade)
            F_u = pad.take("F_u", rod.value.F_u, "psi", note=rod.reason, source=rod.source)
            F_nt = pad(bolts.threaded_tension_strength, F_u=F_u)
        T_a = pad(bolts.bolt_tension, F_nt=F_nt, A_b=A_b)
        return Outcome(pull, T_a, pull / T_a)

    return govern(criterion, group.forces.combinations, calculate)


def _washers(group: Group, context: Context, fastener: Fastener, T: Array, lands_at: float | None) -> Iterator[Check]:
    """The wood under both washers. A washer wider than the standard one is not counted wider: it may bend."""
    name, standard, carrying = group.anchor.name, washer(fastener.size), group.into
    d_h, D_w = float(tear.bolt_hole(diameter(fastener.kind, fastener.size))), standard.value.outer
    notes: tuple[str, ...] = ()
    if fastener.washer is None:
        text = f"not given; {standard.reason} is counted, and must be there before the nut is covered (`washer`)"
        yield stated(name, "washers of the rod", "NDS 2018 12.1.3.3", "refer", text)
    else:
        if fastener.washer > D_w * (1.0 + 1e-6):
            notes = (f"counted as wide as {standard.reason}: how thick a wider one is, is not known here",)
        D_w = min(fastener.washer, D_w)
    if D_w <= d_h:
        text = f"{show(D_w, 'length')} across, in a hole of {show(d_h, 'length')}: it is pulled through"
        yield stated(name, "washers of the rod", "NDS 2018 12.1.3.3", "fails", text)
        return
    inner = (float(group.x[0]) if group.x.size else 0.0) - 0.5 * D_w
    yield _washer(group, group.wood, f"washer under {group.piece}", T, D_w, d_h, inner >= CLEAR_OF_END, notes)
    if isinstance(carrying, Beam):
        stock, what = context.stock(carrying.stock), f"washer on the top of {carrying.name}"
        if is_unknown(stock):
            yield stated(name, what, wash.WASHER, "refer", f"the wood of {carrying.name} is not known")
            return
        wood = wood_of(stock, reference_values(stock), laid=carrying.laid)
        end = -1.0 if lands_at is None else min(lands_at, beam_length(carrying) - lands_at) - 0.5 * D_w
        yield _washer(group, wood, what, T, D_w, d_h, end >= CLEAR_OF_END, notes)


def _washer(
    group: Group, wood: WoodMaterial, what: str, T: Array, D_w: float, d_h: float, clear: bool, notes: tuple[str, ...]
) -> Check:
    criterion = Criterion(group.anchor.name, what, wash.WASHER, "force", notes=notes)
    combinations: tuple[Loaded, ...] = group.forces.combinations

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        pull = pad.take("T", at(T, which), "lbf", note="from the analysis")
        A = pad(wash.round_washer_area, D_w=D_w, d_h=d_h)
        if clear:
            C_b = pad(br.bearing_area_factor, l_b=D_w)
        else:
            C_b = pad.take("C_b", 1.0, clause="NDS 2018 3.10.4", note="not shown to be 3 in clear of the end")
        T_w = pad(wash.washer_bearing, F_c_perp_prime=bearing_prime(pad, wood, C_b), A_b=A)
        return Outcome(pull, T_w, pull / T_w)

    try:
        return govern(criterion, combinations, calculate)
    except OutOfRange as error:  # of the wood's own values, before any combination
        return stated(group.anchor.name, what, error.clause or wash.WASHER, "refer", str(error))

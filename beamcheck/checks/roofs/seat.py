"""The foot of a rafter: its seat at an angle to the grain, the birdsmouth, uplift, and what it rests on."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

import numpy as np

from ...analysis.roofs.roof_frame import RoofRun
from ...calc.pad import Pad, SilentPad
from ...formulas.wood import bearing as br
from ...formulas.wood import bending as bd
from ...formulas.wood import combined as cb
from ...formulas.wood import compression as cp
from ...model.existing import Existing
from ...model.posts import Post
from ...model.sticks import Support
from ...provenance import Source
from ...units import show
from ...values.judgment import judgment
from ..beams.bracing import Span, bracing_of, needs_end_restraint
from ..core.asking.question import PlausibleAnswer, ask
from ..core.context import Context
from ..core.result import Check
from ..core.seat import answered, least_seat, wood_under
from ..core.trivial import trivial
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.material import bearing_prime, compression_star
from ..core.wood.stated_capacity import enough, uplift_taken
from ..core.wood.sticks import FROM_FRAME, LITTLE
from ..core.wood.strength import Outcome, Section, bending_values, column_values, notch_shear
from .framed_stick import FramedStick
from .member import sideways_length

BIRDSMOUTH = "NDS 2018 3.4.3.2, 4.4.3.1"


def wall_checks(run: RoofRun, stick: FramedStick, context: Context) -> list[Check]:
    """Everything about the foot."""
    support = run.rafter.wall
    found = [*_seat(run, stick, context), *_cut(run, stick), *_upright(stick, support)]
    return [*found, *_uplift(run, stick, context), *_held(run, context)]


def _uplift(run: RoofRun, stick: FramedStick, context: Context) -> Iterator[Check]:
    """A strap or clip at the foot, or what the wall is said to hold down with its fastening."""
    name, support, up = run.rafter.name, run.rafter.wall, run.wall_reactions
    worst = int(np.argmin(up))
    force = -float(up[worst])
    if force <= LITTLE:
        return
    id, what, clause = "roof.uplift", f"uplift at {support.on}", "ASCE 7-16 2.4.1"
    text = f"the end lifts with {show(force, 'force')} under {run.combinations[worst].name}"
    under = context.under(support.on)
    if (anchor := context.anchor(support.held_by)) is not None:
        yield Check.keeps_rule(
            id, name, what, clause, f"{text}: checked in anchor {anchor.name}, a piece of its own here"
        )
        if isinstance(under, Existing):
            what = f"what {under.name} takes upward"
            yield from uplift_taken(name, what, under, run.combinations, np.maximum(-up, 0.0))
        return
    capacity = float(bearing_prime(SilentPad(), stick.wood, 1.0)) * float(stick.section.area(SilentPad()))
    if trivial(force, capacity):
        yield Check.keeps_rule(id, name, what, clause, f"{text}: next to nothing; any nails hold that")
        return
    if isinstance(under, Existing) and under.takes_uplift is not None:
        allowed, source = under.takes_uplift, Source(under.confirmed_by or "the job file", "given")

        def calculate(pad: Pad, which: int | slice) -> Outcome:
            R = pad.take("R", at(np.maximum(-up, 0.0), which), "lbf", note=f"lifts, {FROM_FRAME}")
            limit = pad.take("R_allowed", allowed, "lbf", note=f"stated for {under.name}, upward", source=source)
            return Outcome(R, limit, R / limit)

        yield govern(Criterion(name, what, clause, "force", id=id), run.combinations, calculate)
        return
    tied = support.tied_down.strip()
    text += f"; said to be held down by {tied!r}, which is not described" if tied else (
        "; what holds it down is not stated")  # fmt: skip
    asked = ask("rafter_strap", name, f"rafter.{name}.wall.held_by", under=under.name, force=show(force, "force"),
                forces={"lifts": force})  # fmt: skip
    yield Check.refers(id, name, what, clause, text, ask=asked)


def _seat(run: RoofRun, stick: FramedStick, context: Context) -> list[Check]:
    """Bearing of the rafter at an angle to its grain, and of the wood under it."""
    rafter, section = run.rafter, stick.section
    support, what = rafter.wall, f"bearing on {rafter.wall.on}"
    l_b, _ = seat_length(run)
    if l_b is None:
        text = "neither the length of the level seat is given (`bearing`) nor the depth of its cut (`seat_cut`)"
        asked = ask("level_seat", rafter.name, f"rafter.{rafter.name}.wall.bearing")
        return [Check.refers("roof.bearing", rafter.name, what, "NDS 2018 3.10.3", text, ask=asked)]
    b, pressed = float(min(support.bearing_width or section.b, section.b)), np.maximum(run.wall_reactions, 0.0)
    under, found = context.under(support.on), seat_check(run, stick, pressed)
    return [
        *([] if found is None else [found]),
        *least_seat(rafter.name, f"least seat length on {support.on}", l_b, under, "IRC R802.6 (memory)"),
        *wood_under(rafter.name, run.combinations, pressed, b, l_b, under, context),
    ]


def seat_check(run: RoofRun, stick: FramedStick, pressed: np.ndarray, eaten: float = 0.0) -> Check | None:
    """Bearing of the rafter on its level seat under the forces given; None where its length is not known.

    eaten: how much of that length a fire leaves out, inches.
    """
    section, support, (l_b, why) = stick.section, run.rafter.wall, seat_length(run)
    if l_b is None:
        return None
    b = float(min(support.bearing_width or section.b, section.b))
    note = f"{why}, less what burns" if eaten else why
    return level_seat(run, stick, pressed, (b, l_b - eaten), f"bearing on {support.on}", note)


def level_seat(
    run: RoofRun, stick: FramedStick, pressed: np.ndarray, seat_size: tuple[float, float], what: str, note: str,
    id: str = "roof.bearing",
) -> Check:  # fmt: skip
    """Bearing of a rafter on a level seat of the breadth and length given, at an angle to its grain."""
    rafter, wood, (b, l_b) = run.rafter, stick.wood, seat_size

    def seat(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(pressed, which), "lbf", note=FROM_FRAME)
        length = pad.take("l_b", l_b, "in", note=note)
        f = pad(br.bearing_stress, R=R, b=b, l_b=length)
        F_c_star = compression_star(pad, wood, duration(pad, run.combinations, which))
        F_c_perp_prime = bearing_prime(pad, wood, 1.0)
        theta = pad.take("theta", 90.0 - rafter.slope, "deg", note="between the upright load and the grain")
        F = pad(br.bearing_at_angle, F_c_star=F_c_star, F_c_perp_prime=F_c_perp_prime, theta=theta)
        return Outcome(f, F, f / F)

    return govern(Criterion(rafter.name, what, "NDS 2018 3.10.3", "stress", id=id), run.combinations, seat)


def seat_length(run: RoofRun) -> tuple[float | None, str]:
    """The level seat that counts: the shorter of that given and that which the cut leaves room for, and why."""
    given, depth, as_given = run.rafter.wall.bearing, run.rafter.seat_cut, "level length of the seat, as given"
    if depth is None:
        return given, as_given
    by_cut = depth / math.sin(math.radians(run.rafter.slope))
    if given is None:
        return by_cut, "by the depth of the seat cut at this slope"
    if by_cut < given:
        return by_cut, f"a seat cut {show(depth, 'length')} deep is no longer at this slope"
    return given, as_given


def cut_depth(run: RoofRun) -> tuple[float | None, str]:
    """The depth of the seat cut that counts: the deeper of that given and that which the seat needs, and why."""
    given, seat = run.rafter.seat_cut, run.rafter.wall.bearing
    if seat is None:
        return given, "as given"
    by_seat = seat * math.sin(math.radians(run.rafter.slope))
    if given is None or by_seat > given + judgment("seat cut that closes").value:
        return by_seat, f"a level seat of {show(seat, 'length')} at this slope"
    return given, "as given"


def _closes(run: RoofRun) -> Iterator[Check]:
    """Level seat, slope and depth of the cut are one triangle: a seat cannot be longer than its cut leaves room for.

    It may be shorter, where the cut reaches beyond the plate.
    """
    rafter, seat, depth = run.rafter, run.rafter.wall.bearing, run.rafter.seat_cut
    if seat is None or depth is None:
        return
    by_seat = seat * math.sin(math.radians(rafter.slope))
    if by_seat - depth <= judgment("seat cut that closes").value:
        return
    text = (
        f"a level seat of {show(seat, 'length')} at {show(rafter.slope, 'slope')} is a cut {show(by_seat, 'length')} "
        f"deep; {show(depth, 'length')} is given: which of the two was measured?"
    )
    path = f"rafter.{rafter.name}"
    deep = show(by_seat, "length")
    long = show(depth / math.sin(math.radians(rafter.slope)), "length")
    answers = (
        PlausibleAnswer(f"the seat: the cut is {deep}", ((f"{path}.seat_cut", deep),)),
        PlausibleAnswer(f"the cut: the seat is {long}", ((f"{path}.wall.bearing", long),)),
    )
    asked = ask("seat_or_cut", rafter.name, f"{path}.seat_cut", answers=answers, why=f"{text[0].upper()}{text[1:]}")
    yield Check.refers("roof.seat_closes", rafter.name, "seat, slope and cut", "geometry", text, ask=asked)


def _upright(stick: FramedStick, support: Support) -> list[Check]:
    """Rafters deeper than twice their breadth must be held upright where they bear (NDS 2018 3.3.3.4, 4.4.1.2)."""
    if not needs_end_restraint(stick.size, stick.section) or support.restrained:
        return []
    text = f"the foot on {support.on}: d/b is over 2, so the ends must be held upright"
    id, what, clause = "roof.ends_held", "ends held against turning over", "NDS 2018 3.3.3.4, 4.4.1.2"
    if support.restrained is None:
        asked = ask("foot_upright", stick.piece.name, f"rafter.{stick.piece.name}.wall.restrained")
        return [Check.refers(id, stick.piece.name, what, clause, text, ask=asked)]
    return [Check.breaks_rule(id, stick.piece.name, what, clause, text)]


def _held(run: RoofRun, context: Context) -> list[Check]:
    """Who answers for what is under the foot, and how it is held there."""
    name, support = run.rafter.name, run.rafter.wall
    what, under, found = f"what holds the foot on {support.on}", context.under(support.on), list[Check]()
    if support.holds == "fixed" or (support.holds == "hung" and context.anchor(support.held_by) is None):
        how = "a hanger" if support.holds == "hung" else "an end that cannot turn"
        field = "wall.held_by" if support.holds == "hung" else "wall.holds"
        key = "foot_hung" if support.holds == "hung" else "foot_fixed"
        forces = {"presses": float(np.max(run.wall_reactions))}
        asked = ask(key, name, f"rafter.{name}.{field}", under=under.name, forces=forces)
        found.append(Check.refers("roof.foot", name, f"{what}: {support.holds}", "load path",
                                  f"{how} is not described", ask=asked))  # fmt: skip
    if isinstance(under, Existing):
        found.append(answered(name, what, under))
        found += enough(name, f"what {under.name} takes", under, run.combinations, run.wall_reactions)
    elif isinstance(under, Post):
        text = "a rafter straight on a post: the joint is not checked, and one rafter is counted on it"
        asked = ask("rafter_on_post", name, post=under.name, forces={"presses": float(np.max(run.wall_reactions))})
        found.append(Check.refers("roof.foot", name, what, "load path", text, ask=asked))
    return found


def _cut(run: RoofRun, stick: FramedStick) -> list[Check]:
    """The birdsmouth: depth, shear as at an end notch on the tension side, and what is left for the tail."""
    rafter, section = run.rafter, stick.section
    if section.round:
        return []  # referred as a whole
    depth, why = cut_depth(run)
    id = "roof.birdsmouth"
    if depth is None:
        text = "the depth of the seat cut is not given (`seat_cut`), nor the length of the seat from which it follows"
        asked = ask("seat_cut", rafter.name, f"rafter.{rafter.name}.seat_cut")
        return [Check.refers(id, rafter.name, "birdsmouth", BIRDSMOUTH, text, ask=asked)]
    if depth >= section.d:
        return [Check.breaks_rule(id, rafter.name, "birdsmouth", BIRDSMOUTH, "the seat cut is as deep as the rafter")]
    found = list(_closes(run))
    if stick.wood.made == "glulam":
        found.append(_in_glued(run, stick, depth))
        return [*found, *_cut_forces(run, stick, depth)]
    most = judgment("birdsmouth over depth").value * float(section.d)
    if depth > most * (1.0 + 1e-9):
        text = f"{show(depth, 'length')} deep ({why}): an end notch may take at most a quarter of the depth"
        if rafter.seat_cut is not None and rafter.seat_cut <= most:  # the seat as given is what makes it too deep
            return [*found, *_cut_forces(run, stick, depth)]
        found.append(Check.breaks_rule(id, rafter.name, "birdsmouth", "NDS 2018 4.4.3.1", text))
    return [*found, *_cut_forces(run, stick, depth)]


def _in_glued(run: RoofRun, stick: FramedStick, depth: float) -> Check:
    """A notch in the tension side of glued laminated timber: at its end over the bearing, a tenth of the depth."""
    from ...formulas.engineered.glued import tension_notch_limit  # most rafters are sawn

    rafter, id, what, clause = run.rafter, "roof.birdsmouth", "birdsmouth", "NDS 2018 5.4.5"
    most = float(tension_notch_limit(stick.section.d))
    if run.tail > 0.0:
        text = "with an overhang the birdsmouth is no notch at the end, and glued laminated timber may have no other"
        return Check.breaks_rule(id, rafter.name, what, clause, text)
    text = f"{show(depth, 'length')} deep; a tenth of the depth, {show(most, 'length')}, may be cut over the bearing"
    make = Check.breaks_rule if depth > most * (1.0 + 1e-9) else Check.keeps_rule
    return make(id, rafter.name, what, clause, text)


def _cut_forces(run: RoofRun, stick: FramedStick, depth: float) -> list[Check]:
    """Shear at the notch, and the tail over it."""
    rafter = run.rafter
    found = [end_notch(run, stick, depth, "shear at the birdsmouth")]
    if run.tail > 0.0:
        criterion = Criterion(rafter.name, "bending of the tail at the birdsmouth", "NDS 2018 3.1.2, 3.9.2", "ratio",
                              id="roof.tail")  # fmt: skip
        found.append(govern(criterion, run.combinations, partial(tail_over_the_wall, run, stick, depth)))
    return found


def end_notch(run: RoofRun, stick: FramedStick, depth: float, what: str, id: str = "roof.notch_shear") -> Check:
    """Shear at a notch in the lower edge over a seat, with the largest shear anywhere in the rafter."""
    low, _, high, _ = run.rafter_line.extremes("V")
    V_all = np.maximum(np.abs(low), np.abs(high))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note=f"largest in the rafter, {FROM_FRAME}")
        C_D = duration(pad, run.combinations, which)
        return notch_shear(pad, stick.wood, stick.section, V=V, C_D=C_D, depth=depth)

    return govern(Criterion(run.rafter.name, what, "NDS 2018 3.4.3.2", "force", id=id), run.combinations, calculate)


def tail_over_the_wall(run: RoofRun, stick: FramedStick, depth: float, pad: Pad, which: int | slice) -> Outcome:
    """What is left over the wall: the moment of the tail with the compression there (eq. 3.9-3 on the net section)."""
    rafter, wood, section = run.rafter, stick.wood, stick.section
    line = run.rafter_line
    start, end = max(run.tail - section.d, 0.0), min(run.tail + section.d, float(line.length))
    M_low, _, M_high, _ = line.extremes("M", start, end)
    N_low, *_ = line.extremes("N", start, end)
    note = f"largest near the wall, {FROM_FRAME}"
    C_D = duration(pad, run.combinations, which)
    M = pad.take("M", at(np.maximum(np.abs(M_low), np.abs(M_high)), which), "lbf*in", note=note)
    P = pad.take("P", at(np.maximum(-N_low, 0.0), which), "lbf", note=note)
    left = Section(section.b, section.d - depth, section.breadth_alone)
    length = float(line.length) - run.tail
    l_e2 = sideways_length(stick.piece, length)
    F_c_prime, F_cE1, *_ = column_values(pad, wood, section, l_e1=length, l_e2=l_e2, C_D=C_D)
    f_c = pad(cp.compression_stress, P=P, A=left.area(pad))
    f_b = pad(bd.bending_stress, symbol="f_b1", M=M, S=left.modulus(pad))
    bracing = bracing_of(rafter, stick.size, left, Span(0.0, run.tail, True), (), simple=False, top=False)
    _, F_b_prime = bending_values(pad, wood, left, bracing, C_D)
    ratio = pad(
        cb.bending_and_compression_one_way, f_c=f_c, F_c_prime=F_c_prime, f_b1=f_b, F_b1_prime=F_b_prime, F_cE1=F_cE1
    )
    return Outcome(ratio, 1.0, ratio)

"""The foot of a rafter: its seat at an angle to the grain, the birdsmouth, uplift, and what it rests on."""

from __future__ import annotations

import math
from functools import partial

import numpy as np

from ...analysis.frames.roof_frame import RoofRun
from ...calc.pad import Pad
from ...formulas.wood import bearing as br
from ...formulas.wood import bending as bd
from ...formulas.wood import combined as cb
from ...formulas.wood import compression as cp
from ...model.pieces import Existing, Post, Support
from ...units import show
from ..beams.bracing import Span, bracing_of, needs_end_restraint
from ..core.context import Context
from ..core.govern import Criterion, at, duration, govern, stated
from ..core.material import bearing_prime, compression_star
from ..core.result import Check
from ..core.seat import answered, least_seat, wood_under
from ..core.stated_capacity import enough
from ..core.strength import Outcome, Section, bending_values, column_values, notch_shear
from .member import FROM_FRAME, LITTLE, FramedStick, sideways_length

BIRDSMOUTH = "NDS 2018 3.4.3.2, 4.4.3.1"


def wall_checks(run: RoofRun, stick: FramedStick, context: Context) -> list[Check]:
    """Everything about the foot."""
    name, support = run.rafter.name, run.rafter.wall
    found = [*_seat(run, stick, context), *_cut(run, stick), *_upright(stick, support)]
    up = run.wall_reactions
    if float(np.min(up)) < -LITTLE:
        worst = int(np.argmin(up))
        text = f"the end lifts with {show(-float(up[worst]), 'force')} under {run.combinations[worst].name}"
        if tied := support.tied_down.strip():
            text += f"; said to be held down by {tied!r}, which is not checked here"
            found.append(stated(name, f"uplift at {support.on}", "ASCE 7-16 2.4.1", "refer", text))
        else:
            text += " and nothing is said to hold it down (`tied_down`)"
            found.append(stated(name, f"uplift at {support.on}", "ASCE 7-16 2.4.1", "fails", text))
    return [*found, *_held(run, context)]


def _seat(run: RoofRun, stick: FramedStick, context: Context) -> list[Check]:
    """Bearing of the rafter at an angle to its grain, and of the wood under it."""
    rafter, wood, section = run.rafter, stick.wood, stick.section
    support, what = rafter.wall, f"bearing on {rafter.wall.on}"
    if support.bearing is None:
        text = "the length of the level seat is not given (`bearing`)"
        return [stated(rafter.name, what, "NDS 2018 3.10.3", "refer", text)]
    l_b, why = _seat_length(run, support.bearing)
    b = float(min(support.bearing_width or section.b, section.b))
    pressed = np.maximum(run.wall_reactions, 0.0)

    def seat(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(pressed, which), "lbf", note=FROM_FRAME)
        length = pad.take("l_b", l_b, "in", note=why)
        f = pad(br.bearing_stress, R=R, b=b, l_b=length)
        F_c_star = compression_star(pad, wood, duration(pad, run.combinations, which))
        F_c_perp_prime = bearing_prime(pad, wood, 1.0)
        theta = pad.take("theta", 90.0 - rafter.slope, "deg", note="between the upright load and the grain")
        F = pad(br.bearing_at_angle, F_c_star=F_c_star, F_c_perp_prime=F_c_perp_prime, theta=theta)
        return Outcome(f, F, f / F)

    under = context.under(support.on)
    return [
        govern(Criterion(rafter.name, what, "NDS 2018 3.10.3", "stress"), run.combinations, seat),
        *least_seat(rafter.name, f"least seat length on {support.on}", l_b, under, "IRC R802.6 (memory)"),
        *wood_under(rafter.name, run.combinations, pressed, b, l_b, under, context),
    ]


def _seat_length(run: RoofRun, given: float) -> tuple[float, str]:
    """The level seat that counts: a cut of this depth cannot have a longer one."""
    depth = run.rafter.seat_cut
    longest = math.inf if depth is None else depth / math.sin(math.radians(run.rafter.slope))
    if longest < given:
        return longest, f"a seat cut {show(depth or 0.0, 'length')} deep is no longer at this slope"
    return given, "level length of the seat, as given"


def _upright(stick: FramedStick, support: Support) -> list[Check]:
    """Rafters deeper than twice their breadth must be held upright where they bear (NDS 2018 3.3.3.4, 4.4.1.2)."""
    if not needs_end_restraint(stick.size, stick.section) or support.restrained:
        return []
    text = f"the foot on {support.on}: d/b is over 2, so the ends must be held upright"
    if support.restrained is None:
        text += "; say so with `restrained = true` once it is"
    verdict = stated(
        stick.piece.name, "ends held against turning over", "NDS 2018 3.3.3.4, 4.4.1.2",
        "refer" if support.restrained is None else "fails", text,
    )  # fmt: skip
    return [verdict]


def _held(run: RoofRun, context: Context) -> list[Check]:
    """Who answers for what is under the foot, and how it is held there."""
    name, support = run.rafter.name, run.rafter.wall
    what, under, found = f"what holds the foot on {support.on}", context.under(support.on), list[Check]()
    if support.holds != "rests":
        how = "a hanger" if support.holds == "hung" else "an end that cannot turn"
        found.append(stated(name, f"{what}: {support.holds}", "load path", "refer", f"{how} is not checked here"))
    if isinstance(under, Existing):
        found.append(answered(name, what, under))
        found += enough(name, f"what {under.name} takes", under, run.combinations, run.wall_reactions)
    elif isinstance(under, Post):
        text = "a rafter straight on a post: the joint is not checked, and one rafter is counted on it"
        found.append(stated(name, what, "load path", "refer", text))
    return found


def _cut(run: RoofRun, stick: FramedStick) -> list[Check]:
    """The birdsmouth: depth, shear as at an end notch on the tension side, and what is left for the tail."""
    rafter, section, depth = run.rafter, stick.section, run.rafter.seat_cut
    if section.round:
        return []  # referred as a whole
    if depth is None:
        text = "the depth of the seat cut is not given (`seat_cut`)"
        return [stated(rafter.name, "birdsmouth", BIRDSMOUTH, "refer", text)]
    if depth >= section.d:
        return [stated(rafter.name, "birdsmouth", BIRDSMOUTH, "fails", "the seat cut is as deep as the rafter")]
    found = []
    if depth > 0.25 * section.d:
        text = f"{show(depth, 'length')} deep: an end notch may take at most a quarter of the depth"
        found.append(stated(rafter.name, "birdsmouth", "NDS 2018 4.4.3.1", "fails", text))
    low, _, high, _ = run.rafter_line.extremes("V")
    V_all = np.maximum(np.abs(low), np.abs(high))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note=f"largest in the rafter, {FROM_FRAME}")
        return notch_shear(
            pad,
            stick.wood,
            section,
            V=V,
            C_D=duration(pad, run.combinations, which),
            depth=depth,
            tension_side=True,
            e=0.0,
        )

    criterion = Criterion(rafter.name, "shear at the birdsmouth", "NDS 2018 3.4.3.2", "force")
    found.append(govern(criterion, run.combinations, calculate))
    if run.tail > 0.0:
        criterion = Criterion(rafter.name, "bending of the tail at the birdsmouth", "NDS 2018 3.1.2, 3.9.2", "ratio")
        found.append(govern(criterion, run.combinations, partial(_tail, run, stick, depth)))
    return found


def _tail(run: RoofRun, stick: FramedStick, depth: float, pad: Pad, which: int | slice) -> Outcome:
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

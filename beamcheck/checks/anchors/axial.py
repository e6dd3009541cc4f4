"""Pull along the axes of the fasteners: withdrawal, head or washer, steel at the root, and pull with lateral load."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from ...calc.core import Number, smallest
from ...calc.pad import Pad
from ...errors import BeamcheckError, OutOfRange
from ...formulas.connections import adjustment as adj
from ...formulas.connections import dowel_lengths as ln
from ...formulas.connections import washer as ws
from ...formulas.connections import withdrawal as wd
from ...formulas.steel import bolts as st
from ...formulas.wood import bearing as br
from ...units import show
from ...values import connections as tables
from ...values.fasteners import lag_thread
from ...values.steels import bolt_steel
from ..core.govern import Criterion, at, govern, out_of_range, stated
from ..core.material import bearing_prime
from ..core.result import Check
from ..core.strength import Outcome
from .factors import temperature, wet_service
from .fastener import NotSaid
from .group import Group
from .joint import COVERED, HAIR, Part
from .lateral import Lateral, connection_duration, lateral_of, value_at
from .wood import weak_wood

Array = np.ndarray
Calculation = Callable[[Pad, int | slice], Outcome]
NEGLIGIBLE = 0.5  # lbf: less is rounding
ANY_STEEL = 6000.0  # psi at the root of a screw: a third of 0.6 of 30 ksi, the lowest yield point; judgement, no source
WHAT, CLAUSE = "pull on the most loaded fastener", "NDS 2018 12.2"
ACTIONS: dict[str, tables.Action] = {
    "lag screw": "withdrawal of screws", "wood screw": "withdrawal of screws", "nail": "withdrawal of nails",
}  # fmt: skip
END_GRAIN = {kind: f"end grain, withdrawal of a {kind}" for kind in ACTIONS}


def axial_checks(group: Group, out_of_plane: Sequence[float] | Array) -> list[Check]:
    """Pull square to the face.

    Parameters
    ----------
    group : Group
    out_of_plane : array (combinations,)
        Tension on one fastener of the most loaded row, lbf; negative presses and counts as none.
    """
    T = np.maximum(np.asarray(out_of_plane, dtype=float), 0.0)
    name = group.anchor.name
    if np.isnan(T).any() or T.shape != (len(group.forces.combinations),):
        raise OutOfRange(f"one tension for each of {len(group.forces.combinations)} combinations is needed", "statics")
    if float(T.max(initial=0.0)) <= NEGLIGIBLE or group.anchor.manner not in COVERED:
        return []
    try:
        lateral = lateral_of(group)
        kind = lateral.joint.dowel.kind
        if lateral.joint.two_planes:
            raise NotSaid("a force square to the faces, on plates on both sides or in a slot, is not checked here")
        if kind == "pin":
            return [stated(name, WHAT, CLAUSE, "fails", "pins without heads hold nothing along their axis")]
        if kind == "bolt":
            return list(_washers(lateral, T))
        return [*_screwed(lateral, T), *_lag_distances(lateral), *_root(lateral, T)]
    except OutOfRange as error:
        return [out_of_range(Criterion(name, WHAT, CLAUSE, "force"), error)]
    except BeamcheckError as error:
        return [stated(name, WHAT, CLAUSE, "refer", str(error))]


def _washers(lateral: Lateral, T: Array) -> Iterator[Check]:
    """The wood under the washers; the bolt itself is checked with the steel parts."""
    group, joint = lateral.group, lateral.joint
    D_w = joint.dowel.washer
    assert D_w is not None
    for part in joint.woods:
        if part.wood is None or part.stock is None:
            text = f"the wood of {part.name} under the washer is not known"
            yield stated(group.anchor.name, f"washer on the {part.name}", ws.WASHER, "refer", text)
            continue
        if part.grain == "end":
            text = "a nut in end grain: the wood under the washer is for an engineer"
            yield stated(group.anchor.name, f"washer on the {part.name}", ws.WASHER, "refer", text)
            continue
        clear = tables.connection_limit("washer from the end, for C_b").value
        far = part.grain == "held" and float(group.x.min()) - 0.5 * D_w >= clear
        criterion = Criterion(group.anchor.name, f"washer on the {part.name}", ws.WASHER, "force")
        yield govern(criterion, group.forces.combinations, _under_washer(part, T, D_w, joint.dowel.hole, far))


def _under_washer(part: Part, T: Array, D_w: float, hole: float, far: bool) -> Calculation:
    assert part.stock is not None and part.wood is not None
    wood = weak_wood(part.stock, part.wood)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        pull = pad.take("T", at(T, which), "lbf", note="on one bolt")
        washer = pad.take("D_w", D_w, "in", note="outside diameter")
        if far:
            C_b = pad(br.bearing_area_factor, l_b=washer)
        else:
            C_b = pad.take("C_b", 1.0, clause="NDS 2018 3.10.4", note="less than 3 in from the end, or not shown to be "
                           "more")  # fmt: skip
        A_b = pad(ws.round_washer_area, D_w=washer, d_h=hole)
        held = pad(ws.washer_bearing, F_c_perp_prime=bearing_prime(pad, wood, C_b), A_b=A_b)
        return Outcome(pull, held, pull / held)

    return calculate


def _screwed(lateral: Lateral, T: Array) -> list[Check]:
    """Withdrawal or head, whichever holds less; then that with the lateral load (12.4)."""
    group, joint = lateral.group, lateral.joint
    name, kind, combinations = group.anchor.name, joint.dowel.kind, group.forces.combinations
    low = [what for what, _, _ in joint.faults if what.startswith("penetration")]
    if low:
        return [stated(name, WHAT, joint.dowel.penetration_clause, "fails", "the point does not reach deep enough")]
    k = lateral.worst
    criterion = Criterion(name, WHAT, CLAUSE, "force")
    both = Criterion(
        name, "pull and lateral load together", wd.BOTH_NAIL if kind == "nail" else wd.BOTH, "ratio", group.name_of(k),
        notes=("the most loaded fastener in the plane with the pull of the most loaded row",),
    )  # fmt: skip

    def alone(pad: Pad, which: int | slice) -> Outcome:
        pull = pad.take("T", at(T, which), "lbf", note="on one fastener")
        held = _axial_value(pad, lateral, which)
        return Outcome(pull, held, pull / held)

    def together(pad: Pad, which: int | slice) -> Outcome:
        V, pull = at(lateral.spread.P[k], which), at(T, which)
        none = (V + pull) <= 0.0
        Z_prime = value_at(lateral, pad, k, which)
        W_p = _axial_value(pad, lateral, which)
        formula = wd.shear_and_pull_nail if kind == "nail" else wd.shear_and_pull_screw
        some = np.where(none, 1.0, pull) if isinstance(which, slice) else pull
        U = pad(formula, V=V, T=some, Z_prime=Z_prime, W_p=W_p)
        U = np.where(none, 0.0, U) if isinstance(which, slice) else U
        return Outcome(U, 1.0, U)

    found = [govern(criterion, combinations, alone)]
    lowest = ("the wood of", "the specific gravity of")
    if found[0].ratio is not None:  # a pull that is not allowed at all needs no second word
        found.append(govern(both, combinations, together))
    if any(doubt.startswith(lowest) for doubt in joint.doubts):
        found = [replace(one, verdict="refer") if one.ratio is not None else one for one in found]
    return found


def _axial_value(pad: Pad, lateral: Lateral, which: int | slice) -> Number:
    """The least of withdrawal and what the head holds, lbf."""
    withdrawal = _withdrawal(pad, lateral, which)
    head = _head(pad, lateral, which)
    return withdrawal if head is None else smallest(withdrawal, head)


def _withdrawal(pad: Pad, lateral: Lateral, which: int | slice) -> Number:
    """Adjusted withdrawal of one fastener out of the member that holds its point, lbf.

    Raises
    ------
    OutOfRange
        If the standard gives none: screws and nails in end grain.
    """
    group, joint = lateral.group, lateral.joint
    dowel, part, toe = joint.dowel, joint.main, group.anchor.manner == "toe-nails"
    if part.material != "wood" or dowel.length is None or joint.penetration is None:
        raise NotSaid("what holds the point is not wood: withdrawal has no value here")
    p = pad.take("p", joint.penetration, "in", note=f"in the {part.name}")
    G = pad.take("G", part.G, note=part.why)
    action: tables.Action = "withdrawal of toe-nails" if toe else ACTIONS[dowel.kind]
    C_eg = C_tn = 1.0
    if part.grain == "end":
        end = tables.connection_factor(END_GRAIN[dowel.kind])
        C_eg = float(pad.take("C_eg", end.value, note=end.reason, source=end.source))
    if toe:
        slant = tables.connection_factor("toe-nail, withdrawal")
        C_tn = float(pad.take("C_tn", slant.value, note=slant.reason, source=slant.source))
    if dowel.kind == "lag screw":
        W, thread = pad(wd.withdrawal_lag, G=G, D=dowel.D), lag_thread(dowel.length)
        T_thread = pad.take("T_thread", thread.value, "in", note=thread.reason, source=thread.source)
        p_t = pad(ln.lag_thread_held, T_thread=T_thread, p=p, E_tip=dowel.E_tip)
    elif dowel.kind == "wood screw":
        W = pad(wd.withdrawal_wood_screw, G=G, D=dowel.D)
        T_thread = pad(ln.screw_thread_length, D=dowel.D, L_f=dowel.length)
        p_t = pad(ln.screw_thread_held, T_thread=T_thread, p=p)
    else:
        fastener = group.anchor.fastener
        stainless = fastener is not None and fastener.coating == "stainless"
        W, p_t = pad(wd.withdrawal_stainless_nail if stainless else wd.withdrawal_nail, G=G, D=dowel.D), p
    C_M, C_t = wet_service(group, joint, action), temperature(joint)
    W_prime = pad(
        adj.adjusted_withdrawal, W_w=W, C_D=connection_duration(pad, group, joint, which),
        C_M=pad.take("C_M", C_M.value, note=C_M.reason, source=C_M.source),
        C_t=pad.take("C_t", C_t.value, note=C_t.reason, source=C_t.source), C_eg=C_eg, C_tn=C_tn,
    )  # fmt: skip
    return pad(wd.withdrawal_value, W_prime=W_prime, p_t=p_t)


def _head(pad: Pad, lateral: Lateral, which: int | slice) -> Number | None:
    """What the wood under the head holds, lbf; None where the head bears on steel, and for toe-nails."""
    group, joint = lateral.group, lateral.joint
    dowel, side = joint.dowel, joint.side
    if side.material != "wood" or group.anchor.manner == "toe-nails":
        return None
    if dowel.kind == "nail":
        assert dowel.head is not None
        W_H = pad(wd.head_pull_through, G=side.G, D_H=dowel.head, t_s=side.length)
        C_M, C_t = wet_service(group, joint, "withdrawal of nails"), temperature(joint)
        C_D = connection_duration(pad, group, joint, which)
        return pad(adj.adjusted_pull_through, W_H=W_H, C_D=C_D, C_M=C_M.value, C_t=C_t.value)
    # neither lag screws nor wood screws have a head value: the wood under washer or head bears (3.10)
    wide = dowel.washer if dowel.kind == "lag screw" else dowel.head
    if wide is None or side.wood is None or side.stock is None:
        raise NotSaid(f"what holds the head in the {side.name} is not known")
    area = pad(ws.round_washer_area, D_w=wide, d_h=dowel.D)
    F = bearing_prime(pad, weak_wood(side.stock, side.wood), 1.0)
    return pad(ws.washer_bearing, symbol="W_H", F_c_perp_prime=F, A_b=area)


def _any_steel(lateral: Lateral, T: Array, what: str, clause: str) -> Check:
    """A root so little stressed that any steel stands it; otherwise its steel has to be known."""
    group, dowel = lateral.group, lateral.joint.dowel
    stress = float(T.max(initial=0.0)) / (math.pi * dowel.D_r**2 / 4.0)
    if stress > ANY_STEEL:
        text = f"what steel the {dowel.kind} is of is not said, and the standard names no grade: its maker's value"
        return stated(group.anchor.name, what, clause, "refer", text)
    text = (
        f"what steel the {dowel.kind} is of is not said; {show(stress, 'stress')} at the root is little for any steel "
        f"(up to {show(ANY_STEEL, 'stress')}: judgement, no source), not for brass or bronze"
    )
    return stated(group.anchor.name, what, clause, "passes", text)


def _lag_distances(lateral: Lateral) -> Iterator[Check]:
    """Edge, end and spacing of lag screws in withdrawal (Table 12.5.1E) in the held piece."""
    group, dowel, clause = lateral.group, lateral.joint.dowel, "NDS 2018 Table 12.5.1E"
    if dowel.kind != "lag screw":
        return
    held = lateral.joint.main.grain == "held" and lateral.joint.main.material == "wood"
    other = group.anchor.other
    apart = np.hypot(group.x[:, None] - group.x[None, :], group.y[:, None] - group.y[None, :])
    spacing = float(np.min(apart + np.where(np.eye(group.x.size, dtype=bool), np.inf, 0.0)))
    edge = float(min(group.y.min(), float(group.section.d) - group.y.max()))
    given = {
        "edge": edge if held else other.edge if other is not None else None,
        "end": float(group.x.min()) if held else other.end if other is not None else None,
        "spacing": spacing,
    }
    short = []
    for rule, actual in given.items():
        least = tables.distance("lag pull", "any", rule).value.least * dowel.D
        if actual is not None and actual < least - HAIR:
            short.append(f"{rule} {show(actual, 'length')}, at least {show(least, 'length')} asked")
    what = "distances of lag screws in withdrawal"
    if short:
        yield stated(group.anchor.name, what, clause, "fails", *short)
    elif None in given.values():
        yield stated(group.anchor.name, what, clause, "refer", "end and edge distance in the other member: not given")
    else:
        yield stated(group.anchor.name, what, clause, "passes", "edge, end and spacing are kept")


def _root(lateral: Lateral, T: Array) -> Iterator[Check]:
    """Steel at the root of lag and wood screws: the standard leaves it to steel design and names no grade."""
    group, dowel = lateral.group, lateral.joint.dowel
    if dowel.kind == "nail":
        return
    what, clause = "steel at the root", "NDS 2018 12.2, AISC 360-16 J3.6"
    grade = group.anchor.fastener.steel if group.anchor.fastener is not None else None
    if grade is None:
        yield _any_steel(lateral, T, what, clause)
        return
    steel = bolt_steel(grade)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        pull = pad.take("T", at(T, which), "lbf", note="on one fastener")
        F_nt = pad.take("F_nt", steel.value.F_nt, "psi", note=steel.reason, source=steel.source)
        A_b = pad.take("A_b", math.pi * dowel.D_r**2 / 4.0, "in2", note="at the root")
        held = pad(st.bolt_tension, F_nt=F_nt, A_b=A_b)
        return Outcome(pull, held, pull / held)

    yield govern(Criterion(group.anchor.name, what, clause, "force"), group.forces.combinations, calculate)

"""Pull along the axes of the fasteners: withdrawal, head or washer, steel at the root, and pull with lateral load."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

import numpy as np

from ....calc.core import Number, smallest
from ....calc.pad import Pad
from ....errors import BeamcheckError, OutOfRange
from ....formulas.connections import adjustment as adj
from ....formulas.connections import dowel_lengths as ln
from ....formulas.connections import washer as ws
from ....formulas.connections import withdrawal as wd
from ....formulas.steel import bolts as st
from ....formulas.wood import bearing as br
from ....units import show
from ....values.hardware import connections as tables
from ....values.hardware.fasteners import lag_thread
from ....values.hardware.steels import bolt_steel
from ....values.judgment import judgment
from ....values.refused import in_trade_words
from ...core.result import Check
from ...core.trivial import negligible
from ...core.wood.govern import Criterion, at, govern, out_of_range
from ...core.wood.material import bearing_prime
from ...core.wood.strength import Outcome
from ..group import Group, nearest_apart
from ..joint import HAIR, Part, weak_wood
from ..unsaid import NotSaid, Open
from .connection import Connection, connection_duration
from .distances import far_width
from .factors import temperature, wet_service
from .lateral import for_information

Array = np.ndarray
Calculation = Callable[[Pad, int | slice], Outcome]
ID, WHAT, CLAUSE = "anchor.pull", "pull on the most loaded fastener", "NDS 2018 12.2"
ACTIONS: dict[str, tables.Action] = {
    "lag screw": "withdrawal of screws", "wood screw": "withdrawal of screws", "nail": "withdrawal of nails",
}  # fmt: skip
END_GRAIN = {kind: f"end grain, withdrawal of a {kind}" for kind in ACTIONS}


def axial_checks(connection: Connection, out_of_plane: Sequence[float] | Array) -> list[Check]:
    """Pull square to the face.

    `out_of_plane`: array (combinations,): tension on one fastener of the most loaded row, lbf; negative presses and
    counts as none.
    """
    group, joint = connection.group, connection.joint
    T = np.maximum(np.asarray(out_of_plane, dtype=float), 0.0)
    if np.isnan(T).any() or T.shape != (len(group.forces.combinations),):
        raise OutOfRange(f"one tension for each of {len(group.forces.combinations)} combinations is needed", "statics")
    if float(T.max()) <= negligible():
        return []
    try:
        if joint.two_planes:
            text = "a force square to the faces, on members on both sides or in a slot, is not checked here"
            raise NotSaid(text, "pull_on_two_planes")
        if joint.dowel.kind == "pin":
            text = "pins without heads hold nothing along their axis"
            return [Check.breaks_rule(ID, group.name, WHAT, CLAUSE, text)]
        if joint.dowel.kind == "bolt":
            return list(_washers(connection, T))
        return [*_screwed(connection, T), *_lag_distances(connection), *_root(connection, T)]
    except OutOfRange as error:
        return [out_of_range(Criterion(group.name, WHAT, CLAUSE, "force", id=ID), error)]
    except NotSaid as error:
        return [group.refers(ID, WHAT, CLAUSE, error.open)]
    except BeamcheckError as error:
        return [group.refers(ID, WHAT, CLAUSE, Open(in_trade_words(error), "joint_by_engineer"))]


def _washers(connection: Connection, T: Array) -> Iterator[Check]:
    """The wood under the washers; the bolt itself is checked with the steel parts."""
    group, joint = connection.group, connection.joint
    id = "anchor.washer"
    assert joint.dowel.washer is not None
    for part in joint.woods:
        what, D_w = f"washer on the {part.name}", counted_washer(group, part, joint.dowel.washer)
        if D_w <= joint.dowel.hole:
            text = f"no more than {show(max(D_w, 0.0), 'length')} of it lies on the wood: it is pulled through"
            yield Check.breaks_rule(id, group.name, what, ws.WASHER, text)
            continue
        if part.wood is None or part.stock is None:
            text = f"the wood of {part.name} under the washer is not known"
            yield group.refers(id, what, ws.WASHER, Open(text, "other_stock", "other.stock"))
            continue
        clear = tables.connection_limit("washer from the end, for C_b").value
        far = part.grain == "held" and float(group.x.min()) - 0.5 * D_w >= clear
        criterion = Criterion(group.name, what, ws.WASHER, "force", id=id)
        yield govern(criterion, group.forces.combinations, _under_washer(connection, part, T, D_w, far))


def counted_washer(group: Group, part: Part, D_w: float) -> float:
    """As much of a washer as lies on wood and is not shared with the next one, as a round one, in."""
    x, y = group.x, group.y
    if not x.size:
        return D_w
    b, d, other = float(group.section.b), float(group.section.d), group.anchor.other
    room = [nearest_apart(x, y)]
    if part.grain == "held":
        room += [2.0 * float(one) for one in (x.min(), y.min(), d - y.max())]
    elif part.grain == "into":
        room += [2.0 * float(one) for one in (x.min(), b - x.max(), y.min(), d - y.max())]
    elif other is not None and part.grain != "end":
        near, width = other.edge, far_width(other, part.stock)
        room += [2.0 * near] if near is not None else []
        room += [2.0 * other.end] if other.end is not None else []
        if near is not None and width is not None:
            v = x if part.grain == "across" else y
            room.append(2.0 * (width - near - float(np.ptp(v))))
    return min(D_w, *room)


def _under_washer(connection: Connection, part: Part, T: Array, D_w: float, far: bool) -> Calculation:
    assert part.stock is not None and part.wood is not None
    wood, hole = weak_wood(part.stock, part.wood), connection.joint.dowel.hole

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
        held = smallest(held, _through_thin(pad, connection, part, D_w, which))
        return Outcome(pull, held, pull / held)

    return calculate


def _through_thin(pad: Pad, connection: Connection, part: Part, D_w: float, which: int | slice) -> Number:
    """What a head or washer holds before it is pulled through its wood, lbf: the rule for nail heads as one more limit.

    The standard has it for nails only. Bearing knows no thickness, so it is never relied on beyond this.
    """
    group, joint = connection.group, connection.joint
    thick = judgment("wood that a washer bears on")
    if part.length >= thick.value - HAIR:
        return math.inf
    note = "as for the heads of nails, a further limit in thin wood (judgment)"
    W_H = pad(wd.head_pull_through, note, G=part.G, D_H=D_w, t_s=part.length)
    action = ACTIONS.get(joint.dowel.kind, "withdrawal of screws")
    C_M, C_t = wet_service(group, joint, action), temperature(joint)
    C_D = connection_duration(pad, group, joint, which)
    return pad(adj.adjusted_pull_through, W_H=W_H, C_D=C_D, C_M=C_M.value, C_t=C_t.value)


def _screwed(connection: Connection, T: Array) -> list[Check]:
    """Withdrawal or head, whichever holds less; then that with the lateral load (12.4)."""
    group, joint = connection.group, connection.joint
    name, kind, combinations = group.name, joint.dowel.kind, group.forces.combinations
    if any(fault.id == "anchor.penetration" for fault in joint.faults):
        text = "the point does not reach deep enough"
        return [Check.breaks_rule(ID, name, WHAT, joint.dowel.penetration_clause, text)]
    k = connection.worst
    criterion = Criterion(name, WHAT, CLAUSE, "force", id=ID)
    both = Criterion(
        name, "pull and lateral load together", wd.BOTH_NAIL if kind == "nail" else wd.BOTH, "ratio", group.name_of(k),
        notes=("the most loaded fastener in the plane with the pull of the most loaded row",),
        id="anchor.pull_with_lateral",
    )  # fmt: skip

    def alone(pad: Pad, which: int | slice) -> Outcome:
        pull = pad.take("T", at(T, which), "lbf", note="on one fastener")
        held = _axial_value(pad, connection, which)
        return Outcome(pull, held, pull / held)

    def together(pad: Pad, which: int | slice) -> Outcome:
        V, pull = at(connection.spread.P[k], which), at(T, which)
        none = (V + pull) <= 0.0
        Z_prime = connection.lateral(pad, k, which)
        W_p = _axial_value(pad, connection, which)
        formula = wd.shear_and_pull_nail if kind == "nail" else wd.shear_and_pull_screw
        some = np.where(none, 1.0, pull) if isinstance(which, slice) else pull
        U = pad(formula, V=V, T=some, Z_prime=Z_prime, W_p=W_p)
        U = np.where(none, 0.0, U) if isinstance(which, slice) else U
        return Outcome(U, 1.0, U)

    found = [govern(criterion, combinations, alone)]
    if found[0].ratio is not None:  # a pull that is not allowed at all needs no second word
        found.append(govern(both, combinations, together))
    return [for_information(check, group, joint) for check in found]


def pull_value(pad: Pad, connection: Connection, which: int | slice) -> Number:
    """What one fastener holds along its axis, whichever its kind, lbf.

    Raises NotSaid, OutOfRange if there is no value.
    """
    group, joint = connection.group, connection.joint
    if joint.dowel.kind != "bolt":
        if joint.dowel.kind == "pin":
            raise OutOfRange("pins without heads hold nothing along their axis", CLAUSE)
        return _axial_value(pad, connection, which)
    assert joint.dowel.washer is not None
    held = []
    for part in joint.woods:
        D_w = counted_washer(group, part, joint.dowel.washer)
        if part.wood is None or part.stock is None:
            raise NotSaid(f"the wood of {part.name} under the washer is not known", "other_stock", "other.stock")
        if D_w <= joint.dowel.hole:
            raise OutOfRange(f"no more than {max(D_w, 0.0):g} in of the washer lies on the wood", ws.WASHER)
        none = np.zeros(len(group.forces.combinations))
        held.append(_under_washer(connection, part, none, D_w, False)(pad, which).capacity)
    fastener = group.anchor.fastener
    if fastener is not None and fastener.steel:
        grade = bolt_steel(fastener.steel)
        held.append(pad(st.bolt_tension, F_nt=grade.value.F_nt, A_b=math.pi * joint.dowel.D**2 / 4.0))
    return smallest(*held)


def _axial_value(pad: Pad, connection: Connection, which: int | slice) -> Number:
    """The least of withdrawal and what the head holds, lbf."""
    withdrawal = _withdrawal(pad, connection, which)
    head = _head(pad, connection, which)
    return withdrawal if head is None else smallest(withdrawal, head)


def _withdrawal(pad: Pad, connection: Connection, which: int | slice) -> Number:
    """Adjusted withdrawal of one fastener out of the member that holds its point, lbf.

    Raises OutOfRange if the standard gives none: screws and nails in end grain.
    """
    group, joint = connection.group, connection.joint
    dowel, part, toe = joint.dowel, joint.main, group.made.aslant
    if part.material != "wood" or dowel.length is None or joint.penetration is None:
        raise NotSaid("what holds the point is not wood: withdrawal has no value here", "concrete_anchor")
    p = pad.take("p", joint.penetration, "in", note=f"in the {part.name}")
    G = pad.take("G", part.G, note=part.why)
    action: tables.Action = "withdrawal of toe-nails" if toe else ACTIONS[dowel.kind]
    C_eg = C_tn = 1.0
    if part.end_grain:
        end = tables.connection_factor(END_GRAIN[dowel.kind])
        C_eg = float(pad.take("C_eg", end.value, note=end.reason, source=end.source))
    if toe:
        slant = tables.connection_factor("toe-nail, withdrawal")
        C_tn = float(pad.take("C_tn", slant.value, note=slant.reason, source=slant.source))
    if dowel.kind == "lag screw":
        assert dowel.thread is not None
        W, measured = pad(wd.withdrawal_lag, G=G, D=dowel.D), lag_thread(dowel.length)
        given = measured.value != dowel.thread
        T_thread = pad.take(
            "T_thread", dowel.thread, "in", note="as measured" if given else measured.reason,
            source=None if given else measured.source,
        )  # fmt: skip
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


def _head(pad: Pad, connection: Connection, which: int | slice) -> Number | None:
    """What the wood under the head holds, lbf; None where the head bears on steel, and for toe-nails."""
    group, joint = connection.group, connection.joint
    dowel, side = joint.dowel, joint.side
    if side.material != "wood" or group.made.aslant:
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
        raise NotSaid(f"what holds the head in the {side.name} is not known", "other_stock", "other.stock")
    wide = counted_washer(group, side, wide) if dowel.kind == "lag screw" else wide
    if wide <= dowel.D:
        raise OutOfRange(f"no more than {max(wide, 0.0):g} in of the washer lies on the wood", ws.WASHER)
    area = pad(ws.round_washer_area, D_w=wide, d_h=dowel.D)
    F = bearing_prime(pad, weak_wood(side.stock, side.wood), 1.0)
    bears = pad(ws.washer_bearing, symbol="W_H", F_c_perp_prime=F, A_b=area)
    return smallest(bears, _through_thin(pad, connection, side, wide, which))


def _root(connection: Connection, T: Array) -> Iterator[Check]:
    """Steel at the root of lag and wood screws: the standard leaves it to steel design and names no grade, nor does a
    job. A root so little stressed that any steel stands it needs none."""
    group, dowel = connection.group, connection.joint.dowel
    if dowel.kind == "nail":
        return
    id, what, clause = "anchor.root", "steel at the root", "NDS 2018 12.2, AISC 360-16 J3.6"
    stress, any_steel = float(T.max()) / (math.pi * dowel.D_r**2 / 4.0), judgment("any steel at the root")
    if stress > any_steel.value:
        text = f"what steel the {dowel.kind} is of is not said, and the standard names no grade: its maker's value"
        yield group.refers(id, what, clause, Open(text, "screw_steel"))
        return
    text = (
        f"what steel the {dowel.kind} is of is not said; {show(stress, 'stress')} at the root is little for any steel "
        f"(up to {show(any_steel.value, 'stress')}: judgment, no source), not for brass or bronze"
    )
    yield Check.keeps_rule(id, group.name, what, clause, text)


def _lag_distances(connection: Connection) -> Iterator[Check]:
    """Edge, end and spacing of lag screws in withdrawal (Table 12.5.1E) in the member that holds the point."""
    group, dowel, main = connection.group, connection.joint.dowel, connection.joint.main
    id, what, clause = "anchor.lag_distances", "distances of lag screws in withdrawal", "NDS 2018 Table 12.5.1E"
    if dowel.kind != "lag screw":
        return
    other, x, y = group.anchor.other, group.x, group.y
    edge = float(min(y.min(), float(group.section.d) - y.max()))
    if main.grain == "into":
        given: dict[str, float | None] = {"edge": min(edge, float(x.min()), float(group.section.b) - float(x.max()))}
    elif main.is_held:
        given = {"edge": edge, "end": float(x.min())}
    else:
        given = {"edge": other.edge if other else None, "end": other.end if other else None}
    given["spacing"] = nearest_apart(x, y)
    short = []
    for rule, actual in given.items():
        least = tables.distance("lag pull", "any", rule).value.least * dowel.D
        if actual is None:
            text = f"how far they are from the {rule} of the other member is not given"
            yield group.refers(id, what, clause, Open(text, f"other_{rule}", f"other.{rule}"))
        elif actual < least - HAIR:
            short.append(f"{rule} {show(actual, 'length')}, at least {show(least, 'length')} asked")
    if short:
        yield Check.breaks_rule(id, group.name, what, clause, *short)
    elif None not in given.values():
        yield Check.keeps_rule(id, group.name, what, clause, "edge, end and spacing are kept")

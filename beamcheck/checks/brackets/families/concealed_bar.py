"""A concealed bar or angle: the steel carries all of it, and the wood around it must stand how far it bends."""

from __future__ import annotations

from functools import partial

import numpy as np

from ....calc.pad import Pad
from ....errors import BeamcheckError
from ....formulas.brackets import steel_core as core
from ....formulas.steel import bending as sb
from ....formulas.steel.plates import fillet_weld
from ....formulas.wood.section import rectangle_inertia, rectangle_modulus
from ....model.brackets import Bracket, SteelCore
from ....units import show
from ....values.fasteners import bolt, lag_screw
from ....values.steels import least_fillet, steel
from ...core.context import Context
from ...core.govern import Criterion, at, govern, stated
from ...core.result import Check
from ...core.strength import Outcome
from ..body import Body
from ..fixing_rows import lifts
from ..loads import BracketLoads

Array = np.ndarray
E_STEEL = 29.0e6  # psi; AISC 360-16 (memory)
HOLE_OVER = 1.0 / 16.0  # in, standard holes (AISC 360-16 Table J3.3, memory)
DAMAGE = 1.0 / 16.0  # in, that punching spoils around a hole (AISC 360-16 B4.3b, memory)
ELECTRODE = 70000.0  # psi, E70; common practice
SKIN = (
    "The wood around the steel is taken to carry nothing. Steel and wood that are screwed together share the load by "
    "their stiffness: the skin must be free to follow the steel."
)
UPPER = "The moment is taken to stay the same down to the fixing of the upright leg: the largest sinking."


def steel_body(bracket: Bracket, shape: SteelCore, loads: BracketLoads, context: Context) -> Body:
    """Bending at the bend, the gusset and its welds, how far the tip sinks."""
    name = bracket.name
    try:
        grade = steel(shape.steel)
    except BeamcheckError as error:
        return Body([stated(name, "steel of the bar", "AISC 360-16", "refer", str(error))])
    F_y, source = grade.value.F_y, grade.source
    hole = max(shape.hole_at_bend + (DAMAGE if shape.hole_at_bend else 0.0), _widest_hole(bracket))
    body = Body(eta="steel", assumptions=[SKIN, UPPER])
    if hole >= shape.width:
        text = f"a hole of {show(hole, 'length')} leaves nothing of a bar {show(shape.width, 'length')} wide"
        body.checks.append(stated(name, "net section at the bend", "geometry", "fails", text))
        return body
    net = shape.width - hole
    M = np.maximum(loads.M_wall, 0.0)
    gusseted = shape.gusset_depth is not None and shape.gusset_thickness is not None

    def bending(pad: Pad, which: int | slice, elastic: bool = False) -> Outcome:
        moment = pad.take("M", at(M, which), "lbf*in", note="of all the load about the wall face")
        F = pad.take("F_y", F_y, "psi", source=source)
        S = pad(rectangle_modulus, symbol="S", b=net, d=shape.thickness)
        if elastic:
            limit = pad(core.elastic_bending_limit, F_y=F)
            f = moment / S
            if not isinstance(which, slice):
                pad.take("f_b", float(f), "psi", note="M over S")
            return Outcome(f, limit, f / limit)
        Z = pad(sb.bar_plastic_modulus, b=net, t=shape.thickness)
        allowed = pad(sb.bar_bending, F_y=F, Z_x=Z, S_x=S)
        return Outcome(moment, allowed, moment / allowed)

    if not gusseted:
        criterion = Criterion(name, "bending of the bar at the bend", "AISC 360-16 F11", "moment")
        body.checks.append(govern(criterion, loads.combinations, bending))
        criterion = Criterion(name, "elastic bending stress of the bar", "0.6 F_y", "stress")
        body.checks.append(govern(criterion, loads.combinations, lambda pad, which: bending(pad, which, True)))
    else:
        body.checks += _gusset(bracket, shape, loads, F_y, M)
        beyond = loads.beyond(min(_gusset_reach(shape), shape.projection))[1]
        M_beyond = np.maximum(beyond, 0.0)

        def past(pad: Pad, which: int | slice) -> Outcome:
            moment = pad.take("M", at(M_beyond, which), "lbf*in", note="about the end of the gusset")
            F = pad.take("F_y", F_y, "psi", source=source)
            S = pad(rectangle_modulus, symbol="S", b=net, d=shape.thickness)
            Z = pad(sb.bar_plastic_modulus, b=net, t=shape.thickness)
            allowed = pad(sb.bar_bending, F_y=F, Z_x=Z, S_x=S)
            return Outcome(moment, allowed, moment / allowed)

        criterion = Criterion(name, "bending of the bar beyond the gusset", "AISC 360-16 F11", "moment")
        body.checks.append(govern(criterion, loads.combinations, past))
        down = _below_gusset(bracket, shape)
        if down > 0.0:

            def below(pad: Pad, which: int | slice) -> Outcome:
                moment = pad.take("M", at(down * M, which), "lbf*in", note=f"{down:.3g} of that at the bend")
                F = pad.take("F_y", F_y, "psi", source=source)
                S = pad(rectangle_modulus, symbol="S", b=net, d=shape.thickness)
                Z = pad(sb.bar_plastic_modulus, b=net, t=shape.thickness)
                allowed = pad(sb.bar_bending, F_y=F, Z_x=Z, S_x=S)
                return Outcome(moment, allowed, moment / allowed)

            criterion = Criterion(name, "bending of the upright leg below the gusset", "AISC 360-16 F11", "moment")
            body.checks.append(govern(criterion, loads.combinations, below))
    if lifts(loads):
        text = "some combinations lift the nose: the bar bent the other way, and its fixings, are for an engineer"
        body.checks.append(stated(name, "uplift", "ASCE 7-16 2.4.1", "refer", text))
    body.checks += _sinking(bracket, shape, loads)
    inertia = shape.width * shape.thickness**3 / 12.0
    out, down = shape.projection, shape.down
    body.k_high = 1.0 / float(core.tip_deflection(1.0, out, out, E_STEEL, inertia, down, 3.0))
    body.k_low = 1.0 / float(core.tip_deflection(1.0, out, out, E_STEEL, inertia, down, 1.0))
    if gusseted:
        body.k_high = None  # stiffer than the bar alone, by how much is not worked out
    return body


def _widest_hole(bracket: Bracket) -> float:
    """Of the fasteners through the upright leg, side by side in one row, in."""
    fixings = bracket.fixings
    if fixings is None or fixings.fastener is None:
        return 0.0
    size = fixings.fastener.size
    try:
        D = bolt(size).value.D if fixings.fastener.kind == "bolt" else lag_screw(size).value.D
    except BeamcheckError:
        D = 0.25  # a screw, or a nail as thick as bolts are at least
    return (D + HOLE_OVER + DAMAGE) * max((row.count for row in fixings.rows), default=1)


def _below_gusset(bracket: Bracket, shape: SteelCore) -> float:
    """Share of the moment at the bend that is left in the upright leg where the gusset ends.

    From the top row down it dies out evenly to the lowest fixing; above that row, or with rows not known, all of it is
    there.
    """
    h = shape.gusset_depth or 0.0
    if h >= shape.down:
        return 0.0
    rows = bracket.fixings.rows if bracket.fixings is not None else ()
    first = min((row.below_top for row in rows), default=shape.down)
    return min(1.0, (shape.down - h) / (shape.down - first)) if first < h else 1.0


def _gusset_reach(shape: SteelCore) -> float:
    """How far out the gusset reaches along the level leg: as its free edge tells, no farther than it is deep, in."""
    h = shape.gusset_depth or 0.0
    edge = shape.gusset_edge if shape.gusset_edge is not None else np.inf
    return min(h, float(np.sqrt(max(edge**2 - h**2, 0.0))))


def _gusset(bracket: Bracket, shape: SteelCore, loads: BracketLoads, F_y: float, M: Array) -> list[Check]:
    name, h, t = bracket.name, shape.gusset_depth or 0.0, shape.gusset_thickness or 0.0
    found = []

    def root(pad: Pad, which: int | slice) -> Outcome:
        moment = pad.take("M", at(M, which), "lbf*in", note="of all the load about the wall face")
        S = pad(rectangle_modulus, symbol="S", b=t, d=h)
        f = moment / S
        if not isinstance(which, slice):
            pad.take("f_b", float(f), "psi", note="M over S of the gusset at its root")
        limit = pad(core.elastic_bending_limit, F_y=pad.take("F_y", F_y, "psi"))
        return Outcome(f, limit, f / limit)

    criterion = Criterion(name, "bending of the gusset at its root", "0.6 F_y", "stress")
    found.append(govern(criterion, loads.combinations, root))
    if shape.gusset_edge is None:
        text = "the length of its free sloping edge is not given (`gusset_edge`): it may buckle"
        found.append(stated(name, "free edge of the gusset", "AISC 360-16 Table B4.1a", "refer", text))
    else:
        edge = shape.gusset_edge

        def slender(pad: Pad, which: int | slice) -> Outcome:
            ratio = pad(core.gusset_slenderness, l_edge=edge, t=t)
            limit = pad(core.gusset_slenderness_limit, E_steel=E_STEEL, F_y=F_y)
            return Outcome(ratio, limit, ratio / limit)

        criterion = Criterion(name, "free edge of the gusset", "AISC 360-16 Table B4.1a", "ratio")
        found.append(govern(criterion, loads.combinations, slender))
    if shape.weld is None:
        text = "the welds of the gusset are not given (`weld`)"
        found.append(stated(name, "welds of the gusset", "AISC 360-16 J2.4", "refer", text))
        return found
    weld, least = shape.weld, least_fillet(min(t, shape.thickness))
    if weld < least.value - 1e-9:
        text = f"a fillet of {show(weld, 'length')}; at least {show(least.value, 'length')} for this thickness"
        found.append(stated(name, "least weld", "AISC 360-16 Table J2.4", "fails", text))

    def welds(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P", at(np.maximum(loads.F, 0.0), which), "lbf")
        moment = pad.take("M", at(M, which), "lbf*in")
        q = pad(core.gusset_weld_force, P=P, M=moment, L_w=min(h, _gusset_reach(shape)))  # the shorter of both legs
        allowed = pad(fillet_weld, F_EXX=ELECTRODE, w_leg=weld, L_w=1.0, theta_w=0.0)
        return Outcome(q, allowed, q / allowed)

    found.append(
        govern(Criterion(name, "welds of the gusset", "AISC 360-16 J2.4", "line load"), loads.combinations, welds)
    )
    return found


def _sinking(bracket: Bracket, shape: SteelCore, loads: BracketLoads) -> list[Check]:
    """How far the tip sinks, against what the skin has room for and what the job allows."""
    name, found = bracket.name, []
    F = np.maximum(loads.F, 0.0)
    x_L = np.clip(loads.x_L, 1e-6, shape.projection)

    def sinking(pad: Pad, which: int | slice, *, room: float) -> Outcome:
        P = pad.take("P", at(F, which), "lbf", note="all the load")
        x = pad.take("x_L", at(x_L, which), "in", note="where it acts")
        inertia = pad(rectangle_inertia, symbol="I", b=shape.width, d=shape.thickness)
        sunk = pad(
            core.tip_deflection, P=P, x_L=x, l_out=shape.projection, E_steel=E_STEEL, I=inertia, l_down=shape.down,
            c_v=1.0,
        )  # fmt: skip
        return Outcome(sunk, room, sunk / room)

    allowed = [("skin clear of the steel's tip", shape.tip_clear), ("sinking of the nose", bracket.deflects)]
    for what, room in allowed:
        if room is None:
            continue
        if room <= 0.0:
            found.append(stated(name, what, "judgement", "fails", "no room is left for the steel to bend"))
            continue
        criterion = Criterion(name, what, "statics", "length")
        found.append(govern(criterion, loads.combinations, partial(sinking, room=room)))
    if shape.tip_clear is None:
        text = "how far the steel may sink before it touches skin or cover is not given (`tip_clear`)"
        found.append(stated(name, "skin clear of the steel's tip", "judgement", "refer", text))
    if bracket.deflects is None:
        text = "how far the nose may sink is not given (`deflects`)"
        found.append(stated(name, "sinking of the nose", "judgement", "refer", text))
    return found

"""How far a braced bracket sinks under its load, joints included; and its brace with a check along it."""

from __future__ import annotations

import math

import numpy as np

from ....calc.core import Number
from ....calc.pad import Pad
from ....formulas.brackets import brace as br
from ....formulas.connections.group_action import load_slip_wood
from ....formulas.wood.compression import compression_stress
from ....model.brackets.bracket import Braced, Bracket
from ....values.judgment import judgment
from ...anchors.fastener import dowel_of
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import WoodMaterial, modulus_prime
from ...core.wood.strength import Outcome, Section, column_values
from ..evidence import sinking_not_given
from ..loads import BracketLoads
from .braced_force import Force

THINNEST, THICKEST = 0.25, 1.0  # in: the slip rule runs between


def sinking(bracket: Bracket, loads: BracketLoads, wood: WoodMaterial, force: Force, length: float) -> Check:
    """Under its load, creep on all of it, slack in every joint."""
    shape, room = force.shape, bracket.deflects
    if room is None:
        return sinking_not_given(bracket)
    d, t, beta = shape, shape.thickness, math.radians(force.beta)
    joint = shape.legs_joint

    def sunk(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P", at(force.F, which), "lbf", note="all the load")
        x_L = pad.take("x_L", at(force.x_L, which), "in", note="where it acts")
        N = force.on(pad, which)
        n_b = pad.take("n_b", np.asarray(N) / np.maximum(np.asarray(P), 1e-9) if isinstance(which, slice)
                       else float(N) / max(float(P), 1e-9), note="brace")  # fmt: skip
        t_b: Number = pad.take("t_b", n_b * math.cos(beta), note="joint of the legs")
        v_b: Number = pad.take("v_b", 1.0 - n_b * math.sin(beta), note="upright on that joint")
        E = modulus_prime(pad, wood)
        if shape.housing is not None:
            area = {"top": t * shape.housing, "wall": t * shape.housing}
        else:
            area = {"top": t * d.brace / math.sin(beta), "wall": t * d.brace / math.cos(beta)}
        ends = [
            float(pad(br.end_of_brace_stiffness, E=E, A_b=area[leg], d=deep))
            for leg, deep in (("top", d.top_leg), ("wall", d.wall_leg))
        ]
        c_b = pad.take("c_b", length / (float(E) * t * d.brace) + sum(1.0 / k for k in ends), "in/lbf",
                       note="of the brace and both its ends")  # fmt: skip
        if joint is not None and joint.manner == "lap" and joint.fastener is not None:
            count = float(sum(row.count for row in joint.rows))
            slip = pad(load_slip_wood, D=min(max(dowel_of(joint.fastener).D, THINNEST), THICKEST))
            k_V = pad.take("k_V", count * float(slip), "lbf/in", note="of all fasteners of the lap")
        else:
            soft = judgment("anchor stiffness, soft")
            k_V = pad.take("k_V", soft.value, "lbf/in", note=soft.reason, source=soft.source)
        c_t = pad.take("c_t", 1.0 / float(k_V) + d.brace_out / (float(E) * t * d.top_leg), "in/lbf",
                       note="of the joint of the legs and the top leg")  # fmt: skip
        inertia = t * (d.top_leg - (d.housing or 0.0)) ** 3 / 12.0
        bent = _bent(pad, P, x_L, d.brace_out, float(E), inertia)
        slack = judgment("slack in a joint of a braced bracket")
        g_j = pad.take("g_j", slack.value, "in", note=slack.reason, source=slack.source)
        K_cr = pad.take("K_cr", float(wood.K_cr.value), note=wood.K_cr.why, source=wood.K_cr.source)
        elastic = pad(br.braced_sinking, P=P, n_b=n_b, t_b=t_b, v_b=v_b, c_b=c_b, c_t=c_t, k_V=k_V, delta_n=bent,
                      g_j=g_j)  # fmt: skip
        v = K_cr * elastic
        if not isinstance(which, slice):
            pad.take("v_nose", float(v), "in", note="times K_cr, as if all the load stayed")
        return Outcome(v, room, v / room)

    criterion = Criterion(bracket.name, "sinking under the load", "statics", "small length", id="bracket.sinking")
    return govern(criterion, loads.combinations, sunk)


def _bent(pad: Pad, P: Number, x_L: Number, x_b: float, E: float, I: float) -> Number:  # noqa: E741
    """Bending of the top leg, outside the brace or inside it."""
    if isinstance(x_L, np.ndarray):
        outside = br.bent_outside_brace(P, x_L, x_b, E, I)
        inside = br.bent_inside_brace(P, x_L, x_b, E, I)
        return np.asarray(np.where(x_L >= x_b, outside, inside))
    formula = br.bent_outside_brace if float(x_L) >= x_b else br.bent_inside_brace
    return pad(formula, P=P, x_L=x_L, x_b=x_b, E=E, I=I)


def checked_brace(
    name: str, shape: Braced, loads: BracketLoads, wood: WoodMaterial, force: Force, length: float
) -> Check:
    """A check along the brace leaves two of half its depth, each with half of the force."""
    section = Section(shape.thickness, 0.5 * shape.brace, shape.thickness)

    def column(pad: Pad, which: int | slice) -> Outcome:
        half = pad.take("N_2", 0.5 * force.on(pad, which), "lbf", note="half of the force in each half")
        f_c = pad(compression_stress, P=half, A=section.area(pad))
        F_c, _, _, _ = column_values(
            pad, wood, section, l_e1=length, l_e2=length, C_D=duration(pad, loads.combinations, which)
        )
        return Outcome(f_c, F_c, f_c / F_c)

    criterion = Criterion(name, "brace with a check along it", "NDS 2018 3.7.1", "stress", id="bracket.brace_checked")
    return govern(criterion, loads.combinations, column)

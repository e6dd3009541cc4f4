"""The strength checks of one section, written on a pad. They take floats (a sheet) or arrays (a sweep) alike.

Each returns an `Outcome`; who calls decides at which places and under which combinations it is asked.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from ....calc.core import Number, smallest
from ....calc.pad import Pad
from ....formulas.wood import adjustment as adj
from ....formulas.wood import bearing as br
from ....formulas.wood import bending as bd
from ....formulas.wood import combined as cb
from ....formulas.wood import compression as cp
from ....formulas.wood import section as sc
from ....formulas.wood import shear as sh
from ....formulas.wood.section import equal_area_square
from ....provenance import Source
from ....records import dataclass
from ....values.factors import EffectiveLength
from .material import (
    WoodMaterial,
    bearing_prime,
    bending_star,
    compression_star,
    modulus_min_prime,
    shear_prime,
    shear_prime_at_cut,
    tension_prime,
)
from .section import Section as Section


@dataclass(frozen=True)
class Outcome:
    """Demand, capacity and their ratio; floats or arrays."""

    demand: Number
    capacity: Number
    ratio: Number


@dataclass(frozen=True)
class Bracing:
    """How the compression edge is held. With `held` C_L is 1 for the reason given; otherwise `l_u` in inches counts.

    `row` is the case of NDS 2018 Table 3.3.3; None takes the row for any other loading, a cantilever's too, which is
    never below the rest.
    """

    held: bool
    why: str
    l_u: Number = 0.0
    row: EffectiveLength | None = None
    row_source: Source | None = None


def stability(pad: Pad, wood: WoodMaterial, section: Section, bracing: Bracing, F_b_star: Number) -> Number:
    """C_L of NDS 2018 3.3.3."""
    if bracing.held:
        return pad.take("C_L", 1.0, clause="NDS 2018 3.3.3, 4.4.1", note=bracing.why)
    F_bE = sideways_limit(pad, wood, section, bracing)
    return pad(bd.beam_stability, F_bE=F_bE, F_b_star=F_b_star)


def sideways_limit(pad: Pad, wood: WoodMaterial, section: Section, bracing: Bracing) -> Number:
    """F_bE of NDS 2018 3.3.3.8, psi."""
    l_u = pad.take("l_u", bracing.l_u, "in", note=bracing.why)
    row = bracing.row
    if row is not None:
        note, source = row.loading, bracing.row_source
        k_short = pad.take("k_short", row.below_7, note=note, source=source)
        k_long = pad.take("k_long", row.from_7, note=note, source=source)
        k_d = pad.take("k_d", row.plus_d, note=note, source=source)
        l_e = pad(bd.effective_length, l_u=l_u, d=section.d, k_short=k_short, k_long=k_long, k_d=k_d)
    else:
        l_e = pad(bd.effective_length_any, l_u=l_u, d=section.d)
    R_B = pad(bd.slenderness_ratio, l_e=l_e, d=section.d, b=section.breadth_alone)
    E_min_prime = modulus_min_prime(pad, wood)
    return pad(bd.critical_buckling_bending, E_min_prime=E_min_prime, R_B=R_B)


def bending_values(
    pad: Pad, wood: WoodMaterial, section: Section, bracing: Bracing, C_D: Number
) -> tuple[Number, Number]:
    """F_b* and F_b', psi."""
    F_b_star = bending_star(pad, wood, C_D)
    C_L = stability(pad, wood, section, bracing, F_b_star)
    if wood.volume is not None:
        from .made.engineered import adjusted

        return F_b_star, adjusted(pad, wood.volume, section.breadth_alone, section.d, F_b_star, C_L)
    C_fu = wood.F_b.C_fu
    fu = pad.take("C_fu", C_fu.value, note=C_fu.why, source=C_fu.source) if C_fu.why else C_fu.value
    return F_b_star, pad(adj.adjusted_bending, F_b_star=F_b_star, C_L=C_L, C_fu=fu)


def bending(
    pad: Pad, wood: WoodMaterial, section: Section, bracing: Bracing, *, M: Number, C_D: Number, S: Number | None = None
) -> Outcome:
    """Bending stress against F_b' (NDS 2018 3.3). `S` is a net section modulus when something is cut out there."""
    modulus = section.modulus(pad) if S is None else pad.take("S", S, "in3", note="of what is left there")
    f_b = pad(bd.bending_stress, M=M, S=modulus)
    _, F_b_prime = bending_values(pad, wood, section, bracing, C_D)
    return Outcome(f_b, F_b_prime, f_b / F_b_prime)


def shear(
    pad: Pad,
    wood: WoodMaterial,
    section: Section,
    *,
    V: Number,
    C_D: Number,
    stress: Callable[[Pad, Number], Number] | None = None,
) -> Outcome:
    """Shear parallel to grain (NDS 2018 3.4.2). `stress` gives the shear stress of a section that is not whole."""
    if stress is not None:
        f_v = stress(pad, V)
    elif section.round:
        f_v = pad(sh.shear_stress_round, V=V, A=section.area(pad))
    else:
        f_v = pad(sh.shear_stress, V=V, b=section.b, d=section.d)
    F_v_prime = (shear_prime if stress is None else shear_prime_at_cut)(pad, wood, C_D)
    return Outcome(f_v, F_v_prime, f_v / F_v_prime)


def notch_shear(
    pad: Pad,
    wood: WoodMaterial,
    section: Section,
    *,
    V: Number,
    C_D: Number,
    depth: Number,
    pressed_past: Number | None = None,
) -> Outcome:
    """Shear at an end notch (NDS 2018 3.4.3.2), with the full shear: nothing near the support is left out.

    `pressed_past`: of a notch in the side that is pressed, how far it runs past its seat (`e`); None: the side that is
    pulled.
    """
    F_v_prime = shear_prime_at_cut(pad, wood, C_D)
    d_n = pad(sc.notched_depth, d=section.d, d_cut=depth)
    if pressed_past is not None:
        of = {"b": section.b, "d": section.d, "d_n": d_n, "e": pressed_past}
        V_r = pad(sh.end_notch_compression_shear, F_v_prime=F_v_prime, **of)
    else:
        V_r = pad(sh.end_notch_tension_shear, F_v_prime=F_v_prime, b=section.b, d=section.d, d_n=d_n)
    return Outcome(V, V_r, V / V_r)


def shear_at_connection(
    pad: Pad, F_v_prime: Number, *, V: Number, b: Number, d: Number, c_u: Number, near_end: bool
) -> Outcome:
    """Shear on the depth beyond the fasteners, c_u from the unloaded edge to the nearest (NDS 2018 3.4.3.3)."""
    d_e = pad(sh.connection_depth, d=d, c_u=c_u)
    if near_end:
        V_r = pad(sh.connection_shear_near_end, F_v_prime=F_v_prime, b=b, d=d, d_e=d_e)
    else:
        V_r = pad(sh.connection_shear_inner, F_v_prime=F_v_prime, b=b, d_e=d_e)
    return Outcome(V, V_r, V / V_r)


def bearing(pad: Pad, wood: WoodMaterial, *, R: Number, b: Number, l_b: Number, near_end: bool) -> Outcome:
    """Bearing across the grain (NDS 2018 3.10.2); C_b only away from the end (3.10.4)."""
    f_c_perp = pad(br.bearing_stress, R=R, b=b, l_b=l_b)
    if wood.made == "composite":
        C_b = pad.take("C_b", 1.0, clause="NDS 2018 8.3", note="the maker's report alone says what may be counted")
    elif near_end:
        C_b = pad.take(
            "C_b", 1.0, clause="NDS 2018 3.10.4", note="less than 3 in from the end, or not shown to be more"
        )
    else:
        C_b = pad(br.bearing_area_factor, l_b=l_b)
    F_c_perp_prime = bearing_prime(pad, wood, C_b)
    return Outcome(f_c_perp, F_c_perp_prime, f_c_perp / F_c_perp_prime)


def column_values(
    pad: Pad, wood: WoodMaterial, section: Section, *, l_e1: Number, l_e2: Number, C_D: Number, K_f: float = 1.0
) -> tuple[Number, Number, Number, Number]:
    """F_c', F_cE1, F_cE2 and F_c*, psi (NDS 2018 3.7.1). Axis 1 buckles the deep way (d), axis 2 the thin way (b).

    A length of zero means held along the whole length that way.
    """
    F_c_star = compression_star(pad, wood, C_D)
    E_min_prime = modulus_min_prime(pad, wood)
    width = equal_area_square(section.d) if section.round else None
    C_P: Number = 1.0
    F_cE = []
    ways = (("1", l_e1, width or section.d), ("2", l_e2, width or section.b))
    for way, l_e, depth in ways:
        if isinstance(l_e, float) and l_e == 0.0:
            pad.take(f"C_P{way}", 1.0, clause="NDS 2018 3.7.1.1", note="held sideways along the whole length this way")
            F_cE.append(float("inf"))
            continue
        pad(cp.slenderness_column, symbol=f"l_e{way}/d_{way}", l_e=l_e, d=depth)
        F_cE_way = pad(cp.critical_buckling_column, symbol=f"F_cE{way}", E_min_prime=E_min_prime, l_e=l_e, d=depth)
        if way == "2" and K_f != 1.0:
            C_P_way = pad(
                cp.column_stability_built_up, symbol="C_P2", F_cE=F_cE_way, F_c_star=F_c_star, c=wood.c, K_f=K_f
            )
        else:
            C_P_way = pad(cp.column_stability, symbol=f"C_P{way}", F_cE=F_cE_way, F_c_star=F_c_star, c=wood.c)
        F_cE.append(F_cE_way)
        C_P = smallest(C_P, C_P_way)
    C_P = pad.take("C_P", C_P, note="the smaller of the two ways")
    F_c_prime = pad(adj.adjusted_compression, F_c_star=F_c_star, C_P=C_P)
    return F_c_prime, F_cE[0], F_cE[1], F_c_star


def compression(
    pad: Pad,
    wood: WoodMaterial,
    section: Section,
    *,
    P: Number,
    C_D: Number,
    l_e1: Number,
    l_e2: Number,
    K_f: float = 1.0,
) -> Outcome:
    """Axial compression (NDS 2018 3.6, 3.7)."""
    f_c = pad(cp.compression_stress, P=P, A=section.area(pad))
    F_c_prime, *_ = column_values(pad, wood, section, l_e1=l_e1, l_e2=l_e2, C_D=C_D, K_f=K_f)
    return Outcome(f_c, F_c_prime, f_c / F_c_prime)


def end_grain(
    pad: Pad, wood: WoodMaterial, section: Section, *, P: Number, C_D: Number, plate: bool, A_n: Number | None = None
) -> Outcome:
    """Compression on end grain or on a net area, against F_c* (NDS 2018 3.10.1, 3.6.3); 3/4 of it without a plate."""
    f_c = pad(cp.compression_stress, P=P, A=section.area(pad) if A_n is None else A_n)
    F_c_star = compression_star(pad, wood, C_D)
    used = pad(br.end_grain_bearing_ratio, f_c=f_c, F_c_star=F_c_star)
    allowed = 1.0 if plate else 0.75
    return Outcome(used, allowed, used / allowed)


def tension(
    pad: Pad, wood: WoodMaterial, section: Section, *, T: Number, C_D: Number, A_n: Number | None = None
) -> Outcome:
    """Tension parallel to grain on the net area (NDS 2018 3.8.1)."""
    f_t = pad(cb.tension_stress, T=T, A_n=section.area(pad) if A_n is None else A_n)
    F_t_prime = tension_prime(pad, wood, C_D)
    return Outcome(f_t, F_t_prime, f_t / F_t_prime)


def bending_with_tension(
    pad: Pad, wood: WoodMaterial, section: Section, bracing: Bracing, *, M: Number, T: Number, C_D: Number
) -> list[Outcome]:
    """NDS 2018 3.9.1, both conditions."""
    axial = tension(pad, wood, section, T=T, C_D=C_D)
    f_b = pad(bd.bending_stress, M=M, S=section.modulus(pad))
    F_b_star, F_b_prime = bending_values(pad, wood, section, bracing, C_D)
    # here F_b* leaves out C_L only (3.9.1), so flat use counts, above all where it lowers the value
    F_b_star = pad(adj.adjusted_bending, symbol="F_b_star", F_b_star=F_b_star, C_L=1.0, C_fu=wood.F_b.C_fu.value)
    first = pad(cb.bending_and_tension, f_t=axial.demand, F_t_prime=axial.capacity, f_b=f_b, F_b_star=F_b_star)
    # F_b** leaves out C_V only, which sawn lumber does not have: it is F_b'
    second = pad(cb.bending_less_tension, f_b=f_b, f_t=axial.demand, F_b_starstar=F_b_prime)
    return [Outcome(first, 1.0, first), Outcome(second, 1.0, second)]


def bending_with_compression(
    pad: Pad, wood: WoodMaterial, section: Section, bracing: Bracing, *, M: Number, P: Number, C_D: Number,
    l_e1: Number, l_e2: Number,
) -> list[Outcome]:  # fmt: skip
    """NDS 2018 3.9.2 with bending the strong way only: eq. 3.9-3, and eq. 3.9-4 which must stay below 1."""
    f_c = pad(cp.compression_stress, P=P, A=section.area(pad))
    F_c_prime, F_cE1, F_cE2, _ = column_values(pad, wood, section, l_e1=l_e1, l_e2=l_e2, C_D=C_D)
    f_b1 = pad(bd.bending_stress, symbol="f_b1", M=M, S=section.modulus(pad))
    _, F_b1_prime = bending_values(pad, wood, section, bracing, C_D)
    whole = pad(
        cb.bending_and_compression_one_way, f_c=f_c, F_c_prime=F_c_prime, f_b1=f_b1, F_b1_prime=F_b1_prime, F_cE1=F_cE1
    )
    F_bE = math.inf if bracing.held else sideways_limit(pad, wood, section, bracing)
    limit = pad(cb.bending_and_compression_limit, f_c=f_c, F_cE2=F_cE2, f_b1=f_b1, F_bE=F_bE)
    return [Outcome(whole, 1.0, whole), Outcome(limit, 1.0, limit)]

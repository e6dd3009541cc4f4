"""A bent, laminated or sawn arc: upright at its foot on the wall, running up and out to its nose.

psi is the angle from the foot; the middle of the arc stands r_o - r_m cos(psi) out from the wall face, with r_o the
radius of its full side and r_m that of its middle. Loads are upright forces on its top.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ....calc.core import Number
from ....calc.pad import Pad, SilentPad
from ....formulas.brackets import curved_bar as cv
from ....formulas.wood import combined as cb
from ....formulas.wood import off_axis as off
from ....formulas.wood.combined import tension_stress
from ....formulas.wood.compression import compression_stress
from ....formulas.wood.section import rectangle_area
from ....formulas.wood.shear import shear_stress
from ....model.brackets import Bent, Bracket
from ....provenance import Source
from ....units import show
from ....values.brackets import elastic_ratios
from ....values.judgment import judgment
from ...anchors.distances import is_hardwood
from ...core.context import Context
from ...core.govern import Criterion, at, duration, govern, stated
from ...core.material import WoodMaterial, bearing_prime, modulus_prime, shear_prime, tension_prime
from ...core.result import Check
from ...core.strength import Bracing, Outcome, Section, bending_values, column_values
from ..bearing import bearing_under_loads
from ..body import Body
from ..evidence import knots_seen
from ..fixing_rows import lifts
from ..loads import BracketLoads

Array = np.ndarray
STATIONS = 37  # sections looked at, from foot to nose
FREE_END = 2.1  # effective over real length of a column fixed below and free above (NDS 2018 Appendix G, memory)
QUARTER = 0.5  # deg: within so much of 90 the closed form of the stiffness holds
TIGHT = {"softwood": 1.0 / 125.0, "hardwood": 1.0 / 100.0}  # lamination over radius, most
CURVATURE = Source("NDS 2018 5.3.8", "memory", confidence="medium")
FOOT = (
    "The arc is taken as held fast at its foot. It touches the wall nowhere else; its loads are upright forces, and "
    "its foot takes their whole moment about the wall face."
)
LAMINATED = (
    "The values of the laminations are those of sawn wood of that grade times the curvature factor of glued laminated "
    "timber; the glue is vouched for by whoever is named."
)
SAWN = "The grain of a sawn arc is taken to run along the straight line between its ends, which is the best it can do."


@dataclass(frozen=True, eq=False)
class _Arc:
    """Radii, in; and per station and combination the moment that closes the arc, lbf in, and the pull along it, lbf."""

    shape: Bent
    r_i: float
    r_o: float
    r_m: float
    r_n: float
    e_c: float
    length: float
    M: Array
    N: Array

    @property
    def section(self) -> Section:
        return Section(self.shape.thickness, self.shape.depth, self.shape.thickness)


def bent_projection(shape: Bent) -> float:
    """How far the arc stands out from the wall face, in."""
    return shape.stands_out


def bent_body(bracket: Bracket, shape: Bent, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Body:
    """Stress along and across the arc, shear, evidence for what it is made of, stiffness."""
    name = bracket.name
    arc = _arc(shape, loads)
    body = Body(eta="straight", assumptions=[FOOT])
    body.inputs += [
        ("radius of the arc's middle", show(arc.r_m, "length")), ("length of the arc", show(arc.length, "length")),
    ]  # fmt: skip
    if lifts(loads):
        text = "some combinations lift it and open the arc, which pulls its layers apart: for an engineer"
        body.checks.append(stated(name, "uplift", "NDS 2018 5.4.1", "refer", text))
    body.checks += knots_seen(bracket)
    body.checks += _made(bracket, shape)
    C_c = _curvature(bracket, shape, context, body)
    body.checks.append(_along(name, loads, wood, arc, C_c))
    body.checks += _across(name, loads, wood, arc)
    body.checks.append(_shear(name, loads, wood, arc))
    # the grain turns with the arc: it is taken as level under every load, the weaker way
    body.checks += bearing_under_loads(name, loads, wood, thickness=shape.thickness, grain=0.0)
    if shape.made == "sawn":
        body.assumptions.append(SAWN)
        _short_grain(name, loads, wood, arc, body)
    _stiffness(bracket, shape, loads, wood, context, arc, body)
    return body


def _arc(shape: Bent, loads: BracketLoads) -> _Arc:
    """Section forces by statics: what stands farther out than the section, and its moment about it."""
    r_i, r_o = shape.inner_radius, shape.inner_radius + shape.depth
    r_m, r_n = 0.5 * (r_i + r_o), cv.neutral_radius(shape.depth, r_o, r_i)
    psi = np.radians(np.linspace(0.0, shape.sweep, STATIONS))
    M, N = [loads.M_wall], [-loads.F]
    for one in psi[1:]:
        Q, moment = loads.beyond(r_o - r_m * math.cos(one))
        M.append(moment)
        N.append(-Q * math.cos(one))
    return _Arc(shape, r_i, r_o, r_m, float(r_n), r_m - float(r_n), float(psi[-1]) * r_m, np.array(M), np.array(N))


def _made(bracket: Bracket, shape: Bent) -> Iterator[Check]:
    what, clause = "how the arc is made", "NDS 2018 4.1, 5.1"
    if shape.made is None:
        yield stated(bracket.name, what, clause, "refer", "how it got its curve is not said (`made`)")
    elif shape.made == "steam-bent":
        text = (
            "no table has values for steam-bent wood, and bending it breaks some of its fibres: proof loading, or an "
            "engineer"
        )
        yield stated(bracket.name, what, clause, "refer", text)
    elif shape.made == "laminated":
        missing = [] if shape.glue.strip() else ["its glue and who vouches for it (`glue`)"]
        missing += [] if shape.lamination is not None else ["the thickness of its laminations (`lamination`)"]
        if missing:
            yield stated(bracket.name, what, clause, "refer", f"not given: {' and '.join(missing)}")
        else:
            yield stated(bracket.name, what, clause, "passes", f"laminated, glue as stated: {shape.glue}")


def _curvature(bracket: Bracket, shape: Bent, context: Context, body: Body) -> float:
    """C_c of a laminated arc; 1 for others."""
    if shape.made != "laminated" or shape.lamination is None:
        return 1.0
    body.assumptions.append(LAMINATED)
    stock = context.stock(bracket.stock) if bracket.stock is not None else None
    tightness = shape.lamination / shape.inner_radius
    most = TIGHT["hardwood" if is_hardwood(stock) else "softwood"]
    if tightness > most:
        text = (
            f"laminations of {show(shape.lamination, 'length')} round {show(shape.inner_radius, 'length')}: at most "
            f"{show(most * shape.inner_radius, 'length')} is covered; bent tighter they have no value here"
        )
        body.checks.append(stated(bracket.name, "bend of the laminations", "NDS 2018 5.3.8", "refer", text))
    return max(1.0 - 2000.0 * tightness**2, 0.05)  # beyond the limit it refers; the figure stays one


def _factor(pad: Pad, arc: _Arc) -> float:
    """What the stress along the hollow side exceeds that of a bar of even material by."""
    if arc.shape.made == "sawn":
        found = judgment("factor, sawn arc with straight grain")
        return float(pad.take("k_g", found.value, note=found.reason, source=found.source))
    return float(pad(cv.grain_following_factor, d=arc.shape.depth, r_m=arc.r_m))


def _bending(pad: Pad, arc: _Arc, M: Number) -> Number:
    """Stress along the hollow side from the moment, with the factor for wood, psi; neither has a sign."""
    M = pad.take("M", M, "lbf*in", note="the largest of all sections, without its sign")
    A = pad(rectangle_area, b=arc.shape.thickness, d=arc.shape.depth)
    sigma = pad(cv.curved_inner_stress, M=M, N=0.0, A=A, e_c=arc.e_c, r_n=arc.r_n, r_i=arc.r_i)
    return pad.take("f_b", _factor(pad, arc) * sigma, "psi", note="along the hollow side, times that factor")


def _along(name: str, loads: BracketLoads, wood: WoodMaterial, arc: _Arc, C_c: float) -> Check:
    """Bending with force along the arc, at the worst section."""
    A = arc.shape.thickness * arc.shape.depth
    bracing = Bracing(False, "not held sideways from foot to nose", arc.length)
    M = np.max(np.abs(arc.M), axis=0)
    press, pull = np.max(np.maximum(-arc.N, 0.0), axis=0), np.max(np.maximum(arc.N, 0.0), axis=0)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        f_b = _bending(pad, arc, at(M, which))
        C_D = duration(pad, loads.combinations, which)
        _, F_b = bending_values(pad, wood, arc.section, bracing, C_D)
        if C_c < 1.0:
            F_b = pad.take("F_b_prime", C_c * F_b, "psi", note=f"times C_c = {C_c:.4g}", source=CURVATURE)
        f_c = pad(compression_stress, P=at(press, which), A=A)
        l_e = FREE_END * arc.length
        F_c, F_cE1, _, _ = column_values(pad, wood, arc.section, l_e1=l_e, l_e2=l_e, C_D=C_D)
        U = pad(cb.bending_and_compression_one_way, f_c=f_c, F_c_prime=F_c, f_b1=f_b, F_b1_prime=F_b, F_cE1=F_cE1)
        if float(np.max(pull)) <= 0.0:
            return Outcome(U, 1.0, U)
        f_t = pad(tension_stress, T=at(pull, which), A_n=A)
        pulled = pad(cb.bending_and_tension, f_t=f_t, F_t_prime=tension_prime(pad, wood, C_D), f_b=f_b, F_b_star=F_b)
        U = np.maximum(U, pulled)
        return Outcome(U, 1.0, U)

    criterion = Criterion(name, "stress along the arc", f"{cv.BAR}; NDS 2018 3.9", "ratio")
    return govern(criterion, loads.combinations, calculate)


def _across(name: str, loads: BracketLoads, wood: WoodMaterial, arc: _Arc) -> Iterator[Check]:
    """Stress across the arc: pressing where the moment closes it, pulling where it opens it."""
    closing, opening = np.max(np.maximum(arc.M, 0.0), axis=0), np.max(np.maximum(-arc.M, 0.0), axis=0)
    t, d = arc.shape.thickness, arc.shape.depth

    def pressed(pad: Pad, which: int | slice) -> Outcome:
        M = pad.take("M", at(closing, which), "lbf*in", note="closes the arc")
        f_r = pad(cv.radial_stress, M=M, r_m=arc.r_m, t=t, d=d)
        allowed = bearing_prime(pad, wood, 1.0)
        return Outcome(f_r, allowed, f_r / allowed)

    criterion = Criterion(name, "pressure across the arc", cv.RADIAL, "stress")
    yield govern(criterion, loads.combinations, pressed)
    if float(np.max(opening)) <= 0.5:
        return
    limit = judgment("radial tension, western species")

    def pulled(pad: Pad, which: int | slice) -> Outcome:
        M = pad.take("M", at(opening, which), "lbf*in", note="opens the arc")
        f_r = pad(cv.radial_stress, M=M, r_m=arc.r_m, t=t, d=d)
        allowed = pad.take("F_rt", limit.value, "psi", note=limit.reason, source=limit.source)
        return Outcome(f_r, allowed, f_r / allowed)

    yield govern(Criterion(name, "tension across the arc", cv.RADIAL, "stress"), loads.combinations, pulled)


def _shear(name: str, loads: BracketLoads, wood: WoodMaterial, arc: _Arc) -> Check:
    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(np.abs(loads.F), which), "lbf", note="all of the load")
        f_v = pad(shear_stress, V=V, b=arc.shape.thickness, d=arc.shape.depth)
        allowed = shear_prime(pad, wood, duration(pad, loads.combinations, which))
        return Outcome(f_v, allowed, f_v / allowed)

    return govern(Criterion(name, "shear of the arc", "NDS 2018 3.4.2", "stress"), loads.combinations, calculate)


def _short_grain(name: str, loads: BracketLoads, wood: WoodMaterial, arc: _Arc, body: Body) -> None:
    """Straight grain in a curved edge: it runs out at both ends by half the sweep."""
    phi = 0.5 * arc.shape.sweep
    steep, limit = judgment("slope of grain at an edge in tension"), judgment("tension across the grain")
    if phi > steep.value:
        body.weak_grain = (
            f"sawn from straight stock its grain meets the edges at up to {show(phi, 'angle')}, more than "
            f"{steep.value:g} degrees: short grain, not to be relied on for load"
        )
        return
    M = np.max(np.abs(arc.M), axis=0)

    def across(pad: Pad, which: int | slice) -> Outcome:
        f = pad(off.stress_across, sigma_t=_bending(pad, arc, at(M, which)), phi=phi)
        allowed = pad.take("F_t_perp", limit.value, "psi", note=limit.reason, source=limit.source)
        return Outcome(f, allowed, f / allowed)

    def aslant(pad: Pad, which: int | slice) -> Outcome:
        sigma = _bending(pad, arc, at(M, which))
        F_t = tension_prime(pad, wood, duration(pad, loads.combinations, which))
        F_perp = pad.take("F_t_perp", limit.value, "psi", note=limit.reason, source=limit.source)
        allowed = pad(off.hankinson_tension, F_par=F_t, F_perp=F_perp, phi=phi)
        return Outcome(sigma, allowed, sigma / allowed)

    criterion = Criterion(name, "tension across the grain", "NDS 2018 3.8.2: no value, judgement", "stress")
    found = govern(criterion, loads.combinations, across)
    criterion = Criterion(name, "tension aslant to the grain", "Hankinson's form in tension, judgement", "stress")
    body.checks += [found, govern(criterion, loads.combinations, aslant)]
    if found.verdict != "passes":
        text = f"short grain: {show(found.demand or 0.0, 'stress')} across its grain at an edge"
        body.weak_grain = f"{text}, not to be relied on for load"


def _stiffness(
    bracket: Bracket, shape: Bent, loads: BracketLoads, wood: WoodMaterial, context: Context, arc: _Arc, body: Body
) -> None:
    """Bounds of the stiffness of a quarter arc, and how far its nose sinks; other arcs have no closed form here."""
    what = "sinking of the nose"
    if abs(shape.sweep - 90.0) <= QUARTER:
        species = context.stock(bracket.stock).species if bracket.stock is not None else None
        known = species is not None and species.casefold() != "unknown"
        shear = [one.value.G_LT for one in elastic_ratios(species if known else None)]
        A = shape.thickness * shape.depth

        def k(E: float, share: float) -> float:
            return float(cv.curved_bar_stiffness(E, E * share, A, arc.r_m, arc.e_c, shape.sweep))

        if shape.made != "sawn":  # of a sawn arc the grain lies aslant almost everywhere: softer, nobody knows how much
            divisor = judgment("divisor of the stiffness, lower value").value
            body.k_low = k(float(modulus_prime(SilentPad(), wood)), min(shear)) / divisor
        body.k_high = k(float(wood.E.value), max(shear))  # as stiff as dry wood is
    if bracket.deflects is None or body.k_low is None:
        why = "not given (`deflects`)" if bracket.deflects is None else "given, but the arc's stiffness is not known"
        body.checks.append(stated(bracket.name, what, "statics", "refer", f"how far the nose may sink is {why}"))
        return
    k_low, room, out = body.k_low, bracket.deflects, loads.projection
    M = np.maximum(loads.M_wall, 0.0) * float(wood.K_cr.value)

    def sinking(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P_n", at(M / out, which), "lbf", note="as much at the nose has the same moment, creep counted")
        stiff = pad.take("k_n", k_low, "lbf/in", note="lower bound, foot held fast")
        sunk = P / stiff
        if not isinstance(which, slice):
            pad.take("Delta", float(sunk), "in", note="P over k")
        return Outcome(sunk, room, sunk / room)

    body.checks.append(govern(Criterion(bracket.name, what, cv.ENERGY, "length"), loads.combinations, sinking))

"""A bent, laminated or sawn arc: upright at its foot on the wall, running up and out to its nose.

psi is the angle from the foot; the middle of the arc stands r_o - r_m cos(psi) out from the wall face, with r_o the
radius of its full side and r_m that of its middle. Loads are upright forces on its top.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

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
from ....model.brackets.bracket import Bent
from ....model.fields.evidence import read_evidence
from ....model.stock import Stock
from ....records import dataclass
from ....units import show
from ....values.brackets import elastic_ratios
from ....values.judgment import judgment
from ....values.limits import length_factor
from ...anchors.fasteners.distances import is_hardwood
from ...core.context import Context
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import WoodMaterial, bearing_prime, modulus_prime, shear_prime, tension_prime
from ...core.wood.strength import Bracing, Outcome, Section, bending_values, column_values
from ..asking import ask_for
from ..bearing import bearing_under_loads
from ..body import Body
from ..evidence import knots_seen, sinking_not_given
from ..family import Family, SideView, Strips, points_of
from ..loads import BracketLoads
from ..wood import known_species, known_wood, wood_or_weakest

Array = np.ndarray
STATIONS = 37  # sections looked at, from foot to nose
QUARTER = 0.5  # deg: within so much of 90 the closed form of the stiffness holds
CHORDS = 40  # of a drawn arc
LEAST_C_C = 0.05  # beyond the limit of curvature it refers; the figure stays one
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


class BentArc(Family[Bent]):
    """A bent, laminated or sawn arc of constant depth."""

    words = "bent arc"

    @property
    def back(self) -> float:
        return (self.shape.inner_radius + self.shape.depth) * math.sin(math.radians(min(self.shape.sweep, 90.0)))

    @property
    def depth_at_back(self) -> float:
        return self.shape.stands_out

    @property
    def swells(self) -> float:
        return self.shape.depth

    def weight(self, density: float) -> Strips:
        shape = self.shape
        length = math.radians(shape.sweep) * (shape.inner_radius + 0.5 * shape.depth)
        return [(0.0, shape.stands_out, density * shape.thickness * shape.depth * length)]

    def side_view(self) -> SideView:
        """The arc from its foot, upright on the wall, up and out to its nose; its hollow side faces out and down."""
        shape = self.shape
        r_i, r_o = shape.inner_radius, shape.inner_radius + shape.depth
        theta = np.radians(np.linspace(0.0, shape.sweep, CHORDS + 1))
        turn = np.stack([np.cos(theta), np.sin(theta)], axis=-1)
        outline = np.array([r_o, r_o]) - np.vstack([r_o * turn, (r_i * turn)[::-1]])
        outline[:, 1] -= outline[:, 1].min()
        grain = None
        if shape.made == "sawn":  # straight grain, at best along the line between its ends
            chord = 0.5 * (outline[CHORDS] + outline[CHORDS + 1]) - 0.5 * (outline[0] + outline[-1])
            grain = math.degrees(math.atan2(-chord[1], chord[0])) % 180.0
        return SideView(
            [("arc", points_of(outline), grain)], height=float(outline[:, 1].max()), reach=float(outline[:, 0].max())
        )

    def stiffness(self, stock: Stock | None) -> tuple[float, float]:
        """Bounds of the stiffness of a quarter arc; other arcs have no closed form here."""
        shape, low, high = self.shape, 0.0, math.inf
        if stock is None or abs(shape.sweep - 90.0) > QUARTER:
            return low, high
        shear = [one.value.G_LT for one in elastic_ratios(known_species(stock))]
        wood, arc = wood_or_weakest(stock), _Radii(shape)

        def k(E: float, share: float) -> float:
            A = shape.thickness * shape.depth
            return float(cv.curved_bar_stiffness(E, E * share, A, arc.r_m, arc.e_c, shape.sweep))

        if shape.made != "sawn":  # of a sawn arc the grain lies aslant almost everywhere: softer, nobody knows how much
            divisor = judgment("divisor of the stiffness, lower value").value
            low = k(float(modulus_prime(SilentPad(), wood)), min(shear)) / divisor
        if known_wood(stock) is not None:
            high = k(float(wood.E.value), max(shear))  # as stiff as dry wood is
        return low, high

    def fixing_doubts(self) -> Iterator[Check]:
        text = "an arc touches the wall at its foot only: what keeps the foot from turning is for an engineer"
        yield self.doubt("bracket.foot_of_arc", "foot of the arc", "statics", text, "foot_of_arc")
        yield from self._rows_on_the_wall()

    def _rows_on_the_wall(self) -> Iterator[Check]:
        """A row that crosses air presses on nothing; one with its head within the arc holds half of a checked one."""
        shape, fixings, name = self.shape, self.bracket.fixings, self.bracket.name
        if fixings is None:
            return
        outer, most = shape.inner_radius + shape.depth, judgment("air behind a row of an arc").value
        for i, row in enumerate(fixings.rows, start=1):
            off = float(cv.arc_off_wall(outer, min(max(self.back - row.below_top, 0.0), outer)))
            if off > most:
                text = (
                    f"the arc stands {show(off, 'small length')} off the wall at row {i}: the row presses on nothing, "
                    "its pull bends the arc and its fastener spans the gap; set it at the foot, where the arc lies on "
                    "the wall"
                )
                yield Check.breaks_rule("bracket.foot_of_arc", name, "row that crosses air", "geometry", text)
            through = fixings.through_of(row)
            if through is not None and through < judgment("arc that a row goes through").value * shape.depth:
                text = (
                    f"row {i} goes through {show(through, 'length')} of an arc {show(shape.depth, 'length')} deep: a "
                    "check at mid-depth leaves the outer half on nothing"
                )
                yield Check.breaks_rule("bracket.foot_of_arc", name, "row through both halves", "statics", text)

    def body(self, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Body:
        """Stress along and across the arc, shear, evidence for what it is made of, stiffness."""
        bracket, shape, name = self.bracket, self.shape, self.bracket.name
        stock = context.stock(bracket.stock) if bracket.stock is not None else None
        arc = _arc(shape, loads)
        body = Body(assumptions=[FOOT])
        body.inputs += [
            ("sweep", show(shape.sweep, "angle")), ("radius of the arc's middle", show(arc.r_m, "length")),
            ("length of the arc", show(arc.length, "length")),
        ]  # fmt: skip
        if loads.lifts:
            text = "some combinations lift it and open the arc, which pulls its layers apart: for an engineer"
            body.checks.append(self.doubt("bracket.uplift", "uplift", "NDS 2018 5.4.1", text, "lifted", loads))
        body.checks += knots_seen(bracket)
        body.checks += self._made(loads)
        C_c = self._curvature(stock, body, loads)
        body.checks.append(_along(name, loads, wood, arc, C_c))
        body.checks.append(_along(name, loads, wood, arc, C_c, checked=True))
        body.checks += _across(name, loads, wood, arc)
        body.checks.append(_shear(name, loads, wood, arc))
        # the grain turns with the arc: it is taken as level under every load, the weaker way
        body.checks += bearing_under_loads(bracket, loads, wood, thickness=shape.thickness, grain=0.0)
        if shape.made == "sawn":
            body.assumptions.append(SAWN)
            _short_grain(name, loads, wood, arc, body)
        body.checks.append(self._sinking(loads, wood, stock))
        return body

    def _made(self, loads: BracketLoads) -> Iterator[Check]:
        bracket, shape, id = self.bracket, self.shape, "bracket.arc_made"
        name, what, clause = bracket.name, "how the arc is made", "NDS 2018 4.1, 5.1"
        if shape.made is None:
            text = "how it got its curve is not said (`made`)"
            yield Check.refers(id, name, what, clause, text, ask=ask_for(bracket, "arc_made", "shape.made"))
        elif shape.made == "steam-bent":
            text = (
                "no table has values for steam-bent wood, and bending it breaks some of its fibers: proof loading, or "
                "an engineer"
            )
            yield self.doubt(id, what, clause, text, "steam_bent", loads)
        elif shape.made == "laminated":
            asked, missing = [], []
            glue = read_evidence(shape.glue)
            if glue.doubt or not (glue.who or glue.what):
                asked.append(ask_for(bracket, "glue", "shape.glue"))
                missing.append("its glue and who vouches for it (`glue`)")
            if shape.lamination is None:
                asked.append(ask_for(bracket, "lamination", "shape.lamination"))
                missing.append("the thickness of its laminations (`lamination`)")
            if missing:
                yield Check.refers(id, name, what, clause, f"not given: {' and '.join(missing)}", ask=asked)
            else:
                yield Check.keeps_rule(id, name, what, clause, f"laminated, glue as stated: {shape.glue}")

    def _curvature(self, stock: Stock | None, body: Body, loads: BracketLoads) -> float:
        """C_c of a laminated arc; 1 for others."""
        shape = self.shape
        if shape.made != "laminated" or shape.lamination is None:
            return 1.0
        body.assumptions.append(LAMINATED)
        tightness = shape.lamination / shape.inner_radius
        kind = "hardwood" if is_hardwood(stock) else "softwood"
        most = 1.0 / judgment(f"radius over lamination, {kind}").value
        if tightness > most:
            text = (
                f"laminations of {show(shape.lamination, 'length')} round {show(shape.inner_radius, 'length')}: at "
                f"most {show(most * shape.inner_radius, 'length')} is covered; bent tighter they have no value here"
            )
            what = "bend of the laminations"
            body.checks.append(self.doubt("bracket.lamination", what, "NDS 2018 5.3.8", text, "tight_bend", loads))
        return max(1.0 - judgment("curvature factor").value * tightness**2, LEAST_C_C)

    def _sinking(self, loads: BracketLoads, wood: WoodMaterial, stock: Stock | None) -> Check:
        """How far its nose sinks."""
        bracket, id, what = self.bracket, "bracket.sinking", "sinking of the nose"
        k_low, _ = self.stiffness(stock)
        if bracket.deflects is None:
            return sinking_not_given(bracket)
        if not k_low:
            text = "how far the nose may sink is given, but the arc's stiffness is not known"
            return self.doubt(id, what, "statics", text, "sinking", loads)
        room, out = bracket.deflects, loads.projection
        M = np.maximum(loads.M_wall, 0.0) * float(wood.K_cr.value)

        def sinking(pad: Pad, which: int | slice) -> Outcome:
            P = pad.take("P_n", at(M / out, which), "lbf", note="as much at the nose has the same moment, with creep")
            stiff = pad.take("k_n", k_low, "lbf/in", note="lower bound, foot held fast")
            sunk = P / stiff
            if not isinstance(which, slice):
                pad.take("Delta", float(sunk), "in", note="P over k")
            return Outcome(sunk, room, sunk / room)

        return govern(Criterion(bracket.name, what, cv.ENERGY, "small length", id=id), loads.combinations, sinking)


class _Radii:
    """Of an arc, in: hollow side, full side, middle, neutral line; and how far the last two lie apart."""

    def __init__(self, shape: Bent) -> None:
        self.r_i, self.r_o = shape.inner_radius, shape.inner_radius + shape.depth
        self.r_m = 0.5 * (self.r_i + self.r_o)
        self.r_n = float(cv.neutral_radius(shape.depth, self.r_o, self.r_i))
        self.e_c = self.r_m - self.r_n


def _arc(shape: Bent, loads: BracketLoads) -> _Arc:
    """Section forces by statics: what stands farther out than the section, and its moment about it."""
    radii = _Radii(shape)
    psi = np.radians(np.linspace(0.0, shape.sweep, STATIONS))
    M, N = [loads.M_wall], [-loads.F]
    for one in psi[1:]:
        Q, moment = loads.beyond(radii.r_o - radii.r_m * math.cos(one))
        M.append(moment)
        N.append(-Q * math.cos(one))
    return _Arc(shape, radii.r_i, radii.r_o, radii.r_m, radii.r_n, radii.e_c, float(psi[-1]) * radii.r_m,
                np.array(M), np.array(N))  # fmt: skip


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


def _along(
    name: str, loads: BracketLoads, wood: WoodMaterial, arc: _Arc, C_c: float, *, checked: bool = False
) -> Check:
    """Bending with force along the arc, at the worst section.

    checked : with a full check at mid-depth, which leaves two bars, each with half the moment on a quarter of the
    section modulus.
    """
    A = arc.shape.thickness * arc.shape.depth
    bracing = Bracing(False, "not held sideways from foot to nose", arc.length)
    M = np.max(np.abs(arc.M), axis=0)
    press, pull = np.max(np.maximum(-arc.N, 0.0), axis=0), np.max(np.maximum(arc.N, 0.0), axis=0)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        f_b = _bending(pad, arc, at(M, which))
        if checked:
            f_b = pad.take("f_b", 2.0 * f_b, "psi", note="twice: two bars, each half the moment on a quarter of S")
        C_D = duration(pad, loads.combinations, which)
        _, F_b = bending_values(pad, wood, arc.section, bracing, C_D)
        if C_c < 1.0:
            F_b = pad.take(
                "F_b_prime", C_c * F_b, "psi", note=f"times C_c = {C_c:.4g}", source=judgment("curvature factor").source
            )
        f_c = pad(compression_stress, P=at(press, which), A=A)
        l_e = length_factor("fixed", "free").value * arc.length
        F_c, F_cE1, _, _ = column_values(pad, wood, arc.section, l_e1=l_e, l_e2=l_e, C_D=C_D)
        U = pad(cb.bending_and_compression_one_way, f_c=f_c, F_c_prime=F_c, f_b1=f_b, F_b1_prime=F_b, F_cE1=F_cE1)
        if float(np.max(pull)) <= 0.0:
            return Outcome(U, 1.0, U)
        f_t = pad(tension_stress, T=at(pull, which), A_n=A)
        pulled = pad(cb.bending_and_tension, f_t=f_t, F_t_prime=tension_prime(pad, wood, C_D), f_b=f_b, F_b_star=F_b)
        U = np.maximum(U, pulled)
        return Outcome(U, 1.0, U)

    what = "arc with a check along it" if checked else "stress along the arc"
    criterion = Criterion(name, what, f"{cv.BAR}; NDS 2018 3.9", "ratio")
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

    criterion = Criterion(name, "pressure across the arc", cv.RADIAL, "stress", id="bracket.arc_across")
    yield govern(criterion, loads.combinations, pressed)
    if float(np.max(opening)) <= judgment("moment that is rounding").value:
        return
    limit = judgment("radial tension, western species")

    def pulled(pad: Pad, which: int | slice) -> Outcome:
        M = pad.take("M", at(opening, which), "lbf*in", note="opens the arc")
        f_r = pad(cv.radial_stress, M=M, r_m=arc.r_m, t=t, d=d)
        allowed = pad.take("F_rt", limit.value, "psi", note=limit.reason, source=limit.source)
        return Outcome(f_r, allowed, f_r / allowed)

    asked = Criterion(name, "tension across the arc", cv.RADIAL, "stress", id="bracket.arc_across")
    yield govern(asked, loads.combinations, pulled)


def _shear(name: str, loads: BracketLoads, wood: WoodMaterial, arc: _Arc) -> Check:
    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(np.abs(loads.F), which), "lbf", note="all of the load")
        f_v = pad(shear_stress, V=V, b=arc.shape.thickness, d=arc.shape.depth)
        allowed = shear_prime(pad, wood, duration(pad, loads.combinations, which))
        return Outcome(f_v, allowed, f_v / allowed)

    asked = Criterion(name, "shear of the arc", "NDS 2018 3.4.2", "stress", id="bracket.shear")
    return govern(asked, loads.combinations, calculate)


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

    criterion = Criterion(name, "tension across the grain", "NDS 2018 3.8.2: no value, judgment", "stress")
    found = govern(criterion, loads.combinations, across)
    criterion = Criterion(name, "tension aslant to the grain", "Hankinson's form in tension, judgment", "stress")
    body.checks += [found, govern(criterion, loads.combinations, aslant)]
    if not found.holds:
        text = f"short grain: {show(found.demand or 0.0, 'stress')} across its grain at an edge"
        body.weak_grain = f"{text}, not to be relied on for load"

"""A bracket of wall leg, top leg and brace: pinned members, a brace that may bow, and joints at an angle."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

import numpy as np

from ....calc.pad import Pad, SilentPad
from ....formulas.brackets import brace as br
from ....formulas.brackets.corbel import seat_shear_length
from ....formulas.wood.bearing import bearing_at_angle
from ....formulas.wood.combined import eccentric_column_one_way
from ....formulas.wood.compression import compression_stress
from ....formulas.wood.shear import shear_stress
from ....model.brackets import Braced, Bracket
from ....units import show
from ....values.judgment import judgment
from ...core.context import Context
from ...core.govern import Criterion, at, duration, govern, stated
from ...core.material import WoodMaterial, bearing_prime, compression_star, shear_prime
from ...core.result import Check
from ...core.strength import Bracing, Outcome, Section, bending_values, bending_with_tension, column_values
from ..bearing import bearing_under_loads
from ..body import Body
from ..evidence import knots_seen
from ..fixing_rows import lifts
from ..loads import BracketLoads

Array = np.ndarray
Calculation = Callable[[Pad, int | slice], Outcome]
PINNED = (
    "Legs and brace are taken as pinned at their joints, the load turning the top leg about the wall face or about the "
    "face of the wall leg, whichever presses the brace more; a tight joint bends the brace as well."
)
JOINTS = "Screws and pegs that keep a joint closed are not counted as carrying."
FREE = "not held sideways between wall and nose"


def braced_body(bracket: Bracket, shape: Braced, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Body:
    """Forces by statics; members, ends of the brace, joint of the legs."""
    name = bracket.name
    body = Body(assumptions=[PINNED, JOINTS])
    if lifts(loads):
        text = (
            "some combinations lift the nose and pull on the brace: a dry joint holds no pull, an engineer must tie it"
        )
        body.checks.append(stated(name, "uplift", "ASCE 7-16 2.4.1", "refer", text))
    if shape.brace_out > shape.projection or shape.brace_down > shape.height:
        text = "the brace ends beyond the end of a leg"
        body.checks.append(stated(name, "brace", "geometry", "fails", text))
        return body
    rise, run = shape.brace_down - shape.top_leg, shape.brace_out - shape.wall_leg
    if rise <= 0.0 or run <= 0.0:
        text = "the brace lies within the legs: no triangle is formed"
        body.checks.append(stated(name, "brace", "geometry", "fails", text))
        return body
    beta = math.degrees(math.atan2(rise, run))
    length = math.hypot(rise, run)
    body.inputs += [("slope of the brace", show(beta, "angle")), ("length of the brace", show(length, "length"))]
    if 2.0 * shape.sagitta >= length:
        text = f"a rise of {show(shape.sagitta, 'length')} is half its length or more: that is no brace"
        body.checks.append(stated(name, "brace", "geometry", "fails", text))
        return body
    force = _Force(shape, loads, beta)
    body.pull = _pull(bracket, shape, loads)
    if shape.joints == "glued only":
        body.weak_grain = (
            "its joints are only glued: no value can be given to them, and it is not to be relied on for load"
        )
    body.checks += [
        *knots_seen(bracket),
        *bearing_under_loads(name, loads, wood, thickness=shape.thickness, grain=0.0),
        *_top_leg(bracket, shape, loads, wood, force),
        _wall_leg(bracket, shape, loads, wood, force),
        *_brace(bracket, shape, loads, wood, force, length),
        *_runout(bracket, shape, length),
        *_ends(bracket, shape, loads, wood, force),
        *_legs(bracket, shape, force),
        *_sinks(bracket),
    ]
    return body


def _pull(bracket: Bracket, shape: Braced, loads: BracketLoads) -> Array | None:
    """Pull on the top row, lbf: the brace presses on the wall where it ends, not at the foot of the wall leg."""
    if bracket.fixings is None or not bracket.fixings.rows:
        return None
    arm = shape.brace_down - min(row.below_top for row in bracket.fixings.rows)
    M = np.maximum(loads.M_wall, 0.0)
    return np.asarray(M / arm if arm > 0.0 else np.where(M > 0.0, np.inf, 0.0))


def _sinks(bracket: Bracket) -> Iterator[Check]:
    text = "how far the nose may sink is not given (`deflects`)"
    if bracket.deflects is not None:
        text = "how far it sinks depends on the slip of its joints, which is not worked out here"
    yield stated(bracket.name, "sinking of the nose", "statics", "refer", text)


def _left_of(shape: Braced, leg: float) -> Section:
    """What housings, or mortises a third of the thickness wide, leave of a leg where the brace meets it."""
    left = max(leg - (shape.housing or 0.0), 1e-3)
    t = shape.thickness * (2.0 / 3.0 if shape.joints == "tenoned" else 1.0)
    return Section(t, left, t)


class _Force:
    """Compression in the brace, lbf, on a pad or over all combinations."""

    def __init__(self, shape: Braced, loads: BracketLoads, beta: float) -> None:
        self.shape, self.loads, self.beta = shape, loads, beta
        self.F = np.maximum(loads.F, 0.0)
        self.x_L = np.clip(loads.x_L, 1e-6, None)
        self.N = np.asarray(self.on(SilentPad(), slice(None)), dtype=float)

    def on(self, pad: Pad, which: int | slice) -> float | Array:
        P = pad.take("P", at(self.F, which), "lbf", note="all the load")
        x_L = pad.take("x_L", at(self.x_L, which), "in", note="where it acts")
        beta = pad.take("beta_b", self.beta, "deg", note="slope of the brace")
        N = pad(br.brace_force, P=P, x_L=x_L, x_b=self.shape.brace_out, beta_b=beta)
        beyond = np.maximum(x_L, self.shape.wall_leg * (1.0 + 1e-9))
        if isinstance(which, slice):
            M = br.brace_force_butted(P, beyond, self.shape.brace_out, self.shape.wall_leg, beta)
            return np.asarray(np.maximum(N, np.where(x_L > self.shape.wall_leg, M, 0.0)), dtype=float)
        if float(x_L) <= self.shape.wall_leg:
            return float(N)
        M = pad(br.brace_force_butted, P=P, x_L=x_L, x_b=self.shape.brace_out, x_p=self.shape.wall_leg, beta_b=beta)
        return float(pad.take("N_b", max(float(N), float(M)), "lbf", note="the larger"))


def _bracing(length: float) -> Bracing:
    return Bracing(False, FREE, length)


def _top_leg(
    bracket: Bracket, shape: Braced, loads: BracketLoads, wood: WoodMaterial, force: _Force
) -> Iterator[Check]:
    """Bending over the brace or between wall and brace, with the tie force; shear beside the brace."""
    section = _left_of(shape, shape.top_leg)
    outside, over = loads.beyond(shape.brace_out)
    inside = np.maximum(loads.F - outside, 0.0) * shape.brace_out / 4.0  # all of it in the middle: the most it can be
    M_most = np.maximum(np.maximum(over, 0.0), inside)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        T = pad(br.top_tie, N_b=force.on(pad, which), beta_b=force.beta)
        M = pad.take(
            "M", at(M_most, which), "lbf*in", note="over the brace, or between wall and brace with all load midway"
        )
        found = bending_with_tension(
            pad, wood, section, _bracing(shape.projection), M=M, T=T, C_D=duration(pad, loads.combinations, which)
        )
        first, second = found
        if isinstance(which, slice):
            ratio = np.maximum(np.asarray(first.ratio), np.asarray(second.ratio))
            return Outcome(ratio, 1.0, ratio)
        return first if float(first.ratio) >= float(second.ratio) else second

    yield govern(Criterion(bracket.name, "top leg", "NDS 2018 3.9.1", "ratio"), loads.combinations, calculate)
    upright = np.abs(force.F - force.N * math.sin(math.radians(force.beta)))
    V_most = np.maximum(force.F, upright)

    def sheared(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_most, which), "lbf", note="all the load, or what the joint of the legs holds down")
        f_v = pad(shear_stress, V=V, b=section.b, d=section.d)
        allowed = shear_prime(pad, wood, duration(pad, loads.combinations, which))
        return Outcome(f_v, allowed, f_v / allowed)

    yield govern(
        Criterion(bracket.name, "shear of the top leg", "NDS 2018 3.4.2", "stress"), loads.combinations, sheared
    )


def _wall_leg(bracket: Bracket, shape: Braced, loads: BracketLoads, wood: WoodMaterial, force: _Force) -> Check:
    """The brace pulls the wall leg down from its fixings, off its axis by half the leg's depth."""
    section = _left_of(shape, shape.wall_leg)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        T = pad(br.sliding_on_wall_leg, N_b=force.on(pad, which), beta_b=force.beta)
        M = pad.take("M", 0.5 * shape.wall_leg * T, "lbf*in", note="it acts on the face, half the leg off its axis")
        first, second = bending_with_tension(
            pad, wood, section, _bracing(shape.height), M=M, T=T, C_D=duration(pad, loads.combinations, which)
        )
        ratio = np.maximum(np.asarray(first.ratio), np.asarray(second.ratio))
        return Outcome(ratio, 1.0, ratio)

    return govern(Criterion(bracket.name, "wall leg", "NDS 2018 3.9.1", "ratio"), loads.combinations, calculate)


def _brace(
    bracket: Bracket, shape: Braced, loads: BracketLoads, wood: WoodMaterial, force: _Force, length: float
) -> list[Check]:
    """The brace as a column whose force runs off its axis."""
    section = Section(shape.thickness, shape.brace, shape.thickness)
    share = judgment("offset of the force in a tight brace over its depth")

    def column(pad: Pad, which: int | slice) -> Outcome:
        N = force.on(pad, which)
        C_D = duration(pad, loads.combinations, which)
        f_c = pad(compression_stress, P=N, A=section.area(pad))
        F_c_prime, F_cE1, _, _ = column_values(pad, wood, section, l_e1=length, l_e2=length, C_D=C_D)
        _, F_b1 = bending_values(pad, wood, section, _bracing(length), C_D)
        k = pad.take("k_off", 0.0 if shape.true_pins else share.value, source=None if shape.true_pins else share.source,
                     note="true pins" if shape.true_pins else share.reason)  # fmt: skip
        e_1 = pad(br.brace_offset, d=shape.brace, k_off=k, s_b=shape.sagitta)
        U = pad(
            eccentric_column_one_way, f_c=f_c, F_c_prime=F_c_prime, F_b1_prime=F_b1, e_1=e_1, d_1=shape.brace,
            F_cE1=F_cE1,
        )  # fmt: skip
        return Outcome(U, 1.0, U)

    return [govern(Criterion(bracket.name, "brace", "NDS 2018 15.4.1", "ratio"), loads.combinations, column)]


def _runout(bracket: Bracket, shape: Braced, length: float) -> Iterator[Check]:
    """A brace sawn to a curve: its grain runs out at both ends."""
    if shape.sagitta <= 0.0:
        return
    angle = float(br.grain_runout(shape.sagitta, length))
    limit = judgment("slope of grain at an edge in tension")
    text = f"sawn to its curve the grain runs out by up to {show(angle, 'angle')} at its ends"
    if angle > limit.value:
        yield Check(
            bracket.name, "grain of the curved brace", "judgement", "refer", "angle", angle, limit.value, None,
            notes=(f"{text}: more than {limit.value:g} degrees; bent or laminated wood, or an "
                                           "engineer",),
        )  # fmt: skip
    else:
        yield stated(bracket.name, "grain of the curved brace", "judgement", "passes", text)


def _ends(bracket: Bracket, shape: Braced, loads: BracketLoads, wood: WoodMaterial, force: _Force) -> Iterator[Check]:
    """What presses where the brace ends, and what keeps it from sliding along the legs."""
    name, t, d, beta = bracket.name, shape.thickness, shape.brace, force.beta
    if shape.joints is None:
        text = "how the brace meets the legs is not said (`shape.joints`)"
        yield stated(name, "joints of the brace", "NDS 2018 11.1", "refer", text)
        return
    for where, formula in (("top leg", br.flush_end_on_top), ("wall leg", br.flush_end_on_wall_leg)):

        def pressed(pad: Pad, which: int | slice, formula: object = formula) -> Outcome:
            f = pad(formula, N_b=force.on(pad, which), t=t, d=d, beta_b=beta)  # type: ignore[arg-type]
            allowed = bearing_prime(pad, wood, 1.0)
            return Outcome(f, allowed, f / allowed)

        criterion = Criterion(name, f"end of the brace on the {where}", "NDS 2018 3.10.2", "stress")
        yield govern(criterion, loads.combinations, pressed)
    if shape.joints in ("butted", "glued only"):
        slides = float(np.max(force.N, initial=0.0)) * max(math.cos(math.radians(beta)), math.sin(math.radians(beta)))
        text = (
            f"nothing but screws or glue keeps the ends from sliding with up to {show(slides, 'force')}: house them, "
            "or let an engineer work out the screws"
        )
        yield stated(name, "brace slides along the legs", "NDS 2018 11.1", "refer", text)
        return
    if shape.housing is None or shape.behind_housing is None:
        text = "depth of the housing or shoulder, and the wood behind it, are not given (`housing`, `behind_housing`)"
        yield stated(name, "housing of the brace", "NDS 2018 3.10.3", "refer", text)
        return
    if shape.housing >= min(shape.top_leg, shape.wall_leg):
        text = f"a housing {show(shape.housing, 'length')} deep leaves nothing of a leg"
        yield stated(name, "housing of the brace", "geometry", "fails", text)
        return
    depth = shape.housing
    half = {"top leg": 0.5 * d / math.sin(math.radians(beta)), "wall leg": 0.5 * d / math.cos(math.radians(beta))}
    room = {"top leg": shape.projection - shape.brace_out, "wall leg": shape.height - shape.brace_down}
    k_l, k_v = judgment("shear length over depth of a cut"), judgment("uneven shear")
    for where, part, angle in (("top leg", br.top_tie, beta), ("wall leg", br.sliding_on_wall_leg, 90.0 - beta)):

        def housed(pad: Pad, which: int | slice, part: object = part, angle: float = angle) -> Outcome:
            H = pad(part, N_b=force.on(pad, which), beta_b=beta)  # type: ignore[arg-type]
            f = pad(br.housing_bearing, H_b=H, t=t, d_cut=depth)
            F_star = compression_star(pad, wood, duration(pad, loads.combinations, which))
            F_perp = bearing_prime(pad, wood, 1.0)
            allowed = pad(bearing_at_angle, F_c_star=F_star, F_c_perp_prime=F_perp, theta=angle)
            return Outcome(f, allowed, f / allowed)

        left = room[where] - half[where]
        if left <= 0.0:
            text = f"the housing runs out at the end of the {where}: no wood is left behind it"
            yield stated(name, f"wood behind the housing in the {where}", "geometry", "fails", text)
            continue
        behind = min(shape.behind_housing, left)  # no more than there is to the end of the leg

        def sheared(pad: Pad, which: int | slice, part: object = part, behind: float = behind) -> Outcome:
            H = pad(part, N_b=force.on(pad, which), beta_b=beta)  # type: ignore[arg-type]
            l_v = pad(seat_shear_length, l=behind, d_cut=depth, k_l=pad.take("k_l", k_l.value, source=k_l.source))
            k = pad.take("k_v", k_v.value, note=k_v.reason, source=k_v.source)
            f = pad(br.housing_shear, H_b=H, t=t, l_v=l_v, k_v=k)
            allowed = shear_prime(pad, wood, duration(pad, loads.combinations, which))
            return Outcome(f, allowed, f / allowed)

        yield govern(
            Criterion(name, f"housing in the {where}", "NDS 2018 3.10.3", "stress"), loads.combinations, housed
        )
        criterion = Criterion(name, f"wood behind the housing in the {where}", "NDS 2018 3.4", "stress")
        yield govern(criterion, loads.combinations, sheared)


def _legs(bracket: Bracket, shape: Braced, force: _Force) -> Iterator[Check]:
    """The joint of the legs must hold the pull of the brace."""
    T = float(np.max(np.asarray(br.top_tie(force.N, force.beta)), initial=0.0))
    V = float(np.min(force.F - force.N * math.sin(math.radians(force.beta)), initial=0.0))
    lifts = f", and {show(-V, 'force')} upwards" if V < 0.0 else ""
    text = f"the joint of top leg and wall leg must hold {show(T, 'force')} apart{lifts}"
    if shape.legs_joined.strip():
        yield stated(
            bracket.name, "joint of the legs", "load path", "passes", f"{text}; said to be: {shape.legs_joined}"
        )
    else:
        yield stated(
            bracket.name, "joint of the legs", "load path", "refer", f"{text}; nobody says how (`legs_joined`)"
        )

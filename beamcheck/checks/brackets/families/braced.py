"""A bracket of wall leg, top leg and brace: pinned members, a brace that may bow, and joints at an angle."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....calc.pad import Pad
from ....formulas.brackets import brace as br
from ....formulas.wood.combined import eccentric_column_one_way
from ....formulas.wood.compression import compression_stress
from ....formulas.wood.shear import shear_stress
from ....model.brackets.bracket import Braced
from ....model.brackets.fixings import Fixings
from ....model.stock import Stock
from ....units import show
from ....values.judgment import judgment
from ...core.context import Context
from ...core.pictures.board import BoardPicture
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import WoodMaterial, bearing_prime, shear_prime
from ...core.wood.strength import Bracing, Outcome, Section, bending_values, bending_with_tension, column_values
from ..asking import ask_for
from ..bearing import bearing_under_loads
from ..board import three_sticks
from ..body import Body
from ..evidence import knots_seen
from ..family import Family, SideView, Strips, box, points_of
from ..loads import BracketLoads
from .braced_force import Force
from .braced_housings import housings
from .braced_joints import brace_slides, legs_joined, wall_leg_with_a_check
from .braced_sinking import checked_brace, sinking
from .braced_strut import strut_picture

Array = np.ndarray
CHORDS = 40  # of a drawn arc
PINNED = (
    "Legs and brace are taken as pinned at their joints, the load turning the top leg about the wall face or about the "
    "face of the wall leg, whichever presses the brace more; a tight joint bends the brace as well."
)
JOINTS = (
    "Each piece is looked at with one full check along its grain: the tie holds on both sides of it, the brace as two "
    "of half its depth, the wall leg on dowels whose heads stand in front of its housing."
)
FREE = "not held sideways between wall and nose"


class BracedBracket(Family[Braced]):
    """A wall leg, a top leg and a brace, straight or curved."""

    words = "wall leg, top leg and brace"

    @property
    def back(self) -> float:
        return self.shape.height

    @property
    def depth_at_back(self) -> float:
        return self.shape.wall_leg

    @property
    def swells(self) -> float:
        return self.shape.top_leg

    @property
    def _beta(self) -> float:
        """Slope of the brace, deg."""
        shape = self.shape
        return math.degrees(math.atan2(shape.brace_down - shape.top_leg, shape.brace_out - shape.wall_leg))

    def pressed_length(self, length: float) -> float:
        """No more than the brace's end."""
        return min(length, self.shape.brace / max(math.cos(math.radians(self._beta)), 1e-6))

    def weight(self, density: float) -> Strips:
        shape = self.shape
        length = math.hypot(shape.brace_out, shape.brace_down)
        area = shape.height * shape.wall_leg + shape.projection * shape.top_leg + length * shape.brace
        return [(0.0, shape.projection, density * shape.thickness * area)]

    def side_view(self) -> SideView:
        """Legs and brace; the brace is cut to the faces it meets, bowed by its sagitta towards the corner."""
        shape = self.shape
        view = SideView([
            ("wall leg", box(0.0, 0.0, shape.wall_leg, shape.height), 90.0),
            ("top leg", box(shape.wall_leg, 0.0, shape.projection, shape.top_leg), 0.0),
        ])  # fmt: skip
        view.dimensions += [("x", 0.0, shape.brace_out, "brace axis"), ("y", 0.0, shape.brace_down, "brace axis")]
        start, end = np.array([shape.wall_leg, shape.brace_down]), np.array([shape.brace_out, shape.top_leg])
        along = end - start
        length = float(np.hypot(*along))
        normal = np.array([-along[1], along[0]]) / length  # towards the lower right, away from the corner
        u = np.linspace(0.0, 1.0, CHORDS + 1 if shape.sagitta else 2)
        rise = -4.0 * shape.sagitta * u * (1.0 - u)
        slope = along + (-4.0 * shape.sagitta * (1.0 - 2.0 * u))[:, None] * normal
        aside = np.stack([-slope[:, 1], slope[:, 0]], axis=-1) / np.hypot(slope[:, 0], slope[:, 1])[:, None]
        axis = start + u[:, None] * along + rise[:, None] * normal
        low, high = (_cut(axis + side * shape.brace * aside, shape) for side in (0.5, -0.5))
        grain = math.degrees(math.atan2(-along[1], along[0])) % 180.0
        view.parts.append(("brace", points_of(np.vstack([low, high[::-1]])), grain))
        return view

    def board(self, stock: Stock) -> BoardPicture | None:
        straight = self.shape.sagitta == 0.0 and not any(self.shape.faults())
        return three_sticks(self.bracket.name, self.shape, stock) if straight else None

    def stiffness(self, stock: Stock | None) -> tuple[float, float]:
        """It depends on the slip of its joints, which is not worked out here."""
        return 0.0, math.inf

    def body(self, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Body:
        """Forces by statics; members, ends of the brace, joint of the legs."""
        bracket, shape, name = self.bracket, self.shape, self.bracket.name
        body = Body(assumptions=[PINNED, JOINTS])
        if loads.lifts:
            text = (
                "some combinations lift the nose and pull on the brace: a dry joint holds no pull, an engineer must "
                "tie it"
            )
            body.checks.append(self.doubt("bracket.uplift", "uplift", "ASCE 7-16 2.4.1", text, "lifted", loads))
        if wrong := [text for _, text in shape.faults()]:  # of a shape that was changed since it was read
            body.checks.append(Check.breaks_rule("bracket.shape", name, "brace", "geometry", *wrong))
            return body
        beta = self._beta
        length = math.hypot(shape.brace_out - shape.wall_leg, shape.brace_down - shape.top_leg)
        body.inputs += [("slope of the brace", show(beta, "angle")), ("length of the brace", show(length, "length"))]
        force = Force(shape, loads, beta)
        body.pull = self._pull(loads)
        if (sketch := strut_picture(name, shape, loads, force)) is not None:
            body.pictures.append(sketch)
        if shape.joints == "glued only":
            body.weak_grain = (
                "its joints are only glued: no value can be given to them, and it is not to be relied on for load"
            )
        body.checks += [
            *knots_seen(bracket),
            *self._tips(loads),
            *bearing_under_loads(bracket, loads, wood, thickness=shape.thickness, grain=0.0),
            *_top_leg(name, shape, loads, wood, force),
            _wall_leg(name, shape, loads, wood, force),
            _brace(name, shape, loads, wood, force, length),
            *self._runout(length, loads),
            checked_brace(name, shape, loads, wood, force, length),
            *self._ends(loads, wood, force, context, length),
            *legs_joined(bracket, loads, wood, force, context),
            *wall_leg_with_a_check(bracket, shape),
            sinking(bracket, loads, wood, force, length),
        ]
        return body

    def _pull(self, loads: BracketLoads) -> Array | None:
        """Pull on the top row, lbf: the brace presses on the wall where it ends, not at the foot of the wall leg."""
        fixings = self.bracket.fixings
        if fixings is None or not fixings.rows:
            return None
        arm, M = self._arm(fixings), np.maximum(loads.M_wall, 0.0)
        return np.asarray(M / arm) if arm > 0.0 else None

    def _arm(self, fixings: Fixings) -> float:
        """From the top row down to the brace, in."""
        return self.shape.brace_down - min(row.below_top for row in fixings.rows)

    def _tips(self, loads: BracketLoads) -> Iterator[Check]:
        """Where no row stands above the brace it tips off its wall about the foot of the brace."""
        fixings = self.bracket.fixings
        if fixings is None or not fixings.rows or self._arm(fixings) > 0.0 or not np.any(loads.M_wall > 0.0):
            return
        text = (
            f"the brace meets the wall leg {show(self.shape.brace_down, 'length')} below the top, and no row of "
            "fasteners stands above that: nothing holds the top on its wall"
        )
        yield Check.breaks_rule("bracket.rows_above", self.bracket.name, "rows above the brace", "statics", text)

    def _runout(self, length: float, loads: BracketLoads) -> Iterator[Check]:
        """A brace sawn to a curve: its grain runs out at both ends."""
        shape, id, what = self.shape, "bracket.brace_grain", "grain of the curved brace"
        if shape.sagitta <= 0.0:
            return
        angle = float(br.grain_runout(shape.sagitta, length))
        limit = judgment("slope of grain at an edge in tension")
        text = f"sawn to its curve the grain runs out by up to {show(angle, 'angle')} at its ends"
        if angle > limit.value:
            text += f": more than {limit.value:g} degrees; bent or laminated wood, or an engineer"
            found = self.doubt(id, what, "judgment", text, "curved_brace", loads)
            yield replace(found, kind="angle", demand=angle)
        else:
            yield Check.keeps_rule(id, self.bracket.name, what, "judgment", text)

    def _ends(
        self, loads: BracketLoads, wood: WoodMaterial, force: Force, context: Context, length: float
    ) -> Iterator[Check]:
        """What presses where the brace ends, and what keeps it from sliding along the legs."""
        bracket, shape, name, beta = self.bracket, self.shape, self.bracket.name, force.beta
        if shape.joints is None:
            text = "how the brace meets the legs is not said (`shape.joints`)"
            asked = ask_for(bracket, "brace_joints", "shape.joints")
            what = "joints of the brace"
            yield Check.refers("bracket.brace_joints", name, what, "NDS 2018 11.1", text, ask=asked)
            return
        for where, formula in (("top leg", br.flush_end_on_top), ("wall leg", br.flush_end_on_wall_leg)):

            def pressed(pad: Pad, which: int | slice, formula: object = formula) -> Outcome:
                N_b, t, d = force.on(pad, which), shape.thickness, shape.brace
                f = pad(formula, N_b=N_b, t=t, d=d, beta_b=beta)  # type: ignore[arg-type]
                allowed = bearing_prime(pad, wood, 1.0)
                return Outcome(f, allowed, f / allowed)

            what = f"end of the brace on the {where}"
            criterion = Criterion(name, what, "NDS 2018 3.10.2", "stress", id="bracket.brace_end")
            yield govern(criterion, loads.combinations, pressed)
        if shape.joints in ("butted", "glued only"):
            yield from brace_slides(bracket, loads, wood, force, context, length)
            return
        depth, behind = shape.housing, shape.behind_housing
        if depth is None or behind is None:
            missing = [
                ask_for(bracket, field, f"shape.{field}")
                for field, size in (("housing", depth), ("behind_housing", behind)) if size is None
            ]  # fmt: skip
            text = (
                "depth of the housing or shoulder, and the wood behind it, are not given (`housing`, `behind_housing`)"
            )
            what = "housing of the brace"
            yield Check.refers("bracket.housing", name, what, "NDS 2018 3.10.3", text, ask=missing)
            return
        yield from housings(name, shape, loads, wood, force, depth=depth, stated=behind)


def _cut(edge: Array, shape: Braced) -> Array:
    """An edge of the brace, from the face of the wall leg to the underside of the top leg."""
    first, last = edge[1] - edge[0], edge[-1] - edge[-2]
    foot = edge[0] + (shape.wall_leg - edge[0, 0]) / first[0] * first if first[0] > 1e-9 else edge[0]
    head = edge[-1] + (shape.top_leg - edge[-1, 1]) / last[1] * last if last[1] < -1e-9 else edge[-1]
    inner = edge[1:-1]
    between = (inner[:, 0] > shape.wall_leg + 1e-9) & (inner[:, 1] > shape.top_leg + 1e-9)
    return np.vstack([foot, inner[between], head])


def _left_of(shape: Braced, leg: float) -> Section:
    """What housings, or mortises a third of the thickness wide, leave of a leg where the brace meets it."""
    left = max(leg - (shape.housing or 0.0), 1e-3)
    t = shape.thickness * (2.0 / 3.0 if shape.joints == "tenoned" else 1.0)
    return Section(t, left, t)


def _bracing(length: float) -> Bracing:
    return Bracing(False, FREE, length)


def _top_leg(name: str, shape: Braced, loads: BracketLoads, wood: WoodMaterial, force: Force) -> Iterator[Check]:
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

    yield govern(
        Criterion(name, "top leg", "NDS 2018 3.9.1", "ratio", id="bracket.top_leg"), loads.combinations, calculate
    )
    upright = np.abs(force.F - force.N * math.sin(math.radians(force.beta)))
    V_most = np.maximum(force.F, upright)

    def sheared(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_most, which), "lbf", note="all the load, or what the joint of the legs holds down")
        f_v = pad(shear_stress, V=V, b=section.b, d=section.d)
        allowed = shear_prime(pad, wood, duration(pad, loads.combinations, which))
        return Outcome(f_v, allowed, f_v / allowed)

    criterion = Criterion(name, "shear of the top leg", "NDS 2018 3.4.2", "stress", id="bracket.shear")
    yield govern(criterion, loads.combinations, sheared)


def _wall_leg(name: str, shape: Braced, loads: BracketLoads, wood: WoodMaterial, force: Force) -> Check:
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

    return govern(
        Criterion(name, "wall leg", "NDS 2018 3.9.1", "ratio", id="bracket.wall_leg"), loads.combinations, calculate
    )


def _brace(name: str, shape: Braced, loads: BracketLoads, wood: WoodMaterial, force: Force, length: float) -> Check:
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

    return govern(Criterion(name, "brace", "NDS 2018 15.4.1", "ratio", id="bracket.brace"), loads.combinations, column)

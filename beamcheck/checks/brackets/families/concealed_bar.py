"""A concealed bar or angle: the steel carries all of it, and the wood around it must stand how far it bends."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from typing import Any

import numpy as np

from ....calc.core import Number
from ....calc.pad import Pad
from ....errors import BeamcheckError
from ....formulas.brackets import steel_core as core
from ....formulas.steel import bending as sb
from ....formulas.steel.plates import fillet_weld
from ....formulas.wood.section import rectangle_inertia, rectangle_modulus
from ....model.brackets.bracket import SteelCore
from ....model.links.hardware import diameter
from ....model.stock import Stock
from ....units import show
from ....values.brackets import lever_arm_eta
from ....values.found import Found
from ....values.hardware.steels import least_fillet, steel
from ....values.judgment import judgment
from ...core.context import Context
from ...core.result import Check
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.material import WoodMaterial
from ...core.wood.strength import Outcome
from ..asking import ask_for
from ..body import Body
from ..evidence import sinking_not_given
from ..family import Family, SideView, Strips, box
from ..fixings.bar_fasteners import bar_rows
from ..loads import BracketLoads

Array = np.ndarray
SKIN = (
    "The wood around the steel is taken to carry nothing. Steel and wood that are screwed together share the load by "
    "their stiffness: the skin must be free to follow the steel."
)
UPPER = "The moment is taken to stay the same down to the fixing of the upright leg: the largest sinking."
EVENLY = "The upright leg hardly stretches between its rows of fasteners, so they share the load as a group in a plate."
HAIR = 1e-9


class ConcealedBar(Family[SteelCore]):
    """A concealed flat bar or angle inside a skin of wood."""

    words = "concealed steel bar"
    shares_evenly = True

    @property
    def back(self) -> float:
        return self.shape.down

    @property
    def depth_at_back(self) -> float:
        return self.shape.thickness

    @property
    def swells(self) -> float:
        return 0.0

    @property
    def lever_arm(self) -> Found[float]:
        return lever_arm_eta("block", None)

    def top_row_pull(self, pad: Pad, M: Any, h_1: float) -> Any:
        """By the lever arm of a stiff plate, or the shorter one of a leg that curls below the row."""
        shape, fixings, eta = self.shape, self.bracket.fixings, self.lever_arm
        on_wood = fixings is not None and fixings.wall == "wood"
        hard = judgment("hardness of a wall, soft" if on_wood else "hardness of a hard wall under a thin leg")
        share = pad.take("eta", eta.value, note=eta.reason, source=eta.source)
        inertia = pad(rectangle_inertia, symbol="I", b=shape.width, d=shape.thickness)
        note = f"{hard.value:,.0f} psi for each inch that the wall gives, times the width"
        k = pad.take("k_leg", hard.value * shape.width, "psi", note=note, source=hard.source)
        straight = max(self._gusset_depth - (shape.down - h_1), 0.0)
        g = pad.take("g_leg", straight, "in", note="what a gusset keeps straight below the row")
        arm = pad(core.leg_lever_arm, E_steel=judgment("E of steel").value, I=inertia, k_leg=k, g_leg=g)
        return pad(core.leg_tension, M=M, eta=share, h_1=h_1, z_leg=arm)

    def weight(self, density: float) -> Strips:
        shape, steel_density = self.shape, judgment("density of steel").value
        bar = steel_density * shape.width * shape.thickness * (shape.projection + shape.down)
        gusset = 0.5 * steel_density * (shape.gusset_thickness or 0.0) * self._gusset_depth**2
        return [(0.0, shape.projection, bar + gusset)]

    def side_view(self) -> SideView:
        shape, t = self.shape, self.shape.thickness
        view = SideView([
            ("bar", box(0.0, 0.0, t, shape.down), None), ("bar", box(t, 0.0, shape.projection, t), None),
        ])  # fmt: skip
        if shape.gusset_depth is not None:
            h = shape.gusset_depth
            corners = ((t, t), (min(h, shape.projection), t), (t, min(h, shape.down)))
            view.parts.append(("gusset", corners, None))
        return view

    def row_doubts(self) -> Iterator[Check]:
        yield from bar_rows(self.bracket, self.shape)

    def stiffness(self, stock: Stock | None) -> tuple[float, float]:
        """Of the bar alone; with a gusset it is stiffer, by how much is not worked out."""
        shape, E = self.shape, judgment("E of steel").value
        out, ends = shape.projection, ((self._counted_width, 1.0), (shape.width, 3.0))
        low, high = (
            1.0 / float(core.tip_deflection(1.0, out, out, E, wide * shape.thickness**3 / 12.0, shape.down, c))
            for wide, c in ends
        )
        return low, math.inf if self._gusseted else high

    @property
    def _gusseted(self) -> bool:
        return self.shape.gusset_depth is not None

    @property
    def _gusset_depth(self) -> float:
        """How far down and out a gusset stands at the bend, in; nothing without one."""
        return self.shape.gusset_depth or 0.0

    def body(self, loads: BracketLoads, wood: WoodMaterial | None, context: Context) -> Body:
        """Bending at the bend, the gusset and its welds, how far the tip sinks."""
        shape, name = self.shape, self.bracket.name
        hole = max(self._spoiled(shape.hole_at_bend), self._widest_hole())
        body = Body(assumptions=[SKIN, UPPER, EVENLY])
        wide = self._counted_width
        if wide < shape.width - HAIR:
            body.assumptions.append(
                f"{show(wide, 'length')} of its width count: as far as it spreads from the bend to its top fasteners."
            )
        if hole >= wide:
            text = f"a hole of {show(hole, 'length')} leaves nothing of a bar {show(wide, 'length')} wide"
            what = "net section at the bend"
            body.checks.append(Check.breaks_rule("bracket.bar_net_section", name, what, "geometry", text))
            return body
        net, M = wide - hole, np.maximum(loads.M_wall, 0.0)

        def bends(id: str, what: str, moment: Array, note: str) -> Check:
            calculate = partial(self._bending, M=moment, net=net, note=note)
            asked = Criterion(name, what, "AISC 360-16 F11", "moment", id=id)
            return govern(asked, loads.combinations, calculate)

        about = "of all the load about the wall face"
        if not self._gusseted:
            body.checks.append(bends("bracket.bar_bending", "bending of the bar at the bend", M, about))
            elastic = partial(self._elastic, M=M, net=net, note=about)
            limit = judgment("stress in a bar over F_y")
            clause = f"{limit.value:g} of the yield strength"
            asked = Criterion(name, "elastic bending stress of the bar", clause, "stress", id="bracket.bar_elastic")
            body.checks.append(govern(asked, loads.combinations, elastic))
        else:
            body.checks += self._gusset(loads, M)
            beyond = np.maximum(loads.beyond(min(self._gusset_reach, shape.projection))[1], 0.0)
            what = "bending of the bar beyond the gusset"
            body.checks.append(bends("bracket.bar_beyond_gusset", what, beyond, "about the end of the gusset"))
            down = self._below_gusset()
            if down > 0.0:
                what, note = "bending of the upright leg below the gusset", f"{down:.3g} of that at the bend"
                body.checks.append(bends("bracket.bar_below_gusset", what, down * M, note))
        if loads.lifts:
            text = "some combinations lift the nose: the bar bent the other way, and its fixings, are for an engineer"
            body.checks.append(self.doubt("bracket.uplift", "uplift", "ASCE 7-16 2.4.1", text, "lifted", loads))
        body.checks += self._sinking(loads)
        return body

    def _bending(self, pad: Pad, which: int | slice, *, M: Array, net: float, note: str) -> Outcome:
        asked, F, S = self._at_section(pad, which, M, net, note)
        Z = pad(sb.bar_plastic_modulus, b=net, t=self.shape.thickness)
        allowed = pad(sb.bar_bending, F_y=F, Z_x=Z, S_x=S)
        return Outcome(asked, allowed, asked / allowed)

    def _elastic(self, pad: Pad, which: int | slice, *, M: Array, net: float, note: str) -> Outcome:
        asked, F, S = self._at_section(pad, which, M, net, note)
        limit = pad(core.elastic_bending_limit, F_y=F)
        f = asked / S
        if not isinstance(which, slice):
            pad.take("f_b", float(f), "psi", note="M over S")
        return Outcome(f, limit, f / limit)

    def _at_section(
        self, pad: Pad, which: int | slice, M: Array, net: float, note: str
    ) -> tuple[Number, Number, Number]:
        """Moment, yield stress, elastic modulus."""
        grade = steel(self.shape.steel)
        asked = pad.take("M", at(M, which), "lbf*in", note=note)
        F = pad.take("F_y", grade.value.F_y, "psi", source=grade.source)
        return asked, F, pad(rectangle_modulus, symbol="S", b=net, d=self.shape.thickness)

    @property
    def _counted_width(self) -> float:
        """Of a bar that is wide for its fasteners: what spreads from the top row to the bend, in."""
        rows = self.bracket.fixings.rows if self.bracket.fixings is not None else ()
        if not rows:
            return self.shape.width
        top = min(rows, key=lambda row: row.below_top)
        share = judgment("width of a bar for each fastener, over its distance")
        return min(self.shape.width, top.offsets[-1] + share.value * top.below_top)

    def _spoiled(self, hole: float) -> float:
        """A hole with what punching spoils around it, in."""
        return hole + judgment("spoiled around a punched hole").value if hole else 0.0

    def _widest_hole(self) -> float:
        """Of the fasteners through the upright leg, side by side in one row, in."""
        fixings = self.bracket.fixings
        if fixings is None or fixings.fastener is None:
            return 0.0
        try:
            D = diameter(fixings.fastener.kind, fixings.fastener.size)
        except BeamcheckError:
            return 0.0  # said where the fasteners are checked
        hole = self._spoiled(D + judgment("standard hole over fastener").value)
        return hole * max((row.count for row in fixings.rows), default=1)

    def _below_gusset(self) -> float:
        """Share of the moment at the bend that is left in the upright leg where the gusset ends.

        From the top row down it dies out evenly to the lowest fixing; above that row, or with rows not known, all of
        it is there.
        """
        shape, h = self.shape, self._gusset_depth
        if h >= shape.down:
            return 0.0
        rows = self.bracket.fixings.rows if self.bracket.fixings is not None else ()
        first = min((row.below_top for row in rows), default=shape.down)
        return min(1.0, (shape.down - h) / (shape.down - first)) if first < shape.down else 1.0

    @property
    def _gusset_reach(self) -> float:
        """How far out the gusset reaches, in: as its free edge tells, no farther than it is deep."""
        h, edge = self._gusset_depth, self.shape.gusset_edge
        return h if edge is None else min(h, math.sqrt(max(edge**2 - h**2, 0.0)))

    def _gusset(self, loads: BracketLoads, M: Array) -> Iterator[Check]:
        bracket, shape, name = self.bracket, self.shape, self.bracket.name
        h, t = self._gusset_depth, shape.gusset_thickness or 0.0
        grade = steel(shape.steel)

        def root(pad: Pad, which: int | slice) -> Outcome:
            moment = pad.take("M", at(M, which), "lbf*in", note="of all the load about the wall face")
            S = pad(rectangle_modulus, symbol="S", b=t, d=h)
            f = moment / S
            if not isinstance(which, slice):
                pad.take("f_b", float(f), "psi", note="M over S of the gusset at its root")
            limit = pad(core.elastic_bending_limit, F_y=pad.take("F_y", grade.value.F_y, "psi", source=grade.source))
            return Outcome(f, limit, f / limit)

        clause = f"{judgment('stress in a bar over F_y').value:g} of the yield strength"
        asked = Criterion(name, "bending of the gusset at its root", clause, "stress", id="bracket.gusset_root")
        yield govern(asked, loads.combinations, root)
        id, what, clause = "bracket.gusset_edge", "free edge of the gusset", "AISC 360-16 Table B4.1a"
        if shape.gusset_edge is None:
            text = "the length of its free sloping edge is not given (`gusset_edge`): it may buckle"
            edge = ask_for(bracket, "gusset_edge", "shape.gusset_edge", [f"{math.hypot(h, h):.3f} in"])
            yield Check.refers(id, name, what, clause, text, ask=edge)
        else:

            def slender(pad: Pad, which: int | slice, edge: float = shape.gusset_edge) -> Outcome:
                ratio = pad(core.gusset_slenderness, l_edge=edge, t=t)
                E = judgment("E of steel").value
                limit = pad(core.gusset_slenderness_limit, E_steel=E, F_y=grade.value.F_y)
                return Outcome(ratio, limit, ratio / limit)

            yield govern(Criterion(name, what, clause, "ratio", id=id), loads.combinations, slender)
        id, what, clause = "bracket.gusset_welds", "welds of the gusset", "AISC 360-16 J2.4"
        if shape.weld is None:
            text = "the welds of the gusset are not given (`weld`)"
            leg = ask_for(bracket, "gusset_weld", "shape.weld")
            yield Check.refers(id, name, what, clause, text, ask=leg)
            return
        weld, least = shape.weld, least_fillet(min(t, shape.thickness))
        if weld < least.value - HAIR:
            text = f"a fillet of {show(weld, 'length')}; at least {show(least.value, 'length')} for this thickness"
            yield Check.breaks_rule("bracket.least_weld", name, "least weld", "AISC 360-16 Table J2.4", text)

        def welds(pad: Pad, which: int | slice) -> Outcome:
            P = pad.take("P", at(np.maximum(loads.F, 0.0), which), "lbf")
            moment = pad.take("M", at(M, which), "lbf*in", note="of all the load about the wall face")
            shorter = min(h, self._gusset_reach)  # of both legs
            q = pad(core.gusset_weld_force, P=P, M=moment, L_w=shorter)
            electrode = judgment("strength of weld metal")
            F_EXX = pad.take("F_EXX", electrode.value, "psi", note=electrode.reason, source=electrode.source)
            allowed = pad(fillet_weld, F_EXX=F_EXX, w_leg=weld, L_w=1.0, theta_w=0.0)
            return Outcome(q, allowed, q / allowed)

        yield govern(Criterion(name, what, clause, "line load", id=id), loads.combinations, welds)

    def _sinking(self, loads: BracketLoads) -> Iterator[Check]:
        """How far the tip sinks, against what the skin has room for and what the job allows."""
        bracket, shape, name = self.bracket, self.shape, self.bracket.name
        F = np.maximum(loads.F, 0.0)
        x_L = np.clip(loads.x_L, 1e-6, shape.projection)

        def sinking(pad: Pad, which: int | slice, *, room: float) -> Outcome:
            P = pad.take("P", at(F, which), "lbf", note="all the load")
            x = pad.take("x_L", at(x_L, which), "in", note="where it acts")
            inertia = pad(rectangle_inertia, symbol="I", b=self._counted_width, d=shape.thickness)
            sunk = pad(
                core.tip_deflection, P=P, x_L=x, l_out=shape.projection, E_steel=judgment("E of steel").value,
                I=inertia, l_down=shape.down, c_v=1.0,
            )  # fmt: skip
            return Outcome(sunk, room, sunk / room)

        for id, what, room in (
            ("bracket.skin_clear", "skin clear of the steel's tip", shape.tip_clear),
            ("bracket.sinking", "sinking of the nose", bracket.deflects),
        ):
            if room is None:
                continue
            if room <= 0.0:
                text = "no room is left for the steel to bend"
                yield Check.breaks_rule(id, name, what, "judgment", text)
                continue
            asked = Criterion(name, what, "statics", "small length", id=id)
            yield govern(asked, loads.combinations, partial(sinking, room=room))
        if shape.tip_clear is None:
            text = "how far the steel may sink before it touches skin or cover is not given (`tip_clear`)"
            clear = ask_for(bracket, "tip_clear", "shape.tip_clear")
            what = "skin clear of the steel's tip"
            yield Check.refers("bracket.skin_clear", name, what, "judgment", text, ask=clear)
        if bracket.deflects is None:
            yield sinking_not_given(bracket)

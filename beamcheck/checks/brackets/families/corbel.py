"""A block on the face of a post: shear, the short grain of its nose, the dap it stands on."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

import numpy as np

from ....calc.pad import Pad
from ....formulas.brackets.corbel import seat_shear, seat_shear_length
from ....formulas.wood.compression import compression_stress
from ....formulas.wood.shear import shear_stress
from ....model.brackets.bracket import Corbel, Point, Solid
from ....model.posts import Post
from ....model.stock import Stock
from ....units import show
from ....values.brackets import lever_arm_eta
from ....values.found import Found
from ....values.judgment import judgment
from ....values.lumber import read_size
from ...core.asking.question import PlausibleAnswer, ask
from ...core.context import Context
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import WoodMaterial, compression_star, shear_prime
from ...core.wood.strength import Outcome
from ..asking import ask_for
from ..bearing import bearing_under_loads
from ..body import Body
from ..evidence import knots_seen
from ..family import OnePiece, SideView, Strips, box
from ..loads import BracketLoads
from ..split.split import RULE, add_split_test
from ..wood import known_wood, not_known
from .solid import SolidBracket
from .solid_field import candidates

Array = np.ndarray
SEAT = (
    "The foot of the block stands on the wood of the dap, which carries all of the load: end grain is far stiffer than "
    "fasteners, which only tie the block back. What a foot that is not tight sinks until it bears is not counted."
)
HAIR = 1e-6  # in


def as_solid(shape: Corbel) -> Solid:
    """A block as a solid bracket whose soffit runs down its front and along its foot."""
    H, P = shape.height, shape.projection
    places = [(0.5 * P, H), (P, H), (P, 0.5 * H)]
    return Solid.model_construct(
        family="solid", thickness=shape.thickness, height=H, projection=P, foot=0.5 * P, nose=0.5 * H, sagitta=None,
        soffit="points", points=tuple(Point.model_construct(x=x, y=y) for x, y in places), grain=shape.grain,
        pocket=None,
    )  # fmt: skip


class CorbelBlock(OnePiece[Corbel]):
    """A block on the face of a post."""

    words = "corbel block"

    @property
    def depth_at_back(self) -> float:
        return self.shape.projection + self.shape.seat

    def depth_at(self, down: float) -> float | None:
        return self.shape.stands_out

    def cut_outline(self) -> Array:
        return np.array(box(0.0, 0.0, self.depth_at_back, self.shape.height))

    @property
    def stands_on_wood(self) -> bool:
        return self.shape.seat > 0.0

    @property
    def lever_arm(self) -> Found[float]:
        return lever_arm_eta("straight", None) if self.stands_on_wood else lever_arm_eta("points", self.shape.grain)

    def weight(self, density: float) -> Strips:
        shape = self.shape
        return [(0.0, shape.projection, density * shape.thickness * shape.height * shape.projection)]

    def side_view(self) -> SideView:
        shape = self.shape
        return SideView([("block", box(-shape.seat, 0.0, shape.projection, shape.height), shape.grain)])

    def stiffness(self, stock: Stock | None) -> tuple[float, float]:
        """The block hardly gives; how far its fasteners do is not worked out here."""
        return 0.0, math.inf

    def body(self, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Body:
        bracket, shape, name, t, h = (
            self.bracket,
            self.shape,
            self.bracket.name,
            self.shape.thickness,
            self.shape.height,
        )
        body = Body(assumptions=[RULE, *([SEAT] if self.stands_on_wood else [])])
        body.checks += knots_seen(bracket)
        if loads.lifts:
            text = "some combinations lift the block: an engineer must look at it"
            body.checks.append(self.doubt("bracket.uplift", "uplift", "ASCE 7-16 2.4.1", text, "lifted", loads))
        body.pull = self._pull(loads)
        if body.pull is not None:
            body.checks += self._sinking(loads, wood, body.pull)
        F = np.maximum(loads.F, 0.0)

        def shear(pad: Pad, which: int | slice) -> Outcome:
            f = pad(shear_stress, V=pad.take("V", at(F, which), "lbf"), b=t, d=h)
            allowed = shear_prime(pad, wood, duration(pad, loads.combinations, which))
            return Outcome(f, allowed, f / allowed)

        asked = Criterion(name, "shear of the block", "NDS 2018 3.4.2", "stress", id="bracket.shear")
        body.checks.append(govern(asked, loads.combinations, shear))
        level = 0.0  # of wood whose grain is not known: the weaker way
        grain = shape.grain if shape.grain is not None else level
        body.checks += bearing_under_loads(bracket, loads, wood, thickness=t, grain=grain)
        if shape.grain is None:
            text = "the direction of its grain is not given (`shape.grain`)"
            which_way = ask_for(bracket, "grain", "shape.grain")
            body.checks.append(Check.refers("bracket.grain", name, "grain", "judgment", text, ask=which_way))
            return body
        which = candidates(loads)
        add_split_test(body, self, loads, which, wood, context, shape.grain)
        body.checks += self._dap(loads, F, wood, context)
        if not self.stands_on_wood and bracket.stock is not None:  # then it is the solid bracket of that outline
            twin = SolidBracket(bracket, as_solid(shape))
            twin.read_field(body, loads, wood, context.stock(bracket.stock), which)
        return body

    def _pull(self, loads: BracketLoads) -> Array | None:
        """Pull on the top row of a block that stands in a dap, lbf: the load turns it about the middle of its seat."""
        shape, fixings = self.shape, self.bracket.fixings
        if not self.stands_on_wood or fixings is None or not fixings.rows:
            return None
        h_1 = shape.height - min(row.below_top for row in fixings.rows)
        M = np.maximum(loads.M_wall + 0.5 * shape.seat * loads.F, 0.0)
        return np.asarray(M / (self.lever_arm.value * h_1))

    def _sinking(self, loads: BracketLoads, wood: WoodMaterial, pull: Array) -> Iterator[Check]:
        """How far its nose sinks on wood: by what the pulled fasteners give."""
        bracket, shape, id, what = self.bracket, self.shape, "bracket.sinking", "sinking of the nose"
        if bracket.deflects is None or bracket.fixings is None:
            return
        top = min(bracket.fixings.rows, key=lambda row: row.below_top)
        k_1, out = judgment("anchor stiffness, soft"), shape.projection + 0.5 * shape.seat

        def sinking(pad: Pad, which: int | slice) -> Outcome:
            T = pad.take("T", at(pull, which), "lbf", note="pull on the top row")
            k_a = pad.take("k_a", k_1.value * top.count, "lbf/in", note=k_1.reason, source=k_1.source)
            K_cr = pad.take("K_cr", float(wood.K_cr.value), note=wood.K_cr.why, source=wood.K_cr.source)
            h_1 = pad.take("h_1", shape.height - top.below_top, "in", note="from the foot up to the top row")
            v = K_cr * T / k_a * out / h_1
            if not isinstance(which, slice):
                pad.take("v_nose", float(v), "in", note="the block turns about the middle of its seat")
            return Outcome(v, bracket.deflects, v / bracket.deflects)

        yield govern(Criterion(bracket.name, what, "statics", "small length", id=id), loads.combinations, sinking)

    def _dap(self, loads: BracketLoads, F: Array, wood: WoodMaterial, context: Context) -> Iterator[Check]:
        """The dap: end grain on end grain, and the post's wood below it."""
        if not self.stands_on_wood:
            return
        bracket, shape, name, seat = self.bracket, self.shape, self.bracket.name, self.shape.seat
        under, t, post = context.under(bracket.on), shape.thickness, None
        least = judgment("shallowest dap that a block stands in")
        if seat < least.value - HAIR:
            text = (
                f"{show(seat, 'small length')} deep, less than {show(least.value, 'small length')}: what shrinks or is "
                "cut by eye takes as much: deepen it, or leave `seat` out and let the fasteners carry"
            )
            yield Check.breaks_rule("bracket.dap", name, "depth of the dap", "common practice, no source", text)
        if isinstance(under, Post):
            stock = context.stock(under.stock)
            size = read_size(stock.size)
            t = min(t, size.b, size.d)  # a block may be broader than its post
            yield self._counted_in(under)
            post = known_wood(stock, bracket.on)
            if post is None:
                text = f"the wood of {bracket.on} is not known, so the dap in it has no value"
                yield not_known(name, stock, text, "dap in the post")
        else:
            text = f"{bracket.on} is no post of the job: the dap in it has no value here"
            yield self.doubt("bracket.dap", "dap in the post", "NDS 2018 3.10.1", text, "dap_by_others", loads)
        if post is None:
            return
        end_grain = judgment("end grain without a metal plate")

        def pressed(pad: Pad, which: int | slice, one: WoodMaterial) -> Outcome:
            f = pad(compression_stress, P=pad.take("P", at(F, which), "lbf"), A=t * seat)
            F_star = compression_star(pad, one, duration(pad, loads.combinations, which))
            note = "end grain on end grain, no plate between"
            allowed = pad.take("0.75 F_c*", end_grain.value * F_star, "psi", note=note, source=end_grain.source)
            return Outcome(f, allowed, f / allowed)

        for one, words in ((wood, "foot of the block in its dap"), (post, "post under the block")):
            asked = Criterion(name, words, "NDS 2018 3.10.1", "stress", id="bracket.dap")
            yield govern(asked, loads.combinations, partial(pressed, one=one))
        what = "wood of the post below the dap"
        if shape.below_seat is None:
            text = "how much post is left below the dap is not given (`shape.below_seat`)"
            below = ask_for(bracket, "below_seat", "shape.below_seat", self._room_below(), on=under.name)
            yield Check.refers("bracket.below_dap", name, what, "NDS 2018 3.4", text, ask=below)
            return
        if bracket.at is not None and shape.below_seat > bracket.at + HAIR:
            text = (
                f"{show(shape.below_seat, 'length')} of post is given below the dap (`shape.below_seat`), but its foot "
                f"stands only {show(bracket.at, 'length')} up (`at`)"
            )
            below = ask_for(bracket, "below_seat", "shape.below_seat", self._room_below(), on=under.name)
            yield Check.refers("bracket.below_dap", name, what, "geometry", text, ask=below)
        least = judgment("least length behind a step")  # the foot of the block presses as the nose of a step does
        if shape.below_seat < least.value - HAIR:
            text = (
                f"{show(shape.below_seat, 'length')} of post below the dap: less than {show(least.value, 'length')} "
                "splits off"
            )
            yield Check.breaks_rule("bracket.below_dap", name, what, least.source.document, text)
            return
        k_l, k_v = judgment("shear length over depth of a cut"), judgment("uneven shear")
        left = shape.below_seat

        def sheared(pad: Pad, which: int | slice) -> Outcome:
            l_v = pad(seat_shear_length, l=left, d_cut=seat, k_l=pad.take("k_l", k_l.value, source=k_l.source))
            k = pad.take("k_v", k_v.value, note=k_v.reason, source=k_v.source)
            f = pad(seat_shear, P=pad.take("P", at(F, which), "lbf"), t=t, l_v=l_v, k_v=k)
            allowed = shear_prime(pad, post, duration(pad, loads.combinations, which))
            return Outcome(f, allowed, f / allowed)

        asked = Criterion(name, what, "NDS 2018 3.4", "stress", id="bracket.below_dap")
        yield govern(asked, loads.combinations, sheared)

    def _room_below(self) -> list[str]:
        """All that there can be below the dap, and a foot of it."""
        return [f"{self.bracket.at:g} in", "12 in"] if self.bracket.at else ["4 ft", "12 in"]

    def _counted_in(self, post: Post) -> Check:
        """Whether the post is checked with the dap cut out of it."""
        shape, id, what, foot = self.shape, "bracket.dap_in_post", f"dap counted in {post.name}", self.bracket.at
        clause = "NDS 2018 3.1.2"
        found = [
            cut for cut in post.cuts
            if foot is not None and cut.depth >= shape.seat - HAIR
            and cut.at - 0.5 * cut.length <= foot + HAIR
            and cut.at + 0.5 * cut.length >= foot + shape.height - HAIR
        ]  # fmt: skip
        if found:
            return Check.keeps_rule(id, self.bracket.name, what, clause, "it stands among the cuts of the post")
        text = (
            f"{post.name} is not checked with the dap: write it among its cuts, {show(shape.seat, 'length')} deep over "
            "the height of the block, and give where the block's foot stands (`at`)"
        )
        field = f"post.{post.name}.cuts"
        answers = []
        if foot is not None and not post.cuts:
            middle, high = foot + 0.5 * shape.height, shape.height
            dap = {"kind": "notch", "at": f"{middle:g} in", "length": f"{high:g} in", "depth": f"{shape.seat:g} in"}
            answers = [PlausibleAnswer("yes, over the height of the block", ((field, [{**dap, "face": "top"}]),))]
        asked = ask("dap_cut", post.name, field, answers=answers, bracket=self.bracket.name)
        return Check.refers(id, self.bracket.name, what, clause, text, ask=asked)

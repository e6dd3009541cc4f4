"""A block on the face of a post: shear, the short grain of its nose, the dap it stands on."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ....calc.pad import Pad
from ....formulas.brackets.corbel import projection_ratio, seat_shear, seat_shear_length
from ....formulas.wood.bending import bending_stress
from ....formulas.wood.compression import compression_stress
from ....formulas.wood.section import rectangle_modulus
from ....formulas.wood.shear import shear_stress
from ....model.brackets import Bracket, Corbel
from ....model.pieces import Post
from ....units import show
from ....values.brackets import lever_arm_eta
from ....values.judgment import judgment
from ....values.lumber import read_size
from ...core.context import Context
from ...core.govern import Criterion, at, duration, govern, stated
from ...core.material import WoodMaterial, compression_star, is_unknown, reference_values, shear_prime, wood_of
from ...core.result import Check
from ...core.strength import Outcome
from ..bearing import bearing_under_loads
from ..body import Body
from ..evidence import knots_seen
from ..fixing_rows import lifts
from ..fixings import UPRIGHT
from ..loads import BracketLoads

HAND = (
    "The stress across the grain of the block is that of a plain section, times the factor for the crowding of stress "
    "at the top; a block is short for its depth, which the section rule does not describe well."
)
SEAT = "The dap carries and the screws tie back; the screws are checked for all of the load as well."


def corbel_body(bracket: Bracket, shape: Corbel, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Body:
    """Shear through the block, tension across its grain, bearing and shear at the dap."""
    name, t, h = bracket.name, shape.thickness, shape.height
    body = Body(assumptions=[HAND, *([SEAT] if shape.seat > 0.0 else [])])
    body.checks += knots_seen(bracket)
    if lifts(loads):
        text = "some combinations lift the block: an engineer must look at it"
        body.checks.append(stated(name, "uplift", "ASCE 7-16 2.4.1", "refer", text))
    if bracket.deflects is not None:
        text = "how far it sinks depends on the slip of its screws, which is not worked out here"
        body.checks.append(stated(name, "sinking of the nose", "statics", "refer", text))
    body.pull = _pull(bracket, shape, loads)
    F, M = np.maximum(loads.F, 0.0), np.maximum(loads.M_wall, 0.0)

    def shear(pad: Pad, which: int | slice) -> Outcome:
        f = pad(shear_stress, V=pad.take("V", at(F, which), "lbf"), b=t, d=h)
        allowed = shear_prime(pad, wood, duration(pad, loads.combinations, which))
        return Outcome(f, allowed, f / allowed)

    body.checks.append(
        govern(Criterion(name, "shear of the block", "NDS 2018 3.4.2", "stress"), loads.combinations, shear)
    )
    level = 0.0  # of wood whose grain is not known: the weaker way
    grain = shape.grain if shape.grain is not None else level
    body.checks += bearing_under_loads(name, loads, wood, thickness=t, grain=grain)
    if shape.grain is None:
        text = "the direction of its grain is not given (`shape.grain`)"
        body.checks.append(stated(name, "grain", "judgement", "refer", text))
        return body
    if abs(shape.grain - 90.0) > UPRIGHT:
        body.weak_grain = (
            f"its grain lies {show(shape.grain, 'angle')} above level: along the post the block is short-grained, and "
            "the screws run along the grain; not to be relied on for load"
        )
        return body
    limit, crowding = judgment("tension across the grain"), judgment("factor, stress along the top edge")

    def across(pad: Pad, which: int | slice) -> Outcome:
        moment = pad.take("M", at(M, which), "lbf*in", note="of the load about the face of the post")
        f_b = pad(bending_stress, M=moment, S=pad(rectangle_modulus, symbol="S", b=t, d=h))
        k = pad.take("k_top", crowding.value, note=crowding.reason, source=crowding.source)
        f = k * f_b
        if not isinstance(which, slice):
            pad.take("sigma_perp", float(f), "psi", note="across the grain, at the top of the block")
        allowed = pad.take("F_t_perp", limit.value, "psi", note=limit.reason, source=limit.source)
        return Outcome(f, allowed, f / allowed)

    criterion = Criterion(name, "tension across the grain", "NDS 2018 3.8.2: no value, judgement", "stress")
    found = govern(criterion, loads.combinations, across)
    body.checks.append(found)
    ratio = float(projection_ratio(shape.projection, h))
    most = judgment("projection of a corbel over height")
    if found.verdict != "passes" or ratio > most.value:
        why = []
        if ratio > most.value:
            why.append(f"it stands out {ratio:.2f} of its height, more than {most.value:g}")
        if found.verdict != "passes":
            why.append(f"tension across its grain reaches {show(found.demand or 0.0, 'stress')}")
        body.weak_grain = f"short grain in the nose of the block: {'; '.join(why)}: not to be relied on for load"
    body.checks += _seat(bracket, shape, loads, wood, context)
    return body


def _pull(bracket: Bracket, shape: Corbel, loads: BracketLoads) -> np.ndarray | None:
    """Pull on the top row of a block that stands in a dap, lbf: the load turns it about the middle of its seat."""
    if shape.seat <= 0.0 or bracket.fixings is None or not bracket.fixings.rows:
        return None
    h_1 = shape.height - min(row.below_top for row in bracket.fixings.rows)
    if h_1 <= 0.0:
        return None  # said where the rows are checked
    M = np.maximum(loads.M_wall + 0.5 * shape.seat * loads.F, 0.0)
    return np.asarray(M / (lever_arm_eta("straight", None).value * h_1))


def _seat(
    bracket: Bracket, shape: Corbel, loads: BracketLoads, wood: WoodMaterial, context: Context
) -> Iterator[Check]:
    """The dap: end grain on end grain, and the post's wood below it."""
    if shape.seat <= 0.0:
        return
    name, seat = bracket.name, shape.seat
    F = np.maximum(loads.F, 0.0)
    under = context.under(bracket.on)
    post: WoodMaterial | None = None
    t = shape.thickness
    if isinstance(under, Post):
        size = read_size(context.stock(under.stock).size)
        t = min(t, size.b, size.d)  # a block may be broader than its post
        yield _dap_in_post(bracket, shape, under)
    if isinstance(under, Post) and not is_unknown(context.stock(under.stock)):
        post = wood_of(context.stock(under.stock), reference_values(context.stock(under.stock)))
    if post is None:
        text = f"the wood of {bracket.on} is not known, so the dap in it has no value"
        yield stated(name, "dap in the post", "NDS 2018 3.10.1", "refer", text)
        return
    for one, words in ((wood, "foot of the block in its dap"), (post, "post under the block")):

        def pressed(pad: Pad, which: int | slice, one: WoodMaterial = one) -> Outcome:
            f = pad(compression_stress, P=pad.take("P", at(F, which), "lbf"), A=t * seat)
            F_star = compression_star(pad, one, duration(pad, loads.combinations, which))
            allowed = pad.take("0.75 F_c*", 0.75 * F_star, "psi", note="end grain on end grain, no plate between")
            return Outcome(f, allowed, f / allowed)

        yield govern(Criterion(name, words, "NDS 2018 3.10.1", "stress"), loads.combinations, pressed)
    if shape.below_seat is None:
        text = "how much post is left below the dap is not given (`shape.below_seat`)"
        yield stated(name, "wood of the post below the dap", "NDS 2018 3.4", "refer", text)
        return
    if bracket.at is not None and shape.below_seat > bracket.at + 1e-6:
        text = (
            f"{show(shape.below_seat, 'length')} of post is given below the dap (`shape.below_seat`), but its foot "
            f"stands only {show(bracket.at, 'length')} up (`at`)"
        )
        yield stated(name, "wood of the post below the dap", "geometry", "refer", text)
    k_l, k_v = judgment("shear length over depth of a cut"), judgment("uneven shear")
    below = shape.below_seat

    def sheared(pad: Pad, which: int | slice) -> Outcome:
        l_v = pad(seat_shear_length, l=below, d_cut=seat, k_l=pad.take("k_l", k_l.value, source=k_l.source))
        k = pad.take("k_v", k_v.value, note=k_v.reason, source=k_v.source)
        f = pad(seat_shear, P=pad.take("P", at(F, which), "lbf"), t=t, l_v=l_v, k_v=k)
        allowed = shear_prime(pad, post, duration(pad, loads.combinations, which))
        return Outcome(f, allowed, f / allowed)

    yield govern(
        Criterion(name, "wood of the post below the dap", "NDS 2018 3.4", "stress"), loads.combinations, sheared
    )


def _dap_in_post(bracket: Bracket, shape: Corbel, post: Post) -> Check:
    """Whether the post is checked with the dap cut out of it."""
    what, foot = f"dap counted in {post.name}", bracket.at
    found = [
        cut for cut in post.cuts
        if foot is not None and cut.depth >= shape.seat - 1e-6
        and cut.at - 0.5 * cut.length <= foot + 1e-6 and cut.at + 0.5 * cut.length >= foot + shape.height - 1e-6
    ]  # fmt: skip
    if found:
        return stated(bracket.name, what, "NDS 2018 3.1.2", "passes", "it stands among the cuts of the post")
    text = (
        f"{post.name} is not checked with the dap: write it among its cuts, {show(shape.seat, 'length')} deep over the "
        "height of the block, and give where the block's foot stands (`at`)"
    )
    return stated(bracket.name, what, "NDS 2018 3.1.2", "refer", text)

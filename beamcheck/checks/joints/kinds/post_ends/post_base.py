"""The foot of a post in a steel base: end grain on the plate, the plate beyond its stem, the stem, what lifts."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from .....calc.core import Number
from .....calc.pad import Pad
from .....formulas.joints import bases
from .....formulas.steel import bending as bend
from .....formulas.steel import plates
from .....formulas.wood.section import rectangle_modulus
from .....model.joints.parts import Base
from .....model.stock import Stock
from .....units import show
from .....values.hardware.steels import steel
from .....values.judgment import judgment
from ....anchors.group import Forces
from ....anchors.manners.base import Fastened
from ....core.result import Check
from ....core.trivial import negligible
from ....core.wood.govern import Criterion, at, duration, govern
from ....core.wood.material import compression_star
from ....core.wood.strength import Outcome
from ...groups import MemberGroup, group_of
from ...meeting import Arriving, Meeting, wood_checks
from ..fastened import FastenedKind
from ..plated import KnifeOfJoint
from .base_rods import rod_checks

Array = np.ndarray
ABOVE = "IRC 2018 R317.1.4"
HAIR = 1e-6
NO_C_D = "steel takes no factor for duration"


class PostBase(FastenedKind):
    """A steel base under a post."""

    name = "post base"
    rules = KnifeOfJoint()

    def groups(self, meeting: Meeting) -> list[tuple[MemberGroup, Fastened]]:
        post, H = meeting.members[0], level_force(meeting)
        if meeting.joint.fastener is None or post.entry.holes is None or post.entry.plate is None:
            return []
        pull = np.maximum(post.N, 0.0)
        forces = Forces(meeting.combinations, H, pull)
        if float(np.max(H, initial=0.0)) > negligible():  # from either side
            forces = Forces((*meeting.combinations, *meeting.combinations), np.concatenate([H, -H]), np.tile(pull, 2))
        return [(group_of(meeting, post, "concealed plate", forces=forces), self.rules)]

    def checks(self, meeting: Meeting) -> list[Check]:
        post, base = meeting.members[0], meeting.joint.base
        assert base is not None
        found = [*_bearing(meeting, post, base), *_plate(meeting, post, base), *_stem(meeting, post, base),
                 *_above(meeting, post.stock, base), *_held(meeting, post),
                 *rod_checks(meeting, base, level_force(meeting))]  # fmt: skip
        if self.groups(meeting):
            return [*found, *super().checks(meeting)]
        return [*found, *wood_checks(meeting)]

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        base = meeting.joint.base
        assert base is not None
        yield "the end cut square: it bears on nine tenths of the plate, 1/32 in at most between; the end sealed"
        yield f"{show(base.stands_off, 'length')} clear under the wood; the base drains and holds no water"
        yield from _rods_seen(base)
        if self.groups(meeting):
            yield from super().to_see(meeting)

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        yield "A post base is a hinge. What its rods stand in goes by their report; its welds by whoever made it."


def _rods_seen(base: Base) -> Iterator[str]:
    rods = base.rods
    if rods is None:
        yield "rods in the base with washers and nuts, their distance to the edge of the concrete measured"
        return
    off, edge, each = show(rods.off, "length"), show(rods.edge, "length"), rods.count // 2
    yield (
        f"{each} rods of {show(rods.diameter, 'length')} on either side, {off} from the middle of each to what stands "
        f"on the plate, {edge} outward to its edge; the plate {show(rods.plate, 'length')} thick"
    )
    yield f"washers and nuts on them, edge distance and depth as the report has it: {rods.takes_by or 'not named yet'}"


def level_force(meeting: Meeting) -> Array:
    """(combinations,) level force at the foot, from either side, lbf."""
    base, post = meeting.joint.base, meeting.members[0]
    assert base is not None
    return np.asarray(np.abs(post.down) + base.sideways)


def _push(meeting: Meeting) -> Array:
    return np.asarray(np.maximum(-meeting.members[0].N, 0.0))


def _slot(meeting: Meeting) -> float:
    plate = meeting.members[0].entry.plate
    return 0.0 if plate is None else max(plate.slot or 0.0, plate.thickness)


def _sides(post: Arriving, base: Base) -> tuple[float, float]:
    """Sides of the wood on the plate, in: the way that leaves least."""
    one, other = min(post.b, base.bears_wide), min(post.d, base.bears_long)
    turned = min(post.b, base.bears_long), min(post.d, base.bears_wide)
    return min(((one, other), turned), key=lambda sides: sides[0] * sides[1])


def _pressure(pad: Pad, meeting: Meeting, base: Base, which: int | slice) -> Number:
    """On the end grain, psi."""
    b, d = _sides(meeting.members[0], base)
    P = pad.take("P", at(_push(meeting), which), "lbf", note="at the foot")
    A = pad(bases.end_grain_less_slot, b=b, d=d, w_slot=_slot(meeting))
    return pad.take("f_c", P / A, "psi", note="on the end grain beside the slot")


def _bearing(meeting: Meeting, post: Arriving, base: Base) -> Iterator[Check]:
    def calculate(pad: Pad, which: int | slice) -> Outcome:
        f = _pressure(pad, meeting, base, which)
        F = compression_star(pad, post.wood, duration(pad, meeting.combinations, which))
        return Outcome(f, F, f / F)

    criterion = Criterion(meeting.name, f"end grain of {post.name} on the plate", "NDS 2018 3.10.1", "stress",
                          post.name, ("steel lies between",), id="joint.base_bearing")  # fmt: skip
    yield govern(criterion, meeting.combinations, calculate)


def _plate(meeting: Meeting, post: Arriving, base: Base) -> Iterator[Check]:
    """The plate where it stands out over its stem."""
    if base.stem != "bar":
        return
    assert base.stem_width is not None
    assert base.stem_thickness is not None
    out = max(base.bears_wide - base.stem_thickness, base.bears_long - base.stem_width, 0.0) / 2.0
    t, F_y = base.plate, steel(base.steel).value.F_y

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        f = _pressure(pad, meeting, base, which)
        M = pad(bases.plate_overhang, f_c=f, b=1.0, a=out)
        M_a = bar_strip(pad, F_y, 1.0, t)
        return Outcome(M, M_a, M / M_a)

    criterion = Criterion(meeting.name, "plate beyond its stem, a strip of 1 in", bend.BAR, "moment",
                          notes=(NO_C_D,), id="joint.base_plate")  # fmt: skip
    yield govern(criterion, meeting.combinations, calculate)


def bar_strip(pad: Pad, F_y: float, b: float, t: float) -> Number:
    """Allowable moment of a flat bar the weak way, lbf*in."""
    Z, S = pad(bend.bar_plastic_modulus, b=b, t=t), pad(rectangle_modulus, symbol="S_x", b=b, d=t)
    return pad(bend.bar_bending, F_y=F_y, Z_x=Z, S_x=S)


def _stem(meeting: Meeting, post: Arriving, base: Base) -> Iterator[Check]:
    """A flat bar under the plate: pressed, and bent the weak way by a level force."""
    if base.stem == "full":
        yield from _tall(meeting, base)
    if base.stem != "bar":
        return
    w, t = base.stem_width, base.stem_thickness
    assert w is not None
    assert t is not None
    id, what, h = "joint.base_stem", "stem of the base", max(base.stands_off, HAIR)
    slender = float(bases.stem_slenderness(h, t))
    if slender > plates.SHORT_SLENDERNESS:
        text = f"slenderness {slender:.3g}, over {plates.SHORT_SLENDERNESS:g}: a column of steel, for an engineer"
        yield meeting.refers(id, what, plates.SHORT, text, "joint_base_stem")
        return
    F_y = steel(base.steel).value.F_y

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P", at(np.abs(meeting.members[0].N), which), "lbf", note="pressed or pulled")
        H = pad.take("H", at(level_force(meeting), which), "lbf", note="level, at the top of the stem")
        P_a = pad(plates.short_compression, F_y=F_y, A_g=w * t)
        M = pad(bases.stem_moment, H=H, h=h)
        used = pad.take("used", P / P_a + M / bar_strip(pad, F_y, w, t), note="the weak way")
        return Outcome(used, 1.0, used)

    criterion = Criterion(meeting.name, what, f"{plates.SHORT}; {bend.BAR}", "ratio", notes=(NO_C_D,), id=id)
    yield govern(criterion, meeting.combinations, calculate)


def _tall(meeting: Meeting, base: Base) -> Iterator[Check]:
    """What is as wide as the plate is pressed like the plate; a level force bends it once it is tall."""
    level, most = float(np.max(level_force(meeting), initial=0.0)), judgment("tallest base whose stem is not checked")
    if base.stands_off > most.value + HAIR and not meeting.next_to_nothing(level):
        text = f"{show(level, 'force')} level on top of {show(base.stands_off, 'length')}: what that is, bends"
        yield meeting.refers("joint.base_stem", "stem of the base", "statics", text, "joint_base_stem")


def _above(meeting: Meeting, stock: Stock, base: Base) -> Iterator[Check]:
    """Height of the wood above floor or ground."""
    id, what = "joint.base_height", f"height of the wood above the {base.over}"
    least = judgment("wood above a floor" if base.over == "floor" else "wood above earth")
    if base.stands_off >= least.value - HAIR:
        yield Check.keeps_rule(id, meeting.name, what, ABOVE, f"{show(base.stands_off, 'length')}")
    elif stock.treated:
        yield Check.keeps_rule(id, meeting.name, what, ABOVE, "treated wood")
    else:
        text = (
            f"{show(base.stands_off, 'length')}: less than {show(least.value, 'length')}, and the wood is not treated"
        )
        yield Check.breaks_rule(id, meeting.name, what, ABOVE, text)


def _held(meeting: Meeting, post: Arriving) -> Iterator[Check]:
    """What lifts and what pushes sideways needs fasteners through the post."""
    joint, entry = meeting.joint, post.entry
    if joint.fastener is not None and entry.holes is not None and entry.plate is not None:
        return
    lifted, level = float(np.max(post.N, initial=0.0)), float(np.max(level_force(meeting), initial=0.0))
    if not meeting.next_to_nothing(lifted):
        text = f"{show(lifted, 'force')} lift the post, and nothing fastens it to its base"
        yield Check.breaks_rule("joint.base_uplift", meeting.name, "uplift", "load path", text, where=post.name)
    if not meeting.next_to_nothing(level):
        text = f"{show(level, 'force')} push the foot sideways: what holds it to its base is not said"
        yield meeting.refers("joint.base_sideways", "level force at the foot", "load path", text,
                             "joint_base_sideways", where=post.name)  # fmt: skip

"""Wood around a group: what tears out along the grain (Appendix E), and what splits across it (3.4.3.3, 3.8.2)."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ....calc.core import Number
from ....calc.pad import Pad
from ....errors import OutOfRange
from ....formulas.connections import tear_out as tear
from ....formulas.wood import shear as sh
from ....model.roofs import Rafter
from ....records import dataclass
from ....units import show
from ....values.hardware.connections import connection_limit
from ....values.judgment import judgment
from ...core.result import Check
from ...core.trivial import negligible, trivial
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import WoodMaterial, shear_prime_at_cut, tension_prime
from ...core.wood.strength import Outcome, shear_at_connection
from ..group import levels
from ..joint import HAIR, Part, weak_wood
from ..unsaid import Open
from .connection import Connection

Array = np.ndarray
SPLIT = "check across the holes"


@dataclass(frozen=True, eq=False)
class Block:
    """The holes of one member as its own grain sees them: `u` from its end, `v` across, in; `t` the wood that bears.

    `pull` is the force towards the end per combination, lbf.
    """

    name: str
    wood: WoodMaterial
    u: Array
    v: Array
    end: float
    t: float
    pull: Array

    @property
    def rows(self) -> list[Array]:
        """Places along the grain of the fasteners of each row, in order across the grain."""
        return [np.sort(self.u[np.abs(self.v - v) < HAIR]) for v in levels(self.v)]


def tear_out_checks(connection: Connection) -> list[Check]:
    """Net section, rows and group under a pull along the grain; shear at the connection, tension across the grain."""
    group = connection.group
    wood = weak_wood(group.stock, group.wood)
    return [*_along(connection, wood), *_other(connection), *_across(connection, wood)]


def _along(connection: Connection, wood: WoodMaterial) -> Iterator[Check]:
    """The held piece, pulled out of the joint."""
    group, joint = connection.group, connection.joint
    pull = np.maximum(np.asarray(group.forces.along, float), 0.0)
    part = joint.held_part
    if float(pull.max()) <= negligible() or part.grain == "into":
        return
    block = Block(part.name, wood, group.x, group.y, float(group.x.min()), joint.held, pull)
    yield _net_section(connection, block)
    yield from _torn(connection, block)


def _other(connection: Connection) -> Iterator[Check]:
    """The member on the other side: torn out towards its end, or loaded across its grain."""
    group, part = connection.group, connection.joint.other
    other = group.anchor.other
    if part.material != "wood" or other is None or part.end_grain or group.made.aslant or part.grain == "turned":
        return
    turned = part.grain == "across"
    along, across = np.abs(group.along_in_plane), np.abs(group.forces.across)
    force, aside = (across, along) if turned else (along, across)
    most = float(np.max(aside))
    # a girder or rafter of this job is asked itself how high the fastenings sit on it, and checked for that
    known = group.on_a_girder or (isinstance(group.into, Rafter) and group.anchor.on_girder is not None)
    if most > negligible() and not known and not trivial(most, _capacity(connection)):
        text = (
            f"{part.name} is loaded across its grain: shear at the connection (3.4.3.3) and tension across the grain "
            "in it are not checked; keep the load above its middle and have an engineer look"
        )
        what, clause = f"{part.name} across its grain", "NDS 2018 3.4.3.3, 3.8.2"
        yield group.refers("anchor.far_across", what, clause, Open(text, "far_across"))
    if float(np.max(force)) <= negligible() or other.end is None or part.wood is None or part.stock is None:
        return  # without the end distance the layout refers; unknown wood refers in any case
    u, v = (group.y, group.x) if turned else (group.x, group.y)
    yield from _torn(connection, _block_of(part, u, v, other.end, force))


def _capacity(connection: Connection) -> float:
    """What the whole group holds in the plane of its face, lbf; 0 where it has no value."""
    try:
        return float(np.nan_to_num(connection.Z_prime.min(axis=1)).sum())
    except OutOfRange:
        return 0.0


def _block_of(part: Part, u: Array, v: Array, end: float, force: Array) -> Block:
    assert part.wood is not None and part.stock is not None
    # which way the nearer end lies is not said: the force is taken to push towards it
    return Block(part.name, weak_wood(part.stock, part.wood), u, v, end, part.length, force)


def _net_section(connection: Connection, block: Block) -> Check:
    """Tension on what slot, holes and bores leave, against F_t'."""
    group, joint = connection.group, connection.joint
    criterion = Criterion(group.name, f"net section of the {block.name}", tear.NET, "force", id="anchor.net_section")
    b, d, D = float(group.section.b), float(group.section.d), joint.dowel.D
    near = connection_limit("staggered holes counted in one section").value * D
    n = max(float(levels(block.v[np.abs(block.u - u) < near]).size) for u in block.u)
    plate, fastener = group.anchor.plate, group.anchor.fastener
    high = (plate.slot_height or d) if plate is not None and group.made.in_a_slot else d
    wide = (fastener.counterbore or 0.0) if fastener is not None else 0.0
    bored = n * max(wide - joint.dowel.hole, 0.0) * joint.bored
    gross = b * d - joint.slot * high - bored
    # a hole counts through all the wood it crosses, the bottom of the bore included
    side = joint.side.is_held
    through = b - joint.slot if joint.dowel.through or side else joint.penetration or block.t

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(block.pull, which), "lbf", note="pull along the grain")
        F_t_prime = tension_prime(pad, block.wood, duration(pad, group.forces.combinations, which))
        A_g = pad.take("A_g", gross, "in2", note="slot and bores taken off")
        A_n = pad(tear.area_less_holes, A_g=A_g, n=n, d_h=joint.dowel.hole, t=through)
        Z = pad(tear.net_section_tension, F_t_prime=F_t_prime, A_n=A_n)
        return Outcome(T, Z, T / Z)

    return govern(criterion, group.forces.combinations, calculate)


def _torn(connection: Connection, block: Block) -> Iterator[Check]:
    """Rows, and the block between the outer rows."""
    group, joint = connection.group, connection.joint
    combinations, row_words = group.forces.combinations, f"row tear-out in the {block.name}"
    if group.anchor.split == SPLIT:
        text = "a check runs through the holes: a row holds nothing against tearing out along the grain"
        yield group.refers("anchor.row_tear_out", row_words, tear.ROW, Open(text, "split_seen"))
        return
    rows = block.rows

    def rows_of(pad: Pad, F_v_prime: Number) -> list[Number]:
        found = []
        first = float(np.min(block.u))
        for places in rows:
            l_end = block.end + float(places[0]) - first
            s = float(np.min(np.diff(places))) if places.size > 1 else l_end
            s_crit = pad(tear.critical_spacing, l_end=l_end, s=s)
            found.append(pad(tear.row_tear_out, n=float(places.size), F_v_prime=F_v_prime, t=block.t, s_crit=s_crit))
        return found

    def by_rows(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(block.pull, which), "lbf", note="towards the end")
        F_v_prime = shear_prime_at_cut(pad, block.wood, duration(pad, combinations, which))
        Z = pad.take("Z_RT", sum(rows_of(pad, F_v_prime)), "lbf", note=f"{len(rows)} rows together")
        return Outcome(T, Z, T / Z)

    def as_block(pad: Pad, which: int | slice) -> Outcome:
        T, C_D = at(block.pull, which), duration(pad, combinations, which)
        F_v_prime, F_t_prime = shear_prime_at_cut(pad, block.wood, C_D), tension_prime(pad, block.wood, C_D)
        Z = rows_of(pad, F_v_prime)
        n_row, wide = float(len(rows)), float(np.ptp(block.v))
        s_row = pad.take("s_row", wide / (n_row - 1.0), "in", note="between rows, the mean")
        A = pad(tear.area_between_rows, n_row=n_row, s_row=s_row, d_h=joint.dowel.hole, t=block.t)
        Z_GT = pad(tear.group_tear_out, Z_RT_1=Z[0], Z_RT_2=Z[-1], F_t_prime=F_t_prime, A_between=A)
        return Outcome(T, Z_GT, T / Z_GT)

    yield govern(Criterion(group.name, row_words, tear.ROW, "force", id="anchor.row_tear_out"), combinations, by_rows)
    if len(rows) > 1:
        what = f"group tear-out in the {block.name}"
        criterion = Criterion(group.name, what, tear.GROUP, "force", id="anchor.group_tear_out")
        yield govern(criterion, combinations, as_block)


def _across(connection: Connection, wood: WoodMaterial) -> Iterator[Check]:
    """The held piece under the force across its grain."""
    group, joint = connection.group, connection.joint
    force = np.asarray(group.forces.across, float)
    if float(np.abs(force).max()) <= negligible() or group.made.aslant:
        return
    d, low, high = float(group.section.d), float(group.y.min()), float(group.y.max())
    b = float(group.section.b) - joint.slot
    reach = judgment("near the end of a member").value * d
    near_end = group.made.in_the_end or float(group.x.min()) < reach
    criterion = Criterion(
        group.name, f"shear at the connection in {group.piece}", sh.JOINT, "force",
        notes=(f"{'less' if near_end else 'not less'} than 5 d = {show(reach, 'length')} from the end",),
        id="anchor.connection_shear",
    )  # fmt: skip
    # pressed down, the fasteners push the wood up: the lower edge is the unloaded one; lifted, the upper one
    unloaded = np.where(force >= 0.0, low, d - high)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", np.abs(at(force, which)), "lbf", note="the whole force across the grain")
        F_v_prime = shear_prime_at_cut(pad, wood, duration(pad, group.forces.combinations, which))
        c_u = pad.take("c_u", at(unloaded, which), "in", note="unloaded edge to the nearest fastener")
        breadth = pad.take("b", b, "in", note="breadth less the slot") if joint.slot else b
        return shear_at_connection(pad, F_v_prime, V=V, b=breadth, d=d, c_u=c_u, near_end=near_end)

    shear = govern(criterion, group.forces.combinations, calculate)
    yield shear
    middle, least = float(np.mean(group.y)), float(shear.capacity or 0.0)
    pushed_up, pushed_down = float(np.max(force)), -float(np.min(force))
    up = pushed_up > negligible() and middle > 0.5 * d + HAIR and not trivial(pushed_up, least)
    down = pushed_down > negligible() and middle < 0.5 * d - HAIR and not trivial(pushed_down, least)
    if up or down:
        text = (
            f"the middle of the group lies in the {'upper' if up else 'lower'} half, {show(middle, 'length')} above "
            "the lower edge, and the force goes to that side: the wood beyond is pulled across its grain, which has "
            "no design value"
        )
        what, clause = f"tension across the grain of {group.piece}", "NDS 2018 3.8.2, Table 12.5.1C"
        yield group.refers("anchor.tension_across", what, clause, Open(text, "tension_across"))

"""What NDS 2018 12.5.1 asks around each fastener of 1/4 in and more, in each wood member, under each combination.

Between 0 and 90 degrees to the grain the tables hold only the two ends. In between the load counts by its components:
the larger one asks for its distances in full; the smaller one as well, once it is half of the larger, and before that
in proportion (judgment: the standard is silent). The smallest C_delta of any fastener in any member counts for the
whole group.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ....calc.core import Formula, Number
from ....calc.pad import Pad, SilentPad
from ....formulas.connections import spacing as sp
from ....model.anchors.anchor import Other
from ....model.stock import Stock
from ....provenance import Source
from ....records import dataclass
from ....values.hardware import connections as tables
from ....values.judgment import judgment
from ....values.loader import rows
from ....values.lumber import read_size
from ....values.species import folded
from ..group import Group, levels
from ..joint import HAIR, Joint, Part
from .spread import Spread

Array = np.ndarray
SQUARE = 1e-6  # deg: nearer to 90 there is no part along the grain
FACTORS: dict[str, Formula] = {"end": sp.geometry_factor_end, "spacing": sp.geometry_factor_spacing}


@dataclass(frozen=True, eq=False)
class Need:
    """One distance in one member: `actual` (holes, 1), `least` and `full` (holes, combinations), in; 0: not asked.

    `full` is the distance at which C_delta is 1; None for a hard minimum. `formula` with its inputs is written down
    where the least distance is not a plain multiple of the diameter.
    """

    rule: str  # 'end', 'spacing', 'edge', 'rows'
    what: str
    member: str
    clause: str
    actual: Array
    least: Array
    full: Array | None
    source: Source
    formula: tuple[Formula, dict[str, Number]] | None = None

    @property
    def used(self) -> Array:
        """Asked over given, (holes, combinations)."""
        used: Array = self.least / (np.maximum(self.actual, 0.0) + HAIR)
        return used


def large_part(theta: Array, loaded: Array) -> tuple[Array, Array]:
    """Where the load has a part along the grain, and where one across it that counts for a row of fasteners."""
    limit = tables.connection_limit("angle to grain below which a load counts as along it").value
    return loaded & (theta < 90.0 - SQUARE), loaded & (theta > limit)


def shares(theta: Array, loaded: Array) -> tuple[Array, Array]:
    """How much of the demands of a load along the grain, and of one across it, a load at that angle makes: 0 to 1."""
    t, part = np.radians(theta), judgment("smaller part of a load aslant, in full").value
    with np.errstate(divide="ignore"):
        along, across = np.minimum(np.cos(t) / np.sin(t) / part, 1.0), np.minimum(np.sin(t) / np.cos(t) / part, 1.0)
    along = np.where(theta < 90.0 - SQUARE, along, 0.0)
    return np.where(loaded, along, 0.0), np.where(loaded, np.where(theta > SQUARE, across, 0.0), 0.0)


def needs(group: Group, joint: Joint, spread: Spread) -> list[Need]:
    """Every distance that 12.5.1 asks for; none for fasteners below 1/4 in, toe-nails and members of steel."""
    if not joint.dowel.large or group.made.aslant:
        return []
    woods = [part for part in joint.woods if part.grain != "turned"]
    return [need for part in woods for need in _of_member(group, joint, spread, part)]


def geometry_factor(pad: Pad, found: list[Need], D: float, which: int | slice) -> float | Array:
    """C_delta, the smallest of any fastener in any member; below the least distance there is none.

    Raises OutOfRange on a pad that writes, below the least distance; a silent one gives NaN for all combinations at
    once.
    """
    with_factor = [need for need in found if need.full is not None]
    if isinstance(which, slice):
        silent = SilentPad()
        least = np.ones(1)
        for need in with_factor:
            assert need.full is not None
            wanted = need.full > 0.0
            full = np.where(wanted, need.full, D)
            # a fastener alone in its line has no neighbor to be too near
            actual = np.where(np.isfinite(need.actual), need.actual + HAIR, full)
            share = _factor(silent, need, actual, full, D)
            least = np.minimum(least, np.where(wanted, share, 1.0).min(axis=0))  # NaN is carried on
        return least[which]
    worst, at = None, np.inf
    for need in with_factor:
        assert need.full is not None
        full, actual = need.full[:, which], need.actual[:, 0] + HAIR
        share = np.where(full > 0.0, actual / np.maximum(full, 1e-9), np.inf)
        share = np.where((full > 0.0) & (actual < need.least[:, which]), 0.0, share)  # no value at all outweighs any
        k = int(np.argmin(share))
        if share[k] < at:
            worst, at = (need, k), float(share[k])
    if worst is None or at >= 1.0:
        note = "end distance and spacing are in full" if with_factor else "no rule below 1/4 in"
        return float(pad.take("C_delta", 1.0, clause=sp.FACTOR, note=note))
    need, k = worst
    assert need.full is not None
    return float(_factor(pad, need, float(need.actual[k, 0]) + HAIR, float(need.full[k, which]), D))


def _factor(pad: Pad, need: Need, actual: float | Array, full: float | Array, D: float) -> float | Array:
    note = f"{need.what}, {need.member}"
    inputs: dict[str, Number] = {"l_end" if need.rule == "end" else "s": actual, "k_full": full / D, "D": D}
    made: float | Array = pad(FACTORS[need.rule], note, **inputs)
    return made


def _of_member(group: Group, joint: Joint, spread: Spread, part: Part) -> Iterator[Need]:
    """The distances in one member, its own grain first: u along it, v across."""
    if part.grain == "into":
        yield from _in_the_end(group, joint, spread, part)
        return
    D, turned = joint.dowel.D, part.grain == "across"
    u, v = (group.y, group.x) if turned else (group.x, group.y)
    along, across = shares(np.asarray(part.angle(spread.theta)), spread.loaded)
    shape = along.shape
    name = part.name
    end = _ends(group, part, u)
    if end is not None:
        towards = np.ones(shape, bool) if part.grain != "held" else spread.P_x > 0.0  # the wood is pushed to its end
        tension = tables.end_distance("along", towards_end=True, hardwood=is_hardwood(part.stock))
        pressed = tables.end_distance("along", towards_end=False, hardwood=False).value
        side = tables.end_distance("across", towards_end=False, hardwood=False).value
        pull = tension.value
        assert pull.full is not None and pressed.full is not None and side.full is not None
        some = (along > 0.0) | (across > 0.0)

        def between(k_along: float | Array, k_across: float) -> Array:
            return np.where(some, k_across + (k_along - k_across) * along, 0.0) * D

        yield Need(
            "end", "end distance", name, "NDS 2018 Table 12.5.1A", end[:, None],
            between(np.where(towards, pull.least, pressed.least), side.least),
            between(np.where(towards, pull.full, pressed.full), side.full), tension.source,
        )  # fmt: skip
    inner = tables.row_spacing("along")
    full, least_across = inner.value.full, tables.row_spacing("across").value.least
    assert full is not None
    for what, distances, least, share in (
        ("spacing along the grain", _next_in_line(u, v), inner.value.least, along),
        ("spacing across the grain", _next_in_line(v, u), least_across, across),
    ):
        if np.isfinite(distances).any():
            yield Need(
                "spacing", what, name, "NDS 2018 Table 12.5.1B", distances[:, None], share * least * D,
                share * full * D, inner.source,
            )  # fmt: skip
    yield from _rows(joint, name, u, v, along, across)
    yield from _edges(group, joint, spread, part, v, along, across)


def _in_the_end(group: Group, joint: Joint, spread: Spread, part: Part) -> Iterator[Need]:
    """Fasteners into the end of the held piece: all of the load is across its grain, whichever way it goes."""
    D, loaded, x, y = joint.dowel.D, spread.loaded, group.x, group.y
    inner = tables.row_spacing("across")
    full = inner.value.full
    assert full is not None
    for what, distances in (("spacing up and down", _next_in_line(y, x)), ("spacing sideways", _next_in_line(x, y))):
        if np.isfinite(distances).any():
            yield Need(
                "spacing", f"{what} in the end", part.name, "NDS 2018 Table 12.5.1B", distances[:, None],
                np.where(loaded, inner.value.least * D, 0.0), np.where(loaded, full * D, 0.0), inner.source,
            )  # fmt: skip
    to_edge, free = (tables.distance("edge", "across", case) for case in ("loaded", "unloaded"))
    up, b, d = spread.P_y < 0.0, float(group.section.b), float(group.section.d)
    for what, actual, pushed in (
        ("bottom edge", y, ~up), ("top edge", d - y, up), ("side", np.minimum(x, b - x), np.zeros_like(up)),
    ):  # fmt: skip
        least = np.where(loaded, np.where(pushed, to_edge.value.least, free.value.least) * D, 0.0)
        clause = "NDS 2018 Table 12.5.1C"
        yield Need("edge", f"distance to the {what}", part.name, clause, actual[:, None], least, None, to_edge.source)


def _rows(joint: Joint, name: str, u: Array, v: Array, along: Array, across: Array) -> Iterator[Need]:
    """Distance between rows: across the grain for load along it, along the grain for load across it."""
    D, clause = joint.dowel.D, "NDS 2018 Table 12.5.1D"
    between = tables.distance("rows", "along", "any")
    apart = _next_level(v)
    if np.isfinite(apart).any():
        least = np.where(along > 0.0, between.value.least * D, 0.0)
        yield Need("rows", "distance between rows along the grain", name, clause, apart[:, None], least, None,
                   between.source)  # fmt: skip
    apart = _next_level(u)
    if np.isfinite(apart).any():
        inputs: dict[str, Number] = {"l_w": joint.wood_length, "D": D}
        least = across * float(sp.row_spacing_perpendicular(**inputs))
        yield Need("rows", "distance between rows across the grain", name, clause, apart[:, None], least, None,
                   between.source, (sp.row_spacing_perpendicular, inputs))  # fmt: skip


def _edges(
    group: Group, joint: Joint, spread: Spread, part: Part, v: Array, along: Array, across: Array
) -> Iterator[Need]:
    D, clause = joint.dowel.D, "NDS 2018 Table 12.5.1C"
    loaded, free = (tables.distance("edge", "across", case) for case in ("loaded", "unloaded"))
    short = free.value.least * D
    s_row = float(np.max(np.diff(levels(v)), initial=short))
    whole = float(sp.edge_distance_parallel(joint.wood_length, D, s_row))
    plain = np.where(along > 0.0, short + (whole - short) * along, 0.0)
    if part.grain == "held":
        up = spread.P_y < 0.0  # the piece presses down, the fastener pushes its wood up: the top edge is loaded
        edges = [("bottom edge", v, ~up), ("top edge", float(group.section.d) - v, up)]
    else:
        edges = list(_other_edges(group, part, spread))
    for what, actual, pushed in edges:
        at_90 = np.where(pushed, loaded.value.least, free.value.least) * D
        # of a load along the grain as of a free edge, and from there in proportion
        least = np.maximum(plain, np.where(across > 0.0, short + (at_90 - short) * across, 0.0))
        yield Need("edge", f"distance to the {what}", part.name, clause, actual[:, None], least, None, loaded.source)


def _other_edges(group: Group, part: Part, spread: Spread) -> Iterator[tuple[str, Array, Array]]:
    """Edges of the other member: the one that is given, below the lowest row, and the far one where its size is known.

    With the grain of the held piece the lower edge takes what presses down. Otherwise it is not said on which side the
    given edge lies, and both count as loaded.
    """
    other = group.anchor.other
    if other is None or other.edge is None:
        return
    both = np.ones(spread.P.shape, bool)
    sided = part.grain == "along"
    near = other.edge + across_the_far(group, part)
    yield "given edge", near, spread.P_y < 0.0 if sided else both
    width = far_width(other, part.stock)
    if width is not None:
        yield "far edge", width - near, spread.P_y > 0.0 if sided else both


def across_the_far(group: Group, part: Part) -> Array:
    """Places of the fasteners across the grain of the far member, from the row that is nearest to its edge, in.

    A rafter leans against the held piece, so that what is one row of that comes nearer and nearer to an edge of it. It
    is taken to lean the way in which the group reaches less far across it.
    """
    if part.grain == "across" or not part.turn:
        v = group.x if part.grain == "across" else group.y
        found: Array = v - float(np.min(v, initial=np.inf))
        return found
    s, c = math.sin(math.radians(part.turn)), math.cos(math.radians(part.turn))
    ways = [group.y * c - group.x * s, group.y * c + group.x * s]
    return min((v - float(np.min(v, initial=np.inf)) for v in ways), key=lambda v: float(np.max(v, initial=0.0)))


def far_width(other: Other, stock: Stock | None) -> float | None:
    """The side of the far member that lies in the plane of the joint, in; None where its stock is not known."""
    if stock is None:
        return None
    size = read_size(stock.size)
    return float(size.d if abs(other.thickness - size.b) <= abs(other.thickness - size.d) else size.b)


def _ends(group: Group, part: Part, u: Array) -> Array | None:
    """From the end of a member to each fastener; None where it is not given or the fastener stands in the end."""
    if part.grain == "held":
        return u
    other = group.anchor.other
    if other is None or other.end is None or part.grain == "end":
        return None
    return np.full_like(u, other.end)  # which way the nearer end lies is not said: it counts for every fastener


def _next_in_line(places: Array, lines: Array) -> Array:
    """To the nearest fastener in the same line, in; infinite where there is none."""
    gaps = np.abs(places[:, None] - places[None, :])
    same = np.abs(lines[:, None] - lines[None, :]) < HAIR
    nearest: Array = np.where(same & ~np.eye(places.size, dtype=bool), gaps, np.inf).min(axis=1)
    return nearest


def _next_level(lines: Array) -> Array:
    """To the nearest other line, in; infinite where there is none."""
    gaps = np.abs(lines[:, None] - lines[None, :])
    nearest: Array = np.where(gaps > HAIR, gaps, np.inf).min(axis=1)
    return nearest


def is_hardwood(stock: Stock | None) -> bool:
    """Whether the tables call the species a hardwood; what is not known counts as softwood (the longer distance)."""
    if stock is None:
        return False
    table = rows("nds_2018_table_12_3_3a_specific_gravity")
    return any(row["wood_type"] == "hardwood" for row in table if folded(row["species"]) == folded(stock.species))

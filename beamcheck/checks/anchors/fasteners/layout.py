"""Where the holes are: in the wood, clear of each other, far enough from ends and edges (NDS 2018 12.5.1)."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ....calc.pad import Pad
from ....formulas.connections import spacing as sp
from ....units import show
from ....values.hardware import connections as tables
from ....values.hardware import fasteners
from ....values.judgment import judgment
from ...core.result import Check
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.strength import Outcome
from ..group import Group, levels, nearest_apart, pairs_closer
from ..joint import HAIR
from ..unsaid import Open
from .connection import Connection
from .distances import Need, large_part
from .far_wood import far_wood_checks, short_of

THIN = "NDS 2018 12.1.6"
WASHER = "NDS 2018 12.1.3"
SHOWN = 3  # holes of one kind of fault that are named


def layout_checks(connection: Connection) -> list[Check]:
    """Holes inside the wood and apart; ends, edges, spacing and rows; the 5-inch rule; the washers in their bores."""
    group = connection.group
    if group.made.aslant:
        return []
    found = [*_holes(connection)]
    found += [_distance(connection, need) for need in connection.needs if float(need.used.max()) > 0.0]
    found += _shrinkage(connection) if connection.joint.dowel.large else _thin(connection)
    return [*found, *far_wood_checks(connection), *_bores(connection), *washer_checks(group)]


def _holes(connection: Connection) -> Iterator[Check]:
    """Holes, with their bores, that leave the wood or run into each other."""
    group, joint = connection.group, connection.joint
    fastener, x, y = group.anchor.fastener, group.x, group.y
    wide = max(joint.dowel.hole, (fastener.counterbore or 0.0) if fastener and joint.bored else 0.0)
    r, d = 0.5 * wide, float(group.section.d)
    sides = np.minimum(y, d - y)
    inside = np.minimum(x, float(group.section.b) - x) if group.made.in_the_end else x
    for k in np.flatnonzero(np.minimum(inside, sides) < r - HAIR)[:SHOWN]:
        where = group.name_of(int(k))
        text = f"a hole {show(wide, 'length')} wide at {where} leaves the wood"
        yield Check.breaks_rule("anchor.holes", group.name, "holes within the wood", "geometry", text, where=where)
    for i, j in list(pairs_closer(x, y, wide - HAIR))[:SHOWN]:
        text = f"the holes at {group.name_of(i)} and {group.name_of(j)} run into each other"
        where = group.name_of(i)
        yield Check.breaks_rule("anchor.holes_apart", group.name, "holes apart", "geometry", text, where=where)


def _distance(connection: Connection, need: Need) -> Check:
    """The fastener that has least of what it needs, under all combinations."""
    group, D = connection.group, connection.joint.dowel.D
    k = int(np.argmax(need.used.max(axis=1)))
    most = float(need.least[k].max())
    actual = float(need.actual[k, 0])
    if actual <= HAIR:  # off the wood: over nothing there is no ratio
        text = (
            f"{show(most, 'length')} asked; it lies on the very edge or {show(max(-actual, 0.0), 'length')} beyond it: "
            f"short by {show(most - actual, 'length')}"
        )
        what, where = f"{need.what} in the {need.member}", group.name_of(k)
        return Check.breaks_rule(f"anchor.{need.rule}_distance", group.name, what, need.clause, text, where=where)
    notes: tuple[str, ...] = ()
    if actual < most - HAIR:
        notes = (
            f"{show(actual, 'length')} given, at least {show(most, 'length')} asked: short by "
            f"{show(most - actual, 'length')}",
        )
    criterion = Criterion(
        group.name, f"{need.what} in the {need.member}", need.clause, "length", group.name_of(k), notes,
        id=f"anchor.{need.rule}_distance",
    )  # fmt: skip

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        least = at(need.least[k], which)
        if not isinstance(which, slice):
            if need.formula is not None:
                pad(need.formula[0], note=need.what, **need.formula[1])
            elif least > 0.0:
                pad(sp.distance, k=least / D, D=D)
            pad.take("a", actual, "in", note="as laid out", source=need.source)
        return Outcome(least, actual, least / (max(actual, 0.0) + HAIR))

    return govern(criterion, group.forces.combinations, calculate)


def _shrinkage(connection: Connection) -> Iterator[Check]:
    """Outermost fasteners across the grain at most 5 in apart in sawn wood."""
    group = connection.group
    rule = tables.connection_limit("outer fasteners across the grain, sawn wood")
    for part in connection.joint.woods:
        if part.end_grain or part.grain == "turned":
            continue
        wide = float(np.ptp(group.x if part.grain == "across" else group.y))
        if wide <= HAIR:
            continue
        criterion = Criterion(
            group.name, f"fasteners across the grain of the {part.name}", "NDS 2018 12.5.1.3", "length",
            notes=("farther apart only where the joint lets the wood shrink and swell",), id="anchor.shrinkage",
        )  # fmt: skip

        def calculate(pad: Pad, which: int | slice, wide: float = wide) -> Outcome:
            limit = pad.take("a_req", rule.value, "in", source=rule.source, note=rule.reason)
            return Outcome(pad.take("a", wide, "in", note="outermost fasteners"), limit, (wide - HAIR) / limit)

        yield govern(criterion, group.forces.combinations, calculate)


def _thin(connection: Connection) -> Iterator[Check]:
    """Below 1/4 in the standard only asks that nothing splits; the commentary's advice decides whether to look."""
    group, spread, D = connection.group, connection.spread, connection.joint.dowel.D
    x, y, d = group.x, group.y, float(group.section.d)
    if group.made.in_the_end:
        given = [("edge", float(min(y.min(), d - y.max(), x.min(), float(group.section.b) - x.max())))]
    else:
        along, _ = large_part(spread.theta, spread.loaded)
        pull = bool(((spread.P_x > 0.0) & along).any())
        given = [
            ("end tension" if pull else "end compression", float(x.min())),
            ("edge", float(min(y.min(), d - y.max()))),
        ]
    for rule, places, lines in (("spacing along", x, y), ("spacing across", y, x)):
        gaps = [
            float(np.min(np.diff(np.sort(places[np.abs(lines - line) < HAIR])), initial=np.inf))
            for line in levels(lines)
        ]
        if np.isfinite(min(gaps)):
            given.append((rule, min(gaps)))
    name, id, what = group.name, "anchor.splitting", "splitting"
    if not short_of(given, "not prebored", D):
        yield Check.keeps_rule(id, name, what, THIN, "the commentary's distances for holes not bored ahead are kept")
        return
    if short := short_of(given, "prebored", D):
        text = f"closer than the commentary advises even with lead holes: {'; '.join(short)}"
        yield group.refers(id, what, THIN, Open(text, "close_nails"))
        return
    if group.anchor.fastener is not None and group.anchor.fastener.bored_ahead:
        yield Check.keeps_rule(id, name, what, THIN, "bored ahead, and the commentary's distances for that are kept")
        return
    text = "close enough to need lead holes: bore ahead and see that nothing splits"
    yield group.refers(id, what, THIN, Open(text, "bored_ahead", "fastener.bored_ahead"))


def _bores(connection: Connection) -> Iterator[Check]:
    """A washer must fit its bore, with wood enough left under it (judgment: no source)."""
    group, joint = connection.group, connection.joint
    fastener = group.anchor.fastener
    if fastener is None or not fastener.counterbore or joint.dowel.kind not in ("bolt", "lag screw") or not joint.bored:
        return
    id, name, what = "anchor.bores", group.name, "washer in its bore"
    outer, least = joint.dowel.washer or 0.0, judgment("wood under a washer in a bore").value
    side = joint.side
    left = side.length if side.is_held else joint.held
    if fastener.counterbore < outer - HAIR:
        text = f"a washer {show(outer, 'length')} across does not fit a bore of {show(fastener.counterbore, 'length')}"
        yield Check.breaks_rule(id, name, what, WASHER, text)
    elif left < least - HAIR:
        text = (
            f"{show(left, 'length')} of wood is left under the washer, less than {show(least, 'length')}: an engineer "
            "must judge the cheek"
        )
        yield group.refers(id, what, WASHER, Open(text, "thin_cheek"))
    else:
        text = f"{show(left, 'length')} of wood is left under the washer"
        yield Check.keeps_rule(id, name, what, WASHER, text)


def washer_checks(group: Group) -> Iterator[Check]:
    """A washer that is narrower than the standard one of its bolt."""
    fastener = group.anchor.fastener
    if fastener is None or fastener.washer is None or fastener.kind not in ("bolt", "lag screw"):
        return
    standard = fasteners.washer(fastener.size).value.outer
    if fastener.washer < standard - HAIR:
        text = (
            f"{show(fastener.washer, 'length')} across is less than a standard cut washer of that size "
            f"({show(standard, 'length')})"
        )
        yield Check.breaks_rule("anchor.washers", group.name, "washers", "NDS 2018 12.1.3.3", text)
    yield from _washers_fit(group, fastener.washer, standard)


def _washers_fit(group: Group, wide: float, standard: float) -> Iterator[Check]:
    """Washers that lie beside each other, and on the face of the held piece."""
    id, what, x, y = "anchor.washers", "room for the washers", group.x, group.y
    if not x.size:
        return
    apart = nearest_apart(x, y)
    if apart < wide - HAIR:
        text = f"{show(wide, 'length')} across, but their bolts are {show(apart, 'length')} apart: they overlap"
        yield Check.breaks_rule(id, group.name, what, WASHER, text)
    if group.made.plates or group.made.in_line or group.made.in_the_end:
        return
    room = 2.0 * float(min(x.min(), y.min(), float(group.section.d) - y.max()))
    if room < wide - HAIR:
        text = (
            f"{show(wide, 'length')} across, they hang over the edge or end of {group.piece} by "
            f"{show(0.5 * (wide - room), 'length')}; no more than {show(max(room, 0.0), 'length')} is counted"
        )
        most = math.floor(8.0 * min(room, apart)) / 8.0
        answers = (show(most, "length"),) if most >= standard else None
        yield group.refers(id, what, WASHER, Open(text, "washer", "fastener.washer", answers))

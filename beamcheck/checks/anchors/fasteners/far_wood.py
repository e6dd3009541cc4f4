"""Where the fasteners are in the wood on the other side: in it, and not so near an end or edge that it splits."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ....model.anchors.anchor import Other
from ....units import show
from ....values.hardware import connections as tables
from ....values.lumber import read_size
from ...core.result import Check
from ..group import Group
from ..joint import HAIR, Part
from ..unsaid import Open
from .connection import Connection
from .distances import across_the_far, far_width, large_part

MISSED, ID = "fasteners within the wood on the other side", "anchor.far_holes"
THIN = "NDS 2018 12.1.5.7, 12.1.6"
SHOWN = 3  # fasteners that are named


def far_wood_checks(connection: Connection) -> Iterator[Check]:
    """Fasteners beside the far wood fail; small ones near its end or edge refer, for the standard has no figure."""
    group, joint = connection.group, connection.joint
    other, part = group.anchor.other, joint.other
    if other is None or part.material != "wood" or part.is_held or not group.x.size or part.grain == "turned":
        return
    yield from _not_given(connection, other)
    width = far_width(other, part.stock)
    if part.end_grain:
        yield from _in_its_end(group, part)
        return
    beyond = list(_beside(group, part, other, width))
    yield from beyond
    if joint.dowel.large or beyond:
        return
    yield from _near(connection, part, other, width)


def _not_given(connection: Connection, other: Other) -> Iterator[Check]:
    """Distances in the other member that are not in the job."""
    group, part = connection.group, connection.joint.other
    clause = "NDS 2018 12.5.1" if connection.joint.dowel.large else THIN
    for field, words in (("end", "from its end"), ("edge", "from its edge")):
        if getattr(other, field) is None and not (field == "end" and part.end_grain):
            text = f"how far the fasteners are {words} is not given (`other.{field}`), so not checked"
            open_ = Open(text, f"other_{field}", f"other.{field}")
            yield group.refers("anchor.far_distances", f"distances in the {part.name}", clause, open_)


def _beside(group: Group, part: Part, other: Other, width: float | None) -> Iterator[Check]:
    if other.edge is None or width is None:
        return
    places = other.edge + across_the_far(group, part)
    for k in np.flatnonzero(places > width - HAIR)[:SHOWN]:
        where = group.name_of(int(k))
        text = (
            f"{show(float(places[k]), 'length')} from the edge of {part.name}, which is only "
            f"{show(width, 'length')} wide there: the fastener at {where} misses it"
        )
        yield Check.breaks_rule(ID, group.name, MISSED, "geometry", text, where=where)


def _in_its_end(group: Group, part: Part) -> Iterator[Check]:
    """Fasteners spread wider than the end that they go into."""
    if part.stock is None:
        return
    size, wide = read_size(part.stock.size), sorted((float(np.ptp(group.x)), float(np.ptp(group.y))))
    if wide[0] >= min(size.b, size.d) - HAIR or wide[1] >= max(size.b, size.d) - HAIR:
        text = (
            f"they are spread over {show(wide[1], 'length')} by {show(wide[0], 'length')}, but the end of {part.name} "
            f"is {size.text}: some miss it"
        )
        yield Check.breaks_rule(ID, group.name, MISSED, "geometry", text)


def _near(connection: Connection, part: Part, other: Other, width: float | None) -> Iterator[Check]:
    """Below 1/4 in: the commentary's distances from end and edge, in the far member."""
    group, spread, D = connection.group, connection.spread, connection.joint.dowel.D
    given: list[tuple[str, float]] = []
    if other.end is not None:
        along, _ = large_part(np.asarray(part.angle(spread.theta)), spread.loaded)
        given.append(("end tension" if bool(along.any()) else "end compression", other.end))
    if other.edge is not None:
        places = other.edge + across_the_far(group, part)
        given.append(("edge", float(places.min() if width is None else min(places.min(), width - places.max()))))
    what, id = f"ends and edges of the {part.name}", "anchor.splitting"
    fastener = group.anchor.fastener
    ahead = fastener is not None and fastener.bored_ahead is True
    short = short_of(given, "prebored" if ahead else "not prebored", D)
    if not short:
        if given:
            yield Check.keeps_rule(id, group.name, what, THIN, "the commentary's distances from end and edge are kept")
        return
    if ahead or group.made.aslant or short_of(given, "prebored", D):
        text = f"nearer to its end or edge than the commentary advises: {'; '.join(short)}"
        yield group.refers(id, what, THIN, Open(text, "nails_near_the_edge"))
        return
    text = f"near enough to its end to need lead holes: {'; '.join(short)}"
    yield group.refers(id, what, THIN, Open(text, "bored_ahead", "fastener.bored_ahead"))


def short_of(given: list[tuple[str, float]], bored: str, D: float) -> list[str]:
    """The distances that are less than the commentary advises."""
    found = []
    for rule, actual in given:
        least = tables.distance("thin", bored, rule).value.least * D
        if actual < least - HAIR:
            found.append(f"{rule}: {show(actual, 'length')}, advised {show(least, 'length')}")
    return found

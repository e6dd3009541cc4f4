"""Where the holes are: in the wood, clear of each other, far enough from ends and edges (NDS 2018 12.5.1)."""

from __future__ import annotations

import numpy as np

from ...calc.pad import Pad
from ...errors import BeamcheckError, OutOfRange
from ...formulas.connections import spacing as sp
from ...units import show
from ...values import connections as tables
from ..core.govern import Criterion, at, govern, stated
from ..core.result import Check
from ..core.strength import Outcome
from .distances import Need, large_part, needs
from .fastener import NotSaid
from .group import Group
from .group_forces import Spread, spread_of
from .joint import HAIR, LEAST_UNDER_BORE, Joint, joint_of

Array = np.ndarray
THIN = "NDS 2018 12.1.6"


def geometry_checks(group: Group) -> list[Check]:
    """Holes inside the wood and apart; ends, edges, spacing and rows; the 5-inch rule; the washers in their bores."""
    try:
        joint, spread = joint_of(group), spread_of(group)
        found = _holes(group, joint)
        if group.anchor.manner == "toe-nails":
            return found
        needed = needs(group, joint, spread)
        found += [_distance(group, joint, need) for need in needed if float(need.used.max()) > 0.0]
        found += _thin(group, joint, spread) if not joint.dowel.large else _shrinkage(group, joint)
        return [*found, *_not_given(group, joint), *_bores(group, joint)]
    except (NotSaid, OutOfRange, BeamcheckError) as error:
        return [stated(group.anchor.name, "layout of the fasteners", "NDS 2018 12.5.1", "refer", str(error))]


def _holes(group: Group, joint: Joint) -> list[Check]:
    """Holes, with their bores, that leave the wood or run into each other."""
    name, d, what = group.anchor.name, float(group.section.d), "holes within the wood"
    if group.anchor.manner == "toe-nails" or group.x.size == 0:
        return []
    fastener = group.anchor.fastener
    wide = max(joint.dowel.hole, (fastener.counterbore or 0.0) if fastener and joint.bored else 0.0)
    r, found = 0.5 * wide, []
    out = [k for k in range(group.x.size)
           if min(group.x[k], group.y[k], d - group.y[k]) < r - HAIR]  # fmt: skip
    for k in out[:3]:
        text = f"a hole {show(wide, 'length')} wide at {group.name_of(k)} leaves the wood"
        found.append(stated(name, what, "geometry", "fails", text, where=group.name_of(k)))
    apart = np.hypot(group.x[:, None] - group.x[None, :], group.y[:, None] - group.y[None, :])
    for i, j in np.argwhere(np.triu(apart < wide - HAIR, 1))[:3]:
        text = f"the holes at {group.name_of(int(i))} and {group.name_of(int(j))} run into each other"
        found.append(stated(name, "holes apart", "geometry", "fails", text, where=group.name_of(int(i))))
    return found


def _distance(group: Group, joint: Joint, need: Need) -> Check:
    """The fastener that has least of what it needs, under all combinations."""
    D = joint.dowel.D
    k = int(np.argmax(need.used.max(axis=1)))
    criterion = Criterion(
        group.anchor.name, f"{need.what} in the {need.member}", need.clause, "length", group.name_of(k)
    )

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        actual = float(need.actual[k, 0])
        least = at(need.least[k], which)
        if not isinstance(which, slice):
            if need.formula is not None:
                pad(need.formula[0], note=need.what, **need.formula[1])
            elif least > 0.0:
                pad(sp.distance, k=least / D, D=D)
            pad.take("a", actual, "in", note="as laid out", source=need.source)
        return Outcome(least, actual, least / (max(actual, 0.0) + HAIR))

    check = govern(criterion, group.forces.combinations, calculate)
    if check.verdict != "fails" or check.demand is None:
        return check
    short = check.demand - float(need.actual[k, 0])
    text = (
        f"{show(float(need.actual[k, 0]), 'length')} given, at least {show(check.demand, 'length')} asked: short by "
        f"{show(short, 'length')}"
    )
    return Check(**{**check.__dict__, "notes": (text, *check.notes)})


def _shrinkage(group: Group, joint: Joint) -> list[Check]:
    """Outermost fasteners across the grain at most 5 in apart in sawn wood."""
    rule = tables.connection_limit("outer fasteners across the grain, sawn wood")
    found = []
    for part in joint.woods:
        if part.grain == "end":
            continue
        wide = float(np.ptp(group.x if part.grain == "across" else group.y))
        if wide <= HAIR:
            continue
        criterion = Criterion(
            group.anchor.name, f"fasteners across the grain of the {part.name}", "NDS 2018 12.5.1.3", "length",
            notes=("farther apart only where the joint lets the wood shrink and swell",),
        )  # fmt: skip

        def calculate(pad: Pad, which: int | slice, wide: float = wide) -> Outcome:
            limit = pad.take("a_req", rule.value, "in", source=rule.source, note=rule.reason)
            return Outcome(pad.take("a", wide, "in", note="outermost fasteners"), limit, (wide - HAIR) / limit)

        found.append(govern(criterion, group.forces.combinations, calculate))
    return found


def _thin(group: Group, joint: Joint, spread: Spread) -> list[Check]:
    """Below 1/4 in the standard only asks that nothing splits; the commentary's advice decides whether to look."""
    D, name = joint.dowel.D, group.anchor.name
    along, _ = large_part(spread.theta, spread.loaded)
    pull = bool(((spread.P_x > 0.0) & along).any())
    x, y, d = group.x, group.y, float(group.section.d)
    given: list[tuple[str, float]] = [
        ("end tension" if pull else "end compression", float(x.min())),
        ("edge", float(min(y.min(), d - y.max()))),
    ]
    for rule, places, lines in (("spacing along", x, y), ("spacing across", y, x)):
        gaps = [
            float(np.min(np.diff(np.sort(places[np.abs(lines - line) < HAIR])), initial=np.inf))
            for line in np.unique(np.round(lines, 6))
        ]
        if np.isfinite(min(gaps)):
            given.append((rule, min(gaps)))
    for bored in ("not prebored", "prebored"):
        short = []
        for rule, actual in given:
            advice = tables.distance("thin", bored, rule)
            if actual < advice.value.least * D - HAIR:
                short.append(f"{rule}: {show(actual, 'length')}, advised {show(advice.value.least * D, 'length')}")
        if not short:
            break
    what = "splitting"
    if not short and bored == "not prebored":
        return [stated(name, what, THIN, "passes", "the commentary's distances for holes not bored ahead are kept")]
    if not short:
        return [stated(name, what, THIN, "refer", "close enough to need lead holes: bore ahead and see that nothing "
                       "splits")]  # fmt: skip
    return [stated(name, what, THIN, "refer", "closer than the commentary advises even with lead holes", *short)]


def _not_given(group: Group, joint: Joint) -> list[Check]:
    """Distances in the other member that are not in the job."""
    other = group.anchor.other
    part = next((one for one in joint.woods if one.grain != "held"), None)
    if other is None or part is None or not joint.dowel.large:
        return []
    missing = [] if other.end is not None or part.grain == "end" else ["its end (`other.end`)"]
    missing += [] if other.edge is not None else ["its edge (`other.edge`)"]
    if not missing:
        return []
    text = f"from the fasteners to {' and to '.join(missing)} of {part.name}: not given, so not checked"
    return [stated(group.anchor.name, f"distances in the {part.name}", "NDS 2018 12.5.1", "refer", text)]


def _bores(group: Group, joint: Joint) -> list[Check]:
    """A washer must fit its bore, with wood enough left under it (judgement: no source)."""
    fastener = group.anchor.fastener
    if fastener is None or not fastener.counterbore or joint.dowel.kind not in ("bolt", "lag screw") or not joint.bored:
        return []
    name, what, clause = group.anchor.name, "washer in its bore", "NDS 2018 12.1.3"
    outer = joint.dowel.washer or 0.0
    left = joint.side.length if joint.side.grain == "held" and joint.side.material == "wood" else joint.held
    if fastener.counterbore < outer - HAIR:
        text = f"a washer {show(outer, 'length')} across does not fit a bore of {show(fastener.counterbore, 'length')}"
        return [stated(name, what, clause, "fails", text)]
    if left < LEAST_UNDER_BORE - HAIR:
        text = (
            f"{show(left, 'length')} of wood is left under the washer, less than {show(LEAST_UNDER_BORE, 'length')}: "
            "an engineer must judge the cheek"
        )
        return [stated(name, what, clause, "refer", text)]
    return [stated(name, what, clause, "passes", f"{show(left, 'length')} of wood is left under the washer")]

"""What ties the legs of a braced bracket, keeps a butted brace from sliding, and stands with a check along each piece.

The rules for fasteners are those of the anchor groups; wood has no tension across its grain here either, so each leg is
looked at with one full check along it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import numpy as np

from ....formulas.brackets import brace as br
from ....model.anchors.anchor import Anchor, Fastener, Other
from ....model.brackets.bracket import Braced, Bracket
from ....model.brackets.joints import JointRow
from ....units import show
from ...anchors.fastener import dowel_of
from ...anchors.fasteners.connection import Connection
from ...anchors.fasteners.lateral import lateral_checks
from ...anchors.fasteners.layout import layout_checks
from ...anchors.group import Forces, Group
from ...anchors.joint import weak_wood
from ...anchors.manners.registry import resolved
from ...core.asking.question import PlausibleAnswer, Question
from ...core.context import Context
from ...core.result import Check
from ...core.wood.material import WoodMaterial
from ...core.wood.strength import Section
from ..asking import ask_engineer, ask_for, path_of
from ..fixings.heads import head_width
from ..loads import BracketLoads
from .braced_force import Force

Array = np.ndarray
HAIR = 1e-6
BOLT, END, LOADED = (
    0.25,
    7.0,
    4.0,
)  # a proposed bolt, in, and diameters to the end of the one leg, the edge of the other
EDGE = 0.45  # in: of the proposed bolt to the edge of its leg
THIN_STICK = 1.5  # in: thinner than this no stick is read; a half of one may be, and has the values of its stick
LEG_JOINT, CLAUSE = "joint of the legs", "NDS 2018 12.3"


def legs_joined(
    bracket: Bracket, loads: BracketLoads, wood: WoodMaterial, force: Force, context: Context
) -> Iterator[Check]:
    """The joint of the legs by its fasteners or by its report; words alone are no value."""
    shape = force.shape
    T = np.asarray(br.top_tie(force.N, force.beta), dtype=float)
    # what presses down bears on the shoulder of the halving; what lifts is for the fasteners
    V = np.asarray(force.F - force.N * math.sin(math.radians(force.beta)), dtype=float)
    most, up = (max(0.0, float(np.max(each))) for each in (T, -V))
    must = f"the joint of top leg and wall leg must hold {show(most, 'force')} apart"
    if up > 0.5:
        must += f", and {show(up, 'force')} upwards"
    joint, id = shape.legs_joint, "bracket.legs_joined"
    if joint is None:
        said = shape.legs_joined.strip()
        text = f"{must}; it is said to be {said!r}, which is no value" if said else f"{must}; nobody says how"
        asked = ask_for(bracket, "legs_joint", "shape.legs_joint", _likely(bracket, shape, most), why=f"{text}.")
        yield Check.refers(id, bracket.name, LEG_JOINT, CLAUSE, f"{text} (`legs_joint`)", ask=asked)
        return
    if joint.manner == "steel":
        yield from _steel(bracket, shape, must, most, up)
        return
    assert joint.fastener is not None
    yield from _sound(bracket)
    if joint.end is None:
        text = "how far its fasteners stand from the end of the top leg is not given (`end`): half of the leg is taken"
        asked = ask_for(bracket, "legs_end", "shape.legs_joint.end", [f"{0.5 * shape.wall_leg:g} in"])
        yield Check.refers(id, bracket.name, f"{LEG_JOINT}, its end", "NDS 2018 12.5.1", text, ask=asked)
    floor = shape.top_leg - (shape.housing or 0.0)
    below = [row for row in joint.rows if row.down >= floor - HAIR]
    above = [row for row in joint.rows if row.down < floor - HAIR]
    crossed = shape.joints == "butted" and shape.end_screws is not None and shape.end_screws.count > 1
    sides = (("all of it", list(joint.rows)),) if crossed else (
        ("below a level check at the housing", below), ("above that check", above)
    )  # fmt: skip
    for words, rows in sides:
        if not rows:
            text = (
                f"no row of the lap stands {words}: a check along the top leg lets the brace slide off; "
                f"set rows on both sides of a level line {show(floor, 'length')} down, each good for "
                f"{show(most, 'force')}"
            )
            yield Check.breaks_rule(id, bracket.name, f"{LEG_JOINT}, {words}", "statics of the joint", text)
            continue
        for row in rows:  # alike, they share as they are many
            share = row.count / sum(one.count for one in rows)
            # the row is the hinge of the statics: what pulls, pulls in its own line, not in the middle of the leg
            turning = share * T * (row.down - 0.5 * shape.top_leg)
            forces = Forces(loads.combinations, share * np.minimum(V, 0.0), share * T, turning)
            found = resolved(_lap(bracket, shape, row, forces, wood, context))
            checks = [found] if isinstance(found, Check) else [*lateral_checks(found), *layout_checks(found)]
            yield from (_named(check, f"{words}, row {show(row.down, 'length')} down") for check in checks)
    D = dowel_of(joint.fastener).D
    for one, other in pairwise(joint.rows):
        if other.down - one.down < LOADED * D - HAIR:
            text = (
                f"{show(other.down - one.down, 'length')} from one row to the next, along the grain of the wall leg: "
                f"{LOADED:g} diameters are asked, {show(LOADED * D, 'length')}"
            )
            yield Check.breaks_rule(id, bracket.name, f"{LEG_JOINT}: rows apart", "NDS 2018 Table 12.5.1B", text)


def _sound(bracket: Bracket) -> Iterator[Check]:
    """Whether its wood was dry when put together and shows no split: asked once for all its joints."""
    fixings, id, what = bracket.fixings, "bracket.legs_joined", "wood at the joints"
    asked = []
    if fixings is None or fixings.seasoned is None:
        asked.append(ask_for(bracket, "seasoned", "fixings.seasoned"))
    if fixings is None or fixings.split != "none seen":
        asked.append(ask_for(bracket, "split_at_fasteners", "fixings.split"))
    if asked:
        text = "whether its wood was dry when put together, and shows no split at its fasteners, is not said"
        yield Check.refers(id, bracket.name, what, CLAUSE, text, ask=asked)


def _named(check: Check, words: str) -> Check:
    return replace(check, what=f"{LEG_JOINT}{f', {words}' if words else ''}: {check.what}")


def _likely(bracket: Bracket, shape: Braced, most: float) -> list[PlausibleAnswer]:
    """A halved lap with a bolt on either side of a level check, where there is room; else steel by its report."""
    field = path_of(bracket, "shape.legs_joint")
    steel = {
        "manner": "steel", "takes": _in_tens(most), "both_sides": True,
        "report": "report of its maker, with number and year",
    }  # fmt: skip
    answers = [PlausibleAnswer("a strap or a rod by its report", ((field, steel),))]
    if shape.wall_leg >= (END + LOADED) * BOLT - HAIR:
        lap = {
            "manner": "lap", "end": f"{END * BOLT:g} in",
            "fastener": {"kind": "bolt", "size": "1/4 in", "steel": "A307", "length": f"{shape.thickness + 0.5:g} in"},
            "rows": [{"down": "1 in", "count": 1}, {"down": f"{shape.top_leg - EDGE:g} in", "count": 1}],
        }  # fmt: skip
        answers.insert(0, PlausibleAnswer("halved over each other, two 1/4 in bolts", ((field, lap),)))
    return answers


def _in_tens(force: float) -> str:
    """Rounded up, and no joint is offered that takes nothing."""
    return f"{10 * max(1, math.ceil(force / 10.0))} lb"


def _steel(bracket: Bracket, shape: Braced, must: str, most: float, up: float) -> Iterator[Check]:
    """A strap, an angle or a rod by its report."""
    joint, id = shape.legs_joint, "bracket.legs_joined"
    assert joint is not None
    asked: list[Question] = []
    if joint.takes is None:
        asked.append(ask_for(bracket, "legs_steel", "shape.legs_joint.takes", [_in_tens(most)]))
    if not joint.report.strip():
        asked.append(ask_for(bracket, "legs_report", "shape.legs_joint.report"))
    if joint.both_sides is None:
        asked.append(ask_for(bracket, "legs_both_sides", "shape.legs_joint.both_sides"))
    if asked:
        text = f"{must}; what the steel takes, by which report, and on which sides of a check it holds, is not all said"
        yield Check.refers(id, bracket.name, LEG_JOINT, "report of its maker", text, ask=asked)
    if joint.both_sides is False:
        text = "the steel holds one side of a level check along the top leg only: the brace pushes the other part off"
        yield Check.breaks_rule(id, bracket.name, f"{LEG_JOINT} with a check", "statics of the joint", text)
    if joint.takes is not None:
        yield Check.of_ratio(id, bracket.name, LEG_JOINT, "report of its maker", must, demand=most,
                             capacity=joint.takes, kind="force")  # fmt: skip
    if up > 0.5:
        if joint.takes_up <= 0.0:
            text = f"{show(up, 'force')} lift the top leg at the wall: what the steel takes upwards is not said"
            asked_up = ask_for(bracket, "legs_steel_up", "shape.legs_joint.takes_up", [f"{math.ceil(up):g} lb"])
            yield Check.refers(id, bracket.name, f"{LEG_JOINT}, upwards", "report of its maker", text, ask=asked_up)
        else:
            yield Check.of_ratio(id, bracket.name, f"{LEG_JOINT}, upwards", "report of its maker", demand=up,
                                 capacity=joint.takes_up, kind="force")  # fmt: skip


def _lap(bracket: Bracket, shape: Braced, row: JointRow, forces: Forces, wood: WoodMaterial, context: Context) -> Group:
    """A row of a halved lap as an anchor group: the top leg is held, on the wall leg."""
    joint = shape.legs_joint
    assert joint is not None and joint.fastener is not None
    first, apart = joint.end if joint.end is not None else 0.5 * shape.wall_leg, joint.apart or 0.0
    x = first + apart * np.arange(row.count)
    y = np.full(row.count, shape.top_leg - row.down)
    half = 0.5 * shape.thickness
    other = Other.model_construct(
        stock=None, thickness=half, grain="across", end=row.down,
        edge=max(min(shape.wall_leg - float(x.max()), float(x.min())), 0.01), material="wood",
    )  # fmt: skip
    return _group(
        bracket,
        joint.fastener,
        other,
        Section(half, shape.top_leg, half),
        forces,
        x,
        y,
        wood,
        context,
        "wall leg",
        shape.wall_leg,
        "legs_joint",
    )


def _group(
    bracket: Bracket, fastener: Fastener, other: Other, section: Section, forces: Forces, x: Array, y: Array,
    wood: WoodMaterial, context: Context, into: str, deep: float, field: str,
) -> Group:  # fmt: skip
    assert bracket.stock is not None
    fixings, stock = bracket.fixings, context.stock(bracket.stock)
    anchor = Anchor.model_construct(
        name=bracket.name, manner="wood side", into=into, fastener=fastener, other=other,
        seasoned=(fixings.seasoned if fixings is not None else None) or "dry", split="none seen",
    ).model_copy(update={"gap": 0.0, "arm": 0.0})  # fmt: skip
    thick = max(other.thickness, THIN_STICK)
    far = stock.model_copy(update={"size": f"{thick:g} in x {max(deep, thick):g} in"})
    return Group(
        anchor, bracket.name, "left", 0.0, stock, weak_wood(stock, wood), section, None, far, wood, forces, x, y,
        path_of(bracket, f"shape.{field}"), line=float(x.mean()),
    )  # fmt: skip


def brace_slides(
    bracket: Bracket, loads: BracketLoads, wood: WoodMaterial, force: Force, context: Context, length: float
) -> Iterator[Check]:
    """Butted ends: what slides along the legs is for screws through the leg into the end of the brace."""
    shape, id = force.shape, "bracket.brace_slides"
    parts = (
        ("top leg", np.asarray(br.top_tie(force.N, force.beta), dtype=float), shape.projection - shape.brace_out),
        ("wall leg", np.asarray(br.sliding_on_wall_leg(force.N, force.beta), dtype=float),
         shape.height - shape.brace_down),
    )  # fmt: skip
    most = max(float(np.max(slides, initial=0.0)) for _, slides, _ in parts)
    screws = shape.end_screws
    if screws is None or shape.joints == "glued only":
        text = (
            f"nothing but glue or unnamed screws keeps the ends from sliding with up to {show(most, 'force')}: house "
            "them, or say which screws go through the legs into the ends of the brace (`end_screws`)"
        )
        if shape.joints == "glued only":
            asked = ask_engineer(bracket, "brace_slides", why=f"It slides with up to {show(most, 'force')}.",
                                 forces={"along the legs": most})  # fmt: skip
        else:
            asked = ask_for(bracket, "end_screws", "shape.end_screws", _screws(bracket, shape), why=f"{text}.")
        yield Check.refers(id, bracket.name, "brace slides along the legs", "NDS 2018 11.1", text, ask=asked)
        return
    yield from _sound(bracket)
    y = shape.thickness * (np.arange(screws.count) + 0.5) / screws.count
    for leg, slides, beyond in parts:
        x = np.full(screws.count, max(beyond, 0.01))
        other = Other.model_construct(
            stock=bracket.stock, thickness=length, grain="end", end=None,
            edge=min(0.5 * shape.brace, float(y.min())), material="wood",
        )  # fmt: skip
        section = Section(screws.through, shape.thickness, screws.through)
        forces = Forces(loads.combinations, np.zeros_like(slides), slides)
        found = resolved(
            _group(
                bracket,
                screws.fastener,
                other,
                section,
                forces,
                x,
                y,
                wood,
                context,
                "brace",
                shape.brace,
                "end_screws",
            )
        )
        words = f"screws into the brace through the {leg}"
        if not isinstance(found, Connection):
            yield found
            continue
        for check in (*lateral_checks(found), *layout_checks(found)):
            yield replace(check, what=f"{words}: {check.what}")


def _screws(bracket: Bracket, shape: Braced) -> list[PlausibleAnswer]:
    through = max(shape.wall_leg, shape.top_leg)
    screws = {
        "fastener": {"kind": "wood screw", "size": "No. 14", "length": f"{through + 2.5:g} in"}, "count": 2,
        "through": f"{through:g} in",
    }  # fmt: skip
    return [PlausibleAnswer("two No. 14 screws", ((path_of(bracket, "shape.end_screws"), screws),))]


def wall_leg_with_a_check(bracket: Bracket, shape: Braced) -> Iterator[Check]:
    """A check along the wall leg: what is outside it hangs on dowels whose heads stand in front of the housing.

    And the row that takes the pull of the joint on into the wall stands near it, else that bends the wall leg.
    """
    fixings, id = bracket.fixings, "bracket.wall_leg_checked"
    if fixings is None or not fixings.rows or fixings.fastener is None:
        return  # fixings are asked for where they are checked
    floor, what = shape.wall_leg - (shape.housing or 0.0), "wall leg with a check along it"
    for i, row in enumerate(fixings.rows, start=1):
        through = fixings.through_of(row)
        if through is not None and through < floor - HAIR:
            text = (
                f"the head of row {i} stands {show(through, 'length')} from the wall: a check along the leg outside it "
                f"drops the brace; bring it out to {show(floor, 'length')} or more"
            )
            yield Check.breaks_rule(id, bracket.name, what, "statics of the joint", text, where=f"row {i}")
            return
    yield from _heads_under_the_brace(bracket, shape)
    top = min(range(len(fixings.rows)), key=lambda k: fixings.rows[k].below_top)
    down = fixings.rows[top].below_top
    low, high = shape.top_leg, 2.0 * shape.top_leg
    if not low - HAIR <= down <= high + HAIR:
        text = (
            f"the upper row stands {show(down, 'length')} below the top: it takes the pull of that joint on, "
            f"and belongs below that joint and within a leg's depth of it, {show(low, 'length')} to "
            f"{show(high, 'length')} below the top"
        )
        field = f"fixings.rows.{top + 1}.below_top"
        asked = ask_for(bracket, "row_at_joint", field, [f"{0.5 * (low + high):g} in"])
        yield Check.refers(id, bracket.name, "upper row near the joint", "statics of the joint", text, ask=asked)
    else:
        yield Check.keeps_rule(id, bracket.name, what, "statics of the joint", "the dowels carry what is outside it")


def _heads_under_the_brace(bracket: Bracket, shape: Braced) -> Iterator[Check]:
    """The end of the brace fills its place on the wall leg: no head can stand there."""
    assert bracket.fixings is not None
    axis = math.atan2(shape.brace_down - shape.top_leg, shape.brace_out - shape.wall_leg)
    half = 0.5 * shape.brace / math.cos(axis) + 0.5 * head_width(bracket.fixings.fastener)
    for i, row in enumerate(bracket.fixings.rows, start=1):
        if abs(row.below_top - shape.brace_down) < half - HAIR:
            ends = max(shape.brace_down - half, 0.0), min(shape.brace_down + half, shape.height)
            low, high = (show(end, "length") for end in ends)
            text = (
                f"the heads of row {i} stand {show(row.below_top, 'length')} below the top, where the brace meets the "
                f"wall leg: keep them clear of {low} to {high}"
            )
            yield Check.breaks_rule(
                "bracket.wall_leg_checked", bracket.name, "heads clear of the brace", "geometry", text, where=f"row {i}"
            )

"""Factors, distances and holes of joints with bolts, screws and nails: each with its source and the reason for it."""

from __future__ import annotations

from typing import Literal, get_args

from ...errors import OutOfRange, UnknownName
from ...records import dataclass
from ..found import Found
from ..loader import known, listed, row_of, rows, source_of

Moist = Literal["dry", "wet"]
Action = Literal["lateral", "withdrawal of screws", "withdrawal of nails", "withdrawal of toe-nails"]
THIN = 0.25  # in; thinner fasteners have no direction of the grain, no C_g, no C_delta
Direction = Literal["along", "across"]


@dataclass(frozen=True)
class Distance:
    """A distance as multiples of the nominal diameter: the least allowed, and that at which C_delta is 1.

    `full` is None for a hard minimum: there is no reduced value below it.
    """

    least: float
    full: float | None


@dataclass(frozen=True)
class LeadHole:
    """Diameters of a lead hole as shares of the diameter `of` ('D' or 'D_r'). `low` is 0 where none is needed."""

    low: float
    high: float
    of: Literal["D", "D_r"]


def connection_wet_service(action: Action, made: Moist, service: Moist, D: float, one_row: bool) -> Found[float]:
    """C_M of a joint: NDS 2018 Table 11.3.3.

    `action`: 'lateral', 'withdrawal of screws' (lag and wood screws), 'withdrawal of nails' or 'withdrawal of
    toe-nails'. `made`, `service`: 'dry' or 'wet': moisture of the wood when the joint is made, and later; wet is over
    19 percent. `D`: nominal diameter, in. `one_row`: a single fastener, one row along the grain, or a separate splice
    plate for each row. Raises UnknownName for another action or moisture.
    """
    known(action, get_args(Action), "action on a fastener")
    for each in (made, service):
        known(each, get_args(Moist), "moisture of a joint")
    table = rows("nds_2018_11_3_3_wet_service")
    row = next(row for row in table if (row["action"], row["made"], row["service"]) == (action, made, service))
    column = "C_M_one_row" if one_row else "C_M_thin" if D < THIN else "C_M"
    which = {"C_M_one_row": ", one row or fastener", "C_M_thin": ", thinner than 1/4 in", "C_M": ""}[column]
    return Found(float(row[column]), source_of(row), f"{action}, made {made}, {service} in service{which}")


def connection_temperature(T: float, wet: bool) -> Found[float]:
    """C_t of a joint for the highest sustained temperature T, deg F: NDS 2018 Table 11.3.4.

    Raises OutOfRange above 150 deg F, where the table ends.
    """
    moisture = "wet" if wet else "dry"
    row = row_of("nds_2018_11_3_4_temperature", "moisture", moisture, "moisture")
    for limit in (100, 125, 150):
        if limit >= T:
            return Found(float(row[f"up_to_{limit}"]), source_of(row), f"up to {limit} deg F, {moisture}")
    raise OutOfRange(f"{T:g} deg F: no temperature factor for sustained heat above 150 deg F", "NDS 2018 11.3.4")


def connection_factor(case: str) -> Found[float]:
    """C_eg, C_tn or C_di by case, such as 'end grain, lateral': NDS 2018 12.5 and 12.2.

    Raises UnknownName for another case; OutOfRange if the standard does not allow the case: nails and wood screws in
    withdrawal from end grain.
    """
    row = row_of("nds_2018_connection_factors", "case", case, "case")
    if not row["factor"]:
        raise OutOfRange(f"{row['case']}: {row['note']}; no value, whatever the load", row["source"])
    return Found(float(row["factor"]), source_of(row), row["case"])


def end_distance(direction: Direction, *, towards_end: bool, hardwood: bool) -> Found[Distance]:
    """End distance of fasteners of 1/4 in and more: NDS 2018 Table 12.5.1A.

    `direction`: 'along' or 'across': the load against the grain of the member. `towards_end`: along the grain: the
    fastener pushes towards the end (the member is in tension), also where loads reverse. `hardwood`: only then the
    shorter distance in tension. Raises UnknownName for another direction.
    """
    if direction == "across":
        return distance("end", "across", "any")
    case = f"tension {'hardwood' if hardwood else 'softwood'}" if towards_end else "compression"
    return distance("end", direction, case)


def row_spacing(direction: Direction) -> Found[Distance]:
    """Spacing of fasteners of 1/4 in and more within a row: NDS 2018 Table 12.5.1B.

    Across the grain the standard leaves the full spacing to the other member; 4 D, that member's own, is given here.

    Raises UnknownName for another direction.
    """
    along = distance("spacing", "along", "any")
    if direction == "along":
        return along
    across = distance("spacing", direction, "any")
    return Found(Distance(across.value.least, along.value.full), across.source, across.reason)


def distance(rule: str, direction: str, case: str) -> Found[Distance]:
    """Any row of NDS 2018 Tables 12.5.1A to E (`rule` 'end', 'spacing', 'edge', 'rows', 'lag pull'), and advice on
    fasteners below 1/4 in (`rule` 'thin').

    Raises UnknownName if no row has that rule, direction and case.
    """
    table = rows("nds_2018_12_5_1_distances")
    for row in table:
        if (row["rule"], row["direction"], row["case"]) == (rule, direction, case):
            found = Distance(float(row["least"]), float(row["full"]) if row["full"] else None)
            words = f"{rule}, load {direction} the grain, {case}" if rule != "thin" else f"{case}, {direction}"
            return Found(found, source_of(row), words + (f"; {row['note']}" if row["note"] else ""))
    every = [f"{row['rule']}, {row['direction']}, {row['case']}" for row in table]
    raise UnknownName("distance", f"{rule}, {direction}, {case}", every)


def connection_limit(rule: str) -> Found[float]:
    """A single number of the rules on groups, sections and washers.

    Raises UnknownName if the table does not list the rule.
    """
    row = row_of("nds_2018_connection_limits", "rule", rule, "rule")
    return Found(float(row["value"]), source_of(row), f"{row['rule']}: {row['value']} {row['unit']}")


def lead_hole(fastener: str, part: str, G: float) -> Found[LeadHole]:
    """Lead hole by specific gravity of the wood: NDS 2018 12.1.4 to 12.1.6.

    `fastener`: 'lag screw', 'wood screw, lateral', 'wood screw, withdrawal' or 'nail'. `part`: 'shank', 'thread' or,
    for nails, 'hole'. `G`: specific gravity. Raises UnknownName for another fastener or part.
    """
    known(fastener, listed("nds_2018_12_1_lead_holes", "fastener"), "fastener with lead holes")
    own = [row for row in rows("nds_2018_12_1_lead_holes") if row["fastener"] == fastener]
    known(part, dict.fromkeys(row["part"] for row in own), f"part of a {fastener}")
    for row in own:
        above = not row["G_over"] or float(row["G_over"]) < G
        if row["part"] == part and above and (not row["G_up_to"] or float(row["G_up_to"]) >= G):
            of: Literal["D", "D_r"] = "D_r" if row["of"] == "D_r" else "D"
            note = f"; {row['note']}" if row["note"] else ""
            hole = LeadHole(float(row["low"]), float(row["high"]), of)
            return Found(hole, source_of(row), f"{fastener}, {part}, G {G:g}{note}")
    raise OutOfRange(f"no lead hole for specific gravity {G:g}", own[0]["source"])


def bolt_hole_over(fastener: Literal["bolt", "drift pin"]) -> Found[tuple[float, float]]:
    """Hole less fastener diameter, from and up to, in: NDS 2018 12.1.3, 12.1.7. Wider holes carry no lateral load.

    Raises UnknownName for another fastener.
    """
    row = row_of("nds_2018_12_1_bolt_holes", "fastener", fastener, "fastener in a drilled hole")
    return Found((float(row["over_from"]), float(row["over_up_to"])), source_of(row), row["note"])


def fastener_steel(wood: str) -> Found[str]:
    """Which steel or coating goes into which wood: common trade practice.

    Raises UnknownName if the table does not list the condition.
    """
    row = row_of("fastener_coatings", "wood", wood, "condition of the wood")
    return Found(row["steel"], source_of(row), row["advice"])


def lever_arm(bracket: str) -> Found[float]:
    """eta: lever arm of the top row of anchors as a share of its height above the foot of the bearing face.

    Raises UnknownName if the table does not list the kind.
    """
    row = row_of("bracket_lever_arms", "bracket", bracket, "kind of bracket")
    return Found(float(row["eta"]), source_of(row), f"{row['bracket']}: {row['note']}")

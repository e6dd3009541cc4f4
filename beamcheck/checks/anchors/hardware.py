"""What to buy and to drill for an anchor group: hardware list with lengths, coating, lead holes by specific gravity."""

from __future__ import annotations

import math
from fractions import Fraction

from ...calc.pad import SilentPad
from ...errors import BeamcheckError
from ...formulas.steel.holes import standard_hole
from ...model.anchors.anchor import Anchor
from ...model.anchors.manners import MANNERS
from ...model.links.anchors import crossed
from ...model.stock import Stock
from ...records import dataclass
from ...units import show
from ...values.hardware.connections import bolt_hole_over, fastener_steel, lead_hole
from ..core.result import Table
from ..core.wood.material import WoodMaterial
from .fastener import Dowel, dowel_of
from .group import Group
from .joint import gravity
from .unsaid import Open

_TANNIN = "oak, chestnut, cedar, redwood"
_FINEST = 64  # drills come in 1/64 in


@dataclass(frozen=True)
class Need:
    """Length of the fastener: what it crosses, with washers, and what it needs beyond; inches."""

    least: float
    why: str


def looked_up(anchor: Anchor) -> Dowel | None:
    """Sizes of the fastener by the tables, never its strength; None when there is none, or a length is missing."""
    fastener = anchor.fastener
    if fastener is None:
        return None
    try:  # a strength that is missing (stainless) is no reason not to list washers and drills
        return dowel_of(fastener.model_copy(update={"F_yb": fastener.F_yb or 1.0}))
    except BeamcheckError:
        return None


def length_needed(group: Group, dowel: Dowel) -> Need | None:
    """Least length of the fastener, washers included; None where it goes by something that the group does not know."""
    anchor, pad = group.anchor, SilentPad()
    if group.made.aslant or not group.made.fastened:
        return None
    washer = dowel.washer_thickness
    through, right_through = crossed(anchor, float(group.section.b))
    if dowel.kind == "pin":
        return Need(through, "as long as the wood it crosses")
    if right_through:
        return Need(through + 2.0 * washer + dowel.D, "the parts, two washers and the nut")
    if dowel.through:
        return None  # into concrete: by the report of the anchor
    beyond = float(dowel.least_penetration(pad))
    more = washer if dowel.kind == "lag screw" else 0.0
    return Need(
        through + more + beyond, f"what it crosses and {show(beyond, 'length')} in the wood that holds its point"
    )


def bores_in_all(anchor: Anchor) -> int:
    """Bores of one fastener, in all members."""
    fastener = anchor.fastener
    if fastener is None or fastener.counterbore is None:
        return 0
    through = fastener.kind in ("bolt", "pin") and not into_concrete(anchor)
    return 2 if through and MANNERS[anchor.manner].bores == 2 else 1


def into_concrete(anchor: Anchor) -> bool:
    """Whether it is set there: one end of it alone is on the wood."""
    return anchor.other is not None and anchor.other.material == "concrete"


def hardware_table(group: Group) -> Table | None:
    """Fasteners, washers, nuts, plugs and plates with their number, size and length; None when there is no fastener."""
    anchor, fastener = group.anchor, group.anchor.fastener
    if fastener is None:
        return None
    dowel, n = looked_up(anchor), max(int(group.x.size), 1)
    upright = group.made.upright
    many = str(n) if group.x.size or upright else "as the report says"
    what = "rod, threaded" if upright else fastener.kind
    made = [f"steel {fastener.steel}" if fastener.steel else "", fastener.coating or ""]
    rows: list[tuple[str, ...]] = [(what, fastener.size, many, *_length(group, dowel), ", ".join(filter(None, made)))]
    if dowel is not None and fastener.kind in ("bolt", "lag screw") and dowel.washer is not None:
        ends = 2 if fastener.kind == "bolt" and not into_concrete(anchor) else 1
        given = "as given" if fastener.washer is not None else "standard cut washer of that size"
        rows.append(("washer", f"{show(dowel.washer, 'length')} across", str(ends * n), "", given, ""))
        if fastener.kind == "bolt":
            nuts = 2 * n if upright else n
            rows.append(("nut", fastener.size, str(nuts), "", "", fastener.coating or ""))
    if fastener.plugged and fastener.counterbore is not None and dowel is not None:
        rows.append(_plug(group, dowel, n))
    if anchor.plate is not None:
        plate, count = anchor.plate, group.made.plates
        size = " x ".join(show(value, "length") for value in (plate.thickness, plate.width, plate.length))
        weld = f"fillet weld {show(plate.weld, 'length')} on both sides of its base" if plate.weld else ""
        rows.append(("plate", size, str(count), "", weld, f"steel {plate.steel}"))
    if (back := anchor.back) is not None and anchor.plate is not None:
        size = f"{show(back.plate, 'length')} thick, {show(back.along, 'length')} high"
        rows.append(("plate behind", size, "1", "", "the other welded to it", f"steel {anchor.plate.steel}"))
        rows.append(("rod behind", show(back.diameter, "length"), str(back.count), "", "by its report", ""))
    heads = ("what", "size", "how many", "length", "note", "steel and coating")
    return Table(f"Hardware of {anchor.name}", heads, tuple(rows), coating_note(group))


def _length(group: Group, dowel: Dowel | None) -> tuple[str, str]:
    """Length of the fastener, and why."""
    fastener = group.anchor.fastener
    need = None if dowel is None else length_needed(group, dowel)
    given = fastener.length if fastener is not None else None
    if given is None and dowel is not None and dowel.kind == "nail":
        given = dowel.length
    if need is None:
        why = "through both pieces, from nut to nut" if group.made.upright else ""
        return (show(given, "length") if given is not None else ""), why
    if given is None:
        most = _hidden_within(group)
        return f"at least {_up(need.least)}", need.why + (
            f"; less than {show(most, 'length')}, so that plugs fit" if most else ""
        )
    return show(given, "length"), f"needs at least {_up(need.least)}: {need.why}"


def _hidden_within(group: Group) -> float:
    """What a bolt with plugs over both ends must stay within, inches; 0 where it has none."""
    fastener = group.anchor.fastener
    if fastener is None or not fastener.plugged or bores_in_all(group.anchor) < 2:
        return 0.0
    return crossed(group.anchor, float(group.section.b))[0] + 2.0 * (fastener.counterbore_depth or 0.0)


def _up(length: float) -> str:
    """A length rounded up to 1/16 in, so that what is bought is never too short."""
    return show(math.ceil(length * 16.0 - 1e-6) / 16.0, "length")


def _plug(group: Group, dowel: Dowel, n: int) -> tuple[str, ...]:
    fastener = group.anchor.fastener
    assert fastener is not None and fastener.counterbore is not None
    room = fastener.counterbore_depth or 0.0
    if dowel.kind != "pin":
        room -= dowel.washer_thickness + dowel.D
    note = "over head and nut, put in last"
    if room <= 0.0:
        note = f"no room over head or nut: bore deeper by {_up(-room)} and the thickness of the plug"
    deep = f"at most {show(math.floor(room * 16.0 + 1e-6) / 16.0, 'length')}" if room > 0.0 else ""
    return "plug", f"{show(fastener.counterbore, 'length')} across", str(n * bores_in_all(group.anchor)), deep, note, ""


def wood_conditions(stock: Stock) -> list[str]:
    """What the wood does to steel, as `values.connections.fastener_steel` names it; the harshest first."""
    found = ["treated against rot or insects"] if stock.treated else []
    if any(word in stock.species.casefold() for word in _TANNIN.split(", ")):
        found.append(_TANNIN)
    if stock.moisture != "dry":
        found.append("outdoors or damp")
    return found or ["dry, indoors, untreated"]


def coating_note(group: Group) -> str:
    """Which steel and coating the woods of the joint ask for."""
    stocks = [stock for stock in (group.stock, group.into_stock) if stock is not None]
    found = dict.fromkeys(condition for stock in stocks for condition in wood_conditions(stock))
    if len(found) > 1:
        found.pop("dry, indoors, untreated", None)
    parts = []
    for condition in found:
        advice = fastener_steel(condition)
        parts.append(f"wood {condition}: {advice.value} ({advice.reason})")
    fastener = group.anchor.fastener
    said = "" if fastener is None or fastener.coating else "; the job does not say what the fasteners are coated with"
    return f"By common trade practice, {'; '.join(parts)}{said}"


def lead_hole_table(group: Group) -> Table | None:
    """Diameters to drill, member by member; None when the fastener is not in the tables."""
    dowel = looked_up(group.anchor)
    if dowel is None or not (group.made.fastened or group.made.upright):
        return None
    rows, notes = [], []
    for member in _members(group, dowel):
        doubts: list[Open] = []
        G, why = gravity(member.stock, member.wood, member.name, doubts)
        shown = f"{G:.3g}, {why}" + (" (in doubt)" if doubts else "")
        for part, low, high, note, how in _holes(dowel, G, member):
            rows.append((member.name, shown, part, _range(low, high), note))
            notes.append(how)
    if group.anchor.plate is not None:
        hole = float(standard_hole(dowel.D)) if dowel.through else dowel.D
        rows.append(("plate", "", "hole", show(hole, "small length"), "standard hole" if dowel.through else "not less"))
    heads = ("member", "specific gravity", "part", "drill", "how deep")
    recalled = " Some of these holes are recalled from memory." if "memory" in notes else ""
    return Table(
        f"Holes to drill for {group.anchor.name}", heads, tuple(rows),
        f"NDS 2018 12.1.3 to 12.1.7; a drill of 1/64 in steps that lies within is named.{recalled}",
    )  # fmt: skip


@dataclass(frozen=True)
class Member:
    """A wood member as the fastener meets it: from where to where below its head, inches."""

    name: str
    stock: Stock | None
    wood: WoodMaterial | None
    start: float
    end: float
    holds_point: bool


def _members(group: Group, dowel: Dowel) -> list[Member]:
    """The wood members in the order in which the fastener crosses them."""
    anchor, made, other = group.anchor, group.made, group.anchor.other
    thick, washer = float(group.section.b), dowel.washer_thickness if dowel.kind == "lag screw" else 0.0
    bore = 0.0
    if anchor.fastener is not None and anchor.fastener.counterbore_depth is not None:
        bore = anchor.fastener.counterbore_depth
    crossed_first, _ = crossed(anchor, thick)
    point = dowel.length if dowel.length is not None else float("inf")
    if other is None or other.material != "wood":
        start = washer + (crossed_first if made.point == "held" else 0.0)
        held = made.point == "held"
        return [Member(group.piece, group.stock, group.wood, start, min(start + thick, point), held)]
    far = group.far
    first = washer + (other.thickness if made.in_the_end else thick) - bore
    second = first + anchor.gap
    last = min(second + (thick if made.in_the_end else other.thickness), point)
    ordered = [(group.piece, group.stock, group.wood), (far, group.into_stock, group.into_wood)]
    if made.in_the_end:
        ordered.reverse()
    return [Member(*ordered[0], washer, first, False), Member(*ordered[1], second, last, True)]


def _holes(dowel: Dowel, G: float, member: Member) -> list[tuple[str, float, float, str, str]]:
    """(part, from, up to, how deep, how it is known)."""
    if dowel.kind in ("bolt", "pin"):
        over = bolt_hole_over("bolt" if dowel.kind == "bolt" else "drift pin")
        low, high = over.value
        return [("hole", dowel.D + low, dowel.D + high, "right through", over.source.how)]
    if dowel.kind == "nail":
        found = lead_hole("nail", "hole", G)
        return [("hole", 0.0, found.value.high * dowel.D, "not needed; not wider", found.source.how)]
    families = ["lag screw"] if dowel.kind == "lag screw" else ["wood screw, lateral", "wood screw, withdrawal"]
    made = []
    for family in families:
        for part in ("shank", "thread") if "withdrawal" not in family else ("thread",):
            if part == "thread" and not member.holds_point:
                continue
            deep = _deep(dowel, part, member)
            if deep is None:
                continue
            found = lead_hole(family, part, G)
            of = dowel.D if found.value.of == "D" else dowel.D_r
            pulled = ", where it is pulled" if "withdrawal" in family else ""
            made.append((part + pulled, found.value.low * of, found.value.high * of, deep, found.source.how))
    return made


def _deep(dowel: Dowel, part: str, member: Member) -> str | None:
    """How deep into a member, from its face; None where that part of the screw does not come into it."""
    if dowel.kind != "lag screw" or dowel.length is None or dowel.thread is None:
        return "the part without thread" if part == "shank" else "the thread"
    shank = max(dowel.length - dowel.thread, 0.0)  # below the head
    start, end = member.start, min(member.end, dowel.length)
    if part == "shank":
        reach = min(shank, member.end) - start
        if reach <= 0.0:
            return None
        return "right through" if shank >= member.end and not member.holds_point else f"{show(reach, 'length')} deep"
    if end <= max(shank, start):
        return None
    return f"on to {show(end - start, 'length')} from its face, at least as deep as the thread"


def _range(low: float, high: float) -> str:
    """A range of diameters with the largest drill that lies in it."""
    text = show(high, "small length")
    if low > 0.0 and high - low > 1e-9:
        text = f"{show(low, 'small length')} to {text}"
    elif low <= 0.0:
        text = f"up to {text}"
    steps = math.floor(high * _FINEST + 1e-9)
    if not text.endswith(" in") or not steps or steps < low * _FINEST - 1e-9:
        return text
    return f"{text} (drill {Fraction(steps, _FINEST)} in)"

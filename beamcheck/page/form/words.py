"""What the fields of a job file are called on the page, and which come first; what is not here has its own name.

Trade words of common practice; the fields themselves, with what they mean, are those of `model/`.
"""

from __future__ import annotations

from collections.abc import Mapping

# by class and field; '*' where a field is called the same everywhere
LABELS: Mapping[str, Mapping[str, str]] = {
    "*": {
        "name": "mark",
        "called": "what people call it",
        "stock": "stick",
        "on": "rests on",
        "finish": "below it, can crack",
        "top_held": "its top edge is held",
        "bottom_held": "its bottom edge is held",
        "meant": "an odd figure is meant",
        "carries": "what it carries",
        "cuts": "what is cut out of it",
        "role": "what it is for",
        "spacing": "middle to middle",
        "members": "how many share the load",
        "shared_by": "by what they share it",
        "plies": "sticks side by side",
        "confirmed_by": "who answers for it, in which paper",
        "at": "at, from the left end",
        "place": "where in the plan",
        "evidence": "what the stamp or paper says",
        "split": "split or check",
        "near": "what it stands close to",
    },
    "About": {"title": "what the job is", "wind_by": "who answers for wind", "snow": "how the snow is known"},
    "Stock": {
        "name": "what this stick is called",
        "size": "size",
        "species": "wood",
        "grade": "grade",
        "grade_from": "who says so",
        "agency": "agency on the stamp",
        "measured_moisture": "moisture meter reads",
        "moisture": "moisture",
        "candidates": "woods it may be",
        "values": "design values by letter",
        "made": "sawn, glued, composite or steel",
        "steel": "shape of the steel beam",
        "report": "the maker's report",
    },
    "Beam": {
        "clear": "clear, from seat to seat",
        "supports": "what holds it",
        "service": "it belongs to a",
        "length": "length over all",
        "in_a_row": "one of a row",
        "stamp_up": "the face stamped TOP lies up",
        "sag_limits": "it may sag so many inches",
        "flitch": "steel plate between its plies",
        "plies_schedule": "nails or bolts through the plies",
    },
    "Support": {
        "at": "middle of its seat, from the left end",
        "bearing": "seat, along the piece",
        "restrained": "held against turning over",
        "holds": "how it is held",
        "tied_down": "what ties it down",
        "held_by": "the anchor that holds it",
        "lands_at": "where it lands on the beam below",
        "lands_on": "on which point of the frame",
    },
    "Load": {
        "what": "what it is",
        "dead": "its weight",
        "live": "people and furniture",
        "roof_live": "men on the roof",
        "snow": "snow",
        "wind": "wind, minus lifts",
        "width": "width of floor or roof",
        "applied": "it comes on at the",
        "room": "use of the room",
        "dead_includes_own_weight": "the stick's own weight is in it",
    },
    "Frame": {
        "kind": "form",
        "span": "span, foot to foot",
        "rise": "rise, feet to ridge",
        "spacing": "frame to frame",
        "members": "its members",
        "feet": "what it stands on",
        "carries": "forces at its points",
        "upright_by": "what holds it upright, who answers",
        "sway_held_by": "what keeps it from swaying, who answers",
        "joint_stiffness": "its softest joint",
        "joint_play": "play of bolted joints",
    },
    "FrameMember": {"name": "member, or sort of members", "through": "through the points", "acts": "it can"},
    "FrameFoot": {
        "at": "foot",
        "bearing": "seat, along the span",
        "cut": "level cut in its foot",
        "slides": "it slides",
        "slides_by": "who says so",
    },
    "FrameForce": {"what": "what it is", "at": "at the point", "wind_sideways": "wind, level"},
    "Post": {"height": "height, foot to top", "on": "stands on", "base_restraint": "foot", "top_restraint": "top"},
    "Existing": {
        "name": "what it is called here",
        "what": "what it is",
        "takes": "how much it may take",
        "material": "made of",
    },
    "Bracket": {"shape": "its shape", "on": "fixed to", "fixings": "what fixes it", "at": "height on the post"},
    "Near": {"beam": "the beam above it", "gap": "gap between nose and beam", "at": "where along the beam"},
    "Joint": {
        "kind": "how the members are joined",
        "frame": "the frame",
        "at": "the point of the frame",
        "post": "the post on it",
        "members": "the members that it joins",
        "forces_by": "whose analysis gives its forces",
        "stands_on": "what is under it",
        "bears_on": "into which member that pushes",
        "step": "the notch",
        "tenon": "tenon, housing and pegs",
        "strap": "the strap",
        "base": "the steel under the post",
        "rating": "the published loads",
        "twist_held_by": "what keeps the lap from turning",
    },
    "Member": {
        "name": "the member",
        "part": "what it is in this joint",
        "direction": "which way it goes, 0 deg to the right",
        "passes": "it goes on beyond the joint",
        "forces": "what comes to the joint by it",
        "holes": "where the fasteners are in it",
        "plate": "the plate on it, or in it",
        "arm": "from its fasteners to the crossing of the axes",
        "on_girder": "how high hardware sits on its side",
        "shear": "the shear in it beside the joint",
        "seat": "length that lies on the hardware",
    },
    "Rods": {
        "count": "how many, on both sides together",
        "diameter": "rod",
        "hole": "its hole",
        "plate": "plate thickness",
        "along": "length of the plate along them",
        "off": "from a rod to what stands on the plate",
        "edge": "from a rod outward to the edge",
        "takes": "one bears, pulled",
        "sideways": "one bears, sideways",
        "takes_by": "by which report",
        "on": "the plate lies on",
        "stock": "that wood",
    },
    "Back": {
        "count": "rods in all",
        "diameter": "rod",
        "hole": "its hole",
        "plate": "plate thickness",
        "along": "height of the plate",
        "off": "from a rod to the plate in the beam",
        "edge": "from a rod outward to the edge",
        "takes": "one bears, pulled",
        "sideways": "one bears, sheared",
        "takes_by": "by which report",
        "on": "they go into",
        "clear": "from the end of the beam to the plate",
        "high": "highest rods, up from the lower edge",
        "in_top_row": "how many are the highest",
    },
    "Anchor": {"manner": "how it holds", "into": "fastened to", "fastener": "fastener", "holes": "where the holes are"},
    "Cut": {
        "at": "middle of the cut, from the left end",
        "depth": "how deep",
        "length": "how long",
        "face": "cut from the",
    },
}

# what was found on a timber, in the words of the printed form; what moves
_SURVEY: Mapping[str, Mapping[str, str]] = {
    "Survey": {
        "by": "who looks, and on which day", "length": "length over all", "species_by": "how the species is known",
        "stations": "sections: least of each side", "meter": "kind of moisture meter", "readings": "moisture readings",
        "grain": "slope of grain, two faces", "knots": "knots, the worst", "openings": "checks, shakes and splits",
        "heart_checks": "checks from the heart", "losses": "wood that is gone", "cuts": "old mortises, notches, holes",
        "crushed": "a seat is pressed in by", "chemicals": "salt, acid, white fuzz",
        "overload": "wrinkles on top, splinters below", "sag": "the middle hangs by", "use": "what is meant to change",
        "not_seen": "not seen", "rejected": "a written no", "sag_test": "a known weight in the middle",
        "weighing": "on a scale",
    },
    "Knot": {"place": "edge or center", "width": "across the face", "face": "face"},
    "Grain": {"one_in": "grain runs 1 in", "face": "face"},
    "Opening": {"start": "from", "end": "to", "depth": "feeler goes in", "other_side": "the one opposite",
                "at_bolts": "through bolts or pegs"},
    "Loss": {"what": "what", "start": "from", "end": "to", "where": "face or corner", "depth": "to sound wood"},
    "Reading": {"moisture": "reading", "deep": "pins deep", "near": "near"},
    "Movement": {"kind": "what has to have room", "on": "the piece it is on", "species": "wood that moves",
                 "across": "size across the grain", "way": "rings", "built_at": "moisture when it is put up",
                 "fixed": "fixed at", "room": "gap, slot or reveal", "lap": "it laps over", "accepted": "accepted by"},
    "SagTest": {"span": "span", "weight": "weight on it", "weight_off": "weight, give or take",
                "sag": "the middle came down", "supports_sank": "both supports sank, mean",
                "sag_off": "reading, give or take", "came_back": "it came back"},
}  # fmt: skip

FIRST: Mapping[str, tuple[str, ...]] = {
    "About": ("title", "address", "author", "date", "local_code", "ground_snow", "wind_speed", "wind_by", "invented"),
    "Survey": ("length", "by", "species_by"),
    "Station": ("at", "breadth", "depth"),
    "Reading": ("at", "moisture", "deep", "near"),
    "Knot": ("at", "face", "place", "width", "sound"),
    "Opening": ("kind", "start", "end", "depth", "other_side", "at_bolts"),
    "Loss": ("what", "where", "start", "end", "depth"),
    "SagTest": ("span", "weight", "weight_off", "sag", "supports_sank", "sag_off", "came_back"),
    "Weighing": ("weight", "weight_off", "length", "breadth", "depth", "moisture"),
    "Movement": ("kind", "on", "species", "across", "way", "built_at", "fixed", "room", "lap"),
    "Stock": ("size", "species", "grade", "grade_from", "evidence", "moisture", "measured_moisture"),
    "Beam": ("clear", "supports", "carries", "top_held", "finish", "service"),
    "Support": ("on", "bearing", "restrained"),
    "Load": ("what", "dead", "live", "width", "applied"),
    "Post": ("height", "on", "carries", "base_restraint", "top_restraint"),
    "Rafter": ("run", "slope", "spacing", "wall", "ridge", "ridge_on", "carries", "top_held", "finish"),
    "Tie": ("height", "end_connection", "carries", "top_held", "finish"),
    "Frame": ("kind", "span", "rise", "spacing", "members", "feet", "upright_by", "finish"),
    "FrameMember": ("name", "stock", "carries", "top_held"),
    "FrameFoot": ("at", "on", "bearing", "slides"),
    "FrameForce": ("what", "at", "dead", "snow"),
    "Existing": ("name", "what", "material", "confirmed_by", "takes"),
    "Bracket": ("role", "on", "at", "shape", "near", "carries", "fixings"),
    "Trim": ("what", "on", "role", "weight", "hangs", "fixings"),
    "Joint": ("kind", "frame", "at", "post", "members", "fastener", "step", "tenon", "strap", "base", "rating"),
    "Member": ("name", "part", "stock", "direction", "holes", "plate", "forces"),
    "Anchor": ("manner", "into", "fastener", "holes", "plate", "rating", "split"),
    "Near": ("beam", "at", "gap"),
    "Cut": ("kind", "at", "length", "depth", "face", "from_bottom"),
    "Fastener": ("kind", "size", "length", "steel"),
    "Holes": ("rows", "columns", "spacing", "row_spacing", "end", "edge"),
}

# the head under which fields of a piece stand; what is not here is under the last
SECTIONS: Mapping[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    "Beam": (
        ("Where it spans", ("clear", "length", "supports")),
        ("What it carries", ("carries",)),
        ("What holds it, what hangs on it", ("top_held", "finish", "service")),
    ),
    "Rafter": (
        ("Its roof", ("run", "slope", "spacing", "wall", "ridge", "ridge_on")),
        ("What it carries", ("carries",)),
        ("What holds it, what hangs on it", ("top_held", "finish")),
    ),
    "Tie": (
        ("Where it is", ("height", "end_connection")),
        ("What it carries", ("carries",)),
        ("What holds it, what hangs on it", ("top_held", "finish")),
    ),
    "Post": (
        ("Where it stands", ("height", "on", "base_restraint", "top_restraint")),
        ("What it carries", ("carries",)),
    ),
    "Bracket": (
        ("What it is", ("role", "on", "at")),
        ("Its shape", ("shape",)),
        ("What is above it", ("near",)),
        ("What it carries", ("carries",)),
        ("What fixes it", ("fixings",)),
    ),
    "Anchor": (
        ("What holds", ("manner", "into", "fastener", "plate", "rating", "split")),
        ("Where the holes are", ("holes",)),
    ),
    "Frame": (
        ("Its form", ("kind", "span", "rise", "height", "spacing", "points")),
        ("Its members and what they carry", ("members", "carries")),
        ("What it stands on, what holds it", ("feet", "upright_by", "sway_held_by", "finish")),
    ),
    "Survey": (
        ("1  Which timber, and who looks", ("by", "length", "species_by")),
        ("2  Size: least of each side, sound wood", ("stations", "sag")),
        ("3  Moisture", ("meter", "readings")),
        ("4  Grain and knots", ("grain", "knots")),
        ("5  Checks, shakes and splits", ("openings", "heart_checks")),
        ("6  Wood that is gone, and old cuts", ("losses", "cuts")),
        (
            "7  Decay, insects, metal, signs",
            ("decay", "insects", "metal", "crushed", "fire", "chemicals", "overload", "use"),
        ),
        ("8  What was not seen, and photographs", ("not_seen", "photographs", "rejected")),
        ("9  Tests, if any: stiffness and weight, never strength", ("sag_test", "weighing")),
    ),
    "Trim": (
        ("What it is", ("what", "on", "role", "weight", "hangs")),
        ("What is above it", ("near",)),
        ("What fixes it", ("fixings",)),
    ),
}

IN_FEET = frozenset(
    (
        "at",
        "clear",
        "length",
        "height",
        "run",
        "span",
        "rise",
        "from",
        "to",
        "lands_at",
        "lands_from",
        "lands_to",
        "start",
        "end",
        "braced_strong",
        "braced_weak",
        "width",
    )
)
CLASSES_IN_FEET = frozenset(
    (
        "Survey",
        "Station",
        "Reading",
        "Knot",
        "Opening",
        "Loss",
        "Weighing",
        "Beam",
        "Support",
        "Load",
        "Post",
        "Rafter",
        "Tie",
        "Frame",
    )
)
OF_NAMES = {
    "stock": "sticks", "on": "places", "into": "places", "ridge_on": "places", "held_by": "anchors", "beam": "places",
    "tie": "places", "other_wall": "places", "species": "woods", "grade": "grades", "room": "rooms",
}  # fmt: skip
KINDS = {
    "job": "the job", "stock": "stick", "beam": "beam", "rafter": "rafter", "tie": "tie", "post": "post",
    "frame": "frame or truss", "existing": "wall, footing or other support", "anchor": "what holds an end",
    "joint": "joint of members", "bracket": "bracket", "trim": "trim", "movement": "part that moves",
    "roof": "roof of the place", "floor": "floor of the place",
}  # fmt: skip


def in_feet(cls: str, field: str) -> bool:
    """Whether a length is one of feet and inches: along a piece, not across it."""
    return field in IN_FEET and cls in CLASSES_IN_FEET and (cls, field) != ("Knot", "width")


def label(cls: str, field: str) -> str:
    """What a field is called on the page."""
    return (
        LABELS.get(cls, {}).get(field)
        or _SURVEY.get(cls, {}).get(field)
        or LABELS["*"].get(field)
        or field.replace("_", " ")
    )


def known(cls: str, field: str) -> bool:
    """Whether what it is called says enough."""
    return field in LABELS.get(cls, {}) or field in _SURVEY.get(cls, {}) or field in LABELS["*"]

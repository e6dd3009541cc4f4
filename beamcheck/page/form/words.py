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
    },
    "Support": {
        "at": "middle of its seat, from the left end",
        "bearing": "seat, along the piece",
        "restrained": "held against turning over",
        "holds": "how it is held",
        "tied_down": "what ties it down",
        "held_by": "the anchor that holds it",
        "lands_at": "where it lands on the beam below",
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
    },
    "FrameMember": {"name": "member, or sort of members", "through": "through the points", "acts": "it can"},
    "FrameFoot": {"at": "foot", "bearing": "seat, along the span", "slides": "it slides", "slides_by": "who says so"},
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
    "Anchor": {"manner": "how it holds", "into": "fastened to", "fastener": "fastener", "holes": "where the holes are"},
    "Cut": {
        "at": "middle of the cut, from the left end",
        "depth": "how deep",
        "length": "how long",
        "face": "cut from the",
    },
}

FIRST: Mapping[str, tuple[str, ...]] = {
    "About": ("title", "address", "author", "date", "local_code", "ground_snow", "wind_speed", "wind_by", "invented"),
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
    "Anchor": ("manner", "into", "fastener", "holes", "plate", "rating", "split"),
    "Near": ("beam", "at", "gap"),
    "Cut": ("kind", "at", "length", "depth", "face"),
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
        "braced_strong",
        "braced_weak",
        "width",
    )
)
CLASSES_IN_FEET = frozenset(("Beam", "Support", "Load", "Post", "Rafter", "Tie", "Frame"))
OF_NAMES = {
    "stock": "sticks",
    "on": "places",
    "into": "places",
    "ridge_on": "places",
    "held_by": "anchors",
    "beam": "places",
    "tie": "places",
    "other_wall": "places",
    "species": "woods",
    "grade": "grades",
    "room": "rooms",
}
KINDS = {
    "job": "the job",
    "stock": "stick",
    "beam": "beam",
    "rafter": "rafter",
    "tie": "tie",
    "post": "post",
    "frame": "frame or truss",
    "existing": "wall, footing or other support",
    "anchor": "what holds an end",
    "joint": "joint of members",
    "bracket": "bracket",
    "trim": "trim",
}


def label(cls: str, field: str) -> str:
    """What a field is called on the page."""
    return LABELS.get(cls, {}).get(field) or LABELS["*"].get(field) or field.replace("_", " ")


def known(cls: str, field: str) -> bool:
    """Whether what it is called says enough."""
    return field in LABELS.get(cls, {}) or field in LABELS["*"]
